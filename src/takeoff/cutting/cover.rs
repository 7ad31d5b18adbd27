//! Which drums to buy for so much cable, as if it could be cut anywhere.

use super::DrumType;

/// The cheapest drums that hold `need` mm between them, by how many of each
/// type; of equally cheap ones the fewest, then the longest. Their number is
/// at least `count`, and one of them at least `longest` mm long.
///
/// None where there is no drum long enough. Branch and bound on the types,
/// cheapest by the metre first: what is still needed costs at least that rate.
pub(super) fn cheapest(
    drums: &[DrumType],
    need: i64,
    count: i64,
    longest: i64,
) -> Option<(i64, Vec<i64>)> {
    if need <= 0 && count <= 0 && longest <= 0 {
        return Some((0, vec![0; drums.len()]));
    }
    let forced = (0..drums.len()).filter(|at| drums[*at].length >= longest);
    let mut best: Option<Best> = None;
    for at in forced {
        let mut cover = Cover::new(drums, best.take());
        cover.taken[at] = 1;
        let drum = drums[at];
        cover.branch(0, need - drum.length, count - 1, drum.price, drum.length);
        best = cover.best;
    }
    best.map(|best| (best.price, best.taken))
}

/// How much cable so much money buys at most.
pub(super) fn most_within(drums: &[DrumType], budget: i64) -> i64 {
    if budget <= 0 {
        return 0;
    }
    let order = by_rate(drums);
    let mut best = 0;
    let mut nodes = NODES;
    within(drums, &order, budget, 0, &mut best, &mut nodes);
    if nodes > 0 {
        return best;
    }
    // Given up: what the best rate would buy is still no less.
    let most = drums.iter().map(|drum| of_rate(drum.length, budget, drum.price)).max();
    most.unwrap_or(0)
}

/// Every length of drums that so much money buys, the shortest first; None
/// where there are very many.
pub(super) fn lengths_within(drums: &[DrumType], budget: i64) -> Option<Vec<i64>> {
    let mut lengths = std::collections::BTreeSet::from([(0, 0)]);
    for drum in drums {
        let so_far: Vec<(i64, i64)> = lengths.iter().copied().collect();
        for (length, price) in so_far {
            for count in 1..=(budget - price).max(0).div_euclid(drum.price) {
                lengths.insert((length + count * drum.length, price + count * drum.price));
                if lengths.len() > LENGTHS {
                    return None;
                }
            }
        }
    }
    let mut lengths: Vec<i64> = lengths.into_iter().map(|(length, _)| length).collect();
    lengths.dedup();
    Some(lengths)
}

/// So many lengths are listed at most.
const LENGTHS: usize = 4000;

/// After so many branches a bound takes the place of the answer.
const NODES: u32 = 200_000;

fn within(
    drums: &[DrumType],
    order: &[usize],
    budget: i64,
    length: i64,
    best: &mut i64,
    nodes: &mut u32,
) {
    *best = length.max(*best);
    let Some((at, rest)) = order.split_first() else { return };
    let drum = drums[*at];
    if *nodes == 0 || length + of_rate(drum.length, budget, drum.price) <= *best {
        return;
    }
    *nodes -= 1;
    for count in (0..=budget.div_euclid(drum.price)).rev() {
        let (left, long) = (budget - count * drum.price, length + count * drum.length);
        within(drums, rest, left, long, best, nodes);
    }
}

/// `length` per `price`, for a budget, rounded up.
fn of_rate(length: i64, budget: i64, price: i64) -> i64 {
    let exact = i128::from(length) * i128::from(budget);
    let price = i128::from(price.max(1));
    i64::try_from((exact + price - 1).div_euclid(price)).unwrap_or(i64::MAX)
}

/// The types, cheapest by the metre first.
fn by_rate(drums: &[DrumType]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..drums.len()).collect();
    order.sort_by(|a, b| {
        let (a, b) = (drums[*a], drums[*b]);
        let rate =
            |one: DrumType, other: DrumType| i128::from(one.price) * i128::from(other.length);
        rate(a, b).cmp(&rate(b, a)).then(b.length.cmp(&a.length))
    });
    order
}

struct Best {
    price: i64,
    count: i64,
    length: i64,
    taken: Vec<i64>,
}

struct Cover<'a> {
    drums: &'a [DrumType],
    order: Vec<usize>,
    taken: Vec<i64>,
    best: Option<Best>,
    nodes: u32,
}

impl<'a> Cover<'a> {
    fn new(drums: &'a [DrumType], best: Option<Best>) -> Self {
        Self { drums, order: by_rate(drums), taken: vec![0; drums.len()], best, nodes: NODES }
    }

    fn branch(&mut self, depth: usize, need: i64, count: i64, price: i64, length: i64) {
        if need <= 0 && count <= 0 {
            return self.offer(price, length);
        }
        let Some(at) = self.order.get(depth).copied() else { return };
        let drum = self.drums[at];
        let rest = price + of_rate(drum.price, need.max(0), drum.length);
        if self.nodes == 0 || self.best.as_ref().is_some_and(|best| rest > best.price) {
            return;
        }
        self.nodes -= 1;
        let most =
            need.max(0).div_euclid(drum.length) + i64::from(need.rem_euclid(drum.length) > 0);
        for more in (0..=most.max(count)).rev() {
            self.taken[at] += more;
            let (price, length) = (price + more * drum.price, length + more * drum.length);
            self.branch(depth + 1, need - more * drum.length, count - more, price, length);
            self.taken[at] -= more;
        }
    }

    fn offer(&mut self, price: i64, length: i64) {
        let count = self.taken.iter().sum();
        let better = self
            .best
            .as_ref()
            .is_none_or(|best| (price, count, -length) < (best.price, best.count, -best.length));
        if better {
            self.best = Some(Best { price, count, length, taken: self.taken.clone() });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const DRUMS: [DrumType; 3] = [
        DrumType { length: 100, price: 110 },
        DrumType { length: 50, price: 60 },
        DrumType { length: 25, price: 31 },
    ];

    /// Every set of up to ten of each type.
    fn all() -> impl Iterator<Item = (i64, i64, [i64; 3])> {
        (0..11_i64.pow(3)).map(|set| {
            let counts = [set % 11, set.div_euclid(11) % 11, set.div_euclid(121)];
            let sum = |of: fn(&DrumType) -> i64| -> i64 {
                DRUMS.iter().zip(counts).map(|(drum, count)| of(drum) * count).sum()
            };
            (sum(|drum| drum.price), sum(|drum| drum.length), counts)
        })
    }

    #[test]
    fn the_cheapest_cover_is_that_of_trying_everything() {
        for (need, count, longest) in [
            (1, 0, 0),
            (51, 0, 0),
            (149, 0, 0),
            (175, 0, 0),
            (160, 4, 0),
            (30, 0, 60),
            (301, 2, 90),
        ] {
            let fits = |counts: &[i64; 3]| {
                let long = DRUMS.iter().zip(counts).any(|(it, n)| *n > 0 && it.length >= longest);
                counts.iter().sum::<i64>() >= count && long
            };
            let expect = all()
                .filter(|(_, length, counts)| *length >= need && fits(counts))
                .map(|(price, _, _)| price)
                .min();
            let found = cheapest(&DRUMS, need, count, longest).map(|(price, _)| price);
            assert_eq!(found, expect, "{need} mm, {count} drums, one of {longest}");
        }
    }

    #[test]
    fn money_buys_no_more_than_trying_everything_finds() {
        for budget in [0, 30, 31, 59, 60, 91, 140, 230, 345] {
            let affordable = all().filter(|(price, _, _)| *price <= budget);
            let expect = affordable.map(|(_, length, _)| length).max().unwrap_or(0);
            assert_eq!(most_within(&DRUMS, budget), expect, "{budget} cents");
            let mut lengths: Vec<i64> =
                all().filter(|it| it.0 <= budget).map(|(_, length, _)| length).collect();
            lengths.sort_unstable();
            lengths.dedup();
            assert_eq!(lengths_within(&DRUMS, budget), Some(lengths), "{budget} cents");
        }
    }
}

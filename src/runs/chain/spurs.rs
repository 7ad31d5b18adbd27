//! Points that hang off others instead of lying in the chain.
//!
//! A spur is one point fed from one point of the trunk. Each point of the
//! trunk feeds at most one spur, a spur feeds nothing, and nothing but the
//! trunk leaves the board.

use super::dice::Dice;
use super::exact_spurs;
use super::grove::Grove;
use super::prescribed::Before;
use super::sub_path::SubPath;
use super::{Effort, Matrix, NoOrder, Prescribed, Shape, arrange, free_ends, total};
use crate::runs::OrderMethod;
use crate::units::{Cost, Mm};

/// A trunk and its spurs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hung {
    /// The ends of the trunk, from the board (0) on; a ring does not repeat
    /// the board.
    pub trunk: Vec<usize>,
    /// Points and the points of the trunk that feed them, in trunk order.
    pub spurs: Vec<(usize, usize)>,
    /// The costs of all legs added up.
    pub cost: Cost,
    /// Their lengths added up.
    pub length: Mm,
    /// [`OrderMethod::Exact`], [`OrderMethod::Fixed`] where nothing was left
    /// to choose, or else [`OrderMethod::Improved`], for which there is no bound.
    pub method: OrderMethod,
}

/// Orders the ends of a matrix and hangs points as spurs where that is
/// cheaper, or as cheap and shorter.
///
/// The ends of `fixed_prefix` stay in the trunk, in their order, and feed no
/// spurs. Up to `effort.exact_up_to` further points every set is looked at.
/// Beyond, the best chain is improved: a point of the trunk is hung on another,
/// a spur is hung elsewhere, put back or exchanged with the point that
/// feeds it, a part of the trunk is turned, until nothing helps; it is shaken
/// a few times, and the trunk ordered anew. The outcome is never dearer than
/// the chain.
///
/// # Errors
/// [`NoOrder`] as for [`super::order`]. Beyond the exact size a chain of all
/// ends must exist, even where spurs could do without one of its legs.
pub fn hang(
    matrix: &Matrix,
    shape: Shape,
    fixed_prefix: &[usize],
    effort: &Effort,
) -> Result<Hung, NoOrder> {
    hang_within(matrix, shape, &Trunk { first: fixed_prefix, ..Trunk::default() }, effort)
}

/// What is prescribed of a trunk and its spurs.
#[derive(Clone, Copy, Debug, Default)]
pub struct Trunk<'a> {
    /// The ends that follow the board, in order; they feed no spurs.
    pub first: &'a [usize],
    /// Pairs of ends of which the former stands on the way from the board to
    /// the latter.
    pub before: &'a [(usize, usize)],
    /// Ends that stay in the trunk and feed no spurs.
    pub bare: &'a [usize],
}

/// The same, within all that is prescribed.
///
/// # Errors
/// [`NoOrder`] as for [`super::order_within`].
pub fn hang_within(
    matrix: &Matrix,
    shape: Shape,
    asked: &Trunk<'_>,
    effort: &Effort,
) -> Result<Hung, NoOrder> {
    let fixed_prefix = asked.first;
    let free = free_ends(matrix, fixed_prefix)?;
    let prescribed =
        Prescribed { first: fixed_prefix.to_vec(), last: None, before: asked.before.to_vec() };
    let before = prescribed.left(matrix, &free)?;
    let place = |end: &usize| free.binary_search(end).ok().map(|at| at + 1);
    let bare: Vec<usize> = asked.bare.iter().filter_map(place).collect();
    let start = fixed_prefix.last().copied().unwrap_or(0);
    let sub_path = SubPath::new(matrix, shape, start, &free).with_spurs(matrix, before);
    let exact = free.len() <= effort.exact_up_to.min(exact_spurs::POINTS_MAX);
    let grove = if free.is_empty() {
        Grove::chain(&[], 0)
    } else if exact {
        exact_spurs::best(&sub_path, &bare)
    } else {
        improve(matrix, shape, (start, &free), &sub_path, &bare, effort)?
    };
    let mut trunk = vec![0];
    trunk.extend_from_slice(fixed_prefix);
    let weight = total(matrix, &trunk) + grove.weight(&sub_path);
    if weight >= matrix.missing() {
        return Err(NoOrder::NoneExists);
    }
    trunk.extend(grove.trunk.iter().map(|point| free[point - 1]));
    let fed = |from: &usize| grove.feeds[*from].map(|point| (free[point - 1], free[from - 1]));
    let spurs = grove.trunk.iter().filter_map(fed).collect();
    let method = match (exact, free.is_empty() && !fixed_prefix.is_empty()) {
        (_, true) => OrderMethod::Fixed,
        (true, _) => OrderMethod::Exact,
        _ => OrderMethod::Improved,
    };
    let all = matrix.distance(weight);
    Ok(Hung { trunk, spurs, cost: all.cost, length: all.length, method })
}

/// A change of a trunk and its spurs; places are places in the trunk.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Move {
    /// The point at a place is hung on a point.
    Hang { place: usize, on: usize },
    /// The spur of a point is hung on another.
    Rehang { from: usize, on: usize },
    /// The spur of a point goes into the trunk, before a place.
    PutBack { from: usize, before: usize },
    /// A point of the trunk and its spur change parts.
    Exchange { place: usize },
    /// A part of the trunk is turned about.
    Turn { first: usize, last: usize },
}

impl Grove {
    fn before(&self, place: usize) -> usize {
        if place == 0 { 0 } else { self.trunk[place - 1] }
    }

    fn from(&self, place: usize, sub_path: &SubPath) -> usize {
        self.trunk.get(place).copied().unwrap_or(sub_path.finish())
    }

    /// What `point` adds to the trunk between two of its ends.
    fn detour(sub_path: &SubPath, before: usize, point: usize, after: usize) -> i64 {
        sub_path.weight(before, point) + sub_path.weight(point, after)
            - sub_path.weight(before, after)
    }

    /// Every change, with what it takes off the weight.
    fn moves(&self, sub_path: &SubPath) -> Vec<(i64, Move)> {
        let mut moves = Vec::new();
        for place in 0..self.trunk.len() {
            if self.feeds[self.trunk[place]].is_some() {
                self.moves_of_spur(sub_path, place, &mut moves);
            } else {
                self.moves_of_point(sub_path, place, &mut moves);
            }
            self.turns(sub_path, place, &mut moves);
        }
        moves
    }

    /// Points of the trunk that could feed a spur now on, or now in place of, `at`.
    fn hosts(&self, at: usize) -> impl Iterator<Item = usize> {
        let free =
            move |on: &usize| *on != at && self.feeds[*on].is_none() && !self.bare.contains(on);
        self.trunk.iter().copied().filter(free)
    }

    fn moves_of_spur(&self, sub_path: &SubPath, place: usize, moves: &mut Vec<(i64, Move)>) {
        let from = self.trunk[place];
        let Some(spur) = self.feeds[from] else { return };
        let (before, after) = (self.before(place), self.from(place + 1, sub_path));
        let around = |point| sub_path.weight(before, point) + sub_path.weight(point, after);
        moves.push((around(from) - around(spur), Move::Exchange { place }));
        let freed = sub_path.weight(from, spur);
        let rehang = |on| (freed - sub_path.weight(on, spur), Move::Rehang { from, on });
        moves.extend(self.hosts(from).map(rehang));
        moves.extend((0..=self.trunk.len()).map(|next| {
            let (left, right) = (self.before(next), self.from(next, sub_path));
            let taken = Self::detour(sub_path, left, spur, right);
            (freed - taken, Move::PutBack { from, before: next })
        }));
    }

    fn moves_of_point(&self, sub_path: &SubPath, place: usize, moves: &mut Vec<(i64, Move)>) {
        let at = self.trunk[place];
        if self.bare.contains(&at) {
            return;
        }
        let (before, after) = (self.before(place), self.from(place + 1, sub_path));
        let freed = Self::detour(sub_path, before, at, after);
        let hang = |on| (freed - sub_path.weight(on, at), Move::Hang { place, on });
        moves.extend(self.hosts(at).map(hang));
    }

    fn turns(&self, sub_path: &SubPath, first: usize, moves: &mut Vec<(i64, Move)>) {
        let (before, a) = (self.before(first), self.trunk[first]);
        moves.extend((first + 1..self.trunk.len()).map(|last| {
            let (z, after) = (self.trunk[last], self.from(last + 1, sub_path));
            let gain = sub_path.weight(before, a) + sub_path.weight(z, after)
                - sub_path.weight(before, z)
                - sub_path.weight(a, after);
            (gain, Move::Turn { first, last })
        }));
    }

    fn apply(&mut self, change: Move) {
        match change {
            Move::Hang { place, on } => self.feeds[on] = Some(self.trunk.remove(place)),
            Move::Rehang { from, on } => self.feeds[on] = self.feeds[from].take(),
            Move::PutBack { from, before } => {
                if let Some(spur) = self.feeds[from].take() {
                    self.trunk.insert(before, spur);
                }
            }
            Move::Exchange { place } => {
                let at = self.trunk[place];
                if let Some(spur) = self.feeds[at].take() {
                    self.trunk[place] = spur;
                    self.feeds[spur] = Some(at);
                }
            }
            Move::Turn { first, last } => self.trunk[first..=last].reverse(),
        }
    }

    /// What must come first within the trunk: what is prescribed there, and of
    /// spurs for the points that feed them.
    fn in_trunk(&self, sub_path: &SubPath) -> Before {
        let before = sub_path.before();
        let place = |point: usize| self.trunk.iter().position(|other| *other == point);
        let host = |point: usize| self.trunk.iter().position(|on| self.feeds[*on] == Some(point));
        let through = |(from, to): &(usize, usize)| {
            let (from, host) = (place(*from)?, host(*to)?);
            (from != host).then_some((from + 1, host + 1))
        };
        let more: Vec<(usize, usize)> = before.pairs().iter().filter_map(through).collect();
        before.among(&self.trunk).with(self.trunk.len(), &more)
    }

    /// Whether what must stand on the way to others does.
    fn stands(&self, sub_path: &SubPath) -> bool {
        let before = sub_path.before();
        if before.is_empty() {
            return true;
        }
        let place = |point: usize| self.trunk.iter().position(|other| *other == point);
        let host = |point: usize| self.trunk.iter().position(|on| self.feeds[*on] == Some(point));
        before.pairs().iter().all(|(from, to)| match (place(*from), place(*to), host(*to)) {
            (Some(from), Some(to), _) => from < to,
            (Some(from), None, Some(host)) => from <= host,
            _ => false,
        })
    }

    /// Applies a change, unless something must not stand where it would.
    fn try_apply(&mut self, sub_path: &SubPath, change: Move) -> bool {
        if sub_path.before().is_empty() {
            self.apply(change);
            return true;
        }
        let mut changed = self.clone();
        changed.apply(change);
        let stands = changed.stands(sub_path);
        if stands {
            *self = changed;
        }
        stands
    }

    /// Applies the best change until none helps.
    fn settle(&mut self, sub_path: &SubPath) {
        loop {
            let mut moves = self.moves(sub_path);
            moves.retain(|(gain, _)| *gain > 0);
            // From the best on, until one is possible: without anything that must
            // come first that is the best.
            moves.sort_by_key(|(gain, change)| (std::cmp::Reverse(*gain), *change));
            if !moves.into_iter().any(|(_, change)| self.try_apply(sub_path, change)) {
                return;
            }
        }
    }

    /// Makes a few changes by chance and settles, and so again; what turns out
    /// heavier is forgotten.
    fn shake(&mut self, sub_path: &SubPath, times: u32) {
        let mut dice = Dice::new();
        for _ in 0..times {
            let mut shaken = self.clone();
            for _ in 0..SHAKEN {
                let moves = shaken.moves(sub_path);
                if let Some((_, change)) = moves.get(dice.below(moves.len())) {
                    shaken.try_apply(sub_path, *change);
                }
            }
            shaken.settle(sub_path);
            if shaken.weight(sub_path) <= self.weight(sub_path) {
                *self = shaken;
            }
        }
    }
}

/// So many changes are hard to undo one by one, and leave most as it was.
const SHAKEN: usize = 3;

/// A shake looks at all pairs of points several times: about as much work as
/// fifty kicks of a chain of twenty points.
fn shakes(points: usize, effort: &Effort) -> u32 {
    let pairs = u32::try_from(points * points).unwrap_or(u32::MAX);
    effort.kicks.saturating_mul(40).div_euclid(pairs.max(1))
}

fn improve(
    matrix: &Matrix,
    shape: Shape,
    (start, free): (usize, &[usize]),
    sub_path: &SubPath,
    bare: &[usize],
    effort: &Effort,
) -> Result<Grove, NoOrder> {
    let before = sub_path.before().clone();
    let plain = SubPath::new(matrix, shape, start, free).in_chain(matrix, before);
    let mut grove = Grove::chain(&arrange(matrix, &plain, effort)?.order, free.len());
    grove.bare = bare.to_vec();
    loop {
        let before = grove.weight(sub_path);
        grove.settle(sub_path);
        grove.shake(sub_path, shakes(free.len(), effort));
        let ends: Vec<usize> = grove.trunk.iter().map(|point| free[point - 1]).collect();
        let trunk = SubPath::new(matrix, shape, start, &ends);
        let trunk = trunk.in_chain(matrix, grove.in_trunk(sub_path));
        let found = arrange(matrix, &trunk, effort)?;
        if found.weight < sub_path.total(&grove.trunk) {
            grove.trunk = found.order.iter().map(|place| grove.trunk[place - 1]).collect();
        }
        if grove.weight(sub_path) >= before {
            return Ok(grove);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::runs::chain::tests::{scattered, with_gaps, within};
    use crate::runs::chain::{Ordered, order};

    /// Every trunk with every choice of spurs, one after another.
    fn brute(matrix: &Matrix, shape: Shape, at: usize, left: &[usize]) -> i64 {
        if left.is_empty() {
            return if shape == Shape::Closed { matrix.weight(at, 0) } else { 0 };
        }
        let mut least = i64::MAX;
        for next in left.iter().copied() {
            let others: Vec<usize> = left.iter().copied().filter(|end| *end != next).collect();
            let leg = matrix.weight(at, next);
            least = least.min(leg + brute(matrix, shape, next, &others));
            for spur in others.iter().copied() {
                let rest: Vec<usize> = others.iter().copied().filter(|end| *end != spur).collect();
                let both = leg + matrix.weight(next, spur);
                least = least.min(both + brute(matrix, shape, next, &rest));
            }
        }
        least
    }

    /// Adds up what is there, and asks whether it keeps the rules.
    fn judge(matrix: &Matrix, shape: Shape, hung: &Hung) -> i64 {
        let mut ends = hung.trunk.clone();
        ends.extend(hung.spurs.iter().map(|(point, _)| *point));
        ends.sort_unstable();
        assert_eq!(ends, (0..matrix.count()).collect::<Vec<_>>(), "every end once");
        let mut from: Vec<usize> = hung.spurs.iter().map(|(_, from)| *from).collect();
        assert!(from.iter().all(|end| *end != 0 && hung.trunk.contains(end)), "fed by the trunk");
        from.sort_unstable();
        assert!(from.windows(2).all(|pair| pair[0] != pair[1]), "one spur each");
        let mut legs: Vec<(usize, usize)> = hung.trunk.windows(2).map(|p| (p[0], p[1])).collect();
        legs.extend(&hung.spurs);
        if shape == Shape::Closed {
            legs.push((*hung.trunk.last().unwrap(), 0));
        }
        let weight = legs.iter().map(|(a, b)| matrix.weight(*a, *b)).sum();
        let all = matrix.distance(weight);
        assert_eq!((all.cost, all.length), (hung.cost, hung.length), "it adds up");
        weight
    }

    #[test]
    fn a_point_off_the_straight_way_becomes_a_spur() {
        // On one line: board 0, points at 3, 9 and 20; a fourth 4 beside the
        // point at 9. Chain 0-3-9-(4)-20 costs 3 + 6 + 4 + 15 = 28; the fourth as
        // a spur: 3 + 6 + 11 + 4 = 24.
        let places: [(i64, i64); 5] = [(0, 0), (3, 0), (9, 0), (20, 0), (9, 4)];
        let matrix = within(&places);
        let effort = Effort::default();
        let chain: Ordered = order(&matrix, Shape::Open, &[], &effort).unwrap();
        assert_eq!(chain.cost, Cost::new(28), "all in the chain");
        let hung = hang(&matrix, Shape::Open, &[], &effort).unwrap();
        assert_eq!(hung.cost, Cost::new(24), "by hand");
        assert_eq!((hung.trunk, hung.spurs), (vec![0, 1, 2, 3], vec![(4, 2)]), "by hand");
    }

    #[test]
    fn no_choice_of_spurs_is_better_up_to_seven_points() {
        for case in 0..24 {
            for points in 1..=6 + usize::from(case == 0) {
                for shape in [Shape::Open, Shape::Closed] {
                    let matrix = if case % 3 == 2 {
                        with_gaps(points, case)
                    } else {
                        scattered(points, case, if case % 3 == 0 { 1000 } else { 4 })
                    };
                    let left: Vec<usize> = (1..=points).collect();
                    let least = brute(&matrix, shape, 0, &left);
                    let result = hang(&matrix, shape, &[], &Effort::default());
                    if least >= matrix.missing() {
                        assert_eq!(result, Err(NoOrder::NoneExists), "case {case}, {points}");
                        continue;
                    }
                    let hung = result.unwrap();
                    let weight = judge(&matrix, shape, &hung);
                    assert_eq!(weight, least, "case {case}, {points}, {shape:?}");
                    assert_eq!(hung.method, OrderMethod::Exact, "every set");
                }
            }
        }
    }

    #[test]
    fn improved_spurs_lie_between_the_best_and_the_chain() {
        let effort = Effort { exact_up_to: 0, ..Effort::default() };
        let mut excess = Vec::new();
        for case in 0..20 {
            for shape in [Shape::Open, Shape::Closed] {
                let matrix = scattered(9, case, 1000);
                let chain = order(&matrix, shape, &[], &effort).unwrap();
                let hung = hang(&matrix, shape, &[], &effort).unwrap();
                let best = hang(&matrix, shape, &[], &Effort::default()).unwrap();
                judge(&matrix, shape, &hung);
                assert!(best.cost <= hung.cost && hung.cost <= chain.cost, "case {case}");
                let over = hung.cost.get() - best.cost.get();
                excess.push((over * 1000).div_euclid(best.cost.get()));
            }
        }
        let mean = excess.iter().sum::<i64>().div_euclid(40);
        assert!(mean <= 3, "more than 0.3 % above the best on average: {excess:?}");
    }

    #[test]
    fn a_prescribed_beginning_stays_in_the_trunk() {
        let matrix = within(&[(0, 0), (3, 0), (9, 0), (20, 0), (9, 4)]);
        let hung = hang(&matrix, Shape::Open, &[4, 2], &Effort::default()).unwrap();
        // 13 to the fourth, 4 back, then 3 and 20 in either order, or the point
        // at 3 first with nothing to hang: 6 + 17 = 23, against 11 + 17.
        assert_eq!(hung.trunk[..3], [0, 4, 2], "as prescribed");
        assert_eq!(hung.cost, Cost::new(13 + 4 + 23), "by hand");
        let all = hang(&matrix, Shape::Open, &[1, 2, 4, 3], &Effort::default()).unwrap();
        assert_eq!((all.method, all.spurs), (OrderMethod::Fixed, vec![]), "nothing to choose");
    }
}

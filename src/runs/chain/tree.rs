//! The least tree that joins what an order joins.

/// Larger than any weight with its multipliers, in size: added to the weight
/// of a leg that is barred, taken from one that is required.
pub(super) const SWAY: i64 = 1 << 60;
/// Multipliers stay within this either way, so that sums fit.
pub(super) const MULTIPLIER_MAX: i64 = 1 << 57;

/// Weights for the trees of a sub-path: as its own, or swayed.
#[derive(Clone, Copy, Debug)]
pub(super) struct Weights<'a> {
    /// Row by row, two more to a row than there are points.
    pub(super) flat: &'a [i64],
    pub(super) points: usize,
    /// How many legs are required.
    pub(super) required: usize,
}

/// A tree over start, points and finish in which start and finish have one leg
/// each; and room to work in, so that the next one costs no allocation.
#[derive(Clone, Debug)]
pub(super) struct Tree {
    /// Its legs, as pairs of ends.
    pub(super) legs: Vec<(usize, usize)>,
    /// How many legs each end has.
    pub(super) degrees: Vec<i64>,
    left: Vec<Candidate>,
}

#[derive(Clone, Copy, Debug)]
struct Candidate {
    end: usize,
    joined_to: usize,
    key: i64,
}

impl Tree {
    pub(super) fn new(points: usize) -> Self {
        Self {
            legs: Vec::with_capacity(points + 1),
            degrees: vec![0; points + 2],
            left: Vec::with_capacity(points),
        }
    }

    /// Grows the least tree under the multipliers and returns the bound that
    /// follows: no order weighs less. None: no order obeys the swayed weights.
    ///
    /// Every order is such a tree in which each point has two legs. With a
    /// multiplier `m` at every point, a leg weighs `w + m_i + m_j`; every
    /// order then weighs `2 Σ m` more than before, whatever the multipliers
    /// (Held and Karp 1970), so the least tree less `2 Σ m` is a bound. All of it
    /// is whole, so the bound holds to the last digit.
    pub(super) fn grow(&mut self, weights: Weights<'_>, multipliers: &[i64]) -> Option<i64> {
        self.legs.clear();
        self.degrees.fill(0);
        let mut sum = self.span(weights, multipliers) + self.tie_ends(weights, multipliers);
        let required = self.count(weights, |weight| weight < -MULTIPLIER_MAX);
        let barred = self.count(weights, |weight| weight > SWAY - MULTIPLIER_MAX);
        if barred > 0 || required < weights.required {
            return None;
        }
        sum += i128::try_from(required).ok()? * i128::from(SWAY);
        let doubled: i128 = multipliers.iter().copied().map(i128::from).sum::<i128>() * 2;
        let bound = (sum - doubled).clamp(i128::from(i64::MIN), i128::from(i64::MAX));
        i64::try_from(bound).ok()
    }

    /// Every point has two legs: the tree is an order.
    pub(super) fn is_order(&self) -> bool {
        self.degrees[1..self.degrees.len() - 1].iter().all(|degree| *degree == 2)
    }

    /// The points from start to finish, where the tree is an order.
    pub(super) fn order(&self) -> Vec<usize> {
        let finish = self.degrees.len() - 1;
        let mut beside = vec![[usize::MAX; 2]; self.degrees.len()];
        for (from, to) in &self.legs {
            for (end, other) in [(*from, *to), (*to, *from)] {
                let free = usize::from(beside[end][0] != usize::MAX);
                beside[end][free] = other;
            }
        }
        let (mut before, mut at) = (0, beside[0][0]);
        let mut order = Vec::with_capacity(finish);
        while at != finish {
            order.push(at);
            let next = if beside[at][0] == before { beside[at][1] } else { beside[at][0] };
            (before, at) = (at, next);
        }
        order
    }

    /// The least spanning tree over the points (Prim 1957).
    fn span(&mut self, weights: Weights<'_>, multipliers: &[i64]) -> i128 {
        let size = weights.points + 2;
        self.left.clear();
        self.left.extend((2..=weights.points).map(|end| Candidate {
            end,
            joined_to: 1,
            key: i64::MAX,
        }));
        let (mut at, mut sum) = (1, 0);
        while !self.left.is_empty() {
            let row = &weights.flat[at * size..][..size];
            let own = multipliers[at];
            let (mut least, mut chosen) = (i64::MAX, 0);
            for (index, candidate) in self.left.iter_mut().enumerate() {
                let key = row[candidate.end] + multipliers[candidate.end] + own;
                if key < candidate.key {
                    candidate.key = key;
                    candidate.joined_to = at;
                }
                if candidate.key < least {
                    least = candidate.key;
                    chosen = index;
                }
            }
            let candidate = self.left.swap_remove(chosen);
            self.join(candidate.joined_to, candidate.end);
            sum += i128::from(candidate.key);
            at = candidate.end;
        }
        sum
    }

    /// Ties start and finish to the tree, to two points where there are two.
    fn tie_ends(&mut self, weights: Weights<'_>, multipliers: &[i64]) -> i128 {
        let finish = weights.points + 1;
        let starts = two_least(weights, multipliers, 0);
        let finishes = two_least(weights, multipliers, finish);
        let mut least = (i128::MAX, 0, 0);
        for (first, to_first) in starts.into_iter().flatten() {
            for (last, to_last) in finishes.into_iter().flatten() {
                let both = i128::from(to_first) + i128::from(to_last);
                if (first != last || weights.points == 1) && both < least.0 {
                    least = (both, first, last);
                }
            }
        }
        self.join(0, least.1);
        self.join(finish, least.2);
        least.0
    }

    fn join(&mut self, from: usize, to: usize) {
        self.legs.push((from, to));
        self.degrees[from] += 1;
        self.degrees[to] += 1;
    }

    fn count(&self, weights: Weights<'_>, of: impl Fn(i64) -> bool) -> usize {
        let size = weights.points + 2;
        self.legs.iter().filter(|(from, to)| of(weights.flat[from * size + to])).count()
    }
}

/// The two lightest legs from start or finish to a point: (point, key).
fn two_least(weights: Weights<'_>, multipliers: &[i64], from: usize) -> [Option<(usize, i64)>; 2] {
    let row = &weights.flat[from * (weights.points + 2)..];
    let mut least = [None; 2];
    for point in 1..=weights.points {
        let key = row[point] + multipliers[point];
        if least[0].is_none_or(|(_, first)| key < first) {
            least = [Some((point, key)), least[0]];
        } else if least[1].is_none_or(|(_, second)| key < second) {
            least[1] = Some((point, key));
        }
    }
    least
}

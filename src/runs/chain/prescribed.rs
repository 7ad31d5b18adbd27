//! What an order must keep to, whatever it costs.

use super::{Matrix, NoOrder};

/// What is prescribed of an order.
///
/// ```
/// use wirewend::runs::chain::Prescribed;
///
/// // End 3 follows the board, end 1 comes last, and end 2 before end 4.
/// let prescribed = Prescribed { first: vec![3], last: Some(1), before: vec![(2, 4)] };
/// assert!(prescribed.is_kept(&[0, 3, 2, 4, 1]));
/// assert!(!prescribed.is_kept(&[0, 3, 4, 2, 1]));
/// ```
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Prescribed {
    /// The ends that follow the board, in order.
    pub first: Vec<usize>,
    /// The end that comes last; in a ring, the last before the board again.
    pub last: Option<usize>,
    /// Pairs of ends of which the former comes before the latter, next to it
    /// or not.
    pub before: Vec<(usize, usize)>,
}

impl Prescribed {
    /// Whether an order, from the board on, keeps to it.
    #[must_use]
    pub fn is_kept(&self, sequence: &[usize]) -> bool {
        let place = |end: usize| sequence.iter().position(|other| *other == end);
        let earlier = |(a, b): &(usize, usize)| match (place(*a), place(*b)) {
            (Some(a), Some(b)) => a < b,
            _ => true,
        };
        sequence.iter().skip(1).zip(&self.first).all(|(made, asked)| made == asked)
            && self.last.is_none_or(|last| sequence.last() == Some(&last))
            && self.before.iter().all(earlier)
    }

    /// What is left of it for the free ends, which follow `first`: for every
    /// place in a sub-path the places that come before it.
    pub(super) fn left(&self, matrix: &Matrix, free: &[usize]) -> Result<Before, NoOrder> {
        let count = matrix.count();
        let place = |end: usize| free.binary_search(&end).ok().map(|at| at + 1);
        let mut pairs = Vec::new();
        let last = self.last.filter(|last| self.first.last() != Some(last) || !free.is_empty());
        if let Some(last) = last {
            let Some(at) = place(last) else { return Err(NoOrder::Last(last)) };
            pairs.extend((1..=free.len()).filter(|other| *other != at).map(|other| (other, at)));
        }
        for (a, b) in self.before.iter().copied() {
            let wrong = Err(NoOrder::Contradiction(a, b));
            if a.max(b) >= count || a == b || b == 0 {
                return wrong;
            }
            match (place(a), place(b)) {
                (Some(from), Some(to)) => pairs.push((from, to)),
                (None, Some(_)) => {}
                (Some(_), None) => return wrong,
                (None, None) => {
                    let at = |end: usize| self.first.iter().position(|other| *other == end);
                    if at(a) > at(b) {
                        return wrong;
                    }
                }
            }
        }
        Before::new(free.len(), &pairs)
            .map_err(|(from, to)| NoOrder::Contradiction(free[from - 1], free[to - 1]))
    }
}

/// Which points of a sub-path come before which, all that follows included.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Before {
    /// All pairs, those that follow from others included.
    pairs: Vec<(usize, usize)>,
    /// For every point those that come before it, one bit each, where they are
    /// few enough for that.
    masks: Vec<usize>,
}

impl Before {
    /// Follows the pairs to their ends; where they go in a circle, one of it.
    pub(super) fn new(points: usize, pairs: &[(usize, usize)]) -> Result<Self, (usize, usize)> {
        if pairs.is_empty() {
            return Ok(Self::default());
        }
        let mut earlier = vec![vec![false; points + 1]; points + 1];
        for (from, to) in pairs {
            earlier[*to][*from] = true;
        }
        for middle in 1..=points {
            let through = earlier[middle].clone();
            for row in earlier.iter_mut().filter(|row| row[middle]) {
                row.iter_mut().zip(&through).for_each(|(one, also)| *one |= also);
            }
        }
        if let Some(pair) = pairs.iter().find(|(from, to)| earlier[*from][*to]) {
            return Err(*pair);
        }
        let all = (1..=points).flat_map(|to| (1..=points).map(move |from| (from, to)));
        let pairs: Vec<(usize, usize)> = all.filter(|(from, to)| earlier[*to][*from]).collect();
        let mut masks = vec![0; points + 1];
        for (from, to) in pairs.iter().filter(|(from, _)| *from <= MASKED) {
            masks[*to] |= 1 << (from - 1);
        }
        Ok(Self { pairs, masks })
    }

    /// Nothing is prescribed.
    pub(super) fn is_empty(&self) -> bool {
        self.pairs.is_empty()
    }

    /// All pairs.
    pub(super) fn pairs(&self) -> &[(usize, usize)] {
        &self.pairs
    }

    /// The points that come before a point, one bit each from the first on;
    /// only for sub-paths of at most [`MASKED`] points.
    pub(super) fn mask(&self, point: usize) -> usize {
        self.masks.get(point).copied().unwrap_or(0)
    }

    /// Whether it is kept where points stand at these places.
    pub(super) fn is_kept(&self, place: impl Fn(usize) -> usize) -> bool {
        self.pairs.iter().all(|(from, to)| place(*from) < place(*to))
    }

    /// The first pair that an order does not keep.
    pub(super) fn broken(&self, order: &[usize]) -> Option<(usize, usize)> {
        let mut places = vec![0; order.len() + 1];
        for (place, point) in order.iter().enumerate() {
            places[*point] = place;
        }
        self.pairs.iter().copied().find(|(from, to)| places[*from] > places[*to])
    }

    /// The points that must come before others.
    pub(super) fn leads(&self, point: usize) -> bool {
        self.pairs.iter().any(|(from, _)| *from == point)
    }

    /// The points that must come after others.
    pub(super) fn follows(&self, point: usize) -> bool {
        self.pairs.iter().any(|(_, to)| *to == point)
    }

    /// Legs that no order can have: between two with a third in between.
    pub(super) fn skipping(&self) -> Vec<(usize, usize)> {
        let is_before = |from: usize, to: usize| {
            self.pairs.binary_search_by_key(&(to, from), |(from, to)| (*to, *from)).is_ok()
        };
        let between = |from: usize, to: usize| {
            let its = self.pairs.iter().filter(|(_, later)| *later == to);
            its.clone().any(|(middle, _)| is_before(from, *middle))
        };
        self.pairs.iter().copied().filter(|(from, to)| between(*from, *to)).collect()
    }

    /// What is left of it for some of the points, which are renumbered in their
    /// order.
    pub(super) fn among(&self, points: &[usize]) -> Self {
        if self.is_empty() {
            return Self::default();
        }
        let place = |point: usize| points.iter().position(|other| *other == point).map(|at| at + 1);
        let pairs: Vec<(usize, usize)> =
            self.pairs.iter().filter_map(|(a, b)| Some((place(*a)?, place(*b)?))).collect();
        Self::new(points.len(), &pairs).unwrap_or_default()
    }

    /// The same with further pairs.
    pub(super) fn with(&self, points: usize, more: &[(usize, usize)]) -> Self {
        let pairs: Vec<(usize, usize)> = self.pairs.iter().chain(more).copied().collect();
        Self::new(points, &pairs).unwrap_or_default()
    }
}

/// More points than these have no bits.
const MASKED: usize = 16;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_follows_from_pairs_is_known_and_a_circle_is_refused() {
        let before = Before::new(4, &[(1, 2), (2, 3)]).unwrap();
        assert_eq!(before.pairs(), [(1, 2), (1, 3), (2, 3)], "and so 1 before 3");
        assert_eq!(before.skipping(), [(1, 3)], "2 stands between them");
        assert_eq!((before.mask(3), before.mask(4)), (0b11, 0), "1 and 2 before 3");
        assert_eq!(before.broken(&[1, 4, 3, 2]), Some((2, 3)), "3 before 2");
        assert_eq!(before.broken(&[1, 2, 4, 3]), None, "kept");
        assert!(before.leads(2) && before.follows(2) && !before.leads(4), "in the middle");
        assert!(Before::new(3, &[(1, 2), (2, 3), (3, 1)]).is_err(), "a circle");
        assert_eq!(before.among(&[3, 1]).pairs(), [(2, 1)], "renumbered");
    }
}

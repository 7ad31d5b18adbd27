//! What a leg between any two ends takes.

use crate::runs::result::Distance;
use crate::units::{Cost, Mm};

/// The best ways between the ends of a feed; end 0 is the board.
///
/// Cost and length of a leg are kept in one whole number,
/// `cost · 2^shift + length`, the *weight*. The shift is as narrow as the
/// longest chain allows, so that lengths never carry into costs: the least
/// sum of weights then has the least cost and, among equal costs, the least
/// length.
///
/// **Domain.** With `C` and `L` the sums over all ends of the dearest and of
/// the longest leg at each, `C · 2^shift + L` must stay within 2^57, where
/// `2^shift` is the power of two above `L` (at least 2^10). Two hundred ends
/// with legs of eighty metres at 300 % each still fit. Where legs are missing,
/// that sum times the number of ends must stay within 2^62 as well.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Matrix {
    count: usize,
    shift: u32,
    /// Row by row; a missing leg weighs `missing`.
    weights: Vec<i64>,
    /// More than any chain of legs that exist.
    missing: i64,
    /// Every cost is a whole multiple of it.
    step: i64,
}

/// Why a matrix cannot be used.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum MatrixError {
    /// Not even a board.
    #[error("there are no ends")]
    Empty,
    /// Its rows are not as long as there are rows.
    #[error("row {0} is not as long as there are ends")]
    NotSquare(usize),
    /// A leg differs from the same leg the other way.
    #[error("the leg between {0} and {1} differs from the leg back")]
    NotSymmetric(usize, usize),
    /// A cost or a length below nothing.
    #[error("the leg between {0} and {1} takes less than nothing")]
    Negative(usize, usize),
    /// Costs and lengths do not fit together in 64 bits.
    #[error("costs or lengths are too large to be added up")]
    TooLarge,
}

/// The largest sum of weights: sixteen missing legs still fit in 62 bits.
const WEIGHT_SUM_MAX: i128 = 1 << 57;
/// A chain of nothing but missing legs can still be added up.
const MISSING_SUM_MAX: i128 = 1 << 62;
/// Leaves room for multipliers finer than a unit of cost where lengths are 0.
const SHIFT_MIN: u32 = 10;

impl Matrix {
    /// Checks the rows and takes them over. What stands on the diagonal is
    /// not looked at; `None` elsewhere means that no leg can be made.
    ///
    /// # Errors
    /// [`MatrixError`] when there are no rows, when they are not square,
    /// symmetric and free of negative values, or beyond the domain above.
    pub fn new(rows: &[Vec<Option<Distance>>]) -> Result<Self, MatrixError> {
        check(rows)?;
        let largest = |value: &dyn Fn(Distance) -> i64| -> i128 {
            let row_max = |(i, row): (usize, &Vec<Option<Distance>>)| {
                let others = row.iter().enumerate().filter(|(j, _)| *j != i);
                others.filter_map(|(_, leg)| leg.map(value)).max().unwrap_or(0)
            };
            rows.iter().enumerate().map(row_max).map(i128::from).sum()
        };
        let length_sum = largest(&|leg| leg.length.get());
        let shift = (i128::BITS - length_sum.leading_zeros()).max(SHIFT_MIN);
        let cost_sum = largest(&|leg| leg.cost.get());
        if shift > 57 || cost_sum > WEIGHT_SUM_MAX {
            return Err(MatrixError::TooLarge);
        }
        let weight_sum = (cost_sum << shift) + length_sum;
        if weight_sum >= WEIGHT_SUM_MAX {
            return Err(MatrixError::TooLarge);
        }
        let gaps = rows.iter().enumerate().any(|(i, row)| row[..i].iter().any(Option::is_none));
        if gaps && (weight_sum + 1) * rows.len() as i128 > MISSING_SUM_MAX {
            return Err(MatrixError::TooLarge);
        }
        let missing = i64::try_from(weight_sum).map_err(|_| MatrixError::TooLarge)? + 1;
        let weigh = |leg: &Option<Distance>| {
            leg.map_or(missing, |leg| (leg.cost.get() << shift) + leg.length.get())
        };
        let mut weights: Vec<i64> = rows.iter().flatten().map(weigh).collect();
        let count = rows.len();
        (0..count).for_each(|i| weights[i * count + i] = 0);
        let costs = weights.iter().filter(|weight| **weight != missing).map(|w| w >> shift);
        let step = costs.fold(0, common_divisor).max(1);
        Ok(Self { count, shift, weights, missing, step })
    }

    /// The number of ends, the board among them.
    #[must_use]
    pub fn count(&self) -> usize {
        self.count
    }

    /// The leg between two ends, if one can be made.
    #[must_use]
    pub fn leg(&self, from: usize, to: usize) -> Option<Distance> {
        if from >= self.count || to >= self.count {
            return None;
        }
        let weight = self.weight(from, to);
        (weight < self.missing).then(|| self.distance(weight))
    }

    pub(in crate::runs) fn weight(&self, from: usize, to: usize) -> i64 {
        self.weights[from * self.count + to]
    }

    pub(in crate::runs) fn row(&self, from: usize) -> &[i64] {
        &self.weights[from * self.count..][..self.count]
    }

    /// Above the weight of every chain whose legs all exist.
    pub(in crate::runs) fn missing(&self) -> i64 {
        self.missing
    }

    /// What a cost weighs.
    pub(in crate::runs) fn weight_of(&self, cost: Cost) -> i64 {
        cost.get().checked_mul(1 << self.shift).unwrap_or(i64::MAX)
    }

    /// Cost and length of a weight, or of a sum of weights.
    pub(in crate::runs) fn distance(&self, weight: i64) -> Distance {
        Distance {
            cost: Cost::new(weight >> self.shift),
            length: Mm::new(weight & ((1 << self.shift) - 1)),
        }
    }

    /// The least cost that a chain of at least this weight can have: costs
    /// come in whole steps.
    pub(in crate::runs) fn cost_at_least(&self, weight: i64) -> i64 {
        let cost = weight.max(0) >> self.shift;
        let over = cost.rem_euclid(self.step);
        if over == 0 { cost } else { cost - over + self.step }
    }
}

fn check(rows: &[Vec<Option<Distance>>]) -> Result<(), MatrixError> {
    if rows.is_empty() {
        return Err(MatrixError::Empty);
    }
    if let Some(i) = rows.iter().position(|row| row.len() != rows.len()) {
        return Err(MatrixError::NotSquare(i));
    }
    for (i, row) in rows.iter().enumerate() {
        for (j, leg) in row.iter().enumerate().take(i) {
            if *leg != rows[j][i] {
                return Err(MatrixError::NotSymmetric(j, i));
            }
            if leg.is_some_and(|leg| leg.cost.get() < 0 || leg.length.get() < 0) {
                return Err(MatrixError::Negative(j, i));
            }
        }
    }
    Ok(())
}

fn common_divisor(a: i64, b: i64) -> i64 {
    if b == 0 { a } else { common_divisor(b, a.rem_euclid(b)) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn leg(cost: i64, length: i64) -> Option<Distance> {
        Some(Distance { cost: Cost::new(cost), length: Mm::new(length) })
    }

    #[test]
    fn a_leg_comes_back_as_it_went_in() {
        let rows = vec![
            vec![None, leg(150, 7), None],
            vec![leg(150, 7), None, leg(100, 5000)],
            vec![None, leg(100, 5000), None],
        ];
        let matrix = Matrix::new(&rows).unwrap();
        assert_eq!(matrix.leg(0, 1), leg(150, 7), "a leg");
        assert_eq!(matrix.leg(0, 2), None, "no leg");
        assert_eq!(matrix.leg(0, 3), None, "no such end");
        assert_eq!(matrix.leg(3, 0), None, "no such end");
        let both = matrix.distance(matrix.weight(0, 1) + matrix.weight(1, 2));
        assert_eq!(Some(both), leg(250, 5007), "sums keep cost and length apart");
        assert!(matrix.missing() > matrix.weight(0, 1) + matrix.weight(1, 2), "dearer than all");
    }

    #[test]
    fn a_bound_is_rounded_up_to_a_cost_that_can_occur() {
        let rows = vec![
            vec![None, leg(150, 0), leg(250, 0)],
            vec![leg(150, 0), None, leg(100, 0)],
            vec![leg(250, 0), leg(100, 0), None],
        ];
        let matrix = Matrix::new(&rows).unwrap();
        assert_eq!(matrix.cost_at_least(201 << SHIFT_MIN), 250, "costs are multiples of 50");
        assert_eq!(matrix.cost_at_least(200 << SHIFT_MIN), 200, "itself a multiple");
        assert_eq!(matrix.cost_at_least(-5), 0, "no chain costs less than nothing");
    }

    #[test]
    fn what_cannot_be_reckoned_with_is_refused() {
        assert_eq!(Matrix::new(&[]), Err(MatrixError::Empty), "no board");
        assert_eq!(Matrix::new(&[vec![]]), Err(MatrixError::NotSquare(0)), "no columns");
        let two = |there, back| vec![vec![None, there], vec![back, None]];
        let new = |there, back| Matrix::new(&two(there, back)).map(|_| ());
        assert_eq!(new(leg(1, 1), leg(2, 1)), Err(MatrixError::NotSymmetric(0, 1)), "two costs");
        assert_eq!(new(leg(1, 1), None), Err(MatrixError::NotSymmetric(0, 1)), "one way only");
        assert_eq!(new(leg(-1, 1), leg(-1, 1)), Err(MatrixError::Negative(0, 1)), "negative");
        for (cost, length) in [(i64::MAX, 0), (0, i64::MAX), (1 << 40, 1 << 20)] {
            let result = new(leg(cost, length), leg(cost, length));
            assert_eq!(result, Err(MatrixError::TooLarge), "{cost} {length}");
        }
    }

    #[test]
    fn a_large_house_lies_within_the_domain() {
        let rows = vec![vec![leg(80_000 * 300, 80_000); 200]; 200];
        assert!(Matrix::new(&rows).is_ok(), "200 ends, legs of 80 m at 300 %");
    }
}

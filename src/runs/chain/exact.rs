//! The best order of a short sub-path, by looking at every set of points.

use super::sub_path::SubPath;

/// No way recorded; larger than any sum of weights.
const FAR: i64 = 1 << 62;
/// More points than these would take too much room.
pub(super) const POINTS_MAX: usize = 16;

/// The order of least weight, and its weight.
///
/// The least way over the set `S` that ends at `j` is the least over `i` of
/// the way over `S` without `j` that ends at `i`, and on to `j` (Held and
/// Karp 1962). One row per set, one entry per end; the order is read
/// back from the rows, so no predecessors are kept. Of equal orders the one
/// with the smallest numbers, read from the far end, is returned. Where points
/// come before others, a way over a set ends only at those whose earlier ones
/// are all in it.
pub(super) fn best(sub_path: &SubPath) -> (Vec<usize>, i64) {
    debug_assert!(sub_path.points() <= POINTS_MAX, "the table would be too large");
    match sub_path.points() {
        0..=8 => Table::<8>::best(sub_path),
        9..=10 => Table::<10>::best(sub_path),
        11..=12 => Table::<12>::best(sub_path),
        13 => Table::<13>::best(sub_path),
        _ => Table::<POINTS_MAX>::best(sub_path),
    }
}

struct Table<const WIDTH: usize> {
    points: usize,
    /// For every point those that come before it, one bit each.
    earlier: [usize; WIDTH],
    legs: Vec<[i64; WIDTH]>,
    rows: Vec<[i64; WIDTH]>,
}

impl<const WIDTH: usize> Table<WIDTH> {
    fn best(sub_path: &SubPath) -> (Vec<usize>, i64) {
        if sub_path.points() == 0 {
            return (Vec::new(), sub_path.total(&[]));
        }
        let mut table = Self::new(sub_path);
        table.fill();
        table.read_back(sub_path)
    }

    fn new(sub_path: &SubPath) -> Self {
        let points = sub_path.points();
        let mut legs = vec![[0; WIDTH]; points];
        let mut rows = vec![[FAR; WIDTH]; 1 << points];
        let mut earlier = [0; WIDTH];
        for (j, leg) in legs.iter_mut().enumerate() {
            leg[..points].copy_from_slice(&sub_path.row(j + 1)[1..=points]);
            earlier[j] = sub_path.before().mask(j + 1);
            if earlier[j] == 0 {
                rows[1 << j][j] = sub_path.weight(0, j + 1);
            }
        }
        Self { points, earlier, legs, rows }
    }

    fn fill(&mut self) {
        for set in 1_usize..1 << self.points {
            if set.is_power_of_two() {
                continue;
            }
            for (j, leg) in self.legs.iter().enumerate() {
                if set & (1 << j) != 0 && self.earlier[j] & !set == 0 {
                    self.rows[set][j] = least_sum(&self.rows[set ^ (1 << j)], leg);
                }
            }
        }
    }

    fn read_back(&self, sub_path: &SubPath) -> (Vec<usize>, i64) {
        let mut set = (1_usize << self.points) - 1;
        let mut onward: Vec<i64> = sub_path.row(sub_path.finish())[1..=self.points].to_vec();
        let mut order = Vec::with_capacity(self.points);
        while set != 0 {
            let ways = (0..self.points).filter(|j| set & (1 << j) != 0);
            let Some(j) = ways.min_by_key(|j| (self.rows[set][*j] + onward[*j], *j)) else { break };
            order.push(j + 1);
            onward = self.legs[j][..self.points].to_vec();
            set ^= 1 << j;
        }
        order.reverse();
        let total = sub_path.total(&order);
        (order, total)
    }
}

/// The least of `row[i] + leg[i]`, in four lanes so that they need not wait
/// for each other.
fn least_sum<const WIDTH: usize>(row: &[i64; WIDTH], leg: &[i64; WIDTH]) -> i64 {
    let mut least = [i64::MAX; 4];
    for i in 0..WIDTH {
        least[i & 3] = least[i & 3].min(row[i] + leg[i]);
    }
    least.into_iter().min().unwrap_or(FAR)
}

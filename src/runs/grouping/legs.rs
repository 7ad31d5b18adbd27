//! Legs while circuits are being improved: few bytes each, so that those of a
//! house stay close to the processor.

use super::task::Work;

/// So many neighbours are looked at for a place.
const CLOSE: usize = 16;
/// So many are looked at for further circuits.
const AROUND: usize = 128;
/// What a missing leg weighs; sums of a few still fit in 32 bits.
const MISSING: i64 = 1 << 27;

/// A neighbour of a point.
#[derive(Clone, Copy, Debug)]
pub(super) struct Near {
    pub(super) point: u32,
    pub(super) leg: i32,
}

/// Every leg as a coarser whole number: the weights without as many low bits
/// as it takes for a missing one to weigh 2^27 at most. Two hundred points with
/// legs of eighty metres keep a hundredth of a millimetre.
#[derive(Debug)]
pub(super) struct Legs {
    count: usize,
    /// By rows; what follows the last point of a circuit is a column of its own.
    legs: Vec<i32>,
    /// What a circuit weighs before any leg.
    pub(super) fixed: i32,
    /// For every point so many others, nearest first.
    near: Vec<Near>,
    width: usize,
}

impl Legs {
    pub(super) fn new(work: &Work<'_>) -> Self {
        let count = work.points() + 1;
        let heaviest = work.missing().max(work.fixed);
        let shift = (i64::BITS - heaviest.leading_zeros()).saturating_sub(MISSING.ilog2());
        let coarse = |weight: i64| i32::try_from((weight >> shift).min(MISSING)).unwrap_or(0);
        let row = |from: usize| work.row(from).iter().copied().chain([work.back(from)]);
        let legs: Vec<i32> = (0..count).flat_map(row).map(coarse).collect();
        let width = AROUND.min(count.saturating_sub(2));
        let mut near = Vec::with_capacity(width * count);
        for end in 1..count {
            let leg = |point: usize| legs[end * (count + 1) + point];
            let mut others: Vec<Near> = (1..count)
                .filter(|other| *other != end)
                .map(|other| Near { point: narrow(other), leg: leg(other) })
                .collect();
            let key = |near: &Near| (near.leg, near.point);
            if width < others.len() {
                others.select_nth_unstable_by_key(width, key);
                others.truncate(width);
            }
            others.sort_unstable_by_key(key);
            near.append(&mut others);
        }
        Self { count, legs, fixed: coarse(work.fixed), near, width }
    }

    pub(super) fn points(&self) -> usize {
        self.count - 1
    }

    /// What comes after the last point of a circuit: nothing, or the board.
    pub(super) fn end(&self) -> u32 {
        narrow(self.count)
    }

    /// The legs from an end, by the end they lead to, that after the last
    /// point behind them.
    pub(super) fn row(&self, from: u32) -> &[i32] {
        &self.legs[from as usize * (self.count + 1)..][..=self.count]
    }

    pub(super) fn leg(&self, from: u32, to: u32) -> i32 {
        self.legs[from as usize * (self.count + 1) + to as usize]
    }

    /// A circuit of one point.
    pub(super) fn alone(&self, point: u32) -> i32 {
        self.fixed + self.leg(0, point) + self.leg(point, self.end())
    }

    /// Those around a point, nearest first.
    pub(super) fn around(&self, point: u32) -> &[Near] {
        &self.near[(point as usize - 1) * self.width..][..self.width]
    }

    /// The nearest few of a point, nearest first.
    pub(super) fn close(&self, point: u32) -> &[Near] {
        &self.around(point)[..CLOSE.min(self.width)]
    }
}

/// Ends are counted in 32 bits: a matrix of more does not fit in any memory.
pub(super) fn narrow(end: usize) -> u32 {
    u32::try_from(end).unwrap_or(u32::MAX)
}

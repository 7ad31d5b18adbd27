//! A few pieces on drums, by trying everything.

use super::{Filling, Job};

/// Up to so many pieces every way is tried.
pub(super) const FEW: usize = 6;

/// The drums on which these pieces cost least, waste least and take the fewest
/// drums, in this order. None where no drum holds one of them.
pub(super) fn few(job: &Job, pool: &[usize]) -> Option<Vec<(usize, Filling)>> {
    let mut trial = Trial { job, pool, drums: Vec::new(), best: None };
    trial.place(0, 0);
    trial.best.map(|best| best.drums)
}

struct Trial<'a> {
    job: &'a Job,
    pool: &'a [usize],
    drums: Vec<(usize, Filling)>,
    best: Option<Best>,
}

struct Best {
    /// Paid, scrap, drums.
    values: [i64; 3],
    drums: Vec<(usize, Filling)>,
}

impl Trial<'_> {
    fn place(&mut self, depth: usize, paid: i64) {
        if self.best.as_ref().is_some_and(|best| paid > best.values[0]) {
            return;
        }
        let Some(piece) = self.pool.get(depth).copied() else { return self.offer(paid) };
        let length = self.job.pieces[piece];
        for at in 0..self.drums.len() {
            let (kind, filling) = &self.drums[at];
            if self.job.filled(filling) + length <= self.job.drums[*kind].length {
                self.drums[at].1.push(piece);
                self.place(depth + 1, paid);
                self.drums[at].1.pop();
            }
        }
        for (kind, drum) in self.job.drums.iter().enumerate() {
            if drum.length >= length {
                self.drums.push((kind, vec![piece]));
                self.place(depth + 1, paid + drum.price);
                self.drums.pop();
            }
        }
    }

    fn offer(&mut self, paid: i64) {
        let scrap = |(kind, filling): &(usize, Filling)| {
            self.job.scrap_of(self.job.drums[*kind].length - self.job.filled(filling))
        };
        let count = i64::try_from(self.drums.len()).unwrap_or(i64::MAX);
        let values = [paid, self.drums.iter().map(scrap).sum(), count];
        if self.best.as_ref().is_none_or(|best| values < best.values) {
            self.best = Some(Best { values, drums: self.drums.clone() });
        }
    }
}

//! How cheap any sharing out could possibly be.
//!
//! Every point gets a prize, whole and of any sign. For every number of points
//! `q` that a circuit can hold, the least of *legs less prizes* over all walks
//! from the board that load `q` and do not turn straight back is found; a walk
//! may meet a point again, so it is never dearer than the circuits it stands
//! for. Walks whose loads add up to all there is are then put together at the
//! least sum; with all prizes added, that is a bound (Christofides, Mingozzi
//! and Toth 1981, *from memory*). Prizes rise for points that the walks miss
//! and fall for those they meet too often.

use super::task::Work;

const FAR: i64 = 1 << 61;

/// No sharing out weighs less.
pub(super) fn below(work: &Work<'_>, above: i64, steps: u32) -> i64 {
    let count = work.points() + 1;
    if (1..count).any(|end| size(work, end) == 0) {
        // Walks are told apart by their load: without one there is no bound.
        return 0;
    }
    let total: usize = (1..count).map(|end| size(work, end)).sum();
    let room = usize::try_from(work.limit.points).unwrap_or(usize::MAX).min(total);
    let mut prizes = vec![0; count];
    for (end, prize) in prizes.iter_mut().enumerate().skip(1) {
        let near = work.near[end].first().map_or(0, |other| work.leg(end, *other));
        *prize = near.min(work.leg(0, end));
    }
    let mut best = 0;
    let mut part: i64 = 1024;
    let mut waited = 0;
    for _ in 0..steps.max(1) {
        let walks = Walks::of(work, &prizes, room);
        let (bound, met) = walks.combine(work, &prizes, total);
        if bound > best {
            best = bound;
            waited = 0;
        } else {
            waited += 1;
            if waited >= 4 {
                part >>= 1;
                waited = 0;
            }
        }
        let off: i64 = met[1..].iter().map(|times| (times - 1) * (times - 1)).sum();
        if off == 0 || best >= above || part == 0 {
            break;
        }
        let way = i128::from((above - bound).max(0)) * i128::from(part);
        let step = i64::try_from(way.div_euclid(i128::from(off) * 1024)).unwrap_or(0);
        for (prize, times) in prizes.iter_mut().zip(&met).skip(1) {
            *prize += step * (1 - times);
        }
    }
    best.min(above)
}

fn size(work: &Work<'_>, end: usize) -> usize {
    usize::try_from(work.loads[end].points).unwrap_or(0)
}

/// The cheapest walk to an end with a load, and the cheapest that comes from
/// elsewhere.
#[derive(Clone, Copy)]
struct Entry {
    weight: i64,
    from: usize,
    other: i64,
    other_from: usize,
}

const NONE: Entry = Entry { weight: FAR, from: usize::MAX, other: FAR, other_from: usize::MAX };

struct Walks {
    count: usize,
    /// By load, then by end.
    rows: Vec<Vec<Entry>>,
}

impl Walks {
    fn of(work: &Work<'_>, prizes: &[i64], room: usize) -> Self {
        let count = prizes.len();
        let mut rows = vec![vec![NONE; count]; room + 1];
        for end in 1..count {
            let own = size(work, end);
            if own <= room {
                rows[own][end].offer(work.fixed + work.leg(0, end) - prizes[end], 0);
            }
        }
        for load in 1..=room {
            for end in 1..count {
                let own = size(work, end);
                let Some(before) = load.checked_sub(own).filter(|before| *before > 0) else {
                    continue;
                };
                let mut entry = rows[load][end];
                for (from, walk) in rows[before].iter().enumerate().skip(1) {
                    if from == end {
                        continue;
                    }
                    let came = if walk.from == end { walk.other } else { walk.weight };
                    if came < FAR {
                        entry.offer(came + work.leg(from, end) - prizes[end], from);
                    }
                }
                rows[load][end] = entry;
            }
        }
        Self { count, rows }
    }

    /// The bound, and how often each end is met by the walks behind it.
    fn combine(&self, work: &Work<'_>, prizes: &[i64], total: usize) -> (i64, Vec<i64>) {
        let ends: Vec<(i64, usize)> = self
            .rows
            .iter()
            .map(|row| {
                let ended = |end: usize| (row[end].weight.saturating_add(work.back(end)), end);
                (1..self.count).map(ended).min().unwrap_or((FAR, 0))
            })
            .collect();
        let mut sums: Vec<(i64, usize)> = vec![(FAR, 0); total + 1];
        sums[0] = (0, 0);
        for load in 1..=total {
            for (part, (weight, _)) in ends.iter().enumerate().skip(1) {
                if part <= load && *weight < FAR && sums[load - part].0 < FAR {
                    sums[load] = sums[load].min((sums[load - part].0 + weight, part));
                }
            }
        }
        let mut met = vec![0; self.count];
        let mut left = total;
        while left > 0 && sums[left].1 > 0 {
            let part = sums[left].1;
            self.count_walk(work, part, ends[part].1, &mut met);
            left -= part;
        }
        let prizes: i64 = prizes[1..].iter().sum();
        let bound = if sums[total].0 >= FAR { 0 } else { sums[total].0 + prizes };
        (bound, met)
    }

    fn count_walk(&self, work: &Work<'_>, mut load: usize, mut end: usize, met: &mut [i64]) {
        let mut banned = usize::MAX;
        while end != 0 && load > 0 {
            met[end] += 1;
            let entry = self.rows[load][end];
            let from = if entry.from == banned { entry.other_from } else { entry.from };
            load -= size(work, end).min(load);
            banned = end;
            if from == usize::MAX {
                break;
            }
            end = from;
        }
    }
}

impl Entry {
    fn offer(&mut self, weight: i64, from: usize) {
        if weight < self.weight {
            (self.other, self.other_from) = (self.weight, self.from);
            (self.weight, self.from) = (weight, from);
        } else if weight < self.other {
            (self.other, self.other_from) = (weight, from);
        }
    }
}

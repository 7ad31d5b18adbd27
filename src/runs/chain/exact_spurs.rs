//! The best trunk and spurs of a short sub-path, by looking at every set.

use super::grove::Grove;
use super::sub_path::SubPath;

/// More points than these would take too much room.
pub(super) const POINTS_MAX: usize = 15;

/// Larger than any sum of weights.
const FAR: i64 = 1 << 62;

/// The trunk and spurs of least weight.
///
/// As for a plain chain, but each step takes one point `v` into the trunk and
/// perhaps another, `u`, as its spur. With `arrive(S, v)` the least way that
/// covers the set `S` and goes on to `v`,
/// `best(S, v) = min(arrive(S−v, v), min over u of arrive(S−v−u, v) + w(v, u))`
/// and `arrive(S, v) = min over i in S of best(S, i) + w(i, v)`.
///
/// Where points come before others on the way from the board, `v` and `u` are
/// taken only once those before them are in the trunk, and none of those is ever
/// a spur. Points of `bare` are no spurs and feed none.
pub(super) fn best(sub_path: &SubPath, bare: &[usize]) -> Grove {
    let mut table = Table::new(sub_path, bare);
    table.fill();
    table.read_back()
}

struct Table<'a> {
    sub_path: &'a SubPath,
    points: usize,
    /// For every point those that come before it, one bit each.
    earlier: Vec<usize>,
    /// For every point whether it may feed a spur, and be one.
    feeds: Vec<bool>,
    hangs: Vec<bool>,
    /// By set, then by the last point of the trunk, which is in the set.
    best: Vec<i64>,
    /// By set, then by the point gone on to, which is not in the set.
    arrive: Vec<i64>,
}

impl<'a> Table<'a> {
    fn new(sub_path: &'a SubPath, bare: &[usize]) -> Self {
        let points = sub_path.points();
        let before = sub_path.before();
        let earlier = (1..=points).map(|point| before.mask(point)).collect();
        let feeds: Vec<bool> = (1..=points).map(|point| !bare.contains(&point)).collect();
        let hangs = (1..=points).map(|point| feeds[point - 1] && !before.leads(point)).collect();
        debug_assert!(points <= POINTS_MAX, "the table would be too large");
        let room = points << points;
        Self {
            sub_path,
            points,
            earlier,
            feeds,
            hangs,
            best: vec![FAR; room],
            arrive: vec![FAR; room],
        }
    }

    fn leg(&self, from: usize, to: usize) -> i64 {
        self.sub_path.weight(from + 1, to + 1)
    }

    fn within(&self, set: usize) -> impl Iterator<Item = usize> + use<> {
        (0..self.points).filter(move |point| set & (1 << point) != 0)
    }

    fn fill(&mut self) {
        for v in 0..self.points {
            self.arrive[v] = self.sub_path.weight(0, v + 1);
        }
        let full = (1_usize << self.points) - 1;
        for set in 1..=full {
            for v in self.within(set) {
                let others = set ^ (1 << v);
                if self.earlier[v] & !others != 0 {
                    continue;
                }
                let plain = self.arrive[others * self.points + v];
                let with_spur = self.within(others).map(|u| self.with_spur(others, v, u)).min();
                self.best[set * self.points + v] = plain.min(with_spur.unwrap_or(FAR));
            }
            for v in self.within(full ^ set) {
                let ways = self.within(set);
                let least = ways.map(|i| self.best[set * self.points + i] + self.leg(i, v)).min();
                self.arrive[set * self.points + v] = least.unwrap_or(FAR);
            }
        }
    }

    /// The way over `others`, of which `u` hangs on `v`, and on to `v`.
    fn with_spur(&self, others: usize, v: usize, u: usize) -> i64 {
        let trunk = (others ^ (1 << u)) | (1 << v);
        let allowed = self.feeds[v] && self.hangs[u];
        if !allowed || self.earlier[u] & !trunk != 0 || self.earlier[v] & (1 << u) != 0 {
            return FAR;
        }
        self.arrive[(others ^ (1 << u)) * self.points + v] + self.leg(v, u)
    }

    fn read_back(&self) -> Grove {
        let mut set = (1_usize << self.points) - 1;
        let mut onward = self.sub_path.finish();
        let mut grove = Grove::chain(&[], self.points);
        while set != 0 {
            let way =
                |v: usize| self.best[set * self.points + v] + self.sub_path.weight(v + 1, onward);
            let Some(v) = self.within(set).min_by_key(|v| (way(*v), *v)) else { break };
            let value = self.best[set * self.points + v];
            grove.trunk.push(v + 1);
            onward = v + 1;
            set ^= 1 << v;
            if self.arrive[set * self.points + v] != value
                && let Some(u) = self.within(set).find(|u| self.with_spur(set, v, *u) == value)
            {
                grove.feeds[v + 1] = Some(u + 1);
                set ^= 1 << u;
            }
        }
        grove.trunk.reverse();
        grove
    }
}

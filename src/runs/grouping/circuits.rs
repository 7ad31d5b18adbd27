//! Circuits while they are being improved.

use super::task::{Load, Work};

/// No circuit.
pub(super) const NOWHERE: usize = usize::MAX;

/// One circuit: its ends, and what is on it.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Feed {
    /// Its first point; 0 where it has none.
    pub(super) first: usize,
    /// Its last point.
    pub(super) last: usize,
    /// How many points it has.
    pub(super) size: usize,
    /// What is on it.
    pub(super) load: Load,
}

/// Where a point stands in its circuit, and the legs on both sides of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Link {
    /// Its circuit, or [`NOWHERE`].
    pub(super) group: usize,
    /// What stands before it; 0 for the board.
    pub(super) before: usize,
    /// What stands after it; 0 where its circuit ends.
    pub(super) after: usize,
    /// The leg from what stands before it.
    pub(super) leg_before: i64,
    /// The leg to what stands after it, or back to the board.
    pub(super) leg_after: i64,
}

/// Points on circuits, and those on none. Points are linked to their
/// neighbours, so that taking one out and putting it back takes no time.
#[derive(Clone, Debug)]
pub(super) struct Circuits {
    /// A circuit may be empty.
    pub(super) feeds: Vec<Feed>,
    /// For every end where it stands; that of the board says nothing.
    pub(super) links: Vec<Link>,
    /// What all legs and circuits weigh.
    pub(super) weight: i64,
    /// What all circuits have on them beyond their limits.
    pub(super) over: Load,
    /// Points on no circuit.
    pub(super) absent: Vec<usize>,
    /// Circuits that are no longer as they were.
    touched: Vec<usize>,
}

impl Circuits {
    /// No circuits yet.
    pub(super) fn first(work: &Work<'_>) -> Self {
        let count = work.points() + 1;
        let link = Link { group: NOWHERE, before: 0, after: 0, leg_before: 0, leg_after: 0 };
        Self {
            feeds: Vec::new(),
            links: vec![link; count],
            weight: 0,
            over: Load::default(),
            absent: (1..count).collect(),
            touched: Vec::new(),
        }
    }

    /// The points of every circuit that has some, in order.
    pub(super) fn groups(&self) -> Vec<Vec<usize>> {
        let on = |feed: &Feed| {
            let next = |point: &usize| Some(self.links[*point].after);
            std::iter::successors(Some(feed.first), next).take(feed.size).collect()
        };
        self.feeds.iter().filter(|feed| feed.size > 0).map(on).collect()
    }

    /// Makes another state like this one, or this one like the other, where
    /// they were alike until this one was touched.
    pub(super) fn settle(&mut self, other: &mut Self, keep: bool) {
        let mut touched = std::mem::take(&mut self.touched);
        if keep {
            other.copy(self, &touched);
        } else {
            self.copy(other, &touched);
        }
        touched.clear();
        self.touched = touched;
    }

    fn copy(&mut self, from: &Self, touched: &[usize]) {
        for group in touched.iter().copied() {
            if group >= self.feeds.len() {
                self.feeds.resize(group + 1, Feed::default());
            }
            let feed = from.feeds.get(group).copied().unwrap_or_default();
            self.feeds[group] = feed;
            let mut point = feed.first;
            for _ in 0..feed.size {
                self.links[point] = from.links[point];
                point = from.links[point].after;
            }
        }
        (self.weight, self.over) = (from.weight, from.over);
    }

    fn touch(&mut self, group: usize) {
        if !self.touched.contains(&group) {
            self.touched.push(group);
        }
    }

    /// Notes what is on a circuit.
    fn carry(&mut self, work: &Work<'_>, group: usize, load: Load) {
        let had = self.feeds[group].load.without(work.limit);
        self.feeds[group].load = load;
        self.over = self.over.without(had).and(load.without(work.limit));
    }

    /// Joins two ends of a circuit, either of which may be the board.
    fn join(&mut self, work: &Work<'_>, group: usize, from: usize, to: usize) {
        let leg = if to == 0 { work.back(from) } else { work.leg(from, to) };
        match from {
            0 => self.feeds[group].first = to,
            _ => (self.links[from].after, self.links[from].leg_after) = (to, leg),
        }
        match to {
            0 => self.feeds[group].last = from,
            _ => (self.links[to].before, self.links[to].leg_before) = (from, leg),
        }
    }

    /// Puts a point on a circuit, between two ends that are joined there. The
    /// weight is left to the caller, who knows it.
    pub(super) fn put(
        &mut self,
        work: &Work<'_>,
        point: usize,
        group: usize,
        (from, to): (usize, usize),
    ) {
        self.touch(group);
        self.links[point].group = group;
        self.join(work, group, from, point);
        self.join(work, group, point, to);
        self.feeds[group].size += 1;
        self.carry(work, group, self.feeds[group].load.and(work.loads[point]));
    }

    /// Begins a circuit with a point.
    pub(super) fn begin(&mut self, work: &Work<'_>, point: usize) {
        let empty = self.feeds.iter().position(|feed| feed.size == 0);
        let group = empty.unwrap_or_else(|| {
            self.feeds.push(Feed::default());
            self.feeds.len() - 1
        });
        self.put(work, point, group, (0, 0));
        self.weight += work.alone(point);
    }

    /// Takes so many points of a circuit out, from one on.
    pub(super) fn take(&mut self, work: &Work<'_>, group: usize, first: usize, count: usize) {
        self.touch(group);
        let from = self.links[first].before;
        let mut load = self.feeds[group].load;
        let mut point = first;
        self.weight -= self.links[first].leg_before;
        for _ in 0..count {
            let link = &mut self.links[point];
            link.group = NOWHERE;
            self.weight -= link.leg_after;
            load = load.without(work.loads[point]);
            self.absent.push(point);
            point = link.after;
        }
        self.feeds[group].size -= count;
        if (from, point) == (0, 0) {
            self.feeds[group] = Feed { load: self.feeds[group].load, ..Feed::default() };
            self.weight -= work.fixed;
        } else {
            self.join(work, group, from, point);
            self.weight += if point == 0 { work.back(from) } else { work.leg(from, point) };
        }
        self.carry(work, group, load);
    }
}

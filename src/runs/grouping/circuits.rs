//! Circuits while they are being improved.

use super::legs::{Legs, narrow};
use super::link::Link;
use super::penalty::{NEVER, Penalty, Room};
use super::picture::Picture;

/// No circuit.
pub(super) const NOWHERE: u32 = 0;

/// One circuit: where it begins, and what is left of its limit.
#[derive(Clone, Copy, Debug)]
struct Feed {
    first: u32,
    size: u32,
    room: Room,
}

/// Points on circuits, and those on none. Points are linked to their
/// neighbours, so that taking one out and putting it back takes no time; what
/// was there before is noted, so that it comes back as fast. Circuits are
/// numbered from 1 and may be empty.
#[derive(Clone, Debug)]
pub(super) struct Circuits<'w> {
    pub(super) legs: &'w Legs,
    loads: &'w [Room],
    limit: Room,
    /// The first point of each circuit; 0 where it has none.
    firsts: Vec<u32>,
    /// The leg from the board to it; where there is none, far below nothing.
    from_board: Vec<i32>,
    /// How many points each has.
    sizes: Vec<u32>,
    /// What is left of the limit, in points and in watts.
    points_left: Vec<i32>,
    watts_left: Vec<i32>,
    /// For every end where it stands; that of the board says nothing.
    links: Vec<Link>,
    /// What all legs and circuits weigh.
    pub(super) weight: i64,
    /// What all circuits have on them beyond their limits.
    pub(super) over: Room,
    /// Points on no circuit.
    pub(super) absent: Vec<u32>,
    /// No leg between two points is longer.
    pub(super) longest: i32,
    kept: (i64, Room),
    old_links: Vec<(u32, Link)>,
    old_feeds: Vec<(u32, Feed)>,
}

impl<'w> Circuits<'w> {
    /// No circuits yet.
    pub(super) fn first(legs: &'w Legs, loads: &'w [Room], limit: Room) -> Self {
        let count = legs.points() + 1;
        let link = Link { group: NOWHERE, before: 0, after: 0, leg_before: 0, leg_after: 0 };
        let mut first = Self {
            legs,
            loads,
            limit,
            firsts: Vec::new(),
            from_board: Vec::new(),
            sizes: Vec::new(),
            points_left: Vec::new(),
            watts_left: Vec::new(),
            links: vec![link; count],
            weight: 0,
            over: Room::default(),
            absent: (1..narrow(count)).collect(),
            longest: 0,
            kept: (0, Room::default()),
            old_links: Vec::new(),
            old_feeds: Vec::new(),
        };
        // Stands for no circuit.
        first.add();
        first
    }

    fn add(&mut self) {
        self.firsts.push(0);
        self.from_board.push(-NEVER);
        self.sizes.push(0);
        self.points_left.push(self.limit.points);
        self.watts_left.push(self.limit.watts);
    }

    pub(super) fn link(&self, point: u32) -> &Link {
        &self.links[point as usize]
    }

    pub(super) fn load(&self, point: u32) -> Room {
        self.loads[point as usize]
    }

    pub(super) fn size(&self, group: u32) -> u32 {
        self.sizes[group as usize]
    }

    /// The first point of a circuit.
    pub(super) fn begins(&self, group: u32) -> u32 {
        self.firsts[group as usize]
    }

    /// Of every circuit the first point and the leg to it from the board.
    pub(super) fn beginnings(&self) -> impl Iterator<Item = (u32, i32)> {
        self.firsts.iter().copied().zip(self.from_board.iter().copied())
    }

    /// What the penalty comes to where a point is put on each of the circuits.
    pub(super) fn extra(&self, penalty: Penalty, point: u32, extra: &mut Vec<i32>) {
        extra.resize(self.firsts.len(), 0);
        penalty.add(&self.points_left, &self.watts_left, self.load(point), extra);
    }

    fn room(&self, group: u32) -> Room {
        let group = group as usize;
        Room { points: self.points_left[group], watts: self.watts_left[group] }
    }

    /// Keeps what was done since the last time.
    pub(super) fn keep(&mut self) {
        self.old_links.clear();
        self.old_feeds.clear();
        self.kept = (self.weight, self.over);
    }

    /// Takes back what was done since then.
    pub(super) fn take_back(&mut self) {
        while let Some((point, link)) = self.old_links.pop() {
            self.links[point as usize] = link;
        }
        while let Some((group, feed)) = self.old_feeds.pop() {
            let at = group as usize;
            self.start(group, feed.first);
            self.sizes[at] = feed.size;
            (self.points_left[at], self.watts_left[at]) = (feed.room.points, feed.room.watts);
        }
        (self.weight, self.over) = self.kept;
    }

    /// What it weighs more than when it was last kept.
    pub(super) fn gained(&self) -> i64 {
        self.weight - self.kept.0
    }

    /// What was beyond the limits then.
    pub(super) fn kept_over(&self) -> Room {
        self.kept.1
    }

    /// Whether every circuit keeps to its limit.
    pub(super) fn within(&self) -> bool {
        self.over == Room::default()
    }

    /// Looks again for the longest leg.
    pub(super) fn measure(&mut self) {
        let inner = self.links[1..].iter().filter(|link| link.before != 0);
        self.longest = inner.map(|link| link.leg_before).max().unwrap_or(0);
    }

    fn note_link(&mut self, point: u32) -> &mut Link {
        let link = &mut self.links[point as usize];
        self.old_links.push((point, *link));
        link
    }

    fn note_feed(&mut self, group: u32) {
        let at = group as usize;
        let feed = Feed { first: self.firsts[at], size: self.sizes[at], room: self.room(group) };
        self.old_feeds.push((group, feed));
    }

    /// Where a circuit begins.
    fn start(&mut self, group: u32, first: u32) {
        self.firsts[group as usize] = first;
        self.from_board[group as usize] = if first == 0 { -NEVER } else { self.legs.leg(0, first) };
    }

    /// Joins two ends of a circuit: the board or a point, a point or the end.
    fn join(&mut self, group: u32, from: u32, to: u32, leg: i32) {
        let end = self.legs.end();
        if from == 0 {
            self.start(group, if to == end { 0 } else { to });
        } else {
            let link = self.note_link(from);
            (link.after, link.leg_after) = (to, leg);
        }
        if to != end {
            let link = self.note_link(to);
            (link.before, link.leg_before) = (from, leg);
            if from != 0 {
                self.longest = self.longest.max(leg);
            }
        }
    }

    /// What is left of a circuit.
    fn leave(&mut self, group: u32, room: Room) {
        let had = self.room(group);
        self.over = self.over.less(had.over()).more(room.over());
        (self.points_left[group as usize], self.watts_left[group as usize]) =
            (room.points, room.watts);
    }

    /// Puts a point on a circuit, between two ends that are joined there. The
    /// weight is left to the caller, who knows it.
    pub(super) fn put(&mut self, point: u32, group: u32, (from, to): (u32, u32)) {
        self.note_feed(group);
        self.note_link(point).group = group;
        let (leg_before, leg_after) = (self.legs.leg(from, point), self.legs.leg(point, to));
        self.join(group, from, point, leg_before);
        self.join(group, point, to, leg_after);
        self.sizes[group as usize] += 1;
        self.leave(group, self.room(group).less(self.load(point)));
    }

    /// Begins a circuit with a point.
    pub(super) fn begin(&mut self, point: u32) {
        let empty = self.sizes.iter().skip(1).position(|size| *size == 0);
        let group = empty.map_or(self.sizes.len(), |at| at + 1);
        if empty.is_none() {
            self.add();
        }
        self.put(point, narrow(group), (0, self.legs.end()));
        self.weight += i64::from(self.legs.alone(point));
    }

    /// Takes so many points of a circuit out, from one on.
    pub(super) fn take(&mut self, first: u32, count: u32) {
        let Link { group, before: from, leg_before, .. } = *self.link(first);
        let mut room = self.room(group);
        let mut point = first;
        let mut gone = leg_before;
        for _ in 0..count {
            let link = self.note_link(point);
            link.group = NOWHERE;
            gone += link.leg_after;
            let next = link.after;
            room = room.more(self.load(point));
            self.absent.push(point);
            point = next;
        }
        self.note_feed(group);
        self.sizes[group as usize] -= count;
        if self.sizes[group as usize] == 0 {
            self.start(group, 0);
            gone += self.legs.fixed;
        } else {
            let leg = self.legs.leg(from, point);
            self.join(group, from, point, leg);
            gone -= leg;
        }
        self.weight -= i64::from(gone);
        self.leave(group, room);
    }

    /// How it is now, over how it was when a picture was taken.
    pub(super) fn take_picture(&self, picture: &mut Picture) {
        picture.weight = self.weight;
        picture.links.clone_from(&self.links);
        picture.firsts.clone_from(&self.firsts);
        picture.sizes.clone_from(&self.sizes);
        picture.points_left.clone_from(&self.points_left);
        picture.watts_left.clone_from(&self.watts_left);
    }

    /// Makes it what it was in a picture, where all kept to their limits.
    pub(super) fn restore(&mut self, picture: &Picture) {
        self.links.clone_from(&picture.links);
        self.firsts.clone_from(&picture.firsts);
        self.sizes.clone_from(&picture.sizes);
        self.points_left.clone_from(&picture.points_left);
        self.watts_left.clone_from(&picture.watts_left);
        self.from_board.resize(self.firsts.len(), 0);
        for group in 0..narrow(self.firsts.len()) {
            self.start(group, self.begins(group));
        }
        (self.weight, self.over) = (picture.weight, Room::default());
        self.keep();
    }
}

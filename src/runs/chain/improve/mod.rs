//! A good order of a long sub-path: built, improved, shaken.
//!
//! Nearest neighbour first; then turned parts ([`two_opt`]) and moved parts
//! ([`or_opt`]) until neither helps; then part after part is shaken
//! ([`kick`]) and improved again, and the shake is taken back where the chain
//! became heavier. A move after which a point stands before one that must come
//! first is taken back at once.

mod kick;
mod or_opt;
mod two_opt;
mod walk;

use std::collections::VecDeque;

use super::dice::Dice;
use super::sub_path::SubPath;
use walk::Walk;

/// How many near ends of each end the moves look at: more find little and
/// take long.
const NEAR: usize = 10;

/// An order while it is being improved.
#[derive(Clone, Debug)]
pub(super) struct Improver<'a> {
    sub_path: &'a SubPath,
    /// The nearest ends of every end, nearest first.
    near: Vec<Vec<usize>>,
    walk: Walk,
    weight: i64,
    /// Ends whose surroundings have changed.
    queue: VecDeque<usize>,
    queued: Vec<bool>,
    dice: Dice,
}

impl<'a> Improver<'a> {
    /// Begins with the nearest neighbour's order, improved.
    pub(super) fn new(sub_path: &'a SubPath) -> Self {
        let order = nearest_neighbour(sub_path);
        let weight = sub_path.total(&order);
        let size = sub_path.size();
        let mut improver = Self {
            sub_path,
            near: (0..size).map(|end| nearest(sub_path, end)).collect(),
            walk: Walk::new(&order),
            weight,
            queue: VecDeque::with_capacity(size),
            queued: vec![false; size],
            dice: Dice::new(),
        };
        (0..size).for_each(|end| improver.mark(end));
        improver.settle();
        improver.walk.keep();
        improver
    }

    pub(super) fn weight(&self) -> i64 {
        self.weight
    }

    /// The points in their order.
    pub(super) fn order(&self) -> Vec<usize> {
        self.walk.points().to_vec()
    }

    /// Takes over a better order, found elsewhere.
    pub(super) fn adopt(&mut self, order: &[usize]) {
        self.walk = Walk::new(order);
        self.weight = self.sub_path.total(order);
    }

    /// Shakes and improves so many times; never ends heavier than it began.
    pub(super) fn shake(&mut self, kicks: u32) {
        if self.sub_path.points() < 3 {
            return;
        }
        for _ in 0..kicks {
            let before = self.weight;
            self.kick();
            self.settle();
            if self.weight <= before {
                self.walk.keep();
            } else {
                self.walk.take_back();
                self.weight = before;
            }
        }
    }

    /// Whether what must come first does; else what was turned since then is
    /// turned back.
    fn stands(&mut self, turns: usize) -> bool {
        let before = self.sub_path.before();
        let stands = before.is_empty() || before.is_kept(|point| self.walk.place(point));
        if !stands {
            self.walk.back_to(turns);
        }
        stands
    }

    fn mark(&mut self, end: usize) {
        if !self.queued[end] {
            self.queued[end] = true;
            self.queue.push_back(end);
        }
    }

    /// Improves until no move near a changed end helps.
    fn settle(&mut self) {
        while let Some(end) = self.queue.pop_front() {
            self.queued[end] = false;
            while self.two_opt(end) || self.or_opt(end) {}
        }
    }
}

fn nearest(sub_path: &SubPath, end: usize) -> Vec<usize> {
    let mut others: Vec<usize> = (0..sub_path.size()).filter(|other| *other != end).collect();
    others.sort_by_key(|other| (sub_path.weight(end, *other), *other));
    others.truncate(NEAR);
    others
}

fn nearest_neighbour(sub_path: &SubPath) -> Vec<usize> {
    let mut left: Vec<usize> = (1..=sub_path.points()).collect();
    let mut order = Vec::with_capacity(left.len());
    let mut at = 0;
    let pairs = sub_path.before().pairs();
    let ready = |left: &[usize], point: usize| {
        pairs.iter().all(|(from, to)| *to != point || !left.contains(from))
    };
    while let Some(next) = left
        .iter()
        .copied()
        .filter(|point| pairs.is_empty() || ready(&left, *point))
        .min_by_key(|point| (sub_path.weight(at, *point), *point))
    {
        left.retain(|point| *point != next);
        order.push(next);
        at = next;
    }
    order
}

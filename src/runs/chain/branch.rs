//! Closing the gap between an order and its bound.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::ascent::{Ascent, Stride, ascend};
use super::sub_path::SubPath;
use super::tree::{SWAY, Weights};

/// Trees grown for each half of a question; the multipliers are nearly right
/// from the question before.
const STEPS: u32 = 24;
const STRIDE: Stride = Stride { sixteenths: 8, patience: 4 };

/// What came of it.
#[derive(Clone, Debug)]
pub(super) struct Branched {
    /// A lighter order than the one given, where one was met.
    pub(super) better: Option<(Vec<usize>, i64)>,
    /// No order weighs less, or none that `enough` would not settle.
    pub(super) bound: i64,
    /// Nothing is left to ask: no order is better by a step of cost.
    pub(super) complete: bool,
}

/// Asks of one leg after another whether it is part of the best order, the
/// least promising bound first, until no answer can be better or `trees` have
/// been grown (branch and bound over spanning trees: Held and Karp 1971,
/// Volgenant and Jonker 1982).
///
/// `enough(bound, weight)` says that orders of at least `bound` cannot beat
/// `weight` by a step of cost.
pub(super) fn branch(
    sub_path: &SubPath,
    root: &Ascent,
    weight: i64,
    trees: u32,
    enough: impl Fn(i64, i64) -> bool,
) -> Branched {
    let mut search = Search {
        sub_path,
        enough,
        weight,
        better: None,
        open: BinaryHeap::new(),
        asked: 0,
        left: trees,
    };
    let mut legs = Legs::free(sub_path);
    if legs.bar_unordered(sub_path) {
        search.take_in(root, &legs);
    }
    let complete = search.run();
    let bound = if complete { search.weight } else { search.lowest() };
    Branched { better: search.better.map(|order| (order, search.weight)), bound, complete }
}

struct Search<'a, Enough> {
    sub_path: &'a SubPath,
    enough: Enough,
    weight: i64,
    better: Option<Vec<usize>>,
    open: BinaryHeap<Reverse<Question>>,
    asked: usize,
    left: u32,
}

/// A set of orders, and the leg to ask about next. The lowest bound comes
/// first, then the latest number.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Question {
    bound: i64,
    number: Reverse<usize>,
    leg: (usize, usize),
    legs: Legs,
    multipliers: Vec<i64>,
}

impl<Enough: Fn(i64, i64) -> bool> Search<'_, Enough> {
    /// True when nothing is left open.
    fn run(&mut self) -> bool {
        while let Some(Reverse(question)) = self.open.pop() {
            if (self.enough)(question.bound, self.weight) {
                return true;
            }
            if self.left < 2 * STEPS {
                self.open.push(Reverse(question));
                return false;
            }
            self.ask(&question);
        }
        true
    }

    fn lowest(&self) -> i64 {
        self.open.peek().map_or(self.weight, |Reverse(question)| question.bound)
    }

    fn ask(&mut self, question: &Question) {
        for state in [State::Required, State::Barred] {
            let mut legs = question.legs.clone();
            if !(legs.set(question.leg, state) && legs.follow()) {
                continue;
            }
            self.left = self.left.saturating_sub(STEPS);
            let flat = legs.sway(self.sub_path);
            let points = self.sub_path.points();
            let weights = Weights { flat: &flat, points, required: legs.required() };
            let (weight, enough) = (self.weight, &self.enough);
            let found = ascend(weights, &question.multipliers, weight, STEPS, STRIDE, |bound| {
                enough(bound, weight)
            });
            if let Some(ascent) = found {
                self.take_in(&ascent, &legs);
            }
        }
    }

    /// An order that the tree has turned out to be, or a further question.
    fn take_in(&mut self, ascent: &Ascent, legs: &Legs) {
        let order = ascent.tree.is_order().then(|| ascent.tree.order());
        let broken = order.as_deref().and_then(|order| self.sub_path.before().broken(order));
        let leg = match (order, broken) {
            (Some(order), None) => {
                let weight = self.sub_path.total(&order);
                if weight < self.weight {
                    self.weight = weight;
                    self.better = Some(order);
                }
                None
            }
            (Some(order), Some(pair)) => self.mending(&order, pair, legs),
            (None, _) => self.doubtful(ascent, legs),
        };
        if !(self.enough)(ascent.bound, self.weight)
            && let Some(leg) = leg
        {
            self.asked += 1;
            self.open.push(Reverse(Question {
                bound: ascent.bound,
                number: Reverse(self.asked),
                leg,
                legs: legs.clone(),
                multipliers: ascent.multipliers.clone(),
            }));
        }
    }

    /// The heaviest free leg of an order on the way to the point that comes too
    /// late. Where none is free, no order with these legs keeps the pair.
    fn mending(
        &self,
        order: &[usize],
        (late, _): (usize, usize),
        legs: &Legs,
    ) -> Option<(usize, usize)> {
        let until = order.iter().position(|point| *point == late)?;
        let way = std::iter::once(0).chain(order.iter().copied().take(until + 1));
        let way: Vec<usize> = way.collect();
        let free = way.windows(2).map(|pair| (pair[0], pair[1]));
        let free = free.filter(|(from, to)| legs.state(*from, *to) == State::Free);
        free.max_by_key(|(from, to)| (self.sub_path.weight(*from, *to), Reverse((*from, *to))))
    }

    /// The lightest free leg of the tree at the point that has most legs.
    fn doubtful(&self, ascent: &Ascent, legs: &Legs) -> Option<(usize, usize)> {
        let points = 1..=self.sub_path.points();
        let busiest = points.max_by_key(|point| (ascent.tree.degrees[*point], Reverse(*point)))?;
        let at_busiest = ascent.tree.legs.iter().copied();
        let free = at_busiest.filter(|(from, to)| {
            (*from == busiest || *to == busiest) && legs.state(*from, *to) == State::Free
        });
        let key = |(from, to): (usize, usize)| {
            self.sub_path.weight(from, to) + ascent.multipliers[from] + ascent.multipliers[to]
        };
        free.min_by_key(|leg| (key(*leg), *leg))
    }
}

/// What has been decided about a leg.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum State {
    Free,
    Required,
    Barred,
}

/// What has been decided about every leg.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Legs {
    size: usize,
    states: Vec<State>,
}

impl Legs {
    fn free(sub_path: &SubPath) -> Self {
        let size = sub_path.size();
        let mut legs = Self { size, states: vec![State::Free; size * size] };
        for end in 0..size {
            legs.states[end * size + end] = State::Barred;
        }
        legs.states[size - 1] = State::Barred;
        legs.states[(size - 1) * size] = State::Barred;
        legs
    }

    /// Bars the legs that no order has in which some points come before others.
    /// False: no order is left.
    fn bar_unordered(&mut self, sub_path: &SubPath) -> bool {
        let before = sub_path.before();
        if before.is_empty() {
            return true;
        }
        let points = 1..=sub_path.points();
        let first = points.clone().filter(|point| before.follows(*point)).map(|point| (0, point));
        let leading = points.filter(|point| before.leads(*point));
        let last = leading.map(|point| (point, sub_path.finish()));
        let barred: Vec<(usize, usize)> = first.chain(last).chain(before.skipping()).collect();
        barred.into_iter().all(|leg| self.set(leg, State::Barred)) && self.follow()
    }

    fn state(&self, from: usize, to: usize) -> State {
        self.states[from * self.size + to]
    }

    /// False where that contradicts what was decided before.
    fn set(&mut self, (from, to): (usize, usize), state: State) -> bool {
        let before = self.state(from, to);
        self.states[from * self.size + to] = state;
        self.states[to * self.size + from] = state;
        before == State::Free || before == state
    }

    fn required(&self) -> usize {
        let both_ways = self.states.iter().filter(|state| **state == State::Required).count();
        both_ways >> 1
    }

    /// Decides what follows. False: no order is left.
    fn follow(&mut self) -> bool {
        loop {
            let mut changed = false;
            for end in 0..self.size {
                match self.follow_at(end) {
                    None => return false,
                    Some(more) => changed |= more,
                }
            }
            if !changed {
                return self.bar_loops();
            }
        }
    }

    /// With all its legs decided upon, an end takes no more; with no more
    /// legs than it needs, it takes them all. True where that decides something.
    fn follow_at(&mut self, end: usize) -> Option<bool> {
        let needs = if end == 0 || end + 1 == self.size { 1 } else { 2 };
        let row = &self.states[end * self.size..][..self.size];
        let required = row.iter().filter(|state| **state == State::Required).count();
        let free = row.iter().filter(|state| **state == State::Free).count();
        if required > needs || required + free < needs {
            return None;
        }
        if free == 0 || (required < needs && required + free > needs) {
            return Some(false);
        }
        let state = if required == needs { State::Barred } else { State::Required };
        for other in 0..self.size {
            if self.state(end, other) == State::Free {
                self.set((end, other), state);
            }
        }
        Some(true)
    }

    /// Bars the leg that would close a row of required legs to a loop.
    fn bar_loops(&mut self) -> bool {
        let mut changed = false;
        for end in 0..self.size {
            if let Some(far) = self.far_end(end)
                && self.state(end, far) == State::Free
            {
                self.set((end, far), State::Barred);
                changed = true;
            }
        }
        !changed || self.follow()
    }

    /// Where the row of required legs that begins at `end` comes out.
    fn far_end(&self, end: usize) -> Option<usize> {
        let mut beside = self.required_at(end);
        let (mut before, mut at) = (end, beside.next()?);
        if beside.next().is_some() {
            return None;
        }
        while let Some(next) = self.required_at(at).find(|next| *next != before) {
            if next == end {
                return None;
            }
            (before, at) = (at, next);
        }
        Some(at)
    }

    fn required_at(&self, end: usize) -> impl Iterator<Item = usize> {
        (0..self.size).filter(move |other| self.state(end, *other) == State::Required)
    }

    fn sway(&self, sub_path: &SubPath) -> Vec<i64> {
        let swayed = |(index, state): (usize, &State)| {
            let row = index.div_euclid(self.size);
            let weight = sub_path.weight(row, index.rem_euclid(self.size));
            match state {
                State::Free => weight,
                State::Required => weight - SWAY,
                State::Barred => weight + SWAY,
            }
        };
        self.states.iter().enumerate().map(swayed).collect()
    }
}

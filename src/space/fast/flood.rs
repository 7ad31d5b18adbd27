//! Filling a house with the keys of up to eight sources at once.

use super::beside::Beside;
use super::join::join;
use super::lanes::{Flood, Lane, no_way};
use super::stencil::Entry;
use super::window::{Goal, Window};
use super::{Ask, Exit, FastNetwork, Field};
use crate::space::{Key, Rect};

/// Floods made together, kept for walking back.
#[derive(Debug)]
pub(super) struct Chunk<const L: usize> {
    /// For every void, if ways over its core lines were looked for.
    pub(super) floods: Vec<Option<Flood<L>>>,
    /// The least keys with which each dock is reached.
    pub(super) values: Vec<Lane<L>>,
}

/// How far beyond some ends a flood is looked at first, mm. A trade-off: a wide
/// one takes long, beyond a close one much can be worth it.
const CLOSE: i64 = 2000;

/// A set of sources, a bit for each.
type Mask = u8;

const ALL: Mask = Mask::MAX;

/// Floods being made.
struct Filling<'a, const L: usize> {
    fast: &'a FastNetwork<'a>,
    asks: &'a [Ask],
    chunk: Chunk<L>,
    /// For every void, whether its window was looked for.
    opened: Vec<bool>,
    /// For every void, the docks that let keys in anew.
    pending: Vec<Vec<usize>>,
    /// For every void, the docks where ways that are asked for come in, and
    /// the sources that ask.
    arrivals: Vec<Vec<(usize, Mask)>>,
    /// For every source, around its targets.
    goals: Vec<Option<Goal>>,
}

impl FastNetwork<'_> {
    /// The keys of up to so many sources.
    pub(super) fn fill<const L: usize>(&self, asks: &[Ask]) -> Chunk<L> {
        let mut filling = Filling {
            fast: self,
            asks,
            chunk: Chunk {
                floods: self.fields.iter().map(|_| None).collect(),
                values: vec![no_way(); self.docks.len()],
            },
            opened: vec![false; self.fields.len()],
            pending: vec![Vec::new(); self.fields.len()],
            arrivals: vec![Vec::new(); self.fields.len()],
            goals: asks.iter().map(|ask| Goal::of(self, &ask.targets)).collect(),
        };
        filling.begin();
        while let Some(void) = filling.pending.iter().position(|docks| !docks.is_empty()) {
            let mut fresh = std::mem::take(&mut filling.pending[void]);
            fresh.sort_unstable();
            fresh.dedup();
            if let Some(field) = &self.fields[void] {
                filling.cross(void, field, &fresh);
            }
        }
        filling.chunk
    }
}

impl<const L: usize> Filling<'_, L> {
    /// Lets the sources out of their walls.
    fn begin(&mut self) {
        let fast = self.fast;
        for (lane, ask) in self.asks.iter().enumerate() {
            for exit in &fast.ends[ask.source].exits {
                let value = &mut self.chunk.values[exit.dock][lane];
                *value = value.min(exit.key.to_lane());
                self.pending[fast.docks[exit.dock].void].push(exit.dock);
                self.go_on(exit.dock, &no_way());
            }
            for exit in ask.targets.iter().flat_map(|end| &fast.ends[*end].exits) {
                self.arrivals[fast.docks[exit.dock].void].push((exit.dock, 1 << lane));
            }
        }
        for docks in &mut self.arrivals {
            docks.sort_unstable();
            docks.dedup_by(|next, kept| {
                let same = next.0 == kept.0;
                if same {
                    kept.1 |= next.1;
                }
                same
            });
        }
    }

    /// From docks of a void to its other docks.
    fn cross(&mut self, void: usize, field: &Field, fresh: &[usize]) {
        let fast = self.fast;
        let arrivals = std::mem::take(&mut self.arrivals[void]);
        // Ways without crossings first: they bound the others.
        let mut nearer: Vec<usize> = Vec::new();
        for &(dock, mask) in &arrivals {
            if self.arrive(field, dock, fresh, mask, no_way(), &no_way()) {
                nearer.push(dock);
            }
        }
        let limit = self.let_in(void, field, fresh, &arrivals, &mut nearer);
        let flood = self.chunk.floods[void].take();
        let bend = fast.bend.to_lane();
        let over = |dock: usize| match &flood {
            Some(flood) => flood.leave(fast.stencil(field, dock)).map(|key| key + bend),
            None => no_way(),
        };
        if flood.is_some() {
            for &(dock, mask) in &arrivals {
                if self.arrive(field, dock, &[], mask, over(dock), &no_way()) {
                    nearer.push(dock);
                }
            }
        }
        // Where ways over crossings are known, few others need a look.
        let beside = flood.is_some().then(|| Beside::of(fast, fresh));
        for &gate in &fast.gates[void] {
            let most = self.most(gate, &limit);
            let lists = beside.as_ref().map_or([fresh, &[]], |all| all.to(&fast.docks[gate]));
            let mut less = self.arrive(field, gate, lists[0], ALL, over(gate), &most);
            if !lists[1].is_empty() {
                less |= self.arrive(field, gate, lists[1], ALL, no_way(), &most);
            }
            // A target may be a gate as well.
            if less || nearer.contains(&gate) {
                self.go_on(gate, &limit);
            }
        }
        self.chunk.floods[void] = flood;
        self.arrivals[void] = arrivals;
    }

    /// Floods the window of a void; gives the limits of the sources.
    fn let_in(
        &mut self,
        void: usize,
        field: &Field,
        fresh: &[usize],
        arrivals: &[(usize, Mask)],
        nearer: &mut Vec<usize>,
    ) -> Lane<L> {
        if !std::mem::replace(&mut self.opened[void], true) {
            self.chunk.floods[void] = self.open(field, fresh, arrivals, nearer);
            return self.limit();
        }
        let limit = self.limit();
        if let Some(mut flood) = self.chunk.floods[void].take() {
            self.flow(&mut flood, field, fresh, &limit);
            self.chunk.floods[void] = Some(flood);
        }
        limit
    }

    /// The flood of a void that is crossed for the first time; none where no way
    /// needs a crossing.
    ///
    /// A small one around the ends comes first: what it finds bounds the window,
    /// and often nothing beyond it can be worth it.
    fn open(
        &mut self,
        field: &Field,
        fresh: &[usize],
        arrivals: &[(usize, Mask)],
        nearer: &mut Vec<usize>,
    ) -> Option<Flood<L>> {
        let fast = self.fast;
        let window = self.window(field)?;
        let small = self.around(field, fresh, arrivals);
        let Some(small) = small.filter(|small| 2 * small.size() <= window.size()) else {
            return Some(self.flood(window, field, fresh));
        };
        let flood = self.flood(small, field, fresh);
        let bend = fast.bend.to_lane();
        for &(dock, mask) in arrivals {
            let over = flood.leave(fast.stencil(field, dock)).map(|key| key + bend);
            if self.arrive(field, dock, &[], mask, over, &no_way()) {
                nearer.push(dock);
            }
        }
        if fast.passes.is_empty() && self.is_enough(&flood, small, field, fresh) {
            return Some(flood);
        }
        let Some(window) = self.window(field) else { return Some(flood) };
        Some(self.flood(window, field, fresh))
    }

    fn flood(&self, window: Window, field: &Field, fresh: &[usize]) -> Flood<L> {
        let mut flood = Flood::within(window);
        self.flow(&mut flood, field, fresh, &self.limit());
        flood
    }

    /// Lets keys in at some docks.
    fn flow(&self, flood: &mut Flood<L>, field: &Field, fresh: &[usize], limit: &Lane<L>) {
        let bend = self.fast.bend.to_lane();
        for dock in fresh {
            let keys = self.chunk.values[*dock].map(|value| value + bend);
            flood.enter(self.fast.stencil(field, *dock), &keys);
        }
        field.prices.settle(flood, limit);
    }

    fn window(&self, field: &Field) -> Option<Window> {
        let at_most = |lane: usize, target: usize| self.at_most(lane, target);
        self.fast.window(&field.tracks, self.asks, &at_most)
    }

    /// The window close around some docks. None where voids lie in different frames.
    fn around(&self, field: &Field, fresh: &[usize], arrivals: &[(usize, Mask)]) -> Option<Window> {
        self.fast.compass?;
        let docks = fresh.iter().copied().chain(arrivals.iter().map(|one| one.0));
        let places: Vec<(i64, i64)> = docks.map(|dock| self.fast.docks[dock].spot.at()).collect();
        Window::within(&field.tracks, &Rect::around(&places)?.grown(CLOSE))
    }

    /// Whether no way that leaves the window of a flood, to which no other ways
    /// come than from these docks, costs as little as what is known.
    fn is_enough(&self, flood: &Flood<L>, window: Window, field: &Field, fresh: &[usize]) -> bool {
        let limit = self.limit();
        let at = |entry: &Entry| field.tracks.at((entry.i as usize, entry.j as usize));
        let worth = |entry: &Entry, come: &Lane<L>| {
            let there = at(entry);
            (0..self.asks.len()).any(|lane| self.is_worth(lane, there, come[lane], limit[lane]))
        };
        let over_boundary =
            window.boundary(&field.tracks).any(|entry| worth(&entry, &flood.least(&entry)));
        !over_boundary
            && fresh.iter().all(|dock| {
                let stencil = self.fast.stencil(field, *dock);
                let values = self.chunk.values[*dock].map(|value| value + self.fast.bend.to_lane());
                let beyond = stencil.u.iter().chain(&stencil.v);
                beyond
                    .filter(|entry| window.local(entry).is_none())
                    .all(|entry| !worth(entry, &values.map(|value| value + entry.key)))
            })
    }

    /// Whether a way of a source that has come to a place can go on to one of its
    /// targets and cost no more than is known.
    fn is_worth(&self, lane: usize, place: (i64, i64), come: f64, limit: f64) -> bool {
        let (Some(compass), Some(goal)) = (self.fast.compass, &self.goals[lane]) else {
            return false;
        };
        if come + goal.ahead(compass, place) > limit {
            return false;
        }
        self.asks[lane].targets.iter().any(|target| {
            let most = self.at_most(lane, *target);
            self.fast.ends[*target].exits.iter().any(|exit| {
                let there = self.fast.docks[exit.dock].spot.at();
                let rest = Key::new(compass.least(place, there), 0).then(exit.key);
                come + rest.to_lane() <= most
            })
        })
    }

    /// What the way from a source to one of its targets costs at most.
    fn at_most(&self, lane: usize, target: usize) -> f64 {
        let known = self.fast.direct(self.asks[lane].source, target).to_lane();
        let exits = &self.fast.ends[target].exits;
        // What no void leads to is not looked for in voids.
        let known = if exits.is_empty() { 0.0 } else { known };
        let arrive = |exit: &Exit| self.chunk.values[exit.dock][lane] + exit.key.to_lane();
        exits.iter().map(arrive).fold(known, f64::min)
    }

    /// For each source, what the dearest way asked for costs at most.
    fn limit(&self) -> Lane<L> {
        let mut limit = [0.0; L];
        for (lane, ask) in self.asks.iter().enumerate() {
            let all = ask.targets.iter().map(|to| self.at_most(lane, *to));
            limit[lane] = all.fold(0.0, f64::max);
        }
        limit
    }

    /// Updates what it costs to arrive at a dock, for some of the sources;
    /// whether that became less and is below the limit.
    fn arrive(
        &mut self,
        field: &Field,
        dock: usize,
        from: &[usize],
        mask: Mask,
        best: Lane<L>,
        limit: &Lane<L>,
    ) -> bool {
        let (fast, values) = (self.fast, &mut self.chunk.values);
        let bends = 2.0 * fast.bend.to_lane();
        let known = values[dock];
        // What a way must stay below, and what it must not exceed.
        let mut below = [0.0; L];
        for lane in (0..L).filter(|lane| mask & (1 << lane) != 0) {
            below[lane] = best[lane].min(known[lane]);
        }
        for other in from.iter().filter(|other| **other != dock) {
            let value = &values[*other];
            let near = fast.least(&field.tracks, *other, dock);
            let mut worth = false;
            for lane in 0..L {
                let least = value[lane] + near;
                worth |= (least < below[lane]) & (least <= limit[lane]);
            }
            if !worth {
                continue;
            }
            let (a, b) = (fast.docks[*other].spot, fast.docks[dock].spot);
            let way = join(&field.tracks, fast.bend, a, b).key.to_lane() + bends;
            for lane in 0..L {
                below[lane] = below[lane].min(value[lane] + way);
            }
        }
        let mut less = false;
        for lane in (0..L).filter(|lane| mask & (1 << lane) != 0) {
            if below[lane] < known[lane] && below[lane] <= limit[lane] {
                values[dock][lane] = below[lane];
                less = true;
            }
        }
        less
    }

    /// For each source, what coming to a dock may cost at most for any of its
    /// targets to be reached within the limit.
    fn most(&self, dock: usize, limit: &Lane<L>) -> Lane<L> {
        let mut most = *limit;
        if let Some(compass) = self.fast.compass {
            let at = self.fast.docks[dock].spot.at();
            for (most, goal) in most.iter_mut().zip(&self.goals) {
                *most -= goal.as_ref().map_or(0.0, |goal| goal.ahead(compass, at));
            }
        }
        most
    }

    /// From a dock through walls and risers.
    fn go_on(&mut self, dock: usize, limit: &Lane<L>) {
        let fast = self.fast;
        let mut stack = vec![dock];
        while let Some(from) = stack.pop() {
            for (to, key) in &fast.onward[from] {
                let most = self.most(*to, limit);
                let come = self.chunk.values[from].map(|value| value + key.to_lane());
                let there = &mut self.chunk.values[*to];
                let mut less = false;
                for lane in 0..L {
                    if come[lane] < there[lane] && come[lane] <= most[lane] {
                        there[lane] = come[lane];
                        less = true;
                    }
                }
                if less {
                    self.pending[fast.docks[*to].void].push(*to);
                    stack.push(*to);
                }
            }
        }
    }
}

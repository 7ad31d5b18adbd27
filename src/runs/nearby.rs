//! Circuits of large plans, searched for in windows around their own ends.
//!
//! All circuits of a board share one window, around all their ends. A way counts only where it is certain that none leaves the window and costs
//! as little; else the window grows, in the end to the whole. So the runs are
//! those of a search in the whole, sooner.

use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet};
use std::ops::Range;

use super::chain::Effort;
use super::circuit::{Routed, route_by};
use super::finder::Finder;
use super::house::House;
use super::marks::Marks;
use crate::plan::{BoardId, CircuitId, End, Plan};
use crate::space::{
    DetourBound, FastNetwork, Index, Modes, Planes, Reach, Rect, Space, Star, Terminal, Window,
};
use crate::units::{Mm, Watch};

/// When circuits are searched for in windows, and how large these are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Windows {
    /// How far a window reaches beyond the points of a circuit at first.
    pub margin: Mm,
    /// Only where the voids together reach over at least so many times the
    /// ground of the window.
    pub times: i64,
}

impl Windows {
    /// All circuits in the whole.
    pub const NEVER: Self = Self { margin: Mm::ZERO, times: i64::MAX };
}

impl Default for Windows {
    /// So that a house is searched as a whole, and a storey of many flats is not.
    fn default() -> Self {
        Self { margin: Mm::new(4000), times: 8 }
    }
}

/// A circuit before it is routed: its ends, the board first, and the box around
/// them and the walls that they are on.
struct Sketch {
    id: CircuitId,
    ends: Vec<(End, Terminal)>,
    all: Rect,
}

struct Search<'a> {
    plan: &'a Plan,
    house: &'a House<'a>,
    marks: &'a Marks<'a>,
    effort: &'a Effort,
    windows: &'a Windows,
    watch: &'a Watch,
    reach: Reach,
    /// Made when first asked for: houses are searched without.
    index: OnceCell<Index<'a>>,
}

/// Routes those of the circuits that windows serve.
pub(super) fn route_nearby(
    plan: &Plan,
    house: &House<'_>,
    marks: &Marks<'_>,
    wanted: &[CircuitId],
    effort: &Effort,
    windows: &Windows,
    watch: &Watch,
) -> BTreeMap<CircuitId, Routed> {
    let mut routed = BTreeMap::new();
    if *windows == Windows::NEVER {
        return routed;
    }
    let Some(reach) = house.space().reach() else { return routed };
    let index = OnceCell::new();
    let search = Search { plan, house, marks, effort, windows, watch, reach, index };
    let mut groups: BTreeMap<(BoardId, Modes), Vec<Sketch>> = BTreeMap::new();
    for id in wanted {
        if let Some((key, sketch)) = search.sketch(*id) {
            groups.entry(key).or_default().push(sketch);
        }
    }
    for ((_, modes), sketches) in groups {
        search.serve(modes, sketches, &mut routed);
    }
    routed
}

impl<'a> Search<'a> {
    fn index(&self) -> &Index<'a> {
        self.index.get_or_init(|| self.house.space().index())
    }

    /// A circuit, if it is small in a large space.
    fn sketch(&self, id: CircuitId) -> Option<((BoardId, Modes), Sketch)> {
        let circuit = self.plan.circuits.get(&id)?;
        let board = circuit.board?;
        if !circuit.pins.is_empty() {
            return None;
        }
        let space = self.house.space();
        let from = self.house.terminal(End::Board(board))?;
        let mut points: Option<Rect> = None;
        for point in self.house.points_on(id) {
            if let Some(terminal) = self.house.terminal(End::Point(*point)) {
                let own = ground(space, terminal);
                points = Some(points.map_or(own, |rect| rect.with(&own)));
            }
        }
        let points = points?;
        let window = points.grown(self.windows.margin.get());
        if self.windows.times.saturating_mul(area(&window)) > area(&self.reach.extent) {
            return None;
        }
        let ends = std::iter::once(End::Board(board))
            .chain(self.house.points_on(id).iter().copied().map(End::Point))
            .filter_map(|end| Some((end, self.house.terminal(end)?.clone())))
            .collect();
        let all = points.with(&ground(space, from));
        Some(((board, Modes::of(circuit.ways.as_deref())), Sketch { id, ends, all }))
    }

    /// Circuits of one board and the same ways.
    fn serve(&self, modes: Modes, mut left: Vec<Sketch>, routed: &mut BTreeMap<CircuitId, Routed>) {
        let mut margin = self.windows.margin.get();
        let mut stuck = Vec::new();
        while let Some(all) = left.iter().map(|one| one.all).reduce(|one, other| one.with(&other)) {
            if self.watch.is_stopped() {
                return;
            }
            let rect = self.board_rect(&all, margin);
            let window = self.index().within(rect);
            left = self.serve_in(&window, modes, left, routed, &mut stuck);
            if rect.covers(&self.reach.extent) {
                break;
            }
            margin *= 2;
        }
        for sketch in stuck {
            if self.watch.is_stopped() {
                return;
            }
            if let Some(run) = self.alone(modes, &sketch) {
                self.watch.step();
                routed.insert(sketch.id, run);
            }
        }
    }

    /// The window around all ends, with a margin.
    fn board_rect(&self, all: &Rect, margin: i64) -> Rect {
        // The farther the ends, the farther a way round can be worth it.
        let far = (all.u1 - all.u0 + all.v1 - all.v0).div_euclid(8);
        let rect = all.grown(margin + far.min(margin));
        if 2 * area(&rect.common(&self.reach.extent)) > area(&self.reach.extent) {
            return self.reach.extent.with(&rect);
        }
        rect
    }

    /// Routes those that a window is large enough for, and gives back the others;
    /// those apart that have an end which reaches no void.
    fn serve_in(
        &self,
        window: &Window,
        modes: Modes,
        sketches: Vec<Sketch>,
        routed: &mut BTreeMap<CircuitId, Routed>,
        stuck: &mut Vec<Sketch>,
    ) -> Vec<Sketch> {
        let board = sketches.first().and_then(|first| window.terminal(&first.ends[0].1));
        let Some(board) = board else { return sketches };
        let mut terminals = vec![board];
        let mut left = Vec::new();
        let mut placed = Vec::new();
        for sketch in sketches {
            let points = sketch.ends[1..].iter().map(|end| window.terminal(&end.1));
            if let Some(points) = points.collect::<Option<Vec<Terminal>>>() {
                let first = terminals.len();
                terminals.extend(points);
                placed.push((sketch, first..terminals.len()));
            } else {
                left.push(sketch);
            }
        }
        let fast = FastNetwork::of(&window.space, modes, &terminals).within(&self.reach);
        let (served, unserved): (Vec<_>, Vec<_>) = placed
            .into_iter()
            .partition(|(_, own)| fast.serves(&[0]) && own.clone().all(|end| fast.serves(&[end])));
        stuck.extend(unserved.into_iter().map(|one| one.0));
        if served.is_empty() {
            return left;
        }
        let targets: Vec<usize> = served.iter().flat_map(|(_, own)| own.clone()).collect();
        let found = Found {
            fast: &fast,
            space: &window.space,
            detour_bound: self.reach.detour_bound(&window.rect),
            star: fast.star(0, &targets),
        };
        for (sketch, own) in served {
            if self.watch.is_stopped() {
                return Vec::new();
            }
            match self.circuit(&found, &sketch, own) {
                Some(run) => {
                    self.watch.step();
                    routed.insert(sketch.id, run);
                }
                None => left.push(sketch),
            }
        }
        left
    }

    /// A circuit with an end that reaches no void, in windows of its own.
    fn alone(&self, modes: Modes, sketch: &Sketch) -> Option<Routed> {
        let space = self.house.space();
        let ends: Vec<Terminal> = sketch.ends.iter().map(|end| end.1.clone()).collect();
        let stuck = space.is_stuck(modes, &ends);
        // Within walls nothing leaves the window where all that are joined are in it.
        let walls = if stuck { self.index().joined_walls(modes, &ends) } else { BTreeSet::new() };
        let points = 1..ends.len();
        let mut margin = self.windows.margin.get();
        loop {
            let rect = self.board_rect(&sketch.all, margin);
            let window = self.index().within_joined(rect);
            let holds = walls.iter().all(|wall| window.whole(*wall).is_some());
            let here: Option<Vec<Terminal>> = ends.iter().map(|end| window.terminal(end)).collect();
            if let (Some(here), true) = (here, holds) {
                let planes = Planes::of(&window.space);
                let fast = FastNetwork::joined(&window.space, &planes, modes, &here, stuck);
                let fast = fast.within(&self.reach);
                let found = Found {
                    fast: &fast,
                    space: &window.space,
                    detour_bound: self.reach.detour_bound(&rect),
                    star: fast.star(0, &points.clone().collect::<Vec<_>>()),
                };
                if let Some(run) = self.circuit(&found, sketch, points.clone()) {
                    return Some(run);
                }
            }
            if rect.covers(&self.reach.extent) {
                return None;
            }
            margin *= 2;
        }
    }

    /// A circuit whose points have these numbers, if all of its ways are certain.
    fn circuit(&self, found: &Found<'_>, sketch: &Sketch, own: Range<usize>) -> Option<Routed> {
        let Found { fast, space, detour_bound, star } = found;
        if !star.are_certain(detour_bound, own.clone()) {
            return None;
        }
        let members: Vec<usize> = own.clone().collect();
        let group = fast.group(&members);
        let count = members.len();
        let mut pairs = (0..count).flat_map(|from| (from + 1..count).map(move |to| (from, to)));
        if !pairs.all(|(from, to)| group.is_certain(detour_bound, from, to)) {
            return None;
        }
        let ends = sketch.ends.iter().map(|end| end.0).collect();
        let finder = Finder::near(space, ends, group, star, own.start);
        let (plan, house, marks, effort) = (self.plan, self.house, self.marks, self.effort);
        let routed = route_by(plan, house, marks, sketch.id, effort, &finder);
        // Where legs turn from wall to wall, they depend on more walls.
        Some(if fast.is_joined() { Routed { keys: None, ..routed } } else { routed })
    }
}

/// A window with what was found in it: the ways from the board, the first end.
struct Found<'a> {
    fast: &'a FastNetwork<'a>,
    space: &'a Space,
    detour_bound: DetourBound,
    star: Star<'a>,
}

/// The box around an end, with the wall that it is on.
fn ground(space: &Space, terminal: &Terminal) -> Rect {
    match terminal {
        Terminal::Wall { wall, .. } => {
            let (a, b) = (space.walls[*wall].a, space.walls[*wall].b);
            Rect::new(a.x.get(), a.y.get(), b.x.get(), b.y.get()).grown(5)
        }
        Terminal::Upright { place, .. } => {
            let (x, y) = (place.x.get(), place.y.get());
            Rect::new(x, y, x, y).grown(5)
        }
        // No end of a circuit is in a void.
        Terminal::InVoid { at, .. } => Rect::new(at.0, at.1, at.0, at.1),
    }
}

fn area(rect: &Rect) -> i64 {
    (rect.u1 - rect.u0).saturating_mul(rect.v1 - rect.v0)
}

//! What was routed before, so that after a drag only what changed is done again.

use std::borrow::Cow;
use std::collections::BTreeMap;
use std::sync::Arc;

use super::Run;
use super::chain::Effort;
use crate::plan::{
    Circuit, CircuitId, Control, ControlId, End, Isolation, Plan, Point, PointId, isolations,
};
use crate::space::{Column, Key, Planes, Space, Tariff, Terminal, VoidField, WallField};

/// The runs of a plan as last routed, with all that each depended on.
///
/// A run is taken over only where everything that could change it is as it was,
/// and a leg only where everything that could change that leg is: nothing is
/// guessed, and what comes out is what routing from scratch gives.
#[derive(Clone, Debug, Default)]
pub struct Memory {
    ground: Option<Ground>,
    planes: Option<Planes>,
    runs: BTreeMap<CircuitId, Arc<Kept>>,
}

/// A run and what it came from.
#[derive(Debug)]
pub(super) struct Kept {
    needs: Needs<'static>,
    pub(super) run: Run,
    /// Its ends, the board first, and what legs between them take.
    pub(super) ends: Vec<End>,
    pub(super) keys: Vec<Vec<Key>>,
}

/// A run of a circuit of which nothing but places has changed since.
pub(super) struct Before {
    pub(super) kept: Arc<Kept>,
    /// For each of its ends, whether its place or its wall has changed.
    pub(super) changed: Vec<bool>,
}

/// What every run depends on: all voids, shafts and prices, and of each wall
/// what legs that only pass can see.
#[derive(Clone, Debug)]
struct Ground {
    voids: Arc<[VoidField]>,
    walls: Vec<Arc<WallField>>,
    risers: Vec<Vec<(usize, (i64, i64))>>,
    tariff: Tariff,
    effort: Effort,
}

/// What one run depends on besides: its circuit, and the walls on which it
/// ends with all their columns and rows.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Needs<'a> {
    circuit: Cow<'a, Circuit>,
    points: Vec<(PointId, Cow<'a, Point>)>,
    controls: Vec<(ControlId, Cow<'a, Control>)>,
    /// What its isolating switches cut off, which rooms decide too.
    isolations: Vec<Isolation>,
    terminals: Vec<Option<Terminal>>,
    walls: BTreeMap<usize, Arc<WallField>>,
}

impl Memory {
    /// Gets ready for a plan: forgets all where the ground has changed.
    pub(super) fn look_at(&mut self, space: &Space, effort: &Effort) {
        if !self.ground.as_ref().is_some_and(|ground| ground.is_under(space, effort)) {
            self.runs.clear();
            self.planes = None;
        }
        self.ground = Some(Ground::of(space, effort));
    }

    /// The core lines of the ground.
    pub(super) fn planes(&mut self, space: &Space) -> Planes {
        self.planes.get_or_insert_with(|| Planes::of(space)).clone()
    }

    /// The run of a circuit that needs this, if it was the same before.
    pub(super) fn recall(&self, id: CircuitId, needs: &Needs<'_>) -> Option<&Run> {
        self.runs.get(&id).filter(|known| known.needs == *needs).map(|known| &known.run)
    }

    /// What was known of a circuit, if nothing but places has changed.
    pub(super) fn before(&self, id: CircuitId, needs: &Needs<'_>) -> Option<Before> {
        let kept = self.runs.get(&id)?;
        let changed = kept.needs.changed(needs)?;
        Some(Before { kept: Arc::clone(kept), changed })
    }

    /// Keeps a run, with the keys between its ends, that depends on nothing
    /// else. Others are forgotten.
    pub(super) fn keep(
        &mut self,
        id: CircuitId,
        needs: Needs<'_>,
        run: Option<(&Run, Vec<Vec<Key>>)>,
    ) {
        let ends = needs.ends();
        match run {
            Some((run, keys)) if keys.len() == ends.len() => self.runs.insert(
                id,
                Arc::new(Kept { needs: needs.into_owned(), run: run.clone(), ends, keys }),
            ),
            _ => self.runs.remove(&id),
        };
    }
}

impl Ground {
    fn of(space: &Space, effort: &Effort) -> Self {
        Self {
            voids: Arc::clone(&space.voids),
            walls: space.walls.clone(),
            risers: space.risers.clone(),
            tariff: space.tariff,
            effort: *effort,
        }
    }

    /// Whether this is the ground of a space.
    fn is_under(&self, space: &Space, effort: &Effort) -> bool {
        self.effort == *effort
            && self.tariff == space.tariff
            && (Arc::ptr_eq(&self.voids, &space.voids) || self.voids == space.voids)
            && self.risers == space.risers
            && self.walls.len() == space.walls.len()
            && self.walls.iter().zip(&space.walls).all(|(known, wall)| is_alike(known, wall))
    }
}

/// Whether a wall is the same to legs that only pass: its accessories left
/// aside.
fn is_alike(known: &Arc<WallField>, wall: &Arc<WallField>) -> bool {
    if Arc::ptr_eq(known, wall) {
        return true;
    }
    let through = |column: &&Column| column.through;
    let WallField { id, build, insulation, a, b, length, floor, ceiling, .. } = wall.as_ref();
    let WallField { blocked, columns, sideways, above, below, .. } = wall.as_ref();
    (known.id, known.build, known.insulation) == (*id, *build, *insulation)
        && (known.a, known.b, known.length) == (*a, *b, *length)
        && (known.floor, known.ceiling, known.sideways) == (*floor, *ceiling, *sideways)
        && known.blocked == *blocked
        && known.above == *above
        && known.below == *below
        && known.columns.iter().filter(through).eq(columns.iter().filter(through))
}

impl<'a> Needs<'a> {
    /// What the run of a circuit depends on, with its points and where an end
    /// is, if it is where a cable can be.
    pub(super) fn of(
        (plan, space): (&'a Plan, &Space),
        circuit: CircuitId,
        points: &[PointId],
        terminal: impl Fn(End) -> Option<Terminal>,
    ) -> Self {
        let drawn = &plan.circuits[&circuit];
        let on_it = points.iter();
        let points: Vec<(PointId, Cow<'a, Point>)> =
            on_it.map(|id| (*id, Cow::Borrowed(&plan.points[id]))).collect();
        let has = |id: &PointId| points.iter().any(|point| point.0 == *id);
        let controls = plan
            .controls
            .iter()
            .filter(|(_, one)| one.lights.iter().chain(&one.switches).any(has))
            .map(|(id, control)| (*id, Cow::Borrowed(control)))
            .collect();
        let board = drawn.board.map(End::Board);
        let ends = board.into_iter().chain(points.iter().map(|point| End::Point(point.0)));
        let terminals: Vec<Option<Terminal>> = ends.map(terminal).collect();
        let on = terminals.iter().flatten().filter_map(Terminal::wall);
        let walls = on.map(|wall| (wall, Arc::clone(&space.walls[wall]))).collect();
        let ids: Vec<PointId> = points.iter().map(|point| point.0).collect();
        let isolations = isolations(plan, &ids);
        Self { circuit: Cow::Borrowed(drawn), points, controls, isolations, terminals, walls }
    }

    fn into_owned(self) -> Needs<'static> {
        fn own<Id, T: Clone>((id, thing): (Id, Cow<'_, T>)) -> (Id, Cow<'static, T>) {
            (id, Cow::Owned(thing.into_owned()))
        }
        Needs {
            circuit: Cow::Owned(self.circuit.into_owned()),
            points: self.points.into_iter().map(own).collect(),
            controls: self.controls.into_iter().map(own).collect(),
            isolations: self.isolations,
            terminals: self.terminals,
            walls: self.walls,
        }
    }

    /// Its placed ends, the board first.
    fn ends(&self) -> Vec<End> {
        let board = self.circuit.board.map(End::Board);
        let ends = board.into_iter().chain(self.points.iter().map(|point| End::Point(point.0)));
        let placed = ends.zip(&self.terminals).filter(|(_, terminal)| terminal.is_some());
        placed.map(|(end, _)| end).collect()
    }

    /// Which ends have changed: moved, or on a wall on which something has.
    /// None where anything but places is different.
    fn changed(&self, now: &Needs<'_>) -> Option<Vec<bool>> {
        let alike = |one: &(PointId, Cow<'_, Point>), other: &(PointId, Cow<'_, Point>)| {
            let moved = || Point { place: other.1.place, ..Point::clone(&one.1) };
            one.0 == other.0 && (one.1 == other.1 || moved() == *other.1)
        };
        let same = self.circuit == now.circuit
            && self.controls == now.controls
            && self.isolations == now.isolations
            && self.points.len() == now.points.len()
            && self.points.iter().zip(&now.points).all(|(one, other)| alike(one, other));
        if !same || self.terminals.len() != now.terminals.len() {
            return None;
        }
        let ends = self.terminals.iter().zip(&now.terminals);
        ends.map(|(one, other)| {
            let (one, other) = (one.as_ref()?, other.as_ref()?);
            let wall = other.wall();
            let stands = wall.is_none_or(|wall| self.walls.get(&wall) == now.walls.get(&wall));
            Some(one != other || !stands)
        })
        .collect()
    }
}

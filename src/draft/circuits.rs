//! Points shared out over circuits.
//!
//! Rules and rooms decide first, cable within them: lights, sockets, kitchens,
//! wet rooms, fixed appliances and alarms apart; storeys apart; lights over two
//! circuits at least. What was on a circuit already stays there.

use std::collections::{BTreeMap, BTreeSet};

use super::dwellings::Dwelling;
use super::kit::Kit;
use super::outline::area_m2;
use super::{Reason, Wayfare, part, size};
use crate::plan::{
    BoardId, Cable, CableMake, Circuit, CircuitId, CircuitUse, Curve, Device, End, Family, LevelId,
    LoopAt, Plan, PointId, PointKind, Regime, RoomId, RoomUse, Subject, Way, Wiring,
};
use crate::rules::RuleBook;
use crate::runs::chain::{Matrix, Shape};
use crate::runs::grouping::{GroupingEffort, Load, Task, group as share_out};
use crate::runs::{Distance, Distances};
use crate::space::Space;
use crate::units::{Amps, Cost, Csa, Mm};

/// What a circuit is for, as the table names it, and its order at the board.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Purpose {
    Lighting,
    Sockets,
    Kitchen,
    Wet,
    Fixed(PointKind),
    Alarms,
}

impl Purpose {
    const fn key(self) -> &'static str {
        match self {
            Self::Lighting => "lighting",
            Self::Sockets => "sockets",
            Self::Kitchen => "kitchen",
            Self::Wet => "wet",
            Self::Fixed(PointKind::Oven) => "oven",
            Self::Fixed(PointKind::Cooktop) => "cooktop",
            Self::Fixed(PointKind::AirConditioner) => "air_conditioner",
            Self::Fixed(_) => "appliance",
            Self::Alarms => "alarms",
        }
    }

    const fn usage(self) -> CircuitUse {
        match self {
            Self::Lighting => CircuitUse::Lighting,
            Self::Sockets | Self::Kitchen | Self::Wet => CircuitUse::Sockets,
            Self::Fixed(_) => CircuitUse::Fixed,
            Self::Alarms => CircuitUse::Alarms,
        }
    }

    fn name(self) -> String {
        match self {
            Self::Lighting => "Lights".to_owned(),
            Self::Sockets => "Sockets".to_owned(),
            Self::Kitchen => "Kitchen sockets".to_owned(),
            Self::Wet => "Laundry and bath sockets".to_owned(),
            Self::Fixed(kind) => {
                let name = kind.name();
                let mut letters = name.chars();
                letters.next().map_or_else(String::new, |first| {
                    first.to_uppercase().collect::<String>() + letters.as_str()
                })
            }
            Self::Alarms => "Alarms".to_owned(),
        }
    }
}

/// A circuit to be, its points, and why.
pub(super) struct Planned {
    pub(super) circuit: Circuit,
    pub(super) points: Vec<PointId>,
    pub(super) because: String,
}

/// Groups the points of every dwelling; dwellings are worked on side by side.
pub(super) fn group(kit: &mut Kit<'_>, dwellings: &[Dwelling]) {
    let points = points_of(kit, dwellings);
    let (plan, rules, way) = (&kit.plan, kit.rules, kit.options.way);
    let work = |index: usize| {
        let dwelling = &dwellings[index];
        let whole = dwellings.len() == 1;
        let part = if whole { plan.clone() } else { part::around(plan, dwelling, &points[index]) };
        dwelling.board.map(|board| one(part, rules, way, board, &points[index]))
    };
    let threads = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let threads = threads.min(dwellings.len()).max(1);
    let mut done: Vec<(usize, Option<Shared>)> = std::thread::scope(|scope| {
        let work = &work;
        let handles: Vec<_> = (0..threads)
            .map(|thread| {
                scope.spawn(move || {
                    let own = (thread..dwellings.len()).step_by(threads);
                    own.map(|index| (index, work(index))).collect::<Vec<_>>()
                })
            })
            .collect();
        handles.into_iter().flat_map(|handle| handle.join().unwrap_or_default()).collect()
    });
    done.sort_by_key(|(index, _)| *index);
    let mut made = Vec::new();
    for (index, shared) in done {
        let Some(shared) = shared else {
            no_board(kit, &dwellings[index], &points[index]);
            continue;
        };
        made.extend(shared.planned.into_iter().map(|planned| take_over(kit, planned)));
        leave_out(kit, &shared.lost);
        if let Some(board) = dwellings[index].board {
            ways_of(kit, board);
        }
    }
    if dwellings.len() > 1 && kit.plan.points.len() <= TOGETHER_MAX {
        let lost = size::together(kit, &made);
        leave_out(kit, &lost);
    }
}

/// Points of rooms that have no board.
fn no_board(kit: &mut Kit<'_>, dwelling: &Dwelling, points: &BTreeSet<PointId>) {
    if points.is_empty() {
        return;
    }
    let subject = dwelling.rooms.first().map_or(Subject::Plan, |room| Subject::Room(*room));
    let chosen = format!("{} points on no circuit", points.len());
    kit.reason(subject, chosen, "no board feeds these rooms: add one there and draft again");
}

/// Takes points that no cable reaches out again, and switches without lights.
fn leave_out(kit: &mut Kit<'_>, lost: &[PointId]) {
    let added: BTreeSet<PointId> = kit.added.values().flatten().copied().collect();
    let because = "no cable reaches it from the board: open a way, or add a board on its side";
    for id in lost {
        let Some(point) = kit.plan.points.get(id) else { continue };
        let kind = point.kind.name();
        let room = point.place.and_then(|place| kit.plan.room_of(&place));
        let name =
            room.map_or_else(String::new, |room| format!(" in {}", kit.plan.rooms[&room].name));
        if added.contains(id) {
            kit.plan.points.shift_remove(id);
            let subject = room.map_or(Subject::Plan, Subject::Room);
            kit.reason(subject, format!("{kind}{name} left out"), because);
        } else {
            kit.reason(Subject::Point(*id), format!("{kind}{name} on no circuit"), because);
        }
    }
    let mut idle: Vec<PointId> = Vec::new();
    let points = &kit.plan.points;
    kit.plan.controls.retain(|_, control| {
        control.lights.retain(|id| points.contains_key(id));
        control.switches.retain(|id| points.contains_key(id));
        if control.lights.is_empty() {
            idle.append(&mut control.switches);
        }
        !control.lights.is_empty() && !control.switches.is_empty()
    });
    for id in idle.iter().filter(|id| added.contains(id)) {
        kit.plan.points.shift_remove(id);
    }
}

/// Beyond so many points, dwellings are sized on their own only.
const TOGETHER_MAX: usize = 400;

/// What came of a dwelling: its circuits, and points that no cable reaches.
struct Shared {
    planned: Vec<Planned>,
    lost: Vec<PointId>,
}

fn take_over(kit: &mut Kit<'_>, mut planned: Planned) -> CircuitId {
    let id = CircuitId(kit.next_id());
    let on_board = |circuit: &&Circuit| circuit.board == planned.circuit.board;
    let numbers = kit.plan.circuits.values().filter(on_board).map(|circuit| circuit.number);
    planned.circuit.number = numbers.max().unwrap_or(0) + 1;
    for point in &planned.points {
        if let Some(point) = kit.plan.points.get_mut(point) {
            point.circuit = Some(id);
        }
    }
    let chosen = format!(
        "{}: {} points on {}",
        planned.circuit.name,
        planned.points.len(),
        planned.circuit.cable.map_or_else(String::new, |cable| cable.to_string())
    );
    kit.plan.circuits.insert(id, planned.circuit);
    let because = planned.because;
    kit.reasons.push(Reason { subject: Subject::Circuit(id), chosen, because });
    id
}

/// A board with a quarter to spare.
fn ways_of(kit: &mut Kit<'_>, board: BoardId) {
    let used = kit.plan.circuits.values().filter(|circuit| circuit.board == Some(board)).count();
    let ways = (used * 5).div_ceil(4).next_multiple_of(2);
    if let Some(drawn) = kit.plan.boards.get_mut(&board)
        && drawn.ways.is_none()
    {
        drawn.ways = u16::try_from(ways).ok();
        kit.reason(
            Subject::Board(board),
            format!("{ways} ways"),
            format!("{used} circuits and a quarter to spare (common practice)"),
        );
    }
}

/// The points without a circuit, by dwelling.
fn points_of(kit: &Kit<'_>, dwellings: &[Dwelling]) -> Vec<BTreeSet<PointId>> {
    let mut room_of: BTreeMap<PointId, RoomId> = BTreeMap::new();
    for (room, points) in &kit.added {
        room_of.extend(points.iter().map(|point| (*point, *room)));
    }
    let mut points = vec![BTreeSet::new(); dwellings.len()];
    let mut home: BTreeMap<RoomId, usize> = BTreeMap::new();
    for (index, dwelling) in dwellings.iter().enumerate() {
        home.extend(dwelling.rooms.iter().map(|room| (*room, index)));
    }
    for (id, point) in &kit.plan.points {
        let Some(place) = point.place.filter(|_| point.circuit.is_none()) else { continue };
        let room = room_of.get(id).copied().or_else(|| kit.plan.room_of(&place));
        let index = room.and_then(|room| home.get(&room)).copied().unwrap_or(0);
        if let Some(points) = points.get_mut(index) {
            points.insert(*id);
        }
    }
    // What one switch works belongs together, wherever the switch is.
    for control in kit.plan.controls.values() {
        let first = control
            .lights
            .iter()
            .chain(&control.switches)
            .find_map(|id| points.iter().position(|points| points.contains(id)));
        let Some(first) = first else { continue };
        for id in control.lights.iter().chain(&control.switches) {
            for other in &mut points {
                if other.remove(id) {
                    points[first].insert(*id);
                    break;
                }
            }
        }
    }
    points
}

/// What goes to one circuit whole: a point, or the lights and switches of a
/// control.
struct Unit {
    lead: PointId,
    points: Vec<PointId>,
    load: Load,
}

/// A dwelling's circuits.
fn one(
    mut plan: Plan,
    rules: &RuleBook,
    way: Wayfare,
    board: BoardId,
    points: &BTreeSet<PointId>,
) -> Shared {
    let mut planned = Vec::new();
    let lost = {
        let space = Space::of(&plan);
        let mut grouper = Grouper::new(&plan, rules, &space, way, board, points);
        for ((purpose, _), units) in grouper.sort(points) {
            grouper.share(purpose, units, &mut planned);
        }
        grouper.lost()
    };
    number(&plan, &mut planned);
    size::fit(&mut plan, rules, &mut planned);
    Shared { planned, lost }
}

/// Tells circuits of the same name apart.
fn number(plan: &Plan, planned: &mut [Planned]) {
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    for one in planned.iter() {
        *seen.entry(one.circuit.name.clone()).or_default() += 1;
    }
    let mut next: BTreeMap<String, usize> = BTreeMap::new();
    for one in planned.iter_mut() {
        if seen[&one.circuit.name] > 1 {
            let number = next.entry(one.circuit.name.clone()).or_default();
            *number += 1;
            one.circuit.name = format!("{} {number}", one.circuit.name);
        }
    }
    let taken = plan.circuits.values().map(|circuit| circuit.number).max().unwrap_or(0);
    for (one, number) in planned.iter_mut().zip(taken + 1..) {
        one.circuit.number = number;
    }
}

struct Grouper<'a> {
    plan: &'a Plan,
    rules: &'a RuleBook,
    regime: Regime,
    board: BoardId,
    way: Wayfare,
    /// The board, then every point without a circuit.
    ends: Vec<End>,
    /// Between all of them, whichever way.
    open: Vec<Vec<Option<Distance>>>,
    asked: BTreeMap<bool, Option<(Vec<Way>, Distances<'a>)>>,
    space: &'a Space,
}

impl<'a> Grouper<'a> {
    fn new(
        plan: &'a Plan,
        rules: &'a RuleBook,
        space: &'a Space,
        way: Wayfare,
        board: BoardId,
        points: &BTreeSet<PointId>,
    ) -> Self {
        let points = points.iter().copied().map(End::Point);
        let ends: Vec<End> = std::iter::once(End::Board(board)).chain(points).collect();
        let open = Distances::of(plan, space, None).between(&ends);
        let regime = plan.project.regime;
        Self { plan, rules, regime, board, way, ends, open, asked: BTreeMap::new(), space }
    }

    /// Where a point stands among the ends; points follow the board in order.
    fn index(&self, end: End) -> usize {
        self.ends.binary_search(&end).unwrap_or(0)
    }

    fn is_reached(&self, id: PointId) -> bool {
        self.open[0][self.index(End::Point(id))].is_some()
    }

    /// Points that no cable reaches from the board.
    fn lost(&self) -> Vec<PointId> {
        let point = |end: &End| match end {
            End::Point(id) => Some(*id),
            End::Board(_) => None,
        };
        self.ends.iter().filter_map(point).filter(|id| !self.is_reached(*id)).collect()
    }

    fn room_of(&self, id: PointId) -> Option<RoomId> {
        self.plan.room_of(self.plan.points[&id].place.as_ref()?)
    }

    fn level_of(&self, id: PointId) -> Option<LevelId> {
        self.plan.level_of(self.plan.points[&id].place.as_ref()?)
    }

    /// Points by purpose and storey.
    fn sort(&self, points: &BTreeSet<PointId>) -> BTreeMap<(Purpose, Option<LevelId>), Vec<Unit>> {
        let mut left: BTreeSet<PointId> =
            points.iter().copied().filter(|id| self.is_reached(*id)).collect();
        let mut units: BTreeMap<(Purpose, Option<LevelId>), Vec<Unit>> = BTreeMap::new();
        for control in self.plan.controls.values() {
            let reached = |ids: &[PointId]| -> Vec<PointId> {
                ids.iter().copied().filter(|id| left.contains(id)).collect()
            };
            let (lights, switches) = (reached(&control.lights), reached(&control.switches));
            let Some(lead) = lights.first().copied() else {
                for id in &switches {
                    left.remove(id);
                }
                continue;
            };
            if switches.is_empty() {
                continue;
            }
            let load = lights.iter().map(|id| self.load(*id)).fold(Load::default(), Load::and);
            let points: Vec<PointId> = lights.into_iter().chain(switches).collect();
            for id in &points {
                left.remove(id);
            }
            let key = (Purpose::Lighting, self.level_of(lead));
            units.entry(key).or_default().push(Unit { lead, points, load });
        }
        for id in left {
            let key = self.purpose(id);
            units.entry(key).or_default().push(Unit {
                lead: id,
                points: vec![id],
                load: self.load(id),
            });
        }
        self.merge(&mut units);
        units
    }

    fn purpose(&self, id: PointId) -> (Purpose, Option<LevelId>) {
        let point = &self.plan.points[&id];
        let usage = self.room_of(id).map(|room| self.plan.rooms[&room].usage);
        let purpose = match (point.kind.family(), point.kind) {
            (Family::Sockets, _) => match usage {
                Some(RoomUse::Kitchen) => Purpose::Kitchen,
                Some(RoomUse::Laundry | RoomUse::Bathroom | RoomUse::Toilet) => Purpose::Wet,
                _ => Purpose::Sockets,
            },
            (Family::Alarms, _) => Purpose::Alarms,
            (_, PointKind::ExhaustFan | PointKind::RangeHood) => Purpose::Lighting,
            (Family::Fixed, kind) => Purpose::Fixed(kind),
            _ => Purpose::Lighting,
        };
        let storey = match purpose {
            Purpose::Alarms | Purpose::Fixed(_) | Purpose::Kitchen | Purpose::Wet => None,
            _ => self.level_of(id),
        };
        (purpose, storey)
    }

    /// Few points do not make a circuit: a lone socket in a bathroom joins the
    /// others, a storey with little joins the one before.
    fn merge(&self, units: &mut BTreeMap<(Purpose, Option<LevelId>), Vec<Unit>>) {
        if units.get(&(Purpose::Wet, None)).is_some_and(|wet| wet.len() < 2) {
            let wet = units.remove(&(Purpose::Wet, None)).unwrap_or_default();
            let level = wet.first().and_then(|unit| self.level_of(unit.lead));
            units.entry((Purpose::Sockets, level)).or_default().extend(wet);
        }
        for purpose in [Purpose::Sockets, Purpose::Lighting] {
            let keys: Vec<_> = units.keys().filter(|key| key.0 == purpose).copied().collect();
            let few = |key: &(Purpose, Option<LevelId>)| units[key].len() < 3;
            let small: Vec<_> = keys.iter().copied().filter(|key| few(key)).collect();
            let Some(home) =
                keys.iter().copied().find(|key| !few(key)).or_else(|| keys.first().copied())
            else {
                continue;
            };
            for key in small.into_iter().filter(|key| *key != home) {
                let moved = units.remove(&key).unwrap_or_default();
                units.entry(home).or_default().extend(moved);
            }
        }
    }

    /// What a point loads a circuit with: gangs, and watts, or for rings the
    /// share of the floor that it serves, in hundredths of a m².
    fn load(&self, id: PointId) -> Load {
        let point = &self.plan.points[&id];
        if matches!(point.kind.family(), Family::Switches | Family::Junctions) {
            return Load::default();
        }
        let points = u32::from(point.gangs);
        let watts = if point.kind.family() == Family::Sockets {
            self.floor_share(id)
        } else {
            let key = kind_key(point.kind);
            let row = self.rules.row(self.regime, "point_load", &[key.as_str()]);
            let typical = row.map_or(0.0, |row| row.value() * f64::from(point.gangs));
            point.load.map_or(typical, |load| load.0)
        };
        Load { points, watts: whole(watts) }
    }

    fn floor_share(&self, id: PointId) -> f64 {
        let Some(room) = self.room_of(id) else { return 0.0 };
        let sockets = self.plan.points.values().filter(|point| {
            point.kind.family() == Family::Sockets
                && point.place.is_some_and(|place| self.plan.room_of(&place) == Some(room))
        });
        let count = u32::try_from(sockets.count()).unwrap_or(1).max(1);
        area_m2(&self.plan.rooms[&room].outline) * 100.0 / f64::from(count)
    }

    /// What a circuit holds, with the source of that.
    fn limit(&self, purpose: Purpose, rating: f64, ring: bool) -> (Load, String) {
        let usage = match purpose.usage() {
            CircuitUse::Lighting => "lighting",
            CircuitUse::Sockets => "sockets",
            _ => "",
        };
        let row = self.rules.row(self.regime, "points_per_circuit", &[usage, &rating.to_string()]);
        let points = row.as_ref().map_or(u32::MAX, |row| whole(row.value()));
        let source = row.map_or_else(|_| String::new(), |row| row.credit());
        match (purpose.usage(), self.regime) {
            // Area served, as the guides for rings and radials have it.
            (CircuitUse::Sockets, Regime::Bs) => {
                let area = if ring { 10_000 } else { 5_000 };
                let source = "100 m² a ring, 50 m² a radial (guide figures)".to_owned();
                (Load { points, watts: area }, source)
            }
            (CircuitUse::Sockets, _) => {
                let points = if points == u32::MAX { 16 } else { points };
                (Load { points, watts: u32::MAX }, source)
            }
            _ => (Load { points, watts: whole(rating * 230.0) }, source),
        }
    }

    /// The distances by which a purpose is grouped, and its ways.
    fn ways(
        &mut self,
        purpose: Purpose,
        ends: &[End],
    ) -> (Option<Vec<Way>>, Vec<Vec<Option<Distance>>>) {
        let lights = matches!(purpose, Purpose::Lighting | Purpose::Alarms);
        let list = match self.way {
            Wayfare::Mixed => None,
            Wayfare::Underfloor if !lights => Some(vec![Way::Underfloor, Way::InWall]),
            Wayfare::Overhead | Wayfare::Underfloor => Some(vec![Way::Overhead, Way::InWall]),
        };
        if let Some(list) = list {
            let (plan, space) = (self.plan, self.space);
            let asked = self.asked.entry(lights).or_insert_with(|| {
                let distances = Distances::of(plan, space, Some(&list));
                Some((list.clone(), distances))
            });
            if let Some((list, distances)) = asked {
                let rows = distances.between(ends);
                if rows[0][1..].iter().all(Option::is_some) {
                    return (Some(list.clone()), rows);
                }
            }
        }
        let indices: Vec<usize> = ends.iter().map(|end| self.index(*end)).collect();
        let row = |a: &usize| indices.iter().map(|b| self.open[*a][*b]).collect();
        (None, indices.iter().map(row).collect())
    }

    /// Shares the units of a purpose out.
    fn share(&mut self, purpose: Purpose, units: Vec<Unit>, planned: &mut Vec<Planned>) {
        let Ok(row) = self.rules.row(self.regime, "circuit_standard", &[purpose.key()]) else {
            return;
        };
        let (size, rating, fixed) = (
            row.number(0).unwrap_or(2.5),
            row.number(1).unwrap_or(16.0),
            row.number(5).unwrap_or(0.0),
        );
        let (curve, wiring, at) =
            (row.text(2).to_owned(), row.text(3).to_owned(), row.text(4).to_owned());
        let credit = row.credit();
        let ring = wiring == "ring";
        let (mut limit, limit_source) = self.limit(purpose, rating, ring);
        let all = units.iter().map(|unit| unit.load).fold(Load::default(), Load::and);
        let spread = self.rules.row(self.regime, "lights_spread", &["lights_on_one_max"]);
        let most = spread.map_or(u32::MAX, |row| whole(row.value()));
        let mut because = match purpose {
            Purpose::Kitchen => "a kitchen on its own".to_owned(),
            Purpose::Wet => "wet rooms apart".to_owned(),
            Purpose::Fixed(_) => "a fixed appliance on its own".to_owned(),
            Purpose::Alarms => "linked alarms on a circuit of their own".to_owned(),
            _ => "a storey's own".to_owned(),
        };
        let largest = units.iter().map(|unit| unit.load.points).max().unwrap_or(0);
        if purpose == Purpose::Lighting && all.points > most && units.len() > 1 && all.within(limit)
        {
            limit.points = all.points.div_ceil(2).max(largest);
            because.push_str("; over two circuits, so that one trip leaves some light");
        }
        if !limit_source.is_empty() {
            because = format!("{because}; {limit_source}");
        }
        let ends: Vec<End> = std::iter::once(End::Board(self.board))
            .chain(units.iter().map(|unit| End::Point(unit.lead)))
            .collect();
        let (ways, rows) = self.ways(purpose, &ends);
        if self.way != Wayfare::Mixed && ways.is_none() {
            because.push_str("; the way asked for does not reach all of it, so all ways are open");
        }
        let single = matches!(purpose, Purpose::Fixed(_));
        let shape = if ring && units.len() > 2 { Shape::Closed } else { Shape::Open };
        let fixed = Cost::of_mm(Mm::from_f64(fixed).map_or(0, Mm::get));
        for group in groups(&units, &rows, shape, limit, fixed, single) {
            let points: Vec<PointId> =
                group.iter().flat_map(|unit| units[*unit].points.iter().copied()).collect();
            let wiring = match wiring.as_str() {
                "ring" if group.len() > 2 => Wiring::Ring,
                "single" => Wiring::Single,
                _ => Wiring::Chain,
            };
            let circuit = Circuit {
                number: 0,
                name: purpose.name(),
                board: Some(self.board),
                usage: purpose.usage(),
                cable: Some(Cable {
                    cores: 2,
                    size: Csa::from_hundredths(whole(size * 100.0)),
                    make: CableMake::Flat,
                }),
                device: Some(Device {
                    rating: Amps(rating),
                    curve: if curve == "B" { Curve::B } else { Curve::C },
                    residual: Some(Amps(0.03)),
                }),
                wiring,
                loop_at: (purpose == Purpose::Lighting).then_some(if at == "switch" {
                    LoopAt::Switch
                } else {
                    LoopAt::Light
                }),
                ways: ways.clone(),
                order: Vec::new(),
                spurs: Vec::new(),
                pins: Vec::new(),
                phase: None,
                rcd_group: String::new(),
            };
            let because = format!("{because}; cable and device: {credit}");
            planned.push(Planned { circuit, points, because });
        }
    }
}

/// Units by their circuits.
fn groups(
    units: &[Unit],
    rows: &[Vec<Option<Distance>>],
    shape: Shape,
    limit: Load,
    fixed: Cost,
    single: bool,
) -> Vec<Vec<usize>> {
    if single {
        return (0..units.len()).map(|unit| vec![unit]).collect();
    }
    let clamp = |load: Load| Load {
        points: load.points.clamp(1, limit.points),
        watts: load.watts.min(limit.watts),
    };
    let loads =
        std::iter::once(Load::default()).chain(units.iter().map(|unit| clamp(unit.load))).collect();
    let task = Task { shape, loads, limit, fixed };
    let effort = GroupingEffort { steps: 2000, bound_steps: 1 };
    let found = Matrix::new(rows).ok().and_then(|matrix| share_out(&matrix, &task, &effort).ok());
    match found {
        Some(found) => {
            found.groups.iter().map(|group| group.iter().map(|end| end - 1).collect()).collect()
        }
        None => (0..units.len()).collect::<Vec<_>>().chunks(8).map(<[usize]>::to_vec).collect(),
    }
}

/// A kind as the tables name it.
fn kind_key(kind: PointKind) -> String {
    serde_json::to_value(kind)
        .ok()
        .and_then(|value| value.as_str().map(str::to_owned))
        .unwrap_or_default()
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped")]
fn whole(number: f64) -> u32 {
    libm::round(number.clamp(0.0, 1.0e9)) as u32
}

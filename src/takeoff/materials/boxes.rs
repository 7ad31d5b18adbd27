//! Boxes, by the build of the wall and the number of cables.

use std::collections::BTreeMap;

use super::entering::Entering;
use super::{ItemGroup, Kind, Tally};
use crate::plan::{End, Face, Family, Place, Plan, Point, PointId, PointKind, WallBuild};
use crate::rules::RuleBook;
use crate::rules::words::CustomOf;
use crate::runs::{Runs, Surrounding};
use crate::takeoff::practice::{
    COUNTED, HOLLOW_DEPTHS, MASONRY_DEPTHS, PRACTICE, SIDE_BY_SIDE, box_depth,
};
use crate::takeoff::{Origin, Quantity};

/// How a box sits.
enum Seat {
    Hollow,
    Masonry,
    Surface,
    Weatherproof,
    Floor,
}

/// Which boxes take more than a single plate.
pub(super) struct Shared {
    /// Points that sit in the box of another, with that one.
    beside: BTreeMap<PointId, PointId>,
    /// Whether a double socket takes a box of two gangs.
    double_is_wide: bool,
}

impl Shared {
    /// By what stands beside what, and the custom of the plan's rules.
    pub(super) fn of(plan: &Plan, rules: &RuleBook) -> Self {
        let custom = &rules.of(plan.project.regime).custom;
        let double_is_wide = custom.has(CustomOf::TwoGangBoxForDoubleSocket);
        Self { beside: beside(plan), double_is_wide }
    }
}

/// The box of a point, and a grommet for every cable into one of steel.
/// Fittings on a ceiling have their own base, and so have appliances off walls.
pub(super) fn count(
    plan: &Plan,
    runs: &Runs,
    id: PointId,
    point: &Point,
    entering: Entering,
    shared: &Shared,
    tally: &mut Tally,
) {
    let of = Origin::Point(id);
    let cables = entering.all;
    let item =
        |code: String, name: String, source| Kind { group: ItemGroup::Boxes, code, name, source };
    if point.kind == PointKind::JunctionBox {
        let kind = item("junction_box".to_owned(), "junction box".to_owned(), COUNTED);
        tally.add(kind, of, Quantity::Each(1));
        return;
    }
    // A pull-cord hangs on the ceiling, a weatherproof socket is its own box.
    if matches!(point.kind, PointKind::WeatherproofSocket | PointKind::PullCord) {
        return;
    }
    let Some(seat) = seat(plan, runs, id, point) else { return };
    // Two side by side share a box; the first of them has it.
    let shares = shared.beside.contains_key(&id);
    let (gangs, says) = if (shared.double_is_wide && is_double_socket(point))
        || shared.beside.values().any(|first| *first == id)
    {
        ("2_", ", two gang")
    } else {
        ("", "")
    };
    let kind = match seat {
        Seat::Hollow => {
            let depth = box_depth(point.kind, cables, &HOLLOW_DEPTHS);
            item(
                format!("box_hollow_{gangs}{depth}"),
                format!("box for hollow wall{says}, {depth} mm"),
                PRACTICE,
            )
        }
        Seat::Masonry => {
            let depth = box_depth(point.kind, cables, &MASONRY_DEPTHS);
            item(
                format!("box_masonry_{gangs}{depth}"),
                format!("steel box let into masonry{says}, {depth} mm"),
                PRACTICE,
            )
        }
        Seat::Surface => item("box_surface".to_owned(), "box on the surface".to_owned(), COUNTED),
        Seat::Weatherproof => {
            item("box_weatherproof".to_owned(), "weatherproof box".to_owned(), COUNTED)
        }
        Seat::Floor => item("box_floor".to_owned(), "floor box".to_owned(), COUNTED),
    };
    if !(shares && matches!(seat, Seat::Hollow | Seat::Masonry)) {
        tally.add(kind, of, Quantity::Each(1));
    }
    if matches!(seat, Seat::Masonry) {
        let grommet = Kind {
            group: ItemGroup::Fixings,
            code: "grommet".to_owned(),
            name: "grommet where a cable enters a steel box".to_owned(),
            source: PRACTICE,
        };
        tally.add(grommet, of, Quantity::Each(cables));
    }
}

/// Its plate takes a box of two gangs by one custom, a single one by another.
fn is_double_socket(point: &Point) -> bool {
    point.kind.family() == Family::Sockets && point.gangs == 2
}

/// Single plates of one circuit that sit side by side in one wall and share a
/// box of two gangs: the second of each two, with the first.
fn beside(plan: &Plan) -> BTreeMap<PointId, PointId> {
    let mut singles: Vec<_> = plan
        .points
        .iter()
        .filter(|(_, point)| {
            point.gangs <= 1 && matches!(point.kind.family(), Family::Sockets | Family::Switches)
        })
        .filter_map(|(id, point)| match point.place {
            Some(Place::Wall(on)) => {
                let line = (on.wall, on.face == Face::Left, on.height, point.circuit?);
                Some((line, on.along, *id))
            }
            _ => None,
        })
        .collect();
    singles.sort_unstable();
    let mut beside = BTreeMap::new();
    let mut at = 0;
    while at + 1 < singles.len() {
        let (one, next) = (singles[at], singles[at + 1]);
        if one.0 == next.0 && next.1 - one.1 <= SIDE_BY_SIDE {
            beside.insert(next.2, one.2);
            at += 1;
        }
        at += 1;
    }
    beside
}

/// A gland for every cable into a weatherproof box; one for armour is counted
/// with its cable.
pub(super) fn glands(
    plan: &Plan,
    id: PointId,
    point: &Point,
    entering: Entering,
    tally: &mut Tally,
) {
    let wet = match point.place {
        Some(Place::Wall(on)) => {
            plan.walls.get(&on.wall).is_some_and(|wall| wall.wet == Some(on.face))
        }
        Some(Place::Post(_)) => true,
        _ => false,
    };
    if wet || point.kind == PointKind::WeatherproofSocket {
        let gland = Kind {
            group: ItemGroup::Fixings,
            code: "gland".to_owned(),
            name: "gland where a cable enters a weatherproof box".to_owned(),
            source: PRACTICE,
        };
        tally.add(gland, Origin::Point(id), Quantity::Each(entering.all - entering.armoured));
    }
}

fn seat(plan: &Plan, runs: &Runs, id: PointId, point: &Point) -> Option<Seat> {
    Some(match point.place? {
        Place::Ceiling(_) => return None,
        Place::Floor(_) => Seat::Floor,
        Place::Post(_) => Seat::Weatherproof,
        Place::Wall(on) => {
            let wall = plan.walls.get(&on.wall)?;
            if wall.wet == Some(on.face) {
                Seat::Weatherproof
            } else if on_surface(runs, End::Point(id)) {
                Seat::Surface
            } else {
                match wall.build {
                    WallBuild::Stud | WallBuild::BrickVeneer | WallBuild::LathAndPlaster => {
                        Seat::Hollow
                    }
                    WallBuild::SolidMasonry
                    | WallBuild::CavityMasonry
                    | WallBuild::DoubleBrick
                    | WallBuild::Concrete => Seat::Masonry,
                    WallBuild::Screen => Seat::Surface,
                }
            }
        }
    })
}

/// Whether a cable comes to an end on the face of its wall.
fn on_surface(runs: &Runs, end: End) -> bool {
    let legs = runs.circuits.values().flat_map(|run| &run.legs);
    legs.filter_map(|leg| {
        let segments = &leg.route.segments;
        let last = if leg.from == end { segments.first() } else { segments.last() };
        last.filter(|_| leg.from == end || leg.to == end)
    })
    .any(|segment| segment.through == Surrounding::Surface)
}

//! Boxes, by the build of the wall and the number of cables.

use super::{ItemGroup, Kind, Tally};
use crate::plan::{End, Place, Plan, Point, PointId, PointKind, WallBuild};
use crate::runs::{Runs, Surrounding};
use crate::takeoff::practice::{COUNTED, HOLLOW_DEPTHS, MASONRY_DEPTHS, PRACTICE, box_depth};
use crate::takeoff::{Origin, Quantity};

/// How a box sits.
enum Seat {
    Hollow,
    Masonry,
    Surface,
    Weatherproof,
    Floor,
}

/// The box of a point, and a grommet for every cable into one of steel.
/// Fittings on a ceiling have their own base, and so have appliances off walls.
pub(super) fn count(
    plan: &Plan,
    runs: &Runs,
    id: PointId,
    point: &Point,
    cables: u32,
    tally: &mut Tally,
) {
    let of = Origin::Point(id);
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
    let kind = match seat {
        Seat::Hollow => {
            let depth = box_depth(point.kind, cables, &HOLLOW_DEPTHS);
            item(
                format!("box_hollow_{depth}"),
                format!("box for hollow wall, {depth} mm"),
                PRACTICE,
            )
        }
        Seat::Masonry => {
            let depth = box_depth(point.kind, cables, &MASONRY_DEPTHS);
            item(
                format!("box_masonry_{depth}"),
                format!("steel box let into masonry, {depth} mm"),
                PRACTICE,
            )
        }
        Seat::Surface => item("box_surface".to_owned(), "box on the surface".to_owned(), COUNTED),
        Seat::Weatherproof => {
            item("box_weatherproof".to_owned(), "weatherproof box".to_owned(), COUNTED)
        }
        Seat::Floor => item("box_floor".to_owned(), "floor box".to_owned(), COUNTED),
    };
    tally.add(kind, of, Quantity::Each(1));
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

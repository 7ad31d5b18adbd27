//! Every way to be wrong that the checker knows, done on purpose.

use wirewend::plan::{
    Area, AreaEffect, AreaId, CircuitId, ControlId, LevelId, LoopAt, OpeningId, Plane, PointId,
    PointKind, RiserId, VoidId, WallBuild, WallId, Way,
};
use wirewend::runs::{Heading, LegRole, Surrounding};
use wirewend::units::{Cost, Mm, Point2};

use super::super::checker::Code;
use super::drawn::{DB, on_wall, p, point};
use super::job::{Job, foreign};

/// What is done, what the checker must say, and how to do it.
pub(super) type Break = (&'static str, &'static [Code], fn(&mut Job));

fn keep_out(job: &mut Job, on: Plane, (x0, y0): (i64, i64), (x1, y1): (i64, i64)) {
    let outline =
        vec![Point2::new(x0, y0), Point2::new(x1, y0), Point2::new(x1, y1), Point2::new(x0, y1)];
    let area = Area { name: String::new(), on, outline, effect: AreaEffect::KeepOut };
    job.plan.areas.insert(AreaId(1), area);
}

fn outline(x0: i64, y0: i64, x1: i64, y1: i64) -> Option<Vec<Point2>> {
    Some(vec![Point2::new(x0, y0), Point2::new(x1, y0), Point2::new(x1, y1), Point2::new(x0, y1)])
}

/// Lets three switches in order work all the lights, rightly wired.
pub(super) fn three_switches(job: &mut Job) {
    job.plan.controls.shift_remove(&ControlId(2));
    let control = &mut job.plan.controls[&ControlId(1)];
    control.lights.extend([PointId(4), PointId(7)]);
    control.switches.push(PointId(8));
    control.in_order = true;
    let leg = job.leg(2, 6);
    (leg.role, leg.from) = (LegRole::Strappers, p(6));
    leg.cable = leg.cable.map(|cable| cable.with_cores(3));
    job.redraw(2, 6, |pen| {
        let roof = pen.climb(1, 2400).plate(1, 2600).cross(1, 5500, 2000).cross(1, 6000, 2000);
        roof.plate(2, 2400).climb(2, 1100)
    });
    let mut link = job.leg(2, 2).clone();
    link.role = LegRole::LightLink;
    job.run(2).legs.push(link);
    job.number(2);
}

/// Wrong ways of a leg.
pub(super) const LEGS: &[Break] = &[
    ("stops 100 mm above its socket", &[Code::Ends], |job| {
        job.redraw(1, 1, |pen| {
            let roof = pen.climb(4, 2400).plate(4, 2600).cross(1, 1000, 2000);
            roof.cross(1, 1000, 0).plate(1, 2400).climb(1, 400)
        });
    }),
    ("has no way at all", &[Code::Ends], |job| job.redraw(1, 1, |pen| pen)),
    ("jumps 1 mm", &[Code::Gap], |job| {
        job.leg(1, 1).route.segments[3].from.y = Mm::new(2001);
    }),
    ("has a segment without length", &[Code::ZeroSegment], |job| {
        let segments = &mut job.leg(1, 1).route.segments;
        let mut last = segments[5].clone();
        (last.from, last.length) = (last.to, Mm::ZERO);
        segments.push(last);
    }),
    ("says a segment is 100 mm longer", &[Code::SegmentLength], |job| {
        job.leg(1, 1).route.segments[2].length += Mm::new(100);
        job.leg(1, 1).route.length += Mm::new(100);
        job.settle(1);
    }),
    ("says the route is 100 mm longer", &[Code::RouteLength], |job| {
        job.leg(1, 1).route.length += Mm::new(100);
        job.settle(1);
    }),
    ("says across for along", &[Code::Heading], |job| {
        job.leg(1, 1).route.segments[2].heading = Heading::AcrossJoists;
    }),
    ("says up for down", &[Code::Heading], |job| {
        job.leg(1, 1).route.segments[5].heading = Heading::Up;
    }),
    ("bends 100 mm too late", &[Code::Askew], |job| {
        job.redraw(1, 1, |pen| {
            let roof = pen.climb(4, 2400).plate(4, 2600).cross(1, 1100, 2000);
            roof.cross(1, 1000, 0).plate(1, 2400).climb(1, 300)
        });
    }),
    ("lies beyond the end of its wall", &[Code::OffWall], |job| {
        job.plan.walls[&WallId(5)].b = Point2::new(3000, 3000);
    }),
    ("lies beside its wall", &[Code::OffWall, Code::ForeignWall], |job| {
        job.leg(1, 1).route.segments[5].plane = Some(Plane::Wall(WallId(3)));
    }),
    ("lies 50 mm above its void", &[Code::OffVoid, Code::Plate], |job| {
        job.redraw(2, 2, |pen| pen.pass(2650).cross(1, 4500, 2000).pass(2400));
    }),
    ("leaves its void", &[Code::OutsideVoid], |job| {
        job.plan.voids[&VoidId(1)].outline = outline(-100, -100, 6100, 3400);
    }),
    ("leaves what the walls and rooms cover", &[Code::OutsideVoid], |job| {
        job.redraw(1, 1, |pen| {
            let roof = pen.climb(4, 2400).plate(4, 2600).cross(1, -500, 2000);
            let around = roof.cross(1, -500, 1000).cross(1, 1000, 1000);
            around.cross(1, 1000, 0).plate(1, 2400).climb(1, 300)
        });
    }),
    ("crosses a void in no plane", &[Code::NoPlane, Code::Heading], |job| {
        job.leg(1, 1).route.segments[2].plane = None;
    }),
    ("goes up as if all were plate", &[Code::Plate], |job| {
        job.redraw(1, 1, |pen| {
            let roof = pen.plate(4, 2600).cross(1, 1000, 2000);
            roof.cross(1, 1000, 0).plate(1, 2400).climb(1, 300)
        });
    }),
    ("goes up where there is no riser", &[Code::Plate], |job| {
        job.plan.risers[&RiserId(1)].at = Point2::new(5000, 2500);
    }),
    ("goes down a post into no ground", &[Code::Post, Code::OutsideVoid], |job| {
        job.plan.voids[&VoidId(3)].outline = outline(-1000, -2000, 9000, 5000);
    }),
    ("goes through concrete", &[Code::Concrete], |job| {
        job.plan.voids[&VoidId(1)].outline = outline(-100, -100, 6100, 4100);
        job.plan.levels[&LevelId(1)].above.clear();
    }),
    ("leaves out a plate", &[Code::Gap, Code::Joint], |job| {
        let length = job.leg(1, 1).route.segments.remove(1).length;
        job.leg(1, 1).route.length = job.leg(1, 1).route.length - length;
        job.settle(1);
    }),
    ("goes through a window's margin", &[Code::Opening], |job| {
        job.plan.openings[&OpeningId(1)].sill = Mm::new(370);
    }),
    ("goes through a keep-out in a void", &[Code::KeepOut], |job| {
        keep_out(job, Plane::Void(VoidId(1)), (500, 1900), (900, 2100));
    }),
    ("goes through a keep-out on a wall", &[Code::KeepOut], |job| {
        keep_out(job, Plane::Wall(WallId(1)), (2000, 200), (2500, 400));
    }),
    ("comes out in a keep-out", &[Code::KeepOut], |job| {
        keep_out(job, Plane::Void(VoidId(1)), (900, -100), (1100, 100));
    }),
    ("runs in a screen", &[Code::Screen], |job| {
        job.plan.walls[&WallId(1)].build = WallBuild::Screen;
    }),
    ("goes sideways level with nothing", &[Code::SidewaysZone], |job| {
        job.redraw(1, 2, |pen| pen.climb(1, 600).sideways(1, 4500, 0).climb(1, 300));
    }),
    ("goes upright in line with nothing", &[Code::UprightZone], |job| {
        job.redraw(1, 2, |pen| {
            pen.climb(1, 2300).sideways(1, 4200, 0).climb(1, 300).sideways(1, 4500, 0)
        });
    }),
    ("goes through another wall beside a socket", &[Code::ForeignWall], |job| {
        job.redraw(8, 1, |pen| foreign(pen.climb(4, 2400).plate(4, 2600), 3000));
    }),
    ("turns a corner where there is a void", &[Code::Corner], |job| {
        job.plan.levels[&LevelId(2)].above.push(VoidId(1));
    }),
    ("says subfloor in the roof", &[Code::Surrounding], |job| {
        job.leg(1, 1).route.segments[2].through = Surrounding::Subfloor;
    }),
    ("says chase in a stud wall", &[Code::Surrounding], |job| {
        job.leg(1, 1).route.segments[0].through = Surrounding::Chase;
    }),
    ("forgets the insulation in the roof", &[Code::Insulation], |job| {
        job.leg(1, 1).route.segments[2].insulation = Mm::ZERO;
    }),
    ("forgets the insulation of a wall", &[Code::Insulation], |job| {
        job.plan.walls[&WallId(3)].insulated = true;
    }),
    ("goes sideways in walls without leave", &[Code::Way], |job| {
        job.plan.circuits[&CircuitId(1)].ways = Some(vec![Way::Overhead]);
    }),
    ("goes overhead without leave", &[Code::Way], |job| {
        job.plan.circuits[&CircuitId(1)].ways = Some(vec![Way::InWall, Way::Underfloor]);
    }),
    ("goes underground without leave", &[Code::Way], |job| {
        job.plan.circuits[&CircuitId(6)].ways = Some(vec![Way::Underfloor]);
    }),
];

/// Wrong runs and orders.
pub(super) const RUNS: &[Break] = &[
    ("leaves out a circuit", &[Code::RunMissing], |job| {
        job.runs.circuits.shift_remove(&CircuitId(8));
    }),
    ("leaves out a point", &[Code::PointMissed], |job| {
        let socket = point(PointKind::Socket, on_wall(1, 2000, 300), 1);
        job.plan.points.insert(PointId(99), socket);
    }),
    ("calls a leg another circuit's", &[Code::Stranger], |job| {
        job.leg(1, 1).circuit = CircuitId(2);
    }),
    ("numbers a leg wrongly", &[Code::Numbers], |job| job.leg(1, 2).number = 5),
    ("feeds a point by a spur too", &[Code::Visits], |job| {
        let mut leg = job.leg(5, 1).clone();
        leg.role = LegRole::Spur;
        job.run(5).legs.push(leg);
        job.number(5);
    }),
    ("orders the feed otherwise than it goes", &[Code::Shape], |job| {
        job.run(2).order.ends.swap(1, 2);
    }),
    ("leaves a ring open", &[Code::Ring], |job| {
        job.run(4).legs.pop();
        job.settle(4);
    }),
    ("does not keep the order that was set", &[Code::FixedOrder], |job| {
        job.plan.circuits[&CircuitId(1)].order = vec![PointId(2), PointId(1)];
    }),
    ("hangs a spur elsewhere", &[Code::Spur], |job| {
        job.plan.circuits[&CircuitId(5)].spurs[0].from = DB;
    }),
    ("wires an appliance before its isolating switch", &[Code::Isolator], |job| {
        job.plan.points[&PointId(1)].kind = PointKind::Oven;
        job.plan.points[&PointId(2)].kind = PointKind::Isolator;
    }),
    ("leaves an appliance in a ring with its isolating switch", &[Code::Isolator], |job| {
        job.plan.points[&PointId(11)].kind = PointKind::Isolator;
        job.plan.points[&PointId(12)].kind = PointKind::Oven;
    }),
    ("misses a pin", &[Code::Pin], |job| {
        job.plan.circuits[&CircuitId(5)].pins[0].through[0].at = Point2::new(2000, 3000);
    }),
    ("passes its pins the wrong way round", &[Code::Pin], |job| {
        let through = &mut job.plan.circuits[&CircuitId(5)].pins[0].through;
        let mut nearer_the_board = through[0];
        nearer_the_board.at = Point2::new(1000, 2500);
        through.insert(0, nearer_the_board);
    }),
    ("loops at the lights instead of the switches", &[Code::Loop, Code::Control], |job| {
        job.plan.circuits[&CircuitId(2)].loop_at = Some(LoopAt::Switch);
    }),
    ("leaves out a switch leg", &[Code::PointMissed, Code::Control], |job| {
        job.run(2).legs.pop();
    }),
    ("joins a switch twice to its light", &[Code::Control], |job| {
        let leg = job.leg(2, 6).clone();
        job.run(2).legs.push(leg);
        job.number(2);
    }),
    ("joins a switch to a light of another control", &[Code::Control], |job| {
        job.leg(2, 6).from = p(3);
        job.redraw(2, 6, |pen| pen.pass(2600).cross(1, 6000, 2000).plate(2, 2400).climb(2, 1100));
    }),
    ("has a strapper too many", &[Code::Strappers], |job| {
        let leg = job.leg(2, 4).clone();
        job.run(2).legs.push(leg);
        job.number(2);
    }),
    ("joins two switches by their light alone", &[Code::Strappers], |job| {
        let cable = job.leg(2, 3).cable;
        let leg = job.leg(2, 4);
        (leg.role, leg.from, leg.cable) = (LegRole::SwitchLeg, p(3), cable);
        job.redraw(2, 4, |pen| {
            let roof = pen.pass(2600).cross(1, 5500, 2000).cross(1, 5500, 0);
            roof.plate(1, 2400).climb(1, 1100)
        });
    }),
    ("straps three switches out of order", &[Code::Strappers], |job| {
        three_switches(job);
        job.plan.controls[&ControlId(1)].switches.swap(0, 1);
    }),
    ("does not link two alarms", &[Code::Interlink], |job| {
        let leg = job.leg(3, 2);
        leg.role = LegRole::Feed;
        leg.cable = leg.cable.map(|cable| cable.with_cores(2));
    }),
    ("straps with two cores", &[Code::Cores], |job| {
        let leg = job.leg(2, 4);
        leg.cable = leg.cable.map(|cable| cable.with_cores(2));
    }),
    ("adds up an order wrongly", &[Code::OrderCost], |job| {
        let order = &mut job.run(1).order;
        order.cost += Cost::of_mm(10);
        order.bound = order.cost;
    }),
    ("has a bound above the cost", &[Code::Bound], |job| {
        job.run(1).order.bound += Cost::new(1);
    }),
    ("calls an order best with a gap", &[Code::Proof], |job| {
        job.run(1).order.bound = Cost::new(1000);
    }),
    ("has a lopsided matrix", &[Code::Matrix], |job| job.run(1).order.matrix[0][1] = None),
    ("has a matrix that disagrees with a leg", &[Code::Matrix], |job| {
        let matrix = &mut job.run(1).order.matrix;
        let mut other = matrix[0][1].expect("there is a leg");
        other.length += Mm::new(1);
        (matrix[0][1], matrix[1][0]) = (Some(other), Some(other));
    }),
];

/// Wrong lengths.
pub(super) const LENGTHS: &[Break] = &[
    ("leaves out a length", &[Code::LengthMissing, Code::CableTotal], |job| {
        job.lengths.circuits[&CircuitId(1)].pop();
    }),
    ("is shorter than its way", &[Code::RouteShort, Code::Cut], |job| {
        job.length(1, 1).route.value = Mm::new(6399);
    }),
    ("adds 10 mm along the way", &[Code::RouteTerms], |job| {
        job.length(1, 1).route.value += Mm::new(10);
    }),
    ("has a tail 10 mm short", &[Code::Tail], |job| {
        job.length(1, 1).tail_from = Mm::new(1490);
    }),
    ("is cut a step too long", &[Code::Cut, Code::CableTotal], |job| {
        job.length(1, 1).cut.value += Mm::new(100);
    }),
    ("forgets the drip loop", &[Code::Cut, Code::CableTotal], |job| {
        let cut = &mut job.length(8, 2).cut;
        cut.value -= Mm::new(300);
    }),
    ("loses what was measured", &[Code::Measured], |job| job.length(1, 2).measured = None),
    ("makes up what was not measured", &[Code::Measured], |job| {
        job.length(1, 1).measured = Some(Mm::new(9000));
    }),
    ("counts a piece too many", &[Code::CableTotal], |job| job.lengths.cables[0].pieces += 1),
    ("orders 1 mm too little", &[Code::OrderLength], |job| {
        let order = &mut job.lengths.cables[0].order;
        order.value -= Mm::new(1);
    }),
];

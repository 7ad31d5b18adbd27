//! The checker says nothing about what is right, and says what is wrong about
//! what was made wrong on purpose.

mod breaks;
mod drawn;
mod job;
mod pen;

use std::collections::BTreeSet;

use wirewend::plan::{
    Area, AreaEffect, AreaId, Finding, Place, Plane, PointId, PointKind, Severity, Subject, VoidId,
    WallId,
};
use wirewend::units::{Angle, Cost, Mm, Point2, Point3};

use super::checker::{Code, Complaint, judge, judge_costs};
use breaks::{Break, LEGS, LENGTHS, RUNS, three_switches};
use job::{Job, only};

fn words(complaints: &[Complaint]) -> String {
    complaints.iter().map(|one| format!("\n  {one}")).collect()
}

/// That exactly these codes are complained of, however often each.
fn expect(what: &str, complaints: &[Complaint], codes: &[Code]) {
    let said: BTreeSet<Code> = complaints.iter().map(|one| one.code).collect();
    let wanted: BTreeSet<Code> = codes.iter().copied().collect();
    assert_eq!(said, wanted, "{what}:{}", words(complaints));
}

#[test]
fn what_is_right_is_passed_in_silence() {
    let job = Job::right();
    expect("the house as drawn", &judge(&job.plan, &job.runs, Some(&job.lengths)), &[]);
}

#[test]
fn three_switches_on_one_row_of_strappers_are_passed_in_silence() {
    let mut job = Job::right();
    three_switches(&mut job);
    expect("three switches", &judge(&job.plan, &job.runs, None), &[]);
}

#[test]
fn the_lengths_of_a_leg_are_as_worked_by_hand() {
    // Geometry 900 + 200 + 1000 + 2000 + 200 + 2100 = 6400; two plates at 150;
    // 5 % of 6400; a loop of 500; tails of 1500 and 450: 9470, so 9500.
    let mut job = Job::right();
    let length = job.length(1, 1);
    assert_eq!(length.route.value, Mm::new(6400 + 300 + 320 + 500), "along the way");
    assert_eq!(length.cut.value, Mm::new(9500), "to cut");
}

#[test]
fn every_break_is_complained_of_and_nothing_else() {
    for (what, codes, make) in LEGS.iter().chain(RUNS) {
        let mut job = Job::right();
        make(&mut job);
        expect(what, &judge(&job.plan, &job.runs, None), codes);
    }
    for (what, codes, make) in LENGTHS {
        let mut job = Job::right();
        make(&mut job);
        expect(what, &judge(&job.plan, &job.runs, Some(&job.lengths)), codes);
    }
}

#[test]
fn every_code_has_a_break() {
    let broken: BTreeSet<Code> = [LEGS, RUNS, LENGTHS]
        .into_iter()
        .flatten()
        .flat_map(|(_, codes, _): &Break| codes.iter().copied())
        // The cost has tests of its own below.
        .chain([Code::Cost])
        .collect();
    let silent: Vec<&Code> = Code::ALL.iter().filter(|code| !broken.contains(*code)).collect();
    assert!(silent.is_empty(), "no break shows that these work: {silent:?}");
}

#[test]
fn a_complaint_says_where() {
    let mut job = Job::right();
    job.leg(1, 1).route.segments[2].insulation = Mm::ZERO;
    let complaints = judge(&job.plan, &job.runs, None);
    let first = complaints.first().expect("the insulation is wrong");
    assert_eq!((first.leg, first.segment), (Some(1), Some(2)), "{first}");
    assert!(first.to_string().starts_with("insulation C1 leg 1 segment 2: "), "{first}");
}

#[test]
fn a_point_that_a_finding_names_need_not_be_reached() {
    let mut job = Job::right();
    let socket = drawn::point(PointKind::Socket, drawn::on_wall(1, 2000, 300), 1);
    job.plan.points.insert(PointId(99), socket);
    let subject = Subject::Point(PointId(99));
    let finding = Finding::new("unreached-point", Severity::Fault, subject, "no way", "");
    job.runs.findings.push(finding);
    expect("an excused point", &judge(&job.plan, &job.runs, None), &[]);
}

/// Turns the whole house and its cables, rounding every place anew, as a house
/// that is not square to the page would come out.
fn turned(job: &mut Job, angle: Angle) {
    let turn = |place: &mut Point2| *place = angle.turn(*place);
    for wall in job.plan.walls.values_mut() {
        turn(&mut wall.a);
        turn(&mut wall.b);
    }
    job.plan.rooms.values_mut().for_each(|room| room.outline.iter_mut().for_each(turn));
    job.plan.risers.values_mut().for_each(|riser| turn(&mut riser.at));
    for void in job.plan.voids.values_mut() {
        void.direction = angle;
        void.outline.iter_mut().flatten().for_each(turn);
    }
    for place in job.plan.points.values_mut().filter_map(|point| point.place.as_mut()) {
        match place {
            Place::Ceiling(on) | Place::Floor(on) => turn(&mut on.at),
            Place::Post(on) => turn(&mut on.at),
            Place::Wall(_) => {}
        }
    }
    for circuit in job.plan.circuits.values_mut() {
        circuit.pins.iter_mut().flat_map(|pin| &mut pin.through).for_each(|pin| turn(&mut pin.at));
    }
    for leg in job.runs.circuits.values_mut().flat_map(|run| &mut run.legs) {
        let place = |end| job.plan.place_of(end).and_then(|place| job.plan.position(&place));
        let turn = |place: Point3| angle.turn(place.on_floor()).at_height(place.z);
        for segment in &mut leg.route.segments {
            (segment.from, segment.to) = (turn(segment.from), turn(segment.to));
        }
        let (from, to) = (place(leg.from), place(leg.to));
        if let (Some(first), Some(from)) = (leg.route.segments.first_mut(), from) {
            first.from = from;
        }
        if let (Some(last), Some(to)) = (leg.route.segments.last_mut(), to) {
            last.to = to;
        }
    }
}

#[test]
fn a_turned_house_is_passed_in_silence_and_still_shows_a_break() {
    for degrees in [17_300, 30_000, 45_000, 90_000, -123_456] {
        let angle = Angle::from_millidegrees(degrees);
        let mut job = Job::right();
        turned(&mut job, angle);
        expect("turned", &judge(&job.plan, &job.runs, Some(&job.lengths)), &[]);
        job.leg(1, 1).route.segments[2].to.x += Mm::new(100);
        job.leg(1, 1).route.segments[3].from.x += Mm::new(100);
        let said = judge(&job.plan, &job.runs, None);
        assert!(said.iter().any(|one| one.code == Code::Askew), "{degrees}:{}", words(&said));
    }
}

fn area(job: &mut Job, on: Plane, id: u32, corners: [(i64, i64); 2], effect: AreaEffect) {
    let [(x0, y0), (x1, y1)] = corners;
    let outline =
        vec![Point2::new(x0, y0), Point2::new(x1, y0), Point2::new(x1, y1), Point2::new(x0, y1)];
    job.plan.areas.insert(AreaId(id), Area { name: String::new(), on, outline, effect });
}

/// That the checker takes this cost for the first leg, and 2 % more for wrong.
fn expect_cost(what: &str, job: &mut Job, circuit: u32, mm: i64) {
    for leg in job.run(circuit).legs.iter_mut().skip(1) {
        leg.route.segments.clear();
        leg.route.cost = Cost::ZERO;
    }
    job.leg(circuit, 1).route.cost = Cost::of_mm(mm);
    expect(what, &judge_costs(&job.plan, &job.runs), &[]);
    job.leg(circuit, 1).route.cost = Cost::new(mm * 102);
    expect(what, &judge_costs(&job.plan, &job.runs), &[Code::Cost]);
}

#[test]
fn a_cost_is_as_worked_by_hand() {
    // Up 900, plate 200 + 400, along 1000, across 2000 at 150 %, plate 600,
    // down 2100; bends at the roof, between and down: 3 at 300.
    let plain = 900 + 600 + 1000 + 3000 + 600 + 2100 + 900;
    expect_cost("over the roof", &mut only(1), 1, plain);

    let roof = Plane::Void(VoidId(1));
    // Half of the way across is priced double, a quarter of it also at 50 %.
    let mut job = only(1);
    area(&mut job, roof, 1, [(500, 500), (1500, 1500)], AreaEffect::Percent(200));
    area(&mut job, roof, 2, [(500, 1000), (1500, 1500)], AreaEffect::Percent(50));
    expect_cost("through a dear place", &mut job, 1, plain + 1500);

    // A preferred way: 1000 of the 2000 across at half the price.
    let mut job = only(1);
    area(&mut job, roof, 1, [(500, 500), (1500, 1500)], AreaEffect::Percent(50));
    expect_cost("along a preferred way", &mut job, 1, plain - 750);

    // A wall in the roof, 200 deep: crossed on the way across, once in full.
    let mut job = only(1);
    area(&mut job, roof, 1, [(-100, 900), (3000, 1100)], AreaEffect::Barrier(Mm::new(700)));
    expect_cost("through a barrier", &mut job, 1, plain + 700);

    // The same toll on a slab that the cable goes along by its long side.
    let mut job = only(1);
    area(&mut job, roof, 1, [(900, -100), (1100, 1900)], AreaEffect::Barrier(Mm::new(700)));
    expect_cost("along a barrier", &mut job, 1, plain);
}

#[test]
fn costs_in_walls_in_the_ground_and_through_risers_are_as_worked_by_hand() {
    // 3500 sideways in studs at 250 %.
    let mut job = only(1);
    job.run(1).legs.remove(0);
    expect_cost("sideways in studs", &mut job, 1, 8750);

    // Down 1500, plate 600 + 400, trench 5000 and 3000 at 400 %, up 1600 on
    // the post; bends into the trench, in it and up: 3 at 300.
    expect_cost("in the ground", &mut only(6), 6, 1500 + 1000 + 32_000 + 1600 + 900);

    // In concrete 3000 and 1000 sideways at 500 %, but through the corner
    // plain: 50 to the face and 75 to the middle of the strip, either side;
    // and 500 for the corner.
    let mut job = only(7);
    job.plan.habits.bend = Mm::ZERO;
    assert_eq!(job.plan.walls[&WallId(12)].thickness, Mm::new(100), "as worked");
    expect_cost("round a corner", &mut job, 7, 5 * (2875 + 875) + 250 + 500);

    // Down 300, plate 700, 2000 and 1500 under the floor without joists, up
    // the riser 2900 with two plates, across 1000 at 150 %, along 1000, plate
    // 600, down 2100; bends: into the void, in it, up, out of the riser, in
    // the roof, down.
    let mut job = only(8);
    job.run(8).legs.remove(0);
    let mm = 300 + 700 + 3500 + 2900 + 800 + 1500 + 1000 + 600 + 2100 + 6 * 300;
    expect_cost("up a riser", &mut job, 8, mm);
}

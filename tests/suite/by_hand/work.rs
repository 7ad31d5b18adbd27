//! Work counted by hand: boards lifted, trenches dug, cable pulled. Habits and
//! minutes are *common practice*.

use wirewend::lengths::measure;
use wirewend::plan::{Access, Plane, PointKind, Regime, Void, VoidId, VoidKind};
use wirewend::runs::{Heading, Surrounding};
use wirewend::takeoff::{TakeOff, take_off};
use wirewend::units::{Angle, Mm};

use super::{one_leg, segments};
use crate::fixtures::shipped_rules;
use crate::wired::Wired;

/// Legs of these lengths, all on one line from the same place across a void
/// that one gets at so.
fn across(
    (kind, through): (VoidKind, Surrounding),
    access: Access,
    heading: Heading,
    lengths: &[i64],
) -> TakeOff {
    let mut wired = Wired::new(Regime::IEC);
    let void = Void {
        name: "void".into(),
        kind,
        z: Mm::new(2400),
        depth: Mm::new(200),
        direction: Angle::ZERO,
        joists: None,
        insulation: Mm::ZERO,
        access,
        outline: None,
    };
    wired.plan.voids.insert(VoidId(1), void);
    for length in lengths {
        let way = [(through, *length, 0, 0)];
        let circuit = one_leg(&mut wired, (PointKind::Heater, 1000.0), (2.5, 16.0), &way);
        let segment = &mut segments(&mut wired, circuit, 0)[0];
        segment.plane = Some(Plane::Void(VoidId(1)));
        segment.heading = heading;
    }
    let lengths = measure(&wired.plan, &wired.runs);
    take_off(&wired.plan, &wired.runs, &lengths, shipped_rules())
}

fn minutes(taken: &TakeOff, code: &str) -> i64 {
    let task = taken.labour.iter().find(|task| task.code == code);
    task.map_or(0, |task| task.minutes.value)
}

fn boards(access: Access, heading: Heading, lengths: &[i64]) -> u32 {
    let floor = (VoidKind::BetweenFloors, Surrounding::BetweenFloors);
    let taken = across(floor, access, heading, lengths);
    let task = taken.labour.iter().find(|task| task.code == "lift_board");
    let count = task.map_or(0, |task| task.quantity.each());
    assert_eq!(minutes(&taken, "lift_board"), 15 * i64::from(count), "15 minutes each");
    count
}

/// A board every 2 m along the joists; across them along the boards, each
/// 2.4 m long: a part of one is lifted whole.
#[test]
fn boards_are_lifted_whole() {
    for (heading, lengths, count) in [
        (Heading::AlongJoists, &[1][..], 1),
        (Heading::AlongJoists, &[2000], 1),
        (Heading::AlongJoists, &[2001], 2),
        (Heading::AlongJoists, &[4000], 2),
        (Heading::AlongJoists, &[4900], 3),
        (Heading::AcrossJoists, &[2400], 1),
        (Heading::AcrossJoists, &[2401], 2),
        (Heading::AcrossJoists, &[4800], 2),
        // A second cable on the same line: what is lifted already, and the
        // 2 m that it goes on.
        (Heading::AlongJoists, &[4000, 4000], 2),
        (Heading::AlongJoists, &[4000, 6000], 3),
    ] {
        let counted = boards(Access::Closed, heading, lengths);
        assert_eq!(counted, count, "{lengths:?} mm, {heading:?}");
    }
    assert_eq!(boards(Access::Crawl, Heading::AlongJoists, &[4000]), 0, "a person gets in");
}

/// 30 m at 2 minutes a metre: 60; a quarter more on hands and knees, half more
/// where no person gets in. A trench is dug open, which is counted by itself:
/// 30 m at 40 minutes, 1200.
#[test]
fn cable_in_a_trench_costs_nothing_for_getting_at_it() {
    let roof = (VoidKind::RoofSpace, Surrounding::RoofSpace);
    let ground = (VoidKind::Ground, Surrounding::Ground);
    for (access, in_roof) in [(Access::WalkIn, 60), (Access::Crawl, 75), (Access::Closed, 90)] {
        let taken = |void| across(void, access, Heading::AlongJoists, &[30_000]);
        assert_eq!(minutes(&taken(roof), "pull"), in_roof, "in a roof, {access:?}");
        let trench = taken(ground);
        assert_eq!(minutes(&trench, "pull"), 60, "in a trench, {access:?}");
        assert_eq!(minutes(&trench, "trench"), 1200, "dug and filled, {access:?}");
    }
}

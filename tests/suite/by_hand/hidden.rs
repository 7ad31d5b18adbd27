//! Depths of hidden cables, sizes of holes and least insulation, at their
//! limits and a millimetre beyond.

use wirewend::checks::{Verdict, check, expected_tests};
use wirewend::plan::{
    Access, CircuitId, Finding, Joists, Level, LevelId, Plane, PointKind, Reading, Reads, Regime,
    Test, Void, VoidId, VoidKind, Wall, WallBuild, WallId,
};
use wirewend::rules::RuleBook;
use wirewend::runs::{Heading, Surrounding};
use wirewend::units::{Angle, Megohms, Mm, Ohms, Point2, Point3};

use super::{checked, one_leg, segments};
use crate::wired::{BOARD, Wired};

const HEATER: (PointKind, f64) = (PointKind::Heater, 1000.0);

/// A cable up the middle of a hollow wall so thick, in line with nothing.
fn in_a_wall(regime: Regime, thickness: i64) -> (Wired, CircuitId) {
    let mut wired = Wired::new(regime);
    let level = Level {
        name: "ground".into(),
        floor: Mm::ZERO,
        height: Mm::new(2400),
        above: Vec::new(),
        below: Vec::new(),
    };
    wired.plan.levels.insert(LevelId(1), level);
    let wall = Wall {
        level: LevelId(1),
        a: Point2::new(0, 0),
        b: Point2::new(6000, 0),
        thickness: Mm::new(thickness),
        build: WallBuild::Stud,
        insulated: false,
        wet: None,
    };
    wired.plan.walls.insert(WallId(1), wall);
    let way = [(Surrounding::HollowWall, 1000, 0, 0)];
    let circuit = one_leg(&mut wired, HEATER, (2.5, 16.0), &way);
    wired.change(circuit).device.as_mut().unwrap().residual = None;
    let segment = &mut segments(&mut wired, circuit, 0)[0];
    segment.plane = Some(Plane::Wall(WallId(1)));
    segment.heading = Heading::Down;
    (segment.from, segment.to) = (Point3::new(3000, 0, 2000), Point3::new(3000, 0, 1000));
    (wired, circuit)
}

/// BS 7671 reg. 522.6 and AS/NZS 3000 cl. 3.9.4: what lies 50 mm deep or
/// deeper needs neither zone nor residual current device.
#[test]
fn fifty_millimetres_are_deep_enough_and_one_less_is_not() {
    for regime in [Regime::BS, Regime::AS_NZS] {
        for (thickness, told) in [(100, 0), (98, 1)] {
            let (wired, _) = in_a_wall(regime, thickness);
            let checked = checked(&wired);
            for code in ["cable-shallow", "outside-zone"] {
                let count = checked.findings.iter().filter(|it| it.code == code).count();
                assert_eq!(count, told, "{regime:?}, half of {thickness} mm: {code}");
            }
        }
    }
}

/// What is said of holes through joists so deep, for a cable so wide and thick.
fn hole(joist: i64, (width, thickness): (u32, u32)) -> Vec<Finding> {
    let outline = format!(
        "make,size_mm2,width_mm,thickness_mm,source\nflat,2.5,{width},{thickness},invented\n"
    );
    let rules = RuleBook::with_overrides([(Regime::BS, "cable_outline", &*outline)]).unwrap();
    let mut wired = Wired::new(Regime::BS);
    let joists = Joists { spacing: Mm::new(400), depth: Mm::new(joist), thickness: Mm::new(45) };
    let void = Void {
        name: "roof".into(),
        kind: VoidKind::RoofSpace,
        z: Mm::new(2500),
        depth: Mm::new(500),
        direction: Angle::ZERO,
        joists: Some(joists),
        insulation: Mm::ZERO,
        access: Access::Crawl,
        outline: None,
    };
    wired.plan.voids.insert(VoidId(1), void);
    let way = [(Surrounding::RoofSpace, 3000, 0, 0)];
    let circuit = one_leg(&mut wired, HEATER, (2.5, 16.0), &way);
    let segment = &mut segments(&mut wired, circuit, 0)[0];
    segment.plane = Some(Plane::Void(VoidId(1)));
    segment.heading = Heading::AcrossJoists;
    let checked = check(&wired.plan, &wired.runs, &wired.lengths, &rules);
    checked.findings.into_iter().filter(|finding| finding.code == "joist-hole").collect()
}

/// The trade's reading of BS 5268-2: holes up to a quarter of the depth. The
/// diagonal of a cable of 30 × 40 mm is 50 mm (3, 4, 5), a quarter of 200.
#[test]
fn a_hole_of_a_quarter_of_the_depth_is_let_be() {
    assert_eq!(hole(200, (30, 40)), []);
    let told = hole(199, (30, 40));
    assert_eq!(told.len(), 1, "50 mm in a quarter of 199: {told:#?}");
    assert!(told[0].source.contains("BS 5268-2"), "{}", told[0].source);
}

/// BS 7671 reg. 522.6: 50 mm from the top and from the bottom of a joist.
/// The diagonal of 12 × 16 mm is 20 mm, what 50 mm twice leave of 120.
#[test]
fn a_hole_that_leaves_fifty_millimetres_above_and_below_is_let_be() {
    assert_eq!(hole(120, (12, 16)), []);
    let told = hole(119, (12, 16));
    assert_eq!(told.len(), 1, "20 mm in 19: {told:#?}");
    assert!(told[0].source.contains("522.6"), "{}", told[0].source);
}

/// IEC 60364-6 T6.1 (from memory): at least 1 MΩ. And a loop as high as its
/// limit keeps to it.
#[test]
fn readings_at_their_limit_keep_to_it() {
    let (mut wired, circuit) = in_a_wall(Regime::BS, 100);
    let tests = expected_tests(&wired.plan, &wired.runs, &wired.lengths, &RuleBook::shipped());
    let far = wired.runs.circuits[&circuit].legs[0].to;
    let most = tests.circuits[&circuit].against(far, Test::Loop).limit.unwrap().value();
    for (at, reads, is_beyond) in [
        (BOARD, Reads::Insulation(Megohms(1.0)), false),
        (BOARD, Reads::Insulation(Megohms(0.999)), true),
        (far, Reads::Loop(Ohms(most)), false),
        (far, Reads::Loop(Ohms(most + 0.001)), true),
    ] {
        let (by, on) = (String::new(), String::new());
        wired.plan.readings = vec![Reading { circuit, at, reads, by, on }];
        let verdict = checked(&wired).readings[0].verdict;
        assert_eq!(verdict == Verdict::Beyond, is_beyond, "{reads}: {verdict:?}");
    }
}

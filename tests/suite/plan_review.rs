//! The review of a drawing: a finished one has no findings, and each thing
//! that is missing or odd has its own.

use std::collections::BTreeSet;

use wirewend::plan::*;
use wirewend::units::{Amps, Mm, Point2, Watts};

use crate::sample;

#[test]
fn a_finished_drawing_has_no_findings() {
    assert_eq!(review(&sample::plan()), [], "the sample is complete");
}

#[test]
fn an_empty_plan_asks_for_a_level() {
    let findings = review(&Plan::default());
    assert_eq!(findings.iter().map(|finding| finding.code).collect::<Vec<_>>(), ["no-level"]);
}

type Spoil = fn(&mut Plan);

/// What is done to the sample, and the findings that it then has.
const CASES: &[(Spoil, &[(&str, &str)])] = &[
    (
        |plan| plan.levels[0].height = Mm::ZERO,
        &[
            ("level-without-height", "level \"Ground\" has no height"),
            ("opening-past-wall-height", "door O8 reaches past the floor or the ceiling"),
            ("place-past-height", "MSB is above the ceiling"),
        ],
    ),
    (
        |plan| plan.levels[0].above.clear(),
        &[
            ("void-without-level", "void \"space\" is above or below no level"),
            ("riser-outside", "riser \"duct\" does not stand within void \"space\""),
        ],
    ),
    (
        |plan| plan.voids[0].z = Mm::new(2399),
        &[(
            "void-on-wrong-side",
            "void \"space\" is drawn above level \"Ground\", but lies below its ceiling",
        )],
    ),
    (
        |plan| plan.voids[1].z = Mm::new(1),
        &[(
            "void-on-wrong-side",
            "void \"space\" is drawn below level \"Ground\", but lies above its floor",
        )],
    ),
    (
        |plan| plan.voids[0].insulation = Mm::new(-1),
        &[("odd-void-size", "the insulation of void \"space\" is -1 mm")],
    ),
    (
        |plan| plan.voids[1].outline.as_mut().unwrap().truncate(2),
        &[
            ("outline-too-short", "the outline of void \"space\" has fewer than three corners"),
            ("riser-outside", "riser \"duct\" does not stand within void \"space\""),
        ],
    ),
    (
        |plan| plan.risers[0].voids = vec![VoidId(2), VoidId(2)],
        &[("riser-joins-too-few", "riser \"duct\" joins fewer than two voids")],
    ),
    (
        |plan| plan.risers[0].at = Point2::new(4100, 0),
        &[("riser-outside", "riser \"duct\" does not stand within void \"space\"")],
    ),
    (
        |plan| {
            let wall = Wall { b: Point2::new(0, 0), ..plan.walls[0].clone() };
            plan.walls.insert(WallId(60), wall);
        },
        &[("wall-without-length", "wall W60 has no length")],
    ),
    (
        |plan| plan.walls[0].thickness = Mm::ZERO,
        &[("wall-without-thickness", "wall W4 has no thickness")],
    ),
    (
        |plan| {
            let (a, b) = (Point2::new(2000, 120), Point2::new(2000, 2000));
            plan.walls.insert(WallId(60), Wall { a, b, ..plan.walls[0].clone() });
        },
        &[("open-corner", "wall W60 ends 65 mm before wall W4")],
    ),
    (|plan| plan.openings[0].width = Mm::ZERO, &[("opening-without-size", "door O8 has no width")]),
    (
        |plan| plan.openings[0].from = Mm::new(2181),
        &[("opening-past-wall-end", "door O8 reaches past the end of wall W5")],
    ),
    (
        |plan| plan.openings[0].head = Mm::new(2401),
        &[("opening-past-wall-height", "door O8 reaches past the floor or the ceiling")],
    ),
    (
        |plan| {
            let from = Mm::new(1819);
            let window = Opening { kind: OpeningKind::Window, from, ..plan.openings[0].clone() };
            plan.openings.insert(OpeningId(60), window);
        },
        &[("openings-overlap", "window O60 overlaps door O8")],
    ),
    (
        |plan| plan.rooms[0].outline.swap(0, 1),
        &[
            (
                "outline-crosses-itself",
                "the outline of room \"Shed\" crosses, touches or doubles back on itself at the \
                 side from (0, 0)",
            ),
            ("riser-outside", "riser \"duct\" does not stand within void \"space\""),
        ],
    ),
    (|plan| plan.rooms[0].name.clear(), &[("room-without-name", "room R9 has no name")]),
    (
        |plan| plan.areas[0].effect = AreaEffect::Percent(0),
        &[("odd-area-effect", "area \"flue\" makes cable cost nothing or less: 0 %")],
    ),
    (|plan| plan.boards[0].place = None, &[("unplaced-board", "board MSB is not placed")]),
    (
        |plan| plan.boards[0].ways = Some(1),
        &[("too-few-ways", "board MSB has fewer ways than circuits")],
    ),
    (
        |plan| plan.circuits[1].number = 1,
        &[(
            "same-circuit-number",
            "circuit 1 \"Lights\" has the same number as circuit 1 \"Sockets\" at board MSB",
        )],
    ),
    (
        |plan| plan.circuits[1].board = None,
        &[("circuit-without-board", "circuit 2 \"Lights\" has no board")],
    ),
    (
        |plan| plan.circuits[1].cable = None,
        &[("circuit-without-cable", "circuit 2 \"Lights\" has no cable")],
    ),
    (
        |plan| plan.circuits[1].device = None,
        &[("circuit-without-device", "circuit 2 \"Lights\" has no protective device")],
    ),
    (
        |plan| {
            let spare = Circuit { number: 3, name: String::new(), ..plan.circuits[1].clone() };
            plan.circuits.insert(CircuitId(60), spare);
        },
        &[("circuit-without-points", "circuit 3 has no points")],
    ),
    (
        |plan| plan.circuits[1].phase = Some(2),
        &[(
            "phase-not-at-board",
            "circuit 2 \"Lights\" is on a phase that board MSB does not have",
        )],
    ),
    (
        |plan| plan.circuits[0].order.push(PointId(33)),
        &[(
            "order-names-stranger",
            "the fixed order of circuit 1 \"Sockets\" names LT1, which is not on it",
        )],
    ),
    (
        |plan| plan.circuits[0].spurs[0].from = End::Point(PointId(33)),
        &[("spur-names-stranger", "a spur of circuit 1 \"Sockets\" names LT1, which is not on it")],
    ),
    (
        |plan| plan.circuits[0].pins[0].from = End::Point(PointId(31)),
        &[(
            "pin-names-stranger",
            "a pinned leg of circuit 1 \"Sockets\" names floor box as both ends",
        )],
    ),
    (|plan| plan.points[3].place = None, &[("unplaced-point", "ceiling light LT1 is not placed")]),
    (
        |plan| plan.points[0].circuit = None,
        &[
            (
                "order-names-stranger",
                "the fixed order of circuit 1 \"Sockets\" names SO1, which is not on it",
            ),
            (
                "spur-names-stranger",
                "a spur of circuit 1 \"Sockets\" names SO1, which is not on it",
            ),
            ("point-without-circuit", "socket-outlet SO1 is on no circuit"),
        ],
    ),
    (|plan| plan.points[0].gangs = 0, &[("point-without-gangs", "socket-outlet SO1 has no gangs")]),
    (
        |plan| plan.points[0].load = Some(Watts(-1.0)),
        &[("negative-load", "socket-outlet SO1 has a load below 0 W")],
    ),
    (
        |plan| plan.points[0].tail = Some(Mm::new(-1)),
        &[("negative-tail", "socket-outlet SO1 has a tail below 0 mm")],
    ),
    (
        |plan| plan.points[3].label = "MSB".to_owned(),
        &[("same-label", "point P33 is labelled MSB like another, and is marked LT1")],
    ),
    (
        |plan| plan.points[0].place = on_wall(4, 4001, 300),
        &[("place-past-wall-end", "SO1 is past the end of wall W4")],
    ),
    (
        |plan| plan.points[0].place = on_wall(4, 2000, 2401),
        &[("place-past-height", "SO1 is above the ceiling")],
    ),
    (
        |plan| plan.points[0].place = on_wall(4, 3990, 300),
        &[("place-in-corner", "SO1 is within wall W5, where that meets wall W4")],
    ),
    (
        |plan| plan.points[0].place = on_wall(5, 1500, 1000),
        &[("place-in-opening", "SO1 is within opening O8 of wall W5")],
    ),
    (
        |plan| plan.walls[0].build = WallBuild::Screen,
        &[("place-on-screen", "SO1 is on wall W4, a screen that carries no cable")],
    ),
    (
        |plan| plan.controls[0].lights.clear(),
        &[
            ("control-without-lights", "control S40 has no lights"),
            ("light-without-switch", "no switch works ceiling light LT1"),
        ],
    ),
    (
        |plan| plan.controls[0].switches.clear(),
        &[
            ("control-without-switches", "control S40 has no switches"),
            ("switch-without-control", "switch SW1 works nothing"),
        ],
    ),
    (
        |plan| plan.controls[0].lights.push(PointId(30)),
        &[(
            "control-names-wrong-point",
            "control S40 takes SO1, a socket-outlet, for a light or a fan",
        )],
    ),
    (
        |plan| {
            let control = plan.controls[0].clone();
            plan.controls.insert(ControlId(60), control);
        },
        &[
            ("too-few-gangs", "switch SW1 is in more controls than it has gangs"),
            ("light-in-several-controls", "ceiling light LT1 is in several controls"),
        ],
    ),
    (
        |plan| plan.allowances.tail_board = Mm::new(-1),
        &[("negative-allowance", "the tail at a board is below 0 mm")],
    ),
    (
        |plan| plan.stock.drums[0].length = Mm::ZERO,
        &[("empty-stock", "a drum of 2 × 2.5 mm² + E flat holds no cable")],
    ),
    (
        |plan| plan.measured[0].circuit = CircuitId(21),
        &[(
            "odd-measurement",
            "the measured leg from LT1 to SW1 of circuit 1 \"Sockets\" has an end that is not on \
             the circuit",
        )],
    ),
];

#[expect(clippy::unnecessary_wraps, reason = "as a point holds it")]
fn on_wall(wall: u32, along: i64, height: i64) -> Option<Place> {
    let (along, height) = (Mm::new(along), Mm::new(height));
    Some(Place::Wall(OnWall { wall: WallId(wall), along, height, face: Face::Left }))
}

#[test]
fn each_oddity_has_its_finding() {
    let mut unforeseen = Vec::new();
    for (index, (spoil, expect)) in CASES.iter().enumerate() {
        let mut plan = sample::plan();
        spoil(&mut plan);
        let findings = review(&plan);
        for (code, message) in *expect {
            assert!(
                findings.iter().any(|it| it.code == *code && it.message == *message),
                "case {index}: {code}: {message}\nnot in {:?}",
                findings.iter().map(|it| &it.message).collect::<Vec<_>>()
            );
        }
        let codes: BTreeSet<&str> = findings.iter().map(|it| it.code).collect();
        let foreseen: BTreeSet<&str> = expect.iter().map(|(code, _)| *code).collect();
        if codes != foreseen {
            unforeseen.push((index, codes, foreseen));
        }
        for finding in &findings {
            assert!(!finding.remedy.is_empty(), "a way to mend it: {finding:?}");
            assert!(!finding.message.ends_with('.'), "no full stop: {finding:?}");
        }
    }
    assert!(unforeseen.is_empty(), "case, found, foreseen: {unforeseen:?}");
}

/// A void that one cannot measure is odd; one of a millimetre is not, and none
/// needs insulation.
#[test]
fn sizes_of_a_void_at_their_least_are_let_be() {
    let told = |depth: i64, insulation: i64, joist: i64| {
        let mut plan = sample::plan();
        let size = Mm::new(joist);
        let void = &mut plan.voids[0];
        (void.depth, void.insulation) = (Mm::new(depth), Mm::new(insulation));
        void.joists = Some(Joists { spacing: size, depth: size, thickness: size });
        review(&plan).iter().filter(|finding| finding.code == "odd-void-size").count()
    };
    assert_eq!(told(1, 0, 1), 0, "the least of each");
    assert_eq!(told(0, 0, 1), 1, "no depth");
    assert_eq!(told(1, -1, 1), 1, "less insulation than none");
    assert_eq!(told(1, 0, 0), 3, "joists without spacing, depth and thickness");
}

#[test]
fn every_code_is_tried() {
    let sources = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/plan/review");
    let mut tried: BTreeSet<&str> =
        CASES.iter().flat_map(|(_, expect)| expect.iter().map(|(code, _)| *code)).collect();
    tried.insert("no-level");
    for file in std::fs::read_dir(sources).unwrap() {
        let text = std::fs::read_to_string(file.unwrap().path()).unwrap();
        let own = text.split("#[cfg(test)]").next().unwrap();
        // Codes are the only texts of small letters joined by hyphens.
        for code in own.split('"').skip(1).step_by(2).filter(|text| {
            text.contains('-')
                && *text != "off-cut"
                && text.bytes().all(|byte| byte == b'-' || byte.is_ascii_lowercase())
        }) {
            assert!(tried.contains(code), "{code} has no case");
        }
    }
}

#[test]
fn a_finding_has_its_place_measure_and_limit() {
    let mut plan = sample::plan();
    plan.points[0].place = on_wall(4, 4200, 300);
    let finding = review(&plan).remove(0);
    assert_eq!(finding.place, Some(Point2::new(4200, 0).at_height(Mm::new(300))), "where");
    assert_eq!((finding.measured.as_str(), finding.limit.as_str()), ("4200 mm", "0 to 4000 mm"));
    assert_eq!(finding.severity, Severity::Fault, "it cannot be built");
    assert_eq!(finding.subject, Subject::Point(PointId(30)), "what");
    plan.boards[0].supply.main_switch = Some(Amps(1.0));
    assert_eq!(review(&plan).len(), 1, "ratings are a matter for the checks");
}

use super::*;
use crate::plan::{Change, WallBuild};
use crate::units::Mm;

fn drawn(lines: &[[i64; 4]]) -> Plan {
    let mut plan = crate::session::ground::blank::plan();
    let level = *plan.levels.keys().next().expect("a level");
    for [ax, ay, bx, by] in lines {
        let wall = Wall {
            level,
            a: Point2::new(*ax, *ay),
            b: Point2::new(*bx, *by),
            thickness: Mm::new(110),
            build: WallBuild::Stud,
            insulated: false,
            wet: None,
        };
        let id = WallId(plan.fresh_id());
        plan.apply(Change::Put(id, wall).into()).expect("a wall");
    }
    plan
}

fn snapped(lines: &[[i64; 4]], from: Option<(i64, i64)>, at: (f64, f64), typed: &str) -> Snap {
    let plan = drawn(lines);
    let level = *plan.levels.keys().next().expect("a level");
    let ground = Ground::of(&plan, level, None, &BTreeSet::new());
    let from = from.map(|(x, y)| Point2::new(x, y));
    corner(&ground, from, Point::new(at.0, at.1), 80.0, Typed::of(typed).unwrap_or_default())
}

#[test]
fn a_line_nearly_level_becomes_level_and_takes_a_typed_length() {
    let from = Some((1000, 1000));
    let even = snapped(&[], from, (4030.0, 1060.0), "");
    assert_eq!((even.at, even.kind), (Point2::new(4050, 1000), Kind::Level));
    let typed = snapped(&[], from, (4030.0, 1060.0), "3217");
    assert_eq!(typed.at, Point2::new(4217, 1000));
    // Well off a right angle it goes where the pen points.
    let slant = snapped(&[], from, (4000.0, 4000.0), "");
    assert!((slant.at.x - slant.at.y).abs() <= Mm::new(1), "{slant:?}");
}

#[test]
fn a_typed_angle_turns_the_line_and_the_pointer_or_a_length_says_how_far() {
    let from = Some((0, 0));
    let both = snapped(&[], from, (900.0, 10.0), "1000@30");
    assert_eq!((both.at, both.kind), (Point2::new(866, 500), Kind::Typed), "cos and sin 30°");
    let angle = snapped(&[], from, (10.0, 1980.0), "@90");
    assert_eq!(angle.at, Point2::new(0, 2000), "the pointer's way along it, even");
}

#[test]
fn each_kind_of_place_holds_the_pen_and_is_told() {
    let cross = [[0, 0, 4000, 0], [1000, -900, 1000, 2000]];
    let kinds = [
        ((30.0, 40.0), None, Kind::End, (0, 0)),
        ((1030.0, -40.0), None, Kind::Crossing, (1000, 0)),
        ((2030.0, 20.0), None, Kind::Half, (2000, 0)),
        ((3010.0, 60.0), None, Kind::OnWall, (3000, 0)),
        ((4030.0, 2960.0), None, Kind::InLine, (4000, 2950)),
        // From the wall's end, square to it.
        ((4060.0, 1210.0), Some((4000, 0)), Kind::Level, (4000, 1200)),
        ((1030.0, 1210.0), Some((3000, 1210)), Kind::OnWall, (1000, 1210)),
    ];
    for (at, from, kind, to) in kinds {
        let snap = snapped(&cross, from, at, "");
        assert_eq!((snap.kind, snap.at), (kind, Point2::new(to.0, to.1)), "{at:?}");
    }
    // A slanting wall, its line continued, and square to it.
    let slant = [[0, 0, 3000, 3000]];
    let on = snapped(&slant, None, (5020.0, 4980.0), "");
    assert_eq!((on.kind, on.at), (Kind::Continued, Point2::new(5000, 5000)));
    let square = snapped(&slant, Some((3000, 3000)), (2000.0, 4040.0), "");
    assert_eq!(square.kind, Kind::Square, "{square:?}");
}

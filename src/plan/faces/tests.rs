//! Faces worked out by hand.

use super::super::{
    Level, LevelId, Opening, OpeningId, OpeningKind, Room, RoomId, RoomUse, Wall, WallBuild,
};
use super::*;
use crate::units::{Mm, Point2};

type Ends = ((i64, i64), (i64, i64));

/// Walls by their ends and thickness, named W1, W2 …
fn plan(walls: &[(Ends, i64)]) -> Plan {
    let mut plan = Plan::default();
    let level = Level {
        name: "Ground".into(),
        floor: Mm::ZERO,
        height: Mm::new(2400),
        above: Vec::new(),
        below: Vec::new(),
    };
    plan.levels.insert(LevelId(1), level);
    for (id, ((a, b), thickness)) in (1..).zip(walls) {
        let wall = Wall {
            level: LevelId(1),
            a: Point2::new(a.0, a.1),
            b: Point2::new(b.0, b.1),
            thickness: Mm::new(*thickness),
            build: WallBuild::Stud,
            insulated: false,
            wet: None,
        };
        plan.walls.insert(WallId(id), wall);
    }
    plan
}

/// Where the pieces of a face begin and end along its wall, to a tenth of a
/// millimetre.
fn cut(plan: &Plan, wall: u32, side: Face) -> Vec<(f64, f64)> {
    let round = |at: f64| (at * 10.0).round() / 10.0;
    let faces = faces(plan);
    let spans = faces.spans(WallId(wall), side);
    spans.map(|(_, span)| (round(span.from), round(span.to))).collect()
}

const BOX: [(Ends, i64); 4] = [
    (((0, 0), (4000, 0)), 200),
    (((4000, 0), (4000, 3000)), 200),
    (((4000, 3000), (0, 3000)), 200),
    (((0, 3000), (0, 0)), 200),
];

#[test]
fn a_room_is_clear_between_its_faces_and_the_house_is_as_long_as_it_is_outside() {
    let plan = plan(&BOX);
    assert_eq!(cut(&plan, 1, Face::Left), [(100.0, 3900.0)], "inside");
    assert_eq!(cut(&plan, 1, Face::Right), [(-100.0, 4100.0)], "outside");
}

#[test]
fn a_wall_that_meets_another_cuts_that_face_alone() {
    let mut walls = BOX.to_vec();
    walls.push((((1500, 0), (1500, 3000)), 110));
    let plan = plan(&walls);
    assert_eq!(cut(&plan, 1, Face::Left), [(100.0, 1445.0), (1555.0, 3900.0)]);
    assert_eq!(cut(&plan, 1, Face::Right), [(-100.0, 4100.0)]);
    assert_eq!(cut(&plan, 5, Face::Left), [(100.0, 2900.0)], "between the faces that it meets");
}

#[test]
fn walls_that_end_short_of_another_or_past_its_middle_meet_its_face() {
    for end in [-80, 0, 40, 100, 115] {
        let mut walls = BOX.to_vec();
        walls.push((((1500, end), (1500, 3000 - end)), 110));
        let plan = plan(&walls);
        let long = cut(&plan, 5, Face::Left).iter().map(|it| it.1 - it.0).sum::<f64>();
        assert!((long - 2800.0).abs() < 0.01, "{end}: {long}");
        assert_eq!(cut(&plan, 1, Face::Left), [(100.0, 1445.0), (1555.0, 3900.0)], "{end}");
    }
}

#[test]
fn a_skew_wall_meets_where_the_faces_cross() {
    // A right-angled triangle of 3, 4 and 5: the stem leaves W1 at an angle
    // whose sine is 0.6 and whose cosine is 0.8. Its faces, 50 off, cross the
    // face of W1, 100 up, at 2000 + (100 · 0.8 ∓ 50) / 0.6.
    let plan = plan(&[(((0, 0), (4000, 0)), 200), (((2000, 0), (4400, 1800)), 100)]);
    let cuts = cut(&plan, 1, Face::Left);
    assert_eq!(cuts, [(0.0, 2050.0), (2216.7, 4000.0)]);
    // The other way round: along the stem, the face of W1 is (100 ± 50 · 0.8) / 0.6 out.
    assert_eq!(cut(&plan, 2, Face::Left), [(100.0, 3000.0)]);
    assert_eq!(cut(&plan, 2, Face::Right), [(233.3, 3000.0)]);
}

#[test]
fn walls_that_cross_are_cut_on_both_faces() {
    let plan = plan(&[(((0, 0), (4000, 0)), 200), (((2000, -1500), (2000, 1500)), 100)]);
    for side in [Face::Left, Face::Right] {
        assert_eq!(cut(&plan, 1, side), [(0.0, 1950.0), (2050.0, 4000.0)]);
        assert_eq!(cut(&plan, 2, side), [(0.0, 1400.0), (1600.0, 3000.0)]);
    }
}

#[test]
fn walls_in_line_have_a_corner_where_their_thickness_changes() {
    let flush = plan(&[(((0, 0), (2000, 0)), 100), (((5000, 0), (2000, 0)), 100)]);
    let pieces = faces(&flush);
    assert_eq!(pieces.pieces().len(), 2, "one piece on either face");
    let piece = &pieces.pieces()[0];
    assert!((piece.length - 5000.0).abs() < 0.01, "{piece:?}");
    assert_eq!(piece.name, "W2b+W1a", "seen from the side where W1 is at the right");
    let stepped = plan(&[(((0, 0), (2000, 0)), 100), (((2000, 0), (5000, 0)), 200)]);
    assert_eq!(cut(&stepped, 1, Face::Left), [(0.0, 2000.0)]);
    assert_eq!(cut(&stepped, 2, Face::Left), [(0.0, 3000.0)]);
    assert_eq!(faces(&stepped).pieces().len(), 4, "a step on both faces");
    let aligned = plan(&[(((0, 0), (2000, 0)), 100), (((2000, 50), (5000, 50)), 200)]);
    assert_eq!(faces(&aligned).pieces().len(), 3, "flush on one face, a step on the other");
}

#[test]
fn a_bare_end_is_an_edge_and_fences_do_not_bend_houses() {
    let plan_of_one = plan(&[(((0, 0), (2000, 0)), 100)]);
    assert_eq!(faces(&plan_of_one).pieces()[0].left.shape, Shape::Bare);
    let mut walls = BOX.to_vec();
    walls.push((((4000, 0), (6000, 0)), 60));
    let mut plan = plan(&walls);
    plan.walls[&WallId(5)].build = WallBuild::Screen;
    assert_eq!(cut(&plan, 1, Face::Right), [(-100.0, 4100.0)], "as without it");
    assert_eq!(cut(&plan, 2, Face::Right), [(30.0, 3100.0)], "it makes a corner outdoors");
    assert_eq!(cut(&plan, 5, Face::Left), [(100.0, 2000.0)], "it begins at the house");
    assert_eq!(cut(&plan, 5, Face::Right), [(100.0, 2000.0)], "on both of its faces");
}

#[test]
fn a_place_is_set_out_from_the_nearest_edge() {
    let mut plan = plan(&BOX);
    let opening = |from: i64, width: i64| Opening {
        wall: WallId(1),
        kind: OpeningKind::Door,
        from: Mm::new(from),
        width: Mm::new(width),
        sill: Mm::ZERO,
        head: Mm::new(2040),
        hinge: None,
    };
    plan.openings.insert(OpeningId(1), opening(2000, 820));
    let faces = faces(&plan);
    let told = |along: i64, side: Face| {
        let place =
            OnWall { wall: WallId(1), along: Mm::new(along), height: Mm::new(300), face: side };
        let out = faces.set_out(&place)?;
        let from = match out.edge {
            Edge::Corner { end, .. } => format!("{end:?} corner"),
            Edge::Opening { id, side } => format!("{side:?} side of {id}"),
        };
        Some(format!("{} {:?} of {from}", out.distance.get(), out.towards))
    };
    // The left face is seen with the wall's end `a` at the right: the corner
    // at the left is at 3900, that at the right at 100.
    assert_eq!(told(3800, Face::Left).unwrap(), "100 Right of Left corner");
    assert_eq!(told(300, Face::Left).unwrap(), "200 Left of Right corner");
    assert_eq!(told(1900, Face::Left).unwrap(), "100 Right of Right side of O1");
    assert_eq!(told(2900, Face::Left).unwrap(), "80 Left of Left side of O1");
    assert_eq!(told(3360, Face::Left).unwrap(), "540 Right of Left corner", "equally far");
    assert_eq!(told(300, Face::Right).unwrap(), "400 Right of Left corner");
    assert_eq!(told(60, Face::Left), None, "within the wall that meets it");
}

#[test]
fn a_piece_knows_the_rooms_in_front_of_it_in_order() {
    let mut plan = plan(&BOX);
    let room = |x: (i64, i64)| Room {
        level: LevelId(1),
        name: String::new(),
        usage: RoomUse::Other,
        outline: [(x.0, 100), (x.1, 100), (x.1, 2900), (x.0, 2900)]
            .map(|(x, y)| Point2::new(x, y))
            .to_vec(),
    };
    plan.rooms.insert(RoomId(1), room((100, 2000)));
    plan.rooms.insert(RoomId(2), room((2000, 3900)));
    let faces = faces(&plan);
    let rooms = |wall: u32| faces.of(WallId(wall), Face::Left).next().unwrap().rooms.clone();
    assert_eq!(rooms(1), [RoomId(2), RoomId(1)], "seen from inside, the house's left is right");
    assert_eq!(rooms(2), [RoomId(2)]);
    assert_eq!(rooms(3), [RoomId(1), RoomId(2)]);
    let outside = faces.of(WallId(1), Face::Right).next().unwrap();
    assert!(outside.rooms.is_empty() && outside.is_outside, "{outside:?}");
}

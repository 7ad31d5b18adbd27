//! Drawing and changing the building without a window: what the hand does,
//! what the plan then is.

use kurbo::Point;

use super::flows::of_file;
use crate::plan::{AreaEffect, Place, Plane, PointKind, RoomUse, Subject, WallBuild, WallId};
use crate::session::Session;
use crate::session::ground::{blank, storeys};
use crate::session::state::{Amount, AreaKind, Step, Tool};
use crate::session::tests::flows::{settle, wired};
use crate::session::tests::layout_flows::folder;
use crate::units::{Mm, Point2};

pub(crate) fn at(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

/// A house of one room 6 m by 4 m with a door, a board, points; a wall across
/// it at 2.5 m from the left, 90 mm of it off the door.
fn parted() -> Session {
    let mut session = wired();
    session.sight.open_step(Step::Survey);
    session.take_tool(Tool::Wall);
    session.press(at(4000.0, 0.0), false);
    session.press(at(4000.0, 4000.0), false);
    session.take_tool(Tool::Hand);
    settle(&mut session);
    assert_eq!(
        (session.document.plan().walls.len(), session.document.plan().rooms.len()),
        (5, 2),
        "{}",
        session.said
    );
    session
}

fn wall_between(session: &Session, a: (i64, i64), b: (i64, i64)) -> WallId {
    let (a, b) = (Point2::new(a.0, a.1), Point2::new(b.0, b.1));
    let found = session
        .document
        .plan()
        .walls
        .iter()
        .find(|(_, w)| (w.a, w.b) == (a, b) || (w.a, w.b) == (b, a));
    *found
        .unwrap_or_else(|| {
            panic!("a wall from {a:?} to {b:?}: {:?}", session.document.plan().walls)
        })
        .0
}

pub(crate) fn drag(session: &mut Session, from: (f64, f64), to: (f64, f64)) {
    session.press(at(from.0, from.1), false);
    session.hover(at(f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1)));
    session.hover(at(to.0, to.1));
}

/// Keys as they are typed while something is drawn or held.
pub(crate) fn type_in(session: &mut Session, text: &str) {
    for sign in text.chars() {
        session.type_sign(sign);
    }
}

/// Where everything that hangs on walls is in the house.
fn places(session: &Session) -> Vec<Point2> {
    let plan = session.document.plan();
    let points = plan.points.values().filter_map(|point| plan.position(&point.place?));
    let boards = plan.boards.values().filter_map(|board| plan.position(&board.place?));
    points.chain(boards).map(|place| place.on_floor()).collect()
}

#[test]
fn a_dragged_wall_takes_along_what_is_on_it_and_rooms_close_again() {
    let mut session = parted();
    let before = (session.document.plan().clone(), places(&session));
    // The foot of the house: a door and a switch are on it, all others meet it.
    drag(&mut session, (1200.0, 0.0), (1230.0, -520.0));
    settle(&mut session);
    assert_eq!(*session.document.plan(), before.0, "nothing is done before the release");
    let shown = &session.jobs.picture().expect("computed").plan;
    assert!(shown.walls.values().any(|wall| wall.a == Point2::new(0, -500)), "live: {shown:?}");
    session.release();
    wall_between(&session, (0, -500), (6000, -500));
    wall_between(&session, (4000, -500), (4000, 4000));
    wall_between(&session, (0, -500), (0, 4000));
    // The door and the switch are where they were along it; the others stay.
    let after = places(&session);
    for (was, is) in before.1.iter().zip(&after) {
        let on_foot = was.y == Mm::ZERO;
        let expect = if on_foot { Point2 { y: Mm::new(-500), ..*was } } else { *was };
        assert_eq!(*is, expect, "{was:?}");
    }
    let door = session.document.plan().openings.values().next().expect("the door");
    assert_eq!(door.from, before.0.openings.values().next().expect("it").from);
    let feet: Vec<Mm> = session
        .document
        .plan()
        .rooms
        .values()
        .map(|room| room.outline.iter().map(|at| at.y).min().expect("corners"))
        .collect();
    assert_eq!(feet, [Mm::new(-445), Mm::new(-445)], "both rooms reach the new face");
    assert_eq!(session.document.plan().rooms.len(), 2, "with their names");
    session.undo();
    assert_eq!(session.document.plan().walls, before.0.walls, "one edit");
    assert_eq!(session.document.plan().rooms, before.0.rooms);
}

#[test]
fn an_offset_typed_while_dragging_is_exact() {
    let mut session = parted();
    drag(&mut session, (4000.0, 2300.0), (3700.0, 2300.0));
    for sign in "1.234".chars() {
        assert!(session.type_sign(sign), "{sign} is taken");
    }
    session.settle();
    wall_between(&session, (2766, 0), (2766, 4000));
    assert!(
        session.hand.drawing.reshape.is_none() && session.hand.typed().is_empty(),
        "it is let go"
    );
    session.undo();
    wall_between(&session, (4000, 0), (4000, 4000));
    // What would not go says why and changes nothing.
    let before = session.document.plan().clone();
    drag(&mut session, (4000.0, 2300.0), (3900.0, 2300.0));
    type_in(&mut session, "tall");
    session.hand.forget_typed();
    "1e5m".chars().for_each(|sign| session.hand.type_sign(sign));
    session.settle();
    assert!(session.said.contains("no length"), "{}", session.said);
    session.drop_drawing();
    assert_eq!(*session.document.plan(), before);
}

#[test]
fn the_end_of_a_wall_moves_with_its_corner_and_takes_a_typed_length() {
    let mut session = parted();
    drag(&mut session, (6000.0, 4000.0), (6520.0, 4510.0));
    session.release();
    wall_between(&session, (6500, 4500), (0, 4000));
    wall_between(&session, (6500, 4500), (6000, 0));
    assert_eq!(session.document.plan().rooms.len(), 2, "{}", session.said);
    session.undo();
    // A wall that ends in the open, longer by a typed length.
    session.take_tool(Tool::Wall);
    session.press(at(0.0, 2000.0), false);
    session.press(at(1500.0, 2000.0), false);
    session.take_tool(Tool::Hand);
    drag(&mut session, (1500.0, 2000.0), (1700.0, 2010.0));
    type_in(&mut session, "2222");
    session.settle();
    wall_between(&session, (0, 2000), (2222, 2000));
}

#[test]
fn doors_slide_get_wider_and_turn_their_handles() {
    let mut session = wired();
    session.sight.open_step(Step::Survey);
    let (id, door) =
        session.document.plan().openings.get_index(0).map(|(id, o)| (*id, o.clone())).expect("one");
    let middle = door.from.to_f64() + door.width.to_f64() / 2.0;
    drag(&mut session, (middle, 0.0), (middle + 800.0, 30.0));
    session.release();
    assert_eq!(
        session.document.plan().openings[&id].from,
        door.from + Mm::new(800),
        "{}",
        session.said
    );
    // Its near edge exactly 1 m from the corner.
    drag(&mut session, (middle + 800.0, 0.0), (middle + 300.0, 0.0));
    type_in(&mut session, "1000");
    session.settle();
    assert_eq!(session.document.plan().openings[&id].from, Mm::new(1000), "{}", session.said);
    // Its far edge pulled, the near one where it was.
    let far = 1000.0 + door.width.to_f64();
    drag(&mut session, (far - 20.0, 0.0), (far + 180.0, 0.0));
    session.release();
    let wide = session.document.plan().openings[&id].clone();
    assert_eq!((wide.from, wide.width), (Mm::new(1000), Mm::new(1000)), "{}", session.said);
    let hinge = wide.hinge.expect("hung");
    assert!(session.hang(false), "the handle");
    assert_eq!(
        session.document.plan().openings[&id].hinge.map(|h| h.at_near_edge),
        Some(!hinge.at_near_edge)
    );
    assert!(session.hang(true), "the face");
    assert_ne!(session.document.plan().openings[&id].hinge.map(|h| h.opens), Some(hinge.opens));
    // By keyboard.
    assert!(session.set_building(Amount::Width, "720"), "{}", session.said);
    assert_eq!(session.document.plan().openings[&id].width, Mm::new(720));
    session.set_building(Amount::Width, "7 m");
    assert!(session.said.contains("not fit"), "{}", session.said);
}

#[test]
fn a_wall_that_would_lose_its_door_or_vanish_stays() {
    let mut session = parted();
    let before = session.document.plan().clone();
    // The right wall all the way over the wall across.
    drag(&mut session, (6000.0, 2500.0), (-500.0, 2500.0));
    session.release();
    for wall in session.document.plan().walls.values() {
        assert!(wall.length() >= 50.0, "{wall:?}");
    }
    session.undo();
    assert_eq!(session.document.plan().walls, before.walls);
}

#[test]
fn walls_get_their_build_by_select_and_by_key_several_at_once() {
    let mut session = parted();
    session
        .selection
        .choose(session.document.plan().walls.keys().take(2).map(|id| Subject::Wall(*id)));
    session.build(WallBuild::SolidMasonry);
    let count = |session: &Session, of: WallBuild| {
        session.document.plan().walls.values().filter(|wall| wall.build == of).count()
    };
    assert_eq!(count(&session, WallBuild::SolidMasonry), 2, "{}", session.said);
    session.insulate();
    assert_eq!(session.document.plan().walls.values().filter(|wall| wall.insulated).count(), 2);
    session.undo();
    session.undo();
    assert_eq!(count(&session, WallBuild::SolidMasonry), 0, "one undo each");
    session.selection.clear();
    session.build(WallBuild::Concrete);
    session.take_tool(Tool::Wall);
    session.press(at(0.0, -3000.0), false);
    session.press(at(3000.0, -3000.0), false);
    assert_eq!(count(&session, WallBuild::Concrete), 1, "new walls are of it");
}

#[test]
fn rooms_are_named_and_used_together() {
    let mut session = parted();
    session.press(at(2000.0, 2500.0), false);
    assert!(
        matches!(session.selection.chosen().first(), Some(Subject::Room(_))),
        "{:?}",
        session.selection.chosen()
    );
    session.press(at(5000.0, 2500.0), true);
    assert_eq!(session.selection.chosen().len(), 2, "both rooms");
    session.usage(RoomUse::Bedroom);
    let names: Vec<&str> =
        session.document.plan().rooms.values().map(|room| room.name.as_str()).collect();
    assert_eq!(names, ["Bedroom", "Bedroom"], "called after their use");
    session.undo();
    session.selection.choose([*session.selection.chosen().first().expect("one")]);
    assert!(session.set_building(Amount::Name, " Nursery "));
    assert!(
        session.document.plan().rooms.values().any(|room| room.name == "Nursery"),
        "{}",
        session.said
    );
}

#[test]
fn levels_are_stacked_named_and_taken_away() {
    let mut session = parted();
    let ground = session.sight.level().expect("a level");
    let before = session.document.plan().clone();
    session.add_level(true);
    let upper = session.sight.level().expect("a level");
    assert_ne!(upper, ground, "it is shown: {}", session.said);
    assert_eq!(session.below(), Some(ground), "and the one below shows through");
    let level = &session.document.plan().levels[&upper];
    assert_eq!(level.floor, Mm::new(2700), "2 400 of room and 300 between floors");
    assert_eq!(level.above, before.levels[&ground].above, "the roof is over it now");
    let roof = session.document.plan().voids[&level.above[0]].z - before.voids[&level.above[0]].z;
    assert_eq!(roof, Mm::new(2700), "and higher by as much");
    assert_eq!(session.document.plan().levels[&ground].above, level.below, "one void between them");
    assert!(crate::plan::review(session.document.plan()).iter().all(|f| !f.code.contains("void")));
    session.selection.clear();
    session.set_building(Amount::Name, "Attic");
    assert_eq!(session.document.plan().levels[&upper].name, "Attic");
    // Its corners snap to those below.
    session.take_tool(Tool::Wall);
    session.press(at(40.0, 30.0), false);
    session.press(at(5960.0, 50.0), false);
    let on: Vec<_> =
        session.document.plan().walls.values().filter(|wall| wall.level == upper).collect();
    let ends: Vec<_> = on.iter().map(|wall| (wall.a, wall.b)).collect();
    assert_eq!(ends, [(Point2::new(0, 0), Point2::new(6000, 0))], "{}", session.said);
    settle(&mut session);
    session.remove_level();
    assert_eq!(session.document.plan().levels.len(), 1, "{}", session.said);
    session.undo();
    assert_eq!(session.document.plan().levels.len(), 2, "one edit");
    assert_eq!(storeys::below(session.document.plan(), upper), Some(ground));
}

#[test]
fn voids_have_outlines_and_joists_and_the_cables_follow() {
    let mut session = parted();
    settle(&mut session);
    let roof = session.void_here().expect("a roof");
    session.selection.choose([Subject::Void(roof)]);
    session.set_building(Amount::Direction, "0");
    session.set_building(Amount::Spacing, "450");
    let void = &session.document.plan().voids[&roof];
    assert_eq!(void.direction.millidegrees(), 0);
    assert_eq!(void.joists.map(|joists| joists.spacing), Some(Mm::new(450)));
    session.take_tool(Tool::Outline);
    drag(&mut session, (-200.0, -200.0), (6200.0, 4200.0));
    session.release();
    let outline = session.document.plan().voids[&roof].outline.clone().expect("an outline");
    assert_eq!(outline.len(), 4, "a rectangle: {outline:?} {}", session.said);
    // One of its corners by the hand.
    drag(&mut session, (6200.0, 4200.0), (7010.0, 5020.0));
    session.release();
    let outline = session.document.plan().voids[&roof].outline.clone().expect("an outline");
    assert!(outline.contains(&Point2::new(7000, 5000)), "{outline:?} {}", session.said);
    session.add_void(false);
    let level = &session.document.plan().levels[&session.sight.level().expect("a level")];
    assert_eq!(level.below.len(), 1, "a subfloor: {}", session.said);
}

#[test]
fn keep_outs_are_drawn_as_rectangles_and_polygons_and_cables_go_round() {
    let mut session = parted();
    settle(&mut session);
    let routed =
        |session: &Session| format!("{:?}", session.jobs.picture().expect("computed").runs);
    let free = routed(&session);
    session.take_tool(Tool::Area(AreaKind::KeepOut));
    drag(&mut session, (-400.0, 2000.0), (2500.0, 3000.0));
    session.release();
    let (id, area) =
        session.document.plan().areas.get_index(0).map(|(id, a)| (*id, a.clone())).expect("one");
    assert_eq!(area.effect, AreaEffect::KeepOut);
    settle(&mut session);
    assert_ne!(routed(&session), free, "the cables go another way");
    // Corner after corner, closed by Enter; then a typed size.
    session.take_tool(Tool::Area(AreaKind::Dear));
    for (x, y) in [(4500.0, 1000.0), (5500.0, 1000.0), (5000.0, 2000.0)] {
        session.press(at(x, y), false);
        session.release();
    }
    session.settle();
    assert_eq!(
        session.document.plan().areas.values().last().map(|a| a.outline.len()),
        Some(3),
        "{}",
        session.said
    );
    session.press(at(500.0, 500.0), false);
    session.release();
    session.hover(at(600.0, 600.0));
    type_in(&mut session, "900x600");
    session.settle();
    let last = session.document.plan().areas.values().last().expect("one").outline.clone();
    assert_eq!(last[2] - last[0], Point2::new(900, 600), "{last:?} {}", session.said);
    session.take_tool(Tool::Hand);
    session.selection.choose([Subject::Area(id)]);
    session.effect(AreaKind::Barrier.effect());
    assert!(
        matches!(session.document.plan().areas[&id].effect, AreaEffect::Barrier(_)),
        "{}",
        session.said
    );
    session.delete();
    assert!(!session.document.plan().areas.contains_key(&id), "{}", session.said);
}

#[test]
fn what_is_typed_while_a_wall_is_drawn_can_be_an_angle() {
    let mut session = Session::with(blank::plan());
    session.press(at(0.0, 0.0), false);
    session.hover(at(900.0, 40.0));
    type_in(&mut session, "2000@30");
    session.settle();
    // cos 30° and sin 30° of 2 m.
    wall_between(&session, (0, 0), (1732, 1000));
}

#[test]
fn every_edit_of_the_building_goes_into_the_journal() {
    let folder = folder("survey-journal");
    let file = folder.join("house.wend");
    let mut session = parted();
    assert!(session.save_as(file.clone()), "{}", session.said);
    drag(&mut session, (1200.0, 0.0), (1230.0, -520.0));
    session.release();
    session.add_level(true);
    session.take_tool(Tool::Area(AreaKind::KeepOut));
    drag(&mut session, (1500.0, 200.0), (3800.0, 3700.0));
    session.release();
    let drawn = session.document.plan().clone();
    drop(session);
    let plan = crate::store::read_file(&file).expect("a plan");
    let session = of_file(plan, file);
    assert_eq!(*session.document.plan(), drawn, "{}", session.said);
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn a_wall_is_chosen_and_moved_by_keys_alone() {
    let mut session = parted();
    session.selection.clear();
    session.next();
    assert!(
        matches!(session.selection.chosen().first(), Some(Subject::Wall(_))),
        "{:?}",
        session.selection.chosen()
    );
    assert!(session.nudge_building(kurbo::Vec2::new(0.0, -50.0)), "{}", session.said);
    wall_between(&session, (0, -50), (6000, -50));
    assert!(session.set_building(Amount::Along, "-0.25"), "{}", session.said);
    wall_between(&session, (0, -300), (6000, -300));
}

#[test]
fn a_band_chooses_the_walls_that_it_holds() {
    let mut session = parted();
    drag(&mut session, (-500.0, -500.0), (4500.0, 4500.0));
    session.release();
    let walls = session.chosen_walls();
    assert_eq!(walls.len(), 2, "the left one and the one across: {walls:?}");
}

#[test]
fn a_light_in_the_open_stays_where_it_is() {
    let mut session = wired();
    session.sight.open_step(Step::Survey);
    let light = session.document.plan().points.iter().find(|(_, p)| p.kind == PointKind::Luminaire);
    let (id, place) = light.map(|(id, p)| (*id, p.place)).expect("a light");
    drag(&mut session, (6000.0, 2500.0), (6520.0, 2500.0));
    session.release();
    assert_eq!(session.document.plan().points[&id].place, place);
    assert!(matches!(place, Some(Place::Ceiling(_))));
}

#[test]
fn an_area_is_drawn_along_the_chosen_wall_and_its_heights_typed() {
    let mut session = parted();
    session.sight.open_step(Step::Survey);
    let id = wall_between(&session, (0, 0), (6000, 0));
    let outline = |session: &Session| -> Vec<[i64; 2]> {
        let area = session.document.plan().areas.values().next().expect("an area");
        assert_eq!(area.on, Plane::Wall(id));
        area.outline.iter().map(|at| [at.x.get(), at.y.get()]).collect()
    };
    session.selection.choose([Subject::Wall(id)]);
    session.take_tool(Tool::Area(AreaKind::KeepOut));
    session.press(at(4200.0, 30.0), false);
    session.hover(at(5010.0, 40.0));
    assert!(!session.sketch().lines.is_empty(), "it is drawn along");
    session.release();
    let turned = session.document.plan().walls[&id].a.x > Mm::ZERO;
    let (from, to) = if turned { (1000, 1800) } else { (4200, 5000) };
    assert_eq!(
        outline(&session),
        [[from, 0], [to, 0], [to, 2400], [from, 2400]],
        "{}",
        session.said
    );
    // Its edges by typing; what does not fit is refused.
    assert!(session.set_building(Amount::Height, "300"));
    assert!(session.set_building(Amount::Head, "1.2"));
    assert!(session.set_building(Amount::Width, "600"));
    let set = outline(&session);
    assert_eq!(set, [[from, 300], [from + 600, 300], [from + 600, 1200], [from, 1200]]);
    assert!(session.set_building(Amount::Head, "9000") && session.said.contains("ceiling"));
    assert_eq!(outline(&session), set, "as it was");
    // It is taken by the hand and carried along its wall, no further than its end.
    settle(&mut session);
    drag(&mut session, (4600.0 - if turned { 0.0 } else { 300.0 }, 0.0), (9000.0, 0.0));
    session.release();
    let end = outline(&session);
    assert!(end[0][0] == 0 || end[1][0] == 6000, "{end:?}; {}", session.said);
    for _ in 0..5 {
        session.undo();
    }
    assert!(session.document.plan().areas.is_empty(), "each was one step");
    // By keys alone.
    session.selection.choose([Subject::Wall(id)]);
    session.take_tool(Tool::Area(AreaKind::Dear));
    session.press(at(2000.0, 0.0), false);
    session.release();
    session.hover(at(2500.0, 0.0));
    type_in(&mut session, "900x600");
    session.settle();
    let size = outline(&session);
    assert_eq!((size[1][0] - size[0][0], size[2][1]), (900, 600), "{}", session.said);
}

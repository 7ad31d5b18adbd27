//! Drawing and changing the building without a window: what the hand does,
//! what the plan then is.

use std::collections::BTreeSet;

use kurbo::Point;
use wirewend::plan::{AreaEffect, Place, Plane, PointKind, RoomUse, Subject, WallBuild, WallId};
use wirewend::units::{Mm, Point2};

use super::desk::Desk;
use super::flows::{settle, wired};
use super::keys::{Amount, AreaKind, Step, Tool};
use super::layout_flows::folder;
use super::{blank, levels};

pub(super) fn at(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

/// A house of one room 6 m by 4 m with a door, a board, points; a wall across
/// it at 2.5 m from the left, 90 mm of it off the door.
fn parted() -> Desk {
    let mut desk = wired();
    desk.step = Step::Survey;
    desk.take_tool(Tool::Wall);
    desk.press(at(4000.0, 0.0), false);
    desk.press(at(4000.0, 4000.0), false);
    desk.take_tool(Tool::Hand);
    settle(&mut desk);
    assert_eq!((desk.plan.walls.len(), desk.plan.rooms.len()), (5, 2), "{}", desk.said);
    desk
}

fn wall_between(desk: &Desk, a: (i64, i64), b: (i64, i64)) -> WallId {
    let (a, b) = (Point2::new(a.0, a.1), Point2::new(b.0, b.1));
    let found = desk.plan.walls.iter().find(|(_, w)| (w.a, w.b) == (a, b) || (w.a, w.b) == (b, a));
    *found.unwrap_or_else(|| panic!("a wall from {a:?} to {b:?}: {:?}", desk.plan.walls)).0
}

pub(super) fn drag(desk: &mut Desk, from: (f64, f64), to: (f64, f64)) {
    desk.press(at(from.0, from.1), false);
    desk.hover(at(f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1)));
    desk.hover(at(to.0, to.1));
}

/// Keys as they are typed while something is drawn or held.
pub(super) fn type_in(desk: &mut Desk, text: &str) {
    for sign in text.chars() {
        desk.type_sign(sign);
    }
}

/// Where everything that hangs on walls is in the house.
fn places(desk: &Desk) -> Vec<Point2> {
    let plan = &desk.plan;
    let points = plan.points.values().filter_map(|point| plan.position(&point.place?));
    let boards = plan.boards.values().filter_map(|board| plan.position(&board.place?));
    points.chain(boards).map(|place| place.on_floor()).collect()
}

#[test]
fn a_dragged_wall_takes_along_what_is_on_it_and_rooms_close_again() {
    let mut desk = parted();
    let before = (desk.plan.clone(), places(&desk));
    // The foot of the house: a door and a switch are on it, all others meet it.
    drag(&mut desk, (1200.0, 0.0), (1230.0, -520.0));
    settle(&mut desk);
    assert_eq!(desk.plan, before.0, "nothing is done before the release");
    let shown = &desk.picture.as_ref().expect("computed").plan;
    assert!(shown.walls.values().any(|wall| wall.a == Point2::new(0, -500)), "live: {shown:?}");
    desk.release();
    wall_between(&desk, (0, -500), (6000, -500));
    wall_between(&desk, (4000, -500), (4000, 4000));
    wall_between(&desk, (0, -500), (0, 4000));
    // The door and the switch are where they were along it; the others stay.
    let after = places(&desk);
    for (was, is) in before.1.iter().zip(&after) {
        let on_foot = was.y == Mm::ZERO;
        let expect = if on_foot { Point2 { y: Mm::new(-500), ..*was } } else { *was };
        assert_eq!(*is, expect, "{was:?}");
    }
    let door = desk.plan.openings.values().next().expect("the door");
    assert_eq!(door.from, before.0.openings.values().next().expect("it").from);
    let feet: Vec<Mm> = desk
        .plan
        .rooms
        .values()
        .map(|room| room.outline.iter().map(|at| at.y).min().expect("corners"))
        .collect();
    assert_eq!(feet, [Mm::new(-445), Mm::new(-445)], "both rooms reach the new face");
    assert_eq!(desk.plan.rooms.len(), 2, "with their names");
    desk.undo();
    assert_eq!(desk.plan.walls, before.0.walls, "one edit");
    assert_eq!(desk.plan.rooms, before.0.rooms);
}

#[test]
fn an_offset_typed_while_dragging_is_exact() {
    let mut desk = parted();
    drag(&mut desk, (4000.0, 2300.0), (3700.0, 2300.0));
    for sign in "1.234".chars() {
        assert!(desk.type_sign(sign), "{sign} is taken");
    }
    desk.settle();
    wall_between(&desk, (2766, 0), (2766, 4000));
    assert!(desk.survey.reshape.is_none() && desk.typed.is_empty(), "it is let go");
    desk.undo();
    wall_between(&desk, (4000, 0), (4000, 4000));
    // What would not go says why and changes nothing.
    let before = desk.plan.clone();
    drag(&mut desk, (4000.0, 2300.0), (3900.0, 2300.0));
    type_in(&mut desk, "tall");
    desk.typed = "1e5m".to_owned();
    desk.settle();
    assert!(desk.said.contains("no length"), "{}", desk.said);
    desk.drop_survey();
    assert_eq!(desk.plan, before);
}

#[test]
fn the_end_of_a_wall_moves_with_its_corner_and_takes_a_typed_length() {
    let mut desk = parted();
    drag(&mut desk, (6000.0, 4000.0), (6520.0, 4510.0));
    desk.release();
    wall_between(&desk, (6500, 4500), (0, 4000));
    wall_between(&desk, (6500, 4500), (6000, 0));
    assert_eq!(desk.plan.rooms.len(), 2, "{}", desk.said);
    desk.undo();
    // A wall that ends in the open, longer by a typed length.
    desk.take_tool(Tool::Wall);
    desk.press(at(0.0, 2000.0), false);
    desk.press(at(1500.0, 2000.0), false);
    desk.take_tool(Tool::Hand);
    drag(&mut desk, (1500.0, 2000.0), (1700.0, 2010.0));
    type_in(&mut desk, "2222");
    desk.settle();
    wall_between(&desk, (0, 2000), (2222, 2000));
}

#[test]
fn doors_slide_get_wider_and_turn_their_handles() {
    let mut desk = wired();
    desk.step = Step::Survey;
    let (id, door) = desk.plan.openings.get_index(0).map(|(id, o)| (*id, o.clone())).expect("one");
    let middle = door.from.to_f64() + door.width.to_f64() / 2.0;
    drag(&mut desk, (middle, 0.0), (middle + 800.0, 30.0));
    desk.release();
    assert_eq!(desk.plan.openings[&id].from, door.from + Mm::new(800), "{}", desk.said);
    // Its near edge exactly 1 m from the corner.
    drag(&mut desk, (middle + 800.0, 0.0), (middle + 300.0, 0.0));
    type_in(&mut desk, "1000");
    desk.settle();
    assert_eq!(desk.plan.openings[&id].from, Mm::new(1000), "{}", desk.said);
    // Its far edge pulled, the near one where it was.
    let far = 1000.0 + door.width.to_f64();
    drag(&mut desk, (far - 20.0, 0.0), (far + 180.0, 0.0));
    desk.release();
    let wide = desk.plan.openings[&id].clone();
    assert_eq!((wide.from, wide.width), (Mm::new(1000), Mm::new(1000)), "{}", desk.said);
    let hinge = wide.hinge.expect("hung");
    assert!(desk.hang(false), "the handle");
    assert_eq!(desk.plan.openings[&id].hinge.map(|h| h.at_near_edge), Some(!hinge.at_near_edge));
    assert!(desk.hang(true), "the face");
    assert_ne!(desk.plan.openings[&id].hinge.map(|h| h.opens), Some(hinge.opens));
    // By keyboard.
    assert!(desk.set_building(Amount::Width, "720"), "{}", desk.said);
    assert_eq!(desk.plan.openings[&id].width, Mm::new(720));
    desk.set_building(Amount::Width, "7 m");
    assert!(desk.said.contains("not fit"), "{}", desk.said);
}

#[test]
fn a_wall_that_would_lose_its_door_or_vanish_stays() {
    let mut desk = parted();
    let before = desk.plan.clone();
    // The right wall all the way over the wall across.
    drag(&mut desk, (6000.0, 2500.0), (-500.0, 2500.0));
    desk.release();
    for wall in desk.plan.walls.values() {
        assert!(wall.length() >= 50.0, "{wall:?}");
    }
    desk.undo();
    assert_eq!(desk.plan.walls, before.walls);
}

#[test]
fn walls_get_their_build_by_select_and_by_key_several_at_once() {
    let mut desk = parted();
    desk.chosen = desk.plan.walls.keys().take(2).map(|id| Subject::Wall(*id)).collect();
    desk.build(WallBuild::SolidMasonry);
    let count = |desk: &Desk, of: WallBuild| {
        desk.plan.walls.values().filter(|wall| wall.build == of).count()
    };
    assert_eq!(count(&desk, WallBuild::SolidMasonry), 2, "{}", desk.said);
    desk.insulate();
    assert_eq!(desk.plan.walls.values().filter(|wall| wall.insulated).count(), 2);
    desk.undo();
    desk.undo();
    assert_eq!(count(&desk, WallBuild::SolidMasonry), 0, "one undo each");
    desk.chosen.clear();
    desk.build(WallBuild::Concrete);
    desk.take_tool(Tool::Wall);
    desk.press(at(0.0, -3000.0), false);
    desk.press(at(3000.0, -3000.0), false);
    assert_eq!(count(&desk, WallBuild::Concrete), 1, "new walls are of it");
}

#[test]
fn rooms_are_named_and_used_together() {
    let mut desk = parted();
    desk.press(at(2000.0, 2500.0), false);
    assert!(matches!(desk.chosen.first(), Some(Subject::Room(_))), "{:?}", desk.chosen);
    desk.press(at(5000.0, 2500.0), true);
    assert_eq!(desk.chosen.len(), 2, "both rooms");
    desk.usage(RoomUse::Bedroom);
    let names: Vec<&str> = desk.plan.rooms.values().map(|room| room.name.as_str()).collect();
    assert_eq!(names, ["Bedroom", "Bedroom"], "called after their use");
    desk.undo();
    desk.chosen = BTreeSet::from([*desk.chosen.first().expect("one")]);
    assert!(desk.set_building(Amount::Name, " Nursery "));
    assert!(desk.plan.rooms.values().any(|room| room.name == "Nursery"), "{}", desk.said);
}

#[test]
fn levels_are_stacked_named_and_taken_away() {
    let mut desk = parted();
    let ground = desk.level.expect("a level");
    let before = desk.plan.clone();
    desk.add_level(true);
    let upper = desk.level.expect("a level");
    assert_ne!(upper, ground, "it is shown: {}", desk.said);
    assert_eq!(desk.below(), Some(ground), "and the one below shows through");
    let level = &desk.plan.levels[&upper];
    assert_eq!(level.floor, Mm::new(2700), "2 400 of room and 300 between floors");
    assert_eq!(level.above, before.levels[&ground].above, "the roof is over it now");
    let roof = desk.plan.voids[&level.above[0]].z - before.voids[&level.above[0]].z;
    assert_eq!(roof, Mm::new(2700), "and higher by as much");
    assert_eq!(desk.plan.levels[&ground].above, level.below, "one void between them");
    assert!(wirewend::plan::review(&desk.plan).iter().all(|f| !f.code.contains("void")));
    desk.chosen.clear();
    desk.set_building(Amount::Name, "Attic");
    assert_eq!(desk.plan.levels[&upper].name, "Attic");
    // Its corners snap to those below.
    desk.take_tool(Tool::Wall);
    desk.press(at(40.0, 30.0), false);
    desk.press(at(5960.0, 50.0), false);
    let on: Vec<_> = desk.plan.walls.values().filter(|wall| wall.level == upper).collect();
    let ends: Vec<_> = on.iter().map(|wall| (wall.a, wall.b)).collect();
    assert_eq!(ends, [(Point2::new(0, 0), Point2::new(6000, 0))], "{}", desk.said);
    settle(&mut desk);
    desk.remove_level();
    assert_eq!(desk.plan.levels.len(), 1, "{}", desk.said);
    desk.undo();
    assert_eq!(desk.plan.levels.len(), 2, "one edit");
    assert_eq!(levels::below(&desk.plan, upper), Some(ground));
}

#[test]
fn voids_have_outlines_and_joists_and_the_cables_follow() {
    let mut desk = parted();
    settle(&mut desk);
    let roof = desk.void_here().expect("a roof");
    desk.chosen = BTreeSet::from([Subject::Void(roof)]);
    desk.set_building(Amount::Direction, "0");
    desk.set_building(Amount::Spacing, "450");
    let void = &desk.plan.voids[&roof];
    assert_eq!(void.direction.millidegrees(), 0);
    assert_eq!(void.joists.map(|joists| joists.spacing), Some(Mm::new(450)));
    desk.take_tool(Tool::Outline);
    drag(&mut desk, (-200.0, -200.0), (6200.0, 4200.0));
    desk.release();
    let outline = desk.plan.voids[&roof].outline.clone().expect("an outline");
    assert_eq!(outline.len(), 4, "a rectangle: {outline:?} {}", desk.said);
    // One of its corners by the hand.
    drag(&mut desk, (6200.0, 4200.0), (7010.0, 5020.0));
    desk.release();
    let outline = desk.plan.voids[&roof].outline.clone().expect("an outline");
    assert!(outline.contains(&Point2::new(7000, 5000)), "{outline:?} {}", desk.said);
    desk.add_void(false);
    let level = &desk.plan.levels[&desk.level.expect("a level")];
    assert_eq!(level.below.len(), 1, "a subfloor: {}", desk.said);
}

#[test]
fn keep_outs_are_drawn_as_rectangles_and_polygons_and_cables_go_round() {
    let mut desk = parted();
    settle(&mut desk);
    let routed = |desk: &Desk| format!("{:?}", desk.picture.as_ref().expect("computed").runs);
    let free = routed(&desk);
    desk.take_tool(Tool::Area(AreaKind::KeepOut));
    drag(&mut desk, (-400.0, 2000.0), (2500.0, 3000.0));
    desk.release();
    let (id, area) = desk.plan.areas.get_index(0).map(|(id, a)| (*id, a.clone())).expect("one");
    assert_eq!(area.effect, AreaEffect::KeepOut);
    settle(&mut desk);
    assert_ne!(routed(&desk), free, "the cables go another way");
    // Corner after corner, closed by Enter; then a typed size.
    desk.take_tool(Tool::Area(AreaKind::Dear));
    for (x, y) in [(4500.0, 1000.0), (5500.0, 1000.0), (5000.0, 2000.0)] {
        desk.press(at(x, y), false);
        desk.release();
    }
    desk.settle();
    assert_eq!(desk.plan.areas.values().last().map(|a| a.outline.len()), Some(3), "{}", desk.said);
    desk.press(at(500.0, 500.0), false);
    desk.release();
    desk.hover(at(600.0, 600.0));
    type_in(&mut desk, "900x600");
    desk.settle();
    let last = desk.plan.areas.values().last().expect("one").outline.clone();
    assert_eq!(last[2] - last[0], Point2::new(900, 600), "{last:?} {}", desk.said);
    desk.take_tool(Tool::Hand);
    desk.chosen = BTreeSet::from([Subject::Area(id)]);
    desk.effect(AreaKind::Barrier.effect());
    assert!(matches!(desk.plan.areas[&id].effect, AreaEffect::Barrier(_)), "{}", desk.said);
    desk.delete();
    assert!(!desk.plan.areas.contains_key(&id), "{}", desk.said);
}

#[test]
fn what_is_typed_while_a_wall_is_drawn_can_be_an_angle() {
    let mut desk = Desk::with(blank::plan());
    desk.press(at(0.0, 0.0), false);
    desk.hover(at(900.0, 40.0));
    type_in(&mut desk, "2000@30");
    desk.settle();
    // cos 30° and sin 30° of 2 m.
    wall_between(&desk, (0, 0), (1732, 1000));
}

#[test]
fn every_edit_of_the_building_goes_into_the_journal() {
    let folder = folder("survey-journal");
    let file = folder.join("house.wend");
    let mut desk = parted();
    assert!(desk.save_as(file.clone()), "{}", desk.said);
    drag(&mut desk, (1200.0, 0.0), (1230.0, -520.0));
    desk.release();
    desk.add_level(true);
    desk.take_tool(Tool::Area(AreaKind::KeepOut));
    drag(&mut desk, (1500.0, 200.0), (3800.0, 3700.0));
    desk.release();
    let drawn = desk.plan.clone();
    drop(desk);
    let plan = wirewend::store::read_file(&file).expect("a plan");
    let desk = Desk::of_file(plan, file);
    assert_eq!(desk.plan, drawn, "{}", desk.said);
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn a_wall_is_chosen_and_moved_by_keys_alone() {
    let mut desk = parted();
    desk.chosen.clear();
    desk.next();
    assert!(matches!(desk.chosen.first(), Some(Subject::Wall(_))), "{:?}", desk.chosen);
    assert!(desk.nudge_building(kurbo::Vec2::new(0.0, -50.0)), "{}", desk.said);
    wall_between(&desk, (0, -50), (6000, -50));
    assert!(desk.set_building(Amount::Along, "-0.25"), "{}", desk.said);
    wall_between(&desk, (0, -300), (6000, -300));
}

#[test]
fn a_band_chooses_the_walls_that_it_holds() {
    let mut desk = parted();
    drag(&mut desk, (-500.0, -500.0), (4500.0, 4500.0));
    desk.release();
    let walls = desk.chosen_walls();
    assert_eq!(walls.len(), 2, "the left one and the one across: {walls:?}");
}

#[test]
fn a_light_in_the_open_stays_where_it_is() {
    let mut desk = wired();
    desk.step = Step::Survey;
    let light = desk.plan.points.iter().find(|(_, p)| p.kind == PointKind::Luminaire);
    let (id, place) = light.map(|(id, p)| (*id, p.place)).expect("a light");
    drag(&mut desk, (6000.0, 2500.0), (6520.0, 2500.0));
    desk.release();
    assert_eq!(desk.plan.points[&id].place, place);
    assert!(matches!(place, Some(Place::Ceiling(_))));
}

#[test]
fn an_area_is_drawn_along_the_chosen_wall_and_its_heights_typed() {
    let mut desk = parted();
    desk.step = Step::Survey;
    let id = wall_between(&desk, (0, 0), (6000, 0));
    let outline = |desk: &Desk| -> Vec<[i64; 2]> {
        let area = desk.plan.areas.values().next().expect("an area");
        assert_eq!(area.on, Plane::Wall(id));
        area.outline.iter().map(|at| [at.x.get(), at.y.get()]).collect()
    };
    desk.chosen = BTreeSet::from([Subject::Wall(id)]);
    desk.take_tool(Tool::Area(AreaKind::KeepOut));
    desk.press(at(4200.0, 30.0), false);
    desk.hover(at(5010.0, 40.0));
    assert!(!desk.sketch().lines.is_empty(), "it is drawn along");
    desk.release();
    let turned = desk.plan.walls[&id].a.x > Mm::ZERO;
    let (from, to) = if turned { (1000, 1800) } else { (4200, 5000) };
    assert_eq!(outline(&desk), [[from, 0], [to, 0], [to, 2400], [from, 2400]], "{}", desk.said);
    // Its edges by typing; what does not fit is refused.
    assert!(desk.set_building(Amount::Height, "300"));
    assert!(desk.set_building(Amount::Head, "1.2"));
    assert!(desk.set_building(Amount::Width, "600"));
    let set = outline(&desk);
    assert_eq!(set, [[from, 300], [from + 600, 300], [from + 600, 1200], [from, 1200]]);
    assert!(desk.set_building(Amount::Head, "9000") && desk.said.contains("ceiling"));
    assert_eq!(outline(&desk), set, "as it was");
    // It is taken by the hand and carried along its wall, no further than its end.
    settle(&mut desk);
    drag(&mut desk, (4600.0 - if turned { 0.0 } else { 300.0 }, 0.0), (9000.0, 0.0));
    desk.release();
    let end = outline(&desk);
    assert!(end[0][0] == 0 || end[1][0] == 6000, "{end:?}; {}", desk.said);
    for _ in 0..5 {
        desk.undo();
    }
    assert!(desk.plan.areas.is_empty(), "each was one step");
    // By keys alone.
    desk.chosen = BTreeSet::from([Subject::Wall(id)]);
    desk.take_tool(Tool::Area(AreaKind::Dear));
    desk.press(at(2000.0, 0.0), false);
    desk.release();
    desk.hover(at(2500.0, 0.0));
    type_in(&mut desk, "900x600");
    desk.settle();
    let size = outline(&desk);
    assert_eq!((size[1][0] - size[0][0], size[2][1]), (900, 600), "{}", desk.said);
}

//! The main flows without a window: what the hand does, what the plan then is.

use std::sync::{Arc, Mutex};

use kurbo::Point;
use wirewend::plan::{End, OpeningKind, Place, PointKind, Subject};
use wirewend::rules::RuleBook;
use wirewend::units::{Mm, Point2};

use super::blank;
use super::camera::exact;
use super::desk::Desk;
use super::keys::{Amount, Tool};

/// Computes whatever is due, as the window's threads do.
pub(super) fn settle(desk: &mut Desk) {
    let (rules, known) = (RuleBook::shipped(), Mutex::default());
    while let Some(order) = desk.due() {
        desk.done(Arc::new(order.done(&rules, &known)));
    }
}

pub(super) fn at(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

/// A house of one room, 6 m by 4 m, drawn with clicks and typed lengths.
fn house() -> Desk {
    let mut desk = Desk::with(blank::plan());
    desk.press(at(0.0, 0.0), false);
    for (towards, typed) in
        [((900.0, 40.0), "6000"), ((6050.0, 900.0), "4.0"), ((100.0, 4100.0), "6 m")]
    {
        desk.hover(at(towards.0, towards.1));
        desk.typed = typed.to_owned();
        desk.settle();
    }
    desk.press(at(10.0, -10.0), false);
    settle(&mut desk);
    desk
}

pub(super) fn take(desk: &mut Desk, tool: Tool, places: &[(f64, f64)]) {
    desk.tool = tool;
    for place in places {
        desk.press(at(place.0, place.1), false);
        settle(desk);
    }
    desk.tool = Tool::Hand;
}

/// The same with a door, a board, three sockets, a light and its switch.
pub(super) fn wired() -> Desk {
    let mut desk = house();
    take(&mut desk, Tool::Opening(OpeningKind::Door), &[(3000.0, 0.0)]);
    take(&mut desk, Tool::Board, &[(100.0, 1000.0)]);
    let sockets = [(1000.0, 3900.0), (5000.0, 3900.0), (5900.0, 1000.0)];
    take(&mut desk, Tool::Point(PointKind::Socket), &sockets);
    take(&mut desk, Tool::Point(PointKind::Luminaire), &[(3050.0, 2100.0)]);
    take(&mut desk, Tool::Point(PointKind::Switch), &[(2300.0, 100.0)]);
    desk
}

#[test]
fn a_room_is_drawn_with_clicks_and_typed_lengths() {
    let desk = house();
    assert_eq!(desk.plan.walls.len(), 4, "{}", desk.said);
    let lengths: Vec<f64> = desk.plan.walls.values().map(wirewend::plan::Wall::length).collect();
    assert_eq!(lengths, [6000.0, 4000.0, 6000.0, 4000.0]);
    assert_eq!(desk.plan.rooms.len(), 1, "it closes by itself");
    assert_eq!(desk.pen, None, "a closed room lifts the pen");
}

#[test]
fn what_is_placed_is_wired_by_itself() {
    let desk = wired();
    let plan = &desk.plan;
    assert_eq!((plan.points.len(), plan.circuits.len(), plan.controls.len()), (5, 2, 1));
    assert!(plan.circuits.values().all(|circuit| circuit.board.is_some()), "all on the board");
    let picture = desk.picture.as_ref().expect("computed");
    let legs: Vec<usize> = picture.runs.circuits.values().map(|run| run.legs.len()).collect();
    assert_eq!(legs, [3, 2], "a chain of sockets; the light and its switch leg");
    let middle = plan.points.values().find(|point| point.kind == PointKind::Luminaire);
    let middle = plan.position(&middle.and_then(|light| light.place).expect("a place"));
    assert_eq!(middle.map(|at| at.on_floor()), Some(Point2::new(3000, 2000)), "mid-room");
}

#[test]
fn everything_can_be_undone_and_done_again() {
    let mut desk = wired();
    let full = desk.plan.clone();
    while desk.can_undo() {
        desk.undo();
    }
    assert!(desk.plan.walls.is_empty() && desk.plan.points.is_empty(), "as it began");
    while desk.can_redo() {
        desk.redo();
    }
    assert_eq!(desk.plan, full);
}

#[test]
fn a_dragged_socket_keeps_to_its_wall_and_the_cable_follows() {
    let mut desk = wired();
    let (id, before) = desk
        .plan
        .points
        .iter()
        .find(|(_, point)| point.kind == PointKind::Socket)
        .map(|(id, point)| (*id, point.place.expect("a place")))
        .expect("a socket");
    let cable = |desk: &Desk| -> Mm {
        let picture = desk.picture.as_ref().expect("computed");
        picture.lengths.cables.iter().map(|cable| cable.cut).sum()
    };
    let (was, from) = (cable(&desk), desk.plan.position(&before).expect("a position"));
    let from = exact(from.on_floor());
    desk.press(from + kurbo::Vec2::new(0.0, -180.0), false);
    assert_eq!(desk.hold.as_ref().map(|hold| hold.end), Some(End::Point(id)), "it is in the hand");
    desk.hover(from + kurbo::Vec2::new(1500.0, -300.0));
    settle(&mut desk);
    assert_ne!(cable(&desk), was, "the cable follows while it moves");
    assert_eq!(desk.plan.points[&id].place, Some(before), "nothing is done before the release");
    desk.release();
    settle(&mut desk);
    let after = desk.plan.position(&desk.plan.points[&id].place.expect("a place"));
    let after = exact(after.expect("a position").on_floor());
    assert!((after.y - from.y).abs() < 1.0, "on its wall");
    assert!((after.x - from.x - 1500.0).abs() <= 10.0, "{from} became {after}");
    desk.undo();
    assert_eq!(desk.plan.points[&id].place, Some(before), "back again");
}

#[test]
fn a_wall_goes_with_its_openings_and_what_hung_on_it_is_without_a_place() {
    let mut desk = wired();
    let (foot, _) = desk.plan.walls.get_index(0).expect("a wall");
    desk.chosen = std::collections::BTreeSet::from([Subject::Wall(*foot)]);
    desk.delete();
    assert_eq!((desk.plan.walls.len(), desk.plan.openings.len()), (3, 0), "{}", desk.said);
    assert!(desk.plan.rooms.is_empty(), "nothing is enclosed any more");
    assert!(desk.plan.points.values().any(|point| point.place.is_none()), "the switch");
    desk.undo();
    assert_eq!((desk.plan.walls.len(), desk.plan.rooms.len()), (4, 1));
}

#[test]
fn a_switch_can_go_with_its_control() {
    let mut desk = wired();
    let switch = desk.plan.points.iter().find(|(_, point)| point.kind == PointKind::Switch);
    let id = *switch.expect("a switch").0;
    desk.chosen = std::collections::BTreeSet::from([Subject::Point(id)]);
    desk.delete();
    assert!(desk.plan.controls.is_empty() && !desk.plan.points.contains_key(&id), "{}", desk.said);
}

#[test]
fn what_is_saved_reads_back_the_same() {
    let mut desk = wired();
    let folder = std::env::temp_dir().join(format!("wirewend-desk-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let file = folder.join("house.wend");
    assert!(desk.unsaved(), "drawn, not saved");
    assert!(desk.save_as(file.clone()), "{}", desk.said);
    assert!(!desk.unsaved(), "saved");
    assert_eq!(wirewend::store::read_file(&file).expect("a plan"), desk.plan);
    // Edits that were never saved, and a desk that goes without a word.
    take(&mut desk, Tool::Point(PointKind::Socket), &[(200.0, 3000.0)]);
    let drawn = desk.plan.clone();
    drop(desk);
    let plan = wirewend::store::read_file(&file).expect("a plan");
    let desk = Desk::of_file(plan, file);
    assert_eq!(desk.plan, drawn, "{}", desk.said);
    assert!(desk.unsaved() && desk.can_undo(), "still to be saved, and can be undone");
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn distances_and_heights_can_be_typed_and_nudged() {
    let mut desk = wired();
    let socket = desk.plan.points.iter().find(|(_, point)| point.kind == PointKind::Socket);
    let id = *socket.expect("a socket").0;
    desk.chosen = std::collections::BTreeSet::from([Subject::Point(id)]);
    desk.set(Amount::Height, "1.1 m");
    desk.set(Amount::Along, "2500");
    // Its wall runs from right to left, and its nearest corner is at the left:
    // 55 mm from the wall's end, and to the right is towards its beginning.
    desk.nudge(1, 0);
    let place = desk.plan.points[&id].place;
    let Some(Place::Wall(on)) = place else { panic!("on its wall: {place:?}") };
    assert_eq!(
        (on.along, on.height),
        (Mm::new(6000 - 55 - 2500 - 50), Mm::new(1100)),
        "{}",
        desk.said
    );
    desk.set(Amount::Height, "tall");
    assert!(desk.said.contains("no length"), "{}", desk.said);
}

#[test]
fn a_point_goes_from_one_circuit_to_another() {
    let mut desk = wired();
    let (lights, _) = desk.plan.circuits.get_index(1).expect("lights");
    let lights = *lights;
    let socket = desk.plan.points.iter().find(|(_, point)| point.kind == PointKind::Socket);
    let id = *socket.expect("a socket").0;
    let edits = super::remove::rewired(&desk.plan, &[id], lights);
    assert!(desk.edit(wirewend::plan::Edit::Many(edits)), "{}", desk.said);
    assert_eq!(desk.plan.points[&id].circuit, Some(lights));
    assert!(super::remove::rewired(&desk.plan, &[id], lights).is_empty(), "it is there already");
}

#[test]
fn a_mend_takes_its_finding_away() {
    let mut desk = wired();
    let (id, point) = desk.plan.points.get_index(0).map(|(id, p)| (*id, p.clone())).expect("one");
    let loose = wirewend::plan::Point { circuit: None, ..point };
    assert!(desk.edit(wirewend::plan::Change::Put(id, loose).into()), "{}", desk.said);
    settle(&mut desk);
    let picture = desk.picture.clone().expect("computed");
    let about = |finding: &&wirewend::plan::Finding| super::mend::offers(finding);
    let finding =
        picture.findings.iter().filter(about).find(|one| one.subject == Subject::Point(id));
    let finding = finding.expect("a point on no circuit is found");
    let (edit, _) = super::mend::of(finding, &picture, &RuleBook::shipped()).expect("a mend");
    assert!(desk.edit(edit), "{}", desk.said);
    settle(&mut desk);
    let picture = desk.picture.as_ref().expect("computed");
    assert!(!picture.findings.iter().any(|one| one.code == finding.code), "mended");
}

#[test]
fn what_is_chosen_can_be_placed_once_more() {
    let mut desk = wired();
    let all = desk.plan.points.len();
    desk.choose_all();
    assert_eq!(desk.chosen.len(), all, "all points, not the board");
    desk.duplicate();
    assert_eq!(desk.plan.points.len(), 2 * all, "{}", desk.said);
    assert_eq!(desk.chosen.len(), all, "the new ones are chosen");
    desk.undo();
    assert_eq!(desk.plan.points.len(), all, "one edit");
}

#[test]
fn an_open_corner_is_found_in_the_list_and_closed_by_one_click() {
    let mut desk = wired();
    let (id, wall) = desk.plan.walls.get_index(0).map(|(id, it)| (*id, it.clone())).expect("one");
    let step = wall.b - wall.a;
    let short = |of: wirewend::units::Mm| {
        wirewend::units::Mm::from_f64(of.to_f64() * 200.0 / wall.length()).expect("a little")
    };
    let b = wall.b - wirewend::units::Point2 { x: short(step.x), y: short(step.y) };
    let open = wirewend::plan::Wall { b, ..wall.clone() };
    assert!(desk.edit(wirewend::plan::Change::Put(id, open).into()), "{}", desk.said);
    settle(&mut desk);
    let picture = desk.picture.clone().expect("computed");
    let all = wirewend::checks::everything(&picture.plan, &picture.runs, &picture.checked, &[]);
    assert_eq!(picture.findings, all, "the list of the window is the one list");
    let finding = picture.findings.iter().find(|one| one.code == "open-corner");
    let finding = finding.expect("the review of the drawing is in the list");
    assert!(super::mend::offers(finding), "with a mend");
    let (edit, says) = super::mend::of(finding, &picture, &RuleBook::shipped()).expect("a mend");
    assert!(says.contains("mm"), "the gap is said: {says}");
    assert!(desk.edit(edit), "{}", desk.said);
    let now = &desk.plan.walls[&id];
    assert!(now.b.distance(wall.b) <= 1.0, "{now:?} for {wall:?}");
    settle(&mut desk);
    let picture = desk.picture.as_ref().expect("computed");
    assert!(!picture.findings.iter().any(|one| one.code == "open-corner"), "closed");
    desk.undo();
    assert_eq!(desk.plan.walls[&id].b, b, "one edit");
}

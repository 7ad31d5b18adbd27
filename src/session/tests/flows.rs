//! The main flows without a window: what the hand does, what the plan then is.

use std::path::PathBuf;
use std::sync::{Arc, Mutex};

use kurbo::Point;

use crate::plan::{End, OpeningKind, Place, Plan, PointKind, Subject};
use crate::rules::RuleBook;
use crate::session::Session;
use crate::session::ground::blank;
use crate::session::ground::places::exact;
use crate::session::state::{Amount, Tool};
use crate::store::{self, SystemDisk};
use crate::units::{Mm, Point2};

/// Computes whatever is due, as the window's threads do.
pub(crate) fn settle(session: &mut Session) {
    let (rules, known) = (Arc::new(RuleBook::shipped()), Mutex::default());
    while let Some(order) = session.due() {
        session.done(Arc::new(order.done(&rules, &known).picture));
    }
}

/// The plan of a file, as the file is now.
pub(crate) fn of_file(plan: Plan, file: PathBuf) -> Session {
    let known = store::look(&SystemDisk, &file).ok().flatten();
    Session::of_known(plan, file, known)
}

pub(crate) fn at(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

/// A house of one room, 6 m by 4 m, drawn with clicks and typed lengths.
fn house() -> Session {
    let mut session = Session::with(blank::plan());
    session.press(at(0.0, 0.0), false);
    for (towards, typed) in
        [((900.0, 40.0), "6000"), ((6050.0, 900.0), "4.0"), ((100.0, 4100.0), "6 m")]
    {
        session.hover(at(towards.0, towards.1));
        session.hand.forget_typed();
        typed.chars().for_each(|sign| session.hand.type_sign(sign));
        session.settle();
    }
    session.press(at(10.0, -10.0), false);
    settle(&mut session);
    session
}

pub(crate) fn take(session: &mut Session, tool: Tool, places: &[(f64, f64)]) {
    session.hand.change(tool);
    for place in places {
        session.press(at(place.0, place.1), false);
        settle(session);
    }
    session.hand.change(Tool::Hand);
}

/// The same with a door, a board, three sockets, a light and its switch.
pub(crate) fn wired() -> Session {
    let mut session = house();
    take(&mut session, Tool::Opening(OpeningKind::Door), &[(3000.0, 0.0)]);
    take(&mut session, Tool::Board, &[(100.0, 1000.0)]);
    let sockets = [(1000.0, 3900.0), (5000.0, 3900.0), (5900.0, 1000.0)];
    take(&mut session, Tool::Point(PointKind::Socket), &sockets);
    take(&mut session, Tool::Point(PointKind::Luminaire), &[(3050.0, 2100.0)]);
    take(&mut session, Tool::Point(PointKind::Switch), &[(2300.0, 100.0)]);
    session
}

#[test]
fn a_room_is_drawn_with_clicks_and_typed_lengths() {
    let session = house();
    assert_eq!(session.document.plan().walls.len(), 4, "{}", session.said);
    let lengths: Vec<f64> =
        session.document.plan().walls.values().map(crate::plan::Wall::length).collect();
    assert_eq!(lengths, [6000.0, 4000.0, 6000.0, 4000.0]);
    assert_eq!(session.document.plan().rooms.len(), 1, "it closes by itself");
    assert_eq!(session.hand.pen(), None, "a closed room lifts the pen");
}

#[test]
fn what_is_placed_is_wired_by_itself() {
    let session = wired();
    let plan = session.document.plan();
    assert_eq!((plan.points.len(), plan.circuits.len(), plan.controls.len()), (5, 2, 1));
    assert!(plan.circuits.values().all(|circuit| circuit.board.is_some()), "all on the board");
    let picture = session.jobs.picture().expect("computed");
    let legs: Vec<usize> = picture.runs.circuits.values().map(|run| run.legs.len()).collect();
    assert_eq!(legs, [3, 2], "a chain of sockets; the light and its switch leg");
    let middle = plan.points.values().find(|point| point.kind == PointKind::Luminaire);
    let middle = plan.position(&middle.and_then(|light| light.place).expect("a place"));
    assert_eq!(middle.map(|at| at.on_floor()), Some(Point2::new(3000, 2000)), "mid-room");
}

#[test]
fn everything_can_be_undone_and_done_again() {
    let mut session = wired();
    let full = session.document.plan().clone();
    while session.document.can_undo() {
        session.undo();
    }
    assert!(
        session.document.plan().walls.is_empty() && session.document.plan().points.is_empty(),
        "as it began"
    );
    while session.document.can_redo() {
        session.redo();
    }
    assert_eq!(*session.document.plan(), full);
}

#[test]
fn a_dragged_socket_keeps_to_its_wall_and_the_cable_follows() {
    let mut session = wired();
    let (id, before) = session
        .document
        .plan()
        .points
        .iter()
        .find(|(_, point)| point.kind == PointKind::Socket)
        .map(|(id, point)| (*id, point.place.expect("a place")))
        .expect("a socket");
    let cable = |session: &Session| -> Mm {
        let picture = session.jobs.picture().expect("computed");
        picture.lengths.cables.iter().map(|cable| cable.cut).sum()
    };
    let (was, from) =
        (cable(&session), session.document.plan().position(&before).expect("a position"));
    let from = exact(from.on_floor());
    session.press(from + kurbo::Vec2::new(0.0, -180.0), false);
    assert_eq!(
        session.hand.hold().as_ref().map(|hold| hold.end),
        Some(End::Point(id)),
        "it is in the hand"
    );
    session.hover(from + kurbo::Vec2::new(1500.0, -300.0));
    settle(&mut session);
    assert_ne!(cable(&session), was, "the cable follows while it moves");
    assert_eq!(
        session.document.plan().points[&id].place,
        Some(before),
        "nothing is done before the release"
    );
    session.release();
    settle(&mut session);
    let after = session
        .document
        .plan()
        .position(&session.document.plan().points[&id].place.expect("a place"));
    let after = exact(after.expect("a position").on_floor());
    assert!((after.y - from.y).abs() < 1.0, "on its wall");
    assert!((after.x - from.x - 1500.0).abs() <= 10.0, "{from} became {after}");
    session.undo();
    assert_eq!(session.document.plan().points[&id].place, Some(before), "back again");
}

#[test]
fn a_wall_goes_with_its_openings_and_what_hung_on_it_is_without_a_place() {
    let mut session = wired();
    let (foot, _) = session.document.plan().walls.get_index(0).expect("a wall");
    session.selection.choose([Subject::Wall(*foot)]);
    session.delete();
    assert_eq!(
        (session.document.plan().walls.len(), session.document.plan().openings.len()),
        (3, 0),
        "{}",
        session.said
    );
    assert!(session.document.plan().rooms.is_empty(), "nothing is enclosed any more");
    assert!(
        session.document.plan().points.values().any(|point| point.place.is_none()),
        "the switch"
    );
    session.undo();
    assert_eq!((session.document.plan().walls.len(), session.document.plan().rooms.len()), (4, 1));
}

#[test]
fn a_switch_can_go_with_its_control() {
    let mut session = wired();
    let switch =
        session.document.plan().points.iter().find(|(_, point)| point.kind == PointKind::Switch);
    let id = *switch.expect("a switch").0;
    session.selection.choose([Subject::Point(id)]);
    session.delete();
    assert!(
        session.document.plan().controls.is_empty()
            && !session.document.plan().points.contains_key(&id),
        "{}",
        session.said
    );
}

#[test]
fn what_is_saved_reads_back_the_same() {
    let mut session = wired();
    let folder = std::env::temp_dir().join(format!("wirewend-session-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let file = folder.join("house.wend");
    assert!(session.document.unsaved(), "drawn, not saved");
    assert!(session.save_as(file.clone()), "{}", session.said);
    assert!(!session.document.unsaved(), "saved");
    assert_eq!(crate::store::read_file(&file).expect("a plan"), *session.document.plan());
    // Edits that were never saved, and a session that goes without a word.
    take(&mut session, Tool::Point(PointKind::Socket), &[(200.0, 3000.0)]);
    let drawn = session.document.plan().clone();
    drop(session);
    let plan = crate::store::read_file(&file).expect("a plan");
    let session = of_file(plan, file);
    assert_eq!(*session.document.plan(), drawn, "{}", session.said);
    assert!(
        session.document.unsaved() && session.document.can_undo(),
        "still to be saved, and can be undone"
    );
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn distances_and_heights_can_be_typed_and_nudged() {
    let mut session = wired();
    let socket =
        session.document.plan().points.iter().find(|(_, point)| point.kind == PointKind::Socket);
    let id = *socket.expect("a socket").0;
    session.selection.choose([Subject::Point(id)]);
    session.set(Amount::Height, "1.1 m");
    session.set(Amount::Along, "2500");
    // Its wall runs from right to left, and its nearest corner is at the left:
    // 55 mm from the wall's end, and to the right is towards its beginning.
    session.nudge(1, 0);
    let place = session.document.plan().points[&id].place;
    let Some(Place::Wall(on)) = place else { panic!("on its wall: {place:?}") };
    assert_eq!(
        (on.along, on.height),
        (Mm::new(6000 - 55 - 2500 - 50), Mm::new(1100)),
        "{}",
        session.said
    );
    session.set(Amount::Height, "tall");
    assert!(session.said.contains("no length"), "{}", session.said);
}

#[test]
fn a_point_goes_from_one_circuit_to_another() {
    let mut session = wired();
    let (lights, _) = session.document.plan().circuits.get_index(1).expect("lights");
    let lights = *lights;
    let socket =
        session.document.plan().points.iter().find(|(_, point)| point.kind == PointKind::Socket);
    let id = *socket.expect("a socket").0;
    let edits = crate::session::ground::remove::rewired(session.document.plan(), &[id], lights);
    assert!(session.edit(crate::plan::Edit::Many(edits)), "{}", session.said);
    assert_eq!(session.document.plan().points[&id].circuit, Some(lights));
    assert!(
        crate::session::ground::remove::rewired(session.document.plan(), &[id], lights).is_empty(),
        "it is there already"
    );
}

#[test]
fn a_mend_takes_its_finding_away() {
    let mut session = wired();
    let (id, point) =
        session.document.plan().points.get_index(0).map(|(id, p)| (*id, p.clone())).expect("one");
    let loose = crate::plan::Point { circuit: None, ..point };
    assert!(session.edit(crate::plan::Change::Put(id, loose).into()), "{}", session.said);
    settle(&mut session);
    let picture = session.jobs.picture().cloned().expect("computed");
    let about = |finding: &&crate::plan::Finding| crate::session::circuits::mend::offers(finding);
    let finding =
        picture.findings.iter().filter(about).find(|one| one.subject == Subject::Point(id));
    let finding = finding.expect("a point on no circuit is found");
    let (edit, _) = crate::session::circuits::mend::of(finding, &picture, &RuleBook::shipped())
        .expect("a mend");
    assert!(session.edit(edit), "{}", session.said);
    settle(&mut session);
    let picture = session.jobs.picture().expect("computed");
    assert!(!picture.findings.iter().any(|one| one.code == finding.code), "mended");
}

#[test]
fn what_is_chosen_can_be_placed_once_more() {
    let mut session = wired();
    let all = session.document.plan().points.len();
    session.choose_all();
    assert_eq!(session.selection.chosen().len(), all, "all points, not the board");
    session.duplicate();
    assert_eq!(session.document.plan().points.len(), 2 * all, "{}", session.said);
    assert_eq!(session.selection.chosen().len(), all, "the new ones are chosen");
    session.undo();
    assert_eq!(session.document.plan().points.len(), all, "one edit");
}

#[test]
fn an_open_corner_is_found_in_the_list_and_closed_by_one_click() {
    let mut session = wired();
    let (id, wall) =
        session.document.plan().walls.get_index(0).map(|(id, it)| (*id, it.clone())).expect("one");
    let step = wall.b - wall.a;
    let short = |of: crate::units::Mm| {
        crate::units::Mm::from_f64(of.to_f64() * 200.0 / wall.length()).expect("a little")
    };
    let b = wall.b - crate::units::Point2 { x: short(step.x), y: short(step.y) };
    let open = crate::plan::Wall { b, ..wall.clone() };
    assert!(session.edit(crate::plan::Change::Put(id, open).into()), "{}", session.said);
    settle(&mut session);
    let picture = session.jobs.picture().cloned().expect("computed");
    let all = crate::checks::everything(&picture.plan, &picture.runs, &picture.checked, &[]);
    assert_eq!(picture.findings, all, "the list of the window is the one list");
    let finding = picture.findings.iter().find(|one| one.code == "open-corner");
    let finding = finding.expect("the review of the drawing is in the list");
    assert!(crate::session::circuits::mend::offers(finding), "with a mend");
    let (edit, says) = crate::session::circuits::mend::of(finding, &picture, &RuleBook::shipped())
        .expect("a mend");
    assert!(says.contains("mm"), "the gap is said: {says}");
    assert!(session.edit(edit), "{}", session.said);
    let now = &session.document.plan().walls[&id];
    assert!(now.b.distance(wall.b) <= 1.0, "{now:?} for {wall:?}");
    settle(&mut session);
    let picture = session.jobs.picture().expect("computed");
    assert!(!picture.findings.iter().any(|one| one.code == "open-corner"), "closed");
    session.undo();
    assert_eq!(session.document.plan().walls[&id].b, b, "one edit");
}

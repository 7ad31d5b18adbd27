//! Marks and numbers without a window: kept when papers go out, given anew in
//! one step.

use wirewend::plan::{PointId, PointKind, Subject, labels};

use super::desk::Desk;
use super::flows::{settle, take, wired};
use super::keys::Tool;

fn sockets(desk: &Desk) -> Vec<(PointId, String)> {
    let marks = labels(&desk.plan);
    let sockets = desk.plan.points.iter().filter(|(_, it)| it.kind == PointKind::Socket);
    sockets.map(|(id, _)| (*id, marks.point(*id).to_owned())).collect()
}

fn names(desk: &Desk) -> Vec<String> {
    sockets(desk).into_iter().map(|(_, mark)| mark).collect()
}

fn delete(desk: &mut Desk, id: PointId) {
    desk.chosen = [Subject::Point(id)].into();
    desk.delete();
    settle(desk);
}

#[test]
fn papers_that_went_out_keep_their_marks_whatever_is_undone() {
    let mut desk = wired();
    assert_eq!(names(&desk), ["SO1", "SO2", "SO3"], "as they were drawn");
    let first = sockets(&desk)[0].0;
    let said = desk.issue().expect("something to keep");
    assert!(said.contains("once the plan is saved"), "{said}");
    settle(&mut desk);
    assert_eq!(desk.issue(), None, "all is kept");
    delete(&mut desk, first);
    assert_eq!(names(&desk), ["SO2", "SO3"], "no other is called SO1");
    take(&mut desk, Tool::Point(PointKind::Socket), &[(3000.0, 3900.0)]);
    assert_eq!(names(&desk), ["SO2", "SO3", "SO4"], "a new mark");
    let highest = desk.picture.as_ref().expect("computed").runs.circuits[0].legs.iter();
    let highest = highest.map(|leg| leg.number).max();
    assert!(highest > Some(3), "a new leg has a new number: {highest:?}");
    while desk.can_undo() {
        desk.undo();
    }
    while desk.can_redo() {
        desk.redo();
    }
    assert_eq!(names(&desk), ["SO2", "SO3", "SO4"], "back and forth");
}

#[test]
fn a_copy_gets_a_mark_of_its_own() {
    let mut desk = wired();
    desk.chosen = [Subject::Point(sockets(&desk)[0].0)].into();
    desk.duplicate();
    assert_eq!(names(&desk), ["SO1", "SO2", "SO3", "SO4"], "{}", desk.said);
}

#[test]
fn numbering_anew_is_one_step_that_says_what_changed() {
    let mut desk = wired();
    desk.renumber();
    assert_eq!(desk.said, "all numbers are without gaps already");
    let first = sockets(&desk)[0].0;
    let _ = desk.issue();
    settle(&mut desk);
    delete(&mut desk, first);
    desk.renumber();
    settle(&mut desk);
    assert_eq!(names(&desk), ["SO1", "SO2"], "without gaps");
    assert!(desk.said.starts_with("SO2 is SO1, SO3 is SO2"), "{}", desk.said);
    desk.undo();
    assert_eq!(names(&desk), ["SO2", "SO3"], "undone in one step");
}

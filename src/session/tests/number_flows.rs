//! Marks and numbers without a window: kept when papers go out, given anew in
//! one step.

use crate::plan::{PointId, PointKind, Subject, labels};
use crate::session::Session;
use crate::session::state::Tool;
use crate::session::tests::flows::{settle, take, wired};

fn sockets(session: &Session) -> Vec<(PointId, String)> {
    let marks = labels(session.document.plan());
    let sockets =
        session.document.plan().points.iter().filter(|(_, it)| it.kind == PointKind::Socket);
    sockets.map(|(id, _)| (*id, marks.point(*id).to_owned())).collect()
}

fn names(session: &Session) -> Vec<String> {
    sockets(session).into_iter().map(|(_, mark)| mark).collect()
}

fn delete(session: &mut Session, id: PointId) {
    session.selection.choose([Subject::Point(id)]);
    session.delete();
    settle(session);
}

#[test]
fn papers_that_went_out_keep_their_marks_whatever_is_undone() {
    let mut session = wired();
    assert_eq!(names(&session), ["SO1", "SO2", "SO3"], "as they were drawn");
    let first = sockets(&session)[0].0;
    let said = session.issue().expect("something to keep");
    assert!(said.contains("once the plan is saved"), "{said}");
    settle(&mut session);
    assert_eq!(session.issue(), None, "all is kept");
    delete(&mut session, first);
    assert_eq!(names(&session), ["SO2", "SO3"], "no other is called SO1");
    take(&mut session, Tool::Point(PointKind::Socket), &[(3000.0, 3900.0)]);
    assert_eq!(names(&session), ["SO2", "SO3", "SO4"], "a new mark");
    let highest = session.jobs.picture().expect("computed").runs.circuits[0].legs.iter();
    let highest = highest.map(|leg| leg.number).max();
    assert!(highest > Some(3), "a new leg has a new number: {highest:?}");
    while session.document.can_undo() {
        session.undo();
    }
    while session.document.can_redo() {
        session.redo();
    }
    assert_eq!(names(&session), ["SO2", "SO3", "SO4"], "back and forth");
}

#[test]
fn a_copy_gets_a_mark_of_its_own() {
    let mut session = wired();
    session.selection.choose([Subject::Point(sockets(&session)[0].0)]);
    session.duplicate();
    assert_eq!(names(&session), ["SO1", "SO2", "SO3", "SO4"], "{}", session.said);
}

#[test]
fn numbering_anew_is_one_step_that_says_what_changed() {
    let mut session = wired();
    session.renumber();
    assert_eq!(session.said, "all numbers are without gaps already");
    let first = sockets(&session)[0].0;
    let _ = session.issue();
    settle(&mut session);
    delete(&mut session, first);
    session.renumber();
    settle(&mut session);
    assert_eq!(names(&session), ["SO1", "SO2"], "without gaps");
    assert!(session.said.starts_with("SO2 is SO1, SO3 is SO2"), "{}", session.said);
    session.undo();
    assert_eq!(names(&session), ["SO2", "SO3"], "undone in one step");
}

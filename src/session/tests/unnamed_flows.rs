//! Plans without a name outlive their window.

use kurbo::Point;

use crate::session::Session;
use crate::session::ground::blank;
use crate::session::state::Tool;

#[test]
fn an_unnamed_plan_outlives_its_window() {
    let folder = std::env::temp_dir().join(format!("wirewend-unnamed-{}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    let keep = Some(folder.as_path());
    let mut session = Session::unnamed(blank::plan(), keep);
    assert!(Session::left_behind(keep).is_none(), "nothing was done to it, and it is open");
    session.hand.change(Tool::Wall);
    session.press(Point::new(0.0, 0.0), false);
    session.press(Point::new(4000.0, 0.0), false);
    let drawn = session.document.plan().clone();
    assert_eq!(drawn.walls.len(), 1, "{}", session.said);
    // Another window beside it has a plan of its own.
    let other = Session::unnamed(blank::plan(), keep);
    assert!(other.document.plan().walls.is_empty(), "its own");
    drop(other);
    // The window goes without a word.
    drop(session);
    let mut again = Session::left_behind(keep).expect("it was left behind");
    assert_eq!(*again.document.plan(), drawn, "{}", again.said);
    assert!(
        again.document.unsaved() && again.document.can_undo() && again.document.file().is_none(),
        "still unnamed"
    );
    // Once it has a name nothing is left behind.
    let file = folder.join("house.wend");
    assert!(again.save_as(file), "{}", again.said);
    assert!(Session::left_behind(keep).is_none(), "it has a name now");
    let _ = std::fs::remove_dir_all(folder);
}

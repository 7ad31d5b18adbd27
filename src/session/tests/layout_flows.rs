//! Flows about pictures beneath a plan, and layouts that come in from files.

use std::path::PathBuf;

use super::flows::of_file;
use crate::draft::{DraftOptions, draft_watched};
use crate::plan::Subject;
use crate::rules::RuleBook;
use crate::session::Session;
use crate::session::ground::blank;
use crate::session::state::Tool;
use crate::session::survey::in_place;
use crate::session::tests::flows::{settle, wired};
use crate::session::tests::survey_flows::{at, drag, type_in};
use crate::store::{Import, ImportOptions, import_watched};
use crate::units::{Mm, Watch};

pub(crate) fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("wirewend-{name}-{}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).expect("a folder");
    folder
}

#[test]
fn a_picture_lies_beneath_scaled_by_a_known_length() {
    let folder = folder("picture");
    let picture = folder.join("scan.png");
    std::fs::write(&picture, "its size is told").expect("a picture");
    let mut session = Session::with(blank::plan());
    assert!(session.lay_picture(&picture, (400, 200)), "{}", session.said);
    let level = session.sight.level().expect("a level");
    assert_eq!(session.hand.tool(), Tool::Ruler, "what scales it is in the hand");
    let frame = session.frame_of(&session.document.plan().backdrops[&level]).expect("known");
    let (left, right) = (frame * at(0.25, 0.5), frame * at(0.75, 0.5));
    session.press(left, false);
    session.press(right, false);
    type_in(&mut session, "5 m");
    session.settle();
    let laid = session.document.plan().backdrops[&level].clone();
    assert!((laid.width - Mm::new(10_000)).abs() <= Mm::new(1), "{laid:?} {}", session.said);
    let frame = session.frame_of(&laid).expect("known");
    assert!((frame * at(0.25, 0.5)).distance(left) < 2.0, "the first end stays");
    // Dragged by the hand, once it is chosen.
    session.choose_picture();
    let middle = frame * at(0.5, 0.5);
    drag(&mut session, (middle.x, middle.y), (middle.x + 1000.0, middle.y));
    session.release();
    assert_eq!(
        session.document.plan().backdrops[&level].at.x,
        laid.at.x + Mm::new(1000),
        "{}",
        session.said
    );
    session.turn_picture();
    assert_eq!(session.document.plan().backdrops[&level].turn.millidegrees(), 90_000);
    session.fade_picture(false);
    assert_eq!(session.document.plan().backdrops[&level].strength, 40);
    // Saved: named from the plan's own folder; its loss is a finding.
    std::fs::create_dir_all(folder.join("job")).expect("a folder");
    let file = folder.join("job").join("house.wend");
    assert!(session.save_as(file.clone()), "{}", session.said);
    let read = crate::store::read_file(&file).expect("a plan");
    assert_eq!(read.backdrops[&level].file, "../scan.png");
    std::fs::remove_file(&picture).expect("gone");
    let mut session = of_file(read, file);
    settle(&mut session);
    let found = &session.jobs.picture().expect("computed").findings;
    assert!(found.iter().any(|finding| finding.code == "missing-picture"), "{found:?}");
    session.selection.choose([Subject::Level(level)]);
    session.delete();
    assert!(session.document.plan().backdrops.is_empty(), "{}", session.said);
    let _ = std::fs::remove_dir_all(folder);
}

fn read(path: &std::path::Path, options: &ImportOptions, watch: &Watch) -> Result<Import, String> {
    let bytes = std::fs::read(path).expect("a file");
    import_watched(&bytes, "layout", options, watch).map_err(|error| error.to_string())
}

#[test]
fn a_layout_comes_in_as_one_step_and_is_drafted_as_one() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/layouts");
    let path = path.join("large_two_block.json");
    let mut session = wired();
    let before = session.document.plan().clone();
    let import = read(&path, &ImportOptions::default(), &Watch::default()).expect("a layout");
    assert!(session.edit(in_place(session.document.plan(), &import.plan)), "{}", session.said);
    assert_eq!(session.document.plan().walls, import.plan.walls);
    assert!(session.document.plan().points.is_empty(), "they hung on walls that are gone");
    let rules = RuleBook::shipped();
    let draft = draft_watched(
        session.document.plan().clone(),
        &rules,
        &DraftOptions::default(),
        &Watch::default(),
    )
    .expect("a draft");
    let ended = Watch::default();
    ended.stop();
    let none =
        draft_watched(session.document.plan().clone(), &rules, &DraftOptions::default(), &ended);
    assert!(none.expect_err("stopped").to_string().contains("stopped"), "no half of a draft");
    assert!(
        read(&path, &ImportOptions::default(), &ended).expect_err("stopped").contains("stopped")
    );
    assert!(session.edit(session.document.plan().difference(&draft.plan)), "{}", session.said);
    assert_eq!(session.document.plan().points, draft.plan.points);
    assert!(!draft.reasons.is_empty(), "each with its reason");
    session.undo();
    assert!(
        session.document.plan().points.is_empty() && !session.document.plan().walls.is_empty(),
        "one step back"
    );
    session.undo();
    assert_eq!(session.document.plan().walls, before.walls, "and the house that was drawn");
    assert_eq!(session.document.plan().points, before.points);
}

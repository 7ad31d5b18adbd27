//! Flows about pictures beneath a plan, and layouts that come in from files.

use super::desk::Desk;
use super::flows::{settle, wired};
use super::keys::Tool;
use super::survey_flows::{at, drag, type_in};
use super::{blank, bring};
use std::collections::BTreeSet;
use std::path::PathBuf;
use wirewend::draft::DraftOptions;
use wirewend::plan::Subject;
use wirewend::rules::RuleBook;
use wirewend::store::{ImportOptions, import_file};
use wirewend::units::{Mm, Watch};

pub(super) fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("wirewend-{name}-{}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).expect("a folder");
    folder
}

#[test]
fn a_picture_lies_beneath_scaled_by_a_known_length() {
    let folder = folder("picture");
    let picture = folder.join("scan.png");
    image::RgbImage::new(400, 200).save(&picture).expect("a picture");
    let mut desk = Desk::with(blank::plan());
    assert!(!desk.lay_picture(&folder.join("none.png")), "none there");
    assert!(desk.lay_picture(&picture), "{}", desk.said);
    let level = desk.level.expect("a level");
    assert_eq!(desk.tool, Tool::Ruler, "what scales it is in the hand");
    let frame = desk.frame_of(&desk.plan.backdrops[&level]).expect("known");
    let (left, right) = (frame * at(0.25, 0.5), frame * at(0.75, 0.5));
    desk.press(left, false);
    desk.press(right, false);
    type_in(&mut desk, "5 m");
    desk.settle();
    let laid = desk.plan.backdrops[&level].clone();
    assert!((laid.width - Mm::new(10_000)).abs() <= Mm::new(1), "{laid:?} {}", desk.said);
    let frame = desk.frame_of(&laid).expect("known");
    assert!((frame * at(0.25, 0.5)).distance(left) < 2.0, "the first end stays");
    // Dragged by the hand, once it is chosen.
    desk.choose_picture();
    let middle = frame * at(0.5, 0.5);
    drag(&mut desk, (middle.x, middle.y), (middle.x + 1000.0, middle.y));
    desk.release();
    assert_eq!(desk.plan.backdrops[&level].at.x, laid.at.x + Mm::new(1000), "{}", desk.said);
    desk.turn_picture();
    assert_eq!(desk.plan.backdrops[&level].turn.millidegrees(), 90_000);
    desk.fade_picture(false);
    assert_eq!(desk.plan.backdrops[&level].strength, 40);
    // Saved: named from the plan's own folder; its loss is a finding.
    std::fs::create_dir_all(folder.join("job")).expect("a folder");
    let file = folder.join("job").join("house.wend");
    assert!(desk.save_as(file.clone()), "{}", desk.said);
    let read = wirewend::store::read_file(&file).expect("a plan");
    assert_eq!(read.backdrops[&level].file, "../scan.png");
    std::fs::remove_file(&picture).expect("gone");
    let mut desk = Desk::of_file(read, file);
    settle(&mut desk);
    let found = &desk.picture.as_ref().expect("computed").findings;
    assert!(found.iter().any(|finding| finding.code == "missing-picture"), "{found:?}");
    desk.chosen = BTreeSet::from([Subject::Level(level)]);
    desk.delete();
    assert!(desk.plan.backdrops.is_empty(), "{}", desk.said);
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn a_layout_comes_in_as_one_step_and_is_drafted_as_one() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/layouts");
    let path = path.join("large_two_block.json");
    let mut desk = wired();
    let before = desk.plan.clone();
    let import =
        import_file(&path, &ImportOptions::default(), &Watch::default()).expect("a layout");
    assert!(desk.edit(bring::in_place(&desk.plan, &import.plan)), "{}", desk.said);
    assert_eq!(desk.plan.walls, import.plan.walls);
    assert!(desk.plan.points.is_empty(), "they hung on walls that are gone");
    let rules = RuleBook::shipped();
    let draft =
        bring::drafted(desk.plan.clone(), &rules, &DraftOptions::default(), &Watch::default())
            .expect("a draft");
    let ended = Watch::default();
    ended.stop();
    let none = bring::drafted(desk.plan.clone(), &rules, &DraftOptions::default(), &ended);
    assert!(none.expect_err("stopped").contains("stopped"), "no half of a draft");
    assert!(
        import_file(&path, &ImportOptions::default(), &ended)
            .expect_err("stopped")
            .to_string()
            .contains("stopped")
    );
    assert!(desk.edit(desk.plan.difference(&draft.plan)), "{}", desk.said);
    assert_eq!(desk.plan.points, draft.plan.points);
    assert!(!draft.reasons.is_empty(), "each with its reason");
    desk.undo();
    assert!(desk.plan.points.is_empty() && !desk.plan.walls.is_empty(), "one step back");
    desk.undo();
    assert_eq!(desk.plan.walls, before.walls, "and the house that was drawn");
    assert_eq!(desk.plan.points, before.points);
    let bad = import_file(
        std::path::Path::new("no such file.ifc"),
        &ImportOptions::default(),
        &Watch::default(),
    );
    assert!(bad.expect_err("refused").to_string().contains("no such file"));
}

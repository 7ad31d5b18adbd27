//! Every house in `fixtures/`, routed and judged by the independent checker.

use std::path::PathBuf;

use wirewend::runs::chain::Effort;
use wirewend::space::Space;
use wirewend::{lengths, runs, store};

use crate::checker;

fn houses() -> Vec<PathBuf> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("fixtures");
    let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
        .expect("the folder of fixtures is there")
        .map(|entry| entry.expect("a readable folder").path())
        .filter(|path| path.extension().is_some_and(|extension| extension == "wend"))
        .collect();
    files.sort();
    assert!(!files.is_empty(), "there must be houses to judge");
    files
}

#[test]
fn the_checker_has_nothing_to_say_of_any_house() {
    for path in houses() {
        let plan = store::read_file(&path).expect("a plan file");
        let routed = runs::route(&plan, &Space::of(&plan), &Effort::default());
        let measured = lengths::measure(&plan, &routed);
        let mut complaints = checker::judge(&plan, &routed, Some(&measured));
        complaints.extend(checker::judge_costs(&plan, &routed));
        let said: Vec<String> = complaints.iter().map(ToString::to_string).collect();
        assert!(said.is_empty(), "{}:\n{}", path.display(), said.join("\n"));
        let again = runs::route(&plan, &Space::of(&plan), &Effort::default());
        assert_eq!(routed, again, "the same plan gives the same runs: {}", path.display());
    }
}

#[test]
fn every_point_of_every_house_is_reached() {
    for path in houses() {
        let plan = store::read_file(&path).expect("a plan file");
        let routed = runs::route(&plan, &Space::of(&plan), &Effort::default());
        // A half-drawn plan has points that nothing can reach yet, and says so.
        if path.ends_with("half_drawn.wend") {
            continue;
        }
        let faults: Vec<&str> = routed
            .findings
            .iter()
            .filter(|finding| finding.code == "no-way")
            .map(|finding| finding.message.as_str())
            .collect();
        assert!(faults.is_empty(), "{}: {faults:?}", path.display());
    }
}

//! One list of all that is to be said of a plan, and the same everywhere: in
//! `check`, in its JSON and its exit, in `runs`, in a draft, on papers.

use std::collections::BTreeSet;
use std::path::Path;

use serde_json::Value;
use wirewend::checks::{check, everything, faults};
use wirewend::draft::{DraftOptions, draft};
use wirewend::lengths;
use wirewend::plan::*;
use wirewend::rules::RuleBook;
use wirewend::runs::{self, chain::Effort};
use wirewend::sheet::{FloorOptions, House, floor_sheet, say_faults};
use wirewend::space::Space;

use crate::command::{Folder, wirewend};
use crate::fixtures::local;
use crate::on_paper::texts;

/// A finding by its code and what it is about.
type Said = Vec<(String, String)>;

fn said(findings: &[Finding]) -> Said {
    let subject = |one: &Finding| serde_json::to_value(one.subject).unwrap().to_string();
    findings.iter().map(|one| (one.code.to_owned(), subject(one))).collect()
}

fn said_in(json: &Value) -> Said {
    let findings = json.as_array().unwrap().iter();
    findings
        .map(|one| (one["code"].as_str().unwrap().to_owned(), one["subject"].to_string()))
        .collect()
}

/// The plans under test, each with its name.
fn plans() -> Vec<(String, Plan)> {
    let mut plans: Vec<(String, Plan)> = Vec::new();
    for name in ["cottage", "flat", "half_drawn", "terrace", "townhouse"] {
        let path = crate::fixtures::folder().join(format!("{name}.wend"));
        plans.push((name.to_owned(), wirewend::store::read_file(&path).unwrap()));
    }
    for (name, text) in crate::layouts::ours() {
        let bare = crate::layouts::read(&text).0;
        let plan = draft(bare, &RuleBook::shipped(), &DraftOptions::default()).unwrap().plan;
        plans.push((name, plan));
    }
    // Openings that overlap, a board nowhere, a circuit without cable.
    let mut spoilt = plans[0].1.clone();
    let opening = spoilt.openings[0].clone();
    let twin = Opening { from: opening.from + wirewend::units::Mm::new(50), ..opening };
    spoilt.openings.insert(OpeningId(spoilt.next_id), twin);
    spoilt.next_id += 1;
    spoilt.boards[0].place = None;
    spoilt.circuits[0].cable = None;
    plans.push(("spoilt cottage".to_owned(), spoilt));
    plans
}

/// The count that a sheet or a page tells; nothing where it tells none.
fn told(words: &str) -> usize {
    let before = words.split(" to fix before work starts").next().unwrap_or("");
    if before.len() == words.len() {
        return 0;
    }
    let mut back = before.split(|sign: char| !sign.is_alphanumeric()).rev();
    let thing = back.next().unwrap();
    assert!(thing == "thing" || thing == "things", "{thing}");
    back.next().unwrap().parse().unwrap()
}

fn agrees(name: &str, plan: &Plan, folder: &Path) {
    let file = folder.join("plan.wend");
    wirewend::store::write_file(plan, &file).unwrap();
    let file = file.to_str().unwrap();
    let routed = runs::route(plan, &Space::of(plan), &Effort::default());
    let measured = lengths::measure(plan, &routed);
    let checked = check(plan, &routed, &measured, &RuleBook::shipped());
    let all = everything(plan, &routed, &checked, &[]);
    let count = all.iter().filter(|one| one.severity == Severity::Fault).count();
    assert_eq!(faults(&all), count, "{name}");

    let (went, text) = wirewend(&["check", file, "--json"]);
    let json: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(said_in(&json["findings"]), said(&all), "{name}: check --json");
    assert_eq!(went, count == 0, "{name}: its exit");
    let (_, text) = wirewend(&["check", file]);
    let lines = text.lines().filter(|line| line.starts_with("fault[")).count();
    assert_eq!(lines, count, "{name}: check");
    let (_, text) = wirewend(&["runs", file, "--json"]);
    let json: Value = serde_json::from_str(&text).unwrap();
    assert_eq!(said_in(&json["runs"]["findings"]), said(&all), "{name}: runs --json");
    let (_, text) =
        wirewend(&["sheet", file, "--level", &plan.levels.keys().next().unwrap().to_string()]);
    assert_eq!(told(&text), count, "{name}: a sheet");
}

#[test]
fn everywhere_the_same_is_said_and_counted() {
    let folder = Folder::new("everything");
    let mut faulty = 0;
    for (name, plan) in plans() {
        agrees(&name, &plan, folder.path());
        let routed = runs::route(&plan, &Space::of(&plan), &Effort::default());
        let measured = lengths::measure(&plan, &routed);
        let checked = check(&plan, &routed, &measured, &RuleBook::shipped());
        faulty += usize::from(faults(&everything(&plan, &routed, &checked, &[])) > 0);
    }
    assert!(faulty > 0, "some plan has faults to tell of");
}

/// Every paper of a plan with faults tells them, cards and quote page included.
#[test]
fn every_paper_tells_how_many_faults_there_are() {
    let folder = Folder::new("papers-with-faults");
    let (_, plan) = plans().pop().unwrap();
    let file = folder.path().join("plan.wend");
    wirewend::store::write_file(&plan, &file).unwrap();
    let to = folder.path().join("papers");
    let (went, text) = wirewend(&["papers", file.to_str().unwrap(), "--to", to.to_str().unwrap()]);
    assert!(went, "papers can be had all the same: {text}");
    let count = told(&text);
    assert!(count >= 1, "the openings that overlap: {text}");
    let (_, text) = wirewend(&["check", file.to_str().unwrap()]);
    assert_eq!(text.lines().filter(|line| line.starts_with("fault[")).count(), count, "as check");
    let mut sheets = 0;
    for entry in std::fs::read_dir(to).unwrap() {
        let path = entry.unwrap().path();
        if path.extension().is_some_and(|one| one == "svg" || one == "html") {
            let text = std::fs::read_to_string(&path).unwrap();
            assert_eq!(told(&text), count, "{}", path.display());
            sheets += 1;
        }
    }
    assert!(sheets > 10, "{sheets} sheets");
}

#[test]
fn a_draft_and_its_check_count_the_same() {
    let folder = Folder::new("draft-counts");
    for (name, text) in crate::layouts::ours().into_iter().take(3) {
        let (layout, to) = (folder.path().join("layout.json"), folder.path().join("plan.wend"));
        std::fs::write(&layout, text).unwrap();
        let (layout, to) = (layout.to_str().unwrap(), to.to_str().unwrap());
        let _ = std::fs::remove_file(to);
        let (went, text) = wirewend(&["draft", layout, "--to", to, "--json"]);
        assert!(went, "{name}: {text}");
        let drafted: Value = serde_json::from_str(&text).unwrap();
        let (_, text) = wirewend(&["check", to, "--json"]);
        let checked: Value = serde_json::from_str(&text).unwrap();
        assert_eq!(said_in(&drafted["findings"]), said_in(&checked["findings"]), "{name}");
    }
}

/// What stages say of the same thing, told by hand: each left side may stand
/// for what is on the right.
const STANDS_FOR: [(&str, &str); 7] = [
    ("unplaced-board", "board-not-placed"),
    ("place-on-screen", "board-not-placed"),
    ("unplaced-point", "point-not-placed"),
    ("place-on-screen", "point-not-placed"),
    ("board-ways", "too-few-ways"),
    ("circuit-unfinished", "circuit-without-cable"),
    ("circuit-unfinished", "circuit-without-board"),
];

#[test]
fn nothing_that_a_stage_says_is_lost_and_nothing_is_said_twice() {
    for (name, plan) in plans() {
        let routed = runs::route(&plan, &Space::of(&plan), &Effort::default());
        let measured = lengths::measure(&plan, &routed);
        let checked = check(&plan, &routed, &measured, &RuleBook::shipped());
        let all = everything(&plan, &routed, &checked, &[]);
        let told: BTreeSet<(&str, Subject)> =
            all.iter().map(|one| (one.code, one.subject)).collect();
        let stages = [review(&plan), routed.findings, checked.findings.clone()].concat();
        for one in &stages {
            let stands = STANDS_FOR.iter().filter(|(_, code)| *code == one.code);
            let mut codes = stands.map(|(code, _)| *code).chain([one.code]);
            assert!(codes.any(|code| told.contains(&(code, one.subject))), "{name}: {one:?}");
        }
        for (kept, dropped) in STANDS_FOR {
            // A circuit without cable and without board lacks two things.
            let two = dropped == "circuit-without-board";
            for (_, subject) in told.iter().filter(|(code, _)| *code == kept && !two) {
                assert!(!told.contains(&(dropped, *subject)), "{name}: {dropped} {subject:?}");
            }
        }
        assert!(all.windows(2).all(|pair| pair[0].severity >= pair[1].severity), "worst first");
    }
}

#[test]
fn a_circuit_without_cable_and_board_lacks_both() {
    let (_, mut plan) = plans().swap_remove(0);
    let id = *plan.circuits.first().unwrap().0;
    (plan.circuits[&id].cable, plan.circuits[&id].board) = (None, None);
    let routed = runs::route(&plan, &Space::of(&plan), &Effort::default());
    let measured = lengths::measure(&plan, &routed);
    let checked = check(&plan, &routed, &measured, &RuleBook::shipped());
    let all = everything(&plan, &routed, &checked, &[]);
    let own = all.iter().filter(|one| one.subject == Subject::Circuit(id));
    let own: Vec<&str> = own.map(|one| one.code).collect();
    assert!(
        own.contains(&"circuit-unfinished") && own.contains(&"circuit-without-board"),
        "{own:?}"
    );
    assert!(!own.contains(&"circuit-without-cable"), "told by the first: {own:?}");
}

#[test]
fn the_line_fits_the_title_block_and_is_not_there_without_faults() {
    let (_, plan) = plans().swap_remove(0);
    let routed = runs::route(&plan, &Space::of(&plan), &Effort::default());
    let measured = lengths::measure(&plan, &routed);
    let level = *plan.levels.first().unwrap().0;
    let scene =
        floor_sheet(&House::new(&plan, &routed, &measured, local(&plan)), &FloorOptions::of(level))
            .unwrap();
    let mut sound = [scene.clone()];
    say_faults(&mut sound, 0);
    assert_eq!(sound[0], scene, "nothing to tell");
    let mut faulty = [scene];
    say_faults(&mut faulty, 1234);
    let texts = texts(&faulty[0].items);
    let line = texts.iter().find(|text| text.content.contains("to fix before work")).unwrap();
    let around = line.bounds();
    let caption = texts.iter().find(|text| text.content == "title").unwrap().bounds();
    assert!(around.x0 > caption.x1 + 1.0, "clear of the caption: {around} {caption}");
    let title = texts.iter().find(|text| text.content == plan.project.title).unwrap().bounds();
    assert!(around.y1 <= title.y0, "above the title: {around} {title}");
}

//! The journal finds every edit again: after kills at random moments, torn
//! lines, saves, and beside a second window.

use std::io::{BufRead as _, BufReader, Read as _};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;

use wirewend::plan::{Edit, History, Plan, Project};
use wirewend::store::{self, Entry, Journal, JournalError};

/// Where the process that is killed writes.
const CHILD: &str = "WIREWEND_TEST_JOURNAL";
/// How often it is killed; the ordinary run does it less often.
const KILLS: &str = "WIREWEND_TEST_KILLS";

fn folder(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("wirewend-{name}-{}", std::process::id()));
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).expect("a folder for the test");
    folder
}

/// The edit that writes a number into the title block.
fn numbered(number: u32) -> Entry {
    let project = Project { number: number.to_string(), ..Project::default() };
    Entry::Edit(Box::new(Edit::Project(Box::new(project))))
}

fn numbers(entries: &[Entry]) -> Vec<String> {
    let (mut plan, mut history) = (Plan::default(), History::default());
    let mut seen = Vec::new();
    for entry in entries {
        entry.clone().apply(&mut plan, &mut history).expect("what was done can be done");
        seen.push(plan.project.number.clone());
    }
    seen
}

/// Not a test by itself: edits without end, each told once it is in the
/// journal. Runs in a process that is killed.
#[test]
fn edits_until_killed() {
    let Ok(plan) = std::env::var(CHILD) else { return };
    let (mut journal, entries) = Journal::open(Path::new(&plan)).expect("a journal");
    let first = u32::try_from(entries.len()).expect("few entries") + 1;
    for number in first.. {
        journal.add(&numbered(number)).expect("room for an entry");
        println!("done {number}");
        if number % 16 == 0 {
            journal.sync().expect("a disk");
        }
    }
}

#[test]
fn every_edit_is_there_again_after_a_kill_at_any_moment() {
    let kills: u64 = std::env::var(KILLS).ok().and_then(|n| n.parse().ok()).unwrap_or(12);
    let folder = folder("kills");
    let plan = folder.join("house.wend");
    let me = std::env::current_exe().expect("this program");
    let (mut known, mut dice) = (0_u32, 0x2545_f491_u64);
    for kill in 0..kills {
        let mut child = Command::new(&me)
            .args(["--exact", "journal::edits_until_killed", "--nocapture"])
            .env(CHILD, &plan)
            .stdout(Stdio::piped())
            .spawn()
            .expect("a second process");
        let mut said = BufReader::new(child.stdout.take().expect("its output"));
        // It is well under way when the first edit is told.
        let mut line = String::new();
        while !line.contains("done ") {
            line.clear();
            assert!(said.read_line(&mut line).expect("its words") > 0, "it ended by itself");
        }
        dice = dice.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        std::thread::sleep(Duration::from_micros((dice >> 40) % 20_000));
        child.kill().expect("it can be killed");
        child.wait().expect("it is gone");
        let mut rest = String::new();
        said.read_to_string(&mut rest).expect("its last words");
        let told = format!("{line}{rest}");
        // A word cut short by the kill counts for nothing.
        let whole = told.rsplit_once('\n').map_or("", |(whole, _)| whole);
        let last =
            whole.lines().filter_map(|line| line.split("done ").nth(1)?.parse().ok()).next_back();
        known = last.unwrap_or(known);
        let (journal, entries) = Journal::open(&plan).expect("the journal again");
        drop(journal);
        let found = numbers(&entries);
        let expect: Vec<String> = (1..=found.len()).map(|number| number.to_string()).collect();
        assert_eq!(found, expect, "kill {kill}: edits in their order, none twice");
        assert!(found.len() >= known as usize, "kill {kill}: {} of {known}", found.len());
    }
    assert!(known > 0, "something was done between the kills");
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn a_torn_line_is_left_out_and_work_goes_on_after_it() {
    let folder = folder("torn");
    let plan = folder.join("house.wend");
    let (mut journal, _) = Journal::open(&plan).expect("a journal");
    for number in 1..=3 {
        journal.add(&numbered(number)).expect("an entry");
    }
    drop(journal);
    let path = Journal::path_of(&plan);
    let bytes = std::fs::read(&path).expect("its bytes");
    let lines: usize = bytes.iter().filter(|byte| **byte == b'\n').count();
    assert_eq!(lines, 4, "a head and three entries");
    let last =
        bytes[..bytes.len() - 1].iter().rposition(|byte| *byte == b'\n').expect("a line") + 1;
    for cut in last..bytes.len() {
        std::fs::write(&path, &bytes[..cut]).expect("a torn journal");
        let (mut journal, entries) = Journal::open(&plan).expect("the journal again");
        assert_eq!(numbers(&entries), ["1", "2"], "cut after {cut} bytes");
        journal.add(&numbered(9)).expect("an entry");
        drop(journal);
        let (_, entries) = Journal::open(&plan).expect("and again");
        assert_eq!(numbers(&entries), ["1", "2", "9"], "cut after {cut} bytes");
    }
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn what_was_saved_is_not_done_twice_and_undo_is_remembered() {
    let folder = folder("saved");
    let path = folder.join("house.wend");
    let (mut plan, mut history) = (Plan::default(), History::default());
    let (mut journal, _) = Journal::open(&path).expect("a journal");
    for entry in [numbered(1), numbered(2), Entry::Undo] {
        journal.add(&entry).expect("an entry");
        entry.apply(&mut plan, &mut history).expect("an edit");
    }
    assert_eq!(plan.project.number, "1", "undone");
    // Killed between the save and the journal's new beginning.
    store::write_file(&plan, &path).expect("a saved plan");
    drop(journal);
    let (mut journal, entries) = Journal::open(&path).expect("the journal again");
    assert!(entries.is_empty(), "{entries:?} is in the plan already");
    let mut aside = Journal::path_of(&path).into_os_string();
    aside.push(".old");
    assert!(Path::new(&aside).exists(), "what did not fit is kept aside");
    journal.add(&numbered(3)).expect("an entry");
    journal.saved().expect("a new beginning");
    drop(journal);
    let (_, entries) = Journal::open(&path).expect("and again");
    assert!(entries.is_empty(), "saved means done");
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn a_second_window_on_the_same_plan_is_told() {
    let folder = folder("second");
    let path = folder.join("house.wend");
    let (journal, _) = Journal::open(&path).expect("the first");
    let second = Journal::open(&path);
    assert!(matches!(second, Err(JournalError::InUse(_))), "{second:?}");
    assert!(!journal.knocked(), "nobody has knocked yet");
    Journal::knock(&path);
    assert!(journal.knocked(), "the first hears of the second");
    assert!(!journal.knocked(), "once");
    drop(journal);
    assert!(Journal::open(&path).is_ok(), "the first is gone");
    let _ = std::fs::remove_dir_all(folder);
}

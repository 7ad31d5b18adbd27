//! The journal finds every edit again: after kills at random moments, torn
//! lines, saves, and beside a second window.

use std::io::{BufRead as _, BufReader, Read as _};
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;

use wirewend::plan::{Edit, History, Plan, Project};
use wirewend::store::{self, Entry, Journal, JournalError, Noted};

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

fn numbers(noted: &Noted) -> Vec<String> {
    let numbers = noted.entries().map(|entry| match entry {
        Entry::Edit(edit) => match &**edit {
            Edit::Project(project) => project.number.clone(),
            edit => panic!("another edit: {edit:?}"),
        },
        entry => panic!("no edit: {entry:?}"),
    });
    numbers.collect()
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
        // Where its end alone is missing all of it is there.
        let mut expect = vec!["1", "2"];
        expect.extend((cut == bytes.len() - 1).then_some("3"));
        assert_eq!(numbers(&entries), expect, "cut after {cut} bytes");
        assert_eq!(entries.lost(), 0, "torn by a kill: nothing that was told is lost");
        journal.add(&numbered(9)).expect("an entry");
        drop(journal);
        let (_, entries) = Journal::open(&plan).expect("and again");
        expect.push("9");
        assert_eq!(numbers(&entries), expect, "cut after {cut} bytes");
    }
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn what_was_saved_is_not_done_twice_and_undo_is_remembered() {
    let folder = folder("saved");
    let path = folder.join("house.wend");
    let (mut plan, mut history) = (Plan::default(), History::default());
    let (mut journal, _) = Journal::open(&path).expect("a journal");
    for entry in [numbered(1), numbered(2)] {
        journal.add(&entry).expect("an entry");
        let Entry::Edit(edit) = entry else { unreachable!("edits alone") };
        history.apply(&mut plan, *edit).expect("an edit");
    }
    journal.add(&Entry::Undo(history.next_undo().cloned().map(Box::new))).expect("an entry");
    history.undo(&mut plan).expect("undone");
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

/// A journal of a house with a number of edits, undone and done again, as bytes.
fn written(folder: &Path) -> (PathBuf, Vec<u8>, Vec<Plan>) {
    let path = folder.join("house.wend");
    let (mut plan, mut history) = (Plan::default(), History::default());
    let (mut journal, _) = Journal::open(&path).expect("a journal");
    let mut states = vec![plan.clone()];
    for number in 1..=12 {
        let entry = match number {
            5 | 9 | 10 => {
                let edit = history.next_undo().cloned().map(Box::new);
                history.undo(&mut plan).expect("undone");
                Entry::Undo(edit)
            }
            6 => {
                let edit = history.next_redo().cloned().map(Box::new);
                history.redo(&mut plan).expect("done again");
                Entry::Redo(edit)
            }
            number => {
                let Entry::Edit(edit) = numbered(number) else { unreachable!("an edit") };
                history.apply(&mut plan, (*edit).clone()).expect("an edit");
                Entry::Edit(edit)
            }
        };
        journal.add(&entry).expect("an entry");
        states.push(plan.clone());
    }
    drop(journal);
    let bytes = std::fs::read(Journal::path_of(&path)).expect("its bytes");
    (path, bytes, states)
}

/// Whatever single bit turns over: no more is lost than the record that it is
/// in, all is said, and the file as it was is kept.
#[test]
fn one_rotten_bit_costs_no_more_than_the_record_that_it_is_in() {
    let folder = folder("rotten");
    let (path, bytes, states) = written(&folder);
    let last = states.last().expect("states");
    let file = Journal::path_of(&path);
    let ends: Vec<usize> = (0..bytes.len()).filter(|at| bytes[*at] == b'\n').collect();
    assert_eq!(ends.len(), 13, "a head and twelve records");
    // Each bit of every byte in turn would be some tens of thousands: every
    // sixty-first here, all of them with WIREWEND_TEST_KILLS set.
    let step = if std::env::var(KILLS).is_ok() { 1 } else { 61 };
    for bit in (0..bytes.len() * 8).step_by(step) {
        let mut rotten = bytes.clone();
        rotten[bit.div_euclid(8)] ^= 1 << (bit % 8);
        std::fs::write(&file, &rotten).expect("a rotten journal");
        let (journal, noted) = Journal::open(&path).expect("the journal again");
        drop(journal);
        let line = ends.iter().position(|end| bit.div_euclid(8) <= *end).expect("a line");
        let at_end = ends.contains(&bit.div_euclid(8));
        assert!(noted.lost() <= 1, "bit {bit}: {} lost", noted.lost());
        assert!(
            noted.len() + noted.lost() == 12,
            "bit {bit}: {} and {}",
            noted.len(),
            noted.lost()
        );
        assert!(at_end || line == 0 || noted.lost() == 1, "bit {bit}: it is told");
        let (mut plan, mut history) = (Plan::default(), History::default());
        let came = noted.replay(&mut plan, &mut history);
        assert_eq!(came.refused, 0, "bit {bit}");
        // Each record holds in full what it did: the last one that is there
        // decides, whichever before it is gone.
        let expect = if line == 12 && !at_end { &states[11] } else { last };
        assert_eq!(plan.project, expect.project, "bit {bit}");
        if noted.lost() > 0 {
            let aside = noted.aside().expect("kept aside");
            assert_eq!(std::fs::read(aside).expect("its bytes"), rotten, "as it was");
            assert!(noted.says(came).expect("words").contains("cannot be read"), "bit {bit}");
            std::fs::remove_file(aside).expect("room for the next");
        } else if let Some(aside) = noted.aside() {
            std::fs::remove_file(aside).expect("room for the next");
        }
        // What was read is whole from then on, and work goes on after it.
        let (mut journal, again) = Journal::open(&path).expect("once more");
        assert_eq!((again.len(), again.lost()), (noted.len(), 0), "bit {bit}");
        journal.add(&numbered(99)).expect("an entry");
        drop(journal);
        let (_, more) = Journal::open(&path).expect("and again");
        assert_eq!((more.len(), more.lost()), (noted.len() + 1, 0), "bit {bit}");
    }
    let _ = std::fs::remove_dir_all(folder);
}

/// Several rotten places: what lies between is read.
#[test]
fn what_lies_between_rotten_records_is_read() {
    let folder = folder("between");
    let (path, bytes, states) = written(&folder);
    let ends: Vec<usize> = (0..bytes.len()).filter(|at| bytes[*at] == b'\n').collect();
    let mut rotten = bytes;
    // In the head, in the second record, over the end of the sixth and into the
    // seventh.
    for at in [3, ends[1] + 40, ends[6], ends[6] + 1, ends[6] + 60] {
        rotten[at] = b'#';
    }
    std::fs::write(Journal::path_of(&path), &rotten).expect("a rotten journal");
    let (_, noted) = Journal::open(&path).expect("the journal again");
    assert_eq!((noted.len(), noted.lost()), (10, 2));
    let (mut plan, mut history) = (Plan::default(), History::default());
    noted.replay(&mut plan, &mut history);
    assert_eq!(plan.project, states.last().expect("states").project);
    let _ = std::fs::remove_dir_all(folder);
}

/// What was undone after a save is undone after a crash, though what it undid
/// is in the plan's file and no more in the journal.
#[test]
fn an_undo_after_a_save_outlives_a_crash() {
    let folder = folder("undone");
    let path = folder.join("house.wend");
    let (mut plan, mut history) = (Plan::default(), History::default());
    let (mut journal, _) = Journal::open(&path).expect("a journal");
    let Entry::Edit(edit) = numbered(1) else { unreachable!("an edit") };
    history.apply(&mut plan, *edit).expect("an edit");
    store::write_file(&plan, &path).expect("a saved plan");
    journal.saved().expect("a new beginning");
    let undo = history.next_undo().cloned().map(Box::new);
    history.undo(&mut plan).expect("undone");
    journal.add(&Entry::Undo(undo)).expect("an entry");
    drop(journal);
    let (_, noted) = Journal::open(&path).expect("the journal again");
    let (mut again, mut history) = (store::read_file(&path).expect("a plan"), History::default());
    assert_eq!(again.project.number, "1", "as it was saved");
    assert_eq!(noted.replay(&mut again, &mut history).done, 1);
    assert_eq!(again.project, plan.project, "undone again");
    assert!(history.can_undo(), "and that can be undone");
    let _ = std::fs::remove_dir_all(folder);
}

/// A journal as an earlier version wrote it, with its bytes.
#[test]
fn a_journal_of_the_older_layout_is_read_and_gone_on_with() {
    let folder = folder("older");
    let path = folder.join("house.wend");
    let sum = |json: &str| {
        // FNV-1a, 64 bits.
        let step = |sum: u64, byte: u8| (sum ^ u64::from(byte)).wrapping_mul(0x0100_0000_01b3);
        format!("{:016x}", json.bytes().fold(0xcbf2_9ce4_8422_2325, step))
    };
    let edit = |number: u32| serde_json::to_string(&numbered(number)).expect("json");
    let lines = [
        "{\"journal\":1,\"begins_from\":null}".to_owned(),
        edit(1),
        edit(2),
        "\"undo\"".to_owned(),
        edit(3),
    ];
    let text: String = lines.iter().map(|json| format!("{} {json}\n", sum(json))).collect();
    std::fs::write(Journal::path_of(&path), text).expect("an older journal");
    let (mut journal, noted) = Journal::open(&path).expect("it is read");
    assert_eq!((noted.len(), noted.lost(), noted.aside()), (4, 0, None));
    let (mut plan, mut history) = (Plan::default(), History::default());
    assert_eq!(noted.replay(&mut plan, &mut history).refused, 0);
    assert_eq!(plan.project.number, "3");
    history.undo(&mut plan).expect("undone");
    assert_eq!(plan.project.number, "1", "the second was undone before");
    journal.add(&numbered(9)).expect("an entry");
    drop(journal);
    let (_, noted) = Journal::open(&path).expect("in the new layout");
    assert_eq!((noted.len(), noted.lost(), noted.aside()), (5, 0, None));
    let _ = std::fs::remove_dir_all(folder);
}

//! Every command that writes, run on everything that can be in its way. The
//! table of what comes of it is asserted as a whole: see the snapshot
//! `what_comes_of_it` beside the suite.
#![cfg(unix)]
#![expect(
    clippy::disallowed_methods,
    reason = "a kill comes at a part of how long a command takes"
)]

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::os::unix::fs::{PermissionsExt as _, symlink};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Instant;

use super::place::{LAYOUT, Place};
use super::{begun, held, kept};

const STRANGER: &str = "somebody else's work of three weeks";

/// A command that writes: its words, `TO` for where to.
struct Writes {
    name: &'static str,
    words: &'static [&'static str],
    /// The file whose fate is watched, in the folder.
    target: &'static str,
    /// What stands for `TO`.
    to: &'static str,
}

const fn one(name: &'static str, words: &'static [&'static str]) -> Writes {
    Writes { name, words, target: "out.wend", to: "out.wend" }
}

const COMMANDS: [Writes; 7] = [
    one("import --to", &["import", "shed.geojson", "--unit", "mm", "--to", "TO"]),
    one("draft --to", &["draft", "flat.geojson", "--unit", "mm", "--to", "TO"]),
    one("measured --to", &["measured", "flat.wend", "--leg", "1.1", "--length", "9", "--to", "TO"]),
    one(
        "reading --to",
        &["reading", "flat.wend", "--circuit", "1", "--insulation", ">200", "--to", "TO"],
    ),
    Writes {
        name: "sheet --to",
        words: &["sheet", "flat.wend", "--to", "TO"],
        target: "out.svg",
        to: "out.svg",
    },
    Writes {
        name: "papers --to",
        words: &["papers", "flat.wend", "--only", "order,board", "--to", "TO"],
        target: "job/board-1.svg",
        to: "job",
    },
    Writes {
        name: "sample --to",
        words: &["sample", "--to", "TO"],
        target: "job/lengths.txt",
        to: "job",
    },
];

/// What is in the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    Nothing,
    File,
    FileReplaced,
    Own,
    ProtectedReplaced,
    FullDisk,
    FullDiskReplaced,
    ReadOnlyFolder,
    FolderReplaced,
    PipeReplaced,
    LinkReplaced,
    DanglingReplaced,
    KilledReplaced,
}

const WAYS: [(&str, Way); 13] = [
    ("nothing there", Way::Nothing),
    ("another's file", Way::File),
    ("another's file, --replace", Way::FileReplaced),
    ("what it wrote itself", Way::Own),
    ("protected file, --replace", Way::ProtectedReplaced),
    ("no room", Way::FullDisk),
    ("another's file, --replace, no room", Way::FullDiskReplaced),
    ("read-only folder", Way::ReadOnlyFolder),
    ("a folder, --replace", Way::FolderReplaced),
    ("a pipe, --replace", Way::PipeReplaced),
    ("a link, --replace", Way::LinkReplaced),
    ("a link to nothing, --replace", Way::DanglingReplaced),
    ("another's file, --replace, killed", Way::KilledReplaced),
];

fn all_held(place: &Place) -> BTreeMap<String, Vec<u8>> {
    let mut all = held(place.folder.path());
    for (name, bytes) in held(&place.path("job")) {
        all.insert(format!("job/{name}"), bytes);
    }
    all
}

/// Puts it in the way and runs the command. What came of it.
fn outcome(place: &Place, writes: &Writes, way: Way) -> String {
    let (target, to) = (place.path(writes.target), writes.to);
    let words: Vec<&str> =
        writes.words.iter().map(|word| if *word == "TO" { to } else { word }).collect();
    let stranger = || std::fs::write(&target, STRANGER).unwrap();
    let mode = |path: &Path, mode| {
        std::fs::set_permissions(path, std::fs::Permissions::from_mode(mode)).unwrap();
    };
    match way {
        Way::Nothing | Way::FullDisk => {}
        Way::File | Way::FileReplaced | Way::FullDiskReplaced | Way::KilledReplaced => stranger(),
        Way::Own => assert!(place.run(&words, false).0, "{}: the first time", writes.name),
        Way::ProtectedReplaced => {
            stranger();
            mode(&target, 0o444);
        }
        Way::ReadOnlyFolder => {
            mode(target.parent().unwrap(), 0o555);
        }
        Way::FolderReplaced => std::fs::create_dir(&target).unwrap(),
        Way::PipeReplaced => {
            assert!(Command::new("mkfifo").arg(&target).status().unwrap().success(), "a pipe");
        }
        Way::LinkReplaced => {
            std::fs::write(place.path("theirs"), STRANGER).unwrap();
            symlink(place.path("theirs"), &target).unwrap();
        }
        Way::DanglingReplaced => symlink("nowhere", &target).unwrap(),
    }
    let before = all_held(place);
    let replace = format!("{way:?}").ends_with("Replaced");
    let words: Vec<&str> = words.into_iter().chain(replace.then_some("--replace")).collect();
    if way == Way::KilledReplaced {
        return killed(place, writes, &words);
    }
    let no_room = [Way::FullDisk, Way::FullDiskReplaced].contains(&way);
    let (done, said) = place.run(&words, no_room);
    if way == Way::ReadOnlyFolder {
        mode(target.parent().unwrap(), 0o777);
    }
    let after = all_held(place);
    let at = format!("{}, {way:?}: {said}", writes.name);
    judge(writes, way, done, (&before, &after), &at);
    assert!(begun(place.folder.path()).is_empty() && begun(&place.path("job")).is_empty(), "{at}");
    if way == Way::LinkReplaced && done {
        assert!(std::fs::symlink_metadata(&target).unwrap().is_symlink(), "{at}: the link stays");
    }
    told(writes, done, &said, (&before, &after))
}

/// What a folder holds, by name.
type Held = BTreeMap<String, Vec<u8>>;

/// Nothing that was there is lost, and what is said is what was done.
fn judge(writes: &Writes, way: Way, done: bool, (before, after): (&Held, &Held), at: &str) {
    for (name, bytes) in before {
        let is_there = after.values().any(|now| now == bytes);
        let is_list = name.ends_with(wirewend::store::OWN_LIST);
        assert!(is_there || is_list, "{at}: {name} is lost");
    }
    let new = |name: &str| before.get(name) != after.get(name);
    if done {
        let was = way == Way::Own && !new(writes.target);
        assert!(was || new(writes.target) || way == Way::LinkReplaced, "{at}: it says so");
        assert_ne!(after[writes.target], STRANGER.as_bytes(), "{at}: written");
    } else {
        let lost = before.iter().find(|(name, bytes)| after.get(*name) != Some(bytes));
        assert!(lost.is_none(), "{at}: {:?} was changed", lost.map(|(name, _)| name));
    }
}

/// Kills the command at five moments of its last half. What is left each time.
fn killed(place: &Place, writes: &Writes, words: &[&str]) -> String {
    let target = place.path(writes.target);
    let folder = target.parent().unwrap();
    let name = target.file_name().unwrap().to_string_lossy().into_owned();
    let began = Instant::now();
    assert!(place.run(words, false).0, "{}: to its end", writes.name);
    let (took, whole) = (began.elapsed(), std::fs::read(&target).unwrap());
    for part in 6..=10_u32 {
        std::fs::write(&target, STRANGER).unwrap();
        let mut child = place.command(false).args(words).stdout(Stdio::null()).spawn().unwrap();
        std::thread::sleep(took.mul_f64(f64::from(part) / 10.0));
        child.kill().unwrap();
        child.wait().unwrap();
        let now = std::fs::read(&target).unwrap();
        let is_old = now == STRANGER.as_bytes();
        assert!(is_old || now == whole, "{}: half a file", writes.name);
        let is_kept = kept(folder, &name).contains(&STRANGER.as_bytes().to_vec());
        assert!(is_old || is_kept, "{}: the old one is lost", writes.name);
    }
    assert!(place.run(words, false).0, "{}: once more", writes.name);
    assert!(begun(folder).is_empty(), "{}: {:?}", writes.name, begun(folder));
    "the old or the new, whole".to_owned()
}

/// In a few words.
fn told(writes: &Writes, done: bool, said: &str, (before, after): (&Held, &Held)) -> String {
    if done {
        let kept = after.keys().any(|name| name.contains(".before-") && !before.contains_key(name));
        let same = before.get(writes.target) == after.get(writes.target);
        return match (kept, same) {
            (true, _) => "written, the old one kept".to_owned(),
            (false, true) => "written again, the same".to_owned(),
            (false, false) => "written".to_owned(),
        };
    }
    let last = said.lines().last().unwrap_or_default().trim_start_matches("wirewend: ");
    let reason = last.split_once(": ").map_or(last, |(_, reason)| reason);
    let reason = reason.split(';').next().unwrap_or_default();
    // The system's own words differ.
    let reason = reason.split(" (os error").next().unwrap_or_default();
    format!("refused: {reason}")
}

/// Two commands at a time: each waits for the disk now and then.
#[test]
fn every_command_that_writes_on_everything_in_its_way() {
    let column = |number: usize| -> Vec<String> {
        let place = |way| Place::new(&format!("{way:?}-{number}"));
        WAYS.iter().map(|(_, way)| outcome(&place(*way), &COMMANDS[number], *way)).collect()
    };
    let half = COMMANDS.len().div_euclid(2);
    let columns: Vec<Vec<String>> = std::thread::scope(|scope| {
        let first = scope.spawn(|| (0..half).map(column).collect::<Vec<_>>());
        let second: Vec<_> = (half..COMMANDS.len()).map(column).collect();
        first.join().unwrap().into_iter().chain(second).collect()
    });
    let mut table = String::from("| |");
    for writes in &COMMANDS {
        let _ = write!(table, " `{}` |", writes.name);
    }
    table.push_str("\n|---|");
    table.push_str(&"---|".repeat(COMMANDS.len()));
    table.push_str("\n| the plan that it read, changed since |");
    for writes in &COMMANDS {
        let _ = write!(table, " {} |", changed_meanwhile(writes));
    }
    for (row, (shown, _)) in WAYS.iter().enumerate() {
        let _ = write!(table, "\n| {shown} |");
        for column in &columns {
            let _ = write!(table, " {} |", column[row]);
        }
    }
    insta::assert_snapshot!("what_comes_of_it", table);
}

/// The command is given its list through a pipe: by then it has read the plan,
/// which is changed, or not, before the list ends. The words it says.
fn listed(place: &Place, command: &str, change: bool) -> (bool, String) {
    let (plan, pipe) = (place.path("flat.wend"), place.path("list.csv"));
    assert!(Command::new("mkfifo").arg(&pipe).status().unwrap().success(), "a pipe");
    let (_, blank) = place.run(&[command, "flat.wend", "--blank"], false);
    assert!(blank.lines().count() > 20, "a list: {blank}");
    let words = [command, "flat.wend", "--list", "list.csv", "--to", "flat.wend"];
    let mut child = place.command(false);
    child.args(words).stderr(Stdio::piped()).stdout(Stdio::piped());
    let child = child.spawn().unwrap();
    // Opens as soon as the program reads from the other end.
    let mut list = std::fs::OpenOptions::new().write(true).open(&pipe).unwrap();
    let text = std::fs::read_to_string(&plan).unwrap();
    let changed = text.replacen("\"title\": \"", "\"title\": \"changed meanwhile: ", 1);
    assert_ne!(changed, text, "something is changed");
    if change {
        std::fs::write(&plan, &changed).unwrap();
    }
    std::io::Write::write_all(&mut list, blank.as_bytes()).unwrap();
    drop(list);
    let output = child.wait_with_output().unwrap();
    if change {
        assert_eq!(std::fs::read_to_string(&plan).unwrap(), changed, "untouched");
    }
    let said = String::from_utf8([output.stdout, output.stderr].concat()).unwrap();
    (output.status.success(), said)
}

/// Only commands that write over what they read can find it changed.
fn changed_meanwhile(writes: &Writes) -> String {
    let command = writes.words[0];
    if !["measured", "reading"].contains(&command) {
        // Nothing in a draft waits, so that a plan could be changed under it.
        let same =
            if command == "draft" { "not tried: as `measured` in code" } else { "reads none" };
        return same.to_owned();
    }
    let (done, said) = listed(&Place::new(&format!("unchanged-{command}")), command, false);
    assert!(done, "as it was read: {said}");
    let (done, said) = listed(&Place::new(&format!("changed-{command}")), command, true);
    assert!(!done, "{command}: {said}");
    let reason = said.split_once(": flat.wend: ").map_or("", |(_, reason)| reason);
    format!("refused: {}", reason.split(';').next().unwrap_or_default())
}

#[test]
fn a_plan_may_be_written_over_itself_and_the_one_before_is_kept() {
    let place = Place::new("itself");
    let before = std::fs::read(place.path("flat.wend")).unwrap();
    let words = ["measured", "flat.wend", "--leg", "1.1", "--length", "9", "--to", "flat.wend"];
    let (done, said) = place.run(&words, false);
    assert!(done && said.contains("what was there is kept beside it as"), "{said}");
    let kept = kept(place.folder.path(), "flat.wend");
    assert_eq!(kept, [before], "one, and it holds the plan before");
    let refused = ["draft", "flat.geojson", "--unit", "mm", "--to", "flat.geojson"];
    let (done, said) = place.run(&refused, false);
    assert!(!done && said.contains("--replace"), "a drawing is not the plan that was read: {said}");
    assert_eq!(std::fs::read(place.path("flat.geojson")).unwrap(), LAYOUT.as_bytes());
}

/// Papers killed at any moment: each is whole, and nobody is asked next time.
#[test]
fn papers_killed_at_any_moment_are_whole_and_still_ones_own() {
    let place = Place::new("papers-killed");
    let words = ["papers", "flat.wend", "--to", "job"];
    assert!(place.run(&words, false).0, "the first time");
    let first = held(&place.path("job"));
    let plan = std::fs::read_to_string(place.path("flat.wend")).unwrap();
    std::fs::write(place.path("flat.wend"), plan.replacen("\"title\": \"", "\"title\": \"B ", 1))
        .unwrap();
    let mut second = None;
    let (mut torn, mut dice) = (0, 0x51_f0_u64);
    for _ in 0..8 {
        let mut child = place.command(false).args(words).stdout(Stdio::null()).spawn().unwrap();
        // Until it writes; then a moment more.
        let before = held(&place.path("job"));
        for _ in 0..20_000 {
            if held(&place.path("job")) != before || child.try_wait().unwrap().is_some() {
                break;
            }
        }
        dice = dice.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        std::thread::sleep(std::time::Duration::from_micros((dice >> 40) % 10_000));
        torn += i32::from(child.try_wait().unwrap().is_none());
        let _ = child.kill();
        child.wait().unwrap();
        let left = held(&place.path("job"));
        let (done, said) = place.run(&words, false);
        assert!(done, "nobody is asked: {said}");
        let whole = second.get_or_insert_with(|| held(&place.path("job")));
        for (name, bytes) in left.iter().filter(|(name, _)| !name.starts_with('.')) {
            // The workbook tells when it was made.
            let same = [first.get(name), whole.get(name)].contains(&Some(bytes));
            assert!(same || name.ends_with(".xlsx"), "{name} is torn");
        }
        assert!(begun(&place.path("job")).is_empty(), "{:?}", begun(&place.path("job")));
        // And back to the first, so that the next one has something to write.
        std::fs::remove_dir_all(place.path("job")).unwrap();
        std::fs::create_dir(place.path("job")).unwrap();
        std::fs::set_permissions(place.path("job"), std::fs::Permissions::from_mode(0o777))
            .unwrap();
        for (name, bytes) in &first {
            let path = place.path("job").join(name);
            std::fs::write(&path, bytes).unwrap();
            std::fs::set_permissions(path, std::fs::Permissions::from_mode(0o666)).unwrap();
        }
    }
    assert!(torn > 0, "some were killed before they had ended");
}

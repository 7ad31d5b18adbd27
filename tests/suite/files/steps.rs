//! Each call to the disk made to fail in turn, to be the last, and to have
//! somebody come in just before it.

use std::path::Path;

use wirewend::store::{
    Known, Manner, Replace, SystemDisk, WriteError, WriteProblem, Written, look, put,
};

use super::faulty::{Fault, Faulty};
use super::{begun, held, kept};
use crate::command::Folder;

const NAME: &str = "house.wend";
const OLD: &[u8] = b"the plan as it was, before anything";
const NEW: &[u8] = b"the plan as it is now, and it is longer than it was before";
const NEXT: &[u8] = b"one more revision";
const STRANGER: &[u8] = b"written by somebody else in the meantime";

/// What is there before, and what may be replaced.
#[derive(Clone, Copy, Debug)]
struct Case {
    name: &'static str,
    there: bool,
    replace: Replace,
    /// Whether files can have second names.
    links: bool,
}

fn cases() -> [Case; 5] {
    let read = Replace::AsRead(Known::of(OLD));
    let case = |name, there, replace, links| Case { name, there, replace, links };
    [
        case("a new file", false, Replace::Nothing, true),
        case("a new file, no second names", false, Replace::Nothing, false),
        case("the file that was read", true, read, true),
        case("the file that was read, no second names", true, read, false),
        case("whatever is there", true, Replace::Anything, true),
    ]
}

/// Files of others whose names look like ours.
fn others(tag: &str, old: &[u8]) -> Vec<(String, Vec<u8>)> {
    let mut names = vec![
        "notes.txt".to_owned(),
        ".house.wend.notes.new".to_owned(),
        ".other.wend.1-0.new".to_owned(),
        "house.wend.before".to_owned(),
        "house.wend.before-12345678".to_owned(),
        "house.wend.before-lunch-on-2".to_owned(),
    ];
    // The very name under which the old one would be kept.
    let folder = Folder::new(&format!("files-name-{tag}"));
    let path = folder.path().join(NAME);
    std::fs::write(&path, old).unwrap();
    let written = put(&SystemDisk, &path, NEW, Manner::careful(Replace::Anything)).unwrap();
    let name = written.kept.unwrap().file_name().unwrap().to_string_lossy().into_owned();
    assert!(name.starts_with("house.wend.before-"), "{name}");
    names.push(name);
    names.into_iter().map(|name| (name, b"of somebody else".to_vec())).collect()
}

fn prepared(tag: &str, case: Case, others: &[(String, Vec<u8>)]) -> Folder {
    let folder = Folder::new(&format!("files-{tag}"));
    std::fs::remove_dir_all(folder.path()).unwrap();
    std::fs::create_dir_all(folder.path()).unwrap();
    for (name, bytes) in others {
        std::fs::write(folder.path().join(name), bytes).unwrap();
    }
    if case.there {
        std::fs::write(folder.path().join(NAME), OLD).unwrap();
    }
    folder
}

fn done(disk: &Faulty<'_>, folder: &Path, case: Case) -> Result<Written, WriteError> {
    put(disk, &folder.join(NAME), NEW, Manner::careful(case.replace))
}

fn calls(tag: &str, case: Case, others: &[(String, Vec<u8>)]) -> Vec<&'static str> {
    let folder = prepared(tag, case, others);
    let disk = Faulty::new(case.links);
    done(&disk, folder.path(), case).unwrap();
    disk.calls.into_inner()
}

fn unharmed(folder: &Path, others: &[(String, Vec<u8>)], at: &str) {
    let held = held(folder);
    for (name, bytes) in others {
        assert_eq!(held.get(name), Some(bytes), "{at}: {name} is somebody else's");
    }
}

#[test]
fn whichever_call_fails_or_is_the_last_the_old_or_the_new_is_whole() {
    let others = others("steps", OLD);
    for case in cases() {
        let calls = calls("steps", case, &others);
        assert!(calls.len() >= 8, "{}: {calls:?}", case.name);
        for fault in [Fault::Refused, Fault::Full, Fault::Killed] {
            for (number, call) in calls.iter().enumerate() {
                let at = format!("{}: {fault:?} at call {number}, {call}", case.name);
                let folder = prepared("steps", case, &others);
                let folder = folder.path();
                let disk = Faulty::wrong(case.links, number, fault);
                let outcome = done(&disk, folder, case);
                let held = held(folder);
                let now = held.get(NAME).map(Vec::as_slice);
                let old = case.there.then_some(OLD);
                assert!(now == old || now == Some(NEW), "{at}: half a file");
                let mine: Vec<_> =
                    kept(folder, NAME).into_iter().filter(|one| one == OLD).collect();
                match &outcome {
                    Ok(_) => assert_eq!(now, Some(NEW), "{at}: it says that it is written"),
                    Err(error) if fault != Fault::Killed => {
                        assert_eq!(now, old, "{at}: it says that nothing was done: {error}");
                        let left = begun(folder).len() - 2;
                        assert_eq!(left, 0, "{at}: {left} left behind");
                    }
                    Err(_) => {}
                }
                if now == Some(NEW) && case.there {
                    assert_eq!(mine.len(), 1, "{at}: the old one is kept");
                }
                unharmed(folder, &others, &at);
                // Whatever was left behind, the next one goes on from there.
                let path = folder.join(NAME);
                let was = std::fs::read(&path).ok();
                let next = put(&SystemDisk, &path, NEXT, Manner::careful(Replace::Anything));
                let next = next.unwrap();
                assert_eq!(std::fs::read(&path).unwrap(), NEXT, "{at}: the next one");
                assert_eq!(
                    next.kept.map(|kept| std::fs::read(kept).unwrap()),
                    was,
                    "{at}: what the next one replaced is kept"
                );
                assert_eq!(
                    begun(folder),
                    [".house.wend.notes.new", ".other.wend.1-0.new"],
                    "{at}: nothing is left of what was begun, and what is others' stays"
                );
                let mine = kept(folder, NAME)
                    .into_iter()
                    .filter(|one| [OLD, NEW, NEXT].contains(&one.as_slice()));
                assert_eq!(mine.count(), usize::from(was.is_some()), "{at}: the last one alone");
                unharmed(folder, &others, &at);
            }
        }
    }
}

/// Whoever writes into the same file meanwhile, at whatever moment, finds it
/// again: in its place, or kept. One who puts another file in its place in the
/// moment between the last look and the exchange is the one who cannot be seen.
#[test]
fn whoever_comes_in_between_finds_what_was_written() {
    let others = others("visits", OLD);
    for case in cases().into_iter().filter(|case| case.links) {
        let calls = calls("visits", case, &others);
        for by_name in [false, true] {
            for (number, call) in calls.iter().enumerate() {
                let at = format!("{}: somebody before call {number}, {call}", case.name);
                let folder = prepared("visits", case, &others);
                let path = folder.path().join(NAME);
                let visitor = || {
                    if by_name {
                        let other = folder.path().join("theirs");
                        std::fs::write(&other, STRANGER).unwrap();
                        std::fs::rename(&other, &path).unwrap();
                    } else {
                        std::fs::write(&path, STRANGER).unwrap();
                    }
                };
                let disk = Faulty::visited(true, number, &visitor);
                let outcome = done(&disk, folder.path(), case);
                let held = held(folder.path());
                let is_there = held.values().any(|bytes| bytes == STRANGER);
                let exchanged = calls[..number].contains(&"rename");
                if !(by_name && *call == "rename") {
                    assert!(is_there, "{at}, by name {by_name}: lost; {outcome:?}");
                }
                if let Err(error) = &outcome {
                    assert!(error.is_a_question(), "{at}: {error}");
                    assert_eq!(held[NAME], STRANGER, "{at}: untouched");
                    assert!(!exchanged, "{at}: {error}");
                }
                unharmed(folder.path(), &others, &at);
            }
        }
    }
}

#[test]
fn what_may_not_be_replaced_is_refused_with_the_reason() {
    let folder = Folder::new("files-refused");
    let path = folder.path().join(NAME);
    let put = |replace| put(&SystemDisk, &path, NEW, Manner::careful(replace));
    std::fs::write(&path, OLD).unwrap();
    let refused = put(Replace::Nothing).unwrap_err();
    assert!(matches!(refused.problem, WriteProblem::Taken(was) if was == Known::of(OLD)));
    std::fs::write(&path, STRANGER).unwrap();
    let refused = put(Replace::AsRead(Known::of(OLD))).unwrap_err();
    assert!(matches!(refused.problem, WriteProblem::Changed(is) if is == Known::of(STRANGER)));
    assert_eq!(std::fs::read(&path).unwrap(), STRANGER, "untouched");
    // One who was asked about what is there now, and agrees.
    let written = put(Replace::AsRead(Known::of(STRANGER))).unwrap();
    assert_eq!(std::fs::read(written.kept.unwrap()).unwrap(), STRANGER, "kept");
    // The same once more is no loss to anybody.
    assert!(put(Replace::Nothing).unwrap().kept.is_none(), "nothing was replaced");
    // Gone meanwhile: nothing to lose.
    std::fs::remove_file(&path).unwrap();
    assert!(put(Replace::AsRead(Known::of(OLD))).is_ok(), "written anew");
    assert_eq!(look(&SystemDisk, &path).unwrap(), Some(Known::of(NEW)));
    let none = folder.path().join("no such folder/house.wend");
    let refused = wirewend::store::put(&SystemDisk, &none, NEW, Manner::careful(Replace::Nothing));
    assert!(matches!(refused.unwrap_err().problem, WriteProblem::NoFolder));
}

#[cfg(unix)]
#[test]
fn the_mode_stays_and_links_are_followed() {
    use std::os::unix::fs::PermissionsExt as _;
    let folder = Folder::new("files-mode");
    let path = folder.path().join(NAME);
    std::fs::write(&path, OLD).unwrap();
    std::fs::set_permissions(&path, std::fs::Permissions::from_mode(0o640)).unwrap();
    std::fs::create_dir_all(folder.path().join("desk")).unwrap();
    let link = folder.path().join("desk/link.wend");
    std::os::unix::fs::symlink("../house.wend", &link).unwrap();
    let written = put(&SystemDisk, &link, NEW, Manner::careful(Replace::Anything)).unwrap();
    assert!(std::fs::symlink_metadata(&link).unwrap().is_symlink(), "the link stays");
    assert_eq!(std::fs::read(&path).unwrap(), NEW, "what it points to is replaced");
    let kept = written.kept.unwrap();
    assert_eq!(kept.parent(), std::fs::canonicalize(folder.path()).ok().as_deref(), "there");
    let mode = |path: &Path| std::fs::metadata(path).unwrap().permissions().mode() & 0o777;
    assert_eq!((mode(&path), mode(&kept)), (0o640, 0o640), "the mode of both");
}

#[test]
fn long_names_have_room_for_what_is_beside_them() {
    let folder = Folder::new("files-long");
    for name in ["a".repeat(250), format!("{}.wend", "ä".repeat(120))] {
        let path = folder.path().join(&name);
        for bytes in [OLD, NEW] {
            put(&SystemDisk, &path, bytes, Manner::careful(Replace::Anything)).unwrap();
        }
        assert_eq!(std::fs::read(&path).unwrap(), NEW);
    }
    assert_eq!(held(folder.path()).len(), 4, "each with what it held before");
}

/// What is being written by somebody is not taken for left behind.
#[test]
fn what_somebody_is_at_work_on_is_not_cleared_away() {
    use wirewend::store::Disk as _;
    let folder = Folder::new("files-at-work");
    let path = folder.path().join(NAME);
    let begun = folder.path().join(".house.wend.1-0.new");
    let mut file = SystemDisk.create(&begun).unwrap();
    SystemDisk.write(&mut file, NEW).unwrap();
    let write = |bytes: &[u8]| {
        put(&SystemDisk, &path, bytes, Manner::careful(Replace::Anything)).unwrap();
    };
    write(OLD);
    assert!(begun.exists(), "somebody is at work on it");
    drop(file);
    write(NEXT);
    assert!(!begun.exists(), "nobody is any more");
}

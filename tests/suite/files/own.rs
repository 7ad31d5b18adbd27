//! A folder of one's own files: written anew without asking, files of others
//! only where that was asked for, whichever call fails or is the last.

use std::path::Path;

use wirewend::store::{Known, OWN_LIST, OwnFolder, SystemDisk, WriteError, WriteProblem};

use super::faulty::{Fault, Faulty};
use super::held;
use crate::command::Folder;

type Files<'f> = &'f [(&'f str, &'f [u8])];

const FIRST: Files<'_> = &[("a.svg", b"first a"), ("b.svg", b"first b"), ("c.csv", b"first c")];
const SECOND: Files<'_> = &[("a.svg", b"second a"), ("b.svg", b"second b"), ("d.csv", b"second d")];

fn write(
    disk: &dyn wirewend::store::Disk,
    folder: &Path,
    files: Files<'_>,
    anyway: bool,
) -> Result<Vec<String>, WriteError> {
    let names: Vec<String> = files.iter().map(|(name, _)| (*name).to_owned()).collect();
    let mut to_be = |name: &str| {
        files.iter().find(|(other, _)| *other == name).map(|(_, bytes)| Known::of(bytes))
    };
    let mut own = OwnFolder::open(disk, folder, &names, anyway, &mut to_be)?;
    for (name, bytes) in files {
        own.write(name, bytes)?;
    }
    own.close()
}

fn holds(folder: &Path, files: Files<'_>) {
    for (name, bytes) in files {
        assert_eq!(std::fs::read(folder.join(name)).unwrap(), *bytes, "{name}");
    }
}

#[test]
fn ones_own_are_written_anew_and_a_changed_one_is_asked_about() {
    let folder = Folder::new("files-own");
    let folder = &folder.path().join("house.papers");
    assert!(write(&SystemDisk, folder, FIRST, false).unwrap().is_empty());
    assert_eq!(write(&SystemDisk, folder, SECOND, false).unwrap(), ["c.csv"], "left from before");
    holds(folder, SECOND);
    holds(folder, &FIRST[2..]);
    assert_eq!(held(folder).len(), 5, "four and the list: one's own are not kept");
    // By hand.
    std::fs::write(folder.join("b.svg"), "notes on site").unwrap();
    std::fs::write(folder.join("c.csv"), "12.4").unwrap();
    let before = held(folder);
    let refused = write(&SystemDisk, folder, FIRST, false).unwrap_err();
    assert!(matches!(&refused.problem, WriteProblem::Strangers(all) if *all == ["b.svg", "c.csv"]));
    assert_eq!(held(folder), before, "nothing was written");
    write(&SystemDisk, folder, FIRST, true).unwrap();
    holds(folder, FIRST);
    let kept: Vec<Vec<u8>> = held(folder)
        .into_iter()
        .filter(|(name, _)| name.contains(".before-"))
        .map(|(_, b)| b)
        .collect();
    assert_eq!(kept, [b"notes on site".to_vec(), b"12.4".to_vec()], "kept beside");
    assert!(write(&SystemDisk, folder, SECOND, false).is_ok(), "all are one's own again");
}

#[test]
fn what_is_there_already_as_it_will_be_is_nobodys_loss() {
    let folder = Folder::new("files-own-same");
    std::fs::write(folder.path().join("a.svg"), FIRST[0].1).unwrap();
    write(&SystemDisk, folder.path(), FIRST, false).unwrap();
    // Another's list of the same name.
    std::fs::write(folder.path().join(OWN_LIST), "shopping").unwrap();
    let refused = write(&SystemDisk, folder.path(), FIRST, false).unwrap_err();
    assert!(matches!(&refused.problem, WriteProblem::Strangers(all) if *all == [OWN_LIST]));
    let file = folder.path().join("a.svg");
    let refused = write(&SystemDisk, &file, FIRST, false).unwrap_err();
    assert!(matches!(refused.problem, WriteProblem::NoRoom), "{refused}");
}

#[test]
fn whichever_call_fails_or_is_the_last_each_is_whole_and_still_ones_own() {
    let prepared = || {
        let folder = Folder::new("files-own-steps");
        std::fs::remove_dir_all(folder.path()).unwrap();
        write(&SystemDisk, folder.path(), FIRST, false).unwrap();
        folder
    };
    let folder = prepared();
    let disk = Faulty::new(true);
    write(&disk, folder.path(), SECOND, false).unwrap();
    let calls = disk.calls.into_inner();
    drop(folder);
    assert!(calls.len() > 40, "{calls:?}");
    for fault in [Fault::Refused, Fault::Full, Fault::Killed] {
        for (number, call) in calls.iter().enumerate() {
            let at = format!("{fault:?} at call {number}, {call}");
            let folder = prepared();
            let disk = Faulty::wrong(true, number, fault);
            let _ = write(&disk, folder.path(), SECOND, false);
            let held = held(folder.path());
            for (name, bytes) in FIRST.iter().chain(SECOND) {
                if let Some(now) = held.get(*name) {
                    let all = FIRST.iter().chain(SECOND).filter(|(other, _)| other == name);
                    assert!(all.into_iter().any(|(_, one)| one == now), "{at}: {name} is torn");
                } else {
                    assert!(!FIRST.contains(&(name, bytes)), "{at}: {name} is gone");
                }
            }
            // Whatever was left behind is one's own: nobody is asked.
            write(&SystemDisk, folder.path(), SECOND, false)
                .unwrap_or_else(|error| panic!("{at}: {error}"));
            holds(folder.path(), SECOND);
        }
    }
}

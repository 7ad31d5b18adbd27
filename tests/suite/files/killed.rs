//! A process that saves without end, killed at any moment.

use std::io::{BufRead as _, BufReader};
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::Duration;

use wirewend::store::{Manner, Replace, SystemDisk, look, put};

use super::{begun, kept};
use crate::command::Folder;

/// Where the process that is killed writes.
const CHILD: &str = "WIREWEND_TEST_SAVES";
/// How often it is killed; the ordinary run does it less often.
const KILLS: &str = "WIREWEND_TEST_KILLS";

/// A revision: every line of it is the same, so that a torn one shows.
fn revision(number: u32) -> Vec<u8> {
    format!("{number:08}\n").repeat(4_000).into_bytes()
}

/// The number of a revision that is whole.
fn number_of(bytes: &[u8]) -> Option<u32> {
    let number = std::str::from_utf8(bytes.get(..8)?).ok()?.parse().ok()?;
    (bytes == revision(number)).then_some(number)
}

/// Not a test by itself: saves without end, each told once it is done. Runs in
/// a process that is killed.
#[test]
fn saves_until_killed() {
    let Ok(plan) = std::env::var(CHILD) else { return };
    let plan = Path::new(&plan);
    let first = std::fs::read(plan).ok().and_then(|bytes| number_of(&bytes)).unwrap_or(0) + 1;
    for number in first.. {
        let known = look(&SystemDisk, plan).expect("a file or none");
        let replace = known.map_or(Replace::Nothing, Replace::AsRead);
        put(&SystemDisk, plan, &revision(number), Manner::careful(replace)).expect("a save");
        println!("done {number}");
    }
}

#[test]
fn a_kill_at_any_moment_leaves_the_old_or_the_new_and_the_one_before() {
    let kills: u64 = std::env::var(KILLS).ok().and_then(|n| n.parse().ok()).unwrap_or(12);
    let folder = Folder::new("files-killed");
    let plan = folder.path().join("house.wend");
    let me = std::env::current_exe().expect("this program");
    let mut dice = 0x9e37_79b9_u64;
    let mut last = 0;
    for kill in 0..kills {
        let mut child = Command::new(&me)
            .args(["--exact", "files::killed::saves_until_killed", "--nocapture"])
            .env(CHILD, &plan)
            .stdout(Stdio::piped())
            .spawn()
            .expect("a second process");
        let mut said = BufReader::new(child.stdout.take().expect("its output"));
        let mut line = String::new();
        while !line.contains("done ") {
            line.clear();
            assert!(said.read_line(&mut line).expect("its words") > 0, "it ended by itself");
        }
        dice = dice.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        std::thread::sleep(Duration::from_micros((dice >> 40) % 15_000));
        child.kill().expect("it can be killed");
        child.wait().expect("it is gone");
        let now = number_of(&std::fs::read(&plan).expect("a file")).expect("whole");
        assert!(now > last, "kill {kill}: {now} after {last}");
        let kept: Vec<u32> =
            kept(folder.path(), "house.wend").iter().map(|one| number_of(one).unwrap()).collect();
        // A second name of the one that is still in its place counts for nothing.
        assert!(now == 1 || kept.contains(&(now - 1)), "kill {kill}: {now}, kept {kept:?}");
        assert!(kept.len() <= 3, "kill {kill}: {kept:?}");
        assert!(begun(folder.path()).len() <= 1, "kill {kill}: {:?}", begun(folder.path()));
        last = now;
    }
    put(&SystemDisk, &plan, b"the end", Manner::careful(Replace::Anything)).expect("a save");
    assert!(begun(folder.path()).is_empty(), "nothing is left of what was begun");
    assert_eq!(kept(folder.path(), "house.wend").len(), 1, "the last one alone");
}

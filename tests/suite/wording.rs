//! Words that people read are written on purpose: none is the name that a type
//! has in the code, and figures come from one room.

use std::path::Path;

use crate::rooms::sources;

/// What is printed or used as a key: sources without their tests.
fn printed() -> Vec<(String, String)> {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    sources(&src, &mut files);
    let is_test = |name: &str| {
        ["tests.rs", "flows.rs"].iter().any(|end| name.ends_with(end)) || name.contains("/tests/")
    };
    files
        .into_iter()
        .map(|file| (file.display().to_string(), std::fs::read_to_string(&file).expect("a source")))
        .filter(|(name, _)| !is_test(name))
        .map(|(name, text)| {
            let end = text.find("#[cfg(test)]\nmod ").unwrap_or(text.len());
            (name, text[..end].to_owned())
        })
        .collect()
}

/// Lines that write what a type is called in the code; what only a programmer
/// sees when something is broken is not meant.
fn debugged(text: &str) -> Vec<&str> {
    let is_printed = |line: &&str| line.contains(":?}") || line.contains(":#?}");
    let is_broken =
        |line: &&str| ["panic!", "assert", "unreachable!"].iter().any(|it| line.contains(it));
    text.lines().filter(is_printed).filter(|line| !is_broken(line)).collect()
}

#[test]
fn nothing_that_is_printed_is_a_name_of_the_code() {
    let files = printed();
    assert!(files.len() > 300, "the sources are read: {}", files.len());
    for (name, text) in files {
        let found = debugged(&text);
        assert!(found.is_empty(), "{name}: {found:?}");
    }
    assert_eq!(debugged("let key = format!(\"{:?}\", it);").len(), 1, "it can fail");
}

#[test]
fn money_and_exact_metres_are_written_in_one_room() {
    // Two digits or three after a mark: cents, or millimetres of metres.
    let by_hand =
        |line: &&str| line.contains("}.{") && (line.contains(":02}") || line.contains(":03}"));
    for (name, text) in printed() {
        // A cost of the search is no money: its own type writes it.
        if name.ends_with("/src/units/cost.rs") {
            continue;
        }
        let is_room = name.contains("/src/wording/");
        let found: Vec<&str> = text.lines().filter(by_hand).collect();
        assert_eq!(!found.is_empty(), is_room && name.ends_with("marks.rs"), "{name}: {found:?}");
    }
}

//! Plan files: what is written reads back, and what is wrong is said exactly.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking, in its helpers too")]

use proptest::prelude::*;
use wirewend::plan::Plan;
use wirewend::store::{FILE_BYTES_MAX, read, read_file, write, write_file};

use crate::sample;

#[test]
fn what_is_written_reads_back() {
    for plan in [Plan::default(), sample::plan()] {
        let text = write(&plan);
        let again = read(text.as_bytes(), "sample.wend").unwrap();
        assert_eq!(again, plan, "read after write");
        assert_eq!(write(&again), text, "write after read after write");
    }
}

#[test]
fn each_thing_is_on_one_line_under_its_id() {
    let text = write(&sample::plan());
    for id in ["L1", "V2", "W4", "O8", "R9", "A10", "D11", "B20", "C21", "P30", "S40"] {
        let lines = text.lines().filter(|line| line.starts_with(&format!("    \"{id}\": {{")));
        // A picture stands under the id of its level.
        let times = if id == "L1" { 2 } else { 1 };
        assert_eq!(lines.count(), times, "{id} in\n{text}");
    }
    assert!(text.ends_with("}\n"), "a newline at the end");
}

/// A valid file in which the tests break one place each.
const GOOD: &str = r#"{
  "wirewend": 1,
  "levels": {
    "L1": {"name": "Ground", "floor": 0, "height": 2400}
  },
  "walls": {
    "W2": {"level": "L1", "a": [0, 0], "b": [4000, 0], "thickness": 110, "build": "stud"}
  },
  "circuits": {
    "C3": {"number": 1, "name": "Sockets", "use": "sockets", "order": ["P4"]}
  },
  "points": {
    "P4": {"kind": "socket", "place": {"wall": {"wall": "W2", "along": 900, "height": 300, "face": "left"}}, "circuit": "C3"}
  },
  "next_id": 5
}
"#;

/// The good file with one text replaced is refused with this message.
fn refuses(old: &str, new: &str, expect: &str) {
    assert_eq!(GOOD.matches(old).count(), 1, "{old} must stand once in the good file");
    let error = read(GOOD.replace(old, new).as_bytes(), "kitchen.wend").unwrap_err();
    assert_eq!(error.to_string(), format!("kitchen.wend:{expect}"), "{old} -> {new}");
}

#[test]
fn the_good_file_is_good() {
    let plan = read(GOOD.as_bytes(), "kitchen.wend").unwrap();
    assert_eq!((plan.walls.len(), plan.next_id), (1, 5), "read");
    let without = GOOD.replace("},\n  \"next_id\": 5", "}");
    assert_eq!(read(without.as_bytes(), "kitchen.wend").unwrap(), plan, "the counter left out");
    let exponents = GOOD.replace("2400", "2.4e3").replace("110", "110.0");
    assert_eq!(read(exponents.as_bytes(), "kitchen.wend").unwrap(), plan, "whole all the same");
}

#[test]
fn misspelt_keys_and_names() {
    refuses(
        "\"thickness\"",
        "\"thicknes\"",
        "7:56: walls.W2.thicknes: unknown key \"thicknes\", expected one of \"level\", \"a\", \"b\", \
         \"thickness\", \"build\", \"insulated\", \"wet\"; did you mean \"thickness\"?",
    );
    refuses(
        "\"build\": \"stud\"",
        "\"build\": \"stood\"",
        "7:83: walls.W2.build: unknown name \"stood\", expected one of \"stud\", \"brick_veneer\", \
         \"solid_masonry\", \"cavity_masonry\", \"double_brick\", \"concrete\", \"lath_and_plaster\", \
         \"screen\"; did you mean \"stud\"?",
    );
    refuses(
        "{\"wall\": {",
        "{\"ceilling\": {",
        "13:40: points.P4.place.ceilling: unknown name \"ceilling\", expected one of \"wall\", \
         \"ceiling\", \"floor\", \"post\"; did you mean \"ceiling\"?",
    );
    refuses("\"floor\": 0, ", "", "4:11: levels.L1: missing key \"floor\"");
    refuses(
        "\"L1\": {\"name\"",
        "\"L1\": {\"name\": \"\", \"name\"",
        "4:24: levels.L1.name: key \"name\" stands here a second time, the first is on line 4",
    );
    refuses(
        "\"next_id\": 5",
        "\"walls\": {}",
        "15:3: walls: key \"walls\" stands here a second time, the first is on line 6",
    );
    refuses(
        "stud\"}",
        "stud\"},\n    \"W2\": {}",
        "8:5: walls.W2: key \"W2\" stands here a second time, the first is on line 7",
    );
    refuses(
        "stud\"}",
        "stud\"},\n    \"\\u00572\": {}",
        "8:5: walls.W2: key \"W2\" stands here a second time, the first is on line 7",
    );
}

#[test]
fn wrong_values() {
    refuses("110", "110.5", "7:69: walls.W2.thickness: found 110.5, expected a whole number");
    refuses("110", "null", "7:69: walls.W2.thickness: found null, expected a whole number");
    refuses(
        "110",
        "\"110\"",
        "7:69: walls.W2.thickness: found the text \"110\", expected a whole number",
    );
    refuses(
        "110",
        "99999999999999999999",
        "7:69: walls.W2.thickness: found 99999999999999999999, expected a whole number",
    );
    refuses(
        "110",
        "1e999",
        "7:69: walls.W2.thickness: found 1e999, expected a number of a size that can be held",
    );
    refuses(
        "[4000, 0]",
        "[10000001, 0]",
        "7:45: walls.W2.b: found 10000001 mm, expected from -10000000 to 10000000 mm",
    );
    refuses("[4000, 0]", "[4000]", "7:45: walls.W2.b: found a list of 1, expected a list of 2");
    refuses(
        "[4000, 0]",
        "[4000, 0, 0]",
        "7:45: walls.W2.b: found a list of 3, expected a list of 2",
    );
    refuses(
        "[4000, 0]",
        "[4000, \"x\"]",
        "7:52: walls.W2.b[1]: found the text \"x\", expected a whole number",
    );
    refuses(
        "\"number\": 1",
        "\"number\": 65536",
        "10:22: circuits.C3.number: found 65536, expected a whole number from 0 to 65535",
    );
    refuses(
        "\"number\": 1",
        "\"number\": -1",
        "10:22: circuits.C3.number: found -1, expected a whole number from 0 to 65535",
    );
    refuses(
        "{\"name\": \"Ground\", \"floor\": 0, \"height\": 2400}",
        "[\"Ground\", 0, 2400]",
        "4:11: levels.L1: found a list of 3, expected an object",
    );
    refuses(
        "\"name\": \"Ground\"",
        "\"name\": 7",
        "4:20: levels.L1.name: found 7, expected a text",
    );
    refuses(
        "\"use\": \"sockets\"",
        "\"use\": \"sockets\", \"cable\": {\"cores\": 2, \"size\": 0}",
        "10:92: circuits.C3.cable.size: a number outside what this unit can hold",
    );
}

#[test]
fn ids_and_what_they_name() {
    refuses(
        "\"W2\": {\"level\"",
        "\"P2\": {\"level\"",
        "7:5: walls.P2: \"P2\" is not a wall, such as \"W1\"",
    );
    refuses(
        "\"level\": \"L1\"",
        "\"level\": \"W2\"",
        "7:21: walls.W2.level: \"W2\" is not a level, such as \"L1\"",
    );
    refuses(
        "\"level\": \"L1\"",
        "\"level\": 1",
        "7:21: walls.W2.level: found 1, expected a level such as \"L1\"",
    );
    refuses(
        "{\"wall\": \"W2\"",
        "{\"wall\": \"W7\"",
        "13:57: points.P4.place.wall.wall: point P4 is on wall W7, which the file does not have",
    );
    refuses(
        "[\"P4\"]",
        "[\"P4\", \"P9\"]",
        "10:78: circuits.C3.order[1]: circuit C3 visits point P9, which the file does not have",
    );
    refuses(
        "\"next_id\": 5",
        "\"next_id\": 4",
        "15:14: next_id: found 4, expected more than 4, the largest number of an id",
    );
}

#[test]
fn versions() {
    refuses(
        "\"wirewend\": 1",
        "\"wirewend\": 2",
        "2:15: wirewend: file version 2, expected 1; a newer Wirewend wrote this file",
    );
    refuses("\"wirewend\": 1", "\"wirewend\": 0", "2:15: wirewend: file version 0, expected 1");
    refuses(
        "\"wirewend\": 1",
        "\"wirewend\": \"1\"",
        "2:15: wirewend: found the text \"1\", expected 1",
    );
    refuses(
        "\"wirewend\": 1,",
        "",
        "1:1: missing key \"wirewend\", expected \"wirewend\": 1, by which a plan file is known",
    );
    refuses(
        "\"wirewend\": 1",
        "\"wirewnd\": 1",
        "2:3: wirewnd: unknown key \"wirewnd\", expected \"wirewend\"; did you mean \"wirewend\"?",
    );
}

/// These bytes are refused with this message.
fn refuses_bytes(bytes: &[u8], expect: &str) {
    let error = read(bytes, "kitchen.wend").unwrap_err();
    assert_eq!(error.to_string(), format!("kitchen.wend:{expect}"), "the message");
}

#[test]
fn files_that_are_no_json() {
    refuses_bytes(b"", "1:1: the file ends here, expected {");
    refuses_bytes(b"hello", "1:1: found \"hello\", expected {");
    refuses_bytes(b"[]", "1:1: found a list of 0, expected an object");
    refuses_bytes(b"\xEF\xBB\xBF{}", "1:1: a byte order mark, expected UTF-8 text without one");
    refuses_bytes(b"{\n  \"wirewend\xFF\": 1}", "2:12: not UTF-8 text");
    refuses_bytes(b"\xFF\xFE{\0", "1:1: not UTF-8 text");
    refuses_bytes(b"{\"wirewend\": 1,}", "1:16: found \"}\", expected a key in quotes");
    refuses_bytes(b"{\"wirewend\": 1} x", "1:17: found \"x\", expected the end of the file");
    refuses_bytes(
        b"{\"wirewend\": 01}",
        "1:15: wirewend: found \"1\", expected a number without leading zeros",
    );
    refuses_bytes(
        b"{\"wirewend\": 1, \"project\": {\"title\": \"a\nb\"}}",
        "1:40: project.title: found \"\\n\", expected a character or the closing quote",
    );
    refuses_bytes(
        b"{\"wirewend\": 1, \"project\": {\"title\": \"a\\nb\"}}",
        "1:40: project.title: a control character within a text",
    );
    refuses_bytes(
        b"{\"wirewend\": 1, \"project\": {\"title\": tru",
        "1:41: project.title: the file ends here, expected a value",
    );
    refuses_bytes(
        b"{\"wirewend\": 1, \"walls\": {\"a\\u0062[\\\"]\": {}}}",
        "1:27: walls[\"ab[\\\"]\"]: \"ab[\"]\" is not a wall, such as \"W1\"",
    );
}

#[test]
fn a_file_cut_short_anywhere_says_that_it_ends() {
    for end in 0..GOOD.len() - 2 {
        let error = read(&GOOD.as_bytes()[..end], "kitchen.wend").unwrap_err();
        assert!(error.to_string().contains("the file ends here"), "cut at {end}: {error}");
    }
}

#[test]
fn hostile_size_and_nesting_are_refused() {
    let deep = format!("{{\"wirewend\": 1, \"walls\": {}", "[".repeat(1 << 20));
    refuses_bytes(
        deep.as_bytes(),
        &format!("1:57: walls{}: nested deeper than 32", "[0]".repeat(31)),
    );
    let spaces = vec![b' '; FILE_BYTES_MAX + 1];
    refuses_bytes(&spaces, "1:1: larger than 67108864 bytes, the largest plan file");
    let wide = format!("{{\"wirewend\": 1, \"measured\": [{}0]}}", "0,".repeat(5_000_000));
    let error = read(wide.as_bytes(), "wide.wend").unwrap_err().to_string();
    assert!(error.ends_with("more than 4000000 values"), "{error}");
    let long = GOOD.replace("Ground", &"x".repeat(10_001));
    refuses_bytes(
        long.as_bytes(),
        "4:20: levels.L1.name: found 10001 bytes, expected at most 10000",
    );
    let long_key = format!("{{\"wirewend\": 1, \"{}\": 0}}", "k".repeat(1 << 20));
    let error = read(long_key.as_bytes(), "key.wend").unwrap_err().to_string();
    assert!(error.len() < 1000, "a message stays short, not {} bytes", error.len());
}

/// What a fuzzer may call with any bytes: no panic, and an error has a place
/// within the file and a short message.
fn reads_or_says_where(bytes: &[u8]) {
    match read(bytes, "fuzz.wend") {
        Ok(plan) => {
            let text = write(&plan);
            let again = read(text.as_bytes(), "fuzz.wend").unwrap();
            assert_eq!(write(&again), text, "what reads is written back");
        }
        Err(error) => {
            let lines = 1 + bytes.iter().filter(|byte| **byte == b'\n').count();
            assert!((1..=lines).contains(&error.line) && error.column >= 1, "{error}");
            assert!(error.to_string().len() < 2000, "{error}");
            assert!(!error.to_string().chars().any(char::is_control), "{error}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn any_bytes_read_or_say_where(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        reads_or_says_where(&bytes);
    }

    #[test]
    fn any_json_like_text_reads_or_says_where(text in r#"[\[\]{}",:0-9a-z\\ ue.\n-]{0,120}"#) {
        reads_or_says_where(text.as_bytes());
    }

    #[test]
    fn any_mutation_reads_or_says_where(
        cuts in prop::collection::vec((any::<prop::sample::Index>(), 0..12_usize, any::<prop::sample::Index>(), 0..12_usize), 1..4),
    ) {
        let mut bytes = write(&sample::plan()).into_bytes();
        for (to, gone, from, taken) in cuts {
            let (to, from) = (to.index(bytes.len()), from.index(bytes.len()));
            let piece = bytes[from..(from + taken).min(bytes.len())].to_vec();
            let end = (to + gone).min(bytes.len());
            bytes.splice(to..end, piece);
        }
        reads_or_says_where(&bytes);
    }

    #[test]
    fn any_numbers_read_back(load in any::<f64>(), x in -10_000_000..=10_000_000_i64) {
        let mut plan = sample::plan();
        let load = if load.is_finite() && load.abs() <= 1.0e9 { load } else { 0.1 + 0.2 };
        plan.points[0].load = Some(wirewend::units::Watts(load));
        plan.walls[0].a.x = wirewend::units::Mm::new(x);
        let text = write(&plan);
        let again = read(text.as_bytes(), "numbers.wend").unwrap();
        prop_assert_eq!(&again, &plan, "read after write");
        prop_assert_eq!(write(&again), text, "write after read");
    }
}

#[test]
fn a_file_is_replaced_whole_and_the_one_before_is_kept_beside_it() {
    let folder = std::env::temp_dir().join(format!("wirewend-plan-files-{}", std::process::id()));
    std::fs::create_dir_all(&folder).unwrap();
    let path = folder.join("shed.wend");
    for plan in [Plan::default(), sample::plan()] {
        write_file(&plan, &path).unwrap();
        assert_eq!(read_file(&path).unwrap(), plan, "read after write");
    }
    let mut files: Vec<_> =
        std::fs::read_dir(&folder).unwrap().map(|e| e.unwrap().path()).collect();
    files.sort();
    assert_eq!(files.len(), 2, "what the folder holds: {files:?}");
    assert_eq!(files[0], path, "the plan");
    assert!(files[1].to_string_lossy().contains("shed.wend.before-"), "{files:?}");
    assert_eq!(read_file(&files[1]).unwrap(), Plan::default(), "what was there before");
    let missing = read_file(&folder.join("none.wend")).unwrap_err().to_string();
    assert!(missing.contains("none.wend:1:1: cannot be read: "), "{missing}");
    assert!(write_file(&Plan::default(), &folder.join("no/such.wend")).is_err(), "no folder");
    std::fs::remove_dir_all(&folder).unwrap();
}

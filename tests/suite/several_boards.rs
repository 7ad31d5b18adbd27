//! Papers of a plan whose circuits come from several boards, each of which
//! counts its own from 1.

use std::collections::BTreeSet;

use wirewend::checks::expected_tests;
use wirewend::lengths;
use wirewend::plan::{Board, BoardId, CircuitId, Kept, Plan, labels};
use wirewend::rules::RuleBook;
use wirewend::runs::{self, chain::Effort};
use wirewend::sheet::{FloorOptions, House, csv, floor_sheet, reading_list};
use wirewend::space::Space;
use wirewend::store;

use crate::command::{Folder, wirewend};
use crate::fixtures::house;
use crate::fixtures::local;
use crate::on_paper::texts;

/// The flat with its circuits on two boards, side by side.
fn two_boards() -> Plan {
    let mut plan = house("flat");
    // No paper said any of it yet: legs are numbered from 1.
    plan.kept = Kept::default();
    let first = plan.boards.values().next().unwrap().clone();
    let id = BoardId(plan.next_id);
    plan.next_id += 1;
    plan.boards.insert(id, Board { label: "A/2".to_owned(), ..first });
    for circuit in plan.circuits.values_mut().skip(3) {
        circuit.board = Some(id);
        circuit.number -= 3;
    }
    plan
}

#[test]
fn circuits_are_listed_by_board_and_named_with_it() {
    let plan = two_boards();
    let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
    let lengths = lengths::measure(&plan, &runs);
    let level = *plan.levels.keys().next().unwrap();
    let marks = labels(&plan);
    let scene =
        floor_sheet(&House::new(&plan, &runs, &lengths, local(&plan)), &FloorOptions::of(level))
            .unwrap();
    let said: Vec<&str> = texts(&scene.items).iter().map(|text| text.content.as_str()).collect();
    let place = |words: &str| {
        let found = said.iter().position(|one| *one == words);
        found.unwrap_or_else(|| panic!("{words:?} is not on the sheet"))
    };
    for (id, circuit) in &plan.circuits {
        let board = marks.board(circuit.board.unwrap());
        let heading = place(&format!("Circuits of {board}"));
        let others = said[heading + 1..].iter().take_while(|one| !one.starts_with("Circuits of"));
        let listed = others.filter(|one| circuit.name.starts_with(**one)).count();
        assert!(
            listed > 0 || said.iter().any(|one| one.ends_with(", continued")),
            "{id} by {board}"
        );
        let one = FloorOptions { circuit: Some(*id), ..FloorOptions::of(level) };
        let title =
            floor_sheet(&House::new(&plan, &runs, &lengths, local(&plan)), &one).unwrap().title;
        let name = format!("{board} circuit {}, {}", circuit.number, circuit.name);
        assert!(title.ends_with(&name), "{title}: not {name}");
    }
    let plain = labels(&house("flat"));
    let circuit = &house("flat").circuits[0];
    assert_eq!(plain.circuit(circuit), "circuit 1", "one board goes without saying");
}

/// Two circuits of one number: neither takes the other's sheet, nor its readings.
#[test]
fn circuits_of_one_number_are_kept_apart() {
    let plan = two_boards();
    let folder = Folder::new("several-boards");
    let path = folder.path().join("two.wend");
    store::write_file(&plan, &path).unwrap();
    let (path, to) = (path.to_str().unwrap(), folder.path().join("out"));
    let (done, said) =
        wirewend(&["papers", path, "--to", to.to_str().unwrap(), "--only", "circuits,isometric"]);
    assert!(done, "{said}");
    let files = std::fs::read_dir(&to).unwrap().map(|file| file.unwrap().file_name());
    let files: Vec<String> = files.map(|name| name.into_string().unwrap()).collect();
    let count = |head: &str| {
        files.iter().filter(|name| name.starts_with(head) && name.ends_with(".svg")).count()
    };
    assert_eq!(count("floor"), plan.circuits.len(), "a file each: {files:?}");
    assert_eq!(count("isometric"), plan.circuits.len(), "a file each: {files:?}");

    let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
    let lengths = lengths::measure(&plan, &runs);
    let expected = expected_tests(&plan, &runs, &lengths, &RuleBook::shipped());
    let list = csv(&reading_list(&House::new(&plan, &runs, &lengths, local(&plan)), &expected));
    let mut reader = csv::Reader::from_reader(list.as_bytes());
    let headings = reader.headers().unwrap().clone();
    let reading = headings.iter().position(|heading| heading == "reading").unwrap();
    let mut filled = csv::Writer::from_writer(Vec::new());
    filled.write_record(&headings).unwrap();
    for row in reader.records().map(Result::unwrap) {
        let fields = row.iter().enumerate();
        filled.write_record(fields.map(|(at, it)| if at == reading { "1" } else { it })).unwrap();
    }
    let list = filled.into_inner().unwrap();
    let entries = store::read_readings(&list, "readings.csv", &plan).unwrap();
    let mut put = plan.clone();
    put.apply(plan.readings_with(&entries.entries)).unwrap();
    let read: BTreeSet<CircuitId> = put.readings.iter().map(|one| one.circuit).collect();
    assert_eq!(read, expected.circuits.keys().copied().collect(), "each its own");

    let sheet = |circuit: &str| wirewend(&["sheet", path, "--circuit", circuit]);
    let (done, said) = sheet("1");
    let board = labels(&plan).board(plan.circuits[0].board.unwrap()).to_owned();
    assert!(!done && said.contains(&format!("which circuit 1? One of {board}/1, A/2/1")), "{said}");
    assert!(sheet("A/2/1").0, "by its board");
    let measured =
        |leg: &str| wirewend(&["measured", path, "--leg", leg, "--length", "3", "--to", path]);
    let (done, said) = measured("1.1");
    assert!(!done && said.contains("which leg 1.1?"), "{said}");
    assert!(measured("A/2/1.1").0, "by its board");
}

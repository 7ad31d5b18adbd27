//! What was built, entered from lists that were filled in on site.

use std::path::Path;

use wirewend::checks::{ExpectedTests, Verdict, expected_tests, judge_readings};
use wirewend::lengths::{self, Lengths};
use wirewend::plan::{
    Change, Edit, EditError, LegEntry, Plan, PointId, Reads, Stage, Status, Test,
};
use wirewend::rules::RuleBook;
use wirewend::runs::{self, Runs, chain::Effort};
use wirewend::sheet::{House, csv, cut_list, reading_list};
use wirewend::space::Space;
use wirewend::store::{self, read_measured, read_readings};
use wirewend::takeoff::{CutPlan, cuts_left, take_off};
use wirewend::units::Mm;

use crate::command::{Folder, wirewend};
use crate::fixtures::house;

struct Job {
    plan: Plan,
    runs: Runs,
    lengths: Lengths,
    expected: ExpectedTests,
}

fn job(plan: Plan) -> Job {
    let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
    let lengths = lengths::measure(&plan, &runs);
    let expected = expected_tests(&plan, &runs, &lengths, &RuleBook::shipped());
    Job { plan, runs, lengths, expected }
}

impl Job {
    fn house(&self) -> House<'_> {
        House::new(&self.plan, &self.runs, &self.lengths)
    }

    fn cuts(&self) -> Vec<CutPlan> {
        take_off(&self.plan, &self.runs, &self.lengths).cuts
    }
}

/// A list with a column filled in, row by row, by what stands in the others.
fn filled(list: &str, column: &str, fill: impl Fn(&dyn Fn(&str) -> String) -> String) -> String {
    let mut reader = csv::Reader::from_reader(list.as_bytes());
    let headings = reader.headers().unwrap().clone();
    let place = |name: &str| headings.iter().position(|heading| heading == name).unwrap();
    let mut writer = csv::Writer::from_writer(Vec::new());
    writer.write_record(&headings).unwrap();
    for record in reader.records() {
        let record = record.unwrap();
        let value = fill(&|name: &str| record[place(name)].to_owned());
        let fields = record.iter().enumerate();
        let fields = fields.map(|(at, field)| if at == place(column) { &value } else { field });
        writer.write_record(fields).unwrap();
    }
    String::from_utf8(writer.into_inner().unwrap()).unwrap()
}

#[test]
fn a_list_of_cuts_that_was_filled_in_is_read_back() {
    let before = job(house("flat"));
    let list = csv(&cut_list(&before.house(), &before.cuts()));
    let nothing = read_measured(list.as_bytes(), "cuts.csv", &before.plan).unwrap();
    assert!(nothing.is_empty(), "blanks say nothing");
    let list = filled(&list, "measured m", |row| row("cut m"));
    let list = filled(&list, "by", |_| "A. Hand".to_owned());
    let list = filled(&list, "on", |_| "2026-11-25".to_owned());
    let entries = read_measured(list.as_bytes(), "cuts.csv", &before.plan).unwrap();
    let legs: usize = before.runs.circuits.values().map(|run| run.legs.len()).sum();
    assert_eq!(entries.len(), legs, "every leg");
    let mut plan = before.plan.clone();
    let back = plan.apply(plan.measured_with(&entries)).unwrap();
    let after = job(plan.clone());
    for (id, lengths) in &after.lengths.circuits {
        for length in lengths {
            assert_eq!(length.measured, Some(length.cut.value), "{id}: to the millimetre");
        }
    }
    let who =
        after.plan.measured.iter().filter(|one| one.who_and_when() == "by A. Hand on 2026-11-25");
    assert_eq!(who.count(), legs, "who measured it, and when");
    let again = csv(&cut_list(&after.house(), &after.cuts()));
    let again = read_measured(again.as_bytes(), "cuts.csv", &after.plan).unwrap();
    assert_eq!(
        plan.measured_with(&again),
        Edit::Measured(plan.measured.clone()),
        "the list has it"
    );
    let (left, _) = cuts_left(&after.plan, &after.runs, &after.lengths);
    assert!(left.is_empty(), "nothing is left to cut");
    assert_eq!(plan.stage(), Stage::InPart, "measured, and not called built yet");
    assert_eq!(plan.apply(plan.measured_with(&entries)).map(|_| ()), Ok(()), "once more");
    assert_eq!(plan.measured.len(), legs, "in place of the first, not beside it");
    plan.apply(back).unwrap();
    assert_eq!(plan, before.plan, "undone");

    // As a spreadsheet of another language writes it, columns in another order.
    let mut other = String::from("\u{feff}measured m;to;from\r\n;;\r\n");
    let marks = wirewend::plan::labels(&before.plan);
    let leg = &before.runs.circuits[0].legs[0];
    other.push_str(&format!("\"12,4\";{};{}\r\n", marks.end(leg.to), marks.end(leg.from)));
    let one = read_measured(other.as_bytes(), "cuts.csv", &before.plan).unwrap();
    let (circuit, from, to) = (leg.circuit, leg.from, leg.to);
    let (length, by, on) = (Some(Mm::new(12_400)), String::new(), String::new());
    assert_eq!(one, [LegEntry { circuit, from, to, length, by, on }], "12.4 m, nobody says who");
}

#[test]
fn a_list_of_tests_that_was_filled_in_is_read_back_and_judged() {
    let before = job(house("flat"));
    let list = csv(&reading_list(&before.house(), &before.expected));
    let list = filled(&list, "reading", |row| match row("test").as_str() {
        "polarity" => "ok".to_owned(),
        _ => match row("expected").as_str() {
            "" => row("limit").replace("at most ", "").replace("at least ", ""),
            expected => expected.to_owned(),
        },
    });
    let entries = read_readings(list.as_bytes(), "readings.csv", &before.plan).unwrap();
    let wanted: usize = before.expected.circuits.values().map(|one| one.wanted().len()).sum();
    assert!(wanted > 40, "{wanted} tests");
    let mut plan = before.plan.clone();
    let back = plan.apply(plan.readings_with(&entries)).unwrap();
    let (judged, findings) = judge_readings(&plan, &before.expected);
    assert_eq!(judged.len(), plan.readings.len(), "each is judged");
    assert!(findings.is_empty(), "as expected and at its limit: {findings:#?}");
    assert!(judged.iter().all(|one| one.verdict == Verdict::AsExpected), "{judged:#?}");
    assert!(judged.iter().all(|one| !one.working.terms.is_empty()), "each with its working");
    let text = store::write(&plan);
    assert_eq!(store::read(text.as_bytes(), "x").unwrap(), plan, "it is written and read");
    let again = job(plan.clone());
    let list = csv(&reading_list(&again.house(), &again.expected));
    let same = read_readings(list.as_bytes(), "readings.csv", &plan).unwrap();
    assert_eq!(same.len(), plan.readings.len(), "the list has what was read");
    assert_eq!(plan.readings_with(&same), Edit::Readings(plan.readings.clone()), "unchanged");
    plan.apply(back).unwrap();
    assert_eq!(plan, before.plan, "undone");
}

#[test]
fn a_wrong_row_is_named_by_row_and_column() {
    let plan = house("flat");
    let marks = wirewend::plan::labels(&plan);
    let (id, point) = plan.points.first().unwrap();
    let mark = marks.point(*id);
    let number = plan.circuits[&point.circuit.unwrap()].number;
    let measured = |rows: &str| {
        let text = format!("from,to,measured m,by,on\n{rows}\n");
        read_measured(text.as_bytes(), "cuts.csv", &plan).unwrap_err().to_string()
    };
    let board = marks.board(*plan.boards.keys().next().unwrap());
    let good = format!("{board},{mark},3.2,,2028-02-29");
    for (rows, expect) in [
        (format!("{good}\n{board},{mark},x"), "row 3, column \"measured m\": found \"x\""),
        (format!("{good}\nnowhere,{mark},3"), "row 3, column \"from\": found \"nowhere\""),
        (format!("{good}\n{mark},{board},3.3"), "row 3, column \"to\": this leg stands in row 2"),
        (format!("{board},{board},3.3"), "row 2, column \"to\": neither end is a point"),
        (format!("{board},{mark},3,,2026-02-29"), "row 2, column \"on\": found \"2026-02-29\""),
        (format!("{board},{mark},-3"), "row 2, column \"measured m\": found \"-3\""),
    ] {
        let error = measured(&rows);
        assert!(error.starts_with(&format!("cuts.csv: {expect}")), "{error}");
    }
    let readings = |rows: &str| {
        let text = format!("circuit,at,test,reading,by,on\n{rows}\n");
        read_readings(text.as_bytes(), "r.csv", &plan).unwrap_err().to_string()
    };
    for (rows, expect) in [
        (format!("99,{mark},loop,1,,"), "row 2, column \"circuit\": found \"99\""),
        (format!("{number},{mark},lop,1,,"), "row 2, column \"test\": found \"lop\""),
        (
            format!("{number},{mark},loop,1,,25.11.2026"),
            "row 2, column \"on\": found \"25.11.2026\"",
        ),
        (format!("{number},{mark},loop,1 V,,"), "row 2, column \"reading\": found \"1 V\""),
        (format!("{number},{mark},loop,1,,\n{number},{mark},loop,2,,"), "row 3, column \"test\""),
    ] {
        let error = readings(&rows);
        assert!(error.starts_with(&format!("r.csv: {expect}")), "{error}");
    }
    let near = readings(&format!("{number},{mark},lop,1,,"));
    assert!(near.ends_with("did you mean \"loop\"?"), "{near}");
    let error = read_measured(b"a,b\n1,2\n", "x.csv", &plan).unwrap_err().to_string();
    assert_eq!(error, "x.csv: no column \"from\"; it has \"a\", \"b\"", "another list");
    let error = read_measured(b"\xff\xfe\x00", "x.csv", &plan).unwrap_err().to_string();
    assert!(error.contains("save it as CSV UTF-8"), "{error}");
}

/// A day that is none: a measured leg is refused with its place; a reading, of
/// which plans of before may have any text, is read and told.
#[test]
fn a_plan_says_days_that_are_none() {
    let mut plan = crate::sample::plan();
    let text = store::write(&plan);
    let wrong = text.replace("2026-11-25", "2026-11-31");
    assert!(wrong != text, "the sample has days");
    let error = store::read(wrong.as_bytes(), "house.wend").unwrap_err().to_string();
    assert!(error.contains("measured[0].on: found \"2026-11-31\""), "{error}");
    assert!(error.contains("expected a day such as 2026-11-25"), "{error}");
    let before = text.replace(", \"by\": \"invented\", \"on\": \"2026-11-25\"", "");
    let read = store::read(before.as_bytes(), "house.wend").unwrap();
    assert!(read.measured[0].by.is_empty() && read.measured[0].on.is_empty(), "as before");
    plan.readings[0].on = "last week".to_owned();
    let read = store::read(store::write(&plan).as_bytes(), "house.wend").unwrap();
    let told = wirewend::plan::review(&read);
    let told = told.iter().filter(|one| one.code == "odd-measurement");
    let told: Vec<&str> = told.map(|one| one.message.as_str()).collect();
    assert!(told.iter().any(|one| one.contains("\"last week\", which is no day")), "{told:?}");
}

#[test]
fn a_point_that_was_read_cannot_go_unnoticed() {
    let mut plan = crate::sample::plan();
    let point = PointId(33);
    plan.measured.clear();
    plan.controls.clear();
    let refused = plan.apply(Change::Remove(point).into()).unwrap_err();
    assert!(matches!(refused, EditError::StillNamed(_)), "{refused}");
    assert_eq!(refused.to_string(), "point P33 cannot go: the plan has a reading at it", "says");
    plan.project.status = Status::AsBuilt;
    assert_eq!(plan.stage().name(), "as built", "as its project says");
}

#[test]
fn the_command_line_enters_lengths_and_readings() {
    let folder = Folder::new("as-built");
    let path = |name: &str| folder.path().join(name).to_string_lossy().into_owned();
    let flat = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/flat.wend");
    let flat = flat.to_string_lossy();
    let to = path("built.wend");
    let first = ["measured", &flat, "--leg", "1.1", "--length", "12.4m", "--to", &to];
    let (done, said) = wirewend(&first);
    assert!(done && said.contains("1 entered, as built in part"), "{said}");
    assert!(said.contains("12.400") && said.contains("1 of "), "planned beside measured: {said}");
    let second = ["reading", &to, "--circuit", "1", "--insulation", ">200", "--trip", "24", "--by"];
    let (done, said) = wirewend(&[&second[..], &["invented", "--as-built", "--to", &to]].concat());
    assert!(done && said.contains("2 entered, as built\n"), "{said}");
    let plan = store::read_file(Path::new(&to)).unwrap();
    assert_eq!(plan.measured[0].length, Mm::new(12_400), "in the file");
    let tests: Vec<Test> = plan.readings.iter().map(|one| one.reads.test()).collect();
    assert_eq!(tests, [Test::Insulation, Test::Trip], "in the file");
    assert!(matches!(plan.readings[0].reads, Reads::Insulation(_)), "typed");
    assert_eq!(plan.readings[1].by, "invented", "who");

    // A list with one wrong row changes nothing.
    let (_, list) = wirewend(&["reading", &to, "--blank"]);
    let list = filled(&list, "reading", |row| match row("test").as_str() {
        "trip" => "x".to_owned(),
        _ => "1".to_owned(),
    });
    std::fs::write(path("readings.csv"), list).unwrap();
    let before = std::fs::read(&to).unwrap();
    let list = path("readings.csv");
    let (done, said) = wirewend(&["reading", &to, "--list", &list, "--to", &to]);
    assert!(!done && said.contains("column \"reading\": found \"x\""), "{said}");
    assert_eq!(std::fs::read(&to).unwrap(), before, "nothing half applied");
    let (done, said) = wirewend(&["measured", &to, "--leg", "1.1"]);
    assert!(!done && said.contains("--length"), "a leg without a length: {said}");
    let (done, said) = wirewend(&["measured", &to, "--leg", "99.1", "--length", "3", "--to", &to]);
    assert!(!done && said.contains("no leg \"99.1\""), "{said}");
    let by = |on: &str| {
        let leg = ["measured", &to, "--leg", "1.1", "--length", "3", "--by", "A. Hand", "--on", on];
        wirewend(&[&leg[..], &["--to", &to]].concat())
    };
    let (done, said) = by("25.11.2026");
    assert!(!done && said.contains("--on: found \"25.11.2026\", expected a day"), "{said}");
    let (done, said) = by("2026-11-25");
    assert!(done && said.contains("by A. Hand on 2026-11-25"), "{said}");
    let read = ["reading", &to, "--circuit", "1", "--trip", "24", "--on", "yesterday", "--to", &to];
    let (done, said) = wirewend(&read);
    assert!(!done && said.contains("--on: found \"yesterday\""), "{said}");
    let none = ["measured", &to, "--leg", "1.1", "--length", "none", "--to", &to];
    assert!(wirewend(&none).0, "taken away again");
    assert!(store::read_file(Path::new(&to)).unwrap().measured.is_empty(), "gone");
}

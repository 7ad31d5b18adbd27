//! What was built, entered from lists that were filled in on site.

use std::path::Path;

use wirewend::checks::{ExpectedTests, Verdict, check, expected_tests, judge_readings};
use wirewend::lengths::{self, Lengths, planned_legs};
use wirewend::plan::{
    AsPlanned, Change, Edit, EditError, LegEntry, Plan, PointId, ReadingEntry, Reads, Stage,
    Status, Test, labels,
};
use wirewend::rules::RuleBook;
use wirewend::runs::{self, Runs, built, chain::Effort};
use wirewend::sheet::{House, csv, cut_list, reading_list};
use wirewend::sheet::{Lettering, Weight, text_width};
use wirewend::space::Space;
use wirewend::store::{self, Filled, ListError};
use wirewend::takeoff::{CutPlan, cuts_left, take_off};
use wirewend::units::Mm;

use crate::command::{Folder, wirewend};
use crate::fixtures::house;
use crate::fixtures::{local, shipped_rules};

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
        House::new(&self.plan, &self.runs, &self.lengths, local(&self.plan))
    }

    fn read_measured(&self, list: &[u8]) -> Result<Filled<LegEntry>, ListError> {
        let planned = planned_legs(&self.plan, &self.runs, &self.lengths);
        store::read_measured(list, "cuts.csv", &self.plan, &planned)
    }

    fn cuts(&self) -> Vec<CutPlan> {
        take_off(&self.plan, &self.runs, &self.lengths, shipped_rules()).cuts
    }
}

fn read_readings(list: &[u8], plan: &Plan) -> Result<Filled<ReadingEntry>, ListError> {
    store::read_readings(list, "readings.csv", plan)
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
    let nothing = before.read_measured(list.as_bytes()).unwrap();
    assert!(nothing.entries.is_empty() && nothing.notes.is_empty(), "blanks say nothing");
    let list = filled(&list, "measured m", |row| row("cut m"));
    let list = filled(&list, "by", |_| "A. Hand".to_owned());
    let list = filled(&list, "on", |_| "2026-11-25".to_owned());
    let Filled { entries, notes } = before.read_measured(list.as_bytes()).unwrap();
    assert!(notes.is_empty(), "of the plan's own revision: {notes:?}");
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
    let again = after.read_measured(again.as_bytes()).unwrap().entries;
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

    // As a spreadsheet of another language writes it, columns in another order,
    // the leg the other way round.
    let mut other = String::from("\u{feff}measured m;to;from;cut m;leg\r\n;;;;\r\n");
    let marks = labels(&before.plan);
    let (id, legs) = before.runs.circuits.first().map(|(id, run)| (id, &run.legs)).unwrap();
    let (leg, cut) = (&legs[0], before.lengths.circuits[id][0].cut.value);
    let cut = format!("{:.3}", cut.metres()).replace('.', ",");
    let number = marks.leg(&before.plan.circuits[id], leg.number).replace('.', ",");
    let (from, to) = (marks.end(leg.from), marks.end(leg.to));
    other.push_str(&format!("\"12,4\";{from};{to};{cut};{number}\r\n"));
    let one = before.read_measured(other.as_bytes()).unwrap();
    let (circuit, from, to) = (leg.circuit, leg.to, leg.from);
    let (length, by, on) = (Some(Mm::new(12_400)), String::new(), String::new());
    let expect = [LegEntry { circuit, from, to, length, by, on }];
    assert_eq!(one.entries, expect, "12.4 m, nobody says who");
    assert!(one.notes[0].contains("does not say its revision"), "{:?}", one.notes);
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
    let entries = read_readings(list.as_bytes(), &before.plan).unwrap().entries;
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
    let same = read_readings(list.as_bytes(), &plan).unwrap().entries;
    assert_eq!(same.len(), plan.readings.len(), "the list has what was read");
    assert_eq!(plan.readings_with(&same), Edit::Readings(plan.readings.clone()), "unchanged");
    plan.apply(back).unwrap();
    assert_eq!(plan, before.plan, "undone");
}

#[test]
fn a_wrong_row_is_named_by_row_and_column() {
    let job = job(house("flat"));
    let plan = &job.plan;
    let marks = labels(plan);
    let (id, run) = job.runs.circuits.first().unwrap();
    let (leg, cut) = (&run.legs[0], job.lengths.circuits[id][0].cut.value.metres());
    let (board, mark) = (marks.end(leg.from), marks.end(leg.to));
    let name = marks.leg(&plan.circuits[id], leg.number);
    let number = plan.circuits[id].number;
    let measured = |rows: &str| {
        let text = format!("leg,from,to,cut m,measured m,by,on\n{rows}\n");
        job.read_measured(text.as_bytes()).unwrap_err().to_string()
    };
    let row = |rest: &str| format!("{name},{board},{mark},{cut:.3},{rest}");
    let good = row("3.2,,2028-02-29");
    for (rows, expect) in [
        (format!("{good}\n{}", row("x")), "row 3, column \"measured m\": found \"x\""),
        (
            format!("{good}\n{name},nowhere,{mark},{cut},3"),
            "row 3, column \"from\": found \"nowhere\"",
        ),
        (
            format!("{good}\n{name},{mark},{board},{cut},3.3"),
            "row 3, column \"to\": this leg stands in row 2",
        ),
        (
            format!("{name},{board},{board},{cut},3.3"),
            "row 2, column \"leg\": the list has leg \"1.1\", DB/DB; the plan joins no such ends",
        ),
        (row("3,,2026-02-29"), "row 2, column \"on\": found \"2026-02-29\""),
        (row("-3"), "row 2, column \"measured m\": found \"-3\""),
        (format!("1.9,{board},{mark},{cut},3"), "row 2, column \"leg\": the list calls"),
        (
            format!("{name},{board},{mark},0.5,3"),
            "row 2, column \"cut m\": the list plans leg 1.1 with 0.500 m, the plan with",
        ),
    ] {
        let error = measured(&rows);
        assert!(error.starts_with(&format!("cuts.csv: {expect}")), "{error}");
    }
    let two = measured(&format!("{}\n{}\n{good}", row("x"), row("y")));
    assert!(
        two.starts_with("cuts.csv: 2 rows are refused, so nothing was entered\n  row 2, "),
        "{two}"
    );
    assert!(two.contains("\n  row 3, column \"measured m\": found \"y\""), "each of them: {two}");
    let readings = |rows: &str| {
        let text = format!("circuit,at,test,reading,by,on\n{rows}\n");
        read_readings(text.as_bytes(), plan).unwrap_err().to_string()
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
        assert!(error.starts_with(&format!("readings.csv: {expect}")), "{error}");
    }
    let near = readings(&format!("{number},{mark},lop,1,,"));
    assert!(near.ends_with("did you mean \"loop\"?"), "{near}");
    let other = |list: &[u8]| job.read_measured(list).unwrap_err().to_string();
    let expect = "cuts.csv: no column \"leg\"; it has \"a\", \"b\"";
    assert_eq!(other(b"a,b\n1,2\n"), expect, "another list");
    assert!(other(b"\xff\xfe\x00").contains("save it as CSV UTF-8"), "not a text");
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
    assert_eq!(plan.stage(), Stage::InPart, "called so alone, it is not");
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
    assert!(done && said.contains("2 entered, as built in part: 1 of "), "{said}");
    assert!(said.contains("Never measured, ") && said.contains("1.2 "), "which: {said}");
    assert!(said.contains("built-in-part"), "and a finding: {said}");
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

/// The legs of a plan, counted without the code under test.
fn legs(job: &Job) -> usize {
    job.runs.circuits.values().map(|run| run.legs.len()).sum()
}

#[test]
fn as_built_is_only_what_was_measured_or_stated() {
    let before = job(house("cottage"));
    let all = legs(&before);
    assert_eq!(built(&before.plan, &before.runs).words(), "planned");
    let mut plan = before.plan.clone();
    plan.project.status = Status::AsBuilt;
    let told = built(&plan, &before.runs);
    assert_eq!(told.words(), format!("as built in part: 0 of {all} legs measured"));
    assert_eq!(told.missing.len(), all, "every leg is told");
    let wired = plan.points.values().filter(|point| point.circuit.is_some()).count();
    assert_eq!(told.points.len(), wired, "and every point");
    let found = |plan: &Plan| {
        let job = job(plan.clone());
        let checked = check(&job.plan, &job.runs, &job.lengths, &RuleBook::shipped());
        checked.findings.iter().filter(|one| one.code == "built-in-part").count()
    };
    assert_eq!((found(&before.plan), found(&plan)), (0, 1), "only where it is claimed");
    // Leg by leg, in their order.
    let entries = before.runs.circuits.values().flat_map(|run| &run.legs);
    let entries: Vec<LegEntry> = entries
        .map(|leg| LegEntry {
            circuit: leg.circuit,
            // A leg has no direction.
            from: leg.to,
            to: leg.from,
            length: Some(Mm::new(5_000)),
            by: String::new(),
            on: String::new(),
        })
        .collect();
    for count in [1, all.div_euclid(2), all - 1, all] {
        let mut plan = plan.clone();
        plan.apply(plan.measured_with(&entries[..count])).unwrap();
        let told = built(&plan, &before.runs);
        let stage = if count == all { "as built" } else { "as built in part" };
        assert_eq!(told.words(), format!("{stage}: {count} of {all} legs measured"));
        assert_eq!(told.missing.len(), all - count);
        assert!(told.points.len() < wired, "an end of a measured leg was seen");
    }
    let mut whole = plan.clone();
    whole.apply(whole.measured_with(&entries)).unwrap();
    assert_eq!(found(&whole), 0, "all measured");
    assert!(built(&whole, &before.runs).points.is_empty(), "every point is an end of a leg");
    // On a person's word, with name and day; not without.
    for (by, on, stage) in [
        ("A. Hand", "2026-11-25", Stage::AsPlanned),
        ("", "2026-11-25", Stage::InPart),
        ("A. Hand", "", Stage::InPart),
    ] {
        let mut plan = plan.clone();
        let said = AsPlanned { by: by.to_owned(), on: on.to_owned() };
        plan.project.built_as_planned = Some(said);
        assert_eq!(built(&plan, &before.runs).stage, stage, "{by} {on}");
        let text = store::write(&plan);
        assert_eq!(store::read(text.as_bytes(), "x").unwrap(), plan, "it is written and read");
    }
    let mut odd = plan.clone();
    let said = AsPlanned { by: "A. Hand".to_owned(), on: "yesterday".to_owned() };
    odd.project.built_as_planned = Some(said);
    let refused = store::read(store::write(&odd).as_bytes(), "x").unwrap_err().to_string();
    assert!(refused.contains("built_as_planned") && refused.contains("a day"), "{refused}");
}

#[test]
fn drawings_say_how_much_of_them_was_built() {
    let words = |sheet: &[u8]| String::from_utf8_lossy(sheet).into_owned();
    let folder = Folder::new("as-built-papers");
    let path = |name: &str| folder.path().join(name).to_string_lossy().into_owned();
    let mut plan = house("cottage");
    plan.project.status = Status::AsBuilt;
    store::write_file(&plan, Path::new(&path("house.wend"))).unwrap();
    let all = legs(&job(plan.clone()));
    let papers = ["papers", &path("house.wend"), "--to", &path("papers")];
    let only = ["--only", "floors,strips,cards,board,page"];
    let sheets = ["floor-L1.svg", "strips-1.svg", "cards-1.svg", "board-1.svg"];
    let (done, said) = wirewend(&[&papers[..], &only].concat());
    assert!(done, "{said}");
    for name in sheets {
        let text = words(&std::fs::read(folder.path().join("papers").join(name)).unwrap());
        assert!(text.contains(">as built in part<"), "{name}: the title block");
        assert!(text.contains(&format!("0 of {all} legs measured")), "{name}: how many");
    }
    let text = words(&std::fs::read(folder.path().join("papers/cards-1.svg")).unwrap());
    assert!(text.contains(&format!("as built in part: 0 of {all} legs measured")), "the heading");
    let page = words(&std::fs::read(folder.path().join("papers/quote.html")).unwrap());
    assert!(page.contains(&format!("as built in part: 0 of {all} legs measured.")), "the page");
    // Stated, and by whom.
    let state = ["measured", &path("house.wend"), "--to", &path("house.wend")];
    let by = ["--built-as-planned", "A. Hand"];
    let (done, said) = wirewend(&[&state[..], &by].concat());
    assert!(!done && said.contains("--on"), "without a day: {said}");
    let (done, said) = wirewend(&[&state[..], &by, &["--on", "2026-11-25"]].concat());
    assert!(done && said.contains("built as planned: 2026-11-25, A. Hand"), "{said}");
    assert!(!said.contains("Never measured"), "{said}");
    assert!(wirewend(&[&papers[..], &only].concat()).0, "papers once more, over its own");
    for name in sheets {
        let text = words(&std::fs::read(folder.path().join("papers").join(name)).unwrap());
        assert!(text.contains(">built as planned<"), "{name}");
        assert!(text.contains("2026-11-25, A. Hand"), "{name}: who and when");
    }
    // However long the name, it stays in its cell of the title block.
    let by = ["--built-as-planned", "A. Hand and the whole of the gang that was there"];
    assert!(wirewend(&[&state[..], &by, &["--on", "2026-11-25"]].concat()).0);
    assert!(wirewend(&[&papers[..], &only].concat()).0);
    for name in sheets {
        let text = words(&std::fs::read(folder.path().join("papers").join(name)).unwrap());
        let lines = text.lines().filter(|line| line.contains("2026-11-25, A. Hand"));
        let shown: Vec<&str> =
            lines.filter_map(|line| line.split('>').nth(1)?.split('<').next()).collect();
        assert!(!shown.is_empty(), "{name}");
        for one in shown {
            let wide = text_width(one, Lettering::Tag, Weight::Regular);
            // At the head of a page there is more room than in a title block.
            let most = if one.starts_with("built") { 66.0 } else { 27.6 };
            assert!(wide <= most, "{name}: {one} is {wide} mm wide");
        }
    }
}

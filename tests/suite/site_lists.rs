//! Lists that come back from the site, held against the plan row by row: of an
//! older plan, of a newer one, out of order, and as spreadsheets leave them.

use wirewend::lengths::{self, Lengths, planned_legs};
use wirewend::plan::*;
use wirewend::runs::{self, Runs, chain::Effort};
use wirewend::sheet::{House, csv, cut_list, reading_list};
use wirewend::space::Space;
use wirewend::store::{self, Filled, ListError};
use wirewend::takeoff::take_off;
use wirewend::{checks::expected_tests, rules::RuleBook};

use crate::command::{Folder, wirewend};
use crate::fixtures::house;
use crate::fixtures::{local, shipped_rules};

struct Job {
    plan: Plan,
    runs: Runs,
    lengths: Lengths,
}

fn job(plan: Plan) -> Job {
    let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
    let lengths = lengths::measure(&plan, &runs);
    Job { plan, runs, lengths }
}

impl Job {
    fn cuts(&self) -> Rows {
        let cuts = take_off(&self.plan, &self.runs, &self.lengths, shipped_rules()).cuts;
        let house = House::new(&self.plan, &self.runs, &self.lengths, local(&self.plan));
        Rows::of(&csv(&cut_list(&house, &cuts)))
    }

    fn readings(&self) -> Rows {
        let tests = expected_tests(&self.plan, &self.runs, &self.lengths, &RuleBook::shipped());
        let house = House::new(&self.plan, &self.runs, &self.lengths, local(&self.plan));
        Rows::of(&csv(&reading_list(&house, &tests)))
    }

    fn read(&self, list: &Rows) -> Result<Filled<LegEntry>, ListError> {
        let planned = planned_legs(&self.plan, &self.runs, &self.lengths);
        store::read_measured(list.text().as_bytes(), "cuts.csv", &self.plan, &planned)
    }
}

/// A list as a spreadsheet holds it.
#[derive(Clone)]
struct Rows {
    headings: Vec<String>,
    rows: Vec<Vec<String>>,
}

impl Rows {
    fn of(text: &str) -> Self {
        let mut reader = csv::Reader::from_reader(text.as_bytes());
        let texts = |record: &csv::StringRecord| record.iter().map(str::to_owned).collect();
        let headings = texts(reader.headers().unwrap());
        Self { headings, rows: reader.records().map(|one| texts(&one.unwrap())).collect() }
    }

    fn place(&self, column: &str) -> usize {
        self.headings.iter().position(|heading| heading == column).unwrap()
    }

    fn get(&self, row: usize, column: &str) -> &str {
        &self.rows[row][self.place(column)]
    }

    fn each(mut self, column: &str, change: impl Fn(&str) -> String) -> Self {
        let place = self.place(column);
        self.rows.iter_mut().for_each(|row| row[place] = change(&row[place]));
        self
    }

    /// Every leg measured as planned.
    fn filled(mut self) -> Self {
        let (from, to) = (self.place("cut m"), self.place("measured m"));
        self.rows.iter_mut().for_each(|row| row[to] = row[from].clone());
        self
    }

    fn text(&self) -> String {
        let mut writer = csv::Writer::from_writer(Vec::new());
        writer.write_record(&self.headings).unwrap();
        self.rows.iter().for_each(|row| writer.write_record(row).unwrap());
        String::from_utf8(writer.into_inner().unwrap()).unwrap()
    }
}

/// The cottage of revision A, and of revision B with a socket less: one that
/// had two legs, so that its neighbours are joined anew.
fn revisions() -> (Job, Job) {
    let mut old = house("cottage");
    old.project.revision = "A".to_owned();
    let runs = runs::route(&old, &Space::of(&old), &Effort::default());
    if let Some(edit) = runs::issue(&old, &runs) {
        old.apply(edit).unwrap();
    }
    let old = job(old);
    let legs = || old.runs.circuits.values().flat_map(|run| &run.legs);
    let count = |end: End| legs().filter(|leg| leg.from == end || leg.to == end).count();
    let sockets = old.plan.points.iter().filter(|(_, it)| it.kind == PointKind::Socket);
    let gone = *sockets.map(|(id, _)| id).find(|id| count(End::Point(**id)) == 2).unwrap();
    let mut new = old.plan.clone();
    new.circuits.values_mut().for_each(|it| it.order.retain(|id| *id != gone));
    new.apply(Change::<PointId, Point>::Remove(gone).into()).unwrap();
    new.project.revision = "B".to_owned();
    (old, job(new))
}

/// Every pair of marks that a list joins.
fn pairs(list: &Rows) -> Vec<(String, String, String)> {
    let row = |row: usize| {
        let (leg, from, to) = (list.get(row, "leg"), list.get(row, "from"), list.get(row, "to"));
        (leg.to_owned(), from.to_owned(), to.to_owned())
    };
    (0..list.rows.len()).map(row).collect()
}

#[test]
fn a_list_of_before_lands_on_no_other_leg() {
    let (old, new) = revisions();
    let list = old.cuts().filled();
    let error = new.read(&list).unwrap_err();
    let now = pairs(&new.cuts());
    let gone: Vec<usize> = pairs(&list)
        .iter()
        .enumerate()
        .filter(|(_, it)| !now.contains(it))
        .map(|it| it.0)
        .collect();
    assert!(gone.len() >= 2, "legs of what is gone");
    let place = |row: &store::RowError| usize::try_from(row.row).unwrap() - 2;
    let refused: Vec<usize> = error.rows.iter().map(place).collect();
    for row in &gone {
        assert!(refused.contains(row), "row {row} of {refused:?}: its leg is no more");
    }
    for row in refused {
        // Else it is joined as before and was planned otherwise.
        let planned = new.cuts();
        let same = now.iter().position(|it| *it == pairs(&list)[row]);
        let differs = same.is_none_or(|at| planned.get(at, "cut m") != list.get(row, "cut m"));
        assert!(differs, "row {row} agrees: {error}");
    }
    assert!(error.to_string().contains("so nothing was entered"), "{error}");
    // The rows that agree are taken, and the other revision is said.
    let mut part = list.clone();
    let bad: Vec<u64> = error.rows.iter().map(|row| row.row).collect();
    let mut number = 1;
    part.rows.retain(|_| {
        number += 1;
        !bad.contains(&number)
    });
    let Filled { entries, notes } = new.read(&part).unwrap();
    assert_eq!(entries.len(), part.rows.len(), "each of them");
    assert_eq!(
        notes,
        [
            "the list is of revision A, the plan of revision B; every filled row agrees with the plan"
        ]
    );
    for entry in entries {
        let has = |leg: &runs::Leg| {
            [leg.from, leg.to] == [entry.from, entry.to] && leg.circuit == entry.circuit
        };
        assert!(new.runs.circuits[&entry.circuit].legs.iter().any(has), "{entry:?} is a leg");
    }
}

#[test]
fn a_list_of_later_is_refused_by_the_plan_of_before() {
    let (old, new) = revisions();
    let list = new.cuts().filled();
    let error = old.read(&list).unwrap_err();
    let before = pairs(&old.cuts());
    let row = pairs(&list).iter().position(|it| !before.contains(it)).unwrap();
    let told = error.rows.iter().find(|one| usize::try_from(one.row) == Ok(row + 2)).unwrap();
    assert_eq!(told.column, "leg", "{told}");
    assert!(told.problem.contains("the plan joins no such ends"), "{told}");
    let only_others = Rows { rows: vec![list.rows[0].clone()], ..list };
    let Filled { notes, .. } = old.read(&only_others).unwrap();
    assert!(notes[0].contains("no issue of revision B is on record"), "{notes:?}");
}

/// The same legs under other numbers: no row is taken for one of them.
#[test]
fn a_list_of_before_numbering_anew_is_refused_by_its_numbers() {
    let (_, gap) = revisions();
    let list = gap.cuts().filled();
    let mut plan = gap.plan.clone();
    plan.apply(plan.renumber(Renumber { legs: true, marks: false, circuits: false })).unwrap();
    let anew = job(plan);
    let error = anew.read(&list).unwrap_err();
    let now = pairs(&anew.cuts());
    let called = pairs(&list).iter().filter(|it| !now.contains(it)).count();
    assert!(called >= 2, "{called} legs are called otherwise");
    assert_eq!(error.rows.len(), called, "each of them, and no other: {error}");
    let told =
        |row: &store::RowError| row.column == "leg" && row.problem.contains("the list calls");
    assert!(error.rows.iter().all(told), "{error}");
}

#[test]
fn rows_may_come_in_any_order() {
    let job = job(house("flat"));
    let list = job.cuts().filled();
    let mut shuffled = list.clone();
    shuffled.rows.reverse();
    shuffled.rows.rotate_left(17);
    let sorted = |list: &Rows| {
        let mut entries = job.read(list).unwrap().entries;
        entries.sort_by_key(|one| (one.circuit, one.from, one.to));
        entries
    };
    assert_eq!(sorted(&list), sorted(&shuffled));
}

/// 6.10 becomes 6.1, which is another leg of the plan: its ends tell.
#[test]
fn what_a_spreadsheet_did_to_numbers_is_seen_through_or_refused() {
    let job = job(house("cottage"));
    let list = job.cuts().filled();
    let lost = |text: &str| text.trim_end_matches('0').trim_end_matches('.').to_owned();
    assert!(list.rows.iter().any(|row| row[0].ends_with("0")), "a leg 10");
    let whole = job.read(&list).unwrap().entries;
    let commas = |text: &str| text.replace('.', ",");
    let columns = ["leg", "cut m", "measured m"];
    let by = |change: &dyn Fn(&str) -> String| {
        let list = columns.iter().fold(list.clone(), |list, column| list.each(column, change));
        job.read(&list)
    };
    assert_eq!(by(&lost).unwrap().entries, whole, "noughts lost");
    assert_eq!(by(&commas).unwrap().entries, whole, "commas for points");
    assert_eq!(by(&|text| commas(&lost(text))).unwrap().entries, whole, "both");
    let dates = |text: &str| match text.split_once('.') {
        Some((day, month)) if month.parse().is_ok_and(|month: u8| month <= 12) => {
            format!("2026-{month:0>2}-{day:0>2}")
        }
        _ => text.to_owned(),
    };
    assert_eq!(job.read(&list.clone().each("leg", dates)).unwrap().entries, whole, "days");
    // A length that became a day or thousands is refused, never guessed.
    for (column, change) in [("measured m", "12. Apr"), ("cut m", "2026-04-12"), ("cut m", "12400")]
    {
        let mut one = list.clone();
        let place = one.place(column);
        one.rows[3][place] = change.to_owned();
        let error = job.read(&one).unwrap_err();
        assert_eq!((error.rows.len(), error.rows[0].row), (1, 5), "{error}");
        assert_eq!(error.rows[0].column, column, "{error}");
    }
    // Two rows that changed places but for their lengths.
    let mut mixed = list.clone();
    let place = mixed.place("cut m");
    let other = (1..mixed.rows.len()).find(|at| mixed.rows[*at][place] != mixed.rows[0][place]);
    let (first, second) = (mixed.rows[0][place].clone(), mixed.rows[other.unwrap()][place].clone());
    mixed.rows[0][place] = second;
    mixed.rows[other.unwrap()][place] = first;
    let error = job.read(&mixed).unwrap_err();
    assert_eq!(error.rows.len(), 2, "both are told: {error}");
    assert!(error.rows.iter().all(|row| row.column == "cut m"), "{error}");
}

#[test]
fn readings_are_held_against_circuit_board_name_and_place() {
    let job = job(house("flat"));
    let fill = |list: Rows| {
        let (test, at) = (list.place("test"), list.place("reading"));
        let mut list = list;
        list.rows.iter_mut().for_each(|row| {
            row[at] = if row[test] == "polarity" { "ok" } else { "1" }.to_owned();
        });
        list
    };
    let list = fill(job.readings());
    let read = |list: &Rows| store::read_readings(list.text().as_bytes(), "r.csv", &job.plan);
    assert!(read(&list).unwrap().notes.is_empty(), "of its own plan");
    let wrong = |column: &str, text: &str| {
        let mut list = list.clone();
        let place = list.place(column);
        list.rows[2][place] = text.to_owned();
        let error = read(&list).unwrap_err();
        assert_eq!((error.rows.len(), error.rows[0].row), (1, 4), "{error}");
        error.to_string()
    };
    assert!(wrong("board", "DB7").contains("comes from DB7 in the plan"));
    assert!(wrong("name", "Sauna").contains("the list calls circuit"));
    let marks = labels(&job.plan);
    let number: u16 = list.get(2, "circuit").parse().unwrap();
    let on_other =
        job.plan.points.iter().find(|(_, point)| {
            point.circuit.is_some_and(|id| job.plan.circuits[&id].number != number)
        });
    let error = wrong("at", marks.point(*on_other.unwrap().0));
    assert!(error.contains("in the plan it is on circuit"), "{error}");
    let other = list.clone().each("revision", |_| "Z".to_owned());
    assert!(read(&other).unwrap().notes[0].contains("the list is of revision Z"));
}

#[test]
fn the_command_refuses_an_old_list_whole_and_says_every_row() {
    let (old, new) = revisions();
    let folder = Folder::new("site-lists");
    let path = |name: &str| folder.path().join(name).to_string_lossy().into_owned();
    let (plan, list) = (path("new.wend"), path("cuts.csv"));
    store::write_file(&new.plan, plan.as_ref()).unwrap();
    std::fs::write(&list, old.cuts().filled().text()).unwrap();
    let before = std::fs::read(&plan).unwrap();
    let (done, said) = wirewend(&["measured", &plan, "--list", &list, "--to", &plan]);
    assert!(!done && said.contains("nothing was entered"), "{said}");
    assert!(said.matches("\n  row ").count() >= 2, "row by row: {said}");
    assert!(said.contains("is no longer in the plan"), "what is gone is said: {said}");
    assert_eq!(std::fs::read(&plan).unwrap(), before, "the plan is as it was");
    let mut some = new.cuts().filled().each("revision", |_| "A".to_owned());
    some.rows.truncate(3);
    std::fs::write(&list, some.text()).unwrap();
    let (done, said) = wirewend(&["measured", &plan, "--list", &list, "--to", &plan]);
    assert!(done && said.contains("note: the list is of revision A"), "{said}");
    assert!(said.contains("3 entered"), "{said}");
}

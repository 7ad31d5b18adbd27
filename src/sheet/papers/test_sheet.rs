//! The test sheet: a schedule with a row for every circuit, what a meter should
//! read, its limit, and room for what it does read.

use kurbo::Affine;

use crate::checks::{Bound, CircuitTests, ExpectedTests, JudgedReading, Verdict, judge_readings};
use crate::plan::{Circuit, CircuitId, End, Test, Wiring};
use crate::sheet::Scene;
use crate::sheet::floor::cautions;
use crate::sheet::gallery::{Figure, Gallery};
use crate::sheet::house::House;
use crate::sheet::lettering::{Lettering, Weight, wrap};
use crate::sheet::panel::Row;
use crate::sheet::table::{Cell, Column, Table};

use super::board_chart::device;
use crate::wording::{decimals, short};

/// A row for every circuit with the readings to expect, their limits, those
/// taken with how they came out, and room for the others.
#[must_use]
pub fn test_sheets(house: &House<'_>, expected: &ExpectedTests) -> Vec<Scene> {
    let (judged, _) = judge_readings(house.plan, expected);
    let is_tested = |test: &Test| {
        expected.circuits.values().any(|tests| tests.wanted().iter().any(|one| one.1 == *test))
    };
    let columns: Vec<Tested> = TESTED.into_iter().filter(|it| is_tested(&it.tests[0])).collect();
    let tests: f64 = columns.iter().map(|one| one.width).sum();
    let spare = (Gallery::room().width() - OTHERS - tests).max(CIRCUIT);
    let schedule =
        Schedule { house, judged: &judged, columns: &columns, circuit: spare.min(CIRCUIT_MAX) };
    let table = schedule.table();
    let wide = table.width();
    let circuits = house.plan.circuits.iter();
    let rows: Vec<Row> = circuits
        .map(|(id, circuit)| schedule.row(&table, *id, circuit, expected.circuits.get(id)))
        .collect();
    let mut figures = pages(&table, &rows);
    let (table, odd) = schedule.to_look_at();
    figures.extend(pages(&table, &odd));
    let table = signatures(wide);
    figures.extend(pages(&table, &[table.row(&[Cell::Sign, Cell::Sign, Cell::Sign, Cell::Sign])]));
    let shows = "Test sheet".to_owned();
    let notes = notes(house, expected);
    Gallery { house, shows, kind: "test sheet", scale: None, notes }.sheets(&figures)
}

/// Rows under their headings, as many figures as it takes sheets.
fn pages(table: &Table, rows: &[Row]) -> Vec<Figure> {
    let heading = table.heading();
    let room = Gallery::room().height();
    let mut figures: Vec<Figure> = Vec::new();
    let mut left = 0.0;
    for row in rows {
        if figures.is_empty() || row.height > left {
            figures.push(Figure { items: heading.items.clone() });
            left = room - heading.height;
        }
        let onto = Affine::translate((0.0, room - left));
        if let Some(figure) = figures.last_mut() {
            figure.items.extend(row.items.iter().map(|item| item.placed(onto)));
        }
        left -= row.height;
    }
    figures
}

/// As wide as the schedule above it, mm.
fn signatures(wide: f64) -> Table {
    Table::new(vec![
        Column::hand("tested by", wide * 0.28),
        Column::hand("licence", wide * 0.24),
        Column::hand("instruments", wide * 0.32),
        Column::hand("date", wide * 0.16),
    ])
}

/// A column of the schedule.
#[derive(Clone, Copy)]
struct Tested {
    heading: &'static str,
    width: f64,
    /// What is read there: one test, or the three of a ring.
    tests: &'static [Test],
}

/// In the order in which they are made, dead ones first.
const TESTED: [Tested; 8] = [
    Tested {
        heading: "ring L, N, E Ω",
        width: 34.0,
        tests: &[Test::RingPhase, Test::RingNeutral, Test::RingEarth],
    },
    Tested { heading: "R1+R2 Ω", width: 24.0, tests: &[Test::R1R2] },
    Tested { heading: "insul. MΩ", width: 20.0, tests: &[Test::Insulation] },
    Tested { heading: "polarity", width: 18.0, tests: &[Test::Polarity] },
    Tested { heading: "loop Ω", width: 24.0, tests: &[Test::Loop] },
    Tested { heading: "trip ms", width: 18.0, tests: &[Test::Trip] },
    Tested { heading: "at 5 × ms", width: 20.0, tests: &[Test::TripFive] },
    Tested { heading: "fault A", width: 18.0, tests: &[Test::FaultCurrent] },
];

struct Schedule<'a> {
    house: &'a House<'a>,
    judged: &'a [JudgedReading],
    columns: &'a [Tested],
    /// How wide the names of circuits may be, mm.
    circuit: f64,
}

impl Schedule<'_> {
    fn table(&self) -> Table {
        let mut columns = vec![
            Column::figures("no.", NUMBER),
            Column::words("circuit, device", self.circuit),
            Column::words("", LINES),
        ];
        columns.extend(self.columns.iter().map(|one| Column::hand(one.heading, one.width)));
        columns.push(Column::hand("verdict", VERDICT));
        Table::new(columns)
    }

    fn row(
        &self,
        table: &Table,
        id: CircuitId,
        circuit: &Circuit,
        tests: Option<&CircuitTests>,
    ) -> Row {
        let room = self.circuit - 2.4;
        let fed = self.house.marks.feeding(circuit);
        let name = fed.map_or(circuit.name.clone(), |board| format!("{board}: {}", circuit.name));
        let mut name = wrap(&name, room, Lettering::Note, Weight::Regular);
        name.truncate(2);
        name.extend(wrap(&device(circuit), room, Lettering::Note, Weight::Regular));
        let mut cells = vec![Cell::Bold(circuit.number.to_string()), Cell::Lines(name)];
        match tests {
            Some(tests) => {
                let lines = ["expected", "limit", "measured", ""].map(str::to_owned);
                cells.push(Cell::Lines(lines.to_vec()));
                cells.extend(self.columns.iter().map(|one| self.cell(id, tests, one)));
                cells.push(Cell::Lines(self.verdicts(id)));
            }
            None => cells.push(Cell::of("nothing yet")),
        }
        let blanks = self.columns.iter().map(|_| Cell::Text(String::new()));
        cells.extend(
            blanks.chain([Cell::Text(String::new())]).take(self.columns.len() + 4 - cells.len()),
        );
        table.row(&cells)
    }

    /// What to expect of a test where it reads most, the limit there, and what
    /// was read.
    fn cell(&self, id: CircuitId, tests: &CircuitTests, of: &Tested) -> Cell {
        let wanted = tests.wanted();
        let mut lines = [Vec::new(), Vec::new(), Vec::new()];
        for test in of.tests {
            let ends = wanted.iter().filter(|one| one.1 == *test).map(|one| one.0);
            let against: Vec<_> = ends.map(|end| (end, tests.against(end, *test))).collect();
            let most = against.iter().filter_map(|(end, one)| Some((one.expected?, *end)));
            let most = most.max_by(|one, other| one.0.total_cmp(&other.0));
            lines[0].extend(most.map(|(value, end)| self.at(figure(*test, value), end)));
            let limit = against.iter().find_map(|(_, one)| one.limit);
            lines[1].extend(limit.map(|limit| limit_of(*test, limit)));
            lines[2].extend(self.read(id, *test, against.len()));
        }
        let dash =
            |line: &[String]| if line.is_empty() { "–".to_owned() } else { line.join(", ") };
        let is_wanted = wanted.iter().any(|one| of.tests.contains(&one.1));
        if !is_wanted {
            return Cell::Lines(vec!["–".to_owned()]);
        }
        Cell::Lines(vec![dash(&lines[0]), dash(&lines[1]), lines[2].join(", ")])
    }

    /// The reading that is worst, with its place; of polarity how many are
    /// right.
    fn read(&self, id: CircuitId, test: Test, of: usize) -> Option<String> {
        let own = self.house.plan.readings.iter();
        let own = own.filter(|one| one.circuit == id && one.reads.test() == test);
        let own: Vec<(f64, End)> = own.map(|one| (one.reads.value(), one.at)).collect();
        if test == Test::Polarity {
            let right = own.iter().filter(|one| one.0 > 0.0).count();
            return (!own.is_empty()).then(|| format!("{right} of {of}"));
        }
        let by_value = |a: &&(f64, End), b: &&(f64, End)| a.0.total_cmp(&b.0);
        let worst = match test {
            Test::Insulation => own.iter().min_by(by_value),
            _ => own.iter().max_by(by_value),
        };
        worst.map(|(value, end)| self.at(figure(test, *value), *end))
    }

    /// A figure with the mark of the point it belongs to; the board goes without
    /// saying.
    fn at(&self, value: String, end: End) -> String {
        match end {
            End::Point(_) => format!("{value} {}", self.house.marks.end(end)),
            End::Board(_) => value,
        }
    }

    /// How many readings came out how.
    fn verdicts(&self, id: CircuitId) -> Vec<String> {
        let own = || self.judged.iter().filter(|one| one.reading.circuit == id);
        let all = [Verdict::Beyond, Verdict::Odd, Verdict::AsExpected, Verdict::NotJudged];
        let counts =
            all.map(|verdict| (own().filter(|one| one.verdict == verdict).count(), verdict));
        let told = counts.into_iter().filter(|(count, _)| *count > 0);
        told.map(|(count, verdict)| format!("{count} {}", verdict.name())).collect()
    }

    /// Readings that are beyond their limits or not as expected.
    fn to_look_at(&self) -> (Table, Vec<Row>) {
        let table = Table::new(vec![
            Column::words("look at again", 60.0),
            Column::words("at", 70.0),
            Column::figures("read", 30.0),
            Column::figures("expected", 30.0),
            Column::figures("limit", 40.0),
            Column::words("verdict", 34.0),
        ]);
        let odd =
            self.judged.iter().filter(|it| matches!(it.verdict, Verdict::Odd | Verdict::Beyond));
        let rows = odd.map(|one| {
            let (reading, test) = (&one.reading, one.reading.reads.test());
            let circuit = self.house.plan.circuits.get(&reading.circuit);
            let circuit = circuit.map_or_else(String::new, |it| self.house.marks.circuit(it));
            let unit = test.unit();
            let or_dash =
                |value: Option<String>| value.map_or("–".to_owned(), |it| format!("{it} {unit}"));
            table.row(&[
                Cell::of(format!("{circuit}, {}", test.name())),
                Cell::of(format!(
                    "{} {}",
                    self.house.marks.end(reading.at),
                    self.house.room_of(reading.at)
                )),
                Cell::Bold(reading.reads.to_string()),
                Cell::of(or_dash(one.against.expected.map(|value| figure(test, value)))),
                Cell::of(or_dash(one.against.limit.map(|limit| limit_of(test, limit)))),
                Cell::Bold(one.verdict.name().to_owned()),
            ])
        });
        let rows = rows.collect();
        (table, rows)
    }
}

/// How wide the columns beside those of the tests are, mm.
const NUMBER: f64 = 9.0;
const LINES: f64 = 19.0;
const VERDICT: f64 = 30.0;
const OTHERS: f64 = NUMBER + LINES + VERDICT;
/// How wide the names of circuits are at least and at most, mm.
const CIRCUIT: f64 = 46.0;
const CIRCUIT_MAX: f64 = 84.0;

fn limit_of(test: Test, limit: Bound) -> String {
    let sign = match limit {
        Bound::AtMost(_) => "≤",
        Bound::AtLeast(_) => "≥",
    };
    format!("{sign} {}", figure(test, limit.value()))
}

/// A figure to two decimals; those of ohms all have them, so that they stand
/// under each other.
fn figure(test: Test, value: f64) -> String {
    if test.unit() == "Ω" { decimals(value, 2) } else { short(value, 2) }
}

fn notes(house: &House<'_>, expected: &ExpectedTests) -> Vec<Row> {
    let mut notes = vec![
        Row::heading("How to use this"),
        Row::paragraph(
            &format!(
                "Expected values are reckoned from planned lengths and conductor tables at {} °C, \
                 dead values first. They help to notice a fault; they pass nothing. Whoever is \
                 licensed to test decides, by the local rules, in the order those rules give.",
                expected.temperature
            ),
            Weight::Bold,
        ),
    ];
    let texts = [
        "Expected: at the point of the circuit that reads most, named beside the figure. Limit: as \
         the rules of this plan have it. Measured: the worst reading of the circuit.",
        "What to expect at every other point, with room for each reading, stands in the list of \
         readings.",
    ];
    notes.extend(texts.map(|text| Row::paragraph(text, Weight::Regular)));
    notes.extend(insulation(expected));
    notes.extend(rings(house, expected));
    notes.extend(cautions());
    notes
}

/// At which voltages insulation is tested.
fn insulation(expected: &ExpectedTests) -> Option<Row> {
    let tested = expected.circuits.values().filter_map(|tests| tests.insulation);
    let mut volts: Vec<String> = tested.map(|(volts, _)| format!("{volts} V")).collect();
    volts.sort_unstable();
    volts.dedup();
    let text = format!("Insulation is tested at {}.", volts.join(" or "));
    (!volts.is_empty()).then(|| Row::paragraph(&text, Weight::Regular))
}

/// What every socket of a ring reads with its ends crossed at the board: a
/// loop made of switch legs is no ring to be tested as one.
fn rings(house: &House<'_>, expected: &ExpectedTests) -> Vec<Row> {
    let circuits = house.plan.circuits.iter().filter(|(_, one)| one.wiring == Wiring::Ring);
    let told = circuits.filter_map(|(id, circuit)| {
        let ring = expected.circuits.get(id)?.ring?;
        let text = format!(
            "With the ends of ring {} crossed at the board every socket of it reads {:.2} Ω from \
             phase to neutral and {:.2} Ω from phase to earth.",
            house.marks.number(circuit),
            ring.phase_neutral.0,
            ring.phase_earth.0
        );
        Some(Row::paragraph(&text, Weight::Regular))
    });
    told.collect()
}

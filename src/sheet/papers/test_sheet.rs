//! The test sheet: what a meter should read, and room for what it does read.

use crate::checks::{CircuitTests, ExpectedTests, JudgedReading, Verdict, judge_readings};
use crate::plan::{Circuit, CircuitId, Test, Wiring};
use crate::sheet::Scene;
use crate::sheet::booklet::{Booklet, TEXT_WIDTH};
use crate::sheet::house::House;
use crate::sheet::lettering::Weight;
use crate::sheet::panel::Row;
use crate::sheet::table::{Cell, Column, Table};

use super::board_chart::device;

/// Every circuit with the readings to expect, their limits, those taken with
/// how they came out, and blanks for the others.
#[must_use]
pub fn test_sheets(house: &House<'_>, expected: &ExpectedTests) -> Vec<Scene> {
    let intro = format!(
        "Expected values are reckoned from planned lengths and conductor tables at {} °C, dead \
         values first. They help to notice a fault; they pass nothing. Whoever is licensed to \
         test decides, by the local rules, in the order those rules give.",
        expected.temperature
    );
    let (judged, _) = judge_readings(house.plan, expected);
    let mut rows = vec![Row::paragraph_across(&intro, Weight::Bold, TEXT_WIDTH)];
    for (id, circuit) in &house.plan.circuits {
        rows.push(Row::heading_across(&format!("{} {}", circuit.number, circuit.name), TEXT_WIDTH));
        match expected.circuits.get(id) {
            Some(tests) => rows.extend(self::circuit(house, *id, circuit, tests, &judged)),
            None => rows.push(Row::paragraph_across(
                "Nothing can be expected yet: no cable chosen, no legs or no table.",
                Weight::Regular,
                TEXT_WIDTH,
            )),
        }
    }
    let table = signatures();
    rows.push(table.heading());
    rows.push(table.row(&[Cell::Blank, Cell::Blank, Cell::Blank, Cell::Blank]));
    let plan = house.plan;
    Booklet { plan, shows: "Test sheet".to_owned(), kind: "test sheet" }.pages(&rows)
}

fn signatures() -> Table {
    Table::new(vec![
        Column::hand("tested by", 50.0),
        Column::hand("licence", 40.0),
        Column::hand("instruments", 50.0),
        Column::hand("date", 32.0),
    ])
}

fn circuit(
    house: &House<'_>,
    id: CircuitId,
    circuit: &Circuit,
    tests: &CircuitTests,
    judged: &[JudgedReading],
) -> Vec<Row> {
    let across = |text: &str| Row::paragraph_across(text, Weight::Regular, TEXT_WIDTH);
    let mut rows = vec![across(&format!("Device {}.", device(circuit))).kept_with_next()];
    let table = Table::new(vec![
        Column::words("test", 30.0),
        Column::words("at", 50.0),
        Column::figures("leg", 11.0),
        Column::figures("expected", 19.0),
        Column::figures("limit", 24.0),
        Column::hand("measured", 19.0),
        Column::hand("verdict", 19.0),
    ]);
    rows.push(table.heading());
    for (at, test) in tests.wanted() {
        let (against, reading) = (tests.against(at, test), house.plan.reading(id, at, test));
        let point = tests.points.iter().find(|point| point.end == at);
        let leg = point.map_or(String::new(), |one| format!("{}.{}", circuit.number, one.leg));
        let (read, verdict) = match reading {
            Some(reading) => {
                let of = |one: &&JudgedReading| one.reading == *reading;
                let verdict = judged.iter().find(of).map_or(Verdict::NotJudged, |one| one.verdict);
                let weight = match verdict {
                    Verdict::AsExpected => Cell::Text,
                    _ => Cell::Bold,
                };
                (Cell::of(reading.reads.to_string()), weight(verdict.name().to_owned()))
            }
            None if test == Test::Polarity => (Cell::Tick, Cell::Blank),
            None => (Cell::Blank, Cell::Blank),
        };
        rows.push(table.row(&[
            Cell::of(name(test, tests)),
            Cell::of(format!("{} {}", house.marks.end(at), house.describe(at))),
            Cell::of(leg),
            Cell::of(against.expected.map_or("–".to_owned(), |value| figure(value, test))),
            Cell::of(against.limit.map_or("–".to_owned(), |limit| {
                format!("{} {}", limit.word(), figure(limit.value(), test))
            })),
            read,
            verdict,
        ]));
    }
    rows.extend(crossed(circuit, tests));
    rows
}

/// What a test is called on the sheet.
fn name(test: Test, tests: &CircuitTests) -> String {
    match (test, tests.insulation) {
        (Test::Insulation, Some((volts, _))) => format!("insulation at {volts} V"),
        _ => test.name().to_owned(),
    }
}

/// A figure with the unit of its test, to two decimals.
fn figure(value: f64, test: Test) -> String {
    let value = format!("{value:.2}");
    format!("{} {}", value.trim_end_matches('0').trim_end_matches('.'), test.unit())
}

/// What every socket of a ring reads with its ends crossed at the board: a
/// loop made of switch legs is no ring to be tested as one.
fn crossed(circuit: &Circuit, tests: &CircuitTests) -> Option<Row> {
    let ring = tests.ring.filter(|_| circuit.wiring == Wiring::Ring)?;
    let text = format!(
        "With the ring's ends crossed at the board every socket of it reads {:.2} Ω from phase to \
         neutral and {:.2} Ω from phase to earth.",
        ring.phase_neutral.0, ring.phase_earth.0
    );
    Some(Row::paragraph_across(&text, Weight::Regular, TEXT_WIDTH))
}

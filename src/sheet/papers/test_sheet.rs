//! The test sheet: what a meter should read, and room for what it does read.

use crate::checks::{CircuitTests, ExpectedTests};
use crate::plan::{Circuit, Wiring};
use crate::sheet::Scene;
use crate::sheet::booklet::{Booklet, TEXT_WIDTH};
use crate::sheet::house::House;
use crate::sheet::lettering::Weight;
use crate::sheet::panel::Row;
use crate::sheet::table::{Cell, Column, Table};

use super::board_chart::device;

/// Every circuit with the readings to expect and blanks for those taken.
#[must_use]
pub fn test_sheets(house: &House<'_>, expected: &ExpectedTests) -> Vec<Scene> {
    let intro = format!(
        "Expected values are reckoned from planned lengths and conductor tables at {} °C, dead \
         values first. They help to notice a fault; they pass nothing. Whoever is licensed to \
         test decides, by the local rules, in the order those rules give.",
        expected.temperature
    );
    let mut rows = vec![Row::paragraph_across(&intro, Weight::Bold, TEXT_WIDTH)];
    for (id, circuit) in &house.plan.circuits {
        rows.push(Row::heading_across(&format!("{} {}", circuit.number, circuit.name), TEXT_WIDTH));
        match expected.circuits.get(id) {
            Some(tests) => rows.extend(self::circuit(house, circuit, tests)),
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

fn circuit(house: &House<'_>, circuit: &Circuit, tests: &CircuitTests) -> Vec<Row> {
    let mut about = vec![format!("Device {}", device(circuit))];
    if let Some(limit) = tests.loop_limit_cold {
        about.push(format!("loop at most {:.2} Ω cold", limit.0));
    }
    let across = |text: &str| Row::paragraph_across(text, Weight::Regular, TEXT_WIDTH);
    let mut rows = vec![across(&format!("{}.", about.join("; "))).kept_with_next()];
    let whole = Table::new(vec![
        Column::words("whole circuit", 60.0),
        Column::words("expected", 72.0),
        Column::hand("read", 40.0),
    ]);
    rows.push(whole.heading());
    if let Some((volts, megohms)) = tests.insulation {
        rows.push(whole.row(&[
            Cell::of("insulation"),
            Cell::of(format!("at least {megohms} MΩ at {volts} V")),
            Cell::Blank,
        ]));
    }
    for (times, ms) in &tests.residual_ms {
        rows.push(whole.row(&[
            Cell::of(format!("residual-current trip at {times} × rated")),
            Cell::of(format!("at most {ms} ms")),
            Cell::Blank,
        ]));
    }
    // A loop made of switch legs is no ring to be tested as one.
    if let Some(ring) = tests.ring.filter(|_| circuit.wiring == Wiring::Ring) {
        for (what, value) in [
            ("ring, phase end to end", ring.phase),
            ("ring, neutral end to end", ring.neutral),
            ("ring, earth end to end", ring.earth),
            ("crossed phase and neutral, at every socket", ring.phase_neutral),
            ("crossed phase and earth, at every socket", ring.phase_earth),
        ] {
            let value = format!("{:.2} Ω", value.0);
            rows.push(whole.row(&[Cell::of(what), Cell::of(value), Cell::Blank]));
        }
    }
    let table = Table::new(vec![
        Column::words("at", 60.0),
        Column::figures("leg", 12.0),
        Column::figures("R1+R2 Ω", 19.0),
        Column::hand("read", 20.0),
        Column::figures("loop Ω", 17.0),
        Column::hand("read", 20.0),
        Column::hand("polarity", 24.0),
    ]);
    rows.push(table.heading());
    for point in &tests.points {
        let at = format!("{} {}", house.marks.end(point.end), house.describe(point.end));
        rows.push(table.row(&[
            Cell::of(at),
            Cell::of(format!("{}.{}", circuit.number, point.leg)),
            Cell::of(format!("{:.2}", point.r1_r2.0)),
            Cell::Blank,
            Cell::of(point.loop_impedance.map_or("–".to_owned(), |ohms| format!("{:.2}", ohms.0))),
            Cell::Blank,
            Cell::Tick,
        ]));
    }
    rows
}

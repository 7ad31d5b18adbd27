//! The list of tests, with room for what is read.

use super::{List, Value};
use crate::checks::ExpectedTests;
use crate::sheet::house::House;

/// Every test that is to be made, in order: where, what the meter should read,
/// the limit, and what was read. Filled in, it can be read back.
#[must_use]
pub fn reading_list(house: &House<'_>, expected: &ExpectedTests) -> List {
    let headings = vec![
        "board", "circuit", "name", "at", "where", "test", "unit", "expected", "limit", "reading",
        "by", "on", "revision",
    ];
    let mut rows = Vec::new();
    for (id, tests) in &expected.circuits {
        let Some(circuit) = house.plan.circuits.get(id) else { continue };
        let mut wanted = tests.wanted();
        let taken = house.plan.readings.iter().filter(|reading| reading.circuit == *id);
        let others: Vec<_> = taken
            .map(|reading| (reading.at, reading.reads.test()))
            .filter(|key| !wanted.contains(key))
            .collect();
        wanted.extend(others);
        for (at, test) in wanted {
            let against = tests.against(at, test);
            let reading = house.plan.reading(*id, at, test);
            let text = |text: &str| Value::Text(text.to_owned());
            let read = reading.map_or(Value::Empty, |reading| match test.unit() {
                "" => Value::Text(reading.reads.to_string()),
                _ => Value::Figure(reading.reads.value()),
            });
            rows.push(vec![
                text(circuit.board.map_or("", |id| house.marks.board(id))),
                Value::Count(usize::from(circuit.number)),
                text(&circuit.name),
                text(house.marks.end(at)),
                text(&house.describe(at)),
                text(test.name()),
                text(test.unit()),
                against.expected.map_or(Value::Empty, Value::Figure),
                against.limit.map_or(Value::Empty, |limit| {
                    let value = Value::Figure(limit.value()).text();
                    Value::Text(format!("{} {value}", limit.word()))
                }),
                read,
                text(reading.map_or("", |reading| &reading.by)),
                text(reading.map_or("", |reading| &reading.on)),
                text(&house.plan.project.revision),
            ]);
        }
    }
    List { name: "readings", headings, rows }
}

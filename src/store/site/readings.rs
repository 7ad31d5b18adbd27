//! The list of tests with its readings filled in.

use std::collections::BTreeMap;

use super::ListError;
use super::table::Table;
use super::value::{read_day, read_reading};
use crate::plan::{CircuitId, End, Plan, Reading, ReadingEntry, Test};
use crate::store::error::shown;

/// The columns that are read: the circuit's number, the mark of where, the
/// test, the reading; and, if there are any, who and when.
pub const READING_COLUMNS: [&str; 6] = ["circuit", "at", "test", "reading", "by", "on"];

/// The readings of a list of tests; blanks say nothing.
///
/// # Errors
/// [`ListError`] at the first wrong row.
pub fn read_readings(
    bytes: &[u8],
    file: &str,
    plan: &Plan,
) -> Result<Vec<ReadingEntry>, ListError> {
    let table = Table::read(bytes, file, READING_COLUMNS, 4, plan)?;
    let mut entries = Vec::new();
    let mut rows: BTreeMap<(CircuitId, End, Test), u64> = BTreeMap::new();
    for row in table.rows().filter(|row| !row.field(3).is_empty()) {
        let number = row.field(0);
        let has_number = |id: &CircuitId| plan.circuits[id].number.to_string() == number;
        let mut circuits = plan.circuits.keys().copied().filter(has_number);
        let Some(first) = circuits.next() else {
            return Err(
                row.error(0, format!("found {}, expected the number of a circuit", shown(number)))
            );
        };
        let at = row.end(1)?;
        // Every board counts its circuits from 1: where it was read tells whose.
        let is_at = |id: &CircuitId| match at {
            End::Board(board) => plan.circuits[id].board == Some(board),
            End::Point(point) => plan.points[&point].circuit == Some(*id),
        };
        let circuit = if is_at(&first) { first } else { circuits.find(is_at).unwrap_or(first) };
        let test = Test::ALL.into_iter().find(|test| test.name() == row.field(2));
        let Some(test) = test else { return Err(row.unknown(2, &Test::ALL.map(Test::name))) };
        let reads = read_reading(test, row.field(3)).map_err(|problem| row.error(3, problem))?;
        let on = read_day(row.field(5)).map_err(|problem| row.error(5, problem))?;
        if let Some(first) = rows.insert((circuit, at, test), row.number()) {
            return Err(row.error(2, format!("this test stands in row {first} already")));
        }
        entries.push(match reads {
            Some(reads) => {
                ReadingEntry::Put(Reading { circuit, at, reads, by: row.field(4).to_owned(), on })
            }
            None => ReadingEntry::Remove { circuit, at, test },
        });
    }
    Ok(entries)
}

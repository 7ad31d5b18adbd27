//! The list of tests with its readings filled in.

use std::collections::BTreeMap;

use super::table::{Row, Table};
use super::value::{read_day, read_reading};
use super::{Filled, ListError, RowError, revision};
use crate::plan::{CircuitId, End, Labels, Plan, Reading, ReadingEntry, Test, labels};
use crate::store::error::shown;

/// The columns that are read: the circuit's number, the mark of where, the
/// test, the reading; and, if there are any, who and when, the circuit's board
/// and name, the revision.
pub const READING_COLUMNS: [&str; 9] =
    ["circuit", "at", "test", "reading", "by", "on", "board", "name", "revision"];

/// The readings of a list of tests; blanks say nothing. Every filled row must
/// agree with the plan: in the circuit with its board and name, as far as the
/// list says them, and in that the circuit has the place.
///
/// # Errors
/// [`ListError`] with every row that does not.
pub fn read_readings(
    bytes: &[u8],
    file: &str,
    plan: &Plan,
) -> Result<Filled<ReadingEntry>, ListError> {
    let table = Table::read(bytes, file, READING_COLUMNS, 4, plan)?;
    let marks = labels(plan);
    let mut rows: BTreeMap<(CircuitId, End, Test), u64> = BTreeMap::new();
    let entries = table.read_rows(3, |row| {
        let circuits = numbered(row, plan, &marks)?;
        let at = row.end(1)?;
        let test = Test::ALL.into_iter().find(|test| test.name() == row.field(2));
        let Some(test) = test else { return Err(row.unknown(2, &Test::ALL.map(Test::name))) };
        let circuit = having(row, plan, &marks, &circuits, (at, test))?;
        let reads = read_reading(test, row.field(3)).map_err(|problem| row.error(3, problem))?;
        let on = read_day(row.field(5)).map_err(|problem| row.error(5, problem))?;
        if let Some(first) = rows.insert((circuit, at, test), row.number()) {
            return Err(row.error(2, format!("this test stands in row {first} already")));
        }
        Ok(match reads {
            Some(reads) => {
                ReadingEntry::Put(Reading { circuit, at, reads, by: row.field(4).to_owned(), on })
            }
            None => ReadingEntry::Remove { circuit, at, test },
        })
    })?;
    let said = (!entries.is_empty()).then(|| revision::note(&table, 8, plan)).flatten();
    Ok(Filled { entries, notes: said.into_iter().collect() })
}

/// The circuits that have the number of a row, and come from its board where it
/// names one: every board counts its own from 1.
fn numbered<const N: usize>(
    row: &Row<'_, N>,
    plan: &Plan,
    marks: &Labels,
) -> Result<Vec<CircuitId>, RowError> {
    let (number, board) = (row.field(0), row.field(6));
    let has_number = |id: &CircuitId| plan.circuits[id].number.to_string() == number;
    let mut circuits: Vec<CircuitId> = plan.circuits.keys().copied().filter(has_number).collect();
    if circuits.is_empty() {
        let found = shown(number);
        return Err(row.error(0, format!("found {found}, expected the number of a circuit")));
    }
    if !board.is_empty() {
        let from = |id: &CircuitId| plan.circuits[id].board.map_or("", |id| marks.board(id));
        circuits.retain(|id| from(id) == board);
    }
    if circuits.is_empty() {
        return Err(row.error(6, format!("no circuit {number} comes from {board} in the plan")));
    }
    Ok(circuits)
}

/// The one of them that has the place of a row.
fn having<const N: usize>(
    row: &Row<'_, N>,
    plan: &Plan,
    marks: &Labels,
    circuits: &[CircuitId],
    (at, test): (End, Test),
) -> Result<CircuitId, RowError> {
    let is_at = |id: &&CircuitId| match at {
        End::Board(board) => plan.circuits[*id].board == Some(board),
        End::Point(point) => plan.points[&point].circuit == Some(**id),
    };
    // What was read before a point changed its circuit is still listed there.
    let was_read = |id: &&CircuitId| plan.reading(**id, at, test).is_some();
    let found = circuits.iter().find(is_at).or_else(|| circuits.iter().find(was_read));
    let Some(id) = found else {
        let (number, mark) = (row.field(0), row.field(1));
        let other = match at {
            End::Board(_) => "it comes from another board".to_owned(),
            End::Point(point) => match plan.points[&point].circuit {
                Some(id) => format!("it is on {}", marks.circuit(&plan.circuits[&id])),
                None => "it is on none".to_owned(),
            },
        };
        let problem = format!("the list has {mark} on circuit {number}; in the plan {other}");
        return Err(row.error(1, problem));
    };
    let (name, planned) = (row.field(7), plan.circuits[id].name.trim());
    if !name.is_empty() && name != planned {
        let (name, planned) = (shown(name), shown(planned));
        let number = row.field(0);
        let problem = format!("the list calls circuit {number} {name}, the plan {planned}");
        return Err(row.error(7, problem));
    }
    Ok(*id)
}

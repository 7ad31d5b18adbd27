//! The list of cuts with its measured lengths filled in.

use std::collections::BTreeMap;

use super::ListError;
use super::table::Table;
use super::value::{read_day, read_length};
use crate::plan::{End, LegEntry, Plan};

/// The columns that are read: both ends and what was measured; and, if there
/// are any, who and when.
pub const MEASURED_COLUMNS: [&str; 5] = ["from", "to", "measured m", "by", "on"];

/// The measured lengths of a list of cuts; blanks say nothing.
///
/// The ends tell the leg: its number may have become a date in a spreadsheet.
///
/// # Errors
/// [`ListError`] at the first wrong row.
pub fn read_measured(bytes: &[u8], file: &str, plan: &Plan) -> Result<Vec<LegEntry>, ListError> {
    let table = Table::read(bytes, file, MEASURED_COLUMNS, 3, plan)?;
    let mut entries = Vec::new();
    let mut rows: BTreeMap<[End; 2], u64> = BTreeMap::new();
    for row in table.rows().filter(|row| !row.field(2).is_empty()) {
        let (from, to) = (row.end(0)?, row.end(1)?);
        let length = read_length(row.field(2)).map_err(|problem| row.error(2, problem))?;
        let circuit = |end| match end {
            End::Point(id) => plan.points.get(&id).and_then(|point| point.circuit),
            End::Board(_) => None,
        };
        let Some(circuit) = circuit(from).or_else(|| circuit(to)) else {
            return Err(row.error(1, "neither end is a point that a circuit feeds"));
        };
        if let Some(first) = rows.insert([from.min(to), from.max(to)], row.number()) {
            return Err(row.error(1, format!("this leg stands in row {first} already")));
        }
        let by = row.field(3).to_owned();
        let on = read_day(row.field(4)).map_err(|problem| row.error(4, problem))?;
        entries.push(LegEntry { circuit, from, to, length, by, on });
    }
    Ok(entries)
}

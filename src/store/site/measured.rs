//! The list of cuts with its measured lengths filled in.

use std::collections::BTreeMap;

use super::table::{Row, Table};
use super::value::{read_day, read_length};
use super::{Filled, ListError, RowError, leg_number, revision};
use crate::plan::{End, Labels, LegEntry, Plan, PlannedLeg, labels};
use crate::store::error::shown;
use crate::units::Mm;

/// The columns that are read: the leg, both its ends, its planned length and
/// what was measured; and, if there are any, who, when and the revision.
pub const MEASURED_COLUMNS: [&str; 8] =
    ["leg", "from", "to", "cut m", "measured m", "by", "on", "revision"];

/// The measured lengths of a list of cuts; blanks say nothing. Every filled row
/// must agree with one of the planned legs: in its number, as far as a
/// spreadsheet left it, in both ends and in the planned length.
///
/// # Errors
/// [`ListError`] with every row that does not.
pub fn read_measured(
    bytes: &[u8],
    file: &str,
    plan: &Plan,
    planned: &[PlannedLeg],
) -> Result<Filled<LegEntry>, ListError> {
    let table = Table::read(bytes, file, MEASURED_COLUMNS, 5, plan)?;
    let marks = labels(plan);
    let mut legs: BTreeMap<[End; 2], Vec<&PlannedLeg>> = BTreeMap::new();
    for leg in planned {
        legs.entry(pair(leg.from, leg.to)).or_default().push(leg);
    }
    let mut rows: BTreeMap<[End; 2], u64> = BTreeMap::new();
    let entries = table.read_rows(4, |row| {
        let (from, to) = (row.end(1)?, row.end(2)?);
        let length = read_length(row.field(4)).map_err(|problem| row.error(4, problem))?;
        let leg = match legs.get(&pair(from, to)) {
            Some(legs) => held_against(row, legs)?,
            None => return Err(no_leg(row, planned, &marks)),
        };
        if let Some(first) = rows.insert(pair(from, to), row.number()) {
            return Err(row.error(2, format!("this leg stands in row {first} already")));
        }
        let by = row.field(5).to_owned();
        let on = read_day(row.field(6)).map_err(|problem| row.error(6, problem))?;
        Ok(LegEntry { circuit: leg.circuit, from, to, length, by, on })
    })?;
    let said = (!entries.is_empty()).then(|| revision::note(&table, 7, plan)).flatten();
    Ok(Filled { entries, notes: said.into_iter().collect() })
}

fn pair(from: End, to: End) -> [End; 2] {
    [from.min(to), from.max(to)]
}

/// The leg, of those between the ends of a row, that the row is about.
fn held_against<'p, const N: usize>(
    row: &Row<'_, N>,
    legs: &[&'p PlannedLeg],
) -> Result<&'p PlannedLeg, RowError> {
    let named = legs.iter().find(|leg| leg_number::agrees(&leg.number, row.field(0)));
    let Some(leg) = named else {
        let numbers: Vec<&str> = legs.iter().map(|leg| leg.number.as_str()).collect();
        let (found, ends) = (shown(row.field(0)), format!("{}/{}", row.field(1), row.field(2)));
        return Err(row.error(
            0,
            format!("the list calls {ends} leg {found}, the plan leg {}", numbers.join(" or ")),
        ));
    };
    match read_length(row.field(3)).map_err(|problem| row.error(3, problem))? {
        Some(cut) if cut == leg.cut => Ok(leg),
        cut => Err(row.error(
            3,
            format!(
                "the list plans leg {} with {}, the plan with {}",
                leg.number,
                cut.map_or_else(|| "no length".to_owned(), metres),
                metres(leg.cut)
            ),
        )),
    }
}

fn metres(length: Mm) -> String {
    format!("{} m", crate::wording::metres_to_mm(length))
}

/// No leg joins the ends of a row: what the plan has under its number instead.
fn no_leg<const N: usize>(row: &Row<'_, N>, planned: &[PlannedLeg], marks: &Labels) -> RowError {
    let (number, ends) = (row.field(0), format!("{}/{}", row.field(1), row.field(2)));
    let other = planned.iter().find(|leg| leg.number == number).map_or_else(
        || "and no such leg".to_owned(),
        |leg| format!("its leg {number} is {}/{}", marks.end(leg.from), marks.end(leg.to)),
    );
    let found = shown(number);
    row.error(0, format!("the list has leg {found}, {ends}; the plan joins no such ends, {other}"))
}

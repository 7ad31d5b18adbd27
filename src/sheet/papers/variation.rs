//! The variation sheet: what changed between two revisions, what it costs, and
//! room to agree to it. It is drawn from what the client is told.

use crate::plan::Plan;
use crate::sheet::House;
use crate::sheet::Scene;
use crate::sheet::booklet::{Booklet, TEXT_WIDTH, together};
use crate::sheet::lettering::Weight;
use crate::sheet::panel::Row;
use crate::sheet::table::{Cell, Column, Table};
use crate::takeoff::{
    Change, ClientBill, ClientVariation, Counted, Quantity, RoomCount, ThingChange, Total,
};
use crate::units::{Cents, Mm};
use crate::wording::{self, metres, money};

use super::client_price::{UNKNOWN, amount, parts};

/// What changed from `old` to `new`.
#[must_use]
pub fn variation_sheets(old: &Plan, house: &House<'_>, variation: &ClientVariation) -> Vec<Scene> {
    let mut rows = vec![revisions(old, house.plan)];
    if variation.things.is_empty() {
        rows.push(across("Nothing that is drawn or set has changed."));
    }
    rows.extend(things(&variation.things));
    rows.extend(rooms(&variation.rooms));
    rows.extend(cable(variation));
    rows.extend(counted("Materials", &variation.materials));
    rows.extend(counted("Work", &variation.labour));
    rows.extend(together(price(&variation.bill)));
    if variation.bill.more_to_pay().is_some() {
        rows.extend(signatures());
    }
    Booklet { house, shows: "Variation".to_owned(), kind: "variation" }.pages(&rows)
}

/// From which revision to which.
pub(super) fn revisions(old: &Plan, new: &Plan) -> Row {
    let revision = |plan: &Plan| match plan.project.revision.as_str() {
        "" => "without a letter".to_owned(),
        letter => letter.to_owned(),
    };
    let text = format!("From revision {} to revision {}.", revision(old), revision(new));
    Row::paragraph_across(&text, Weight::Bold, TEXT_WIDTH)
}

fn across(text: &str) -> Row {
    Row::paragraph_across(text, Weight::Regular, TEXT_WIDTH)
}

/// What is different, thing by thing, section by section.
pub(super) fn things(changes: &[ThingChange]) -> Vec<Row> {
    let mut rows = Vec::new();
    let table = Table::new(vec![Column::words("what", 44.0), Column::words("change", 128.0)]);
    for section in changes.chunk_by(|a, b| a.section == b.section) {
        let [first, ..] = section else { continue };
        rows.push(Row::heading_across(first.section.name(), TEXT_WIDTH));
        rows.push(table.heading());
        for change in section {
            let what = change.what.join("; ");
            rows.push(table.row(&[Cell::Bold(change.name.clone()), Cell::of(what)]));
        }
    }
    rows
}

/// What came and went, room by room.
fn rooms(counts: &[RoomCount]) -> Vec<Row> {
    if counts.is_empty() {
        return Vec::new();
    }
    let table = Table::new(vec![
        Column::words("room", 50.0),
        Column::words("points", 72.0),
        Column::figures("came", 25.0),
        Column::figures("went", 25.0),
    ]);
    let mut rows = vec![Row::heading_across("Room by room", TEXT_WIDTH), table.heading()];
    let count = |count: u32| if count == 0 { String::new() } else { count.to_string() };
    let mut last = "";
    for one in counts {
        let room = if one.room == last { String::new() } else { one.room.clone() };
        last = &one.room;
        rows.push(table.row(&[
            Cell::Bold(room),
            Cell::of(one.what.clone()),
            Cell::of(count(one.added)),
            Cell::of(count(one.removed)),
        ]));
    }
    rows
}

fn three(first: &'static str) -> Table {
    Table::new(vec![
        Column::words(first, 82.0),
        Column::figures("before", 30.0),
        Column::figures("now", 30.0),
        Column::figures("change", 30.0),
    ])
}

fn cable(variation: &ClientVariation) -> Vec<Row> {
    if variation.circuits.is_empty() && variation.cables.is_empty() {
        return Vec::new();
    }
    let mut rows = vec![Row::heading_across("Cable", TEXT_WIDTH)];
    let table = three("cut lengths");
    rows.push(table.heading());
    let shown = |length: Option<Mm>| length.map_or_else(|| UNKNOWN.to_owned(), metres);
    let mut row = |name: Cell, cut: Change<Option<Mm>>| {
        let by = signed(cut.by());
        rows.push(table.row(&[
            name,
            Cell::of(shown(cut.old)),
            Cell::of(shown(cut.new)),
            Cell::of(by),
        ]));
    };
    for change in &variation.circuits {
        row(Cell::of(change.name.clone()), change.cut);
    }
    for change in &variation.cables {
        let name = change.cable.map_or("not chosen".to_owned(), |cable| cable.to_string());
        row(Cell::Bold(name), change.cut);
    }
    rows
}

fn signed(length: Mm) -> String {
    let sign = if length < Mm::ZERO { "−" } else { "+" };
    format!("{sign}{}", metres(length.abs()))
}

fn counted(heading: &str, changes: &[Counted]) -> Vec<Row> {
    if changes.is_empty() {
        return Vec::new();
    }
    let mut rows = vec![Row::heading_across(heading, TEXT_WIDTH)];
    let table = three("what");
    rows.push(table.heading());
    for change in changes {
        let (old, new) = (change.quantity.old, change.quantity.new);
        let difference = match (old, new) {
            (Quantity::Each(old), Quantity::Each(new)) if new >= old => format!("+{}", new - old),
            (Quantity::Each(old), Quantity::Each(new)) => format!("−{}", old - new),
            _ => signed(new.length() - old.length()),
        };
        rows.push(table.row(&[
            Cell::of(change.name.clone()),
            Cell::of(old.in_words(metres)),
            Cell::of(new.in_words(metres)),
            Cell::of(difference),
        ]));
    }
    rows
}

/// The parts of both prices; their differences add up to that of the totals.
fn price(bill: &ClientBill) -> Vec<Row> {
    let mut rows = vec![Row::heading_across("Price", TEXT_WIDTH)];
    let currency = &bill.currency.new;
    let same = bill.currency.old == *currency;
    let table = three("what");
    rows.push(table.heading());
    let (old, new) = (parts(&bill.total.old), parts(&bill.total.new));
    let names = ["cable and everything that is fitted", "all the work", "tax", ""];
    let last = match (&bill.total.old, &bill.total.new) {
        (Total::Whole(_), Total::Whole(_)) => "total to pay",
        _ => "priced so far, no total",
    };
    for (at, name) in names.into_iter().enumerate() {
        let change = match (old[at], new[at]) {
            (None, None) => UNKNOWN.to_owned(),
            _ if !same => UNKNOWN.to_owned(),
            (old, new) => change_of(Change { old, new }.by()),
        };
        let cell = if at == 3 { Cell::Bold } else { Cell::Text };
        let name = match at {
            3 if same => format!("{last}, {currency}").trim_end_matches([',', ' ']).to_owned(),
            3 => last.to_owned(),
            _ => name.to_owned(),
        };
        rows.push(table.row(&[
            cell(name),
            cell(amount(old[at])),
            cell(amount(new[at])),
            cell(change),
        ]));
    }
    rows.extend(told(bill));
    rows
}

/// The difference in words, or why there is none.
fn told(bill: &ClientBill) -> Vec<Row> {
    let bold = |text: String| Row::paragraph_across(&text, Weight::Bold, TEXT_WIDTH);
    if let Some(more) = bill.more_to_pay() {
        let (how, by) =
            if more < Cents::ZERO { ("less", Cents::ZERO - more) } else { ("more", more) };
        return vec![bold(match by {
            Cents::ZERO => "There is as much to pay as before.".to_owned(),
            by => format!("There is {} {how} to pay, all in.", money(&bill.currency.new, by)),
        })];
    }
    let mut rows = Vec::new();
    for (when, total) in [("Before", &bill.total.old), ("Now", &bill.total.new)] {
        rows.extend(total.lacks().map(|lacks| bold(format!("{when}: {}.", lacks.says()))));
    }
    if bill.currency.old != bill.currency.new {
        let (old, new) = (&bill.currency.old, &bill.currency.new);
        rows.push(bold(format!("Before the prices were in {old}, now they are in {new}.")));
    }
    rows.push(bold("So the difference to pay is not known, and this is no offer.".to_owned()));
    rows
}

/// An amount more, or less.
pub(super) fn change_of(by: Cents) -> String {
    let sign = if by < Cents::ZERO { "−" } else { "+" };
    format!("{sign}{}", wording::amount(Cents::new(by.get().abs())))
}

fn signatures() -> Vec<Row> {
    let table = Table::new(vec![
        Column::hand("agreed: client", 60.0),
        Column::hand("agreed: contractor", 60.0),
        Column::hand("date", 52.0),
    ]);
    let mut room = table.row(&[Cell::Blank, Cell::Blank, Cell::Blank]);
    room.height += 8.0;
    vec![table.heading(), room]
}

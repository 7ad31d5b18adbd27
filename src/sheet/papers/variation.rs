//! The variation sheet: what changed between two revisions, with room to agree
//! to it.

use crate::plan::{Plan, labels};
use crate::sheet::Scene;
use crate::sheet::booklet::{Booklet, TEXT_WIDTH};
use crate::sheet::house::metres;
use crate::sheet::lettering::Weight;
use crate::sheet::lists::Value;
use crate::sheet::panel::Row;
use crate::sheet::table::{Cell, Column, Table};
use crate::takeoff::{Change, Counted, Quantity, Variation};
use crate::units::{Cents, Mm};

/// What changed from `old` to `new`.
#[must_use]
pub fn variation_sheets(old: &Plan, new: &Plan, variation: &Variation) -> Vec<Scene> {
    let revision = |plan: &Plan| match plan.project.revision.as_str() {
        "" => "without a letter".to_owned(),
        letter => letter.to_owned(),
    };
    let text = format!("From revision {} to revision {}.", revision(old), revision(new));
    let mut rows = vec![Row::paragraph_across(&text, Weight::Bold, TEXT_WIDTH)];
    rows.extend(points(variation));
    rows.extend(cable(new, variation));
    rows.extend(counted("Materials", &variation.materials));
    rows.extend(counted("Work", &variation.labour));
    rows.extend(price(new, variation));
    let table = Table::new(vec![
        Column::hand("agreed: client", 60.0),
        Column::hand("agreed: contractor", 60.0),
        Column::hand("date", 52.0),
    ]);
    rows.push(table.heading());
    let mut room = table.row(&[Cell::Blank, Cell::Blank, Cell::Blank]);
    room.height += 8.0;
    rows.push(room);
    Booklet { plan: new, shows: "Variation".to_owned(), kind: "variation" }.pages(&rows)
}

fn points(variation: &Variation) -> Vec<Row> {
    let mut rows = vec![Row::heading_across("Points", TEXT_WIDTH)];
    if variation.points.is_empty() {
        rows.push(Row::paragraph_across("None changed.", Weight::Regular, TEXT_WIDTH));
        return rows;
    }
    let table = Table::new(vec![Column::words("point", 40.0), Column::words("what", 132.0)]);
    rows.push(table.heading());
    for change in &variation.points {
        let what = change.what.join(", ");
        rows.push(table.row(&[Cell::Bold(change.mark.clone()), Cell::of(what)]));
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

fn cable(plan: &Plan, variation: &Variation) -> Vec<Row> {
    let mut rows = vec![Row::heading_across("Cable", TEXT_WIDTH)];
    let table = three("cut lengths");
    rows.push(table.heading());
    let marks = labels(plan);
    let lengths = |cut: &Change<Mm>| {
        [Cell::of(metres(cut.old)), Cell::of(metres(cut.new)), Cell::of(signed(cut.new - cut.old))]
    };
    for change in &variation.circuits {
        let [old, new, difference] = lengths(&change.cut);
        let circuit = plan.circuits.get(&change.circuit);
        let name = circuit.map(|circuit| marks.circuit(circuit));
        let name = Cell::of(name.unwrap_or_else(|| format!("circuit {}", change.number)));
        rows.push(table.row(&[name, old, new, difference]));
    }
    for change in &variation.cables {
        let name = change.cable.map_or("not chosen".to_owned(), |cable| cable.to_string());
        let [old, new, difference] = lengths(&change.cut);
        rows.push(table.row(&[Cell::Bold(name), old, new, difference]));
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
            Cell::of(quantity(old)),
            Cell::of(quantity(new)),
            Cell::of(difference),
        ]));
    }
    rows
}

/// So many, or so long.
pub(super) fn quantity(quantity: Quantity) -> String {
    match quantity {
        Quantity::Each(count) => count.to_string(),
        Quantity::Length(length) => metres(length),
    }
}

fn price(plan: &Plan, variation: &Variation) -> Vec<Row> {
    let mut rows = vec![Row::heading_across("Price", TEXT_WIDTH)];
    let table = three("total, with margin and tax");
    rows.push(table.heading());
    let shown = |amount: Cents| Cell::Bold(Value::Money(amount).text().replace('-', "−"));
    let (old, new) = (variation.price.old, variation.price.new);
    let currency = Cell::Bold(plan.prices.currency.clone());
    rows.push(table.row(&[currency, shown(old), shown(new), shown(new - old)]));
    if !(variation.is_complete.old && variation.is_complete.new) {
        let text = "Not every line has a price: the totals are short, and this is no offer.";
        rows.push(Row::paragraph_across(text, Weight::Bold, TEXT_WIDTH));
    }
    rows
}

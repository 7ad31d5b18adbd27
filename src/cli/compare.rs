//! `wirewend compare`: what changed from one plan to the next.

use std::fmt::Write as _;
use std::path::Path;

use serde_json::json;
use wirewend::plan::labels;
use wirewend::takeoff::{Change, Counted, LineChange, Quantity, Variation, compare};
use wirewend::units::{Cents, Mm};
use wirewend::wording::{self, metres_to_mm as metres};

use super::amounts::{UNKNOWN, heading, json_text, quantity};
use super::own_rules::OwnRules;
use super::taken_off::{CAUTION, TakenOff};

/// Compares two plan files: as the client is told, or with every line of the
/// price that is not what it was.
pub(super) fn run(
    (old, new): (&Path, &Path),
    rules: &OwnRules,
    (internal, as_json): (bool, bool),
) -> Result<String, String> {
    let book = rules.book()?;
    let (old, new) = (TakenOff::read(old, &book)?, TakenOff::read(new, &book)?);
    let variation = compare(old.revision(), new.revision());
    if as_json && internal {
        return json_text(&json!({ "internal": true, "variation": variation, "caution": CAUTION }));
    }
    if as_json {
        let variation = variation.for_client();
        return json_text(&json!({ "variation": variation, "caution": CAUTION }));
    }
    Ok(table(&variation, &new, internal))
}

fn table(variation: &Variation, new: &TakenOff, internal: bool) -> String {
    let mut text = String::new();
    if internal {
        text.push_str("Internal, not for the client.\n\n");
    }
    if variation.is_nothing() {
        text.push_str("Nothing changed.\n\n");
        text.push_str(CAUTION);
        return text;
    }
    let told = variation.for_client();
    let things = if internal { &variation.things } else { &told.things };
    for group in things.chunk_by(|a, b| a.section == b.section) {
        let rows = group.iter().map(|one| format!("  {:<24} {}", one.name, one.what.join("; ")));
        section(&mut text, group[0].section.name(), rows);
    }
    let rooms = variation.rooms.iter().map(|one| {
        let count = |sign: char, count: u32| {
            if count == 0 { String::new() } else { format!("{sign}{count}") }
        };
        let (added, removed) = (count('+', one.added), count('-', one.removed));
        format!("  {:<24} {:<34} {added:>5} {removed:>5}", one.room, one.what)
    });
    section(&mut text, "Points that came and went, by room", rooms);
    let length = |length: Option<Mm>| length.map_or_else(|| UNKNOWN.to_owned(), metres);
    let by = |cut: Change<Option<Mm>>| metres(cut.by());
    let circuits = variation.circuits.iter().map(|it| row(&it.name, it.cut, length, by));
    section(&mut text, "Metres by circuit", circuits);
    let cables = variation.cables.iter().map(|it| {
        let name = it.cable.map_or("not chosen".to_owned(), |cable| cable.to_string());
        row(&name, it.cut, length, by)
    });
    section(&mut text, "Metres by cable", cables);
    if !variation.built.is_empty() {
        let marks = labels(&new.plan);
        let rows = variation.built.iter().map(|leg| {
            let name = format!("leg {} {}/{}", leg.number, marks.end(leg.from), marks.end(leg.to));
            let lengths = Change { old: leg.planned, new: leg.measured };
            row(&name, lengths, metres, |by| metres(by.new - by.old))
        });
        section(&mut text, "As built, metres: planned, measured, difference", rows);
    }
    section(&mut text, "Materials", variation.materials.iter().map(counted));
    section(&mut text, "Work", variation.labour.iter().map(counted));
    price(&mut text, variation, internal);
    text.push('\n');
    text.push_str(CAUTION);
    text
}

fn amount(amount: Option<Cents>) -> String {
    amount.map_or_else(|| UNKNOWN.to_owned(), wording::amount)
}

fn price(text: &mut String, variation: &Variation, internal: bool) {
    let bill = &variation.bill;
    let more = |by: Change<Option<Cents>>| wording::amount(by.by());
    let total =
        Change { old: bill.total.old.priced().copied(), new: bill.total.new.priced().copied() };
    let last = match bill.more_to_pay() {
        Some(_) => format!("to pay, {}", bill.currency.new),
        None => "priced so far, no total".to_owned(),
    };
    let mut rows: Vec<String> = Vec::new();
    if internal {
        rows.extend(bill.lines.iter().map(|it| row(&priced(it), it.amount, amount, more)));
        rows.push(row("overhead and margin", bill.margin, amount, more));
        rows.push(row("tax", bill.tax, amount, more));
    } else {
        let of = |part: fn(&wirewend::takeoff::ClientSums) -> Cents| {
            let total = &variation.client_bill.total;
            Change { old: total.old.priced().map(part), new: total.new.priced().map(part) }
        };
        let fitted = of(|sums| sums.materials);
        rows.push(row("cable and everything that is fitted", fitted, amount, more));
        rows.push(row("all the work", of(|sums| sums.work), amount, more));
        rows.push(row("tax", of(|sums| sums.tax), amount, more));
    }
    rows.push(row(&last, total, amount, more));
    let rows = rows.into_iter();
    let _ =
        writeln!(text, "Price: before, now, difference\n{}", rows.collect::<Vec<_>>().join("\n"));
    for (when, total) in [("before", &bill.total.old), ("now", &bill.total.new)] {
        if let Some(lacks) = total.lacks() {
            let _ = writeln!(text, "{}: {}.", heading(when), lacks.says());
        }
    }
    if bill.currency.old != bill.currency.new {
        text.push_str("The two plans are priced in different currencies.\n");
    }
    if bill.more_to_pay().is_none() {
        text.push_str("So the difference to pay is not known.\n");
    }
}

/// A line with how much of it there was and is.
fn priced(line: &LineChange) -> String {
    let times = |minutes: Option<i64>, much: Option<Quantity>| match (minutes, much) {
        (Some(minutes), _) => format!("{minutes} min"),
        (None, much) => much.map_or_else(|| UNKNOWN.to_owned(), quantity),
    };
    let old = times(line.minutes.old, line.quantity.old);
    let new = times(line.minutes.new, line.quantity.new);
    if old == new { line.name.clone() } else { format!("{}: {old}, now {new}", line.name) }
}

fn section(text: &mut String, heading: &str, rows: impl Iterator<Item = String>) {
    let rows: Vec<String> = rows.collect();
    if !rows.is_empty() {
        let _ = writeln!(text, "{heading}\n{}\n", rows.join("\n"));
    }
}

fn counted(it: &Counted) -> String {
    row(&it.name, it.quantity, quantity, |by| {
        use wirewend::takeoff::Quantity::{Each, Length};
        match (by.old, by.new) {
            (Each(old), Each(new)) => (i64::from(new) - i64::from(old)).to_string(),
            (Length(old), Length(new)) => format!("{} m", metres(new - old)),
            _ => String::new(),
        }
    })
}

/// A row: before, now, and by how much.
fn row<T: Copy>(
    name: &str,
    change: Change<T>,
    show: impl Fn(T) -> String,
    by: impl Fn(Change<T>) -> String,
) -> String {
    let by = by(change);
    let sign = if by.starts_with('-') { "" } else { "+" };
    format!(
        "  {name:<46} {:>11} {:>11} {:>11}",
        show(change.old),
        show(change.new),
        format!("{sign}{by}")
    )
}

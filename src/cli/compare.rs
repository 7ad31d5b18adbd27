//! `wirewend compare`: what changed from one plan to the next.

use std::fmt::Write as _;
use std::path::Path;

use serde_json::json;
use wirewend::plan::labels;
use wirewend::takeoff::{Change, Counted, Variation, compare};
use wirewend::units::Mm;

use super::cuts::metres;
use super::take_off::{CAUTION, TakenOff, money, quantity};

/// Compares two plan files.
pub(super) fn run(old: &Path, new: &Path, as_json: bool) -> Result<String, String> {
    let (old, new) = (TakenOff::read(old)?, TakenOff::read(new)?);
    let variation = compare(old.revision(), new.revision());
    if as_json {
        let value = json!({ "variation": variation, "caution": CAUTION });
        let text = serde_json::to_string_pretty(&value).map_err(|error| error.to_string())?;
        return Ok(text + "\n");
    }
    Ok(table(&variation, &old, &new))
}

fn table(variation: &Variation, old: &TakenOff, new: &TakenOff) -> String {
    let mut text = String::new();
    let marks = labels(&new.plan);
    section(
        &mut text,
        "Points",
        variation
            .points
            .iter()
            .map(|point| format!("  {:<12} {}", point.mark, point.what.join(", "))),
    );
    section(
        &mut text,
        "Metres by circuit",
        variation.circuits.iter().map(|it| {
            let known = new.plan.circuits.get(&it.circuit);
            let name = known.map(|circuit| marks.circuit(circuit));
            let name = name.unwrap_or_else(|| format!("circuit {}", it.number));
            row(&name, it.cut, metres, |by| metres(by.new - by.old))
        }),
    );
    section(
        &mut text,
        "Metres by cable",
        variation.cables.iter().map(|it| {
            let name = it.cable.map_or("not chosen".to_owned(), |cable| cable.to_string());
            row(&name, it.cut, metres, |by: Change<Mm>| metres(by.new - by.old))
        }),
    );
    if !variation.built.is_empty() {
        let rows = variation.built.iter().map(|leg| {
            let name = format!("leg {} {}/{}", leg.number, marks.end(leg.from), marks.end(leg.to));
            let lengths = Change { old: leg.planned, new: leg.measured };
            row(&name, lengths, metres, |by| metres(by.new - by.old))
        });
        section(&mut text, "As built, metres: planned, measured, difference", rows);
    }
    section(&mut text, "Materials", variation.materials.iter().map(counted));
    section(&mut text, "Work", variation.labour.iter().map(counted));
    let (was, is) = (variation.price.old, variation.price.new);
    let _ = writeln!(
        text,
        "Price: {} before, {} now, a difference of {}",
        money(&old.plan, was),
        money(&new.plan, is),
        money(&new.plan, is - was),
    );
    if old.plan.prices.currency != new.plan.prices.currency {
        text.push_str("The two plans are priced in different currencies.\n");
    }
    if !(variation.is_complete.old && variation.is_complete.new) {
        text.push_str("Some lines have no price and are in neither sum: see wirewend quote.\n");
    }
    text.push('\n');
    text.push_str(CAUTION);
    text
}

fn section(text: &mut String, heading: &str, rows: impl Iterator<Item = String>) {
    let rows: Vec<String> = rows.collect();
    if rows.is_empty() {
        let _ = writeln!(text, "{heading}: unchanged\n");
        return;
    }
    let _ = writeln!(text, "{heading}\n{}\n", rows.join("\n"));
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

//! `wirewend materials` and `wirewend quote`: what it takes and what it costs.

use std::fmt::Write as _;
use std::path::Path;

use serde_json::json;
use wirewend::takeoff::{ClientSums, CutPlan, ItemGroup};
use wirewend::units::{Cents, Mm};
use wirewend::wording::{self, metres_to_mm as metres};

use super::amounts::{UNKNOWN, heading, json_text, last, quantity, short};
use super::own_rules::OwnRules;
use super::taken_off::{CAUTION, TakenOff};

/// Lists the materials of a plan, with the work.
pub(super) fn materials(path: &Path, rules: &OwnRules, as_json: bool) -> Result<String, String> {
    let job = TakenOff::read(path, &rules.book()?)?;
    if as_json {
        return json_text(&json!({
            "cuts": job.take_off.cuts,
            "materials": job.take_off.materials,
            "labour": job.take_off.labour,
            "findings": job.take_off.findings,
            "caution": CAUTION,
        }));
    }
    let mut text = String::new();
    text.push_str("Cable\n");
    for cuts in &job.take_off.cuts {
        let _ = writeln!(text, "  {:<44} {}", cuts.cable.to_string(), cable(cuts));
    }
    let mut group: Option<ItemGroup> = None;
    for item in &job.take_off.materials {
        if group != Some(item.group) {
            group = Some(item.group);
            let _ = writeln!(text, "\n{}", heading(item.group.name()));
        }
        let _ =
            writeln!(text, "  {:<44} {:>11}   {}", item.name, quantity(item.quantity), item.code);
    }
    text.push_str("\nWork\n");
    for task in &job.take_off.labour {
        let _ = writeln!(
            text,
            "  {:<44} {:>11}   {:>7} h",
            task.name,
            quantity(task.quantity),
            wording::hours(task.minutes.value)
        );
    }
    let minutes = job.take_off.labour.iter().map(|task| task.minutes.value).sum();
    let _ = writeln!(text, "  {:<56}   {:>7} h\n", "all together", wording::hours(minutes));
    text.push_str(CAUTION);
    Ok(text)
}

/// What is cut of a cable, and what is bought for it.
fn cable(cuts: &CutPlan) -> String {
    let all: Mm = cuts.in_order().iter().map(|slice| slice.piece.length).sum();
    let (all, buy) = (metres(all), metres(cuts.to_buy.metres()));
    let none = if cuts.sources.is_empty() { ": nothing in stock to cut it from" } else { "" };
    format!("{all:>9} m   to buy {buy:>9} m{none}")
}

/// Prices a plan as the client is told, or every line of it with what one costs.
pub(super) fn quote(
    path: &Path,
    rules: &OwnRules,
    (internal, as_json): (bool, bool),
) -> Result<String, String> {
    let job = TakenOff::read(path, &rules.book()?)?;
    if internal {
        return super::costing::text(&job, as_json);
    }
    let quote = job.take_off.quote.for_client();
    if as_json {
        return json_text(&json!({ "quote": quote, "caution": CAUTION }));
    }
    let mut text = String::new();
    let of = |part: fn(&ClientSums) -> Cents| quote.total.priced().map(part);
    let mut sum = |what: &str, amount: Option<Cents>| {
        let amount = amount.map_or_else(|| UNKNOWN.to_owned(), wording::amount);
        let _ = writeln!(text, "{what:<46} {amount:>11}");
    };
    sum("Cable and everything that is fitted", of(|sums| sums.materials));
    sum("All the work", of(|sums| sums.work));
    let tax = match quote.total.priced() {
        Some(_) => format!("Tax, {}", wording::percent_of(quote.tax_permille)),
        None => "Tax".to_owned(),
    };
    sum(&tax, of(|sums| sums.tax));
    sum(&last(&quote.total, &quote.currency), of(|sums| sums.sum));
    text.push_str(&short(&quote.total));
    text.push_str("\nEvery line with its price: wirewend quote --internal.\n\n");
    text.push_str(CAUTION);
    Ok(text)
}

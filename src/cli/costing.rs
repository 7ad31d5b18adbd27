//! `wirewend quote --internal`: how a price is reckoned, line by line, for the
//! contractor's eyes.

use std::fmt::Write as _;

use serde_json::json;
use wirewend::takeoff::{LineGroup, QuoteLine, Sums};
use wirewend::units::Cents;
use wirewend::wording;

use super::amounts::{UNKNOWN, heading, json_text, last, quantity, short};
use super::findings;
use super::taken_off::{CAUTION, TakenOff};

/// Printed over every line.
const INTERNAL: &str = "Internal, not for the client.\n\n";

/// Every line with what one costs, then margin and tax.
pub(super) fn text(job: &TakenOff, as_json: bool) -> Result<String, String> {
    let quote = &job.take_off.quote;
    let said = &job.take_off.findings;
    if as_json {
        return json_text(
            &json!({ "internal": true, "quote": quote, "findings": said, "caution": CAUTION }),
        );
    }
    let mut text = String::from(INTERNAL);
    let mut group: Option<LineGroup> = None;
    for line in &quote.lines {
        if group != Some(line.group) {
            group = Some(line.group);
            let _ = writeln!(text, "{}", heading(line.group.name()));
        }
        quote_line(&mut text, line);
    }
    let of = |part: fn(&Sums) -> Cents| quote.total.priced().map(part);
    let mut sum = |what: &str, amount: Option<Cents>| {
        let amount = amount.map_or_else(|| UNKNOWN.to_owned(), wording::amount);
        let _ = writeln!(text, "{what:<72} {amount:>11}");
    };
    sum("Lines added up", of(|sums| sums.net.value));
    let margin = format!("Overhead and margin, {}", wording::percent_of(quote.margin_permille));
    sum(&margin, of(|sums| sums.margin.value));
    sum(&format!("Tax, {}", wording::percent_of(quote.tax_permille)), of(|sums| sums.tax.value));
    sum(&last(&quote.total, &quote.currency), of(|sums| sums.sum.value));
    text.push_str(&short(&quote.total));
    text.push('\n');
    findings::print(&mut text, said);
    text.push_str(CAUTION);
    Ok(text)
}

fn quote_line(text: &mut String, line: &QuoteLine) {
    let how_much = match line.minutes {
        Some(minutes) => format!("{} h", wording::hours(minutes)),
        None => quantity(line.quantity),
    };
    let none = || "no price".to_owned();
    let _ = writeln!(
        text,
        "  {:<46} {how_much:>11} {:>11} {:>11}",
        line.name,
        line.price.map_or_else(String::new, wording::amount),
        line.amount.map_or_else(none, wording::amount),
    );
}

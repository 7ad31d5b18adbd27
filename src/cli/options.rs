//! `wirewend options`: a plan wired in several ways, side by side.

use std::fmt::Write as _;
use std::path::Path;

use serde_json::json;
use wirewend::draft::{Compared, DraftOptions, compare, draft};
use wirewend::plan::Plan;
use wirewend::store::ImportOptions;
use wirewend::takeoff::Total;
use wirewend::wording;

use super::amounts::UNKNOWN;
use super::own_rules::OwnRules;

/// Printed under the table.
const CAUTION: &str = "\
Lengths, prices and volt drops are estimates, and no offer. It certifies nothing:
the local code and licensed people decide.
";

/// Compares ways of wiring a plan; a bare one is drafted first.
pub(super) fn run(
    path: &Path,
    options: &DraftOptions,
    drawing: &ImportOptions,
    (rules, as_json): (&OwnRules, bool),
) -> Result<String, String> {
    let rules = rules.book_with(options.regime)?;
    let (mut plan, ..) = super::draft::read(path, drawing)?;
    if plan.points.is_empty() {
        plan = draft(plan, &rules, options)
            .map_err(|error| format!("{}: {error}", path.display()))?
            .plan;
    }
    let figures = compare(&plan, &rules);
    if as_json {
        let value = json!({
            "options": figures, "currency": plan.prices.currency, "caution": CAUTION,
        });
        let text = serde_json::to_string_pretty(&value).map_err(|error| error.to_string())?;
        return Ok(text + "\n");
    }
    Ok(table(&figures, &plan))
}

fn table(figures: &[Compared], plan: &Plan) -> String {
    let mut text = String::new();
    let mut question = "";
    for one in figures {
        if one.question != question {
            question = one.question;
            let _ = writeln!(
                text,
                "{}{question}\n  {:<28} {:>8} {:>9} {:>9} {:>13} {:>14} {:>7} {:>7}",
                if text.is_empty() { "" } else { "\n" },
                "",
                "circuits",
                "cut m",
                "chase m",
                "price",
                "drop %",
                "no way",
                "faults",
            );
        }
        let drop = match (one.volt_drop_percent, one.volt_drop_circuit) {
            (Some(drop), Some(number)) => format!("{drop:.1} (no {number})"),
            _ => "?".to_owned(),
        };
        let price = match &one.price {
            Total::Whole(price) => wording::amount(*price),
            Total::Short { priced: Some(_), .. } => "incomplete".to_owned(),
            Total::Short { priced: None, .. } => UNKNOWN.to_owned(),
        };
        let _ = writeln!(
            text,
            "  {:<28} {:>8} {:>9.1} {:>9.1} {price:>13} {drop:>14} {:>7} {:>7}",
            one.option,
            one.circuits,
            one.cut.metres(),
            one.chase.metres(),
            one.no_way,
            one.faults,
        );
    }
    text.push('\n');
    if figures.iter().any(|one| one.no_way > 0) {
        text.push_str(
            "Legs without a way are missing from the metres and the price of their row.\n",
        );
    }
    text.push_str(&about_prices(figures, &plan.prices.currency));
    text.push_str(CAUTION);
    text
}

/// In what prices are, and what those that are no totals lack.
fn about_prices(figures: &[Compared], currency: &str) -> String {
    if figures.iter().all(|one| one.price.priced().is_none()) {
        return "No price book in this plan, so no prices; put one in and ask again.\n".to_owned();
    }
    let currency = if currency.is_empty() { "the plan's currency" } else { currency };
    let mut text = format!("Prices in {currency}, material, work, margin and tax.\n");
    for one in figures {
        if let Total::Short { priced: Some(sum), lacks } = &one.price {
            let (option, says) = (one.option, lacks.says());
            let _ = writeln!(text, "{option}: {says}; priced so far {}.", wording::amount(*sum));
        }
    }
    text
}

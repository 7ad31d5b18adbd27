//! `wirewend options`: a plan wired in several ways, side by side.

use std::fmt::Write as _;
use std::path::Path;

use serde_json::json;
use wirewend::draft::{Compared, DraftOptions, compare, draft};
use wirewend::plan::Plan;
use wirewend::rules::RuleBook;
use wirewend::store::ImportOptions;

use super::take_off::plain;

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
    as_json: bool,
) -> Result<String, String> {
    let (mut plan, ..) = super::draft::read(path, drawing)?;
    let rules = RuleBook::shipped();
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
        let price = match one.price {
            None => "-".to_owned(),
            Some(price) if one.is_priced_whole => plain(price),
            Some(price) => format!("{}+", plain(price)),
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

fn about_prices(figures: &[Compared], currency: &str) -> String {
    if figures.iter().all(|one| one.price.is_none()) {
        return "No price book in this plan, so no prices; put one in and ask again.\n".to_owned();
    }
    let short = figures.iter().any(|one| one.price.is_some() && !one.is_priced_whole);
    let more = "; + some lines have no price, see wirewend quote";
    format!(
        "Prices in {}, material, work, margin and tax{}.\n",
        if currency.is_empty() { "the plan's currency" } else { currency },
        if short { more } else { "" },
    )
}

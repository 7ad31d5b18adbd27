//! Lengths, counts, hours and money as the commands print them.

use wirewend::plan::Plan;
use wirewend::takeoff::{Quantity, Total};
use wirewend::units::Cents;
use wirewend::wording::{self, metres_to_mm as metres};

/// In place of an amount that is not known.
pub(super) const UNKNOWN: &str = "-";

/// What stands in front of the last sum, with its currency.
pub(super) fn last<T>(total: &Total<T>, currency: &str) -> String {
    let says = match total {
        Total::Whole(_) => "To pay",
        Total::Short { priced: Some(_), .. } => "Priced so far, no total",
        Total::Short { priced: None, .. } => "No total yet",
    };
    format!("{says}, {currency}").trim_end_matches([',', ' ']).to_owned()
}

/// Why there is no total; empty where there is one.
pub(super) fn short<T>(total: &Total<T>) -> String {
    total.lacks().map_or_else(String::new, |lacks| format!("\n{}.\n", heading(&lacks.says())))
}

pub(super) fn json_text(value: &serde_json::Value) -> Result<String, String> {
    let text = serde_json::to_string_pretty(value).map_err(|error| error.to_string())?;
    Ok(text + "\n")
}

pub(super) fn heading(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A count, or metres.
pub(super) fn quantity(quantity: Quantity) -> String {
    quantity.in_words(|length| format!("{} m", metres(length)))
}

/// An amount in the currency of a plan.
pub(super) fn money(plan: &Plan, amount: Cents) -> String {
    wording::money_in_column(&plan.prices.currency, amount)
}

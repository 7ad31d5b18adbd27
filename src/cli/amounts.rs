//! Lengths, counts, hours and money as the commands print them.

use wirewend::plan::Plan;
use wirewend::takeoff::{Quantity, Total};
use wirewend::units::{Cents, Mm};

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
    match quantity {
        Quantity::Each(count) => count.to_string(),
        Quantity::Length(length) => format!("{} m", metres(length)),
    }
}

/// Hours to two decimals, rounded up.
pub(super) fn hours(minutes: i64) -> String {
    let hundredths = (minutes * 100 + 59).div_euclid(60);
    format!("{}.{:02}", hundredths.div_euclid(100), hundredths.rem_euclid(100))
}

pub(super) fn percent(permille: u16) -> String {
    match permille % 10 {
        0 => permille.div_euclid(10).to_string(),
        tenth => format!("{}.{tenth}", permille.div_euclid(10)),
    }
}

/// An amount with two decimals.
pub(super) fn plain(amount: Cents) -> String {
    let (sign, cents) =
        if amount < Cents::ZERO { ("-", -amount.get()) } else { ("", amount.get()) };
    format!("{sign}{}.{:02}", cents.div_euclid(100), cents.rem_euclid(100))
}

/// An amount in the currency of a plan.
pub(super) fn money(plan: &Plan, amount: Cents) -> String {
    format!("{} {}", plain(amount), plan.prices.currency).trim_end().to_owned()
}

/// Metres to the millimetre.
pub(super) fn metres(length: Mm) -> String {
    let sign = if length < Mm::ZERO { "-" } else { "" };
    let length = length.abs().get();
    format!("{sign}{}.{:03}", length.div_euclid(1000), length.rem_euclid(1000))
}

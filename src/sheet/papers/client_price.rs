//! A price in the client's words. What is not known is said, never set as a
//! sum.

use crate::takeoff::{ClientChoices, ClientQuote, ClientSums, Total};
use crate::units::Cents;
use crate::wording::{self, money};

/// Said under every price that is no total.
const NO_OFFER: &str = "There is no total yet, and this is no offer.";
/// In place of an amount that is not known.
pub(super) const UNKNOWN: &str = "–";

/// An amount, or that it is not known.
pub(super) fn amount(amount: Option<Cents>) -> String {
    amount.map_or_else(|| UNKNOWN.to_owned(), wording::amount)
}

/// What stands in front of the last sum.
pub(super) const fn label<T>(total: &Total<T>) -> &'static str {
    match total {
        Total::Whole(_) => "total to pay",
        Total::Short { priced: Some(_), .. } => "priced so far, no total",
        Total::Short { priced: None, .. } => "no total yet",
    }
}

/// Why there is no total. None where there is one.
pub(super) fn note<T>(total: &Total<T>) -> Option<String> {
    let says = total.lacks()?.says();
    let mut signs = says.chars();
    let first: String = signs.next().map(|sign| sign.to_uppercase().collect()).unwrap_or_default();
    Some(format!("{first}{}. {NO_OFFER}", signs.as_str()))
}

/// The parts of a price in the order in which they stand, the last of them
/// all together. None: nothing is priced.
pub(super) fn parts(total: &Total<ClientSums>) -> [Option<Cents>; 4] {
    let of = |part: fn(&ClientSums) -> Cents| total.priced().map(part);
    [of(|sums| sums.materials), of(|sums| sums.work), of(|sums| sums.tax), of(|sums| sums.sum)]
}

/// What the parts but the last are called.
pub(super) fn part_names(quote: &ClientQuote) -> [String; 3] {
    let share = f64::from(quote.tax_permille) / 10.0;
    // Where nothing is priced there may be no price book to say how much tax.
    let tax = match quote.total.priced() {
        Some(_) => format!("tax, {share} %"),
        None => "tax".to_owned(),
    };
    ["cable and everything that is fitted".to_owned(), "all the work".to_owned(), tax]
}

/// The prices to set side by side: with all, without each item, without all.
pub(super) fn alternatives(choices: &ClientChoices) -> Vec<(String, &ClientQuote)> {
    let name = if choices.items.is_empty() { "amount" } else { "with all" };
    let mut columns: Vec<(String, &ClientQuote)> =
        choices.with_all().map(|quote| (name.to_owned(), quote)).into_iter().collect();
    if choices.items.len() > 1 {
        let each = (0..choices.items.len())
            .filter_map(|at| Some((format!("without {}", at + 1), choices.without(at)?)));
        columns.extend(each);
    }
    columns.extend(choices.without_all().map(|quote| ("without all".to_owned(), quote)));
    columns
}

/// How much less there is to pay without an item, in words.
pub(super) fn saved(choices: &ClientChoices, item: usize) -> String {
    let currency = choices.with_all().map_or("", |quote| quote.currency.as_str());
    choices.saved(item).map_or_else(
        || "what it saves is not known yet".to_owned(),
        |saved| format!("{} less without it", money(currency, saved)),
    )
}

/// Which of what is optional is in a price, by the bits of what is kept.
pub(super) fn kept(choices: &ClientChoices, kept: usize) -> String {
    let out = choices.items.iter().enumerate().filter(|(at, _)| kept & (1 << at) == 0);
    let out: Vec<&str> = out.map(|(_, item)| item.name.as_str()).collect();
    match out.len() {
        _ if choices.items.is_empty() => String::new(),
        0 => "With everything that is optional.".to_owned(),
        all if all == choices.items.len() => "Without everything that is optional.".to_owned(),
        _ => format!("Without {}.", out.join("; ")),
    }
}

//! What it costs, with and without what is optional, as the client is told.

use serde_json::json;

use crate::sheet::html::Html;
use crate::sheet::papers::client_price::{
    UNKNOWN, alternatives, amount, kept, label, note, part_names, parts, saved,
};
use crate::takeoff::{ClientChoices, ClientQuote, Total};
use crate::wording::money;

/// What stands over the page about one combination of what is optional.
struct Says {
    /// In front of the amount.
    label: &'static str,
    /// The amount with its currency; empty where there is none.
    pay: String,
    /// Which of what is optional is in it.
    kept: String,
    /// Why it is no total; empty where it is.
    note: String,
}

impl Says {
    fn of(choices: &ClientChoices, bits: usize, quote: &ClientQuote) -> Self {
        let label = match &quote.total {
            Total::Whole(_) => "To pay, all in:",
            Total::Short { priced: Some(_), .. } => "No total yet. Priced so far:",
            Total::Short { priced: None, .. } => "No total yet.",
        };
        let [.., sum] = parts(&quote.total);
        Self {
            label,
            pay: sum.map_or_else(String::new, |sum| money(&quote.currency, sum)),
            kept: kept(choices, bits),
            note: note(&quote.total).unwrap_or_default(),
        }
    }
}

/// The heading: what there is to pay with all that is ticked.
pub(super) fn to_pay(html: &mut Html, choices: &ClientChoices) {
    let Some(quote) = choices.with_all() else { return };
    let says = Says::of(choices, choices.quotes.len().saturating_sub(1), quote);
    html.raw("<div aria-live=\"polite\">\n<p class=\"pay\"><span data-says=\"label\">");
    html.text(says.label).raw("</span> <strong data-says=\"pay\">").text(&says.pay);
    html.raw("</strong></p>\n<p data-says=\"kept\">").text(&says.kept);
    html.raw("</p>\n<p class=\"caution\" data-says=\"note\">").text(&says.note);
    html.raw("</p>\n</div>\n");
}

pub(super) fn price(html: &mut Html, choices: &ClientChoices) {
    let Some(quote) = choices.with_all() else { return };
    html.element("h2", "Price");
    optional(html, choices);
    html.raw("<p data-says=\"kept\">");
    html.text(&kept(choices, choices.quotes.len().saturating_sub(1))).raw("</p>\n");
    total(html, quote, choices);
    html.raw("<p class=\"caution\" data-says=\"note\">");
    html.text(&note(&quote.total).unwrap_or_default()).raw("</p>\n");
    if !choices.items.is_empty() {
        html.element("h3", "Side by side");
        side_by_side(html, choices);
    }
}

/// Boxes to tick; without a script the table beside them says as much.
fn optional(html: &mut Html, choices: &ClientChoices) {
    if choices.items.is_empty() {
        return;
    }
    html.element("p", "In the price, and may be left out:");
    html.raw("<ol>\n");
    for (index, item) in choices.items.iter().enumerate() {
        html.element("li", &format!("{}: {}", item.name, saved(choices, index)));
    }
    html.raw("</ol>\n<fieldset class=\"script\"><legend>Keep</legend>\n");
    for (index, item) in choices.items.iter().enumerate() {
        html.raw(&format!("<label><input type=\"checkbox\" checked data-bit=\"{index}\">"));
        html.text(&item.name).raw("</label>\n");
    }
    html.raw("</fieldset>\n");
}

/// What stands in front of the last sum, with its currency.
fn last(quote: &ClientQuote) -> String {
    format!("{}, {}", label(&quote.total), quote.currency).trim_end_matches([',', ' ']).to_owned()
}

/// The sums, with those of every combination for the script.
fn total(html: &mut Html, quote: &ClientQuote, choices: &ClientChoices) {
    let of = |(bits, quote): (usize, &ClientQuote)| {
        let says = Says::of(choices, bits, quote);
        json!({
            "label": says.label,
            "pay": says.pay,
            "kept": says.kept,
            "note": says.note,
            "last": last(quote),
            "sums": parts(&quote.total).map(amount),
        })
    };
    let all: Vec<_> = choices.quotes.iter().enumerate().map(of).collect();
    html.raw("<table id=\"sums\" data-sums=\"").text(&json!(all).to_string());
    html.raw("\" aria-live=\"polite\"><tbody>\n");
    let sums = parts(&quote.total);
    for (index, (name, sum)) in part_names(quote).iter().zip(sums).enumerate() {
        html.raw("<tr><th scope=\"row\">").text(name).raw("</th>");
        html.raw(&format!("<td data-sum=\"{index}\">")).text(&amount(sum)).raw("</td></tr>\n");
    }
    html.raw("<tr class=\"total\"><th scope=\"row\" data-says=\"last\">").text(&last(quote));
    html.raw("</th><td data-sum=\"3\">").text(&amount(sums[3]));
    html.raw("</td></tr>\n</tbody></table>\n");
}

/// The parts as rows, alternatives as columns.
fn side_by_side(html: &mut Html, choices: &ClientChoices) {
    let columns = alternatives(choices);
    let Some((_, first)) = columns.first() else { return };
    html.raw("<div class=\"wide\"><table><thead><tr><th scope=\"col\">what</th>");
    for (name, _) in &columns {
        html.raw("<th scope=\"col\">").text(name).raw("</th>");
    }
    html.raw("</tr></thead><tbody>\n");
    for (at, name) in part_names(first).iter().enumerate() {
        html.raw("<tr><th scope=\"row\">").text(name).raw("</th>");
        for (_, quote) in &columns {
            html.raw("<td>").text(&amount(parts(&quote.total)[at])).raw("</td>");
        }
        html.raw("</tr>\n");
    }
    html.raw("<tr class=\"total\"><th scope=\"row\">total to pay</th>");
    for (_, quote) in &columns {
        let to_pay = quote.total.whole().map(|sums| sums.sum);
        let says = to_pay.map_or_else(|| UNKNOWN.to_owned(), |sum| amount(Some(sum)));
        html.raw("<td>").text(&says).raw("</td>");
    }
    html.raw("</tr>\n</tbody></table></div>\n");
}

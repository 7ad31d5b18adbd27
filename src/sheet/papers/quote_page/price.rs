//! What it costs: with and without what is optional, group by group, line by
//! line.

use crate::plan::Plan;
use crate::sheet::html::Html;
use crate::sheet::lists::Value;
use crate::sheet::papers::quote::{alternatives, group_name, group_sums};
use crate::takeoff::{Choices, Quantity, Quote, QuoteLine};
use crate::units::Cents;

/// An amount with its currency.
pub(super) fn money(quote: &Quote, amount: Cents) -> String {
    format!("{} {}", quote.currency, Value::Money(amount).text()).trim().to_owned()
}

fn sums(quote: &Quote) -> [Cents; 4] {
    [quote.net.value, quote.margin.value, quote.tax.value, quote.total.value]
}

pub(super) fn price(html: &mut Html, plan: &Plan, choices: &Choices) {
    let Some(quote) = choices.with_all() else { return };
    html.element("h2", "Price");
    if !quote.is_complete {
        html.raw("<p class=\"caution\">")
            .text("Not every line has a price yet: the total is short, and this is no offer.");
        html.raw("</p>\n");
    }
    optional(html, choices);
    total(html, plan, quote, choices);
    if !choices.items.is_empty() {
        html.element("h3", "Side by side");
    } else {
        html.element("h3", "By group");
    }
    side_by_side(html, choices);
    html.raw("<details><summary>Every line</summary>\n<div class=\"wide\"><table><thead><tr>");
    for heading in ["what", "how much", "each", "amount"] {
        html.raw("<th scope=\"col\">").text(heading).raw("</th>");
    }
    html.raw("</tr></thead><tbody>\n");
    for line in &quote.lines {
        self::line(html, line);
    }
    html.raw("</tbody></table></div></details>\n");
}

/// Boxes to tick; without a script the table beside them says as much.
fn optional(html: &mut Html, choices: &Choices) {
    let Some(all) = choices.with_all().filter(|_| !choices.items.is_empty()) else { return };
    html.element("p", "In the price, and may be left out:");
    html.raw("<ul>\n");
    for (index, item) in choices.items.iter().enumerate() {
        let saved =
            choices.without(index).map_or(Cents::ZERO, |quote| all.total.value - quote.total.value);
        let words = format!("{}: {} less without", item.name, money(all, saved));
        html.element("li", &words);
    }
    html.raw("</ul>\n<fieldset class=\"script\"><legend>Keep</legend>\n");
    for (index, item) in choices.items.iter().enumerate() {
        html.raw(&format!("<label><input type=\"checkbox\" checked data-bit=\"{index}\">"));
        html.text(&item.name).raw("</label>\n");
    }
    html.raw("</fieldset>\n");
}

/// The sums, with those of every combination for the script.
fn total(html: &mut Html, plan: &Plan, quote: &Quote, choices: &Choices) {
    let row = |quote: &Quote| sums(quote).map(|sum| Value::Money(sum).text()).join(",");
    let rows: Vec<String> = choices.quotes.iter().map(row).collect();
    html.raw("<table id=\"sums\" data-sums=\"").text(&rows.join(";"));
    html.raw("\" aria-live=\"polite\"><tbody>\n");
    let percent = |permille: u16| format!("{} %", f64::from(permille) / 10.0);
    let names = [
        "lines added up".to_owned(),
        format!("overhead and margin, {}", percent(plan.prices.margin_permille)),
        format!("tax, {}", percent(plan.prices.tax_permille)),
        format!("total to pay, {}", quote.currency).trim_end_matches([',', ' ']).to_owned(),
    ];
    for (index, (name, sum)) in names.iter().zip(sums(quote)).enumerate() {
        html.raw(if index == 3 { "<tr class=\"total\">" } else { "<tr>" });
        html.raw("<th scope=\"row\">").text(name).raw("</th>");
        html.raw(&format!("<td data-sum=\"{index}\">")).text(&Value::Money(sum).text());
        html.raw("</td></tr>\n");
    }
    html.raw("</tbody></table>\n");
}

/// Groups as rows, alternatives as columns.
fn side_by_side(html: &mut Html, choices: &Choices) {
    let columns = alternatives(choices);
    html.raw("<div class=\"wide\"><table><thead><tr><th scope=\"col\">what</th>");
    for (name, _) in &columns {
        html.raw("<th scope=\"col\">").text(name).raw("</th>");
    }
    html.raw("</tr></thead><tbody>\n");
    let groups: Vec<_> = columns.iter().map(|(_, quote)| group_sums(quote)).collect();
    let mut names: Vec<_> = groups.iter().flat_map(|sums| sums.keys().copied()).collect();
    names.sort_unstable();
    names.dedup();
    let mut row = |name: &str, amounts: Vec<Cents>, is_total: bool| {
        html.raw(if is_total { "<tr class=\"total\">" } else { "<tr>" });
        html.raw("<th scope=\"row\">").text(name).raw("</th>");
        for amount in amounts {
            html.raw("<td>").text(&Value::Money(amount).text()).raw("</td>");
        }
        html.raw("</tr>\n");
    };
    for group in names {
        let of = |sums: &std::collections::BTreeMap<_, (Cents, usize)>| {
            sums.get(&group).map_or(Cents::ZERO, |one| one.0)
        };
        row(group_name(group), groups.iter().map(of).collect(), false);
    }
    for (index, name) in ["overhead and margin", "tax", "total to pay"].into_iter().enumerate() {
        let amounts = columns.iter().map(|(_, quote)| sums(quote)[index + 1]).collect();
        row(name, amounts, index == 2);
    }
    html.raw("</tbody></table></div>\n");
}

fn line(html: &mut Html, line: &QuoteLine) {
    let quantity = match (line.minutes, line.quantity) {
        (Some(minutes), _) => {
            format!("{:.2} h", f64::from(i32::try_from(minutes).unwrap_or(0)) / 60.0)
        }
        (None, Quantity::Each(count)) => count.to_string(),
        (None, Quantity::Length(length)) => format!("{:.2} m", length.metres()),
    };
    let amount = |cents: Option<Cents>| {
        cents.map_or_else(|| "no price yet".to_owned(), |cents| Value::Money(cents).text())
    };
    html.raw("<tr><th scope=\"row\">").text(&line.name).raw("</th><td>").text(&quantity);
    html.raw("</td><td>").text(&amount(line.price)).raw("</td><td>");
    html.text(&amount(line.amount)).raw("</td></tr>\n");
}

//! The costing: how a price is reckoned, for the contractor's eyes alone. It
//! stands apart from the papers that go to the client.

use crate::plan::Plan;
use crate::sheet::Scene;
use crate::sheet::booklet::{Booklet, TEXT_WIDTH, together};
use crate::sheet::house::House;
use crate::sheet::lettering::Weight;
use crate::sheet::panel::Row;
use crate::sheet::table::{Cell, Column, Table};
use crate::takeoff::{
    Bill, Change, Choices, LineChange, LineGroup, Quantity, Quote, QuoteLine, Variation,
};
use crate::units::Cents;

use super::client_price::{UNKNOWN, amount, label};
use super::variation::{change_of, revisions, things};
use crate::wording::{self, metres};

/// On every page of it.
const TITLE: &str = "Costing, internal";
const TITLE_OF_CHANGE: &str = "Variation costing, internal";
const WHOM: &str = "For the contractor alone, not for the client.";
const KIND: &str = "costing, internal";

/// Every line of the price with what one costs and the minutes, then margin and
/// tax; what is optional side by side.
#[must_use]
pub fn costing_sheets(house: &House<'_>, quote: &Quote, choices: &Choices) -> Vec<Scene> {
    let mut rows = vec![bold(WHOM)];
    rows.extend(lines(quote));
    rows.extend(together(sums(quote)));
    rows.extend(together(side_by_side(choices)));
    Booklet { house, shows: TITLE.to_owned(), kind: KIND }.pages(&rows)
}

/// What a change costs: every line that is not what it was, margin and tax.
/// They add up to the difference of the two prices to the cent.
#[must_use]
pub fn costing_of_change(old: &Plan, house: &House<'_>, variation: &Variation) -> Vec<Scene> {
    let own: Vec<_> =
        variation.things.iter().filter(|thing| thing.section.is_internal()).cloned().collect();
    let mut rows = vec![bold(WHOM), revisions(old, house.plan)];
    rows.extend(things(&own));
    rows.extend(bill(&variation.bill));
    let shows = TITLE_OF_CHANGE.to_owned();
    Booklet { house, shows, kind: KIND }.pages(&rows)
}

fn bold(text: &str) -> Row {
    Row::paragraph_across(text, Weight::Bold, TEXT_WIDTH)
}

fn capital(text: &str) -> String {
    let mut signs = text.chars();
    let first: String = signs.next().map(|sign| sign.to_uppercase().collect()).unwrap_or_default();
    format!("{first}{}", signs.as_str())
}

fn lines(quote: &Quote) -> Vec<Row> {
    let table = Table::new(vec![
        Column::words("what", 88.0),
        Column::figures("how much", 28.0),
        Column::figures("price for one", 28.0),
        Column::figures("amount", 28.0),
    ]);
    let mut rows = Vec::new();
    for group in quote.lines.chunk_by(|a, b| a.group == b.group) {
        let [first, ..] = group else { continue };
        rows.push(Row::heading_across(&capital(first.group.name()), TEXT_WIDTH));
        rows.push(table.heading());
        for line in group {
            rows.push(table.row(&[
                Cell::of(line.name.clone()),
                Cell::of(how_much(line)),
                Cell::of(line.price.map_or_else(String::new, |price| each(line, price))),
                Cell::of(line.amount.map_or("no price".to_owned(), |it| amount(Some(it)))),
            ]));
        }
    }
    rows
}

/// `14.50 each`, `3.95 per m`.
fn each(line: &QuoteLine, price: Cents) -> String {
    let price = wording::amount(price);
    match line.unit {
        "each" => format!("{price} each"),
        unit => format!("{price} per {unit}"),
    }
}

fn how_much(line: &QuoteLine) -> String {
    line.minutes.map_or_else(|| line.quantity.in_words(metres), |minutes| format!("{minutes} min"))
}

/// Group by group, then what is added to them.
fn sums(quote: &Quote) -> Vec<Row> {
    let table = Table::new(vec![Column::words("what", 112.0), Column::figures("amount", 60.0)]);
    let mut rows = vec![Row::heading_across("Sums", TEXT_WIDTH), table.heading()];
    let mut row = |name: String, amount: String, cell: fn(String) -> Cell| {
        rows.push(table.row(&[cell(name), cell(amount)]));
    };
    for group in quote.lines.chunk_by(|a, b| a.group == b.group) {
        let [first, ..] = group else { continue };
        let priced: Vec<Cents> = group.iter().filter_map(|line| line.amount).collect();
        let name = match group.len() - priced.len() {
            0 => first.group.name().to_owned(),
            1 => format!("{}; 1 line has no price", first.group.name()),
            lacking => format!("{}; {lacking} lines have no price", first.group.name()),
        };
        let sum = (!priced.is_empty()).then(|| priced.into_iter().sum());
        row(name, amount(sum), Cell::Text);
    }
    let of = |part: fn(&crate::takeoff::Sums) -> Cents| amount(quote.total.priced().map(part));
    let margin = format!("overhead and margin, {}", wording::percent_of(quote.margin_permille));
    row("lines added up".to_owned(), of(|sums| sums.net.value), Cell::Bold);
    row(margin, of(|sums| sums.margin.value), Cell::Text);
    row(
        format!("tax, {}", wording::percent_of(quote.tax_permille)),
        of(|sums| sums.tax.value),
        Cell::Text,
    );
    let last = format!("{}, {}", label(&quote.total), quote.currency);
    row(last.trim_end_matches([',', ' ']).to_owned(), of(|sums| sums.sum.value), Cell::Bold);
    rows.extend(quote.total.lacks().map(|lacks| bold(&format!("{}.", capital(&lacks.says())))));
    let minutes: i64 = quote
        .lines
        .iter()
        .filter(|line| line.group == LineGroup::Labour)
        .filter_map(|it| it.minutes)
        .sum();
    let text = format!(
        "Work charged by the hour: {} h {:02} min.",
        minutes.div_euclid(60),
        minutes.rem_euclid(60)
    );
    rows.push(Row::paragraph_across(&text, Weight::Regular, TEXT_WIDTH));
    rows
}

/// What every item that may be left out is worth before margin and after.
fn side_by_side(choices: &Choices) -> Vec<Row> {
    let Some(all) = choices.with_all().filter(|_| !choices.items.is_empty()) else {
        return Vec::new();
    };
    let table = Table::new(vec![
        Column::words("with what is optional", 72.0),
        Column::figures("lines", 25.0),
        Column::figures("margin", 25.0),
        Column::figures("tax", 25.0),
        Column::figures("to pay", 25.0),
    ]);
    let mut rows = vec![Row::heading_across("Optional", TEXT_WIDTH), table.heading()];
    let mut row = |name: String, quote: &Quote| {
        let of = |part: fn(&crate::takeoff::Sums) -> Cents| {
            Cell::of(amount(quote.total.priced().map(part)))
        };
        rows.push(table.row(&[
            Cell::of(name),
            of(|sums| sums.net.value),
            of(|sums| sums.margin.value),
            of(|sums| sums.tax.value),
            Cell::Bold(amount(quote.to_pay())),
        ]));
    };
    row("all of it".to_owned(), all);
    for (at, item) in choices.items.iter().enumerate() {
        if let Some(quote) = choices.without(at) {
            row(format!("without {}", item.name), quote);
        }
    }
    if let Some(quote) = choices.without_all().filter(|_| choices.items.len() > 1) {
        row("without all of it".to_owned(), quote);
    }
    rows
}

fn bill(bill: &Bill) -> Vec<Row> {
    let table = Table::new(vec![
        Column::words("line", 76.0),
        Column::figures("how much", 36.0),
        Column::figures("before", 20.0),
        Column::figures("now", 20.0),
        Column::figures("change", 20.0),
    ]);
    let mut rows = vec![Row::heading_across("What it costs", TEXT_WIDTH), table.heading()];
    let mut row =
        |name: &str, much: String, amount_of: Change<Option<Cents>>, cell: fn(String) -> Cell| {
            rows.push(table.row(&[
                cell(name.to_owned()),
                Cell::of(much),
                cell(amount(amount_of.old)),
                cell(amount(amount_of.new)),
                cell(change_of(amount_of.by())),
            ]));
        };
    for line in &bill.lines {
        row(&line.name, before_and_now(line), line.amount, Cell::Text);
    }
    row("overhead and margin", String::new(), bill.margin, Cell::Text);
    row("tax", String::new(), bill.tax, Cell::Text);
    let priced =
        Change { old: bill.total.old.priced().copied(), new: bill.total.new.priced().copied() };
    let last = match bill.more_to_pay() {
        Some(_) => "total to pay",
        None => "priced so far, no total",
    };
    row(&format!("{last}, {}", bill.currency.new), String::new(), priced, Cell::Bold);
    for (when, total) in [("Before", &bill.total.old), ("Now", &bill.total.new)] {
        rows.extend(total.lacks().map(|lacks| bold(&format!("{when}: {}.", lacks.says()))));
    }
    if bill.currency.old != bill.currency.new {
        let (old, new) = (&bill.currency.old, &bill.currency.new);
        rows.push(bold(&format!("Before the prices were in {old}, now they are in {new}.")));
    }
    rows
}

/// `3 to 4`, at another price `3 to 4 at 14.00 to 15.00`.
fn before_and_now(line: &LineChange) -> String {
    let gone = || UNKNOWN.to_owned();
    let times = |minutes: Option<i64>, much: Option<_>| match (minutes, much) {
        (Some(minutes), _) => format!("{minutes} min"),
        (None, much) => much.map_or_else(gone, |much: Quantity| much.in_words(metres)),
    };
    let old = times(line.minutes.old, line.quantity.old);
    let new = times(line.minutes.new, line.quantity.new);
    let mut told = if old == new { new } else { format!("{old} to {new}") };
    if let (Some(old), Some(new)) = (line.price.old, line.price.new)
        && old != new
    {
        told = format!("{told} at {} to {}", amount(Some(old)), amount(Some(new)));
    }
    told
}

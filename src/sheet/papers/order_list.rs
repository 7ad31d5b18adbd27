//! The order list: drums of cable, how they are cut, and what else to buy.

use crate::plan::CircuitId;
use crate::sheet::Scene;
use crate::sheet::booklet::{Booklet, TEXT_WIDTH};
use crate::sheet::house::House;
use crate::sheet::lettering::Weight;
use crate::sheet::panel::Row;
use crate::sheet::table::{Cell, Column, Table};
use crate::takeoff::{CutPlan, CutSource, TakeOff};
use crate::units::Mm;
use crate::wording::{metres, percent_of};

use super::client_price::UNKNOWN;
use super::cut_order::to_buy;

/// What to order, and the marks at which each drum is cut.
#[must_use]
pub fn order_list(house: &House<'_>, take_off: &TakeOff) -> Vec<Scene> {
    let mut rows = cable(house, take_off);
    rows.extend(materials(take_off));
    rows.extend(take_off.cuts.iter().flat_map(|cuts| cut_plan(house, cuts)));
    Booklet { house, shows: "Order list".to_owned(), kind: "order list" }.pages(&rows)
}

fn across(text: &str) -> Row {
    Row::paragraph_across(text, Weight::Regular, TEXT_WIDTH)
}

fn cable(house: &House<'_>, take_off: &TakeOff) -> Vec<Row> {
    let mut rows = vec![Row::heading_across("Cable", TEXT_WIDTH)];
    let table = Table::new(vec![
        Column::words("cable", 46.0),
        Column::figures("pieces", 16.0),
        Column::figures("cut", 24.0),
        Column::words("to buy", 44.0),
        Column::figures("left to keep", 24.0),
        Column::hand("ordered", 18.0),
    ]);
    if take_off.cuts.is_empty() {
        rows.push(across("None: no leg with a cable chosen is routed yet."));
    } else {
        rows.push(table.heading());
    }
    for cuts in &take_off.cuts {
        let slices = cuts.in_order();
        let all: Mm = slices.iter().map(|slice| slice.piece.length).sum();
        rows.push(table.row(&[
            Cell::Bold(cuts.cable.to_string()),
            Cell::of(slices.len().to_string()),
            Cell::of(metres(all)),
            Cell::Bold(to_buy(&cuts.to_buy)),
            // Where nothing is cut into, nothing is left of it either.
            Cell::of(if cuts.sources.is_empty() {
                UNKNOWN.to_owned()
            } else {
                metres(cuts.left_over.value)
            }),
            Cell::Tick,
        ]));
    }
    if take_off.cuts.iter().any(|cuts| !cuts.to_buy.drums.is_empty()) {
        rows.push(across(
            "Drums are bought whole: what is left on them is what there is for waste.",
        ));
    }
    let without = house.lengths.cables.iter().filter(|cable| cable.cable.is_none());
    for cable in without {
        let text =
            format!("{} legs have no cable chosen yet and are not in this list.", cable.pieces);
        rows.push(Row::paragraph_across(&text, Weight::Bold, TEXT_WIDTH));
    }
    rows
}

fn materials(take_off: &TakeOff) -> Vec<Row> {
    let table = Table::new(vec![
        Column::words("what", 112.0),
        Column::figures("how many", 38.0),
        Column::hand("ordered", 22.0),
    ]);
    let mut rows = Vec::new();
    for items in take_off.materials.chunk_by(|a, b| a.group == b.group) {
        rows.push(Row::heading_across(&capital(items[0].group.name()), TEXT_WIDTH));
        rows.push(table.heading());
        for item in items {
            rows.push(table.row(&[
                Cell::of(item.name.clone()),
                Cell::Bold(item.quantity.in_words(metres)),
                Cell::Tick,
            ]));
        }
    }
    rows
}

fn capital(text: &str) -> String {
    let mut signs = text.chars();
    let first = signs.next().map(|sign| sign.to_uppercase().to_string()).unwrap_or_default();
    format!("{first}{}", signs.as_str())
}

/// Each drum and off-cut with the running marks at which to cut.
fn cut_plan(house: &House<'_>, cuts: &CutPlan) -> Vec<Row> {
    let mut rows = vec![Row::heading_across(&format!("Cutting {}", cuts.cable), TEXT_WIDTH)];
    if let Some(some) = &cuts.to_buy.by_the_metre {
        let by_the_metre = cuts.in_order();
        let pieces = by_the_metre.iter().filter(|slice| slice.source.is_none()).map(|slice| {
            let piece = slice.piece;
            format!("{} of {}", leg(house, piece.circuit, piece.leg), metres(piece.length))
        });
        let text = format!(
            "{} by the metre, since no drum or off-cut of the stock holds it: {} to cut and {} \
             ({}) for waste, in one length or a piece longer than each leg: {}.",
            metres(some.buy.value),
            metres(some.cuts),
            metres(cuts.to_buy.waste()),
            percent_of(some.waste_permille),
            pieces.collect::<Vec<_>>().join(", ")
        );
        rows.push(across(&text));
    }
    if cuts.sources.is_empty() {
        return rows;
    }
    let proven =
        if cuts.proven { "No way of cutting is better." } else { "A better way may exist." };
    let text = format!(
        "Scrap {}, left to keep {}. {proven} Marks run from the free end of each drum; no leg is \
         ever joined.",
        metres(cuts.scrap.value),
        metres(cuts.left_over.value)
    );
    rows.push(across(&text).kept_with_next());
    let table = Table::new(vec![
        Column::words("from", 52.0),
        Column::words("leg, cut at mark", 92.0),
        Column::figures("left", 28.0),
    ]);
    rows.push(table.heading());
    for source in &cuts.sources {
        let name = &source.name;
        let keep = match (source.keep, source.left > Mm::ZERO) {
            (true, _) => "keep ",
            (false, true) => "scrap ",
            (false, false) => "",
        };
        rows.push(table.row(&[
            Cell::Bold(format!("{name}, {}", metres(source.length))),
            Cell::of(marks(house, source)),
            Cell::of(format!("{keep}{}", metres(source.left))),
        ]));
    }
    rows
}

/// `3.2 at 12.600 m, …`.
fn marks(house: &House<'_>, source: &CutSource) -> String {
    let marks = source.cuts.iter().map(|cut| {
        format!("{} at {}", leg(house, cut.piece.circuit, cut.piece.leg), metres(cut.at))
    });
    marks.collect::<Vec<_>>().join(", ")
}

/// `3.2`, with the board where there are several.
fn leg(house: &House<'_>, circuit: CircuitId, leg: u32) -> String {
    let circuit = house.plan.circuits.get(&circuit);
    circuit.map_or_else(String::new, |circuit| house.marks.leg(circuit, leg))
}

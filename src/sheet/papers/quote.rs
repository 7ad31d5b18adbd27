//! The quote for the homeowner, in plain words: what goes where and how high,
//! where walls are opened, what it costs, what may be left out, what is not in
//! it, and room to sign.

use std::collections::BTreeMap;

use crate::plan::{End, LevelId, Point};
use crate::sheet::booklet::{Booklet, TEXT_WIDTH, together};
use crate::sheet::floor::{Opened, cautions, ground_on_paper, opened_floor, scale_bar};
use crate::sheet::gallery::{Figure, Gallery};
use crate::sheet::house::{House, height};
use crate::sheet::lettering::Weight;
use crate::sheet::panel::Row;
use crate::sheet::table::{Cell, Column, Table};
use crate::sheet::{FloorOptions, Floors, PaperSize, Scale, Scene};
use crate::takeoff::{ClientChoices, ClientQuote};

use super::client_price::{UNKNOWN, alternatives, amount, label, note, part_names, parts, saved};
use super::opened_walls::{OpenedWall, opened_walls};
use crate::wording::money;

/// The quote, with and without what is optional; at the end the floors with the
/// numbers of the walls that are opened.
#[must_use]
pub fn quote_sheets(
    house: &House<'_>,
    floors: &mut Floors<'_>,
    choices: &ClientChoices,
) -> Vec<Scene> {
    let none = ClientQuote::default();
    let quote = choices.with_all().unwrap_or(&none);
    let mut rows = vec![across(
        "What we would do, room by room. Heights are from the finished floor to the middle of \
         the box. Please check every line, walk through the house with it, and say what should \
         move before you sign: after plastering every change costs more.",
    )];
    rows.extend(rooms(house, false));
    let opened = opened_walls(house);
    rows.extend(openings(&opened));
    rows.extend(together(price(quote)));
    rows.extend(optional(house, choices));
    let mut end = vec![Row::heading_across("Not in the price", TEXT_WIDTH)];
    end.extend(EXCLUSIONS.iter().map(|text| across(text)));
    // Only what has a total can be agreed to, and never on a page that says
    // nothing else.
    if quote.total.whole().is_some() {
        end.extend(signatures());
    }
    rows.extend(together(end));
    let mut sheets = Booklet { house, shows: "Quote".to_owned(), kind: "quote" }.pages(&rows);
    sheets.extend(drawings(house, floors, &opened));
    sheets
}

/// The floors on which walls are opened, with the numbers of the walls.
fn drawings(house: &House<'_>, floors: &mut Floors<'_>, opened: &[OpenedWall]) -> Vec<Scene> {
    let mut sheets = Vec::new();
    for (id, level) in &house.plan.levels {
        let here = opened.iter().filter(|one| one.level == *id);
        let walls: Vec<Opened<'_>> = here.map(OpenedWall::drawn).collect();
        if walls.is_empty() {
            continue;
        }
        let scales = Scale::STEPS.into_iter().filter(|scale| scale.reduction() >= 50);
        let sheet = |scale| drawing((house, &mut *floors), *id, &level.name, &walls, scale);
        sheets.extend(scales.filter_map(sheet).next());
    }
    sheets
}

/// A floor at a scale. None: it does not fit.
fn drawing(
    (house, floors): (&House<'_>, &mut Floors<'_>),
    level: LevelId,
    name: &str,
    walls: &[Opened<'_>],
    scale: Scale,
) -> Option<Scene> {
    let options = FloorOptions { scale: Some(scale), ..FloorOptions::of(level) };
    // Rather than drawing it and finding that it does not fit.
    if !Gallery::could_hold(ground_on_paper(house, &options).ok()?) {
        return None;
    }
    let (items, legend) = opened_floor(floors, &options, walls).ok()?;
    let mut notes = vec![
        Row::heading("Where walls are opened"),
        Row::paragraph(
            "Numbers in boxes: walls that are opened, as listed in the quote. Grey: what this \
             quote calls the faces of walls. Where the cables lie is on the sheets of the floors.",
            Weight::Regular,
        ),
    ];
    notes.extend(legend);
    notes.extend(scale_bar(scale, PaperSize::A3));
    notes.extend(cautions());
    let shows = format!("{name}: where walls are opened");
    Gallery { house, shows, kind: "quote", scale: Some(scale), notes }.one(&Figure { items })
}

pub(super) const EXCLUSIONS: [&str; 5] = [
    "Plastering, painting, tiling and floor coverings after walls and floors are closed, unless a \
     line above names them.",
    "Anything found when walls, floors or the old board are opened: asbestos, damp, rot, unsafe \
     old wiring. Work stops there until you have agreed a price in writing.",
    "A larger supply, the network operator's and the meter's work, and their fees.",
    "Lamps, appliances and fittings that you buy yourself.",
    "Changes after signing: each is written down with its price before it is done.",
];

fn across(text: &str) -> Row {
    Row::paragraph_across(text, Weight::Regular, TEXT_WIDTH)
}

/// Points by room, equal ones counted together.
fn rooms(house: &House<'_>, optional: bool) -> Vec<Row> {
    let table = Table::new(vec![
        Column::words("room", 40.0),
        Column::figures("how many", 22.0),
        Column::words("what", 62.0),
        Column::words("where", 48.0),
    ]);
    let points = house.plan.points.iter().filter(|(_, point)| point.optional == optional);
    let mut counted: BTreeMap<(String, String, String), u32> = BTreeMap::new();
    for (id, point) in points {
        let room = house.room_of(End::Point(*id));
        let room = if room.is_empty() { "Outside" } else { room };
        let place = point.place.map_or("not placed yet".to_owned(), |place| height(&place));
        *counted.entry((room.to_owned(), what(point), place)).or_default() += 1;
    }
    if counted.is_empty() {
        return Vec::new();
    }
    let mut rows = Vec::new();
    if !optional {
        rows.push(Row::heading_across("What goes where", TEXT_WIDTH));
    }
    rows.push(table.heading());
    let mut last = String::new();
    for ((room, what, place), count) in counted {
        let shown = if room == last { String::new() } else { room.clone() };
        last = room;
        rows.push(table.row(&[
            Cell::Bold(shown),
            Cell::of(count.to_string()),
            Cell::of(what),
            Cell::of(place),
        ]));
    }
    rows
}

pub(super) fn what(point: &Point) -> String {
    match point.gangs {
        0 | 1 => point.kind.name().to_owned(),
        2 => format!("double {}", point.kind.name()),
        gangs => format!("{gangs}-gang {}", point.kind.name()),
    }
}

/// Where walls are opened, wall by wall.
fn openings(opened: &[OpenedWall]) -> Vec<Row> {
    if opened.is_empty() {
        return Vec::new();
    }
    let table = Table::new(vec![
        Column::figures("no.", 10.0),
        Column::words("wall", 44.0),
        Column::words("what happens", 118.0),
    ]);
    let mut rows = vec![Row::heading_across("Where walls are opened", TEXT_WIDTH), table.heading()];
    for one in opened {
        rows.push(table.row(&[
            Cell::Bold(format!("({})", one.number)),
            Cell::Bold(one.name.clone()),
            Cell::of(one.what.as_str()),
        ]));
    }
    rows.push(gap());
    rows.push(across(
        "The numbers stand in boxes on the drawings at the end; walls are named as on the wall \
         elevations. Grooves and holes are closed ready for the plasterer.",
    ));
    rows
}

/// The parts of the price, which add up to the total.
fn price(quote: &ClientQuote) -> Vec<Row> {
    let table = Table::new(vec![Column::words("what", 112.0), Column::figures("amount", 60.0)]);
    let mut rows = vec![Row::heading_across("Price", TEXT_WIDTH), table.heading()];
    if quote.is_invented {
        rows.insert(1, across("The prices are invented: they show how a quote looks."));
    }
    let shown = |amount: Option<_>| {
        amount.map_or_else(|| UNKNOWN.to_owned(), |amount| money(&quote.currency, amount))
    };
    let [materials, work, tax, sum] = parts(&quote.total);
    for (name, amount) in part_names(quote).into_iter().zip([materials, work, tax]) {
        rows.push(table.row(&[Cell::of(name), Cell::of(shown(amount))]));
    }
    rows.push(table.row(&[Cell::Bold(label(&quote.total).to_owned()), Cell::Bold(shown(sum))]));
    rows.extend(note(&quote.total).map(|text| bold(&text)));
    rows
}

fn bold(text: &str) -> Row {
    Row::paragraph_across(text, Weight::Bold, TEXT_WIDTH)
}

/// What may be left out, and what that saves: alternatives as columns.
fn optional(house: &House<'_>, choices: &ClientChoices) -> Vec<Row> {
    let points = rooms(house, true);
    let (Some(all), Some(without)) = (choices.with_all(), choices.without_all()) else {
        return Vec::new();
    };
    let mut rows = vec![
        Row::heading_across("Optional", TEXT_WIDTH),
        across("In the price above, and may be left out:").kept_with_next(),
    ];
    rows.extend(points);
    for (at, item) in choices.items.iter().enumerate() {
        rows.push(across(&format!("{}: {}; {}.", at + 1, item.name, saved(choices, at))));
    }
    rows.extend(together(side_by_side(&alternatives(choices))));
    if let (Some(most), Some(least)) = (all.total.whole(), without.total.whole()) {
        rows.push(across(&format!(
            "Without all of these the total is {}, which is {} less. What is left out changes \
             ways and drums, so that savings need not add up.",
            money(&all.currency, least.sum),
            money(&all.currency, most.sum - least.sum)
        )));
    }
    rows
}

fn side_by_side(columns: &[(String, &ClientQuote)]) -> Vec<Row> {
    const NAME: f64 = 38.0;
    let Some((_, first)) = columns.first() else { return Vec::new() };
    let count = u32::try_from(columns.len()).unwrap_or(1).max(1);
    let width = ((TEXT_WIDTH - NAME) / f64::from(count)).min(30.0);
    let currency = &first.currency;
    let what = if currency.is_empty() { String::new() } else { format!("amounts in {currency}") };
    let mut of = vec![Column::worded(what, NAME)];
    of.extend(columns.iter().map(|(name, _)| Column::figured(name.clone(), width)));
    let table = Table::new(of);
    let mut rows = vec![table.heading()];
    let mut row = |name: &str, at: usize, cell: fn(String) -> Cell| {
        let mut cells = vec![cell(name.to_owned())];
        cells.extend(columns.iter().map(|(_, quote)| {
            let is_known = at < 3 || quote.total.whole().is_some();
            cell(amount(parts(&quote.total)[at].filter(|_| is_known)))
        }));
        rows.push(table.row(&cells));
    };
    for (at, name) in part_names(first).iter().enumerate() {
        row(name, at, Cell::Text);
    }
    row("total to pay", 3, Cell::Bold);
    rows
}

/// Between a text and a table under it.
fn gap() -> Row {
    Row::new(2.4, Vec::new()).kept_with_next()
}

fn signatures() -> Vec<Row> {
    let table = Table::new(vec![
        Column::hand("agreed: client", 60.0),
        Column::hand("agreed: contractor", 60.0),
        Column::hand("date", 52.0),
    ]);
    let agreed = Row::heading_across("Agreed", TEXT_WIDTH);
    vec![agreed, table.heading(), table.row(&[Cell::Sign, Cell::Sign, Cell::Sign])]
}

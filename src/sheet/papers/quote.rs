//! The quote for the homeowner, in plain words: what goes where and how high,
//! where walls are opened, what it costs, what may be left out, what is not in
//! it, and room to sign.

use std::collections::BTreeMap;

use crate::plan::{End, Plane, Point, WallId};
use crate::runs::{Heading, Surrounding};
use crate::sheet::Scene;
use crate::sheet::booklet::{Booklet, TEXT_WIDTH};
use crate::sheet::house::{House, height, metres};
use crate::sheet::lettering::Weight;
use crate::sheet::lists::Value;
use crate::sheet::panel::Row;
use crate::sheet::table::{Cell, Column, Table};
use crate::takeoff::{LineGroup, Quote};
use crate::units::{Cents, Mm};

use super::words;

/// The quote. `without` is the quote of the same house with every optional
/// point left out, where there are any.
#[must_use]
pub fn quote_sheets(house: &House<'_>, quote: &Quote, without: Option<&Quote>) -> Vec<Scene> {
    let mut rows = vec![across(
        "What we would do, room by room. Heights are from the finished floor to the middle of \
         the box. Please check every line, walk through the house with it, and say what should \
         move before you sign: after plastering every change costs more.",
    )];
    rows.extend(rooms(house, false));
    rows.extend(openings(house));
    rows.extend(price(quote));
    rows.extend(optional(house, quote, without));
    rows.push(Row::heading_across("Not in the price", TEXT_WIDTH));
    rows.extend(EXCLUSIONS.iter().map(|text| across(text)));
    rows.extend(signatures());
    let plan = house.plan;
    Booklet { plan, shows: "Quote".to_owned(), kind: "quote" }.pages(&rows)
}

const EXCLUSIONS: [&str; 5] = [
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
        let room = if room.is_empty() { "outside" } else { room };
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

fn what(point: &Point) -> String {
    match point.gangs {
        0 | 1 => point.kind.name().to_owned(),
        2 => format!("double {}", point.kind.name()),
        gangs => format!("{gangs}-gang {}", point.kind.name()),
    }
}

/// What happens to each wall.
#[derive(Default)]
struct Opened {
    chased: Mm,
    sideways: Mm,
    surface: Mm,
    drops: u32,
}

/// Where walls are opened, wall by wall.
fn openings(house: &House<'_>) -> Vec<Row> {
    let mut walls: BTreeMap<WallId, Opened> = BTreeMap::new();
    // Cables on one line share a chase: each stretch is counted once.
    let mut seen: std::collections::BTreeSet<(WallId, Vec<crate::units::Point3>)> =
        std::collections::BTreeSet::new();
    let legs = house.runs.circuits.values().flat_map(|run| &run.legs);
    for segment in legs.flat_map(|leg| &leg.route.segments) {
        let Some(Plane::Wall(id)) = segment.plane else { continue };
        let mut ends = vec![segment.from, segment.to];
        ends.sort_unstable();
        if segment.length == Mm::ZERO || !seen.insert((id, ends)) {
            continue;
        }
        let opened = walls.entry(id).or_default();
        match (segment.through, segment.heading) {
            (Surrounding::Chase, _) => opened.chased += segment.length,
            (Surrounding::Surface, _) => opened.surface += segment.length,
            (Surrounding::HollowWall | Surrounding::Cavity, Heading::Sideways) => {
                opened.sideways += segment.length;
            }
            (Surrounding::HollowWall | Surrounding::Cavity, _) => opened.drops += 1,
            _ => {}
        }
    }
    walls.retain(|_, one| {
        one.drops > 0 || [one.chased, one.sideways, one.surface].iter().any(|it| *it > Mm::ZERO)
    });
    if walls.is_empty() {
        return Vec::new();
    }
    let table = Table::new(vec![Column::words("wall", 50.0), Column::words("what happens", 122.0)]);
    let mut rows = vec![Row::heading_across("Where walls are opened", TEXT_WIDTH), table.heading()];
    for (id, opened) in walls {
        let mut told = Vec::new();
        if opened.chased > Mm::ZERO {
            told.push(format!("about {} of groove cut and filled", metres(opened.chased)));
        }
        if opened.sideways > Mm::ZERO {
            told.push(format!(
                "about {} sideways inside the wall, its lining opened where studs are drilled",
                metres(opened.sideways)
            ));
        }
        if opened.drops > 0 {
            let times = if opened.drops == 1 { "cable" } else { "cables" };
            told.push(format!("{} {times} passed up or down inside", opened.drops));
        }
        if opened.surface > Mm::ZERO {
            told.push(format!("about {} on the face, covered", metres(opened.surface)));
        }
        rows.push(table.row(&[Cell::Bold(words::wall(house.plan, id)), Cell::of(told.join("; "))]));
    }
    rows.push(across(
        "Walls are named as on the wall elevations. Grooves and holes are closed ready for the \
         plasterer.",
    ));
    rows
}

fn money(quote: &Quote, amount: Cents) -> String {
    format!("{} {}", quote.currency, Value::Money(amount).text()).trim().to_owned()
}

/// The sums of the groups, which add up to the total.
fn price(quote: &Quote) -> Vec<Row> {
    let table = Table::new(vec![Column::words("what", 112.0), Column::figures("amount", 60.0)]);
    let mut groups: BTreeMap<LineGroup, (Cents, usize)> = BTreeMap::new();
    for line in &quote.lines {
        let group = groups.entry(line.group).or_default();
        match line.amount {
            Some(amount) => group.0 += amount,
            None => group.1 += 1,
        }
    }
    let mut rows = vec![Row::heading_across("Price", TEXT_WIDTH), table.heading()];
    for (group, (sum, lacking)) in groups {
        let name = match group {
            LineGroup::Cable => "cable",
            LineGroup::Materials(group) => group.name(),
            LineGroup::Labour => "labour",
        };
        let name = if lacking > 0 {
            format!("{name}; {lacking} lines have no price")
        } else {
            name.to_owned()
        };
        rows.push(table.row(&[Cell::of(name), Cell::of(money(quote, sum))]));
    }
    for (name, amount) in [("overhead and margin", &quote.margin), ("tax", &quote.tax)] {
        rows.push(table.row(&[Cell::of(name), Cell::of(money(quote, amount.value))]));
    }
    rows.push(table.row(&[
        Cell::Bold("total to pay".to_owned()),
        Cell::Bold(money(quote, quote.total.value)),
    ]));
    if !quote.is_complete {
        rows.push(Row::paragraph_across(
            "Not every line has a price yet: the total is short, and this is no offer.",
            Weight::Bold,
            TEXT_WIDTH,
        ));
    }
    rows
}

/// What may be left out, and what that saves.
fn optional(house: &House<'_>, quote: &Quote, without: Option<&Quote>) -> Vec<Row> {
    let table = rooms(house, true);
    if table.is_empty() {
        return Vec::new();
    }
    let mut rows = vec![
        Row::heading_across("Optional", TEXT_WIDTH),
        across("In the price above, and may be left out:").kept_with_next(),
    ];
    rows.extend(table);
    if let Some(without) = without {
        let saved = quote.total.value - without.total.value;
        rows.push(across(&format!(
            "Without all of these the total is {}, which is {} less.",
            money(quote, without.total.value),
            money(quote, saved)
        )));
    }
    rows
}

fn signatures() -> Vec<Row> {
    let table = Table::new(vec![
        Column::hand("agreed: client", 60.0),
        Column::hand("agreed: contractor", 60.0),
        Column::hand("date", 52.0),
    ]);
    let mut room = table.row(&[Cell::Blank, Cell::Blank, Cell::Blank]);
    room.height += 8.0;
    vec![table.heading(), room]
}

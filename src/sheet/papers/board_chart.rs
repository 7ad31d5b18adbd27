//! The board chart: what each way feeds, with neutral and earth numbered alike.

use crate::plan::{BoardId, Circuit, CircuitId, Plan, PointKind};
use crate::sheet::Scene;
use crate::sheet::booklet::{Booklet, TEXT_WIDTH};
use crate::sheet::house::House;
use crate::sheet::lettering::Weight;
use crate::sheet::panel::Row;
use crate::sheet::table::{Cell, Column, Table};

/// A chart for every board.
#[must_use]
pub fn board_charts(house: &House<'_>) -> Vec<Scene> {
    house.plan.boards.keys().flat_map(|id| chart(house, *id)).collect()
}

fn chart(house: &House<'_>, board: BoardId) -> Vec<Scene> {
    let plan = house.plan;
    let table = Table::new(vec![
        Column::figures("way", 11.0),
        Column::words("circuit", 37.0),
        Column::words("feeds", 55.0),
        Column::words("cable", 30.0),
        Column::words("device", 21.0),
        Column::figures("N", 9.0),
        Column::figures("E", 9.0),
    ]);
    let mut circuits: Vec<(&CircuitId, &Circuit)> =
        plan.circuits.iter().filter(|(_, circuit)| circuit.board == Some(board)).collect();
    circuits.sort_by_key(|(id, circuit)| (circuit.number, **id));
    // Over the table: at its end it may not find room on the page.
    let mut rows = supply(plan, board);
    rows.push(Row::paragraph_across(NOTE, Weight::Regular, TEXT_WIDTH).kept_with_next());
    rows.push(table.heading());
    for (id, circuit) in &circuits {
        let number = circuit.number.to_string();
        let cable = circuit.cable.map_or("not chosen".to_owned(), |cable| cable.to_string());
        let mut name = circuit.name.clone();
        if !circuit.rcd_group.is_empty() {
            name = format!("{name}, shares {}", circuit.rcd_group);
        }
        if let Some(phase) = circuit.phase {
            name = format!("{name}, phase {phase}");
        }
        rows.push(table.row(&[
            Cell::Bold(number.clone()),
            Cell::Bold(name),
            Cell::of(feeds(house, **id)),
            Cell::of(cable),
            Cell::of(device(circuit)),
            Cell::Bold(number.clone()),
            Cell::Bold(number),
        ]));
    }
    let used: std::collections::BTreeSet<u16> =
        circuits.iter().map(|(_, circuit)| circuit.number).collect();
    let ways = plan.boards.get(&board).and_then(|board| board.ways).unwrap_or(0);
    let spare: Vec<u16> = (1..=ways).filter(|way| !used.contains(way)).collect();
    let row = |way: String, says: String| {
        let blank = || Cell::of("");
        table.row(&[Cell::of(way), Cell::of(says), blank(), blank(), blank(), blank(), blank()])
    };
    let shows = format!("Board chart {}", house.marks.board(board));
    let booklet = Booklet { house, shows, kind: "board chart" };
    let each = spare.iter().map(|way| row(way.to_string(), "spare".to_owned()));
    let listed = booklet.pages(&rows.iter().cloned().chain(each).collect::<Vec<Row>>());
    if listed.len() < 2 {
        return listed;
    }
    // It hangs inside the board: one page, where that is all it takes.
    let all = row(String::new(), format!("spare: {}", spans(&spare)));
    let short = booklet.pages(&rows.into_iter().chain([all]).collect::<Vec<Row>>());
    if short.len() < listed.len() { short } else { listed }
}

/// `3, 9 to 12`.
fn spans(ways: &[u16]) -> String {
    let runs = ways.chunk_by(|one, next| *next == one + 1);
    let told = runs.filter_map(|run| match run {
        [] => None,
        [only] => Some(only.to_string()),
        [first, .., last] => Some(format!("{first} to {last}")),
    });
    told.collect::<Vec<_>>().join(", ")
}

const NOTE: &str = "N and E: the positions at the neutral and earth links, numbered as their way. \
     Put neutral and earth of a circuit at the positions that carry its number, so that one \
     circuit can be taken off without a search. Fix a copy inside the board.";

fn supply(plan: &Plan, id: BoardId) -> Vec<Row> {
    let Some(board) = plan.boards.get(&id) else { return Vec::new() };
    let supply = board.supply;
    let told = |what: &str, value: Option<String>| {
        format!("{what} {}", value.unwrap_or_else(|| "not known yet".to_owned()))
    };
    let parts = [
        told("Voltage", supply.voltage.map(|volts| format!("{} V", volts.0))),
        told("phases", supply.phases.map(|count| count.to_string())),
        told("main switch", supply.main_switch.map(|amps| format!("{} A", amps.0))),
        told("fault current", supply.fault_current.map(|amps| format!("{} A", amps.0))),
        told("loop outside", supply.loop_impedance.map(|ohms| format!("{} Ω", ohms.0))),
        told("ways", board.ways.map(|ways| ways.to_string())),
    ];
    let text = format!("{}.", parts.join("; "));
    vec![Row::paragraph_across(&text, Weight::Regular, TEXT_WIDTH)]
}

/// What a circuit feeds: counts by kind, then rooms.
pub(super) fn feeds(house: &House<'_>, circuit: CircuitId) -> String {
    let points = house.plan.points.iter().filter(|(_, point)| point.circuit == Some(circuit));
    let mut counts: std::collections::BTreeMap<PointKind, u32> = std::collections::BTreeMap::new();
    let mut rooms: Vec<&str> = Vec::new();
    for (id, point) in points {
        *counts.entry(point.kind).or_default() += 1;
        let room = house.room_of(crate::plan::End::Point(*id));
        // Outdoors where it has a place at all.
        let is_placed = house.plan.place_of(crate::plan::End::Point(*id)).is_some();
        let room = if room.is_empty() && is_placed { "outside" } else { room };
        if !room.is_empty() && !rooms.contains(&room) {
            rooms.push(room);
        }
    }
    if counts.is_empty() {
        return "nothing yet".to_owned();
    }
    let counted: Vec<String> =
        counts.iter().map(|(kind, count)| format!("{count} × {}", kind.name())).collect();
    let rooms = if rooms.is_empty() { String::new() } else { format!("; {}", rooms.join(", ")) };
    format!("{}{rooms}", counted.join(", "))
}

/// `B16, 30 mA`.
pub(super) fn device(circuit: &Circuit) -> String {
    circuit.device.map_or_else(|| "not chosen".to_owned(), |device| device.to_string())
}

#[cfg(test)]
mod tests {
    use super::spans;

    #[test]
    fn spare_ways_are_told_in_spans() {
        assert_eq!(spans(&[3, 9, 10, 11, 12]), "3, 9 to 12");
    }
}

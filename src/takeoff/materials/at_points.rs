//! What each point takes: accessory, plate, box.

use std::collections::BTreeMap;

use super::entering::Entering;
use super::{ItemGroup, Kind, Tally, boxes};
use crate::plan::{CableMake, End, Family, Place, Plan, Point, PointId, PointKind};
use crate::rules::RuleBook;
use crate::runs::Runs;
use crate::takeoff::practice::{COUNTED, PRACTICE};
use crate::takeoff::{Origin, Quantity};

pub(super) fn count(plan: &Plan, runs: &Runs, rules: &RuleBook, tally: &mut Tally) {
    let cables = cables_at(runs);
    let shared = boxes::Shared::of(plan, rules);
    for (id, point) in &plan.points {
        let of = Origin::Point(*id);
        accessory(plan, *id, point, tally);
        if let Some(kind) = plate(point) {
            tally.add(kind, of, Quantity::Each(1));
        }
        let entering = cables.get(&End::Point(*id)).copied().unwrap_or_default();
        boxes::count(plan, runs, *id, point, entering, &shared, tally);
        boxes::glands(plan, *id, point, entering, tally);
    }
}

/// How many cables end at each end.
fn cables_at(runs: &Runs) -> BTreeMap<End, Entering> {
    let mut counts: BTreeMap<End, Entering> = BTreeMap::new();
    for leg in runs.circuits.values().flat_map(|run| &run.legs) {
        let armoured = leg.cable.is_some_and(|cable| cable.make == CableMake::Armoured);
        for end in [leg.from, leg.to] {
            let entering = counts.entry(end).or_default();
            entering.all += 1;
            entering.armoured += u32::from(armoured);
        }
    }
    counts
}

fn accessory(plan: &Plan, id: PointId, point: &Point, tally: &mut Tally) {
    let of = Origin::Point(id);
    let gangs = u32::from(point.gangs.max(1));
    let base = code(point.kind);
    let mut add = |code: String, name: String, count: u32| {
        let kind = Kind { group: ItemGroup::Accessories, code, name, source: COUNTED };
        tally.add(kind, of, Quantity::Each(count));
    };
    match (point.kind, point.kind.family()) {
        // A junction box is a box, and nothing else.
        (PointKind::JunctionBox, _) => {}
        (PointKind::Isolator | PointKind::ExhaustFan, _) => {
            add(base, point.kind.name().to_owned(), 1);
        }
        // Fixed appliances come from whoever will use them.
        (_, Family::Fixed) => {}
        (PointKind::Switch, _) => {
            let mut left = gangs;
            for (way, count) in ways(plan, id) {
                let count = if way == 1 { 0 } else { count.min(left) };
                left -= count;
                let which = if way == 2 { "two_way" } else { "intermediate" };
                let name = format!("switch mechanism, {}", which.replace('_', "-"));
                add(format!("{base}_{which}"), name, count);
            }
            add(format!("{base}_one_way"), "switch mechanism, one-way".to_owned(), left);
        }
        (PointKind::Dimmer, _) => add(base, "dimmer mechanism".to_owned(), gangs),
        (_, Family::Sockets) if gangs > 1 => {
            add(format!("{base}_{gangs}"), format!("{}, {gangs} gang", point.kind.name()), 1);
        }
        (_, Family::Lights) => add(base, point.kind.name().to_owned(), gangs),
        _ => add(base, point.kind.name().to_owned(), 1),
    }
}

/// How many controls a switch is one-way, two-way and intermediate in, by 1,
/// 2 and 3, the last first.
fn ways(plan: &Plan, id: PointId) -> Vec<(u8, u32)> {
    let mut counts: BTreeMap<u8, u32> = BTreeMap::new();
    for control in plan.controls.values() {
        let count = control.switches.len();
        let Some(at) = control.switches.iter().position(|switch| *switch == id) else { continue };
        let way = match count {
            0 | 1 => 1,
            _ if at == 0 || at + 1 == count => 2,
            _ => 3,
        };
        *counts.entry(way).or_default() += 1;
    }
    counts.into_iter().rev().collect()
}

/// The plate in front of a box: one with the point's gangs for sockets and
/// switches, a connection plate where a fixed appliance is wired.
fn plate(point: &Point) -> Option<Kind> {
    if !matches!(point.place, Some(Place::Wall(_))) {
        return None;
    }
    let gangs = point.gangs.max(1);
    let (code, name) = match (point.kind, point.kind.family()) {
        (PointKind::WeatherproofSocket, _) => return None,
        (_, Family::Sockets) | (PointKind::Switch | PointKind::Dimmer | PointKind::Isolator, _) => {
            (format!("plate_{gangs}"), format!("plate, {gangs} gang"))
        }
        (_, Family::Fixed) => ("plate_connection".to_owned(), "connection plate".to_owned()),
        _ => return None,
    };
    Some(Kind { group: ItemGroup::Plates, code, name, source: PRACTICE })
}

/// The code of a kind: its name in a plan file.
fn code(kind: PointKind) -> String {
    match serde_json::to_value(kind) {
        Ok(serde_json::Value::String(code)) => code,
        _ => String::new(),
    }
}

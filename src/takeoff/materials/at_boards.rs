//! Boards, their devices, and what is written on cables and ways.

use std::collections::BTreeSet;

use super::{ItemGroup, Kind, Tally};
use crate::plan::{Board, Device, Earthing, Plan};
use crate::takeoff::practice::{COUNTED, PRACTICE};
use crate::takeoff::{Origin, Quantity};
use crate::wording::{Local, Word};

pub(super) fn count(plan: &Plan, local: &Local, tally: &mut Tally) {
    let language = &local.language;
    for (id, board) in &plan.boards {
        let of = Origin::Board(*id);
        let (code, name) = board.ways.map_or_else(
            || ("board".to_owned(), "distribution board, ways not known yet".to_owned()),
            |ways| (format!("board_{ways}"), format!("distribution board, {ways} ways")),
        );
        tally.add(kind(ItemGroup::Boards, code, name), of, Quantity::Each(1));
        if let Some(rating) = board.supply.main_switch {
            let code = format!("main_switch_{}", rating.0);
            let name = format!("main switch, {} A", rating.0);
            tally.add(kind(ItemGroup::Boards, code, name), of, Quantity::Each(1));
        }
        earth(board, language, of, tally);
    }
    let mut shared = BTreeSet::new();
    for (id, circuit) in &plan.circuits {
        let of = Origin::Circuit(*id);
        if let Some(protects) = circuit.device {
            tally.add(device(protects, language), of, Quantity::Each(1));
        }
        let group = (circuit.board, circuit.rcd_group.clone());
        let own = circuit.device.is_some_and(|device| device.residual.is_some());
        if !circuit.rcd_group.is_empty() && !own && shared.insert(group) {
            let name = Word::SharedRcd.by(language).to_owned();
            tally.add(kind(ItemGroup::Boards, "rcd".to_owned(), name), of, Quantity::Each(1));
        }
        let label =
            kind(ItemGroup::Labels, "label_way".to_owned(), "label at the board".to_owned());
        tally.add(label, of, Quantity::Each(1));
    }
}

/// What earths a house, at the board where its supply comes in: that whose
/// earthing is known. An electrode where the supply leaves it to the house.
fn earth(board: &Board, language: &str, of: Origin, tally: &mut Tally) {
    let Some(earthing) = board.supply.earthing else { return };
    let mut add = |code: &str, name: &str, count: u32| {
        let part = Kind {
            group: ItemGroup::Boards,
            code: code.to_owned(),
            name: name.to_owned(),
            source: PRACTICE,
        };
        tally.add(part, of, Quantity::Each(count));
    };
    add("earth_terminal", Word::EarthTerminal.by(language), 1);
    let clamp = Word::BondingClamp.by(language);
    add("bonding_clamp", &format!("{clamp}, two to a house: check what there is"), 2);
    if matches!(earthing, Earthing::Men | Earthing::Tt) {
        let electrode = Word::EarthElectrode.by(language);
        add("earth_rod", electrode, 1);
        add("earth_rod_clamp", &format!("clamp and inspection pit for an {electrode}"), 1);
    }
}

fn device(device: Device, language: &str) -> Kind {
    let (code, name) = match device.residual {
        Some(_) => ("rcbo", Word::Rcbo.by(language)),
        None => ("breaker", Word::Breaker.by(language)),
    };
    let (curve, rating) = (device.curve, device.rating.0);
    let code = format!("{code}_{}{rating}", curve.letter().to_ascii_lowercase());
    kind(ItemGroup::Boards, code, format!("{name}, {curve} {rating} A"))
}

fn kind(group: ItemGroup, code: String, name: String) -> Kind {
    Kind { group, code, name, source: COUNTED }
}

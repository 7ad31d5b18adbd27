//! Invented stock and an invented price book.

use wirewend::plan::*;
use wirewend::units::{Cents, Mm};

use super::build::flat;

/// What every plan here says about itself.
pub(crate) const INVENTED: &str =
    "Invented house. Names, stock and prices are invented; nothing here is an offer.";

/// Drums of 100 m and 50 m of the sizes given, and a few off-cuts.
pub(crate) fn stock(sizes: &[u32]) -> Stock {
    let three = |size: u32| flat(size).with_cores(3);
    let mut drums = Vec::new();
    for size in sizes {
        for metres in [100, 50] {
            drums.push(drum(flat(*size), metres, *size));
        }
    }
    drums.push(drum(three(150), 100, 210));
    drums.push(drum(three(150), 50, 215));
    let off_cut = |cable: Cable, length: i64, label: &str| OffCut {
        cable,
        length: Mm::new(length),
        label: label.to_owned(),
    };
    Stock {
        drums,
        off_cuts: vec![
            off_cut(flat(250), 18_400, "van 1"),
            off_cut(flat(250), 7_300, "van 2"),
            off_cut(flat(150), 22_000, "van 3"),
            off_cut(three(150), 9_600, "van 4"),
        ],
        usable: Mm::new(2000),
    }
}

/// An invented price that rises with copper and falls a little with length.
fn drum(cable: Cable, metres: i64, copper: u32) -> Drum {
    let per_metre = 40 + i64::from(copper).div_euclid(2) + if metres < 100 { 10 } else { 0 };
    Drum { cable, length: Mm::new(metres * 1000), price: Some(Cents::new(per_metre * metres)) }
}

/// Invented prices of common materials and tasks.
pub(crate) fn prices(currency: &str, tax_permille: u16) -> PriceBook {
    let item = |code: &str, name: &str, unit: &str, price: i64| PriceItem {
        code: code.to_owned(),
        name: name.to_owned(),
        unit: unit.to_owned(),
        price: Cents::new(price),
    };
    PriceBook {
        currency: currency.to_owned(),
        tax_permille,
        margin_permille: 150,
        items: vec![
            item("socket", "socket-outlet, invented price", "each", 1_450),
            item("socket_2", "double socket-outlet, invented price", "each", 1_650),
            item(
                "weatherproof_socket",
                "weatherproof socket-outlet, invented price",
                "each",
                3_900,
            ),
            item("switch", "switch mechanism, invented price", "each", 620),
            item("dimmer", "dimmer mechanism, invented price", "each", 2_800),
            item("pull_cord", "pull-cord switch, invented price", "each", 1_200),
            item("isolator", "isolating switch, invented price", "each", 1_800),
            item("luminaire", "ceiling light, invented price", "each", 4_200),
            item("downlight", "downlight, invented price", "each", 2_650),
            item("wall_light", "wall light, invented price", "each", 3_800),
            item("linear_light", "linear light, invented price", "each", 4_600),
            item("smoke_alarm", "interlinked smoke alarm, invented price", "each", 6_900),
            item("heat_alarm", "interlinked heat alarm, invented price", "each", 7_200),
            item("exhaust_fan", "exhaust fan, invented price", "each", 8_500),
            item("plate", "plate, invented price", "each", 310),
            item("box", "wall box, invented price", "each", 240),
            item("junction_box", "junction box, invented price", "each", 380),
            item("bush", "bush, invented price", "each", 25),
            item("grommet", "grommet, invented price", "each", 15),
            item("gland", "gland, invented price", "each", 180),
            item("earth_terminal", "main earth terminal, invented price", "each", 1600),
            item("bonding_clamp", "bonding clamp, invented price", "each", 450),
            item("earth_rod", "earth rod with clamp, invented price", "each", 2400),
            item("clip", "cable clip, invented price", "each", 6),
            item("capping", "capping, invented price", "m", 90),
            item("trunking", "trunking, invented price", "m", 420),
            item("conduit", "conduit, invented price", "m", 260),
            item("board", "distribution board, invented price", "each", 14_500),
            item("main_switch", "main switch, invented price", "each", 3_200),
            item("breaker", "circuit-breaker, invented price", "each", 1_400),
            item("rcbo", "circuit-breaker with residual current, invented price", "each", 5_500),
            item("rcd", "residual-current device, invented price", "each", 6_200),
            item("label", "label, invented price", "each", 10),
            item("cable_2x4_round", "round cable 2 × 4 mm², invented price", "m", 395),
            item("chase", "chase in masonry or concrete, invented price", "m", 2_100),
            item("labour", "labour, invented price", "h", 9_000),
        ],
        labour: Labour::default(),
    }
}

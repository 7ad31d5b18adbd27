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
            item("socket", "double socket-outlet, invented price", "each", 1_450),
            item("switch", "switch plate, invented price", "each", 980),
            item("luminaire", "ceiling light, invented price", "each", 4_200),
            item("downlight", "downlight, invented price", "each", 2_650),
            item("smoke_alarm", "interlinked smoke alarm, invented price", "each", 6_900),
            item("box", "wall box, invented price", "each", 240),
            item("clip", "cable clip, invented price", "each", 6),
            item(
                "rcbo",
                "circuit-breaker with residual-current protection, invented price",
                "each",
                5_500,
            ),
            item("chase", "chase in masonry, invented price", "m", 2_100),
            item("labour", "labour, invented price", "h", 9_000),
        ],
        labour: Labour::default(),
    }
}

//! How many of what a room gets, and what they load a circuit with.

use crate::plan::PointKind;
use crate::rules::Tables;
use crate::rules::words::{RoomOrEntrance, Standard, TypicalOf};
use crate::units::Watts;

/// The count of an item by use and area, with its source: of the rows that
/// reach down to the area, the one that begins nearest below it.
pub(super) fn count(
    (tables, standard): (&Tables, Standard),
    usage: RoomOrEntrance,
    item: PointKind,
    area_m2: f64,
) -> (usize, String) {
    let of_item = tables
        .points_per_room
        .rows()
        .filter(|row| row.usage == usage && row.standard == standard && row.item == item);
    let mut best = None;
    for row in of_item.filter(|row| row.area_from.0 <= area_m2) {
        if best.is_none_or(|(from, _)| row.area_from > from) {
            best = Some((row.area_from, row));
        }
    }
    let Some((_, row)) = best else { return (0, String::new()) };
    (usize::try_from(row.count.0.min(MOST)).unwrap_or(0), row.credit())
}

/// More of one thing no room has.
const MOST: u32 = 1000;

/// The load of a kind whose plate rating is typical. None: the regime's figure
/// for its kind.
pub(super) fn load(tables: &Tables, kind: PointKind) -> Option<Watts> {
    let typical = match kind {
        PointKind::Oven => TypicalOf::Oven,
        PointKind::Cooktop => TypicalOf::Cooktop,
        PointKind::AirConditioner => TypicalOf::AirConditioner,
        PointKind::Appliance => TypicalOf::Appliance,
        _ => return None,
    };
    Some(tables.typical_load.row(typical).load)
}

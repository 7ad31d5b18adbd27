//! How many of what a room gets, and what they load a circuit with.

use super::kit::Kit;
use crate::plan::PointKind;

/// The count of an item by use and area, with its source. Rows of the regime
/// stand alone: they are not mixed with international ones.
pub(super) fn count(kit: &Kit<'_>, usage: &str, item: &str, area_m2: f64) -> (usize, String) {
    let standard = kit.options.standard.key();
    let mut best: Option<(f64, f64, String)> = None;
    for row in kit.rules.rows(kit.regime, "points_per_room") {
        if row.keys[0] != usage || row.keys[1] != standard || row.keys[2] != item {
            continue;
        }
        let from = row.key_number(3).unwrap_or(0.0);
        if from <= area_m2 && best.as_ref().is_none_or(|best| from > best.0) {
            best = Some((from, row.value(), row.credit()));
        }
    }
    let Some((_, count, credit)) = best else { return (0, String::new()) };
    (whole(count), credit)
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped")]
fn whole(count: f64) -> usize {
    count.clamp(0.0, 1000.0) as usize
}

/// The load of a kind whose plate rating is typical, W. None: the regime's
/// figure for its kind.
pub(super) fn load(kit: &Kit<'_>, kind: PointKind) -> Option<f64> {
    let key = match kind {
        PointKind::Oven => "oven",
        PointKind::Cooktop => "cooktop",
        PointKind::AirConditioner => "air_conditioner",
        PointKind::Appliance => "appliance",
        _ => return None,
    };
    kit.rules.row(kit.regime, "typical_load", &[key]).ok().map(|row| row.value())
}

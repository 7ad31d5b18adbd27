//! Sheets of a set, with how far they tell what was built.

use super::lettering::{Lettering, Weight, fitted};
use super::scene::{Group, Item, Layer, Scene};
use crate::runs::Built;

/// How long it may be at the head of a page, mm.
pub(super) const HEADING: f64 = 66.0;
/// And in its cell of the narrowest title block, mm.
const CELL: f64 = 27.5;

/// Writes into every sheet how much of it was built, counted in legs. A sheet
/// by itself knows the plan alone, and says no more than "as built in part".
pub fn state_sheets(scenes: &mut [Scene], built: &Built) {
    for scene in scenes {
        scene.items.iter_mut().for_each(|item| write(item, built));
    }
}

/// Writes it into whatever of one item is about it.
pub(super) fn write(item: &mut Item, built: &Built) {
    let Item::Group(group) = item else { return };
    match group.layer {
        Layer::Status => fill(group, built),
        Layer::TitleBlock | Layer::Notes => {
            group.items.iter_mut().for_each(|item| write(item, built));
        }
        _ => {}
    }
}

/// One line says all of it; of two, the second why.
fn fill(group: &mut Group, built: &Built) {
    let texts = group.items.iter_mut().filter_map(|item| match item {
        Item::Text(text) => Some(text),
        _ => None,
    });
    match &mut texts.collect::<Vec<_>>()[..] {
        [one] => one.content = fitted(&built.words(), HEADING, Lettering::Note, Weight::Regular),
        [first, second] => {
            built.stage.name().clone_into(&mut first.content);
            let because = built.because().unwrap_or_default();
            second.content = fitted(&because, CELL, Lettering::Tag, Weight::Regular);
        }
        _ => {}
    }
}

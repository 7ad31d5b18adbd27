//! How many things are wrong, said in every title block.

use kurbo::{Point, Rect};

use super::lettering::Lettering;
use super::scene::{Anchor, Item, Layer, Scene, Text, bounds};

/// What papers say of so many faults; None where there is none.
#[must_use]
pub fn faults_in_words(count: usize) -> Option<String> {
    let things = match count {
        0 => return None,
        1 => "1 thing".to_owned(),
        count => format!("{count} things"),
    };
    Some(format!("{things} to fix before work starts"))
}

/// Writes into every title block how many things must be mended before work
/// starts; nothing where there are none.
pub fn say_faults(scenes: &mut [Scene], count: usize) {
    let Some(words) = faults_in_words(count) else { return };
    let words = format!("{words}: see check");
    for item in scenes.iter_mut().flat_map(|scene| &mut scene.items) {
        let Item::Group(group) = item else { continue };
        if group.layer != Layer::TitleBlock {
            continue;
        }
        let Some(block) = bounds(&group.items) else { continue };
        group.items.push(line(&words, block).into());
    }
}

/// At the right of the first row, above the title.
fn line(words: &str, block: Rect) -> Text {
    let at = Point::new(block.x1 - 1.6, block.y0 + 3.8);
    Text::new(words, at, Lettering::Note).anchored(Anchor::End)
}

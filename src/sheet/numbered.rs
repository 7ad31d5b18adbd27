//! Sheets of a set, numbered.

use super::scene::{Group, Item, Layer, Scene};

/// Writes into every title block which sheet of how many it is.
pub fn number_sheets(scenes: &mut [Scene]) {
    let count = scenes.len();
    for (index, scene) in scenes.iter_mut().enumerate() {
        let number = format!("{} of {count}", index + 1);
        scene.items.iter_mut().for_each(|item| write(item, &number));
    }
}

fn write(item: &mut Item, number: &str) {
    let Item::Group(group) = item else { return };
    match group.layer {
        Layer::SheetNumber => fill(group, number),
        Layer::TitleBlock => group.items.iter_mut().for_each(|item| write(item, number)),
        _ => {}
    }
}

fn fill(group: &mut Group, number: &str) {
    for item in &mut group.items {
        if let Item::Text(text) = item {
            number.clone_into(&mut text.content);
        }
    }
}

//! What stands on a scene, for the tests of sheets and papers.

use kurbo::Rect;
use wirewend::plan::Subject;
use wirewend::sheet::{Group, Item, Layer, Scene, Text};

/// All lettering.
pub(crate) fn texts(items: &[Item]) -> Vec<&Text> {
    items
        .iter()
        .flat_map(|item| match item {
            Item::Text(text) => vec![text],
            Item::Path(_) => Vec::new(),
            Item::Group(group) => texts(&group.items),
        })
        .collect()
}

/// All groups, those within others included.
pub(crate) fn groups(items: &[Item]) -> Vec<&Group> {
    let mut found = Vec::new();
    for item in items {
        if let Item::Group(group) = item {
            found.push(group);
            found.extend(groups(&group.items));
        }
    }
    found
}

pub(crate) fn on_layer(scene: &Scene, layer: Layer) -> Vec<&Group> {
    groups(&scene.items).into_iter().filter(|group| group.layer == layer).collect()
}

/// What the groups stand for.
pub(crate) fn subjects(items: &[Item]) -> Vec<Subject> {
    groups(items).into_iter().filter_map(|group| group.subject).collect()
}

/// Whether two boxes run into each other.
pub(crate) fn overlap(one: Rect, other: Rect) -> bool {
    let both = one.intersect(other);
    both.width() > 0.01 && both.height() > 0.01
}

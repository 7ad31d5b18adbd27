//! Lettering put where nothing else stands.

use kurbo::Rect;

use super::scene::{Group, Item, Text};

/// What is taken on a drawing.
#[derive(Clone, Debug, Default)]
pub(crate) struct Clear {
    taken: Vec<Rect>,
}

impl Clear {
    /// Takes a place.
    pub(crate) fn take(&mut self, place: Rect) {
        self.taken.push(place);
    }

    /// The first of these that runs into nothing, and takes its place. None
    /// where all do.
    pub(crate) fn place(&mut self, ways: impl IntoIterator<Item = Text>) -> Option<Text> {
        let found = ways.into_iter().find(|text| self.is_free(text))?;
        self.take(found.bounds());
        Some(found)
    }

    /// The same for letterings of several lines.
    pub(crate) fn place_all<'a>(
        &mut self,
        ways: impl IntoIterator<Item = &'a Vec<Text>>,
    ) -> Option<Vec<Text>> {
        let found = ways.into_iter().find(|texts| texts.iter().all(|text| self.is_free(text)))?;
        for text in found {
            self.take(text.bounds());
        }
        Some(found.clone())
    }

    /// Whether a text runs into nothing.
    pub(crate) fn is_free(&self, text: &Text) -> bool {
        let around = text.bounds().inflate(0.3, 0.3);
        !self.taken.iter().any(|taken| overlap(*taken, around))
    }
}

/// The same marks, each lettering that runs into an earlier one moved up or
/// down by as little as will do.
pub(crate) fn settled(items: Vec<Item>) -> Vec<Item> {
    let mut clear = Clear::default();
    items.into_iter().map(|item| clear.settle(item)).collect()
}

impl Clear {
    fn settle(&mut self, item: Item) -> Item {
        match item {
            Item::Path(_) => item,
            Item::Text(text) => {
                let ways = std::iter::once(0.0)
                    .chain((1..=24_i32).flat_map(|step| [f64::from(step), -f64::from(step)]))
                    .map(|steps| moved(&text, steps * 1.9));
                self.place(ways).unwrap_or(text).into()
            }
            Item::Group(group) => {
                let items = group.items.into_iter().map(|item| self.settle(item)).collect();
                Group { items, ..group }.into()
            }
        }
    }

    /// As [`Clear::place`]; where all ways are taken, the first of them moved
    /// upwards until it is clear.
    pub(crate) fn place_near(&mut self, ways: impl IntoIterator<Item = Text>) -> Option<Text> {
        let ways: Vec<Text> = ways.into_iter().collect();
        let first = ways.first()?.clone();
        let lifted = (1..=40_i32).map(|step| moved(&first, f64::from(step) * -1.9));
        self.place(ways.into_iter().chain(lifted))
    }
}

fn moved(text: &Text, down: f64) -> Text {
    Text { at: text.at + kurbo::Vec2::new(0.0, down), ..text.clone() }
}

/// Whether two boxes run into each other.
pub(crate) fn overlap(one: Rect, other: Rect) -> bool {
    one.x0 < other.x1 && other.x0 < one.x1 && one.y0 < other.y1 && other.y0 < one.y1
}

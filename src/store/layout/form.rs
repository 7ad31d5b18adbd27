//! The layout as it stands in the file, in whole millimetres.

use serde::{Deserialize, Deserializer, de};

use super::error::{LAYOUT_BYTES_MAX, LAYOUT_PARTS_MAX, LayoutError};
use crate::units::{Mm, Point2};

/// A layout.
#[derive(Clone, Debug, Default, Deserialize)]
pub(in crate::store) struct Layout {
    #[serde(default)]
    pub(in crate::store) name: String,
    #[serde(default)]
    pub(in crate::store) source: String,
    #[serde(default)]
    pub(in crate::store) licence: String,
    #[serde(default = "metres")]
    units: String,
    pub(in crate::store) levels: Vec<FormLevel>,
}

fn metres() -> String {
    "m".to_owned()
}

/// A level of a layout.
#[derive(Clone, Debug, Default, Deserialize)]
pub(in crate::store) struct FormLevel {
    #[serde(default)]
    pub(in crate::store) name: String,
    #[serde(deserialize_with = "length")]
    pub(in crate::store) elevation: Mm,
    #[serde(deserialize_with = "length")]
    pub(in crate::store) height: Mm,
    #[serde(default)]
    pub(in crate::store) walls: Vec<FormWall>,
    #[serde(default)]
    pub(in crate::store) openings: Vec<FormOpening>,
    #[serde(default)]
    pub(in crate::store) rooms: Vec<FormRoom>,
    #[serde(default)]
    pub(in crate::store) fixtures: Vec<FormFixture>,
}

/// A wall of a layout.
#[derive(Clone, Debug, Default, Deserialize)]
pub(in crate::store) struct FormWall {
    #[serde(deserialize_with = "place")]
    pub(in crate::store) a: Point2,
    #[serde(deserialize_with = "place")]
    pub(in crate::store) b: Point2,
    #[serde(deserialize_with = "length")]
    pub(in crate::store) thickness: Mm,
    #[serde(default)]
    pub(in crate::store) kind: String,
    /// Its foot above the level's floor.
    #[serde(default, deserialize_with = "length")]
    pub(in crate::store) base: Mm,
    /// Its own height.
    #[serde(default, deserialize_with = "length_or_none")]
    pub(in crate::store) height: Option<Mm>,
    /// Where it stands in the layout.
    #[serde(skip)]
    pub(in crate::store) part: String,
}

/// An opening of a layout.
#[derive(Clone, Debug, Default, Deserialize)]
pub(in crate::store) struct FormOpening {
    pub(in crate::store) kind: String,
    #[serde(default)]
    pub(in crate::store) subtype: String,
    pub(in crate::store) wall: usize,
    #[serde(deserialize_with = "place")]
    pub(in crate::store) at: Point2,
    #[serde(deserialize_with = "length")]
    pub(in crate::store) width: Mm,
    #[serde(deserialize_with = "length")]
    pub(in crate::store) sill: Mm,
    #[serde(deserialize_with = "length")]
    pub(in crate::store) head: Mm,
    /// How a door is hung, where that is known.
    #[serde(default)]
    pub(in crate::store) hinge: Option<FormHinge>,
    /// Where it stands in the layout.
    #[serde(skip)]
    pub(in crate::store) part: String,
}

/// How a door is hung.
#[derive(Clone, Copy, Debug, Deserialize)]
pub(in crate::store) struct FormHinge {
    /// The edge of the door at which its hinges are.
    #[serde(deserialize_with = "place")]
    pub(in crate::store) at: Point2,
    /// A place on the side to which it opens.
    #[serde(deserialize_with = "place")]
    pub(in crate::store) opens: Point2,
}

/// A room of a layout.
#[derive(Clone, Debug, Default, Deserialize)]
pub(in crate::store) struct FormRoom {
    #[serde(default)]
    pub(in crate::store) name: String,
    #[serde(default, rename = "type")]
    pub(in crate::store) kind: String,
    #[serde(default)]
    pub(in crate::store) polygon: Vec<Corner>,
    /// Where it stands in the layout.
    #[serde(skip)]
    pub(in crate::store) part: String,
}

/// Something that stands in a room of a layout.
#[derive(Clone, Debug, Default, Deserialize)]
pub(in crate::store) struct FormFixture {
    pub(in crate::store) kind: String,
    #[serde(deserialize_with = "place")]
    pub(in crate::store) at: Point2,
    /// Where it stands in the layout.
    #[serde(skip)]
    pub(in crate::store) part: String,
}

/// A corner of a room.
#[derive(Clone, Debug, Default, Deserialize)]
pub(in crate::store) struct Corner(
    #[serde(deserialize_with = "place")] pub(in crate::store) Point2,
);

impl Layout {
    /// A layout that was not read from this form.
    pub(in crate::store) fn of(name: String, levels: Vec<FormLevel>) -> Self {
        Self { name, units: metres(), levels, ..Self::default() }
    }
}

/// Reads the text of a layout.
pub(super) fn read(text: &str) -> Result<Layout, LayoutError> {
    if text.len() > LAYOUT_BYTES_MAX {
        return Err(LayoutError::TooLarge { bytes: text.len() });
    }
    let mut json = serde_json::Deserializer::from_str(text);
    let layout: Layout = serde_path_to_error::deserialize(&mut json).map_err(|error| {
        let part = error.path().to_string();
        at_place(&error.into_inner(), part)
    })?;
    json.end().map_err(|error| at_place(&error, String::new()))?;
    check(layout).map(numbered)
}

fn at_place(error: &serde_json::Error, part: String) -> LayoutError {
    let problem = error.to_string();
    let problem = problem.split(" at line ").next().unwrap_or_default().to_owned();
    LayoutError::Form { line: error.line(), column: error.column(), part, problem }
}

/// What a layout from anywhere has to keep to.
pub(super) fn check(layout: Layout) -> Result<Layout, LayoutError> {
    if layout.units != "m" {
        return Err(LayoutError::Units { found: layout.units });
    }
    if layout.levels.is_empty() {
        return Err(LayoutError::NoLevel);
    }
    let of = |level: &FormLevel| {
        level.walls.len() + level.openings.len() + level.rooms.len() + level.fixtures.len() + 1
    };
    let parts: usize = layout.levels.iter().map(of).sum();
    if parts > LAYOUT_PARTS_MAX {
        return Err(LayoutError::TooMany { parts });
    }
    Ok(layout)
}

/// Every wall, opening, room and fixture with its place in the layout, by which notes name it
/// even after it has moved.
fn numbered(mut layout: Layout) -> Layout {
    for (number, level) in layout.levels.iter_mut().enumerate() {
        for (index, wall) in level.walls.iter_mut().enumerate() {
            wall.part = format!("levels[{number}].walls[{index}]");
        }
        for (index, opening) in level.openings.iter_mut().enumerate() {
            opening.part = format!("levels[{number}].openings[{index}]");
        }
        for (index, room) in level.rooms.iter_mut().enumerate() {
            room.part = format!("levels[{number}].rooms[{index}]");
        }
        for (index, fixture) in level.fixtures.iter_mut().enumerate() {
            fixture.part = format!("levels[{number}].fixtures[{index}]");
        }
    }
    layout
}

/// Metres as a number, to the nearest whole millimetre.
fn length<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Mm, D::Error> {
    millimetres(f64::deserialize(deserializer)?)
}

fn length_or_none<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Option<Mm>, D::Error> {
    Option::<f64>::deserialize(deserializer)?.map(millimetres).transpose()
}

/// `[x, y]` in metres, each to the nearest whole millimetre.
fn place<'de, D: Deserializer<'de>>(deserializer: D) -> Result<Point2, D::Error> {
    let [x, y] = <[f64; 2]>::deserialize(deserializer)?;
    Ok(Point2 { x: millimetres(x)?, y: millimetres(y)? })
}

fn millimetres<E: de::Error>(metres: f64) -> Result<Mm, E> {
    Mm::from_f64(metres * 1000.0)
        .ok()
        .filter(|length| length.abs() <= Mm::COORDINATE_MAX)
        .ok_or_else(|| {
            E::custom(format_args!("{metres} m is beyond the 10000 m that a plan may reach"))
        })
}

//! The layout as it stands in the file, in whole millimetres.

use serde::{Deserialize, Deserializer, de};

use super::{LAYOUT_BYTES_MAX, LAYOUT_PARTS_MAX, LayoutError};
use crate::units::{Mm, Point2};

/// A layout.
#[derive(Debug, Deserialize)]
pub(super) struct Layout {
    #[serde(default)]
    pub(super) name: String,
    #[serde(default)]
    pub(super) source: String,
    #[serde(default)]
    pub(super) licence: String,
    #[serde(default = "metres")]
    units: String,
    pub(super) levels: Vec<FormLevel>,
}

fn metres() -> String {
    "m".to_owned()
}

/// A level of a layout.
#[derive(Debug, Deserialize)]
pub(super) struct FormLevel {
    #[serde(default)]
    pub(super) name: String,
    #[serde(deserialize_with = "length")]
    pub(super) elevation: Mm,
    #[serde(deserialize_with = "length")]
    pub(super) height: Mm,
    #[serde(default)]
    pub(super) walls: Vec<FormWall>,
    #[serde(default)]
    pub(super) openings: Vec<FormOpening>,
    #[serde(default)]
    pub(super) rooms: Vec<FormRoom>,
}

/// A wall of a layout.
#[derive(Debug, Deserialize)]
pub(super) struct FormWall {
    #[serde(deserialize_with = "place")]
    pub(super) a: Point2,
    #[serde(deserialize_with = "place")]
    pub(super) b: Point2,
    #[serde(deserialize_with = "length")]
    pub(super) thickness: Mm,
    #[serde(default)]
    pub(super) kind: String,
    /// Its foot above the level's floor.
    #[serde(default, deserialize_with = "length")]
    pub(super) base: Mm,
    /// Its own height.
    #[serde(default, deserialize_with = "length_or_none")]
    pub(super) height: Option<Mm>,
    /// Where it stands in the layout.
    #[serde(skip)]
    pub(super) part: String,
}

/// An opening of a layout.
#[derive(Debug, Deserialize)]
pub(super) struct FormOpening {
    pub(super) kind: String,
    #[serde(default)]
    pub(super) subtype: String,
    pub(super) wall: usize,
    #[serde(deserialize_with = "place")]
    pub(super) at: Point2,
    #[serde(deserialize_with = "length")]
    pub(super) width: Mm,
    #[serde(deserialize_with = "length")]
    pub(super) sill: Mm,
    #[serde(deserialize_with = "length")]
    pub(super) head: Mm,
    /// Where it stands in the layout.
    #[serde(skip)]
    pub(super) part: String,
}

/// A room of a layout.
#[derive(Debug, Deserialize)]
pub(super) struct FormRoom {
    #[serde(default)]
    pub(super) name: String,
    #[serde(default, rename = "type")]
    pub(super) kind: String,
    #[serde(default)]
    pub(super) polygon: Vec<Corner>,
}

/// A corner of a room.
#[derive(Debug, Deserialize)]
pub(super) struct Corner(#[serde(deserialize_with = "place")] pub(super) Point2);

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

fn check(layout: Layout) -> Result<Layout, LayoutError> {
    if layout.units != "m" {
        return Err(LayoutError::Units { found: layout.units });
    }
    if layout.levels.is_empty() {
        return Err(LayoutError::NoLevel);
    }
    let of = |level: &FormLevel| level.walls.len() + level.openings.len() + level.rooms.len() + 1;
    let parts: usize = layout.levels.iter().map(of).sum();
    if parts > LAYOUT_PARTS_MAX {
        return Err(LayoutError::TooMany { parts });
    }
    Ok(layout)
}

/// Every wall and opening with its place in the layout, by which notes name it
/// even after it has moved.
fn numbered(mut layout: Layout) -> Layout {
    for (number, level) in layout.levels.iter_mut().enumerate() {
        for (index, wall) in level.walls.iter_mut().enumerate() {
            wall.part = format!("levels[{number}].walls[{index}]");
        }
        for (index, opening) in level.openings.iter_mut().enumerate() {
            opening.part = format!("levels[{number}].openings[{index}]");
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

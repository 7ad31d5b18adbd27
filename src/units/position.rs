//! Places in the plan and in space.

use std::ops::{Add, Sub};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Mm;

/// A place on a floor, `x` right and `y` up the page; in a file `[x, y]`.
#[derive(
    Clone,
    Copy,
    Debug,
    Default,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    JsonSchema,
)]
#[serde(from = "[Mm; 2]", into = "[Mm; 2]")]
#[schemars(with = "[Mm; 2]")]
pub struct Point2 {
    /// To the right.
    pub x: Mm,
    /// Up the page.
    pub y: Mm,
}

/// A place in the building, `z` up from the lowest finished floor; in a file
/// `[x, y, z]`.
#[derive(
    Clone,
    Copy,
    Debug,
    Default,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    JsonSchema,
)]
#[serde(from = "[Mm; 3]", into = "[Mm; 3]")]
#[schemars(with = "[Mm; 3]")]
pub struct Point3 {
    /// To the right.
    pub x: Mm,
    /// Up the page.
    pub y: Mm,
    /// Up from the lowest finished floor.
    pub z: Mm,
}

impl Point2 {
    /// From whole millimetres.
    #[must_use]
    pub const fn new(x: i64, y: i64) -> Self {
        Self { x: Mm::new(x), y: Mm::new(y) }
    }

    /// The place at this height above (or below) it.
    #[must_use]
    pub const fn at_height(self, z: Mm) -> Point3 {
        Point3 { x: self.x, y: self.y, z }
    }

    /// As the crow flies, in millimetres.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        libm::hypot((other.x - self.x).to_f64(), (other.y - self.y).to_f64())
    }
}

impl Point3 {
    /// From whole millimetres.
    #[must_use]
    pub const fn new(x: i64, y: i64, z: i64) -> Self {
        Self { x: Mm::new(x), y: Mm::new(y), z: Mm::new(z) }
    }

    /// Seen from above.
    #[must_use]
    pub const fn on_floor(self) -> Point2 {
        Point2 { x: self.x, y: self.y }
    }

    /// As the crow flies, in millimetres.
    #[must_use]
    pub fn distance(self, other: Self) -> f64 {
        libm::hypot(self.on_floor().distance(other.on_floor()), (other.z - self.z).to_f64())
    }
}

impl Add for Point2 {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self { x: self.x + other.x, y: self.y + other.y }
    }
}

impl Sub for Point2 {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self { x: self.x - other.x, y: self.y - other.y }
    }
}

impl From<[Mm; 2]> for Point2 {
    fn from([x, y]: [Mm; 2]) -> Self {
        Self { x, y }
    }
}

impl From<Point2> for [Mm; 2] {
    fn from(point: Point2) -> Self {
        [point.x, point.y]
    }
}

impl From<[Mm; 3]> for Point3 {
    fn from([x, y, z]: [Mm; 3]) -> Self {
        Self { x, y, z }
    }
}

impl From<Point3> for [Mm; 3] {
    fn from(point: Point3) -> Self {
        [point.x, point.y, point.z]
    }
}

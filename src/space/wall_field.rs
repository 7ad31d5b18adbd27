//! A wall as a plane: its columns, its rows, and what blocks them.

use super::Rect;
use crate::plan::{WallBuild, WallId};
use crate::units::{Mm, Point2};

/// A wall by the distance along it and the height.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WallField {
    /// The wall it stands for.
    pub id: WallId,
    /// What it is made of.
    pub build: WallBuild,
    /// Whether insulation fills it, and how thick it is then.
    pub insulation: Mm,
    /// One end of its centre line.
    pub a: Point2,
    /// The other end of its centre line.
    pub b: Point2,
    /// Its length, mm.
    pub length: i64,
    /// The height of its foot.
    pub floor: i64,
    /// The height of its top.
    pub ceiling: i64,
    /// Rectangles (along, height) whose open inside is forbidden.
    pub blocked: Vec<Rect>,
    /// Where cables may go upright.
    pub columns: Vec<Column>,
    /// The heights at which cables may go sideways.
    pub rows: Vec<i64>,
    /// One millimetre sideways inside it, hundredths.
    pub sideways: i64,
    /// The voids that its top can reach, by index.
    pub above: Vec<usize>,
    /// The voids that its foot can reach, by index.
    pub below: Vec<usize>,
}

/// A line in a wall along which cables may go upright.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Column {
    /// How far along the wall.
    pub along: i64,
    /// Whether legs that end elsewhere may pass by it.
    pub through: bool,
}

/// Where two walls meet: cables turn from a column of one into a column of
/// the other.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Meet {
    /// A wall and how far along it the column is.
    pub one: (usize, i64),
    /// The other wall and how far along it the column is.
    pub other: (usize, i64),
    /// Where the centre lines meet.
    pub at: Point2,
}

impl WallField {
    /// The place on the page so far along the wall.
    #[must_use]
    pub fn page(&self, along: i64) -> Point2 {
        if self.length == 0 {
            return self.a;
        }
        let share = Mm::new(along).to_f64() / self.a.distance(self.b);
        let step = self.b - self.a;
        let round = |value: f64| Mm::from_f64(value).unwrap_or(Mm::ZERO);
        Point2 {
            x: self.a.x + round(step.x.to_f64() * share),
            y: self.a.y + round(step.y.to_f64() * share),
        }
    }

    /// Whether an upright stretch is free.
    #[must_use]
    pub fn upright_free(&self, along: i64, z0: i64, z1: i64) -> bool {
        !self.blocked.iter().any(|rect| rect.blocks_upright(along, z0, z1))
    }

    /// Whether a sideways stretch is free.
    #[must_use]
    pub fn sideways_free(&self, z: i64, from: i64, to: i64) -> bool {
        !self.blocked.iter().any(|rect| rect.blocks_sideways(z, from, to))
    }

    /// Whether a sideways stretch from a column to a corner is free.
    #[must_use]
    pub fn corner_free(&self, z: i64, column: i64, corner: Point2) -> bool {
        let reach = Mm::from_f64(self.page(column).distance(corner)).unwrap_or(Mm::ZERO).get();
        let ahead = self.page(column + 1).distance(corner) < self.page(column).distance(corner);
        let end = if ahead { column + reach } else { column - reach };
        self.sideways_free(z, column.min(end), column.max(end))
    }

    /// Whether the two centre lines are parallel, so that going from one wall
    /// into the other is no bend.
    #[must_use]
    pub fn is_parallel_to(&self, other: &Self) -> bool {
        let (d, e) = (self.b - self.a, other.b - other.a);
        let (dx, dy, ex, ey) = (d.x.to_f64(), d.y.to_f64(), e.x.to_f64(), e.y.to_f64());
        let cross = (dx * ey - dy * ex).abs();
        // One millimetre in a metre: what rounding the ends can turn a wall by.
        cross <= 1.0e-3 * libm::hypot(dx, dy) * libm::hypot(ex, ey)
    }
}

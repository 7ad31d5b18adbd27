//! Hatching by what a wall is made of.
//!
//! Lines at half a right angle for masonry and strokes for concrete follow the
//! habit of building drawings (ISO 128-3 leaves the choice to a legend); framed
//! walls stay plain, so that the cables in them can be read.

use geo::{BooleanOps, BoundingRect, LineString, MultiLineString, MultiPolygon};
use kurbo::{BezPath, Point, Rect, Vec2};

use crate::plan::WallBuild;
use crate::sheet::scene::{Item, LinePattern, Mark, Stroke};
use crate::sheet::{Ink, pen};

/// How an area is hatched.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::sheet) enum Hatch {
    /// Not at all.
    Plain,
    /// Parallel lines, turned by this from the slant, at these gaps by turns, mm.
    Lines {
        /// Radians from the slant.
        turn: f64,
        /// From one line to the next, mm, by turns.
        gaps: &'static [f64],
        /// Their dashes.
        pattern: LinePattern,
    },
    /// Two sets of lines square to each other.
    Crossed {
        /// From one line to the next, mm.
        gap: f64,
    },
    /// Short strokes, scattered.
    Strokes,
}

const WIDTH: f64 = 0.13;

impl Hatch {
    /// That of a build.
    pub(in crate::sheet) const fn of(build: WallBuild) -> Self {
        const QUARTER: f64 = core::f64::consts::FRAC_PI_2;
        use LinePattern::{Dashed, Solid};
        match build {
            WallBuild::Concrete => Self::Strokes,
            WallBuild::SolidMasonry => Self::Lines { turn: 0.0, gaps: &[1.1], pattern: Solid },
            WallBuild::DoubleBrick => Self::Crossed { gap: 1.6 },
            WallBuild::CavityMasonry => {
                Self::Lines { turn: 0.0, gaps: &[0.5, 1.7], pattern: Solid }
            }
            WallBuild::BrickVeneer => Self::Lines { turn: 0.0, gaps: &[2.6], pattern: Solid },
            WallBuild::LathAndPlaster => {
                Self::Lines { turn: QUARTER, gaps: &[1.3], pattern: Dashed }
            }
            WallBuild::Stud | WallBuild::Screen => Self::Plain,
        }
    }

    /// The marks that fill an area.
    pub(in crate::sheet) fn fill(self, area: &MultiPolygon<f64>, slant: f64) -> Vec<Item> {
        let Some(bounds) = area.bounding_rect() else { return Vec::new() };
        let (min, max) = (bounds.min(), bounds.max());
        let (lines, pattern) = self.lines(Rect::new(min.x, min.y, max.x, max.y), slant);
        if lines.is_empty() { Vec::new() } else { clipped(&lines, area, pattern) }
    }

    /// The marks that fill an upright box.
    pub(in crate::sheet) fn fill_box(self, area: Rect, slant: f64) -> Vec<Item> {
        let (lines, pattern) = self.lines(area, slant);
        let mut path = BezPath::new();
        for (from, to) in lines.into_iter().filter_map(|line| within(line, area)) {
            path.move_to(from);
            path.line_to(to);
        }
        marks(path, pattern)
    }

    /// The lines over a box around an area, and how they are dashed.
    fn lines(self, around: Rect, slant: f64) -> (Vec<Line>, LinePattern) {
        match self {
            Self::Plain => (Vec::new(), LinePattern::Solid),
            Self::Lines { turn, gaps, pattern } => (parallels(around, slant + turn, gaps), pattern),
            Self::Crossed { gap } => {
                let square = core::f64::consts::FRAC_PI_2;
                let mut lines = parallels(around, slant, &[gap]);
                lines.extend(parallels(around, slant + square, &[gap]));
                (lines, LinePattern::Solid)
            }
            Self::Strokes => (strokes(around), LinePattern::Solid),
        }
    }
}

type Line = (Point, Point);

/// Lines at a slant over the box around an area. They are counted from the
/// paper's origin, so that hatching does not jump where walls are edited.
fn parallels(around: Rect, slant: f64, gaps: &[f64]) -> Vec<Line> {
    let along = Vec2::new(libm::cos(slant), libm::sin(slant));
    let across = pen::square_to(along);
    let centre =
        Point::new(f64::midpoint(around.x0, around.x1), f64::midpoint(around.y0, around.y1));
    let reach = libm::hypot(around.width(), around.height()) / 2.0 + 1.0;
    let middle = centre.to_vec2().dot(across);
    let step: f64 = gaps.iter().sum();
    let mut offset = libm::floor((middle - reach) / step) * step;
    let mut lines = Vec::new();
    let mut turn = gaps.iter().cycle();
    while offset < middle + reach {
        let foot = centre + across * (offset - middle);
        lines.push((foot - along * reach, foot + along * reach));
        offset += turn.next().copied().unwrap_or(step);
    }
    lines
}

/// Short strokes scattered by a fixed rule over the box around an area.
fn strokes(around: Rect) -> Vec<Line> {
    const CELL: f64 = 1.2;
    let mut lines = Vec::new();
    let mut row = libm::floor(around.y0 / CELL);
    while row * CELL < around.y1 {
        let mut column = libm::floor(around.x0 / CELL);
        while column * CELL < around.x1 {
            let shake = |seed: f64| {
                (libm::sin(column * 12.9898 + row * 78.233 + seed) * 43.7).rem_euclid(1.0)
            };
            let at = Point::new((column + shake(0.0)) * CELL, (row + shake(1.0)) * CELL);
            let angle = shake(2.0) * core::f64::consts::PI;
            let half = Vec2::new(libm::cos(angle), libm::sin(angle)) * 0.22;
            lines.push((at - half, at + half));
            column += 1.0;
        }
        row += 1.0;
    }
    lines
}

/// What of the lines lies inside the area, as one mark.
fn clipped(lines: &[Line], area: &MultiPolygon<f64>, pattern: LinePattern) -> Vec<Item> {
    let strings: Vec<LineString<f64>> = lines
        .iter()
        .map(|(from, to)| LineString::from(vec![(from.x, from.y), (to.x, to.y)]))
        .collect();
    let inside = area.clip(&MultiLineString::new(strings), false);
    let mut path = BezPath::new();
    for string in &inside {
        let places: Vec<Point> = string.coords().map(|at| Point::new(at.x, at.y)).collect();
        path.extend(pen::polyline(&places));
    }
    marks(path, pattern)
}

/// What of a line lies in an upright box.
fn within((from, to): Line, area: Rect) -> Option<Line> {
    let along = to - from;
    let (mut first, mut last) = (0.0_f64, 1.0_f64);
    for (at, step, low, high) in
        [(from.x, along.x, area.x0, area.x1), (from.y, along.y, area.y0, area.y1)]
    {
        if step.abs() < 1e-9 {
            if at < low || high < at {
                return None;
            }
            continue;
        }
        let (one, other) = ((low - at) / step, (high - at) / step);
        first = first.max(one.min(other));
        last = last.min(one.max(other));
    }
    (first < last).then(|| (from + along * first, from + along * last))
}

/// Lines as one mark.
fn marks(path: BezPath, pattern: LinePattern) -> Vec<Item> {
    if path.elements().is_empty() {
        return Vec::new();
    }
    vec![Mark::line(path, Stroke { ink: Ink::DARK_GREY, width: WIDTH, pattern }).into()]
}

//! What is drawn over the sheet while the hand moves, in pixels.

use kurbo::{BezPath, Point, Rect, Shape as _};

/// How a line of a sketch is drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Touch {
    /// What would be drawn.
    New,
    /// What shows why the pen holds on.
    Guide,
    /// What is chosen.
    Chosen,
    /// What the pointer is over.
    Over,
}

/// Lines and labels in pixels.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Sketch {
    /// Lines, pixels.
    pub lines: Vec<(BezPath, Touch)>,
    /// Words and where they stand, pixels.
    pub labels: Vec<(Point, String)>,
}

impl Sketch {
    /// A straight line.
    pub fn line(&mut self, from: Point, to: Point, touch: Touch) {
        let mut path = BezPath::new();
        path.move_to(from);
        path.line_to(to);
        self.lines.push((path, touch));
    }

    /// A small ring.
    pub fn ring(&mut self, at: Point, radius: f64, touch: Touch) {
        self.lines.push((kurbo::Circle::new(at, radius).to_path(0.2), touch));
    }

    /// A box with round corners.
    pub fn frame(&mut self, around: Rect, touch: Touch) {
        self.lines.push((around.to_rounded_rect(3.0).to_path(0.2), touch));
    }
}

//! From the plan to the paper.

use kurbo::{Point, Rect, Vec2};

use crate::sheet::Scale;
use crate::units::Point2;

/// Where a plan lies on the paper, and how large.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct View {
    scale: Scale,
    /// The place on paper of the plan's origin.
    origin: Vec2,
}

impl View {
    /// The plan's `ground` in the middle of a space on paper.
    pub(super) fn centred(ground: Rect, space: Rect, scale: Scale) -> Self {
        let per = scale.paper_per_plan();
        let (centre, middle) = (space.center(), ground.center());
        // Whole millimetres of paper: positions read the same however large
        // the plan is.
        let origin = Vec2::new(
            libm::round(centre.x - middle.x * per),
            libm::round(centre.y + middle.y * per),
        );
        Self { scale, origin }
    }

    /// The plan's origin in the paper's: where a drawing lies does not depend
    /// on how far it reaches.
    pub(super) const fn anchored(scale: Scale) -> Self {
        Self { scale, origin: Vec2::ZERO }
    }

    /// The same about the plan's origin, and how far that one lies from it.
    pub(super) const fn unanchored(&self) -> (Self, Vec2) {
        (Self::anchored(self.scale), self.origin)
    }

    /// A length on paper, mm.
    pub(super) fn length(&self, plan: f64) -> f64 {
        plan * self.scale.paper_per_plan()
    }

    /// A length of the plan, mm, from one on paper.
    pub(super) fn back_length(&self, paper: f64) -> f64 {
        paper * f64::from(self.scale.reduction())
    }

    /// A place on paper.
    pub(super) fn point(&self, at: Point2) -> Point {
        self.at(at.x.to_f64(), at.y.to_f64())
    }

    /// A place on paper, from coordinates that need not be whole.
    pub(super) fn at(&self, x: f64, y: f64) -> Point {
        let per = f64::from(self.scale.reduction());
        Point::new(self.origin.x + x / per, self.origin.y - y / per)
    }

    /// The place of the plan at a place on paper, mm.
    pub(super) fn back(&self, at: Point) -> (f64, f64) {
        let per = f64::from(self.scale.reduction());
        ((at.x - self.origin.x) * per, (self.origin.y - at.y) * per)
    }

    /// A direction on paper.
    pub(super) fn direction((x, y): (f64, f64)) -> Vec2 {
        Vec2::new(x, -y)
    }
}

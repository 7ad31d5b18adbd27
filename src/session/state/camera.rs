//! From the plan to the screen and back.

use kurbo::{Point, Rect, Vec2};

use crate::session::ground::places::exact;
use crate::units::Point2;

/// The reduction at which the sheet is drawn: lettering and symbols have the
/// size that they have on paper at 1:50.
pub const REDUCTION: f64 = 50.0;
/// Pixels for a millimetre of paper: from a whole street to a single box.
const ZOOM: (f64, f64) = (0.15, 40.0);

/// Where the plan lies on the screen, and how large.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Camera {
    /// Where the plan's origin is, pixels.
    pub origin: Point,
    /// Pixels for a millimetre of paper.
    pub zoom: f64,
}

impl Default for Camera {
    fn default() -> Self {
        Self { origin: Point::new(200.0, 500.0), zoom: 3.0 }
    }
}

impl Camera {
    /// A place of the plan, mm and not rounded, on the screen.
    pub fn screen(self, at: Point) -> Point {
        let per = self.zoom / REDUCTION;
        Point::new(self.origin.x + at.x * per, self.origin.y - at.y * per)
    }

    /// A place of the model on the screen.
    pub fn screen_of(self, at: Point2) -> Point {
        self.screen(exact(at))
    }

    /// What lies under a place on the screen, mm of the plan.
    pub fn plan(self, at: Point) -> Point {
        let per = REDUCTION / self.zoom;
        Point::new((at.x - self.origin.x) * per, (self.origin.y - at.y) * per)
    }

    /// So many pixels as mm of the plan.
    pub fn reach(self, pixels: f64) -> f64 {
        pixels * REDUCTION / self.zoom
    }

    /// A place on paper on the screen.
    pub fn paper(self, at: Point) -> Point {
        self.origin + at.to_vec2() * self.zoom
    }

    /// The part of the paper that a surface of this size shows.
    pub fn shown(self, width: f64, height: f64) -> Rect {
        let corner = (Point::ORIGIN - self.origin) / self.zoom;
        Rect::from_origin_size(corner.to_point(), (width / self.zoom, height / self.zoom))
    }

    /// Moved by so many pixels.
    pub fn moved(self, by: Vec2) -> Self {
        Self { origin: self.origin + by, ..self }
    }

    /// Larger or smaller, what lies under `about` staying where it is.
    pub fn zoomed(self, about: Point, factor: f64) -> Self {
        let zoom = (self.zoom * factor).clamp(ZOOM.0, ZOOM.1);
        let origin = about + (self.origin - about) * (zoom / self.zoom);
        Self { origin, zoom }
    }

    /// So that a piece of paper fills a surface of this size with some room
    /// around it.
    pub fn fitted(paper: Rect, width: f64, height: f64) -> Self {
        let (wide, high) = (paper.width().max(40.0), paper.height().max(40.0));
        let zoom = (width / wide).min(height / high) * 0.92;
        let zoom = zoom.clamp(ZOOM.0, ZOOM.1);
        let origin = Point::new(width / 2.0, height / 2.0) - paper.center().to_vec2() * zoom;
        Self { origin, zoom }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn zooming_keeps_what_is_under_the_pointer() {
        let camera = Camera::default();
        let pointer = Point::new(321.0, 123.0);
        let before = camera.plan(pointer);
        let after = camera.zoomed(pointer, 1.7).plan(pointer);
        assert!(before.distance(after) < 1e-6, "{before} became {after}");
        assert!(camera.screen(before).distance(pointer) < 1e-9, "there and back");
    }

    #[test]
    fn fitting_shows_all_of_it() {
        let paper = Rect::new(-10.0, -160.0, 250.0, 5.0);
        let camera = Camera::fitted(paper, 800.0, 600.0);
        let shown = camera.shown(800.0, 600.0);
        assert_eq!(shown.union(paper), shown, "{shown} must hold {paper}");
    }
}

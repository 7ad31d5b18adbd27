//! The frame of a void: its two directions, along the joists and across.

use crate::units::{Angle, Mm, Point2};

/// A plane's axes turned against the page: `u` along the joists, `v` across.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Frame {
    cos: f64,
    sin: f64,
}

impl Frame {
    /// The frame whose first axis points in this direction.
    #[must_use]
    pub fn along(direction: Angle) -> Self {
        let (cos, sin) = direction.cos_sin();
        Self { cos, sin }
    }

    /// Whether its axes are those of the page, so that nothing is rounded.
    #[must_use]
    pub fn is_square(&self) -> bool {
        (self.cos.abs() + self.sin.abs() - 1.0).abs() < 1.0e-12
    }

    /// A place of the page in this frame, to the nearest millimetre.
    #[must_use]
    pub fn frame_from_page(&self, place: Point2) -> (i64, i64) {
        let (x, y) = (place.x.to_f64(), place.y.to_f64());
        (round(x * self.cos + y * self.sin), round(y * self.cos - x * self.sin))
    }

    /// A place of this frame on the page, to the nearest millimetre.
    #[must_use]
    pub fn page_from_frame(&self, (u, v): (i64, i64)) -> Point2 {
        let (u, v) = (Mm::new(u).to_f64(), Mm::new(v).to_f64());
        Point2 {
            x: Mm::new(round(u * self.cos - v * self.sin)),
            y: Mm::new(round(u * self.sin + v * self.cos)),
        }
    }
}

fn round(value: f64) -> i64 {
    Mm::from_f64(value).unwrap_or(Mm::ZERO).get()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_square_frame_rounds_nothing_and_an_oblique_one_a_millimetre() {
        let place = Point2::new(1234, -5678);
        for millidegrees in [0, 90_000, 180_000, -90_000] {
            let frame = Frame::along(Angle::from_millidegrees(millidegrees));
            assert!(frame.is_square(), "{millidegrees}");
            assert_eq!(frame.page_from_frame(frame.frame_from_page(place)), place);
        }
        let frame = Frame::along(Angle::from_millidegrees(17_000));
        let back = frame.page_from_frame(frame.frame_from_page(place));
        assert!((back.x - place.x).abs() <= Mm::new(1) && (back.y - place.y).abs() <= Mm::new(1));
    }
}

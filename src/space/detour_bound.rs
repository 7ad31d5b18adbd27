//! What a way must cost at least that leaves a box and comes back.

use super::{Frame, Rect, Space};
use crate::units::Point2;

/// What holds for all windows of a space.
#[derive(Clone, Copy, Debug)]
pub struct Reach {
    /// A box on the page around all of its voids: beyond it nothing can run.
    pub extent: Rect,
    /// The least price of a millimetre in any void, along `x` and along `y` of
    /// the page, hundredths.
    least: (i64, i64),
    /// Whether all voids keep to the axes of the page.
    pub(super) square: bool,
}

/// A box around some ends, and what it costs to get around outside.
#[derive(Clone, Copy, Debug)]
pub struct DetourBound {
    pub(super) reach: Reach,
    /// Left, right, low and high side, where anything can run beyond.
    pub(super) sides: [Option<i64>; 4],
}

/// By how much the two places where a way enters and leaves the voids can be
/// rounded together, mm: twice 10 into a void, twice 1 along a wall.
const ROUNDING: i64 = 30;

impl Space {
    /// What windows of this space need. None where a way that only passes
    /// walls could get on at no cost, so that nothing would be certain: where
    /// going sideways in them is open, or a plate costs less than rounding can
    /// move a place.
    #[must_use]
    pub fn reach(&self) -> Option<Reach> {
        let mut reach = Reach {
            extent: Rect::new(0, 0, 0, 0),
            least: (i64::MAX, i64::MAX),
            square: self.voids.iter().all(|void| void.frame.is_square()),
        };
        let mut corners = Vec::new();
        for void in self.voids.iter() {
            let percents = void.percents.iter().map(|area| i64::from(area.percent));
            let percent = percents.min().unwrap_or(100).min(100);
            let price = |density: i64| (density * percent).div_euclid(100).max(1);
            let (mut x, mut y) = (price(void.density_u), price(void.density_v));
            let across = void.frame.page_from_frame((1000, 0));
            if !void.frame.is_square() {
                (x, y) = (x.min(y), x.min(y));
            } else if across.x.get() == 0 {
                (x, y) = (y, x);
            }
            reach.least = (reach.least.0.min(x), reach.least.1.min(y));
            for rect in &void.regions {
                for at in
                    [(rect.u0, rect.v0), (rect.u1, rect.v0), (rect.u0, rect.v1), (rect.u1, rect.v1)]
                {
                    let page = void.frame.page_from_frame(at);
                    corners.push((page.x.get(), page.y.get()));
                }
            }
        }
        reach.extent = Rect::around(&corners)?.grown(ROUNDING);
        let rounding = ROUNDING * reach.least.0.max(reach.least.1);
        (!self.sideways_through && 2 * self.tariff.plate >= rounding).then_some(reach)
    }
}

impl Reach {
    /// The least price of a millimetre in any void, along the axes of a frame.
    pub(super) fn least_in(&self, frame: Frame) -> (i64, i64) {
        let (x, y) = self.least;
        let turned = frame.page_from_frame((1000, 0)).x.get() == 0;
        match (self.square, turned) {
            (false, _) => (x.min(y), x.min(y)),
            (true, false) => (x, y),
            (true, true) => (y, x),
        }
    }

    /// The detour bound of a box.
    #[must_use]
    pub fn detour_bound(&self, rect: &Rect) -> DetourBound {
        let side = |at: i64, beyond: bool| beyond.then_some(at);
        let extent = &self.extent;
        DetourBound {
            reach: *self,
            sides: [
                side(rect.u0, extent.u0 < rect.u0),
                side(rect.u1, rect.u1 < extent.u1),
                side(rect.v0, extent.v0 < rect.v0),
                side(rect.v1, rect.v1 < extent.v1),
            ],
        }
    }
}

impl DetourBound {
    /// No way through voids from one place over the edge of its box to another costs
    /// less, in hundredths; `None` where there is nothing beyond.
    ///
    /// Over a side at `X` and back it is at least as far as to the other place
    /// mirrored in that side. Voids that keep to the page's axes are measured
    /// along these, others straight.
    #[must_use]
    pub fn around(&self, from: Point2, to: Point2) -> Option<i64> {
        let (dx, dy) = ((from.x - to.x).abs().get(), (from.y - to.y).abs().get());
        let mirrored = |side: i64, from: i64, to: i64| (2 * side - from - to).abs();
        let over = self.sides.iter().enumerate().filter_map(|(index, side)| {
            let side = (*side)?;
            let (dx, dy) = if index < 2 {
                (mirrored(side, from.x.get(), to.x.get()), dy)
            } else {
                (dx, mirrored(side, from.y.get(), to.y.get()))
            };
            Some(self.cost(dx, dy))
        });
        over.min()
    }

    /// Of a way that goes so far along each axis.
    pub(super) fn cost(&self, dx: i64, dy: i64) -> i64 {
        let (x, y) = self.reach.least;
        let rounding = ROUNDING * x.max(y);
        let cost = if self.reach.square {
            dx * x + dy * y
        } else {
            let (dx, dy) = (crate::units::Mm::new(dx).to_f64(), crate::units::Mm::new(dy).to_f64());
            #[expect(clippy::cast_possible_truncation, reason = "no longer than a plan is wide")]
            let straight = libm::floor(libm::hypot(dx, dy)) as i64;
            straight * x.min(y)
        };
        (cost - rounding).max(0)
    }
}

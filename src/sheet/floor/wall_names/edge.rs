//! A stretch of face on paper, and where its name can stand before it.

use kurbo::{Point, Rect, Size, Vec2};

use crate::plan::{Span, Wall};
use crate::sheet::floor::view::View;
use crate::sheet::lettering::Lettering;
use crate::sheet::pen;

/// A stretch of a finished face on paper.
#[derive(Clone, Copy, Debug)]
pub(super) struct Edge {
    pub(super) from: Point,
    pub(super) to: Point,
    /// Out of the wall.
    pub(super) out: Vec2,
    pub(super) is_indoors: bool,
}

/// A place for a name.
#[derive(Clone, Copy, Debug)]
pub(super) struct Seat {
    /// The middle of its capitals.
    pub(super) middle: Point,
    pub(super) at: Rect,
    /// What must be clear: as far beyond it as the face is before it, so that
    /// no other face is nearer.
    pub(super) clear: Rect,
    pub(super) turn: f64,
    pub(super) leader: Option<(Point, Point)>,
    pub(super) cost: f64,
}

/// From a face to the capitals beside it, mm: half the outline and some air.
const GAP: f64 = 1.0;
/// Clear space around a name, mm.
pub(super) const CLEAR: f64 = 0.4;
/// A place before the outer face is as good as one this far off the middle, mm.
const OUTDOORS: f64 = 60.0;
/// From place to place along a face, mm.
const STEP: f64 = 2.0;
/// What each mm off the middle costs.
const PER_MM: f64 = 0.08;
/// Further off a face than beside it, mm.
const OFF: [f64; 9] = [2.0, 3.5, 5.0, 7.0, 9.0, 12.0, 15.0, 19.0, 24.0];
/// Where along it.
const SHARES: [f64; 11] = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88, 0.04, 0.96];
/// How far before a face a leader ends, mm.
pub(super) const TIP: f64 = 0.6;

impl Edge {
    pub(super) fn of(wall: &Wall, span: &Span, is_indoors: bool, view: &View) -> Option<Self> {
        let ((dx, dy), (nx, ny)) = (wall.direction(), wall.normal(span.side));
        let half = wall.thickness.to_f64() / 2.0;
        let (x, y) = (wall.a.x.to_f64() + nx * half, wall.a.y.to_f64() + ny * half);
        let at = |along: f64| view.at(x + dx * along, y + dy * along);
        let (from, to) = (at(span.from), at(span.to));
        let out = View::direction((nx, ny));
        (pen::length(to - from) > 0.1).then_some(Self { from, to, out, is_indoors })
    }

    /// The middle of a box that stands before it.
    pub(super) fn beside(&self, share: f64, size: Size) -> Point {
        let support = (self.out.x.abs() * size.width + self.out.y.abs() * size.height) / 2.0;
        self.from.lerp(self.to, share) + self.out * (GAP + support)
    }

    /// Along it, its middle first; level beside a face that is askew, where
    /// slanted lettering would take more room.
    pub(super) fn seats(&self, width: f64) -> impl Iterator<Item = Seat> {
        let high = Lettering::Note.mm();
        let length = pen::length(self.to - self.from);
        let is_upright = self.out.y.abs() < 1e-3;
        let size = if is_upright { Size::new(high, width) } else { Size::new(width, high) };
        let turn = if is_upright { -90.0 } else { 0.0 };
        let is_square = is_upright || self.out.x.abs() < 1e-3;
        let depth = (self.beside(0.5, size) - self.from.midpoint(self.to)).hypot();
        // No nearer to the faces at its ends than to its own.
        let half = if is_square { width / 2.0 + CLEAR } else { depth + width / 2.0 };
        let slack = length / 2.0 - half.max(depth + 0.2);
        let base = if self.is_indoors { 0.0 } else { OUTDOORS * PER_MM };
        let edge = *self;
        let mut step = 0_i32;
        core::iter::from_fn(move || {
            // 0, 1, −1, 2, −2 …
            let aside = f64::from((step + 1).div_euclid(2)) * STEP;
            if aside > slack {
                return None;
            }
            let aside = if step.rem_euclid(2) == 1 { aside } else { -aside };
            step += 1;
            let middle = edge.beside(0.5 + aside / length, size);
            let at = Rect::from_center_size(middle, size);
            let beyond = edge.out * (GAP - 0.1);
            let clear = at.inflate(CLEAR, CLEAR).union(at + beyond);
            let cost = base + aside.abs() * PER_MM;
            Some(Seat { middle, at, clear, turn, leader: None, cost })
        })
    }

    /// Further off, with a leader square to it.
    pub(super) fn led_seats(&self, size: Size) -> impl Iterator<Item = Seat> {
        let length = pen::length(self.to - self.from);
        let base = if self.is_indoors { 0.0 } else { OUTDOORS * PER_MM };
        let edge = *self;
        OFF.into_iter().flat_map(move |off| {
            SHARES.into_iter().map(move |share| {
                let middle = edge.beside(share, size) + edge.out * off;
                let at = Rect::from_center_size(middle, size);
                let tip = edge.from.lerp(edge.to, share) + edge.out * TIP;
                let from = Point::new(tip.x.clamp(at.x0, at.x1), tip.y.clamp(at.y0, at.y1));
                let cost = base + off * 0.5 + (share - 0.5).abs() * length * PER_MM;
                let clear = at.inflate(CLEAR, CLEAR);
                Seat { middle, at, clear, turn: 0.0, leader: Some((from, tip)), cost }
            })
        })
    }
}

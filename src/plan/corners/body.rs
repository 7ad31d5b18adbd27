//! What of the ground a wall covers, and how far that is from other walls.

use crate::plan::Wall;

/// A place, mm.
pub(super) type Spot = (f64, f64);

/// From one place to another.
pub(super) fn from_to(one: Spot, other: Spot) -> Spot {
    (other.0 - one.0, other.1 - one.1)
}

/// How much one way turns against another; nothing where they are parallel.
pub(super) fn cross(one: Spot, other: Spot) -> f64 {
    one.0 * other.1 - one.1 * other.0
}

pub(super) fn dot(one: Spot, other: Spot) -> f64 {
    one.0 * other.0 + one.1 * other.1
}

/// A wall as it stands on the floor.
#[derive(Clone, Copy, Debug)]
pub(super) struct Body {
    /// Its ends `a` and `b`.
    pub(super) ends: [Spot; 2],
    /// The unit vector from `a` to `b`.
    pub(super) way: Spot,
    pub(super) length: f64,
    pub(super) half: f64,
}

impl Body {
    /// None for a wall without length.
    pub(super) fn of(wall: &Wall) -> Option<Self> {
        let spot = |at: crate::units::Point2| (at.x.to_f64(), at.y.to_f64());
        let length = wall.length();
        (length > 0.0).then(|| Self {
            ends: [spot(wall.a), spot(wall.b)],
            way: wall.direction(),
            length,
            half: wall.thickness.to_f64() / 2.0,
        })
    }

    /// The way out of it past one of its ends.
    pub(super) fn out(&self, end: usize) -> Spot {
        if end == 0 { (-self.way.0, -self.way.1) } else { self.way }
    }

    /// The two corners at one of its ends.
    pub(super) fn cap(&self, end: usize) -> [Spot; 2] {
        let (x, y) = self.ends[end];
        let (nx, ny) = (-self.way.1 * self.half, self.way.0 * self.half);
        [(x + nx, y + ny), (x - nx, y - ny)]
    }

    /// Its four sides.
    fn sides(&self) -> [[Spot; 2]; 4] {
        let ([a, b], [c, d]) = (self.cap(0), self.cap(1));
        [[a, c], [c, d], [d, b], [b, a]]
    }

    fn holds(&self, at: Spot) -> bool {
        let off = from_to(self.ends[0], at);
        (0.0..=self.length).contains(&dot(off, self.way)) && cross(self.way, off).abs() <= self.half
    }

    /// How far what it covers is from a line; nothing where they touch.
    pub(super) fn distance(&self, line: [Spot; 2]) -> f64 {
        if line.iter().any(|at| self.holds(*at)) {
            return 0.0;
        }
        let sides = self.sides().into_iter();
        sides.map(|side| between(side, line)).fold(f64::INFINITY, f64::min)
    }
}

/// How far two lines are apart; nothing where they cross.
fn between(one: [Spot; 2], other: [Spot; 2]) -> f64 {
    let side = |line: [Spot; 2], at: Spot| cross(from_to(line[0], line[1]), from_to(line[0], at));
    let parts = |line: [Spot; 2], by: [Spot; 2]| side(line, by[0]) * side(line, by[1]) < 0.0;
    if parts(one, other) && parts(other, one) {
        return 0.0;
    }
    let ends = other.map(|at| to(one, at)).into_iter().chain(one.map(|at| to(other, at)));
    ends.fold(f64::INFINITY, f64::min)
}

/// From a place to a line.
fn to(line: [Spot; 2], at: Spot) -> f64 {
    let (along, off) = (from_to(line[0], line[1]), from_to(line[0], at));
    let square = dot(along, along);
    let share = if square > 0.0 { (dot(off, along) / square).clamp(0.0, 1.0) } else { 0.0 };
    libm::hypot(off.0 - along.0 * share, off.1 - along.1 * share)
}

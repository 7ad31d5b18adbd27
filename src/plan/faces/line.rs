//! A wall as a line with a thickness.

use kurbo::{Point, Vec2};

use super::super::{Face, LevelId, Plan, WallBuild, WallId};
use crate::units::Point2;

/// A wall by its centre line.
#[derive(Clone)]
pub(super) struct Line {
    pub(super) id: WallId,
    pub(super) level: LevelId,
    pub(super) a: Point,
    pub(super) b: Point,
    /// From `a` to `b`, of length one.
    pub(super) way: Vec2,
    pub(super) length: f64,
    /// Half its thickness.
    pub(super) half: f64,
    /// A fence or a railing: walls do not end at it, it ends at them.
    pub(super) is_screen: bool,
}

/// One of the ends of a wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Tip {
    A,
    B,
}

/// All walls that have faces.
pub(super) fn lines(plan: &Plan) -> Vec<Line> {
    let walls = plan.walls.iter();
    let walls = walls.filter(|(_, wall)| {
        wall.a != wall.b && wall.thickness.get() > 0 && plan.levels.contains_key(&wall.level)
    });
    let lines = walls.map(|(id, wall)| {
        let (dx, dy) = wall.direction();
        Line {
            id: *id,
            level: wall.level,
            a: point(wall.a),
            b: point(wall.b),
            way: Vec2::new(dx, dy),
            length: wall.length(),
            half: wall.thickness.to_f64() / 2.0,
            is_screen: wall.build == WallBuild::Screen,
        }
    });
    lines.collect()
}

pub(super) const fn point(at: Point2) -> Point {
    Point::new(at.x.to_f64(), at.y.to_f64())
}

impl Line {
    pub(super) const fn tip(&self, tip: Tip) -> Point {
        match tip {
            Tip::A => self.a,
            Tip::B => self.b,
        }
    }

    /// How far along its line, without end, a place is.
    pub(super) fn along(&self, at: Point) -> f64 {
        (at - self.a).dot(self.way)
    }

    /// The place so far along its line.
    pub(super) fn at(&self, along: f64) -> Point {
        self.a + self.way * along
    }

    /// From a place to the nearest place on it, mm.
    pub(super) fn gap(&self, at: Point) -> f64 {
        let nearest = self.at(self.along(at).clamp(0.0, self.length));
        libm::hypot(at.x - nearest.x, at.y - nearest.y)
    }
}

/// Out of a face, of length one.
pub(super) fn outward(way: Vec2, side: Face) -> Vec2 {
    match side {
        Face::Left => Vec2::new(-way.y, way.x),
        Face::Right => Vec2::new(way.y, -way.x),
    }
}

pub(super) fn cross(one: Vec2, other: Vec2) -> f64 {
    one.x * other.y - one.y * other.x
}

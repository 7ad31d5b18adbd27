//! Which way a cable goes across a void, told by what lies ahead of it.

use super::fixed::on;
use crate::plan::{Face, Faces, LevelId, OnWall, Plan, Room, VoidId, Wall, outline_holds};
use crate::units::{Mm, Point2, Point3};

/// What lies ahead must do so for as much as this, mm.
const SURE: f64 = 100.0;
/// How far beyond its end a way is told by a room that it does not come to, mm.
const NEXT: f64 = 1500.0;
/// As much to either side of it, mm, it must be so too.
const ASIDE: f64 = 50.0;

/// What tells a way from the others that could be meant.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Towards {
    /// A room ahead.
    Room(String),
    /// A face of a wall ahead.
    Wall(OnWall),
    /// A face of a wall behind, and nothing ahead.
    AwayFrom(OnWall),
    /// Nothing in line: all of a room lies on that side.
    SideOf(String),
}

/// A place and a direction, of length one.
#[derive(Clone, Copy)]
struct Ray {
    x: f64,
    y: f64,
    dx: f64,
    dy: f64,
}

/// What a way from a place in a direction leads towards and no other way that
/// could be meant does: of two along a line, or of four where nothing says
/// along what. A room that it comes to or nearly does, else the next wall
/// ahead, else one behind, else a room that lies on that side.
pub(super) fn towards(
    (plan, faces): (&Plan, &Faces),
    void: VoidId,
    from: Point3,
    (dx, dy): (f64, f64),
    length: Mm,
    is_lined: bool,
) -> Option<Towards> {
    let (x, y) = (from.x.to_f64(), from.y.to_f64());
    let long = length.to_f64();
    let ahead = Ray { x, y, dx, dy };
    let mut others = vec![ahead.turned(2)];
    if !is_lined {
        others.extend([ahead.turned(1), ahead.turned(3)]);
    }
    let levels = levels(plan, void);
    room(plan, &levels, (ahead, long), &others)
        .or_else(|| wall((plan, faces), &levels, (ahead, long), &others).map(Towards::Wall))
        .or_else(|| {
            let back = ahead.turned(2);
            let mut sides = others.clone();
            sides.retain(|one| one.dx * back.dx + one.dy * back.dy < 0.5);
            sides.push(ahead);
            wall((plan, faces), &levels, (back, 0.0), &sides).map(Towards::AwayFrom)
        })
        .or_else(|| side(plan, &levels, ahead, &others).map(Towards::SideOf))
}

/// The levels that a void serves.
fn levels(plan: &Plan, void: VoidId) -> Vec<LevelId> {
    let serves = plan
        .levels
        .iter()
        .filter(|(_, level)| level.above.contains(&void) || level.below.contains(&void));
    serves.map(|(id, _)| *id).collect()
}

fn room(
    plan: &Plan,
    levels: &[LevelId],
    (ahead, long): (Ray, f64),
    others: &[Ray],
) -> Option<Towards> {
    let rooms: Vec<_> = plan.rooms.values().filter(|room| levels.contains(&room.level)).collect();
    let mut found: Vec<(f64, &str)> = Vec::new();
    for room in &rooms {
        // Not where it runs along an edge.
        let beside = ahead.beside().map(|ray| chord(&ray.inside(&room.outline)));
        if beside.into_iter().any(|chord| chord < SURE) {
            continue;
        }
        let inside = ahead.inside(&room.outline);
        let Some((first, _)) = inside.first().copied() else { continue };
        if outline_holds(&room.outline, ahead.x, ahead.y) {
            continue;
        }
        let holds = inside.iter().any(|(from, to)| *from <= long && long <= *to);
        if first > long + NEXT {
            continue;
        }
        // Where it comes to, before what is nearer.
        found.push((if holds { -1.0 } else { first }, &room.name));
    }
    found.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(b.1)));
    let is_told = |name: &&str| {
        let called = rooms.iter().filter(|room| room.name == **name);
        !name.is_empty()
            && called.clone().all(|room| !outline_holds(&room.outline, ahead.x, ahead.y))
            && called
                .flat_map(|room| {
                    others.iter().flat_map(Ray::beside).map(|ray| ray.inside(&room.outline))
                })
                .all(|inside| inside.is_empty())
    };
    let mut names = found.into_iter().map(|(_, name)| name);
    names.find(is_told).map(|name| Towards::Room(name.to_owned()))
}

fn chord(inside: &[(f64, f64)]) -> f64 {
    inside.iter().map(|(from, to)| to - from).sum()
}

/// The first wall that a ray crosses past its end, else the last before it,
/// where no other ray crosses it or a wall by the same name: the face that is
/// seen from where it begins.
fn wall(
    (plan, faces): (&Plan, &Faces),
    levels: &[LevelId],
    (ray, long): (Ray, f64),
    others: &[Ray],
) -> Option<OnWall> {
    let walls = plan.walls.iter().filter(|(_, wall)| levels.contains(&wall.level));
    // Past the end by how near it is, before it by how far on.
    let rank = |at: f64| if at >= long { (0, at) } else { (1, -at) };
    let sooner = |one: f64, other: f64| {
        let (one, other) = (rank(one), rank(other));
        one.0.cmp(&other.0).then(one.1.total_cmp(&other.1)).is_lt()
    };
    let is_apart = |on: &OnWall| {
        let named = faces.nearest(on).map(|(piece, _)| piece.spans.iter().map(|span| span.wall));
        let walls = named.into_iter().flatten().chain([on.wall]);
        walls
            .filter_map(|id| plan.walls.get(&id))
            .all(|wall| others.iter().all(|ray| ray.crosses(wall.a, wall.b).is_none()))
    };
    let mut best: Option<(f64, OnWall)> = None;
    for (id, wall) in walls {
        if let Some(at) = ray.crosses(wall.a, wall.b)
            && at >= SURE
            && is_apart(&ray.seen(*id, wall, at))
            && best.as_ref().is_none_or(|(other, _)| sooner(at, *other))
        {
            best = Some((at, ray.seen(*id, wall, at)));
        }
    }
    best.map(|(_, seen)| seen)
}

/// The nearest room that lies on the side to which a ray leads, more so than
/// to any other, and so do all that are called the same.
fn side(plan: &Plan, levels: &[LevelId], ray: Ray, others: &[Ray]) -> Option<String> {
    let rooms = || plan.rooms.values().filter(|room| levels.contains(&room.level));
    let is_there = |room: &Room| {
        let Some(middle) = middle(&room.outline) else { return false };
        let ahead = ray.sees(middle).0;
        ahead >= SURE && others.iter().all(|other| other.sees(middle).0 < ahead - SURE)
    };
    let all = |name: &str| rooms().filter(|room| room.name == name).all(is_there);
    let near = |room: &&Room| middle(&room.outline).map_or(f64::INFINITY, |at| ray.sees(at).0);
    rooms()
        .filter(|room| !room.name.is_empty() && is_there(room) && all(&room.name))
        .min_by(|a, b| near(a).total_cmp(&near(b)))
        .map(|room| room.name.clone())
}

/// The middle of the corners of an outline.
fn middle(outline: &[Point2]) -> Option<Point2> {
    let count = i64::try_from(outline.len()).ok().filter(|count| *count > 0)?;
    let mean = |of: fn(&Point2) -> Mm| {
        let sum: i64 = outline.iter().map(|at| of(at).get()).sum();
        Mm::new(sum.div_euclid(count))
    };
    Some(Point2 { x: mean(|at| at.x), y: mean(|at| at.y) })
}

impl Ray {
    /// A quarter turn to the left, so many times.
    fn turned(self, quarters: u8) -> Self {
        (0..quarters).fold(self, |ray, _| Self { dx: -ray.dy, dy: ray.dx, ..ray })
    }

    /// The same a little to the left, itself, and a little to the right.
    fn beside(&self) -> [Self; 3] {
        [-ASIDE, 0.0, ASIDE].map(|by| Self {
            x: self.x - self.dy * by,
            y: self.y + self.dx * by,
            ..*self
        })
    }

    /// How far on and how far to the left of it a place is.
    fn sees(&self, at: Point2) -> (f64, f64) {
        let (x, y) = (at.x.to_f64() - self.x, at.y.to_f64() - self.y);
        (x * self.dx + y * self.dy, y * self.dx - x * self.dy)
    }

    /// The place where it comes to a wall, on the face that it comes to.
    fn seen(&self, id: crate::plan::WallId, wall: &Wall, at: f64) -> OnWall {
        let (dx, dy) = wall.direction();
        let (x, y) = (self.x - wall.a.x.to_f64(), self.y - wall.a.y.to_f64());
        let along = (x + self.dx * at) * dx + (y + self.dy * at) * dy;
        let face = if dx * y - dy * x > 0.0 { Face::Left } else { Face::Right };
        on(id, face, Mm::from_f64(along).unwrap_or(Mm::ZERO))
    }

    /// Where it runs inside an outline, from and to.
    fn inside(&self, outline: &[Point2]) -> Vec<(f64, f64)> {
        let mut crossings: Vec<f64> = Vec::new();
        for (index, from) in outline.iter().enumerate() {
            let to = outline[(index + 1) % outline.len()];
            let ((u0, v0), (u1, v1)) = (self.sees(*from), self.sees(to));
            if (v0 > 0.0) != (v1 > 0.0) {
                crossings.push(u0 + (u1 - u0) * v0 / (v0 - v1));
            }
        }
        crossings.sort_by(f64::total_cmp);
        let pairs = crossings.chunks_exact(2).map(|pair| (pair[0].max(0.0), pair[1].max(0.0)));
        pairs.filter(|(from, to)| to - from > 1.0).collect()
    }

    /// How far on it crosses a line, ends included.
    fn crosses(&self, a: Point2, b: Point2) -> Option<f64> {
        let ((u0, v0), (u1, v1)) = (self.sees(a), self.sees(b));
        if v0.abs() < 1.0 && v1.abs() < 1.0 {
            // Along it.
            let near = u0.min(u1);
            return (u0.max(u1) > 0.0).then_some(near.max(0.0));
        }
        if (v0 - v1).abs() < 1e-9 {
            return None;
        }
        let at = u0 + (u1 - u0) * v0 / (v0 - v1);
        (v0.min(v1) <= 1.0 && v0.max(v1) >= -1.0 && at >= 0.0).then_some(at)
    }
}

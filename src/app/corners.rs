//! Corners along a face of a wall: from where a distance is measured on site.

use wirewend::plan::{OnWall, Place, Plan, Wall};
use wirewend::units::Mm;

use super::camera::exact;
use super::near;

/// How far something is from the nearest corner of its wall's face.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Offset {
    /// Where the corner is, along the wall.
    pub(super) corner: Mm,
    /// How far from it.
    pub(super) away: Mm,
}

/// The distance from the nearest corner.
pub(super) fn offset(plan: &Plan, on: &OnWall) -> Option<Offset> {
    let all = corners(plan, on)?;
    let at = on.along.to_f64();
    let nearest = all.into_iter().min_by(|a, b| (a - at).abs().total_cmp(&(b - at).abs()))?;
    let corner = Mm::from_f64(nearest).ok()?;
    let away = Mm::new((on.along - corner).get().abs());
    Some(Offset { corner, away })
}

/// The same place, but so far from the corner that is nearest to it now, on
/// the same side of it.
pub(super) fn set(plan: &Plan, on: &OnWall, away: Mm) -> Option<OnWall> {
    let corner = offset(plan, on)?.corner;
    let back = match on.along.cmp(&corner) {
        std::cmp::Ordering::Less => true,
        std::cmp::Ordering::Greater => false,
        // On the corner itself: into the wall's length.
        std::cmp::Ordering::Equal => on.along.to_f64() * 2.0 > plan.walls.get(&on.wall)?.length(),
    };
    Some(OnWall { along: if back { corner - away } else { corner + away }, ..*on })
}

/// A place with a typed distance from its corner.
pub(super) fn typed(plan: &Plan, place: Place, away: Option<Mm>) -> Place {
    match (place, away) {
        (Place::Wall(on), Some(away)) => Place::Wall(set(plan, &on, away).unwrap_or(on)),
        _ => place,
    }
}

/// The stretch of a wall's face between the corners on both sides of a place.
pub(super) fn clear(plan: &Plan, on: &OnWall) -> Option<(f64, f64)> {
    let all = corners(plan, on)?;
    let at = on.along.to_f64();
    let low = all.iter().copied().filter(|corner| *corner <= at).reduce(f64::max)?;
    let high = all.iter().copied().filter(|corner| *corner > at).reduce(f64::min)?;
    Some((low, high))
}

/// Where the face of a wall has corners, along the wall, mm: its own ends, or
/// the faces of the walls that meet it on this side.
fn corners(plan: &Plan, on: &OnWall) -> Option<Vec<f64>> {
    let wall = plan.walls.get(&on.wall)?;
    let length = wall.length();
    let (nx, ny) = wall.normal(on.face);
    let (mut low, mut high) = (0.0_f64, length);
    let mut all = Vec::new();
    for (id, other) in &plan.walls {
        if other.level != wall.level || *id == on.wall || !leaves(other, wall, (nx, ny)) {
            continue;
        }
        let half = across(other, wall);
        for end in [other.a, other.b] {
            let Some(at) = near::on(wall, on.wall, exact(end)) else { continue };
            if at.away > SLACK {
                continue;
            }
            if at.along < half + SLACK {
                low = low.max(at.along + half);
            } else if at.along > length - half - SLACK {
                high = high.min(at.along - half);
            } else {
                all.extend([at.along - half, at.along + half]);
            }
        }
    }
    all.extend([low, high]);
    Some(all)
}

/// Walls meet where they come this near, mm.
const SLACK: f64 = 20.0;

/// Half of what a wall covers of the face of another one, mm.
fn across(other: &Wall, wall: &Wall) -> f64 {
    let ((ox, oy), (wx, wy)) = (other.direction(), wall.direction());
    let sine = (ox * wy - oy * wx).abs();
    if sine < 0.2 { 0.0 } else { other.thickness.to_f64() / 2.0 / sine }
}

/// Whether a wall leads away from another one on the side of its face.
fn leaves(other: &Wall, wall: &Wall, (nx, ny): (f64, f64)) -> bool {
    let side = |at| {
        let off = exact(at) - exact(wall.a);
        off.x * nx + off.y * ny
    };
    side(other.a).max(side(other.b)) > wall.thickness.to_f64() / 2.0 + SLACK
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::blank;
    use wirewend::plan::{Change, Face, LevelId, WallBuild, WallId};
    use wirewend::units::Point2;

    /// A wall of 6 m from left to right; walls of 110 mm at its ends and one of
    /// 90 mm in its middle lead up the page.
    fn plan() -> (Plan, WallId) {
        let mut plan = blank::plan();
        let level = plan.levels.keys().next().copied().unwrap_or(LevelId(1));
        let mut draw = |a: (i64, i64), b: (i64, i64), thickness: i64| {
            let id = WallId(plan.fresh_id());
            let wall = Wall {
                level,
                a: Point2::new(a.0, a.1),
                b: Point2::new(b.0, b.1),
                thickness: Mm::new(thickness),
                build: WallBuild::Stud,
                insulated: false,
                wet: None,
            };
            plan.apply(Change::Put(id, wall).into()).expect("a wall");
            id
        };
        let foot = draw((0, 0), (6000, 0), 110);
        draw((0, 0), (0, 4000), 110);
        draw((6000, 0), (6000, 4000), 110);
        draw((3000, 0), (3000, 4000), 90);
        (plan, foot)
    }

    #[test]
    fn distances_are_measured_from_the_faces_of_walls() {
        let (plan, wall) = plan();
        let on =
            |along: i64, face| OnWall { wall, along: Mm::new(along), height: Mm::new(300), face };
        let away = |along, face| offset(&plan, &on(along, face)).map(|offset| offset.away.get());
        assert_eq!(away(1055, Face::Left), Some(1000), "from the wall at the left");
        assert_eq!(away(2655, Face::Left), Some(300), "from the wall in the middle");
        assert_eq!(away(1000, Face::Right), Some(1000), "outside, from the bare end");
        let moved = set(&plan, &on(2600, Face::Left), Mm::new(500)).expect("a place");
        assert_eq!(moved.along, Mm::new(2455), "500 mm short of 2955");
        assert_eq!(clear(&plan, &on(1000, Face::Left)), Some((55.0, 2955.0)));
    }
}

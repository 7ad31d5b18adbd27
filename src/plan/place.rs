//! Where things are in the building, from where they are on the drawing.

use super::{End, Face, LevelId, Place, Plan, RoomId, Wall};
use crate::units::{Mm, Point2, Point3};

impl Plan {
    /// The place of a point or a board: on the centre line of its wall, on the
    /// plane of its ceiling or floor, or at the head of its post. None where
    /// the level or the wall it names is not in the plan.
    #[must_use]
    pub fn position(&self, place: &Place) -> Option<Point3> {
        match place {
            Place::Wall(on) => {
                let wall = self.walls.get(&on.wall)?;
                let level = self.levels.get(&wall.level)?;
                Some(wall.at(on.along.to_f64()).at_height(level.floor + on.height))
            }
            Place::Ceiling(on) => Some(on.at.at_height(self.levels.get(&on.level)?.ceiling())),
            Place::Floor(on) => Some(on.at.at_height(self.levels.get(&on.level)?.floor)),
            Place::Post(on) => Some(on.at.at_height(self.levels.get(&on.level)?.floor + on.height)),
        }
    }

    /// As [`Plan::position`], but on the face of the wall rather than on its
    /// centre line: where the box is seen.
    #[must_use]
    pub fn position_on_face(&self, place: &Place) -> Option<Point3> {
        let centre = self.position(place)?;
        let Place::Wall(on) = place else { return Some(centre) };
        let wall = self.walls.get(&on.wall)?;
        let (nx, ny) = wall.normal(on.face);
        let half = wall.thickness.to_f64() / 2.0;
        let round = |value: f64| Mm::from_f64(value).unwrap_or(Mm::ZERO);
        Some(Point3 { x: centre.x + round(nx * half), y: centre.y + round(ny * half), z: centre.z })
    }

    /// The level a place is on.
    #[must_use]
    pub fn level_of(&self, place: &Place) -> Option<LevelId> {
        match place {
            Place::Wall(on) => self.walls.get(&on.wall).map(|wall| wall.level),
            Place::Ceiling(on) | Place::Floor(on) => Some(on.level),
            Place::Post(on) => Some(on.level),
        }
    }

    /// The place of a board or a point, if it has one.
    #[must_use]
    pub fn place_of(&self, end: End) -> Option<Place> {
        match end {
            End::Board(id) => self.boards.get(&id)?.place,
            End::Point(id) => self.points.get(&id)?.place,
        }
    }

    /// The room that a place looks into: for a place on a wall, the room on
    /// the side of its face.
    #[must_use]
    pub fn room_of(&self, place: &Place) -> Option<RoomId> {
        let level = self.level_of(place)?;
        let seen = self.position_on_face(place)?.on_floor();
        let (mut x, mut y) = (seen.x.to_f64(), seen.y.to_f64());
        if let Place::Wall(on) = place {
            // A step into the room, past the lining and the rounding.
            let (nx, ny) = self.walls.get(&on.wall)?.normal(on.face);
            x += nx * 60.0;
            y += ny * 60.0;
        }
        self.rooms
            .iter()
            .filter(|(_, room)| room.level == level)
            .find(|(_, room)| outline_holds(&room.outline, x, y))
            .map(|(id, _)| *id)
    }
}

impl Wall {
    /// The unit vector out of a face, across the wall. Zero for a wall without
    /// length.
    #[must_use]
    pub fn normal(&self, face: Face) -> (f64, f64) {
        let (dx, dy) = self.direction();
        match face {
            Face::Left => (-dy, dx),
            Face::Right => (dy, -dx),
        }
    }

    /// The unit vector from `a` to `b`. Zero for a wall without length.
    #[must_use]
    pub fn direction(&self) -> (f64, f64) {
        let length = self.length();
        if length == 0.0 {
            return (0.0, 0.0);
        }
        let step = self.b - self.a;
        (step.x.to_f64() / length, step.y.to_f64() / length)
    }
}

/// Whether a closed outline holds a place, by the number of edges to its right.
#[must_use]
pub fn outline_holds(outline: &[Point2], x: f64, y: f64) -> bool {
    let mut inside = false;
    for (index, from) in outline.iter().enumerate() {
        let to = outline[(index + 1) % outline.len()];
        let (x0, y0, x1, y1) = (from.x.to_f64(), from.y.to_f64(), to.x.to_f64(), to.y.to_f64());
        if (y0 > y) != (y1 > y) && x < x0 + (y - y0) / (y1 - y0) * (x1 - x0) {
            inside = !inside;
        }
    }
    inside
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_outline_holds_what_is_inside_it_whichever_way_it_turns() {
        let mut outline = vec![
            Point2::new(0, 0),
            Point2::new(4000, 0),
            Point2::new(4000, 3000),
            Point2::new(0, 3000),
        ];
        assert!(outline_holds(&outline, 2000.0, 1500.0), "the middle");
        assert!(!outline_holds(&outline, 5000.0, 1500.0), "to the right");
        outline.reverse();
        assert!(outline_holds(&outline, 2000.0, 1500.0), "the middle, reversed");
    }
}

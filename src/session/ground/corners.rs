//! From which corner or side of an opening something on a wall is set out: the
//! one that the sheet lights, on its finished face.

use crate::plan::{Edge, FacePiece, Faces, Hand, OnWall, Place, Plan, faces};
use crate::sheet::edge_words;
use crate::units::{Mm, Point3};

/// How something on a wall is set out.
#[derive(Clone, Debug, PartialEq)]
pub struct Offset {
    /// How far from its edge, to the nearest millimetre.
    pub away: Mm,
    /// On which hand of it, as one sees the wall.
    pub towards: Hand,
    /// What the edge is: `its corner with W5`, `the door`.
    pub edge: String,
    /// A place on the face at the edge, as high as the thing itself.
    pub at: OnWall,
    /// The piece of face, and how far across it the edge is.
    piece: FacePiece,
    across: f64,
}

/// From the nearest edge that is there at first fix. Within another wall there
/// is no face: from the end of the nearest.
pub fn offset(plan: &Plan, on: &OnWall) -> Option<Offset> {
    let faces = faces(plan);
    if let Some(found) = faces.set_out(on) {
        let edges = faces.edges(found.piece);
        let (across, edge) = edges.into_iter().find(|(_, edge)| *edge == found.edge)?;
        let towards = (found.towards, found.distance);
        return Offset::of(plan, &faces, (found.piece, across, edge), towards, on);
    }
    let (piece, across) = faces.nearest(on)?;
    let is_left = across * 2.0 < piece.length;
    let edges = faces.edges(piece);
    let (across, edge) = if is_left { edges.first() } else { edges.last() }.copied()?;
    let towards = if is_left { Hand::Right } else { Hand::Left };
    Offset::of(plan, &faces, (piece, across, edge), (towards, Mm::ZERO), on)
}

impl Offset {
    fn of(
        plan: &Plan,
        faces: &Faces,
        (piece, across, edge): (&FacePiece, f64, Edge),
        (towards, away): (Hand, Mm),
        on: &OnWall,
    ) -> Option<Self> {
        let at = on_face(piece, across, on.height)?;
        let edge = edge_words(plan, faces, piece, edge);
        Some(Self { away, towards, edge, at, piece: piece.clone(), across })
    }

    /// The place so far from the edge, on the same hand of it. None where the
    /// piece of face ends before.
    fn place(&self, away: Mm, height: Mm) -> Option<OnWall> {
        let by = if self.towards == Hand::Right { away.to_f64() } else { -away.to_f64() };
        let across = self.across + by;
        let is_on = -0.5 <= across && across <= self.piece.length + 0.5;
        if is_on { on_face(&self.piece, across, height) } else { None }
    }

    /// `600 mm right of its corner with W5`, the length in words of its own.
    pub fn says(&self, length: &str) -> String {
        let hand = if self.towards == Hand::Right { "right" } else { "left" };
        format!("{length} {hand} of {}", self.edge)
    }
}

/// A place across a piece of face, on the wall that is there.
fn on_face(piece: &FacePiece, across: f64, height: Mm) -> Option<OnWall> {
    let span = piece.span_at(across)?;
    let along = Mm::from_f64(span.along(across)).ok()?;
    Some(OnWall { wall: span.wall, along, height, face: span.side })
}

/// The same place, but so far from the edge that it is set out from now, on
/// the same hand of it. None where the face ends before.
pub fn set(plan: &Plan, on: &OnWall, away: Mm) -> Option<OnWall> {
    let offset = offset(plan, on)?;
    // What it is already stays to the millimetre, whatever was rounded.
    if offset.away == away { Some(*on) } else { offset.place(away, on.height) }
}

/// A place with a typed distance from its edge.
pub fn typed(plan: &Plan, place: Place, away: Option<Mm>) -> Place {
    match (place, away) {
        (Place::Wall(on), Some(away)) => Place::Wall(set(plan, &on, away).unwrap_or(on)),
        _ => place,
    }
}

/// The stretch of a wall's face between the finished corners on both sides of
/// a place, along the wall.
pub fn clear(plan: &Plan, on: &OnWall) -> Option<(f64, f64)> {
    let faces = faces(plan);
    let (piece, _) = faces.place(on)?;
    let span = piece.span_of(on.wall, on.face)?;
    let length = plan.walls.get(&on.wall)?.length();
    Some((span.from.max(0.0), span.to.min(length)))
}

/// Where a place is seen on its face.
pub fn seen(plan: &Plan, on: &OnWall) -> Option<Point3> {
    plan.position_on_face(&Place::Wall(*on))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{Change, Face, LevelId, Wall, WallBuild, WallId};
    use crate::session::ground::blank;
    use crate::units::Point2;

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
        assert_eq!(away(1000, Face::Right), Some(1055), "outside, from the corner of the house");
        let moved = set(&plan, &on(2600, Face::Left), Mm::new(500)).expect("a place");
        assert_eq!(moved.along, Mm::new(2455), "500 mm short of 2955");
        assert_eq!(clear(&plan, &on(1000, Face::Left)), Some((55.0, 2955.0)));
    }
}

//! What on a face a cable is measured from and goes towards: finished corners
//! and sides of openings, by the names that drawings give them.

use crate::plan::{Edge, Face, FacePiece, Faces, Hand, OnWall, OpeningKind, Plan, Shape, WallId};
use crate::sheet::house::House;
use crate::units::Mm;
use crate::wording::figure;

/// A place along a wall on one of its faces; how high does not count.
pub(super) const fn on(wall: WallId, face: Face, along: Mm) -> OnWall {
    OnWall { wall, along, height: Mm::ZERO, face }
}

/// Words with the names of walls in them.
#[derive(Clone, Debug, Default)]
pub(super) struct Told {
    pub(super) says: String,
    pub(super) names: Vec<String>,
}

/// Where a place is on its face: `0.60 right of its corner with W6`; within
/// another wall `in its corner with W6`.
pub(super) fn set_out(house: &House<'_>, at: &OnWall) -> Option<Told> {
    let Some((piece, across)) = house.faces().place(at) else {
        let (piece, across) = house.faces().nearest(at)?;
        let end = if across * 2.0 < piece.length { Hand::Left } else { Hand::Right };
        let corner = corner(house.plan, house.faces(), piece, end);
        return Some(Told { says: format!("in {}", corner.says), names: corner.names });
    };
    let mut best: Option<(f64, Told)> = None;
    for (at, edge) in house.faces().edges(piece) {
        // As lists set it out: of two that are equally far the one at the left.
        let off = (at - across).abs();
        if best.as_ref().is_none_or(|(other, _)| off < (other - across).abs() - 0.5)
            && let Some(told) = name(house.plan, house.faces(), piece, edge)
        {
            best = Some((at, told));
        }
    }
    let (edge_at, named) = best?;
    let distance = Mm::from_f64((across - edge_at).abs()).ok()?;
    let hand = if edge_at <= across { "right" } else { "left" };
    let says = format!("{} {hand} of {}", figure(distance), named.says);
    Some(Told { says, names: named.names })
}

/// What is next on one hand of a place: `the door`, `its corner with W5`.
pub(super) fn next(house: &House<'_>, at: &OnWall, hand: Hand) -> Option<Told> {
    let (piece, across) = house.faces().nearest(at)?;
    let edges = house.faces().edges(piece).into_iter();
    let mut told =
        edges.filter_map(|(at, edge)| Some((at, name(house.plan, house.faces(), piece, edge)?)));
    match hand {
        Hand::Left => told.filter(|(at, _)| *at < across - 1.0).last(),
        Hand::Right => told.find(|(at, _)| *at > across + 1.0),
    }
    .map(|(_, told)| told)
    .or_else(|| Some(corner(house.plan, house.faces(), piece, hand)))
}

/// What an edge of a piece is called: `its corner with W5`, `the door`.
#[must_use]
pub fn edge_words(plan: &Plan, faces: &Faces, piece: &FacePiece, edge: Edge) -> String {
    match edge {
        Edge::Corner { end, .. } => corner(plan, faces, piece, end).says,
        Edge::Opening { id, .. } => {
            let kind = plan.openings.get(&id).map_or("opening", |one| opening(one.kind));
            format!("the {kind}")
        }
    }
}

/// An edge by name. None for an opening that is not the only one of its kind
/// on the piece.
fn name(plan: &Plan, faces: &Faces, piece: &FacePiece, edge: Edge) -> Option<Told> {
    match edge {
        Edge::Corner { end, .. } => Some(corner(plan, faces, piece, end)),
        Edge::Opening { id, .. } => {
            let word = |id| plan.openings.get(&id).map(|one| opening(one.kind));
            let own = word(id)?;
            let edges = faces.edges(piece);
            let mut others = edges.iter().filter_map(|(_, edge)| match edge {
                Edge::Opening { id: other, .. } if *other != id => word(*other),
                _ => None,
            });
            let is_one = !others.any(|other| other == own);
            is_one.then(|| Told { says: format!("the {own}"), names: Vec::new() })
        }
    }
}

/// What an opening is called.
const fn opening(kind: OpeningKind) -> &'static str {
    match kind {
        OpeningKind::Door | OpeningKind::SlidingDoor => "door",
        OpeningKind::Window => "window",
        OpeningKind::Plain => "opening",
    }
}

/// An end of a piece: `its corner with W5`, `its free end`.
fn corner(plan: &Plan, faces: &Faces, piece: &FacePiece, end: Hand) -> Told {
    let corner = if end == Hand::Left { piece.left } else { piece.right };
    let with = corner.with.filter(|_| corner.shape != Shape::Seam);
    let Some(with) = with.and_then(|wall| beyond(plan, faces, piece, end, wall)) else {
        let says = match (corner.shape, end) {
            (Shape::Bare, Hand::Left) => "its bare left end",
            (Shape::Bare, Hand::Right) => "its bare right end",
            (_, Hand::Left) => "its left end",
            (_, Hand::Right) => "its right end",
        };
        return Told { says: says.to_owned(), names: Vec::new() };
    };
    Told { says: format!("its corner with {with}"), names: vec![with] }
}

/// What drawings call the face of another wall that begins where a piece ends.
fn beyond(
    plan: &Plan,
    faces: &Faces,
    piece: &FacePiece,
    end: Hand,
    wall: WallId,
) -> Option<String> {
    let here = tip(plan, piece, end)?;
    let sides = [Face::Left, Face::Right].into_iter();
    let pieces = sides.flat_map(|side| faces.of(wall, side));
    let ends = pieces.flat_map(|other| [(other, Hand::Left), (other, Hand::Right)]);
    let off = |(other, hand): (&FacePiece, Hand)| {
        tip(plan, other, hand).map_or(f64::INFINITY, |at| libm::hypot(at.0 - here.0, at.1 - here.1))
    };
    ends.min_by(|a, b| off(*a).total_cmp(&off(*b))).map(|(other, _)| other.name.clone())
}

/// Where a piece ends on the page, mm.
fn tip(plan: &Plan, piece: &FacePiece, end: Hand) -> Option<(f64, f64)> {
    let (span, across) = match end {
        Hand::Left => (piece.spans.first()?, 0.0),
        Hand::Right => (piece.spans.last()?, piece.length),
    };
    let wall = plan.walls.get(&span.wall)?;
    let ((dx, dy), (nx, ny)) = (wall.direction(), wall.normal(span.side));
    let (along, half) = (span.along(across), wall.thickness.to_f64() / 2.0);
    let (x, y) = (wall.a.x.to_f64(), wall.a.y.to_f64());
    Some((x + dx * along + nx * half, y + dy * along + ny * half))
}

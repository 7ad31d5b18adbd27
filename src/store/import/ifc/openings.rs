//! Doors, windows and bare openings, each in the piece of wall that it is in.

use super::model::Model;
use super::relations::Relations;
use super::shape::Shape;
use super::walls::Piece;
use crate::store::import::step::{Entity, Trouble};

/// A door or window without an opening belongs to a wall no farther away, mm.
const REACH: f64 = 300.0;
/// An opening that goes this deep into a wall goes through it.
const THROUGH_MIN: f64 = 0.8;

/// An opening along a piece of wall, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Hole {
    /// Its place among the pieces.
    pub(super) piece: usize,
    pub(super) at: [f64; 2],
    pub(super) width: f64,
    pub(super) heights: [f64; 2],
}

/// The hole that an opening, or a door or window by itself, makes in the
/// nearest of some pieces.
pub(super) fn hole(shape: &Shape, pieces: &[(usize, Piece)], bare: bool) -> Result<Hole, String> {
    let heights = shape.heights().ok_or("it has no body")?;
    let nearest = pieces
        .iter()
        .map(|(index, piece)| (off(shape, piece), *index, piece))
        .min_by(|one, two| one.0.total_cmp(&two.0).then(one.1.cmp(&two.1)));
    let Some((gap, index, piece)) = nearest.filter(|near| near.0 <= REACH) else {
        return Err(format!("no wall within {REACH:.0} mm of it"));
    };
    let [ux, uy] = piece.line.direction();
    let ([from, to], [right, left]) =
        (shape.along([ux, uy]).unwrap_or_default(), shape.along([-uy, ux]).unwrap_or_default());
    let middle = piece.line.a[1] * ux - piece.line.a[0] * uy;
    let half = piece.thickness / 2.0;
    let deep = (left.min(middle + half) - right.max(middle - half)).max(0.0);
    if bare && (gap > half || deep < THROUGH_MIN * piece.thickness) {
        return Err("it is a recess and does not go through its wall".to_owned());
    }
    let along = f64::midpoint(from, to);
    let at = [along * ux - middle * uy, along * uy + middle * ux];
    Ok(Hole { piece: index, at, width: to - from, heights })
}

/// How far the middle of a shape lies from a piece, mm.
fn off(shape: &Shape, piece: &Piece) -> f64 {
    let [low, high] =
        [shape.along([1.0, 0.0]), shape.along([0.0, 1.0])].map(Option::unwrap_or_default);
    let middle = [f64::midpoint(low[0], low[1]), f64::midpoint(high[0], high[1])];
    let off = piece.line.distance(middle);
    let height = shape.heights().unwrap_or_default();
    // Walls of other storeys lie above and below.
    let apart = (height[0] - piece.heights[1]).max(piece.heights[0] - height[1]).max(0.0);
    off + apart
}

/// The shape that a door or window takes up: its opening, or its own body,
/// or else its stated width and height from its place on.
pub(super) fn filler(
    model: &Model<'_>,
    entity: &Entity,
    relations: &Relations,
) -> Result<Shape, Trouble> {
    if let Some(opening) = relations.fills.get(&entity.id) {
        let shape = model.body(&model.file.entity(*opening)?)?;
        if !shape.places.is_empty() {
            return Ok(shape);
        }
    }
    let body = model.body(entity)?;
    if !body.places.is_empty() {
        return Ok(body);
    }
    let (height, width) = (entity.number(8)? * model.mm, entity.number(9)? * model.mm);
    let frame = model.place_of(entity)?;
    let corners = [[0.0; 3], [width, 0.0, 0.0], [width, 0.0, height], [0.0, 0.0, height]];
    let places = corners.map(|corner| frame.place(corner)).to_vec();
    Ok(Shape { places, ..Shape::default() })
}

/// How a door works in words of the schema, by its own or its type's operation.
fn operation(model: &Model<'_>, door: &Entity, relations: &Relations) -> Vec<String> {
    let kind = relations.kind.get(&door.id).and_then(|id| model.file.entity(*id).ok());
    let of_kind = kind.iter().flat_map(|kind| [8, 10].map(|at| kind.word(at).to_owned()));
    std::iter::once(door.word(11).to_owned()).chain(of_kind).collect()
}

/// Whether a door slides.
pub(super) fn slides(model: &Model<'_>, door: &Entity, relations: &Relations) -> bool {
    operation(model, door, relations).iter().any(|word| word.contains("SLIDING"))
}

/// The edge at which a door of one leaf is hung, and a place on the side to
/// which it opens. ISO 16739, `IfcDoorTypeOperationEnum`: it opens towards the
/// y axis of its place; left and right are as seen along that axis.
pub(super) fn hung(
    model: &Model<'_>,
    door: &Entity,
    relations: &Relations,
    hole: &Hole,
) -> Option<[[f64; 2]; 2]> {
    let words = operation(model, door, relations);
    let swings = |side: &str| words.iter().any(|word| word == side);
    let side = match (swings("SINGLE_SWING_LEFT"), swings("SINGLE_SWING_RIGHT")) {
        (true, false) => -0.5,
        (false, true) => 0.5,
        _ => return None,
    };
    let frame = model.place_of(door).ok()?;
    let from = |along: &[f64; 3], by: f64| [hole.at[0] + along[0] * by, hole.at[1] + along[1] * by];
    Some([from(&frame.x, side * hole.width), from(&frame.y, hole.width)])
}

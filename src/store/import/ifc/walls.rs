//! Walls: from the body of each to one straight piece, or to several.

use super::model::Model;
use super::shape::Shape;
use crate::store::import::lines::{self, Line};
use crate::store::import::step::{Entity, Trouble};

/// The names of walls in the schema.
pub(super) const NAMES: [&str; 3] = ["IFCWALL", "IFCWALLSTANDARDCASE", "IFCWALLELEMENTEDCASE"];
/// A body that fills this much of the box around it is one straight piece:
/// mitred ends stay in, an L-shaped footprint does not.
const FILLED_MIN: f64 = 0.7;

/// A straight piece of wall in the world, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Piece {
    pub(super) line: Line,
    pub(super) thickness: f64,
    /// From its foot to its top.
    pub(super) heights: [f64; 2],
}

/// The pieces of a wall, and whether something that is cut off it was left on.
pub(super) fn pieces(model: &Model<'_>, wall: &Entity) -> Result<(Vec<Piece>, bool), Trouble> {
    let shape = model.body(wall)?;
    let Some(heights) = shape.heights() else {
        return Err(Trouble::Flaw("it has no body".to_owned()));
    };
    let direction = direction(model, wall)?;
    let (line, thickness) = extent(&shape, direction);
    let whole = Piece { line, thickness, heights };
    let area: f64 = shape.rings.iter().map(|ring| lines::area(ring).abs()).sum();
    let filled = area / (line.length() * thickness).max(1.0);
    if shape.other || filled >= FILLED_MIN {
        return Ok((vec![whole], shape.clipped));
    }
    let edges: Vec<Line> = shape.rings.iter().flat_map(|ring| lines::edges(ring)).collect();
    let limits = lines::Limits { thickness: [20.0, 1000.0] };
    let bands = lines::bands(&edges, &limits).unwrap_or_default();
    if bands.is_empty() {
        return Ok((vec![whole], shape.clipped));
    }
    let piece = |band: lines::Band| Piece { line: band.line, thickness: band.thickness, heights };
    Ok((bands.into_iter().map(piece).collect(), shape.clipped))
}

/// Along the line that the wall is drawn by, or else along its own x axis.
fn direction(model: &Model<'_>, wall: &Entity) -> Result<[f64; 2], Trouble> {
    let axis = match model.axis(wall) {
        Err(Trouble::Exhausted) => return Err(Trouble::Exhausted),
        axis => axis.unwrap_or_default(),
    };
    if let [a, b] = axis.as_slice() {
        let line = Line { a: [a[0], a[1]], b: [b[0], b[1]] };
        if line.length() > 20.0 {
            return Ok(line.direction());
        }
    }
    let x = model.place_of(wall)?.x;
    let length = libm::hypot(x[0], x[1]);
    Ok(if length > 0.1 { [x[0] / length, x[1] / length] } else { [1.0, 0.0] })
}

/// The centre line of the box around a shape along a direction, and its
/// thickness.
fn extent(shape: &Shape, [ux, uy]: [f64; 2]) -> (Line, f64) {
    let [from, to] = shape.along([ux, uy]).unwrap_or_default();
    let [right, left] = shape.along([-uy, ux]).unwrap_or_default();
    let middle = f64::midpoint(right, left);
    let at = |along: f64| [along * ux - middle * uy, along * uy + middle * ux];
    (Line { a: at(from), b: at(to) }, left - right)
}

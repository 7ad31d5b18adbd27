//! The drawing of a level without its paper, for a surface that has no edges.

use kurbo::{Point, Rect, Vec2};

use super::runs::{circuit_mark, ink, line_of};
use super::strands::Medium;
use super::view::View;
use super::{Extra, FloorOptions, Floors, Job, SheetError, Stand, runs};
use crate::lengths::Lengths;
use crate::plan::Plan;
use crate::runs::Runs;
use crate::sheet::Scale;
use crate::sheet::scene::{Group, Item, Layer};
use crate::wording::Local;

/// Room for labels around the drawing, mm.
const AROUND: f64 = 60.0;

/// The marks of a level as [`floor_sheet`](super::floor_sheet) has them, in mm
/// of paper, without frame, notes and title block. The plan's origin is the
/// paper's, `y` down: a place `(x, y)` of the plan is at `(x, −y)` divided by
/// the scale's reduction, however far the drawing reaches.
///
/// Without `lettered` the marks beside points and legs stay away, which is
/// much quicker to draw. The scale is 1:50 unless the options say otherwise;
/// their paper counts for nothing.
///
/// # Errors
/// [`SheetError`] where the plan lacks the level or the circuit.
pub fn bare_floor(
    plan: &Plan,
    runs: &Runs,
    lengths: &Lengths,
    options: &FloorOptions,
    lettered: bool,
) -> Result<Vec<Item>, SheetError> {
    let job = Job::of(plan, runs, lengths, options)?;
    let view = View::anchored(options.scale.unwrap_or(Scale::STEPS[1]));
    let mut floors = Floors::of(plan, runs, lengths, Local::default());
    let drawing = job.drawing(&view, &mut floors);
    let shell = &drawing.shell;
    if !lettered {
        let mut items = vec![shell.hatching.clone(), shell.walls.draw()];
        items.extend(shell.openings.iter().cloned());
        items.extend(drawing.traced.iter().map(|traced| runs::draw(traced, &[])));
        items.extend(drawing.stands.iter().map(Stand::draw));
        return Ok(items);
    }
    let ground = job.ground();
    let (from, to) = (view.at(ground.x0, ground.y0), view.at(ground.x1, ground.y1));
    let space = Rect::from_points(from, to).inflate(AROUND, AROUND);
    let names = floors.names(options.level, &view);
    Ok(job.body(&drawing, names, space, Extra::default()))
}

/// A piece of a circuit's line with its mark, as a key to it, from the origin
/// to the right; the circuit by its position in the plan.
#[must_use]
pub fn circuit_line(index: usize, length: f64) -> Item {
    let places = [Point::ORIGIN, Point::new(length, 0.0)];
    let mut items = line_of(&places, Medium::Above, ink(index));
    items.extend(circuit_mark(Point::new(length / 2.0, 0.0), Vec2::new(1.0, 0.0), index));
    Group::new(Layer::Notes, items).into()
}

//! The drawing of a level for those who live in it: its points and what happens
//! to its walls, without cables.

use super::numbered::{Numbered, lettered};
use super::opening_marks::{band, pass};
use super::view::View;
use super::{Drawing, FloorOptions, Floors, Job, SheetError, Stand, legend};
use crate::plan::Subject;
use crate::sheet::Scale;
use crate::sheet::panel::Row;
use crate::sheet::scene::{Group, Item, Layer};
use crate::units::Point2;

/// A stretch of cable in or on a wall, seen from above.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::sheet) struct OpenedStretch {
    /// The wall's face is cut, opened or covered; else a cable only passes
    /// inside.
    pub(in crate::sheet) opens: bool,
    /// From here.
    pub(in crate::sheet) from: Point2,
    /// To here; the same place where it goes straight up or down.
    pub(in crate::sheet) to: Point2,
}

/// A wall with its number and what happens to it.
#[derive(Clone, Copy, Debug)]
pub(in crate::sheet) struct Opened<'a> {
    pub(in crate::sheet) number: Numbered,
    pub(in crate::sheet) stretches: &'a [OpenedStretch],
}

/// The marks of a level about the plan's origin, and the legend to them.
pub(in crate::sheet) fn opened_floor(
    floors: &mut Floors<'_>,
    options: &FloorOptions,
    opened: &[Opened<'_>],
) -> Result<(Vec<Item>, Vec<Row>), SheetError> {
    let job = Job::of(floors.plan, floors.runs, floors.lengths, options)?;
    let view = View::anchored(options.scale.unwrap_or(Scale::STEPS[1]));
    let shell = floors.shell(options.level, &view);
    let stands = floors.stands(options.level, None, &view);
    let drawing = Drawing { shell, stands, traced: Vec::new() };
    let numbers = opened.iter().map(|one| &one.number);
    // No cables here that names would have to keep clear of.
    let names = job.names(&drawing, &view);
    let (inside, placed, walls) = lettered(&job, &drawing, &view, names, numbers);
    let mut items = vec![drawing.shell.hatching.clone()];
    items.extend(opened.iter().map(|one| bands(one, &view)));
    items.push(drawing.shell.walls.draw());
    items.extend(drawing.shell.openings.iter().cloned());
    items.extend(opened.iter().map(|one| passes(one, &view)));
    items.extend(drawing.stands.iter().map(Stand::draw));
    items.extend(inside);
    items.extend(placed.into_iter().map(|label| label.item));
    items.extend(walls);
    let mut occurs = job.occurs(&drawing);
    (occurs.heights, occurs.circuits) = (false, false);
    let mut all = opened.iter().flat_map(|one| one.stretches);
    occurs.opened = all.clone().any(|one| one.opens);
    occurs.passed = all.any(|one| !one.opens);
    Ok((items, legend::legend(&occurs)))
}

fn bands(one: &Opened<'_>, view: &View) -> Item {
    let opens = one.stretches.iter().filter(|stretch| stretch.opens);
    let items = opens.map(|stretch| band(view.point(stretch.from), view.point(stretch.to)));
    Group::of(Layer::Walls, Subject::Wall(one.number.wall), items.collect()).into()
}

fn passes(one: &Opened<'_>, view: &View) -> Item {
    let passes = one.stretches.iter().filter(|stretch| !stretch.opens);
    let items = passes.map(|stretch| pass(view.point(stretch.from)));
    Group::of(Layer::Walls, Subject::Wall(one.number.wall), items.collect()).into()
}

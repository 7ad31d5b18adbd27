//! Bare floor layouts from elsewhere: walls, openings and rooms, no wiring.
//!
//! # The form
//!
//! A layout is one JSON object. Lengths are metres; `x` points right, `y` up
//! the page. Keys that are not listed are passed over; those in brackets may
//! be missing.
//!
//! | object | keys |
//! |---|---|
//! | layout | (`name`), (`source`), (`licence`), (`units`: `m`), `levels`, lowest first |
//! | level | (`name`), `elevation` of its floor, `height` to the next floor or, on the top one, of its walls, `walls`, `openings`, `rooms`, (`fixtures`) |
//! | wall | `a` and `b`: the ends `[x, y]` of its centre line, `thickness`, (`kind`: `railing` or `column`), (`base`: its foot above the floor), (`height`: its own) |
//! | opening | `kind`: `door`, `window` or `opening`, (`subtype`: `sliding_door`), `wall`: a number into the level's walls, from 0, `at`: its centre, `width`, `sill` and `head` above the floor |
//! | room | `name`, (`type`), (`polygon`: its corners, the first not repeated) |
//! | fixture | `kind`: `sink`, `bathtub`, `shower`, `toilet`, `kitchen` (a bench) or `cooktop`, `at`: its place |
//!
//! Such layouts come from scans and from models of many kinds: walls stop at
//! each other's faces or overlap, pieces are a few millimetres thick, openings
//! stick out over the ends of their walls. Reading mends what it can and says
//! in a [`LayoutReport`] what it took over, changed and left out.

mod error;
mod fixtures;
pub(in crate::store) mod form;
mod openings;
pub(in crate::store) mod rooms;
mod storeys;
mod stray;
mod voids;
pub(in crate::store) mod walls;

use crate::plan::{Level, LevelId, Plan, WallBuild};
use crate::units::{Angle, Mm};

pub use error::{LAYOUT_BYTES_MAX, LAYOUT_PARTS_MAX, LayoutError};

use form::Layout;

/// What a layout does not say and has to be assumed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LayoutOptions {
    /// Whether a roof space that cables can use lies above the top level, or
    /// else concrete.
    pub roof_space: bool,
    /// Whether voids that cables can use lie between levels, or else concrete.
    pub between_floors: bool,
    /// Whether a crawl space lies under the lowest level, or else concrete.
    pub subfloor: bool,
    /// The direction of all joists.
    pub joists: Angle,
    /// From a ceiling to the floor above it, mm.
    pub floor_build_up: Mm,
    /// Walls of at least this thickness are `thick`, the others `thin`, mm.
    pub thick_from: Mm,
    /// What thick walls are made of.
    pub thick: WallBuild,
    /// What thin walls are made of.
    pub thin: WallBuild,
}

impl Default for LayoutOptions {
    fn default() -> Self {
        Self {
            roof_space: true,
            between_floors: true,
            subfloor: false,
            joists: Angle::ZERO,
            floor_build_up: Mm::new(300),
            thick_from: Mm::new(180),
            thick: WallBuild::SolidMasonry,
            thin: WallBuild::Stud,
        }
    }
}

/// What became of a layout.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LayoutReport {
    /// What the layout calls itself.
    pub name: String,
    /// Levels taken over.
    pub levels: usize,
    /// Walls taken over.
    pub walls: usize,
    /// Openings taken over.
    pub openings: usize,
    /// Rooms taken over.
    pub rooms: usize,
    /// What was changed, left out or assumed, in the order of the layout.
    pub notes: Vec<LayoutNote>,
}

/// Something that a person who knows the house should look over.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LayoutNote {
    /// What happened.
    pub kind: NoteKind,
    /// The part of the layout: `levels[0].walls[3]`.
    pub part: String,
    /// What happened, in words.
    pub message: String,
}

/// What happened to a part of a layout.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum NoteKind {
    /// It was taken over otherwise than it stood there.
    Changed,
    /// It is not in the plan.
    LeftOut,
    /// Something was assumed that the layout does not say.
    Assumed,
}

impl LayoutReport {
    /// How many notes are of a kind.
    #[must_use]
    pub fn count(&self, kind: NoteKind) -> usize {
        self.notes.iter().filter(|note| note.kind == kind).count()
    }

    pub(in crate::store) fn note(
        &mut self,
        kind: NoteKind,
        part: String,
        message: impl Into<String>,
    ) {
        self.notes.push(LayoutNote { kind, part, message: message.into() });
    }
}

/// Reads a layout into a plan without points, boards and circuits.
///
/// # Errors
/// [`LayoutError`] where the text is not a layout, is too large, or reaches
/// beyond what a plan can hold. Flaws in the drawing are no errors: see the
/// report.
pub fn read_layout(
    text: &str,
    options: &LayoutOptions,
) -> Result<(Plan, LayoutReport), LayoutError> {
    Ok(drawn(form::read(text)?, options))
}

/// A layout from another form, held to the same limits, as a plan.
///
/// # Errors
/// [`LayoutError`] where it has no level or too many parts.
pub(in crate::store) fn plan_of(
    layout: Layout,
    options: &LayoutOptions,
) -> Result<(Plan, LayoutReport), LayoutError> {
    form::check(layout).map(|layout| drawn(layout, options))
}

fn drawn(mut layout: Layout, options: &LayoutOptions) -> (Plan, LayoutReport) {
    let mut plan = Plan { next_id: 1, ..Plan::default() };
    let mut report = LayoutReport { name: layout.name.clone(), ..LayoutReport::default() };
    plan.project.title.clone_from(&layout.name);
    plan.project.notes = credit(&layout);
    storeys::sort(&mut layout, &mut report);
    let lowest = layout.levels.first().map_or(Mm::ZERO, |level| level.elevation);
    if lowest != Mm::ZERO {
        let message = format!("heights are counted from the lowest floor, at {lowest}");
        report.note(NoteKind::Changed, "levels[0]".to_owned(), message);
    }
    let mut levels = Vec::new();
    for index in 0..layout.levels.len() {
        let id = level(&mut plan, &layout, index, lowest, options, &mut report);
        let level = &layout.levels[index];
        let walls = walls::add(&mut plan, id, level, options, &mut report);
        openings::add(&mut plan, &walls, level, &mut report);
        rooms::add(&mut plan, id, &level.rooms, &mut report);
        fixtures::add(&mut plan, id, &level.fixtures, &mut report);
        levels.push(id);
    }
    voids::add(&mut plan, &levels, options, &mut report);
    report.levels = plan.levels.len();
    report.walls = plan.walls.len();
    report.openings = plan.openings.len();
    report.rooms = plan.rooms.len();
    (plan, report)
}

/// Where the layout comes from goes with the plan wherever it goes.
fn credit(layout: &Layout) -> String {
    let parts = [&layout.source, &layout.licence];
    let parts: Vec<&str> =
        parts.into_iter().filter(|part| !part.is_empty()).map(String::as_str).collect();
    if parts.is_empty() { String::new() } else { format!("Layout: {}", parts.join("; ")) }
}

/// The least floor-to-ceiling height that a level is given, mm.
const HEIGHT_MIN: Mm = Mm::new(300);

fn level(
    plan: &mut Plan,
    layout: &Layout,
    index: usize,
    lowest: Mm,
    options: &LayoutOptions,
    report: &mut LayoutReport,
) -> LevelId {
    let level = &layout.levels[index];
    let height = match layout.levels.get(index + 1) {
        // The height of a level may reach past the next floor where a source
        // counts from foundation to storey.
        Some(next) if next.elevation > level.elevation => {
            level.height.min(next.elevation - level.elevation) - options.floor_build_up
        }
        _ => level.height,
    };
    let height = height.max(HEIGHT_MIN);
    if height != level.height {
        let message = format!("height {} taken as {height} floor to ceiling", level.height);
        report.note(NoteKind::Changed, format!("levels[{index}]"), message);
    }
    let id = LevelId(next_id(plan));
    let name = if level.name.is_empty() { format!("Level {index}") } else { level.name.clone() };
    let floor = level.elevation - lowest;
    plan.levels.insert(id, Level { name, floor, height, above: Vec::new(), below: Vec::new() });
    id
}

fn next_id(plan: &mut Plan) -> u32 {
    plan.next_id += 1;
    plan.next_id - 1
}

#[cfg(test)]
mod tests;

//! Where on a wall something can be set.

use super::kit::Kit;
use super::numbers::real;
use super::survey::{Door, Span, Survey};
use crate::plan::{Face, LevelId, RoomId, RoomUse, WallId};
use crate::rules::words::ClearanceOf;
use crate::units::{Mm, Point2};

/// How far a box keeps from what.
#[derive(Clone, Copy, Debug)]
pub(super) struct Clear {
    /// From corners, mm.
    pub(super) corner: i64,
    /// From doors and other openings to the floor, mm.
    pub(super) door: i64,
    /// From windows, mm.
    pub(super) window: i64,
    /// Whether walls under and over windows count as free.
    pub(super) at_windows: bool,
}

/// Pieces of wall in a room that are free at a height.
pub(super) fn usable(
    kit: &Kit<'_>,
    survey: &Survey,
    room: RoomId,
    height: Mm,
    clear: Clear,
) -> Vec<Span> {
    let mut usable = Vec::new();
    let leaves = leaves(kit, survey, room, height);
    for span in survey.spans_of(room) {
        let mut blocked: Vec<(i64, i64)> =
            leaves.iter().filter_map(|leaf| leaf.hides(kit, span)).collect();
        for id in survey.openings_of(span.wall) {
            let opening = &kit.plan.openings[id];
            let (from, to) = (opening.from.get(), (opening.from + opening.width).get());
            let margin = Mm::new(150);
            let window = opening.sill > Mm::new(300);
            let level = opening.sill - margin < height && height < opening.head + margin;
            // Over a door the lintel is no place for a box.
            let blocks = if window { level || !clear.at_windows } else { true };
            if blocks {
                let off = if window { clear.window } else { clear.door };
                blocked.push((from - off, to + off));
            }
        }
        blocked.sort_unstable();
        let mut from = span.from + clear.corner;
        let end = span.to - clear.corner;
        for (low, high) in blocked {
            if low > from {
                push(&mut usable, span, from, low.min(end));
            }
            from = from.max(high);
        }
        push(&mut usable, span, from, end);
    }
    usable
}

/// A door that stands open at a right angle, from its hinges on.
struct Leaf {
    hinges: (f64, f64),
    towards: (f64, f64),
    width: f64,
}

impl Leaf {
    /// The stretch of wall behind it.
    fn hides(&self, kit: &Kit<'_>, span: &Span) -> Option<(i64, i64)> {
        let is_hidden = |along: &i64| {
            let (x, y) = seen(kit, span.wall, span.face, *along);
            let (px, py) = (x - self.hinges.0, y - self.hinges.1);
            let (nx, ny) = self.towards;
            let out = (px * nx + py * ny).clamp(0.0, self.width);
            libm::hypot(px - out * nx, py - out * ny) < BEHIND
        };
        let step = usize::try_from(HIDDEN_STEP).unwrap_or(1);
        let mut hidden = (span.from..=span.to).step_by(step).filter(is_hidden);
        let first = hidden.next()?;
        Some((first, hidden.last().unwrap_or(first) + HIDDEN_STEP))
    }
}

/// A box so near to an open door is behind it, mm.
const BEHIND: f64 = 250.0;
/// From sample to sample along a wall, mm.
const HIDDEN_STEP: i64 = 50;

/// The doors that open into a room and reach up to a height, of those whose
/// hinges are known.
fn leaves(kit: &Kit<'_>, survey: &Survey, room: RoomId, height: Mm) -> Vec<Leaf> {
    let doors = survey.doors_of(room).iter();
    let leaf = |door: &Door| {
        let opening = &kit.plan.openings[&door.opening];
        let hinge = opening.hinge.filter(|hinge| hinge.opens == door.face)?;
        let edge = if hinge.at_near_edge { door.from } else { door.to };
        (height < opening.head).then(|| Leaf {
            hinges: seen(kit, door.wall, door.face, edge),
            towards: kit.plan.walls[&door.wall].normal(door.face),
            width: real(door.to - door.from),
        })
    };
    doors.filter_map(leaf).collect()
}

fn push(usable: &mut Vec<Span>, span: &Span, from: i64, to: i64) {
    if to >= from {
        usable.push(Span { from, to, ..*span });
    }
}

/// A place on the face of a wall, seen from above, mm.
pub(super) fn seen(kit: &Kit<'_>, wall: WallId, face: Face, along: i64) -> (f64, f64) {
    let drawn = &kit.plan.walls[&wall];
    let ((dx, dy), (nx, ny)) = (drawn.direction(), drawn.normal(face));
    let half = drawn.thickness.to_f64() / 2.0;
    (
        drawn.a.x.to_f64() + dx * real(along) + nx * half,
        drawn.a.y.to_f64() + dy * real(along) + ny * half,
    )
}

/// The free place nearest to another, by steps of 50 mm.
pub(super) fn nearest(
    kit: &Kit<'_>,
    spans: &[Span],
    height: Mm,
    to: (f64, f64),
) -> Option<(WallId, Face, i64)> {
    let mut best: Option<(f64, (WallId, Face, i64))> = None;
    for span in spans {
        let mut along = span.from;
        while along <= span.to {
            let (x, y) = seen(kit, span.wall, span.face, along);
            let far = libm::hypot(x - to.0, y - to.1);
            if best.is_none_or(|best| far < best.0 - 1e-6)
                && !kit.is_taken(span.wall, span.face, along, height.get())
            {
                best = Some((far, (span.wall, span.face, along)));
            }
            along += 50;
        }
    }
    best.map(|best| best.1)
}

/// What of the free pieces of a bathroom's walls is outside the zones of its
/// bath and shower, for a switch; of other rooms all of it.
pub(super) fn dry(kit: &Kit<'_>, room: RoomId, spans: Vec<Span>) -> Vec<Span> {
    let drawn = &kit.plan.rooms[&room];
    if drawn.usage != RoomUse::Bathroom {
        return spans;
    }
    let off = kit.clearance(ClearanceOf::BathSwitch);
    let is_dry = |span: &Span, along: i64| {
        let at = seen(kit, span.wall, span.face, along);
        !is_near_area(kit, drawn.level, at, &["bath", "shower"], off)
    };
    let mut pieces: Vec<Span> = Vec::new();
    for span in spans {
        let mut open = false;
        for along in (span.from..=span.to).step_by(50) {
            let was_open = open;
            open = is_dry(&span, along);
            match pieces.last_mut().filter(|_| was_open && open) {
                Some(piece) => piece.to = along,
                None if open => pieces.push(Span { from: along, to: along, ..span }),
                None => {}
            }
        }
    }
    pieces
}

/// Places in the plan that sockets and switches keep away from in a room:
/// outlines of areas by the words in their names, and how far.
pub(super) fn is_near_area(
    kit: &Kit<'_>,
    level: LevelId,
    at: (f64, f64),
    words: &[&str],
    off: i64,
) -> bool {
    kit.plan.areas.values().any(|area| {
        let name = area.name.to_lowercase();
        let elsewhere = match area.on {
            crate::plan::Plane::Void(_) => false,
            crate::plan::Plane::Wall(id) => {
                kit.plan.walls.get(&id).is_none_or(|wall| wall.level != level)
            }
        };
        if elsewhere || !words.iter().any(|word| name.contains(word)) {
            return false;
        }
        let outline: Vec<Point2> = match area.on {
            crate::plan::Plane::Void(_) => area.outline.clone(),
            crate::plan::Plane::Wall(id) => match kit.plan.walls.get(&id) {
                Some(wall) => area.outline.iter().map(|c| wall.at(c.x.to_f64())).collect(),
                None => return false,
            },
        };
        super::outline::depth(&outline, at.0, at.1) > -real(off) - 1.0
    })
}

/// Places where no box is set in any room: behind a toilet, a bath or a shower.
pub(super) const STANDS: [&str; 3] = ["toilet", "bath", "shower"];

/// The stretch of a wall that is marked with a name by an area, if any.
pub(super) fn marked(kit: &Kit<'_>, span: &Span, name: &str) -> Option<(i64, i64)> {
    kit.plan.areas.values().find_map(|area| {
        let own = area.on == crate::plan::Plane::Wall(span.wall) && area.name.contains(name);
        let along = || area.outline.iter().map(|corner| corner.x.get());
        let (from, to) = (along().min()?.max(span.from), along().max()?.min(span.to));
        (own && to > from).then_some((from, to))
    })
}

//! What stands on and lies in each piece of a face of a wall, by distances
//! that a tape finds there: the one source of elevations, of the sheet of
//! where not to drill and of the list to set out by.

mod cables;
mod hidden;
mod set_out;
mod straight;
mod strip;
mod words;

use kurbo::{Point, Rect};

use crate::plan::{Circuit, CircuitId, End, FacePiece, OnWall, OpeningId, Place, WallId};
use crate::sheet::house::House;
use crate::units::Mm;
use cables::InWalls;

pub use set_out::{Marked, SetOutRow, set_out_rows};
pub use strip::KEEP_OFF;
pub(crate) use words::{edge_words, hand_word, rooms_words, walls_words};

/// A piece of a face as one sees it from its room: all distances from its
/// finished corner at the left and up from the floor, mm.
#[derive(Clone, Debug)]
pub struct WallView<'a> {
    /// The piece.
    pub piece: &'a FacePiece,
    /// From floor to ceiling, mm.
    pub height: f64,
    /// The boxes on it, and those on the other face behind it.
    pub boxes: Vec<BoxOn>,
    /// The doors, windows and holes in it.
    pub openings: Vec<OpeningIn>,
    /// The cables in its walls.
    pub cables: Vec<CableIn<'a>>,
}

/// A box on a piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BoxOn {
    /// Whose it is.
    pub end: End,
    /// From the corner at the left to its middle, mm.
    pub across: f64,
    /// From the floor to its middle.
    pub height: Mm,
    /// Whether it is on this face and not on the other.
    pub is_near: bool,
    /// Whether it is drawn within another wall, or past the end of its own: it
    /// is shown at the end of the nearest piece.
    pub is_past: bool,
}

/// What of an opening lies in a piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OpeningIn {
    /// The opening.
    pub id: OpeningId,
    /// Its area.
    pub area: Rect,
}

/// A straight piece of cable behind a piece of a face.
#[derive(Clone, Debug, PartialEq)]
pub struct CableIn<'a> {
    /// Its place among all straight pieces of cable in walls.
    pub number: usize,
    /// The circuit's place in the plan.
    pub index: usize,
    /// The wall that it is in.
    pub wall: WallId,
    /// The circuit.
    pub circuit: &'a Circuit,
    /// Its id, and the ends of the leg.
    pub ends: (CircuitId, End, End),
    /// Circuit and leg: `3.2`.
    pub leg: String,
    /// What of it this is: from and to along its wall, mm.
    pub along: (f64, f64),
    /// One of its ends.
    pub from: Point,
    /// The other.
    pub to: Point,
    /// It lies in the corner, within the thickness of a wall that meets this
    /// one there, so far past the end of the piece, mm; it is shown at that end.
    pub past: Option<f64>,
}

/// The pieces of all faces, in their order.
#[must_use]
pub fn wall_views<'a>(house: &'a House<'a>) -> Vec<WallView<'a>> {
    let in_walls = InWalls::of(house);
    let pieces = house.faces().pieces().iter();
    let mut views: Vec<WallView<'a>> =
        pieces.filter_map(|piece| WallView::of(house, piece, &in_walls)).collect();
    place_strays(house, &mut views);
    views
}

impl<'a> WallView<'a> {
    fn of(house: &'a House<'a>, piece: &'a FacePiece, in_walls: &InWalls<'a>) -> Option<Self> {
        let level = house.plan.levels.get(&piece.level)?;
        let mut view = Self {
            piece,
            height: level.height.to_f64(),
            boxes: Vec::new(),
            openings: Vec::new(),
            cables: Vec::new(),
        };
        for (end, on) in in_walls.boxes(piece) {
            view.boxes.extend(box_on(piece, *end, on));
        }
        for opening in in_walls.openings(piece) {
            view.openings.extend(opening_in(house, piece, *opening));
        }
        view.cables = in_walls.cables(piece, view.height);
        Some(view)
    }

    /// Its cables that go straight up or down.
    pub fn uprights(&self) -> impl Iterator<Item = &CableIn<'a>> {
        self.cables.iter().filter(|one| one.is_upright())
    }

    /// Whether it has a box that one sees.
    #[must_use]
    pub fn has_boxes(&self) -> bool {
        self.boxes.iter().any(|one| one.is_near)
    }
}

impl CableIn<'_> {
    /// Whether it goes straight up or down.
    #[must_use]
    pub fn is_upright(&self) -> bool {
        (self.from.x - self.to.x).abs() < 2.0
    }
}

fn box_on(piece: &FacePiece, end: End, on: &OnWall) -> Option<BoxOn> {
    let along = on.along.to_f64();
    let span = piece.spans.iter().find(|span| span.wall == on.wall && span.holds(along))?;
    Some(BoxOn {
        end,
        across: span.across(along).clamp(0.0, piece.length),
        height: on.height,
        is_near: on.face == span.side,
        is_past: false,
    })
}

fn opening_in(house: &House<'_>, piece: &FacePiece, id: OpeningId) -> Option<OpeningIn> {
    let opening = house.plan.openings.get(&id)?;
    let sides = piece.spans.iter().filter(|span| span.wall == opening.wall);
    let clipped = sides.filter_map(|span| {
        let low = opening.from.to_f64().max(span.from);
        let high = (opening.from + opening.width).to_f64().min(span.to);
        (low < high).then(|| (span.across(low), span.across(high)))
    });
    let (one, other) = clipped.reduce(|a, b| {
        let all = [a.0, a.1, b.0, b.1];
        (all.into_iter().fold(f64::INFINITY, f64::min), all.into_iter().fold(0.0, f64::max))
    })?;
    let area = Rect::new(one, opening.sill.to_f64(), other, opening.head.to_f64()).abs();
    Some(OpeningIn { id, area })
}

/// Boxes within another wall or past the end of their own go to the end of
/// the nearest piece of their face, so that no paper leaves one out.
fn place_strays(house: &House<'_>, views: &mut [WallView<'_>]) {
    let plan = house.plan;
    let boards = plan.boards.iter().map(|(id, board)| (End::Board(*id), board.place));
    let points = plan.points.iter().map(|(id, point)| (End::Point(*id), point.place));
    for (end, place) in boards.chain(points) {
        let Some(Place::Wall(on)) = place else { continue };
        if house.faces().place(&on).is_some() {
            continue;
        }
        let Some((piece, across)) = house.faces().nearest(&on) else { continue };
        let view = views.iter_mut().find(|view| core::ptr::eq(view.piece, piece));
        if let Some(view) = view {
            let height = on.height;
            view.boxes.push(BoxOn { end, across, height, is_near: true, is_past: true });
        }
    }
}

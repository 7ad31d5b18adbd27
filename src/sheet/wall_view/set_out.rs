//! What is marked on the walls before anything is cut: every box, and every
//! straight piece of cable, from an edge that a tape finds.

use super::{CableIn, WallView, rooms_words, wall_views};
use crate::plan::{Circuit, CircuitId, Edge, End, Face, FacePiece, Hand, Place, SetOut};
use crate::sheet::house::House;
use crate::units::Mm;

/// Something that is set out on a piece of a face.
#[derive(Clone, Debug)]
pub struct SetOutRow<'a> {
    /// The piece.
    pub piece: &'a FacePiece,
    /// The room that it is seen from.
    pub room: String,
    /// How far from the corner at the left, mm.
    pub across: f64,
    /// What it is measured from.
    pub edge: Edge,
    /// On which hand of that edge it lies; none where it lies past the corner,
    /// within the wall that meets this one there.
    pub towards: Option<Hand>,
    /// How far from the edge.
    pub distance: Mm,
    /// How far above the finished floor.
    pub height: Mm,
    /// For a cable, how far from the same edge and how high its other end is.
    pub to: Option<(Mm, Mm)>,
    /// What it is.
    pub what: Marked,
    /// Its circuit, if it has one.
    pub circuit: Option<&'a Circuit>,
    /// The number of the leg; empty for a box.
    pub leg: String,
}

/// What is set out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Marked {
    /// A box.
    Box(End),
    /// A straight piece of cable of a leg.
    Cable {
        /// The circuit.
        circuit: CircuitId,
        /// The leg's ends.
        ends: (End, End),
        /// Whether it goes straight up or down.
        is_upright: bool,
    },
}

/// Everything on walls that is set out, by level, room, piece and distance
/// from the corner at the left. A cable is given once, on the face from which
/// it is put in: that of a box at one of its leg's ends, or else one in a room.
#[must_use]
pub fn set_out_rows<'a>(house: &'a House<'a>) -> Vec<SetOutRow<'a>> {
    let views = wall_views(house);
    let mut rows: Vec<SetOutRow<'a>> = views.iter().flat_map(|view| boxes(house, view)).collect();
    rows.extend(cables(house, &views));
    let level = |row: &SetOutRow<'_>| house.plan.levels.get_index_of(&row.piece.level);
    rows.sort_by(|a, b| {
        (level(a), &a.room, a.piece.spans.first().map(|span| span.wall), &a.piece.name)
            .cmp(&(level(b), &b.room, b.piece.spans.first().map(|span| span.wall), &b.piece.name))
            .then(a.across.total_cmp(&b.across))
            .then(a.height.cmp(&b.height))
    });
    rows
}

fn boxes<'a>(house: &'a House<'a>, view: &WallView<'a>) -> Vec<SetOutRow<'a>> {
    let piece = view.piece;
    let near = view.boxes.iter().filter(|one| one.is_near);
    let rows = near.filter_map(|one| {
        let room = match house.room_of(one.end) {
            "" => rooms_words(house.plan, piece),
            room => room.to_owned(),
        };
        let circuit = match one.end {
            End::Point(id) => house.plan.points.get(&id)?.circuit,
            End::Board(_) => None,
        };
        let out = house.faces().set_out_at(piece, one.across)?;
        let (edge, distance, towards) = if one.is_past {
            past(house, piece, one.end, one.across)?
        } else {
            (out.edge, out.distance, Some(out.towards))
        };
        Some(SetOutRow {
            piece,
            room,
            across: one.across,
            edge,
            towards,
            distance,
            height: one.height,
            to: None,
            what: Marked::Box(one.end),
            circuit: circuit.and_then(|id| house.plan.circuits.get(&id)),
            leg: String::new(),
        })
    });
    rows.collect()
}

/// How far past the corner of a piece a box is drawn.
fn past(
    house: &House<'_>,
    piece: &FacePiece,
    end: End,
    across: f64,
) -> Option<(Edge, Mm, Option<Hand>)> {
    let Some(Place::Wall(on)) = house.plan.place_of(end) else { return None };
    let span = piece.span_of(on.wall, on.face)?;
    let distance = (span.across(on.along.to_f64()) - across).abs();
    Some((corner(piece, across), Mm::from_f64(distance).ok()?, None))
}

/// The corner of a piece that is nearer.
fn corner(piece: &FacePiece, across: f64) -> Edge {
    if across <= piece.length - across {
        Edge::Corner { end: Hand::Left, corner: piece.left }
    } else {
        Edge::Corner { end: Hand::Right, corner: piece.right }
    }
}

fn cables<'a>(house: &'a House<'a>, views: &[WallView<'a>]) -> Vec<SetOutRow<'a>> {
    let mut all: Vec<(usize, Rank, &WallView<'a>, &CableIn<'a>)> = Vec::new();
    for view in views {
        let own = view.cables.iter();
        all.extend(own.filter_map(|one| Some((one.number, Rank::of(view, one)?, view, one))));
    }
    all.sort_by_key(|a| (a.0, a.1));
    let of_one = all.chunk_by(|a, b| a.0 == b.0);
    let best = of_one.flat_map(|group| {
        let same = move |one: &&(usize, Rank, &WallView<'a>, &CableIn<'a>)| {
            let (best, own) = (group[0].1, one.1);
            (own.is_past, own.side) == (best.is_past, best.side)
        };
        // Of what lies in a corner the nearest end of a face is enough.
        let most = if group[0].1.is_past { 1 } else { usize::MAX };
        group.iter().filter(same).take(most)
    });
    best.filter_map(|(_, _, view, one)| cable(house, view, one)).collect()
}

/// From which face a cable is set out, the best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
struct Rank {
    is_past: bool,
    has_no_end: bool,
    is_outside: bool,
    side: Face,
    off: i64,
}

impl Rank {
    /// None for a piece of another wall than the cable is in.
    fn of(view: &WallView<'_>, one: &CableIn<'_>) -> Option<Self> {
        let span = view.piece.spans.iter().find(|span| span.wall == one.wall)?;
        let (_, from, to) = one.ends;
        let is_end = |end: End| end == from || end == to;
        let has_end = view.boxes.iter().any(|own| own.is_near && is_end(own.end));
        Some(Self {
            is_past: one.past.is_some(),
            has_no_end: !has_end,
            is_outside: view.piece.rooms.is_empty(),
            side: span.side,
            off: Mm::from_f64(one.past.unwrap_or(0.0)).map_or(0, Mm::get),
        })
    }
}

fn cable<'a>(
    house: &'a House<'a>,
    view: &WallView<'a>,
    one: &CableIn<'a>,
) -> Option<SetOutRow<'a>> {
    let piece = view.piece;
    let (circuit, from, to) = one.ends;
    let is_upright = one.is_upright();
    let round = |at: f64| Mm::from_f64(at).unwrap_or(Mm::ZERO);
    // Lower end first; of a level one the end nearer to its corner.
    let (mut low, mut high) = (one.from, one.to);
    let (edge, towards, near, far) = if let Some(past) = one.past {
        (corner(piece, low.x), None, round(past), round(past))
    } else if is_upright {
        let SetOut { edge, towards, distance, .. } = house.faces().set_out_at(piece, low.x)?;
        (edge, Some(towards), distance, distance)
    } else {
        let (left, right) = (low.x.min(high.x), low.x.max(high.x));
        let is_left = left <= piece.length - right;
        if (low.x > high.x) == is_left {
            (low, high) = (high, low);
        }
        let zero = if is_left { 0.0 } else { piece.length };
        let (end, towards, corner) = if is_left {
            (Hand::Left, Hand::Right, piece.left)
        } else {
            (Hand::Right, Hand::Left, piece.right)
        };
        let off = |at: f64| round((at - zero).abs());
        (Edge::Corner { end, corner }, Some(towards), off(low.x), off(high.x))
    };
    if is_upright && low.y > high.y {
        (low, high) = (high, low);
    }
    Some(SetOutRow {
        piece,
        room: rooms_words(house.plan, piece),
        across: low.x.min(high.x),
        edge,
        towards,
        distance: near,
        height: round(low.y),
        to: Some((far, round(high.y))),
        what: Marked::Cable { circuit, ends: (from, to), is_upright },
        circuit: Some(one.circuit),
        leg: one.leg.clone(),
    })
}

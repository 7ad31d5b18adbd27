//! The sheet in layers that lie over each other, what stays and what moves
//! apart: while something is dragged only what moves is made and painted anew.

use std::sync::Arc;

use kurbo::Rect;
use wirewend::plan::Subject;
use wirewend::session::work::{Drawn, Moves, Picture, Thing};
use wirewend::sheet::{Group, Item, Layer};

use crate::app::canvas::paint::{Ready, ready};

/// A thing made ready for the canvas.
#[derive(Debug)]
pub(in crate::app) struct Piece {
    pub(in crate::app) thing: Thing,
    pub(in crate::app) marks: Vec<Ready>,
    /// The box around it, mm of paper.
    pub(in crate::app) bounds: Option<Rect>,
}

/// Things that are painted together.
#[derive(Debug, Default)]
pub(in crate::app) struct CanvasLayer {
    pub(in crate::app) pieces: Vec<Arc<Piece>>,
    /// The box around all of them, mm of paper.
    pub(in crate::app) bounds: Option<Rect>,
}

/// How many lie over each other: walls, cables, points, lettering, signs.
const DEEP: usize = 5;

/// All layers of a picture, the lowest first.
#[derive(Clone, Debug, Default)]
pub(in crate::app) struct CanvasLayers {
    pairs: [Pair; DEEP],
    /// Whether something moves.
    moving: bool,
}

#[derive(Clone, Debug, Default)]
struct Pair {
    still: Arc<CanvasLayer>,
    moving: Arc<CanvasLayer>,
}

/// What was computed, its marks made ready for the canvas.
#[derive(Clone, Debug)]
pub(in crate::app) struct Painted {
    pub(in crate::app) picture: Arc<Picture>,
    pub(in crate::app) layers: CanvasLayers,
}

impl Painted {
    /// As much as possible is taken over from what was shown before.
    pub(in crate::app) fn of(drawn: Drawn, before: &CanvasLayers) -> Self {
        let layers = CanvasLayers::of(drawn.things, &drawn.moves, Some(before));
        Self { picture: Arc::new(drawn.picture), layers }
    }
}

impl CanvasLayers {
    /// Things on layers, as much as possible taken over from the picture before.
    pub(in crate::app) fn of(things: Vec<Thing>, moves: &Moves, before: Option<&Self>) -> Self {
        let mut sorted: [Vec<Thing>; DEEP] = Default::default();
        for thing in things {
            sorted[depth(&thing)].push(thing);
        }
        let nothing = Self::default();
        let before = before.unwrap_or(&nothing);
        let mut pairs: [Pair; DEEP] = Default::default();
        for ((pair, things), old) in pairs.iter_mut().zip(sorted).zip(&before.pairs) {
            *pair = if moves.is_empty() {
                old.settled(things)
            } else if before.moving {
                old.followed(things)
            } else {
                old.parted(things, |thing| about(thing, moves))
            };
        }
        Self { pairs, moving: !moves.is_empty() }
    }

    /// All of them, the lowest first, each with whether it stays.
    pub(in crate::app) fn all(&self) -> impl Iterator<Item = (&Arc<CanvasLayer>, bool)> {
        self.pairs.iter().flat_map(|pair| [(&pair.still, true), (&pair.moving, false)])
    }
}

impl Pair {
    /// Nothing moves: all things stay.
    fn settled(&self, things: Vec<Thing>) -> Self {
        let still = CanvasLayer::of(things, &[&self.still, &self.moving]);
        let same = still.is(&self.still) && self.moving.pieces.is_empty();
        let still = if same { Arc::clone(&self.still) } else { Arc::new(still) };
        Self { still, moving: Arc::default() }
    }

    /// Something begins to move: things that will change with it are set apart.
    fn parted(&self, things: Vec<Thing>, goes: impl Fn(&Thing) -> bool) -> Self {
        let (go, stay): (Vec<Thing>, Vec<Thing>) = things.into_iter().partition(goes);
        let old = [&*self.still, &*self.moving];
        let still = CanvasLayer::of(stay, &old);
        let still = if still.is(&self.still) { Arc::clone(&self.still) } else { still.into() };
        Self { still, moving: CanvasLayer::of(go, &old).into() }
    }

    /// It moves on: what is as it was stays where it is, the rest moves.
    fn followed(&self, things: Vec<Thing>) -> Self {
        let (mut stay, mut go) = (Vec::new(), Vec::new());
        let mut cursor = Cursor::new(&self.still.pieces);
        for thing in things {
            match cursor.find(&thing) {
                Some(piece) => stay.push(piece),
                None => go.push(thing),
            }
        }
        let still = if stay.len() == self.still.pieces.len() {
            Arc::clone(&self.still)
        } else {
            Arc::new(CanvasLayer::with(stay))
        };
        let moving = CanvasLayer::of(go, &[&self.moving]);
        let moving =
            if moving.is(&self.moving) { Arc::clone(&self.moving) } else { Arc::new(moving) };
        Self { still, moving }
    }
}

impl CanvasLayer {
    fn of(things: Vec<Thing>, old: &[&Self]) -> Self {
        let mut cursors: Vec<Cursor<'_>> =
            old.iter().map(|layer| Cursor::new(&layer.pieces)).collect();
        let known = |thing: &Thing, cursors: &mut Vec<Cursor<'_>>| {
            cursors.iter_mut().find_map(|cursor| cursor.find(thing))
        };
        let pieces = things
            .into_iter()
            .map(|thing| known(&thing, &mut cursors).unwrap_or_else(|| Piece::of(thing).into()));
        Self::with(pieces.collect())
    }

    fn with(pieces: Vec<Arc<Piece>>) -> Self {
        let boxes = pieces.iter().filter_map(|piece| piece.bounds);
        let bounds = boxes.reduce(|all, one| all.union(one));
        Self { pieces, bounds }
    }

    /// Whether both hold the very same pieces.
    fn is(&self, other: &Self) -> bool {
        self.pieces.len() == other.pieces.len()
            && self.pieces.iter().zip(&other.pieces).all(|(one, two)| Arc::ptr_eq(one, two))
    }
}

impl Piece {
    fn of(thing: Thing) -> Self {
        let marks = match &thing {
            Thing::Drawn(item) => ready(std::slice::from_ref(item)),
            Thing::Found(..) => Vec::new(),
        };
        let bounds = match &thing {
            Thing::Drawn(_) => marks.iter().map(Ready::bounds).reduce(|all, one| all.union(one)),
            Thing::Found(at, _) => {
                let per = wirewend::session::state::REDUCTION;
                let at = kurbo::Point::new(at.x.to_f64() / per, -at.y.to_f64() / per);
                Some(Rect::from_points(at, at))
            }
        };
        Self { thing, marks, bounds }
    }
}

/// Finds things in the order in which they lie.
struct Cursor<'a> {
    pieces: &'a [Arc<Piece>],
    at: usize,
}

impl<'a> Cursor<'a> {
    const fn new(pieces: &'a [Arc<Piece>]) -> Self {
        Self { pieces, at: 0 }
    }

    fn find(&mut self, thing: &Thing) -> Option<Arc<Piece>> {
        let rest = self.pieces.get(self.at..)?;
        let found = rest.iter().position(|piece| piece.thing == *thing)?;
        self.at += found + 1;
        Some(Arc::clone(&rest[found]))
    }
}

/// How far up a thing lies. What has no layer of its own lies as lettering
/// does, above all that is drawn.
fn depth(thing: &Thing) -> usize {
    let Thing::Drawn(item) = thing else { return 4 };
    let Item::Group(Group { layer, subject, .. }) = item else { return 3 };
    match (layer, subject) {
        // Paper under what runs in walls.
        (Layer::Walls | Layer::Openings | Layer::Frame, _) | (Layer::Runs, None) => 0,
        (Layer::Runs, Some(Subject::Leg { .. })) => 1,
        // Loops of cable at points.
        (Layer::Points | Layer::Runs, _) => 2,
        _ => 3,
    }
}

/// Whether a thing changes with what is moved.
fn about(thing: &Thing, moves: &Moves) -> bool {
    matches!(thing, Thing::Drawn(Item::Group(group)) if moves.touches(group))
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Shape as _;
    use wirewend::plan::{CircuitId, End, PointId};
    use wirewend::sheet::{Ink, Mark};

    fn leg(circuit: u32, to: u32, x: f64) -> Thing {
        let path = Rect::new(x, 0.0, x + 1.0, 1.0).to_path(0.1);
        let subject = Subject::Leg {
            circuit: CircuitId(circuit),
            from: End::Point(PointId(0)),
            to: End::Point(PointId(to)),
        };
        let marks = vec![Mark::area(path, Ink::BLACK).into()];
        Thing::Drawn(Group::of(Layer::Runs, subject, marks).into())
    }

    #[test]
    fn what_stays_is_taken_over_and_what_moves_is_apart() {
        let things = |x: f64| vec![leg(1, 1, 0.0), leg(2, 2, x), leg(3, 3, 9.0)];
        let moves = &Moves::of([Subject::Point(PointId(2))].into_iter());
        let first = CanvasLayers::of(things(1.0), &Moves::default(), None);
        let taken = CanvasLayers::of(things(1.0), moves, Some(&first));
        let moved = CanvasLayers::of(things(2.0), moves, Some(&taken));
        let on_cables = |layers: &CanvasLayers| {
            (Arc::clone(&layers.pairs[1].still), Arc::clone(&layers.pairs[1].moving))
        };
        assert_eq!(on_cables(&taken).0.pieces.len(), 2, "two legs stay");
        assert!(Arc::ptr_eq(&on_cables(&taken).0, &on_cables(&moved).0), "the very same layer");
        assert_eq!(on_cables(&moved).1.pieces.len(), 1, "one moves");
        // A leg that nobody thought of changes too: it moves from then on.
        let other = vec![leg(1, 1, 0.5), leg(2, 2, 2.0), leg(3, 3, 9.0)];
        let more = CanvasLayers::of(other, moves, Some(&moved));
        assert_eq!(on_cables(&more).0.pieces.len(), 1, "one leg stays");
        assert_eq!(on_cables(&more).1.pieces.len(), 2, "two move");
        let done = CanvasLayers::of(things(2.0), &Moves::default(), Some(&more));
        assert_eq!((on_cables(&done).0.pieces.len(), on_cables(&done).1.pieces.len()), (3, 0));
        let again = CanvasLayers::of(things(2.0), &Moves::default(), Some(&done));
        assert!(Arc::ptr_eq(&on_cables(&done).0, &on_cables(&again).0), "nothing is made anew");
    }
}

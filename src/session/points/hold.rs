//! Points and boards in the hand: the one that was taken leads, the others
//! that are chosen go with it; one edit at the release.

use kurbo::{Point, Vec2};

use crate::plan::{Board, Change, Edit, End, OnWall, Place, Subject, Wall};
use crate::session::Session;
use crate::session::ground::kit;
use crate::session::ground::places::exact;
use crate::session::state::Hold;
use crate::units::Mm;

/// How far a press must move before it drags, pixels.
const SLACK: f64 = 4.0;
/// How near a wall's end a box may come, mm.
const CLEAR: f64 = 50.0;

impl Session {
    /// Takes a point or a board, and with it what is chosen beside it.
    pub(crate) fn take_hold(&mut self, end: End, from: Point) {
        let mut others = self.chosen_ends();
        others.retain(|other| *other != end);
        self.hand.carry(Some(Hold { end, others, from, to: Vec::new() }));
    }

    /// The pointer moves to a place of the plan.
    pub fn hover(&mut self, at: Point) {
        self.hand.point(Some(at));
        if self.stretch(at) || self.hand.over().is_some() {
            return;
        }
        let slack = self.sight.camera().reach(SLACK);
        if self.hand.drawing.reshape.is_some() {
            return self.reshape_to(at, slack);
        }
        let Some(hold) = self.hand.hold() else { return };
        if hold.to.is_empty() && at.distance(hold.from) < slack {
            return;
        }
        let to = self.carried(hold, at).unwrap_or_default();
        if to != hold.to {
            self.hand.carry_to(to);
            self.look_again();
        }
    }

    /// Where all that is held goes with the pointer here.
    fn carried(&self, hold: &Hold, at: Point) -> Option<Vec<(End, Place)>> {
        let before = self.document.plan().place_of(hold.end)?;
        let to = kit::dragged(
            self.document.plan(),
            before,
            self.target(before, hold.from, at),
            self.reach(),
        )?;
        let others: Vec<(End, Place)> = hold
            .others
            .iter()
            .filter_map(|end| Some((*end, self.document.plan().place_of(*end)?)))
            .collect();
        let to = self.held_back(before, to, &others);
        let by = exact(self.document.plan().position(&to)?.on_floor())
            - exact(self.document.plan().position(&before)?.on_floor());
        let mut all = vec![(hold.end, to)];
        for (end, place) in others {
            all.push((end, self.followed(place, by).unwrap_or(place)));
        }
        Some(all)
    }

    /// Along its own wall only as far as the first of those with it on the
    /// same wall can go: their distances stay.
    fn held_back(&self, before: Place, to: Place, others: &[(End, Place)]) -> Place {
        let (Place::Wall(was), Place::Wall(on)) = (before, to) else { return to };
        let Some(wall) = self.document.plan().walls.get(&on.wall).filter(|_| was.wall == on.wall)
        else {
            return to;
        };
        let (mut back, mut onward) = (f64::NEG_INFINITY, f64::INFINITY);
        for (_, place) in others {
            if let Place::Wall(other) = place
                && other.wall == on.wall
            {
                back = back.max(CLEAR - other.along.to_f64());
                onward = onward.min(wall.length() - CLEAR - other.along.to_f64());
            }
        }
        let by = (on.along - was.along).to_f64();
        let by = by.max(back.min(0.0)).min(onward.max(0.0));
        let along = Mm::from_f64(was.along.to_f64() + by).unwrap_or(on.along);
        Place::Wall(OnWall { along, ..on })
    }

    /// Where something goes along that is carried so far: along its wall, or to
    /// another one that it comes to.
    fn followed(&self, place: Place, by: Vec2) -> Option<Place> {
        let Place::Wall(on) = place else { return kit::nudged(self.document.plan(), place, by) };
        let wall = self.document.plan().walls.get(&on.wall)?;
        if off_line(wall, by) < kit::LEAVES {
            return kit::nudged(self.document.plan(), place, by);
        }
        let at = exact(self.document.plan().position_on_face(&place)?.on_floor()) + by;
        kit::dragged(self.document.plan(), place, at, self.reach())
    }

    /// Where the thing itself goes when it was taken a little beside itself.
    fn target(&self, place: Place, from: Point, at: Point) -> Point {
        match place {
            Place::Wall(_) => at,
            _ => {
                let own =
                    self.document.plan().position(&place).map(|place| exact(place.on_floor()));
                own.map_or(at, |own| own + (at - from))
            }
        }
    }

    /// The button goes up.
    pub fn release(&mut self) {
        if self.let_band_go() || self.outline_release() || self.let_part_go() {
            return;
        }
        let Some(hold) = self.hand.let_go() else { return };
        if hold.to.is_empty() {
            // A click on one of several chooses it alone.
            self.selection.choose([Subject::from(hold.end)]);
            return;
        }
        let moved = |(end, to): &(End, Place)| {
            let goes = self.document.plan().place_of(*end) != Some(*to);
            self.moved(*end, *to).filter(|_| goes)
        };
        let mut edits: Vec<Edit> = hold.to.iter().filter_map(moved).collect();
        match edits.len() {
            0 => self.look_again(),
            1 => drop(edits.pop().map(|edit| self.edit(edit))),
            _ => drop(self.edit(Edit::Many(edits))),
        }
    }

    /// The edit that moves a point or a board.
    pub(crate) fn moved(&self, end: End, to: Place) -> Option<Edit> {
        Some(match end {
            End::Point(id) => {
                let point = self.document.plan().points.get(&id)?.clone();
                Change::Put(id, crate::plan::Point { place: Some(to), ..point }).into()
            }
            End::Board(id) => {
                let board = self.document.plan().boards.get(&id)?.clone();
                Change::Put(id, Board { place: Some(to), ..board }).into()
            }
        })
    }
}

/// How far a movement leads away from the line of a wall, mm.
fn off_line(wall: &Wall, by: Vec2) -> f64 {
    let (x, y) = wall.direction();
    Vec2::new(x, y).cross(by).abs()
}

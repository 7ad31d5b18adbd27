//! What is typed while something is drawn or held, and what lies under the
//! pointer in the step that draws the building.

use kurbo::Point;

use crate::plan::{Subject, outline_holds};
use crate::session::Session;
use crate::session::ground::length::{self, Typed};
use crate::session::state::{Part, Step, Tool};
use crate::session::survey::outlines;

impl Session {
    /// Enter with a part in the hand: what is typed holds.
    pub(crate) fn settle_part(&mut self) {
        let corner =
            self.hand.drawing.reshape.as_ref().is_some_and(|h| matches!(h.part, Part::Corner(..)));
        let reads = if corner {
            Typed::of(self.hand.typed()).is_some()
        } else {
            length::parse(self.hand.typed()).is_some()
        };
        if !self.hand.typed().is_empty() && !reads {
            self.said =
                format!("\"{}\" is no length; type 3600, 3.6 m or 12'6\"", self.hand.typed());
            self.hand.forget_typed();
            return;
        }
        if let Some(at) = self.hand.pointer() {
            self.reshape_to(at, 0.0);
        }
        let refused = self.hand.drawing.reshape.as_ref().filter(|held| held.edit.is_none());
        let refused = refused.map(|held| held.says.clone());
        self.let_part_go();
        if let Some(why) = refused.filter(|why| !why.is_empty()) {
            self.said = why;
        }
    }

    /// What is chosen and lies over everything else: the picture, a corner of
    /// an outline.
    pub(crate) fn held_under(&self, at: Point) -> Option<Subject> {
        if self.sight.step() != Step::Survey {
            return None;
        }
        if self.picture_under(at) {
            return self.sight.level().map(Subject::Level);
        }
        let mut chosen = self.selection.chosen().iter().copied();
        chosen.find(|subject| {
            let part = outlines::part_at(self.document.plan(), *subject, at, self.reach());
            matches!(part, Some(Part::Outline(..)))
        })
    }

    /// The area or the room under a place, in the step that draws them.
    pub(crate) fn ground_under(&self, at: Point) -> Option<Subject> {
        if self.sight.step() != Step::Survey {
            return None;
        }
        let room = || {
            let rooms = self
                .document
                .plan()
                .rooms
                .iter()
                .filter(|(_, room)| Some(room.level) == self.sight.level());
            rooms
                .filter(|(_, room)| outline_holds(&room.outline, at.x, at.y))
                .map(|(id, _)| Subject::Room(*id))
                .next()
        };
        self.area_under(at).map(Subject::Area).or_else(room)
    }

    /// Chooses the next wall, opening, room or area of the level.
    pub(crate) fn next_part(&mut self) {
        let (plan, on) = (self.document.plan(), |level| Some(level) == self.sight.level());
        let walls = plan.walls.iter().filter(|(_, wall)| on(wall.level));
        let wall_of = |opening: &crate::plan::Opening| plan.walls.get(&opening.wall);
        let openings =
            plan.openings.iter().filter(|(_, one)| wall_of(one).is_some_and(|w| on(w.level)));
        let rooms = plan.rooms.iter().filter(|(_, room)| on(room.level));
        let all: Vec<Subject> = walls
            .map(|(id, _)| Subject::Wall(*id))
            .chain(openings.map(|(id, _)| Subject::Opening(*id)))
            .chain(rooms.map(|(id, _)| Subject::Room(*id)))
            .chain(plan.areas.keys().map(|id| Subject::Area(*id)))
            .collect();
        let now = all.iter().position(|one| self.selection.chosen().contains(one));
        let next = now.map_or(0, |now| (now + 1) % all.len().max(1));
        self.selection.choose(all.get(next).copied());
    }

    /// A sign is typed of a length that is under way; false where none is.
    pub fn type_sign(&mut self, sign: char) -> bool {
        let outline = !self.hand.drawing.outline.is_empty();
        let drawing = self.hand.tool() == Tool::Wall && self.hand.pen().is_some();
        // From a corner, while a point is placed.
        let placing = matches!(self.hand.tool(), Tool::Point(_) | Tool::Board)
            && self.hand.pointer().is_some();
        let under_way = drawing
            || placing
            || outline
            || self.hand.drawing.ruler.len() == 2
            || self.hand.drawing.reshape.is_some();
        let first = self.hand.typed().is_empty();
        let takes = length::takes(sign, first) || (outline && !first && sign == 'x');
        if !under_way || !takes {
            return false;
        }
        self.hand.type_sign(sign);
        self.typed_anew();
        true
    }

    /// What is typed has changed: what is held follows.
    pub fn typed_anew(&mut self) {
        if let Some(at) = self.hand.pointer().filter(|_| self.hand.drawing.reshape.is_some()) {
            self.reshape_to(at, 0.0);
        }
    }
}

//! What is typed while something is drawn or held, and what lies under the
//! pointer in the step that draws the building.

use kurbo::Point;
use wirewend::plan::{Subject, outline_holds};

use super::Part;
use crate::app::desk::Desk;
use crate::app::keys::{Step, Tool};
use crate::app::length::{self, Typed};
use crate::app::outlines;

impl Desk {
    /// Enter with a part in the hand: what is typed holds.
    pub(in crate::app) fn settle_part(&mut self) {
        let corner =
            self.survey.reshape.as_ref().is_some_and(|h| matches!(h.part, Part::Corner(..)));
        let reads = if corner {
            Typed::of(&self.typed).is_some()
        } else {
            length::parse(&self.typed).is_some()
        };
        if !self.typed.is_empty() && !reads {
            self.said = format!("\"{}\" is no length; type 3600, 3.6 m or 12'6\"", self.typed);
            self.typed.clear();
            return;
        }
        if let Some(at) = self.pointer {
            self.reshape_to(at, 0.0);
        }
        let refused = self.survey.reshape.as_ref().filter(|held| held.edit.is_none());
        let refused = refused.map(|held| held.says.clone());
        self.let_part_go();
        if let Some(why) = refused.filter(|why| !why.is_empty()) {
            self.said = why;
        }
    }

    /// What is chosen and lies over everything else: the picture, a corner of
    /// an outline.
    pub(in crate::app) fn held_under(&self, at: Point) -> Option<Subject> {
        if self.step != Step::Survey {
            return None;
        }
        if self.picture_under(at) {
            return self.level.map(Subject::Level);
        }
        let mut chosen = self.chosen.iter().copied();
        chosen.find(|subject| {
            let part = outlines::part_at(&self.plan, *subject, at, self.reach());
            matches!(part, Some(Part::Outline(..)))
        })
    }

    /// The area or the room under a place, in the step that draws them.
    pub(in crate::app) fn ground_under(&self, at: Point) -> Option<Subject> {
        if self.step != Step::Survey {
            return None;
        }
        let room = || {
            let rooms = self.plan.rooms.iter().filter(|(_, room)| Some(room.level) == self.level);
            rooms
                .filter(|(_, room)| outline_holds(&room.outline, at.x, at.y))
                .map(|(id, _)| Subject::Room(*id))
                .next()
        };
        self.area_under(at).map(Subject::Area).or_else(room)
    }

    /// Chooses the next wall, opening, room or area of the level.
    pub(in crate::app) fn next_part(&mut self) {
        let (plan, on) = (&self.plan, |level| Some(level) == self.level);
        let walls = plan.walls.iter().filter(|(_, wall)| on(wall.level));
        let wall_of = |opening: &wirewend::plan::Opening| plan.walls.get(&opening.wall);
        let openings =
            plan.openings.iter().filter(|(_, one)| wall_of(one).is_some_and(|w| on(w.level)));
        let rooms = plan.rooms.iter().filter(|(_, room)| on(room.level));
        let all: Vec<Subject> = walls
            .map(|(id, _)| Subject::Wall(*id))
            .chain(openings.map(|(id, _)| Subject::Opening(*id)))
            .chain(rooms.map(|(id, _)| Subject::Room(*id)))
            .chain(plan.areas.keys().map(|id| Subject::Area(*id)))
            .collect();
        let now = all.iter().position(|one| self.chosen.contains(one));
        let next = now.map_or(0, |now| (now + 1) % all.len().max(1));
        self.chosen = all.get(next).copied().into_iter().collect();
    }

    /// A sign is typed of a length that is under way; false where none is.
    pub(in crate::app) fn type_sign(&mut self, sign: char) -> bool {
        let outline = !self.survey.outline.is_empty();
        let drawing = self.tool == Tool::Wall && self.pen.is_some();
        // From a corner, while a point is placed.
        let placing = matches!(self.tool, Tool::Point(_) | Tool::Board) && self.pointer.is_some();
        let under_way = drawing
            || placing
            || outline
            || self.survey.ruler.len() == 2
            || self.survey.reshape.is_some();
        let first = self.typed.is_empty();
        let takes = length::takes(sign, first) || (outline && !first && sign == 'x');
        if !under_way || !takes {
            return false;
        }
        self.typed.push(sign);
        self.typed_anew();
        true
    }

    /// What is typed has changed: what is held follows.
    pub(in crate::app) fn typed_anew(&mut self) {
        if let Some(at) = self.pointer.filter(|_| self.survey.reshape.is_some()) {
            self.reshape_to(at, 0.0);
        }
    }
}

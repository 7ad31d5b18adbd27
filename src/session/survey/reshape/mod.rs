//! Parts of the building in the hand: walls move and take with them what is on
//! them, doors and windows slide and get wider.

mod carried;
mod held_walls;
mod openings;
mod typing;
mod walls;

use kurbo::Point;

use crate::plan::{Change, Edit, Opening, Plan, Subject};
use crate::session::Session;
use crate::session::ground::length::{self, Typed};
use crate::session::ground::near;
use crate::session::ground::places::exact;
use crate::session::ground::snap::{self, Ground, Snap};
use crate::session::state::{Part, Reshape, Step};
use crate::session::survey::{outlines, pictures};
use crate::units::{Mm, Point2};

pub(crate) use openings::hung;
pub(crate) use walls::{across, corner as corner_moved, line_of, shifted};

impl Session {
    /// Takes the part of the building under the pointer into the hand, in the
    /// step that draws it.
    pub(crate) fn grasp(&mut self, at: Point, found: Option<Subject>) {
        if self.sight.step() == Step::Survey {
            self.hand.forget_typed();
            let (from, says) = (at, String::new());
            let part = self.part_at(at, found);
            self.hand.drawing.reshape =
                part.map(|part| Reshape { part, from, edit: None, says, snap: None });
        }
    }

    /// Which part of a thing the pointer has.
    pub(crate) fn part_at(&self, at: Point, found: Option<Subject>) -> Option<Part> {
        let reach = self.reach();
        match found? {
            Subject::Wall(id) => {
                let wall = self.document.plan().walls.get(&id)?;
                let short = reach.min(wall.length() / 4.0);
                let end =
                    [wall.a, wall.b].into_iter().find(|end| exact(*end).distance(at) <= short);
                Some(end.map_or(Part::Wall(id), |end| Part::Corner(id, end)))
            }
            Subject::Opening(id) => {
                let opening = self.document.plan().openings.get(&id)?;
                let on =
                    near::on(self.document.plan().walls.get(&opening.wall)?, opening.wall, at)?;
                let (from, to) = (opening.from.to_f64(), (opening.from + opening.width).to_f64());
                let edge = (reach * 0.7).min((to - from) / 4.0);
                Some(if on.along - from <= edge {
                    Part::Edge(id, true)
                } else if to - on.along <= edge {
                    Part::Edge(id, false)
                } else {
                    Part::Opening(id)
                })
            }
            subject @ (Subject::Area(_) | Subject::Void(_)) => {
                outlines::part_at(self.document.plan(), subject, at, reach)
            }
            Subject::Level(id) => {
                self.document.plan().backdrops.contains_key(&id).then_some(Part::Picture(id))
            }
            _ => None,
        }
    }

    /// The pointer moves with a part of the building in the hand.
    pub(crate) fn reshape_to(&mut self, at: Point, slack: f64) {
        let Some(mut held) = self.hand.drawing.reshape.take() else { return };
        if held.edit.is_some() || at.distance(held.from) >= slack || !self.hand.typed().is_empty() {
            match self.reshaped(held.part, held.from, at) {
                Ok((edit, says, snap)) => {
                    let new = held.edit.as_ref() != Some(&edit);
                    held.edit = Some(edit);
                    (held.says, held.snap) = (says, snap);
                    if new {
                        self.look_again();
                    }
                }
                // It stays as far as it would go.
                Err(why) => held.says = why,
            }
        }
        self.hand.drawing.reshape = Some(held);
    }

    /// What moving a part would do: the edit, words for it, what it holds on to.
    pub(crate) fn reshaped(
        &self,
        part: Part,
        from: Point,
        at: Point,
    ) -> Result<(Edit, String, Option<Snap>), String> {
        let typed = match self.hand.typed() {
            "" => None,
            text => Some(length::parse(text).ok_or_else(|| format!("{text}|"))?),
        };
        let show = |length: Mm| self.sight.measure().show(length);
        match part {
            Part::Wall(id) => self.wall_moved(id, from, at, typed),
            Part::Corner(id, corner) => self.corner_to(id, corner, at),
            Part::Opening(id) => {
                let (new, why) = openings::slid(self.document.plan(), id, at, self.reach(), typed)?;
                let says = format!("{}  {why}", self.opening_says(&new));
                Ok((Change::Put(id, new).into(), says, None))
            }
            Part::Edge(id, near_edge) => {
                let new = openings::stretched(self.document.plan(), id, near_edge, at, typed)?;
                let says = format!("{} wide", show(new.width));
                Ok((Change::Put(id, new).into(), says, None))
            }
            Part::Outline(subject, index) => {
                let to = self.spot(at);
                let edit = outlines::corner_to(self.document.plan(), subject, index, to.at)?;
                let says = outlines::size(&edit, self.sight.measure());
                Ok((edit, says, Some(to)))
            }
            Part::Area(id) => {
                let by = at - from;
                let by = kurbo::Vec2::new(snap::even(by.x), snap::even(by.y));
                Ok((outlines::moved(self.document.plan(), id, by)?, String::new(), None))
            }
            Part::Picture(level) => {
                let edit = pictures::moved(self.document.plan(), level, at - from)?;
                Ok((edit, "the picture moves".to_owned(), None))
            }
            Part::Pin(pin) => {
                let (edit, says) = self.pin_to(pin, at)?;
                Ok((edit, says, None))
            }
        }
    }

    /// A place for a corner of an outline.
    pub(crate) fn spot(&self, at: Point) -> Snap {
        let Some(level) = self.sight.level() else { return Snap::free(at) };
        let ground =
            Ground::of(self.document.plan(), level, None, &std::collections::BTreeSet::new());
        snap::corner(&ground, None, at, self.reach(), Typed::default())
    }

    /// An opening's width and its distances from both ends of its wall.
    pub(crate) fn opening_says(&self, opening: &Opening) -> String {
        let length =
            self.document.plan().walls.get(&opening.wall).map_or(0.0, crate::plan::Wall::length);
        let rest = length - (opening.from + opening.width).to_f64();
        let rest = Mm::from_f64(rest.max(0.0)).unwrap_or(Mm::ZERO);
        let show = |length: Mm| self.sight.measure().show(length);
        format!("{} | {} | {}", show(opening.from), show(opening.width), show(rest))
    }

    /// The button goes up, or Enter: what was shown is done.
    pub(crate) fn let_part_go(&mut self) -> bool {
        let Some(held) = self.hand.drawing.reshape.take() else { return false };
        self.hand.forget_typed();
        if let Some(edit) = held.edit {
            if edit_does(self.document.plan(), &edit) {
                if self.edit(edit)
                    && let (Part::Pin(_), Some(at)) = (held.part, self.hand.pointer())
                {
                    self.pin_went(at);
                }
            } else {
                self.look_again();
            }
        }
        true
    }
}

/// The distance between two places, to the millimetre.
pub(crate) fn between(from: Point2, to: Point2) -> Mm {
    Mm::from_f64(from.distance(to)).unwrap_or(Mm::ZERO)
}

/// Whether an edit changes anything: nothing is to be undone where it does not.
pub(crate) fn edit_does(plan: &Plan, edit: &Edit) -> bool {
    let mut after = plan.clone();
    after.apply(edit.clone()).is_err() || after != *plan
}

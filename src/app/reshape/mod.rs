//! Parts of the building in the hand: walls move and take with them what is on
//! them, doors and windows slide and get wider.

mod carried;
mod held_walls;
mod openings;
mod typing;
mod walls;

use kurbo::Point;
use wirewend::plan::{Change, Edit, LevelId, Opening, OpeningId, Plan, Subject, WallId};
use wirewend::units::{Mm, Point2};

use super::camera::exact;
use super::desk::Desk;
use super::keys::Step;
use super::length::{self, Typed};
use super::pins_held::PinKey;
use super::snap::{self, Ground, Snap};
use super::{near, outlines, pictures};

pub(in crate::app) use openings::hung;
pub(in crate::app) use walls::{across, corner as corner_moved, line_of, shifted};

/// What of the building is in the hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Part {
    /// A wall, with those that are one line with it.
    Wall(WallId),
    /// The corner at one end of a wall, with all that meet there.
    Corner(WallId, Point2),
    Opening(OpeningId),
    /// An edge of an opening: whether it is the one nearer to the wall's `a`.
    Edge(OpeningId, bool),
    /// A corner of an area or of a void's outline, by its place in the list.
    Outline(Subject, usize),
    /// A whole area.
    Area(wirewend::plan::AreaId),
    /// The picture under a level.
    Picture(LevelId),
    /// A pin of a leg.
    Pin(PinKey),
}

/// A part of the building that is held.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Reshape {
    pub(super) part: Part,
    /// Where it was taken, mm of the plan.
    pub(super) from: Point,
    /// What would be done. None: not moved far enough to count.
    pub(super) edit: Option<Edit>,
    /// What would be done, in words beside the pointer.
    pub(super) says: String,
    /// What it holds on to.
    pub(super) snap: Option<Snap>,
}

impl Desk {
    /// Takes the part of the building under the pointer into the hand, in the
    /// step that draws it.
    pub(super) fn grasp(&mut self, at: Point, found: Option<Subject>) {
        if self.step == Step::Survey {
            self.typed.clear();
            let (from, says) = (at, String::new());
            let part = self.part_at(at, found);
            self.survey.reshape =
                part.map(|part| Reshape { part, from, edit: None, says, snap: None });
        }
    }

    /// Which part of a thing the pointer has.
    pub(super) fn part_at(&self, at: Point, found: Option<Subject>) -> Option<Part> {
        let reach = self.reach();
        match found? {
            Subject::Wall(id) => {
                let wall = self.plan.walls.get(&id)?;
                let short = reach.min(wall.length() / 4.0);
                let end =
                    [wall.a, wall.b].into_iter().find(|end| exact(*end).distance(at) <= short);
                Some(end.map_or(Part::Wall(id), |end| Part::Corner(id, end)))
            }
            Subject::Opening(id) => {
                let opening = self.plan.openings.get(&id)?;
                let on = near::on(self.plan.walls.get(&opening.wall)?, opening.wall, at)?;
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
                outlines::part_at(&self.plan, subject, at, reach)
            }
            Subject::Level(id) => {
                self.plan.backdrops.contains_key(&id).then_some(Part::Picture(id))
            }
            _ => None,
        }
    }

    /// The pointer moves with a part of the building in the hand.
    pub(super) fn reshape_to(&mut self, at: Point, slack: f64) {
        let Some(mut held) = self.survey.reshape.take() else { return };
        if held.edit.is_some() || at.distance(held.from) >= slack || !self.typed.is_empty() {
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
        self.survey.reshape = Some(held);
    }

    /// What moving a part would do: the edit, words for it, what it holds on to.
    pub(super) fn reshaped(
        &self,
        part: Part,
        from: Point,
        at: Point,
    ) -> Result<(Edit, String, Option<Snap>), String> {
        let typed = match self.typed.as_str() {
            "" => None,
            text => Some(length::parse(text).ok_or_else(|| format!("{text}|"))?),
        };
        let show = |length: Mm| self.survey.measure.show(length);
        match part {
            Part::Wall(id) => self.wall_moved(id, from, at, typed),
            Part::Corner(id, corner) => self.corner_to(id, corner, at),
            Part::Opening(id) => {
                let (new, why) = openings::slid(&self.plan, id, at, self.reach(), typed)?;
                let says = format!("{}  {why}", self.opening_says(&new));
                Ok((Change::Put(id, new).into(), says, None))
            }
            Part::Edge(id, near_edge) => {
                let new = openings::stretched(&self.plan, id, near_edge, at, typed)?;
                let says = format!("{} wide", show(new.width));
                Ok((Change::Put(id, new).into(), says, None))
            }
            Part::Outline(subject, index) => {
                let to = self.spot(at);
                let edit = outlines::corner_to(&self.plan, subject, index, to.at)?;
                let says = outlines::size(&edit, self.survey.measure);
                Ok((edit, says, Some(to)))
            }
            Part::Area(id) => {
                let by = at - from;
                let by = kurbo::Vec2::new(snap::even(by.x), snap::even(by.y));
                Ok((outlines::moved(&self.plan, id, by)?, String::new(), None))
            }
            Part::Picture(level) => {
                let edit = pictures::moved(&self.plan, level, at - from)?;
                Ok((edit, "the picture moves".to_owned(), None))
            }
            Part::Pin(pin) => {
                let (edit, says) = self.pin_to(pin, at)?;
                Ok((edit, says, None))
            }
        }
    }

    /// A place for a corner of an outline.
    pub(super) fn spot(&self, at: Point) -> Snap {
        let Some(level) = self.level else { return Snap::free(at) };
        let ground = Ground::of(&self.plan, level, None, &std::collections::BTreeSet::new());
        snap::corner(&ground, None, at, self.reach(), Typed::default())
    }

    /// An opening's width and its distances from both ends of its wall.
    pub(super) fn opening_says(&self, opening: &Opening) -> String {
        let length = self.plan.walls.get(&opening.wall).map_or(0.0, wirewend::plan::Wall::length);
        let rest = length - (opening.from + opening.width).to_f64();
        let rest = Mm::from_f64(rest.max(0.0)).unwrap_or(Mm::ZERO);
        let show = |length: Mm| self.survey.measure.show(length);
        format!("{} | {} | {}", show(opening.from), show(opening.width), show(rest))
    }

    /// The button goes up, or Enter: what was shown is done.
    pub(super) fn let_part_go(&mut self) -> bool {
        let Some(held) = self.survey.reshape.take() else { return false };
        self.typed.clear();
        if let Some(edit) = held.edit {
            if edit_does(&self.plan, &edit) {
                if self.edit(edit)
                    && let (Part::Pin(_), Some(at)) = (held.part, self.pointer)
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
pub(super) fn between(from: Point2, to: Point2) -> Mm {
    Mm::from_f64(from.distance(to)).unwrap_or(Mm::ZERO)
}

/// Whether an edit changes anything: nothing is to be undone where it does not.
pub(super) fn edit_does(plan: &Plan, edit: &Edit) -> bool {
    let mut after = plan.clone();
    after.apply(edit.clone()).is_err() || after != *plan
}

//! What the hand does on the sheet: each tool's press, move and release.

use std::collections::BTreeSet;

use kurbo::{Point, Rect};
use wirewend::plan::{Change, Edit, End, LevelId, Place, Subject, Wall, WallBuild, WallId};
use wirewend::units::Point2;

use super::band::Band;
use super::camera::{REDUCTION, exact};
use super::desk::Desk;
use super::keys::{Step, Tool};
use super::length::Typed;
use super::snap::{self, Ground, Snap};
use super::{building, corners, kit, length, levels, near, remove, rooms, wire};

/// How near is near, pixels.
const REACH: f64 = 10.0;

impl Desk {
    /// How near is near, mm of the plan.
    pub(super) fn reach(&self) -> f64 {
        self.camera.reach(REACH)
    }

    /// The button goes down at a place of the plan, mm.
    pub(super) fn press(&mut self, at: Point, also: bool) {
        self.pointer = Some(at);
        let Some(level) = self.level.filter(|_| self.step != Step::Papers) else { return };
        match self.tool {
            Tool::Hand => self.pick(at, also),
            Tool::Wall => {
                let snap = self.corner(level, at);
                self.draw_to(level, snap.at);
            }
            Tool::Opening(kind) => match kit::opening(&self.plan, level, kind, at, self.reach()) {
                Some(new) => {
                    self.chosen = BTreeSet::from([Subject::Opening(new.0)]);
                    self.edit(kit::drawn(new));
                }
                None => self.said = "click a wall that is long enough for it".to_owned(),
            },
            Tool::Point(kind) => match kit::place(&self.plan, level, kind, at, self.reach()) {
                Some(place) => {
                    let place = self.as_typed(place);
                    let (id, edit) = wire::placed(&self.plan, kind, place);
                    self.chosen = BTreeSet::from([Subject::Point(id)]);
                    self.edit(edit);
                }
                None => self.said = format!("click a wall: a {} goes on one", kind.name()),
            },
            Tool::Board => match kit::board_place(&self.plan, level, at, self.reach()) {
                Some(place) => {
                    let place = self.as_typed(place);
                    let (id, edit) = wire::board(&self.plan, place);
                    self.chosen = BTreeSet::from([Subject::Board(id)]);
                    self.edit(edit);
                }
                None => self.said = "click a wall: the board goes on one".to_owned(),
            },
            Tool::Pin => self.pin(at),
            Tool::Area(_) | Tool::Outline => self.outline_press(at),
            Tool::Ruler => self.ruler_press(at),
        }
    }

    fn pick(&mut self, at: Point, also: bool) {
        if self.pick_pin(at) {
            return;
        }
        let found = self.under(at);
        if !matches!(found, Some(Subject::Point(_) | Subject::Board(_))) {
            // Where the building is drawn, cables are not in the way of walls.
            if self.step != Step::Survey && self.pick_leg(at) {
                return;
            }
            if matches!(found, None | Some(Subject::Room(_))) {
                self.at_hand.band = Some(Band::at(at, also));
            }
        }
        if also {
            if let Some(subject) = found
                && !self.chosen.remove(&subject)
            {
                self.chosen.insert(subject);
            }
            return;
        }
        if !found.is_some_and(|subject| self.chosen.contains(&subject)) {
            self.chosen = found.into_iter().collect();
        }
        let end = match found {
            Some(Subject::Point(id)) => Some(End::Point(id)),
            Some(Subject::Board(id)) => Some(End::Board(id)),
            _ => None,
        };
        match end {
            Some(end) => self.take_hold(end, at),
            None => self.grasp(at, found),
        }
    }

    /// The point, board, opening or wall under a place of the plan.
    pub(super) fn under(&self, at: Point) -> Option<Subject> {
        let level = self.level?;
        if let Some(held) = self.held_under(at) {
            return Some(held);
        }
        let paper = Point::new(at.x / REDUCTION, -at.y / REDUCTION);
        let grow = 3.0 / self.camera.zoom;
        let symbols = self.picture.iter().flat_map(|picture| picture.symbols());
        let hit = symbols
            .filter(|(_, around)| around.inflate(grow, grow).contains(paper))
            .min_by(|one, other| far(one.1, paper).total_cmp(&far(other.1, paper)));
        if let Some((subject, _)) = hit {
            return Some(subject);
        }
        let Some(on) = near::wall(&self.plan, level, at, self.reach() / 2.0) else {
            return self.ground_under(at);
        };
        let area = self.area_on(on.wall, on.along).filter(|_| self.step == Step::Survey);
        if let Some(area) = area {
            return Some(Subject::Area(area));
        }
        let opening = self.plan.openings.iter().find(|(_, opening)| {
            let from = opening.from.to_f64();
            let spans = from..=from + opening.width.to_f64();
            opening.wall == on.wall && spans.contains(&on.along)
        });
        Some(opening.map_or(Subject::Wall(on.wall), |(id, _)| Subject::Opening(*id)))
    }

    /// Where the pen's next corner would go.
    pub(super) fn corner(&self, level: LevelId, at: Point) -> Snap {
        let ground = Ground::of(&self.plan, level, self.below(), &BTreeSet::new());
        let typed = Typed::of(&self.typed).unwrap_or_default();
        snap::corner(&ground, self.pen, at, self.reach(), typed)
    }

    /// A place at the distance from its corner that was typed.
    pub(super) fn as_typed(&mut self, place: Place) -> Place {
        let typed = length::parse(&std::mem::take(&mut self.typed));
        corners::typed(&self.plan, place, typed)
    }

    /// Enter: takes the typed length along the way that the pointer shows.
    pub(super) fn settle(&mut self) {
        if self.survey.reshape.is_some() {
            return self.settle_part();
        }
        match self.tool {
            Tool::Area(_) | Tool::Outline => return self.outline_done(),
            Tool::Ruler => return self.ruler_done(),
            Tool::Point(_) | Tool::Board if !self.typed.is_empty() => {
                if let Some(at) = self.pointer {
                    self.press(at, false);
                }
                return;
            }
            _ => {}
        }
        let (Some(level), Some(at), Tool::Wall) = (self.level, self.pointer, self.tool) else {
            return;
        };
        if self.pen.is_none() {
            return;
        }
        if !self.typed.is_empty() && Typed::of(&self.typed).is_none() {
            self.said = format!(
                "\"{}\" is no length; type 3600, 3.6 m or 12'6\", @45 for an angle",
                self.typed
            );
            self.typed.clear();
            return;
        }
        let snap = self.corner(level, at);
        self.draw_to(level, snap.at);
    }

    fn draw_to(&mut self, level: LevelId, to: Point2) {
        self.typed.clear();
        let Some(from) = self.pen else {
            self.pen = Some(to);
            return;
        };
        if from == to {
            self.pen = None;
            return;
        }
        let meets = self.ends_at(level, to);
        let build = self.survey.build.unwrap_or(WallBuild::Stud);
        let wall = Wall {
            level,
            a: from,
            b: to,
            thickness: building::build(build).1,
            build,
            insulated: false,
            wet: None,
        };
        let id = WallId(self.plan.fresh_id());
        let edit = rooms::with_rooms(&self.plan, level, vec![Change::Put(id, wall).into()]);
        if self.edit(edit) {
            // A wall that meets another is finished; the pen goes on otherwise.
            self.pen = (!meets).then_some(to);
        }
    }

    /// Whether a wall is there already.
    fn ends_at(&self, level: LevelId, at: Point2) -> bool {
        near::wall(&self.plan, level, exact(at), 1.0).is_some()
    }

    /// Takes away what is chosen.
    pub(super) fn delete(&mut self) {
        if self.delete_pin() {
            return;
        }
        let mut edits = remove::all(&self.plan, &self.chosen);
        edits.extend(levels::others_gone(&self.plan, &self.chosen));
        if edits.is_empty() {
            self.said = "nothing is chosen".to_owned();
            return;
        }
        let walls = self.chosen.iter().any(|subject| matches!(subject, Subject::Wall(_)));
        let edit = match self.level {
            Some(level) if walls => rooms::with_rooms(&self.plan, level, edits),
            _ => Edit::Many(edits),
        };
        self.edit(edit);
    }
}

fn far(around: Rect, at: Point) -> f64 {
    around.center().distance(at)
}

//! What the hand does on the sheet: each tool's press, move and release.

use std::collections::BTreeSet;

use kurbo::{Point, Rect};

use crate::plan::{Change, Edit, End, LevelId, Place, Subject, Wall, WallBuild, WallId};
use crate::session::Session;
use crate::session::ground::length::{self, Typed};
use crate::session::ground::places::exact;
use crate::session::ground::snap::{self, Ground, Snap};
use crate::session::ground::{corners, kit, near, remove, rooms, storeys, wire};
use crate::session::state::{Band, REDUCTION, Step, Tool};
use crate::session::survey::building;
use crate::units::Point2;

/// How near is near, pixels.
const REACH: f64 = 10.0;

impl Session {
    /// How near is near, mm of the plan.
    pub(crate) fn reach(&self) -> f64 {
        self.sight.camera().reach(REACH)
    }

    /// The button goes down at a place of the plan, mm.
    pub fn press(&mut self, at: Point, also: bool) {
        self.hand.point(Some(at));
        let Some(level) = self.sight.level().filter(|_| self.sight.step() != Step::Papers) else {
            return;
        };
        match self.hand.tool() {
            Tool::Hand => self.pick(at, also),
            Tool::Wall => {
                let snap = self.corner(level, at);
                self.draw_to(level, snap.at);
            }
            Tool::Opening(kind) => {
                match kit::opening(self.document.plan(), level, kind, at, self.reach()) {
                    Some(new) => {
                        self.selection.choose([Subject::Opening(new.0)]);
                        self.edit(kit::drawn(new));
                    }
                    None => self.said = "click a wall that is long enough for it".to_owned(),
                }
            }
            Tool::Point(kind) => {
                match kit::place(self.document.plan(), level, kind, at, self.reach()) {
                    Some(place) => {
                        let place = self.as_typed(place);
                        let (id, edit) = wire::placed(self.document.plan(), kind, place);
                        self.selection.choose([Subject::Point(id)]);
                        self.edit(edit);
                    }
                    None => self.said = format!("click a wall: a {} goes on one", kind.name()),
                }
            }
            Tool::Board => match kit::board_place(self.document.plan(), level, at, self.reach()) {
                Some(place) => {
                    let place = self.as_typed(place);
                    let (id, edit) = wire::board(self.document.plan(), place);
                    self.selection.choose([Subject::Board(id)]);
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
            if self.sight.step() != Step::Survey && self.pick_leg(at) {
                return;
            }
            if matches!(found, None | Some(Subject::Room(_))) {
                self.hand.begin_band(Band::at(at, also));
            }
        }
        if also {
            if let Some(subject) = found
                && !self.selection.remove(subject)
            {
                self.selection.add([subject]);
            }
            return;
        }
        if !found.is_some_and(|subject| self.selection.chosen().contains(&subject)) {
            self.selection.choose(found);
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
    pub(crate) fn under(&self, at: Point) -> Option<Subject> {
        let level = self.sight.level()?;
        if let Some(held) = self.held_under(at) {
            return Some(held);
        }
        let paper = Point::new(at.x / REDUCTION, -at.y / REDUCTION);
        let grow = 3.0 / self.sight.camera().zoom;
        let symbols = self.jobs.picture().into_iter().flat_map(|picture| picture.symbols());
        let hit = symbols
            .filter(|(_, around)| around.inflate(grow, grow).contains(paper))
            .min_by(|one, other| far(one.1, paper).total_cmp(&far(other.1, paper)));
        if let Some((subject, _)) = hit {
            return Some(subject);
        }
        let Some(on) = near::wall(self.document.plan(), level, at, self.reach() / 2.0) else {
            return self.ground_under(at);
        };
        let area = self.area_on(on.wall, on.along).filter(|_| self.sight.step() == Step::Survey);
        if let Some(area) = area {
            return Some(Subject::Area(area));
        }
        let opening = self.document.plan().openings.iter().find(|(_, opening)| {
            let from = opening.from.to_f64();
            let spans = from..=from + opening.width.to_f64();
            opening.wall == on.wall && spans.contains(&on.along)
        });
        Some(opening.map_or(Subject::Wall(on.wall), |(id, _)| Subject::Opening(*id)))
    }

    /// Where the pen's next corner would go.
    pub(crate) fn corner(&self, level: LevelId, at: Point) -> Snap {
        let ground = Ground::of(self.document.plan(), level, self.below(), &BTreeSet::new());
        let typed = Typed::of(self.hand.typed()).unwrap_or_default();
        snap::corner(&ground, self.hand.pen(), at, self.reach(), typed)
    }

    /// A place at the distance from its corner that was typed.
    pub(crate) fn as_typed(&mut self, place: Place) -> Place {
        let typed = length::parse(&self.hand.take_typed());
        corners::typed(self.document.plan(), place, typed)
    }

    /// Escape: the innermost thing ends.
    pub fn let_go(&mut self) {
        if self.selection.figure().is_some() {
            self.selection.ask(None);
        } else if self.hand.drop_band().is_some() {
            self.hand.point(None);
        } else if self.drop_drawing() {
            self.hand.forget_typed();
        } else if self.hand.let_go().is_some() {
            self.look_again();
        } else if !self.hand.typed().is_empty() {
            self.hand.forget_typed();
        } else if self.hand.pen().is_some() {
            self.hand.set_pen(None);
        } else if self.hand.tool() != Tool::Hand {
            self.hand.change(Tool::Hand);
        } else if self.selection.pin().is_some() {
            self.selection.choose_pin(None);
        } else if self.selection.leg().is_some() {
            self.selection.choose_leg(None);
        } else if self.selection.circuit().is_some() {
            self.choose_circuit(None);
        } else {
            self.selection.clear();
        }
    }

    /// Enter: takes the typed length along the way that the pointer shows.
    pub fn settle(&mut self) {
        if self.hand.drawing.reshape.is_some() {
            return self.settle_part();
        }
        match self.hand.tool() {
            Tool::Area(_) | Tool::Outline => return self.outline_done(),
            Tool::Ruler => return self.ruler_done(),
            Tool::Point(_) | Tool::Board if !self.hand.typed().is_empty() => {
                if let Some(at) = self.hand.pointer() {
                    self.press(at, false);
                }
                return;
            }
            _ => {}
        }
        let (Some(level), Some(at), Tool::Wall) =
            (self.sight.level(), self.hand.pointer(), self.hand.tool())
        else {
            return;
        };
        if self.hand.pen().is_none() {
            return;
        }
        if !self.hand.typed().is_empty() && Typed::of(self.hand.typed()).is_none() {
            self.said = format!(
                "\"{}\" is no length; type 3600, 3.6 m or 12'6\", @45 for an angle",
                self.hand.typed()
            );
            self.hand.forget_typed();
            return;
        }
        let snap = self.corner(level, at);
        self.draw_to(level, snap.at);
    }

    fn draw_to(&mut self, level: LevelId, to: Point2) {
        self.hand.forget_typed();
        let Some(from) = self.hand.pen() else {
            self.hand.set_pen(Some(to));
            return;
        };
        if from == to {
            self.hand.set_pen(None);
            return;
        }
        let meets = self.ends_at(level, to);
        let build = self.hand.drawing.build.unwrap_or(WallBuild::Stud);
        let wall = Wall {
            level,
            a: from,
            b: to,
            thickness: building::build(build).1,
            build,
            insulated: false,
            wet: None,
        };
        let id = WallId(self.document.plan().fresh_id());
        let edit =
            rooms::with_rooms(self.document.plan(), level, vec![Change::Put(id, wall).into()]);
        if self.edit(edit) {
            // A wall that meets another is finished; the pen goes on otherwise.
            self.hand.set_pen((!meets).then_some(to));
        }
    }

    /// Whether a wall is there already.
    fn ends_at(&self, level: LevelId, at: Point2) -> bool {
        near::wall(self.document.plan(), level, exact(at), 1.0).is_some()
    }

    /// Takes away what is chosen.
    pub fn delete(&mut self) {
        if self.delete_pin() {
            return;
        }
        let mut edits = remove::all(self.document.plan(), self.selection.chosen());
        edits.extend(storeys::others_gone(self.document.plan(), self.selection.chosen()));
        if edits.is_empty() {
            self.said = "nothing is chosen".to_owned();
            return;
        }
        let walls =
            self.selection.chosen().iter().any(|subject| matches!(subject, Subject::Wall(_)));
        let edit = match self.sight.level() {
            Some(level) if walls => rooms::with_rooms(self.document.plan(), level, edits),
            _ => Edit::Many(edits),
        };
        self.edit(edit);
    }
}

fn far(around: Rect, at: Point) -> f64 {
    around.center().distance(at)
}

//! What the hand does on the sheet: each tool's press, move and release.

use std::collections::BTreeSet;

use kurbo::{Point, Rect};
use wirewend::plan::{
    Board, Change, Edit, End, LevelId, OnWall, Place, Subject, Wall, WallBuild, WallId,
};
use wirewend::units::Point2;

use super::band::Band;
use super::camera::{REDUCTION, exact};
use super::desk::{Desk, Hold};
use super::keys::{Amount, Step, Tool};
use super::length::Typed;
use super::snap::{self, Ground, Snap};
use super::{building, corners, kit, length, levels, near, remove, rooms, wire};

/// How near is near, pixels.
const REACH: f64 = 10.0;
/// How far a press must move before it drags, pixels.
const SLACK: f64 = 4.0;

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
        self.hold = end.map(|end| Hold { end, from: at, to: None });
        if self.hold.is_none() {
            self.grasp(at, found);
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
        let opening = self.plan.openings.iter().find(|(_, opening)| {
            let from = opening.from.to_f64();
            let spans = from..=from + opening.width.to_f64();
            opening.wall == on.wall && spans.contains(&on.along)
        });
        Some(opening.map_or(Subject::Wall(on.wall), |(id, _)| Subject::Opening(*id)))
    }

    /// The pointer moves to a place of the plan. Whether something must be
    /// painted anew.
    pub(super) fn hover(&mut self, at: Point) {
        self.pointer = Some(at);
        if self.stretch(at) || self.at_hand.over.is_some() {
            return;
        }
        let slack = self.camera.reach(SLACK);
        if self.survey.reshape.is_some() {
            return self.reshape_to(at, slack);
        }
        let Some(mut hold) = self.hold else { return };
        if hold.to.is_none() && at.distance(hold.from) < slack {
            return;
        }
        let Some(place) = self.plan.place_of(hold.end) else { return };
        let to = kit::dragged(&self.plan, place, self.target(place, hold.from, at), self.reach());
        if to != hold.to {
            hold.to = to;
            self.hold = Some(hold);
            self.look_again();
        }
    }

    /// Where the thing itself goes when it was taken a little beside itself.
    fn target(&self, place: Place, from: Point, at: Point) -> Point {
        match place {
            Place::Wall(_) => at,
            _ => {
                let own = self.plan.position(&place).map(|place| exact(place.on_floor()));
                own.map_or(at, |own| own + (at - from))
            }
        }
    }

    /// The button goes up.
    pub(super) fn release(&mut self) {
        if self.let_band_go() || self.outline_release() || self.let_part_go() {
            return;
        }
        let Some(hold) = self.hold.take() else { return };
        let Some(to) = hold.to else { return };
        let edit = self.moved(hold.end, to);
        if let Some(edit) = edit {
            self.edit(edit);
        }
    }

    /// The edit that moves a point or a board.
    pub(super) fn moved(&self, end: End, to: Place) -> Option<Edit> {
        Some(match end {
            End::Point(id) => {
                let point = self.plan.points.get(&id)?.clone();
                Change::Put(id, wirewend::plan::Point { place: Some(to), ..point }).into()
            }
            End::Board(id) => {
                let board = self.plan.boards.get(&id)?.clone();
                Change::Put(id, Board { place: Some(to), ..board }).into()
            }
        })
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

    /// Places every chosen point once more, 300 mm beside itself.
    pub(super) fn duplicate(&mut self) {
        let (mut scratch, mut edits) = (self.plan.clone(), Vec::new());
        let mut new = BTreeSet::new();
        for id in self.chosen_points() {
            let Some(point) = self.plan.points.get(&id) else { continue };
            let beside = |place| kit::nudged(&self.plan, place, kit::aside(&self.plan, place));
            let Some(place) = point.place.and_then(beside) else { continue };
            let (copy, edit) = wire::placed_as(&scratch, point, place);
            if scratch.apply(edit.clone()).is_ok() {
                new.insert(Subject::Point(copy));
                edits.push(edit);
            }
        }
        if edits.is_empty() {
            self.said = "choose a point first".to_owned();
        } else if self.edit(Edit::Many(edits)) {
            self.chosen = new;
        }
    }

    /// Chooses every point of the level.
    pub(super) fn choose_all(&mut self) {
        let all = self.picture.iter().flat_map(|picture| picture.symbols());
        self.chosen = all
            .map(|(subject, _)| subject)
            .filter(|subject| matches!(subject, Subject::Point(_)))
            .collect();
    }

    /// Moves what is chosen across the page, along its wall where it is on one.
    pub(super) fn nudge(&mut self, x: i8, y: i8) {
        let by = kurbo::Vec2::new(f64::from(x), f64::from(y)) * 50.0;
        let edits: Vec<Edit> = self
            .chosen_ends()
            .into_iter()
            .filter_map(|end| {
                let place = self.plan.place_of(end)?;
                self.moved(end, kit::nudged(&self.plan, place, by)?)
            })
            .collect();
        if edits.is_empty() {
            self.said = "choose a point first".to_owned();
        } else {
            self.edit(Edit::Many(edits));
        }
    }

    /// Sets a distance or a height of what is chosen.
    pub(super) fn set(&mut self, amount: Amount, typed: &str) {
        let Some(length) = length::parse(typed) else {
            self.said = format!("\"{typed}\" is no length; type 3600, 3.6 m or 12'6\"");
            return;
        };
        let mut edits = Vec::new();
        for end in self.chosen_ends() {
            let to = match (self.plan.place_of(end), amount) {
                (Some(place @ Place::Wall(_)), Amount::Along) => {
                    corners::typed(&self.plan, place, Some(length))
                }
                (Some(Place::Wall(on)), Amount::Height) => {
                    Place::Wall(OnWall { height: length, ..on })
                }
                _ => continue,
            };
            edits.extend(self.moved(end, to));
        }
        if edits.is_empty() {
            self.said = "choose a point on a wall first".to_owned();
        } else {
            self.edit(Edit::Many(edits));
        }
    }

    /// Turns what is chosen to the other face of its wall.
    pub(super) fn turn(&mut self) {
        let mut edits = Vec::new();
        for end in self.chosen_ends() {
            if let Some(Place::Wall(on)) = self.plan.place_of(end) {
                let to = Place::Wall(wirewend::plan::OnWall { face: kit::other(on.face), ..on });
                edits.extend(self.moved(end, to));
            }
        }
        if edits.is_empty() {
            self.said = "choose a point on a wall first".to_owned();
        } else {
            self.edit(Edit::Many(edits));
        }
    }

    /// One more gang on what is chosen.
    pub(super) fn gangs(&mut self) {
        let points = self.chosen_points();
        let edits: Vec<Edit> = points
            .iter()
            .filter_map(|id| {
                let mut point = self.plan.points.get(id)?.clone();
                point.gangs = point.gangs % 4 + 1;
                Some(Change::Put(*id, point).into())
            })
            .collect();
        if !edits.is_empty() {
            self.edit(Edit::Many(edits));
        }
    }

    pub(super) fn chosen_ends(&self) -> Vec<End> {
        let ends = self.chosen.iter().filter_map(|subject| match subject {
            Subject::Point(id) => Some(End::Point(*id)),
            Subject::Board(id) => Some(End::Board(*id)),
            _ => None,
        });
        ends.collect()
    }

    /// Chooses the next point or board of the level and brings it into view.
    pub(super) fn next(&mut self) {
        if self.step == Step::Survey {
            return self.next_part();
        }
        let Some(picture) = self.picture.clone() else { return };
        let all: Vec<(Subject, Rect)> = picture.symbols().collect();
        let now = all.iter().position(|(subject, _)| self.chosen.contains(subject));
        let next = now.map_or(0, |now| (now + 1) % all.len().max(1));
        if let Some((subject, around)) = all.get(next) {
            self.chosen = BTreeSet::from([*subject]);
            self.show(*around);
        }
    }

    /// Moves the view so that a piece of paper can be seen.
    pub(super) fn show(&mut self, around: Rect) {
        let middle = self.camera.paper(around.center());
        let (width, height) = self.size;
        if !Rect::new(0.0, 0.0, width, height).inflate(-40.0, -40.0).contains(middle) {
            self.camera = self.camera.moved(Point::new(width / 2.0, height / 2.0) - middle);
        }
    }
}

fn far(around: Rect, at: Point) -> f64 {
    around.center().distance(at)
}

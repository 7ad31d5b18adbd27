//! The picture beneath a level: laid, scaled by a length that is known, moved,
//! turned, faded, put away.

use std::path::Path;

use kurbo::{Affine, Point, Rect, Vec2};

use crate::plan::{Backdrop, Change, Edit, LevelId, Plan, Subject};
use crate::session::Session;
use crate::session::ground::length::Typed;
use crate::session::ground::places::{exact, rounded};
use crate::session::state::Tool;
use crate::store::{backdrop_name, backdrop_path};
use crate::units::{Angle, Mm};

/// Steps in which a picture fades, percent.
const STEP: u8 = 10;

impl Session {
    /// Lays a picture beneath the level, about as large as what is seen; in the
    /// hand then is what scales it.
    pub fn lay_picture(&mut self, path: &Path, size: (u32, u32)) -> bool {
        let Some(level) = self.sight.level() else { return false };
        let file = backdrop_name(&self.document.folder(), path);
        self.sight.know_picture(file.clone(), size);
        let (wide, high) = (f64::from(size.0.max(1)), f64::from(size.1.max(1)));
        let shown = (
            self.sight.camera().reach(self.sight.size().0) * 0.9,
            self.sight.camera().reach(self.sight.size().1) * 0.9,
        );
        let width = (shown.0).min(shown.1 * wide / high).max(1000.0);
        let middle = self
            .sight
            .camera()
            .plan(Point::new(self.sight.size().0 / 2.0, self.sight.size().1 / 2.0));
        let backdrop = Backdrop {
            file,
            at: rounded(middle - Vec2::new(width, width * high / wide) / 2.0),
            width: Mm::from_f64(width).unwrap_or(Mm::new(10_000)),
            turn: Angle::default(),
            strength: 50,
            hidden: false,
        };
        if !self.edit(Change::Put(level, backdrop).into()) {
            return false;
        }
        self.take_tool(Tool::Ruler);
        true
    }

    /// The picture beneath the level that is shown.
    pub fn backdrop(&self) -> Option<(LevelId, &Backdrop)> {
        let level = self.sight.level()?;
        Some((level, self.document.plan().backdrops.get(&level)?))
    }

    /// Changes the picture beneath the level.
    fn with_backdrop(&mut self, change: impl FnOnce(Backdrop) -> Backdrop) {
        match self.backdrop() {
            Some((level, old)) => {
                let edit = Change::Put(level, change(old.clone())).into();
                self.edit(edit);
            }
            None => self.said = "no picture lies beneath this level".to_owned(),
        }
    }

    /// The picture is chosen: it can be dragged, and Delete takes it away.
    pub fn choose_picture(&mut self) {
        match self.backdrop() {
            Some((level, _)) => {
                self.selection.choose([Subject::Level(level)]);
                self.take_tool(Tool::Hand);
                self.sight.open_step(crate::session::state::Step::Survey);
                self.said = "drag the picture; Delete takes it away".to_owned();
            }
            None => self.said = "no picture lies beneath this level".to_owned(),
        }
    }

    /// Puts the picture away, or brings it back.
    pub fn hide_picture(&mut self) {
        self.with_backdrop(|old| Backdrop { hidden: !old.hidden, ..old });
    }

    /// One step stronger or fainter.
    pub fn fade_picture(&mut self, stronger: bool) {
        self.with_backdrop(|old| {
            let strength = if stronger {
                old.strength.saturating_add(STEP).min(100)
            } else {
                old.strength.saturating_sub(STEP).max(STEP)
            };
            Backdrop { strength, ..old }
        });
    }

    /// A quarter turn, about its middle.
    pub fn turn_picture(&mut self) {
        let Some((_, old)) = self.backdrop() else {
            self.said = "no picture lies beneath this level".to_owned();
            return;
        };
        let Some(frame) = self.frame_of(old) else { return };
        let about = frame * Point::new(0.5, 0.5);
        let new = turned(old, about, 90.0, 1.0);
        self.with_backdrop(|_| new);
    }

    /// From the picture's own square, `(0, 0)` its lower left corner and
    /// `(1, 1)` its upper right, to the plan. None while its size is not known.
    pub fn frame_of(&self, backdrop: &Backdrop) -> Option<Affine> {
        let (wide, high) = self.sight.picture_size(&backdrop.file)?;
        let width = backdrop.width.to_f64();
        let height = width * f64::from(high) / f64::from(wide.max(1));
        Some(
            Affine::translate(exact(backdrop.at).to_vec2())
                * Affine::rotate(degrees(backdrop.turn).to_radians())
                * Affine::scale_non_uniform(width, height),
        )
    }

    /// Whether the chosen picture is under a place.
    pub(crate) fn picture_under(&self, at: Point) -> bool {
        let chosen = self
            .sight
            .level()
            .is_some_and(|level| self.selection.chosen().contains(&Subject::Level(level)));
        let frame = self.backdrop().filter(|_| chosen).and_then(|(_, one)| self.frame_of(one));
        frame.is_some_and(|frame| Rect::new(0.0, 0.0, 1.0, 1.0).contains(frame.inverse() * at))
    }

    /// One end of the known length.
    pub(crate) fn ruler_press(&mut self, at: Point) {
        if self.backdrop().is_none() {
            self.said = "lay a picture first".to_owned();
            return;
        }
        if self.hand.drawing.ruler.len() >= 2 {
            self.hand.drawing.ruler.clear();
        }
        self.hand.drawing.ruler.push(at);
    }

    /// Enter: the two ends lie so far apart, and at this angle if one is typed.
    /// The first stays where it is.
    pub(crate) fn ruler_done(&mut self) {
        let typed = self.hand.take_typed();
        let [from, to] = *self.hand.drawing.ruler.as_slice() else {
            self.said = "click both ends of a length that is known".to_owned();
            return;
        };
        let (Some(typed), apart) = (Typed::of(&typed), from.distance(to)) else {
            self.said =
                format!("\"{typed}\" is no length; type 3600, 3.6 m or 12'6\", @0 makes it level");
            return;
        };
        if apart < 1.0 {
            self.said = "the two ends are the same place".to_owned();
            return;
        }
        let factor = typed.length.map_or(1.0, |length| length.to_f64() / apart);
        let now = (to - from).atan2().to_degrees();
        let by = typed.angle.map_or(0.0, |angle| angle - now);
        let Some((_, old)) = self.backdrop() else { return };
        let new = turned(old, from, by, factor);
        self.hand.drawing.ruler.clear();
        let edit = Change::Put(self.sight.level().unwrap_or(LevelId(1)), new).into();
        if self.edit(edit) {
            self.take_tool(Tool::Hand);
            self.said = "the picture has its scale; W draws walls over it".to_owned();
            self.fit_to_picture();
        }
    }

    /// Shows all of the picture.
    fn fit_to_picture(&mut self) {
        let frame = self.backdrop().and_then(|(_, one)| self.frame_of(one));
        let Some(frame) = frame else { return };
        let around = frame.transform_rect_bbox(Rect::new(0.0, 0.0, 1.0, 1.0));
        let per = crate::session::state::REDUCTION;
        let paper = |at: Point| Point::new(at.x / per, -at.y / per);
        let (one, other) =
            (paper(Point::new(around.x0, around.y0)), paper(Point::new(around.x1, around.y1)));
        let paper = Rect::from_points(one, other);
        self.sight.fit(Some(paper));
    }

    /// The edits that name every picture from the folder of another file.
    pub(crate) fn pictures_beside(&mut self, file: &Path) -> Vec<Edit> {
        let (old, new) =
            (self.document.folder(), file.parent().map(Path::to_owned).unwrap_or_default());
        let mut edits: Vec<Edit> = Vec::new();
        for (level, backdrop) in &self.document.plan().backdrops {
            let path = backdrop_path(&old, &backdrop.file);
            let name = backdrop_name(&new, &path);
            if name != backdrop.file {
                if let Some(size) = self.sight.picture_size(&backdrop.file) {
                    self.sight.know_picture(name.clone(), size);
                }
                edits.push(Change::Put(*level, Backdrop { file: name, ..backdrop.clone() }).into());
            }
        }
        edits
    }
}

fn degrees(angle: Angle) -> f64 {
    f64::from(angle.millidegrees()) / 1000.0
}

/// A picture turned and scaled about a place that stays.
fn turned(old: &Backdrop, about: Point, by: f64, factor: f64) -> Backdrop {
    let corner = about
        + (Affine::rotate(by.to_radians()) * ((exact(old.at) - about) * factor).to_point())
            .to_vec2();
    let turn = libm::remainder(degrees(old.turn) + by, 360.0);
    #[expect(clippy::cast_possible_truncation, reason = "within one turn")]
    let turn = Angle::from_millidegrees(libm::round(turn * 1000.0) as i32);
    let width = Mm::from_f64(old.width.to_f64() * factor).unwrap_or(old.width);
    Backdrop { at: rounded(corner), width: width.max(Mm::new(1)), turn, ..old.clone() }
}

/// The picture of a level moved across the page.
pub(crate) fn moved(plan: &Plan, level: LevelId, by: Vec2) -> Result<Edit, String> {
    let old = plan.backdrops.get(&level).ok_or("the picture is gone")?;
    let at = rounded(exact(old.at) + by);
    Ok(Change::Put(level, Backdrop { at, ..old.clone() }).into())
}

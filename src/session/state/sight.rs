//! What of the plan is shown: step, level, paper, how near, in which measure.

use std::collections::BTreeMap;

use kurbo::{Point, Rect, Vec2};

use super::camera::Camera;
use super::tools::Step;
use crate::plan::LevelId;
use crate::session::ground::length::Measure;

/// What is shown before anything is drawn, mm of paper.
const EMPTY: Rect = Rect::new(0.0, -160.0, 240.0, 0.0);

/// What of the plan is shown.
#[derive(Clone, Debug)]
pub struct Sight {
    step: Step,
    level: Option<LevelId>,
    page: usize,
    camera: Camera,
    size: (f64, f64),
    /// Whether the view is to be fitted as soon as there is something to see.
    fit_soon: bool,
    /// The state of what is shown from which on the view is to be fitted.
    fit_when: Option<u64>,
    /// Whether the surface has told its size.
    is_sized: bool,
    measure: Measure,
    below_hidden: bool,
    strip_hidden: bool,
    pictures: BTreeMap<String, (u32, u32)>,
}

impl Sight {
    pub(crate) fn of(step: Step, level: Option<LevelId>) -> Self {
        Self {
            step,
            level,
            page: 0,
            camera: Camera::default(),
            size: (800.0, 600.0),
            fit_soon: true,
            fit_when: None,
            is_sized: false,
            measure: Measure::default(),
            below_hidden: false,
            strip_hidden: false,
            pictures: BTreeMap::new(),
        }
    }

    /// The step of the job that is open.
    pub const fn step(&self) -> Step {
        self.step
    }

    /// The level that is shown.
    pub const fn level(&self) -> Option<LevelId> {
        self.level
    }

    /// The paper that is shown, by its place in the set.
    pub const fn page(&self) -> usize {
        self.page
    }

    /// Where the plan lies on the surface.
    pub const fn camera(&self) -> Camera {
        self.camera
    }

    /// The size of the surface, pixels.
    pub const fn size(&self) -> (f64, f64) {
        self.size
    }

    /// How lengths are shown.
    pub const fn measure(&self) -> Measure {
        self.measure
    }

    /// Whether the level below is not to show through.
    pub const fn below_hidden(&self) -> bool {
        self.below_hidden
    }

    /// Whether the strip of the chosen leg is put away.
    pub const fn strip_hidden(&self) -> bool {
        self.strip_hidden
    }

    /// How many pixels a picture beneath a level has across and up, where that
    /// was found out.
    pub fn picture_size(&self, file: &str) -> Option<(u32, u32)> {
        self.pictures.get(file).copied()
    }

    /// Shows lengths in this measure.
    pub const fn show_in(&mut self, measure: Measure) {
        self.measure = measure;
    }

    /// Looks from elsewhere.
    pub const fn look_from(&mut self, camera: Camera) {
        self.camera = camera;
    }

    /// Lets the level below show through, or not any more.
    pub const fn turn_below(&mut self) {
        self.below_hidden = !self.below_hidden;
    }

    /// Puts the strip of the chosen leg away, or brings it back.
    pub const fn turn_strip(&mut self) {
        self.strip_hidden = !self.strip_hidden;
    }

    /// What a picture was found to be, by its file as the plan has it.
    pub fn know_picture(&mut self, file: String, size: (u32, u32)) {
        self.pictures.insert(file, size);
    }

    /// Opens a step without more: what is in the hand stays.
    pub const fn open_step(&mut self, step: Step) {
        self.step = step;
    }

    pub(crate) const fn open_page(&mut self, page: usize) {
        self.page = page;
    }

    pub(crate) const fn open_level(&mut self, level: Option<LevelId>) {
        self.level = level;
    }

    /// Fits the view once what is shown has come to a state.
    pub(crate) const fn fit_when(&mut self, stamp: u64) {
        self.fit_when = Some(stamp);
    }

    /// Fits the view to what is drawn, mm of paper.
    pub(crate) fn fit(&mut self, drawn: Option<Rect>) {
        self.camera = Camera::fitted(drawn.unwrap_or(EMPTY), self.size.0, self.size.1);
    }

    /// The surface has another size: what is in its middle stays there.
    pub(crate) fn resize(&mut self, size: (f64, f64), drawn: Option<Rect>, is_drawn: bool) {
        let by = Vec2::new(size.0 - self.size.0, size.1 - self.size.1) / 2.0;
        self.size = size;
        if self.fit_soon {
            self.is_sized = true;
            self.fit(drawn);
            self.fit_soon = !is_drawn;
        } else {
            self.camera = self.camera.moved(by);
        }
    }

    /// Something was drawn, in this state.
    pub(crate) fn drawn(&mut self, stamp: u64, drawn: Option<Rect>) {
        if self.fit_when.is_some_and(|when| stamp >= when) {
            self.fit_when = None;
            self.fit_soon = true;
        }
        if self.fit_soon {
            self.fit(drawn);
            self.fit_soon = !self.is_sized;
        }
    }

    /// Moves the view so that a piece of paper can be seen.
    pub fn show(&mut self, around: Rect) {
        let middle = self.camera.paper(around.center());
        let (width, height) = self.size;
        if !Rect::new(0.0, 0.0, width, height).inflate(-40.0, -40.0).contains(middle) {
            let to = Point::new(width / 2.0, height / 2.0);
            self.camera = self.camera.moved(to - middle);
        }
    }
}

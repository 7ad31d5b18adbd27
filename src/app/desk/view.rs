//! What of the plan is shown: step, level, circuit, paper, and how near.

use wirewend::plan::{CircuitId, LevelId};

use super::Desk;
use crate::app::camera::Camera;
use crate::app::keys::{Step, Tool};

impl Desk {
    /// Shows all of the level as soon as it is drawn as it now is.
    pub(in crate::app) const fn fit_when_drawn(&mut self) {
        self.fit_when = Some(self.stamp);
    }

    /// Shows all of the level.
    pub(in crate::app) fn fit(&mut self) {
        let drawn = self.picture.as_ref().and_then(|picture| picture.bounds());
        let paper = drawn.unwrap_or(kurbo::Rect::new(0.0, -160.0, 240.0, 0.0));
        self.camera = Camera::fitted(paper, self.size.0, self.size.1);
    }

    /// The surface has another size: what is in its middle stays there.
    pub(in crate::app) fn resize(&mut self, width: f64, height: f64) {
        let by = kurbo::Vec2::new(width - self.size.0, height - self.size.1) / 2.0;
        self.size = (width, height);
        if self.fit_soon {
            self.sized = true;
            self.fit();
            self.fit_soon = self.picture.is_none();
        } else {
            self.camera = self.camera.moved(by);
        }
    }

    /// Opens a step of the job. The papers lie on their own sheet.
    pub(in crate::app) fn go_step(&mut self, step: Step) {
        let turned = (self.step == Step::Papers) != (step == Step::Papers);
        self.step = step;
        if turned {
            self.hold = None;
            self.take_tool(Tool::Hand);
            self.fit_when = Some(self.stamp + 1);
            self.look_again();
        }
    }

    /// Shows another paper.
    pub(in crate::app) fn go_page(&mut self, page: usize) {
        if page != self.page {
            self.page = page;
            self.fit_when = Some(self.stamp + 1);
            self.look_again();
        }
    }

    /// Goes so many levels up; among the papers, so many back.
    pub(in crate::app) fn climb(&mut self, by: isize) {
        if self.step == Step::Papers {
            let papers = self.picture.as_ref().and_then(|picture| picture.made_papers());
            let last = papers.map_or(0, |papers| papers.shown().count().saturating_sub(1));
            return self.go_page(self.page.saturating_add_signed(-by).min(last));
        }
        let mut levels: Vec<(LevelId, wirewend::units::Mm)> =
            self.plan.levels.iter().map(|(id, level)| (*id, level.floor)).collect();
        levels.sort_by_key(|(id, floor)| (*floor, *id));
        let at = levels.iter().position(|(id, _)| Some(*id) == self.level).unwrap_or(0);
        let to = at.saturating_add_signed(by).min(levels.len().saturating_sub(1));
        if let Some((id, _)) = levels.get(to) {
            self.chosen.clear();
            self.go_to(*id);
        }
    }

    /// Shows a level.
    pub(in crate::app) fn go_to(&mut self, level: LevelId) {
        if self.level != Some(level) {
            self.level = Some(level);
            self.pen = None;
            self.drop_survey();
            self.look_again();
        }
    }

    /// Chooses a circuit to be shown alone, or all of them again.
    pub(in crate::app) fn choose_circuit(&mut self, circuit: Option<CircuitId>) {
        self.circuit = if self.circuit == circuit { None } else { circuit };
        self.look_again();
    }
}

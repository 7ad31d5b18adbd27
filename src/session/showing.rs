//! What of the plan is shown: step, level, circuit, paper, and how near.

use kurbo::Rect;

use super::Session;
use super::state::{Step, Tool};
use crate::plan::{CircuitId, LevelId};
use crate::units::Mm;

impl Session {
    /// Shows all of the level as soon as it is drawn as it now is.
    pub const fn fit_when_drawn(&mut self) {
        self.sight.fit_when(self.jobs.stamp());
    }

    /// Shows all of the level.
    pub fn fit(&mut self) {
        self.sight.fit(self.drawn());
    }

    /// The box around everything drawn, mm of paper.
    fn drawn(&self) -> Option<Rect> {
        self.jobs.picture().and_then(|picture| picture.bounds())
    }

    /// The surface has another size: what is in its middle stays there.
    pub fn resize(&mut self, width: f64, height: f64) {
        let (drawn, is_drawn) = (self.drawn(), self.jobs.picture().is_some());
        self.sight.resize((width, height), drawn, is_drawn);
    }

    /// Opens a step of the job. The papers lie on their own sheet.
    pub fn go_step(&mut self, step: Step) {
        let turned = (self.sight.step() == Step::Papers) != (step == Step::Papers);
        self.sight.open_step(step);
        if turned {
            self.hand.let_go();
            self.take_tool(Tool::Hand);
            self.sight.fit_when(self.jobs.stamp() + 1);
            self.look_again();
        }
    }

    /// Shows another paper.
    pub fn go_page(&mut self, page: usize) {
        if page != self.sight.page() {
            self.sight.open_page(page);
            self.sight.fit_when(self.jobs.stamp() + 1);
            self.look_again();
        }
    }

    /// Goes so many levels up; among the papers, so many back.
    pub fn climb(&mut self, by: isize) {
        if self.sight.step() == Step::Papers {
            let papers = self.jobs.picture().and_then(|picture| picture.made_papers());
            let last = papers.map_or(0, |papers| papers.shown().count().saturating_sub(1));
            return self.go_page(self.sight.page().saturating_add_signed(-by).min(last));
        }
        let levels = self.document.plan().levels.iter();
        let mut levels: Vec<(LevelId, Mm)> = levels.map(|(id, level)| (*id, level.floor)).collect();
        levels.sort_by_key(|(id, floor)| (*floor, *id));
        let at = levels.iter().position(|(id, _)| Some(*id) == self.sight.level()).unwrap_or(0);
        let to = at.saturating_add_signed(by).min(levels.len().saturating_sub(1));
        if let Some((id, _)) = levels.get(to) {
            self.selection.clear();
            self.go_to_level(*id);
        }
    }

    /// Shows a level.
    pub fn go_to_level(&mut self, level: LevelId) {
        if self.sight.level() != Some(level) {
            self.sight.open_level(Some(level));
            self.hand.set_pen(None);
            self.drop_drawing();
            self.look_again();
        }
    }

    /// Chooses a circuit to be shown alone, or all of them again.
    pub fn choose_circuit(&mut self, circuit: Option<CircuitId>) {
        let is_open = self.selection.circuit() == circuit;
        self.selection.open(if is_open { None } else { circuit });
        self.look_again();
    }
}

//! What is in the way of a file that is to be written: asked once, and then
//! replaced, kept beside, or left alone.

use iced::Task;
use iced::widget::operation;
use wirewend::session::state::{InTheWay, free_beside};

use super::view::FIELD;
use super::{App, Message, Over};

/// What to do about it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Choice {
    /// Replace it, and keep it beside.
    Replace,
    /// Write elsewhere.
    Another,
}

impl App {
    /// The plan was to be saved: done, or something is in the way.
    pub(super) fn saved(&mut self, done: bool) -> Task<Message> {
        if done {
            self.note_plan();
            return self.close_if_waiting();
        }
        if let Some(way) = self.session.take_in_the_way() {
            self.over = Over::InTheWay(way);
        }
        Task::none()
    }

    /// What to do about what is in the way.
    pub(super) fn choose_way(&mut self, choice: Choice) -> Task<Message> {
        let Over::InTheWay(way) = std::mem::take(&mut self.over) else { return Task::none() };
        match (choice, way) {
            (Choice::Replace, InTheWay::Plan { file, is }) => {
                let done = self.session.save_over(file, is);
                self.saved(done)
            }
            (Choice::Replace, InTheWay::Papers { folder, .. }) => self.export_to(folder, true),
            (Choice::Another, InTheWay::Plan { file, .. }) => {
                self.over = Over::SaveAs(free_beside(&file).display().to_string());
                operation::focus(FIELD)
            }
            (Choice::Another, InTheWay::Papers { folder, .. }) => {
                self.over = Over::PapersTo(free_beside(&folder).display().to_string());
                operation::focus(FIELD)
            }
        }
    }
}

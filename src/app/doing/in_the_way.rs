//! What is in the way of a file that is to be written: asked once, and then
//! replaced, kept beside, or left alone.

use iced::Task;
use iced::widget::operation;
use wirewend::session::state::{InTheWay, free_beside};

use crate::app::message::WayOut;
use crate::app::view::parts::FIELD;
use crate::app::{App, Message, Over};

impl App {
    /// The plan was to be saved: done, or something is in the way.
    pub(in crate::app) fn saved(&mut self, done: bool) -> Task<Message> {
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
    pub(in crate::app) fn choose_way(&mut self, choice: WayOut) -> Task<Message> {
        let Over::InTheWay(way) = std::mem::take(&mut self.over) else { return Task::none() };
        match (choice, way) {
            (WayOut::Replace, InTheWay::Plan { file, is }) => {
                let done = self.session.save_over(file, is);
                self.saved(done)
            }
            (WayOut::Replace, InTheWay::Papers { folder, .. }) => self.export_to(folder, true),
            (WayOut::Another, InTheWay::Plan { file, .. }) => {
                self.over = Over::SaveAs(free_beside(&file).display().to_string());
                operation::focus(FIELD)
            }
            (WayOut::Another, InTheWay::Papers { folder, .. }) => {
                self.over = Over::PapersTo(free_beside(&folder).display().to_string());
                operation::focus(FIELD)
            }
        }
    }
}

//! The hand that frames are measured by.

use iced::Task;
use wirewend::plan::Subject;
use wirewend::session::state::Tool;

use crate::app::{App, Message, frames};

impl App {
    /// Measures a frame, and moves the hand for the next one.
    pub(in crate::app) fn frame(&mut self) -> Task<Message> {
        let session = &self.session;
        let settled =
            session.jobs.picture().filter(|picture| picture.lettered && !session.jobs.is_behind());
        let point = settled.and_then(|picture| {
            let mut symbols = picture.symbols();
            let (_, around) = symbols.find(|(subject, _)| matches!(subject, Subject::Point(_)))?;
            Some(session.sight.camera().plan(session.sight.camera().paper(around.center())))
        });
        let moves = self.frames.as_mut().and_then(|frames| frames.frame(point));
        match moves {
            Some(frames::Move::Take(at)) => {
                self.session.hand.change(Tool::Hand);
                self.session.press(at, false);
            }
            Some(frames::Move::Drag(at)) => self.session.hover(at),
            Some(frames::Move::End) => {
                self.session.close();
                return iced::exit();
            }
            None => {}
        }
        Task::none()
    }
}

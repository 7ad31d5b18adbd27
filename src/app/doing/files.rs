//! Files of the window: the plan saved and closed, the papers written.

use std::path::PathBuf;

use iced::widget::operation;
use iced::{Task, window};
use wirewend::session::papers::{self, Export, Exported};
use wirewend::session::state::{InTheWay, free_for};
use wirewend::units::Watch;

use crate::app::view::parts::FIELD;
use crate::app::{App, Leave, Message, Over};

impl App {
    /// Writes the papers on a thread of its own: a set can take a while.
    pub(in crate::app) fn export(&mut self) -> Task<Message> {
        self.export_to(papers::folder(self.session.document.file()), false)
    }

    /// Writes them into a folder; `anyway` over files of others too.
    pub(in crate::app) fn export_to(&mut self, folder: PathBuf, anyway: bool) -> Task<Message> {
        let export = match Export::of(&self.session, folder, anyway) {
            Ok(export) => export,
            Err(why) => {
                self.session.said = why;
                return Task::none();
            }
        };
        let kept = self.session.issue().map_or_else(String::new, |kept| format!("; {kept}"));
        let watch = Watch::default();
        self.writing = Some(watch.clone());
        self.session.said.clear();
        let (send, receive) = iced::futures::channel::oneshot::channel();
        std::thread::spawn(move || {
            let _ = send.send(export.write(&watch));
        });
        let failed =
            || Exported::Said("the papers could not be drawn; undo the last change".to_owned());
        Task::perform(receive, move |said| {
            Message::Written(said.unwrap_or_else(|_| failed()).with(&kept))
        })
    }

    pub(in crate::app) fn save(&mut self) -> Task<Message> {
        if self.session.document.file().is_none() {
            return self.ask_where();
        }
        let done = self.session.save();
        self.saved(done)
    }

    /// The papers were written, or others' files are in the way.
    pub(in crate::app) fn exported(&mut self, exported: Exported) {
        self.writing = None;
        match exported {
            Exported::Said(says) => self.session.said = says,
            // Whoever has begun something else meanwhile is not interrupted.
            Exported::Asks(way) if self.over == Over::Nothing => self.over = Over::InTheWay(way),
            Exported::Asks(InTheWay::Papers { folder, says }) => {
                self.session.said = format!("no paper was written: {}: {says}", folder.display());
            }
            Exported::Asks(InTheWay::Plan { .. }) => {}
        }
    }

    pub(in crate::app) fn close_if_waiting(&mut self) -> Task<Message> {
        match self.closing.take() {
            Some(id) => self.close(id),
            None => Task::none(),
        }
    }

    pub(in crate::app) fn close(&mut self, id: window::Id) -> Task<Message> {
        self.session.close();
        self.settings.write(self.folder.as_deref());
        window::close(id)
    }

    pub(in crate::app) fn ask_where(&mut self) -> Task<Message> {
        let now = self.session.document.file().as_ref().map(|file| file.display().to_string());
        let free = || free_for(&self.session.document.plan().project.title).display().to_string();
        self.over = Over::SaveAs(now.unwrap_or_else(free));
        operation::focus(FIELD)
    }

    pub(in crate::app) fn leave(&mut self, leave: Leave) -> Task<Message> {
        let Over::Leaving(id) = std::mem::take(&mut self.over) else { return Task::none() };
        match (leave, id) {
            (Leave::Save, id) => {
                self.closing = id;
                self.save()
            }
            (Leave::Drop, Some(id)) => self.close(id),
            (Leave::Drop | Leave::Stay, _) => Task::none(),
        }
    }
}

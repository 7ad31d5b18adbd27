//! What each command of the survey does.

use std::path::Path;

use iced::Task;
use iced::widget::operation;

use crate::app::keys::Ask;
use crate::app::view::parts::FIELD;
use crate::app::{App, Message, Over};

/// Endings of pictures.
const PICTURES: [&str; 3] = ["png", "jpg", "jpeg"];

impl App {
    pub(in crate::app) fn building(&mut self, ask: Ask) -> Task<Message> {
        let session = &mut self.session;
        match ask {
            Ask::Build(of) => session.build(of),
            Ask::Insulate => session.insulate(),
            Ask::Use(usage) => session.usage(usage),
            Ask::Handle => {
                session.hang(false);
            }
            Ask::AddLevel(above) => session.add_level(above),
            Ask::RemoveLevel => session.remove_level(),
            Ask::Below => {
                session.sight.turn_below();
                session.look_again();
            }
            Ask::AddVoid(overhead) => session.add_void(overhead),
            Ask::Void(overhead) => session.choose_void(overhead),
            Ask::NoOutline => session.no_outline(),
            Ask::Effect(kind) => session.effect(kind.effect()),
            Ask::Measure => {
                self.settings.feet = !self.settings.feet;
                self.settings.write(self.folder.as_deref());
            }
            Ask::Picture => {
                self.over = Over::Picture(String::new());
                return operation::focus(FIELD);
            }
            Ask::TakePicture => session.choose_picture(),
            Ask::HidePicture => session.hide_picture(),
            Ask::Stronger => session.fade_picture(true),
            Ask::Fainter => session.fade_picture(false),
            Ask::TurnPicture => session.turn_picture(),
            Ask::Import => {
                self.over = Over::Import(String::new());
                return operation::focus(FIELD);
            }
            Ask::Draft => {
                if session.document.plan().walls.is_empty() {
                    session.said = "draw walls first, or bring in a layout (Ctrl+I)".to_owned();
                } else {
                    self.over = Over::Draft(crate::app::draft_form::DraftForm::of(&self.rules));
                }
            }
        }
        Task::none()
    }

    /// Lays a picture beneath the level.
    pub(in crate::app) fn lay_picture(&mut self, path: &Path) {
        match image::image_dimensions(path) {
            Ok(size) => {
                self.session.lay_picture(path, size);
            }
            Err(error) => {
                let file = path.display();
                self.session.said = format!("{file}: no picture that can be read: {error}");
            }
        }
    }

    /// A file was dropped or named: a plan is opened, a picture laid beneath
    /// the level, anything else brought in as a layout.
    pub(in crate::app) fn take_file(&mut self, path: &Path) -> Task<Message> {
        let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase());
        match ending.as_deref() {
            Some("wend") => {
                self.open(path.to_owned());
                Task::none()
            }
            Some(ending) if PICTURES.contains(&ending) => {
                self.lay_picture(path);
                Task::none()
            }
            _ => self.bring(path),
        }
    }
}

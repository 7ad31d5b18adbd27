//! What each command of the survey does.

use std::path::Path;

use iced::Task;
use iced::widget::operation;
use wirewend::plan::{Change, Subject, Void};

use super::keys::Ask;
use super::view::FIELD;
use super::{App, Message, Over};

/// Endings of pictures.
const PICTURES: [&str; 3] = ["png", "jpg", "jpeg"];

impl App {
    pub(super) fn building(&mut self, ask: Ask) -> Task<Message> {
        let desk = &mut self.desk;
        match ask {
            Ask::Build(of) => desk.build(of),
            Ask::Insulate => desk.insulate(),
            Ask::Use(usage) => desk.usage(usage),
            Ask::Handle => {
                desk.hang(false);
            }
            Ask::AddLevel(above) => desk.add_level(above),
            Ask::RemoveLevel => desk.remove_level(),
            Ask::Below => {
                desk.survey.below_hidden = !desk.survey.below_hidden;
                desk.look_again();
            }
            Ask::AddVoid(overhead) => desk.add_void(overhead),
            Ask::Void(overhead) => self.choose_void(overhead),
            Ask::NoOutline => self.no_outline(),
            Ask::Effect(kind) => desk.effect(kind.effect()),
            Ask::Measure => {
                self.settings.feet = !self.settings.feet;
                self.settings.write(self.folder.as_deref());
            }
            Ask::Picture => {
                self.over = Over::Picture(String::new());
                return operation::focus(FIELD);
            }
            Ask::TakePicture => desk.choose_picture(),
            Ask::HidePicture => desk.hide_picture(),
            Ask::Stronger => desk.fade_picture(true),
            Ask::Fainter => desk.fade_picture(false),
            Ask::TurnPicture => desk.turn_picture(),
            Ask::Import => {
                self.over = Over::Import(String::new());
                return operation::focus(FIELD);
            }
            Ask::Draft => {
                if desk.plan.walls.is_empty() {
                    desk.said = "draw walls first, or bring in a layout (Ctrl+I)".to_owned();
                } else {
                    self.over = Over::Draft(super::draft_form::DraftForm::default());
                }
            }
        }
        Task::none()
    }

    fn choose_void(&mut self, overhead: bool) {
        let desk = &mut self.desk;
        let level = desk.level.and_then(|id| desk.plan.levels.get(&id));
        let side = level.map(|level| if overhead { &level.above } else { &level.below });
        let side = side.cloned().unwrap_or_default();
        if side.is_empty() {
            desk.said = "concrete there: add a void first (/ and \"add a void\")".to_owned();
            return;
        }
        // The next one where there are several.
        let now = side.iter().position(|id| desk.chosen.contains(&Subject::Void(*id)));
        let next = side[now.map_or(0, |now| (now + 1) % side.len())];
        desk.chosen = std::collections::BTreeSet::from([Subject::Void(next)]);
        desk.step = super::keys::Step::Survey;
    }

    fn no_outline(&mut self) {
        let desk = &mut self.desk;
        let void = desk.chosen.iter().find_map(|subject| match subject {
            Subject::Void(id) => Some((*id, desk.plan.voids.get(id)?.clone())),
            _ => None,
        });
        match void {
            Some((id, void)) => {
                desk.edit(Change::Put(id, Void { outline: None, ..void }).into());
            }
            None => desk.said = "choose a void first (Shift+V)".to_owned(),
        }
    }

    /// A file was dropped or named: a plan is opened, a picture laid beneath
    /// the level, anything else brought in as a layout.
    pub(super) fn take_file(&mut self, path: &Path) -> Task<Message> {
        let ending = path.extension().map(|ending| ending.to_string_lossy().to_lowercase());
        match ending.as_deref() {
            Some("wend") => {
                self.open(path.to_owned());
                Task::none()
            }
            Some(ending) if PICTURES.contains(&ending) => {
                self.desk.lay_picture(path);
                Task::none()
            }
            _ => self.bring(path),
        }
    }
}

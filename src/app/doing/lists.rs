//! Lists to choose from: things and actions by name, kinds, recent plans; and
//! the keys of whatever lies over the window.

use std::path::{Path, PathBuf};

use iced::Task;
use iced::keyboard::Key;
use iced::keyboard::key::Named;
use iced::widget::operation;
use wirewend::plan::PointKind;
use wirewend::session::Session;

use crate::app::doing::bring::Reading;
use crate::app::doing::find::{self, Goes, Hit};
use crate::app::keys::Command;
use crate::app::message::WayOut;
use crate::app::view::parts::FIELD;
use crate::app::{App, Leave, Message, Over};

impl App {
    /// What the open list shows.
    pub(in crate::app) fn hits(&self) -> Vec<Hit> {
        match &self.over {
            Over::Find(text) => find::hits(&self.session, text),
            Over::Kind(text) => kinds(text),
            Over::Open(text) => plans(&self.settings.recent, text),
            _ => Vec::new(),
        }
    }

    /// A line of the open list is taken.
    pub(in crate::app) fn found(&mut self, index: usize) -> Task<Message> {
        let hit = self.hits().into_iter().nth(index);
        let over = std::mem::take(&mut self.over);
        self.picked = 0;
        match (hit.map(|hit| hit.goes), over) {
            (Some(Goes::Do(command)), _) => return self.command(command),
            (Some(Goes::To(subject)), _) => self.session.go_to(subject),
            (Some(Goes::Kind(kind)), _) => self.session.make(kind),
            (Some(Goes::Open(path)), _) => self.open(path),
            (None, Over::Find(text) | Over::Kind(text) | Over::Open(text)) => {
                self.session.said = format!("nothing is called \"{text}\"");
            }
            (None, _) => {}
        }
        Task::none()
    }

    /// A key while something lies over the window.
    pub(in crate::app) fn over_key(&mut self, key: &Key, sign: Option<char>) -> Task<Message> {
        // Typed before an empty field has the keyboard: nothing is lost.
        let filled = matches!(self.over, Over::Amount(..) | Over::SaveAs(_) | Over::PapersTo(_));
        if let (Some(sign), Some(field), false) = (sign, self.over.field(), filled)
            && !sign.is_control()
        {
            field.push(sign);
            self.picked = 0;
            return Task::none();
        }
        let last = self.hits().len().saturating_sub(1);
        match (key.as_ref(), &mut self.over) {
            (Key::Named(Named::Escape), _) => return self.command(Command::LetGo),
            (Key::Named(Named::Enter), Over::Brought) => self.take_brought(),
            (Key::Character("1"), Over::Brought) => return self.read_anew(Reading::NextUnit),
            (Key::Character("2"), Over::Brought) => return self.read_anew(Reading::NextLayer),
            (Key::Named(Named::Enter), Over::Drafted | Over::Keys) => self.over = Over::Nothing,
            (Key::Named(Named::Delete), Over::Drafted) => self.take_draft_back(),
            (Key::Named(Named::Enter), Over::Draft(form)) => match form.asked() {
                Ok(options) => return self.begin_draft(options),
                Err(error) => self.session.said = error.to_string(),
            },
            (Key::Named(Named::Tab), Over::Draft(_)) => return operation::focus(FIELD),
            (_, Over::Draft(form)) => {
                if let Some(sign) = sign {
                    form.turn(sign);
                }
            }
            (Key::Named(Named::Enter), Over::InTheWay(_)) => {
                return self.choose_way(WayOut::Another);
            }
            (Key::Named(Named::Delete), Over::InTheWay(_)) => {
                return self.choose_way(WayOut::Replace);
            }
            (Key::Named(Named::Enter), Over::Leaving(_)) => return self.leave(Leave::Save),
            (Key::Named(Named::Delete), Over::Leaving(_)) => return self.leave(Leave::Drop),
            (Key::Named(Named::ArrowDown), _) => self.picked = (self.picked + 1).min(last),
            (Key::Named(Named::ArrowUp), _) => self.picked = self.picked.saturating_sub(1),
            _ => {}
        }
        Task::none()
    }

    /// Another plan takes the place of this one: from a list, or dropped on the
    /// window.
    pub(in crate::app) fn open(&mut self, path: PathBuf) {
        if self.session.document.unsaved() {
            self.session.said = "save this plan first; then open the other one again".to_owned();
            return;
        }
        match wirewend::store::read_known(&path) {
            Ok((plan, known)) => {
                let size = self.session.sight.size();
                self.session.close();
                self.session = Session::of_known(plan, path, Some(known));
                self.session.resize(size.0, size.1);
                self.note_plan();
            }
            Err(error) => self.session.said = error.to_string(),
        }
    }

    /// Remembers the plan that is open.
    pub(in crate::app) fn note_plan(&mut self) {
        if let Some(file) = &self.session.document.file() {
            self.settings.note(file);
            self.settings.write(self.folder.as_deref());
        }
    }
}

/// Kinds whose name holds a text.
fn kinds(text: &str) -> Vec<Hit> {
    let wanted = text.trim().to_lowercase();
    let all = PointKind::ALL.into_iter().filter(|kind| kind.name().contains(&wanted));
    let hit = |kind: PointKind| Hit {
        name: kind.name().to_owned(),
        aside: kind.letters().to_owned(),
        goes: Goes::Kind(kind),
    };
    all.map(hit).take(find::MOST).collect()
}

/// Recent plans that a text is part of, and what else it may name.
fn plans(recent: &[PathBuf], text: &str) -> Vec<Hit> {
    let wanted = text.trim();
    let hit = |path: &Path, aside: String| Hit {
        name: path.file_name().unwrap_or_default().to_string_lossy().into_owned(),
        aside,
        goes: Goes::Open(path.to_owned()),
    };
    let beside =
        |path: &Path| path.parent().map_or_else(String::new, |folder| folder.display().to_string());
    let mut all: Vec<Hit> = Vec::new();
    if !wanted.is_empty() && Path::new(wanted).is_file() {
        all.push(hit(Path::new(wanted), "open this file".to_owned()));
    }
    let named = recent.iter().filter(|path| path.display().to_string().contains(wanted));
    all.extend(named.map(|path| hit(path, beside(path))));
    all.truncate(find::MOST);
    all
}

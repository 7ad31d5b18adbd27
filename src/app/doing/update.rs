//! What each message does.

use std::path::PathBuf;
use std::sync::Arc;

use iced::keyboard::key::Named;
use iced::keyboard::{self, Key};
use iced::widget::operation;
use iced::{Task, window};
use kurbo::{Point, Vec2};
use wirewend::plan::Subject;
use wirewend::session::Session;
use wirewend::session::ground::blank;
use wirewend::session::state::Step;

use crate::app::canvas::layers::Painted;
use crate::app::canvas::surface::Touched;
use crate::app::canvas::theme::Look;
use crate::app::keys::{self, Command};
use crate::app::view::parts::FIELD;
use crate::app::{App, Message, Over};

impl App {
    /// Takes a message and sends off the work that it made due.
    pub(in crate::app) fn update(&mut self, message: Message) -> Task<Message> {
        let shown = |session: &Session| {
            (session.sight.camera(), session.sight.level(), session.sight.step() == Step::Papers)
        };
        let before = shown(&self.session);
        let ground = self.ground();
        let task = Task::batch([self.take(message), self.pictures_due()]);
        // Another plan is shown in the same measure.
        self.session.sight.show_in(self.settings.measure());
        self.under.renew(&self.session, &self.look);
        if shown(&self.session) != before {
            self.panes.clear();
        }
        if self.ground() != ground {
            self.panes.ground.clear();
        }
        self.roll_out();
        Task::batch([task, self.work()])
    }

    fn take(&mut self, message: Message) -> Task<Message> {
        match message {
            Message::Sheet(touched) => self.touched(touched),
            Message::Do(command) => return self.command(command),
            Message::Key(event) => return self.key(event),
            Message::Circuit(id) => self.session.choose_circuit(Some(id)),
            Message::Figure(figure) => self.session.selection.ask(figure),
            Message::Leg(leg) => self.session.selection.choose_leg(Some(leg)),
            Message::Over(circuit) => self.session.over_circuit(circuit),
            Message::Sized(size) => {
                let scale = self.settings.scale;
                self.settings.size = (size.width * scale, size.height * scale);
            }
            Message::Hinted => self.hinted(),
            Message::Paper(page) => self.session.go_page(page),
            Message::Written(exported) => self.exported(exported),
            Message::Finding(index) => self.session.finding(index),
            Message::Level(level) => {
                self.session.selection.clear();
                self.session.go_to_level(level);
            }
            Message::Drawn(None) => self.session.failed(),
            Message::Drawn(Some(painted)) => self.drawn(painted),
            Message::Field(text) => {
                if let Some(field) = self.over.field() {
                    *field = text;
                    self.picked = 0;
                }
            }
            Message::FieldDone => return self.field_done(),
            Message::Found(index) => return self.found(index),
            Message::Dropped(path) => return self.take_file(&path),
            Message::Answered(number, answer) => self.answered(number, answer),
            Message::Undrafted => self.take_draft_back(),
            Message::Reading(reading) => return self.read_anew(reading),
            Message::TakeBrought => self.take_brought(),
            Message::Draft(choice) => {
                if let Over::Draft(form) = &mut self.over {
                    form.choose(choice);
                }
            }
            Message::PictureRead(path, pixels) => self.picture_read(path, pixels),
            Message::CloseAsked(id) => {
                if !self.session.document.unsaved() {
                    return self.close(id);
                }
                self.over = Over::Leaving(Some(id));
            }
            Message::Close(leave) => return self.leave(leave),
            Message::Way(choice) => return self.choose_way(choice),
            Message::PutOn(id) => self.session.put_on(id),
            Message::Mend(index) => self.session.mend(index, &self.rules),
            Message::Second => {
                self.long.seconds += 1;
                self.session.jobs.tick();
                self.session.sync();
                self.session.hear();
            }
            Message::Focused => self.session.hear(),
            Message::Frame => return self.frame(),
        }
        Task::none()
    }

    /// What is painted under the drawing depends on this.
    fn ground(&self) -> (Step, u64, Option<Subject>) {
        let session = &self.session;
        let survey = session.sight.step() == Step::Survey;
        let chosen = session.selection.chosen().first().copied().filter(|_| survey);
        (session.sight.step(), if survey { session.jobs.stamp() } else { 0 }, chosen)
    }

    /// What was computed is shown, where it does not come too late.
    fn drawn(&mut self, painted: Painted) {
        let Painted { picture, layers } = painted;
        self.session.done(Arc::clone(&picture));
        if self.session.jobs.picture().is_some_and(|shown| Arc::ptr_eq(shown, &picture)) {
            self.layers = layers;
            self.panes.take(&self.layers);
        }
    }

    fn touched(&mut self, touched: Touched) {
        let plan = |session: &Session, at: Point| session.sight.camera().plan(at);
        match touched {
            Touched::Resized(width, height) => self.session.resize(width, height),
            Touched::Press { at, also } => {
                self.session.selection.ask(None);
                let at = plan(&self.session, at);
                self.session.press(at, also);
            }
            Touched::Moved(at) => {
                let at = plan(&self.session, at);
                self.session.hover(at);
            }
            Touched::Release => self.session.let_down(),
            Touched::Left => self.session.hand.point(None),
            Touched::View(camera) => self.session.sight.look_from(camera),
        }
    }

    fn key(&mut self, event: keyboard::Event) -> Task<Message> {
        let keyboard::Event::KeyPressed { key, physical_key, modifiers, text, .. } = event else {
            return Task::none();
        };
        if self.over != Over::Nothing {
            let sign = text.as_ref().and_then(|text| text.chars().next());
            return self.over_key(&key, sign.filter(|_| !modifiers.command()));
        }
        // While something is drawn or held, what can be part of a length is typed.
        if !modifiers.command() {
            if key == Key::Named(Named::Backspace) && self.session.hand.untype() {
                self.session.typed_anew();
                return Task::none();
            }
            let sign = text.as_ref().and_then(|text| text.chars().next());
            if sign.is_some_and(|sign| self.session.type_sign(sign)) {
                return Task::none();
            }
        }
        match keys::command(&key, physical_key, modifiers) {
            Some(command) => self.command(command),
            None => Task::none(),
        }
    }

    pub(in crate::app) fn command(&mut self, command: Command) -> Task<Message> {
        let session = &mut self.session;
        let middle = Point::new(session.sight.size().0 / 2.0, session.sight.size().1 / 2.0);
        match command {
            Command::Step(step) => session.go_step(step),
            Command::Take(tool) => session.take_tool(tool),
            Command::Building(ask) => return self.building(ask),
            Command::Undo => session.undo(),
            Command::Redo => session.redo(),
            Command::Save => return self.save(),
            Command::SaveAs => return self.ask_where(),
            Command::Export => return self.export(),
            Command::New => {
                if session.document.unsaved() {
                    session.said = "save this plan first, or undo what was changed".to_owned();
                } else {
                    let size = session.sight.size();
                    self.session.close();
                    self.session = Session::unnamed(blank::plan(), self.folder.as_deref());
                    self.session.resize(size.0, size.1);
                }
            }
            Command::Delete => session.delete(),
            Command::LetGo => self.let_go(),
            Command::Settle => session.settle(),
            Command::Fit => session.fit(),
            Command::Nearer => session.sight.look_from(session.sight.camera().zoomed(middle, 1.25)),
            Command::Farther => session.sight.look_from(session.sight.camera().zoomed(middle, 0.8)),
            Command::Pan(x, y) => {
                let by = Vec2::new(f64::from(x), f64::from(y)) * -60.0;
                session.sight.look_from(session.sight.camera().moved(by));
            }
            Command::LevelUp => session.climb(1),
            Command::LevelDown => session.climb(-1),
            Command::Duplicate => session.duplicate(),
            Command::All => session.choose_all(),
            Command::Nudge(x, y) => {
                let by = Vec2::new(f64::from(x), f64::from(y)) * 50.0;
                if session.nudge_pin(by) {
                } else if !session.chosen_ends().is_empty() || !session.nudge_building(by) {
                    session.nudge(x, y);
                }
            }
            Command::Ask(amount) => match session.asks(amount) {
                Some(text) => {
                    self.over = Over::Amount(amount, text);
                    let focus = operation::focus(FIELD);
                    return Task::batch([focus, operation::select_all(FIELD)]);
                }
                None => session.said = "choose what it is about first".to_owned(),
            },
            Command::Turn => {
                if !session.chosen_ends().is_empty() || !session.hang(true) {
                    session.turn();
                }
            }
            Command::Gangs => session.gangs(),
            Command::Next => session.next(),
            Command::Find => {
                self.over = Over::Find(String::new());
                return operation::focus(FIELD);
            }
            Command::Keys => self.over = Over::Keys,
            Command::Habit(habit) => return self.habit(habit),
            Command::Close => {
                return window::latest().and_then(|id| Task::done(Message::CloseAsked(id)));
            }
            Command::Look => {
                let now = Look::ALL.iter().position(|look| *look == self.look).unwrap_or(0);
                self.look = Look::ALL[(now + 1) % Look::ALL.len()].clone();
                self.settings.look = self.look.name.to_owned();
                self.settings.write(self.folder.as_deref());
                self.panes.clear();
            }
        }
        Task::none()
    }

    /// Escape: the innermost thing ends.
    fn let_go(&mut self) {
        let hints = self.hints();
        if matches!(self.over, Over::Busy(_)) {
            self.stop();
        } else if self.over != Over::Nothing {
            self.over = Over::Nothing;
            // The window does not close after all.
            self.closing = None;
        } else if hints {
            self.hinted();
        } else {
            self.session.let_go();
        }
    }

    fn field_done(&mut self) -> Task<Message> {
        match std::mem::take(&mut self.over) {
            Over::SaveAs(name) if !name.trim().is_empty() => {
                let done = self.session.save_as(PathBuf::from(name.trim()));
                self.saved(done)
            }
            Over::PapersTo(folder) if !folder.trim().is_empty() => {
                self.export_to(PathBuf::from(folder.trim()), false)
            }
            Over::Amount(amount, text) => {
                if !self.session.set_building(amount, &text) {
                    self.session.set(amount, &text);
                }
                Task::none()
            }
            Over::Import(path) if !path.trim().is_empty() => self.take_file(path.trim().as_ref()),
            Over::Picture(path) if !path.trim().is_empty() => {
                self.lay_picture(path.trim().as_ref());
                Task::none()
            }
            Over::Draft(form) => {
                self.over = Over::Draft(form);
                self.over_key(&Key::Named(Named::Enter), None)
            }
            over @ (Over::Find(_) | Over::Kind(_) | Over::Open(_)) => {
                self.over = over;
                self.found(self.picked)
            }
            Over::Evenly(text) => {
                match text.trim().parse::<usize>() {
                    Ok(count @ 1..=50) => self.session.evenly(count),
                    _ => self.session.said = "a number from 1 to 50".to_owned(),
                }
                Task::none()
            }
            _ => Task::none(),
        }
    }
}

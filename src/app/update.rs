//! What each message does.

use std::path::PathBuf;

use iced::keyboard::{self, Key, key::Named};
use iced::widget::operation;
use iced::{Task, window};
use kurbo::{Point, Vec2};
use wirewend::plan::Subject;

use super::desk::Desk;
use super::keys::{self, Command, Step, Tool};
use super::surface::Touched;
use super::theme::Look;
use super::view::FIELD;
use super::{App, Message, Over, blank};

impl App {
    /// Takes a message and sends off the work that it made due.
    pub(in crate::app) fn update(&mut self, message: Message) -> Task<Message> {
        let shown = |desk: &Desk| (desk.camera, desk.level, desk.step == Step::Papers);
        let before = shown(&self.desk);
        let ground = self.ground();
        let task = Task::batch([self.take(message), self.pictures_due()]);
        // Another plan is shown in the same measure.
        self.desk.survey.measure = self.settings.measure();
        self.under.renew(&self.desk, &self.look);
        if shown(&self.desk) != before {
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
            Message::Circuit(id) => self.desk.choose_circuit(Some(id)),
            Message::Figure(figure) => self.desk.figure = figure,
            Message::Leg(leg) => self.desk.at_hand.leg = Some(leg),
            Message::Over(circuit) => self.over_circuit(circuit),
            Message::Sized(size) => {
                let scale = self.settings.scale;
                self.settings.size = (size.width * scale, size.height * scale);
            }
            Message::Hinted => self.hinted(),
            Message::Paper(page) => self.desk.go_page(page),
            Message::Written(exported) => self.exported(exported),
            Message::Finding(index) => self.finding(index),
            Message::Level(level) => {
                self.desk.chosen.clear();
                self.desk.go_to(level);
            }
            Message::Drawn(picture) => {
                match picture {
                    Some(picture) => self.desk.done(picture),
                    None => self.desk.failed(),
                }
                if let Some(picture) = &self.desk.picture {
                    self.panes.take(&picture.foils);
                }
            }
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
                if !self.desk.unsaved() {
                    return self.close(id);
                }
                self.over = Over::Leaving(Some(id));
            }
            Message::Close(leave) => return self.leave(leave),
            Message::Way(choice) => return self.choose_way(choice),
            Message::PutOn(id) => self.desk.put_on(id),
            Message::Mend(index) => self.mend(index),
            Message::Second => {
                self.long.seconds += 1;
                self.desk.waited += 1;
                self.desk.sync();
                self.desk.hear();
            }
            Message::Focused => self.desk.hear(),
            Message::Frame => return self.frame(),
        }
        Task::none()
    }

    /// What is painted under the drawing depends on this.
    fn ground(&self) -> (Step, u64, Option<Subject>) {
        let desk = &self.desk;
        let survey = desk.step == Step::Survey;
        let chosen = desk.chosen.first().copied().filter(|_| survey);
        (desk.step, if survey { desk.stamp() } else { 0 }, chosen)
    }

    fn touched(&mut self, touched: Touched) {
        let plan = |desk: &Desk, at: Point| desk.camera.plan(at);
        match touched {
            Touched::Resized(width, height) => self.desk.resize(width, height),
            Touched::Press { at, also } => {
                self.desk.figure = None;
                let at = plan(&self.desk, at);
                self.desk.press(at, also);
            }
            Touched::Moved(at) => {
                let at = plan(&self.desk, at);
                self.desk.hover(at);
            }
            Touched::Release => self.let_down(),
            Touched::Left => self.desk.pointer = None,
            Touched::View(camera) => self.desk.camera = camera,
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
            if key == Key::Named(Named::Backspace) && self.desk.typed.pop().is_some() {
                self.desk.typed_anew();
                return Task::none();
            }
            let sign = text.as_ref().and_then(|text| text.chars().next());
            if sign.is_some_and(|sign| self.desk.type_sign(sign)) {
                return Task::none();
            }
        }
        match keys::command(&key, physical_key, modifiers) {
            Some(command) => self.command(command),
            None => Task::none(),
        }
    }

    pub(super) fn command(&mut self, command: Command) -> Task<Message> {
        let desk = &mut self.desk;
        let middle = Point::new(desk.size.0 / 2.0, desk.size.1 / 2.0);
        match command {
            Command::Step(step) => desk.go_step(step),
            Command::Take(tool) => desk.take_tool(tool),
            Command::Building(ask) => return self.building(ask),
            Command::Undo => desk.undo(),
            Command::Redo => desk.redo(),
            Command::Save => return self.save(),
            Command::SaveAs => return self.ask_where(),
            Command::Export => return self.export(),
            Command::New => {
                if desk.unsaved() {
                    desk.said = "save this plan first, or undo what was changed".to_owned();
                } else {
                    let size = desk.size;
                    self.desk.close();
                    self.desk = Desk::unnamed(blank::plan(), self.folder.as_deref());
                    self.desk.resize(size.0, size.1);
                }
            }
            Command::Delete => desk.delete(),
            Command::LetGo => self.let_go(),
            Command::Settle => desk.settle(),
            Command::Fit => desk.fit(),
            Command::Nearer => desk.camera = desk.camera.zoomed(middle, 1.25),
            Command::Farther => desk.camera = desk.camera.zoomed(middle, 0.8),
            Command::Pan(x, y) => {
                let by = Vec2::new(f64::from(x), f64::from(y)) * -60.0;
                desk.camera = desk.camera.moved(by);
            }
            Command::LevelUp => desk.climb(1),
            Command::LevelDown => desk.climb(-1),
            Command::Duplicate => desk.duplicate(),
            Command::All => desk.choose_all(),
            Command::Nudge(x, y) => {
                let by = Vec2::new(f64::from(x), f64::from(y)) * 50.0;
                if desk.nudge_pin(by) {
                } else if !desk.chosen_ends().is_empty() || !desk.nudge_building(by) {
                    desk.nudge(x, y);
                }
            }
            Command::Ask(amount) => match desk.asks(amount) {
                Some(text) => {
                    self.over = Over::Amount(amount, text);
                    let focus = operation::focus(FIELD);
                    return Task::batch([focus, operation::select_all(FIELD)]);
                }
                None => desk.said = "choose what it is about first".to_owned(),
            },
            Command::Turn => {
                if !desk.chosen_ends().is_empty() || !desk.hang(true) {
                    desk.turn();
                }
            }
            Command::Gangs => desk.gangs(),
            Command::Next => desk.next(),
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
        let desk = &mut self.desk;
        if matches!(self.over, Over::Busy(_)) {
            self.stop();
        } else if self.over != Over::Nothing {
            self.over = Over::Nothing;
            // The window does not close after all.
            self.closing = None;
        } else if hints {
            self.hinted();
        } else if desk.figure.is_some() {
            desk.figure = None;
        } else if desk.at_hand.band.take().is_some() {
            desk.pointer = None;
        } else if desk.drop_survey() {
            desk.typed.clear();
        } else if desk.hold.is_some() {
            desk.hold = None;
            desk.look_again();
        } else if !desk.typed.is_empty() {
            desk.typed.clear();
        } else if desk.pen.is_some() {
            desk.pen = None;
        } else if desk.tool != Tool::Hand {
            desk.tool = Tool::Hand;
        } else if desk.at_hand.pin.take().is_some() || desk.at_hand.leg.take().is_some() {
        } else if desk.circuit.is_some() {
            desk.choose_circuit(None);
        } else {
            desk.chosen.clear();
        }
    }

    fn field_done(&mut self) -> Task<Message> {
        match std::mem::take(&mut self.over) {
            Over::SaveAs(name) if !name.trim().is_empty() => {
                let done = self.desk.save_as(PathBuf::from(name.trim()));
                self.saved(done)
            }
            Over::PapersTo(folder) if !folder.trim().is_empty() => {
                self.export_to(PathBuf::from(folder.trim()), false)
            }
            Over::Amount(amount, text) => {
                if !self.desk.set_building(amount, &text) {
                    self.desk.set(amount, &text);
                }
                Task::none()
            }
            Over::Import(path) if !path.trim().is_empty() => self.take_file(path.trim().as_ref()),
            Over::Picture(path) if !path.trim().is_empty() => {
                self.desk.lay_picture(path.trim().as_ref());
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
                    Ok(count @ 1..=50) => self.desk.evenly(count),
                    _ => self.desk.said = "a number from 1 to 50".to_owned(),
                }
                Task::none()
            }
            _ => Task::none(),
        }
    }
}

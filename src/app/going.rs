//! Where one goes: to a finding, to a thing that was found; and the hand that
//! frames are measured by.

use iced::Task;
use kurbo::{Point, Rect};
use wirewend::plan::Subject;

use super::camera::{REDUCTION, exact};
use super::keys::Tool;
use super::{App, Message, frames, mend};

impl App {
    pub(super) fn finding(&mut self, index: usize) {
        let picture = self.desk.picture.as_ref();
        let found = picture.and_then(|picture| picture.findings.get(index));
        let Some((subject, place)) = found.map(|one| (one.subject, one.place)) else { return };
        self.go_to(subject);
        // Walls are one drawing: their own marks cannot be told apart.
        if let (Subject::Wall(_), Some(place)) = (subject, place) {
            let at = exact(place.on_floor());
            let on_paper = Point::new(at.x / REDUCTION, -at.y / REDUCTION);
            self.desk.show(Rect::from_points(on_paper, on_paper));
        }
    }

    pub(super) fn mend(&mut self, index: usize) {
        let Some(picture) = self.desk.picture.clone() else { return };
        let Some(finding) = picture.findings.get(index) else { return };
        if self.desk.behind() {
            self.desk.said = "still computing: try again in a moment".to_owned();
            return;
        }
        match mend::of(finding, &picture, &self.rules) {
            Ok((edit, says)) => {
                if self.desk.edit(edit) {
                    self.desk.said = says;
                }
            }
            Err(why) => self.desk.said = why,
        }
    }

    /// Measures a frame, and moves the hand for the next one.
    pub(super) fn frame(&mut self) -> Task<Message> {
        let desk = &self.desk;
        let settled = desk.picture.as_ref().filter(|picture| picture.lettered && !desk.behind());
        let point = settled.and_then(|picture| {
            let mut symbols = picture.symbols();
            let (_, around) = symbols.find(|(subject, _)| matches!(subject, Subject::Point(_)))?;
            Some(desk.camera.plan(desk.camera.paper(around.center())))
        });
        let moves = self.frames.as_mut().and_then(|frames| frames.frame(point));
        match moves {
            Some(frames::Move::Take(at)) => {
                self.desk.tool = Tool::Hand;
                self.desk.press(at, false);
            }
            Some(frames::Move::Drag(at)) => self.desk.hover(at),
            Some(frames::Move::End) => {
                self.desk.close();
                return iced::exit();
            }
            None => {}
        }
        Task::none()
    }

    /// Chooses a thing, on its own level, where it can be seen.
    pub(super) fn go_to(&mut self, subject: Subject) {
        let desk = &mut self.desk;
        match subject {
            Subject::Circuit(id) | Subject::Leg { circuit: id, .. } => {
                desk.circuit = None;
                desk.choose_circuit(Some(id));
                return;
            }
            Subject::Level(id) => return desk.go_to(id),
            _ => {}
        }
        desk.chosen = std::collections::BTreeSet::from([subject]);
        let place = match subject {
            Subject::Point(id) => desk.plan.points.get(&id).and_then(|point| point.place),
            Subject::Board(id) => desk.plan.boards.get(&id).and_then(|board| board.place),
            _ => None,
        };
        let level = match subject {
            Subject::Wall(id) => desk.plan.walls.get(&id).map(|wall| wall.level),
            _ => place.and_then(|place| desk.plan.level_of(&place)),
        };
        if let Some(level) = level {
            desk.go_to(level);
        }
        if let Some(around) = desk.picture.clone().and_then(|picture| picture.bounds_of(subject)) {
            desk.show(around);
        }
    }
}

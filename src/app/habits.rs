//! What each habit does: the commands about points, circuits, papers and the
//! window itself.

use iced::Task;
use iced::widget::operation;
use wirewend::plan::{Change, Edit, Point, PointKind};

use super::figure::Figure;
use super::keys::Habit;
use super::view::FIELD;
use super::{App, Message, Over};

impl App {
    /// Does it.
    pub(super) fn habit(&mut self, habit: Habit) -> Task<Message> {
        let desk = &mut self.desk;
        match habit {
            Habit::Cut => desk.cut(),
            Habit::Copy => {
                desk.copy();
            }
            Habit::Paste => desk.paste(false),
            Habit::PasteMirrored => desk.paste(true),
            Habit::Mirror => desk.mirror(),
            Habit::Evenly => return self.ask(Over::Evenly(String::new())),
            Habit::Kind => return self.ask(Over::Kind(String::new())),
            Habit::Open => return self.ask(Over::Open(String::new())),
            Habit::PutOn => match desk.circuit {
                Some(circuit) => desk.put_on(circuit),
                None => {
                    desk.said = "open the circuit first: click its row, or Ctrl+Down".to_owned()
                }
            },
            Habit::Circuit(onward) => desk.next_circuit(onward),
            Habit::Leg(onward) => desk.next_leg(onward),
            Habit::Unpin => desk.unpin(),
            Habit::Pin => desk.next_pin(),
            Habit::KeepOrder => desk.keep_order(),
            Habit::Reverse => desk.reverse(),
            Habit::Strip => desk.at_hand.no_strip = !desk.at_hand.no_strip,
            Habit::Figure => self.next_figure(),
            Habit::Finding => self.next_finding(),
            Habit::Mend => match desk.at_hand.finding {
                Some(index) => self.mend(index),
                None => desk.said = "go to a finding first: F7".to_owned(),
            },
            Habit::Stop => self.stop_work(),
            Habit::Larger => self.rescale(true),
            Habit::Smaller => self.rescale(false),
            Habit::Renumber => desk.renumber(),
        }
        Task::none()
    }

    /// Asks for something in a field.
    fn ask(&mut self, over: Over) -> Task<Message> {
        let about_points = matches!(over, Over::Evenly(_) | Over::Kind(_));
        if about_points && self.desk.chosen_points().is_empty() {
            self.desk.said = "choose a point first".to_owned();
            return Task::none();
        }
        self.over = over;
        self.picked = 0;
        operation::focus(FIELD)
    }

    fn rescale(&mut self, larger: bool) {
        self.settings.rescale(larger);
        self.settings.write(self.folder.as_deref());
        self.desk.said = format!("everything at {:.0} %", self.settings.scale * 100.0);
    }

    /// The figures that can be asked, of the open circuit or of the job.
    fn figures(&self) -> Vec<Figure> {
        let Some(picture) = &self.desk.picture else { return Vec::new() };
        let mut all = Vec::new();
        let open = self.desk.circuit;
        for id in picture.plan.circuits.keys().filter(|id| open.is_none_or(|open| open == **id)) {
            all.extend([
                Figure::Metres(*id),
                Figure::Device(*id),
                Figure::VoltDrop(*id),
                Figure::Loop(*id),
            ]);
            if open.is_some() {
                let legs = picture.runs.circuits.get(id).map_or(0, |run| run.legs.len());
                all.extend((0..legs).map(|index| Figure::Leg(*id, index)));
            }
        }
        all.extend([Figure::Cable, Figure::Price]);
        all.retain(|figure| figure.shown(picture).is_some());
        all
    }

    fn next_figure(&mut self) {
        let all = self.figures();
        let now = all.iter().position(|figure| Some(*figure) == self.desk.figure);
        let next = now.map_or(0, |now| (now + 1) % all.len().max(1));
        self.desk.figure = all.get(next).copied();
        if self.desk.figure.is_none() {
            self.desk.said = "nothing has been computed yet".to_owned();
        }
    }

    fn next_finding(&mut self) {
        let count = self.desk.picture.as_ref().map_or(0, |picture| picture.findings.len());
        if count == 0 {
            self.desk.said = "nothing to look at".to_owned();
            return;
        }
        let next = self.desk.at_hand.finding.map_or(0, |now| (now + 1) % count);
        self.finding(next);
        let picture = self.desk.picture.as_ref();
        if let Some(finding) = picture.and_then(|picture| picture.findings.get(next)) {
            let mends = if super::mend::offers(finding) { "; F8 mends it" } else { "" };
            self.desk.said = format!("{} of {count}: {}{mends}", next + 1, finding.message);
        }
        self.desk.at_hand.finding = Some(next);
    }

    /// Makes the chosen points another kind.
    pub(super) fn make(&mut self, kind: PointKind) {
        let plan = &self.desk.plan;
        let edits: Vec<Edit> = self
            .desk
            .chosen_points()
            .iter()
            .filter_map(|id| {
                let point = plan.points.get(id).filter(|point| point.kind != kind)?;
                Some(Change::Put(*id, Point { kind, ..point.clone() }).into())
            })
            .collect();
        if !edits.is_empty() && self.desk.edit(Edit::Many(edits)) {
            self.desk.said = format!("now: {}", kind.name());
        }
    }
}

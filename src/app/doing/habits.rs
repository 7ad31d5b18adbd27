//! What each habit does: the commands about points, circuits, papers and the
//! window itself.

use iced::Task;
use iced::widget::operation;

use crate::app::keys::Habit;
use crate::app::view::parts::FIELD;
use crate::app::{App, Message, Over};

impl App {
    /// Does it.
    pub(in crate::app) fn habit(&mut self, habit: Habit) -> Task<Message> {
        let session = &mut self.session;
        match habit {
            Habit::Cut => session.cut(),
            Habit::Copy => {
                session.copy();
            }
            Habit::Paste => session.paste(false),
            Habit::PasteMirrored => session.paste(true),
            Habit::Mirror => session.mirror(),
            Habit::Evenly => return self.ask(Over::Evenly(String::new())),
            Habit::Kind => return self.ask(Over::Kind(String::new())),
            Habit::Open => return self.ask(Over::Open(String::new())),
            Habit::PutOn => match session.selection.circuit() {
                Some(circuit) => session.put_on(circuit),
                None => {
                    session.said = "open the circuit first: click its row, or Ctrl+Down".to_owned()
                }
            },
            Habit::Circuit(onward) => session.next_circuit(onward),
            Habit::Leg(onward) => session.next_leg(onward),
            Habit::Unpin => session.unpin(),
            Habit::Pin => session.next_pin(),
            Habit::KeepOrder => session.keep_order(),
            Habit::Reverse => session.reverse(),
            Habit::Strip => session.sight.turn_strip(),
            Habit::Figure => session.next_figure(),
            Habit::Finding => session.next_finding(),
            Habit::Mend => match session.selection.finding() {
                Some(index) => session.mend(index, &self.rules),
                None => session.said = "go to a finding first: F7".to_owned(),
            },
            Habit::Stop => self.stop_work(),
            Habit::Larger => self.rescale(true),
            Habit::Smaller => self.rescale(false),
            Habit::Renumber => session.renumber(),
        }
        Task::none()
    }

    /// Asks for something in a field.
    fn ask(&mut self, over: Over) -> Task<Message> {
        let about_points = matches!(over, Over::Evenly(_) | Over::Kind(_));
        if about_points && self.session.chosen_points().is_empty() {
            self.session.said = "choose a point first".to_owned();
            return Task::none();
        }
        self.over = over;
        self.picked = 0;
        operation::focus(FIELD)
    }

    fn rescale(&mut self, larger: bool) {
        self.settings.rescale(larger);
        self.settings.write(self.folder.as_deref());
        self.session.said = format!("everything at {:.0} %", self.settings.scale * 100.0);
    }
}

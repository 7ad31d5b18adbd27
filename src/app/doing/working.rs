//! Work that takes long: told how far it is, and stopped.

use wirewend::session::state::Step;

use crate::app::{App, Over};

/// From so many ticks on it is told: the first can come at once. What ends
/// within a second, as while something is dragged, is not worth a word.
const LONG: u32 = 2;

impl App {
    /// Whether something is under way whose progress is to be told.
    pub(in crate::app) const fn works(&self) -> bool {
        matches!(self.over, Over::Busy(_)) || self.writing.is_some() || self.session.jobs.is_busy()
    }

    /// What takes long and how far it is, in words.
    pub(in crate::app) fn working(&self) -> Option<String> {
        let far = |watch: &wirewend::units::Watch, of: &str| {
            watch
                .progress()
                .map_or_else(String::new, |(done, all)| format!(": {done} of {all}{of}"))
        };
        if let Some(watch) = &self.writing {
            return Some(format!("writing the papers{}", far(watch, " kinds")));
        }
        let session = &self.session;
        if !session.jobs.is_busy() || session.jobs.waited() < LONG {
            return None;
        }
        let (what, of) = match session.sight.step() {
            Step::Papers => ("drawing the papers", " kinds"),
            _ => ("looking for the shortest runs", " circuits"),
        };
        Some(format!("{what}{}, {} s", far(session.jobs.watch(), of), session.jobs.waited() - 1))
    }

    /// Ends what takes long.
    pub(in crate::app) fn stop_work(&mut self) {
        if matches!(self.over, Over::Busy(_)) {
            self.stop();
        } else if let Some(watch) = &self.writing {
            watch.stop();
        } else if self.session.jobs.is_busy() {
            self.session.jobs.watch().stop();
            self.session.said = "stopped".to_owned();
        } else {
            self.session.said = "nothing takes long just now".to_owned();
        }
    }
}

//! Work that takes long: told how far it is, and stopped.

use super::keys::Step;
use super::{App, Over};

/// From so many seconds on it is told.
const LONG: u32 = 1;

impl App {
    /// Whether something is under way whose progress is to be told.
    pub(super) const fn works(&self) -> bool {
        matches!(self.over, Over::Busy(_)) || self.writing.is_some() || self.desk.is_busy()
    }

    /// What takes long and how far it is, in words.
    pub(super) fn working(&self) -> Option<String> {
        let far = |watch: &wirewend::units::Watch, of: &str| {
            watch
                .progress()
                .map_or_else(String::new, |(done, all)| format!(": {done} of {all}{of}"))
        };
        if let Some(watch) = &self.writing {
            return Some(format!("writing the papers{}", far(watch, " kinds")));
        }
        let desk = &self.desk;
        if !desk.is_busy() || desk.waited < LONG {
            return None;
        }
        let (what, of) = match desk.step {
            Step::Papers => ("drawing the papers", " kinds"),
            _ => ("looking for the shortest runs", " circuits"),
        };
        Some(format!("{what}{}, {} s", far(&desk.watch, of), desk.waited))
    }

    /// Ends what takes long.
    pub(super) fn stop_work(&mut self) {
        if matches!(self.over, Over::Busy(_)) {
            self.stop();
        } else if let Some(watch) = &self.writing {
            watch.stop();
        } else if self.desk.is_busy() {
            self.desk.watch.stop();
            self.desk.said = "stopped".to_owned();
        } else {
            self.desk.said = "nothing takes long just now".to_owned();
        }
    }
}

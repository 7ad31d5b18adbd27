//! The first time: three hints over the sample.

use crate::app::App;

/// What a newcomer should try, each with where its keys are shown.
pub(in crate::app) const HINTS: [&str; 3] = [
    "Drag a socket: its cable and every figure follow. Ctrl+Z takes it back.",
    "Click any figure at the right to see how it came about.",
    "Ctrl+N begins your own plan: click the corners of a room, type lengths. F1 shows all keys.",
];

impl App {
    /// Whether the hints are shown.
    pub(in crate::app) fn hints(&self) -> bool {
        !self.settings.hinted && self.session.document.file().is_none()
    }

    /// They are put away for good.
    pub(in crate::app) fn hinted(&mut self) {
        self.settings.hinted = true;
        self.settings.write(self.folder.as_deref());
    }
}

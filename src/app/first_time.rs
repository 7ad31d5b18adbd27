//! The first time: three hints over the sample.

use super::App;

/// What a newcomer should try, each with where its keys are shown.
pub(super) const HINTS: [&str; 3] = [
    "Drag a socket: its cable and every figure follow. Ctrl+Z takes it back.",
    "Click any figure at the right to see how it came about.",
    "Ctrl+N begins your own plan: click the corners of a room, type lengths. F1 shows all keys.",
];

impl App {
    /// Whether the hints are shown.
    pub(super) fn hints(&self) -> bool {
        !self.settings.hinted && self.session.document.file().is_none()
    }

    /// They are put away for good.
    pub(super) fn hinted(&mut self) {
        self.settings.hinted = true;
        self.settings.write(self.folder.as_deref());
    }
}

//! What can be asked for while points and circuits are worked on, with its
//! keys.

use wirewend::session::state::Tool;

use crate::app::keys::{Bound, Command, bound};

/// What can be asked of points, circuits, papers and the window itself.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::app) enum Habit {
    Cut,
    Copy,
    Paste,
    /// Pasted left for right.
    PasteMirrored,
    Mirror,
    /// Several points evenly along a wall.
    Evenly,
    /// Another kind.
    Kind,
    /// What is chosen goes onto the open circuit.
    PutOn,
    /// The circuit after the open one, or before it.
    Circuit(bool),
    /// The leg after the chosen one, or before it.
    Leg(bool),
    /// The chosen leg without its pins.
    Unpin,
    /// The next pin that is shown.
    Pin,
    /// The order of the open circuit kept as it is, or free again.
    KeepOrder,
    Reverse,
    /// The strip of the chosen leg, or none.
    Strip,
    /// How the next figure came about.
    Figure,
    /// The next finding.
    Finding,
    /// Mends it.
    Mend,
    Open,
    /// Ends what takes long.
    Stop,
    Larger,
    Smaller,
    /// Marks, circuits and legs numbered anew.
    Renumber,
}

const fn habit(habit: Habit, key: &'static str, does: &'static str) -> Bound {
    bound(Command::Habit(habit), key, does)
}

/// Commands about points, circuits, papers and the window.
pub(in crate::app) const COMMANDS: [Bound; 29] = [
    habit(Habit::Cut, "Ctrl+X", "cut the chosen points out"),
    habit(Habit::Copy, "Ctrl+C", "copy the chosen points"),
    habit(Habit::Paste, "Ctrl+V", "paste them where the pointer is"),
    habit(Habit::PasteMirrored, "Ctrl+Shift+V", "paste them left for right"),
    habit(Habit::Mirror, "Ctrl+M", "turn the chosen points left for right"),
    habit(Habit::Evenly, "Shift+E", "several points evenly along a wall"),
    habit(Habit::Kind, "Shift+K", "make the chosen points another kind"),
    habit(Habit::PutOn, "Q", "put the chosen points on the open circuit"),
    habit(Habit::Circuit(true), "Ctrl+Down", "open the next circuit"),
    habit(Habit::Circuit(false), "Ctrl+Up", "open the circuit before"),
    habit(Habit::Leg(true), "Ctrl+Right", "choose the next leg of the open circuit"),
    habit(Habit::Leg(false), "Ctrl+Left", "choose the leg before"),
    bound(Command::Take(Tool::Pin), "Y", "pin the chosen leg to a place"),
    habit(Habit::Unpin, "Shift+Y", "take the pins of the chosen leg away"),
    habit(Habit::Pin, "F9", "choose the next pin"),
    habit(Habit::KeepOrder, "Ctrl+K", "keep the order of the open circuit, or free it"),
    habit(Habit::Reverse, "Ctrl+B", "the open circuit the other way round"),
    habit(Habit::Strip, "S", "the chosen leg rolled out beneath the sheet, or not"),
    habit(Habit::Figure, "F6", "how the next figure came about"),
    habit(Habit::Finding, "F7", "go to the next finding"),
    habit(Habit::Mend, "F8", "mend that finding"),
    habit(Habit::Open, "Ctrl+O", "open a plan, a recent one or another"),
    habit(Habit::Stop, "F4", "stop what takes long"),
    habit(Habit::Larger, "Ctrl+=", "lettering and buttons larger"),
    habit(Habit::Larger, "Ctrl+Shift++", "lettering and buttons larger"),
    habit(Habit::Larger, "Ctrl++", "lettering and buttons larger"),
    habit(Habit::Smaller, "Ctrl+-", "lettering and buttons smaller"),
    habit(Habit::Smaller, "Ctrl+Shift+_", "lettering and buttons smaller"),
    habit(Habit::Renumber, "", "number marks, circuits and legs anew"),
];

//! What can happen, and what can lie over the window.

use std::path::PathBuf;
use std::sync::Arc;

use iced::{Size, keyboard, window};
use wirewend::plan::{CircuitId, LevelId};
use wirewend::session::papers::Exported;
use wirewend::session::state::{Amount, InTheWay, LegKey};
use wirewend::session::work::Figure;

use crate::app::canvas::layers::Painted;
use crate::app::canvas::surface::Touched;
use crate::app::canvas::under;
use crate::app::doing::bring;
use crate::app::draft_form;
use crate::app::keys::Command;

/// Everything that can happen.
#[derive(Clone, Debug)]
pub(super) enum Message {
    /// The hand on the sheet.
    Sheet(Touched),
    /// A command, by button or from a list.
    Do(Command),
    /// A key that no field took.
    Key(keyboard::Event),
    /// A circuit's row.
    Circuit(CircuitId),
    /// A figure that was asked how it came about.
    Figure(Option<Figure>),
    /// A finding, by its place in the list.
    Finding(usize),
    /// A level's name.
    Level(LevelId),
    /// Something was computed, or could not be.
    Drawn(Option<Painted>),
    /// The text of the field that is open.
    Field(String),
    /// Enter in that field.
    FieldDone,
    /// A leg's row.
    Leg(LegKey),
    /// The circuit's row that the pointer is over.
    Over(Option<CircuitId>),
    /// The window has another size, pixels.
    Sized(Size),
    /// A paper, by its place in the set.
    Paper(usize),
    /// The papers were written, or not: what is to be told.
    Written(Exported),
    /// The hints of the first time are put away.
    Hinted,
    /// A line of what was found.
    Found(usize),
    /// A file was dropped on the window.
    Dropped(PathBuf),
    /// The window is to close.
    CloseAsked(window::Id),
    /// What to do with unsaved work.
    Close(Leave),
    /// What to do about a file that is in the way.
    Way(WayOut),
    /// The chosen points go onto a circuit.
    PutOn(CircuitId),
    /// The mend of a finding, by its place in the list.
    Mend(usize),
    /// What long work came to, by its number.
    Answered(u64, Option<Arc<bring::Answer>>),
    /// A drawing that is looked over is to be read in another way.
    Reading(bring::Reading),
    /// An answer to a question before a draft.
    Draft(draft_form::Choice),
    /// A draft was made and is not wanted.
    Undrafted,
    /// What was brought in is to go into the plan.
    TakeBrought,
    /// A picture was read.
    PictureRead(PathBuf, Result<under::Pixels, String>),
    /// The window has the keyboard.
    Focused,
    /// A second has passed since something was done.
    Second,
    /// A frame begins; told only while frames are measured.
    Frame,
}

/// What to do about a file that is in the way.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum WayOut {
    /// Replace it, and keep it beside.
    Replace,
    /// Write elsewhere.
    Another,
}

/// What to do with unsaved work.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Leave {
    /// Save it first.
    Save,
    /// Leave it.
    Drop,
    /// Do not close.
    Stay,
}

/// What lies over the window.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) enum Over {
    /// Nothing.
    #[default]
    Nothing,
    /// The list of keys.
    Keys,
    /// Where to save.
    SaveAs(String),
    /// Into which folder the papers go.
    PapersTo(String),
    /// A file that is in the way of one that is to be written.
    InTheWay(InTheWay),
    /// A length of what is chosen.
    Amount(Amount, String),
    /// What to look for.
    Find(String),
    /// Which kind.
    Kind(String),
    /// How many, evenly along a wall.
    Evenly(String),
    /// Which plan to open.
    Open(String),
    /// Which layout to bring in.
    Import(String),
    /// Which picture to lay beneath.
    Picture(String),
    /// Long work, in words.
    Busy(String),
    /// A layout that waits to be looked over.
    Brought,
    /// How a draft is made.
    Draft(draft_form::DraftForm),
    /// A draft that was made.
    Drafted,
    /// Unsaved work, and the window that waits.
    Leaving(Option<window::Id>),
}

impl Over {
    /// The text of its field, where it has one.
    pub(super) const fn field(&mut self) -> Option<&mut String> {
        match self {
            Self::SaveAs(field)
            | Self::PapersTo(field)
            | Self::Find(field)
            | Self::Kind(field)
            | Self::Evenly(field)
            | Self::Open(field)
            | Self::Import(field)
            | Self::Picture(field)
            | Self::Amount(_, field) => Some(field),
            _ => None,
        }
    }
}

//! Why a file cannot be imported.

use std::fmt;

use super::lines::{BANDS_MAX, LOOKS_MAX, TooMuch};
use super::{IMPORT_BYTES_MAX, ImportForm};
use crate::store::LayoutError;

/// What lines of walls make.
pub(super) const PIECES: &str = "pieces of wall";

/// What is wrong with a file, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ImportError {
    /// The file, as the caller named it.
    pub file: String,
    /// `line 12`, `#41`; empty for the file as a whole.
    pub place: String,
    /// What is wrong.
    pub problem: Box<ImportProblem>,
}

impl std::error::Error for ImportError {}

impl fmt::Display for ImportError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: ", self.file)?;
        if !self.place.is_empty() {
            write!(f, "{}: ", self.place)?;
        }
        self.problem.fmt(f)
    }
}

/// What is wrong with a file.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum ImportProblem {
    /// The file could not be opened or read.
    #[error("{0}")]
    Unreadable(String),
    /// Nobody waits for it any more.
    #[error("stopped before it was read")]
    Stopped,
    /// More bytes than [`IMPORT_BYTES_MAX`], unpacked.
    #[error("larger than {IMPORT_BYTES_MAX} bytes, the largest file that is imported")]
    TooLarge,
    /// A packed file that cannot be unpacked.
    #[error("packed by gzip and damaged: {0}")]
    Packed(String),
    /// None of the forms.
    #[error(
        "neither IFC (a STEP file), DXF as text, SVG, GeoJSON nor a layout; save it as one of them"
    )]
    UnknownForm,
    /// Of a form, but not as the form has it.
    #[error("not a sound {form} file: {problem}")]
    Form {
        /// The form that it seems to be.
        form: ImportForm,
        /// What is wrong.
        problem: String,
    },
    /// More of something than is read.
    #[error(
        "more than {most} {what}; leave out what is no wall, door, window or room, or bring the drawing in by parts"
    )]
    TooMany {
        /// Of what, in words.
        what: &'static str,
        /// The most.
        most: usize,
    },
    /// So entangled that reading would not end in reasonable time.
    #[error("its parts refer to each other so often that reading them would take too long")]
    Exhausted,
    /// Nothing tells how large the drawing is.
    #[error("its size is not clear: {0}; state the unit of its numbers, such as --unit mm")]
    NoScale(String),
    /// No walls and no rooms.
    #[error("no walls and no rooms found: {0}")]
    Nothing(String),
    /// What was understood is no layout that a plan can be made of.
    #[error("{0}")]
    Layout(LayoutError),
}

impl ImportProblem {
    /// Why lines are not taken for walls.
    pub(super) const fn bands(why: TooMuch) -> Self {
        match why {
            TooMuch::Looks => Self::TooMany {
                what: "looks at lines of walls that lie over each other",
                most: LOOKS_MAX,
            },
            TooMuch::Bands => Self::TooMany { what: PIECES, most: BANDS_MAX },
        }
    }

    pub(super) fn form(form: ImportForm, problem: impl Into<String>) -> Self {
        Self::Form { form, problem: problem.into() }
    }
}

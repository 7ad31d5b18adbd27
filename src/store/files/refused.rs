//! Why a file was not written.

use std::io;
use std::path::{Path, PathBuf};

use super::Known;

/// A file that could not be written. What was there before is untouched.
#[derive(Debug, thiserror::Error)]
#[error("{}: {problem}", path.display())]
pub struct WriteError {
    /// The file.
    pub path: PathBuf,
    /// What stood in the way.
    #[source]
    pub problem: WriteProblem,
}

impl WriteError {
    /// Whether it would be written if one were told to replace what is there.
    #[must_use]
    pub const fn is_a_question(&self) -> bool {
        matches!(
            self.problem,
            WriteProblem::Taken(_) | WriteProblem::Changed(_) | WriteProblem::Strangers(_)
        )
    }
}

/// What stood in the way.
#[derive(Debug, thiserror::Error)]
pub enum WriteProblem {
    /// A file is there and was not to be replaced.
    #[error("there is such a file already")]
    Taken(Known),
    /// The file is another than was read.
    #[error("it was changed by another since it was read")]
    Changed(Known),
    /// In a folder of one's own, files that others wrote or changed.
    #[error("{}", strangers(.0))]
    Strangers(Vec<String>),
    /// A folder.
    #[error("that is a folder, and a file is to be written")]
    Folder,
    /// A file where a folder is to be.
    #[error("that is a file, and a folder is to be written into")]
    NoRoom,
    /// A device, a pipe, a socket.
    #[error("that is no plain file, and is not written into")]
    NotPlain,
    /// A link to nothing.
    #[error("that is a link to nothing; take the link away first, or write where it points to")]
    Dangling,
    /// A file that may not be written.
    #[error("this file is protected from being written")]
    Protected,
    /// There is no such folder.
    #[error("there is no such folder")]
    NoFolder,
    /// What is there cannot be read, so neither told apart nor kept.
    #[error("what is there cannot be read, so it is not replaced: {0}")]
    Unreadable(io::Error),
    /// What is there could not be kept.
    #[error("what is there could not be kept beside it, so it is not replaced: {0}")]
    NotKept(io::Error),
    /// The system does not let it.
    #[error("cannot be written: {0}")]
    Io(io::Error),
}

impl WriteProblem {
    /// With the path that it is about.
    pub(super) fn at(self, path: &Path) -> WriteError {
        WriteError { path: path.to_owned(), problem: self }
    }
}

/// A few names, and how many more.
fn strangers(names: &[String]) -> String {
    const SHOWN: usize = 3;
    let first = names.get(..SHOWN).unwrap_or(names).join(", ");
    let more = match names.len().saturating_sub(SHOWN) {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    let [is, was] = if names.len() == 1 { ["is", "was"] } else { ["are", "were"] };
    format!("{first}{more} {is} not from here, or {was} changed since")
}

//! What became of files, in words.

use std::path::Path;

use super::{WriteError, WriteProblem, Written};

/// What became of the old file, line by line.
pub fn told(written: &Written) -> String {
    let mut said = String::new();
    if let Some(kept) = &written.kept {
        said.push_str(&format!("what was there is kept beside it as {}\n", file_name(kept)));
    }
    if let Some(unsure) = &written.unsure {
        said.push_str(&format!("written, but the disk did not confirm it: {unsure}\n"));
    }
    said
}

/// The name of a file without its folder.
pub fn file_name(path: &Path) -> std::borrow::Cow<'_, str> {
    path.file_name().unwrap_or_default().to_string_lossy()
}

/// What stood in the way, with the way out.
pub fn refused(error: &WriteError) -> String {
    let way_out = match error.problem {
        WriteProblem::Changed(_) => {
            "; nothing was written: look at it, and do this again from what it is now"
        }
        WriteProblem::Taken(_) => {
            "; --replace puts the new one in its place and keeps the old one beside it; or choose \
             another name"
        }
        WriteProblem::Strangers(_) => {
            "; nothing was written: --replace puts new ones in their place and keeps the old ones \
             beside them; or choose another folder"
        }
        _ => "",
    };
    format!("{error}{way_out}")
}

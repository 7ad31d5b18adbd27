//! The papers, written into a folder beside the plan.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use crate::session::Session;
use crate::session::state::InTheWay;
use crate::session::work::Picture;
use crate::units::Watch;

use crate::sheet::PaperFile;
use crate::store::{FolderError, SystemDisk, fill_folder};

/// What is to be written where.
#[derive(Clone, Debug)]
pub struct Export {
    picture: Arc<Picture>,
    folder: PathBuf,
    /// Whether files of others may be replaced.
    anyway: bool,
}

/// What came of it.
#[derive(Clone, Debug)]
pub enum Exported {
    /// Done or not, in words.
    Said(String),
    /// Nothing yet: others' files are there.
    Asks(InTheWay),
}

impl Exported {
    /// The same, and what became of the numbers, where anything was written.
    pub fn with(self, more: &str) -> Self {
        match self {
            Self::Said(says) => Self::Said(says + more),
            asks @ Self::Asks(_) => asks,
        }
    }
}

impl Export {
    /// Every paper of what is on the session, into this folder.
    ///
    /// # Errors
    /// A text for whoever asked.
    pub fn of(session: &Session, folder: PathBuf, anyway: bool) -> Result<Self, String> {
        let picture = session.jobs.picture().filter(|_| !session.jobs.is_behind());
        let picture = picture.ok_or("still computing: try again in a moment")?;
        Ok(Self { picture: Arc::clone(picture), folder, anyway })
    }

    /// Writes them.
    pub fn write(self, watch: &Watch) -> Exported {
        let Self { picture, folder, anyway } = self;
        let Some(papers) = picture.papers(watch) else {
            return Exported::Said("stopped; no paper was written".to_owned());
        };
        let missed = papers.said.lines().next().map_or_else(String::new, |one| format!("; {one}"));
        let files = papers.files(None);
        let mut make = |place: usize| papers.bytes(files[place].contents, &picture.plan);
        match fill_folder(&SystemDisk, &folder, &PaperFile::names(&files), anyway, &mut make) {
            Ok(written) => {
                let (sheets, files) = (papers.set.len(), written.files.len());
                let told = written.told() + &papers.left(&written.others).unwrap_or_default();
                let more = told.lines().next();
                let more = more.map_or_else(String::new, |one| format!("; {one}"));
                let folder = folder.display();
                Exported::Said(format!(
                    "{sheets} sheets in {files} files in {folder}{missed}{more}"
                ))
            }
            Err(FolderError::Refused(error)) if error.is_a_question() => {
                let says = error.problem.to_string();
                Exported::Asks(InTheWay::Papers { folder, says })
            }
            Err(why) => Exported::Said(why.to_string()),
        }
    }
}

/// Beside the plan, under its name; without one, where the sample goes.
pub fn folder(file: Option<&Path>) -> PathBuf {
    file.map_or_else(|| PathBuf::from("wirewend-out"), |file| file.with_extension("papers"))
}

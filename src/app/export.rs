//! The papers, written into a folder beside the plan.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use wirewend::units::Watch;

use super::desk::Desk;
use super::work::Picture;

/// What is to be written where.
#[derive(Clone, Debug)]
pub(super) struct Export {
    picture: Arc<Picture>,
    folder: PathBuf,
}

impl Export {
    /// Every paper of what is on the desk.
    ///
    /// # Errors
    /// A text for whoever asked.
    pub(super) fn of(desk: &Desk) -> Result<Self, String> {
        let picture = desk.picture.as_ref().filter(|_| !desk.behind());
        let picture = picture.ok_or("still computing: try again in a moment")?;
        Ok(Self { picture: Arc::clone(picture), folder: folder(desk.file.as_deref()) })
    }

    /// Writes them. What was done, or why not.
    pub(super) fn write(self, watch: &Watch) -> String {
        let Self { picture, folder } = self;
        let Some(papers) = picture.papers(watch) else {
            return "stopped; no paper was written".to_owned();
        };
        let mut written = String::new();
        let outcome = crate::cli::papers::write(papers, &picture.plan, &folder, None, &mut written);
        let missed = papers.said.lines().next().map_or_else(String::new, |one| format!("; {one}"));
        match outcome {
            Ok(()) => {
                let (sheets, files) = (papers.set.len(), written.lines().count());
                format!("{sheets} sheets in {files} files in {}{missed}", folder.display())
            }
            Err(why) => why,
        }
    }
}

/// Beside the plan, under its name; without one, where the sample goes.
fn folder(file: Option<&Path>) -> PathBuf {
    file.map_or_else(|| PathBuf::from("wirewend-out"), |file| file.with_extension("papers"))
}

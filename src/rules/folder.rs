//! The texts of a regime's folder, before anything in them is understood.

use super::{MANIFEST, RuleError};
use crate::plan::Regime;

/// The texts of a folder: what it says of itself, and its tables by name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Folder<'t> {
    /// Whose it is, by the folder's name.
    pub regime: Regime,
    /// The text of its manifest, where it has one.
    pub manifest: Option<&'t str>,
    /// The names and texts of its tables.
    pub tables: Vec<(&'t str, &'t str)>,
}

impl<'t> Folder<'t> {
    /// An empty one of a name.
    ///
    /// # Errors
    /// [`RuleError::Folder`] where no regime can have that name.
    pub fn named(name: &str) -> Result<Self, RuleError> {
        let regime = name
            .parse()
            .map_err(|problem| RuleError::Folder { folder: name.to_owned(), problem })?;
        Ok(Self { regime, manifest: None, tables: Vec::new() })
    }

    /// Takes a file of the folder; what is neither the manifest nor a table is
    /// somebody's notes, and is let lie.
    pub fn add(&mut self, file: &'t str, text: &'t str) {
        if file.strip_suffix(".json") == Some(MANIFEST) {
            self.manifest = Some(text);
        } else if let Some(name) = file.strip_suffix(".csv") {
            self.tables.push((name, text));
        }
    }
}

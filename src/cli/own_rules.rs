//! A person's own rule tables, as every command takes them.

use std::path::{Path, PathBuf};

use wirewend::rules::RuleBook;
use wirewend::store;

/// Tables of one's own.
#[derive(clap::Args)]
pub(super) struct OwnRules {
    /// A folder of your own tables, `<regime>/<table>.csv`, or one such file;
    /// they override the shipped ones row by row.
    #[arg(long, value_name = "FOLDER")]
    rules: Option<PathBuf>,
}

impl OwnRules {
    /// The shipped tables, and one's own over them.
    pub(super) fn book(&self) -> Result<RuleBook, String> {
        book(self.rules.as_deref())
    }
}

fn book(path: Option<&Path>) -> Result<RuleBook, String> {
    let own = |path| store::read_rules(path).map_err(|error| error.to_string());
    path.map_or_else(|| Ok(RuleBook::shipped()), own)
}

//! A person's own rule tables, as every command takes them.

use std::path::{Path, PathBuf};

use wirewend::plan::Regime;
use wirewend::rules::RuleBook;
use wirewend::store;

/// Tables of one's own.
#[derive(Default, clap::Args)]
pub(super) struct OwnRules {
    /// A folder of your own tables, `<regime>/<table>.csv`, one such regime, or
    /// one such file; they override the shipped ones row by row.
    #[arg(long, value_name = "FOLDER")]
    rules: Option<PathBuf>,
}

impl OwnRules {
    /// The same, where a regime is asked for by name, which must be in it.
    pub(super) fn book_with(&self, asked: Option<Regime>) -> Result<RuleBook, String> {
        let book = self.book()?;
        match asked.filter(|asked| !book.knows(*asked)) {
            Some(asked) => Err(format!("--regime: {}", book.no_regime(asked))),
            None => Ok(book),
        }
    }

    /// The shipped tables, and one's own over them.
    pub(super) fn book(&self) -> Result<RuleBook, String> {
        book(self.rules.as_deref())
    }
}

fn book(path: Option<&Path>) -> Result<RuleBook, String> {
    let own = |path| store::read_rules(path).map_err(|error| error.to_string());
    path.map_or_else(|| Ok(RuleBook::shipped()), own)
}

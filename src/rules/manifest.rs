//! What a folder of tables says of itself.

use serde::{Deserialize, Serialize};

use super::RuleError;
use crate::plan::Regime;
use crate::wording::Local;

/// The name of the file in which it stands, without `.json`.
pub const MANIFEST: &str = "manifest";

/// What a regime is, beside its tables.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Manifest {
    /// The standard that the tables follow, as a title block names it.
    pub standard: String,
    /// Which edition of it; empty where it is a series.
    pub edition: String,
    /// Where it holds, as a person chooses among regimes.
    pub place: String,
    /// The language that words are chosen by, as BCP 47 writes it: `en-GB`.
    pub language: String,
    /// The currency of a new price book, as ISO 4217 writes it; empty where
    /// there is no one.
    pub currency: String,
    /// The regime whose rows hold where this one has none. None: it stands by
    /// itself, and must have every table.
    pub inherits: Option<Regime>,
}

impl Manifest {
    /// From the text of its file.
    pub(super) fn read(file: &str, text: &str) -> Result<Self, RuleError> {
        let wrong = |line, problem| RuleError::Syntax { file: file.to_owned(), line, problem };
        let manifest: Self = serde_json::from_str(text)
            .map_err(|error| wrong(u64::try_from(error.line()).unwrap_or(0), plain(&error)))?;
        let empty = [&manifest.standard, &manifest.place, &manifest.language];
        if empty.iter().any(|text| text.trim().is_empty()) {
            let problem = "\"standard\", \"place\" and \"language\" must say something".to_owned();
            return Err(wrong(1, problem));
        }
        Ok(manifest)
    }

    /// How its papers speak.
    #[must_use]
    pub fn local(&self) -> Local {
        Local { standard: self.standard.clone(), language: self.language.clone() }
    }

    /// Standard and edition: `BS 7671:2018+A2:2022`.
    #[must_use]
    pub fn edition_of_standard(&self) -> String {
        format!("{}:{}", self.standard, self.edition).trim_end_matches(':').to_owned()
    }
}

/// What the reader says, without the place, which stands before it.
fn plain(error: &serde_json::Error) -> String {
    let text = error.to_string();
    text.rfind(" at line ").map_or_else(|| text.clone(), |at| text[..at].to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_manifest_that_is_wrong_is_refused_with_its_line() {
        let text =
            "{\n\"standard\": \"X\", \"edition\": \"\", \"place\": \"here\",\n\"languag\": \"en\"}";
        let error = Manifest::read("x/manifest.json", text).unwrap_err().to_string();
        assert!(error.starts_with("x/manifest.json: line 3: unknown field `languag`"), "{error}");
        let whole = |place: &str, inherits: &str| {
            format!(
                "{{\"standard\": \"X\", \"edition\": \"2\", \"place\": \"{place}\", \
                 \"language\": \"en\", \"currency\": \"\", \"inherits\": {inherits}}}"
            )
        };
        assert!(Manifest::read("x", &whole(" ", "null")).is_err(), "nowhere");
        assert!(Manifest::read("x", &whole("here", "\"I EC\"")).is_err(), "no name of a regime");
        let manifest = Manifest::read("x", &whole("here", "\"iec\"")).unwrap();
        assert_eq!(manifest.inherits, Some(Regime::IEC));
        assert_eq!(manifest.edition_of_standard(), "X:2");
    }
}

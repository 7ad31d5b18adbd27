//! The trade's words by language, from one table.

use std::collections::BTreeMap;
use std::sync::LazyLock;

/// The table: `key`, then a column for each language.
const TABLE: &str = include_str!("../../assets/words/words.csv");
/// The column of a language that has none of its own.
const NEUTRAL: &str = "en";

/// A thing that the table has words for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Word {
    /// A clamp for main bonding.
    BondingClamp,
    /// An overcurrent device.
    Breaker,
    /// What is cut into a wall for a cable, and filled.
    Chase,
    /// What is driven into the ground.
    EarthElectrode,
    /// Where all earths of a house meet.
    EarthTerminal,
    /// An overcurrent and a residual current device in one.
    Rcbo,
    /// A residual current device before several circuits.
    SharedRcd,
}

impl Word {
    /// All of them.
    pub const ALL: [Self; 7] = [
        Self::BondingClamp,
        Self::Breaker,
        Self::Chase,
        Self::EarthElectrode,
        Self::EarthTerminal,
        Self::Rcbo,
        Self::SharedRcd,
    ];

    /// Its key in the table.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::BondingClamp => "bonding_clamp",
            Self::Breaker => "breaker",
            Self::Chase => "chase",
            Self::EarthElectrode => "earth_electrode",
            Self::EarthTerminal => "earth_terminal",
            Self::Rcbo => "rcbo",
            Self::SharedRcd => "shared_rcd",
        }
    }

    /// What it is called in a language, `en-GB`; in one that has no words of
    /// its own, as the neutral one says.
    #[must_use]
    pub fn by(self, language: &str) -> &'static str {
        let words = |language: &str| WORDS.get(&(self.key(), language)).copied();
        words(language).or_else(|| words(NEUTRAL)).unwrap_or(self.key())
    }
}

/// Every word by its key and language.
static WORDS: LazyLock<BTreeMap<(&str, &str), &str>> = LazyLock::new(|| {
    let mut lines = rows();
    let languages: Vec<&str> = lines.next().into_iter().flatten().skip(1).collect();
    let mut words = BTreeMap::new();
    for mut cells in lines {
        let Some(key) = cells.next() else { continue };
        words.extend(languages.iter().zip(cells).map(|(language, word)| ((key, *language), word)));
    }
    words
});

/// The rows of the table, cell by cell; no word has a comma.
fn rows() -> impl Iterator<Item = std::str::Split<'static, char>> {
    let lines = TABLE.lines().filter(|line| !line.starts_with('#') && !line.is_empty());
    lines.map(|line| line.split(','))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_thing_has_a_word_in_every_language_and_no_row_is_idle() {
        let mut rows = rows().map(Iterator::collect::<Vec<_>>);
        let head = rows.next().expect("headings");
        assert_eq!(head, ["key", "en-AU", "en-GB", "en"]);
        let rows: Vec<_> = rows.collect();
        for row in &rows {
            assert_eq!(row.len(), head.len(), "{row:?}");
            assert!(row.iter().all(|cell| !cell.trim().is_empty()), "{row:?}");
        }
        let keys: Vec<&str> = rows.iter().map(|row| row[0]).collect();
        assert_eq!(keys, Word::ALL.map(Word::key), "sorted, each once, each used");
    }

    #[test]
    fn a_language_without_words_speaks_as_the_neutral_one() {
        for word in Word::ALL {
            assert_eq!(word.by("xx"), word.by("en"));
            assert!(WORDS.contains_key(&(word.key(), "en-GB")), "from the table");
        }
    }
}

//! What can be wrong with a plan file.

use std::fmt;

/// The one thing that is wrong with a plan file, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ReadError {
    /// The file, as the caller named it.
    pub file: String,
    /// The line, counted from 1.
    pub line: usize,
    /// The character in that line, counted from 1.
    pub column: usize,
    /// Where in the plan: `walls.W3.thickness`. Empty for the file as a whole.
    pub path: String,
    /// What is wrong.
    pub problem: Box<Problem>,
}

impl std::error::Error for ReadError {}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}:{}:{}: ", self.file, self.line, self.column)?;
        if !self.path.is_empty() {
            write!(f, "{}: ", self.path)?;
        }
        self.problem.fmt(f)
    }
}

/// What is wrong with a plan file. Every text in it is short and printable,
/// whatever the file holds.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Problem {
    /// The file could not be opened or read.
    #[error("cannot be read: {0}")]
    Unreadable(String),
    /// Larger than any plan.
    #[error("larger than {limit} bytes, the largest plan file")]
    TooLarge {
        /// The largest number of bytes.
        limit: usize,
    },
    /// Bytes that are no text.
    #[error("not UTF-8 text")]
    NotUtf8,
    /// A mark that some editors put before the text.
    #[error("a byte order mark, expected UTF-8 text without one")]
    ByteOrderMark,
    /// Something else was expected here.
    #[error("found {found}, expected {expected}")]
    Unexpected {
        /// What stood there.
        found: String,
        /// What should have.
        expected: String,
    },
    /// The file stops too early.
    #[error("the file ends here, expected {expected}")]
    CutShort {
        /// What should have followed.
        expected: String,
    },
    /// Lists and objects within one another, without end.
    #[error("nested deeper than {limit}")]
    TooDeep {
        /// The deepest nesting.
        limit: usize,
    },
    /// More of something than a plan may hold.
    #[error("more than {limit} {what}")]
    TooMany {
        /// The largest number.
        limit: usize,
        /// What is counted.
        what: &'static str,
    },
    /// One key twice in one object.
    #[error("key {key} stands here a second time, the first is on line {first_line}")]
    DuplicateKey {
        /// The key.
        key: String,
        /// Where it stood first.
        first_line: usize,
    },
    /// A key that the object does not have.
    #[error("unknown key {found}, expected {}{}", one_of(.expected), hint(.near.as_deref()))]
    UnknownKey {
        /// What stood there.
        found: String,
        /// The keys there are.
        expected: Vec<&'static str>,
        /// The key that looks most like it.
        near: Option<String>,
    },
    /// A name outside a fixed set of names.
    #[error("unknown name {found}, expected {}{}", one_of(.expected), hint(.near.as_deref()))]
    UnknownName {
        /// What stood there.
        found: String,
        /// The names there are.
        expected: Vec<&'static str>,
        /// The name that looks most like it.
        near: Option<String>,
    },
    /// A key that must be there.
    #[error("missing key \"{key}\"")]
    MissingKey {
        /// The key.
        key: &'static str,
    },
    /// No version, so not known to be a plan file.
    #[error("missing key \"{key}\", expected \"{key}\": {version}, by which a plan file is known")]
    NoVersion {
        /// The key.
        key: &'static str,
        /// The version that this room writes.
        version: u32,
    },
    /// A version that this room does not read.
    #[error("file version {found}, expected {expected}{}", newer(.found, *.expected))]
    Version {
        /// What stood there.
        found: String,
        /// The version that this room reads.
        expected: u32,
    },
    /// Something names what the plan does not have: who names what.
    #[error("{0}, which the file does not have")]
    Dangling(String),
    /// Anything else, in words.
    #[error("{0}")]
    Other(String),
}

fn one_of(names: &[&str]) -> String {
    match names {
        [] => "none".to_owned(),
        [name] => format!("\"{name}\""),
        names => {
            let quoted: Vec<String> = names.iter().map(|name| format!("\"{name}\"")).collect();
            format!("one of {}", quoted.join(", "))
        }
    }
}

fn hint(near: Option<&str>) -> String {
    near.map_or_else(String::new, |name| format!("; did you mean \"{name}\"?"))
}

fn newer(found: &str, expected: u32) -> &'static str {
    let is_newer = found.parse::<u64>().is_ok_and(|version| version > u64::from(expected));
    if is_newer { "; a newer Wirewend wrote this file" } else { "" }
}

/// A text from a file as a message shows it: quoted, printable and short.
pub(super) fn shown(text: &str) -> String {
    const CHARS_MAX: usize = 40;
    let mut shown: String = text.chars().take(CHARS_MAX).flat_map(char::escape_debug).collect();
    if text.chars().nth(CHARS_MAX).is_some() {
        shown.push('…');
    }
    format!("\"{shown}\"")
}

/// The name that a misspelt one was most likely meant to be.
pub(super) fn nearest(found: &str, names: &[&'static str]) -> Option<String> {
    // Longer texts are no slips of the finger, and comparing them costs.
    const CHARS_MAX: usize = 64;
    if found.len() > CHARS_MAX {
        return None;
    }
    let found = found.to_lowercase();
    let distance = |name: &str| strsim::damerau_levenshtein(&found, &name.to_lowercase());
    let (distance, name) =
        names.iter().map(|name| (distance(name), *name)).min_by_key(|(distance, _)| *distance)?;
    // One slip in a short name, up to three in a long one.
    (distance * 3 <= (name.len() + 2).min(9)).then(|| name.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_name_is_offered_only_when_it_is_near() {
        let names = &["thickness", "level", "build"];
        assert_eq!(nearest("thicknes", names).as_deref(), Some("thickness"), "a letter short");
        assert_eq!(nearest("Level", names).as_deref(), Some("level"), "another case");
        assert_eq!(nearest("colour", names), None, "nothing like it");
        assert_eq!(nearest(&"x".repeat(10_000), names), None, "too long to be a slip");
    }

    #[test]
    fn texts_are_shown_short_and_printable() {
        assert_eq!(shown("a\u{7}\n\"b"), r#""a\u{7}\n\"b""#, "escaped");
        assert_eq!(shown(&"x".repeat(50)), format!("\"{}…\"", "x".repeat(40)), "cut");
    }
}

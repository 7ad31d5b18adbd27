//! How sure a value is, and whose it is.

use serde::Serialize;

/// How sure a value is; surest first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
pub enum Grade {
    /// Seen in two or more independent sources.
    A,
    /// Seen in one source.
    B,
    /// From memory, but reproduced by a confirmed formula; or an estimate by
    /// stated physics.
    C,
    /// From memory, or common practice without a source.
    D,
}

impl Grade {
    /// Its letter.
    #[must_use]
    pub const fn letter(self) -> char {
        match self {
            Self::A => 'A',
            Self::B => 'B',
            Self::C => 'C',
            Self::D => 'D',
        }
    }

    /// From its letter.
    #[must_use]
    pub fn from_letter(letter: &str) -> Option<Self> {
        match letter {
            "A" => Some(Self::A),
            "B" => Some(Self::B),
            "C" => Some(Self::C),
            "D" => Some(Self::D),
            _ => None,
        }
    }
}

/// Whose value it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Owner {
    /// Shipped with Wirewend.
    Shipped,
    /// From the user's own folder.
    User,
}

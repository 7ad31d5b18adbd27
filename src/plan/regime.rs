//! The name of a body of rules.

use std::fmt;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde::{Deserialize, Deserializer, Serialize, Serializer};

/// How long a name may be, in bytes.
const LENGTH_MAX: usize = 24;

/// The body of rules that a plan is checked against, by its short name:
/// `as-nzs`, `bs`, `iec`, or one of a person's own. What the name stands for
/// is said by the folder of tables of that name and its manifest; a plan only
/// names it.
///
/// ```
/// use wirewend::plan::Regime;
///
/// let own: Regime = "our-island".parse().unwrap();
/// assert_eq!(own.key(), "our-island");
/// assert_eq!("as_nzs".parse(), Ok(Regime::AS_NZS), "as plan files write it");
/// assert!("Our Island".parse::<Regime>().is_err());
/// ```
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Regime {
    /// The name, then noughts.
    name: [u8; LENGTH_MAX],
}

/// A name that is none of a regime.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error(
    "expected small letters and digits in words joined by \"-\", 24 at most, a letter first, as in \"bs\""
)]
pub struct RegimeError;

impl Regime {
    /// Australia and New Zealand: AS/NZS 3000 and its companions.
    pub const AS_NZS: Self = Self::of(b"as-nzs");
    /// United Kingdom: BS 7671 and the guides around it.
    pub const BS: Self = Self::of(b"bs");
    /// The international base: IEC 60364.
    pub const IEC: Self = Self::of(b"iec");

    const fn of(text: &[u8]) -> Self {
        let mut name = [0; LENGTH_MAX];
        let mut at = 0;
        while at < text.len() {
            name[at] = if text[at] == b'_' { b'-' } else { text[at] };
            at += 1;
        }
        Self { name }
    }

    /// Its short name, by which tables of rules know it: `as-nzs`.
    #[must_use]
    pub fn key(&self) -> &str {
        let text = std::str::from_utf8(&self.name).unwrap_or_default();
        text.trim_end_matches('\0')
    }
}

impl Default for Regime {
    fn default() -> Self {
        Self::AS_NZS
    }
}

impl fmt::Debug for Regime {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Regime({})", self.key())
    }
}

impl fmt::Display for Regime {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.key())
    }
}

impl std::str::FromStr for Regime {
    type Err = RegimeError;

    fn from_str(text: &str) -> Result<Self, RegimeError> {
        let word = |word: &str| {
            !word.is_empty()
                && word.bytes().all(|sign| sign.is_ascii_lowercase() || sign.is_ascii_digit())
        };
        let starts = text.starts_with(|sign: char| sign.is_ascii_lowercase());
        if text.len() <= LENGTH_MAX && starts && text.split(['-', '_']).all(word) {
            Ok(Self::of(text.as_bytes()))
        } else {
            Err(RegimeError)
        }
    }
}

impl Serialize for Regime {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(&self.key().replace('-', "_"))
    }
}

impl<'de> Deserialize<'de> for Regime {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = String::deserialize(deserializer)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}

impl JsonSchema for Regime {
    fn schema_name() -> std::borrow::Cow<'static, str> {
        "Regime".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        json_schema!({
            "description": "The body of rules that a plan is checked against, by the name of its folder of tables; with \"_\" or \"-\" between words.",
            "type": "string",
            "pattern": "^[a-z][a-z0-9]*([_-][a-z0-9]+)*$",
            "maxLength": LENGTH_MAX,
            "examples": ["as_nzs", "bs", "iec"],
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_as_a_folder_has_it() {
        for name in ["bs", "as-nzs", "a1", "four-and-twenty-letters-"] {
            assert_eq!(name.parse::<Regime>().is_ok(), !name.ends_with('-'), "{name}");
        }
        for wrong in ["", "BS", "1a", "a--b", "-a", "a b", "four-and-twenty-letters-x"] {
            assert_eq!(wrong.parse::<Regime>(), Err(RegimeError), "{wrong:?}");
        }
        assert_eq!(Regime::default().to_string(), "as-nzs");
    }
}

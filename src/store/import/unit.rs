//! Units of length in which drawings are made.

/// A unit of length.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LengthUnit {
    /// Millimetres.
    Mm,
    /// Centimetres.
    Cm,
    /// Metres.
    M,
    /// Inches of 25.4 mm.
    In,
    /// Feet of 304.8 mm.
    Ft,
}

impl LengthUnit {
    /// Every unit, by the word for it.
    pub const ALL: [(&str, Self); 5] =
        [("mm", Self::Mm), ("cm", Self::Cm), ("m", Self::M), ("in", Self::In), ("ft", Self::Ft)];

    /// Millimetres in one of it.
    #[must_use]
    pub const fn millimetres(self) -> f64 {
        match self {
            Self::Mm => 1.0,
            Self::Cm => 10.0,
            Self::M => 1000.0,
            Self::In => 25.4,
            Self::Ft => 304.8,
        }
    }

    /// The word for it: `mm`.
    #[must_use]
    pub fn word(self) -> &'static str {
        Self::ALL.iter().find(|(_, unit)| *unit == self).map_or("", |(word, _)| word)
    }
}

impl std::str::FromStr for LengthUnit {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let found = Self::ALL.iter().find(|(word, _)| *word == text);
        found
            .map(|(_, unit)| *unit)
            .ok_or_else(|| format!("\"{text}\": expected mm, cm, m, in or ft"))
    }
}

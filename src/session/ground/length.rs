//! Lengths as people type them, `3600`, `3.6 m`, `12'6 1/2"`, and angles after
//! them, `3600@45`; and as they are shown, metric or in feet and inches.

use crate::units::Mm;
use crate::wording::{Marks, metres_about};

/// Millimetres in an inch, exact since 1959.
const INCH: f64 = 25.4;

/// What was typed of a line.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Typed {
    /// The length.
    pub length: Option<Mm>,
    /// Degrees, anticlockwise from level.
    pub angle: Option<f64>,
}

impl Typed {
    /// From a text: a length, an angle after `@`, or both. None for what is
    /// neither.
    pub fn of(typed: &str) -> Option<Self> {
        let (length, angle) = match typed.split_once('@') {
            Some((length, angle)) => (length.trim(), Some(signed(angle)?)),
            None => (typed.trim(), None),
        };
        let length = match (length, angle) {
            ("", Some(_)) => None,
            (length, _) => Some(parse(length)?),
        };
        Some(Self { length, angle })
    }
}

/// A length from what was typed. None for what is none.
pub fn parse(typed: &str) -> Option<Mm> {
    let length = any(typed)?;
    (length > Mm::ZERO && length < Mm::COORDINATE_MAX).then_some(length)
}

/// A distance that may be none, or the other way where it begins with a minus.
pub fn parse_signed(typed: &str) -> Option<Mm> {
    let typed = typed.trim();
    let length = match typed.strip_prefix('-') {
        Some(back) => -any(back)?,
        None => any(typed)?,
    };
    (length.abs() < Mm::COORDINATE_MAX).then_some(length)
}

fn any(typed: &str) -> Option<Mm> {
    let typed = typed.trim();
    let millimetres = if let Some((feet, rest)) = typed.split_once('\'') {
        let inches = rest.trim().trim_end_matches('"').trim().trim_start_matches('-');
        let inches = if inches.is_empty() { 0.0 } else { fractions(inches)? };
        (number(feet)? * 12.0 + inches) * INCH
    } else if let Some(inches) = typed.strip_suffix('"') {
        fractions(inches)? * INCH
    } else if let Some(mm) = typed.strip_suffix("mm") {
        number(mm)?
    } else if let Some(metres) = typed.strip_suffix('m') {
        number(metres)? * 1000.0
    } else {
        // A point makes metres of it: nobody types fractions of a millimetre.
        let value = number(typed)?;
        if typed.contains(['.', ',']) { value * 1000.0 } else { value }
    };
    Mm::from_f64(millimetres).ok()
}

fn number(text: &str) -> Option<f64> {
    ungrouped(text.trim()).replace(',', ".").parse().ok().filter(|value: &f64| *value >= 0.0)
}

/// Without the spaces between groups of three digits, as lengths are shown.
fn ungrouped(text: &str) -> String {
    let mut parts = text.split([' ', '\u{a0}', '\u{2009}', '\u{202f}']);
    let digits = |part: &str| part.chars().take_while(char::is_ascii_digit).count();
    let first = parts.next().map_or(0, digits);
    if (1..=3).contains(&first) && parts.all(|part| digits(part) == 3) {
        text.chars().filter(|sign| !sign.is_whitespace()).collect()
    } else {
        text.to_owned()
    }
}

/// An angle, degrees.
pub fn signed(text: &str) -> Option<f64> {
    let text = text.trim().trim_end_matches('°').trim_end();
    let value: f64 = text.replace(',', ".").parse().ok()?;
    (value.abs() <= 360.0).then_some(value)
}

/// Inches with a fraction: `6`, `6.5`, `6 1/2`, `6-1/2`, `1/2`.
fn fractions(text: &str) -> Option<f64> {
    let Some((rest, below)) = text.trim().split_once('/') else { return number(text) };
    let (whole, above) = rest.rsplit_once([' ', '-']).unwrap_or(("0", rest));
    let below = number(below)?;
    (below > 0.0).then_some(())?;
    Some(number(whole)? + number(above)? / below)
}

/// Whether a sign can be part of a length; some only after others.
pub fn takes(sign: char, first: bool) -> bool {
    sign.is_ascii_digit()
        || matches!(sign, '.' | ',' | '@')
        || (!first && matches!(sign, '\'' | '"' | 'm' | '-' | '/' | ' '))
}

/// How lengths are shown.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Measure {
    #[default]
    /// Millimetres.
    Metric,
    /// Feet, inches and eighths of them.
    Feet,
}

impl Measure {
    /// A length in words.
    pub fn show(self, length: Mm) -> String {
        match self {
            Self::Metric => millimetres(length),
            Self::Feet => feet(length),
        }
    }

    /// A length of cable, as a ledger has it.
    pub fn run(self, length: Mm) -> String {
        match self {
            Self::Metric => metres_about(length.metres()),
            Self::Feet => format!("{:.1} ft", length.to_f64() / (12.0 * INCH)),
        }
    }
}

/// To the nearest eighth of an inch: `12'6 1/2"`.
fn feet(length: Mm) -> String {
    #[expect(clippy::cast_possible_truncation, reason = "lengths of a plan are far smaller")]
    let eighths = libm::round(length.abs().to_f64() / INCH * 8.0) as i64;
    let sign = if length < Mm::ZERO && eighths > 0 { "-" } else { "" };
    let (feet, rest) = (eighths.div_euclid(96), eighths.rem_euclid(96));
    let (inches, part) = (rest.div_euclid(8), rest.rem_euclid(8));
    let part = match part {
        0 => "",
        1 => " 1/8",
        2 => " 1/4",
        3 => " 3/8",
        4 => " 1/2",
        5 => " 5/8",
        6 => " 3/4",
        _ => " 7/8",
    };
    match (feet, inches, part) {
        (0, 0, part) if !part.is_empty() => format!("{sign}{}\"", part.trim_start()),
        (0, ..) => format!("{sign}{inches}{part}\""),
        _ => format!("{sign}{feet}'{inches}{part}\""),
    }
}

/// A length in millimetres, thousands apart.
pub fn millimetres(length: Mm) -> String {
    format!("{} mm", thousands(length.get()))
}

/// A whole number, thousands apart.
pub fn thousands(number: i64) -> String {
    Marks::SHOWN.whole(number)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_read_as_people_type_them() {
        for (typed, expect) in [
            ("3600", Some(3600)),
            ("3.6", Some(3600)),
            ("3,6 m", Some(3600)),
            ("45mm", Some(45)),
            ("12'6\"", Some(3810)),
            ("12'6 1/2\"", Some(3823)),
            ("12'-6-1/2\"", Some(3823)),
            ("3/4\"", Some(19)),
            ("10'", Some(3048)),
            ("6\"", Some(152)),
            ("1/0\"", None),
            ("", None),
            ("0", None),
            ("-5", None),
            ("m", None),
            ("1e99", None),
        ] {
            assert_eq!(parse(typed), expect.map(Mm::new), "{typed:?}");
        }
        assert_eq!(parse_signed("-0.5"), Some(Mm::new(-500)));
    }

    #[test]
    fn an_angle_stands_after_its_sign() {
        let typed = |length: Option<i64>, angle| Some(Typed { length: length.map(Mm::new), angle });
        assert_eq!(Typed::of("3600@45"), typed(Some(3600), Some(45.0)));
        assert_eq!(Typed::of("@-22,5"), typed(None, Some(-22.5)));
        assert_eq!(Typed::of("10'@90°"), typed(Some(3048), Some(90.0)));
        for bad in ["", "@", "3600@", "@east"] {
            assert_eq!(Typed::of(bad), None, "{bad:?}");
        }
    }

    #[test]
    fn feet_and_inches_read_back_to_the_sixteenth() {
        // An inch is 25.4 mm: 3 810 mm are 150 inches, 12'6".
        for (mm, expect) in [(3810, "12'6\""), (3823, "12'6 1/2\""), (19, "3/4\""), (305, "1'0\"")]
        {
            assert_eq!(Measure::Feet.show(Mm::new(mm)), expect, "{mm} mm");
        }
        for mm in 2..9000 {
            let read = parse(&Measure::Feet.show(Mm::new(mm)));
            let off = read.map_or(99, |read| (read.get() - mm).abs());
            assert!(off <= 2, "{mm} mm became {read:?}");
        }
    }

    #[test]
    fn thousands_stand_apart() {
        let expect = [(0, "0"), (999, "999"), (1_000, "1 000"), (-1_234_567, "-1 234 567")];
        for (number, text) in expect {
            assert_eq!(thousands(number), text);
        }
    }
}

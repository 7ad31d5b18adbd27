//! Lengths as people type them: `3600`, `3.6 m`, `12'6"`.

use wirewend::units::Mm;

/// Millimetres in an inch, exact since 1959.
const INCH: f64 = 25.4;

/// A length from what was typed. None for what is none.
pub(super) fn parse(typed: &str) -> Option<Mm> {
    let typed = typed.trim();
    let millimetres = if let Some((feet, rest)) = typed.split_once('\'') {
        let inches = rest.trim().trim_end_matches('"').trim();
        let inches = if inches.is_empty() { 0.0 } else { number(inches)? };
        (number(feet)? * 12.0 + inches) * INCH
    } else if let Some(inches) = typed.strip_suffix('"') {
        number(inches)? * INCH
    } else if let Some(mm) = typed.strip_suffix("mm") {
        number(mm)?
    } else if let Some(metres) = typed.strip_suffix('m') {
        number(metres)? * 1000.0
    } else {
        // A point makes metres of it: nobody types fractions of a millimetre.
        let value = number(typed)?;
        if typed.contains(['.', ',']) { value * 1000.0 } else { value }
    };
    let length = Mm::from_f64(millimetres).ok()?;
    (length > Mm::ZERO && length < Mm::COORDINATE_MAX).then_some(length)
}

fn number(text: &str) -> Option<f64> {
    text.trim().replace(',', ".").parse().ok().filter(|value: &f64| *value >= 0.0)
}

/// Whether a sign can be part of a length.
pub(super) fn takes(sign: char) -> bool {
    sign.is_ascii_digit() || matches!(sign, '.' | ',' | '\'' | '"' | 'm')
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
            ("10'", Some(3048)),
            ("6\"", Some(152)),
            ("", None),
            ("0", None),
            ("m", None),
            ("1.2.3", None),
            ("99999999999", None),
        ] {
            assert_eq!(parse(typed), expect.map(Mm::new), "{typed:?}");
        }
    }
}

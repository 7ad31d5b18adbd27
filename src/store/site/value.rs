//! Figures as people write them down on site.

use crate::plan::{Reads, Test, is_day};
use crate::store::error::shown;
use crate::units::Mm;

/// What stands where a figure is taken away again.
const NONE: [&str; 2] = ["none", "-"];

/// A measured length: `12.4`, `12,4 m`, `980 mm`; metres where no unit stands.
/// None where it says `none`: not measured after all.
///
/// # Errors
/// A message where it is no length above nothing.
pub fn read_length(text: &str) -> Result<Option<Mm>, String> {
    let text = text.trim();
    if NONE.contains(&text) {
        return Ok(None);
    }
    let expected = || format!("found {}, expected metres such as 12.4, or none", shown(text));
    let (figure, millimetres) = match (text.strip_suffix("mm"), text.strip_suffix('m')) {
        (Some(figure), _) => (figure, 1.0),
        (None, Some(figure)) => (figure, 1000.0),
        _ => (text, 1000.0),
    };
    let length = number(figure).and_then(|value| Mm::from_f64(value * millimetres).ok());
    length.filter(|length| *length > Mm::ZERO).map(Some).ok_or_else(expected)
}

/// A day as `2026-11-25`; empty where nobody says.
///
/// # Errors
/// A message where it is no day of the calendar.
pub fn read_day(text: &str) -> Result<String, String> {
    let text = text.trim();
    if text.is_empty() || is_day(text) {
        return Ok(text.to_owned());
    }
    Err(format!("found {}, expected a day such as 2026-11-25", shown(text)))
}

/// A reading: a number with or without the unit of its test; `right` or
/// `wrong` for polarity; a meter's `>999` for insulation counts as 999. None
/// where it says `none`: not read after all.
///
/// # Errors
/// A message where it is no such reading.
pub fn read_reading(test: Test, text: &str) -> Result<Option<Reads>, String> {
    let text = text.trim();
    if NONE.contains(&text) {
        return Ok(None);
    }
    if test == Test::Polarity {
        return match text.to_lowercase().as_str() {
            "right" | "ok" | "yes" | "true" | "1" | "✓" => Ok(Some(Reads::Polarity(true))),
            "wrong" | "no" | "false" | "0" => Ok(Some(Reads::Polarity(false))),
            _ => Err(format!("found {}, expected right, wrong or none", shown(text))),
        };
    }
    let unit = test.unit();
    let figure = text.strip_suffix(unit).unwrap_or(text);
    let figure = if test == Test::Insulation {
        figure.trim_start_matches(['>', '≥', ' '])
    } else {
        figure
    };
    let value = number(figure).filter(|value| *value >= 0.0);
    value.map(|value| Some(test.reads(value))).ok_or_else(|| {
        let found = shown(text);
        format!("found {found}, expected a number of {unit} from 0 on, or none")
    })
}

/// A number with a point or a comma before its decimals.
fn number(text: &str) -> Option<f64> {
    let text = text.trim();
    let plain =
        text.bytes().all(|byte| byte.is_ascii_digit() || matches!(byte, b'.' | b',' | b'-'));
    let value: f64 = text.replace(',', ".").parse().ok()?;
    (plain && value.is_finite()).then_some(value)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Megohms, Ohms};

    #[test]
    fn lengths_are_read_as_people_write_them() {
        for (text, mm) in [("12.4", 12_400), ("12,4 m", 12_400), ("980 mm", 980), (" 3m", 3000)] {
            assert_eq!(read_length(text), Ok(Some(Mm::new(mm))), "{text}");
        }
        assert_eq!(read_length("none"), Ok(None), "taken away");
        for bad in
            ["", "0", "-3", "12.4.1", "1,234.5", "12 cm", "x", "1e3", "inf", "99999999999999"]
        {
            assert!(read_length(bad).is_err(), "{bad:?} must be refused");
        }
    }

    #[test]
    fn readings_are_read_in_their_unit() {
        let loops = |text| read_reading(Test::Loop, text);
        assert_eq!(loops("0,84 Ω"), Ok(Some(Reads::Loop(Ohms(0.84)))), "a comma and a unit");
        assert_eq!(
            read_reading(Test::Insulation, ">999 MΩ"),
            Ok(Some(Reads::Insulation(Megohms(999.0)))),
            "off the scale"
        );
        assert_eq!(read_reading(Test::Polarity, "OK"), Ok(Some(Reads::Polarity(true))), "ticked");
        for bad in ["", "-0.1", ">2", "0.84 V", "NaN"] {
            assert!(loops(bad).is_err(), "{bad:?} must be refused");
        }
        assert!(read_reading(Test::Polarity, "maybe").is_err(), "neither");
    }
}

//! Leg numbers as spreadsheets give them back.

/// Whether what stands in a list is, or was, the number of a leg. A spreadsheet
/// takes `6.10` for a decimal and writes `6.1` or `6,1`, and `6.4` for a day
/// and writes `6. Apr` or `04.06.2026`: such a text agrees where the same two
/// numbers stand in it. A board's mark may stand before, as lists of several
/// boards have it.
pub(super) fn agrees(number: &str, found: &str) -> bool {
    if number == found {
        return true;
    }
    let (board, plain) = split(number);
    let (found_board, found_plain) = split(found);
    if is_number(found_plain) && (found_board.is_empty() || found_plain.contains(['.', ','])) {
        let same_board = board.is_empty() || found_board.is_empty() || board == found_board;
        return same_board && (plain == found_plain || same_decimal(plain, found_plain));
    }
    plain.split_once('.').is_some_and(|parts| was_day(parts, found))
}

/// The board's mark, if one stands before, and the rest.
fn split(text: &str) -> (&str, &str) {
    text.rsplit_once(' ').map_or(("", text), |(board, plain)| (board.trim(), plain))
}

/// `6.10`, `6,1`, `6`.
fn is_number(text: &str) -> bool {
    let mut parts = text.split(['.', ',']);
    let digits = |part: &str| !part.is_empty() && part.bytes().all(|byte| byte.is_ascii_digit());
    parts.by_ref().take(2).all(digits) && parts.next().is_none()
}

/// Whether a number was read as a decimal: noughts at its end may be gone, and
/// a comma stand for its point.
fn same_decimal(plain: &str, found: &str) -> bool {
    let found = found.replace(',', ".");
    let short = plain.trim_end_matches('0').trim_end_matches('.');
    found == plain || (plain.contains('.') && found == short)
}

/// Months as spreadsheets begin them in English, German, French and Spanish.
const MONTHS: [&[&str]; 12] = [
    &["jan", "ene"],
    &["feb", "fév", "fev"],
    &["mar", "mär", "mrz"],
    &["apr", "avr", "abr"],
    &["may", "mai"],
    &["jun", "juin"],
    &["jul", "juil"],
    &["aug", "aoû", "ago"],
    &["sep"],
    &["oct", "okt"],
    &["nov"],
    &["dec", "dez", "déc", "dic"],
];

/// Whether a text that is no number is the day or the month that a spreadsheet
/// makes of two numbers: both stand in it, one of them as a month.
fn was_day((circuit, leg): (&str, &str), found: &str) -> bool {
    let (Ok(circuit), Ok(leg)) = (circuit.parse::<u32>(), leg.parse::<u32>()) else { return false };
    let found = found.to_lowercase();
    let words = found.split(|sign: char| !sign.is_alphanumeric()).filter(|word| !word.is_empty());
    let mut parts: Vec<Part> = Vec::new();
    for word in words {
        let Some(part) = part(word) else { return false };
        parts.push(part);
    }
    if !(2..=3).contains(&parts.len()) {
        return false;
    }
    let pairs = [(circuit, leg), (leg, circuit)];
    let pair = |a: usize, b: usize| {
        pairs
            .iter()
            .any(|(month, other)| parts[a].is_month(*month) && parts[b].is_day_or_year(*other))
    };
    let places = 0..parts.len();
    places.clone().any(|a| places.clone().any(|b| a != b && pair(a, b)))
}

/// A part of a day.
enum Part {
    Number(u32),
    Month(u32),
}

fn part(word: &str) -> Option<Part> {
    if let Ok(number) = word.parse() {
        return Some(Part::Number(number));
    }
    let month = MONTHS.iter().position(|names| names.iter().any(|name| word.starts_with(name)))?;
    u32::try_from(month + 1).ok().map(Part::Month)
}

impl Part {
    fn is_month(&self, month: u32) -> bool {
        match self {
            Self::Number(number) | Self::Month(number) => *number == month && month <= 12,
        }
    }

    /// A day of the month; or a year of two figures, where it is none.
    fn is_day_or_year(&self, other: u32) -> bool {
        match self {
            Self::Number(number) => *number == other || (other > 31 && *number % 100 == other),
            Self::Month(_) => false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_spreadsheet_made_of_a_number_still_agrees() {
        for (number, found) in [
            ("6.4", "6.4"),
            ("6.10", "6.1"),
            ("6.10", "6,1"),
            ("6.10", "6,10"),
            ("6.20", "6.2"),
            ("6.4", "6. Apr"),
            ("6.4", "06.04.2026"),
            ("6.4", "04/06/2026"),
            ("6.4", "2026-04-06"),
            ("6.4", "4-Jun"),
            ("6.14", "Jun 14"),
            ("6.40", "Jun-40"),
            ("6.40", "01.06.1940"),
            ("DB2 6.4", "6.4"),
            ("6.4", "DB1 6.4"),
        ] {
            assert!(agrees(number, found), "{number} as {found}");
        }
    }

    #[test]
    fn another_number_does_not_agree() {
        for (number, found) in [
            ("6.7", "6.4"),
            ("6.1", "6.10"),
            ("6.7", "6. Apr"),
            ("4.6", "6.4"),
            ("6.4", "7. Apr"),
            ("6.14", "4/6/2026"),
            ("6.4", ""),
            ("6.4", "6"),
            ("16.4", "6.4"),
            ("6.4", "64"),
            ("DB2 6.4", "DB1 6.4"),
            ("6.4", "leg 6.4 or so"),
            ("6.4", "6 apples 4"),
        ] {
            assert!(!agrees(number, found), "{number} as {found}");
        }
    }
}

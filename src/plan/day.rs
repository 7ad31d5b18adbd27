//! Days as plans write them.

/// Whether a text is a day of the calendar as `2026-11-25` (ISO 8601, the
/// extended format of a date).
#[must_use]
pub fn is_day(text: &str) -> bool {
    let [year, month, day] = text.split('-').collect::<Vec<_>>()[..] else { return false };
    let figures = |text: &str, count: usize| {
        let plain = text.len() == count && text.bytes().all(|sign| sign.is_ascii_digit());
        plain.then(|| text.parse::<u32>().ok()).flatten()
    };
    let found = figures(year, 4).zip(figures(month, 2)).zip(figures(day, 2));
    found.is_some_and(|((year, month), day)| (1..=days_of(year, month)).contains(&day))
}

/// How many days a month has; none where there is no such month. The Gregorian
/// calendar: every fourth year has a leap day, of the full centuries every
/// fourth.
const fn days_of(year: u32, month: u32) -> u32 {
    let is_leap = year.is_multiple_of(4) && (!year.is_multiple_of(100) || year.is_multiple_of(400));
    match month {
        2 if is_leap => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        1..=12 => 31,
        _ => 0,
    }
}

#[cfg(test)]
mod tests {
    use super::is_day;

    /// 1900 had no leap day and 2000 had one, as every calendar shows.
    #[test]
    fn days_are_days_of_the_calendar() {
        for good in ["2026-11-25", "2000-02-29", "2024-02-29", "1999-12-31"] {
            assert!(is_day(good), "{good}");
        }
        for bad in [
            "",
            "25.11.2026",
            "2026-11-31",
            "2026-02-29",
            "1900-02-29",
            "2026-13-01",
            "2026-00-10",
            "2026-11-00",
            "2026-1-5",
            "26-11-25",
            "2026-11-25 ",
            "2026-11-25-1",
            "2026-+1-25",
        ] {
            assert!(!is_day(bad), "{bad:?} is no such day");
        }
    }
}

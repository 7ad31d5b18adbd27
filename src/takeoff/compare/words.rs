//! Figures and names as a comparison writes them: exact, so that what differs
//! never reads the same.

use serde::Serialize;

use crate::units::{Cents, Mm, Point2};
use crate::wording::{self, Marks};

/// `2.40 m`; whole millimetres where they count.
pub(super) fn metres(length: &Mm) -> String {
    format!("{} m", Marks::COMPARED.metres(*length))
}

/// `110 mm`.
pub(super) fn millimetres(length: &Mm) -> String {
    length.to_string()
}

/// `12.5 %` of thousandths.
pub(super) fn permille(share: &u16) -> String {
    wording::percent_of(*share)
}

/// `30 %`.
pub(super) fn percent(share: &u16) -> String {
    format!("{share} %")
}

/// `14.50`.
pub(super) fn money(amount: &Cents) -> String {
    Marks::COMPARED.money(*amount)
}

/// Yes or no.
pub(super) fn yes(holds: &bool) -> String {
    if *holds { "yes" } else { "no" }.to_owned()
}

/// A choice by the name that it has in a plan's file, in words: `solid masonry`.
pub(super) fn choice<T: Serialize>(one: &T) -> String {
    let value = serde_json::to_value(one).unwrap_or_default();
    value.as_str().unwrap_or("another").replace('_', " ")
}

/// What is not decided is said to be so.
pub(super) fn or_open<T>(value: &Option<T>, says: impl Fn(&T) -> String) -> String {
    value.as_ref().map_or_else(|| "not decided".to_owned(), says)
}

/// Words one after the other; `none` where there are none.
pub(super) fn list<T>(all: &[T], says: impl Fn(&T) -> String) -> String {
    match all {
        [] => "none".to_owned(),
        all => all.iter().map(says).collect::<Vec<_>>().join(", "),
    }
}

/// What an outline holds: `12.40 m²`, to the square centimetre.
pub(super) fn ground(outline: &[Point2]) -> String {
    let next = outline.iter().cycle().skip(1);
    let cross = |a: &Point2, b: &Point2| {
        i128::from(a.x.get()) * i128::from(b.y.get())
            - i128::from(b.x.get()) * i128::from(a.y.get())
    };
    let twice: i128 = outline.iter().zip(next).map(|(a, b)| cross(a, b)).sum();
    let square_cm = twice.abs().div_euclid(200);
    format!("{}.{:04} m²", square_cm.div_euclid(10_000), square_cm.rem_euclid(10_000))
}

/// How an outline differs: by what it holds, or else in its shape.
pub(super) fn outline(was: &[Point2], is: &[Point2]) -> String {
    let (before, now) = (ground(was), ground(is));
    if before == now {
        format!("outline drawn otherwise, {now} as before")
    } else {
        format!("outline holds {now}, was {before}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_are_exact() {
        assert_eq!(metres(&Mm::new(2400)), "2.40 m");
        assert_eq!(metres(&Mm::new(-2405)), "−2.405 m");
        assert_eq!(permille(&125), "12.5 %");
        let square = [(0, 0), (3000, 0), (3000, 2000), (0, 2000)].map(|(x, y)| Point2::new(x, y));
        assert_eq!(ground(&square), "6.0000 m²");
    }
}

//! What finds a row.

use super::Column;

/// The key of a row: a cell, or several.
pub trait Key {
    /// Its parts, separated by commas.
    #[must_use]
    fn text(&self) -> String;
}

/// A key of which there are only so many, so that a table can hold them all.
pub trait Every: Key + Sized {
    /// How many there are.
    const COUNT: usize;

    /// Which of them this is, from 0.
    #[must_use]
    fn ordinal(&self) -> usize;

    /// All of them by their ordinals.
    #[must_use]
    fn every() -> Vec<Self>;
}

impl<T: Column> Key for T {
    fn text(&self) -> String {
        Column::text(self)
    }
}

impl Key for () {
    fn text(&self) -> String {
        String::new()
    }
}

impl<A: Column, B: Column> Key for (A, B) {
    fn text(&self) -> String {
        [self.0.text(), self.1.text()].join(", ")
    }
}

impl<A: Column, B: Column, C: Column> Key for (A, B, C) {
    fn text(&self) -> String {
        [self.0.text(), self.1.text(), self.2.text()].join(", ")
    }
}

impl<A: Column, B: Column, C: Column, D: Column> Key for (A, B, C, D) {
    fn text(&self) -> String {
        [self.0.text(), self.1.text(), self.2.text(), self.3.text()].join(", ")
    }
}

impl Every for () {
    const COUNT: usize = 1;

    fn ordinal(&self) -> usize {
        0
    }

    fn every() -> Vec<Self> {
        vec![()]
    }
}

impl<A: Every + Column + Clone, B: Every + Column> Every for (A, B) {
    const COUNT: usize = A::COUNT * B::COUNT;

    fn ordinal(&self) -> usize {
        self.0.ordinal() * B::COUNT + self.1.ordinal()
    }

    fn every() -> Vec<Self> {
        let with = |a: A| B::every().into_iter().map(move |b| (a.clone(), b));
        A::every().into_iter().flat_map(with).collect()
    }
}

impl<A, B, C> Every for (A, B, C)
where
    A: Every + Column + Clone,
    B: Every + Column + Clone,
    C: Every + Column,
{
    const COUNT: usize = A::COUNT * B::COUNT * C::COUNT;

    fn ordinal(&self) -> usize {
        (self.0.ordinal() * B::COUNT + self.1.ordinal()) * C::COUNT + self.2.ordinal()
    }

    fn every() -> Vec<Self> {
        let with = |(a, b): (A, B)| C::every().into_iter().map(move |c| (a.clone(), b.clone(), c));
        <(A, B)>::every().into_iter().flat_map(with).collect()
    }
}

//! Ways from many sources, eight at a time, each flooded when first asked for.

use std::cell::OnceCell;

use super::flood::Chunk;
use super::lanes::LANES;
use super::{Key, Swift};

/// A source and the ends to which the ways from it are wanted, by number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ask {
    /// Where the ways begin.
    pub source: usize,
    /// Where they end.
    pub targets: Vec<usize>,
}

/// The cheapest ways that were asked for; a row for each source.
#[derive(Debug)]
pub struct Rows<'a> {
    pub(super) swift: &'a Swift<'a>,
    pub(super) asks: Vec<Ask>,
    chunks: Vec<OnceCell<Chunk>>,
}

/// The cheapest ways between the members of a group.
#[derive(Debug)]
pub struct Group<'a> {
    pub(super) rows: Rows<'a>,
    pub(super) members: Vec<usize>,
    keys: Vec<Vec<Key>>,
}

impl<'a> Swift<'a> {
    /// Ways from some sources. Those that follow each other are flooded
    /// together, so neighbours should.
    #[must_use]
    pub fn rows(&'a self, asks: Vec<Ask>) -> Rows<'a> {
        let chunks = asks.len().div_ceil(LANES);
        Rows { swift: self, asks, chunks: (0..chunks).map(|_| OnceCell::new()).collect() }
    }

    /// The cheapest ways between some ends, by their numbers.
    #[must_use]
    pub fn group(&'a self, members: &[usize]) -> Group<'a> {
        let count = members.len();
        // The last member is reached from all others: ways are the same both ways.
        let asks = (1..count)
            .map(|next| Ask { source: members[next - 1], targets: members[next..].to_vec() });
        let rows = self.rows(asks.collect());
        let mut keys = vec![vec![Key::ZERO; count]; count];
        for from in 0..count {
            for to in from + 1..count {
                let key = rows.key(from, members[to]);
                keys[from][to] = key;
                keys[to][from] = key;
            }
        }
        Group { rows, members: members.to_vec(), keys }
    }
}

impl Rows<'_> {
    /// The floods of a row and its place among them.
    pub(super) fn chunk(&self, row: usize) -> (&Chunk, usize) {
        let number = row.div_euclid(LANES);
        let first = number * LANES;
        let asks = &self.asks[first..self.asks.len().min(first + LANES)];
        (self.chunks[number].get_or_init(|| self.swift.fill(asks)), row - first)
    }

    /// What the cheapest way from the source of a row to one of its targets
    /// costs; [`Key::NONE`] without a way.
    #[must_use]
    pub fn key(&self, row: usize, target: usize) -> Key {
        let (chunk, lane) = self.chunk(row);
        let direct = self.swift.direct(self.asks[row].source, target);
        let arrive = |dock: usize| Key::from_lane(chunk.values[dock][lane]);
        let exits = self.swift.ends[target].exits.iter();
        exits.map(|exit| arrive(exit.dock).then(exit.key)).fold(direct, Key::min)
    }

    /// Lets go of the floods of all rows before one.
    pub fn forget_before(&mut self, row: usize) {
        for chunk in &mut self.chunks[..row.div_euclid(LANES)] {
            chunk.take();
        }
    }
}

impl Group<'_> {
    /// What the cheapest way between two members costs, by their places in the
    /// group; [`Key::NONE`] without a way.
    #[must_use]
    pub fn key(&self, from: usize, to: usize) -> Key {
        self.keys[from][to]
    }
}

//! Ways from many sources, eight at a time, each flooded when first asked for.

use std::cell::OnceCell;

use super::super::{DetourBound, Stop};
use super::boundary::Boundary;
use super::flood::Chunk;
use super::lanes::LANES;
use super::{FastNetwork, Key};
use crate::units::Point3;

/// A source and the ends to which the ways from it are wanted, by number.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ask {
    /// Where the ways begin.
    pub source: usize,
    /// Where they end.
    pub targets: Vec<usize>,
}

/// Ways that are asked for, eight sources at a time.
#[derive(Debug, Default)]
pub struct Floods {
    chunks: Vec<(Vec<Ask>, OnceCell<Filled>)>,
}

/// Floods made together, no wider than they must be.
#[derive(Debug)]
enum Filled {
    One(Chunk<1>),
    Two(Chunk<2>),
    Four(Chunk<4>),
    Eight(Chunk<LANES>),
}

impl Filled {
    fn of(fast: &FastNetwork<'_>, asks: &[Ask]) -> Self {
        match asks.len() {
            0 | 1 => Self::One(fast.fill(asks)),
            2 => Self::Two(fast.fill(asks)),
            3 | 4 => Self::Four(fast.fill(asks)),
            _ => Self::Eight(fast.fill(asks)),
        }
    }

    /// The least key with which a dock is reached.
    fn value(&self, dock: usize, lane: usize) -> Key {
        Key::from_lane(match self {
            Self::One(chunk) => chunk.values[dock][lane],
            Self::Two(chunk) => chunk.values[dock][lane],
            Self::Four(chunk) => chunk.values[dock][lane],
            Self::Eight(chunk) => chunk.values[dock][lane],
        })
    }
}

/// The ways from one source: its chunk and its place there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Row {
    chunk: usize,
    lane: usize,
}

impl Floods {
    /// Asks for a row. Those that follow each other are flooded together, so
    /// neighbours should.
    pub fn ask(&mut self, ask: Ask) -> Row {
        if self.chunks.last().is_none_or(|(asks, _)| asks.len() == LANES) {
            self.part();
        }
        let chunk = self.chunks.len() - 1;
        let asks = &mut self.chunks[chunk].0;
        asks.push(ask);
        Row { chunk, lane: asks.len() - 1 }
    }

    /// What follows is not flooded together with what was asked for so far.
    pub fn part(&mut self) {
        self.chunks.push((Vec::new(), OnceCell::new()));
    }

    /// Lets go of the floods between two rows, not theirs.
    pub fn forget_between(&mut self, first: Row, last: Row) {
        for (_, chunk) in self.chunks.iter_mut().take(last.chunk).skip(first.chunk + 1) {
            chunk.take();
        }
    }

    fn chunk(&self, fast: &FastNetwork<'_>, row: Row) -> (&Ask, &Filled) {
        let (asks, chunk) = &self.chunks[row.chunk];
        (&asks[row.lane], chunk.get_or_init(|| Filled::of(fast, asks)))
    }

    /// What the cheapest way from the source of a row to one of its targets
    /// costs; [`Key::NONE`] without a way.
    #[must_use]
    pub fn key(&self, fast: &FastNetwork<'_>, row: Row, target: usize) -> Key {
        let (ask, chunk) = self.chunk(fast, row);
        let direct = fast.direct(ask.source, target);
        let arrive = |dock: usize| chunk.value(dock, row.lane);
        let exits = fast.ends[target].exits.iter();
        exits.map(|exit| arrive(exit.dock).then(exit.key)).fold(direct, Key::min)
    }

    /// The cheapest way from the source of a row to one of its targets, or the
    /// same way from the target if asked: where it begins, and then its
    /// stretches. None without a way.
    #[must_use]
    pub fn way(
        &self,
        fast: &FastNetwork<'_>,
        row: Row,
        target: usize,
        back: bool,
    ) -> Option<(Point3, Vec<Stop>)> {
        let key = self.key(fast, row, target);
        if !key.is_way() {
            return None;
        }
        let (ask, chunk) = self.chunk(fast, row);
        let ends = (ask.source, target);
        match chunk {
            Filled::One(chunk) => fast.walk(chunk, row.lane, ends, key, back),
            Filled::Two(chunk) => fast.walk(chunk, row.lane, ends, key, back),
            Filled::Four(chunk) => fast.walk(chunk, row.lane, ends, key, back),
            Filled::Eight(chunk) => fast.walk(chunk, row.lane, ends, key, back),
        }
    }
}

/// The cheapest ways that were asked for; a row for each source.
#[derive(Debug)]
pub struct Rows<'a> {
    pub(super) fast: &'a FastNetwork<'a>,
    floods: Floods,
    rows: Vec<Row>,
    /// For every row, made when first asked for.
    boundaries: Vec<OnceCell<Boundary>>,
}

/// The cheapest ways between the members of a group.
#[derive(Debug)]
pub struct Group<'a> {
    rows: Rows<'a>,
    members: Vec<usize>,
    keys: Vec<Vec<Key>>,
}

impl<'a> FastNetwork<'a> {
    /// Ways from some sources. Those that follow each other are flooded
    /// together, so neighbours should.
    #[must_use]
    pub fn rows(&'a self, asks: Vec<Ask>) -> Rows<'a> {
        let mut floods = Floods::default();
        let rows: Vec<Row> = asks.into_iter().map(|ask| floods.ask(ask)).collect();
        Rows {
            fast: self,
            floods,
            boundaries: rows.iter().map(|_| OnceCell::new()).collect(),
            rows,
        }
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
        let pairs = (0..count).flat_map(|from| (from + 1..count).map(move |to| (from, to)));
        for (from, to) in pairs {
            let key = rows.key(from, members[to]);
            keys[from][to] = key;
            keys[to][from] = key;
        }
        Group { rows, members: members.to_vec(), keys }
    }
}

impl Rows<'_> {
    /// The end from which a row leads.
    pub(super) fn source(&self, row: usize) -> usize {
        self.floods.chunk(self.fast, self.rows[row]).0.source
    }

    /// Where the ways of a row come to the edge of a bounded box, always the same, for no more
    /// than its dearest way costs.
    pub(super) fn boundary(&self, detour_bound: &DetourBound, row: usize) -> &Boundary {
        self.boundaries[row].get_or_init(|| {
            let (fast, lane) = (self.fast, self.rows[row].lane);
            let (Ask { source, targets }, chunk) = self.floods.chunk(fast, self.rows[row]);
            let keys = targets.iter().map(|to| self.key(row, *to)).filter(|key| key.is_way());
            let most = keys.map(|key| key.cost().get() + 1).max().unwrap_or(0);
            match chunk {
                Filled::One(chunk) => Boundary::of(fast, detour_bound, chunk, lane, *source, most),
                Filled::Two(chunk) => Boundary::of(fast, detour_bound, chunk, lane, *source, most),
                Filled::Four(chunk) => Boundary::of(fast, detour_bound, chunk, lane, *source, most),
                Filled::Eight(chunk) => {
                    Boundary::of(fast, detour_bound, chunk, lane, *source, most)
                }
            }
        })
    }

    /// What the cheapest way from the source of a row to one of its targets
    /// costs; [`Key::NONE`] without a way.
    #[must_use]
    pub fn key(&self, row: usize, target: usize) -> Key {
        self.floods.key(self.fast, self.rows[row], target)
    }

    /// The cheapest way from the source of a row to one of its targets, or the
    /// same way from the target if asked: where it begins, and then its
    /// stretches. None without a way.
    #[must_use]
    pub fn way(&self, row: usize, target: usize, back: bool) -> Option<(Point3, Vec<Stop>)> {
        self.floods.way(self.fast, self.rows[row], target, back)
    }
}

impl Group<'_> {
    /// Whether the cheapest way between two members is the cheapest anywhere,
    /// see [`Rows::is_certain`].
    #[must_use]
    pub fn is_certain(&self, detour_bound: &DetourBound, from: usize, to: usize) -> bool {
        let (source, target) = (from.min(to), from.max(to));
        self.rows.is_certain(detour_bound, source, self.members[target])
    }

    /// What the cheapest way between two members costs, by their places in the
    /// group; [`Key::NONE`] without a way.
    #[must_use]
    pub fn key(&self, from: usize, to: usize) -> Key {
        self.keys[from][to]
    }

    /// The cheapest way between two members, by their places in the group: where
    /// it begins, and then its stretches. None without a way.
    #[must_use]
    pub fn way(&self, from: usize, to: usize) -> Option<(Point3, Vec<Stop>)> {
        if from == to {
            return None;
        }
        let (source, target) = (from.min(to), from.max(to));
        self.rows.way(source, self.members[target], source != from)
    }
}

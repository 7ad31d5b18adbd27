//! Floods from eight places at once over the core lines of a void.
//!
//! Sweeping whole lines back and forth needs no queue and no branches, and the
//! eight sources ride in one wide register. Each round adds a bend; a house
//! settles in four to ten.

use super::super::Key;
use super::stencil::Entry;
use super::tracks::Tracks;

/// How many sources ride together.
pub(super) const LANES: usize = 8;

/// One number for each source.
pub(super) type Lane = [f64; LANES];

/// No way, for every source.
pub(super) const NO_WAY: Lane = [f64::INFINITY; LANES];

/// What the moves along core lines cost, ready for sweeping.
#[derive(Clone, Debug)]
pub(super) struct Prices {
    nu: usize,
    nv: usize,
    /// Along `u` on line `j` over cell `i`, `j · (nu − 1) + i`.
    u: Vec<f64>,
    /// Along `v` on line `i` over cell `j`, `j · nu + i`.
    v: Vec<f64>,
    bend: f64,
}

/// The least keys at every crossing, by the direction of the last move.
#[derive(Clone, Debug)]
pub(super) struct Flood {
    pub(super) u: Vec<Lane>,
    pub(super) v: Vec<Lane>,
}

impl Prices {
    pub(super) fn of(tracks: &Tracks, bend: Key) -> Self {
        let (nu, nv) = tracks.size();
        let key = |price: i64, length: i64| {
            if price == 0 { f64::INFINITY } else { Key::run(length, price).to_lane() }
        };
        let mut u = Vec::with_capacity(nv * (nu - 1));
        for j in 0..nv {
            for i in 0..nu - 1 {
                u.push(key(tracks.u.price(2 * j, i), tracks.u.at[i + 1] - tracks.u.at[i]));
            }
        }
        let mut v = Vec::with_capacity((nv - 1) * nu);
        for j in 0..nv - 1 {
            for i in 0..nu {
                v.push(key(tracks.v.price(2 * i, j), tracks.v.at[j + 1] - tracks.v.at[j]));
            }
        }
        Self { nu, nv, u, v, bend: bend.to_lane() }
    }

    /// An empty flood.
    pub(super) fn flood(&self) -> Flood {
        let count = self.nu * self.nv;
        Flood { u: vec![NO_WAY; count], v: vec![NO_WAY; count] }
    }

    /// What the move from a crossing to the next along `u` costs.
    pub(super) fn step_u(&self, i: usize, j: usize) -> f64 {
        self.u[j * (self.nu - 1) + i]
    }

    /// What the move from a crossing to the next along `v` costs.
    pub(super) fn step_v(&self, i: usize, j: usize) -> f64 {
        self.v[j * self.nu + i]
    }

    /// Lines each way.
    pub(super) const fn size(&self) -> (usize, usize) {
        (self.nu, self.nv)
    }

    /// Sweeps until nothing changes.
    pub(super) fn settle(&self, flood: &mut Flood) {
        loop {
            self.sweep_u(&mut flood.u);
            self.sweep_v(&mut flood.v);
            if !self.turn(flood) {
                return;
            }
        }
    }

    fn sweep_u(&self, lanes: &mut [Lane]) {
        let cells = self.nu - 1;
        for (row, prices) in lanes.chunks_exact_mut(self.nu).zip(self.u.chunks_exact(cells)) {
            let mut last = row[0];
            for (lane, price) in row[1..].iter_mut().zip(prices) {
                relax(lane, &last, *price);
                last = *lane;
            }
            for (lane, price) in row[..cells].iter_mut().zip(prices).rev() {
                relax(lane, &last, *price);
                last = *lane;
            }
        }
    }

    fn sweep_v(&self, lanes: &mut [Lane]) {
        let nu = self.nu;
        for j in 0..self.nv - 1 {
            let (before, after) = lanes[j * nu..(j + 2) * nu].split_at_mut(nu);
            let prices = &self.v[j * nu..(j + 1) * nu];
            for ((from, to), price) in before.iter().zip(after).zip(prices) {
                relax(to, from, *price);
            }
        }
        for j in (0..self.nv - 1).rev() {
            let (before, after) = lanes[j * nu..(j + 2) * nu].split_at_mut(nu);
            let prices = &self.v[j * nu..(j + 1) * nu];
            for ((to, from), price) in before.iter_mut().zip(after.iter()).zip(prices) {
                relax(to, from, *price);
            }
        }
    }

    /// Turns at every crossing; whether any was worth it.
    fn turn(&self, flood: &mut Flood) -> bool {
        let mut changed = false;
        for (u, v) in flood.u.iter_mut().zip(&mut flood.v) {
            for lane in 0..LANES {
                let (from_v, from_u) = (v[lane] + self.bend, u[lane] + self.bend);
                changed |= from_v < u[lane] || from_u < v[lane];
                u[lane] = u[lane].min(from_v);
                v[lane] = v[lane].min(from_u);
            }
        }
        changed
    }
}

/// The lesser of what is there and what comes.
fn relax(to: &mut Lane, from: &Lane, price: f64) {
    for lane in 0..LANES {
        let come = from[lane] + price;
        to[lane] = if come < to[lane] { come } else { to[lane] };
    }
}

impl Flood {
    /// Lets keys in by the entries of a place.
    pub(super) fn enter(&mut self, entries: &[Entry], keys: &Lane) {
        for entry in entries {
            let lanes = if entry.along_u { &mut self.u } else { &mut self.v };
            relax(&mut lanes[entry.node as usize], keys, entry.key.to_lane());
        }
    }

    /// Lets one source in by the entries of a place.
    pub(super) fn enter_one(&mut self, entries: &[Entry], lane: usize, key: f64) {
        for entry in entries {
            let lanes = if entry.along_u { &mut self.u } else { &mut self.v };
            let there = &mut lanes[entry.node as usize][lane];
            *there = there.min(key + entry.key.to_lane());
        }
    }

    /// The least keys with which a place is reached by its entries.
    pub(super) fn leave(&self, entries: &[Entry]) -> Lane {
        let mut best = NO_WAY;
        for entry in entries {
            let lanes = if entry.along_u { &self.u } else { &self.v };
            relax(&mut best, &lanes[entry.node as usize], entry.key.to_lane());
        }
        best
    }
}

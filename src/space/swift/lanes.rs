//! Floods from eight places at once over the core lines of a void.
//!
//! Sweeping whole lines back and forth needs no queue and no branches, and the
//! eight sources ride in one wide register. Each round adds a bend; a house
//! settles in four to ten, and after the first few only some lines still change.

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
        let key = |price: Option<i64>, length: i64| {
            price.map_or(f64::INFINITY, |price| Key::run(length, price).to_lane())
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

    /// Sweeps until nothing changes: every line once, and then those on which
    /// a turn was worth it.
    pub(super) fn settle(&self, flood: &mut Flood) {
        let (mut rows, mut columns) = (vec![true; self.nv], vec![true; self.nu]);
        loop {
            for j in (0..self.nv).filter(|j| rows[*j]) {
                self.sweep_row(&mut flood.u, j);
            }
            for i in (0..self.nu).filter(|i| columns[*i]) {
                self.sweep_column(&mut flood.v, i);
            }
            let swept = (rows, columns);
            rows = vec![false; self.nv];
            columns = vec![false; self.nu];
            if !self.turn(flood, &swept, &mut rows, &mut columns) {
                return;
            }
        }
    }

    /// Moves along `u` on a line, there and back.
    fn sweep_row(&self, lanes: &mut [Lane], j: usize) {
        let cells = self.nu - 1;
        let row = &mut lanes[j * self.nu..(j + 1) * self.nu];
        let prices = &self.u[j * cells..(j + 1) * cells];
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

    /// Moves along `v` on a line, there and back.
    fn sweep_column(&self, lanes: &mut [Lane], i: usize) {
        let nu = self.nu;
        let mut last = lanes[i];
        for j in 1..self.nv {
            let lane = &mut lanes[j * nu + i];
            relax(lane, &last, self.v[(j - 1) * nu + i]);
            last = *lane;
        }
        for j in (0..self.nv - 1).rev() {
            let lane = &mut lanes[j * nu + i];
            relax(lane, &last, self.v[j * nu + i]);
            last = *lane;
        }
    }

    /// Turns at the crossings of the lines that were swept; marks the lines on
    /// which one was worth it, and says whether any was.
    fn turn(
        &self,
        flood: &mut Flood,
        (swept_rows, swept_columns): &(Vec<bool>, Vec<bool>),
        rows: &mut [bool],
        columns: &mut [bool],
    ) -> bool {
        let mut changed = false;
        for j in 0..self.nv {
            let range = j * self.nu..(j + 1) * self.nu;
            let (row_u, row_v) = (&mut flood.u[range.clone()], &mut flood.v[range]);
            for (i, (u, v)) in row_u.iter_mut().zip(row_v).enumerate() {
                if !swept_rows[j] && !swept_columns[i] {
                    continue;
                }
                let (mut to_u, mut to_v) = (false, false);
                for lane in 0..LANES {
                    let (from_v, from_u) = (v[lane] + self.bend, u[lane] + self.bend);
                    to_u |= from_v < u[lane];
                    to_v |= from_u < v[lane];
                    u[lane] = u[lane].min(from_v);
                    v[lane] = v[lane].min(from_u);
                }
                rows[j] |= to_u;
                columns[i] |= to_v;
                changed |= to_u || to_v;
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

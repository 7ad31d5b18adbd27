//! Floods from up to eight places at once over the core lines of a void.
//!
//! Sweeping whole lines back and forth needs no queue and no branches, and the
//! sources ride in one wide register: one, two, four or eight of them. Each round adds a bend; only lines
//! onto which a turn is worth it are swept, within a window, and no turn is
//! worth it that costs more than the dearest way which is asked for.

use super::super::Key;
use super::stencil::{Entry, Stencil};
use super::tracks::Tracks;
use super::window::Window;

/// How many sources ride together at most.
pub(super) const LANES: usize = 8;

/// One number for each source.
pub(super) type Lane<const L: usize> = [f64; L];

/// No way, for every source.
pub(super) const fn no_way<const L: usize>() -> Lane<L> {
    [f64::INFINITY; L]
}

/// What the moves along core lines cost, ready for sweeping.
#[derive(Clone, Debug)]
pub(super) struct Prices {
    nu: usize,
    /// Along `u` on line `j` over cell `i`, `j · (nu − 1) + i`.
    u: Vec<f64>,
    /// Along `v` on line `i` over cell `j`, `j · nu + i`.
    v: Vec<f64>,
    bend: f64,
}

/// The least keys at a crossing, by the direction of the last move.
#[derive(Clone, Copy, Debug)]
pub(super) struct Crossing<const L: usize> {
    u: Lane<L>,
    v: Lane<L>,
}

/// The least keys at the crossings of a window.
#[derive(Clone, Debug)]
pub(super) struct Flood<const L: usize> {
    window: Window,
    crossings: Vec<Crossing<L>>,
    /// The lines of the window that are to be swept.
    rows: Vec<bool>,
    columns: Vec<bool>,
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
        Self { nu, u, v, bend: bend.to_lane() }
    }

    /// What the move from a crossing to the next along `u` costs.
    pub(super) fn step_u(&self, i: usize, j: usize) -> f64 {
        self.u[j * (self.nu - 1) + i]
    }

    /// What the move from a crossing to the next along `v` costs.
    pub(super) fn step_v(&self, i: usize, j: usize) -> f64 {
        self.v[j * self.nu + i]
    }

    /// Sweeps until no turn is worth it.
    pub(super) fn settle<const L: usize>(&self, flood: &mut Flood<L>, limit: &Lane<L>) {
        let Flood { window, crossings, rows, columns } = flood;
        loop {
            let mut changed = false;
            for (j, row) in rows.iter_mut().enumerate() {
                if std::mem::take(row) {
                    self.sweep_row(*window, crossings, j, limit, columns);
                    changed = true;
                }
            }
            for (i, column) in columns.iter_mut().enumerate() {
                if std::mem::take(column) {
                    self.sweep_column(*window, crossings, i, limit, rows);
                    changed = true;
                }
            }
            if !changed {
                return;
            }
        }
    }

    /// Turns onto a line along `u` and moves on it, there and back; marks the
    /// columns onto which a turn is worth it.
    fn sweep_row<const L: usize>(
        &self,
        window: Window,
        crossings: &mut [Crossing<L>],
        j: usize,
        limit: &Lane<L>,
        columns: &mut [bool],
    ) {
        let width = window.width();
        let row = &mut crossings[j * width..(j + 1) * width];
        let from = (window.j0 + j) * (self.nu - 1) + window.i0;
        let prices = &self.u[from..from + width - 1];
        let mut last = no_way();
        for (at, here) in row.iter_mut().enumerate() {
            let price = if at == 0 { f64::INFINITY } else { prices[at - 1] };
            let Crossing { u, v } = here;
            for lane in 0..L {
                let come = least(last[lane] + price, v[lane] + self.bend);
                u[lane] = least(come, u[lane]);
            }
            last = *u;
        }
        let mut last = no_way();
        for (at, here) in row.iter_mut().enumerate().rev() {
            let price = prices.get(at).copied().unwrap_or(f64::INFINITY);
            relax(&mut here.u, &last, price);
            last = here.u;
            columns[at] |= turn_is_worth(&here.u, &here.v, self.bend, limit);
        }
    }

    /// The same along `v`.
    fn sweep_column<const L: usize>(
        &self,
        window: Window,
        crossings: &mut [Crossing<L>],
        i: usize,
        limit: &Lane<L>,
        rows: &mut [bool],
    ) {
        let (width, height) = (window.width(), window.height());
        let price_at = |j: usize| self.v[(window.j0 + j) * self.nu + window.i0 + i];
        let mut last = no_way();
        for j in 0..height {
            let price = if j == 0 { f64::INFINITY } else { price_at(j - 1) };
            let Crossing { u, v } = &mut crossings[j * width + i];
            for lane in 0..L {
                let come = least(last[lane] + price, u[lane] + self.bend);
                v[lane] = least(come, v[lane]);
            }
            last = *v;
        }
        let mut last = no_way();
        for j in (0..height).rev() {
            let price = if j + 1 == height { f64::INFINITY } else { price_at(j) };
            let here = &mut crossings[j * width + i];
            relax(&mut here.v, &last, price);
            last = here.v;
            rows[j] |= turn_is_worth(&here.v, &here.u, self.bend, limit);
        }
    }
}

/// The lesser of two numbers, as one instruction has it.
#[inline(always)]
fn least(one: f64, other: f64) -> f64 {
    if one < other { one } else { other }
}

/// The lesser of what is there and what comes.
#[inline(always)]
fn relax<const L: usize>(to: &mut Lane<L>, from: &Lane<L>, price: f64) {
    for lane in 0..L {
        to[lane] = least(from[lane] + price, to[lane]);
    }
}

/// Whether turning makes a key less that can be part of a way asked for.
#[inline(always)]
fn turn_is_worth<const L: usize>(from: &Lane<L>, to: &Lane<L>, bend: f64, limit: &Lane<L>) -> bool {
    let mut worth = false;
    for lane in 0..L {
        let come = from[lane] + bend;
        worth |= (come < to[lane]) & (come <= limit[lane]);
    }
    worth
}

impl<const L: usize> Flood<L> {
    /// An empty flood.
    pub(super) fn within(window: Window) -> Self {
        Self {
            window,
            crossings: vec![
                Crossing { u: no_way(), v: no_way() };
                window.width() * window.height()
            ],
            rows: vec![false; window.height()],
            columns: vec![false; window.width()],
        }
    }

    /// Lets keys in at a place.
    pub(super) fn enter(&mut self, stencil: &Stencil, keys: &Lane<L>) {
        let width = self.window.width();
        for entry in &stencil.u {
            let Some((i, j)) = self.window.local(entry) else { continue };
            relax(&mut self.crossings[j * width + i].u, keys, entry.key);
            self.rows[j] = true;
        }
        for entry in &stencil.v {
            let Some((i, j)) = self.window.local(entry) else { continue };
            relax(&mut self.crossings[j * width + i].v, keys, entry.key);
            self.columns[i] = true;
        }
    }

    /// The least keys with which a place is reached.
    pub(super) fn leave(&self, stencil: &Stencil) -> Lane<L> {
        let width = self.window.width();
        let mut best = no_way();
        for entry in &stencil.u {
            let Some((i, j)) = self.window.local(entry) else { continue };
            relax(&mut best, &self.crossings[j * width + i].u, entry.key);
        }
        for entry in &stencil.v {
            let Some((i, j)) = self.window.local(entry) else { continue };
            relax(&mut best, &self.crossings[j * width + i].v, entry.key);
        }
        best
    }

    /// The least keys at a crossing of the window, from whichever direction.
    pub(super) fn least(&self, entry: &Entry) -> Lane<L> {
        let Some((i, j)) = self.window.local(entry) else { return no_way() };
        let crossing = &self.crossings[j * self.window.width() + i];
        std::array::from_fn(|lane| least(crossing.u[lane], crossing.v[lane]))
    }

    /// The least key at a crossing; infinite outside the window.
    pub(super) fn at(&self, entry: &Entry, along_u: bool, lane: usize) -> f64 {
        let Some((i, j)) = self.window.local(entry) else { return f64::INFINITY };
        let crossing = &self.crossings[j * self.window.width() + i];
        if along_u { crossing.u[lane] } else { crossing.v[lane] }
    }
}

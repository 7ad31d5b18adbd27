//! The part of a void in which the ways that are asked for can lie.

use super::super::{Key, Rect};
use super::stencil::Entry;
use super::tracks::{Lines, Tracks};
use super::{Ask, FastNetwork};

/// Lines of a void from the first to the last, both ways; at least one each.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Window {
    pub(super) i0: usize,
    i1: usize,
    pub(super) j0: usize,
    j1: usize,
}

impl Window {
    /// All lines of a void.
    pub(super) fn all(tracks: &Tracks) -> Self {
        let (nu, nv) = tracks.size();
        Self { i0: 0, i1: nu - 1, j0: 0, j1: nv - 1 }
    }

    /// The lines of a void within a rectangle. None where one way has none.
    pub(super) fn within(tracks: &Tracks, rect: &Rect) -> Option<Self> {
        let span = |lines: &Lines, low: i64, high: i64| {
            let first = lines.at.partition_point(|at| *at < low);
            let past = lines.at.partition_point(|at| *at <= high);
            (first < past).then(|| (first, past - 1))
        };
        let (i0, i1) = span(&tracks.u, rect.u0, rect.u1)?;
        let (j0, j1) = span(&tracks.v, rect.v0, rect.v1)?;
        Some(Self { i0, i1, j0, j1 })
    }

    /// How many crossings there are.
    pub(super) const fn size(&self) -> usize {
        self.width() * self.height()
    }

    /// The crossings on those sides beyond which there are more lines.
    pub(super) fn boundary(&self, tracks: &Tracks) -> impl Iterator<Item = Entry> {
        let Self { i0, i1, j0, j1 } = *self;
        let (nu, nv) = tracks.size();
        let upright = [(i0, i0 > 0), (i1, i1 + 1 < nu)].into_iter().filter(|side| side.1);
        let level = [(j0, j0 > 0), (j1, j1 + 1 < nv)].into_iter().filter(|side| side.1);
        let index = |line: usize| u32::try_from(line).unwrap_or(u32::MAX);
        let entry = move |i: usize, j: usize| Entry { i: index(i), j: index(j), key: 0.0 };
        let upright = upright.flat_map(move |(i, _)| (j0..=j1).map(move |j| entry(i, j)));
        upright.chain(level.flat_map(move |(j, _)| (i0..=i1).map(move |i| entry(i, j))))
    }

    /// Lines across `u`.
    pub(super) const fn width(&self) -> usize {
        self.i1 - self.i0 + 1
    }

    /// Lines across `v`.
    pub(super) const fn height(&self) -> usize {
        self.j1 - self.j0 + 1
    }

    /// A crossing counted from the first lines. None outside.
    pub(super) fn local(&self, entry: &Entry) -> Option<(usize, usize)> {
        let (i, j) = (entry.i as usize, entry.j as usize);
        let inside = self.i0 <= i && i <= self.i1 && self.j0 <= j && j <= self.j1;
        inside.then(|| (i - self.i0, j - self.j0))
    }
}

/// What no millimetre of any way costs less than, in a house whose voids share
/// one frame; along `u` and along `v`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Compass {
    u: i64,
    v: i64,
}

/// Room for the millimetres by which places are rounded where ways pass from
/// void to void.
const ROUNDING: i64 = 200;

impl Compass {
    /// None where voids lie in different frames.
    pub(super) fn of(fast: &FastNetwork<'_>) -> Option<Self> {
        let space = fast.space;
        let voids =
            || space.voids.iter().zip(fast.fields.iter()).filter(|(_, field)| field.is_some());
        let first = voids().next()?.0.frame;
        if voids().any(|(void, _)| void.frame != first) {
            return None;
        }
        let tracks = || fast.fields.iter().flatten().map(|field| &field.tracks);
        let sideways = space.walls.iter().map(|wall| wall.sideways.min(space.tariff.surface));
        let through = sideways.min().filter(|_| space.sideways_through).unwrap_or(i64::MAX);
        Some(Self {
            u: tracks().map(|tracks| tracks.u.least).min()?.min(through),
            v: tracks().map(|tracks| tracks.v.least).min()?.min(through),
        })
    }

    /// Makes it hold where a millimetre can cost as little as this.
    pub(super) fn count(&mut self, (u, v): (i64, i64)) {
        (self.u, self.v) = (self.u.min(u), self.v.min(v));
    }

    /// What going over from one place to another costs at least.
    pub(super) fn least(self, a: (i64, i64), b: (i64, i64)) -> i64 {
        (a.0 - b.0).abs() * self.u + (a.1 - b.1).abs() * self.v
    }
}

/// Where ends come out of their walls: around all their exits, and what the
/// cheapest of these costs.
#[derive(Clone, Copy, Debug)]
pub(super) struct Goal {
    around: Rect,
    key: Key,
}

impl Goal {
    /// None where no end has an exit.
    pub(super) fn of(fast: &FastNetwork<'_>, ends: &[usize]) -> Option<Self> {
        let exits = || ends.iter().flat_map(|end| &fast.ends[*end].exits);
        let places: Vec<(i64, i64)> = exits().map(|exit| fast.docks[exit.dock].spot.at()).collect();
        Some(Self { around: Rect::around(&places)?, key: exits().map(|exit| exit.key).min()? })
    }

    /// What going on from a place to any of the ends costs at least.
    pub(super) fn ahead(&self, compass: Compass, (u, v): (i64, i64)) -> f64 {
        let around = self.around.grown(ROUNDING);
        let nearest = (u.clamp(around.u0, around.u1), v.clamp(around.v0, around.v1));
        self.key.then(Key::new(compass.least((u, v), nearest), 0)).to_lane()
    }
}

impl FastNetwork<'_> {
    /// The window of a void outside of which no way lies that is asked for,
    /// when each costs no more than so much. None: no way needs a crossing.
    pub(super) fn window(
        &self,
        tracks: &Tracks,
        asks: &[Ask],
        at_most: &impl Fn(usize, usize) -> f64,
    ) -> Option<Window> {
        let Some(compass) = self.compass else { return Some(Window::all(tracks)) };
        let mut all: Option<Rect> = None;
        for (lane, ask) in asks.iter().enumerate() {
            for &target in &ask.targets {
                let most = Key::from_lane(at_most(lane, target));
                if !most.is_way() {
                    return Some(Window::all(tracks));
                }
                let rects = self.between(compass, ask.source, target, most);
                all = rects.fold(all, |all, rect| {
                    Some(all.map_or(rect, |all| Rect {
                        u0: all.u0.min(rect.u0),
                        v0: all.v0.min(rect.v0),
                        u1: all.u1.max(rect.u1),
                        v1: all.v1.max(rect.v1),
                    }))
                });
            }
        }
        Window::within(tracks, &all?)
    }

    /// For every exit of one end and every exit of the other, where ways
    /// between them can go that cost no more than so much.
    fn between(
        &self,
        compass: Compass,
        from: usize,
        to: usize,
        most: Key,
    ) -> impl Iterator<Item = Rect> {
        let bends = 2 * self.bend.cost().get();
        let (from, to) = (&self.ends[from].exits, &self.ends[to].exits);
        from.iter().flat_map(move |out| to.iter().map(move |into| (out, into))).filter_map(
            move |(out, into)| {
                let (a, b) = (self.docks[out.dock].spot.at(), self.docks[into.dock].spot.at());
                let ends = out.key.then(into.key).cost().get() + bends;
                let spare = most.cost().get() - ends - compass.least(a, b);
                // There and back again.
                let far = |price: i64| (spare + 1).div_euclid(2 * price) + ROUNDING;
                let (u, v) = (far(compass.u), far(compass.v));
                let rect = Rect::new(a.0, a.1, b.0, b.1);
                (spare >= 0).then(|| Rect {
                    u0: rect.u0 - u,
                    u1: rect.u1 + u,
                    v0: rect.v0 - v,
                    v1: rect.v1 + v,
                })
            },
        )
    }
}

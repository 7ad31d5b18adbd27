//! The cheapest ways between all ends of a house at once, fast.
//!
//! Gives the same keys as the plain [`Network`](super::Network), which stays
//! as the reference, from much smaller pieces: each wall is searched on its own,
//! each void is flooded over its core lines for eight ends at a time, and ends
//! reach the core lines by stencils. Circuits with an end on a wall that reaches
//! no void are prepared by themselves. Pins are left to the plain network.

mod back_trace;
mod beside;
mod boundary;
mod busy;
mod flood;
mod join;
mod landlocked;
mod lanes;
mod near;
mod prepare;
mod raster;
mod rows;
mod stencil;
mod tracks;
mod wall_graph;
mod window;

pub use self::near::Star;
pub use self::rows::{Ask, Floods, Group, Row, Rows};

use std::cell::OnceCell;
use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};

use self::join::Spot;
use self::landlocked::Landlocked;
use self::lanes::Prices;
use self::prepare::Preparation;
use self::stencil::Stencil;
use self::tracks::Tracks;
use self::wall_graph::{WallGraph, WallWays};
use self::window::Compass;
use super::{Key, Modes, Reach, Space, Step, Terminal};
use crate::units::Point2;

/// All ends of a house in one mode, ready for floods.
#[derive(Debug)]
pub struct FastNetwork<'a> {
    space: &'a Space,
    bend: Key,
    fields: Arc<[Option<Field>]>,
    docks: Vec<Dock>,
    ends: Vec<FastEnd>,
    graphs: Vec<Option<WallGraph>>,
    /// In the order of the places where they begin.
    passes: Vec<Pass>,
    /// For every dock, the passes from it and where they lead.
    onward: Vec<Vec<(usize, Key)>>,
    /// For every dock, the passes to it, by their numbers.
    inward: Vec<Vec<usize>>,
    /// For every void, the docks that passes join, by their places.
    gates: Vec<Vec<usize>>,
    /// None where voids lie in different frames.
    compass: Option<Compass>,
    /// Where legs may turn from wall to wall.
    landlocked: Option<Landlocked>,
    /// Whether the ends are those of one circuit and all that it has.
    joined: bool,
}

#[derive(Debug)]
struct Field {
    tracks: Tracks,
    prices: Prices,
    /// By their places; kept from one house to the next on the same lines.
    stencils: Mutex<BTreeMap<(i64, i64), Arc<Stencil>>>,
}

/// How many stencils are kept: enough for all points and columns of a large
/// house, and not for all places past which something is dragged in a day.
const KEPT: usize = 20_000;

impl Field {
    /// The stencil of a place.
    fn stencil(&self, bend: Key, spot: Spot) -> Arc<Stencil> {
        let mut known = self.stencils.lock().unwrap_or_else(PoisonError::into_inner);
        if known.len() >= KEPT {
            known.clear();
        }
        let made = || Arc::new(Stencil::of(&self.tracks, bend, spot));
        Arc::clone(known.entry(spot.at()).or_insert_with(made))
    }
}

/// The core lines of all voids with their prices, which no end changes.
#[derive(Clone, Debug)]
pub struct Planes(Arc<[Option<Field>]>);

impl Planes {
    /// Lays the lines of a space.
    #[must_use]
    pub fn of(space: &Space) -> Self {
        let bend = Key::new(space.tariff.bend, 0);
        let fields = space.voids.iter().zip(busy::lines(space)).map(|(field, more)| {
            let tracks = Tracks::of(field, more)?;
            let prices = Prices::of(&tracks, bend);
            Some(Field { tracks, prices, stencils: Mutex::default() })
        });
        Self(fields.collect())
    }
}

/// A place where something joins a void.
#[derive(Debug)]
struct Dock {
    void: usize,
    spot: Spot,
    /// Made when first asked for.
    stencil: OnceCell<Arc<Stencil>>,
}

/// An end, the ways out of its wall, and the ways to others on it.
#[derive(Debug)]
struct FastEnd {
    terminal: Terminal,
    exits: Vec<Exit>,
    /// The ways within its wall, if it is on one.
    ways: Option<WallWays>,
    node: usize,
}

/// A way from an end into a void, arriving upright.
#[derive(Clone, Copy, Debug)]
struct Exit {
    dock: usize,
    key: Key,
    /// The place in the wall's grid where it leaves, or the state among the landlocked walls.
    node: usize,
    step: Step,
    /// Its place on the page.
    page: Point2,
}

/// A way through a wall or a riser from one dock to another.
#[derive(Clone, Copy, Debug)]
struct Pass {
    from: usize,
    to: usize,
    key: Key,
    /// The wall and the places in its grid; None for a riser.
    through: Option<(usize, usize, usize)>,
    /// The places on the page where it begins and ends.
    pages: [Point2; 2],
}

impl<'a> FastNetwork<'a> {
    /// Prepares a house.
    #[must_use]
    pub fn of(space: &'a Space, modes: Modes, terminals: &[Terminal]) -> Self {
        Self::on(space, &Planes::of(space), modes, terminals)
    }

    /// The same on the lines of the same voids, laid before.
    #[must_use]
    pub fn on(space: &'a Space, planes: &Planes, modes: Modes, terminals: &[Terminal]) -> Self {
        Preparation::new(space, planes, modes, terminals).finish()
    }

    /// For the ends of one circuit alone, whatever walls they are on. Where one
    /// of its ends is stuck (see [`Space::is_stuck`]) its legs may turn from
    /// wall to wall.
    ///
    /// # Panics
    ///
    /// Where legs may go sideways in walls that they only pass through.
    #[must_use]
    pub fn joined(
        space: &'a Space,
        planes: &Planes,
        modes: Modes,
        terminals: &[Terminal],
        stuck: bool,
    ) -> Self {
        assert!(!space.sideways_through, "corners of walls would be ways through them");
        Preparation::joined(space, planes, modes, terminals, stuck).finish()
    }

    /// For a part of a larger space, where the least prices of the whole count.
    #[must_use]
    pub fn within(mut self, reach: &Reach) -> Self {
        if let (Some(compass), Some(void)) = (&mut self.compass, self.space.voids.first()) {
            compass.count(reach.least_in(void.frame));
        }
        self
    }

    /// Whether it was made for one circuit alone.
    #[must_use]
    pub const fn is_joined(&self) -> bool {
        self.joined
    }

    /// Whether these ends can be served: each has a way into a void, or none at
    /// all. Otherwise their circuit must be served alone.
    #[must_use]
    pub fn serves(&self, members: &[usize]) -> bool {
        self.joined
            || members.iter().all(|end| {
                let end = &self.ends[*end];
                let upright = matches!(end.terminal, Terminal::Upright { .. });
                !end.exits.is_empty() || upright || !self.space.leads_out(&end.terminal)
            })
    }

    /// Within walls.
    fn direct(&self, from: usize, to: usize) -> Key {
        if let Some(landlocked) = &self.landlocked {
            return landlocked.key(from, to);
        }
        let (a, b) = (&self.ends[from], &self.ends[to]);
        match (&a.terminal, &b.terminal, &a.ways) {
            (Terminal::Wall { wall, .. }, Terminal::Wall { wall: other, .. }, Some(ways))
                if wall == other =>
            {
                ways.key(b.node)
            }
            _ => Key::NONE,
        }
    }

    fn stencil(&self, field: &Field, dock: usize) -> &Stencil {
        let dock = &self.docks[dock];
        dock.stencil.get_or_init(|| field.stencil(self.bend, dock.spot))
    }

    /// No way between two docks of a void can cost less.
    fn least(&self, tracks: &Tracks, from: usize, to: usize) -> f64 {
        let (a, b) = (self.docks[from].spot.at(), self.docks[to].spot.at());
        let length = (a.0 - b.0).abs() + (a.1 - b.1).abs();
        let way = Key::new(tracks.least(a, b), length);
        way.then(self.bend).then(self.bend).to_lane()
    }
}

//! Where cable can go: void planes, wall planes, and the ways between ends.
//!
//! [`Space::of`] reads a plan once, [`Space::again`] while points are dragged; [`Network::around`] lays the lines on which
//! the cheapest ways between some ends lie; [`Network::ways_from`] finds them.
//! This room knows no circuits and no prices.

mod bare_wall;
mod corner;
mod detour_bound;
mod domain;
mod fast;
mod frame;
mod from_plan;
mod index;
mod key;
mod modes;
mod network;
mod portal;
mod rect;
mod search;
mod shell;
mod states;
mod void_field;
mod wall_field;
mod window;

pub use detour_bound::{DetourBound, Reach};
pub use domain::cover;
pub use fast::{Ask, FastNetwork, Floods, Group, Planes, Row, Rows, Star};
pub use frame::Frame;
pub use index::Index;
pub use key::Key;
pub use modes::Modes;
pub use network::{Network, Step};
pub use rect::Rect;
pub use search::{Stop, Ways};
pub use shell::Shell;
pub use states::States;
pub use void_field::{Barrier, PercentArea, VoidField};
pub use wall_field::{Column, Meet, WallField};
pub use window::Window;

use std::sync::Arc;

use crate::plan::Habits;
use crate::units::Point3;

/// What steers the routes, in hundredths of a millimetre of plain run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Tariff {
    /// A change of direction.
    pub bend: i64,
    /// Drilling a plate.
    pub plate: i64,
    /// Turning from one wall into the next inside them.
    pub corner: i64,
    /// One millimetre on the face of a wall.
    pub surface: i64,
}

impl From<&Habits> for Tariff {
    fn from(habits: &Habits) -> Self {
        Self {
            bend: habits.bend.get() * 100,
            plate: habits.plate.get() * 100,
            corner: habits.corner.get() * 100,
            surface: i64::from(habits.surface_percent),
        }
    }
}

/// Everything that a cable can run in or on.
#[derive(Clone, Debug)]
pub struct Space {
    /// The voids.
    pub voids: Arc<[VoidField]>,
    /// The walls.
    pub walls: Vec<Arc<WallField>>,
    /// Where walls meet.
    pub meets: Vec<Meet>,
    /// Shafts: the places, in the frames of the voids that each joins.
    pub risers: Vec<Vec<(usize, (i64, i64))>>,
    /// What steers the routes.
    pub tariff: Tariff,
    /// Whether legs may also go sideways in walls that they only pass through.
    pub sideways_through: bool,
}

/// Where a cable can end.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Terminal {
    /// In a wall: its index, the distance along it and the height.
    Wall {
        /// Index of the wall.
        wall: usize,
        /// Along it, mm.
        along: i64,
        /// Height, mm.
        z: i64,
    },
    /// On a ceiling, a floor or a post, straight under or over its voids.
    Upright {
        /// Where it is.
        place: Point3,
        /// The voids that it can reach, by index.
        voids: Vec<usize>,
        /// Whether they are above it (or else below).
        up: bool,
        /// Whether it stands on a post.
        post: bool,
    },
    /// In a void itself.
    InVoid {
        /// Index of the void.
        void: usize,
        /// The place in the void's frame.
        at: (i64, i64),
    },
}

impl Terminal {
    /// The wall that it is on, if it is on one.
    #[must_use]
    pub const fn wall(&self) -> Option<usize> {
        if let Self::Wall { wall, .. } = self { Some(*wall) } else { None }
    }
}

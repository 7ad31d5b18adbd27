//! Which ways are open to a circuit.

use super::VoidField;
use crate::plan::{VoidKind, Way};

/// The ways that are open.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[expect(clippy::struct_excessive_bools, reason = "each way is open or not, by itself")]
pub struct Modes {
    /// Voids above a level.
    pub overhead: bool,
    /// Voids below a level.
    pub underfloor: bool,
    /// The ground.
    pub underground: bool,
    /// Sideways inside walls.
    pub in_wall: bool,
    /// On the faces of walls.
    pub surface: bool,
}

impl Modes {
    /// What a circuit that lists its ways may use; without a list, all but the
    /// surface.
    #[must_use]
    pub fn of(ways: Option<&[Way]>) -> Self {
        let open = |way| ways.map_or(way != Way::Surface, |list| list.contains(&way));
        Self {
            overhead: open(Way::Overhead),
            underfloor: open(Way::Underfloor),
            underground: open(Way::Underground),
            in_wall: open(Way::InWall),
            surface: open(Way::Surface),
        }
    }

    /// Whether a void of this kind can be entered from a level, through its
    /// ceiling or its floor.
    #[must_use]
    pub const fn opens(&self, kind: VoidKind, through_ceiling: bool) -> bool {
        match kind {
            VoidKind::Ground => self.underground,
            _ if through_ceiling => self.overhead,
            _ => self.underfloor,
        }
    }

    /// Whether cables may be in a void at all, from wherever they come.
    #[must_use]
    pub fn opens_void(&self, void: &VoidField) -> bool {
        (void.over && self.opens(void.kind, true)) || (void.under && self.opens(void.kind, false))
    }

    /// Whether cables may go sideways in or on a wall.
    #[must_use]
    pub const fn sideways(&self) -> bool {
        self.in_wall || self.surface
    }
}

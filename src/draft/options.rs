//! What a person may ask of a draft.

use serde::{Deserialize, Serialize};

use crate::plan::Regime;
use crate::rules::words::Standard;

/// What to draft.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct DraftOptions {
    /// Whose rules. None: as the plan says.
    pub regime: Option<Regime>,
    /// How much of everything.
    pub standard: Standard,
    /// Where cables are to run.
    pub way: Wayfare,
    /// Where the board is to be. None: by the entrance.
    pub board: Option<BoardPlace>,
    /// What is taken for granted over levels that name no void.
    pub above: Above,
}

/// Where cables are to run.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Wayfare {
    /// Wherever it is cheapest.
    #[default]
    Mixed,
    /// Through the voids above, and sideways in walls.
    Overhead,
    /// Through the voids below wherever there is one, lights excepted.
    Underfloor,
}

/// What lies over levels that name no void.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Above {
    /// A roof space over the top level, voids between floors.
    #[default]
    Voids,
    /// Concrete, with a roof space over the top level.
    ConcreteFloors,
    /// Concrete everywhere: walls alone carry cables.
    Concrete,
}

/// Where the board is asked to be.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BoardPlace {
    /// The room, by id or name.
    pub room: String,
    /// Towards which side of it, or on which wall (by id). None: by its door.
    pub side: Option<Side>,
}

/// A side of a room.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Side {
    /// Up the page.
    North,
    /// To the right.
    East,
    /// Down the page.
    South,
    /// To the left.
    West,
    /// A wall, by its id.
    Wall(String),
}

impl std::str::FromStr for BoardPlace {
    type Err = DraftError;
    fn from_str(text: &str) -> Result<Self, DraftError> {
        let (room, side) = match text.split_once('/') {
            Some((room, side)) => (room, Some(side)),
            None => (text, None),
        };
        if room.is_empty() {
            return Err(DraftError::NoRoom { asked: text.to_owned() });
        }
        let side = side.map(|side| match side {
            "north" => Side::North,
            "east" => Side::East,
            "south" => Side::South,
            "west" => Side::West,
            wall => Side::Wall(wall.to_owned()),
        });
        Ok(Self { room: room.to_owned(), side })
    }
}

/// Why nothing could be drafted.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum DraftError {
    /// Nobody waits for it any more.
    #[error("stopped before it was done")]
    Stopped,
    /// Nothing to fix a box to.
    #[error("the plan has no wall that looks into a room; draw walls, or import a layout")]
    NoWalls,
    /// The room asked for the board is not there.
    #[error("no room \"{asked}\" for the board; name one by its id or its name, as in Hall/north")]
    NoRoom {
        /// What was asked for.
        asked: String,
    },
    /// The board has no room there.
    #[error("no free wall for the board in {asked}; ask for another side or another room")]
    NoSpace {
        /// Where it was asked for.
        asked: String,
    },
}

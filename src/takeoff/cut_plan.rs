//! The cut plan of one type of cable.

use serde::Serialize;

use super::cutting::Goals;
use super::{CutSource, Piece, ToBuy};
use crate::plan::Cable;
use crate::units::{Cents, Mm, Worked};

/// How the legs of one type of cable are cut. No leg is ever joined.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CutPlan {
    /// The type.
    pub cable: Cable,
    /// What is cut into: off-cuts in the order of the stock, then new drums,
    /// the fullest first.
    pub sources: Vec<CutSource>,
    /// Legs that nothing in the stock holds: bought by the metre.
    pub uncut: Vec<Piece>,
    /// What to buy of it.
    pub to_buy: ToBuy,
    /// The cuts added up.
    pub cut: Worked<Mm>,
    /// The new drums added up.
    pub bought: Worked<Mm>,
    /// What the new drums cost; None where a drum has no price, and where a leg
    /// is longer than all there is to cut it from.
    pub price: Option<Worked<Cents>>,
    /// Left-overs too short to keep, added up.
    pub scrap: Worked<Mm>,
    /// Left-overs worth keeping, added up: the next job's stock.
    pub left_over: Worked<Mm>,
    /// How good the plan is, goal by goal.
    pub goals: Goals,
    /// Whether everything is cut and no plan is better, by any goal.
    pub proven: bool,
}

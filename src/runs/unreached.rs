//! Why a point cannot be reached, and what would open the way.

use std::collections::BTreeMap;

use super::finder::Ground;
use crate::plan::{Circuit, End, Plan, Way};
use crate::space::{Modes, Space, Terminal};

/// Looks for what would open the way to the unreached ends of one circuit.
pub(super) struct Reasons<'a> {
    plan: &'a Plan,
    space: &'a Space,
    circuit: &'a Circuit,
    /// The ends of the circuit, the board first.
    ends: &'a [(End, Terminal)],
    /// Which of the ends the board reaches by some ways, as far as asked.
    reached: BTreeMap<Modes, Vec<bool>>,
}

impl<'a> Reasons<'a> {
    pub(super) fn new(
        plan: &'a Plan,
        space: &'a Space,
        circuit: &'a Circuit,
        ends: &'a [(End, Terminal)],
    ) -> Self {
        Self { plan, space, circuit, ends, reached: BTreeMap::new() }
    }

    /// The reason why an end is not reached and the mend, in words.
    pub(super) fn why(&mut self, end: usize) -> (String, String) {
        let now: Vec<Way> =
            self.circuit.ways.clone().unwrap_or_else(|| {
                Way::ALL.into_iter().filter(|way| *way != Way::Surface).collect()
            });
        for way in Way::ALL.into_iter().filter(|way| !now.contains(way)) {
            let mut more = now.clone();
            more.push(way);
            if self.opens(&more, end) {
                let name = way_name(way);
                return (format!("it is closed {name}"), format!("open the way {name}"));
            }
        }
        if self.opens(&Way::ALL, end) {
            return (
                "several ways are closed at once".to_owned(),
                "open all ways for this circuit".to_owned(),
            );
        }
        (
            "nothing joins the two places, whichever way is open".to_owned(),
            "join their voids by a riser, or clear what blocks the walls".to_owned(),
        )
    }

    /// Whether the board reaches an end by these ways.
    fn opens(&mut self, ways: &[Way], end: usize) -> bool {
        let modes = Modes::of(Some(ways));
        if !self.space.leads_out(&self.ends[end].1) {
            return false;
        }
        let (plan, space, circuit, ends) = (self.plan, self.space, self.circuit, self.ends);
        let reached = self.reached.entry(modes).or_insert_with(|| {
            let ground = Ground::of(plan, space, circuit, modes, ends);
            let board = ground.ways_from_board();
            (0..ends.len()).map(|end| board.key(end).is_way()).collect()
        });
        reached[end]
    }
}

const fn way_name(way: Way) -> &'static str {
    match way {
        Way::Overhead => "overhead",
        Way::Underfloor => "under the floor",
        Way::InWall => "sideways in walls",
        Way::Surface => "on the surface",
        Way::Underground => "through the ground",
    }
}

//! What the hand keeps beside its tool: a band, what was copied, the leg that
//! is chosen.

use wirewend::plan::{CircuitId, End};
use wirewend::runs::Leg;

use super::band::Band;
use super::clip::Clip;
use super::desk::Desk;
use super::pins_held::PinKey;
use super::work::Picture;

/// A leg by its circuit and its ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct LegKey {
    pub(super) circuit: CircuitId,
    pub(super) from: End,
    pub(super) to: End,
}

/// What the hand keeps.
#[derive(Clone, Debug, Default)]
pub(super) struct AtHand {
    /// A rubber band that is drawn.
    pub(super) band: Option<Band>,
    /// What was copied.
    pub(super) clip: Clip,
    /// The leg that is chosen.
    pub(super) leg: Option<LegKey>,
    /// The pin that is chosen.
    pub(super) pin: Option<PinKey>,
    /// The circuit's row that what is held is over.
    pub(super) over: Option<CircuitId>,
    /// The finding that was gone to, by its place in the list.
    pub(super) finding: Option<usize>,
    /// Whether the strip of the chosen leg is put away.
    pub(super) no_strip: bool,
}

impl LegKey {
    /// The key of a leg.
    pub(super) const fn of(leg: &Leg) -> Self {
        Self { circuit: leg.circuit, from: leg.from, to: leg.to }
    }

    /// The leg with its place in its circuit's list.
    pub(super) fn find(self, picture: &Picture) -> Option<(usize, &Leg)> {
        let legs = &picture.runs.circuits.get(&self.circuit)?.legs;
        legs.iter().enumerate().find(|(_, leg)| Self::of(leg) == self)
    }
}

impl Desk {
    /// The chosen leg with its place in its circuit's list, while there is one.
    pub(super) fn chosen_leg<'a>(&self, picture: &'a Picture) -> Option<(usize, &'a Leg)> {
        self.at_hand.leg?.find(picture)
    }
}

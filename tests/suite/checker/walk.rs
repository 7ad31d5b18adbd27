//! What a judgement looks at: a circuit with its run, or a leg with what each
//! of its segments runs in.

use wirewend::plan::{Board, Circuit, CircuitId, End, Finding, Plan, PointId, Subject};
use wirewend::runs::{Leg, LegRole, Run, Runs, Segment};

use super::medium::Medium;

/// A circuit with its run.
pub(crate) struct Case<'a> {
    pub(crate) plan: &'a Plan,
    pub(crate) id: CircuitId,
    pub(crate) circuit: &'a Circuit,
    pub(crate) run: &'a Run,
    pub(crate) findings: &'a [Finding],
}

impl<'a> Case<'a> {
    /// Every circuit that the plan and the runs have.
    pub(crate) fn all(plan: &'a Plan, runs: &'a Runs) -> impl Iterator<Item = Self> {
        runs.circuits.iter().filter_map(move |(id, run)| {
            let circuit = plan.circuits.get(id)?;
            Some(Self { plan, id: *id, circuit, run, findings: &runs.findings })
        })
    }

    /// The legs that make the feed, in order.
    pub(crate) fn feed(&self) -> impl Iterator<Item = &'a Leg> {
        self.run.legs.iter().filter(|leg| {
            matches!(leg.role, LegRole::Feed | LegRole::RingReturn | LegRole::Interlink)
        })
    }

    /// The legs of a role, in order.
    pub(crate) fn legs(&self, role: LegRole) -> impl Iterator<Item = &'a Leg> {
        self.run.legs.iter().filter(move |leg| leg.role == role)
    }

    /// Whether any leg begins or ends there.
    pub(crate) fn reaches(&self, end: End) -> bool {
        self.run.legs.iter().any(|leg| leg.from == end || leg.to == end)
    }

    /// Whether mains gets there by a leg of the feed or a spur.
    pub(crate) fn feeds(&self, point: PointId) -> bool {
        let end = End::Point(point);
        self.run.order.ends.contains(&end) || self.legs(LegRole::Spur).any(|leg| leg.to == end)
    }

    /// Whether a point is placed somewhere that exists.
    pub(crate) fn placed(&self, point: PointId) -> bool {
        let place = self.plan.place_of(End::Point(point));
        place.is_some_and(|place| self.plan.position(&place).is_some())
    }

    /// Whether a finding says why a point is not reached.
    pub(crate) fn excused(&self, point: PointId) -> bool {
        let board = self.circuit.board;
        let no_board = board
            .and_then(|id| self.plan.boards.get(&id))
            .and_then(|board: &Board| board.place)
            .is_none_or(|place| self.plan.position(&place).is_none());
        self.findings.iter().any(|finding| match finding.subject {
            Subject::Point(id) => id == point,
            Subject::Leg { from, to, .. } => [from, to].contains(&End::Point(point)),
            Subject::Control(id) => self
                .plan
                .controls
                .get(&id)
                .is_some_and(|one| one.lights.contains(&point) || one.switches.contains(&point)),
            Subject::Circuit(id) => id == self.id && no_board,
            Subject::Board(id) => Some(id) == board && no_board,
            _ => false,
        })
    }
}

/// A leg with what each of its segments runs in.
pub(crate) struct Walk<'a> {
    pub(crate) plan: &'a Plan,
    pub(crate) circuit: &'a Circuit,
    pub(crate) leg: &'a Leg,
    media: Vec<Medium>,
}

impl<'a> Walk<'a> {
    pub(crate) fn of(plan: &'a Plan, circuit: &'a Circuit, leg: &'a Leg) -> Self {
        let count = leg.route.segments.len();
        let media = (0..count).map(|at| Medium::of(plan, leg, at)).collect();
        Self { plan, circuit, leg, media }
    }

    /// Every segment with its index and what it runs in.
    pub(crate) fn pieces(&self) -> impl Iterator<Item = (usize, &'a Segment, Medium)> {
        let segments = self.leg.route.segments.iter().enumerate();
        segments.zip(&self.media).map(|((at, segment), medium)| (at, segment, *medium))
    }

    /// Every two segments in a row, with the index of the first.
    pub(crate) fn pairs(&self) -> impl Iterator<Item = (usize, [&'a Segment; 2], [Medium; 2])> {
        let segments = self.leg.route.segments.windows(2).enumerate();
        segments
            .zip(self.media.windows(2))
            .map(|((at, pair), media)| (at, [&pair[0], &pair[1]], [media[0], media[1]]))
    }
}

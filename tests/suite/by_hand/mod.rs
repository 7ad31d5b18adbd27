//! Rules held one by one to values worked by hand, each with its source
//! beside it, and to both sides of the places where a limit is just met.

mod company;
mod drops;
mod hidden;
mod lengths;
mod loads;
mod ratings;
mod work;

use wirewend::checks::{Checked, check};
use wirewend::plan::{CircuitId, CircuitUse, Curve, PointKind, Regime};
use wirewend::rules::RuleBook;
use wirewend::runs::{LegRole, Segment};

use crate::wired::{BOARD, Stretch, Wired};

fn checked(wired: &Wired) -> Checked {
    check(&wired.plan, &wired.runs, &wired.lengths, &RuleBook::shipped())
}

/// A circuit for one thing, on one leg of these stretches.
fn one_leg(
    wired: &mut Wired,
    (kind, watts): (PointKind, f64),
    (mm2, rating): (f64, f64),
    way: &[Stretch],
) -> CircuitId {
    let circuit = wired.circuit(CircuitUse::Fixed, mm2, rating, Curve::B);
    let point = wired.point(circuit, kind, Some(watts));
    wired.leg(circuit, LegRole::Feed, BOARD, point, way);
    circuit
}

/// What the cable of a circuit can carry, A.
fn capacity(checked: &Checked, circuit: CircuitId) -> f64 {
    checked.circuits[&circuit].capacity.as_ref().unwrap().value.0
}

fn segments(wired: &mut Wired, circuit: CircuitId, leg: usize) -> &mut [Segment] {
    &mut wired.runs.circuits[&circuit].legs[leg].route.segments
}

/// A plan by these rules in which cables side by side are rated as a bunch.
fn together(regime: Regime) -> Wired {
    let mut wired = Wired::new(regime);
    wired.plan.habits.keep_apart = false;
    wired
}

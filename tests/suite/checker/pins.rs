//! A leg goes through its pins in their order.

use wirewend::plan::{Pin, PinPlace, Plane};
use wirewend::runs::{Leg, Segment};

use super::complaint::{Code, Complaints};
use super::shape::{NEAR, Spot, distance_to_line};
use super::walk::Case;

pub(crate) fn judge(case: &Case, book: &mut Complaints) {
    for pin in &case.circuit.pins {
        for leg in &case.run.legs {
            if (leg.from, leg.to) == (pin.from, pin.to) {
                judge_leg(leg, pin.through.iter().collect(), book);
            } else if (leg.to, leg.from) == (pin.from, pin.to) {
                judge_leg(leg, reversed(pin), book);
            }
        }
    }
}

fn reversed(pin: &Pin) -> Vec<&PinPlace> {
    pin.through.iter().rev().collect()
}

fn judge_leg(leg: &Leg, pins: Vec<&PinPlace>, book: &mut Complaints) {
    let mut reached = 0.0;
    for pin in pins {
        match passes(leg, pin, reached) {
            Some(at) => reached = at,
            None => {
                let text = format!("misses {:?} in {}", pin.at, pin.void);
                book.leg(Code::Pin, leg, text);
                return;
            }
        }
    }
}

/// How far along a leg it first passes a pin, not before a given length.
fn passes(leg: &Leg, pin: &PinPlace, after: f64) -> Option<f64> {
    let mut start = 0.0;
    for segment in &leg.route.segments {
        let (from, to) = (Spot::under(segment.from), Spot::under(segment.to));
        let at = start + from.distance(Spot::of(pin.at));
        if touches(segment, pin, from, to) && at >= after - NEAR {
            return Some(at);
        }
        start += segment.from.distance(segment.to);
    }
    None
}

fn touches(segment: &Segment, pin: &PinPlace, from: Spot, to: Spot) -> bool {
    segment.plane == Some(Plane::Void(pin.void))
        && distance_to_line(Spot::of(pin.at), from, to) <= NEAR
}

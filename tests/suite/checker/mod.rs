//! Judges routed runs and cut lengths with code of its own: it shares nothing
//! with the rooms that make them but the types of the plan and of the results.
//!
//! One judgement per file. All shapes are worked in floating point and read
//! with a tolerance of [`shape::NEAR`] millimetres, for the roundings of
//! oblique walls and turned voids.

mod alarms;
mod blocked;
mod complaint;
mod controls;
mod cores;
mod corners;
mod cost;
mod cut;
mod ends;
mod feed;
mod foreign;
mod headings;
mod house;
mod isolators;
mod joined;
mod joints;
mod loops;
mod matrix;
mod medium;
mod numbers;
mod order;
mod pins;
mod planes;
mod plates;
mod shape;
mod spurs;
mod strips;
mod surroundings;
mod totals;
mod walk;
mod ways;
mod whole;
mod zones;

use wirewend::lengths::Lengths;
use wirewend::plan::Plan;
use wirewend::runs::Runs;

use complaint::Complaints;
pub(crate) use complaint::{Code, Complaint};
use walk::{Case, Walk};

/// Everything that is wrong with the runs, and with the lengths where there
/// are any. Costs are judged apart, by [`judge_costs`].
pub(crate) fn judge(plan: &Plan, runs: &Runs, lengths: Option<&Lengths>) -> Vec<Complaint> {
    let mut book = Complaints::default();
    whole::judge(plan, runs, &mut book);
    for case in Case::all(plan, runs) {
        judge_circuit(&case, &mut book);
        for leg in &case.run.legs {
            judge_leg(&Walk::of(plan, case.circuit, leg), &mut book);
        }
    }
    if let Some(lengths) = lengths {
        cut::judge(plan, runs, lengths, &mut book);
        totals::judge(plan, runs, lengths, &mut book);
    }
    book.all
}

/// Legs whose cost is not that of their segments.
pub(crate) fn judge_costs(plan: &Plan, runs: &Runs) -> Vec<Complaint> {
    let mut book = Complaints::default();
    for case in Case::all(plan, runs) {
        for leg in &case.run.legs {
            cost::judge(&Walk::of(plan, case.circuit, leg), &mut book);
        }
    }
    book.all
}

fn judge_circuit(case: &Case, book: &mut Complaints) {
    for judgement in [
        numbers::judge,
        feed::judge,
        spurs::judge,
        isolators::judge,
        pins::judge,
        loops::judge,
        controls::judge,
        alarms::judge,
        cores::judge,
        order::judge,
        matrix::judge,
    ] {
        judgement(case, book);
    }
}

fn judge_leg(walk: &Walk, book: &mut Complaints) {
    for judgement in [
        ends::judge,
        joined::judge,
        headings::judge,
        planes::judge,
        plates::judge,
        joints::judge,
        blocked::judge,
        zones::judge,
        foreign::judge,
        corners::judge,
        surroundings::judge,
        ways::judge,
    ] {
        judgement(walk, book);
    }
}

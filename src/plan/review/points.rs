//! Points: what is not decided yet, and marks.

use std::collections::BTreeSet;

use super::super::label::things;
use super::super::{End, Family, Finding, Severity, Subject};
use super::Drawing;
use crate::units::Mm;

pub(super) fn review(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    for (id, point) in &drawing.plan.points {
        let mark = drawing.end(End::Point(*id));
        let what = format!("{} {mark}", point.kind.name());
        let place = point.place.and_then(|place| drawing.plan.position(&place));
        let mut add = |code, severity, message, remedy: &str| {
            let finding = Finding::new(code, severity, Subject::Point(*id), message, remedy);
            findings.push(Finding { place, ..finding });
        };
        if point.place.is_none() {
            let remedy = "put it on a wall, a ceiling, a floor or a post";
            add("unplaced-point", Severity::Missing, format!("{what} is not placed"), remedy);
        }
        // A junction box joins whatever legs come to it.
        if point.circuit.is_none() && point.kind.family() != Family::Junctions {
            let message = format!("{what} is on no circuit");
            add("point-without-circuit", Severity::Missing, message, "put it on a circuit");
        }
        if point.gangs == 0 {
            let message = format!("{what} has no gangs");
            add("point-without-gangs", Severity::Fault, message, "say how many share the plate");
        }
        if point.load.is_some_and(|load| load.0 < 0.0) {
            let message = format!("{what} has a load below 0 W");
            add("negative-load", Severity::Fault, message, "set the load to design for");
        }
        if point.tail.is_some_and(|tail| tail < Mm::ZERO) {
            let message = format!("{what} has a tail below 0 mm");
            add("negative-tail", Severity::Fault, message, "set the cable left at its box");
        }
    }
    same_labels(drawing, findings);
}

/// Cable ends are found by their marks, so a label must be one thing's alone.
fn same_labels(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    let mut seen: BTreeSet<&str> = BTreeSet::new();
    for (end, _, label) in things(drawing.plan).filter(|(_, _, label)| !label.is_empty()) {
        let (subject, mark) = (Subject::from(end), drawing.end(end));
        let twice = !seen.insert(label);
        if label == mark {
            continue;
        }
        let why = if twice || things(drawing.plan).any(|(other, ..)| drawing.end(other) == label) {
            "like another"
        } else {
            "as issued papers call what is gone"
        };
        let message = format!("{subject} is labelled {label} {why}, and is marked {mark}");
        let remedy = "give it a label of its own, or none";
        findings.push(Finding::new("same-label", Severity::Warning, subject, message, remedy));
    }
}

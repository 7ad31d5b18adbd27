//! Which switches work which lights.

use std::collections::{BTreeMap, BTreeSet};

use super::super::{
    Control, ControlId, End, Family, Finding, PointId, PointKind, Severity, Subject,
};
use super::Drawing;

pub(super) fn review(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    for (id, control) in &drawing.plan.controls {
        empty(*id, control, findings);
        wrong_kinds(drawing, *id, control, findings);
    }
    switches(drawing, findings);
    lights(drawing, findings);
}

fn kind(drawing: &Drawing<'_>, point: PointId) -> Option<PointKind> {
    drawing.plan.points.get(&point).map(|point| point.kind)
}

fn is_switch(kind: PointKind) -> bool {
    kind.family() == Family::Switches
}

fn can_be_worked(kind: PointKind) -> bool {
    kind.family() == Family::Lights || kind == PointKind::ExhaustFan
}

fn empty(id: ControlId, control: &Control, findings: &mut Vec<Finding>) {
    for (is_empty, code, what, remedy) in [
        (control.lights.is_empty(), "control-without-lights", "lights", "say what it works"),
        (control.switches.is_empty(), "control-without-switches", "switches", "say what works it"),
    ] {
        if is_empty {
            let message = format!("control {id} has no {what}");
            findings.push(Finding::new(
                code,
                Severity::Missing,
                Subject::Control(id),
                message,
                remedy,
            ));
        }
    }
}

fn wrong_kinds(
    drawing: &Drawing<'_>,
    id: ControlId,
    control: &Control,
    findings: &mut Vec<Finding>,
) {
    let mut seen: BTreeSet<PointId> = BTreeSet::new();
    let lights = control
        .lights
        .iter()
        .map(|id| (*id, can_be_worked as fn(PointKind) -> bool, "a light or a fan"));
    let switches =
        control.switches.iter().map(|id| (*id, is_switch as fn(PointKind) -> bool, "a switch"));
    for (point, fits, expected) in lights.chain(switches) {
        let mark = drawing.end(End::Point(point));
        let message = match kind(drawing, point) {
            Some(kind) if !fits(kind) => {
                format!("control {id} takes {mark}, {}, for {expected}", with_article(kind.name()))
            }
            _ if !seen.insert(point) => format!("control {id} names {mark} twice"),
            _ => continue,
        };
        findings.push(Finding::new(
            "control-names-wrong-point",
            Severity::Fault,
            Subject::Control(id),
            message,
            "take it out of the control, or change its kind",
        ));
    }
}

fn with_article(noun: &str) -> String {
    let article = if noun.starts_with(['a', 'e', 'i', 'o', 'u']) { "an" } else { "a" };
    format!("{article} {noun}")
}

/// In how many controls each point is.
fn uses<'a>(lists: impl Iterator<Item = &'a [PointId]>) -> BTreeMap<PointId, usize> {
    let mut uses = BTreeMap::new();
    for list in lists {
        // Naming a point twice in one control is a finding of its own.
        for point in list.iter().copied().collect::<BTreeSet<PointId>>() {
            *uses.entry(point).or_default() += 1;
        }
    }
    uses
}

/// Every gang of a plate works one control.
fn switches(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    let uses = uses(drawing.plan.controls.values().map(|control| control.switches.as_slice()));
    for (id, point) in drawing.plan.points.iter().filter(|(_, point)| is_switch(point.kind)) {
        let mark = drawing.end(End::Point(*id));
        let count = uses.get(id).copied().unwrap_or(0);
        let place = point.place.and_then(|place| drawing.plan.position(&place));
        let finding = if count == 0 {
            Finding::new(
                "switch-without-control",
                Severity::Missing,
                Subject::Point(*id),
                format!("{} {mark} works nothing", point.kind.name()),
                "say what it works, or remove it",
            )
        } else if count > usize::from(point.gangs) {
            Finding::new(
                "too-few-gangs",
                Severity::Fault,
                Subject::Point(*id),
                format!("{} {mark} is in more controls than it has gangs", point.kind.name()),
                "give its plate more gangs, or take it out of a control",
            )
            .against(format!("{count} controls"), format!("{} gangs", point.gangs), "")
        } else {
            continue;
        };
        findings.push(Finding { place, ..finding });
    }
}

/// Every light is in one control; a second switch belongs to the same one.
fn lights(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    let uses = uses(drawing.plan.controls.values().map(|control| control.lights.as_slice()));
    for (id, point) in &drawing.plan.points {
        let (mark, name) = (drawing.end(End::Point(*id)), point.kind.name());
        let place = point.place.and_then(|place| drawing.plan.position(&place));
        let finding = match uses.get(id).copied().unwrap_or(0) {
            0 if point.kind.family() == Family::Lights => Finding::new(
                "light-without-switch",
                Severity::Missing,
                Subject::Point(*id),
                format!("no switch works {name} {mark}"),
                "put it in a control with its switches",
            ),
            0 | 1 => continue,
            count => Finding::new(
                "light-in-several-controls",
                Severity::Fault,
                Subject::Point(*id),
                format!("{name} {mark} is in several controls"),
                "put all its switches in one control",
            )
            .against(format!("{count} controls"), "1 control", ""),
        };
        findings.push(Finding { place, ..finding });
    }
}

//! Rooms, and areas with a rule of their own.

use super::super::{AreaEffect, Finding, Severity, Subject};
use super::outline::outline_faults;
use super::{Drawing, named};
use crate::units::Mm;

pub(super) fn review(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    for (id, room) in &drawing.plan.rooms {
        let mark = drawing.room(*id);
        findings.extend(outline_faults(&room.outline, Subject::Room(*id), &mark));
        if room.name.is_empty() {
            findings.push(Finding::new(
                "room-without-name",
                Severity::Missing,
                Subject::Room(*id),
                format!("{mark} has no name"),
                "give it the name that people call it by",
            ));
        }
    }
    for (id, area) in &drawing.plan.areas {
        let mark = named("area", &area.name, id);
        findings.extend(outline_faults(&area.outline, Subject::Area(*id), &mark));
        let odd = match area.effect {
            AreaEffect::KeepOut => None,
            AreaEffect::Percent(percent) => (percent == 0).then(|| "0 %".to_owned()),
            AreaEffect::Barrier(toll) => (toll < Mm::ZERO).then(|| toll.to_string()),
        };
        findings.extend(odd.map(|effect| {
            Finding::new(
                "odd-area-effect",
                Severity::Warning,
                Subject::Area(*id),
                format!("{mark} makes cable cost nothing or less: {effect}"),
                "set what a run through it costs",
            )
        }));
    }
}

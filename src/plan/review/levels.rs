//! Storeys, voids and risers.

use std::collections::BTreeSet;

use super::super::{Finding, LevelId, Riser, RiserId, Severity, Subject, Void, VoidId};
use super::outline::{distance_to_segment, outline_faults};
use super::{Drawing, named};
use crate::plan::outline_holds;
use crate::units::Mm;

pub(super) fn review(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    if drawing.plan.levels.is_empty() {
        findings.push(Finding::new(
            "no-level",
            Severity::Missing,
            Subject::Plan,
            "the plan has no level yet",
            "draw a level with its floor and its height",
        ));
    }
    findings.extend(drawing.plan.levels.iter().filter(|(_, level)| level.height <= Mm::ZERO).map(
        |(id, level)| {
            Finding::new(
                "level-without-height",
                Severity::Fault,
                Subject::Level(*id),
                format!("{} has no height", named("level", &level.name, id)),
                "say how far its ceiling is above its floor",
            )
            .against(level.height.to_string(), "more than 0 mm", "")
        },
    ));
    for (id, void) in &drawing.plan.voids {
        unused(drawing, *id, void, findings);
        wrong_side(drawing, *id, void, findings);
        sizes(*id, void, findings);
        let mark = named("void", &void.name, id);
        let outline =
            void.outline.iter().flat_map(|it| outline_faults(it, Subject::Void(*id), &mark));
        findings.extend(outline);
    }
    for (id, riser) in &drawing.plan.risers {
        joins_too_few(*id, riser, findings);
        outside(drawing, *id, riser, findings);
    }
}

/// A void that no level opens into: no cable can get there.
fn unused(drawing: &Drawing<'_>, id: VoidId, void: &Void, findings: &mut Vec<Finding>) {
    let used = |list: &[VoidId]| list.contains(&id);
    if !drawing.plan.levels.values().any(|level| used(&level.above) || used(&level.below)) {
        findings.push(Finding::new(
            "void-without-level",
            Severity::Missing,
            Subject::Void(id),
            format!("{} is above or below no level", named("void", &void.name, id)),
            "add it to what is above or below a level, or remove it",
        ));
    }
}

/// A void above a level whose cables would lie below its ceiling, or the other
/// way round.
fn wrong_side(drawing: &Drawing<'_>, id: VoidId, void: &Void, findings: &mut Vec<Finding>) {
    let mark = named("void", &void.name, id);
    for (level_id, level) in &drawing.plan.levels {
        let level_mark = named("level", &level.name, level_id);
        let odd = if level.above.contains(&id) && void.z < level.ceiling() {
            (
                format!("{mark} is drawn above {level_mark}, but lies below its ceiling"),
                level.ceiling(),
                "at least",
            )
        } else if level.below.contains(&id) && void.z > level.floor {
            (
                format!("{mark} is drawn below {level_mark}, but lies above its floor"),
                level.floor,
                "at most",
            )
        } else {
            continue;
        };
        let (message, limit, which) = odd;
        findings.push(
            Finding::new(
                "void-on-wrong-side",
                Severity::Fault,
                Subject::Void(id),
                message,
                "mend the height at which cables cross it, or the level's height",
            )
            .against(void.z.to_string(), format!("{which} {limit}"), ""),
        );
    }
}

fn sizes(id: VoidId, void: &Void, findings: &mut Vec<Finding>) {
    let joists = void.joists.iter().flat_map(|joists| {
        [
            ("joist spacing", joists.spacing, 1),
            ("joist depth", joists.depth, 1),
            ("joist thickness", joists.thickness, 1),
        ]
    });
    let own = [("depth", void.depth, 1), ("insulation", void.insulation, 0)];
    findings.extend(
        own.into_iter().chain(joists).filter(|(_, size, least)| size.get() < *least).map(
            |(what, size, least)| {
                Finding::new(
                    "odd-void-size",
                    Severity::Warning,
                    Subject::Void(id),
                    format!("the {what} of {} is {size}", named("void", &void.name, id)),
                    format!("measure the {what}"),
                )
                .against(size.to_string(), format!("at least {least} mm"), "")
            },
        ),
    );
}

fn joins_too_few(id: RiserId, riser: &Riser, findings: &mut Vec<Finding>) {
    let voids: BTreeSet<VoidId> = riser.voids.iter().copied().collect();
    if voids.len() < 2 {
        findings.push(
            Finding::new(
                "riser-joins-too-few",
                Severity::Missing,
                Subject::Riser(id),
                format!("{} joins fewer than two voids", named("riser", &riser.name, id)),
                "say which voids it passes through, or remove it",
            )
            .against(voids.len().to_string(), "at least 2", ""),
        );
    }
}

fn outside(drawing: &Drawing<'_>, id: RiserId, riser: &Riser, findings: &mut Vec<Finding>) {
    for void_id in &riser.voids {
        let Some(void) = drawing.plan.voids.get(void_id) else { continue };
        if covers(drawing, *void_id, void, riser) {
            continue;
        }
        let message = format!(
            "{} does not stand within {}",
            named("riser", &riser.name, id),
            named("void", &void.name, void_id)
        );
        let remedy = "move the riser, or mend the outline of the void";
        findings.push(
            Finding::new("riser-outside", Severity::Fault, Subject::Riser(id), message, remedy)
                .at(riser.at.at_height(void.z)),
        );
    }
}

/// Whether a void reaches the place of a riser; without an outline it reaches
/// as far as the rooms and walls of its levels.
fn covers(drawing: &Drawing<'_>, id: VoidId, void: &Void, riser: &Riser) -> bool {
    let (x, y) = (riser.at.x.to_f64(), riser.at.y.to_f64());
    let holds = |outline: &[crate::units::Point2]| {
        outline_holds(outline, x, y)
            || (0..outline.len()).any(|index| {
                let next = outline[(index + 1) % outline.len()];
                distance_to_segment(outline[index], next, riser.at) < 1.0
            })
    };
    if let Some(outline) = &void.outline {
        return holds(outline);
    }
    let plan = drawing.plan;
    let on_level = |level: &LevelId| {
        plan.levels
            .get(level)
            .is_some_and(|level| level.above.contains(&id) || level.below.contains(&id))
    };
    let mut rooms = plan.rooms.values().filter(|room| on_level(&room.level));
    let mut walls = plan.walls.values().filter(|wall| on_level(&wall.level));
    rooms.any(|room| holds(&room.outline))
        || walls.any(|wall| {
            distance_to_segment(wall.a, wall.b, riser.at) <= wall.thickness.to_f64() / 2.0
        })
}

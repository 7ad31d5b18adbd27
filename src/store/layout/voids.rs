//! The voids that are assumed above, between and below the levels.

use super::{LayoutOptions, LayoutReport, NoteKind, next_id};
use crate::plan::{Access, Joists, LevelId, Plan, Void, VoidId, VoidKind};
use crate::units::Mm;

/// Adds the voids that the options ask for.
pub(super) fn add(
    plan: &mut Plan,
    levels: &[LevelId],
    options: &LayoutOptions,
    report: &mut LayoutReport,
) {
    let mut assumed = |name: &str, present: bool| {
        let what = if present { name } else { "concrete" };
        let message = format!("{what} taken for granted where a {name} could be");
        report.note(NoteKind::Assumed, "levels".to_owned(), message);
    };
    assumed("roof space", options.roof_space);
    if levels.len() > 1 {
        assumed("void between floors", options.between_floors);
    }
    assumed("crawl space", options.subfloor);
    if let (true, Some(lowest)) = (options.subfloor, levels.first()) {
        let floor = plan.levels[lowest].floor;
        let id =
            insert(plan, void("Crawl space", VoidKind::Subfloor, floor - Mm::new(300), options));
        plan.levels[lowest].below.push(id);
    }
    for pair in levels.windows(2).filter(|_| options.between_floors) {
        let (ceiling, floor) = (plan.levels[&pair[0]].ceiling(), plan.levels[&pair[1]].floor);
        let middle = ceiling + (floor - ceiling).half();
        let id = insert(plan, void("Between floors", VoidKind::BetweenFloors, middle, options));
        plan.levels[&pair[0]].above.push(id);
        plan.levels[&pair[1]].below.push(id);
    }
    if let (true, Some(top)) = (options.roof_space, levels.last()) {
        let ceiling = plan.levels[top].ceiling();
        let id =
            insert(plan, void("Roof space", VoidKind::RoofSpace, ceiling + Mm::new(100), options));
        plan.levels[top].above.push(id);
    }
}

fn insert(plan: &mut Plan, void: Void) -> VoidId {
    let id = VoidId(next_id(plan));
    plan.voids.insert(id, void);
    id
}

fn void(name: &str, kind: VoidKind, z: Mm, options: &LayoutOptions) -> Void {
    let joists = Joists { spacing: Mm::new(450), depth: Mm::new(190), thickness: Mm::new(45) };
    Void {
        name: name.to_owned(),
        kind,
        z,
        depth: if kind == VoidKind::BetweenFloors { options.floor_build_up } else { Mm::new(600) },
        direction: options.joists,
        joists: Some(joists),
        insulation: if kind == VoidKind::RoofSpace { Mm::new(200) } else { Mm::ZERO },
        access: if kind == VoidKind::BetweenFloors { Access::Closed } else { Access::Crawl },
        outline: None,
    }
}

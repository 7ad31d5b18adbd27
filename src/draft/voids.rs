//! Voids for levels that name none.

use super::kit::Kit;
use super::options::Above;
use crate::plan::{Access, Joists, LevelId, Subject, Void, VoidId, VoidKind};
use crate::units::{Angle, Mm};

/// Adds voids where no level of the plan names any.
pub(super) fn supply(kit: &mut Kit<'_>) {
    let named =
        kit.plan.levels.values().any(|level| !level.above.is_empty() || !level.below.is_empty());
    if named || kit.plan.levels.is_empty() {
        return;
    }
    let mut levels: Vec<LevelId> = kit.plan.levels.keys().copied().collect();
    levels.sort_by_key(|id| (kit.plan.levels[id].floor, *id));
    if kit.options.above == Above::Concrete {
        kit.reason(Subject::Plan, "concrete over every level", "asked for: cables stay in walls");
        return;
    }
    for pair in levels.windows(2).filter(|_| kit.options.above == Above::Voids) {
        let (ceiling, floor) =
            (kit.plan.levels[&pair[0]].ceiling(), kit.plan.levels[&pair[1]].floor);
        let gap = (floor - ceiling).max(Mm::ZERO);
        let void = void("Between floors", VoidKind::BetweenFloors, ceiling + gap.half(), gap);
        let id = insert(kit, void);
        kit.plan.levels[&pair[0]].above.push(id);
        kit.plan.levels[&pair[1]].below.push(id);
        kit.reason(
            Subject::Void(id),
            "a void between floors",
            "no level names one; look whether it is there",
        );
    }
    if let Some(top) = levels.last() {
        let z = kit.plan.levels[top].ceiling() + Mm::new(100);
        let id = insert(kit, void("Roof space", VoidKind::RoofSpace, z, Mm::new(600)));
        kit.plan.levels[top].above.push(id);
        kit.reason(
            Subject::Void(id),
            "a roof space over the top level",
            "no level names one; look whether it is there",
        );
    }
}

fn insert(kit: &mut Kit<'_>, void: Void) -> VoidId {
    let id = VoidId(kit.next_id());
    kit.plan.voids.insert(id, void);
    id
}

fn void(name: &str, kind: VoidKind, z: Mm, depth: Mm) -> Void {
    let roof = kind == VoidKind::RoofSpace;
    Void {
        name: name.to_owned(),
        kind,
        z,
        depth,
        direction: Angle::ZERO,
        joists: Some(Joists { spacing: Mm::new(450), depth: Mm::new(190), thickness: Mm::new(45) }),
        insulation: if roof { Mm::new(200) } else { Mm::ZERO },
        access: if roof { Access::Crawl } else { Access::Closed },
        outline: None,
    }
}

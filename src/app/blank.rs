//! An empty plan to begin with.

use wirewend::plan::{Access, Joists, Level, LevelId, Plan, Void, VoidId, VoidKind};
use wirewend::units::{Angle, Mm};

/// One level under a roof space, nothing drawn. Heights and joists are common
/// practice, to be edited.
pub(super) fn plan() -> Plan {
    let mut plan = Plan { next_id: 3, ..Plan::default() };
    let roof = Void {
        name: "Roof space".to_owned(),
        kind: VoidKind::RoofSpace,
        z: Mm::new(2500),
        depth: Mm::new(1400),
        direction: Angle::from_millidegrees(90_000),
        joists: Some(Joists { spacing: Mm::new(600), depth: Mm::new(90), thickness: Mm::new(35) }),
        insulation: Mm::ZERO,
        access: Access::Crawl,
        outline: None,
    };
    let ground = Level {
        name: "Ground floor".to_owned(),
        floor: Mm::ZERO,
        height: Mm::new(2400),
        above: vec![VoidId(2)],
        below: Vec::new(),
    };
    plan.levels.insert(LevelId(1), ground);
    plan.voids.insert(VoidId(2), roof);
    plan
}

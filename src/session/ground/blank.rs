//! An empty plan to begin with.

use crate::plan::{Level, LevelId, Plan};
use crate::session::ground::storeys::{self, HEIGHT};
use crate::units::Mm;

/// One level under a roof space, nothing drawn.
pub fn plan() -> Plan {
    let mut plan = Plan { next_id: 2, ..Plan::default() };
    let id = LevelId(1);
    let ground = Level {
        name: "Ground floor".to_owned(),
        floor: Mm::ZERO,
        height: HEIGHT,
        above: Vec::new(),
        below: Vec::new(),
    };
    plan.levels.insert(id, ground);
    if let Some((_, roof)) = storeys::add_void(&plan, id, true) {
        // Nothing is drawn that could stand against it.
        let _ = plan.apply(roof);
    }
    plan
}

#[cfg(test)]
mod tests {
    #[test]
    fn an_empty_plan_has_a_level_under_a_roof_space() {
        let plan = super::plan();
        let level = plan.levels.values().next().expect("a level");
        let void = &plan.voids[level.above.first().expect("a void above")];
        assert_eq!(void.z, level.ceiling() + crate::units::Mm::new(100));
        assert_eq!((plan.levels.len(), plan.voids.len(), plan.walls.len()), (1, 1, 0));
    }
}

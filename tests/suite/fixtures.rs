//! The invented houses: their files are what the program that describes them
//! writes, and what they show can be built.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on fails by panicking")]

use std::fs;
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

use wirewend::plan::*;
use wirewend::rules::RuleBook;
use wirewend::space::{Space, Terminal};
use wirewend::wording::Local;

use crate::sound::problems;

#[path = "../../examples/build_fixtures/houses/mod.rs"]
mod houses;

/// The tables that ship, read once.
pub(crate) fn shipped_rules() -> &'static RuleBook {
    static BOOK: LazyLock<RuleBook> = LazyLock::new(RuleBook::shipped);
    &BOOK
}

/// How the papers of a plan's rules speak.
pub(crate) fn local(plan: &Plan) -> Local {
    shipped_rules().local(plan.project.regime)
}

/// The folder of the fixtures.
pub(crate) fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures")
}

/// A house by the name of its file without the ending.
pub(crate) fn house(name: &str) -> Plan {
    let path = folder().join(format!("{name}.wend"));
    read(&fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display())))
}

/// The text of a plan file, as the fixtures are written.
pub(crate) fn text(plan: &Plan) -> String {
    houses::text(plan)
}

/// A plan from the text of its file.
pub(crate) fn read(text: &str) -> Plan {
    let mut value: serde_json::Value = serde_json::from_str(text).unwrap();
    let version = value.as_object_mut().unwrap().shift_remove("wirewend");
    assert_eq!(version, Some(1.into()), "the version of the file's layout");
    serde_json::from_value(value).unwrap()
}

/// The first few ends of a plan that stand somewhere, boards first.
pub(crate) fn terminals(plan: &Plan, space: &Space, most: usize) -> Vec<Terminal> {
    let ends = plan.boards.keys().copied().map(End::Board);
    let ends = ends.chain(plan.points.keys().copied().map(End::Point));
    let placed = ends.filter_map(|end| space.terminal(plan, &plan.place_of(end)?));
    placed.take(most).collect()
}

const WHOLE: [&str; 4] = ["cottage", "flat", "terrace", "townhouse"];

#[test]
fn rebuilding_gives_the_files_that_are_there() {
    for (name, plan) in houses::all() {
        let file = fs::read_to_string(folder().join(name)).unwrap();
        assert!(
            file == houses::text(&plan),
            "{name} is not what its description gives: rebuild it"
        );
        assert_eq!(read(&file), plan, "{name} reads back as it was described");
    }
}

#[test]
fn the_houses_hang_together() {
    for (name, plan) in houses::all() {
        assert_eq!(problems(&plan), Vec::<String>::new(), "{name}");
    }
}

#[test]
fn walls_meet_exactly() {
    for name in WHOLE {
        let plan = house(name);
        for (id, wall) in &plan.walls {
            for end in [wall.a, wall.b] {
                let meets = plan
                    .walls
                    .iter()
                    .filter(|(other, met)| *other != id && met.level == wall.level)
                    .any(|(_, met)| {
                        let around = met.a.distance(end) + end.distance(met.b);
                        around - met.length() < 1e-6
                    });
                assert!(meets, "{name}: {id} ends at {end:?}, on no other wall");
            }
        }
    }
}

#[test]
fn indoor_points_look_into_rooms_and_everything_is_fed() {
    let outdoors = [
        PointKind::WeatherproofSocket,
        PointKind::DoorMotor,
        PointKind::AirConditioner,
        PointKind::Isolator,
        PointKind::WaterHeater,
        PointKind::WallLight,
    ];
    for name in WHOLE {
        let plan = house(name);
        for (id, point) in &plan.points {
            let place = point.place.unwrap_or_else(|| panic!("{name}: {id} is not placed"));
            let seen = plan.room_of(&place).is_some();
            assert!(seen || outdoors.contains(&point.kind), "{name}: {id} looks into no room");
            assert!(point.circuit.is_some(), "{name}: {id} is not fed");
        }
        for (id, circuit) in &plan.circuits {
            let whole = circuit.cable.is_some() && circuit.device.is_some();
            assert!(whole && circuit.board.is_some(), "{name}: {id} is not whole");
        }
        let invented = plan.project.notes.contains("invented");
        assert!(invented, "{name} must say that its prices are invented");
    }
}

#[test]
fn the_half_drawn_plan_lacks_what_can_be_lacking() {
    let plan = house("half_drawn");
    assert!(plan.points.values().any(|point| point.place.is_none()), "a point without a place");
    assert!(plan.points.values().any(|point| point.circuit.is_none()), "a point off all circuits");
    assert!(plan.circuits.values().any(|circuit| circuit.cable.is_none()), "no cable");
    assert!(plan.circuits.values().any(|circuit| circuit.board.is_none()), "no board");
    assert!(plan.boards.values().any(|board| board.place.is_none()), "a board without a place");
    assert!(plan.rooms.values().any(|room| room.outline.is_empty()), "a room without an outline");
    assert!(plan.controls.values().any(|control| control.switches.is_empty()), "no switch");
}

//! Files of open formats by others, against what a general library reads from
//! the same files (`fixtures/imports/make.py`) and against the layouts of the
//! same buildings.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on fails by panicking")]

mod costs;
mod drawings;
mod hostile;
mod large;

use std::fs;

use serde_json::Value;
use wirewend::draft::DraftOptions;
use wirewend::plan::*;
use wirewend::store::{Import, ImportOptions, NoteKind, import};

use crate::fixtures::folder;
use crate::layouts;
use crate::sound::problems;

const IFC: [(&str, &str); 3] = [
    ("duplex_apartments", "duplex_apartments.ifc.gz"),
    ("large_two_block", "large_two_block.ifc.gz"),
    ("open_smart_home_flat", "cc-by-sa/open_smart_home_flat.ifc"),
];

fn bytes(file: &str) -> Vec<u8> {
    fs::read(folder().join("imports").join(file)).unwrap()
}

fn imported(file: &str) -> Import {
    import(&bytes(file), file, &ImportOptions::default()).unwrap()
}

fn expected(name: &str) -> Value {
    let text = fs::read_to_string(folder().join("imports/expected.json")).unwrap();
    serde_json::from_str::<Value>(&text).unwrap()[name].clone()
}

fn count(value: &Value) -> usize {
    usize::try_from(value.as_u64().unwrap()).unwrap()
}

/// In the file and understood.
fn found(import: &Import, what: &str) -> (usize, usize) {
    let found = import.report.found.iter().find(|found| found.what == what).unwrap();
    (found.in_file, found.taken)
}

/// Square metres.
fn area(outline: &[wirewend::units::Point2]) -> f64 {
    let sides = outline.iter().zip(outline.iter().cycle().skip(1));
    let twice = |(a, b): (&wirewend::units::Point2, &wirewend::units::Point2)| {
        a.x.metres() * b.y.metres() - b.x.metres() * a.y.metres()
    };
    (sides.map(twice).sum::<f64>() / 2.0).abs()
}

fn of_kind(plan: &Plan, kinds: &[OpeningKind]) -> usize {
    plan.openings.values().filter(|opening| kinds.contains(&opening.kind)).count()
}

const DOORS: [OpeningKind; 2] = [OpeningKind::Door, OpeningKind::SlidingDoor];

#[test]
fn ifc_counts_are_those_of_a_general_library() {
    for (name, file) in IFC {
        let (import, expected) = (imported(file), expected(name));
        let in_file = |what: &str| found(&import, what).0;
        assert_eq!(in_file("walls"), count(&expected["walls"]), "{name}: walls");
        assert_eq!(in_file("doors"), count(&expected["doors"]), "{name}: doors");
        assert_eq!(in_file("windows"), count(&expected["windows"]), "{name}: windows");
        assert_eq!(in_file("spaces"), count(&expected["spaces"]), "{name}: spaces");
        let bare = count(&expected["bare_openings_in_walls"]);
        assert_eq!(found(&import, "bare openings in walls"), (bare, bare), "{name}: openings");
        // What is taken over is all of it but roof lights.
        let in_walls = expected["in_walls"].as_array().unwrap().len();
        let (doors, windows) =
            (of_kind(&import.plan, &DOORS), of_kind(&import.plan, &[OpeningKind::Window]));
        assert_eq!(doors + windows, in_walls, "{name}: doors and windows in walls");
        assert_eq!(doors, count(&expected["doors"]), "{name}: doors in the plan");
        assert_eq!(import.plan.walls.len(), count(&expected["walls"]), "{name}: walls in the plan");
        assert_eq!(
            import.plan.rooms.len(),
            count(&expected["spaces"]),
            "{name}: rooms in the plan"
        );
    }
}

/// Where a door is hung and the way it opens, m.
type Hung = ([f64; 2], [f64; 2]);

fn hung(plan: &Plan) -> Vec<Hung> {
    let of = |opening: &Opening| {
        let (wall, hinge) = (&plan.walls[&opening.wall], opening.hinge?);
        let far = if hinge.at_near_edge { opening.from } else { opening.from + opening.width };
        let (at, opens) = (wall.at(far.to_f64()), wall.normal(hinge.opens));
        Some(([at.x.metres(), at.y.metres()], [opens.0, opens.1]))
    };
    plan.openings.values().filter_map(of).collect()
}

#[test]
fn ifc_doors_are_hung_as_a_general_library_reads_them() {
    for (name, file) in IFC {
        let ours = hung(&imported(file).plan);
        let number = |value: &Value| value.as_f64().unwrap();
        let theirs: Vec<Hung> = expected(name)["hinges_m"]
            .as_object()
            .unwrap()
            .values()
            .map(|door| {
                ([number(&door[0]), number(&door[1])], [number(&door[2]), number(&door[3])])
            })
            .collect();
        assert_eq!(ours.len(), theirs.len(), "{name}: doors of one leaf");
        // Plans begin at their lowest corner. A door's place may be at a face
        // of its wall, its hole is on the centre line.
        let same = |one: &Hung, other: &Hung, shift: [f64; 2]| {
            let off = [0, 1].map(|axis| one.0[axis] - other.0[axis] - shift[axis]);
            let across = off[0] * other.1[0] + off[1] * other.1[1];
            let along = off[0] * other.1[1] - off[1] * other.1[0];
            let turned = one.1[0] * other.1[0] + one.1[1] * other.1[1];
            along.abs() < 0.3 && across.abs() < 0.5 && turned > 0.99
        };
        let matched = |shift: [f64; 2]| {
            theirs.iter().filter(|door| ours.iter().any(|own| same(own, door, shift))).count()
        };
        let most = theirs
            .iter()
            .map(|door| matched([0, 1].map(|axis| ours[0].0[axis] - door.0[axis])))
            .max();
        assert_eq!(most, Some(theirs.len()), "{name}: {ours:?}");
    }
}

#[test]
fn ifc_storeys_are_those_of_a_general_library() {
    for (name, file) in IFC {
        let (import, expected) = (imported(file), expected(name));
        let storeys = expected["storeys"].as_array().unwrap();
        let lowest = storeys[0][1].as_f64().unwrap();
        for level in import.plan.levels.values() {
            let storey = storeys.iter().find(|storey| storey[0] == level.name.as_str()).unwrap();
            let floor = storey[1].as_f64().unwrap() - lowest;
            assert!((level.floor.metres() - floor).abs() < 0.001, "{name}: {}", level.name);
        }
        let empty = import.report.layout.notes.iter();
        let empty = empty.filter(|note| note.part.starts_with("storey ")).count();
        assert_eq!(import.plan.levels.len() + empty, storeys.len(), "{name}: storeys");
    }
}

#[test]
fn ifc_room_areas_are_those_of_a_general_library() {
    for (name, file) in IFC {
        let (import, expected) = (imported(file), expected(name));
        let spaces = expected["space_areas_m2"].as_object().unwrap();
        let mut expected: Vec<(&str, f64)> = spaces
            .values()
            .map(|space| (space[0].as_str().unwrap(), space[1].as_f64().unwrap()))
            .collect();
        let mut rooms: Vec<(&str, f64)> = import
            .plan
            .rooms
            .values()
            .map(|room| (room.name.as_str(), area(&room.outline)))
            .collect();
        let order =
            |one: &(&str, f64), two: &(&str, f64)| one.0.cmp(two.0).then(one.1.total_cmp(&two.1));
        expected.sort_by(order);
        rooms.sort_by(order);
        assert_eq!(rooms.len(), expected.len(), "{name}: rooms");
        for (room, expected) in rooms.iter().zip(&expected) {
            assert_eq!(room.0, expected.0, "{name}");
            // Corners are rounded to whole millimetres.
            assert!((room.1 - expected.1).abs() < 0.02, "{name}: {room:?}, expected {expected:?}");
        }
    }
}

#[test]
fn ifc_thicknesses_are_those_of_a_general_library() {
    for (name, file) in IFC {
        let (import, expected) = (imported(file), expected(name));
        let boxes = expected["wall_boxes_m"].as_object().unwrap();
        let mut expected: Vec<f64> = boxes.values().map(|size| size[1].as_f64().unwrap()).collect();
        let mut walls: Vec<f64> =
            import.plan.walls.values().map(|wall| wall.thickness.metres()).collect();
        expected.sort_by(f64::total_cmp);
        walls.sort_by(f64::total_cmp);
        assert_eq!(walls.len(), expected.len(), "{name}: walls");
        for (wall, expected) in walls.iter().zip(&expected) {
            assert!((wall - expected).abs() < 0.002, "{name}: {wall} m, expected {expected} m");
        }
    }
}

#[test]
fn ifc_plans_are_those_of_the_layouts_of_the_same_buildings() {
    for (name, file) in IFC {
        let import = imported(file);
        let (_, layout) = layouts::ours().into_iter().find(|(layout, _)| layout == name).unwrap();
        let (layout, _) = layouts::read(&layout);
        let of = |plan: &Plan| {
            let openings = [
                of_kind(plan, &DOORS),
                of_kind(plan, &[OpeningKind::Window]),
                of_kind(plan, &[OpeningKind::Plain]),
            ];
            (plan.levels.len(), plan.rooms.len(), openings)
        };
        assert_eq!(of(&import.plan), of(&layout), "{name}: levels, rooms, openings");
        let area = |plan: &Plan| plan.rooms.values().map(|room| area(&room.outline)).sum::<f64>();
        let (ours, theirs) = (area(&import.plan), area(&layout));
        assert!(
            (ours - theirs).abs() < 0.01 * theirs,
            "{name}: {ours} m² and {theirs} m² of rooms"
        );
        let length = |plan: &Plan| plan.walls.values().map(Wall::length).sum::<f64>() / 1000.0;
        let (ours, theirs) = (length(&import.plan), length(&layout));
        assert!((ours - theirs).abs() < 0.02 * theirs, "{name}: {ours} m and {theirs} m of wall");
    }
}

#[test]
fn imported_plans_are_sound_and_drafted_without_a_fault() {
    for (name, file) in IFC {
        let import = imported(file);
        assert_eq!(problems(&import.plan), Vec::<String>::new(), "{name} as imported");
        let drafted = crate::draft::check(name, &import.plan, &DraftOptions::default());
        assert!(drafted.points.len() > 30, "{name}: {} points", drafted.points.len());
    }
}

#[test]
fn what_is_left_out_is_said() {
    let import = imported("duplex_apartments.ifc.gz");
    let roof_lights = import
        .report
        .layout
        .notes
        .iter()
        .filter(|note| note.kind == NoteKind::LeftOut && note.message.contains("IFCROOF"));
    assert_eq!(roof_lights.count(), 2, "the two windows that are not in walls");
    let text = import.report.to_string();
    assert!(text.contains("IFCFURNISHINGELEMENT: 61 in the file"), "{text}");
}

#[test]
fn every_file_that_we_copied_says_its_terms() {
    for (name, file) in IFC {
        let licence = match file.split_once('/') {
            Some((folder, _)) => format!("{folder}/LICENCE.txt"),
            None => format!("{name}.licence.txt"),
        };
        let text = fs::read_to_string(folder().join("imports").join(licence)).unwrap();
        assert!(text.contains(&format!("{name}.ifc")), "{name}: its terms name it");
    }
}

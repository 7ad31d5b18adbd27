//! Drawings: a layout of this project drawn by general libraries
//! (`fixtures/imports/draw.py`), and a working drawing by others.

use serde_json::Value;
use wirewend::draft::DraftOptions;
use wirewend::plan::*;
use wirewend::store::{ImportOptions, LengthUnit, NoteKind, import};

use super::{DOORS, area, bytes, expected, found, of_kind};
use crate::fixtures::folder;
use crate::sound::problems;

const DRAWN: [&str; 3] = ["large_two_block.dxf", "large_two_block.svg", "large_two_block.geojson"];

/// The level that was drawn: its rooms' areas in m² and its doors and windows.
fn source() -> (Vec<f64>, usize, usize) {
    let text = std::fs::read_to_string(folder().join("layouts/large_two_block.json")).unwrap();
    let level = serde_json::from_str::<Value>(&text).unwrap()["levels"][0].clone();
    let number = |value: &Value| value.as_f64().unwrap();
    let areas = level["rooms"].as_array().unwrap().iter().map(|room| {
        let ring: Vec<(f64, f64)> = room["polygon"]
            .as_array()
            .unwrap()
            .iter()
            .map(|p| (number(&p[0]), number(&p[1])))
            .collect();
        let sides = ring.iter().zip(ring.iter().cycle().skip(1));
        (sides.map(|(a, b)| a.0 * b.1 - b.0 * a.1).sum::<f64>() / 2.0).abs()
    });
    let mut areas: Vec<f64> = areas.collect();
    areas.sort_by(f64::total_cmp);
    let of = |kind: &str| {
        level["openings"]
            .as_array()
            .unwrap()
            .iter()
            .filter(|opening| opening["kind"] == kind)
            .count()
    };
    (areas, of("door"), of("window"))
}

#[test]
fn drawn_layouts_come_back() {
    let (rooms, doors, windows) = source();
    for file in DRAWN {
        let import = import(&bytes(file), file, &ImportOptions::default()).unwrap();
        let plan = &import.plan;
        assert_eq!(problems(plan), Vec::<String>::new(), "{file}");
        let report = import.report.to_string();
        assert_eq!(of_kind(plan, &DOORS), doors, "{file}: doors\n{report}");
        assert_eq!(of_kind(plan, &[OpeningKind::Window]), windows, "{file}: windows\n{report}");
        // The blocks of the drawing have arcs about the end of their opening.
        let hinges = plan.openings.values().filter_map(|opening| opening.hinge);
        let drawn = if file.ends_with("dxf") { doors } else { 0 };
        assert_eq!(hinges.count(), drawn, "{file}: hinges\n{report}");
        let named: Vec<&Room> =
            plan.rooms.values().filter(|room| room.name.starts_with("Office ")).collect();
        let mut areas: Vec<f64> = named.iter().map(|room| area(&room.outline)).collect();
        areas.sort_by(f64::total_cmp);
        assert_eq!(areas.len(), rooms.len(), "{file}: rooms\n{report}");
        for (ours, theirs) in areas.iter().zip(&rooms) {
            assert!((ours - theirs).abs() < 0.01 * theirs, "{file}: {ours} m², drawn {theirs} m²");
        }
        let drafted = crate::draft::check(file, plan, &DraftOptions::default());
        assert!(drafted.points.len() > 30, "{file}: {} points", drafted.points.len());
    }
}

#[test]
fn the_unit_can_be_stated() {
    let file = "large_two_block.svg";
    let options = ImportOptions { unit: Some(LengthUnit::Cm), ..ImportOptions::default() };
    let import = import(&bytes(file), file, &options).unwrap();
    assert!(import.report.unit.contains("as asked for"), "{}", import.report.unit);
    let options = ImportOptions { unit: Some(LengthUnit::Ft), ..ImportOptions::default() };
    let error = wirewend::store::import(&bytes(file), file, &options).unwrap_err();
    assert!(error.to_string().contains("in ft it is"), "{error}");
}

/// Two walls of 200 mm that miss each other by a gap.
fn corner(gap: i64) -> String {
    let x = 5000 + gap;
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"8000mm\" viewBox=\"0 0 8000 8000\">\
         <g id=\"walls\"><rect x=\"0\" y=\"0\" width=\"5000\" height=\"200\"/>\
         <rect x=\"{x}\" y=\"0\" width=\"200\" height=\"4000\"/></g></svg>"
    )
}

#[test]
fn walls_that_almost_meet_are_joined_within_the_tolerance() {
    for (gap, joined) in [(0, true), (45, true), (59, true), (80, false), (150, false)] {
        let import =
            import(corner(gap).as_bytes(), "corner.svg", &ImportOptions::default()).unwrap();
        let walls: Vec<&Wall> = import.plan.walls.values().collect();
        assert_eq!(walls.len(), 2, "{gap} mm: {}", import.report);
        let meet =
            [walls[0].a, walls[0].b].iter().any(|end| [walls[1].a, walls[1].b].contains(end));
        assert_eq!(meet, joined, "{gap} mm: {walls:?}");
    }
}

#[test]
fn layers_can_be_chosen() {
    let file = "large_two_block.dxf";
    let with = |layer: &str| {
        let layers = vec![layer.to_owned()];
        import(&bytes(file), file, &ImportOptions { layers, ..ImportOptions::default() })
    };
    assert!(with("walls").is_ok(), "whatever the case of its letters");
    let error = with("ceilings").unwrap_err().to_string();
    assert!(error.contains("there are ") && error.contains("WALLS"), "{error}");
}

/// A working drawing whose terms do not let it be copied here; none where the
/// folder of outside data is not at hand.
fn outside() -> Option<Vec<u8>> {
    crate::outside::bytes("dxf/us_house_floorplan.dxf.gz")
}

#[test]
fn a_working_drawing_by_others_is_understood() {
    let Some(bytes) = outside() else { return };
    let expected = expected("us_house_floorplan");
    let import = import(&bytes, "us_house_floorplan.dxf.gz", &ImportOptions::default()).unwrap();
    let report = import.report.to_string();
    // Its header says millimetres; its walls and doors are those of inches.
    assert!(import.report.unit.starts_with("in, a guess"), "{report}");
    let pieces = usize::try_from(expected["wall_pieces"].as_u64().unwrap()).unwrap();
    assert_eq!(found(&import, "lines of walls").0, pieces, "{report}");
    assert!(found(&import, "lines of walls").1 * 20 >= pieces * 19, "{report}");
    // A leaf for every swing but those of double doors, and the garage door.
    let swings = usize::try_from(expected["swings"].as_u64().unwrap()).unwrap();
    assert!(of_kind(&import.plan, &DOORS).abs_diff(swings) <= 2, "{report}");
    // How a door is hung is known where its arc is drawn.
    let hung = found(&import, "doors whose hinges are drawn");
    assert!(hung.1 * 10 >= hung.0 * 8, "{report}");
    let names: Vec<&str> = import.plan.rooms.values().map(|room| room.name.as_str()).collect();
    let texts = expected["underlined_texts"].as_array().unwrap();
    let known =
        names.iter().filter(|name| texts.iter().any(|text| text.as_str() == Some(name))).count();
    assert!(known >= 10, "{names:?}");
    let left_out = import.report.layout.count(NoteKind::LeftOut);
    assert!(left_out >= 3, "dimensions, hatches and leaders: {report}");
    assert_eq!(problems(&import.plan), Vec::<String>::new(), "as imported");
    let drafted = crate::draft::check("working drawing", &import.plan, &DraftOptions::default());
    assert!(drafted.points.len() > 30, "{} points", drafted.points.len());
}

/// A room of 5 by 4 m with a wall across it, every wall one line, without a
/// unit; numbers are what was measured, divided.
fn single_lines(divided: f64) -> String {
    let line = |ends: [i32; 4]| {
        let [x1, y1, x2, y2] = ends.map(|end| f64::from(end) / divided);
        format!("<line x1=\"{x1}\" y1=\"{y1}\" x2=\"{x2}\" y2=\"{y2}\"/>")
    };
    let sides = [
        [0, 0, 5000, 0],
        [5000, 0, 5000, 4000],
        [5000, 4000, 0, 4000],
        [0, 4000, 0, 0],
        [3000, 0, 3000, 4000],
    ];
    let lines: String = sides.into_iter().map(line).collect();
    format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 6000 6000\">\
         <g id=\"walls\">{lines}</g></svg>"
    )
}

#[test]
fn walls_of_one_line_get_a_thickness_that_is_stated() {
    let mm = ImportOptions { unit: Some(LengthUnit::Mm), ..ImportOptions::default() };
    let import = |options: &ImportOptions, text: &str| {
        import(text.as_bytes(), "single.svg", options).unwrap()
    };
    let plain = import(&mm, &single_lines(1.0));
    assert_eq!(plain.plan.walls.len(), 5, "{}", plain.report);
    assert!(plain.plan.walls.values().all(|wall| wall.thickness.get() == 100));
    assert!(plain.report.to_string().contains("drawn as one line"), "{}", plain.report);
    assert_eq!(plain.plan.rooms.len(), 2, "{}", plain.report);
    let asked = ImportOptions { single_line: Some(wirewend::units::Mm::new(150)), ..mm.clone() };
    let asked = import(&asked, &single_lines(1.0)).plan;
    assert!(asked.walls.values().all(|wall| wall.thickness.get() == 150));
    // The same house on paper, 1 to 50.
    let scaled = ImportOptions { scale: Some(50), ..ImportOptions::default() };
    let scaled = import(&scaled, &single_lines(50.0));
    assert!(scaled.report.unit.contains("1:50"), "{}", scaled.report.unit);
    // In decimetres.
    let lengths = |plan: &Plan| -> Vec<String> {
        let mut all: Vec<String> =
            plan.walls.values().map(|w| format!("{:08.0}", w.a.distance(w.b) / 100.0)).collect();
        all.sort();
        all
    };
    assert_eq!(lengths(&scaled.plan), lengths(&plain.plan), "{}", scaled.report);
}

#[test]
fn a_stray_line_among_double_ones_is_no_wall_unless_asked() {
    let stray =
        corner(0).replace("</g>", "<line x1=\"1000\" y1=\"1000\" x2=\"1000\" y2=\"3000\"/></g>");
    let count = |options: &ImportOptions| {
        import(stray.as_bytes(), "stray.svg", options).unwrap().plan.walls.len()
    };
    assert_eq!(count(&ImportOptions::default()), 2, "passed over");
    let asked = ImportOptions {
        single_line: Some(wirewend::units::Mm::new(100)),
        ..ImportOptions::default()
    };
    assert_eq!(count(&asked), 3, "asked for");
}

/// Against ezdxf, a general library for such files (`fixtures/imports/arrays.py`).
#[test]
fn blocks_in_rows_and_columns_come_in_one_by_one() {
    let text = std::fs::read_to_string(folder().join("imports/arrays.expected.json")).unwrap();
    let expected = serde_json::from_str::<Value>(&text).unwrap();
    for (name, copies) in [("turned", 12), ("mirrored", 10), ("over", 0)] {
        let file = format!("array_{name}.dxf");
        let import = import(&bytes(&file), &file, &ImportOptions::default()).unwrap();
        let cells: Vec<Vec<[f64; 2]>> = serde_json::from_value(expected[name].clone()).unwrap();
        let rooms: Vec<Vec<[f64; 2]>> = import
            .plan
            .rooms
            .values()
            .map(|room| {
                room.outline.iter().map(|p| [p.x.metres() * 1e3, p.y.metres() * 1e3]).collect()
            })
            .collect();
        assert_eq!(rooms.len(), cells.len(), "{name}: {}", import.report);
        // Both from their lowest corners.
        let from = |rings: &[Vec<[f64; 2]>]| -> Vec<Vec<[f64; 2]>> {
            let low = |axis: usize| {
                rings.iter().flatten().map(|place| place[axis]).fold(f64::INFINITY, f64::min)
            };
            let [x, y] = [low(0), low(1)];
            let moved = |ring: &Vec<[f64; 2]>| ring.iter().map(|p| [p[0] - x, p[1] - y]).collect();
            rings.iter().map(moved).collect()
        };
        let (rooms, cells) = (from(&rooms), from(&cells));
        let near = |a: &[f64; 2], b: &[f64; 2]| libm::hypot(a[0] - b[0], a[1] - b[1]) < 5.0;
        for cell in cells {
            let is_it = |room: &&Vec<[f64; 2]>| {
                room.len() == 4 && cell.iter().all(|at| room.iter().any(|to| near(at, to)))
            };
            assert_eq!(rooms.iter().filter(is_it).count(), 1, "{name}: {cell:?} in {rooms:?}");
        }
        let said = import.report.found.iter().find(|f| f.what == "copies of blocks in rows");
        assert_eq!(said.map_or(0, |found| found.taken), copies, "{name}: {}", import.report);
    }
}

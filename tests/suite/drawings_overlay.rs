//! Floor sheets as drawings for others: in the house's own coordinates and
//! unit, a layer for every circuit. Read back by a general library (dxf).

use std::collections::{BTreeMap, BTreeSet};

use dxf::entities::EntityType;
use wirewend::lengths::{self, Lengths};
use wirewend::plan::*;
use wirewend::runs::{self, Runs, chain::Effort};
use wirewend::sheet::{FloorOptions, Floors, Layer, Scene, dxf as drawing};
use wirewend::space::Space;

use crate::fixtures::local;
use crate::on_paper::{on_layer, texts};

fn routed(name: &str) -> (Plan, Runs, Lengths) {
    let path = crate::fixtures::folder().join(format!("{name}.wend"));
    let plan = wirewend::store::read_file(&path).unwrap();
    let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
    let lengths = lengths::measure(&plan, &runs);
    (plan, runs, lengths)
}

/// A place, tenths of a millimetre.
type Tenths = (i64, i64);

#[expect(clippy::cast_possible_truncation, reason = "a place in a house")]
fn tenths(x: f64, y: f64) -> Tenths {
    ((x * 10.0).round() as i64, (y * 10.0).round() as i64)
}

/// Every corner of lines on a layer of model space.
fn corners(file: &dxf::Drawing, layer: &str) -> BTreeSet<Tenths> {
    let own =
        file.entities().filter(|one| one.common.layer == layer && !one.common.is_in_paper_space);
    own.flat_map(|one| match &one.specific {
        EntityType::Line(line) if layer != "WALLS" => {
            vec![tenths(line.p1.x, line.p1.y), tenths(line.p2.x, line.p2.y)]
        }
        // Of walls the outlines alone, which are closed: hatching lies anywhere.
        EntityType::Polyline(line) if layer != "WALLS" || line.is_closed() => {
            line.vertices().map(|it| tenths(it.location.x, it.location.y)).collect()
        }
        _ => Vec::new(),
    })
    .collect()
}

fn read(scene: &Scene, plan: &Plan) -> dxf::Drawing {
    dxf::Drawing::load(&mut drawing(scene, plan).as_slice()).unwrap()
}

/// Every sheet of a level, with its circuit where it shows one alone.
fn sheets(job: &(Plan, Runs, Lengths), level: LevelId) -> Vec<(Option<CircuitId>, Scene)> {
    let (plan, runs, lengths) = job;
    let mut floors = Floors::of(plan, runs, lengths, local(plan));
    let only = std::iter::once(None).chain(plan.circuits.keys().map(|id| Some(*id)));
    only.map(|circuit| {
        let options = FloorOptions { circuit, ..FloorOptions::of(level) };
        (circuit, floors.sheet(&options).unwrap())
    })
    .collect()
}

#[test]
fn a_drawing_says_its_unit() {
    let job = routed("cottage");
    let level = *job.0.levels.first().unwrap().0;
    let (_, scene) = &sheets(&job, level)[0];
    let file = read(scene, &job.0);
    assert_eq!(file.header.default_drawing_units, dxf::enums::Units::Millimeters);
    let text = String::from_utf8_lossy(&drawing(scene, &job.0)).into_owned();
    // Code 4 of the variable's published table: millimetres.
    assert!(text.contains("$INSUNITS\r\n70\r\n4\r\n"), "as it is written");
}

/// The corners of the building are the plan's own: where two walls of one
/// thickness end square to each other, both faces meet half a thickness from
/// the place where the centre lines do.
#[test]
fn walls_lie_where_the_plan_has_them() {
    for name in ["cottage", "townhouse", "terrace"] {
        let job = routed(name);
        let plan = &job.0;
        let mut seen = 0;
        for level in plan.levels.keys() {
            for (_, scene) in sheets(&job, *level).iter().take(2) {
                let drawn = corners(&read(scene, plan), "WALLS");
                let walls: Vec<&Wall> =
                    plan.walls.values().filter(|it| it.level == *level).collect();
                let lowest =
                    walls.iter().flat_map(|it| [it.a, it.b]).min_by_key(|at| (at.x + at.y, at.x));
                let at = lowest.unwrap();
                let own: Vec<&&Wall> = walls.iter().filter(|it| it.a == at || it.b == at).collect();
                let upright = own.iter().find(|it| it.a.x == it.b.x);
                let level_one = own.iter().find(|it| it.a.y == it.b.y);
                let (Some(upright), Some(flat)) = (upright, level_one) else { continue };
                let (x, y) = (upright.thickness.to_f64() / 2.0, flat.thickness.to_f64() / 2.0);
                let outer = tenths(at.x.to_f64() - x, at.y.to_f64() - y);
                let near =
                    |one: &Tenths| (one.0 - outer.0).abs() <= 1 && (one.1 - outer.1).abs() <= 1;
                assert!(drawn.iter().any(near), "{name}: {outer:?} in {drawn:?}");
                seen += 1;
            }
        }
        assert!(seen > 0, "{name} has a square corner");
    }
}

#[test]
fn sheets_of_a_level_lie_over_each_other() {
    for name in ["cottage", "townhouse"] {
        let job = routed(name);
        for level in job.0.levels.keys() {
            let all = sheets(&job, *level);
            let files: Vec<dxf::Drawing> =
                all.iter().map(|(_, scene)| read(scene, &job.0)).collect();
            for layer in ["OPENINGS", "WALLS"] {
                let first = corners(&files[0], layer);
                assert!(first.len() > 20, "{name}: {layer}");
                for file in &files {
                    let own = corners(file, layer);
                    assert_eq!(own, first, "{name}: {layer}");
                }
            }
            // Cables of a circuit alone lie on those of the sheet with all.
            for ((circuit, _), file) in all.iter().zip(&files).skip(1) {
                let number = job.0.circuits[&circuit.unwrap()].number;
                let layer = format!("CIRCUIT-{number}-");
                let own: BTreeSet<&str> = file
                    .layers()
                    .map(|it| it.name.as_str())
                    .filter(|it| it.starts_with(&layer))
                    .collect();
                assert!(own.len() <= 1, "one layer a circuit: {own:?}");
            }
        }
    }
}

#[test]
fn every_circuit_has_its_layer_and_the_sheet_its_own_space() {
    for name in ["cottage", "flat", "terrace", "townhouse"] {
        let job = routed(name);
        let plan = &job.0;
        for level in plan.levels.keys() {
            let (_, scene) = &sheets(&job, *level)[0];
            let file = read(scene, plan);
            let mut layers: BTreeMap<CircuitId, BTreeSet<String>> = BTreeMap::new();
            let cables = on_layer(scene, Layer::Runs);
            for group in cables {
                if let Some(Subject::Leg { circuit, .. }) = group.subject {
                    layers.entry(circuit).or_default();
                }
            }
            let declared: BTreeSet<String> = file.layers().map(|it| it.name.clone()).collect();
            for id in layers.keys() {
                let circuit = &plan.circuits[id];
                let marks = labels(plan);
                let number = marks.number(circuit).replace('/', "-");
                let own = declared.iter().filter(|it| {
                    **it == format!("CIRCUIT-{number}")
                        || it.starts_with(&format!("CIRCUIT-{number}-"))
                });
                let own: Vec<&String> = own.collect();
                assert_eq!(own.len(), 1, "{name}: {number}: {own:?} of {declared:?}");
                assert!(!corners(&file, own[0]).is_empty(), "{name}: {} holds cable", own[0]);
                assert!(own[0].len() <= 31 && own[0].is_ascii(), "{}", own[0]);
            }
            for one in file.entities() {
                assert!(declared.contains(&one.common.layer), "{} is declared", one.common.layer);
                let on_sheet = ["FRAME", "NOTES", "TITLE-BLOCK", "SHEET-NUMBER", "WINDOW"]
                    .contains(&&*one.common.layer);
                assert_eq!(one.common.is_in_paper_space, on_sheet, "{}", one.common.layer);
            }
            let words = file.entities().filter_map(|one| match &one.specific {
                EntityType::Text(text) if !one.common.is_in_paper_space => Some(text.value.clone()),
                _ => None,
            });
            let words: Vec<String> = words.collect();
            assert!(
                words.iter().any(|it| it.contains("not a certificate")),
                "cautions with the building"
            );
            let heights: BTreeSet<i64> = file
                .entities()
                .filter_map(|one| match &one.specific {
                    EntityType::Text(text) if !one.common.is_in_paper_space => {
                        Some(tenths(text.text_height, 0.0).0)
                    }
                    _ => None,
                })
                .collect();
            // 1.8, 2.5, 3.5, 5 and 7 mm of paper at the scale of the sheet (ISO 3098-1).
            let per = i64::from(scene.scale.unwrap().reduction());
            assert!(
                heights.iter().all(|it| [18, 25, 35, 50, 70].map(|one| one * per).contains(it)),
                "{heights:?}"
            );
            assert!(texts(&scene.items).len() > 10);
        }
    }
}

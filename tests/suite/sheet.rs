//! The floor sheet, judged from its scene and from its SVG text by means of
//! their own: nothing here uses what placed the marks.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use kurbo::{PathEl, Point, Rect, Shape};
use wirewend::lengths::Lengths;
use wirewend::plan::{Plan, PointKind, Subject, WallBuild, WallId};
use wirewend::runs::Runs;
use wirewend::sheet::{
    FloorOptions, House, Item, Layer, Mark, PaperSize, Scale, Scene, SheetError, Text, floor_sheet,
    has_sign, svg,
};

use crate::fixtures::local;
use crate::on_paper::{groups, on_layer, overlap, texts};
use crate::sheet_sample::{GROUND, Sample, empty_plan, house, one_wall, turned, wall};

fn sheet(sample: &Sample) -> Scene {
    drawn(sample, FloorOptions::of(GROUND)).unwrap()
}

fn drawn(sample: &Sample, options: FloorOptions) -> Result<Scene, SheetError> {
    floor_sheet(
        &House::new(&sample.plan, &sample.runs, &sample.lengths, local(&sample.plan)),
        &options,
    )
}

fn bare(plan: Plan) -> Sample {
    Sample { plan, runs: Runs::default(), lengths: Lengths::default() }
}

/// Every sheet that the checks below look at.
fn all_sheets() -> Vec<(&'static str, Scene)> {
    let one_circuit =
        FloorOptions { circuit: Some(wirewend::plan::CircuitId(3)), ..FloorOptions::of(GROUND) };
    let small_scale = FloorOptions { scale: Scale::one_to(100), ..FloorOptions::of(GROUND) };
    let askew = turned(house(), 17_000);
    let sheets = vec![
        ("house", sheet(&house())),
        ("house at 1:100", drawn(&house(), small_scale).unwrap()),
        ("circuit 3", drawn(&house(), one_circuit).unwrap()),
        ("house at 17 degrees", sheet(&askew)),
        ("no routes yet", sheet(&bare(house().plan))),
        ("one wall", sheet(&bare(one_wall()))),
        ("empty level", sheet(&bare(empty_plan()))),
        ("half finished", sheet(&bare(half_finished()))),
        ("huge", sheet(&bare(huge()))),
    ];
    if let Ok(folder) = std::env::var("WIREWEND_PICTURES") {
        for (name, scene) in &sheets {
            std::fs::write(format!("{folder}/{name}.svg"), svg(scene)).unwrap();
        }
    }
    sheets
}

/// Points and boards without a place, a wall without length, an opening in a
/// wall that is gone, a room of two corners.
fn half_finished() -> Plan {
    let mut plan = house().plan;
    let place = plan.points[0].place;
    for (index, point) in plan.points.values_mut().enumerate() {
        if index % 3 == 0 {
            point.place = None;
            point.circuit = None;
        }
        if index % 3 == 1 {
            point.place = place;
        }
    }
    for opening in plan.openings.values_mut().take(4) {
        opening.hinge = None;
    }
    plan.walls.shift_remove(&WallId(6));
    plan.walls.insert(WallId(99), wall((700, 700), (700, 700), 90, WallBuild::Stud));
    plan.rooms[0].outline.truncate(2);
    plan.boards[0].place = None;
    plan
}

/// A hall of a hundred metres.
fn huge() -> Plan {
    let mut plan = empty_plan();
    let corners = [(0, 0), (100_000, 0), (100_000, 60_000), (0, 60_000)];
    for index in 0..4u32 {
        let (a, b) = (corners[index as usize], corners[(index as usize + 1) % 4]);
        plan.walls.insert(WallId(index + 1), wall(a, b, 300, WallBuild::Concrete));
    }
    plan
}

fn marks(items: &[Item]) -> Vec<&Mark> {
    items
        .iter()
        .flat_map(|item| match item {
            Item::Path(mark) => vec![mark],
            Item::Text(_) => Vec::new(),
            Item::Group(group) => marks(&group.items),
        })
        .collect()
}

/// The box that the capitals of a text fill, reckoned here from the widths of
/// the font.
fn letters(text: &Text) -> Rect {
    let face = ttf_parser::Face::parse(
        match text.weight {
            wirewend::sheet::Weight::Regular => wirewend::sheet::REGULAR,
            wirewend::sheet::Weight::Bold => wirewend::sheet::BOLD,
        },
        0,
    )
    .unwrap();
    let units: u32 = text
        .content
        .chars()
        .map(|sign| {
            u32::from(
                face.glyph_index(sign).and_then(|id| face.glyph_hor_advance(id)).unwrap_or(600),
            )
        })
        .sum();
    let width = f64::from(units) / 1000.0 * text.height.mm() / 0.714;
    let left = match text.anchor {
        wirewend::sheet::Anchor::Start => text.at.x,
        wirewend::sheet::Anchor::Middle => text.at.x - width / 2.0,
        wirewend::sheet::Anchor::End => text.at.x - width,
    };
    let level = Rect::new(left, text.at.y - text.height.mm(), left + width, text.at.y);
    // Upright lettering is read from the right: about its anchor.
    if text.turn == 0.0 {
        return level;
    }
    let turned = kurbo::Affine::rotate_about(text.turn.to_radians(), text.at);
    turned.transform_rect_bbox(level)
}

#[test]
fn everything_lies_inside_the_frame() {
    for (name, scene) in all_sheets() {
        let frame = scene.page.frame();
        for group in groups(&scene.items).into_iter().filter(|group| group.layer != Layer::Frame) {
            for text in texts(&group.items) {
                let at = letters(text);
                assert!(frame.union(at) == frame, "{name}: {:?} at {at:?}", text.content);
            }
            for mark in marks(&group.items) {
                let at = mark.path.bounding_box();
                assert!(
                    frame.inflate(0.01, 0.01).union(at) == frame.inflate(0.01, 0.01),
                    "{name}: {at:?}"
                );
            }
        }
    }
}

#[test]
fn no_lettering_runs_into_other_lettering() {
    for (name, scene) in all_sheets() {
        let all: Vec<(Rect, &str)> = texts(&scene.items)
            .into_iter()
            .map(|text| (letters(text), text.content.as_str()))
            .collect();
        for (index, (one, says)) in all.iter().enumerate() {
            for (other, also) in &all[index + 1..] {
                assert!(!overlap(*one, *other), "{name}: {says:?} and {also:?} at {one:?}");
            }
        }
    }
}

#[test]
fn labels_keep_clear_of_symbols() {
    for (name, scene) in all_sheets() {
        let symbols: Vec<(Option<Subject>, Rect)> = on_layer(&scene, Layer::Points)
            .into_iter()
            .flat_map(|group| {
                marks(&group.items)
                    .into_iter()
                    .map(|mark| (group.subject, mark.path.bounding_box()))
            })
            .collect();
        for layer in [Layer::Labels, Layer::Rooms] {
            for text in on_layer(&scene, layer).into_iter().flat_map(|group| texts(&group.items)) {
                for (subject, symbol) in &symbols {
                    assert!(
                        !overlap(letters(text), *symbol),
                        "{name}: {:?} lies on {subject:?}",
                        text.content
                    );
                }
            }
        }
    }
}

/// Straight pieces of a path.
fn pieces(path: &kurbo::BezPath) -> Vec<(Point, Point)> {
    let mut pieces = Vec::new();
    let (mut start, mut at) = (Point::ORIGIN, Point::ORIGIN);
    kurbo::flatten(path, 0.05, |element| match element {
        PathEl::MoveTo(to) => (start, at) = (to, to),
        PathEl::LineTo(to) => {
            pieces.push((at, to));
            at = to;
        }
        PathEl::ClosePath => {
            pieces.push((at, start));
            at = start;
        }
        _ => {}
    });
    pieces
}

/// Whether a line touches a box: sampled finer than any letter.
fn touches((from, to): (Point, Point), at: Rect) -> bool {
    let step = 0.2 / (to - from).hypot().max(0.2);
    let shares = std::iter::successors(Some(0.0), |share| Some(share + step));
    shares.take_while(|share| *share <= 1.0).any(|share| at.contains(from.lerp(to, share)))
}

/// At the scale a level of its size is drawn at, labels keep clear of the heavy
/// lines of walls, and of doors and windows.
#[test]
fn labels_keep_clear_of_walls_and_doors() {
    for (name, scene) in all_sheets().into_iter().filter(|(name, _)| !name.contains("1:100")) {
        let mut lines = Vec::new();
        for layer in [Layer::Walls, Layer::Openings] {
            for group in on_layer(&scene, layer) {
                let drawn = marks(&group.items).into_iter();
                // Hatching is finer than any outline.
                let outlines =
                    drawn.filter(|mark| mark.stroke.is_some_and(|stroke| stroke.width > 0.15));
                lines.extend(outlines.flat_map(|mark| pieces(&mark.path)));
            }
        }
        for layer in [Layer::Labels, Layer::Rooms] {
            for text in on_layer(&scene, layer).into_iter().flat_map(|group| texts(&group.items)) {
                let at = letters(text);
                let hit = lines.iter().find(|line| touches(**line, at));
                assert!(hit.is_none(), "{name}: {:?} at {at:?} on {hit:?}", text.content);
            }
        }
    }
}

/// Straight pieces of all cable lines, with the leg that each belongs to.
fn cable_lines(scene: &Scene) -> Vec<(Subject, Point, Point)> {
    let mut lines = Vec::new();
    for group in on_layer(scene, Layer::Runs) {
        let Some(subject @ Subject::Leg { .. }) = group.subject else { continue };
        for mark in marks(&group.items) {
            if mark.stroke.is_none_or(|stroke| stroke.width < 0.3) || mark.fill.is_some() {
                continue;
            }
            lines.extend(pieces(&mark.path).into_iter().map(|(from, to)| (subject, from, to)));
        }
    }
    lines
}

/// Two pieces coincide where they run side by side, nearly parallel and closer
/// than a line and a half, for more than 2 mm.
fn coincide((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let (along, other) = (b - a, d - c);
    let (long, short) = (along.hypot(), other.hypot());
    if long < 2.0 || short < 2.0 || (along.cross(other) / (long * short)).abs() > 0.03 {
        return false;
    }
    let unit = along / long;
    let place = |at: Point| ((at - a).dot(unit), (at - a).cross(unit).abs());
    let ((from, off), (to, away)) = (place(c), place(d));
    let shared = from.max(to).min(long) - from.min(to).max(0.0);
    shared > 2.0 && off.min(away) < 0.5
}

#[test]
fn no_two_legs_are_drawn_on_one_another() {
    for (name, scene) in all_sheets() {
        let lines = cable_lines(&scene);
        for (index, (leg, a, b)) in lines.iter().enumerate() {
            for (other, c, d) in &lines[index + 1..] {
                assert!(
                    leg == other || !coincide((*a, *b), (*c, *d)),
                    "{name}: {leg:?} and {other:?} at {a:?} {b:?} and {c:?} {d:?}"
                );
            }
        }
    }
}

/// ISO 5455: at 1:50 four metres are eighty millimetres.
#[test]
fn the_drawing_is_true_to_scale() {
    let scene = sheet(&bare(one_wall()));
    let text = svg(&scene);
    let document = roxmltree::Document::parse(&text).unwrap();
    let path = document
        .descendants()
        .filter(|node| node.attribute("class") == Some("walls"))
        .find_map(|node| node.first_element_child()?.attribute("d"))
        .expect("walls are drawn");
    let drawn = kurbo::BezPath::from_svg(path).unwrap().bounding_box();
    assert!((drawn.width() - 80.0).abs() < 0.011, "{drawn:?}");
    assert!((drawn.height() - 2.0).abs() < 0.011, "{drawn:?}");
}

#[test]
fn the_text_is_sound_svg() {
    for (name, scene) in all_sheets() {
        let text = svg(&scene);
        roxmltree::Document::parse(&text).unwrap_or_else(|error| panic!("{name}: {error}"));
        for bad in ["NaN", "inf", "-0 ", "-0\"", "-0.00"] {
            assert!(!text.contains(bad), "{name} has {bad:?}");
        }
        for line in text.lines() {
            assert!(line.matches('<').count() <= 2, "{name}: one element a line: {line}");
        }
        for drawn in texts(&scene.items) {
            let odd = drawn.content.chars().find(|sign| !has_sign(*sign));
            assert_eq!(odd, None, "{name}: {:?}", drawn.content);
        }
    }
}

/// Names are what people type.
#[test]
fn odd_names_do_not_break_the_file() {
    let mut plan = one_wall();
    plan.project.title = "A <b>&\"\u{1}\u{fffe}]]>".to_owned();
    plan.levels[0].name = "& < >\u{0}".to_owned();
    let text = svg(&sheet(&bare(plan)));
    assert!(roxmltree::Document::parse(&text).is_ok(), "{text}");
}

#[test]
fn the_same_plan_gives_the_same_bytes() {
    assert!(svg(&sheet(&house())) == svg(&sheet(&house())), "two drawings of one house differ");
}

/// Each kind that occurs has its name in the notes, no other kind has.
#[test]
fn the_legend_lists_what_occurs_and_nothing_else() {
    let sample = house();
    let scene = sheet(&sample);
    let notes: String = on_layer(&scene, Layer::Notes)
        .into_iter()
        .flat_map(|group| texts(&group.items))
        .map(|text| format!("{} ", text.content))
        .collect();
    for kind in PointKind::ALL {
        // The names of some kinds are parts of others' names.
        if [PointKind::Socket, PointKind::Heater, PointKind::Switch].contains(&kind) {
            continue;
        }
        let occurs = sample.plan.points.values().any(|point| point.kind == kind);
        assert_eq!(notes.contains(kind.name()), occurs, "{kind:?} in {notes}");
    }
    for (build, name) in [
        (WallBuild::BrickVeneer, "brick veneer"),
        (WallBuild::Concrete, "concrete"),
        (WallBuild::DoubleBrick, "double brick"),
        (WallBuild::LathAndPlaster, "lath and plaster"),
        (WallBuild::SolidMasonry, "solid masonry"),
    ] {
        let occurs = sample.plan.walls.values().any(|wall| wall.build == build);
        assert_eq!(notes.contains(name), occurs, "{name}");
    }
    assert!(notes.contains("drip loop") && notes.contains("two-way"), "{notes}");
    assert!(!notes.contains("in the ground") && !notes.contains("intermediate"), "{notes}");
}

#[test]
fn cautions_and_the_scale_note_are_on_every_sheet() {
    for (name, scene) in all_sheets() {
        let all: String =
            texts(&scene.items).into_iter().map(|text| format!("{} ", text.content)).collect();
        for words in ["not a certificate", "prove dead", "Measure this bar", "asbestos"] {
            assert!(all.contains(words), "{name} lacks {words:?}");
        }
    }
}

#[test]
fn paper_and_scale_follow_the_size_of_the_level() {
    assert_eq!(
        sheet(&house()).page.paper,
        PaperSize::A2,
        "a house at 1:50, dimension lines around it"
    );
    let options = |paper, scale| FloorOptions { paper, scale, ..FloorOptions::of(GROUND) };
    let refused = drawn(&house(), options(Some(PaperSize::A4), Scale::one_to(20)));
    assert!(matches!(refused, Err(SheetError::TooLarge { .. })), "{refused:?}");
    let large = drawn(&house(), options(None, Scale::one_to(20))).unwrap();
    assert!(large.page.paper > PaperSize::A3, "{:?}", large.page);
}

#[test]
fn what_the_plan_lacks_is_refused_with_its_name() {
    let level = FloorOptions::of(wirewend::plan::LevelId(77));
    let refused = drawn(&house(), level).unwrap_err();
    assert_eq!(refused.to_string(), "this plan has no level L77");
    let circuit = Some(wirewend::plan::CircuitId(77));
    let refused =
        drawn(&house(), FloorOptions { circuit, ..FloorOptions::of(GROUND) }).unwrap_err();
    assert_eq!(refused.to_string(), "this plan has no circuit C77");
}

/// Every leg of the house is drawn and carries its number.
#[test]
fn every_leg_has_its_number() {
    let sample = house();
    let scene = sheet(&sample);
    let labels: Vec<&str> = on_layer(&scene, Layer::Labels)
        .into_iter()
        .filter(|group| matches!(group.subject, Some(Subject::Leg { .. })))
        .flat_map(|group| texts(&group.items))
        .map(|text| text.content.as_str())
        .collect();
    for leg in sample.runs.circuits.values().flat_map(|run| &run.legs) {
        let number = format!("{}.{}", leg.circuit.0, leg.number);
        assert_eq!(labels.iter().filter(|label| **label == number).count(), 1, "{number}");
    }
}

#[test]
fn a_small_sheet_looks_as_it_did() {
    insta::assert_snapshot!(svg(&sheet(&bare(one_wall()))));
}

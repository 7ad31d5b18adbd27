//! Cables beside each other on the floor sheet: none of a house's is drawn
//! outside it. Judged from the lines of the scene and the walls of the plan;
//! nothing here uses what set the lanes.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use kurbo::{PathEl, Point, Rect, Shape as _};
use wirewend::lengths::measure;
use wirewend::plan::{LevelId, Plan, Subject, WallBuild, outline_holds};
use wirewend::runs::chain::Effort;
use wirewend::runs::{Leg, Surrounding, route};
use wirewend::sheet::{FloorOptions, Floors, Item, Layer, Scene};
use wirewend::space::Space;

use crate::fixtures::house;
use crate::fixtures::local;
use crate::generate::generated_plan;
use crate::on_paper::on_layer;

/// How far off a wall still counts as over it, mm: rooms may end a little
/// short of their walls.
const SLIT: f64 = 15.0;

/// The same where a house stands askew to its joists, mm: there the ways along
/// oblique edges go by steps that themselves stand out up to 57 mm.
const ASKEW: f64 = SLIT + 57.0;

/// Whether a place is over a wall or a room of a level, or so near to a wall.
fn covered(plan: &Plan, level: LevelId, (x, y): (f64, f64), near: f64) -> bool {
    let on_wall = plan.walls.values().filter(|wall| wall.level == level).any(|wall| {
        let (a, b) = (wall.a, wall.b);
        let (dx, dy) = ((b.x - a.x).to_f64(), (b.y - a.y).to_f64());
        let long = kurbo::Vec2::new(dx, dy).hypot();
        let (px, py) = (x - a.x.to_f64(), y - a.y.to_f64());
        let (along, off) = ((px * dx + py * dy) / long, (px * dy - py * dx) / long);
        let half = wall.thickness.to_f64() / 2.0 + near;
        off.abs() <= half && along >= -half && along <= long + half
    });
    let mut rooms = plan.rooms.values().filter(|room| room.level == level);
    on_wall || rooms.any(|room| outline_holds(&room.outline, x, y))
}

/// The box around the walls of a level, mm of the plan.
fn around_walls(plan: &Plan, level: LevelId) -> Option<Rect> {
    let solid = |build| build != WallBuild::Screen;
    let walls = plan.walls.values().filter(|wall| wall.level == level && solid(wall.build));
    let corners = walls.flat_map(|wall| {
        let (dx, dy) = wall.direction();
        let half = wall.thickness.to_f64() / 2.0;
        [(wall.a, -half), (wall.b, half)].into_iter().flat_map(move |(at, on)| {
            [-half, half].map(|off| {
                let (x, y) = (at.x.to_f64() + dx * on, at.y.to_f64() + dy * on);
                Point::new(x - dy * off, y + dx * off)
            })
        })
    });
    corners.map(|at| Rect::from_points(at, at)).reduce(|all, one| all.union(one))
}

/// Where the plan's origin lies on the sheet: drawings lie at whole
/// millimetres of the paper.
fn origin(plan: &Plan, level: LevelId, scene: &Scene) -> Option<Point> {
    let walls = on_layer(scene, Layer::Walls);
    let outlines = walls.iter().flat_map(|group| &group.items).filter_map(|item| match item {
        Item::Path(mark) if mark.stroke.is_some_and(|stroke| stroke.width > 0.45) => {
            Some(mark.path.bounding_box())
        }
        _ => None,
    });
    let drawn = outlines.reduce(|all, one| all.union(one))?.center();
    let (built, per) = (around_walls(plan, level)?.center(), per(scene));
    Some(Point::new((drawn.x - built.x / per).round(), (drawn.y + built.y / per).round()))
}

fn per(scene: &Scene) -> f64 {
    f64::from(scene.scale.unwrap().reduction())
}

/// Whether all of a leg is over a level's walls and rooms and none of it on the
/// face of a wall, where it is drawn beside that.
fn stays_inside(plan: &Plan, level: LevelId, leg: &Leg) -> bool {
    leg.route.segments.iter().all(|segment| {
        let (from, to) = (segment.from.on_floor(), segment.to.on_floor());
        let on_face = segment.through == Surrounding::Surface;
        !on_face
            && (0..=40).all(|step| {
                let part = f64::from(step) / 40.0;
                let x = from.x.to_f64() + (to.x - from.x).to_f64() * part;
                let y = from.y.to_f64() + (to.y - from.y).to_f64() * part;
                covered(plan, level, (x, y), SLIT)
            })
    })
}

/// How many lines were judged. Panics at the first that lies outside.
fn judge(name: &str, plan: &Plan, near: f64) -> usize {
    let (runs, mut count) = (route(plan, &Space::of(plan), &Effort::default()), 0);
    let lengths = measure(plan, &runs);
    let mut floors = Floors::of(plan, &runs, &lengths, local(plan));
    for level in plan.levels.keys() {
        let Ok(scene) = floors.sheet(&FloorOptions::of(*level)) else { continue };
        let Some(origin) = origin(plan, *level, &scene) else { continue };
        for group in on_layer(&scene, Layer::Runs) {
            let Some(Subject::Leg { circuit, from, to }) = group.subject else { continue };
            let mut legs = runs.circuits[&circuit].legs.iter();
            let leg = legs.find(|leg| (leg.from, leg.to) == (from, to)).unwrap();
            if !stays_inside(plan, *level, leg) {
                continue;
            }
            for place in group.items.iter().flat_map(line_places) {
                let (x, y) = (place.x - origin.x, origin.y - place.y);
                let at = (x * per(&scene), y * per(&scene));
                assert!(
                    covered(plan, *level, at, near),
                    "{name}, level {level}: leg {} of circuit {circuit} is drawn outside at {at:?}",
                    leg.number
                );
            }
            count += 1;
        }
    }
    count
}

/// Places along a cable's line, a millimetre apart or less.
fn line_places(item: &Item) -> Vec<Point> {
    let Item::Path(mark) = item else { return Vec::new() };
    if mark.fill.is_some() || mark.stroke.is_none_or(|stroke| stroke.width < 0.32) {
        return Vec::new();
    }
    let mut places = Vec::new();
    let mut last = Point::ZERO;
    kurbo::flatten(mark.path.elements().iter().copied(), 0.01, |part| {
        if let PathEl::LineTo(to) = part {
            let steps = (to - last).hypot().ceil().max(1.0);
            let mut step = 0.0;
            while step <= steps {
                places.push(last.lerp(to, step / steps));
                step += 1.0;
            }
        }
        if let PathEl::MoveTo(to) | PathEl::LineTo(to) = part {
            last = to;
        }
    });
    places
}

#[test]
fn no_cable_inside_a_fixture_is_drawn_outside_it() {
    for name in ["cottage", "flat", "terrace", "townhouse"] {
        let count = judge(name, &house(name), SLIT);
        assert!(count > 10, "{name}: only {count} legs to judge");
    }
}

#[test]
fn no_cable_inside_a_generated_house_is_drawn_outside_it() {
    let count: usize =
        (0..60).map(|seed| judge(&format!("seed {seed}"), &generated_plan(seed), ASKEW)).sum();
    assert!(count > 300, "only {count} legs to judge");
}

//! A circuit in space: all three directions drawn at one scale, 30 degrees off
//! level.

mod named;

use std::collections::BTreeSet;

use kurbo::{Point, Rect, Vec2};

use crate::plan::{CircuitId, End, Subject};
use crate::sheet::clear::{Clear, overlap};
use crate::sheet::floor::{cautions, circuit_mark, ink};
use crate::sheet::gallery::{Figure, Gallery};
use crate::sheet::house::House;
use crate::sheet::lettering::{Lettering, Weight};
use crate::sheet::panel::Row;
use crate::sheet::scene::{Anchor, Group, Item, Layer, LinePattern, Mark, Stroke, Text, bounds};
use crate::sheet::{Ink, Scale, Scene, pen};
use crate::units::Point3;

use super::words;

/// The view of one circuit. None where it has no routed leg, or is too large
/// for the sheet at any scale.
#[must_use]
pub fn isometric(house: &House<'_>, circuit: CircuitId) -> Option<Scene> {
    let (index, _, drawn) = house.plan.circuits.get_full(&circuit)?;
    let room = Gallery::room();
    Scale::STEPS.into_iter().find_map(|scale| {
        let view = View { per: scale.paper_per_plan() };
        let figure = figure(house, circuit, index, &view)?;
        let around = figure.bounds();
        if around.width() > room.width() || around.height() > room.height() {
            return None;
        }
        let mut notes = vec![Row::heading("How to read this")];
        for text in NOTES {
            notes.push(Row::paragraph(text, Weight::Regular));
        }
        notes.extend(cautions());
        let shows = match house.marks.feeding(drawn) {
            Some(board) => format!("{board} circuit {} in space: {}", drawn.number, drawn.name),
            None => format!("Circuit {} in space: {}", drawn.number, drawn.name),
        };
        let kind = "isometric view";
        let gallery = Gallery { house, shows, kind, scale: Some(scale), notes };
        gallery.one(&figure)
    })
}

const NOTES: [&str; 4] = [
    "Across, along and up are drawn at one scale: up the sheet is up, and both walls' directions \
     run 30 degrees off level. Measure along these three only.",
    "Thin lines: walls at floor level. Coloured line: the circuit's cable, with its mark. \
     Dotted: straight down from a point to the floor. Dots: points, with mark and height.",
    "Walls in or beside which the cable goes are named in grey, as on the floor sheet and the \
     cards.",
    "A cable that passes behind another is not broken: the floor sheet shows which goes where.",
];

struct View {
    per: f64,
}

impl View {
    fn point(&self, at: Point3) -> Point {
        let (x, y, z) = (at.x.to_f64(), at.y.to_f64(), at.z.to_f64());
        let cos = libm::sqrt(3.0) / 2.0;
        Point::new((x - y) * cos * self.per, (-(x + y) * 0.5 - z) * self.per)
    }
}

fn figure(house: &House<'_>, id: CircuitId, index: usize, view: &View) -> Option<Figure> {
    let cuts = house.cuts_of(id);
    let mut items = walls(house, view);
    let mut clear = Clear::default();
    let mut ends: Vec<End> = Vec::new();
    let mut covered: Vec<Rect> = Vec::new();
    let mut drawn = false;
    for cut in &cuts {
        let places: Vec<Point> =
            cut.leg.route.vertices().into_iter().map(|at| view.point(at)).collect();
        if places.len() < 2 {
            continue;
        }
        let mut marks: Vec<Item> = Vec::new();
        marks.push(Mark::line(pen::polyline(&places), Stroke::solid(Ink::WHITE, 1.2)).into());
        marks.push(Mark::line(pen::polyline(&places), Stroke::solid(ink(index), 0.5)).into());
        for pair in places.windows(2) {
            covered.extend(steps(pair[0], pair[1]));
            let along = pen::unit(pair[1] - pair[0]);
            if pen::length(pair[1] - pair[0]) > 5.0 {
                marks.extend(circuit_mark(pair[0].midpoint(pair[1]), along, index));
            }
            drawn = true;
        }
        let leg = cut.leg;
        let subject = Subject::Leg { circuit: id, from: leg.from, to: leg.to };
        items.push(Group::of(Layer::Runs, subject, marks).into());
        for end in [leg.from, leg.to] {
            if !ends.contains(&end) {
                ends.push(end);
            }
        }
    }
    if !drawn {
        return None;
    }
    items.extend(level_names(house, view, &mut clear));
    // Lettering does not ask for a smaller scale than its lines.
    let around = bounds(&items).unwrap_or(Rect::ZERO);
    let room = Rect::from_center_size(around.center(), Gallery::room().size()).union(around);
    for end in ends {
        items.extend(stand(house, end, view, &covered, room, &mut clear));
    }
    let walls: BTreeSet<String> =
        cuts.iter().flat_map(|cut| words::way(house, cut.leg).walls).collect();
    items.extend(named::names(house, &walls, view, &covered, room, &mut clear));
    Some(Figure { items })
}

fn walls(house: &House<'_>, view: &View) -> Vec<Item> {
    let mut items: Vec<Item> = Vec::new();
    for wall in house.plan.walls.values() {
        let Some(level) = house.plan.levels.get(&wall.level) else { continue };
        let (a, b) = (wall.a.at_height(level.floor), wall.b.at_height(level.floor));
        let line = pen::line(view.point(a), view.point(b));
        items.push(Mark::line(line, Stroke::solid(Ink::GREY, 0.35)).into());
    }
    vec![Group::new(Layer::Walls, items).into()]
}

/// The levels, where there are several, each beside its corner at the left.
fn level_names(house: &House<'_>, view: &View, clear: &mut Clear) -> Vec<Item> {
    let mut names: Vec<Item> = Vec::new();
    for (id, level) in &house.plan.levels {
        let walls = house.plan.walls.values().filter(|wall| wall.level == *id);
        let ends = walls.flat_map(|wall| [wall.a, wall.b]);
        let corners = ends.map(|at| view.point(at.at_height(level.floor)));
        let Some(corner) = corners.min_by(|a, b| a.x.total_cmp(&b.x).then(a.y.total_cmp(&b.y)))
        else {
            continue;
        };
        let text = Text::new(&level.name, corner + Vec2::new(-1.6, 1.2), Lettering::Note);
        let text = text.anchored(Anchor::End).inked(Ink::DARK_GREY);
        clear.take(text.bounds());
        names.push(text.into());
    }
    if names.len() > 1 { names } else { Vec::new() }
}

/// What a line covers, in small boxes.
fn steps(from: Point, to: Point) -> impl Iterator<Item = Rect> {
    const STEP: f64 = 1.2;
    let count = libm::ceil(pen::length(to - from) / STEP).clamp(1.0, 1000.0);
    let mut at = 0.0;
    std::iter::from_fn(move || {
        let next: f64 = at + 1.0;
        let piece = Rect::from_points(from.lerp(to, at / count), from.lerp(to, next / count));
        at = next;
        (next <= count).then(|| piece.inflate(0.3, 0.3))
    })
}

/// A point with its mark and height, and the line down to its floor.
fn stand(
    house: &House<'_>,
    end: End,
    view: &View,
    covered: &[Rect],
    room: Rect,
    clear: &mut Clear,
) -> Option<Item> {
    let place = house.plan.place_of(end)?;
    let at = house.plan.position(&place)?;
    let level = house.plan.level_of(&place).and_then(|id| house.plan.levels.get(&id))?;
    let spot = view.point(at);
    let foot = view.point(at.on_floor().at_height(level.floor));
    let dotted = Stroke { ink: Ink::GREY, width: 0.25, pattern: LinePattern::Dotted };
    let mut marks: Vec<Item> = vec![
        Mark::line(pen::line(spot, foot), dotted).into(),
        Mark::area(pen::circle(spot, 0.9), Ink::BLACK).into(),
    ];
    clear.take(Rect::from_center_size(spot, (1.8, 1.8)));
    let says = format!("{} {}", house.marks.end(end), crate::wording::figure(at.z - level.floor));
    let all: Vec<Text> = (0..8_i32)
        .flat_map(|step| {
            let lift = f64::from(step) * 3.4;
            let text = |x: f64, y: f64, anchor: Anchor| {
                let at = spot + Vec2::new(x, y);
                Text::new(says.clone(), at, Lettering::Note).anchored(anchor).haloed()
            };
            [
                text(1.8, 1.2 - lift, Anchor::Start),
                text(-1.8, 1.2 - lift, Anchor::End),
                text(1.8, 1.2 + lift, Anchor::Start),
                text(-1.8, 1.2 + lift, Anchor::End),
            ]
        })
        .collect();
    let inside = all.iter().filter(|text| room.union(text.bounds()) == room);
    let inside: Vec<Text> = inside.cloned().collect();
    let ways = if inside.is_empty() { all } else { inside };
    // Over no cable, where that is to be had close by.
    let covers = |text: &Text| {
        let letters = text.bounds();
        covered.iter().any(|one| overlap(*one, letters))
    };
    let uncovered = ways.iter().take(12).filter(|text| !covers(text)).cloned();
    let placed = clear.place(uncovered).or_else(|| clear.place_near(ways.iter().cloned()));
    marks.extend(placed.map(Item::from));
    let subject = match end {
        End::Board(id) => Subject::Board(id),
        End::Point(id) => Subject::Point(id),
    };
    Some(Group::of(Layer::Points, subject, marks).into())
}

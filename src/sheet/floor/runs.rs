//! Cable runs on paper: lanes, bends, line patterns, marks along the line, and
//! where cables go up or down.

use kurbo::{BezPath, Point, Rect, Vec2};
use lyon::algorithms::walk::{RegularPattern, WalkerEvent, walk_along_path};

use super::lanes::{self, Part};
use super::outline::Outline;
use super::strands::{Drop, Medium, Strand, Stretch};
use crate::plan::Subject;
use crate::sheet::scene::{Group, Item, Layer, LinePattern, Mark, Stroke};
use crate::sheet::{CIRCUIT_INKS, Ink, pen};

/// The width of a run, mm.
pub(super) const WIDTH: f64 = 0.35;
/// How round a bend is, mm.
const BEND: f64 = 1.2;
/// From one mark along a line to the next, mm.
const MARK_STEP: f64 = 20.0;

/// A strand in its lanes.
#[derive(Clone, Debug)]
pub(super) struct Traced<'a> {
    /// The strand.
    pub(super) strand: Strand<'a>,
    /// For every stretch, its places in its lanes with what follows each.
    pub(super) traces: Vec<Trace>,
}

/// A stretch in its lanes.
#[derive(Clone, Debug)]
pub(super) struct Trace {
    /// Places, and what the cable lies in from there on.
    pub(super) places: Vec<(Point, Medium)>,
    /// Where each place of the stretch has come to lie.
    pub(super) corners: Vec<Point>,
}

impl Traced<'_> {
    /// The same further along the paper.
    pub(super) fn moved(&self, by: Vec2) -> Self {
        let mut moved = self.clone();
        moved.strand.shift(by);
        for trace in &mut moved.traces {
            let places = trace.places.iter_mut().map(|(at, _)| at);
            places.chain(&mut trace.corners).for_each(|at| *at += by);
        }
        moved
    }

    /// The colour of its circuit.
    pub(super) fn ink(&self) -> Ink {
        ink(self.strand.index)
    }

    /// Where a drop has come to lie.
    pub(super) fn drop_place(&self, drop: &Drop) -> Point {
        drop.on.map_or(drop.at, |(stretch, place)| self.traces[stretch].corners[place])
    }

    /// The lines that are drawn, one for each stretch.
    pub(super) fn lines(&self) -> impl Iterator<Item = Vec<Point>> + '_ {
        self.traces.iter().map(|trace| trace.places.iter().map(|(at, _)| *at).collect())
    }
}

/// The colour of a circuit by its position in the plan.
pub(in crate::sheet) fn ink(index: usize) -> Ink {
    CIRCUIT_INKS[index % CIRCUIT_INKS.len()]
}

/// Puts strands into lanes, which stay inside an outline.
pub(super) fn traced<'a>(strands: Vec<Strand<'a>>, outline: &Outline) -> Vec<Traced<'a>> {
    let mut parts: Vec<Part> = Vec::new();
    let mut units: Vec<Vec<Vec<Unit>>> = Vec::new();
    for strand in &strands {
        let of_strand = strand.stretches.iter().map(|stretch| {
            let units = straight_units(stretch);
            for (index, unit) in units.iter().enumerate() {
                let aside = stretch.asides[unit.from];
                parts.push(Part {
                    from: stretch.places[unit.from] + aside,
                    to: stretch.places[unit.to] + aside,
                    before: index.checked_sub(1).map(|before| stretch.places[units[before].from]),
                    after: units.get(index + 1).map(|after| stretch.places[after.to]),
                    circuit: strand.index,
                });
            }
            units
        });
        units.push(of_strand.collect());
    }
    let shifts = lanes::shifts(&parts, outline);
    let mut next = shifts.into_iter();
    strands
        .into_iter()
        .zip(units)
        .map(|(strand, of_strand)| {
            let traces = strand
                .stretches
                .iter()
                .zip(of_strand)
                .map(|(stretch, units)| {
                    let lanes = next.by_ref().take(units.len());
                    let shifts: Vec<Vec2> = lanes
                        .zip(&units)
                        .map(|(lane, unit)| lane + stretch.asides[unit.from])
                        .collect();
                    let mut trace = trace(stretch, &units, &shifts);
                    land(&mut trace, stretch, &strand);
                    trace
                })
                .collect();
            Traced { strand, traces }
        })
        .collect()
}

/// A straight part of a stretch, from one of its places to a later one.
#[derive(Clone, Copy, Debug)]
struct Unit {
    from: usize,
    to: usize,
}

/// The straight parts of a stretch, as long as they go.
fn straight_units(stretch: &Stretch) -> Vec<Unit> {
    let mut units: Vec<Unit> = Vec::new();
    for index in 1..stretch.places.len() {
        let step = pen::unit(stretch.places[index] - stretch.places[index - 1]);
        match units.last_mut() {
            Some(unit)
                if straight_on(stretch, unit, step)
                    && stretch.asides[unit.from] == stretch.asides[index - 1] =>
            {
                unit.to = index;
            }
            _ => units.push(Unit { from: index - 1, to: index }),
        }
    }
    units
}

fn straight_on(stretch: &Stretch, unit: &Unit, step: Vec2) -> bool {
    let before = pen::unit(stretch.places[unit.to] - stretch.places[unit.from]);
    before.dot(step) > 0.0 && before.cross(step).abs() < 0.015
}

/// A stretch moved into its lanes and joined up again.
fn trace(stretch: &Stretch, units: &[Unit], shifts: &[Vec2]) -> Trace {
    let mut corners = stretch.places.clone();
    let mut places: Vec<(Point, Medium)> = Vec::new();
    for (index, unit) in units.iter().enumerate() {
        let shift = shifts[index];
        for corner in &mut corners[unit.from + 1..unit.to] {
            *corner += shift;
        }
        let joint = match index.checked_sub(1) {
            None => {
                corners[unit.from] = stretch.places[unit.from] + shift;
                vec![corners[unit.from]]
            }
            Some(before) => {
                let joint = joint(stretch, units[before], shifts[before], *unit, shift);
                corners[unit.from] = joint[0].midpoint(joint[joint.len() - 1]);
                joint
            }
        };
        places.extend(joint.into_iter().map(|at| (at, stretch.media[unit.from])));
        let inner = unit.from + 1..unit.to;
        places.extend(
            corners[inner.clone()].iter().copied().zip(stretch.media[inner].iter().copied()),
        );
        if index + 1 == units.len() {
            corners[unit.to] = stretch.places[unit.to] + shift;
            places.push((corners[unit.to], stretch.media[unit.to - 1]));
        }
    }
    Trace { places, corners }
}

/// Leads a trace out of its lane to the box at which its leg ends. At a board
/// the cables stay side by side.
fn land(trace: &mut Trace, stretch: &Stretch, strand: &Strand<'_>) {
    let last = stretch.places.len() - 1;
    if strand.lands(stretch.places[0]) {
        let aside = stretch.asides[0];
        trace.corners[0] = land_at(&mut trace.places, stretch.places[0] + aside);
    }
    if strand.lands(stretch.places[last]) {
        trace.places.reverse();
        let aside = stretch.asides[last - 1];
        trace.corners[last] = land_at(&mut trace.places, stretch.places[last] + aside);
        trace.places.reverse();
        // What follows a place is told by the place before it.
        media_again(trace, stretch);
    }
}

/// How much of the distance from its lane a cable keeps where it lands, so that
/// those from one bundle do not run into each other.
const KEPT: f64 = 0.25;

/// A short slant from the first place of a trace to where it belongs; returns
/// where it lands.
fn land_at(places: &mut Vec<(Point, Medium)>, true_place: Point) -> Point {
    let (Some(&(first, medium)), Some(&(second, _))) = (places.first(), places.get(1)) else {
        return true_place;
    };
    let aside = first - true_place;
    if pen::length(aside) < 0.05 {
        return first;
    }
    let kept = (pen::length(aside) * KEPT).min(1.2);
    let landing = true_place + pen::unit(aside) * kept;
    let back = (pen::length(aside) * 0.6 + 1.2).min(pen::length(second - first) * 0.6);
    places[0].0 = first + pen::unit(second - first) * back;
    places.insert(0, (landing, medium));
    landing
}

/// Only the last place was added: it takes the medium that leads to it.
fn media_again(trace: &mut Trace, stretch: &Stretch) {
    if let (Some(last), Some(medium)) = (trace.places.last_mut(), stretch.media.last()) {
        last.1 = *medium;
    }
    let count = trace.places.len();
    if count > stretch.places.len()
        && let Some(medium) = stretch.media.last()
    {
        trace.places[count - 2].1 = *medium;
    }
}

/// Where one straight part in its lane meets the next: where their lines
/// cross, or by a step where they run alongside each other.
fn joint(stretch: &Stretch, one: Unit, shift: Vec2, next: Unit, other: Vec2) -> Vec<Point> {
    let vertex = stretch.places[next.from];
    let along = pen::unit(stretch.places[one.to] - stretch.places[one.from]);
    let onward = pen::unit(stretch.places[next.to] - stretch.places[next.from]);
    let cross = along.cross(onward);
    if cross.abs() > 0.15 {
        let reach = (other - shift).cross(onward) / cross;
        vec![vertex + shift + along * reach]
    } else {
        vec![vertex + shift, vertex + other]
    }
}

/// The marks of a strand: its lines by medium, the marks of its circuit where
/// no label is in the way, and its drops.
pub(super) fn draw(traced: &Traced<'_>, labels: &[Rect]) -> Item {
    let ink = traced.ink();
    let mut items: Vec<Item> = Vec::new();
    for trace in &traced.traces {
        for (places, medium) in by_medium(trace) {
            items.extend(line_of(&places, medium, ink));
        }
    }
    for line in traced.lines() {
        items.extend(marks_along(&line, traced.strand.index, labels));
    }
    for drop in &traced.strand.drops {
        items.extend(drop_mark(traced.drop_place(drop), drop, ink));
    }
    Group::of(Layer::Runs, subject(traced), items).into()
}

/// The leg that a strand belongs to.
pub(super) fn subject(traced: &Traced<'_>) -> Subject {
    let leg = traced.strand.leg;
    Subject::Leg { circuit: leg.circuit, from: leg.from, to: leg.to }
}

/// Paper under what runs in walls, painted over their hatching and under their
/// outlines.
pub(super) fn halos(traced: &Traced<'_>) -> Vec<Item> {
    let in_walls = traced.traces.iter().flat_map(by_medium);
    in_walls
        .filter(|(_, medium)| *medium == Medium::InWall)
        .map(|(places, _)| {
            let path = pen::rounded_polyline(&places, BEND);
            Mark::line(path, Stroke::solid(Ink::WHITE, 0.85)).into()
        })
        .collect()
}

/// The lines of a stretch, one for each medium in a row.
fn by_medium(trace: &Trace) -> Vec<(Vec<Point>, Medium)> {
    let mut lines = Vec::new();
    let mut start = 0;
    while start + 1 < trace.places.len() {
        let medium = trace.places[start].1;
        let mut end = start + 1;
        while end + 1 < trace.places.len() && trace.places[end].1 == medium {
            end += 1;
        }
        let places = trace.places[start..=end].iter().map(|(at, _)| *at).collect();
        lines.push((places, medium));
        start = end;
    }
    lines
}

/// A line as its medium has it.
pub(super) fn line_of(places: &[Point], medium: Medium, ink: Ink) -> Vec<Item> {
    let drawn = |path: BezPath, width: f64, pattern| -> Item {
        Mark::line(path, Stroke { ink, width, pattern }).into()
    };
    let path = pen::rounded_polyline(places, BEND);
    match medium {
        Medium::Above => vec![drawn(path, WIDTH, LinePattern::Solid)],
        Medium::InWall => vec![drawn(path, WIDTH, LinePattern::Dashed)],
        Medium::Below => vec![drawn(path, WIDTH, LinePattern::LongDashDot)],
        Medium::Ground => vec![drawn(path, WIDTH, LinePattern::DashDoubleDot)],
        // Two thin lines: a wide one with paper painted down its middle.
        Medium::Surface => {
            let paper = Mark::line(path.clone(), Stroke::solid(Ink::WHITE, 0.3)).into();
            vec![drawn(path, 0.66, LinePattern::Solid), paper]
        }
    }
}

/// The marks of a circuit along a line, at even distances, clear of bends, ends
/// and labels.
fn marks_along(line: &[Point], index: usize, labels: &[Rect]) -> Vec<Item> {
    let mut walker = lyon::path::Path::builder();
    for (place, at) in line.iter().enumerate() {
        let at = lyon_point(*at);
        if place == 0 {
            walker.begin(at);
        } else {
            walker.line_to(at);
        }
    }
    if line.is_empty() {
        return Vec::new();
    }
    walker.end(false);
    let mut items = Vec::new();
    let mut step = |event: WalkerEvent<'_>| {
        let at = Point::new(event.position.x.into(), event.position.y.into());
        let along = Vec2::new(event.tangent.x.into(), event.tangent.y.into());
        let clear = line.iter().all(|bend| pen::length(*bend - at) > 1.6)
            && !labels.iter().any(|label| label.inflate(0.8, 0.8).contains(at));
        if clear {
            items.extend(circuit_mark(at, along, index));
        }
        true
    };
    #[expect(clippy::cast_possible_truncation, reason = "paper is small")]
    let interval = MARK_STEP as f32;
    let mut pattern = RegularPattern { callback: &mut step, interval };
    // Begun part of the way in, so that short legs have their mark as well.
    walk_along_path(walker.build().iter(), interval / 2.0, 0.1, &mut pattern);
    items
}

fn lyon_point(at: Point) -> lyon::math::Point {
    #[expect(clippy::cast_possible_truncation, reason = "paper is small")]
    let point = lyon::math::point(at.x as f32, at.y as f32);
    point
}

/// How many shapes of marks there are. It shares no factor with the number of
/// colours, so that a pair of both returns only after 42 circuits.
const SHAPES: usize = 7;

/// The mark of a circuit at a place on its line.
pub(in crate::sheet) fn circuit_mark(at: Point, along: Vec2, index: usize) -> Vec<Item> {
    let ink = ink(index);
    let across = pen::square_to(along);
    let solid = |path| Mark::area(path, ink).into();
    let stroke = Stroke::solid(ink, 0.25);
    let open = |path| Mark { path, fill: Some(Ink::WHITE), stroke: Some(stroke) }.into();
    let bar = |shift: f64| {
        let foot = at + along * shift;
        Mark::line(pen::line(foot - across * 0.75, foot + across * 0.75), stroke).into()
    };
    let square = |half: f64| {
        let (a, b) = (along * half, across * half);
        pen::polygon(&[at - a - b, at + a - b, at + a + b, at - a + b])
    };
    let diamond = |half: f64| {
        pen::polygon(&[
            at - along * half,
            at + across * half,
            at + along * half,
            at - across * half,
        ])
    };
    let triangle = |half: f64| {
        pen::polygon(&[
            at + along * half,
            at - along * half + across * half,
            at - along * half - across * half,
        ])
    };
    let slash = |lean: f64| {
        let reach = (along * lean + across) * 0.6;
        Mark::line(pen::line(at - reach, at + reach), stroke).into()
    };
    // No circles: they are for drops.
    match index % SHAPES {
        0 => vec![bar(0.0)],
        1 => vec![open(square(0.45))],
        2 => vec![solid(triangle(0.6))],
        3 => vec![bar(-0.3), bar(0.3)],
        4 => vec![open(diamond(0.65))],
        5 => vec![slash(1.0), slash(-1.0)],
        _ => vec![solid(square(0.45))],
    }
}

/// Where a cable goes up or down: a filled dot where it comes from above, an
/// open one where it comes from below.
fn drop_mark(at: Point, drop: &Drop, ink: Ink) -> Vec<Item> {
    let dot = pen::circle(at, 0.5);
    if drop.comes_down() {
        vec![Mark::area(dot, ink).into()]
    } else {
        let stroke = Some(Stroke::solid(ink, 0.25));
        vec![Mark { path: dot, fill: Some(Ink::WHITE), stroke }.into()]
    }
}

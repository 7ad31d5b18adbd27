//! The names of walls beside their lines.

use std::collections::BTreeSet;

use kurbo::{Point, Rect, Vec2};

use super::View;
use crate::plan::{FacePiece, Subject, WallId};
use crate::sheet::clear::{Clear, overlap};
use crate::sheet::house::House;
use crate::sheet::lettering::Lettering;
use crate::sheet::scene::{Anchor, Group, Item, Layer, Mark, Stroke, Text};
use crate::sheet::{Ink, pen};
use crate::units::{Mm, Point3};

/// A wall's line at floor level on paper.
#[derive(Clone, Copy)]
struct Line {
    wall: WallId,
    from: Point,
    to: Point,
}

/// The part of a wall's line that a name is about.
#[derive(Clone, Copy)]
struct Stretch {
    wall: WallId,
    from: Point,
    to: Point,
    /// Away from the line on the side of the face.
    out: Vec2,
}

/// A name where it could stand.
struct Way {
    text: Text,
    /// Where its leader ends, where it needs one.
    tip: Option<Point>,
}

/// For what is there to be found, and not in the way.
const INK: Ink = Ink::of(100, 100, 100);
/// From a line to the middle of a name: beside it, mm.
const BESIDE: [f64; 4] = [2.6, 3.4, 4.4, 5.6];
/// The same with a leader.
const LED: [f64; 6] = [8.0, 11.0, 15.0, 20.0, 26.0, 34.0];
/// Where along a line, the middle first.
const SHARES: [f64; 9] = [0.5, 0.35, 0.65, 0.22, 0.78, 0.12, 0.88, 0.05, 0.95];

/// Names, each beside its own line and no nearer to another; where there is no
/// room for that, with a leader.
pub(super) fn names(
    house: &House<'_>,
    names: &BTreeSet<String>,
    view: &View,
    covered: &[Rect],
    room: Rect,
    clear: &mut Clear,
) -> Vec<Item> {
    let lines = lines(house, view);
    let mut items = Vec::new();
    for name in names {
        let pieces = house.faces().pieces().iter().filter(|piece| piece.name == *name);
        let stretches: Vec<Stretch> =
            pieces.flat_map(|piece| stretches(house, piece, view)).collect();
        let Some(first) = stretches.first() else { continue };
        let subject = Subject::Wall(first.wall);
        let mut found: Option<Way> = None;
        for way in ways(name, &stretches, &lines) {
            let letters = way.text.bounds();
            let covers = covered.iter().any(|one| overlap(*one, letters));
            if room.union(letters) == room && !covers && clear.is_free(&way.text) {
                found = Some(way);
                break;
            }
        }
        let Some(way) = found.or_else(|| ways(name, &stretches, &lines).next()) else { continue };
        clear.take(way.text.bounds());
        let mut marks: Vec<Item> = Vec::new();
        if let Some(tip) = way.tip {
            let at = way.text.bounds();
            let edge = Point::new(tip.x.clamp(at.x0, at.x1), tip.y.clamp(at.y0, at.y1));
            marks.push(Mark::line(pen::line(edge, tip), Stroke::solid(INK, 0.18)).into());
            marks.push(Mark::area(pen::circle(tip, 0.3), INK).into());
        }
        marks.push(way.text.into());
        items.push(Group::of(Layer::Labels, subject, marks).into());
    }
    items
}

/// Every wall's line.
fn lines(house: &House<'_>, view: &View) -> Vec<Line> {
    let walls = house.plan.walls.iter().filter_map(|(id, wall)| {
        let floor = house.plan.levels.get(&wall.level)?.floor;
        let [from, to] = [wall.a, wall.b].map(|at| view.point(at.at_height(floor)));
        Some(Line { wall: *id, from, to })
    });
    walls.collect()
}

/// The parts of walls' lines that a piece of face is of.
fn stretches(house: &House<'_>, piece: &FacePiece, view: &View) -> Vec<Stretch> {
    let Some(level) = house.plan.levels.get(&piece.level) else { return Vec::new() };
    let spans = piece.spans.iter().filter_map(|span| {
        let wall = house.plan.walls.get(&span.wall)?;
        let long = wall.length();
        let at = |along: f64| -> Point3 { wall.at(along.clamp(0.0, long)).at_height(level.floor) };
        let middle = at(f64::midpoint(span.from, span.to));
        let (nx, ny) = wall.normal(span.side);
        let metre = |part: f64| Mm::from_f64(part * 1000.0).unwrap_or(Mm::ZERO);
        let before = Point3 { x: middle.x + metre(nx), y: middle.y + metre(ny), ..middle };
        let (from, to) = (view.point(at(span.from)), view.point(at(span.to)));
        let line = pen::unit(to - from);
        let towards = view.point(before) - view.point(middle);
        // Square to the line on paper, on that side of it.
        let out = pen::unit(towards - line * towards.dot(line));
        Some(Stretch { wall: span.wall, from, to, out })
    });
    spans.collect()
}

/// Where a name could stand, the best first.
fn ways<'a>(
    name: &'a str,
    stretches: &'a [Stretch],
    lines: &'a [Line],
) -> impl Iterator<Item = Way> + 'a {
    let places = |far: &'static [f64]| {
        far.iter().flat_map(move |far| {
            SHARES.iter().flat_map(move |share| stretches.iter().map(move |it| (*far, *share, it)))
        })
    };
    let way = move |(far, share, stretch): (f64, f64, &Stretch), is_led: bool| {
        let tip = stretch.from.lerp(stretch.to, share);
        let middle = tip + stretch.out * far;
        let foot = middle + Vec2::new(0.0, Lettering::Note.mm() / 2.0);
        let text = Text::new(name, foot, Lettering::Note).anchored(Anchor::Middle);
        Way { text: text.inked(INK).haloed(), tip: is_led.then_some(tip) }
    };
    let is_own = |(far, share, stretch): &(f64, f64, &Stretch)| {
        let middle = stretch.from.lerp(stretch.to, *share) + stretch.out * *far;
        let others = lines.iter().filter(|line| line.wall != stretch.wall);
        others.map(|line| off(line, middle)).all(|other| other > far + 0.2)
    };
    let beside = places(&BESIDE).filter(is_own).map(move |place| way(place, false));
    beside.chain(places(&LED).map(move |place| way(place, true)))
}

/// From a place to the nearest one on a line, mm.
fn off(line: &Line, at: Point) -> f64 {
    let (along, long) = (line.to - line.from, pen::length(line.to - line.from));
    if long < 1e-9 {
        return pen::length(at - line.from);
    }
    let share = ((at - line.from).dot(along) / (long * long)).clamp(0.0, 1.0);
    pen::length(at - line.from.lerp(line.to, share))
}

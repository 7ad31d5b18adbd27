//! Doors with their leaf and swing, windows with their sill lines.

use kurbo::BezPath;

use super::view::View;
use super::walls::Span;
use crate::plan::{Face, LevelId, Opening, OpeningKind, Plan, Subject};
use crate::sheet::scene::{Group, Item, Layer, LinePattern, Mark, Stroke};
use crate::sheet::{Ink, pen};

const THIN: f64 = 0.18;

/// The openings of a level.
pub(super) fn draw(plan: &Plan, level: LevelId, view: &View) -> Vec<Item> {
    plan.openings
        .iter()
        .filter_map(|(id, opening)| {
            let wall = plan.walls.get(&opening.wall).filter(|wall| wall.level == level)?;
            let span = Span::of(wall, opening.from.to_f64(), opening.width.to_f64(), view)?;
            let items = opening_marks(opening, &span);
            Some(Group::of(Layer::Openings, Subject::Opening(*id), items).into())
        })
        .collect()
}

fn opening_marks(opening: &Opening, span: &Span) -> Vec<Item> {
    match opening.kind {
        OpeningKind::Door => door(opening, span),
        OpeningKind::SlidingDoor => sliding(span),
        OpeningKind::Window => window(span),
        OpeningKind::Plain => vec![faces(span, LinePattern::Dashed)],
    }
}

/// A leaf that stands open square to the wall, and the arc that it sweeps. A
/// door that nobody has hung yet shows only where it goes.
fn door(opening: &Opening, span: &Span) -> Vec<Item> {
    let Some(hinge) = opening.hinge else {
        return vec![faces(span, LinePattern::Dashed)];
    };
    let side = match hinge.opens {
        Face::Left => span.left,
        Face::Right => -span.left,
    };
    let (pivot, latch) =
        if hinge.at_near_edge { (span.near, span.far) } else { (span.far, span.near) };
    let (pivot, latch) = (pivot + side, latch + side);
    let width = pen::length(latch - pivot);
    let open = pivot + pen::unit(side) * width;
    let start = libm::atan2(open.y - pivot.y, open.x - pivot.x);
    let sweep = libm::atan2((open - pivot).cross(latch - pivot), (open - pivot).dot(latch - pivot));
    let leaf = Stroke::solid(Ink::BLACK, 0.35);
    let swing = Stroke::solid(Ink::BLACK, THIN);
    vec![
        Mark::line(pen::line(pivot, open), leaf).into(),
        Mark::line(pen::arc(pivot, width, start, sweep), swing).into(),
    ]
}

/// Two leaves that pass each other.
fn sliding(span: &Span) -> Vec<Item> {
    let along = span.far - span.near;
    let aside = span.left * 0.25;
    let mut path = BezPath::new();
    path.extend(pen::line(span.near + aside, span.near + along * 0.55 + aside));
    path.extend(pen::line(span.near + along * 0.45 - aside, span.far - aside));
    vec![Mark::line(path, Stroke::solid(Ink::BLACK, 0.35)).into(), faces(span, LinePattern::Dashed)]
}

/// Both sills and the glass.
fn window(span: &Span) -> Vec<Item> {
    let glass = pen::line(span.near, span.far);
    vec![faces(span, LinePattern::Solid), Mark::line(glass, Stroke::solid(Ink::BLACK, THIN)).into()]
}

/// The two faces of the wall across the opening.
fn faces(span: &Span, pattern: LinePattern) -> Item {
    let mut path = pen::line(span.near + span.left, span.far + span.left);
    path.extend(pen::line(span.near - span.left, span.far - span.left));
    Mark::line(path, Stroke { ink: Ink::BLACK, width: THIN, pattern }).into()
}

//! What several legs use together, counted once.

use std::collections::BTreeMap;

use crate::plan::Plane;
use crate::runs::{Heading, Segment};
use crate::units::Mm;

/// The line a segment lies on: its plane, its direction, and where across.
type Line = (Option<Plane>, bool, Mm, Mm);

/// The stretches of chase, trench or trunking that are there already.
#[derive(Debug, Default)]
pub(super) struct Shared {
    lines: BTreeMap<Line, Vec<(Mm, Mm)>>,
}

impl Shared {
    /// How much of a segment nobody before it needed, mm.
    pub(super) fn first_use(&mut self, segment: &Segment) -> Mm {
        let (line, from, to) = on_line(segment);
        let extent = to - from;
        if extent <= Mm::ZERO {
            return segment.length;
        }
        let spans = self.lines.entry(line).or_default();
        let covered: Mm =
            spans.iter().map(|span| (span.1.min(to) - span.0.max(from)).max(Mm::ZERO)).sum();
        insert(spans, from, to);
        // An oblique wall is longer than its extent along the page.
        Mm::new(((extent - covered).get() * segment.length.get()).div_euclid(extent.get()))
    }
}

fn on_line(segment: &Segment) -> (Line, Mm, Mm) {
    let (a, b) = (segment.from, segment.to);
    if matches!(segment.heading, Heading::Up | Heading::Down) {
        return ((segment.plane, true, a.x, a.y), a.z.min(b.z), a.z.max(b.z));
    }
    if (b.x - a.x).abs() >= (b.y - a.y).abs() {
        ((segment.plane, false, a.z, across(segment, a.y)), a.x.min(b.x), a.x.max(b.x))
    } else {
        ((segment.plane, false, a.z, across(segment, a.x)), a.y.min(b.y), a.y.max(b.y))
    }
}

/// Within a wall the height says which line it is; in a void the place across.
const fn across(segment: &Segment, place: Mm) -> Mm {
    match segment.plane {
        Some(Plane::Wall(_)) => Mm::ZERO,
        _ => place,
    }
}

/// Adds a span to spans that do not overlap.
fn insert(spans: &mut Vec<(Mm, Mm)>, from: Mm, to: Mm) {
    let (mut from, mut to) = (from, to);
    spans.retain(|span| {
        let apart = span.1 < from || span.0 > to;
        if !apart {
            from = from.min(span.0);
            to = to.max(span.1);
        }
        apart
    });
    spans.push((from, to));
}

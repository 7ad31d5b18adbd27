//! How many loaded circuits really lie beside a segment.

use std::collections::BTreeMap;

use crate::plan::{CircuitId, Plane};
use crate::runs::{Heading, Runs, Segment};

/// Where a segment is: its circuit, its leg, its place in the leg.
pub(super) type SegmentKey = (CircuitId, usize, usize);

/// Of the legs beside each segment, how many do not count: of its own circuit,
/// or carrying so little that they do not warm it. Segments without any are left out.
pub(super) type LightCompany = BTreeMap<SegmentKey, u32>;

/// Cables further apart than this are not counted as lying together, mm.
const TOGETHER: i64 = 50;

/// Finds the legs beside each segment that do not count as company.
///
/// The router counts who lies beside a segment; this finds them again, so
/// that those with hardly any load can be left out: a cable that carries no
/// more than 30 % of its own grouped rating may be (IEC 60364-5-52 B.52,
/// from memory).
pub(super) fn light_company(
    runs: &Runs,
    is_light: impl Fn(CircuitId, usize) -> bool,
) -> LightCompany {
    let mut company = LightCompany::new();
    for line in lines(runs).values() {
        for (key, span) in line {
            if span.segment.beside == 0 {
                continue;
            }
            let light = neighbours(line, key, span)
                .filter(|other| other.0 == key.0 || is_light(other.0, other.1))
                .map(|other| (other.0, other.1))
                .collect::<std::collections::BTreeSet<_>>();
            let count = u32::try_from(light.len()).unwrap_or(u32::MAX).min(span.segment.beside);
            if count > 0 {
                company.insert(*key, count);
            }
        }
    }
    company
}

/// A segment by where it begins and ends along its line.
struct Span<'a> {
    segment: &'a Segment,
    aside: i64,
    first: i64,
    last: i64,
}

type LineKey = (Option<Plane>, u8);

/// Segments by plane and direction, sorted by how far aside they lie.
fn lines(runs: &Runs) -> BTreeMap<LineKey, Vec<(SegmentKey, Span<'_>)>> {
    let mut lines: BTreeMap<LineKey, Vec<(SegmentKey, Span<'_>)>> = BTreeMap::new();
    let bunched = |run: &crate::runs::Run| {
        run.legs.iter().any(|leg| leg.route.segments.iter().any(|segment| segment.beside > 0))
    };
    if !runs.circuits.values().any(bunched) {
        return lines;
    }
    for (circuit, run) in &runs.circuits {
        for (leg, of) in run.legs.iter().enumerate() {
            for (place, segment) in of.route.segments.iter().enumerate() {
                let (axis, span) = span(segment);
                lines
                    .entry((segment.plane, axis))
                    .or_default()
                    .push(((*circuit, leg, place), span));
            }
        }
    }
    for line in lines.values_mut() {
        line.sort_by_key(|(key, span)| (span.aside, span.first, *key));
    }
    lines
}

/// A segment along its main axis; `aside` is the nearer of the other two that
/// a plane leaves free, taken as their sum so that one number sorts.
fn span(segment: &Segment) -> (u8, Span<'_>) {
    let (a, b) = (segment.from, segment.to);
    let upright = matches!(segment.heading, Heading::Up | Heading::Down);
    let (dx, dy) = ((b.x - a.x).abs(), (b.y - a.y).abs());
    let (axis, from, to, aside) = if upright {
        (2, a.z, b.z, a.x + a.y)
    } else if dx >= dy {
        (0, a.x, b.x, a.y + a.z)
    } else {
        (1, a.y, b.y, a.x + a.z)
    };
    let (first, last) = (from.get().min(to.get()), from.get().max(to.get()));
    (axis, Span { segment, aside: aside.get(), first, last })
}

fn neighbours<'l>(
    line: &'l [(SegmentKey, Span<'l>)],
    key: &'l SegmentKey,
    span: &'l Span<'l>,
) -> impl Iterator<Item = &'l SegmentKey> {
    let begin = line.partition_point(|(_, other)| other.aside < span.aside - TOGETHER);
    line[begin..]
        .iter()
        .take_while(move |(_, other)| other.aside <= span.aside + TOGETHER)
        .filter(move |(other, _)| (other.0, other.1) != (key.0, key.1))
        .filter(move |(_, other)| {
            let overlap = span.last.min(other.last) - span.first.max(other.first);
            overlap * 3 > span.last - span.first
        })
        .map(|(other, _)| other)
}

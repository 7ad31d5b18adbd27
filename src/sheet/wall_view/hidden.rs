//! Upright cables in corners, where one of the faces of their wall is covered
//! by a wall that meets it: who drills close to the corner can hit them.

use std::collections::BTreeMap;

use super::straight::Straight;
use crate::plan::{Face, FacePiece, Faces, Span, Wall, WallId};
use crate::sheet::house::House;

/// Where such cables are seen.
#[derive(Debug, Default)]
pub(super) struct Hidden {
    /// By the wall and side of a span, and where it begins along its wall.
    seen: BTreeMap<(WallId, Face, i64), Vec<(usize, Seen)>>,
}

/// How a cable is seen in a piece.
#[derive(Clone, Copy, Debug)]
pub(super) struct Seen {
    /// From the corner at the left, mm.
    pub(super) across: f64,
    /// How far past the end of the piece it is, if it is.
    pub(super) past: Option<f64>,
}

/// Finds all of them.
pub(super) fn find(house: &House<'_>, straights: &[Straight<'_>]) -> Hidden {
    let mut hidden = Hidden::default();
    let faces = house.faces();
    for (number, one) in straights.iter().enumerate() {
        if !one.is_upright() {
            continue;
        }
        let mut is_covered = false;
        for side in [Face::Left, Face::Right] {
            let along = one.from.x;
            if faces.spans(one.wall, side).any(|(_, span)| span.holds(along)) {
                continue;
            }
            is_covered = true;
            for (span, at) in beside(faces, (one.wall, side), along) {
                let past = Some((along - at).abs());
                let across = span.across(at);
                hidden.add(span, number, Seen { across, past });
            }
        }
        if is_covered {
            hidden.in_others(house, number, one);
        }
    }
    hidden
}

/// The spans on both sides of a place that none has before it, each with its
/// end there.
fn beside(faces: &Faces, on: (WallId, Face), along: f64) -> Vec<(&Span, f64)> {
    let spans = || faces.spans(on.0, on.1).map(|(_, span)| span);
    let before = spans().filter(|span| span.to < along).max_by(|a, b| a.to.total_cmp(&b.to));
    let after = spans().filter(|span| span.from > along).min_by(|a, b| a.from.total_cmp(&b.from));
    let before = before.map(|span| (span, span.to));
    before.into_iter().chain(after.map(|span| (span, span.from))).collect()
}

impl Hidden {
    fn add(&mut self, span: &Span, number: usize, seen: Seen) {
        self.seen.entry(key(span)).or_default().push((number, seen));
    }

    /// Other walls whose own thickness holds it.
    fn in_others(&mut self, house: &House<'_>, number: usize, one: &Straight<'_>) {
        let Some(own) = house.plan.walls.get(&one.wall) else { return };
        for (id, wall) in &house.plan.walls {
            if *id == one.wall || wall.level != own.level {
                continue;
            }
            let Some(along) = within(wall, one) else { continue };
            for side in [Face::Left, Face::Right] {
                let spans = house.faces().spans(*id, side).map(|(_, span)| span);
                for span in spans.filter(|span| span.holds(along)) {
                    self.add(span, number, Seen { across: span.across(along), past: None });
                }
            }
        }
    }

    /// The cables that are seen in a piece so.
    pub(super) fn behind(&self, piece: &FacePiece) -> Vec<(usize, Seen)> {
        let mut seen: Vec<(usize, Seen)> = piece
            .spans
            .iter()
            .filter_map(|span| self.seen.get(&key(span)))
            .flatten()
            .copied()
            .collect();
        // Before what lies past its end.
        seen.sort_by_key(|a| (a.0, a.1.past.is_some()));
        seen.dedup_by_key(|one| one.0);
        seen
    }
}

fn key(span: &Span) -> (WallId, Face, i64) {
    #[expect(clippy::cast_possible_truncation, reason = "no longer than the plan is wide")]
    let from = libm::round(span.from * 16.0) as i64;
    (span.wall, span.side, from)
}

/// How far along a wall a cable is, if the thickness of the wall holds it.
fn within(wall: &Wall, one: &Straight<'_>) -> Option<f64> {
    let (dx, dy) = wall.direction();
    let (x, y) = ((one.at.x - wall.a.x).to_f64(), (one.at.y - wall.a.y).to_f64());
    let (along, off) = (x * dx + y * dy, y * dx - x * dy);
    (off.abs() <= wall.thickness.to_f64() / 2.0).then_some(along)
}

//! Where a cable may lie concealed in a piece of a face.

use kurbo::Rect;

use super::Face;
use crate::plan::{Face as Side, FacePiece, Shape, Span};
use crate::sheet::scene::{Item, LinePattern, Mark, Stroke};
use crate::sheet::{Ink, pen};

impl Face<'_> {
    /// Strips along the ceiling and beside corners, and lines level and in
    /// line with boxes.
    pub(super) fn zones(&self) -> Vec<Item> {
        let strip = self.house.plan.habits.zones.strip.to_f64();
        let (long, high) = (self.view.piece.length, self.view.height);
        let pale = |area: Rect| Mark::area(pen::rect(area), Ink::PALE_GREY).into();
        let mut items: Vec<Item> = vec![pale(self.rect(0.0, long, (high - strip).max(0.0), high))];
        for (from, to) in self.beside_corners(strip) {
            items.push(pale(self.rect(from, to, 0.0, high)));
        }
        let dotted = Stroke { ink: Ink::GREY, width: 0.25, pattern: LinePattern::Dotted };
        for one in &self.view.boxes {
            let (x, y) = (self.x(one.across), -one.height.to_f64() * self.per);
            items.push(Mark::line(pen::line((x, 0.0), (x, -high * self.per)), dotted).into());
            items.push(Mark::line(pen::line((0.0, y), (self.x(long), y)), dotted).into());
        }
        items
    }

    /// Strips beside the corners of this face and of the one behind it: cables
    /// serve both. From and to, mm.
    fn beside_corners(&self, strip: f64) -> Vec<(f64, f64)> {
        let mut strips: Vec<(f64, f64)> = Vec::new();
        for own in &self.view.piece.spans {
            for side in [Side::Left, Side::Right] {
                for (piece, span) in self.house.faces().spans(own.wall, side) {
                    for at in corners(piece, span) {
                        // Into the span, away from the corner.
                        let past =
                            if at > f64::midpoint(span.from, span.to) { -strip } else { strip };
                        let (low, high) = (at.min(at + past), at.max(at + past));
                        let (low, high) = (low.max(own.from), high.min(own.to));
                        if low + 1.0 < high {
                            let ends = [own.across(low), own.across(high)];
                            strips.push((ends[0].min(ends[1]), ends[0].max(ends[1])));
                        }
                    }
                }
            }
        }
        strips.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
        strips.dedup_by(|a, b| (a.0 - b.0).abs() < 0.5 && (a.1 - b.1).abs() < 0.5);
        strips.retain(|one| one.0 < self.part.1 && self.part.0 < one.1);
        strips
    }
}

/// The ends of a span along its wall at which its piece ends in the corner of
/// a room or bare.
fn corners(piece: &FacePiece, span: &Span) -> Vec<f64> {
    let (left, right) = match span.side {
        Side::Left => (span.to, span.from),
        Side::Right => (span.from, span.to),
    };
    let is_last = span.start + span.length() > piece.length - 0.5;
    let ends = [(left, piece.left, span.start < 0.5), (right, piece.right, is_last)];
    let shapes = [Shape::Inner, Shape::Bare];
    let ends =
        ends.into_iter().filter(|(_, corner, is_end)| *is_end && shapes.contains(&corner.shape));
    ends.map(|(at, ..)| at).collect()
}

//! Which pieces are worth drawing.

use std::collections::BTreeMap;

use super::face::Purpose;
use crate::plan::Face;
use crate::sheet::wall_view::WallView;

/// The views that a paper for somebody shows.
pub(super) fn chosen(views: Vec<WallView<'_>>, purpose: Purpose) -> Vec<WallView<'_>> {
    match purpose {
        Purpose::Fitting => fitting(views),
        Purpose::Keeping => {
            let seen = |view: &WallView<'_>| {
                !view.cables.is_empty() && (view.has_boxes() || !view.piece.rooms.is_empty())
            };
            views.into_iter().filter(seen).collect()
        }
    }
}

/// All with boxes; and for what cable these leave out, one side of its wall:
/// from a room rather than from outside, and from the left.
fn fitting(views: Vec<WallView<'_>>) -> Vec<WallView<'_>> {
    let mut shown = Shown::default();
    let (mut chosen, mut rest): (Vec<_>, Vec<_>) = views.into_iter().partition(WallView::has_boxes);
    chosen.iter().for_each(|view| shown.take(view));
    rest.sort_by_key(|view| {
        let side = view.piece.spans.first().map(|span| span.side);
        (view.piece.rooms.is_empty(), side == Some(Face::Right))
    });
    for view in rest {
        if shown.lacks(&view) {
            shown.take(&view);
            chosen.push(view);
        }
    }
    chosen
}

/// So much of a cable may go undrawn, mm: where it passes behind a wall that
/// meets its own, and both sides of that are drawn.
const PASSED: f64 = 600.0;

/// What of each straight piece of cable is shown: from and to along its wall.
#[derive(Default)]
struct Shown(BTreeMap<usize, Vec<(f64, f64)>>);

impl Shown {
    fn lacks(&self, view: &WallView<'_>) -> bool {
        view.cables.iter().any(|one| match self.0.get(&one.number) {
            None => true,
            Some(shown) => left_out(shown, one.along) > PASSED,
        })
    }

    fn take(&mut self, view: &WallView<'_>) {
        for one in &view.cables {
            self.0.entry(one.number).or_default().push(one.along);
        }
    }
}

/// How much of a stretch others leave out, mm.
fn left_out(shown: &[(f64, f64)], (from, to): (f64, f64)) -> f64 {
    let mut shown = shown.to_vec();
    shown.sort_by(|a, b| a.0.total_cmp(&b.0));
    let (mut at, mut out) = (from, 0.0);
    for (low, high) in shown {
        out += (low.min(to) - at).max(0.0);
        at = at.max(high.min(to));
    }
    out + (to - at).max(0.0)
}

#[test]
fn what_is_left_out_is_what_no_other_shows() {
    let shown = [(0.0, 1000.0), (1110.0, 2000.0), (1500.0, 1600.0)];
    let left = [(0.0, 2000.0), (500.0, 3000.0), (2500.0, 3000.0)].map(|one| left_out(&shown, one));
    let right = [110.0, 1110.0, 500.0];
    assert!(left.iter().zip(right).all(|(a, b)| (a - b).abs() < 1e-9), "{left:?}");
}

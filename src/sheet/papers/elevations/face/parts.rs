//! A face that is too long for a sheet, in parts.

use kurbo::Point;

use super::Face;
use crate::sheet::wall_view::{CableIn, OpeningIn, WallView};

/// An opening narrower than this has its figures beside it, mm.
const SMALL: f64 = 900.0;

impl<'a> Face<'a> {
    /// The face in parts no longer than this, mm, cut where nothing stands.
    pub(in super::super) fn parts(&self, longest: f64) -> Vec<Self> {
        let long = self.view.piece.length;
        let count = libm::ceil(long / longest - 1e-9).max(1.0);
        let mut cuts = vec![0.0];
        let mut step = 1.0;
        while step < count {
            let last = cuts.last().copied().unwrap_or(0.0);
            // No part longer than it may be, neither this nor those that follow.
            let within = (long - (count - step) * longest, last + longest);
            cuts.push(self.clear_cut(long * step / count, within));
            step += 1.0;
        }
        cuts.push(long);
        cuts.windows(2).map(|pair| self.part_of(pair[0], pair[1])).collect()
    }

    /// A place near this where no opening is cut and no box or cable is close:
    /// far enough off for the lettering beside them, or else as far as may be.
    fn clear_cut(&self, near: f64, within: (f64, f64)) -> f64 {
        let openings: Vec<(f64, f64)> =
            self.view.openings.iter().map(|one| (one.area.x0, one.area.x1)).collect();
        let cables = self.view.uprights().map(|one| one.from.x);
        let boxes = self.view.boxes.iter().map(|one| one.across);
        let stands: Vec<f64> = boxes.chain(cables).collect();
        let clear = |at: f64, off: f64| {
            // What is in an opening stands in it, unless it is a small one.
            let beside = |(from, to): (f64, f64)| if to - from < SMALL { off } else { 100.0 };
            let open =
                openings.iter().any(|one| one.0 - beside(*one) < at && at < one.1 + beside(*one));
            !open && !stands.iter().any(|other| (other - at).abs() < off)
        };
        let aside = (0..=20_i32).flat_map(|step| [f64::from(step), -f64::from(step)]);
        let places: Vec<f64> = aside
            .map(|step| near + step * 100.0)
            .filter(|at| within.0 <= *at && *at <= within.1)
            .collect();
        let found = [1000.0, 700.0, 400.0, 250.0, 100.0]
            .into_iter()
            .find_map(|off| places.iter().copied().find(|at| clear(*at, off)));
        found.unwrap_or(near)
    }

    fn part_of(&self, from: f64, to: f64) -> Self {
        let within = |at: f64| from - 1.0 <= at && at <= to + 1.0;
        let clamped = |at: Point| Point::new(at.x.clamp(from, to), at.y);
        let reaches = |one: &&CableIn<'a>| {
            one.from.x.min(one.to.x) < to && from < one.from.x.max(one.to.x)
                || within(one.from.x) && within(one.to.x)
        };
        let cables = self.view.cables.iter().filter(reaches);
        let opens = |one: &&OpeningIn| one.area.x0 < to && from < one.area.x1;
        let view = WallView {
            boxes: self.view.boxes.iter().filter(|one| within(one.across)).copied().collect(),
            openings: self.view.openings.iter().filter(opens).copied().collect(),
            cables: cables
                .map(|one| CableIn { from: clamped(one.from), to: clamped(one.to), ..one.clone() })
                .collect(),
            ..self.view
        };
        Self { view, part: (from, to), ..*self }
    }
}

//! A face that is too long for a sheet, in parts.

use kurbo::Point;

use super::{Cable, Face};

/// An opening narrower than this has its figures beside it, mm.
const SMALL: f64 = 900.0;

impl Face<'_> {
    /// The face in parts no longer than this, mm, cut where nothing stands.
    pub(in super::super) fn parts(&self, longest: f64) -> Vec<Self> {
        let long = self.wall.length();
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
        let own = self.house.plan.openings.values().filter(|one| one.wall == self.wall_id);
        let openings: Vec<(f64, f64)> = own
            .map(|one| {
                let ends = [one.from, one.from + one.width].map(|at| self.across(at.to_f64()));
                (ends[0].min(ends[1]), ends[0].max(ends[1]))
            })
            .collect();
        let upright = |one: &&Cable| (one.from.x - one.to.x).abs() < 2.0;
        let cables = self.cables.iter().filter(upright).map(|one| one.from.x);
        let stands: Vec<f64> = self.boxes.iter().map(|one| one.along).chain(cables).collect();
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
        let reaches = |one: &&Cable| {
            one.from.x.min(one.to.x) < to && from < one.from.x.max(one.to.x)
                || within(one.from.x) && within(one.to.x)
        };
        let cables = self.cables.iter().filter(reaches);
        Self {
            house: self.house,
            wall: self.wall,
            room: self.room.clone(),
            part: (from, to),
            boxes: self.boxes.iter().filter(|one| within(one.along)).cloned().collect(),
            cables: cables
                .map(|one| Cable { from: clamped(one.from), to: clamped(one.to), ..one.clone() })
                .collect(),
            ..*self
        }
    }
}

//! Straight lines and rings, in millimetres.

/// A straight line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::store::import) struct Line {
    pub(in crate::store::import) a: [f64; 2],
    pub(in crate::store::import) b: [f64; 2],
}

impl Line {
    pub(in crate::store::import) fn length(&self) -> f64 {
        libm::hypot(self.b[0] - self.a[0], self.b[1] - self.a[1])
    }

    /// The direction from `a` to `b`; along `x` for no length at all.
    pub(in crate::store::import) fn direction(&self) -> [f64; 2] {
        let length = self.length();
        if length > 0.0 {
            [(self.b[0] - self.a[0]) / length, (self.b[1] - self.a[1]) / length]
        } else {
            [1.0, 0.0]
        }
    }

    /// The place so far from `a`.
    pub(in crate::store::import) fn at(&self, along: f64) -> [f64; 2] {
        let [ux, uy] = self.direction();
        [self.a[0] + along * ux, self.a[1] + along * uy]
    }

    /// How far along the line and how far to its left a place lies.
    pub(in crate::store::import) fn locate(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        let ([ux, uy], gx, gy) = (self.direction(), x - self.a[0], y - self.a[1]);
        [gx * ux + gy * uy, gy * ux - gx * uy]
    }

    /// Whether a place may lie so near to the line: a first look, that takes no roots.
    pub(in crate::store::import) fn is_near(&self, [x, y]: [f64; 2], within: f64) -> bool {
        let [low, high] = extent(&[self.a, self.b]);
        low[0] - within <= x
            && x <= high[0] + within
            && low[1] - within <= y
            && y <= high[1] + within
    }

    /// How far a place lies from the nearest place of the line.
    pub(in crate::store::import) fn distance(&self, place: [f64; 2]) -> f64 {
        let [along, off] = self.locate(place);
        let beyond = (-along).max(along - self.length()).max(0.0);
        libm::hypot(beyond, off)
    }
}

/// The sides of a ring whose first place is not repeated, or is.
pub(in crate::store::import) fn edges(ring: &[[f64; 2]]) -> Vec<Line> {
    let ends = ring.iter().zip(ring.iter().cycle().skip(1));
    ends.map(|(a, b)| Line { a: *a, b: *b }).filter(|line| line.length() > 0.0).collect()
}

/// The least and the greatest of what places have along either axis.
pub(in crate::store::import) fn extent(places: &[[f64; 2]]) -> [[f64; 2]; 2] {
    let none = [[f64::INFINITY; 2], [f64::NEG_INFINITY; 2]];
    places.iter().fold(none, |[low, high], [x, y]| {
        [[low[0].min(*x), low[1].min(*y)], [high[0].max(*x), high[1].max(*y)]]
    })
}

/// The area of a ring, positive anticlockwise, mm².
pub(in crate::store::import) fn area(ring: &[[f64; 2]]) -> f64 {
    let Some(first) = ring.first() else { return 0.0 };
    // From the first corner: far from the origin little is lost.
    let from = |place: [f64; 2]| [place[0] - first[0], place[1] - first[1]];
    let sides = edges(ring).into_iter().map(|line| (from(line.a), from(line.b)));
    sides.map(|(a, b)| a[0] * b[1] - a[1] * b[0]).sum::<f64>() / 2.0
}

/// A ring without repeated corners and without those in the middle of a side.
pub(in crate::store::import) fn simplified(ring: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let sides: Vec<Line> = edges(ring).into_iter().filter(|side| side.length() >= 1.0).collect();
    let mut corners = Vec::new();
    for (before, after) in sides.iter().cycle().skip(sides.len().saturating_sub(1)).zip(&sides) {
        let ([ux, uy], [vx, vy]) = (before.direction(), after.direction());
        if (ux * vy - uy * vx).abs() > 1e-4 || ux * vx + uy * vy < 0.0 {
            corners.push(after.a);
        }
    }
    corners
}

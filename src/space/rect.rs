//! Rectangles in the frame of a plane.

/// A rectangle in whole millimetres of a plane's own two axes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Rect {
    /// Least first coordinate.
    pub u0: i64,
    /// Least second coordinate.
    pub v0: i64,
    /// Greatest first coordinate.
    pub u1: i64,
    /// Greatest second coordinate.
    pub v1: i64,
}

impl Rect {
    /// From two opposite corners, in any order.
    #[must_use]
    pub fn new(ua: i64, va: i64, ub: i64, vb: i64) -> Self {
        Self { u0: ua.min(ub), v0: va.min(vb), u1: ua.max(ub), v1: va.max(vb) }
    }

    /// The smallest rectangle around some places. None for no places.
    #[must_use]
    pub fn around(places: &[(i64, i64)]) -> Option<Self> {
        let (&(u, v), rest) = places.split_first()?;
        Some(rest.iter().fold(Self::new(u, v, u, v), |rect, &(u, v)| Self {
            u0: rect.u0.min(u),
            v0: rect.v0.min(v),
            u1: rect.u1.max(u),
            v1: rect.v1.max(v),
        }))
    }

    /// Larger by so much on all four sides.
    #[must_use]
    pub const fn grown(self, by: i64) -> Self {
        Self { u0: self.u0 - by, v0: self.v0 - by, u1: self.u1 + by, v1: self.v1 + by }
    }

    /// The smallest rectangle around both.
    #[must_use]
    pub fn with(&self, other: &Self) -> Self {
        Self {
            u0: self.u0.min(other.u0),
            v0: self.v0.min(other.v0),
            u1: self.u1.max(other.u1),
            v1: self.v1.max(other.v1),
        }
    }

    /// What both have in common; of no extent where that is nothing.
    #[must_use]
    pub fn common(&self, other: &Self) -> Self {
        let (u0, v0) = (self.u0.max(other.u0), self.v0.max(other.v0));
        Self { u0, v0, u1: self.u1.min(other.u1).max(u0), v1: self.v1.min(other.v1).max(v0) }
    }

    /// Whether a place lies in it or on its edge.
    #[must_use]
    pub const fn holds(&self, u: i64, v: i64) -> bool {
        self.u0 <= u && u <= self.u1 && self.v0 <= v && v <= self.v1
    }

    /// Whether the closed cell lies in it.
    #[must_use]
    pub const fn covers(&self, cell: &Self) -> bool {
        self.u0 <= cell.u0 && cell.u1 <= self.u1 && self.v0 <= cell.v0 && cell.v1 <= self.v1
    }

    /// Whether an upright stretch passes through its open inside.
    #[must_use]
    pub const fn blocks_upright(&self, u: i64, v0: i64, v1: i64) -> bool {
        self.u0 < u && u < self.u1 && v0 < self.v1 && self.v0 < v1
    }

    /// Whether a sideways stretch passes through its open inside.
    #[must_use]
    pub const fn blocks_sideways(&self, v: i64, u0: i64, u1: i64) -> bool {
        self.v0 < v && v < self.v1 && u0 < self.u1 && self.u0 < u1
    }
}

//! Circuits as they were at one time.

use super::link::Link;

/// Circuits that kept to their limits.
#[derive(Clone, Debug, Default)]
pub(super) struct Picture {
    /// What all legs and circuits weighed.
    pub(super) weight: i64,
    pub(super) links: Vec<Link>,
    pub(super) firsts: Vec<u32>,
    pub(super) sizes: Vec<u32>,
    pub(super) points_left: Vec<i32>,
    pub(super) watts_left: Vec<i32>,
}

impl Picture {
    /// The points of every circuit that had some, in order.
    pub(super) fn groups(&self) -> Vec<Vec<usize>> {
        let on = |(first, size): (&u32, &u32)| {
            let next = |point: &u32| Some(self.links[*point as usize].after);
            let points = std::iter::successors(Some(*first), next).take(*size as usize);
            points.map(|point| point as usize).collect()
        };
        let feeds = self.firsts.iter().zip(&self.sizes);
        feeds.filter(|(_, size)| **size > 0).map(on).collect()
    }

    /// The points that stand between others than in another picture.
    pub(super) fn differing<'a>(&'a self, other: &'a Self) -> impl Iterator<Item = usize> + 'a {
        let sides = |link: &Link| {
            let board = |end: u32| if end as usize == self.links.len() { 0 } else { end };
            let (a, b) = (link.before, board(link.after));
            (a.min(b), a.max(b))
        };
        let pairs = self.links.iter().zip(&other.links).enumerate().skip(1);
        pairs.filter(move |(_, (a, b))| sides(a) != sides(b)).map(|(point, _)| point)
    }
}

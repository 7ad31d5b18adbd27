//! Which walls are near a place and which meet, for many windows of one space.

use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet};

use rstar::primitives::{GeomWithData, Rectangle};
use rstar::{AABB, RTree};

use super::{Meet, Modes, Rect, Space, Terminal, Window};

/// The walls of a space by their places, and by what meets them.
#[derive(Debug)]
pub struct Index<'a> {
    space: &'a Space,
    walls: RTree<GeomWithData<Rectangle<[i64; 2]>, usize>>,
    /// For every wall its meetings, by their numbers; made when first asked for.
    meets: OnceCell<Vec<Vec<usize>>>,
}

impl Space {
    /// An index of this space.
    #[must_use]
    pub fn index(&self) -> Index<'_> {
        let boxes = self.walls.iter().enumerate().map(|(number, wall)| {
            let ends = [wall.a, wall.b].map(|end| [end.x.get(), end.y.get()]);
            GeomWithData::new(Rectangle::from_corners(ends[0], ends[1]), number)
        });
        Index { space: self, walls: RTree::bulk_load(boxes.collect()), meets: OnceCell::new() }
    }
}

impl Index<'_> {
    /// Cuts out what is inside a box on the page, without the meetings of walls:
    /// only legs of circuits with an end that is stuck turn there.
    #[must_use]
    pub fn within(&self, rect: Rect) -> Window {
        let around = AABB::from_corners([rect.u0, rect.v0], [rect.u1, rect.v1]);
        let near = self.walls.locate_in_envelope_intersecting(around);
        let mut near: Vec<usize> = near.map(|wall| wall.data).collect();
        near.sort_unstable();
        self.space.cut(rect, near.into_iter())
    }

    /// The same with the meetings of those walls that are inside as a whole.
    #[must_use]
    pub fn within_joined(&self, rect: Rect) -> Window {
        let mut window = self.within(rect);
        let near: BTreeSet<usize> =
            window.numbers().flat_map(|wall| self.meets_of(wall)).copied().collect();
        let meets = near.into_iter().filter_map(|meet| {
            let meet = &self.space.meets[meet];
            let one = (window.whole(meet.one.0)?, meet.one.1);
            let other = (window.whole(meet.other.0)?, meet.other.1);
            Some(Meet { one, other, at: meet.at })
        });
        window.space.meets = meets.collect();
        window
    }

    fn meets_of(&self, wall: usize) -> &[usize] {
        let all = self.meets.get_or_init(|| {
            let mut all = vec![Vec::new(); self.space.walls.len()];
            for (number, meet) in self.space.meets.iter().enumerate() {
                all[meet.one.0].push(number);
                all[meet.other.0].push(number);
            }
            all
        });
        &all[wall]
    }

    /// The walls of the ends, and all into which cables can turn from them in a
    /// circuit with an end that is stuck: where walls meet and one of them
    /// reaches no void.
    #[must_use]
    pub fn joined_walls(&self, modes: Modes, ends: &[Terminal]) -> BTreeSet<usize> {
        let mut joined: BTreeSet<usize> = ends.iter().filter_map(Terminal::wall).collect();
        if !modes.sideways() {
            return joined;
        }
        let mut known: BTreeMap<usize, bool> = BTreeMap::new();
        let mut reaches = |wall: usize| {
            *known.entry(wall).or_insert_with(|| !self.space.portals(wall, modes).is_empty())
        };
        let mut stack: Vec<usize> = joined.iter().copied().collect();
        while let Some(wall) = stack.pop() {
            let here = reaches(wall);
            for meet in self.meets_of(wall) {
                let Meet { one, other, .. } = &self.space.meets[*meet];
                let next = if one.0 == wall { other.0 } else { one.0 };
                let turns = !here || !reaches(next);
                if turns && joined.insert(next) {
                    stack.push(next);
                }
            }
        }
        joined
    }
}

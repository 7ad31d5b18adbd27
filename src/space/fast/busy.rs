//! Further core lines on large storeys, where the columns of many walls reach a
//! void in one line.
//!
//! A place that is on no core line looks along the whole of its own, over all
//! that cross it; on a core line it looks to the next. So where many places
//! share a long line it is worth one more to sweep.

use std::collections::BTreeMap;

use super::super::{Space, VoidField};

/// From so many places on, mm by mm.
const MANY: usize = 48;
/// And where so many lines cross.
const LONG: usize = 400;

/// For every void the lines across `u` and across `v` that are worth it.
pub(super) fn lines(space: &Space) -> Vec<(Vec<i64>, Vec<i64>)> {
    let nothing = || (Vec::new(), Vec::new());
    // A house has neither so many walls nor so many lines.
    if space.walls.len() < MANY {
        return space.voids.iter().map(|_| nothing()).collect();
    }
    let of = |(index, field): (usize, &VoidField)| {
        let (mut us, mut vs) = field.edges();
        for lines in [&mut us, &mut vs] {
            lines.sort_unstable();
            lines.dedup();
        }
        if us.len().max(vs.len()) < LONG {
            return nothing();
        }
        let (on_u, on_v) = places(space, index);
        let worth = |places: BTreeMap<i64, usize>, lines: &[i64], crossed: usize| -> Vec<i64> {
            let (Some(first), Some(last)) = (lines.first(), lines.last()) else {
                return Vec::new();
            };
            let many = places.into_iter().filter(|(_, count)| crossed >= LONG && *count >= MANY);
            many.map(|(at, _)| at).filter(|at| first < at && at < last).collect()
        };
        (worth(on_u, &us, vs.len()), worth(on_v, &vs, us.len()))
    };
    space.voids.iter().enumerate().map(of).collect()
}

/// How many columns reach a void at each `u` and at each `v`.
fn places(space: &Space, void: usize) -> (BTreeMap<i64, usize>, BTreeMap<i64, usize>) {
    let field = &space.voids[void];
    let (mut on_u, mut on_v) = (BTreeMap::new(), BTreeMap::new());
    let walls = space.walls.iter();
    for wall in walls.filter(|wall| wall.above.contains(&void) || wall.below.contains(&void)) {
        for column in &wall.columns {
            let (u, v) = field.settle(field.frame.frame_from_page(wall.page(column.along)));
            *on_u.entry(u).or_default() += 1;
            *on_v.entry(v).or_default() += 1;
        }
    }
    (on_u, on_v)
}

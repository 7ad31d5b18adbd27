//! The best way of sharing few points out, by looking at every one.

use super::task::{Load, Work};

/// More than any sum of weights.
const FAR: i64 = 1 << 61;

/// The circuits of least weight, and their weight.
///
/// A circuit over the set `S` weighs the least over its last point, as for an
/// order (Held and Karp 1962); the sets are then put together: the best for
/// `S` is the best over all circuits `T` within `S` that hold its lowest point
/// of the circuit over `T` and the best for the rest.
pub(super) fn best(work: &Work<'_>) -> (Vec<Vec<usize>>, i64) {
    let points = work.points();
    let sets = 1_usize << points;
    let mut ways = vec![FAR; sets * points];
    let mut loads = vec![Load::default(); sets];
    for point in 0..points {
        ways[(1 << point) * points + point] = work.leg(0, point + 1);
    }
    for set in 1..sets {
        let lowest = lowest_of(set);
        loads[set] = loads[set & (set - 1)].and(work.loads[lowest + 1]);
        for last in members(set, points) {
            let rest = set & !(1 << last);
            for before in members(rest, points) {
                let way = ways[rest * points + before] + work.leg(before + 1, last + 1);
                let best = &mut ways[set * points + last];
                *best = (*best).min(way);
            }
        }
    }
    let circuit: Vec<i64> = (0..sets)
        .map(|set| {
            if set == 0 || !loads[set].within(work.limit) {
                return FAR;
            }
            let ended = |last: usize| ways[set * points + last] + work.back(last + 1);
            work.fixed + members(set, points).map(ended).min().unwrap_or(FAR)
        })
        .collect();
    let mut shared: Vec<(i64, usize)> = vec![(0, 0); sets];
    for set in 1..sets {
        shared[set] = (FAR, 0);
        let lowest = 1 << lowest_of(set);
        let others = set & !lowest;
        let mut part = others;
        loop {
            let own = part | lowest;
            let weight = circuit[own].saturating_add(shared[set & !own].0);
            shared[set] = shared[set].min((weight, own));
            if part == 0 {
                break;
            }
            part = (part - 1) & others;
        }
    }
    let mut groups = Vec::new();
    let mut left = sets - 1;
    while left != 0 && shared[left].1 != 0 {
        groups.push(read_back(work, &ways, points, shared[left].1));
        left &= !shared[left].1;
    }
    (groups, shared[sets - 1].0)
}

fn lowest_of(set: usize) -> usize {
    usize::try_from(set.trailing_zeros()).unwrap_or(0)
}

fn members(set: usize, points: usize) -> impl Iterator<Item = usize> {
    (0..points).filter(move |point| set & (1 << point) != 0)
}

/// The order of one circuit.
fn read_back(work: &Work<'_>, ways: &[i64], points: usize, mut set: usize) -> Vec<usize> {
    let mut order: Vec<usize> = Vec::new();
    while set != 0 {
        let onward = |point: usize| match order.last() {
            Some(next) => work.leg(point + 1, *next),
            None => work.back(point + 1),
        };
        let ended = |point: &usize| (ways[set * points + point] + onward(*point), *point);
        let Some(last) = members(set, points).min_by_key(ended) else { break };
        order.push(last + 1);
        set &= !(1 << last);
    }
    order.reverse();
    order
}

//! Filling sources one after another, each as full as it goes.

use super::cover::cheapest;
use super::reach::Sums;
use super::{Filling, Job, Plan};

/// Fills off-cuts in the order given, then as few drums as it takes. A source
/// is filled to within `tolerance` of its end, or else leaves a rest worth
/// keeping; an off-cut that can do neither is left alone.
///
/// `pool` holds pieces, those to be taken first in front; each must fit some drum, or else be
/// taken by an off-cut: what fits nothing is left in the pool. Drums are those
/// that are cheapest together, or all of one type where one is asked for.
pub(super) fn fill(
    job: &Job,
    sums: &mut Sums,
    pool: &mut Vec<usize>,
    off_cuts: &[usize],
    tolerance: i64,
    only: Option<usize>,
) -> Plan {
    let mut plan = Plan { off_cuts: vec![Vec::new(); job.off_cuts.len()], drums: Vec::new() };
    for at in off_cuts {
        plan.off_cuts[*at] = take(job, sums, pool, job.off_cuts[*at], tolerance, false);
    }
    fill_drums(job, sums, pool, tolerance, only, &mut plan);
    plan
}

fn fill_drums(
    job: &Job,
    sums: &mut Sums,
    pool: &mut Vec<usize>,
    tolerance: i64,
    only: Option<usize>,
    plan: &mut Plan,
) {
    while let Some(longest) = pool.iter().map(|piece| job.pieces[*piece]).max() {
        let one = only.filter(|kind| job.drums[*kind].length >= longest);
        let counts = match one {
            Some(kind) => (0..job.drums.len()).map(|at| i64::from(at == kind)).collect(),
            None => match cheapest(&job.drums, job.filled(pool), 1, longest) {
                Some((_, counts)) => counts,
                None => return,
            },
        };
        let mut kinds: Vec<usize> =
            (0..counts.len()).flat_map(|kind| (0..counts[kind]).map(move |_| kind)).collect();
        kinds.sort_by_key(|kind| (std::cmp::Reverse(job.drums[*kind].length), *kind));
        for kind in kinds {
            let filling = take(job, sums, pool, job.drums[kind].length, tolerance, true);
            if !filling.is_empty() {
                plan.drums.push((cheapest_holder(job, kind, &filling), filling));
            }
        }
    }
}

/// The cheapest type of drum that still holds what was put on one.
fn cheapest_holder(job: &Job, kind: usize, filling: &[usize]) -> usize {
    let filled = job.filled(filling);
    let holds = (0..job.drums.len()).filter(|at| job.drums[*at].length >= filled);
    holds.min_by_key(|at| (job.drums[*at].price, *at != kind, *at)).unwrap_or(kind)
}

/// Takes out of the pool what one source is filled with.
fn take(
    job: &Job,
    sums: &mut Sums,
    pool: &mut Vec<usize>,
    length: i64,
    tolerance: i64,
    must: bool,
) -> Filling {
    let all = job.filled(pool);
    if all <= length && job.scrap_of(length - all) <= tolerance {
        return std::mem::take(pool);
    }
    sums.make_full(pool.iter().map(|piece| job.pieces[*piece]), length);
    let full = sums.most(length);
    let mut sum = full;
    if job.scrap_of(length - full) > tolerance {
        sum = sums.most(length - job.usable);
        if sum == 0 && must {
            sum = full;
        }
    }
    let mut places = sums.places(sum);
    places.sort_unstable();
    let filling = places.iter().map(|place| pool[*place]).collect();
    for place in places.into_iter().rev() {
        pool.remove(place);
    }
    filling
}

//! What no cut plan can better.

use super::cover::cheapest;
use super::reach::Sums;
use super::{Goal, Goals, Job};

/// The most that each off-cut can give, one by one, from some pieces: at all,
/// and without scrap. Added up they bound what all of them give together.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Most {
    /// With any rest.
    pub(super) any: i64,
    /// With no rest, or one worth keeping.
    pub(super) clean: i64,
}

/// As [`Most`], for these off-cuts together, the shortest first. Those up to a
/// length give no more between them than all the pieces that fit into it.
pub(super) fn most(job: &Job, sums: &mut Sums, pool: &[usize], off_cuts: &[usize]) -> Most {
    let longest = off_cuts.last().map_or(0, |at| job.off_cuts[*at]);
    sums.make(pool.iter().map(|piece| job.pieces[*piece]), longest);
    let mut most = Most::default();
    let mut shortest_first = pool.iter().rev().map(|piece| job.pieces[*piece]).peekable();
    let mut fitting = 0;
    for at in off_cuts {
        let length = job.off_cuts[*at];
        while let Some(piece) = shortest_first.next_if(|piece| *piece <= length) {
            fitting += piece;
        }
        let one = most_of(job, sums, length);
        most.any = (most.any + one.any).min(fitting);
        most.clean = (most.clean + one.clean).min(fitting);
    }
    most
}

/// The off-cuts, the shortest first.
pub(super) fn shortest_first(job: &Job) -> Vec<usize> {
    let mut order: Vec<usize> = (0..job.off_cuts.len()).collect();
    order.sort_by_key(|at| (job.off_cuts[*at], *at));
    order
}

/// The most one off-cut can give, from sums made up to its length or beyond.
fn most_of(job: &Job, sums: &Sums, length: i64) -> Most {
    let any = sums.most(length);
    let is_clean = job.scrap_of(length - any) == 0;
    Most { any, clean: if is_clean { any } else { sums.most(length - job.usable) } }
}

/// How many drums there must be at least, for pieces that no off-cut holds.
///
/// Two pieces longer than half a drum never share one; those so long that a
/// piece of length e does not go beside them keep all of theirs to themselves:
/// for every e up to half a drum
///
/// n ≥ n(l > L − e) + n(L/2 < l ≤ L − e)
///   + ⌈(Σ(e ≤ l ≤ L/2) − Σ over L/2 < l ≤ L − e of (L − l)) / L⌉
///
/// with L the longest drum. Ten pieces of 60 m need ten drums of 100 m, though
/// their length would go on six.
///
/// Source: Martello and Toth, *Lower bounds and reduction procedures for the
/// bin packing problem*, Discrete Applied Mathematics 28, 1990 (bound L2; *from
/// memory*, held against published cases in the tests).
pub(super) fn drums_at_least(job: &Job, pool: &[usize]) -> i64 {
    let drum = job.drums.iter().map(|drum| drum.length).max().unwrap_or(0);
    let off_cut = job.off_cuts.iter().copied().max().unwrap_or(0);
    let alone: Vec<i64> =
        pool.iter().map(|at| job.pieces[*at]).filter(|it| *it > off_cut && *it <= drum).collect();
    let mut steps: Vec<i64> = alone.iter().copied().filter(|it| 2 * it <= drum).collect();
    steps.push(0);
    steps.sort_unstable();
    steps.dedup();
    let least = |step: i64| -> i64 {
        let (mut count, mut room, mut small) = (0, 0, 0);
        for length in &alone {
            if *length > drum - step {
                count += 1;
            } else if 2 * length > drum {
                count += 1;
                room += drum - length;
            } else if *length >= step {
                small += length;
            }
        }
        let over = (small - room).max(0);
        count + over.div_euclid(drum.max(1)) + i64::from(over.rem_euclid(drum.max(1)) > 0)
    };
    steps.into_iter().map(least).max().unwrap_or(0)
}

/// The bounds of a whole job, before any search. The values are left at
/// nought.
pub(super) fn root(job: &Job, sums: &mut Sums, pool: &[usize]) -> Goals {
    let most = most(job, sums, pool, &shortest_first(job));
    let off_cut = job.off_cuts.iter().copied().max().unwrap_or(0);
    let longest =
        pool.iter().map(|at| job.pieces[*at]).filter(|it| *it > off_cut).max().unwrap_or(0);
    let from_drums = job.filled(pool) - most.any;
    let covered = cheapest(&job.drums, from_drums, drums_at_least(job, pool), longest);
    let (paid, drums) = covered.map_or((0, 0), |(price, counts)| (price, counts.iter().sum()));
    // Dearer drums could be fewer: only where all cost alike is their number
    // known. Something is cut into wherever there is anything to cut.
    let alike = job.drums.windows(2).all(|pair| pair[0] == pair[1]);
    let sources = if alike { drums } else { i64::from(drums > 0) };
    let goal = |bound| Goal { value: 0, bound };
    Goals {
        paid: goal(paid),
        scrap: goal(0),
        from_drums: goal(from_drums),
        sources: goal(sources.max(i64::from(!pool.is_empty()))),
    }
}

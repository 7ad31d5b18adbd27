//! The front door.

use std::cmp::Reverse;

use super::best_fit::best_fit;
use super::bound::{root, shortest_first};
use super::fill::fill;
use super::improve::{Slack, attempt};
use super::reach::{Sums, common_step};
use super::search::{Outcome, search};
use super::{DrumType, Goal, Goals, Job, Plan};
use crate::runs::chain::dice::Dice;

/// How hard to look, in steps rather than seconds, so that the same job gives
/// the same plan everywhere. A step is a word of 64 possible lengths looked
/// at: about a nanosecond.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// For filling sources anew, in other orders and part by part; where there
    /// are no off-cuts, which is harder, three times as much.
    pub improve: u64,
    /// For the search that proves a plan best, or finds a better one.
    pub search: u64,
}

impl Default for Effort {
    fn default() -> Self {
        Self { improve: 20_000_000, search: 16_000_000 }
    }
}

/// The best plan found for a job, and how good it is.
///
/// The goals are taken strictly in order: what is paid, then scrap, then what
/// is taken from new drums, then the number of sources. Fillings as full as
/// they go, in several orders and with several tolerances, are improved by
/// emptying a few sources and filling them anew; then a branch and bound over
/// the off-cuts looks for anything better. Where that ends, the plan is proven
/// best; otherwise the bounds say how much could be left.
///
/// Pieces that nothing holds are in no filling.
#[must_use]
pub fn solve(job: &Job, effort: &Effort) -> (Plan, Goals) {
    let longest = job.longest_source();
    let mut order: Vec<usize> =
        (0..job.pieces.len()).filter(|piece| job.pieces[*piece] <= longest).collect();
    order.sort_by_key(|piece| (Reverse(job.pieces[*piece]), *piece));
    let mut sorted =
        Job { pieces: order.iter().map(|piece| job.pieces[*piece]).collect(), ..job.clone() };
    let real = job.drums.len();
    let short_of_drums = lend(&mut sorted);
    let (mut plan, mut goals) = solve_sorted(&sorted, effort);
    for filling in plan.off_cuts.iter_mut().chain(plan.drums.iter_mut().map(|drum| &mut drum.1)) {
        for piece in filling {
            *piece = order[*piece];
        }
    }
    if short_of_drums {
        give_back(job, real, &mut plan);
    }
    if short_of_drums {
        // What is proven with a drum that is not there is not proven.
        let [paid, scrap, from_drums, sources] = job.values(&plan);
        let open = |value| Goal { value, bound: 0 };
        goals = Goals {
            paid: open(paid),
            scrap: open(scrap),
            from_drums: open(from_drums),
            sources: open(sources),
        };
    }
    (plan, goals)
}

/// Adds a drum that is not there, dearer than anything, where a piece has to
/// come off an off-cut because no drum holds it: what is left on it is not cut
/// at all.
fn lend(job: &mut Job) -> bool {
    let drum = job.drums.iter().map(|drum| drum.length).max().unwrap_or(0);
    let Some(longest) = job.pieces.first().copied().filter(|it| *it > drum) else { return false };
    let dearest = job.drums.iter().map(|drum| drum.price).max().unwrap_or(1);
    let pieces = i64::try_from(job.pieces.len()).unwrap_or(1);
    job.drums.push(DrumType { length: longest, price: dearest.saturating_mul(pieces + 1) });
    true
}

/// Beyond so many off-cuts a search does not come to an end.
const SEARCHED: usize = 16;
/// Takes away the drums that are not there; what lay on them and fits a real
/// one goes there.
fn give_back(job: &Job, real: usize, plan: &mut Plan) {
    let longest = job.drums.iter().map(|drum| drum.length).max().unwrap_or(0);
    let lent = plan.drums.iter().filter(|(kind, _)| *kind >= real);
    let mut pool: Vec<usize> = lent.flat_map(|(_, filling)| filling.clone()).collect();
    plan.drums.retain(|(kind, _)| *kind < real);
    pool.retain(|piece| job.pieces[*piece] <= longest);
    pool.sort_by_key(|piece| (Reverse(job.pieces[*piece]), *piece));
    let mut sums = Sums::new(common_step(&job.pieces));
    plan.drums.extend(fill(job, &mut sums, &mut pool, &[], 0, None).drums);
}

/// Tolerances to begin with, in sixteenths of the shortest length worth
/// keeping: refusing every scrap buys drums, so several are tried.
const TOLERANCES: [i64; 6] = [0, 1, 2, 4, 8, 16];
/// Orders of the off-cuts to begin with.
const ORDERS: usize = 4;

fn solve_sorted(job: &Job, effort: &Effort) -> (Plan, Goals) {
    let pool: Vec<usize> = (0..job.pieces.len()).collect();
    let mut sums = Sums::new(common_step(&job.pieces));
    let mut goals = root(job, &mut sums, &pool);
    let mut plan = best_fit(job, &pool);
    let mut dice = Dice::new();
    let effort = Effort {
        improve: if job.off_cuts.is_empty() { 3 * effort.improve } else { effort.improve },
        ..*effort
    };
    start(job, &mut sums, &pool, effort.improve, &mut dice, &goals, &mut plan);
    // A small job is settled sooner by searching than by improving.
    let is_small = job.off_cuts.len() <= SEARCHED;
    let first = if is_small { effort.search.div_euclid(8) } else { 0 };
    let second = if is_small { effort.search } else { 0 };
    for (improve, steps) in [(0, first), (effort.improve, second)] {
        let mut shaken = plan.clone();
        let mut best = job.values(&plan);
        let mut values = best;
        let mut until = sums.work + improve;
        let mut only_lesser = false;
        while sums.work < until && best != goals.bounds() {
            let slack = slack(job, until - sums.work, improve);
            let change = attempt(job, &mut sums, &mut dice, &mut shaken, slack);
            values = std::array::from_fn(|goal| values[goal] + change[goal]);
            if values < best {
                best = values;
                plan.clone_from(&shaken);
            }
            // What costs money is as good as it gets: the rest is worth less.
            if !only_lesser && is_as_good(job, best, goals.bounds()) {
                only_lesser = true;
                until = until.min(sums.work + improve.div_euclid(8));
            }
        }
        if is_done(job, &plan, &goals) {
            break;
        }
        if steps > 0 && search(job, &mut sums, &pool, steps, &mut plan) == Outcome::Complete {
            goals = settled(job.values(&plan));
            break;
        }
    }
    let values = job.values(&plan);
    let [paid, scrap, from_drums, sources] = values;
    goals.paid.value = paid;
    goals.scrap.value = scrap;
    goals.from_drums.value = from_drums;
    goals.sources.value = sources;
    (plan, goals)
}

const fn settled(values: [i64; 4]) -> Goals {
    let [paid, scrap, from_drums, sources] = values;
    Goals {
        paid: Goal { value: paid, bound: paid },
        scrap: Goal { value: scrap, bound: scrap },
        from_drums: Goal { value: from_drums, bound: from_drums },
        sources: Goal { value: sources, bound: sources },
    }
}

/// How much worse an attempt may make a plan: by a twelfth of the shortest
/// length worth keeping, and a fifteenth of the square of a drum, to begin
/// with; by nothing in the end. Without it the attempts stay where they first
/// settle.
fn slack(job: &Job, left: u64, of: u64) -> Slack {
    let drum = i128::from(job.drums.iter().map(|drum| drum.length).max().unwrap_or(0));
    let share = |most: i128, part: i128| {
        i64::try_from((most * i128::from(left)).div_euclid(part * i128::from(of.max(1))))
            .unwrap_or(0)
    };
    Slack { scrap: share(i128::from(job.usable), 12), uneven: share(drum * drum, 15) }
}

/// Whether a plan pays no more than it must and what it wastes above its bound
/// is under a millimetre a piece, finer than anyone cuts.
fn is_as_good(job: &Job, [paid, scrap, ..]: [i64; 4], bounds: [i64; 4]) -> bool {
    let pieces = i64::try_from(job.pieces.len()).unwrap_or(i64::MAX);
    paid == bounds[0] && scrap - bounds[1] < pieces
}

/// Whether the bounds are met, so that looking on is of no use.
fn is_done(job: &Job, plan: &Plan, goals: &Goals) -> bool {
    job.values(plan) == goals.bounds()
}

/// Whole plans by filling, in several orders and with several tolerances.
fn start(
    job: &Job,
    sums: &mut Sums,
    pool: &[usize],
    work: u64,
    dice: &mut Dice,
    goals: &Goals,
    plan: &mut Plan,
) {
    let mut best = job.values(plan);
    let mut order = shortest_first(job);
    for turn in 0..ORDERS {
        for tolerance in TOLERANCES {
            if best == goals.bounds() || sums.work > work.div_euclid(2) {
                return;
            }
            let tolerance = (job.usable * tolerance).div_euclid(16);
            let mut rest = pool.to_vec();
            let next = fill(job, sums, &mut rest, &order, tolerance, None);
            let values = job.values(&next);
            if rest.is_empty() && values < best {
                best = values;
                *plan = next;
            }
        }
        if turn == 0 {
            order.reverse();
        } else {
            for at in (1..order.len()).rev() {
                order.swap(at, dice.below(at + 1));
            }
        }
    }
}

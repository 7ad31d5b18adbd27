//! Taking part of a plan apart and putting it together again.

use super::fill::fill;
use super::reach::Sums;
use super::{Filling, Job, Plan};
use crate::runs::chain::dice::Dice;

/// By how much an attempt may make a plan worse.
#[derive(Clone, Copy, Debug)]
pub(super) struct Slack {
    /// Scrap, mm.
    pub(super) scrap: i64,
    /// How unevenly drums are filled, mm²; for jobs without off-cuts.
    pub(super) uneven: i64,
}

/// One attempt: a few sources are emptied and filled anew. The plan changes
/// where that makes it no worse, or worse by no more than the slack; returns
/// by how much each goal changed.
///
/// Where there are no off-cuts, drums filled as full as they go, the longest
/// pieces first, come out the same again and again; so most attempts take the
/// pieces in an order by chance.
pub(super) fn attempt(
    job: &Job,
    sums: &mut Sums,
    dice: &mut Dice,
    plan: &mut Plan,
    slack: Slack,
) -> [i64; 4] {
    let (off_cuts, drums) = choose(job, dice, plan);
    let mut pool: Vec<usize> = Vec::new();
    pool.extend(off_cuts.iter().flat_map(|at| &plan.off_cuts[*at]));
    pool.extend(drums.iter().flat_map(|at| &plan.drums[*at].1));
    pool.sort_unstable();
    let only_drums = job.off_cuts.is_empty();
    if only_drums && dice.below(3) > 0 {
        for at in (1..pool.len()).rev() {
            pool.swap(at, dice.below(at + 1));
        }
    }
    let tolerance = tolerance(job, dice);
    let mut part = fill(job, sums, &mut pool, &off_cuts, tolerance, None);
    if !pool.is_empty() {
        return [0; 4];
    }
    sums.work += 500;
    // The goals are sums over the sources: those left alone count alike in both.
    let emptied = off_cuts.iter().map(|at| (job.off_cuts[*at], None, &plan.off_cuts[*at]));
    let emptied = emptied.chain(drums.iter().map(|at| drum(job, &plan.drums[*at])));
    let filled = off_cuts.iter().map(|at| (job.off_cuts[*at], None, &part.off_cuts[*at]));
    let filled = filled.chain(part.drums.iter().map(|one| drum(job, one)));
    let (before, after) = (measure(job, emptied), measure(job, filled));
    let (mut old, new) = (before.steering(), after.steering());
    let mut up_to = |most: i64| {
        let most = usize::try_from(most).unwrap_or(0);
        if most > 0 { i64::try_from(dice.below(most + 1)).unwrap_or(0) } else { 0 }
    };
    old.1 += up_to(slack.scrap);
    if only_drums {
        old.2 += i128::from(up_to(slack.uneven));
    }
    if new > old {
        return [0; 4];
    }
    for at in &off_cuts {
        plan.off_cuts[*at] = std::mem::take(&mut part.off_cuts[*at]);
    }
    let mut at = 0;
    plan.drums.retain(|_| {
        at += 1;
        !drums.contains(&(at - 1))
    });
    plan.drums.extend(part.drums);
    std::array::from_fn(|goal| after.values[goal] - before.values[goal])
}

/// A drum: its length, its price and what is cut from it.
fn drum<'a>(job: &Job, (kind, filling): &'a (usize, Filling)) -> (i64, Option<i64>, &'a Filling) {
    (job.drums[*kind].length, Some(job.drums[*kind].price), filling)
}

/// What some sources add to the goals.
struct Measured {
    values: [i64; 4],
    squares: i128,
}

impl Measured {
    /// What steers the attempts: the goals, but for how unevenly drums are
    /// filled, which comes right after scrap: one drum nearly empty is nearly a
    /// drum saved.
    const fn steering(&self) -> (i64, i64, i128, [i64; 2]) {
        let [paid, scrap, from_drums, sources] = self.values;
        (paid, scrap, -self.squares, [from_drums, sources])
    }
}

fn measure<'a>(
    job: &Job,
    sources: impl Iterator<Item = (i64, Option<i64>, &'a Filling)>,
) -> Measured {
    let mut measured = Measured { values: [0; 4], squares: 0 };
    for (length, price, filling) in sources.filter(|it| it.1.is_some() || !it.2.is_empty()) {
        let filled = job.filled(filling);
        measured.values[1] += job.scrap_of(length - filled);
        measured.values[3] += 1;
        if let Some(price) = price {
            measured.values[0] += price;
            measured.values[2] += filled;
            measured.squares += i128::from(filled).pow(2);
        }
    }
    measured
}

/// How much of the end of a source may be lost: mostly nothing.
fn tolerance(job: &Job, dice: &mut Dice) -> i64 {
    let most = usize::try_from(job.usable).unwrap_or(0);
    match dice.below(4) {
        0 | 1 => 0,
        2 => i64::try_from(dice.below(most.div_euclid(8) + 1)).unwrap_or(0),
        _ => i64::try_from(dice.below(most + 1)).unwrap_or(0),
    }
}

/// A few off-cuts in any order, and a few drums or all of them. One of them
/// loses something, where any does.
fn choose(job: &Job, dice: &mut Dice, plan: &Plan) -> (Vec<usize>, Vec<usize>) {
    let loses = |length: i64, filling: &Filling| {
        !filling.is_empty() && job.scrap_of(length - job.filled(filling)) > 0
    };
    let mut off_cuts = Vec::new();
    let mut drums = Vec::new();
    let off_cuts_losing: Vec<usize> = (0..job.off_cuts.len())
        .filter(|at| loses(job.off_cuts[*at], &plan.off_cuts[*at]))
        .collect();
    let drums_losing: Vec<usize> = (0..plan.drums.len())
        .filter(|at| loses(job.drums[plan.drums[*at].0].length, &plan.drums[*at].1))
        .collect();
    let losing = off_cuts_losing.len() + drums_losing.len();
    if losing > 0 && dice.below(4) > 0 {
        match dice.below(losing) {
            at if at < off_cuts_losing.len() => off_cuts.push(off_cuts_losing[at]),
            at => drums.push(drums_losing[at - off_cuts_losing.len()]),
        }
    }
    for _ in 0..dice.below(4) + usize::from(plan.drums.is_empty()) {
        let at = dice.below(job.off_cuts.len());
        if at < job.off_cuts.len() && !off_cuts.contains(&at) {
            off_cuts.insert(dice.below(off_cuts.len() + 1), at);
        }
    }
    let most = 2 + dice.below(3);
    let wanted = 1 + dice.below(most);
    for _ in 0..wanted {
        let at = dice.below(plan.drums.len());
        if at < plan.drums.len() && !drums.contains(&at) {
            drums.push(at);
        }
    }
    (off_cuts, drums)
}

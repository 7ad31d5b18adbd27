//! Deciding off-cut by off-cut, until nothing better is left.

use std::cmp::Ordering;

use super::bound::{Most, most, shortest_first};
use super::cover::{cheapest, lengths_within, most_within};
use super::few::{FEW, few};
use super::fill::fill;
use super::reach::Sums;
use super::{Filling, Job, Plan};

/// What came of a search.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Outcome {
    /// Everything was looked at: no plan is better.
    Complete,
    /// The steps ran out, or some drums could not be settled.
    Open,
}

/// Looks for a plan better than `plan`, by branch and bound: for the shortest
/// off-cut not yet decided every set of pieces that could still lead to a
/// better plan is tried, the fullest first; the drums come last. The bound of
/// a branch is what the off-cuts still to be decided could give one by one.
pub(super) fn search(
    job: &Job,
    sums: &mut Sums,
    pool: &[usize],
    work: u64,
    plan: &mut Plan,
) -> Outcome {
    let work_max = sums.work + work;
    let best = job.values(plan);
    let mut search = Search {
        job,
        sums,
        order: shortest_first(job),
        work_max,
        best,
        within: Within::of(job, best[0]),
        found: None,
        complete: true,
    };
    let start = Plan { off_cuts: vec![Vec::new(); job.off_cuts.len()], drums: Vec::new() };
    search.decide(0, pool.to_vec(), start);
    let complete = search.complete;
    if let Some(found) = search.found {
        *plan = found;
    }
    if complete { Outcome::Complete } else { Outcome::Open }
}

/// What looking at a branch costs beside its sums, in the same steps.
const NODE: u64 = 500;

/// How much cable the best plan's money buys, and a cent less.
struct Within {
    same: i64,
    less: i64,
    /// Every length of drums that the money buys; None where there are too
    /// many to list.
    lengths: Option<Vec<i64>>,
}

impl Within {
    fn of(job: &Job, paid: i64) -> Self {
        Self {
            same: most_within(&job.drums, paid),
            less: most_within(&job.drums, paid - 1),
            lengths: lengths_within(&job.drums, paid),
        }
    }

    /// The least scrap on drums from which between `from` and `to` mm are cut.
    fn least_scrap(&self, job: &Job, from: i64, to: i64) -> i64 {
        let Some(lengths) = &self.lengths else { return 0 };
        let least = |length: &i64| {
            let (fullest, emptiest) = (length - to, length - from.max(0));
            if fullest <= 0 || emptiest >= job.usable { 0 } else { fullest }
        };
        lengths.iter().filter(|length| **length >= from).map(least).min().unwrap_or(0)
    }
}

struct Search<'a> {
    job: &'a Job,
    sums: &'a mut Sums,
    order: Vec<usize>,
    work_max: u64,
    best: [i64; 4],
    within: Within,
    found: Option<Plan>,
    complete: bool,
}

/// Where a branch stands: scrap so far, sources so far, and pieces left, mm.
#[derive(Clone, Copy)]
struct Standing {
    scrap: i64,
    sources: i64,
    left: i64,
}

impl Search<'_> {
    fn decide(&mut self, depth: usize, pool: Vec<usize>, plan: Plan) {
        if self.sums.work > self.work_max {
            self.complete = false;
            return;
        }
        self.sums.work += NODE;
        let Some(at) = self.order.get(depth).copied() else { return self.finish(pool, plan) };
        let values = self.job.values(&plan);
        let rest: Vec<usize> = self.order[depth + 1..].to_vec();
        let most = most(self.job, self.sums, &pool, &rest);
        let standing =
            Standing { scrap: values[1], sources: values[3], left: self.job.filled(&pool) };
        let length = self.job.off_cuts[at];
        let mut choices = Vec::new();
        let least = self.least_worth_it(length, standing, most);
        self.subsets(&pool, length, least, &mut choices);
        if self.sums.work > self.work_max {
            self.complete = false;
            return;
        }
        // Without scrap before with it, then the fullest, then the fewest pieces.
        choices.sort_by_key(|(sum, filling)| {
            let scrap = if *sum == 0 { 0 } else { self.job.scrap_of(length - sum) };
            (scrap, -sum, filling.len())
        });
        // Off-cuts of one length are alike: no need to try them both ways.
        let before = depth.checked_sub(1).map(|before| self.order[before]);
        let twin = before.filter(|before| self.job.off_cuts[*before] == length);
        let twin_sum = twin.map(|twin| self.job.filled(&plan.off_cuts[twin]));
        for (sum, filling) in choices {
            if twin_sum.is_some_and(|twin| sum > twin)
                || !self.could_improve(length, sum, standing, most)
            {
                continue;
            }
            let mut next = plan.clone();
            let left: Vec<usize> =
                pool.iter().copied().filter(|it| !filling.contains(it)).collect();
            next.off_cuts[at] = filling;
            self.decide(depth + 1, left, next);
            if self.sums.work > self.work_max {
                self.complete = false;
                return;
            }
        }
    }

    /// Whether taking so much from an off-cut can still lead to a better plan.
    fn could_improve(&self, length: i64, sum: i64, standing: Standing, most: Most) -> bool {
        let used = i64::from(sum > 0);
        let scrap = standing.scrap + used * self.job.scrap_of(length - sum);
        let sources = standing.sources + used;
        let left = standing.left - sum;
        let need = left - most.any;
        if need <= self.within.less {
            return true;
        }
        if need > self.within.same {
            return false;
        }
        let from_drums = left - most.clean;
        // What the drums of equal price cannot hold must come off an off-cut.
        let short = i64::from(from_drums > self.within.same);
        let scrap = scrap + short.max(self.within.least_scrap(self.job, need, left));
        match scrap.cmp(&self.best[1]) {
            Ordering::Less => true,
            Ordering::Greater => false,
            Ordering::Equal => {
                let more = i64::from(from_drums > 0);
                (from_drums, sources + more) < (self.best[2], self.best[3])
            }
        }
    }

    /// The least sum that is worth trying: below it nothing can improve, but
    /// for leaving the off-cut alone.
    fn least_worth_it(&self, length: i64, standing: Standing, most: Most) -> i64 {
        // What can improve is not in order of the sum (scrap comes between), so
        // this looks at the goals that are: price, and cable from drums.
        let need = standing.left - most.any - self.within.same;
        let strict =
            standing.scrap == self.best[1] && standing.left - most.any - length > self.within.less;
        let by_drums = if strict { standing.left - most.clean - self.best[2] } else { 0 };
        need.max(by_drums).max(1)
    }

    /// Every set of pieces, those of one length being alike, from `least` to
    /// `length` long; and none of them.
    fn subsets(
        &mut self,
        pool: &[usize],
        length: i64,
        least: i64,
        found: &mut Vec<(i64, Filling)>,
    ) {
        let mut kinds: Vec<(i64, Vec<usize>)> = Vec::new();
        for piece in pool {
            let of = self.job.pieces[*piece];
            match kinds.last_mut() {
                Some((last, pieces)) if *last == of => pieces.push(*piece),
                _ => kinds.push((of, vec![*piece])),
            }
        }
        // What the shorter ones add at most, to leave hopeless branches early.
        let mut below: Vec<i64> = vec![0; kinds.len() + 1];
        for at in (0..kinds.len()).rev() {
            let all = i64::try_from(kinds[at].1.len()).unwrap_or(0);
            below[at] = below[at + 1] + kinds[at].0 * all;
        }
        let mut choice =
            Choice { kinds: &kinds, below: &below, least, found, work: 0, chosen: Vec::new() };
        choice.branch(0, 0, length, self.work_max.saturating_sub(self.sums.work));
        self.sums.work += choice.work;
        found.push((0, Vec::new()));
    }

    /// All off-cuts are decided: the rest goes on drums.
    fn finish(&mut self, pool: Vec<usize>, plan: Plan) {
        if pool.len() <= FEW {
            let drums = few(self.job, &pool);
            self.sums.work += 100;
            if let Some(drums) = drums {
                self.offer(Plan { off_cuts: plan.off_cuts, drums });
            }
            return;
        }
        let values = self.job.values(&plan);
        let left = self.job.filled(&pool);
        let covered = cheapest(&self.job.drums, left, 1, self.job.pieces[pool[0]]);
        let Some((paid, counts)) = covered else { return };
        // As good as any drums could make it: for its price the fewest.
        let ideal = [paid, values[1], left, values[3] + counts.iter().sum::<i64>()];
        let kinds = (0..self.job.drums.len()).map(Some);
        for only in std::iter::once(None).chain(kinds) {
            for tolerance in [0, self.job.usable.div_euclid(4), self.job.usable] {
                let mut rest = pool.clone();
                let drums = fill(self.job, self.sums, &mut rest, &[], tolerance, only).drums;
                let whole = Plan { off_cuts: plan.off_cuts.clone(), drums };
                if rest.is_empty() && self.offer(whole) == ideal {
                    return;
                }
            }
        }
        let same = paid == self.best[0];
        let scrap = if same { self.within.least_scrap(self.job, left, left) } else { 0 };
        let least = [paid, values[1] + scrap, left, values[3] + 1];
        self.complete &= least >= self.best;
    }

    /// Keeps a whole plan where it is better, and says what it reaches.
    fn offer(&mut self, whole: Plan) -> [i64; 4] {
        let new = self.job.values(&whole);
        if new < self.best {
            self.within = Within::of(self.job, new[0]);
            self.best = new;
            self.found = Some(whole);
        }
        new
    }
}

/// Choosing pieces for one off-cut, kind by kind, the longest first.
struct Choice<'a> {
    kinds: &'a [(i64, Vec<usize>)],
    below: &'a [i64],
    least: i64,
    found: &'a mut Vec<(i64, Filling)>,
    work: u64,
    chosen: Vec<usize>,
}

impl Choice<'_> {
    fn branch(&mut self, depth: usize, sum: i64, room: i64, work_max: u64) {
        self.work += 8;
        if self.work > work_max || sum + self.below[depth].min(room) < self.least {
            return;
        }
        let Some((length, pieces)) = self.kinds.get(depth) else {
            if sum > 0 {
                self.found.push((sum, self.chosen.clone()));
            }
            return;
        };
        let fit = usize::try_from(room.div_euclid(*length)).unwrap_or(0).min(pieces.len());
        for count in (0..=fit).rev() {
            let long = i64::try_from(count).unwrap_or(0) * length;
            self.chosen.extend(&pieces[..count]);
            self.branch(depth + 1, sum + long, room - long, work_max);
            self.chosen.truncate(self.chosen.len() - count);
        }
    }
}

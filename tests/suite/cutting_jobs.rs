//! Jobs to cut, and rules of thumb to hold against, for tests and benches.
#![allow(
    dead_code,
    unreachable_pub,
    missing_docs,
    reason = "shared by tests and benches, each taking what it needs"
)]

use wirewend::takeoff::cutting::{DrumType, Job, Plan};

/// Chance that is the same every time (a linear congruential generator with
/// Knuth's multiplier, *from memory*).
pub struct Chance(u64);

impl Chance {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) ^ 0x5bd1_e995)
    }

    pub fn between(&mut self, least: i64, most: i64) -> i64 {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        let span = u128::from(most.abs_diff(least)) + 1;
        least + i64::try_from((u128::from(self.0 >> 16) * span) >> 48).unwrap_or(0)
    }
}

/// Drums of 50 and 100 m at invented prices, pieces and off-cuts in whole mm.
pub fn job(seed: u64, pieces: usize, off_cuts: usize) -> Job {
    let mut chance = Chance::new(seed);
    Job {
        pieces: (0..pieces).map(|_| chance.between(2000, 18_000)).collect(),
        off_cuts: (0..off_cuts).map(|_| chance.between(2500, 20_000)).collect(),
        drums: vec![
            DrumType { length: 50_000, price: 6000 },
            DrumType { length: 100_000, price: 11_000 },
        ],
        usable: 2000,
    }
}

/// How to choose among what holds a piece.
#[derive(Clone, Copy, Debug)]
pub enum Rule {
    FirstFit,
    BestFit,
}

/// Longest first, into the first or the tightest that holds it, or else into a
/// new drum of the type cheapest by the metre.
pub fn thumb(job: &Job, rule: Rule) -> Plan {
    let mut order: Vec<usize> = (0..job.pieces.len()).collect();
    order.sort_by_key(|piece| (std::cmp::Reverse(job.pieces[*piece]), *piece));
    let cheapest = (0..job.drums.len())
        .min_by(|a, b| {
            let (a, b) = (job.drums[*a], job.drums[*b]);
            (a.price * b.length).cmp(&(b.price * a.length))
        })
        .expect("a drum");
    let count = job.off_cuts.len();
    let mut left = job.off_cuts.clone();
    let mut plan = Plan { off_cuts: vec![Vec::new(); count], drums: Vec::new() };
    for piece in order {
        let length = job.pieces[piece];
        let mut holds = (0..left.len()).filter(|at| left[*at] >= length);
        let at = match rule {
            Rule::FirstFit => holds.next(),
            Rule::BestFit => holds.min_by_key(|at| left[*at]),
        };
        let at = at.unwrap_or_else(|| {
            left.push(job.drums[cheapest].length);
            plan.drums.push((cheapest, Vec::new()));
            left.len() - 1
        });
        left[at] -= length;
        match at.checked_sub(count) {
            None => plan.off_cuts[at].push(piece),
            Some(drum) => plan.drums[drum].1.push(piece),
        }
    }
    plan
}

/// What a plan costs and wastes, worked out anew; what is wrong with it.
pub fn judge(job: &Job, plan: &Plan) -> Result<[i64; 4], String> {
    let mut times = vec![0; job.pieces.len()];
    let mut values = [0; 4];
    let off_cuts = job.off_cuts.iter().zip(&plan.off_cuts).map(|(long, cut)| (*long, 0, cut));
    let drums = plan.drums.iter().map(|(kind, cut)| (job.drums[*kind].length, 1, cut));
    for (length, is_drum, cut) in off_cuts.chain(drums) {
        if cut.is_empty() {
            continue;
        }
        let mut left = length;
        for piece in cut {
            times[*piece] += 1;
            left -= job.pieces[*piece];
        }
        if left < 0 {
            return Err(format!("{cut:?} is more than {length} mm"));
        }
        values[1] += if left < job.usable { left } else { 0 };
        values[2] += is_drum * (length - left);
        values[3] += 1;
    }
    values[0] = plan.drums.iter().map(|(kind, _)| job.drums[*kind].price).sum();
    match times.iter().position(|times| *times != 1) {
        Some(piece) => Err(format!("piece {piece} is cut {} times", times[piece])),
        None => Ok(values),
    }
}

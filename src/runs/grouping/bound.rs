//! How cheap any sharing out could possibly be.
//!
//! Every point gets a prize, whole and of any sign. For every number of points
//! `q` that a circuit can hold, the least of *legs less prizes* over all walks
//! from the board that load `q` and do not turn straight back is found; a walk
//! may meet a point again, so it is never dearer than the circuits it stands
//! for. Walks whose loads add up to all there is are then put together at the
//! least sum; with all prizes added, that is a bound (Christofides, Mingozzi
//! and Toth 1981, *from memory*). Prizes rise for points that the walks miss
//! and fall for those they meet too often.

use super::task::Work;

/// There is no such walk.
const FAR: i32 = 1 << 29;
/// All walks weigh less.
const HEAVY: i32 = FAR >> 1;

/// No sharing out weighs less.
pub(super) fn below(work: &Work<'_>, above: i64, steps: u32) -> i64 {
    let count = work.points() + 1;
    let sizes: Vec<usize> =
        work.loads.iter().map(|load| usize::try_from(load.points).unwrap_or(0)).collect();
    if sizes[1..].contains(&0) {
        // Walks are told apart by their load: without one there is no bound.
        return 0;
    }
    let total: usize = sizes[1..].iter().sum();
    let room = usize::try_from(work.limit.points).unwrap_or(usize::MAX).min(total);
    let coarse = Coarse::new(work, sizes, room);
    let least = |best: i64| best.checked_shl(coarse.shift).unwrap_or(0).min(above);
    let most = (above >> coarse.shift) + 1;
    let mut prizes = vec![0; count];
    for (end, prize) in prizes.iter_mut().enumerate().skip(1) {
        let legs = coarse.row(end).iter().enumerate().filter(|(other, _)| *other != end);
        *prize = legs.map(|(_, leg)| *leg).min().unwrap_or(0);
    }
    let mut walks = Walks::new(count, room);
    let mut best = 0;
    let mut part: i64 = 1024;
    let mut waited = 0;
    for _ in 0..affordable(steps, room) {
        walks.find(&coarse, &prizes);
        let (bound, met) = walks.combine(&coarse, &prizes, total);
        if bound > best {
            best = bound;
            waited = 0;
        } else {
            waited += 1;
            if waited >= 4 {
                part >>= 1;
                waited = 0;
            }
        }
        let off: i64 = met[1..].iter().map(|times| (times - 1) * (times - 1)).sum();
        if off == 0 || best >= most || part == 0 {
            break;
        }
        let way = i128::from((most - bound).max(0)) * i128::from(part);
        let step = i64::try_from(way.div_euclid(i128::from(off) * 1024)).unwrap_or(0);
        let dearest = i64::from(2 * coarse.dearest);
        for (prize, times) in prizes.iter_mut().zip(&met).skip(1) {
            let next = i64::from(*prize) + step * (1 - times);
            *prize = i32::try_from(next.clamp(-dearest, dearest)).unwrap_or(0);
        }
    }
    least(best.max(0))
}

/// What circuits hold at most for all steps to be taken.
const USUAL: u32 = 14;

/// So many steps take as long as those asked for do where circuits hold what is
/// usual.
fn affordable(steps: u32, room: usize) -> u32 {
    let room = u32::try_from(room).unwrap_or(u32::MAX).max(USUAL);
    steps.saturating_mul(USUAL).div_euclid(room).max(1)
}

/// Legs without their low bits, never above the weights: so few that walks,
/// with prizes of up to two legs, fit in 32 bits.
struct Coarse {
    count: usize,
    legs: Vec<i32>,
    back: Vec<i32>,
    fixed: i64,
    shift: u32,
    dearest: i32,
    sizes: Vec<usize>,
}

impl Coarse {
    fn new(work: &Work<'_>, sizes: Vec<usize>, room: usize) -> Self {
        let count = work.points() + 1;
        let legs = (0..count).flat_map(|from| work.row(from));
        let longest = legs.clone().filter(|leg| **leg < work.missing()).max().copied();
        let heaviest = longest.unwrap_or(0);
        let most = i64::from(HEAVY).div_euclid(3 * (i64::try_from(room).unwrap_or(0) + 2)).max(1);
        let shift = (0..62).find(|shift| heaviest >> shift <= most).unwrap_or(62);
        // A missing leg is no dearer than the dearest: that too is no more
        // than it weighs.
        let coarse = |weight: i64| i32::try_from(weight.min(heaviest) >> shift).unwrap_or(0);
        Self {
            count,
            legs: legs.map(|leg| coarse(*leg)).collect(),
            back: (0..count).map(|end| coarse(work.back(end))).collect(),
            fixed: work.fixed >> shift,
            shift,
            dearest: coarse(heaviest),
            sizes,
        }
    }

    fn row(&self, end: usize) -> &[i32] {
        &self.legs[end * self.count..][..self.count]
    }
}

/// For every end the cheapest walk there with one load, where it came from,
/// and the cheapest that came from elsewhere.
#[derive(Clone)]
struct Row {
    weight: Vec<i32>,
    from: Vec<i32>,
    other: Vec<i32>,
    other_from: Vec<i32>,
}

struct Walks {
    count: usize,
    /// By load.
    rows: Vec<Row>,
    /// From each end in turn.
    came: Vec<i32>,
}

impl Walks {
    fn new(count: usize, room: usize) -> Self {
        let (far, nowhere) = (vec![FAR; count], vec![-1; count]);
        let row = Row {
            weight: far.clone(),
            from: nowhere.clone(),
            other: far.clone(),
            other_from: nowhere,
        };
        Self { count, rows: vec![row; room + 1], came: far }
    }

    /// The fixed cost of a circuit is left out here.
    fn find(&mut self, coarse: &Coarse, prizes: &[i32]) {
        for load in 1..self.rows.len() {
            let (shorter, longer) = self.rows.split_at_mut(load);
            let row = &mut longer[0];
            for (end, prize) in prizes.iter().enumerate().skip(1) {
                let own = coarse.sizes[end];
                if load == own {
                    row.weight[end] = coarse.row(end)[0] - prize;
                    row.from[end] = 0;
                }
                if load > own {
                    row.come(end, &shorter[load - own], coarse.row(end), *prize, &mut self.came);
                }
            }
        }
    }

    /// The bound, and how often each end is met by the walks behind it.
    fn combine(&self, coarse: &Coarse, prizes: &[i32], total: usize) -> (i64, Vec<i64>) {
        let ends: Vec<(i64, usize)> = self
            .rows
            .iter()
            .map(|row| {
                let ended = |end: usize| (row.weight[end].saturating_add(coarse.back[end]), end);
                let (weight, end) = (1..self.count).map(ended).min().unwrap_or((FAR, 0));
                (i64::from(weight), end)
            })
            .collect();
        let far = i64::MAX;
        let mut sums: Vec<(i64, usize)> = vec![(far, 0); total + 1];
        sums[0] = (0, 0);
        for load in 1..=total {
            for (part, (weight, _)) in ends.iter().enumerate().skip(1) {
                if part <= load && *weight < i64::from(HEAVY) && sums[load - part].0 < far {
                    let sum = sums[load - part].0 + weight + coarse.fixed;
                    sums[load] = sums[load].min((sum, part));
                }
            }
        }
        let mut met = vec![0; self.count];
        let mut left = total;
        while left > 0 && sums[left].1 > 0 {
            let part = sums[left].1;
            self.count_walk(coarse, part, ends[part].1, &mut met);
            left -= part;
        }
        let prizes: i64 = prizes[1..].iter().map(|prize| i64::from(*prize)).sum();
        let bound = if sums[total].0 == far { 0 } else { sums[total].0 + prizes };
        (bound, met)
    }

    fn count_walk(&self, coarse: &Coarse, mut load: usize, mut end: usize, met: &mut [i64]) {
        let mut banned = usize::MAX;
        while end != 0 && load > 0 {
            met[end] += 1;
            let row = &self.rows[load];
            let back = usize::try_from(row.from[end]) == Ok(banned);
            let from = if back { row.other_from[end] } else { row.from[end] };
            load -= coarse.sizes[end].min(load);
            banned = end;
            let Ok(from) = usize::try_from(from) else { break };
            end = from;
        }
    }
}

impl Row {
    /// The cheapest two ways to an end from walks with less on them.
    fn come(&mut self, end: usize, shorter: &Self, legs: &[i32], prize: i32, came: &mut [i32]) {
        let here = i32::try_from(end).unwrap_or(-1);
        for ((((came, weight), from), other), leg) in
            came.iter_mut().zip(&shorter.weight).zip(&shorter.from).zip(&shorter.other).zip(legs)
        {
            // Both are read: so it takes no branches.
            let turned = -i32::from(*from == here);
            *came = ((other & turned) | (weight & !turned)) + leg;
        }
        (came[0], came[end]) = (FAR, FAR);
        (self.weight[end], self.from[end]) = least(came, prize);
        if let Ok(first) = usize::try_from(self.from[end]) {
            came[first] = FAR;
        }
        (self.other[end], self.other_from[end]) = least(came, prize);
    }
}

/// The least, less a prize, and where it stands.
fn least(came: &[i32], prize: i32) -> (i32, i32) {
    const PART: usize = 16;
    let (mut least, mut part) = (HEAVY, 0);
    for (index, weights) in came.chunks(PART).enumerate() {
        let here = weights.iter().copied().fold(FAR, i32::min);
        if here < least {
            (least, part) = (here, index);
        }
    }
    let at = came.iter().skip(part * PART).position(|weight| *weight == least);
    match at.and_then(|at| i32::try_from(part * PART + at).ok()) {
        Some(at) if least < HEAVY => (least - prize, at),
        _ => (FAR, -1),
    }
}

//! How long ordering a feed takes, and how good the order is.
//!
//! Invented houses: points on the walls of three storeys of 20 m by 15 m,
//! scattered or in rooms, joined over the ceiling with drops, plates and
//! bends, a half more across the joists. Times are processor time, the median
//! of repeats on one core; the gaps are the mean and the worst of the cases of a row.
#![expect(clippy::print_stdout, reason = "a bench prints its table")]

use std::hint::black_box;
use std::time::Duration;

use cpu_time::ThreadTime;
use wirewend::runs::chain::{Effort, Matrix, Shape, order, spurs};
use wirewend::runs::{Distance, OrderMethod};
use wirewend::units::{Cost, Mm};

const CASES: u64 = 24;

fn main() {
    println!(
        "Open chains, {CASES} invented houses a row. ms: median and worst. Above: excess over"
    );
    println!("the best known order, mean and worst, in %; insertion: the same for the plain way.");
    println!(
        "Gap: as reported, mean and worst, in %. Methods: exact, proven, improved. Known: how"
    );
    println!("many best known orders are proven. Spurs: what they save on the best chain, and ms.");
    println!(
        "points  ms            above         insertion  its ms  gap           methods   known  spurs %  ms"
    );
    // Only some sizes, where they are named.
    let asked: Vec<usize> = std::env::args().filter_map(|word| word.parse().ok()).collect();
    for points in [10, 13, 15, 20, 25, 30, 40, 60, 80, 200] {
        if asked.is_empty() || asked.contains(&points) {
            row(points);
        }
    }
}

/// What the cases of a row gave.
#[derive(Default)]
struct Row {
    times: Vec<Duration>,
    plain_times: Vec<Duration>,
    spur_times: Vec<Duration>,
    above: Vec<f64>,
    plain_above: Vec<f64>,
    gaps: Vec<f64>,
    saved: Vec<f64>,
    methods: [usize; 3],
    known: usize,
}

/// Every case of a size: ours, the plain way, and a long run of ours.
fn row(points: usize) {
    let mut row = Row::default();
    (0..CASES).for_each(|case| run(&house(points, case), &mut row));
    println!(
        "{points:>6} {:>6.3} {:>6.3}  {:>6.3} {:>6.3}  {:>8.2} {:>8.3}  {:>6.3} {:>6.3}  {:>2} {:>2} {:>2} {:>6}  {:>7.2} {:>7.2}",
        ms(&row.times, true),
        ms(&row.times, false),
        mean(&row.above),
        worst(&row.above),
        mean(&row.plain_above),
        ms(&row.plain_times, true),
        mean(&row.gaps),
        worst(&row.gaps),
        row.methods[0],
        row.methods[1],
        row.methods[2],
        row.known,
        mean(&row.saved),
        ms(&row.spur_times, true),
    );
}

fn run(matrix: &Matrix, row: &mut Row) {
    let effort = Effort::default();
    let long = Effort { exact_up_to: 15, kicks: 60_000, ascent_steps: 3000, branch_trees: 60_000 };
    let ordered = |effort| order(matrix, Shape::Open, &[], effort).expect("all legs exist");
    let (time, ours) = timed(|| ordered(&effort));
    let (plain_time, plain) = timed(|| insertion(matrix));
    let hang = || spurs::hang(matrix, Shape::Open, &[], &effort).expect("all legs exist");
    let (spur_time, hung) = timed(hang);
    let best = ordered(&long);
    assert!(ours.bound <= best.cost, "a bound above an order");
    let least = best.cost.min(ours.cost).get();
    row.times.push(time);
    row.plain_times.push(plain_time);
    row.spur_times.push(spur_time);
    row.above.push(percent(ours.cost.get() - least, least));
    row.plain_above.push(percent(plain - least, least));
    row.gaps.push(percent(ours.cost.get() - ours.bound.get(), ours.cost.get()));
    row.saved.push(percent(least - hung.cost.get(), least));
    row.known += usize::from(best.bound == best.cost);
    row.methods[match ours.method {
        OrderMethod::Exact => 0,
        OrderMethod::Proven => 1,
        _ => 2,
    }] += 1;
}

/// The median of five runs, and what the last one gave.
fn timed<T>(mut run: impl FnMut() -> T) -> (Duration, T) {
    let mut result = run();
    let mut times = [Duration::ZERO; 5];
    for time in &mut times {
        let begin = ThreadTime::now();
        result = black_box(run());
        *time = begin.elapsed();
    }
    times.sort();
    (times[2], result)
}

fn ms(times: &[Duration], median: bool) -> f64 {
    let mut sorted = times.to_vec();
    sorted.sort();
    let at = if median { sorted.len() >> 1 } else { sorted.len() - 1 };
    sorted[at].as_secs_f64() * 1000.0
}

#[expect(clippy::cast_precision_loss, reason = "far below 2^53")]
fn percent(part: i64, of: i64) -> f64 {
    100.0 * part as f64 / of as f64
}

#[expect(clippy::cast_precision_loss, reason = "two dozen")]
fn mean(values: &[f64]) -> f64 {
    values.iter().sum::<f64>() / values.len() as f64
}

fn worst(values: &[f64]) -> f64 {
    values.iter().copied().fold(0.0, f64::max)
}

/// The plain way: each point in turn goes where it adds least to the chain
/// (cheapest insertion). Its cost.
fn insertion(matrix: &Matrix) -> i64 {
    let cost = |from, to| matrix.leg(from, to).expect("all can be reached").cost.get();
    let mut chain = vec![0];
    let mut left: Vec<usize> = (1..matrix.count()).collect();
    let mut total = 0;
    while !left.is_empty() {
        let mut least = (i64::MAX, 0, 0);
        for (index, point) in left.iter().copied().enumerate() {
            for place in 0..chain.len() {
                let mut added = cost(chain[place], point);
                if let Some(next) = chain.get(place + 1).copied() {
                    added += cost(point, next) - cost(chain[place], next);
                }
                least = least.min((added, index, place));
            }
        }
        total += least.0;
        chain.insert(least.2 + 1, left.remove(least.1));
    }
    total
}

/// The legs between a board and so many points of an invented house.
fn house(points: usize, case: u64) -> Matrix {
    let mut dice = Dice(case * 7919 + 1 + points as u64);
    let rooms: Vec<(i64, i64, i64)> =
        (0..6).map(|_| (dice.below(16_000), dice.below(11_000), dice.below(3))).collect();
    let place = |dice: &mut Dice| {
        let drop = [2100, 1300, 300, 0][dice.pick(4)];
        if case.is_multiple_of(2) {
            (dice.below(20_000), dice.below(15_000), dice.below(3), drop)
        } else {
            let room = rooms[dice.pick(6)];
            (room.0 + dice.below(4000), room.1 + dice.below(4000), room.2, drop)
        }
    };
    let places: Vec<_> = (0..=points).map(|_| place(&mut dice)).collect();
    let rows: Vec<Vec<_>> =
        places.iter().map(|from| places.iter().map(|to| Some(leg(*from, *to))).collect()).collect();
    Matrix::new(&rows).expect("symmetric")
}

fn leg(from: (i64, i64, i64, i64), to: (i64, i64, i64, i64)) -> Distance {
    let (x, y, storeys) = ((from.0 - to.0).abs(), (from.1 - to.1).abs(), (from.2 - to.2).abs());
    let upright = from.3 + to.3 + 400 + 2700 * storeys;
    let bends = 1 + i64::from(x > 0) + i64::from(y > 0);
    let cost =
        Cost::new(150 * x + 100 * y + 100 * upright + 20_000 * (storeys + 2) + 30_000 * bends);
    Distance { cost, length: Mm::new(x + y + upright) }
}

/// Numbers by chance, the same every time (a linear congruence; constants by
/// Knuth, *from memory*).
struct Dice(u64);

impl Dice {
    fn below(&mut self, count: i64) -> i64 {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        i64::try_from(self.0 >> 33).expect("31 bits").rem_euclid(count)
    }

    fn pick(&mut self, count: i64) -> usize {
        usize::try_from(self.below(count)).expect("not negative")
    }
}

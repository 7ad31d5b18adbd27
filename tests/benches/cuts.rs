//! How long a cut plan takes and how good it is, on one core: `cargo bench
//! --no-default-features --bench cuts`. The budget is 50 ms for 120 pieces and
//! 40 off-cuts, with a tenth of the scrap of best fit. Beside it stand the
//! recorded times of a general solver, from the machine on which they were
//! recorded: one worker, its own settings as it comes.
#![expect(
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a bench prints what the clock says"
)]

#[path = "../suite/cutting_jobs.rs"]
mod cutting_jobs;

use std::time::Instant;

use serde_json::Value;

use cutting_jobs::{Rule, job, judge, thumb};
use wirewend::takeoff::cutting::{Effort, solve};

/// Jobs of each size.
const JOBS: u64 = 24;

fn main() {
    println!(
        "{:>6} {:>8}  {:>9} {:>9}  {:>11} {:>11}  {:>10} {:>10}  {:>12} {:>10}",
        "pieces",
        "off-cuts",
        "median ms",
        "worst ms",
        "scrap/best",
        "scrap/first",
        "price/best",
        "price/first",
        "price proven",
        "all proven"
    );
    for (pieces, off_cuts) in [(20, 6), (40, 4), (60, 20), (120, 40)] {
        bench(pieces, off_cuts);
    }
    beside_recorded();
}

/// Ours beside the cut plans that a general constraint solver made of the same
/// jobs (`fixtures/cutting`: recorded, not run again).
fn beside_recorded() {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/fixtures/cutting/cases.json");
    let text = std::fs::read_to_string(path).expect("the recorded cases");
    let recorded: Value = serde_json::from_str(&text).expect("JSON");
    println!(
        "\nbeside a general constraint solver, recorded: one worker, processor time of four goals \
         in turn, {} s at most for each",
        recorded["limit_seconds"]
    );
    println!(
        "{:>6} {:>8} {:>5}  {:>9} {:>9}  paid, scrap, from drums, sources: ours; its own",
        "pieces", "off-cuts", "seed", "ours ms", "its ms"
    );
    for case in recorded["cases"].as_array().expect("cases") {
        let number = |name: &str| case[name].as_u64().expect("a number");
        let count = |name: &str| usize::try_from(number(name)).expect("a count");
        let job = job(number("seed"), count("pieces"), count("off_cuts"));
        let start = clock();
        let (plan, _) = solve(&job, &Effort::default());
        let ours = clock() - start;
        let values = judge(&job, &plan).expect("a sound plan");
        let (its, found) = match case["seconds"].as_f64() {
            Some(seconds) => (format!("{:.0}", seconds * 1000.0), case["values"].to_string()),
            None => ("-".to_owned(), "no plan in its time".to_owned()),
        };
        println!(
            "{:>6} {:>8} {:>5}  {ours:>9.2} {its:>9}  {values:?}; {found}",
            count("pieces"),
            count("off_cuts"),
            number("seed")
        );
    }
}

fn bench(pieces: usize, off_cuts: usize) {
    let mut times = Vec::new();
    let (mut ours, mut best, mut first) = ([0.0; 2], [0.0; 2], [0.0; 2]);
    let (mut price_proven, mut all_proven) = (0, 0);
    for seed in 0..JOBS {
        let job = job(seed, pieces, off_cuts);
        let start = clock();
        let (plan, goals) = solve(&job, &Effort::default());
        times.push(clock() - start);
        let values = judge(&job, &plan).expect("a sound plan");
        assert_eq!(values, goals.values(), "what it says of itself");
        add(&mut ours, values);
        add(&mut best, judge(&job, &thumb(&job, Rule::BestFit)).expect("a sound plan"));
        add(&mut first, judge(&job, &thumb(&job, Rule::FirstFit)).expect("a sound plan"));
        price_proven += u32::from(goals.paid.is_proven());
        all_proven += u32::from(goals.are_proven());
    }
    times.sort_by(f64::total_cmp);
    println!(
        "{pieces:>6} {off_cuts:>8}  {:>9.2} {:>9.2}  {:>11.3} {:>11.3}  {:>10.3} {:>10.3}  {:>12} {:>10}",
        times[times.len().div_euclid(2)],
        times[times.len() - 1],
        ours[1] / best[1],
        ours[1] / first[1],
        ours[0] / best[0],
        ours[0] / first[0],
        format!("{price_proven} of {JOBS}"),
        format!("{all_proven} of {JOBS}"),
    );
}

/// Milliseconds on a processor where the system tells (Linux), or else of the
/// clock on the wall.
fn clock() -> f64 {
    static START: std::sync::LazyLock<Instant> = std::sync::LazyLock::new(Instant::now);
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").ok();
    let running = told.and_then(|text| text.split_whitespace().next()?.parse::<f64>().ok());
    running.map_or_else(|| START.elapsed().as_secs_f64() * 1000.0, |nanoseconds| nanoseconds / 1e6)
}

#[expect(clippy::cast_precision_loss, reason = "sums of lengths and prices, far below 2^53")]
fn add(sum: &mut [f64; 2], values: [i64; 4]) {
    sum[0] += values[0] as f64;
    sum[1] += values[1] as f64;
}

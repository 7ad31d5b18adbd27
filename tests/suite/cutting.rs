//! Cut plans held to published cases, to exact plans by an independent
//! program, to trying everything, and to the trade's rules of thumb.

use serde_json::Value;
use wirewend::takeoff::cutting::{DrumType, Effort, Job, solve};

use crate::cutting_jobs::{Chance, Rule, job, judge, thumb};
use crate::fixtures::folder;

fn solved(job: &Job) -> ([i64; 4], [i64; 4]) {
    let (plan, goals) = solve(job, &Effort::default());
    let values = judge(job, &plan).unwrap();
    assert_eq!(values, goals.values(), "what it says of itself");
    (values, goals.bounds())
}

/// Twenty cases of 120 items, OR-Library (see `fixtures/binpacking`). The
/// published number is the best known; a bound above it would be wrong.
#[test]
fn published_bin_packing_cases_come_out_at_their_best_known_numbers() {
    let text = std::fs::read_to_string(folder().join("binpacking/u120.txt")).unwrap();
    let mut words = text.split_whitespace();
    let mut next = || words.next().expect("the file goes on");
    let cases: usize = next().parse().unwrap();
    let mut met = 0;
    for _ in 0..cases {
        let name = next();
        let [capacity, count, best] = [(); 3].map(|()| next().parse::<i64>().unwrap());
        let pieces = (0..count).map(|_| next().parse().unwrap()).collect();
        let drums = vec![DrumType { length: capacity, price: 1 }];
        let (values, bounds) = solved(&Job { pieces, drums, ..Job::default() });
        assert!(bounds[0] <= best, "{name}: bound {} above {best}", bounds[0]);
        assert_eq!(values[0], best, "{name}");
        met += 1;
    }
    assert_eq!((cases, met), (20, 20), "every case");
}

/// The exact cut plans of the two small houses (CC0; computed, not published).
#[test]
fn exact_cut_plans_are_met_goal_by_goal() {
    let mut compared = 0;
    for name in ["cottage-05", "flat-12"] {
        let read = |file: String| -> Value {
            let path = folder().join("routing").join(file);
            serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
        };
        let (case, expect) = (read(format!("{name}.json")), read(format!("{name}.expected.json")));
        for (cable, exact) in expect["cutting"].as_object().unwrap() {
            let stock = &case["stock"][cable];
            let ints =
                |value: &Value| -> Vec<i64> { serde_json::from_value(value.clone()).unwrap() };
            let drum = |drum: &Value| DrumType {
                length: drum["length"].as_i64().unwrap(),
                price: drum["price"].as_i64().unwrap(),
            };
            let job = Job {
                pieces: ints(&exact["pieces"]),
                off_cuts: ints(&stock["offcuts"]),
                drums: stock["drums"].as_array().unwrap().iter().map(drum).collect(),
                usable: stock["usable"].as_i64().unwrap(),
            };
            let wanted = ["price", "scrap", "from_drums", "stocks_cut"]
                .map(|goal| exact["value"][goal].as_i64().unwrap());
            assert_eq!(solved(&job), (wanted, wanted), "{name}, {cable} mm²");
            compared += 1;
        }
    }
    assert_eq!(compared, 4, "two cables in each house");
}

/// Every way of cutting a few pieces, drums of every type included.
fn try_everything(job: &Job) -> [i64; 4] {
    fn place(
        job: &Job,
        piece: usize,
        sources: &mut Vec<(Option<usize>, i64, i64)>,
        best: &mut [i64; 4],
    ) {
        let Some(length) = job.pieces.get(piece) else {
            let mut values = [0; 4];
            for (kind, long, left) in sources.iter().filter(|it| it.1 != it.2) {
                values[0] += kind.map_or(0, |kind| job.drums[kind].price);
                values[1] += if *left < job.usable { *left } else { 0 };
                values[2] += kind.map_or(0, |_| long - left);
                values[3] += 1;
            }
            *best = values.min(*best);
            return;
        };
        for at in 0..sources.len() {
            if sources[at].2 >= *length {
                sources[at].2 -= length;
                place(job, piece + 1, sources, best);
                sources[at].2 += length;
            }
        }
        for (kind, drum) in job.drums.iter().enumerate().filter(|(_, drum)| drum.length >= *length)
        {
            sources.push((Some(kind), drum.length, drum.length - length));
            place(job, piece + 1, sources, best);
            sources.pop();
        }
    }
    let mut sources = job.off_cuts.iter().map(|length| (None, *length, *length)).collect();
    let mut best = [i64::MAX; 4];
    place(job, 0, &mut sources, &mut best);
    best
}

#[test]
fn small_jobs_come_out_as_by_trying_everything_and_are_proven() {
    let mut proven = 0;
    for seed in 0..300 {
        let mut chance = Chance::new(seed);
        let count = chance.between(1, 6);
        let off_cuts = chance.between(0, 3);
        let job = Job {
            pieces: (0..count).map(|_| chance.between(20, 300)).collect(),
            off_cuts: (0..off_cuts).map(|_| chance.between(50, 500)).collect(),
            drums: vec![
                DrumType { length: 400, price: chance.between(40, 60) },
                DrumType { length: 700, price: chance.between(60, 110) },
            ],
            usable: chance.between(0, 120),
        };
        let best = try_everything(&job);
        let (values, bounds) = solved(&job);
        assert!(bounds <= best, "seed {seed}: bounds {bounds:?} above {best:?}");
        assert_eq!(values, best, "seed {seed}: {job:?}");
        proven += usize::from(bounds == best);
    }
    assert!(proven >= 290, "only {proven} of 300 proven");
}

#[test]
fn jobs_in_whole_millimetres_beat_the_rules_of_thumb() {
    let (mut scrap, mut thumb_scrap, mut at_bound) = (0, 0, 0);
    let sizes = [(20, 6), (40, 12), (60, 20), (120, 40)];
    for seed in 0..16 {
        let (pieces, off_cuts) = sizes[usize::try_from(seed).unwrap() % 4];
        let job = job(seed, pieces, off_cuts);
        let (values, bounds) = solved(&job);
        for rule in [Rule::FirstFit, Rule::BestFit] {
            let thumb = judge(&job, &thumb(&job, rule)).unwrap();
            assert!(values <= thumb, "seed {seed}: {values:?} against {thumb:?}, {rule:?}");
        }
        scrap += values[1];
        thumb_scrap += judge(&job, &thumb(&job, Rule::BestFit)).unwrap()[1];
        at_bound += usize::from(values[0] == bounds[0]);
    }
    assert!(scrap * 5 < thumb_scrap, "{scrap} mm of scrap against {thumb_scrap}");
    assert!(at_bound >= 13, "price at its bound in {at_bound} of 16");
}

#[test]
fn what_no_drum_holds_is_cut_from_off_cuts_or_left_and_never_joined() {
    let drums = vec![DrumType { length: 1000, price: 10 }];
    let job = Job { pieces: vec![1500, 1400, 900], off_cuts: vec![1600], drums, usable: 50 };
    let (plan, goals) = solve(&job, &Effort::default());
    let cut: Vec<usize> = plan.off_cuts.concat();
    assert_eq!((cut.len(), goals.values()[0]), (1, 10), "one long piece, and a drum for the 900");
    assert!(!goals.are_proven(), "a piece is left over: {plan:?}");
    let nothing = solve(&Job { pieces: vec![5], ..Job::default() }, &Effort::default());
    assert_eq!(nothing.0.drums, Vec::new(), "nothing to cut from");
}

/// No plan is worse than that of a general constraint solver (`fixtures/cutting`:
/// computed, not published), goal by goal; and no bound of ours is above what
/// it reached.
#[test]
fn plans_are_no_worse_than_a_general_solver_found() {
    let text = std::fs::read_to_string(folder().join("cutting/cases.json")).unwrap();
    let cases: Value = serde_json::from_str(&text).unwrap();
    let cases = cases["cases"].as_array().unwrap();
    let mut proven = 0;
    for case in cases {
        let number = |name: &str| case[name].as_u64().unwrap();
        let count = |name: &str| usize::try_from(number(name)).unwrap();
        let job = job(number("seed"), count("pieces"), count("off_cuts"));
        let (values, bounds) = solved(&job);
        // Where it found nothing in its time, ours is there all the same.
        let theirs: Option<[i64; 4]> = serde_json::from_value(case["values"].clone()).unwrap();
        let Some(theirs) = theirs else { continue };
        assert!(values <= theirs, "{case}: ours {values:?}");
        assert!(bounds[0] <= theirs[0], "{case}: bound {bounds:?}");
        proven += usize::from(case["proven"] == serde_json::json!([true, true, true, true]));
    }
    assert!(proven >= 6, "{proven} of {} proven", cases.len());
}

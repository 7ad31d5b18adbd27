//! How the whole, from plan to lengths, grows with the number of points.

use std::hint::black_box;

use wirewend::lengths;
use wirewend::plan::Plan;
use wirewend::runs::{self, chain::Effort};
use wirewend::space::Space;

use super::invented::{HOUSE_A, Size, house};
use super::{ms, timed};

/// All tables, or those whose first letters are asked for.
pub(crate) fn print(asked: &[String]) {
    println!("Growth, plan to lengths, ms; the exponent is from the row above; memory: at most,");
    println!("of the whole process up to then, the plan included");
    let tables: [(&str, fn()); 3] =
        [("areas", areas), ("undivided", undivided), ("far", one_board)];
    let wanted = |name: &str| asked.iter().any(|word| word == name);
    let all = !tables.iter().any(|table| wanted(table.0));
    tables.iter().filter(|table| all || wanted(table.0)).for_each(|table| table.1());
}

/// A hundred points and ten circuits for each board, each with its own space.
fn areas() {
    let size = Size { points: 100, circuits: 10, ..HOUSE_A };
    let mut before = None;
    for boards in [1_u32, 10, 100, 1000] {
        let mut total = 0.0;
        for seed in 0..boards {
            let plan = house(size, u64::from(seed) + 100);
            total += whole(&plan);
        }
        row("in board areas of 100", boards * 100, total, &mut before);
    }
}

/// One storey under one void, as dense as house A, with a board for every 200
/// points: a circuit may reach across all of it.
fn undivided() {
    let half = Size { width: 10_000, rooms: (5, 7), ..many(1, 1) };
    let half = Size { points: 100, circuits: 10, keep_outs: 6, percents: 3, barriers: 5, ..half };
    let mut before = None;
    for size in [half, many(5, 1), many(10, 5), many(25, 20)] {
        let time = whole(&house(size, 7));
        row("on one undivided storey", u32::try_from(size.points).unwrap_or(0), time, &mut before);
    }
}

/// The same with a single board in a corner.
fn one_board() {
    let mut before = None;
    for side in [1, 2, 3] {
        let size = Size { parts: (1, 1), ..many(side, side) };
        let time = whole(&house(size, 7));
        let points = u32::try_from(size.points).unwrap_or(0);
        row("on one storey, all from one board", points, time, &mut before);
    }
}

/// So many of house A side by side, and one behind the other.
fn many(wide: i64, deep: i64) -> Size {
    let times = wide * deep;
    Size {
        width: HOUSE_A.width * wide,
        depth: HOUSE_A.depth * deep,
        rooms: (HOUSE_A.rooms.0 * wide, HOUSE_A.rooms.1 * deep),
        points: HOUSE_A.points * times,
        circuits: HOUSE_A.circuits * times,
        keep_outs: HOUSE_A.keep_outs * times,
        percents: HOUSE_A.percents * times,
        barriers: HOUSE_A.barriers * times,
        parts: (wide, deep),
        ..HOUSE_A
    }
}

fn whole(plan: &Plan) -> f64 {
    let (time, routed) = timed(|| {
        let routed = runs::route(plan, &Space::of(plan), &Effort::default());
        black_box(lengths::measure(plan, &routed));
        routed
    });
    assert!(routed.findings.is_empty(), "{:?}", routed.findings.first());
    ms(time)
}

fn row(what: &str, points: u32, time: f64, before: &mut Option<(u32, f64)>) {
    let exponent = before.map_or_else(String::new, |(fewer, less): (u32, f64)| {
        let exponent = libm::log(time / less) / libm::log(f64::from(points) / f64::from(fewer));
        format!("exponent {exponent:.2}")
    });
    let peak = peak();
    println!("  {points:>7} points {what:<34} {time:>10.1} ms   {peak:>12}   {exponent}");
    *before = Some((points, time));
}

/// The most memory this process has held, where the system tells.
fn peak() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    line.map_or_else(|| "not told here".to_owned(), |size| size.trim().to_owned())
}

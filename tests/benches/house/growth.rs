//! How the whole, from plan to lengths, grows with the number of points.

use std::hint::black_box;

use wirewend::lengths;
use wirewend::plan::Plan;
use wirewend::runs::{self, chain::Effort};
use wirewend::space::Space;

use super::invented::{HOUSE_A, Size, house};
use super::{ms, timed};

pub(crate) fn print() {
    println!("Growth, plan to lengths, ms; the exponent is from the row above");
    areas();
    undivided();
    println!("  memory at most so far: {}", peak());
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

/// One storey under one void with one board, as dense as house A.
fn undivided() {
    let mut before = None;
    for (factor, rooms) in [(1, (9, 7)), (4, (18, 14)), (9, (27, 21))] {
        let side = if factor == 1 {
            1
        } else if factor == 4 {
            2
        } else {
            3
        };
        let size = Size {
            width: HOUSE_A.width * side,
            depth: HOUSE_A.depth * side,
            rooms,
            points: 200 * factor,
            circuits: 20 * factor,
            keep_outs: 12 * factor,
            percents: 6 * factor,
            barriers: 10 * factor,
            ..HOUSE_A
        };
        let time = whole(&house(size, 7));
        row("on one undivided storey", u32::try_from(size.points).unwrap_or(0), time, &mut before);
    }
}

fn whole(plan: &Plan) -> f64 {
    let (time, _) = timed(|| {
        let routed = runs::route(plan, &Space::of(plan), &Effort::default());
        black_box(lengths::measure(plan, &routed))
    });
    ms(time)
}

fn row(what: &str, points: u32, time: f64, before: &mut Option<(u32, f64)>) {
    let exponent = before.map_or_else(String::new, |(fewer, less): (u32, f64)| {
        let exponent = libm::log(time / less) / libm::log(f64::from(points) / f64::from(fewer));
        format!("exponent {exponent:.2}")
    });
    println!("  {points:>7} points {what:<28} {time:>10.1} ms   {exponent}");
    *before = Some((points, time));
}

/// The most memory this process has held, where the system tells.
fn peak() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    line.map_or_else(|| "not told here".to_owned(), |size| size.trim().to_owned())
}

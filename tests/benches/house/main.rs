//! How long a whole house takes, beside the plain ways, in one run.
//!
//! Two invented houses. All distances between points: the fast network against
//! A* for each pair and Dijkstra for each source of general graph libraries on
//! the whole network, equal values asserted; they are sampled and scaled up,
//! and the table says by how much. Then the whole plan, steps by step; then
//! dragging; then growth. After `--`, `growth` runs that alone, and with `areas`,
//! `undivided` or `far` besides only that table; `drag` runs only what is dragged,
//! with `point` besides only points. One core; times are its own, medians.
//!
//! `-- --write FOLDER` writes the two houses as plan files instead, for the
//! frames of the window.
#![expect(clippy::print_stdout, reason = "a bench prints its table")]

mod distances;
mod drag;
mod growth;
mod invented;
mod whole;

use std::time::Duration;

use cpu_time::ThreadTime;

fn main() {
    let asked: Vec<String> = std::env::args().skip(1).collect();
    if asked.iter().any(|word| word == "growth") {
        growth::print(&asked);
        return;
    }
    let mut arguments = std::env::args().skip_while(|argument| argument != "--write").skip(1);
    if let Some(folder) = arguments.next() {
        for (name, size) in [("a", invented::HOUSE_A), ("b", invented::HOUSE_B)] {
            let file = std::path::Path::new(&folder).join(format!("house-{name}.wend"));
            let plan = invented::house(size, 7);
            wirewend::store::write_file(&plan, &file).expect("the folder can be written");
            println!("{}", file.display());
        }
        return;
    }
    for (name, size) in [("A", invented::HOUSE_A), ("B", invented::HOUSE_B)] {
        let plan = invented::house(size, 7);
        println!(
            "House {name}: {} storeys, {} voids, {} walls, {} points, {} circuits",
            plan.levels.len(),
            plan.voids.len(),
            plan.walls.len(),
            plan.points.len(),
            plan.circuits.len()
        );
        if asked.iter().any(|word| word == "drag") {
            drag::print(&plan, &asked);
            continue;
        }
        whole::print(&plan);
        drag::print(&plan, &asked);
        distances::print(&plan);
        println!();
    }
    if !asked.iter().any(|word| word == "drag") {
        growth::print(&asked);
    }
}

/// What something gives and how long this core works on it.
pub(crate) fn timed<T>(work: impl FnOnce() -> T) -> (Duration, T) {
    let start = ThreadTime::now();
    let made = work();
    (start.elapsed(), made)
}

/// In milliseconds.
pub(crate) fn ms(time: Duration) -> f64 {
    time.as_secs_f64() * 1000.0
}

/// The time at a share of the way through the sorted times.
pub(crate) fn at(times: &mut [Duration], permille: usize) -> f64 {
    times.sort_unstable();
    ms(times[((times.len() - 1) * permille).div_euclid(1000)])
}

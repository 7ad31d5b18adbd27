//! How long checking takes, on one core: `cargo bench --no-default-features
//! --bench checks`. The budgets are 1 ms for a circuit of 1,000 points and
//! 5 ms for a house of 200.
#![expect(
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a bench prints what the clock says"
)]

#[path = "../suite/wired.rs"]
mod wired;

use std::time::Instant;

use wired::{BOARD, Wired};
use wirewend::checks::check;
use wirewend::plan::{CircuitUse, Curve, PointKind, Regime};
use wirewend::rules::RuleBook;
use wirewend::runs::{LegRole, Surrounding};

fn main() {
    println!(
        "{:40} {:>8} {:>10} {:>10} {:>10}",
        "plan", "findings", "best ms", "median ms", "budget"
    );
    bench("one circuit of 1,000 points", &long_circuit(false), 1.0);
    bench("one ring of 1,000 points", &long_circuit(true), 1.0);
    bench("house of 200 points", &house(), 5.0);
}

/// Short legs and few watts, so that the figures stay sane.
fn long_circuit(ring: bool) -> Wired {
    let mut wired = Wired::new(Regime::AS_NZS);
    let circuit = wired.circuit(CircuitUse::Sockets, 4.0, 20.0, Curve::C);
    let mut from = BOARD;
    for _ in 0..1000 {
        let to = wired.point(circuit, PointKind::Socket, None);
        let way = [(Surrounding::HollowWall, 20, 0, 0), (Surrounding::RoofSpace, 20, 90, 0)];
        wired.leg(circuit, LegRole::Feed, from, to, &way);
        from = to;
    }
    if ring {
        wired.leg(
            circuit,
            LegRole::RingReturn,
            from,
            BOARD,
            &[(Surrounding::RoofSpace, 20, 90, 0)],
        );
    }
    wired
}

/// Twenty circuits of ten points, each leg of five segments, some together.
fn house() -> Wired {
    let mut wired = Wired::new(Regime::AS_NZS);
    for number in 0..20 {
        let lights = number % 3 == 0;
        let (usage, mm2, kind) = if lights {
            (CircuitUse::Lighting, 1.5, PointKind::Luminaire)
        } else {
            (CircuitUse::Sockets, 2.5, PointKind::Socket)
        };
        let circuit = wired.circuit(usage, mm2, if lights { 10.0 } else { 16.0 }, Curve::C);
        let mut from = BOARD;
        for place in 0..10 {
            let to = wired.point(circuit, kind, None);
            let beside = if place == 0 { 3 } else { 0 };
            let way = [
                (Surrounding::HollowWall, 1500, 0, beside),
                (Surrounding::Plate, 150, 0, beside),
                (Surrounding::RoofSpace, 2500, 90, beside),
                (Surrounding::Plate, 150, 0, 0),
                (Surrounding::HollowWall, 1500, 0, 0),
            ];
            wired.leg(circuit, LegRole::Feed, from, to, &way);
            from = to;
        }
    }
    wired
}

fn bench(name: &str, wired: &Wired, budget_ms: f64) {
    let rules = RuleBook::shipped();
    let mut times = Vec::new();
    let mut findings = 0;
    for _ in 0..300 {
        let start = Instant::now();
        let checked = check(&wired.plan, &wired.runs, &wired.lengths, &rules);
        times.push(start.elapsed().as_secs_f64() * 1000.0);
        findings = std::hint::black_box(checked).findings.len();
    }
    times.sort_by(f64::total_cmp);
    let median = times.get(times.len().div_ceil(2));
    println!(
        "{name:40} {findings:8} {:10.3} {:10.3} {budget_ms:10.1}",
        times[0],
        median.copied().unwrap_or(f64::NAN)
    );
}

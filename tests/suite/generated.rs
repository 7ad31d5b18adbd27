//! Generated plans: routed, judged by the independent checker, and routed
//! again by the plain network.

use wirewend::lengths;
use wirewend::plan::{Plan, Way};
use wirewend::runs::{self, chain::Effort};
use wirewend::space::{FastNetwork, Modes, Network, Planes, Space, Terminal};
use wirewend::units::Angle;

use crate::checker;
use crate::fixtures::terminals;
use crate::generate::{generated_plan, moved, turned};
use crate::layouts::{drafted, ours, outside, read};

/// Steps enough for a right order; the best order is not what is judged here.
const QUICK: Effort = Effort { exact_up_to: 7, kicks: 20, ascent_steps: 60, branch_trees: 0 };

fn judge(plan: &Plan) -> Vec<String> {
    let routed = runs::route(plan, &Space::of(plan), &QUICK);
    let measured = lengths::measure(plan, &routed);
    let mut complaints = checker::judge(plan, &routed, Some(&measured));
    complaints.extend(checker::judge_costs(plan, &routed));
    complaints.iter().map(ToString::to_string).collect()
}

/// Whether a void is followed by many small steps: plans of houses that stand
/// oblique to their joists take a hundred times as long to route as others, a
/// third of a second each in a test build.
fn is_stepped(plan: &Plan) -> bool {
    Space::of(plan).voids.iter().any(|void| void.regions.len() > 60)
}

#[test]
fn the_checker_has_nothing_to_say_of_thousands_of_generated_plans() {
    let mut all = Vec::new();
    let (mut judged, mut stepped) = (0, 0);
    for seed in 0..5000 {
        let plan = generated_plan(seed);
        if is_stepped(&plan) {
            if seed % 50 != 0 {
                continue;
            }
            stepped += 1;
        }
        judged += 1;
        all.extend(judge(&plan).into_iter().map(|line| format!("seed {seed}: {line}")));
    }
    assert!(all.is_empty(), "{} complaints:\n{}", all.len(), all.join("\n"));
    assert!(judged > 2000 && stepped > 30, "only {judged} plans, {stepped} with steps");
}

#[test]
fn the_checker_has_nothing_to_say_of_layouts_of_others() {
    for (name, text) in ours().into_iter().chain(outside()) {
        let said = judge(&drafted(read(&text).0));
        assert!(said.is_empty(), "{name}:\n{}", said.join("\n"));
    }
}

/// Every pair of ends, by the fast network and by the plain one.
fn compare(plan: &Plan, name: &str) -> usize {
    let space = Space::of(plan);
    let terminals = terminals(plan, &space, 14);
    let mut compared = 0;
    // Steps along oblique edges make the plain network too large to be quick.
    if is_stepped(plan) {
        return 0;
    }
    for ways in [
        None,
        Some(&[Way::Overhead, Way::Underground][..]),
        Some(&[Way::Underfloor, Way::InWall][..]),
    ] {
        let modes = Modes::of(ways);
        let fast = FastNetwork::of(&space, modes, &terminals);
        let served: Vec<usize> = (0..terminals.len()).filter(|end| fast.serves(&[*end])).collect();
        let group = fast.group(&served);
        let own: Vec<Terminal> = served.iter().map(|end| terminals[*end].clone()).collect();
        let network = Network::around(&space, modes, &own);
        for from in 0..served.len() {
            let plain = network.ways_from(from);
            for to in 0..served.len() {
                assert_eq!(
                    group.key(from, to),
                    plain.key(to),
                    "{name}, {ways:?}: {:?} to {:?}",
                    own[from],
                    own[to]
                );
                compared += 1;
            }
        }
    }
    compared
}

#[test]
fn fast_and_plain_networks_agree_on_generated_plans() {
    let compared: usize =
        (0..250).map(|seed| compare(&generated_plan(seed), &format!("seed {seed}"))).sum();
    assert!(compared > 15_000, "only {compared} pairs");
}

/// Every pair of all ends as of one circuit, where one of them is on a wall that
/// reaches no void.
fn compare_stuck(plan: &Plan, name: &str) -> usize {
    let space = Space::of(plan);
    let terminals = terminals(plan, &space, 12);
    let mut compared = 0;
    for ways in [None, Some(&[Way::Overhead, Way::Surface][..]), Some(&[Way::Underfloor][..])] {
        let modes = Modes::of(ways);
        if is_stepped(plan) || !space.is_stuck(modes, &terminals) {
            continue;
        }
        let fast = FastNetwork::joined(&space, &Planes::of(&space), modes, &terminals, true);
        let group = fast.group(&(0..terminals.len()).collect::<Vec<_>>());
        let network = Network::around(&space, modes, &terminals);
        for (from, one) in terminals.iter().enumerate() {
            let plain = network.ways_from(from);
            for (to, other) in terminals.iter().enumerate().filter(|(to, _)| *to != from) {
                let (fast, plain) = (group.key(from, to), plain.key(to));
                assert_eq!(fast, plain, "{name}, {ways:?}: {one:?} to {other:?}");
                compared += 1;
            }
        }
    }
    compared
}

#[test]
fn fast_and_plain_networks_agree_around_walls_that_reach_no_void() {
    let compared: usize =
        (0..300).map(|seed| compare_stuck(&generated_plan(seed), &format!("seed {seed}"))).sum();
    assert!(compared > 5000, "only {compared} pairs");
}

/// Whether every wall and every void keeps to the page, so that nothing is
/// rounded.
fn is_square(plan: &Plan) -> bool {
    plan.voids.values().all(|void| void.direction.millidegrees() % 90_000 == 0)
        && plan.walls.values().all(|wall| wall.a.x == wall.b.x || wall.a.y == wall.b.y)
}

#[test]
fn moving_and_turning_a_square_house_changes_no_cost_and_no_length() {
    let total = |plan: &Plan| {
        let routed = runs::route(plan, &Space::of(plan), &QUICK);
        let legs = || routed.circuits.values().flat_map(|run| &run.legs);
        let cost: i64 = legs().map(|leg| leg.route.cost.get()).sum();
        (cost, legs().map(|leg| leg.route.length.get()).sum::<i64>())
    };
    let plans = (0..200).map(|seed| (seed, generated_plan(seed)));
    let square: Vec<(u64, Plan)> = plans.filter(|(_, plan)| is_square(plan)).collect();
    assert!(square.len() > 40, "only {} square houses", square.len());
    for (seed, plan) in square {
        let here = total(&plan);
        assert_eq!(here, total(&moved(&plan, 12_345, -6_789)), "moved, seed {seed}");
        let quarter = Angle::from_millidegrees(90_000);
        assert_eq!(here.0, total(&turned(&plan, quarter)).0, "turned, seed {seed}");
        // A house turned by 17 degrees costs the same within rounding.
        let there = total(&turned(&plan, Angle::from_millidegrees(17_000)));
        let apart = (here.0 - there.0).abs();
        assert!(apart * 200 <= here.0 + 200_000, "turned by 17°, seed {seed}: {here:?} {there:?}");
    }
}

//! Shortest ways against a general graph library.

use petgraph::algo::dijkstra;
use petgraph::graph::{DiGraph, NodeIndex};
use wirewend::plan::Plan;
use wirewend::space::{Key, Modes, Network, Space};

use crate::fixtures::{house, terminals};
use crate::generate::generated_plan;

/// Every way from some terminals by our search and by petgraph's, on the same
/// states and moves.
fn compare(plan: &Plan, name: &str) -> usize {
    let space = Space::of(plan);
    let terminals = terminals(plan, &space, 8);
    let network = Network::around(&space, Modes::of(None), &terminals);
    let states = network.states();
    if states.places.len() > 200_000 {
        return 0;
    }
    let count = states.places.len();
    let mut graph = DiGraph::<(), i64>::with_capacity(count + 1, states.moves.len());
    for _ in 0..=count {
        graph.add_node(());
    }
    for (from, to, key) in &states.moves {
        graph.add_edge(NodeIndex::new(*from), NodeIndex::new(*to), key.get());
    }
    let mut compared = 0;
    for from in 0..terminals.len().min(2) {
        let mut graph = graph.clone();
        for start in &states.starts[from] {
            graph.add_edge(NodeIndex::new(count), NodeIndex::new(*start), 0);
        }
        let found = dijkstra(&graph, NodeIndex::new(count), None, |edge| *edge.weight());
        let ours = network.ways_from(from);
        for to in 0..terminals.len() {
            let ends = states.ends[to].iter();
            let theirs = ends.filter_map(|end| found.get(&NodeIndex::new(*end))).min();
            let ours = Some(ours.key(to)).filter(|key| key.is_way()).map(Key::get);
            assert_eq!(ours, theirs.copied(), "{name}: from {from} to {to}");
            compared += 1;
        }
    }
    compared
}

#[test]
fn our_search_finds_what_petgraph_finds() {
    let houses = ["cottage", "flat", "terrace", "townhouse"];
    let on_houses: usize = houses.iter().map(|name| compare(&house(name), name)).sum();
    let on_generated: usize =
        (0..40).map(|seed| compare(&generated_plan(seed), &format!("seed {seed}"))).sum();
    assert!(on_houses >= 32 && on_generated > 200, "{on_houses} and {on_generated} ways");
}

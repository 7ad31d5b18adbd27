//! All distances between the ends of a house, three ways.

use std::hint::black_box;
use std::time::Duration;

use petgraph::graph::{DiGraph, NodeIndex};
use wirewend::plan::Plan;
use wirewend::space::{FastNetwork, Key, Modes, Network, Space, States};

use super::whole::terminals;
use super::{ms, timed};

/// Pairs searched by A* and sources by Dijkstra, before scaling up.
const PAIRS: usize = 12;
const SOURCES: usize = 3;

pub(crate) fn print(plan: &Plan) {
    let (space, terminals) = (Space::of(plan), terminals(plan));
    let count = terminals.len();
    let all_pairs = (count * (count - 1)).div_euclid(2);
    let members: Vec<usize> = (0..count).collect();
    let mut times: Vec<Duration> = Vec::new();
    for _ in 0..11 {
        let (time, _) = timed(|| {
            let fast = FastNetwork::of(&space, Modes::of(None), &terminals);
            assert!(fast.serves(&members), "every end is served");
            black_box(fast.group(&members).key(0, 1))
        });
        times.push(time);
    }
    times.sort_unstable();
    let ours = times[times.len().div_euclid(2)];
    let fast = FastNetwork::of(&space, Modes::of(None), &terminals);
    let group = fast.group(&members);
    let network = Network::around(&space, Modes::of(None), &terminals);
    let states = network.states();
    println!(
        "  {} distances; the plain network has {} states and {} moves",
        all_pairs,
        states.places.len(),
        states.moves.len()
    );
    println!("  {:<58} {:>12.1} ms", "ours, network included", ms(ours));
    let row = |what: &str, time: Duration, scale: f64| {
        let scaled = ms(time) * scale;
        println!("  {what:<58} {scaled:>12.0} ms   {:>8.0} x", scaled / ms(ours));
    };
    #[expect(clippy::cast_precision_loss, reason = "small counts")]
    let (by_pair, by_source) =
        (all_pairs as f64 / PAIRS as f64, (count - 1) as f64 / SOURCES as f64);
    let graph = Graph::of(&states);
    let pairs: Vec<(usize, usize)> = (0..PAIRS)
        .map(|n| (n * 37 % count, (n * 61 + 100) % count))
        .filter(|p| p.0 != p.1)
        .collect();
    let (time, found): (Duration, Vec<Key>) =
        timed(|| pairs.iter().map(|p| graph.petgraph_a_star(&states, *p)).collect());
    same("petgraph A*", &group_keys(&group, &pairs), &found);
    row(&format!("petgraph A* for each pair ({PAIRS}, scaled up)"), time, by_pair);
    let (time, found): (Duration, Vec<Key>) =
        timed(|| pairs.iter().map(|p| graph.pathfinding_a_star(&states, *p)).collect());
    same("pathfinding A*", &group_keys(&group, &pairs), &found);
    row(&format!("pathfinding A* for each pair ({PAIRS}, scaled up)"), time, by_pair);
    let mut all = Vec::new();
    let (time, ()) = timed(|| {
        for source in 0..SOURCES {
            all.push(graph.petgraph_dijkstra(&states, source * 50));
        }
    });
    for (source, found) in all.iter().enumerate() {
        let source = source * 50;
        let pairs: Vec<_> =
            members.iter().filter(|to| **to != source).map(|to| (source, *to)).collect();
        let found: Vec<Key> = pairs.iter().map(|pair| found[pair.1]).collect();
        same("petgraph Dijkstra", &group_keys(&group, &pairs), &found);
    }
    row(&format!("petgraph Dijkstra for each source ({SOURCES}, scaled up)"), time, by_source);
    let (time, _) = timed(|| {
        for source in 0..SOURCES {
            black_box(network.ways_from(source * 50));
        }
    });
    row(&format!("our plain network, each source ({SOURCES}, scaled up)"), time, by_source);
}

fn group_keys(group: &wirewend::space::Group<'_>, pairs: &[(usize, usize)]) -> Vec<Key> {
    pairs.iter().map(|(from, to)| group.key(*from, *to)).collect()
}

fn same(what: &str, ours: &[Key], theirs: &[Key]) {
    assert_eq!(ours, theirs, "{what} finds the same");
}

/// The states as general graph libraries take them, with one more for each
/// terminal in front of the states in which legs begin there.
struct Graph {
    drawn: DiGraph<(), i64>,
    out: Vec<Vec<(usize, i64)>>,
    count: usize,
}

impl Graph {
    fn of(states: &States) -> Self {
        let count = states.places.len();
        let mut drawn = DiGraph::with_capacity(count + states.starts.len(), states.moves.len());
        let mut out = vec![Vec::new(); count + states.starts.len()];
        for _ in 0..count + states.starts.len() {
            drawn.add_node(());
        }
        let mut add = |from: usize, to: usize, key: i64| {
            drawn.add_edge(NodeIndex::new(from), NodeIndex::new(to), key);
            out[from].push((to, key));
        };
        for (from, to, key) in &states.moves {
            add(*from, *to, key.get());
        }
        for (terminal, starts) in states.starts.iter().enumerate() {
            for start in starts {
                add(count + terminal, *start, 0);
            }
        }
        Self { drawn, out, count }
    }

    /// No move costs less than its length at the least price of these houses
    /// (60 %), so this never says too much.
    fn least(states: &States, from: usize, to: usize) -> i64 {
        let (a, b) = (states.places[from], states.places[to]);
        let apart = (a.x - b.x).abs().get() + (a.y - b.y).abs().get() + (a.z - b.z).abs().get();
        // Places of the page are rounded: a few millimetres of doubt.
        Key::run((apart - 6).max(0), 60).get()
    }

    fn petgraph_a_star(&self, states: &States, (from, to): (usize, usize)) -> Key {
        let goal = states.ends[to][0];
        let here = |node: NodeIndex| {
            if node.index() < self.count { node.index() } else { states.starts[from][0] }
        };
        let found = petgraph::algo::astar(
            &self.drawn,
            NodeIndex::new(self.count + from),
            |node| states.ends[to].contains(&node.index()),
            |edge| *edge.weight(),
            |node| Self::least(states, here(node), goal),
        );
        key(found.map(|found| found.0))
    }

    fn pathfinding_a_star(&self, states: &States, (from, to): (usize, usize)) -> Key {
        let goal = states.ends[to][0];
        let found = pathfinding::prelude::astar(
            &(self.count + from),
            |node| self.out[*node].iter().copied(),
            |node| {
                let here = if *node < self.count { *node } else { states.starts[from][0] };
                Self::least(states, here, goal)
            },
            |node| states.ends[to].contains(node),
        );
        key(found.map(|found| found.1))
    }

    fn petgraph_dijkstra(&self, states: &States, from: usize) -> Vec<Key> {
        let start = NodeIndex::new(self.count + from);
        let found = petgraph::algo::dijkstra(&self.drawn, start, None, |edge| *edge.weight());
        let best = |ends: &Vec<usize>| {
            ends.iter().filter_map(|end| found.get(&NodeIndex::new(*end)).copied()).min()
        };
        states.ends.iter().map(|ends| key(best(ends))).collect()
    }
}

fn key(found: Option<i64>) -> Key {
    found.map_or(Key::NONE, |key| Key::new(key >> 22, key & ((1 << 22) - 1)))
}

//! Runs found in windows are those found in the whole.

use wirewend::plan::*;
use wirewend::runs::{self, Windows, chain::Effort};
use wirewend::space::{FastNetwork, Key, Modes, Network, Rect, Space, Terminal};
use wirewend::units::{Mm, Point2};

use crate::generate::{Size, generated_plan, sized_plan};
use crate::invented::{self, HOUSE_A, plain_circuit, plain_point};
use crate::layouts::{drafted, ours, outside, read};

const QUICK: Effort = Effort { exact_up_to: 7, kicks: 20, ascent_steps: 60, branch_trees: 0 };

/// Windows wherever they can be, so small at first that most must grow.
const TINY: Windows = Windows { margin: Mm::new(40), times: 0 };

fn is_stepped(space: &Space) -> bool {
    space.voids.iter().any(|void| void.regions.len() > 60)
}

/// The runs of a plan in windows of these sizes, each against the whole.
fn compare(plan: &Plan, name: &str) {
    let space = Space::of(plan);
    let whole = runs::route_in(plan, &space, &QUICK, &Windows::NEVER);
    for windows in [TINY, Windows { margin: Mm::new(700), times: 0 }] {
        let routed = runs::route_in(plan, &space, &QUICK, &windows);
        for (id, run) in &whole.circuits {
            let found = &routed.circuits[id];
            assert_eq!(found.order, run.order, "{name}, {id}, {windows:?}");
            for (found, leg) in found.legs.iter().zip(&run.legs) {
                assert_eq!(found, leg, "{name}, {id}, {windows:?}");
            }
        }
        assert_eq!(routed, whole, "{name}, {windows:?}");
    }
}

#[test]
fn generated_plans_are_routed_in_windows_as_in_the_whole() {
    let mut compared = 0;
    let size = Size { storeys: 2, rooms: 12, points: 60 };
    let large = (0..20).map(|seed| (format!("large {seed}"), sized_plan(seed, size)));
    let small = (0..300).map(|seed| (format!("seed {seed}"), generated_plan(seed)));
    for (name, plan) in small.chain(large) {
        if !is_stepped(&Space::of(&plan)) {
            compare(&plan, &name);
            compared += 1;
        }
    }
    assert!(compared > 120, "only {compared} plans");
}

#[test]
fn layouts_are_routed_in_windows_as_in_the_whole() {
    for (name, text) in ours().into_iter().chain(outside()) {
        compare(&drafted(read(&text).0), &name);
    }
}

#[test]
fn a_large_storey_is_routed_in_windows_as_in_the_whole() {
    let size = invented::Size {
        width: 40_000,
        rooms: (18, 7),
        points: 240,
        circuits: 24,
        keep_outs: 24,
        percents: 12,
        barriers: 20,
        parts: (2, 1),
        ..HOUSE_A
    };
    let plan = invented::house(size, 3);
    let space = Space::of(&plan);
    let whole = runs::route_in(&plan, &space, &QUICK, &Windows::NEVER);
    let usual = Windows { times: 1, ..Windows::default() };
    assert_eq!(runs::route_in(&plan, &space, &QUICK, &usual), whole, "usual windows");
    assert_eq!(runs::route_in(&plan, &space, &QUICK, &TINY), whole, "tiny windows");
}

/// All placed ends in a space.
fn terminals(plan: &Plan, space: &Space) -> Vec<Terminal> {
    let boards = plan.boards.keys().copied().map(End::Board);
    let ends = boards.chain(plan.points.keys().copied().map(End::Point));
    ends.filter_map(|end| space.terminal(plan, &plan.place_of(end)?)).collect()
}

/// Keys between all ends that a window serves: (certain ones, all, wrong ones).
fn in_window(space: &Space, terminals: &[Terminal], rect: Rect) -> (usize, usize, usize) {
    let modes = Modes::of(None);
    let window = space.within(rect);
    let inside: Vec<(usize, Terminal)> = terminals
        .iter()
        .enumerate()
        .filter_map(|(index, terminal)| Some((index, window.terminal(terminal)?)))
        .collect();
    let own: Vec<Terminal> = inside.iter().map(|one| one.1.clone()).collect();
    let Some(reach) = space.reach() else { return (0, 0, 0) };
    let part = FastNetwork::of(&window.space, modes, &own).within(&reach);
    let members: Vec<usize> = (0..own.len()).filter(|end| part.serves(&[*end])).collect();
    let group = part.group(&members);
    let whole = FastNetwork::of(space, modes, terminals);
    let same: Vec<usize> = members.iter().map(|end| inside[*end].0).collect();
    assert!(whole.serves(&same), "what a part serves the whole does");
    let right = whole.group(&same);
    let detour_bound = reach.detour_bound(&rect);
    let (mut certain, mut all, mut wrong) = (0, 0, 0);
    for from in 0..members.len() {
        let star = part.star(members[from], &members[from + 1..]);
        for (to, end) in members.iter().enumerate().skip(from + 1) {
            let key = group.key(from, to);
            assert!(key >= right.key(from, to), "a part has no cheaper ways than the whole");
            all += 1;
            wrong += usize::from(key != right.key(from, to));
            if group.is_certain(&detour_bound, from, to) {
                assert_eq!(key, right.key(from, to), "certain, and wrong");
            }
            if star.are_certain(&detour_bound, std::iter::once(*end)) {
                assert_eq!(key, right.key(from, to), "certain from both ends, and wrong");
                certain += 1;
            }
        }
    }
    (certain, all, wrong)
}

#[test]
fn what_is_certain_in_a_window_is_right() {
    let mut sum = (0, 0, 0);
    for seed in 0..250 {
        let plan = generated_plan(seed);
        let space = Space::of(&plan);
        let (Some(reach), false) = (space.reach(), is_stepped(&space)) else { continue };
        let terminals = terminals(&plan, &space);
        let Rect { u0, v0, u1, v1 } = reach.extent;
        let (wide, deep) = (u1 - u0, v1 - v0);
        for (left, low, part) in [(0, 0, 2), (1, 1, 2), (0, 1, 2), (1, 2, 4), (1, 1, 8)] {
            // Of each side a half, three quarters or all but an eighth.
            let (a, b) = (u0 + (wide * left).div_euclid(8), v0 + (deep * low).div_euclid(8));
            let rect =
                Rect::new(a, b, a + wide - wide.div_euclid(part), b + deep - deep.div_euclid(part));
            let (certain, all, wrong) = in_window(&space, &terminals, rect);
            sum = (sum.0 + certain, sum.1 + all, sum.2 + wrong);
        }
    }
    assert!(sum.0 > 2000 && sum.0 < sum.1, "{sum:?}");
    assert!(sum.2 > 0, "in some windows ways are wrong, and not certain: {sum:?}");
}

/// A large empty storey with an area in its void, and two points on the
/// ceiling, on either side of it.
fn parted(effect: AreaEffect, x0: i64, y1: i64) -> Plan {
    let size = invented::Size {
        width: 60_000,
        depth: 60_000,
        rooms: (3, 3),
        points: 0,
        circuits: 1,
        keep_outs: 0,
        percents: 0,
        barriers: 0,
        ..HOUSE_A
    };
    let mut plan = invented::house(size, 1);
    let void = *plan.voids.keys().next().expect("a void");
    let level = *plan.levels.keys().next().expect("a level");
    let board = *plan.boards.keys().next().expect("a board");
    let outline = [(x0, 25_000), (50_000, 25_000), (50_000, y1), (x0, y1)];
    let outline = outline.map(|(x, y)| Point2::new(x, y)).to_vec();
    let area = Area { name: String::new(), on: Plane::Void(void), outline, effect };
    plan.areas.insert(AreaId(plan.next_id), area);
    let circuit = CircuitId(plan.next_id + 1);
    plan.circuits.insert(circuit, plain_circuit(1, board));
    for (number, y) in [(2, 24_500), (3, y1 + 500)] {
        let at = Place::Ceiling(OnLevel { level, at: Point2::new(30_000, y) });
        let point = plain_point(PointKind::Luminaire, at, Some(circuit));
        plan.points.insert(PointId(plan.next_id + number), point);
    }
    plan.next_id += 4;
    plan
}

#[test]
fn a_way_round_outside_the_window_is_found() {
    let modes = Modes::of(None);
    for (name, effect, x0, y1) in [
        ("closed", AreaEffect::KeepOut, 10_000, 26_000),
        ("dear", AreaEffect::Percent(300), 26_000, 35_000),
    ] {
        let plan = parted(effect, x0, y1);
        let space = Space::of(&plan);
        let ends = terminals(&plan, &space);
        let between = |space: &Space, ends: &[Terminal]| -> Key {
            FastNetwork::of(space, modes, ends).group(&[0, 1]).key(0, 1)
        };
        let whole = between(&space, &ends[1..]);
        // The trap: in a window alone there is another way, or none.
        let rect = Rect::new(29_000, 23_000, 31_000, y1 + 2000);
        let window = space.within(rect);
        let inside: Vec<Terminal> =
            ends[1..].iter().filter_map(|end| window.terminal(end)).collect();
        assert!(between(&window.space, &inside) > whole, "{name}: dearer inside");
        let (certain, all, wrong) = in_window(&space, &ends, rect);
        assert_eq!((certain, all, wrong), (0, 1, 1), "{name}: and known to be uncertain");
        let runs = runs::route_in(&plan, &space, &QUICK, &TINY);
        assert_eq!(runs, runs::route_in(&plan, &space, &QUICK, &Windows::NEVER), "{name}");
        let run = runs.circuits.values().next().expect("a circuit");
        let leg = run.legs.last().expect("a leg");
        assert_eq!(leg.route.cost, whole.cost(), "{name}");
        let out = leg.route.segments.iter().any(|segment| segment.to.x.get() <= x0);
        assert!(out, "{name}: around, left of {x0}: {:?}", leg.route.segments);
    }
}

/// A large storey with a keep-out over the whole of a wall on which a point is,
/// so that the point is reached by the walls beside it.
fn with_a_stuck_end() -> Plan {
    let size = invented::Size { width: 60_000, rooms: (27, 7), parts: (3, 1), ..HOUSE_A };
    let mut plan = invented::house(size, 5);
    let inside = |wall: &Wall| {
        let (x, y) = ((wall.a.x + wall.b.x).half().get(), (wall.a.y + wall.b.y).half().get());
        !wall.insulated && (25_000..35_000).contains(&x) && (5000..10_000).contains(&y)
    };
    let on_walls = plan.points.iter().filter_map(|(id, point)| match point.place? {
        Place::Wall(on) if inside(&plan.walls[&on.wall]) => Some((*id, on.wall)),
        _ => None,
    });
    let (_, wall) = on_walls.min().expect("a point on an inner wall");
    let (a, b) = (plan.walls[&wall].a, plan.walls[&wall].b);
    let rect = Rect::new(a.x.get(), a.y.get(), b.x.get(), b.y.get()).grown(45);
    let corners = [(rect.u0, rect.v0), (rect.u1, rect.v0), (rect.u1, rect.v1), (rect.u0, rect.v1)];
    let outline = corners.map(|(x, y)| Point2::new(x, y)).to_vec();
    let on = Plane::Void(*plan.voids.keys().next().expect("a void"));
    let effect = AreaEffect::KeepOut;
    plan.areas.insert(AreaId(plan.next_id), Area { name: String::new(), on, outline, effect });
    plan.next_id += 1;
    plan
}

#[test]
fn an_end_that_no_void_reaches_is_routed_in_windows_as_in_the_whole() {
    let plan = with_a_stuck_end();
    let space = Space::of(&plan);
    let modes = Modes::of(None);
    let of_circuit = |id: &CircuitId| -> Vec<Terminal> {
        let board = plan.circuits[id].board.map(End::Board);
        let on_it = plan.points.iter().filter(|(_, point)| point.circuit == Some(*id));
        let ends = board.into_iter().chain(on_it.map(|(point, _)| End::Point(*point)));
        ends.filter_map(|end| space.terminal(&plan, &plan.place_of(end)?)).collect()
    };
    let stuck: Vec<CircuitId> =
        plan.circuits.keys().copied().filter(|id| space.is_stuck(modes, &of_circuit(id))).collect();
    assert!(!stuck.is_empty() && stuck.len() < 5, "{stuck:?}");
    let whole = runs::route_in(&plan, &space, &QUICK, &Windows::NEVER);
    for times in [0, 1] {
        let usual = Windows { times, ..Windows::default() };
        assert_eq!(runs::route_in(&plan, &space, &QUICK, &usual), whole, "usual windows");
    }
    assert_eq!(runs::route_in(&plan, &space, &QUICK, &TINY), whole, "tiny windows");
    // Its legs cost what the plain network says, through the wall beside.
    for id in &stuck {
        let ends = of_circuit(id);
        let network = Network::around(&space, modes, &ends);
        let numbers: Vec<End> = std::iter::once(plan.circuits[id].board.map(End::Board))
            .flatten()
            .chain(whole.circuits[id].order.matrix_ends.iter().copied().skip(1))
            .collect();
        let matrix = &whole.circuits[id].order.matrix;
        let place = |end: &End| space.terminal(&plan, &plan.place_of(*end)?);
        let index = |end: &End| ends.iter().position(|one| Some(one) == place(end).as_ref());
        for (from, row) in numbers.iter().zip(matrix) {
            let ways = network.ways_from(index(from).expect("an end"));
            for (to, found) in numbers.iter().zip(row).filter(|(to, _)| *to != from) {
                let plain = ways.key(index(to).expect("an end"));
                let found = found.map(|found| (found.cost, found.length));
                assert_eq!(found, Some((plain.cost(), plain.length())), "{id}: {from:?} {to:?}");
            }
        }
    }
}

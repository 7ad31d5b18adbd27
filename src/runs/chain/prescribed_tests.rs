//! Orders within what is prescribed, against every order there is.

use super::dice::Dice;
use super::spurs::{Trunk, hang, hang_within};
use super::tests::{scattered, with_gaps};
use super::*;

/// The least weight of all orders that keep to it, one after another.
fn brute(matrix: &Matrix, shape: Shape, asked: &Prescribed) -> Option<i64> {
    fn go(
        matrix: &Matrix,
        shape: Shape,
        asked: &Prescribed,
        way: &mut Vec<usize>,
        best: &mut Option<i64>,
    ) {
        if way.len() == matrix.count() {
            let mut weight: i64 = way.windows(2).map(|p| matrix.weight(p[0], p[1])).sum();
            if shape == Shape::Closed && way.len() > 1 {
                weight += matrix.weight(way[way.len() - 1], 0);
            }
            // Looked at in the plainest way: places of both, the first few, the last.
            let place = |end: usize| way.iter().position(|other| *other == end).unwrap();
            let kept = asked.before.iter().all(|(a, b)| place(*a) < place(*b))
                && way[1..].starts_with(&asked.first)
                && asked.last.is_none_or(|last| way[way.len() - 1] == last);
            if kept && weight < matrix.missing() {
                *best = Some(best.map_or(weight, |best| best.min(weight)));
            }
            return;
        }
        for end in 1..matrix.count() {
            if !way.contains(&end) {
                way.push(end);
                go(matrix, shape, asked, way, best);
                way.pop();
            }
        }
    }
    let mut best = None;
    go(matrix, shape, asked, &mut vec![0], &mut best);
    best
}

/// Some pairs along an order by chance, so that they do not contradict each
/// other; now and then a first and a last end.
fn by_chance(points: usize, case: u64) -> Prescribed {
    let mut dice = Dice::of_stream(case);
    let mut hidden: Vec<usize> = (1..=points).collect();
    for at in (1..points).rev() {
        hidden.swap(at, dice.below(at + 1));
    }
    let mut asked = Prescribed::default();
    if points > 1 && dice.below(3) == 0 {
        asked.first.push(hidden[0]);
    }
    if points > 2 && dice.below(3) == 0 {
        asked.last = hidden.last().copied();
    }
    for _ in 0..dice.below(points) {
        let (a, b) = (dice.below(points), dice.below(points));
        if a != b {
            asked.before.push((hidden[a.min(b)], hidden[a.max(b)]));
        }
    }
    asked
}

const LONG: Effort = Effort { exact_up_to: 0, kicks: 400, ascent_steps: 200, branch_trees: 20_000 };
const SHORT: Effort = Effort { exact_up_to: 0, kicks: 40, ascent_steps: 100, branch_trees: 0 };

#[test]
fn no_order_that_keeps_to_it_is_better_up_to_seven_points() {
    let (mut proven, mut bound_by_it) = (0, 0);
    for case in 0..240 {
        let points = 1 + usize::try_from(case % 6).unwrap() + usize::from(case > 232);
        let matrix = match case % 4 {
            0 => with_gaps(points, case),
            1 => scattered(points, case, 4),
            _ => scattered(points, case, 1000),
        };
        let asked = by_chance(points, case);
        for shape in [Shape::Open, Shape::Closed] {
            let told = format!("case {case}, {points} points, {shape:?}, {asked:?}");
            let best = brute(&matrix, shape, &asked);
            for effort in [Effort::default(), LONG, SHORT] {
                let found = match (order_within(&matrix, shape, &asked, &effort), best) {
                    (Ok(found), Some(_)) => found,
                    (Ok(_), None) => panic!("{told}: there is none"),
                    (Err(_), None) => continue,
                    (Err(NoOrder::NoneFound), Some(_)) if effort == SHORT => continue,
                    (Err(error), Some(_)) => panic!("{told}: {error}"),
                };
                let best = matrix.distance(best.unwrap());
                assert!(asked.is_kept(&found.sequence), "{told}: {:?}", found.sequence);
                assert!(found.bound <= best.cost && best.cost <= found.cost, "{told}: {found:?}");
                if found.method == OrderMethod::Improved {
                    assert!(effort == SHORT, "{told}: left open");
                } else {
                    assert_eq!((found.cost, found.bound), (best.cost, best.cost), "{told}");
                    proven += 1;
                }
                if effort.exact_up_to > 0 {
                    assert_eq!(found.length, best.length, "{told}: the shortest of them");
                    let free = order(&matrix, shape, &[], &effort).map(|free| free.cost);
                    assert!(free.is_ok_and(|free| free <= found.cost), "{told}: never cheaper");
                    let without = order(&matrix, shape, &[], &effort).map(|free| free.sequence);
                    bound_by_it += usize::from(without.as_ref() != Ok(&found.sequence));
                }
            }
        }
    }
    assert!(proven > 1000 && bound_by_it > 200, "{proven} proven, {bound_by_it} changed by it");
}

#[test]
fn sets_and_legs_agree_within_it_on_fourteen_points() {
    let sets = Effort { exact_up_to: 14, ..Effort::default() };
    for case in 0..12 {
        let (matrix, asked) = (scattered(14, case, 10_000), by_chance(14, case));
        for shape in [Shape::Open, Shape::Closed] {
            let by_sets = order_within(&matrix, shape, &asked, &sets).unwrap();
            let by_legs = order_within(&matrix, shape, &asked, &LONG).unwrap();
            assert!(asked.is_kept(&by_legs.sequence), "case {case}: kept");
            assert!(by_legs.cost >= by_sets.cost, "case {case}, {shape:?}: better than the best");
            assert!(by_legs.bound <= by_sets.cost, "case {case}, {shape:?}: a bound above it");
            let proven = by_legs.method != OrderMethod::Improved;
            assert!(!proven || by_legs.cost == by_sets.cost, "case {case}, {shape:?}: not so");
        }
    }
}

#[test]
fn long_orders_keep_to_it_and_their_bounds_stay_below() {
    for case in 0..4 {
        let (matrix, asked) = (scattered(70, case, 100_000), by_chance(70, case + 20));
        for shape in [Shape::Open, Shape::Closed] {
            let quick = order_within(&matrix, shape, &asked, &SHORT).unwrap();
            let long = order_within(&matrix, shape, &asked, &Effort::default()).unwrap();
            let free = order(&matrix, shape, &[], &Effort::default()).unwrap();
            for found in [&quick, &long] {
                assert!(asked.is_kept(&found.sequence), "case {case}, {shape:?}");
                let mut ends = found.sequence.clone();
                ends.sort_unstable();
                assert!(ends.iter().copied().eq(0..71), "case {case}: every end once");
                assert!(found.bound <= long.cost && free.bound <= found.cost, "case {case}");
            }
            let again = order_within(&matrix, shape, &asked, &SHORT).unwrap();
            assert_eq!(again, quick, "the same every time");
        }
    }
}

#[test]
fn what_contradicts_itself_is_said() {
    let matrix = scattered(4, 1, 100);
    let within = |first: &[usize], last, before: &[(usize, usize)]| {
        let asked = Prescribed { first: first.to_vec(), last, before: before.to_vec() };
        order_within(&matrix, Shape::Open, &asked, &Effort::default()).map(|found| found.sequence)
    };
    assert_eq!(within(&[], None, &[(1, 1)]), Err(NoOrder::Contradiction(1, 1)), "itself");
    assert_eq!(within(&[], None, &[(1, 9)]), Err(NoOrder::Contradiction(1, 9)), "no such end");
    assert_eq!(
        within(&[], None, &[(1, 0)]),
        Err(NoOrder::Contradiction(1, 0)),
        "the board is first"
    );
    assert!(within(&[], None, &[(0, 1)]).is_ok(), "the board comes before all");
    assert!(within(&[], None, &[(1, 2), (2, 1)]).is_err(), "in a circle");
    assert_eq!(within(&[2], None, &[(1, 2)]), Err(NoOrder::Contradiction(1, 2)), "first already");
    assert_eq!(within(&[2], Some(2), &[]), Err(NoOrder::Last(2)), "first and last");
    assert_eq!(within(&[], Some(7), &[]), Err(NoOrder::Last(7)), "no such end");
    assert!(within(&[], Some(1), &[(1, 2)]).is_err(), "last, and yet before another");
    assert_eq!(within(&[2, 1, 4, 3], Some(3), &[(2, 3)]), Ok(vec![0, 2, 1, 4, 3]), "all given");
}

/// Every trunk with every choice of spurs that keeps to it.
fn brute_spurs(
    matrix: &Matrix,
    (shape, asked): (Shape, &Trunk<'_>),
    trunk: &mut Vec<usize>,
    hung: &mut Vec<(usize, usize)>,
) -> i64 {
    let at = trunk[trunk.len() - 1];
    let used = |end: usize| trunk.contains(&end) || hung.iter().any(|(point, _)| *point == end);
    let left: Vec<usize> = (1..matrix.count()).filter(|end| !used(*end)).collect();
    if left.is_empty() {
        // The way from the board to an end: the trunk up to it, or to what feeds it.
        let way = |end: usize| {
            let host = hung.iter().find(|(point, _)| *point == end).map_or(end, |one| one.1);
            let until = trunk.iter().position(|other| *other == host).unwrap();
            trunk[..=until].iter().copied().chain([end]).collect::<Vec<usize>>()
        };
        let kept = asked.before.iter().all(|(a, b)| way(*b).contains(a));
        let back = if shape == Shape::Closed { matrix.weight(at, 0) } else { 0 };
        return if kept { back } else { i64::MAX >> 1 };
    }
    let mut least = i64::MAX >> 1;
    for next in left.iter().copied() {
        let leg = matrix.weight(at, next);
        trunk.push(next);
        least = least.min(leg + brute_spurs(matrix, (shape, asked), trunk, hung));
        for spur in left.iter().copied().filter(|spur| *spur != next) {
            if asked.bare.contains(&spur) || asked.bare.contains(&next) {
                continue;
            }
            hung.push((spur, next));
            let both = leg + matrix.weight(next, spur);
            least = least.min(both + brute_spurs(matrix, (shape, asked), trunk, hung));
            hung.pop();
        }
        trunk.pop();
    }
    least
}

#[test]
fn no_choice_of_spurs_that_keeps_to_it_is_better_up_to_six_points() {
    for case in 0..60 {
        let points = 2 + usize::try_from(case % 5).unwrap();
        let matrix = scattered(points, case, if case % 3 == 0 { 4 } else { 1000 });
        let before = by_chance(points, case).before;
        let bare = [1 + usize::try_from(case).unwrap() % points];
        let bare = if case % 2 == 0 { &bare[..] } else { &[] };
        let asked = Trunk { first: &[], before: &before, bare };
        for shape in [Shape::Open, Shape::Closed] {
            let told = format!("case {case}, {points} points, {shape:?}, {asked:?}");
            let least = brute_spurs(&matrix, (shape, &asked), &mut vec![0], &mut Vec::new());
            let best = hang_within(&matrix, shape, &asked, &Effort::default()).unwrap();
            let least = matrix.distance(least);
            assert_eq!((best.cost, best.length), (least.cost, least.length), "{told}: {best:?}");
            let effort = Effort { exact_up_to: 0, ..Effort::default() };
            let improved = hang_within(&matrix, shape, &asked, &effort).unwrap();
            for hung in [&best, &improved] {
                let way = |end: usize| {
                    let host = hung.spurs.iter().find(|one| one.0 == end).map_or(end, |one| one.1);
                    let until = hung.trunk.iter().position(|other| *other == host).unwrap();
                    (until, hung.trunk[..=until].to_vec())
                };
                let kept = |(a, b): &(usize, usize)| way(*b).1.contains(a);
                assert!(before.iter().all(kept), "{told}: {hung:?}");
                let loose =
                    |(point, from): &(usize, usize)| !bare.contains(point) && !bare.contains(from);
                assert!(hung.spurs.iter().all(loose), "{told}: {hung:?}");
                assert!(hung.cost >= least.cost, "{told}: better than the best");
            }
            let free = hang(&matrix, shape, &[], &Effort::default()).unwrap();
            assert!(free.cost <= best.cost, "{told}: never cheaper");
        }
    }
}

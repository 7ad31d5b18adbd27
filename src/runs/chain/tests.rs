//! Orders against hand-worked values and against every order there is.

use super::dice::Dice;
use super::*;
use crate::runs::Distance;

/// Places on a raster, joined square: cost and length are |dx| + |dy|.
pub(super) fn within(places: &[(i64, i64)]) -> Matrix {
    matrix_of(places.len(), |i, j| {
        let (a, b) = (places[i], places[j]);
        let distance = (a.0 - b.0).abs() + (a.1 - b.1).abs();
        Some((distance, distance))
    })
}

/// Legs by chance, of cost and length below `below`.
pub(super) fn scattered(points: usize, case: u64, below: usize) -> Matrix {
    by_chance(points, case, below, false)
}

/// Legs by chance, a third of which cannot be made.
pub(super) fn with_gaps(points: usize, case: u64) -> Matrix {
    by_chance(points, case, 100, true)
}

fn by_chance(points: usize, case: u64, below: usize, gaps: bool) -> Matrix {
    let mut dice = Dice::new();
    (0..case * 101).for_each(|_| _ = dice.below(2));
    let mut number = || i64::try_from(dice.below(below)).unwrap();
    let count = points + 1;
    let mut below_diagonal = Vec::new();
    for i in 0..count {
        let mut row = Vec::new();
        for _ in 0..i {
            let (cost, length) = (number(), number());
            row.push((!gaps || cost % 3 != 0).then_some((cost, length)));
        }
        below_diagonal.push(row);
    }
    matrix_of(count, |i, j| if i == j { None } else { below_diagonal[i.max(j)][i.min(j)] })
}

fn matrix_of(count: usize, leg: impl Fn(usize, usize) -> Option<(i64, i64)>) -> Matrix {
    let distance = |(cost, length)| Distance { cost: Cost::new(cost), length: Mm::new(length) };
    let rows: Vec<Vec<_>> =
        (0..count).map(|i| (0..count).map(|j| leg(i, j).map(distance)).collect()).collect();
    Matrix::new(&rows).unwrap()
}

/// The least (cost, length) of all orders, one after another, by cost and
/// length apart rather than by weight.
fn brute(matrix: &Matrix, shape: Shape, prefix: &[usize]) -> Option<(i64, i64)> {
    fn go(matrix: &Matrix, shape: Shape, way: &mut Vec<usize>, best: &mut Option<(i64, i64)>) {
        if way.len() == matrix.count() {
            let mut legs: Vec<_> = way.windows(2).map(|p| matrix.leg(p[0], p[1])).collect();
            if shape == Shape::Closed && way.len() > 1 {
                legs.push(matrix.leg(*way.last().unwrap(), 0));
            }
            let sum = legs.into_iter().try_fold((0, 0), |sum, leg| {
                leg.map(|leg| (sum.0 + leg.cost.get(), sum.1 + leg.length.get()))
            });
            if let Some(sum) = sum {
                *best = Some(best.map_or(sum, |best| best.min(sum)));
            }
            return;
        }
        for end in 1..matrix.count() {
            if !way.contains(&end) {
                way.push(end);
                go(matrix, shape, way, best);
                way.pop();
            }
        }
    }
    let mut way = vec![0];
    way.extend(prefix);
    let mut best = None;
    go(matrix, shape, &mut way, &mut best);
    best
}

/// Adds up a sequence leg by leg and asks whether it names every end once.
fn judge(matrix: &Matrix, shape: Shape, ordered: &Ordered) {
    let mut ends = ordered.sequence.clone();
    ends.sort_unstable();
    assert_eq!(ends, (0..matrix.count()).collect::<Vec<_>>(), "every end once");
    assert_eq!(ordered.sequence[0], 0, "from the board");
    let mut legs: Vec<_> = ordered.sequence.windows(2).map(|p| (p[0], p[1])).collect();
    if shape == Shape::Closed {
        legs.push((*ordered.sequence.last().unwrap(), 0));
    }
    let legs = legs.into_iter().filter(|(a, b)| a != b);
    let legs: Vec<_> = legs.map(|(a, b)| matrix.leg(a, b).expect("a leg")).collect();
    assert_eq!(ordered.cost, legs.iter().map(|leg| leg.cost).sum(), "the costs add up");
    assert_eq!(ordered.length, legs.iter().map(|leg| leg.length).sum(), "the lengths add up");
    assert!(ordered.bound <= ordered.cost, "the bound is not above the cost");
}

/// Nothing exact by sets: only what serves longer chains.
const LONG: Effort = Effort { exact_up_to: 0, kicks: 400, ascent_steps: 200, branch_trees: 20_000 };
/// And nothing but improvement and ascent.
const SHORT: Effort = Effort { exact_up_to: 0, kicks: 40, ascent_steps: 100, branch_trees: 0 };

#[test]
fn a_chain_along_a_wall_by_hand() {
    // Board at 5, points at 0, 4, 7 and 20. Ending at 20: 5 to 4 to 0 to 7
    // to 20 is 1 + 4 + 7 + 13 = 25, as is 5 to 0 first; ending at 0: 15 + 20 = 35.
    let matrix = within(&[(5, 0), (0, 0), (4, 0), (7, 0), (20, 0)]);
    for effort in [Effort::default(), LONG, SHORT] {
        let open = order(&matrix, Shape::Open, &[], &effort).unwrap();
        judge(&matrix, Shape::Open, &open);
        assert_eq!(open.cost, Cost::new(25), "once to 0, then to 20");
        let ring = order(&matrix, Shape::Closed, &[], &effort).unwrap();
        judge(&matrix, Shape::Closed, &ring);
        assert_eq!(ring.cost, Cost::new(40), "to both ends and back");
        assert!(ring.sequence[1] < ring.sequence[4], "of the two ways round, a set one");
    }
}

#[test]
fn of_equal_costs_the_shorter_order_is_taken() {
    // All legs cost 10; 0-2-1-3 is the only order of three legs of 1 mm.
    let short = [(0, 2), (1, 2), (1, 3)];
    let matrix =
        matrix_of(4, |i, j| Some((10, if short.contains(&(i.min(j), i.max(j))) { 1 } else { 9 })));
    let ordered = order(&matrix, Shape::Open, &[], &Effort::default()).unwrap();
    assert_eq!(ordered.sequence, [0, 2, 1, 3], "the short legs");
    assert_eq!((ordered.cost, ordered.length), (Cost::new(30), Mm::new(3)), "added up");
}

#[test]
fn nothing_one_point_and_a_prescribed_order() {
    let alone = within(&[(0, 0)]);
    let two = within(&[(0, 0), (7, 0)]);
    for effort in [Effort::default(), LONG, SHORT] {
        for shape in [Shape::Open, Shape::Closed] {
            let none = order(&alone, shape, &[], &effort).unwrap();
            assert_eq!((none.sequence, none.cost), (vec![0], Cost::ZERO), "no points");
            let there_and_back = if shape == Shape::Open { 7 } else { 14 };
            let one = order(&two, shape, &[], &effort).unwrap();
            assert_eq!((one.cost, one.bound), (Cost::new(there_and_back), one.cost), "one point");
            assert_ne!(one.method, OrderMethod::Improved, "proven");
            let fixed = order(&two, shape, &[1], &effort).unwrap();
            assert_eq!((fixed.cost, fixed.bound), (one.cost, one.cost), "the same");
            assert_eq!(fixed.method, OrderMethod::Fixed, "as prescribed");
        }
    }
}

#[test]
fn a_wrong_beginning_is_said() {
    let matrix = matrix_of(4, |i, j| (i + j != 3).then_some((1, 1)));
    let with = |prefix: &[usize]| order(&matrix, Shape::Open, prefix, &Effort::default());
    assert_eq!(with(&[0]), Err(NoOrder::Prefix(0)), "the board");
    assert_eq!(with(&[1, 1]), Err(NoOrder::Prefix(1)), "twice");
    assert_eq!(with(&[4]), Err(NoOrder::Prefix(4)), "no such end");
    assert_eq!(with(&[3]), Err(NoOrder::Prescribed(0, 3)), "no such leg");
    let ring = order(&matrix, Shape::Closed, &[2, 3], &Effort::default()).unwrap();
    assert_eq!(ring.sequence, [0, 2, 3, 1], "1 is left and joins both");
    let back = order(&matrix, Shape::Closed, &[1, 3], &Effort::default()).unwrap();
    assert_eq!(back.sequence, [0, 1, 3, 2], "2 joins both");
    let shut = order(&matrix, Shape::Closed, &[2, 1, 3], &Effort::default());
    assert_eq!(shut, Err(NoOrder::Prescribed(2, 1)), "no leg between 1 and 2");
}

#[test]
fn no_order_is_better_up_to_seven_points() {
    for case in 0..40 {
        for points in 1..=5 + usize::from(case < 8) + usize::from(case < 4) {
            let matrix = match case % 4 {
                0 => scattered(points, case, 1000),
                1 => scattered(points, case, 4),
                2 => scattered(points, case, 1),
                _ => with_gaps(points, case),
            };
            for shape in [Shape::Open, Shape::Closed] {
                let prefix: &[usize] = if case % 5 == 0 && points > 2 { &[2] } else { &[] };
                if prefix.iter().any(|end| matrix.leg(0, *end).is_none()) {
                    continue;
                }
                let best = brute(&matrix, shape, prefix);
                let told = format!("case {case}, {points} points, {shape:?}");
                for effort in [Effort::default(), LONG, SHORT] {
                    compare(&matrix, shape, prefix, &effort, best, &told);
                }
            }
        }
    }
}

fn compare(
    matrix: &Matrix,
    shape: Shape,
    prefix: &[usize],
    effort: &Effort,
    best: Option<(i64, i64)>,
    told: &str,
) {
    let result = order(matrix, shape, prefix, effort);
    let Some((cost, length)) = best else {
        let error = result.unwrap_err();
        let sure = effort.exact_up_to > 0 || effort.branch_trees > 0;
        assert!(error == NoOrder::NoneExists || (!sure && error == NoOrder::NoneFound), "{told}");
        return;
    };
    let ordered = match result {
        Ok(ordered) => ordered,
        Err(NoOrder::NoneFound) if *effort == SHORT => return,
        Err(error) => panic!("{told}: {error}"),
    };
    judge(matrix, shape, &ordered);
    assert!(ordered.sequence[1..].starts_with(prefix), "{told}: as prescribed");
    assert!(ordered.bound.get() <= cost, "{told}: a bound above the best order");
    assert!(ordered.cost.get() >= cost, "{told}: better than the best");
    if ordered.method == OrderMethod::Improved {
        assert!(*effort == SHORT, "{told}: left open");
    } else {
        assert_eq!((ordered.cost.get(), ordered.bound.get()), (cost, cost), "{told}: proven");
    }
    if effort.exact_up_to > 0 {
        assert_eq!(ordered.length.get(), length, "{told}: the shortest of them");
    }
}

#[test]
fn sets_and_legs_agree_on_fourteen_points() {
    let sets = Effort { exact_up_to: 14, ..Effort::default() };
    for case in 0..12 {
        for shape in [Shape::Open, Shape::Closed] {
            for matrix in [scattered(14, case, 10_000), with_gaps(14, case)] {
                let by_sets = order(&matrix, shape, &[], &sets).unwrap();
                let by_legs = order(&matrix, shape, &[], &LONG).unwrap();
                judge(&matrix, shape, &by_legs);
                assert_eq!(by_legs.cost, by_sets.cost, "case {case}, {shape:?}");
                assert_eq!(by_legs.bound, by_sets.cost, "case {case}, {shape:?}: closed");
            }
        }
    }
}

#[test]
fn a_bound_stays_below_what_a_longer_search_finds() {
    for case in 0..3 {
        for shape in [Shape::Open, Shape::Closed] {
            let matrix = scattered(70, case, 100_000);
            let quick = order(&matrix, shape, &[], &SHORT).unwrap();
            let long = order(&matrix, shape, &[], &Effort::default()).unwrap();
            judge(&matrix, shape, &quick);
            judge(&matrix, shape, &long);
            assert!(quick.bound <= long.cost, "case {case}, {shape:?}");
            assert!(long.cost <= quick.cost, "more steps, never worse");
            let again = order(&matrix, shape, &[], &SHORT).unwrap();
            assert_eq!(again, quick, "the same every time");
        }
    }
}

#[test]
fn two_houses_without_a_leg_between_them_have_no_order() {
    let matrix = matrix_of(20, |i, j| ((i < 10) == (j < 10)).then_some((1, 1)));
    for effort in [Effort::default(), LONG, SHORT] {
        for shape in [Shape::Open, Shape::Closed] {
            assert_eq!(order(&matrix, shape, &[], &effort), Err(NoOrder::NoneExists), "no leg");
        }
    }
    // A star: joined, but no chain.
    let star = matrix_of(20, |i, j| (i == 1 || j == 1).then_some((1, 1)));
    assert_eq!(order(&star, Shape::Open, &[], &LONG), Err(NoOrder::NoneExists), "a star");
}

#[test]
fn missing_legs_add_up_at_the_edge_of_the_domain() {
    // Two rows of points, most legs missing: as dear as the domain allows.
    let sparse = |cost: i64| -> Vec<Vec<Option<Distance>>> {
        let leg = |i: usize, j: usize| {
            (i.abs_diff(j) == 7).then_some(Distance { cost: Cost::new(cost), length: Mm::ZERO })
        };
        (0..100).map(|i| (0..100).map(|j| leg(i, j)).collect()).collect()
    };
    let largest = (0..62).rev().find(|bits| Matrix::new(&sparse(1 << bits)).is_ok()).unwrap();
    let matrix = Matrix::new(&sparse(1 << largest)).unwrap();
    for effort in [LONG, SHORT] {
        assert_eq!(order(&matrix, Shape::Open, &[], &effort), Err(NoOrder::NoneExists), "rows");
    }
}

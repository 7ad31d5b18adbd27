//! Lengths beside each other, worked by hand (*common practice*).

use super::*;
use crate::plan::{CircuitId, End, PointId};
use crate::runs::{Heading, Leg, LegRole, Order, OrderMethod, Route, Run, Surrounding};
use crate::units::{Cost, Mm, Point3};

/// From and to along `x`, and where across.
type Line = (i64, i64, i64);

fn segment((from, to, y): Line) -> Segment {
    Segment {
        from: Point3::new(from, y, 2400),
        to: Point3::new(to, y, 2400),
        length: Mm::new(to - from),
        plane: None,
        heading: Heading::AlongJoists,
        through: Surrounding::RoofSpace,
        insulation: Mm::ZERO,
        beside: 0,
    }
}

fn leg(lines: &[Line]) -> Leg {
    let end = End::Point(PointId(1));
    let segments: Vec<Segment> = lines.iter().map(|line| segment(*line)).collect();
    let length = segments.iter().map(|segment| segment.length).sum();
    let route = Route { segments, cost: Cost::ZERO, length };
    let (circuit, role) = (CircuitId(1), LegRole::Feed);
    Leg { circuit, number: 1, role, from: end, to: end, cable: None, route }
}

/// How many others lie beside each segment of each of these legs.
fn beside(legs: &[&[Line]]) -> Vec<Vec<u32>> {
    let order = Order {
        ends: Vec::new(),
        cost: Cost::ZERO,
        bound: Cost::ZERO,
        method: OrderMethod::Fixed,
        matrix: Vec::new(),
        matrix_ends: Vec::new(),
    };
    let legs = legs.iter().map(|lines| leg(lines)).collect();
    let mut runs = Runs::default();
    runs.circuits.insert(CircuitId(1), Run { legs, order });
    count(&mut runs);
    let legs = &runs.circuits[&CircuitId(1)].legs;
    let of = |leg: &Leg| leg.route.segments.iter().map(|segment| segment.beside).collect();
    legs.iter().map(of).collect()
}

#[test]
fn who_lies_beside_for_more_than_a_third_counts() {
    // A third of 9 m is 3 m; the shorter one is beside the longer all the way.
    for (other, counts) in [
        ((0, 3000, 0), 0),
        ((0, 3001, 0), 1),
        ((6000, 9000, 0), 0),
        ((5999, 9000, 0), 1),
        ((3000, 6001, 0), 1),
        ((0, 9000, 0), 1),
    ] {
        let counted = beside(&[&[(0, 9000, 0)], &[other]]);
        assert_eq!(counted, [[counts], [1]], "{other:?} beside 0 to 9000");
    }
    // Each is measured by its own length: a third of 9 m overlaps, and all
    // but that lies beyond the end of the other.
    assert_eq!(beside(&[&[(0, 9000, 0)], &[(5999, 18_000, 0)]]), [[1], [0]]);
}

#[test]
fn who_lies_sixty_millimetres_aside_counts_and_no_further() {
    for (y, counts) in [(60, 1), (-60, 1), (61, 0), (-61, 0)] {
        assert_eq!(beside(&[&[(0, 9000, 0)], &[(0, 9000, y)]]), [[counts]; 2], "{y} mm aside");
    }
}

#[test]
fn a_leg_counts_once_and_never_beside_itself() {
    let there_and_back = beside(&[&[(0, 9000, 0), (0, 9000, 30)], &[(0, 9000, 40)]]);
    assert_eq!(there_and_back, [vec![1, 1], vec![1]]);
}

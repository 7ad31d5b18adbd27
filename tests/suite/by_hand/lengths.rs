//! What is added to a leg, worked by hand; each allowance is the plan's own
//! figure (*common practice*).

use wirewend::lengths::{LegLength, measure};
use wirewend::plan::{CircuitUse, Curve, End, Plane, PointKind, Regime, VoidId, WallId};
use wirewend::runs::{LegRole, Surrounding};
use wirewend::units::Mm;

use super::{one_leg, segments};
use crate::wired::{BOARD, Wired};

const IN_WALL: (Surrounding, Plane) = (Surrounding::HollowWall, Plane::Wall(WallId(7)));
const IN_VOID: (Surrounding, Plane) = (Surrounding::RoofSpace, Plane::Void(VoidId(8)));

/// Two sockets in a row, 10 m and 4 m on the surface, the first with a tail of
/// its own or without. Nothing is rounded, the pull is 50 ‰.
fn two_sockets(tail: Option<i64>) -> Vec<LegLength> {
    let mut wired = Wired::new(Regime::IEC);
    wired.plan.allowances.step = Mm::new(1);
    let circuit = wired.circuit(CircuitUse::Sockets, 2.5, 16.0, Curve::B);
    let ends = wired.chain(circuit, PointKind::Socket, &[10_000, 4000]);
    let End::Point(first) = ends[0] else { panic!("a point") };
    wired.plan.points[&first].tail = tail.map(Mm::new);
    measure(&wired.plan, &wired.runs).circuits[&circuit].to_vec()
}

#[test]
fn the_tail_of_a_point_goes_before_the_tail_of_its_kind() {
    // 10 000 + 500 pull + 1500 at the board + 300 at a box on a wall; from box
    // to box 4000 + 200 + 300 + 300. With 450 or nothing left at the first box
    // both ends there differ, and no other.
    for (tail, left, cuts) in [
        (None, 300, [12_300, 4800]),
        (Some(450), 450, [12_450, 4950]),
        (Some(0), 0, [12_000, 4500]),
    ] {
        let legs = two_sockets(tail);
        let told = |leg: &LegLength| leg.cut.value.get();
        assert_eq!([told(&legs[0]), told(&legs[1])], cuts, "a tail of {tail:?}");
        let tails = legs.iter().flat_map(|leg| [leg.tail_from, leg.tail_to]).map(Mm::get);
        assert_eq!(tails.collect::<Vec<_>>(), [1500, left, left, 300], "a tail of {tail:?}");
    }
}

/// The length along the way of a leg of these stretches of a metre each, where
/// half a metre is left in every void; nothing for pull and plates.
fn along(stretches: &[(Surrounding, Plane)]) -> i64 {
    let mut wired = Wired::new(Regime::IEC);
    let allowances = &mut wired.plan.allowances;
    (allowances.void_loop, allowances.pull_permille) = (Mm::new(500), 0);
    allowances.turn_over = Mm::ZERO;
    let way: Vec<_> = stretches.iter().map(|(through, _)| (*through, 1000, 0, 0)).collect();
    let circuit = one_leg(&mut wired, (PointKind::Heater, 1000.0), (2.5, 16.0), &way);
    let laid = segments(&mut wired, circuit, 0).iter_mut().zip(stretches);
    laid.for_each(|(segment, (_, plane))| segment.plane = Some(*plane));
    measure(&wired.plan, &wired.runs).circuits[&circuit][0].route.value.get()
}

#[test]
fn a_loop_is_left_in_a_void_and_nowhere_else() {
    assert_eq!(along(&[IN_WALL, IN_WALL]), 2000, "no void is crossed");
    assert_eq!(along(&[IN_WALL, IN_VOID, IN_WALL]), 3500, "a void is");
    assert_eq!(along(&[IN_VOID]), 1500, "nothing but a void");
    let twice = [IN_WALL, IN_VOID, IN_VOID, IN_WALL, IN_VOID];
    assert_eq!(along(&twice), 5500, "one loop to a leg");
}

#[test]
fn a_leg_on_no_plane_has_no_loop() {
    let mut wired = Wired::new(Regime::IEC);
    wired.plan.allowances.void_loop = Mm::new(500);
    wired.plan.allowances.pull_permille = 0;
    let circuit = wired.circuit(CircuitUse::Fixed, 2.5, 16.0, Curve::B);
    let lamp = wired.point(circuit, PointKind::WallLight, None);
    wired.leg(circuit, LegRole::Feed, BOARD, lamp, &[(Surrounding::Post, 2500, 0, 0)]);
    let lengths = measure(&wired.plan, &wired.runs);
    assert_eq!(lengths.circuits[&circuit][0].route.value, Mm::new(2500), "up a post");
}

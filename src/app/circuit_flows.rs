//! Flows about circuits, legs and pins without a window.

use wirewend::plan::{CircuitId, PointKind};
use wirewend::units::Mm;

use super::camera::exact;
use super::circuits::standing;
use super::desk::Desk;
use super::flows::{at, settle, wired};
use super::habit_flows::choose;
use super::keys::{Step, Tool};

fn open(desk: &mut Desk) -> CircuitId {
    desk.next_circuit(true);
    settle(desk);
    desk.circuit.expect("the first circuit")
}

#[test]
fn an_order_can_be_kept_turned_round_and_freed() {
    let mut desk = wired();
    let id = open(&mut desk);
    let best = desk.order_now(id).expect("an order");
    assert_eq!(best.len(), 3, "three sockets");
    let standing =
        |desk: &Desk| standing(&desk.picture.as_ref().expect("computed").runs.circuits[&id]);
    assert_eq!(standing(&desk), "best order");
    desk.reverse();
    settle(&mut desk);
    let turned = desk.order_now(id).expect("an order");
    assert!(turned.iter().eq(best.iter().rev()), "{turned:?}");
    assert_eq!(standing(&desk), "order set by hand");
    desk.keep_order();
    settle(&mut desk);
    assert_eq!(desk.order_now(id), Some(best.clone()), "free again: {}", desk.said);
    desk.keep_order();
    assert_eq!(desk.plan.circuits[&id].order, best, "kept as it is");
    desk.undo();
    assert!(desk.plan.circuits[&id].order.is_empty(), "undone");
}

#[test]
fn a_leg_is_pinned_to_a_place_and_goes_through_it() {
    let mut desk = wired();
    desk.step = Step::Runs;
    let id = open(&mut desk);
    desk.next_leg(true);
    let leg = desk.at_hand.leg.expect("the first leg");
    assert_eq!(leg.circuit, id, "of the open circuit");
    let cut = |desk: &Desk| -> Mm {
        desk.picture.as_ref().expect("computed").lengths.circuits[&id][0].cut.value
    };
    let before = cut(&desk);
    desk.tool = Tool::Pin;
    desk.press(at(4000.0, 1000.0), false);
    assert_eq!(desk.plan.circuits[&id].pins.len(), 1, "{}", desk.said);
    settle(&mut desk);
    let picture = desk.picture.clone().expect("computed");
    let (index, run) = desk.chosen_leg(&picture).expect("the same leg is there still");
    assert_eq!(index, 0, "the order stays");
    let passes = run.route.segments.iter().any(|part| {
        [part.from, part.to]
            .iter()
            .any(|at| at.on_floor() == wirewend::units::Point2::new(4000, 1000))
    });
    assert!(passes, "through the pin: {:?}", run.route.segments);
    assert!(cut(&desk) > before, "a detour");
    desk.unpin();
    settle(&mut desk);
    assert!(desk.plan.circuits[&id].pins.is_empty(), "{}", desk.said);
    assert_eq!(cut(&desk), before, "as before");
    desk.undo();
    desk.undo();
    assert!(desk.plan.circuits[&id].order.is_empty(), "all undone");
}

#[test]
fn a_leg_is_chosen_by_a_click_on_it() {
    let mut desk = wired();
    desk.step = Step::Runs;
    desk.tool = Tool::Hand;
    settle(&mut desk);
    let picture = desk.picture.clone().expect("computed");
    let run = picture.runs.circuits.values().next().expect("a circuit");
    let leg = &run.legs[0];
    let part = leg.route.segments.iter().max_by_key(|part| part.length).expect("a part");
    let middle = exact(part.from.on_floor()).midpoint(exact(part.to.on_floor()));
    desk.press(middle, false);
    assert_eq!(desk.at_hand.leg, Some(super::at_hand::LegKey::of(leg)), "{}", desk.said);
}

#[test]
fn points_go_onto_the_open_circuit_by_key() {
    let mut desk = wired();
    let id = open(&mut desk);
    let light = desk.plan.points.iter().find(|(_, one)| one.kind == PointKind::Luminaire);
    let light = *light.expect("a light").0;
    choose(&mut desk, &[light]);
    desk.put_on(id);
    assert_eq!(desk.plan.points[&light].circuit, Some(id), "{}", desk.said);
    desk.put_on(id);
    assert!(desk.said.contains("already"), "{}", desk.said);
    desk.undo();
    assert_ne!(desk.plan.points[&light].circuit, Some(id), "undone");
}

#[test]
fn a_pin_is_dragged_nudged_and_taken_away() {
    let mut desk = wired();
    desk.step = Step::Runs;
    let id = open(&mut desk);
    desk.next_leg(true);
    desk.tool = Tool::Pin;
    desk.press(at(4000.0, 1000.0), false);
    desk.press(at(2000.0, 1000.0), false);
    desk.tool = Tool::Hand;
    settle(&mut desk);
    let pins = |desk: &Desk| -> Vec<(i64, i64)> {
        let pins = desk.plan.circuits[&id].pins.iter().flat_map(|pin| &pin.through);
        pins.map(|place| (place.at.x.get(), place.at.y.get())).collect()
    };
    assert_eq!(pins(&desk), [(2000, 1000), (4000, 1000)], "{}", desk.said);
    desk.press(at(4010.0, 1010.0), false);
    assert!(desk.drags(), "it is in the hand");
    desk.hover(at(4210.0, 1490.0));
    assert!(desk.due().is_some(), "its leg follows");
    desk.release();
    assert_eq!(pins(&desk), [(2000, 1000), (4200, 1500)], "{}", desk.said);
    assert!(desk.nudge_pin(kurbo::Vec2::new(50.0, 0.0)), "it stays chosen");
    assert_eq!(pins(&desk), [(2000, 1000), (4250, 1500)]);
    desk.next_pin();
    assert!(desk.at_hand.pin.is_some_and(|pin| pin.at.x == Mm::new(2000)), "by key");
    desk.delete();
    assert_eq!(pins(&desk), [(4250, 1500)], "only that one: {}", desk.said);
    desk.next_pin();
    desk.delete();
    assert!(desk.plan.circuits[&id].pins.is_empty(), "no leg without a place is left");
    for _ in 0..4 {
        desk.undo();
    }
    assert_eq!(pins(&desk), [(2000, 1000), (4000, 1000)], "each was one step");
}

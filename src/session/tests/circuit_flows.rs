//! Flows about circuits, legs and pins without a window.

use crate::plan::{CircuitId, PointKind};
use crate::session::Session;
use crate::session::circuits::standing;
use crate::session::ground::places::exact;
use crate::session::state::{Step, Tool};
use crate::session::tests::flows::{at, settle, wired};
use crate::session::tests::habit_flows::choose;
use crate::units::Mm;

fn open(session: &mut Session) -> CircuitId {
    session.next_circuit(true);
    settle(session);
    session.selection.circuit().expect("the first circuit")
}

#[test]
fn an_order_can_be_kept_turned_round_and_freed() {
    let mut session = wired();
    let id = open(&mut session);
    let best = session.order_now(id).expect("an order");
    assert_eq!(best.len(), 3, "three sockets");
    let standing =
        |session: &Session| standing(&session.jobs.picture().expect("computed").runs.circuits[&id]);
    assert_eq!(standing(&session), "best order");
    session.reverse();
    settle(&mut session);
    let turned = session.order_now(id).expect("an order");
    assert!(turned.iter().eq(best.iter().rev()), "{turned:?}");
    assert_eq!(standing(&session), "order set by hand");
    session.keep_order();
    settle(&mut session);
    assert_eq!(session.order_now(id), Some(best.clone()), "free again: {}", session.said);
    session.keep_order();
    assert_eq!(session.document.plan().circuits[&id].order, best, "kept as it is");
    session.undo();
    assert!(session.document.plan().circuits[&id].order.is_empty(), "undone");
}

#[test]
fn a_leg_is_pinned_to_a_place_and_goes_through_it() {
    let mut session = wired();
    session.sight.open_step(Step::Runs);
    let id = open(&mut session);
    session.next_leg(true);
    let leg = session.selection.leg().expect("the first leg");
    assert_eq!(leg.circuit, id, "of the open circuit");
    let cut = |session: &Session| -> Mm {
        session.jobs.picture().expect("computed").lengths.circuits[&id][0].cut.value
    };
    let before = cut(&session);
    session.hand.change(Tool::Pin);
    session.press(at(4000.0, 1000.0), false);
    assert_eq!(session.document.plan().circuits[&id].pins.len(), 1, "{}", session.said);
    settle(&mut session);
    let picture = session.jobs.picture().cloned().expect("computed");
    let (index, run) = session.chosen_leg(&picture).expect("the same leg is there still");
    assert_eq!(index, 0, "the order stays");
    let passes = run.route.segments.iter().any(|part| {
        [part.from, part.to].iter().any(|at| at.on_floor() == crate::units::Point2::new(4000, 1000))
    });
    assert!(passes, "through the pin: {:?}", run.route.segments);
    assert!(cut(&session) > before, "a detour");
    session.unpin();
    settle(&mut session);
    assert!(session.document.plan().circuits[&id].pins.is_empty(), "{}", session.said);
    assert_eq!(cut(&session), before, "as before");
    session.undo();
    session.undo();
    assert!(session.document.plan().circuits[&id].order.is_empty(), "all undone");
}

#[test]
fn a_leg_is_chosen_by_a_click_on_it() {
    let mut session = wired();
    session.sight.open_step(Step::Runs);
    session.hand.change(Tool::Hand);
    settle(&mut session);
    let picture = session.jobs.picture().cloned().expect("computed");
    let run = picture.runs.circuits.values().next().expect("a circuit");
    let leg = &run.legs[0];
    let part = leg.route.segments.iter().max_by_key(|part| part.length).expect("a part");
    let middle = exact(part.from.on_floor()).midpoint(exact(part.to.on_floor()));
    session.press(middle, false);
    assert_eq!(
        session.selection.leg(),
        Some(crate::session::state::LegKey::of(leg)),
        "{}",
        session.said
    );
}

#[test]
fn points_go_onto_the_open_circuit_by_key() {
    let mut session = wired();
    let id = open(&mut session);
    let light =
        session.document.plan().points.iter().find(|(_, one)| one.kind == PointKind::Luminaire);
    let light = *light.expect("a light").0;
    choose(&mut session, &[light]);
    session.put_on(id);
    assert_eq!(session.document.plan().points[&light].circuit, Some(id), "{}", session.said);
    session.put_on(id);
    assert!(session.said.contains("already"), "{}", session.said);
    session.undo();
    assert_ne!(session.document.plan().points[&light].circuit, Some(id), "undone");
}

#[test]
fn a_pin_is_dragged_nudged_and_taken_away() {
    let mut session = wired();
    session.sight.open_step(Step::Runs);
    let id = open(&mut session);
    session.next_leg(true);
    session.hand.change(Tool::Pin);
    session.press(at(4000.0, 1000.0), false);
    session.press(at(2000.0, 1000.0), false);
    session.hand.change(Tool::Hand);
    settle(&mut session);
    let pins = |session: &Session| -> Vec<(i64, i64)> {
        let pins = session.document.plan().circuits[&id].pins.iter().flat_map(|pin| &pin.through);
        pins.map(|place| (place.at.x.get(), place.at.y.get())).collect()
    };
    assert_eq!(pins(&session), [(2000, 1000), (4000, 1000)], "{}", session.said);
    session.press(at(4010.0, 1010.0), false);
    assert!(session.hand.drags(), "it is in the hand");
    session.hover(at(4210.0, 1490.0));
    assert!(session.due().is_some(), "its leg follows");
    session.release();
    assert_eq!(pins(&session), [(2000, 1000), (4200, 1500)], "{}", session.said);
    assert!(session.nudge_pin(kurbo::Vec2::new(50.0, 0.0)), "it stays chosen");
    assert_eq!(pins(&session), [(2000, 1000), (4250, 1500)]);
    session.next_pin();
    assert!(session.selection.pin().is_some_and(|pin| pin.at.x == Mm::new(2000)), "by key");
    session.delete();
    assert_eq!(pins(&session), [(4250, 1500)], "only that one: {}", session.said);
    session.next_pin();
    session.delete();
    assert!(
        session.document.plan().circuits[&id].pins.is_empty(),
        "no leg without a place is left"
    );
    for _ in 0..4 {
        session.undo();
    }
    assert_eq!(pins(&session), [(2000, 1000), (4000, 1000)], "each was one step");
}

//! The feed goes once to each of its points, joined as the wiring says, in the
//! order that the electrician set.

use wirewend::plan::{End, PointId, Wiring};
use wirewend::runs::{Leg, LegRole};

use super::complaint::{Code, Complaints};
use super::walk::Case;

pub(crate) fn judge(case: &Case, book: &mut Complaints) {
    judge_visits(case, book);
    judge_shape(case, book);
    judge_ring(case, book);
    judge_fixed_order(case, book);
}

/// No point is fed twice, by the feed or by a spur.
fn judge_visits(case: &Case, book: &mut Complaints) {
    let spurs = case.legs(LegRole::Spur).map(|leg| leg.to);
    let mut fed: Vec<End> = case.run.order.ends.iter().copied().chain(spurs).collect();
    fed.sort();
    for pair in fed.windows(2).filter(|pair| pair[0] == pair[1]) {
        book.circuit(Code::Visits, case.id, format!("{} is fed twice", pair[0]));
    }
}

/// The legs of the feed are those that its order and its wiring make.
fn judge_shape(case: &Case, book: &mut Complaints) {
    let ends = &case.run.order.ends;
    let board = case.circuit.board.map(End::Board);
    if ends.first().is_some_and(|first| Some(*first) != board) {
        book.circuit(Code::Shape, case.id, format!("the order begins at {}", ends[0]));
        return;
    }
    let legs: Vec<&Leg> = case.feed().filter(|leg| leg.role != LegRole::RingReturn).collect();
    let wanted: Vec<(End, End)> = if case.circuit.wiring == Wiring::Single {
        ends.iter().skip(1).map(|end| (ends[0], *end)).collect()
    } else {
        ends.windows(2).map(|pair| (pair[0], pair[1])).collect()
    };
    let made: Vec<(End, End)> = legs.iter().map(|leg| (leg.from, leg.to)).collect();
    if made != wanted {
        let text = format!("the feed goes {}, its order wants {}", words(&made), words(&wanted));
        book.circuit(Code::Shape, case.id, text);
    }
}

fn words(legs: &[(End, End)]) -> String {
    legs.iter().map(|(from, to)| format!("{from}-{to}")).collect::<Vec<_>>().join(" ")
}

/// A ring has one return, its last leg, from its last point to its board;
/// anything else has none.
fn judge_ring(case: &Case, book: &mut Complaints) {
    let ends = &case.run.order.ends;
    let returns = case.legs(LegRole::RingReturn).count();
    let closed = case.feed().last().is_some_and(|leg| {
        leg.role == LegRole::RingReturn
            && ends.last().is_some_and(|last| {
                [(leg.from, leg.to), (leg.to, leg.from)].contains(&(*last, ends[0]))
            })
    });
    let fits = if case.circuit.wiring == Wiring::Ring && ends.len() > 1 {
        returns == 1 && closed
    } else {
        returns == 0
    };
    if !fits {
        let text = format!("{returns} returns in a {:?}", case.circuit.wiring);
        book.circuit(Code::Ring, case.id, text);
    }
}

/// The points that were given an order come first, in that order.
fn judge_fixed_order(case: &Case, book: &mut Complaints) {
    let ends = &case.run.order.ends;
    let wanted: Vec<PointId> = case
        .circuit
        .order
        .iter()
        .copied()
        .filter(|point| ends.contains(&End::Point(*point)))
        .collect();
    let made = ends.iter().skip(1).take(wanted.len());
    if !made.eq(wanted.iter().map(|point| End::Point(*point)).collect::<Vec<_>>().iter()) {
        book.circuit(Code::FixedOrder, case.id, format!("{ends:?} does not begin with {wanted:?}"));
    }
}

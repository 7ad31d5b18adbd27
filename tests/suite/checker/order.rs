//! The cost of an order is that of its legs, its bound lies below, and what is
//! said to be best is shown to be.

use wirewend::plan::Wiring;
use wirewend::runs::{LegRole, OrderMethod};
use wirewend::units::Cost;

use super::complaint::{Code, Complaints};
use super::walk::Case;

pub(crate) fn judge(case: &Case, book: &mut Complaints) {
    let order = &case.run.order;
    let feed: Cost = case.feed().map(|leg| leg.route.cost).sum();
    let spurs: Cost = case.legs(LegRole::Spur).map(|leg| leg.route.cost).sum();
    // An order weighed together with its spurs may count them.
    if order.cost != feed && order.cost != feed + spurs {
        let text = format!("says {}, its legs cost {feed}", order.cost);
        book.circuit(Code::OrderCost, case.id, text);
    }
    if order.bound > order.cost || order.bound < Cost::ZERO {
        let text = format!("{} for a cost of {}", order.bound, order.cost);
        book.circuit(Code::Bound, case.id, text);
    }
    judge_proof(case, book);
}

fn judge_proof(case: &Case, book: &mut Complaints) {
    let order = &case.run.order;
    let proven = matches!(order.method, OrderMethod::Exact | OrderMethod::Proven);
    let gap = order.gap_permille();
    if proven && order.bound < order.cost {
        let text = format!("{:?} with {gap} ‰ left open", order.method);
        book.circuit(Code::Proof, case.id, text);
    }
    let free = case.circuit.wiring != Wiring::Single && order.ends.len() > 2;
    if order.method == OrderMethod::Fixed && case.circuit.order.is_empty() && free {
        book.circuit(Code::Proof, case.id, "fixed, but nobody set an order");
    }
}

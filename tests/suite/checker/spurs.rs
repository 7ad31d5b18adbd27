//! Spurs hang off the feed, where they were asked for or where the wiring lets
//! them, or behind the isolating switch that cuts them off.

use wirewend::plan::{End, Wiring};
use wirewend::runs::LegRole;

use super::complaint::{Code, Complaints};
use super::isolators::hangs_behind;
use super::walk::Case;

pub(crate) fn judge(case: &Case, book: &mut Complaints) {
    for spur in &case.circuit.spurs {
        let to = End::Point(spur.point);
        let made = case.legs(LegRole::Spur).any(|leg| leg.from == spur.from && leg.to == to);
        // A finding about the point says why it hangs elsewhere.
        let said = case.excused(spur.point);
        if !made && case.reaches(to) && !said {
            let text = format!("{to} is no spur off {}", spur.from);
            book.circuit(Code::Spur, case.id, text);
        }
    }
    for leg in case.legs(LegRole::Spur).filter(|leg| !hangs_behind(case, leg)) {
        let asked = case
            .circuit
            .spurs
            .iter()
            .any(|spur| End::Point(spur.point) == leg.to && spur.from == leg.from);
        // The board is there even where nothing but spurs hangs off it.
        let own_board = case.circuit.board.map(End::Board) == Some(leg.from);
        if !own_board && !case.run.order.ends.contains(&leg.from) {
            book.leg(Code::Spur, leg, format!("hangs off {}, which is not on the feed", leg.from));
        } else if !asked && case.circuit.wiring != Wiring::ChainWithSpurs {
            book.leg(Code::Spur, leg, format!("nobody asked for a spur to {}", leg.to));
        }
    }
}

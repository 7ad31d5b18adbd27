//! Whether every point of a circuit is joined to its board.
//!
//! **Looks at** points that no leg reaches, and legs that hang loose or close
//! a second ring. **Matters** because what is not joined is not checked.
//! **Example:** a socket drawn after the circuit was routed. **Remedy:** place
//! it, open a way to it, or take it off the circuit. **Source:** none.

use super::super::context::Case;
use crate::plan::{End, Finding, Severity, Subject};

const CODE: &str = "point-not-joined";

pub(super) fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (id, point) in &case.points {
        let end = End::Point(*id);
        if point.place.is_none() || case.network.as_ref().is_some_and(|n| n.node(end).is_some()) {
            continue;
        }
        let message = format!(
            "{} is on {} but no leg reaches it, so nothing about it is checked",
            case.house.label(end),
            case.name()
        );
        let remedy = "open a way to it, or take it off the circuit";
        let mut finding =
            Finding::new(CODE, Severity::Missing, Subject::Point(*id), message, remedy);
        finding.place = case.house.place(end);
        findings.push(finding);
    }
    for leg in case.network.iter().flat_map(|network| &network.loose) {
        let of = &case.legs()[*leg];
        let message = format!(
            "{} of {} is not part of a chain or of one ring: it is left out of the figures",
            case.leg_name(*leg),
            case.name()
        );
        let subject = Subject::Leg { circuit: case.id, from: of.from, to: of.to };
        let remedy = "join it to the board, or leave it out";
        findings.push(Finding::new(CODE, Severity::Missing, subject, message, remedy));
    }
}

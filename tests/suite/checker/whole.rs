//! Every circuit has its run, every placed point is reached or spoken of, and
//! no leg strays to another circuit.

use wirewend::plan::{CircuitId, End, Plan};
use wirewend::runs::{Leg, Runs};

use super::complaint::{Code, Complaints};
use super::walk::Case;

pub(crate) fn judge(plan: &Plan, runs: &Runs, book: &mut Complaints) {
    if !plan.circuits.keys().eq(runs.circuits.keys()) {
        let text = format!("{:?} for {:?}", runs.circuits.keys(), plan.circuits.keys());
        book.plan(Code::RunMissing, text);
    }
    for case in Case::all(plan, runs) {
        judge_points(&case, book);
        for leg in &case.run.legs {
            judge_leg(plan, case.id, leg, book);
        }
    }
}

fn judge_points(case: &Case, book: &mut Complaints) {
    let points = case.plan.points.iter().filter(|(_, point)| point.circuit == Some(case.id));
    for (id, point) in points {
        if case.placed(*id) && !case.reaches(End::Point(*id)) && !case.excused(*id) {
            let text = format!("{id}, a {}, is not reached", point.kind.name());
            book.circuit(Code::PointMissed, case.id, text);
        }
    }
}

/// A leg says which circuit it belongs to and ends at its points and its board
/// only. Switches that name no circuit go with the lights they work.
fn judge_leg(plan: &Plan, id: CircuitId, leg: &Leg, book: &mut Complaints) {
    let board = plan.circuits.get(&id).and_then(|circuit| circuit.board);
    let own = |end: End| match end {
        End::Board(end) => Some(end) == board,
        End::Point(point) => {
            let found = plan.points.get(&point);
            let worked = plan.controls.values().any(|control| control.switches.contains(&point));
            found.is_some_and(|found| {
                found.circuit == Some(id) || (found.circuit.is_none() && worked)
            })
        }
    };
    if leg.circuit != id || !own(leg.from) || !own(leg.to) {
        let text = format!("{} from {} to {} among those of {id}", leg.circuit, leg.from, leg.to);
        book.leg(Code::Stranger, leg, text);
    }
}

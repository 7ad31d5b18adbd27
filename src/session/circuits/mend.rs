//! Mends that can be applied: what a finding asks for, as an edit.

use crate::checks::suggest;
use crate::plan::{
    Change, Circuit, CircuitId, Edit, Finding, Plan, Point, Subject, close_corner, open_corners,
};
use crate::rules::RuleBook;
use crate::session::ground::{rooms, wire};
use crate::session::work::Job;

/// Findings that another cable or device may mend.
const BY_SIZE: [&str; 6] = [
    "cable-below-device",
    "circuit-unfinished",
    "device-below-load",
    "let-through",
    "loop-impedance",
    "volt-drop",
];

/// A corner that does not meet.
const OPEN_CORNER: &str = "open-corner";

/// Whether there is a mend to try.
pub fn offers(finding: &Finding) -> bool {
    match finding.subject {
        Subject::Point(_) => finding.code == "point-without-circuit",
        Subject::Wall(_) => finding.code == OPEN_CORNER,
        _ => BY_SIZE.contains(&finding.code) && circuit_of(finding).is_some(),
    }
}

fn circuit_of(finding: &Finding) -> Option<CircuitId> {
    match finding.subject {
        Subject::Circuit(id) | Subject::Leg { circuit: id, .. } => Some(id),
        _ => None,
    }
}

/// The mend of a finding and what it does, or why there is none.
///
/// # Errors
/// A text for whoever asked.
pub fn of(finding: &Finding, job: &Job, rules: &RuleBook) -> Result<(Edit, String), String> {
    if finding.code == OPEN_CORNER {
        return closed(finding, &job.plan);
    }
    if let Subject::Point(id) = finding.subject {
        let point = job.plan.points.get(&id).ok_or("the point is gone")?;
        let (circuit, new) = wire::circuit_for(&job.plan, point.kind, job.plan.fresh_id())
            .ok_or("any circuit would do: choose one")?;
        let mut edits: Vec<Edit> = new.into_iter().collect();
        edits.push(Change::Put(id, Point { circuit: Some(circuit), ..point.clone() }).into());
        return Ok((Edit::Many(edits), "put on a circuit; undo takes it back".to_owned()));
    }
    let id = circuit_of(finding).ok_or("nothing to apply: mend it by hand")?;
    let circuit = job.plan.circuits.get(&id).ok_or("the circuit is gone")?;
    let suggestion = suggest(&job.plan, &job.runs, &job.lengths, rules, id)
        .ok_or("this circuit cannot be sized yet")?;
    let Some(best) = suggestion.best else {
        let why = suggestion.rejected.last().map_or("", |rejected| &rejected.why);
        return Err(format!("no cable and device mend it: {why}"));
    };
    let device = best.device;
    if circuit.cable == Some(best.cable) && circuit.device == Some(device) {
        return Err("it has the best cable and device already; another way may help".to_owned());
    }
    let number = circuit.number;
    let says = format!(
        "circuit {number} has {} on {} A now; undo takes it back",
        best.cable, device.rating.0
    );
    let with = Circuit { cable: Some(best.cable), device: Some(device), ..circuit.clone() };
    Ok((Change::Put(id, with).into(), says))
}

/// An open corner closed, and the rooms that close with it.
fn closed(finding: &Finding, plan: &Plan) -> Result<(Edit, String), String> {
    let corners = open_corners(plan);
    let same = corners.iter().find(|corner| {
        Subject::Wall(corner.wall.0) == finding.subject
            && finding.place.map(crate::units::Point3::on_floor) == Some(corner.middle)
    });
    let corner = same.ok_or("the corner is closed already")?;
    let edit = close_corner(plan, corner).map_err(|error| error.to_string())?;
    let says = format!("closed a gap of {}; undo takes it back", corner.gap);
    Ok((rooms::with_rooms(plan, corner.level, vec![edit]), says))
}

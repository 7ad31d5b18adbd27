//! How circuits share residual-current devices.
//!
//! **Looks at** how many circuits hang behind each, how many there are, and
//! whether all lights hang behind the same one. **Matters** because one fault
//! should not darken a house or spoil a freezer. **Example:** five circuits
//! behind one. **Remedy:** another group, or devices of their own.
//! **Source:** table `residual_grouping`.

use std::collections::BTreeMap;

use super::super::context::{Case, House};
use super::super::words;
use crate::plan::{BoardId, CircuitUse, Finding, Severity, Subject};
use crate::rules::spec::ResidualGrouping;
use crate::rules::words::ResidualGroup;

const CODE: &str = "residual-grouping";

pub(super) fn judge(house: &House<'_>, cases: &[Case<'_>], findings: &mut Vec<Finding>) {
    let rule = |what| house.tables().residual_grouping.row(what).ok();
    for board in house.plan.boards.keys() {
        let on_board: Vec<&Case<'_>> =
            cases.iter().filter(|case| case.circuit.board == Some(*board)).collect();
        let groups = groups(&on_board);
        if let Some(row) = rule(ResidualGroup::CircuitsMax) {
            crowded(*board, &groups, row, findings);
        }
        if let Some(row) = rule(ResidualGroup::DevicesMin) {
            too_few(*board, &on_board, &groups, row, findings);
        }
        if let Some(row) = rule(ResidualGroup::LightingCircuitsMin) {
            lights_together(*board, &on_board, row, findings);
        }
    }
}

/// Circuits by the residual-current device they hang behind; one with a device
/// of its own is a group of one.
fn groups<'c>(cases: &[&'c Case<'c>]) -> BTreeMap<String, Vec<&'c Case<'c>>> {
    let mut groups: BTreeMap<String, Vec<&Case<'_>>> = BTreeMap::new();
    for case in cases {
        if let Some(name) = device_of(case) {
            groups.entry(name).or_default().push(case);
        }
    }
    groups
}

fn device_of(case: &Case<'_>) -> Option<String> {
    if !case.circuit.rcd_group.is_empty() {
        return Some(case.circuit.rcd_group.clone());
    }
    let own = case.circuit.device.is_some_and(|device| device.residual.is_some());
    own.then(|| format!("\u{0}{}", case.id))
}

fn crowded(
    board: BoardId,
    groups: &BTreeMap<String, Vec<&Case<'_>>>,
    row: &ResidualGrouping,
    findings: &mut Vec<Finding>,
) {
    for (name, cases) in groups {
        if words::count(cases.len()) <= row.count.figure() {
            continue;
        }
        let names: Vec<String> = cases.iter().map(|case| case.circuit.number.to_string()).collect();
        findings.push(
            Finding::new(
                CODE,
                Severity::Fault,
                Subject::Board(board),
                format!("circuits {} share residual-current device {name}", names.join(", ")),
                format!(
                    "move {} of them to another",
                    words::count(cases.len()) - row.count.figure()
                ),
            )
            .against(cases.len().to_string(), row.count.0.to_string(), row.credit()),
        );
    }
}

fn too_few(
    board: BoardId,
    cases: &[&Case<'_>],
    groups: &BTreeMap<String, Vec<&Case<'_>>>,
    row: &ResidualGrouping,
    findings: &mut Vec<Finding>,
) {
    if cases.len() < 2 || groups.is_empty() || words::count(groups.len()) >= row.count.figure() {
        return;
    }
    findings.push(
        Finding::new(
            CODE,
            Severity::Fault,
            Subject::Board(board),
            format!("all {} circuits hang behind one residual-current device", cases.len()),
            "spread them over another",
        )
        .against(groups.len().to_string(), row.count.0.to_string(), row.credit()),
    );
}

fn lights_together(
    board: BoardId,
    cases: &[&Case<'_>],
    row: &ResidualGrouping,
    findings: &mut Vec<Finding>,
) {
    let lights: Vec<_> =
        cases.iter().filter(|case| case.circuit.usage == CircuitUse::Lighting).collect();
    let Some(first) = lights.first().and_then(|case| device_of(case)) else { return };
    if lights.len() < 2 || lights.iter().any(|case| device_of(case).as_ref() != Some(&first)) {
        return;
    }
    findings.push(
        Finding::new(
            CODE,
            Severity::Fault,
            Subject::Board(board),
            format!("all lighting circuits hang behind residual-current device {first}"),
            "move one of them to another, so that one trip leaves some light",
        )
        .against("1", row.count.0.to_string(), row.credit()),
    );
}

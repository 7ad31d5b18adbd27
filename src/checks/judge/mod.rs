//! One check per file: each looks at figures that are worked out elsewhere and
//! says what a person should look at.

mod board_ways;
mod built;
mod concealed_zone;
mod cooktop;
mod demand;
mod estimated_rating;
mod height;
mod joist;
mod let_through;
mod lights_spread;
mod loop_impedance;
mod measured_leg;
mod measured_length;
mod own_circuit;
mod phase_balance;
mod points_per_circuit;
mod protection;
mod residual_current;
mod residual_grouping;
mod routed;
mod sink;
mod terminal;
mod unknown_load;
mod unknown_rules;
mod volt_drop;
mod wanting;
mod wet_zone;

use super::bunching::LightCompany;
use super::context::{Case, House};
use super::electrics::{Electrics, Wanting};
use super::result::Checked;
use crate::plan::{Finding, Severity, Subject};
use crate::rules::Absent;

/// What a check of one circuit looks at.
pub(super) struct Judged<'c> {
    /// The circuit.
    pub(super) case: &'c Case<'c>,
    /// Its figures.
    pub(super) electrics: &'c Electrics,
    /// Who lies beside whom.
    pub(super) company: &'c LightCompany,
}

/// Checks one circuit.
pub(super) fn circuit(
    case: &Case<'_>,
    electrics: &Result<Electrics, Wanting>,
    company: &LightCompany,
    findings: &mut Vec<Finding>,
) {
    match electrics {
        Err(wanting) => findings.push(wanting::judge(case, wanting)),
        Ok(electrics) => {
            let judged = Judged { case, electrics, company };
            unknown_load::judge(&judged, findings);
            protection::judge(&judged, findings);
            volt_drop::judge(&judged, findings);
            loop_impedance::judge(&judged, findings);
            let_through::judge(&judged, findings);
        }
    }
    routed::judge(case, findings);
    residual_current::judge(case, findings);
    points_per_circuit::judge(case, findings);
    own_circuit::judge(case, findings);
    terminal::judge(case, findings);
    concealed_zone::judge(case, findings);
    measured_length::judge(case, findings);
}

/// Checks what belongs to no single circuit.
pub(super) fn house(house: &House<'_>, cases: &[Case<'_>], checked: &mut Checked) {
    unknown_rules::judge(house, &mut checked.findings);
    estimated_rating::judge(house, checked);
    residual_grouping::judge(house, cases, &mut checked.findings);
    lights_spread::judge(house, cases, &mut checked.findings);
    wet_zone::judge(house, &mut checked.findings);
    sink::judge(house, &mut checked.findings);
    cooktop::judge(house, &mut checked.findings);
    height::judge(house, &mut checked.findings);
    joist::judge(house, &mut checked.findings);
    demand::judge(house, cases, checked);
    phase_balance::judge(house, cases, checked);
    board_ways::judge(house, cases, checked);
    measured_leg::judge(house, &mut checked.findings);
    built::judge(house, &mut checked.findings);
}

/// A check that could not be made, because a table has no row for it.
fn not_in_tables(code: &'static str, subject: Subject, what: &str, absent: &Absent) -> Finding {
    Finding::new(
        code,
        Severity::Missing,
        subject,
        format!("{what} cannot be checked: {absent}"),
        "enter the figure in your own rule tables",
    )
}

/// A check that could not be made, because the plan does not say something.
fn not_in_plan(
    code: &'static str,
    subject: Subject,
    what: &str,
    wanting: &str,
    remedy: &str,
) -> Finding {
    let message = format!("{what} cannot be checked: {wanting}");
    Finding::new(code, Severity::Missing, subject, message, remedy)
}

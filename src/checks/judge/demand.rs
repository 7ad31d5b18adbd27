//! Maximum demand of a board.
//!
//! **Looks at** what is likely to be taken at once, after diversity, against
//! the main switch. **Matters** because a main switch that trips darkens the
//! house. **Example:** 74 A behind a 63 A switch. **Remedy:** a larger supply,
//! load control, gas or heat-pump appliances. **Source:** table `demand`.

use super::super::context::{Case, House};
use super::super::demand::board_demand;
use super::super::result::Checked;
use super::super::words;
use super::not_in_plan;
use crate::plan::{Finding, Severity, Subject};

const CODE: &str = "demand";

pub(super) fn judge(house: &House<'_>, cases: &[Case<'_>], checked: &mut Checked) {
    for (id, board) in &house.plan.boards {
        let figures = checked.boards.entry(*id).or_default();
        let subject = Subject::Board(*id);
        let name = house.label(crate::plan::End::Board(*id));
        let what = format!("{name}: maximum demand");
        let on_board: Vec<&Case<'_>> =
            cases.iter().filter(|case| case.circuit.board == Some(*id)).collect();
        if on_board.is_empty() {
            continue;
        }
        let Some(voltage) = board.supply.voltage.filter(|voltage| voltage.0 > 0.0) else {
            let remedy = "enter the voltage from phase to neutral";
            let wanting = "its supply has no voltage";
            checked.findings.push(not_in_plan(CODE, subject, &what, wanting, remedy));
            continue;
        };
        let demand = board_demand(house, &on_board, voltage);
        let phases = f64::from(board.supply.phases.unwrap_or(1).max(1));
        let each = demand.value.0 / phases;
        let source = demand.working.terms.first().map_or(String::new(), |t| t.source.clone());
        figures.demand = Some(demand);
        let Some(switch) = board.supply.main_switch else {
            let wanting = "the rating of its main switch is not known";
            let remedy = format!("enter it; the demand comes to {} a phase", words::amps(each));
            checked.findings.push(not_in_plan(CODE, subject, &what, wanting, &remedy));
            continue;
        };
        if each > switch.0 {
            let message = format!("{name} may be asked for more than its main switch carries");
            let remedy = "a larger supply and switch, or controls that keep large loads apart";
            checked.findings.push(
                Finding::new(CODE, Severity::Fault, subject, message, remedy).against(
                    words::amps(each),
                    words::amps(switch.0),
                    source,
                ),
            );
        }
    }
}

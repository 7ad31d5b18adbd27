//! `wirewend runs`: the legs of every circuit, as a table or as JSON.

use std::fmt::Write as _;
use std::path::Path;

use serde_json::json;
use wirewend::lengths::{LegLength, Lengths};
use wirewend::plan::{self, Labels, Plan};
use wirewend::rules::RuleBook;
use wirewend::runs::{Leg, LegRole, OrderMethod, Run, Runs};
use wirewend::store;
use wirewend::units::Mm;
use wirewend::wording::metres_to_cut as metres;

use super::findings;
use super::job::Job;
use super::own_rules::OwnRules;

/// Printed under every list of lengths.
const CAUTION: &str = "\
Planning aid, not a certificate. Lengths are estimates: measure before cutting, and cut one trial leg first.
Mains wiring kills: isolate, prove dead, lock off. The local code and licensed people decide.
";

/// Reads a plan, routes and measures it, and says what came of it.
pub(super) fn run(path: &Path, rules: &OwnRules, as_json: bool) -> Result<String, String> {
    let rules = rules.book()?;
    let plan = store::read_file(path).map_err(|error| error.to_string())?;
    let mut job = Job::of(plan);
    if as_json {
        job.runs.findings = job.findings(&rules);
        return json_text(&job.runs, &job.lengths);
    }
    Ok(table(job, &rules))
}

/// The legs of every circuit, the cables, the findings and the cautions.
pub(super) fn table(job: Job, rules: &RuleBook) -> String {
    let all = job.findings(rules);
    let marks = plan::labels(&job.plan);
    let mut text = String::new();
    for (id, run) in &job.runs.circuits {
        let measured = job.lengths.circuits.get(id).map_or(&[][..], |legs| legs.as_slice());
        circuit_table(&mut text, &job.plan, &marks, run, *id, measured);
    }
    cable_table(&mut text, &job.lengths);
    findings::print(&mut text, &all);
    text.push_str(CAUTION);
    text
}

fn json_text(routed: &Runs, lengths: &Lengths) -> Result<String, String> {
    let value = json!({ "runs": routed, "lengths": lengths, "caution": CAUTION });
    let text = serde_json::to_string_pretty(&value).map_err(|error| error.to_string())?;
    Ok(text + "\n")
}

fn circuit_table(
    text: &mut String,
    plan: &Plan,
    marks: &Labels,
    run: &Run,
    id: plan::CircuitId,
    measured: &[LegLength],
) {
    let Some(circuit) = plan.circuits.get(&id) else { return };
    let cable = circuit.cable.map_or("no cable chosen".to_owned(), |cable| cable.to_string());
    let _ = writeln!(text, "Circuit {}  {}  ({cable})", marks.number(circuit), circuit.name);
    let _ = writeln!(text, "  leg    from      to        for           route m   cut m");
    for (leg, length) in run.legs.iter().zip(measured) {
        leg_row(text, marks, circuit.number, leg, length);
    }
    if run.legs.is_empty() {
        text.push_str("  no leg is routed\n\n");
        return;
    }
    let total = |of: fn(&LegLength) -> Mm| measured.iter().map(of).sum::<Mm>();
    let _ = writeln!(
        text,
        "  {:<40} {:>9} {:>7}   {}\n",
        "total",
        metres(total(|length| length.route.value)),
        metres(total(LegLength::cut_or_measured)),
        quality(run),
    );
}

fn leg_row(text: &mut String, marks: &Labels, circuit: u16, leg: &Leg, length: &LegLength) {
    let _ = writeln!(
        text,
        "  {:<6} {:<9} {:<9} {:<13} {:>9} {:>7}{}",
        format!("{circuit}.{}", leg.number),
        marks.end(leg.from),
        marks.end(leg.to),
        role(leg.role),
        metres(length.route.value),
        metres(length.cut.value),
        length.measured.map_or(String::new(), |was| format!("   measured {}", metres(was))),
    );
}

const fn role(role: LegRole) -> &'static str {
    match role {
        LegRole::Feed => "feed",
        LegRole::RingReturn => "ring return",
        LegRole::Spur => "spur",
        LegRole::SwitchLeg => "switch leg",
        LegRole::Strappers => "strappers",
        LegRole::Interlink => "interlink",
        LegRole::LightLink => "light link",
    }
}

/// How good the order of the feed is.
fn quality(run: &Run) -> String {
    if run.order.ends.is_empty() {
        return "nothing to order".to_owned();
    }
    match run.order.method {
        OrderMethod::Fixed => "order as set".to_owned(),
        OrderMethod::Exact | OrderMethod::Proven => "order proven best".to_owned(),
        OrderMethod::Improved => {
            let gap = run.order.gap_permille();
            format!("order within {}.{} % of the best possible", gap.div_euclid(10), gap % 10)
        }
    }
}

fn cable_table(text: &mut String, lengths: &Lengths) {
    let _ = writeln!(text, "{:<32} {:>6} {:>9} {:>12}", "Cable", "pieces", "cut m", "with waste m");
    for cable in &lengths.cables {
        let name = cable.cable.map_or("not chosen".to_owned(), |cable| cable.to_string());
        let (cut, order) = (metres(cable.cut), metres(cable.order.value));
        let _ = writeln!(text, "{name:<32} {:>6} {cut:>9} {order:>12}", cable.pieces);
    }
    text.push_str("What to buy follows the stock: see the cuts.\n\n");
}

//! `wirewend check`: the findings of the checks, and the figures behind them.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use wirewend::checks::{self, CODES, Checked, CircuitFigures};
use wirewend::plan::{Circuit, labels};
use wirewend::store;
use wirewend::units::Mm;
use wirewend::wording;

use super::job::Job;
use super::own_rules::OwnRules;
use super::{as_built, corners, findings, keep};

/// Checks a plan. The text, and whether a limit is passed.
pub(super) fn run(
    path: &Path,
    rules: &OwnRules,
    as_json: bool,
    close: Option<(Mm, PathBuf, bool)>,
) -> Result<(String, bool), String> {
    let (mut plan, source) = keep::read(path)?;
    let mut closed = String::new();
    if let Some((most, to, replace)) = close {
        closed = corners::close(&mut plan, most)?;
        let told = keep::write(&plan, &to, Some(&source), replace)?;
        let _ = writeln!(closed, "{}\n{told}", to.display());
    }
    let book = rules.book()?;
    let job = Job::of(plan);
    let mut checked = checks::check(&job.plan, &job.runs, &job.lengths, &book);
    let folder = path.parent().unwrap_or(Path::new(""));
    let aside = store::missing_backdrops(&job.plan, folder);
    checked.findings = checks::everything(&job.plan, &job.runs, &checked, &aside);
    let fails = checks::faults(&checked.findings) > 0;
    if as_json {
        let text = serde_json::to_string_pretty(&checked).map_err(|error| error.to_string())?;
        return Ok((text + "\n", fails));
    }
    Ok((closed + &text(&job, &checked), fails))
}

/// The page of a code.
pub(super) fn explain(code: &str) -> Result<String, String> {
    checks::explain(code).map(|page| page.text.to_owned()).ok_or_else(|| {
        let codes: Vec<&str> = CODES.iter().map(|page| page.code).collect();
        format!("no page for \"{code}\"; there are pages for {}", codes.join(", "))
    })
}

fn text(job: &Job, checked: &Checked) -> String {
    let mut text = String::new();
    let marks = labels(&job.plan);
    let numbers = job.plan.circuits.values().map(|circuit| marks.number(circuit).len());
    let wide = numbers.max().unwrap_or(0).max(3);
    let _ = writeln!(
        text,
        "{:>wide$}  {:<34} {:>8} {:>8} {:>9} {:>15} {:>17}",
        "no.", "circuit", "design A", "device A", "carries A", "volt drop %", "loop Ω"
    );
    for (id, figures) in &checked.circuits {
        if let Some(circuit) = job.plan.circuits.get(id) {
            let number = format!("{:>wide$}", marks.number(circuit));
            row(&mut text, &number, circuit, figures);
        }
    }
    for (id, board) in &checked.boards {
        let demand =
            board.demand.as_ref().map_or("not known".to_owned(), |d| one(d.value.0) + " A");
        let _ = writeln!(text, "board {id}: demand {demand}, {} ways used", board.ways_used);
    }
    text.push('\n');
    if !checked.readings.is_empty() {
        as_built::readings(&mut text, &job.plan, &marks, checked);
    }
    findings::print(&mut text, &checked.findings);
    if checked.findings.iter().any(|finding| checks::explain(finding.code).is_some()) {
        text.push_str("wirewend check --explain CODE tells what a code looks at and why.\n");
    }
    for caution in &checked.cautions {
        let _ = writeln!(text, "{caution}");
    }
    text
}

fn row(text: &mut String, number: &str, circuit: &Circuit, figures: &CircuitFigures) {
    let amps = |value: Option<f64>| value.map_or("?".to_owned(), one);
    let against = |value: Option<f64>, limit: Option<f64>| match (value, limit) {
        (Some(value), Some(limit)) => {
            format!("{} of {}", wording::decimals(value, 2), wording::decimals(limit, 2))
        }
        (Some(value), None) => format!("{} of ?", wording::decimals(value, 2)),
        _ => "?".to_owned(),
    };
    let mark = if figures.estimated { "~" } else { "" };
    let name: String = circuit.name.chars().take(34).collect();
    let _ = writeln!(
        text,
        "{number}  {name:<34} {:>8} {:>8} {:>9} {:>15} {:>17}",
        amps(figures.design_current.as_ref().map(|w| w.value.0)),
        amps(figures.device.map(|a| a.0)),
        mark.to_owned() + &amps(figures.capacity.as_ref().map(|w| w.value.0)),
        against(figures.volt_drop_percent, figures.volt_drop_limit_percent),
        against(
            figures.loop_impedance.as_ref().map(|w| w.value.0),
            figures.loop_limit.as_ref().map(|w| w.value.0)
        ),
    );
}

fn one(value: f64) -> String {
    wording::decimals(value, 1)
}

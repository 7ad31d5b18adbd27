//! `wirewend draft`: from a layout, or a plan without points, to a plan.

use std::fmt::Write as _;
use std::path::Path;

use serde_json::json;
use wirewend::draft::{Draft, DraftOptions, Reason, draft};
use wirewend::plan::{Finding, Plan, Severity, Subject, labels};
use wirewend::runs::LegRole;
use wirewend::store::{Import, ImportOptions, NoteKind, import_file};
use wirewend::units::{Mm, Watch};

use super::job::Job;
use super::keep::{self, Source};
use super::own_rules::OwnRules;

/// Printed under every summary.
const CAUTION: &str = "\
A draft to correct, not a design to build from: walk the house with it. It certifies nothing.
Mains wiring kills: isolate, prove dead, lock off. The local code and licensed people decide.
";

/// Drafts, writes the plan, and says what came of it.
pub(super) fn run(
    path: &Path,
    to: &Path,
    options: &DraftOptions,
    drawing: &ImportOptions,
    (rules, as_json, replace): (&OwnRules, bool, bool),
) -> Result<String, String> {
    let rules = rules.book_with(options.regime)?;
    let (drawn, notes, source) = read(path, drawing)?;
    let drafted =
        draft(drawn, &rules, options).map_err(|error| format!("{}: {error}", path.display()))?;
    let kept = keep::write(&drafted.plan, to, source.as_ref(), replace)?;
    let job = Job::of(drafted.plan.clone());
    let found = job.findings(&rules);
    if as_json {
        let value = json!({
            "draft": drafted, "layout_notes": notes, "findings": found, "caution": CAUTION,
        });
        return serde_json::to_string_pretty(&value)
            .map(|text| text + "\n")
            .map_err(|error| error.to_string());
    }
    Ok(page(path, (to, &kept), &drafted, &job, &notes, &found))
}

/// A plan and its file, or else a layout or drawing, with what the reader had to
/// say about that.
pub(super) fn read(
    path: &Path,
    drawing: &ImportOptions,
) -> Result<(Plan, Vec<String>, Option<Source>), String> {
    let is_plan = path.extension().is_some_and(|ending| ending == "wend");
    if is_plan {
        return keep::read(path).map(|(plan, source)| (plan, Vec::new(), Some(source)));
    }
    let import = import_file(path, drawing, &Watch::default());
    let Import { plan, report } = import.map_err(|error| error.to_string())?;
    let (unit, report) = (report.unit, report.layout);
    let left_out = report.count(NoteKind::LeftOut);
    let mut notes = vec![format!(
        "{}, {}, {}, {}, in {unit}; {} left out",
        some(report.levels, "level"),
        some(report.walls, "wall"),
        some(report.openings, "opening"),
        some(report.rooms, "room"),
        some(left_out, "part"),
    )];
    let told = ["levels", "lengths", "walls"];
    let assumed = report.notes.iter().filter(|note| note.kind == NoteKind::Assumed);
    notes.extend(
        assumed
            .filter(|note| told.contains(&note.part.as_str()))
            .map(|note| format!("{}: {}", note.part, note.message)),
    );
    Ok((plan, notes, None))
}

fn page(
    path: &Path,
    (to, kept): (&Path, &str),
    drafted: &Draft,
    job: &Job,
    notes: &[String],
    found: &[Finding],
) -> String {
    let mut text = format!("{} drafted into {}\n{kept}", path.display(), to.display());
    for note in notes {
        let _ = writeln!(text, "  {note}");
    }
    let sum = drafted.summary;
    let _ = writeln!(
        text,
        "\n{}, {}, {}, {}, {}\n{} ({} for lights) on {}",
        some(sum.sockets, "socket"),
        some(sum.lights, "light"),
        some(sum.switches, "switch"),
        some(sum.alarms, "alarm"),
        some(sum.fixed, "fixed appliance"),
        some(sum.circuits, "circuit"),
        sum.lighting_circuits,
        some(sum.boards, "board"),
    );
    circuits(&mut text, job);
    text.push_str("\nWhy\n");
    for reason in main_reasons(drafted) {
        let _ = writeln!(text, "  {}: {}", reason.chosen, reason.because);
    }
    let told = drafted.reasons.len() - main_reasons(drafted).count();
    let _ = writeln!(text, "  and {told} more reasons, room by room and point by point: --json");
    let count = |severity| found.iter().filter(|finding| finding.severity == severity).count();
    let _ = writeln!(
        text,
        "\n{}, {}, {} not known yet; wirewend check {} tells them",
        some(count(Severity::Fault), "fault"),
        some(count(Severity::Warning), "warning"),
        some(count(Severity::Missing), "thing"),
        to.display(),
    );
    for finding in found.iter().filter(|finding| finding.severity == Severity::Fault) {
        let _ = writeln!(text, "  fault[{}]: {}", finding.code, finding.message);
    }
    text.push('\n');
    text.push_str(CAUTION);
    text
}

/// `1 level`, `3 switches`.
fn some(count: usize, what: &str) -> String {
    let many = if what.ends_with("ch") { "es" } else { "s" };
    format!("{count} {what}{}", if count == 1 { "" } else { many })
}

/// Reasons about the house, its boards, and rooms whose use was guessed.
fn main_reasons(drafted: &Draft) -> impl Iterator<Item = &Reason> {
    drafted.reasons.iter().filter(|reason| {
        matches!(reason.subject, Subject::Plan | Subject::Board(_) | Subject::Void(_))
            || reason.chosen.contains(" taken as ")
    })
}

fn circuits(text: &mut String, job: &Job) {
    let marks = labels(&job.plan);
    let numbers = job.plan.circuits.values().map(|circuit| marks.number(circuit).len());
    let wide = numbers.max().unwrap_or(0).max(4);
    let _ =
        writeln!(text, "\n{:<wide$} {:<28} {:>6} {:>8}  cable", "no", "circuit", "points", "cut m");
    for (id, circuit) in &job.plan.circuits {
        let points = job.plan.points.values().filter(|point| point.circuit == Some(*id)).count();
        let lengths = job.lengths.circuits.get(id).map_or(&[][..], |legs| legs.as_slice());
        let cut: Mm = lengths.iter().map(wirewend::lengths::LegLength::cut_or_measured).sum();
        let cable = circuit.cable.map_or_else(String::new, |cable| cable.to_string());
        let rings = job
            .runs
            .circuits
            .get(id)
            .is_some_and(|run| run.legs.iter().any(|leg| leg.role == LegRole::RingReturn));
        let device = circuit.device.map_or_else(String::new, |d| format!(", {} A", d.rating.0));
        let _ = writeln!(
            text,
            "{:<wide$} {:<28} {points:>6} {:>8.1}  {cable}{device}{}",
            marks.number(circuit),
            circuit.name,
            cut.metres(),
            if rings { ", ring" } else { "" },
        );
    }
}

//! `wirewend measured` and `wirewend reading`: what was built, entered beside
//! what was planned.

use std::fmt::Write as _;
use std::path::{Path, PathBuf};

use serde_json::json;
use wirewend::checks::{self, Checked, Verdict};
use wirewend::lengths::{LegLength, planned_legs};
use wirewend::plan::{
    AsPlanned, CircuitId, Edit, End, Labels, LegEntry, Measured, Plan, Project, Reading,
    ReadingEntry, Stage, Status, Test, labels,
};
use wirewend::rules::RuleBook;
use wirewend::runs::{Built, built};
use wirewend::sheet::{House, csv, cut_list, reading_list};
use wirewend::store::{self, Filled};
use wirewend::takeoff::take_off;
use wirewend::units::Mm;
use wirewend::wording::{self, metres_to_mm as metres};

use super::findings;
use super::job::Job;
use super::keep::{self, Source};
use super::named::{circuit_of, leg_of};
use super::own_rules::OwnRules;

/// Printed under both.
const CAUTION: &str = "\
Readings are held against planned lengths and tables. That passes nothing: whoever is licensed to test decides.
Mains wiring kills: isolate, prove dead, lock off.
";

/// Where entries come from and where they go.
#[derive(clap::Args)]
pub(super) struct Entered {
    /// A list with its blanks filled, as `wirewend papers` or --blank wrote it.
    #[arg(long, value_name = "CSV", requires = "to")]
    list: Option<PathBuf>,
    /// Print the list to fill in, as CSV, and nothing else.
    #[arg(long, conflicts_with_all = ["list", "to", "json"])]
    blank: bool,
    /// Call the plan as built from now on. Its papers say "in part" until
    /// every leg was measured.
    #[arg(long, requires = "to")]
    as_built: bool,
    /// Call it as built on this person's word that all was built as planned;
    /// with the day: --on 2026-11-25.
    #[arg(long, value_name = "WHO", requires = "to")]
    built_as_planned: Option<String>,
    /// The plan file to write; it may be the same.
    #[arg(long, value_name = "PLAN")]
    to: Option<PathBuf>,
    /// Write over another plan that is there, and keep the old one beside it.
    #[arg(long, requires = "to")]
    replace: bool,
    /// Print as JSON.
    #[arg(long)]
    json: bool,
    #[command(flatten)]
    rules: OwnRules,
}

/// One measured leg.
#[derive(clap::Args)]
pub(super) struct LegGiven {
    /// The leg, as drawings number it, or by the marks of its ends: 3.2 or
    /// S1/S2; DB2/3.2 where several boards feed a circuit 3.
    #[arg(long, requires = "length")]
    leg: Option<String>,
    /// Its length: 12.4, 12.4m or 980mm; none takes it away.
    #[arg(long, requires_all = ["leg", "to"])]
    length: Option<String>,
    /// Who measured it.
    #[arg(long, value_name = "WHO", requires = "leg", default_value = "")]
    by: String,
    /// The day, as 2026-11-25.
    #[arg(long, value_name = "DAY", default_value = "")]
    on: String,
}

/// Readings at one place.
#[derive(clap::Args)]
pub(super) struct ReadingsGiven {
    /// The number of the circuit: 3, or DB2/3 where several boards feed a
    /// circuit 3.
    #[arg(long)]
    circuit: Option<String>,
    /// The mark of the point; without it, at the board.
    #[arg(long, requires = "circuit", value_name = "MARK")]
    point: Option<String>,
    /// Phase and earth in series, Ω.
    #[arg(long, value_name = "OHM", requires_all = ["circuit", "to"])]
    r1_r2: Option<String>,
    /// Earth alone, by a long lead, Ω.
    #[arg(long, value_name = "OHM", requires_all = ["circuit", "to"])]
    r2: Option<String>,
    /// Phase of a ring end to end, Ω.
    #[arg(long, value_name = "OHM", requires_all = ["circuit", "to"])]
    ring_phase: Option<String>,
    /// Neutral of a ring end to end, Ω.
    #[arg(long, value_name = "OHM", requires_all = ["circuit", "to"])]
    ring_neutral: Option<String>,
    /// Earth of a ring end to end, Ω.
    #[arg(long, value_name = "OHM", requires_all = ["circuit", "to"])]
    ring_earth: Option<String>,
    /// Insulation, MΩ; >999 counts as 999.
    #[arg(long, value_name = "MEGOHM", requires_all = ["circuit", "to"])]
    insulation: Option<String>,
    /// Polarity: right or wrong.
    #[arg(long, value_name = "HOW", requires_all = ["circuit", "to"])]
    polarity: Option<String>,
    /// Earth-fault loop, Ω.
    #[arg(long = "loop", value_name = "OHM", requires_all = ["circuit", "to"])]
    loop_: Option<String>,
    /// Trip time at the rated residual current, ms.
    #[arg(long, value_name = "MS", requires_all = ["circuit", "to"])]
    trip: Option<String>,
    /// Trip time at five times that, ms.
    #[arg(long, value_name = "MS", requires_all = ["circuit", "to"])]
    trip_five: Option<String>,
    /// Prospective fault current, A.
    #[arg(long, value_name = "A", requires_all = ["circuit", "to"])]
    fault_current: Option<String>,
    /// Who took them.
    #[arg(long, value_name = "WHO", default_value = "")]
    by: String,
    /// The day, as 2026-11-25.
    #[arg(long, value_name = "DAY", default_value = "")]
    on: String,
}

impl ReadingsGiven {
    fn given(&self) -> Vec<(Test, &str)> {
        let all = [
            (Test::R1R2, &self.r1_r2),
            (Test::R2, &self.r2),
            (Test::RingPhase, &self.ring_phase),
            (Test::RingNeutral, &self.ring_neutral),
            (Test::RingEarth, &self.ring_earth),
            (Test::Insulation, &self.insulation),
            (Test::Polarity, &self.polarity),
            (Test::Loop, &self.loop_),
            (Test::Trip, &self.trip),
            (Test::TripFive, &self.trip_five),
            (Test::FaultCurrent, &self.fault_current),
        ];
        all.into_iter().filter_map(|(test, text)| Some((test, text.as_deref()?))).collect()
    }
}

/// Enters measured lengths, or shows them beside the planned ones.
pub(super) fn measured(path: &Path, one: &LegGiven, how: &Entered) -> Result<String, String> {
    let book = how.rules.book()?;
    let (plan, source) = keep::read(path)?;
    let job = Job::of(plan);
    if how.blank {
        let cuts = take_off(&job.plan, &job.runs, &job.lengths, &book).cuts;
        let house =
            House::new(&job.plan, &job.runs, &job.lengths, book.local(job.plan.project.regime));
        return Ok(csv(&cut_list(&house, &cuts)));
    }
    let Filled { mut entries, notes } = match &how.list {
        Some(list) => {
            let legs = planned_legs(&job.plan, &job.runs, &job.lengths);
            store::read_measured(&bytes(list)?, &list.display().to_string(), &job.plan, &legs)
                .map_err(|error| error.to_string())?
        }
        None => nothing(),
    };
    if !one.on.is_empty() && one.leg.is_none() && how.built_as_planned.is_none() {
        return Err("--on: say of what: --leg with --length, or --built-as-planned".to_owned());
    }
    if let (Some(leg), Some(length)) = (&one.leg, &one.length) {
        let found = leg_of(&job, leg)?;
        let length = store::read_length(length).map_err(|text| format!("--length: {text}"))?;
        let (circuit, from, to) = (found.circuit, found.from, found.to);
        let (by, on) = (one.by.clone(), day(&one.on)?);
        entries.push(LegEntry { circuit, from, to, length, by, on });
    }
    let edit = (!entries.is_empty()).then(|| job.plan.measured_with(&entries));
    let (job, said) = enter((job, &source), edit, entries.len(), (how, &one.on))?;
    let checked =
        checked(&job, &book, &["measured-elsewhere", "measured-differs", "built-in-part"]);
    if how.json {
        let value = json!({ "measured": job.plan.measured, "notes": notes, "findings": checked.findings, "caution": CAUTION });
        return json_text(&value);
    }
    let mut text = said + &noted(&notes);
    lengths(&mut text, &job);
    findings::print(&mut text, &checked.findings);
    text.push_str(CAUTION);
    Ok(text)
}

/// Enters readings, or shows them beside what was expected.
pub(super) fn reading(path: &Path, given: &ReadingsGiven, how: &Entered) -> Result<String, String> {
    let book = how.rules.book()?;
    let (plan, source) = keep::read(path)?;
    let job = Job::of(plan);
    if how.blank {
        let house =
            House::new(&job.plan, &job.runs, &job.lengths, book.local(job.plan.project.regime));
        let tests = checks::expected_tests(&job.plan, &job.runs, &job.lengths, &book);
        return Ok(csv(&reading_list(&house, &tests)));
    }
    let Filled { mut entries, notes } = match &how.list {
        Some(list) => store::read_readings(&bytes(list)?, &list.display().to_string(), &job.plan)
            .map_err(|error| error.to_string())?,
        None => nothing(),
    };
    entries.extend(readings_of(&job.plan, given)?);
    let edit = (!entries.is_empty()).then(|| job.plan.readings_with(&entries));
    let (job, said) = enter((job, &source), edit, entries.len(), (how, &given.on))?;
    let checked = checked(&job, &book, &["odd-reading", "built-in-part"]);
    if how.json {
        let value = json!({ "readings": checked.readings, "notes": notes, "findings": checked.findings, "caution": CAUTION });
        return json_text(&value);
    }
    let mut text = said + &noted(&notes);
    readings(&mut text, &job.plan, &labels(&job.plan), &checked);
    findings::print(&mut text, &checked.findings);
    text.push_str(CAUTION);
    Ok(text)
}

/// No list was given.
const fn nothing<T>() -> Filled<T> {
    Filled { entries: Vec::new(), notes: Vec::new() }
}

fn noted(notes: &[String]) -> String {
    let text: String = notes.iter().map(|note| format!("note: {note}\n")).collect();
    if text.is_empty() { text } else { text + "\n" }
}

fn json_text(value: &serde_json::Value) -> Result<String, String> {
    let text = serde_json::to_string_pretty(value).map_err(|error| error.to_string())?;
    Ok(text + "\n")
}

fn bytes(path: &Path) -> Result<Vec<u8>, String> {
    let size = std::fs::metadata(path).map_or(0, |about| about.len());
    if usize::try_from(size).is_ok_and(|size| size > store::LIST_BYTES_MAX) {
        return Err(format!("{}: larger than any list", path.display()));
    }
    std::fs::read(path).map_err(|error| format!("{}: {error}", path.display()))
}

/// Applies an edit and writes the plan, all or nothing.
fn enter(
    (job, source): (Job, &Source),
    edit: Option<Edit>,
    count: usize,
    (how, on): (&Entered, &str),
) -> Result<(Job, String), String> {
    let Some(to) = &how.to else { return Ok((job, String::new())) };
    let mut plan = job.plan;
    let mut edits: Vec<Edit> = edit.into_iter().collect();
    if how.as_built || how.built_as_planned.is_some() {
        let said = how.built_as_planned.as_deref().map(|by| stated(by, on)).transpose()?;
        let built_as_planned = said.or_else(|| plan.project.built_as_planned.clone());
        let status = Status::AsBuilt;
        let project = Project { status, built_as_planned, ..plan.project.clone() };
        edits.push(Edit::Project(project.into()));
    }
    plan.apply(Edit::Many(edits)).map_err(|error| error.to_string())?;
    let kept = keep::write(&plan, to, Some(source), how.replace)?;
    let job = Job::of(plan);
    let built = built(&job.plan, &job.runs);
    let mut said = format!("{}: {count} entered, {}\n{kept}\n", to.display(), built.words());
    if job.plan.project.status == Status::AsBuilt && built.stage == Stage::InPart {
        never_measured(&mut said, &job, &built);
    }
    Ok((job, said))
}

/// A person's word, with name and day.
fn stated(by: &str, on: &str) -> Result<AsPlanned, String> {
    let (by, on) = (by.trim().to_owned(), day(on)?);
    if by.is_empty() || on.is_empty() {
        return Err("--built-as-planned: say who, and the day with --on".to_owned());
    }
    Ok(AsPlanned { by, on })
}

/// What keeps a plan that is called as built from being so.
fn never_measured(said: &mut String, job: &Job, built: &Built) {
    let marks = labels(&job.plan);
    let leg = |(circuit, number, [from, to]): &(CircuitId, u32, [End; 2])| {
        let circuit = job.plan.circuits.get(circuit);
        let leg = circuit.map_or_else(String::new, |circuit| marks.leg(circuit, *number));
        format!("{leg} {}/{}", marks.end(*from), marks.end(*to))
    };
    let legs: Vec<String> = built.missing.iter().map(leg).collect();
    let points: Vec<&str> = built.points.iter().map(|id| marks.point(*id)).collect();
    let _ = writeln!(said, "Never measured, {} legs: {}", legs.len(), legs.join(", "));
    let _ =
        writeln!(said, "Never measured or read, {} points: {}", points.len(), points.join(", "));
    said.push_str(
        "Until they are, drawings say \"as built in part\"; or whoever built it states it: \
         --built-as-planned WHO --on DAY\n\n",
    );
}

/// The checks of a plan, with these findings alone.
fn checked(job: &Job, book: &RuleBook, codes: &[&str]) -> Checked {
    let mut checked = checks::check(&job.plan, &job.runs, &job.lengths, book);
    checked.findings.extend(wirewend::plan::review(&job.plan));
    let is_ours = |code: &str| codes.contains(&code) || code == "odd-measurement";
    checked.findings.retain(|finding| is_ours(finding.code));
    checked
}

fn readings_of(plan: &Plan, given: &ReadingsGiven) -> Result<Vec<ReadingEntry>, String> {
    let Some(number) = &given.circuit else { return Ok(Vec::new()) };
    let circuit = circuit_of(plan, number)?;
    let board = plan.circuits.get(&circuit).and_then(|circuit| circuit.board);
    let at = match &given.point {
        Some(mark) => {
            let marks = labels(plan);
            let found = plan.points.keys().find(|id| marks.point(**id) == mark);
            let id = found.ok_or_else(|| format!("no point \"{mark}\" in this plan"))?;
            End::Point(*id)
        }
        None => End::Board(board.ok_or_else(|| {
            format!("circuit {number} comes from no board; say where with --point")
        })?),
    };
    let on = day(&given.on)?;
    let entry = |(test, text): (Test, &str)| {
        let reads = store::read_reading(test, text)
            .map_err(|problem| format!("{}: {problem}", test.name()))?;
        Ok(match reads {
            Some(reads) => {
                let (by, on) = (given.by.clone(), on.clone());
                ReadingEntry::Put(Reading { circuit, at, reads, by, on })
            }
            None => ReadingEntry::Remove { circuit, at, test },
        })
    };
    given.given().into_iter().map(entry).collect()
}

fn day(text: &str) -> Result<String, String> {
    store::read_day(text).map_err(|problem| format!("--on: {problem}"))
}

/// Planned and measured, leg by leg.
fn lengths(text: &mut String, job: &Job) {
    let marks = labels(&job.plan);
    let _ = writeln!(
        text,
        "{:<7} {:<12} {:<12} {:>10} {:>11} {:>11}",
        "leg", "from", "to", "planned m", "measured m", "difference"
    );
    let (mut planned, mut built, mut count, mut all) = (Mm::ZERO, Mm::ZERO, 0, 0);
    for (id, run) in &job.runs.circuits {
        let lengths: &[LegLength] =
            job.lengths.circuits.get(id).map_or(&[], |legs| legs.as_slice());
        let circuit = job.plan.circuits.get(id);
        for (leg, length) in run.legs.iter().zip(lengths) {
            all += 1;
            let cut = length.cut.value;
            let measurement = job.plan.measurement(leg.circuit, [leg.from, leg.to]);
            let who = measurement.map_or_else(String::new, Measured::who_and_when);
            let (is, by) = match length.measured {
                Some(is) => {
                    (planned, built, count) = (planned + cut, built + is, count + 1);
                    (metres(is), signed(is - cut))
                }
                None => (String::new(), String::new()),
            };
            let row = format!(
                "{:<7} {:<12} {:<12} {:>10} {is:>11} {by:>11}  {who}",
                circuit.map_or_else(String::new, |circuit| marks.leg(circuit, leg.number)),
                marks.end(leg.from),
                marks.end(leg.to),
                metres(cut),
            );
            let _ = writeln!(text, "{}", row.trim_end());
        }
    }
    let _ = writeln!(
        text,
        "{count} of {all} legs measured: {} m where {} m was planned, {} m\n",
        metres(built),
        metres(planned),
        signed(built - planned)
    );
}

/// With its sign.
pub(super) fn signed(length: Mm) -> String {
    let sign = if length > Mm::ZERO { "+" } else { "" };
    format!("{sign}{}", metres(length))
}

/// Every reading with what it was held against.
pub(super) fn readings(text: &mut String, plan: &Plan, marks: &Labels, checked: &Checked) {
    if checked.readings.is_empty() {
        text.push_str("No reading yet.\n\n");
        return;
    }
    let _ = writeln!(
        text,
        "{:<8} {:<10} {:<16} {:>10} {:>18} {:>10}  verdict",
        "circuit", "at", "test", "expected", "limit", "read"
    );
    let figure = |value: f64, unit: &str| format!("{} {unit}", wording::short(value, 3));
    for one in &checked.readings {
        let reading = &one.reading;
        let unit = reading.reads.test().unit();
        let number = plan.circuits.get(&reading.circuit).map(|circuit| marks.number(circuit));
        let number = number.unwrap_or_default();
        let expected = one.against.expected.map_or_else(String::new, |value| figure(value, unit));
        let limit = one.against.limit.map_or_else(String::new, |limit| {
            format!("{} {}", limit.word(), figure(limit.value(), unit))
        });
        let _ = writeln!(
            text,
            "{number:<8} {:<10} {:<16} {expected:>10} {limit:>18} {:>10}  {}",
            marks.end(reading.at),
            reading.reads.test().name(),
            reading.reads.to_string(),
            one.verdict.name(),
        );
    }
    let odd = checked.readings.iter().filter(|one| one.verdict != Verdict::AsExpected).count();
    let _ = writeln!(text, "{} readings, {odd} to look at\n", checked.readings.len());
}

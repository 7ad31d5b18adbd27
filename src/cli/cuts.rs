//! `wirewend cuts`: what to cut from which drum, and where.

use std::fmt::Write as _;
use std::path::Path;

use serde_json::json;
use wirewend::plan::{self, Labels, Plan};
use wirewend::takeoff::{CutPlan, CutSource, SourceKind};
use wirewend::units::{Cents, Mm};

use super::findings;
use super::take_off::{CAUTION, TakenOff, money};

/// Printed under every cut plan.
const BEFORE_CUTTING: &str = "Marks run from the free end of each piece. Measure before cutting, and cut one trial leg first.\n";

/// Plans the cuts of a plan, or only those still to be made.
pub(super) fn run(path: &Path, left_only: bool, as_json: bool) -> Result<String, String> {
    let job = TakenOff::read(path)?;
    let cuts = if left_only { job.cuts_left() } else { (job.take_off.cuts.clone(), Vec::new()) };
    let said = if left_only { &cuts.1 } else { &job.take_off.findings };
    let said: Vec<plan::Finding> =
        said.iter().filter(|finding| finding.code != "no-price").cloned().collect();
    if as_json {
        let value = json!({ "cuts": cuts.0, "findings": said, "caution": CAUTION });
        let text = serde_json::to_string_pretty(&value).map_err(|error| error.to_string())?;
        return Ok(text + "\n");
    }
    let marks = plan::labels(&job.plan);
    let mut text = String::new();
    for plan in &cuts.0 {
        cable(&mut text, &job.plan, &marks, plan);
    }
    if cuts.0.is_empty() {
        text.push_str("Nothing to cut.\n\n");
    }
    findings::print(&mut text, &said);
    text.push_str(BEFORE_CUTTING);
    text.push_str(CAUTION);
    Ok(text)
}

fn cable(text: &mut String, plan: &Plan, marks: &Labels, cuts: &CutPlan) {
    let count: usize = cuts.sources.iter().map(|source| source.cuts.len()).sum();
    let told = if cuts.sources.is_empty() {
        let legs = match cuts.uncut.len() {
            1 => "1 leg".to_owned(),
            count => format!("{count} legs"),
        };
        let length: Mm = cuts.uncut.iter().map(|piece| piece.length).sum();
        format!("not planned: nothing in stock to cut {legs} from, {} m", metres(length))
    } else {
        format!("{count} cuts, {} m", metres(cuts.cut.value))
    };
    let _ = writeln!(text, "{}: {told}", cuts.cable);
    for source in &cuts.sources {
        drawn(text, plan, marks, source);
    }
    for piece in &cuts.uncut {
        let (from, to) = (marks.end(piece.from), marks.end(piece.to));
        let length = metres(piece.length);
        let _ = writeln!(text, "  not cut: {from} to {to}, {length} m: nothing holds it");
    }
    if cuts.sources.is_empty() {
        text.push('\n');
        return;
    }
    let price = match &cuts.price {
        Some(price) => format!(" for {}", money(plan, price.value)),
        None if cuts.uncut.is_empty() => ", not every drum has a price".to_owned(),
        None => ", a price that is not known yet".to_owned(),
    };
    let _ = writeln!(
        text,
        "  to buy {} m{price}; scrap {} m; left over to keep {} m\n  {}\n",
        metres(cuts.bought.value),
        metres(cuts.scrap.value),
        metres(cuts.left_over.value),
        quality(plan, cuts),
    );
}

fn drawn(text: &mut String, plan: &Plan, marks: &Labels, source: &CutSource) {
    let what = match &source.what {
        SourceKind::OffCut { label, index } if label.is_empty() => {
            format!("off-cut {}", index + 1)
        }
        SourceKind::OffCut { label, .. } => format!("off-cut \"{label}\""),
        SourceKind::Drum { number, .. } => format!("new drum {number}"),
    };
    let fate = match (source.left > Mm::ZERO, source.keep) {
        (false, _) => "nothing left".to_owned(),
        (true, true) => format!("{} m left to keep", metres(source.left)),
        (true, false) => format!("{} m scrap", metres(source.left)),
    };
    let _ = writeln!(text, "\n  {what}, {} m: {fate}\n  {}", metres(source.length), bar(source));
    let _ = writeln!(text, "    cut at m  length m  leg     from      to");
    for cut in &source.cuts {
        let circuit = plan.circuits.get(&cut.piece.circuit);
        let number = |circuit| marks.leg(circuit, cut.piece.leg);
        let _ = writeln!(
            text,
            "    {:>8}  {:>8}  {:<7} {:<9} {:<9}{}",
            metres(cut.at),
            metres(cut.piece.length),
            circuit.map_or_else(String::new, number),
            marks.end(cut.piece.from),
            marks.end(cut.piece.to),
            if cut.piece.done { " done, as measured" } else { "" },
        );
    }
}

/// How many characters a full drum or off-cut is drawn with.
const BAR: i64 = 64;

/// A drum as a bar: cuts between strokes, what is kept as dots, scrap as
/// crosses. Every cut gets a character at least, so short ones look longer.
fn bar(source: &CutSource) -> String {
    let place = |at: Mm| {
        let at = at.get() * BAR;
        usize::try_from(at.div_euclid(source.length.get().max(1))).unwrap_or(0)
    };
    let mut bar = String::from("|");
    let mut drawn = 0;
    for cut in &source.cuts {
        let wanted = place(cut.at).saturating_sub(drawn + 1).max(1);
        bar.extend(std::iter::repeat_n('=', wanted));
        bar.push('|');
        drawn += wanted + 1;
    }
    let rest = usize::try_from(BAR).unwrap_or(0).saturating_sub(drawn);
    let rest = if source.left > Mm::ZERO { rest.max(1) } else { 0 };
    bar.extend(std::iter::repeat_n(if source.keep { '.' } else { 'x' }, rest));
    bar
}

/// How good the plan is, goal by goal.
fn quality(plan: &Plan, cuts: &CutPlan) -> String {
    if cuts.proven {
        return "proven best: no plan costs less, then wastes less, then leaves more".to_owned();
    }
    let goals = &cuts.goals;
    let paid = if goals.paid.is_proven() {
        "price proven best".to_owned()
    } else if cuts.price.is_some() {
        let gap = money(plan, Cents::new(goals.paid.gap()));
        format!("price within {gap} of the best possible")
    } else {
        format!("metres bought within {} m of the least", metres(Mm::new(goals.paid.gap())))
    };
    let scrap = if goals.scrap.is_proven() {
        "scrap proven least".to_owned()
    } else {
        format!("scrap within {} m of the least", metres(Mm::new(goals.scrap.gap())))
    };
    let drums = if goals.from_drums.is_proven() {
        "what is left on new drums proven most".to_owned()
    } else {
        let gap = metres(Mm::new(goals.from_drums.gap()));
        format!("what is left on new drums within {gap} m of the most")
    };
    format!("{paid}; {scrap}; {drums}")
}

/// Metres to the millimetre.
pub(super) fn metres(length: Mm) -> String {
    let sign = if length < Mm::ZERO { "-" } else { "" };
    let length = length.abs().get();
    format!("{sign}{}.{:03}", length.div_euclid(1000), length.rem_euclid(1000))
}

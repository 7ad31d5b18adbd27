//! `wirewend cuts`: what to cut from which drum, and where.

use std::fmt::Write as _;
use std::path::Path;

use serde_json::json;
use wirewend::plan::{self, Labels, Plan};
use wirewend::takeoff::{CutPlan, CutSource, Slice, SourceKind};
use wirewend::units::{Cents, Mm};
use wirewend::wording::metres_to_mm as metres;

use super::amounts::money;
use super::findings;
use super::own_rules::OwnRules;
use super::taken_off::{CAUTION, TakenOff};

/// Printed under every cut plan.
const BEFORE_CUTTING: &str = "Marks run from the free end of each piece; where a sheath bears metre marks, add the one at that end. Measure before cutting, and cut one trial leg first.\n";

/// Plans the cuts of a plan, or only those still to be made.
pub(super) fn run(
    path: &Path,
    rules: &OwnRules,
    (left_only, as_json): (bool, bool),
) -> Result<String, String> {
    let job = TakenOff::read(path, &rules.book()?)?;
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
    let slices = cuts.in_order();
    let all: Mm = slices.iter().map(|slice| slice.piece.length).sum();
    let told = if cuts.sources.is_empty() {
        let legs = if slices.len() == 1 { "1 leg" } else { &format!("{} legs", slices.len()) };
        format!("nothing in stock to cut {legs} from, {} m", metres(all))
    } else {
        format!("{} cuts, {} m", slices.len(), metres(all))
    };
    let _ = writeln!(text, "{}: {told}", cuts.cable);
    let same = |a: &Slice<'_>, b: &Slice<'_>| {
        a.source.map(|source| &source.name) == b.source.map(|source| &source.name)
    };
    for slices in slices.chunk_by(same) {
        match (slices[0].source, &cuts.to_buy.by_the_metre) {
            (Some(source), _) => drawn(text, source),
            (None, Some(some)) => {
                let (buy, cuts) = (metres(some.buy.value), metres(some.cuts));
                let _ = writeln!(
                    text,
                    "\n  by the metre, {buy} m: no drum or off-cut holds these {cuts} m; in one length, or a piece for each"
                );
            }
            (None, None) => text.push_str("\n  no length\n"),
        }
        let _ = writeln!(text, "    from m      cut at m  length m  leg     from      to");
        slices.iter().for_each(|slice| one(text, plan, marks, slice));
    }
    text.push_str("\n  ");
    text.push_str(&to_buy(plan, cuts));
    if !cuts.sources.is_empty() {
        let _ = write!(text, "\n  {}", quality(plan, cuts));
    }
    text.push_str("\n\n");
}

/// What to buy, what it costs, and what is left of it.
fn to_buy(plan: &Plan, cuts: &CutPlan) -> String {
    let mut told: Vec<String> = Vec::new();
    for kind in &cuts.to_buy.drums {
        told.push(format!("{} × {} m", kind.names.len(), metres(kind.length)));
    }
    if let Some(some) = &cuts.to_buy.by_the_metre {
        let waste = metres(cuts.to_buy.waste());
        told.push(format!("{} m by the metre, {waste} m of it for waste", metres(some.buy.value)));
    }
    let price = match &cuts.price {
        _ if cuts.to_buy.drums.is_empty() => String::new(),
        Some(price) => format!("; drums for {}", money(plan, price.value)),
        None => "; not every drum has a price".to_owned(),
    };
    let told = if told.is_empty() { "nothing".to_owned() } else { told.join(", ") };
    // Where nothing is cut into, nothing is left of it either.
    let left = if cuts.sources.is_empty() {
        String::new()
    } else {
        let (scrap, keep) = (metres(cuts.scrap.value), metres(cuts.left_over.value));
        format!("; scrap {scrap} m; left over to keep {keep} m")
    };
    format!("to buy: {told}{price}{left}")
}

fn drawn(text: &mut String, source: &CutSource) {
    let fate = match (source.left > Mm::ZERO, source.keep) {
        (false, _) => "nothing left".to_owned(),
        (true, true) => format!("{} m left to keep", metres(source.left)),
        (true, false) => format!("{} m scrap", metres(source.left)),
    };
    let new = if matches!(source.what, SourceKind::Drum { .. }) { " (new)" } else { "" };
    let (name, length) = (&source.name, metres(source.length));
    let _ = writeln!(text, "\n  {name}{new}, {length} m: {fate}\n  {}", bar(source));
}

fn one(text: &mut String, plan: &Plan, marks: &Labels, slice: &Slice<'_>) {
    let piece = slice.piece;
    let circuit = plan.circuits.get(&piece.circuit);
    let number = |circuit| marks.leg(circuit, piece.leg);
    let _ = writeln!(
        text,
        "    {:>8} to {:>8}  {:>8}  {:<7} {:<9} {:<9}{}",
        metres(slice.from),
        metres(slice.to),
        metres(piece.length),
        circuit.map_or_else(String::new, number),
        marks.end(piece.from),
        marks.end(piece.to),
        if piece.done { " done, as measured" } else { "" },
    );
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

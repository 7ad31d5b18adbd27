//! From legs and stock to the cut plans.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use super::cutting::{DrumType, Effort, Goals, Job, solve};
use super::{Cut, CutPlan, CutSource, Piece, SourceKind};
use crate::lengths::Lengths;
use crate::plan::{Cable, Finding, Labels, Plan, Severity, Subject, labels};
use crate::runs::Runs;
use crate::units::{Cents, Mm, Term, Worked, Working};

/// The cuts that are still to be made: legs that have a measured length were
/// cut already, and the stock is taken as it is now.
#[must_use]
pub fn cuts_left(plan: &Plan, runs: &Runs, lengths: &Lengths) -> (Vec<CutPlan>, Vec<Finding>) {
    let mut findings = Vec::new();
    let effort = Effort::default();
    let cuts = cut_plans(plan, runs, lengths, &effort, |piece| !piece.done, &mut findings);
    (cuts, findings)
}

/// A cut plan for every type of cable, of the pieces that are wanted.
pub(super) fn cut_plans(
    plan: &Plan,
    runs: &Runs,
    lengths: &Lengths,
    effort: &Effort,
    wanted: fn(&Piece) -> bool,
    findings: &mut Vec<Finding>,
) -> Vec<CutPlan> {
    let marks = labels(plan);
    let mut cables: BTreeMap<Cable, Vec<Piece>> = BTreeMap::new();
    for (id, run) in &runs.circuits {
        let measured = lengths.circuits.get(id).into_iter().flatten();
        for (leg, length) in run.legs.iter().zip(measured) {
            let Some(cable) = leg.cable else { continue };
            let piece = Piece {
                circuit: *id,
                leg: leg.number,
                from: leg.from,
                to: leg.to,
                length: length.cut_or_measured(),
                done: length.measured.is_some(),
            };
            if wanted(&piece) {
                cables.entry(cable).or_default().push(piece);
            }
        }
    }
    cables
        .into_iter()
        .map(|(cable, pieces)| cut_plan(plan, &marks, cable, pieces, effort, findings))
        .collect()
}

/// What the stock holds of one cable, with the places in its lists.
struct OfCable {
    job: Job,
    off_cuts: Vec<usize>,
    drums: Vec<usize>,
    /// Whether every drum has a price, so that plans are chosen by it.
    priced: bool,
}

fn of_cable(plan: &Plan, cable: Cable, pieces: &[Piece]) -> OfCable {
    let stock = &plan.stock;
    let fits = |of: Cable, length: Mm| of == cable && length > Mm::ZERO;
    let off_cuts: Vec<usize> = (0..stock.off_cuts.len())
        .filter(|at| fits(stock.off_cuts[*at].cable, stock.off_cuts[*at].length))
        .collect();
    let drums: Vec<usize> = (0..stock.drums.len())
        .filter(|at| fits(stock.drums[*at].cable, stock.drums[*at].length))
        .collect();
    let priced = drums.iter().all(|at| stock.drums[*at].price.is_some_and(|it| it > Cents::ZERO));
    let drum = |at: &usize| {
        let drum = &stock.drums[*at];
        let price = drum.price.filter(|_| priced).map_or(drum.length.get(), Cents::get);
        DrumType { length: drum.length.get(), price }
    };
    let job = Job {
        pieces: pieces.iter().map(|piece| piece.length.get()).collect(),
        off_cuts: off_cuts.iter().map(|at| stock.off_cuts[*at].length.get()).collect(),
        drums: drums.iter().map(drum).collect(),
        usable: stock.usable.get(),
    };
    OfCable { job, off_cuts, drums, priced }
}

fn cut_plan(
    plan: &Plan,
    marks: &Labels,
    cable: Cable,
    pieces: Vec<Piece>,
    effort: &Effort,
    findings: &mut Vec<Finding>,
) -> CutPlan {
    let (pieces, empty): (Vec<Piece>, Vec<Piece>) =
        pieces.into_iter().partition(|piece| piece.length > Mm::ZERO);
    let of = of_cable(plan, cable, &pieces);
    let (filled, goals) = solve(&of.job, effort);
    let mut sources = Vec::new();
    for (at, filling) in filled.off_cuts.iter().enumerate().filter(|(_, it)| !it.is_empty()) {
        let index = of.off_cuts[at];
        let off_cut = &plan.stock.off_cuts[index];
        let what = SourceKind::OffCut { index, label: off_cut.label.clone() };
        sources.push(source(plan, what, off_cut.length, None, filling, &pieces));
    }
    let mut drums: Vec<CutSource> = Vec::new();
    for (kind, filling) in &filled.drums {
        let index = of.drums[*kind];
        let drum = &plan.stock.drums[index];
        let what = SourceKind::Drum { number: 0, index };
        drums.push(source(plan, what, drum.length, drum.price, filling, &pieces));
    }
    drums.sort_by_key(|drum| (drum.left, Reverse(drum.length)));
    for (at, drum) in drums.iter_mut().enumerate() {
        if let SourceKind::Drum { number, .. } = &mut drum.what {
            *number = at + 1;
        }
    }
    sources.append(&mut drums);
    let longest = Mm::new(of.job.longest_source());
    let is_cut = |piece: &Piece| {
        let mut cuts = sources.iter().flat_map(|source| &source.cuts);
        cuts.any(|cut| (cut.piece.circuit, cut.piece.leg) == (piece.circuit, piece.leg))
    };
    let uncut: Vec<Piece> = pieces.into_iter().filter(|piece| !is_cut(piece)).collect();
    findings.extend(uncut.iter().map(|piece| too_long(marks, cable, piece, longest)));
    // A leg of no length takes no cable; it is kept so that every leg is somewhere.
    let uncut = [uncut, empty].concat();
    totals(cable, sources, uncut, goals, of.priced)
}

fn source(
    plan: &Plan,
    what: SourceKind,
    length: Mm,
    price: Option<Cents>,
    filling: &[usize],
    pieces: &[Piece],
) -> CutSource {
    let mut order: Vec<Piece> = filling.iter().map(|at| pieces[*at]).collect();
    order.sort_by_key(|piece| (Reverse(piece.length), piece.circuit, piece.leg));
    let mut at = Mm::ZERO;
    let cuts = order
        .into_iter()
        .map(|piece| {
            let from = at;
            at += piece.length;
            Cut { piece, from, at }
        })
        .collect();
    let left = length - at;
    CutSource {
        what,
        length,
        price,
        cuts,
        left,
        keep: left > Mm::ZERO && left >= plan.stock.usable,
    }
}

fn too_long(marks: &Labels, cable: Cable, piece: &Piece, longest: Mm) -> Finding {
    let (circuit, from, to) = (piece.circuit, piece.from, piece.to);
    let leg = format!("the leg from {} to {}", marks.end(from), marks.end(to));
    let subject = Subject::Leg { circuit, from, to };
    let (code, severity, message, remedy) = if longest == Mm::ZERO {
        (
            "no-stock",
            Severity::Missing,
            format!("{leg} has nothing to be cut from: the stock holds no {cable}"),
            "add a drum of this cable to the stock",
        )
    } else if piece.length <= longest {
        (
            "leg-too-long",
            Severity::Fault,
            format!("{leg} is longer than every drum of {cable}, and no off-cut is left for it"),
            "get a longer drum, or put a point with terminals on the way",
        )
    } else {
        (
            "leg-too-long",
            Severity::Fault,
            format!(
                "{leg} is longer than every drum and off-cut of {cable}; a leg is never joined"
            ),
            "get a longer drum, or put a point with terminals on the way",
        )
    };
    Finding::new(code, severity, subject, message, remedy).against(
        piece.length.to_string(),
        longest.to_string(),
        "stock",
    )
}

fn totals(
    cable: Cable,
    sources: Vec<CutSource>,
    uncut: Vec<Piece>,
    goals: Goals,
    priced: bool,
) -> CutPlan {
    let drums = || sources.iter().filter(|it| matches!(it.what, SourceKind::Drum { .. }));
    let cut = worked(
        "cuts added up",
        sources.iter().map(|it| {
            let cuts: Mm = it.cuts.iter().map(|cut| cut.piece.length).sum();
            (name(it), cuts)
        }),
    );
    let bought = worked("new drums added up", drums().map(|it| (name(it), it.length)));
    let is_scrap = |it: &&CutSource| !it.keep && it.left > Mm::ZERO;
    let scrap = worked(
        "left-overs too short to keep",
        sources.iter().filter(is_scrap).map(|it| (name(it), it.left)),
    );
    let left_over = worked(
        "left-overs worth keeping",
        sources.iter().filter(|it| it.keep).map(|it| (name(it), it.left)),
    );
    let price = (priced && uncut.iter().all(|piece| piece.length == Mm::ZERO)).then(|| {
        let terms = drums()
            .map(|it| Term::new(name(it), it.price.unwrap_or_default().get(), "stock"))
            .collect();
        let value = drums().filter_map(|it| it.price).sum();
        Worked { value, working: Working { formula: "new drums added up".to_owned(), terms } }
    });
    let proven = goals.are_proven() && uncut.is_empty();
    CutPlan { cable, sources, uncut, cut, bought, price, scrap, left_over, goals, proven }
}

fn worked(formula: &str, parts: impl Iterator<Item = (String, Mm)>) -> Worked<Mm> {
    let parts: Vec<(String, Mm)> = parts.collect();
    let value = parts.iter().map(|(_, length)| *length).sum();
    let terms =
        parts.into_iter().map(|(what, length)| Term::new(what, length, "cut plan")).collect();
    Worked { value, working: Working { formula: formula.to_owned(), terms } }
}

/// A source as people call it.
fn name(source: &CutSource) -> String {
    match &source.what {
        SourceKind::OffCut { label, index } if label.is_empty() => {
            format!("off-cut {} of {}", index + 1, source.length)
        }
        SourceKind::OffCut { label, .. } => format!("off-cut \"{label}\" of {}", source.length),
        SourceKind::Drum { number, .. } => format!("drum {number} of {}", source.length),
    }
}

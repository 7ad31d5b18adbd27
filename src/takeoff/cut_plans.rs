//! From legs and stock to the cut plans.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use super::cutting::{DrumType, Effort, Goals, Job, solve};
use super::{Cut, CutPlan, CutSource, Piece, SourceKind, ToBuy};
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
    let mut drums = 0;
    let made = cables.into_iter().map(|(cable, pieces)| {
        cut_plan(plan, &marks, &mut drums, (cable, pieces), effort, findings)
    });
    made.collect()
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
    drum_count: &mut usize,
    (cable, pieces): (Cable, Vec<Piece>),
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
        drum.name = format!("drum {}", letters(*drum_count));
        *drum_count += 1;
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
    let to_buy = ToBuy::of(plan, &sources, &uncut);
    totals((cable, to_buy), sources, uncut, goals, of.priced)
}

/// Drums of a job are told apart by letters, since their numbers begin anew
/// with every cable: A to Z, AA, AB and so on.
fn letters(mut number: usize) -> String {
    let mut letters = Vec::new();
    loop {
        let letter = u8::try_from(number % 26).unwrap_or(0);
        letters.push(char::from(b'A' + letter));
        if number < 26 {
            return letters.iter().rev().collect();
        }
        number = number.div_euclid(26) - 1;
    }
}

/// What people call an off-cut: by what is written on it, and by its place in
/// the stock where that is nothing or written on another too.
fn off_cut_name(plan: &Plan, index: usize) -> String {
    let base = |index: usize| {
        let label = plan.stock.off_cuts.get(index).map_or("", |one| one.label.trim());
        if label.is_empty() { format!("no. {}", index + 1) } else { label.to_owned() }
    };
    let own = base(index);
    let shared = (0..plan.stock.off_cuts.len()).any(|other| other != index && base(other) == own);
    if shared { format!("off-cut {own} ({})", index + 1) } else { format!("off-cut {own}") }
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
    // What was cut already lies before everything that is still to be cut.
    order.sort_by_key(|piece| (!piece.done, Reverse(piece.length), piece.circuit, piece.leg));
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
    let name = match &what {
        SourceKind::OffCut { index, .. } => off_cut_name(plan, *index),
        // Its letter is given once all drums are in their order.
        SourceKind::Drum { .. } => String::new(),
    };
    CutSource {
        what,
        name,
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
    (cable, to_buy): (Cable, ToBuy),
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
    CutPlan { cable, sources, uncut, to_buy, cut, bought, price, scrap, left_over, goals, proven }
}

fn worked(formula: &str, parts: impl Iterator<Item = (String, Mm)>) -> Worked<Mm> {
    let parts: Vec<(String, Mm)> = parts.collect();
    let value = parts.iter().map(|(_, length)| *length).sum();
    let terms =
        parts.into_iter().map(|(what, length)| Term::new(what, length, "cut plan")).collect();
    Worked { value, working: Working { formula: formula.to_owned(), terms } }
}

/// A source as workings call it.
fn name(source: &CutSource) -> String {
    format!("{} of {}", source.name, source.length)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{CableMake, OffCut};
    use crate::units::Csa;

    #[test]
    fn drums_get_letters_that_never_come_twice() {
        let told: Vec<String> = [0, 1, 25, 26, 27, 51, 52, 701, 702].map(letters).into();
        assert_eq!(told, ["A", "B", "Z", "AA", "AB", "AZ", "BA", "ZZ", "AAA"], "by hand");
    }

    #[test]
    fn off_cuts_are_called_by_their_labels_and_told_apart() {
        let cable = Cable { cores: 2, size: Csa::from_hundredths(250), make: CableMake::Flat };
        let mut plan = Plan::default();
        plan.stock.off_cuts = ["red", "", "blue", "red", "no. 2"]
            .map(|label| OffCut { cable, length: Mm::new(5000), label: label.to_owned() })
            .into();
        let told: Vec<String> = (0..5).map(|at| off_cut_name(&plan, at)).collect();
        let wanted = [
            "off-cut red (1)",
            "off-cut no. 2 (2)",
            "off-cut blue",
            "off-cut red (4)",
            "off-cut no. 2 (5)",
        ];
        assert_eq!(told, wanted, "no two alike");
    }
}

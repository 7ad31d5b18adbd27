//! From routed legs to the three lengths.

use super::basis::{Basis, Tail};
use super::{CableLength, LegLength, Lengths, Memory};
use crate::plan::{Cable, Plan, labels};
use crate::runs::Runs;
use crate::units::{Mm, Term, Worked, Working};

/// The lengths of every leg, and the order length of every type of cable.
///
/// route = geometry + turn-overs + pull + void loop
///
/// cut = (route + tails + drip loops), rounded up to the step
///
/// order = Σ cut + waste
///
/// All in mm; each allowance is the plan's own, editable figure (*common
/// practice*, nobody's rule). A leg of 10 000 mm through two plates with
/// 150 mm turn-overs, 5 % pull, tails of 1500 and 300 mm and a step of 100 mm:
/// route 10 000 + 300 + 500 = 10 800, cut 12 600.
#[must_use]
pub fn measure(plan: &Plan, runs: &Runs) -> Lengths {
    measure_with(plan, runs, None)
}

/// The same, and sooner where little has changed since the last time.
#[must_use]
pub fn measure_again(plan: &Plan, runs: &Runs, memory: &mut Memory) -> Lengths {
    memory.look_at(&plan.allowances);
    memory.keep(|id| runs.circuits.contains_key(&id));
    measure_with(plan, runs, Some(memory))
}

fn measure_with(plan: &Plan, runs: &Runs, mut memory: Option<&mut Memory>) -> Lengths {
    let marks = labels(plan);
    let mut lengths = Lengths::default();
    let make = |legs: &[Basis<'_>]| legs.iter().map(|leg| leg_length(plan, leg)).collect();
    for (id, run) in &runs.circuits {
        let legs: Vec<_> = run.legs.iter().map(|leg| Basis::of(plan, &marks, leg)).collect();
        let made = match memory.as_deref_mut() {
            Some(memory) => memory.lengths(*id, legs, make),
            None => make(&legs),
        };
        lengths.circuits.insert(*id, made);
    }
    lengths.cables = cables(plan, runs, &lengths);
    lengths
}

fn leg_length(plan: &Plan, leg: &Basis<'_>) -> LegLength {
    let route = route_length(plan, leg);
    let mut terms = vec![term("route", route.value, "the working of the route length")];
    let mut sum = route.value;
    for Tail { mark, length, is_wet } in &leg.ends {
        terms.push(term(&format!("tail at {mark}"), *length, "allowance, common practice"));
        sum += *length;
        if *is_wet {
            let loop_length = plan.allowances.drip_loop.times(2);
            terms.push(term(
                &format!("drip loop at {mark}"),
                loop_length,
                "allowance, down and up again, common practice",
            ));
            sum += loop_length;
        }
    }
    let step = plan.allowances.step;
    let cut = Worked {
        value: sum.round_up_to(step),
        working: Working { formula: format!("all terms, rounded up to {step}"), terms },
    };
    let [tail_from, tail_to] = [leg.ends[0].length, leg.ends[1].length];
    LegLength { route, cut, tail_from, tail_to, measured: leg.measured }
}

fn route_length(plan: &Plan, leg: &Basis<'_>) -> Worked<Mm> {
    let allowances = &plan.allowances;
    let Basis { geometry, plates, in_void, .. } = *leg;
    let turns = allowances.turn_over.times(plates);
    let pull = geometry.permille_up(i64::from(allowances.pull_permille));
    let void_loop = if in_void { allowances.void_loop } else { Mm::ZERO };
    let terms = vec![
        term("straight parts added up", geometry, "drawing"),
        term(
            &format!("turn-over at {plates} {}", if plates == 1 { "plate" } else { "plates" }),
            turns,
            "allowance, common practice",
        ),
        term(&format!("pull, {} ‰", allowances.pull_permille), pull, "allowance, common practice"),
        term("loop left in the void", void_loop, "allowance, common practice"),
    ];
    Worked {
        value: geometry + turns + pull + void_loop,
        working: Working { formula: "sum of the terms".to_owned(), terms },
    }
}

fn term(what: &str, value: Mm, source: &str) -> Term {
    Term::new(what, value, source)
}

fn cables(plan: &Plan, runs: &Runs, lengths: &Lengths) -> Vec<CableLength> {
    let mut pieces: Vec<(Option<Cable>, Mm)> = Vec::new();
    for (id, run) in &runs.circuits {
        let measured = lengths.circuits.get(id).into_iter().flatten();
        pieces.extend(
            run.legs
                .iter()
                .zip(measured)
                .map(|(leg, length)| (leg.cable, length.cut_or_measured())),
        );
    }
    pieces.sort_unstable();
    pieces
        .chunk_by(|a, b| a.0 == b.0)
        .map(|group| {
            let cut: Mm = group.iter().map(|piece| piece.1).sum();
            let permille = plan.allowances.waste_permille;
            let waste = cut.permille_up(i64::from(permille));
            let terms = vec![
                term(&format!("{} pieces", group.len()), cut, "cut lengths"),
                term(&format!("waste, {permille} ‰"), waste, "allowance, common practice"),
            ];
            let working = Working { formula: "pieces + waste".to_owned(), terms };
            let order = Worked { value: cut + waste, working };
            CableLength { cable: group[0].0, pieces: group.len(), cut, order }
        })
        .collect()
}

//! From routed legs to the three lengths.

use super::{CableLength, LegLength, Lengths};
use crate::plan::{Cable, End, Labels, Place, Plan, Plane, labels};
use crate::runs::{Leg, Runs};
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
    let marks = labels(plan);
    let mut lengths = Lengths::default();
    for (id, run) in &runs.circuits {
        let legs = run.legs.iter().map(|leg| leg_length(plan, &marks, leg)).collect();
        lengths.circuits.insert(*id, legs);
    }
    lengths.cables = cables(plan, runs, &lengths);
    lengths
}

fn leg_length(plan: &Plan, marks: &Labels, leg: &Leg) -> LegLength {
    let route = route_length(plan, leg);
    let (tail_from, tail_to) = (tail(plan, leg.from), tail(plan, leg.to));
    let mut terms = vec![term("route", route.value, "the working of the route length")];
    let mut sum = route.value;
    for (end, tail) in [(leg.from, tail_from), (leg.to, tail_to)] {
        terms.push(term(
            &format!("tail at {}", marks.end(end)),
            tail,
            "allowance, common practice",
        ));
        sum += tail;
        if is_wet(plan, end) {
            let loop_length = plan.allowances.drip_loop.times(2);
            terms.push(term(
                &format!("drip loop at {}", marks.end(end)),
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
    LegLength { route, cut, tail_from, tail_to, measured: measured(plan, leg) }
}

fn route_length(plan: &Plan, leg: &Leg) -> Worked<Mm> {
    let allowances = &plan.allowances;
    let geometry = leg.route.length;
    let plates = i64::try_from(leg.route.plate_passages().len()).unwrap_or(0);
    let turns = allowances.turn_over.times(plates);
    let pull = geometry.permille_up(i64::from(allowances.pull_permille));
    let crosses = |plane: &Option<Plane>| matches!(plane, Some(Plane::Void(_)));
    let void_loop = if leg.route.segments.iter().any(|segment| crosses(&segment.plane)) {
        allowances.void_loop
    } else {
        Mm::ZERO
    };
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

fn tail(plan: &Plan, end: End) -> Mm {
    match end {
        End::Board(_) => plan.allowances.tail_board,
        End::Point(id) => plan.points.get(&id).map_or(Mm::ZERO, |point| {
            point.tail.unwrap_or_else(|| plan.allowances.tail(point.kind))
        }),
    }
}

/// Whether rain can reach the face that an end is on.
fn is_wet(plan: &Plan, end: End) -> bool {
    let Some(Place::Wall(on)) = plan.place_of(end) else { return false };
    plan.walls.get(&on.wall).is_some_and(|wall| wall.wet == Some(on.face))
}

fn measured(plan: &Plan, leg: &Leg) -> Option<Mm> {
    let same = |from, to| (from, to) == (leg.from, leg.to) || (to, from) == (leg.from, leg.to);
    plan.measured
        .iter()
        .find(|entry| entry.circuit == leg.circuit && same(entry.from, entry.to))
        .map(|entry| entry.length)
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

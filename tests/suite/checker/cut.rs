//! The lengths of each leg are its geometry and the plan's allowances.

use wirewend::lengths::{LegLength, Lengths};
use wirewend::plan::{End, Place, Plan};
use wirewend::runs::{Leg, Runs};
use wirewend::units::Mm;

use super::complaint::{Code, Complaints};
use super::joints::flush;
use super::medium::Medium;
use super::walk::{Case, Walk};

pub(crate) fn judge(plan: &Plan, runs: &Runs, lengths: &Lengths, book: &mut Complaints) {
    for case in Case::all(plan, runs) {
        let made = lengths.circuits.get(&case.id).map_or(&[][..], |legs| legs.as_slice());
        if made.len() != case.run.legs.len() {
            let text = format!("{} lengths for {} legs", made.len(), case.run.legs.len());
            book.circuit(Code::LengthMissing, case.id, text);
            continue;
        }
        for (leg, length) in case.run.legs.iter().zip(made) {
            let walk = Walk::of(plan, case.circuit, leg);
            judge_route(&walk, length, book);
            judge_cut(plan, leg, length, book);
            judge_measured(plan, leg, length, book);
        }
    }
}

/// route = geometry + a turn-over for each plate + the pull allowance + a loop
/// where a void is crossed.
fn judge_route(walk: &Walk, length: &LegLength, book: &mut Complaints) {
    let allowances = &walk.plan.allowances;
    let geometry = walk.leg.route.length;
    let crosses = walk.pieces().any(|(_, _, medium)| matches!(medium, Medium::Void(_)));
    let void_loop = if crosses { allowances.void_loop } else { Mm::ZERO };
    let pull = geometry.permille_up(i64::from(allowances.pull_permille));
    let wanted = geometry + allowances.turn_over.times(plates(walk)) + pull + void_loop;
    let said = length.route.value;
    if said < geometry {
        let text = format!("says {said}, its segments are {geometry}");
        book.leg(Code::RouteShort, walk.leg, text);
    } else if said != wanted {
        book.leg(Code::RouteTerms, walk.leg, format!("says {said}, the terms make {wanted}"));
    }
}

/// How often a leg passes a plate between a wall and a void.
fn plates(walk: &Walk) -> i64 {
    let through = walk.pieces().filter(|(_, _, medium)| matches!(medium, Medium::Plate(..)));
    let flat = walk.pairs().filter(|(_, [one, _], media)| match media {
        [Medium::Wall(wall), Medium::Void(void)] | [Medium::Void(void), Medium::Wall(wall)] => {
            flush(walk, one.to, *wall, *void)
        }
        _ => false,
    });
    through.map(|_| 1).sum::<i64>() + flat.map(|_| 1).sum::<i64>()
}

/// cut = route + tails + two dips at each end on a wet face, rounded up.
fn judge_cut(plan: &Plan, leg: &Leg, length: &LegLength, book: &mut Complaints) {
    for (end, said) in [(leg.from, length.tail_from), (leg.to, length.tail_to)] {
        let wanted = tail(plan, end);
        if said != wanted {
            let text = format!("says {said} at {end}, not {wanted}");
            book.leg(Code::Tail, leg, text);
        }
    }
    let drips = drip(plan, leg.from) + drip(plan, leg.to);
    let bare = length.route.value + length.tail_from + length.tail_to + drips;
    let step = plan.allowances.step.get().max(1);
    let wanted = (bare.get() + step - 1).div_euclid(step) * step;
    if length.cut.value.get() != wanted {
        let text = format!("says {}, the terms make {wanted} mm", length.cut.value);
        book.leg(Code::Cut, leg, text);
    }
}

fn tail(plan: &Plan, end: End) -> Mm {
    match end {
        End::Board(_) => plan.allowances.tail_board,
        End::Point(id) => plan.points.get(&id).map_or(Mm::ZERO, |point| {
            point.tail.unwrap_or_else(|| plan.allowances.tail(point.kind))
        }),
    }
}

/// The cable that the dip before a box takes, down and up again.
fn drip(plan: &Plan, end: End) -> Mm {
    let Some(Place::Wall(on)) = plan.place_of(end) else { return Mm::ZERO };
    let wet = plan.walls.get(&on.wall).is_some_and(|wall| wall.wet == Some(on.face));
    if wet { plan.allowances.drip_loop.times(2) } else { Mm::ZERO }
}

/// A measured length is kept as it was measured, whichever end was named
/// first; a leg that was not measured has none.
fn judge_measured(plan: &Plan, leg: &Leg, length: &LegLength, book: &mut Complaints) {
    let known: Vec<Mm> = plan
        .measured
        .iter()
        .filter(|one| one.circuit == leg.circuit)
        .filter(|one| {
            (one.from, one.to) == (leg.from, leg.to) || (one.to, one.from) == (leg.from, leg.to)
        })
        .map(|one| one.length)
        .collect();
    let kept = length.measured.map_or(known.is_empty(), |measured| known.contains(&measured));
    if !kept {
        let text = format!("{:?}, but {known:?} in the plan", length.measured);
        book.leg(Code::Measured, leg, text);
    }
}

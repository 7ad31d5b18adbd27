//! The numbers of legs: those that papers said stay with their ends, new legs
//! get new ones.

use std::collections::{BTreeMap, VecDeque};

use super::{Leg, Runs};
use crate::plan::{CircuitId, End, Kept, KeptLeg, Plan};

/// Numbers the legs of runs again by what a plan keeps, as routing does.
#[must_use]
pub fn numbered(kept: &Kept, mut runs: Runs) -> Runs {
    let mut by_circuit: BTreeMap<CircuitId, Vec<&KeptLeg>> = BTreeMap::new();
    for leg in &kept.legs {
        by_circuit.entry(leg.circuit).or_default().push(leg);
    }
    for (id, run) in &mut runs.circuits {
        number(&mut run.legs, by_circuit.get(id).map_or(&[], Vec::as_slice));
    }
    runs
}

pub(super) fn give(plan: &Plan, runs: &mut Runs) {
    *runs = numbered(&plan.kept, std::mem::take(runs));
}

/// A number belongs to a pair of ends, whichever way round. Where two legs join
/// the same two, as in a ring of one point, each has its own.
fn number(legs: &mut [Leg], kept: &[&KeptLeg]) {
    let mut known: BTreeMap<[End; 2], VecDeque<u32>> = BTreeMap::new();
    for one in kept {
        known.entry(one.ends()).or_default().push_back(one.number);
    }
    let mut highest = kept.iter().map(|one| one.number).max().unwrap_or(0);
    for leg in legs {
        let pair = [leg.from.min(leg.to), leg.from.max(leg.to)];
        leg.number = known.get_mut(&pair).and_then(VecDeque::pop_front).unwrap_or_else(|| {
            highest = highest.saturating_add(1);
            highest
        });
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{BoardId, PointId};
    use crate::runs::{LegRole, Route};

    fn leg(from: u32, to: u32) -> Leg {
        let end = |id| if id == 0 { End::Board(BoardId(0)) } else { End::Point(PointId(id)) };
        Leg {
            circuit: CircuitId(1),
            number: 0,
            role: LegRole::Feed,
            from: end(from),
            to: end(to),
            cable: None,
            route: Route::default(),
        }
    }

    fn kept(number: u32, from: u32, to: u32) -> KeptLeg {
        let leg = leg(from, to);
        KeptLeg { circuit: leg.circuit, number, from: leg.from, to: leg.to }
    }

    fn check(pairs: &[(u32, u32)], kept: &[KeptLeg], expect: &[u32]) {
        let mut legs: Vec<Leg> = pairs.iter().map(|(from, to)| leg(*from, *to)).collect();
        number(&mut legs, &kept.iter().collect::<Vec<_>>());
        let numbers: Vec<u32> = legs.iter().map(|leg| leg.number).collect();
        assert_eq!(numbers, expect, "{pairs:?}");
    }

    #[test]
    fn pairs_keep_their_numbers_and_new_ones_go_on_from_the_highest() {
        check(&[(0, 1), (1, 2)], &[], &[1, 2]);
        let three = [kept(1, 0, 1), kept(2, 1, 2), kept(3, 2, 3)];
        check(&[(0, 3), (3, 2), (2, 1)], &three, &[4, 3, 2]);
        check(&[(0, 2), (2, 3)], &three, &[4, 3]);
        // A ring of one point: there and back.
        check(&[(0, 1), (1, 0)], &[kept(5, 0, 1), kept(6, 1, 0)], &[5, 6]);
        check(&[(0, 1), (1, 0)], &[kept(5, 0, 1)], &[5, 6]);
    }
}

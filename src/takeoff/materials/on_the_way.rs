//! What legs take on their way: clips, bushes, capping, conduit, trunking,
//! and a label at both ends.

use super::{ItemGroup, Kind, Tally};
use crate::plan::{Access, Cable, CableMake, CircuitId, Plan, Plane};
use crate::runs::{Heading, Leg, Runs, Segment, Surrounding};
use crate::takeoff::practice::{COUNTED, PRACTICE, clip_spacing};
use crate::takeoff::shared::Shared;
use crate::takeoff::{Origin, Quantity};

pub(super) fn count(plan: &Plan, runs: &Runs, tally: &mut Tally) {
    let mut shared = Shared::default();
    for (circuit, run) in &runs.circuits {
        for leg in &run.legs {
            let of = Origin::Leg { circuit: *circuit, leg: leg.number };
            let label =
                kind(ItemGroup::Labels, "label_cable", "label at both ends of a cable", COUNTED);
            tally.add(label, of, Quantity::Each(2));
            if leg.cable.is_some_and(|cable| cable.make == CableMake::Armoured) {
                let name = "gland for armour, with earth tag, at both ends of a cable";
                let gland = kind(ItemGroup::Fixings, "gland_armoured", name, PRACTICE);
                tally.add(gland, of, Quantity::Each(2));
            }
            for (at, segment) in leg.route.segments.iter().enumerate() {
                let of = Origin::Segment { circuit: *circuit, leg: leg.number, segment: at };
                if let Some(cable) = leg.cable {
                    clips(plan, cable, segment, of, tally);
                }
                enclosure(leg.cable, segment, of, &mut shared, tally);
            }
            bushes(*circuit, leg, tally);
        }
    }
}

/// Clips on a stretch that is fixed, not drawn in: at its spacing, and one
/// more to begin with. Across joists that are drilled the joists hold it.
fn clips(plan: &Plan, cable: Cable, segment: &Segment, of: Origin, tally: &mut Tally) {
    let in_reach = |segment: &Segment| match segment.plane {
        Some(Plane::Void(id)) => {
            plan.voids.get(&id).is_some_and(|void| void.access != Access::Closed)
        }
        _ => false,
    };
    let drilled = segment.heading == Heading::AcrossJoists;
    let clipped = match segment.through {
        Surrounding::RoofSpace => in_reach(segment),
        Surrounding::BetweenFloors | Surrounding::Subfloor => in_reach(segment) && !drilled,
        _ => false,
    };
    if !clipped || cable.make == CableMake::SinglesInConduit {
        return;
    }
    let spacing = clip_spacing(cable);
    let upright = matches!(segment.heading, Heading::Up | Heading::Down);
    let every = if upright { spacing.upright } else { spacing.level };
    let gaps = segment.length.round_up_to(every).get().div_euclid(every.get());
    let count = u32::try_from(gaps + 1).unwrap_or(u32::MAX);
    let code = format!("clip_{}x{}", cable.cores, cable.size.mm2());
    let name = format!("clip for {cable}");
    let kind = Kind { group: ItemGroup::Fixings, code, name, source: PRACTICE };
    tally.add(kind, of, Quantity::Each(count));
}

/// What a stretch lies in. Legs side by side share their chase and their
/// trunking.
fn enclosure(
    cable: Option<Cable>,
    segment: &Segment,
    of: Origin,
    shared: &mut Shared,
    tally: &mut Tally,
) {
    let fixing = |code, name| kind(ItemGroup::Fixings, code, name, PRACTICE);
    let length = Quantity::Length(segment.length);
    if cable.is_some_and(|cable| cable.make == CableMake::SinglesInConduit) {
        return tally.add(fixing("conduit", "conduit"), of, length);
    }
    let armoured = cable.is_some_and(|cable| cable.make == CableMake::Armoured);
    let first = |shared: &mut Shared| Quantity::Length(shared.first_use(segment));
    match segment.through {
        Surrounding::Chase => tally.add(fixing("capping", "capping in a chase"), of, first(shared)),
        Surrounding::Surface => {
            tally.add(fixing("trunking", "trunking on the surface"), of, first(shared));
        }
        Surrounding::Ground if !armoured => {
            tally.add(fixing("conduit_ground", "conduit in the ground"), of, length);
        }
        Surrounding::Post if !armoured => {
            tally.add(fixing("conduit_post", "conduit up a post"), of, length)
        }
        _ => {}
    }
}

fn bushes(circuit: CircuitId, leg: &Leg, tally: &mut Tally) {
    for at in leg.route.plate_passages() {
        let of = Origin::Segment { circuit, leg: leg.number, segment: at };
        let bush = kind(ItemGroup::Fixings, "bush", "bush where a cable passes a plate", PRACTICE);
        tally.add(bush, of, Quantity::Each(1));
    }
}

fn kind(group: ItemGroup, code: &str, name: &str, source: &'static str) -> Kind {
    Kind { group, code: code.to_owned(), name: name.to_owned(), source }
}

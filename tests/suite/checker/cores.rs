//! Each leg is cut from the circuit's cable, with the cores its role takes;
//! the protective conductor is not counted.

use wirewend::plan::{Cable, Family};
use wirewend::runs::{Leg, LegRole};

use super::complaint::{Code, Complaints};
use super::walk::Case;

pub(crate) fn judge(case: &Case, book: &mut Complaints) {
    for leg in &case.run.legs {
        let wanted = case.circuit.cable.map(|cable| wanted(case, leg, cable));
        if leg.cable != wanted {
            let text = format!("{:?} from {:?}, not {wanted:?}", leg.role, leg.cable);
            book.leg(Code::Cores, leg, text);
        }
    }
}

/// Phase and neutral to a load, which a three-phase circuit's own cable says
/// better; a switched pair to a switch or a light; a pair of strappers and a
/// common, or phase, neutral and link, between two switches or two alarms.
fn wanted(case: &Case, leg: &Leg, cable: Cable) -> Cable {
    match leg.role {
        LegRole::SwitchLeg | LegRole::LightLink => cable.with_cores(2),
        LegRole::Strappers | LegRole::Interlink => cable.with_cores(3),
        LegRole::Feed | LegRole::RingReturn | LegRole::Spur => {
            if feeds_alarms_only(case) {
                cable.with_cores(2)
            } else {
                cable
            }
        }
    }
}

/// A circuit of alarms may be given the cable of its links; its feed still
/// takes a phase and a neutral.
fn feeds_alarms_only(case: &Case) -> bool {
    let mut points = case.plan.points.values().filter(|one| one.circuit == Some(case.id));
    points.all(|point| point.kind.family() == Family::Alarms)
}

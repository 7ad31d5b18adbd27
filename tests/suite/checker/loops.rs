//! The feed of a lighting circuit is looped where the circuit says: at its
//! lights, and then it visits no switch of a control; or at its switches, and
//! then it visits no light of a control that has a switch.

use wirewend::plan::LoopAt;

use super::complaint::{Code, Complaints};
use super::walk::Case;

pub(crate) fn judge(case: &Case, book: &mut Complaints) {
    let Some(loop_at) = case.circuit.loop_at else { return };
    for (id, control) in &case.plan.controls {
        let astray = match loop_at {
            LoopAt::Light if control.lights.is_empty() => &[][..],
            LoopAt::Light => &control.switches[..],
            LoopAt::Switch if control.switches.is_empty() => &[][..],
            LoopAt::Switch => &control.lights[..],
        };
        for point in astray.iter().filter(|point| case.feeds(**point)) {
            let text = format!("the feed goes to {point} of {id}, but loops at the {loop_at:?}");
            book.circuit(Code::Loop, case.id, text);
        }
    }
}

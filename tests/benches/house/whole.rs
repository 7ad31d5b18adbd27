//! From plan to lengths.

use std::hint::black_box;

use wirewend::lengths;
use wirewend::plan::{End, Plan};
use wirewend::runs::{self, chain::Effort};
use wirewend::space::{FastNetwork, Modes, Space, Terminal};

use super::{at, timed};

pub(crate) fn print(plan: &Plan) {
    let terminals = terminals(plan);
    let members: Vec<usize> = (0..terminals.len()).collect();
    let space = Space::of(plan);
    let row = |what: &str, count: usize, work: &mut dyn FnMut()| {
        let mut times: Vec<_> = (0..count).map(|_| timed(&mut *work).0).collect();
        println!(
            "  {what:<44} {:>9.3} ms   worst {:>9.3}",
            at(&mut times, 500),
            at(&mut times, 1000)
        );
    };
    row("space: planes, columns, corners", 21, &mut || {
        black_box(Space::of(plan));
    });
    row("fast network around all ends", 21, &mut || {
        black_box(FastNetwork::of(&space, Modes::of(None), &terminals));
    });
    let fast = FastNetwork::of(&space, Modes::of(None), &terminals);
    row("all distances on it", 21, &mut || {
        black_box(fast.group(&members));
    });
    row("legs and orders of all circuits, space given", 21, &mut || {
        black_box(runs::route(plan, &space, &Effort::default()));
    });
    let routed = runs::route(plan, &space, &Effort::default());
    assert!(routed.findings.is_empty(), "{:?}", routed.findings.first());
    row("lengths with their workings", 21, &mut || {
        black_box(lengths::measure(plan, &routed));
    });
    row("WHOLE HOUSE, plan to lengths", 41, &mut || {
        let routed = runs::route(plan, &Space::of(plan), &Effort::default());
        black_box(lengths::measure(plan, &routed));
    });
}

/// Every placed end of a plan in its space.
pub(crate) fn terminals(plan: &Plan) -> Vec<Terminal> {
    let space = Space::of(plan);
    let boards = plan.boards.keys().copied().map(End::Board);
    let ends = boards.chain(plan.points.keys().copied().map(End::Point));
    ends.filter_map(|end| space.terminal(plan, &plan.place_of(end)?)).collect()
}

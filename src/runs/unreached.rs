//! Why a point cannot be reached, and what would open the way.

use super::finder::{Finder, Ground};
use crate::plan::{Circuit, End, Plan, Way};
use crate::space::{Modes, Space, Swift, Terminal};

/// The reason and the mend, in words.
pub(super) fn why(
    plan: &Plan,
    space: &Space,
    circuit: &Circuit,
    ends: &[(End, Terminal)],
    end: &(End, Terminal),
) -> (String, String) {
    let pair = [ends[0].clone(), end.clone()];
    let opens = |ways: &[Way]| {
        let modes = Modes::of(Some(ways));
        let terminals = pair.clone().map(|end| end.1);
        let swift = Swift::of(space, modes, &terminals);
        if swift.serves(&[0, 1]) {
            return swift.group(&[0, 1]).key(0, 1).is_way();
        }
        let ground = Ground::of(plan, space, circuit, modes, &pair);
        Finder::plain(space, &ground).distance(pair[0].0, pair[1].0).is_some()
    };
    let now: Vec<Way> = circuit
        .ways
        .clone()
        .unwrap_or_else(|| Way::ALL.into_iter().filter(|way| *way != Way::Surface).collect());
    for way in Way::ALL.into_iter().filter(|way| !now.contains(way)) {
        let mut more = now.clone();
        more.push(way);
        if opens(&more) {
            let name = way_name(way);
            return (format!("it is closed {name}"), format!("open the way {name}"));
        }
    }
    if opens(&Way::ALL) {
        return (
            "several ways are closed at once".to_owned(),
            "open all ways for this circuit".to_owned(),
        );
    }
    (
        "nothing joins the two places, whichever way is open".to_owned(),
        "join their voids by a riser, or clear what blocks the walls".to_owned(),
    )
}

const fn way_name(way: Way) -> &'static str {
    match way {
        Way::Overhead => "overhead",
        Way::Underfloor => "under the floor",
        Way::InWall => "sideways in walls",
        Way::Surface => "on the surface",
        Way::Underground => "through the ground",
    }
}

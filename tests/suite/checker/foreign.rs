//! Through a wall in which a leg neither begins nor ends, it passes from void
//! to void straight up a corner strip.

use wirewend::plan::WallId;
use wirewend::runs::{Heading, Segment};

use super::complaint::{Code, Complaints};
use super::house::{on_wall, wall_of};
use super::medium::Medium;
use super::strips::{corner_strips, in_strip};
use super::walk::Walk;

pub(crate) fn judge(walk: &Walk, book: &mut Complaints) {
    let own = [walk.leg.from, walk.leg.to].map(|end| wall_of(walk.plan.place_of(end)));
    let pieces: Vec<(usize, &Segment, Medium)> = walk.pieces().collect();
    for stay in pieces.chunk_by(|one, other| one.2 == other.2) {
        let Medium::Wall(id) = stay[0].2 else { continue };
        if own.contains(&Some(id)) || turns_a_corner(&pieces, stay) {
            continue;
        }
        for (at, segment, _) in stay {
            judge_segment(walk, *at, segment, id, book);
        }
    }
}

/// Whether the wall is come into or left by a corner rather than by plates.
fn turns_a_corner(
    pieces: &[(usize, &Segment, Medium)],
    stay: &[(usize, &Segment, Medium)],
) -> bool {
    let before = stay[0].0.checked_sub(1).and_then(|at| pieces.get(at));
    let after = pieces.get(stay[stay.len() - 1].0 + 1);
    [before, after].into_iter().flatten().any(|(_, _, medium)| matches!(medium, Medium::Wall(_)))
}

fn judge_segment(walk: &Walk, at: usize, segment: &Segment, id: WallId, book: &mut Complaints) {
    let Some(wall) = walk.plan.walls.get(&id) else { return };
    let along = on_wall(walk.plan, wall, segment.from).x;
    if segment.heading == Heading::Sideways {
        book.segment(Code::ForeignWall, walk.leg, at, format!("sideways in {id} on its way"));
    } else if !in_strip(&corner_strips(walk.plan, id), along) {
        let text = format!("{along:.0} along {id} on its way, in no corner strip");
        book.segment(Code::ForeignWall, walk.leg, at, text);
    }
}

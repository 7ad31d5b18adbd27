//! Walls that a layout lists on the level below the one that they stand on.

use super::form::{FormLevel, Layout};
use super::{LayoutReport, NoteKind};
use crate::units::Mm;

/// Moves every wall whose middle is above the next level's floor up to that
/// level, with its openings: models hang such walls on the level from which
/// they were drawn.
pub(super) fn sort(layout: &mut Layout, report: &mut LayoutReport) {
    for index in 1..layout.levels.len() {
        let (below, above) = layout.levels.split_at_mut(index);
        let (lower, upper) = (&mut below[index - 1], &mut above[0]);
        let step = upper.elevation - lower.elevation;
        if step > Mm::ZERO {
            move_up(lower, upper, step, report);
        }
    }
}

fn move_up(lower: &mut FormLevel, upper: &mut FormLevel, step: Mm, report: &mut LayoutReport) {
    let mut kept = Vec::new();
    // For each wall of the lower level: whether it moved, and its new number.
    let mut numbers = Vec::new();
    for mut wall in std::mem::take(&mut lower.walls) {
        let middle = wall.base + wall.height.unwrap_or_default().half();
        let moves = middle > step;
        if moves {
            let message = "it stands on the next level";
            report.note(NoteKind::Changed, wall.part.clone(), message);
            wall.base -= step;
        }
        let walls = if moves { &mut upper.walls } else { &mut kept };
        numbers.push((moves, walls.len()));
        walls.push(wall);
    }
    lower.walls = kept;
    for mut opening in std::mem::take(&mut lower.openings) {
        // An opening without a wall stays, to be reported where it stands.
        let stays = (false, usize::MAX);
        let (moves, wall) = numbers.get(opening.wall).copied().unwrap_or(stays);
        opening.wall = wall;
        if moves {
            opening.sill -= step;
            opening.head -= step;
        }
        let openings = if moves { &mut upper.openings } else { &mut lower.openings };
        openings.push(opening);
    }
}

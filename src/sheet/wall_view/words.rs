//! Rooms, walls and edges of pieces in words.

use crate::plan::{Edge, FacePiece, Hand, OpeningKind, Plan, Shape};
use crate::sheet::papers::build_words;

/// The rooms that a piece looks into: `Kitchen`, `Kitchen, Hall`, `Outside`.
pub(crate) fn rooms_words(plan: &Plan, piece: &FacePiece) -> String {
    let name = |room: &crate::plan::Room| room.name.clone();
    let rooms = piece.rooms.iter();
    let mut names: Vec<String> = Vec::new();
    for id in rooms {
        let name = plan.rooms.get(id).map(name).filter(|name| !name.is_empty());
        let name = name.unwrap_or_else(|| format!("room {id}"));
        if !names.contains(&name) {
            names.push(name);
        }
    }
    match (names.is_empty(), piece.is_outside) {
        (true, _) => return "Outside".to_owned(),
        (false, true) => names.push("outside".to_owned()),
        (false, false) => {}
    }
    names.join(", ")
}

/// What a piece is called and made of: `W6b (stud)`.
pub(crate) fn walls_words(plan: &Plan, piece: &FacePiece) -> String {
    let mut builds: Vec<&str> = Vec::new();
    for wall in piece.spans.iter().filter_map(|span| plan.walls.get(&span.wall)) {
        let build = build_words(wall.build);
        if !builds.contains(&build) {
            builds.push(build);
        }
    }
    format!("{} ({})", piece.name, builds.join(" and "))
}

/// What something is measured from: `left corner, W7`, `window O31, left side`.
pub(crate) fn edge_words(plan: &Plan, edge: &Edge) -> String {
    match edge {
        Edge::Corner { end, corner } => {
            let with = corner.with.map_or_else(String::new, |wall| format!(", {wall}"));
            let hand = hand_word(*end);
            match corner.shape {
                Shape::Inner => format!("{hand} corner{with}"),
                Shape::Outer => format!("{hand} outside corner{with}"),
                Shape::Bare => format!("{hand} end of the wall"),
                Shape::Seam => format!("{hand} end as drawn{with}"),
            }
        }
        Edge::Opening { id, side } => {
            let noun = match plan.openings.get(id).map(|opening| opening.kind) {
                Some(OpeningKind::Door) => "door",
                Some(OpeningKind::SlidingDoor) => "sliding door",
                Some(OpeningKind::Window) => "window",
                Some(OpeningKind::Plain) | None => "opening",
            };
            format!("{noun} {id}, {} side", hand_word(*side))
        }
    }
}

/// `left` or `right`.
pub(crate) const fn hand_word(hand: Hand) -> &'static str {
    match hand {
        Hand::Left => "left",
        Hand::Right => "right",
    }
}

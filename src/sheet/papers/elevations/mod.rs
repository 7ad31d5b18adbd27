//! Walls seen from the front: both the fitter's elevations and the homeowner's
//! sheet of where not to drill.

mod choice;
mod dimensions;
mod face;

use self::face::{Face, Purpose};
use crate::plan::{FacePiece, Plane, WallId};
use crate::sheet::floor::{cautions, scale_bar};
use crate::sheet::gallery::{Figure, Gallery};
use crate::sheet::house::House;
use crate::sheet::lettering::Weight;
use crate::sheet::panel::Row;
use crate::sheet::wall_view::wall_views;
use crate::sheet::{PaperSize, Scale, Scene};

/// Every piece of a wall that holds a point, a board or a cable, from each side
/// that has something to show, room by room.
#[must_use]
pub fn elevations(house: &House<'_>) -> Vec<Scene> {
    sheets(house, Purpose::Fitting, "Wall elevations", "elevations")
}

/// For the homeowner: which strips of which walls hold cable.
#[must_use]
pub fn concealed_sheets(house: &House<'_>) -> Vec<Scene> {
    sheets(house, Purpose::Keeping, "Where not to drill", "concealed cables")
}

fn sheets(house: &House<'_>, purpose: Purpose, shows: &str, kind: &str) -> Vec<Scene> {
    let chosen = choice::chosen(wall_views(house), purpose);
    let mut faces: Vec<Face<'_>> = chosen.into_iter().map(|view| Face::of(house, view)).collect();
    faces.sort_by(|a, b| a.order().cmp(&b.order()));
    // A name or a figure may stand beside a wall at either end.
    let widest = Gallery::room().width() - 36.0;
    let [larger, scale, ..] = Scale::STEPS;
    let mut figures: Vec<Figure> = Vec::new();
    let mut enlarged = false;
    for face in &faces {
        let crowded = purpose == Purpose::Fitting && face.is_crowded();
        let own = if crowded { larger } else { scale };
        enlarged |= crowded;
        for mut part in face.parts(widest / own.paper_per_plan()) {
            figures.push(part.draw(purpose, own, crowded));
        }
    }
    let mut notes = notes(house, purpose, scale);
    if enlarged {
        let text = format!("A wall full of cables is drawn at {larger}; its title says so.");
        notes.insert(1, Row::paragraph(&text, Weight::Bold));
    }
    let shows = shows.to_owned();
    Gallery { house, shows, kind, scale: Some(scale), notes }.sheets(&figures)
}

fn notes(house: &House<'_>, purpose: Purpose, scale: Scale) -> Vec<Row> {
    let mut notes = vec![Row::heading("How to read this")];
    let texts = match purpose {
        Purpose::Fitting => FITTING.as_slice(),
        Purpose::Keeping => KEEPING.as_slice(),
    };
    notes.extend(texts.iter().map(|text| Row::paragraph(text, Weight::Regular)));
    if let Purpose::Keeping = purpose {
        let walls = empty_walls(house);
        if !walls.is_empty() {
            let text = format!("No planned cable in: {}.", walls.join(", "));
            notes.push(Row::paragraph(&text, Weight::Regular));
        }
    }
    notes.extend(scale_bar(scale, PaperSize::A3));
    notes.extend(cautions());
    notes
}

const FITTING: [&str; 7] = [
    "Each piece of a wall between two finished corners is seen from the room named, from floor \
     to ceiling, and drawn as long as a tape finds it there. Figures under it run from the \
     finished corner at its left (nought), in metres; figures beside a box are its height above \
     the finished floor. Linings count as drawn: half the wall's thickness on either face.",
    "The list setout.csv gives each box and cable from its nearest corner or side of an opening.",
    "Black box: a point on this face. Open dashed box: on the other face of the same wall.",
    "Grey strips along the ceiling and beside corners, and dotted lines level and in line with \
     each box, are where a cable may lie concealed, as this plan has them.",
    "Coloured line: a cable in the wall, circuit and leg in bold over the wall or beside it. \
     Several on one line are drawn side by side; they lie together. \"In the corner\": behind \
     the wall that meets this one there.",
    "Outlined: doors and windows, as built, before linings and frames.",
    "Agree every box with the client before it is cut.",
];

const KEEPING: [&str; 5] = [
    "Do not drill, nail or screw into the hatched strips. A cable lies in each, somewhere \
     within its width, behind the surface. The strip reaches 50 mm to either side of the line \
     that the cable is planned on, less at a corner. Figures give that line from the finished \
     corner of the room at the left of the piece of wall drawn (nought), in metres. A strip at \
     the very end of a piece is of a cable within the corner.",
    "The same strip is dangerous from the other side of a thin wall.",
    "Boxes are shown so that you can find your way. Also keep clear of a hand's breadth around \
     any switch, socket or light, even where no strip is drawn.",
    "Cables also lie above ceilings and under floors, which this sheet does not show.",
    "Use a detector all the same. If you hit something: do not touch it, switch off the main \
     switch, and call a licensed electrician.",
];

/// Faces of walls in which no cable is planned, as the drawings name them.
fn empty_walls(house: &House<'_>) -> Vec<String> {
    let mut used: std::collections::BTreeSet<WallId> = std::collections::BTreeSet::new();
    let segments = house.runs.circuits.values().flat_map(|run| &run.legs);
    for segment in segments.flat_map(|leg| &leg.route.segments) {
        if let Some(Plane::Wall(id)) = segment.plane {
            used.insert(id);
        }
    }
    let is_empty = |piece: &&FacePiece| piece.spans.iter().all(|span| !used.contains(&span.wall));
    let mut names: Vec<String> = Vec::new();
    for piece in house.faces().pieces().iter().filter(is_empty) {
        if !names.contains(&piece.name) {
            names.push(piece.name.clone());
        }
    }
    names
}

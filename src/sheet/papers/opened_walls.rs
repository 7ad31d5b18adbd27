//! Where walls are opened: wall by wall, numbered as on the quote's drawing.

use std::collections::{BTreeMap, BTreeSet};

use crate::plan::{Face, LevelId, OnWall, Plane, WallId};
use crate::runs::{Heading, Surrounding};
use crate::sheet::floor::{Numbered, Opened, OpenedStretch};
use crate::sheet::house::House;
use crate::units::{Mm, Point2, Point3};
use crate::wording::{Word, metres};

use super::words;

/// A wall that is opened.
#[derive(Clone, Debug)]
pub(crate) struct OpenedWall {
    /// Its number on the quote and its drawing, from 1.
    pub(crate) number: u32,
    /// Which wall.
    pub(crate) wall: WallId,
    /// The faces of it that look into rooms where it is opened, as drawings
    /// name them, and what it is made of: `W6a, W6c (stud)`.
    pub(crate) name: String,
    /// The level that it stands on.
    pub(crate) level: LevelId,
    /// Where most of it happens, seen from above.
    pub(crate) at: Point2,
    /// What happens.
    pub(crate) what: String,
    /// Where, stretch by stretch.
    pub(crate) stretches: Vec<OpenedStretch>,
}

impl OpenedWall {
    /// Its number at its place.
    pub(crate) const fn numbered(&self) -> Numbered {
        Numbered { number: self.number, wall: self.wall, at: self.at }
    }

    /// As it is drawn.
    pub(crate) fn drawn(&self) -> Opened<'_> {
        Opened { number: self.numbered(), stretches: &self.stretches }
    }
}

/// What happens to each wall.
#[derive(Default)]
struct Tally {
    chased: Mm,
    sideways: Mm,
    surface: Mm,
    drops: u32,
    /// The longest stretch: its length and middle.
    longest: Option<(Mm, Point2)>,
    stretches: BTreeSet<OpenedStretch>,
}

/// Every wall that is opened, level by level.
pub(crate) fn opened_walls(house: &House<'_>) -> Vec<OpenedWall> {
    let mut walls: BTreeMap<(usize, WallId), Tally> = BTreeMap::new();
    // Cables on one line share a chase: each stretch is counted once.
    let mut seen: BTreeSet<(WallId, Vec<Point3>)> = BTreeSet::new();
    let legs = house.runs.circuits.values().flat_map(|run| &run.legs);
    for segment in legs.flat_map(|leg| &leg.route.segments) {
        let Some(Plane::Wall(id)) = segment.plane else { continue };
        let mut ends = vec![segment.from, segment.to];
        ends.sort_unstable();
        if segment.length == Mm::ZERO || !seen.insert((id, ends)) {
            continue;
        }
        let level = house.plan.walls.get(&id).map(|wall| wall.level);
        let place = level.and_then(|level| house.plan.levels.get_index_of(&level));
        let opened = walls.entry((place.unwrap_or(0), id)).or_default();
        match (segment.through, segment.heading) {
            (Surrounding::Chase, _) => opened.chased += segment.length,
            (Surrounding::Surface, _) => opened.surface += segment.length,
            (Surrounding::HollowWall | Surrounding::Cavity, Heading::Sideways) => {
                opened.sideways += segment.length;
            }
            (Surrounding::HollowWall | Surrounding::Cavity, _) => opened.drops += 1,
            _ => continue,
        }
        let (from, to) = (segment.from.on_floor(), segment.to.on_floor());
        let passes = matches!(segment.through, Surrounding::HollowWall | Surrounding::Cavity)
            && segment.heading != Heading::Sideways;
        opened.stretches.insert(OpenedStretch {
            opens: !passes,
            from: from.min(to),
            to: from.max(to),
        });
        let middle = Point2 { x: (from.x + to.x).half(), y: (from.y + to.y).half() };
        if opened.longest.is_none_or(|(length, _)| segment.length > length) {
            opened.longest = Some((segment.length, middle));
        }
    }
    let told = walls.into_iter().filter_map(|((_, wall), opened)| {
        let level = house.plan.walls.get(&wall)?.level;
        let (_, at) = opened.longest?;
        let what = opened.words(&house.local.language);
        let stretches: Vec<OpenedStretch> = opened.stretches.into_iter().collect();
        let name = face_names(house, wall, &stretches);
        Some(OpenedWall { number: 0, wall, name, level, at, what, stretches })
    });
    (1..).zip(told).map(|(number, one)| OpenedWall { number, ..one }).collect()
}

/// The faces of a wall where it is opened.
fn face_names(house: &House<'_>, id: WallId, stretches: &[OpenedStretch]) -> String {
    let Some(wall) = house.plan.walls.get(&id) else { return id.to_string() };
    let (dx, dy) = wall.direction();
    let along = |at: Point2| {
        let (x, y) = ((at.x - wall.a.x).to_f64(), (at.y - wall.a.y).to_f64());
        Mm::from_f64(x * dx + y * dy).unwrap_or(Mm::ZERO)
    };
    let places = stretches.iter().flat_map(|one| [along(one.from), along(one.to)]);
    let on = |along: Mm, face: Face| OnWall { wall: id, along, height: Mm::ZERO, face };
    let seen = places.flat_map(|at| [on(at, Face::Left), on(at, Face::Right)]);
    let faces: Vec<_> = seen.filter_map(|on| Some(house.faces().nearest(&on)?.0)).collect();
    let rooms = faces.iter().filter(|piece| !piece.rooms.is_empty());
    let mut names: Vec<&str> = rooms.map(|piece| piece.name.as_str()).collect();
    if names.is_empty() {
        names = faces.iter().map(|piece| piece.name.as_str()).collect();
    }
    names.sort_unstable();
    names.dedup();
    format!("{} ({})", names.join(", "), words::build(wall.build))
}

impl Tally {
    fn words(&self, language: &str) -> String {
        let mut told = Vec::new();
        if self.chased > Mm::ZERO {
            let chase = Word::Chase.by(language);
            told.push(format!("about {} of {chase} cut and filled", metres(self.chased)));
        }
        if self.sideways > Mm::ZERO {
            told.push(format!(
                "about {} sideways inside the wall, its lining opened where studs are drilled",
                metres(self.sideways)
            ));
        }
        if self.drops > 0 {
            let times = if self.drops == 1 { "cable" } else { "cables" };
            told.push(format!("{} {times} passed up or down inside", self.drops));
        }
        if self.surface > Mm::ZERO {
            told.push(format!("about {} on the face, covered", metres(self.surface)));
        }
        told.join("; ")
    }
}

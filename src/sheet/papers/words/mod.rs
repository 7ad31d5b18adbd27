//! The way of a leg in words, as one tells it to whoever pulls it.
//!
//! Left and right are as one sees the wall from the room that is named; places
//! along a wall are measured from finished corners and sides of openings.

mod fixed;
mod in_void;
mod moves;
mod names;
mod seen;
mod stage;
mod towards;

use std::collections::BTreeSet;

pub use self::fixed::edge_words;
use self::fixed::{on, set_out};
use self::moves::{Move, Way};
pub(crate) use self::names::{build, void};
use self::names::{entry, exit};
use self::seen::{Seen, seen};
use self::stage::{Gate, Stage, Within, stages};
use crate::plan::{CircuitId, Hand, Wall, WallId};
use crate::runs::{Leg, Surrounding};
use crate::sheet::house::House;
use crate::units::{Mm, Point3};
use crate::wording::figure;

/// The way of a leg with the names of all walls that its words use.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct LegWords {
    /// From end to end.
    pub way: String,
    /// As drawings name them.
    pub walls: BTreeSet<String>,
}

/// The way from end to end: `in W3 (stud): up 0.95, out through its top plate;
/// in the roof space: along the joists 2.30 towards Hall; through the top plate
/// into W5b (stud, from Hall), 0.60 right of its corner with W6: down 2.20`.
pub(crate) fn way(house: &House<'_>, leg: &Leg) -> LegWords {
    let mut teller = Teller { house, leg, stages: stages(house.plan, leg), walls: BTreeSet::new() };
    let told: Vec<String> = (0..teller.stages.len()).filter_map(|at| teller.tell(at)).collect();
    // Every leg has a way: one without length joins boxes back to back.
    let way =
        if told.is_empty() { "from box to box, back to back".to_owned() } else { told.join("; ") };
    LegWords { way, walls: teller.walls }
}

/// The way of a leg as cards, strips and lists tell it. None where there is no
/// such leg.
#[must_use]
pub fn leg_words(house: &House<'_>, circuit: CircuitId, leg: usize) -> Option<LegWords> {
    house.runs.circuits.get(&circuit)?.legs.get(leg).map(|leg| way(house, leg))
}

/// For every segment of a leg that goes sideways in a wall, on which hand that
/// is, seen as its words have it.
pub(crate) fn hands(house: &House<'_>, leg: &Leg) -> Vec<Option<Hand>> {
    let mut hands = vec![None; leg.route.segments.len()];
    let stages = stages(house.plan, leg);
    for (at, stage) in stages.iter().enumerate() {
        let Within::Wall(id) = stage.within else { continue };
        let Some(wall) = house.plan.walls.get(&id) else { continue };
        let side = seen(house, leg, &stages, at, id).side;
        for (index, segment) in &stage.segments {
            hands[*index] = match moves::hand(segment, wall, side) {
                Way::Left => Some(Hand::Left),
                Way::Right => Some(Hand::Right),
                _ => None,
            };
        }
    }
    hands
}

/// The name of the face on which each wall that a leg passes is seen, by the
/// places of its segments; none for what is in no wall.
pub(crate) fn wall_names(house: &House<'_>, leg: &Leg) -> Vec<Option<String>> {
    let mut names = vec![None; leg.route.segments.len()];
    let stages = stages(house.plan, leg);
    for (at, stage) in stages.iter().enumerate() {
        let Within::Wall(id) = stage.within else { continue };
        let seen = seen(house, leg, &stages, at, id);
        for (index, _) in &stage.segments {
            names[*index] = Some(seen.name.clone());
        }
    }
    names
}

struct Teller<'a> {
    house: &'a House<'a>,
    leg: &'a Leg,
    stages: Vec<Stage<'a>>,
    walls: BTreeSet<String>,
}

impl Teller<'_> {
    fn tell(&mut self, at: usize) -> Option<String> {
        let stage = self.stages.get(at)?.clone();
        Some(match stage.within {
            Within::Wall(id) => match self.house.plan.walls.get(&id) {
                Some(wall) => self.in_wall(at, &stage, id, wall),
                None => format!("in {id}: {}", plain(&stage)),
            },
            Within::Void(id) => self.in_void(&stage, id),
            Within::Post => {
                let gate = |gate: Option<Gate>, words: &str| {
                    gate.map_or_else(String::new, |_| words.to_owned())
                };
                let (up, down) = (
                    gate(stage.enters, "out of the ground "),
                    gate(stage.leaves, ", into the ground"),
                );
                format!("{up}on the post: {}{down}", plain(&stage))
            }
            Within::Passage => format!("through the {}: {}", self.passage(at), plain(&stage)),
        })
    }

    fn in_wall(&mut self, at: usize, stage: &Stage<'_>, id: WallId, wall: &Wall) -> String {
        let seen = seen(self.house, self.leg, &self.stages, at, id);
        let segments = || stage.segments.iter().map(|(_, segment)| *segment);
        let moves = moves::in_wall(segments(), wall, seen.side);
        let is_sideways = moves.iter().any(|one| matches!(one.way, Way::Left | Way::Right));
        let turns = at.checked_sub(1).and_then(|before| self.stages.get(before));
        let turns =
            turns.is_some_and(|before| matches!(before.within, Within::Wall(other) if other != id));
        let gate = stage.enters.map_or("", |gate| entry(wall.build, gate));
        let into = match (stage.through, stage.enters) {
            (Some(Surrounding::Surface), Some(_)) => "onto the face of",
            (Some(Surrounding::Surface), None) if turns => "round the corner onto the face of",
            (Some(Surrounding::Surface), None) => "on the face of",
            (Some(Surrounding::Chase), None) if turns => "round the corner, chased into",
            (Some(Surrounding::Chase), _) => "chased into",
            (_, Some(_)) => "into",
            (_, None) if turns => "round the corner into",
            (_, None) => "in",
        };
        let first = segments().next().map(|segment| segment.from);
        let place = stage.enters.and_then(|_| self.set_out(id, wall, &seen, first?));
        let from = if place.is_some() || is_sideways || turns {
            format!(", from {}", seen.room)
        } else {
            String::new()
        };
        self.walls.insert(seen.name.clone());
        let place = place.map_or_else(String::new, |place| format!(", {place}"));
        let told: Vec<String> =
            moves.iter().map(|one| self.hand_of(one, id, wall, &seen)).collect();
        let last = segments().next_back().map(|segment| segment.to);
        let out = stage.leaves.map_or_else(String::new, |gate| {
            let place = last.filter(|_| is_sideways && gate != Gate::Ground);
            let place = place.and_then(|last| self.set_out(id, wall, &seen, last));
            let place = place.map_or_else(String::new, |place| format!(", {place}"));
            format!(", {}{place}", exit(wall.build, gate))
        });
        let build = build(wall.build);
        format!("{gate}{into} {} ({build}{from}){place}: {}{out}", seen.name, told.join(", "))
    }

    /// One move in a wall; sideways with what is next on that hand.
    fn hand_of(&mut self, one: &Move, id: WallId, wall: &Wall, seen: &Seen) -> String {
        let length = figure(one.length);
        let (word, hand) = match one.way {
            Way::Up => return format!("up {length}"),
            Way::Down => return format!("down {length}"),
            Way::Left => ("left", Hand::Left),
            _ => ("right", Hand::Right),
        };
        let ends = on(id, seen.side, along(wall, one.to));
        let next = fixed::next(self.house, &ends, hand);
        let towards = next.map_or_else(String::new, |told| {
            self.walls.extend(told.names);
            format!(" towards {}", told.says)
        });
        format!("{word} {length}{towards}")
    }

    fn set_out(&mut self, id: WallId, wall: &Wall, seen: &Seen, at: Point3) -> Option<String> {
        let told = set_out(self.house, &on(id, seen.side, along(wall, at)))?;
        self.walls.extend(told.names);
        Some(told.says)
    }

    /// What a cable goes straight through beside an end on a ceiling or a
    /// floor, or between voids.
    fn passage(&self, at: usize) -> &'static str {
        let is_up = self.stages.get(at).is_some_and(|stage| {
            stage.segments.first().is_some_and(|(_, one)| one.heading == crate::runs::Heading::Up)
        });
        let (is_first, is_last) = (at == 0, at + 1 == self.stages.len());
        match (is_first, is_last) {
            (false, false) => "riser",
            (true, _) if is_up => "ceiling",
            (true, _) => "floor",
            (false, true) if is_up => "floor",
            (false, true) => "ceiling",
        }
    }
}

/// Upright moves.
fn plain(stage: &Stage<'_>) -> String {
    let moves = moves::upright(stage.segments.iter().map(|(_, segment)| *segment));
    let told = moves.iter().map(|one| {
        let word = if one.way == Way::Up { "up" } else { "down" };
        format!("{word} {}", figure(one.length))
    });
    told.collect::<Vec<_>>().join(", ")
}

/// How far along a wall a place is.
fn along(wall: &Wall, at: Point3) -> Mm {
    let (dx, dy) = wall.direction();
    let (x, y) = ((at.x - wall.a.x).to_f64(), (at.y - wall.a.y).to_f64());
    Mm::from_f64(x * dx + y * dy).unwrap_or(Mm::ZERO)
}

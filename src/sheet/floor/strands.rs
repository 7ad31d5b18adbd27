//! Legs as seen from above: what of them shows on one level, and where they go
//! up or down.

use kurbo::{Point, Vec2};

use super::view::View;
use crate::plan::{
    CircuitId, End, Face, LevelId, Place, Plan, Plane, VoidKind, Wall, WallId, outline_holds,
};
use crate::runs::{Leg, Runs, Segment, Surrounding};
use crate::sheet::pen;
use crate::units::Mm;

/// What a cable lies in; it decides the line pattern.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Medium {
    /// In the void above the level.
    Above,
    /// Inside a wall.
    InWall,
    /// In the void below the level.
    Below,
    /// On the face of a wall.
    Surface,
    /// In the ground.
    Ground,
}

impl Medium {
    /// All of them, in the order of the legend.
    pub(super) const ALL: [Self; 5] =
        [Self::Above, Self::InWall, Self::Below, Self::Surface, Self::Ground];

    /// What the legend calls it.
    pub(super) const fn name(self) -> &'static str {
        match self {
            Self::Above => "in the void above",
            Self::InWall => "inside a wall",
            Self::Below => "under the floor",
            Self::Surface => "on the surface",
            Self::Ground => "in the ground",
        }
    }
}

/// A leg on one level, seen from above.
#[derive(Clone, Debug)]
pub(super) struct Strand<'a> {
    /// The circuit's position in the plan, which decides its colour.
    pub(super) index: usize,
    /// The leg.
    pub(super) leg: &'a Leg,
    /// Its parts that run sideways and hang together.
    pub(super) stretches: Vec<Stretch>,
    /// Where it goes up or down.
    pub(super) drops: Vec<Drop>,
    /// Where it ends at points of this level, on paper.
    pub(super) landings: Vec<Point>,
}

impl Strand<'_> {
    /// Moves it along the paper.
    pub(super) fn shift(&mut self, by: Vec2) {
        let places = self.stretches.iter_mut().flat_map(|stretch| &mut stretch.places);
        let drops = self.drops.iter_mut().map(|drop| &mut drop.at);
        places.chain(drops).chain(&mut self.landings).for_each(|at| *at += by);
    }

    /// Whether it ends at a point here.
    pub(super) fn lands(&self, at: Point) -> bool {
        self.landings.iter().any(|landing| (*landing - at).hypot2() < 0.01)
    }
}

/// A part of a leg that runs sideways without a gap.
#[derive(Clone, Debug)]
pub(super) struct Stretch {
    /// Where it begins, bends and ends, on paper.
    pub(super) places: Vec<Point>,
    /// What it lies in, between each place and the next.
    pub(super) media: Vec<Medium>,
    /// How far off it is drawn, on paper: what lies on the face of a wall is
    /// routed along its centre line.
    pub(super) asides: Vec<Vec2>,
}

impl Stretch {
    /// Whether its last part has the direction of the one before.
    fn goes_straight_on(&self) -> bool {
        let [.., a, b, c] = self.places.as_slice() else { return false };
        let (one, other) = (pen::unit(*b - *a), pen::unit(*c - *b));
        one.dot(other) > 0.0 && one.cross(other).abs() < 0.05
    }
}

/// A part of a leg that goes up or down.
#[derive(Clone, Copy, Debug)]
pub(super) struct Drop {
    /// Where, on paper.
    pub(super) at: Point,
    /// The height it comes from, above this level's floor.
    pub(super) from: Mm,
    /// The height it goes to, above this level's floor.
    pub(super) to: Mm,
    /// The point or board in whose wall it ends, if it is the leg's last part
    /// at that end.
    pub(super) end: Option<End>,
    /// Whether that end is where it comes from.
    pub(super) end_first: bool,
    /// Which place of which stretch it starts or ends at, if any.
    pub(super) on: Option<(usize, usize)>,
}

impl Drop {
    /// The height of the box it ends at, and the height its cable comes from;
    /// without a box, from the lower to the higher.
    pub(super) fn box_and_other(&self) -> (Mm, Mm) {
        match (self.end, self.end_first) {
            (Some(_), true) => (self.from, self.to),
            (Some(_), false) => (self.to, self.from),
            (None, _) => (self.from.min(self.to), self.from.max(self.to)),
        }
    }

    /// Whether its cable comes down to where it is used.
    pub(super) fn comes_down(&self) -> bool {
        let (at_box, other) = self.box_and_other();
        other >= at_box
    }
}

/// The strands of a level: legs that end on it or run in its walls.
pub(super) fn strands<'a>(
    plan: &Plan,
    runs: &'a Runs,
    level: LevelId,
    circuit: Option<CircuitId>,
    view: &View,
) -> Vec<Strand<'a>> {
    let sight = Sight { plan, level };
    let mut strands = Vec::new();
    for (id, run) in &runs.circuits {
        let Some(index) = plan.circuits.get_index_of(id) else { continue };
        if circuit.is_some_and(|only| only != *id) {
            continue;
        }
        strands.extend(
            run.legs
                .iter()
                .filter(|leg| sight.concerns(leg))
                .map(|leg| sight.strand(index, leg, view)),
        );
    }
    strands
}

/// The places of all legs that show on a level, in the plan.
pub(super) fn reach(
    plan: &Plan,
    runs: &Runs,
    level: LevelId,
    circuit: Option<CircuitId>,
) -> Vec<crate::units::Point2> {
    let sight = Sight { plan, level };
    runs.circuits
        .iter()
        .filter(|(id, _)| circuit.is_none_or(|only| only == **id))
        .flat_map(|(_, run)| &run.legs)
        .filter(|leg| sight.concerns(leg))
        .flat_map(|leg| &leg.route.segments)
        .filter(|segment| sight.shows(segment))
        .flat_map(|segment| [segment.from.on_floor(), segment.to.on_floor()])
        .collect()
}

struct Sight<'p> {
    plan: &'p Plan,
    level: LevelId,
}

impl Sight<'_> {
    /// Whether a leg belongs on this level's sheet.
    fn concerns(&self, leg: &Leg) -> bool {
        let ends_here = [leg.from, leg.to].into_iter().any(|end| {
            self.plan.place_of(end).and_then(|place| self.plan.level_of(&place)) == Some(self.level)
        });
        ends_here || leg.route.segments.iter().any(|segment| self.in_own_wall(segment))
    }

    fn in_own_wall(&self, segment: &Segment) -> bool {
        matches!(segment.plane, Some(Plane::Wall(id))
            if self.plan.walls.get(&id).is_some_and(|wall| wall.level == self.level))
    }

    /// Whether a part of a leg is drawn on this level.
    fn shows(&self, segment: &Segment) -> bool {
        match segment.plane {
            Some(Plane::Wall(_)) => self.in_own_wall(segment),
            Some(Plane::Void(id)) => self
                .plan
                .levels
                .get(&self.level)
                .is_some_and(|level| level.above.contains(&id) || level.below.contains(&id)),
            None => self.plan.levels.get(&self.level).is_some_and(|level| {
                // Straight through a ceiling or up a post: whatever touches
                // the storey from its floor to its ceiling.
                let (low, high) =
                    (segment.from.z.min(segment.to.z), segment.from.z.max(segment.to.z));
                low <= level.ceiling() && high >= level.floor
            }),
        }
    }

    fn medium(&self, segment: &Segment) -> Medium {
        let below = || match segment.plane {
            Some(Plane::Void(id)) => {
                self.plan.levels.get(&self.level).is_some_and(|level| level.below.contains(&id))
            }
            _ => false,
        };
        let ground = || match segment.plane {
            Some(Plane::Void(id)) => {
                self.plan.voids.get(&id).is_some_and(|space| space.kind == VoidKind::Ground)
            }
            _ => false,
        };
        match segment.through {
            Surrounding::Surface => Medium::Surface,
            Surrounding::Ground => Medium::Ground,
            Surrounding::HollowWall | Surrounding::Chase | Surrounding::Cavity => Medium::InWall,
            _ if ground() => Medium::Ground,
            _ if below() => Medium::Below,
            _ if matches!(segment.plane, Some(Plane::Wall(_))) => Medium::InWall,
            _ => Medium::Above,
        }
    }

    /// From the centre line of a wall to a cable on its face. None where it
    /// only turns a corner, off that wall's line: there it goes on as beside.
    fn aside(&self, leg: &Leg, segment: &Segment, view: &View) -> Option<Vec2> {
        let Some(Plane::Wall(id)) = segment.plane else { return Some(Vec2::ZERO) };
        let wall = self.plan.walls.get(&id).filter(|wall| follows(segment, wall))?;
        let face = self.face_of_ends(leg, id).unwrap_or_else(|| {
            let with_wall = direction(segment).dot(wall_direction(wall)) > 0.0;
            let (beside, other) = if self.keeps_left(leg) == with_wall {
                (Face::Left, Face::Right)
            } else {
                (Face::Right, Face::Left)
            };
            // Nobody takes an indoor cable out of doors.
            let indoors = |face| self.looks_into_room(segment, wall, face);
            if indoors(other) && !indoors(beside) { other } else { beside }
        });
        let off = view.length(wall.thickness.to_f64() / 2.0) + OFF_FACE;
        Some(View::direction(wall.normal(face)) * off)
    }

    /// Whether there is a room before a face of a wall, along a part of a leg.
    fn looks_into_room(&self, segment: &Segment, wall: &Wall, face: Face) -> bool {
        let (from, to) = (segment.from.on_floor(), segment.to.on_floor());
        let (nx, ny) = wall.normal(face);
        let off = wall.thickness.to_f64() / 2.0 + 100.0;
        let x = f64::midpoint(from.x.to_f64(), to.x.to_f64()) + nx * off;
        let y = f64::midpoint(from.y.to_f64(), to.y.to_f64()) + ny * off;
        let rooms = self.plan.rooms.values().filter(|room| room.level == self.level);
        rooms.into_iter().any(|room| outline_holds(&room.outline, x, y))
    }

    /// The face on which a leg begins or ends, on this wall.
    fn face_of_ends(&self, leg: &Leg, wall: WallId) -> Option<Face> {
        [leg.from, leg.to].into_iter().find_map(|end| match self.plan.place_of(end)? {
            Place::Wall(on) if on.wall == wall => Some(on.face),
            _ => None,
        })
    }

    /// Whether a leg on the surface has its walls on the right hand: as where
    /// it begins or ends, for it keeps to one side of a room.
    fn keeps_left(&self, leg: &Leg) -> bool {
        leg.route
            .segments
            .iter()
            .filter(|segment| segment.from.on_floor() != segment.to.on_floor())
            .find_map(|segment| {
                let Some(Plane::Wall(id)) = segment.plane else { return None };
                let wall = self.plan.walls.get(&id).filter(|wall| follows(segment, wall))?;
                let normal = wall.normal(self.face_of_ends(leg, id)?);
                Some(direction(segment).cross(Vec2::from(normal)) > 0.0)
            })
            .unwrap_or(true)
    }

    fn strand<'a>(&self, index: usize, leg: &'a Leg, view: &View) -> Strand<'a> {
        let floor = self.plan.levels.get(&self.level).map_or(Mm::ZERO, |level| level.floor);
        let mut tracing =
            Tracing { stretches: Vec::new(), drops: Vec::new(), open: false, unsettled: false };
        for segment in &leg.route.segments {
            if !self.shows(segment) {
                tracing.open = false;
            } else if segment.from.on_floor() == segment.to.on_floor() {
                let at = view.point(segment.from.on_floor());
                tracing.drop(at, segment.from.z - floor, segment.to.z - floor);
            } else {
                let (from, to) = (segment.from.on_floor(), segment.to.on_floor());
                let medium = self.medium(segment);
                let aside = match medium {
                    Medium::Surface => self.aside(leg, segment, view),
                    _ => Some(Vec2::ZERO),
                };
                tracing.run(view.point(from), view.point(to), medium, aside);
            }
        }
        let mut drops = tracing.drops;
        let mut landings = Vec::new();
        for (end, first) in [(leg.from, true), (leg.to, false)] {
            let Some(place) = self.plan.place_of(end) else { continue };
            let at = self.plan.position(&place).map(|at| view.point(at.on_floor()));
            if let (End::Point(_), Some(at)) = (end, at)
                && self.plan.level_of(&place) == Some(self.level)
            {
                landings.push(at);
            }
            let drop = if first { drops.first_mut() } else { drops.last_mut() };
            if let (Some(at), Some(drop)) = (at, drop)
                && self.plan.level_of(&place) == Some(self.level)
                && (drop.at - at).hypot2() < 0.01
                && drop.end.is_none()
            {
                drop.end = Some(end);
                drop.end_first = first;
            }
        }
        Strand { index, leg, stretches: tracing.stretches, drops, landings }
    }
}

/// How far off the face of a wall a cable on it is drawn, mm on paper.
const OFF_FACE: f64 = 0.9;

/// Which way a part of a leg goes, in the plan.
fn direction(segment: &Segment) -> Vec2 {
    let step = segment.to.on_floor() - segment.from.on_floor();
    Vec2::new(step.x.to_f64(), step.y.to_f64())
}

/// Whether a part of a leg goes along a wall, not across its line.
fn follows(segment: &Segment, wall: &Wall) -> bool {
    let along = pen::unit(direction(segment));
    along.cross(wall_direction(wall)).abs() < 0.1
}

fn wall_direction(wall: &Wall) -> Vec2 {
    Vec2::from(wall.direction())
}

struct Tracing {
    stretches: Vec<Stretch>,
    drops: Vec<Drop>,
    /// Whether the last part that was drawn may go on.
    open: bool,
    /// Whether how far off the last part is drawn is still to be told.
    unsettled: bool,
}

impl Tracing {
    fn run(&mut self, from: Point, to: Point, medium: Medium, aside: Option<Vec2>) {
        let goes_on = self.open
            && self.stretches.last().and_then(|stretch| stretch.places.last()) == Some(&from);
        if !goes_on {
            let index = self.stretches.len();
            self.unsettled = false;
            self.stretches.push(Stretch {
                places: vec![from],
                media: Vec::new(),
                asides: Vec::new(),
            });
            if let Some(drop) = self.drops.last_mut()
                && self.open
                && drop.at == from
                && drop.on.is_none()
            {
                drop.on = Some((index, 0));
            }
        }
        if let Some(stretch) = self.stretches.last_mut() {
            stretch.places.push(to);
            stretch.media.push(medium);
            // Round a corner the line of the wall before is kept, or else that
            // of the wall after is taken.
            let straight_on = stretch.goes_straight_on();
            let before = stretch.asides.last().copied();
            let settled = aside.or_else(|| before.filter(|_| straight_on));
            if let (Some(aside), true, true) = (aside, self.unsettled, straight_on)
                && let Some(last) = stretch.asides.last_mut()
            {
                *last = aside;
            }
            self.unsettled = settled.is_none();
            stretch.asides.push(settled.unwrap_or(Vec2::ZERO));
        }
        self.open = true;
    }

    fn drop(&mut self, at: Point, from: Mm, to: Mm) {
        let on = self
            .stretches
            .last()
            .filter(|stretch| self.open && stretch.places.last() == Some(&at))
            .map(|stretch| (self.stretches.len() - 1, stretch.places.len() - 1));
        match self.drops.last_mut() {
            Some(last) if self.open && last.at == at && last.to == from && last.on == on => {
                last.to = to;
            }
            _ => self.drops.push(Drop { at, from, to, end: None, end_first: false, on }),
        }
        self.open = true;
    }
}

//! Legs as seen from above: what of them shows on one level, and where they go
//! up or down.

use kurbo::{Point, Vec2};

use super::view::View;
use crate::plan::{CircuitId, End, Face, LevelId, Place, Plan, Plane, VoidKind, Wall, WallId};
use crate::runs::{Leg, Runs, Segment, Surrounding};
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
#[derive(Debug)]
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

    /// From the centre line of a wall to a cable on its face.
    fn aside(&self, leg: &Leg, segment: &Segment, view: &View) -> Vec2 {
        let Some(Plane::Wall(id)) = segment.plane else { return Vec2::ZERO };
        let Some(wall) = self.plan.walls.get(&id) else { return Vec2::ZERO };
        let face = self.face_of_ends(leg, id).unwrap_or_else(|| {
            if self.keeps_left(leg) == (direction(segment).dot(wall_direction(wall)) > 0.0) {
                Face::Left
            } else {
                Face::Right
            }
        });
        let off = view.length(wall.thickness.to_f64() / 2.0) + OFF_FACE;
        View::direction(wall.normal(face)) * off
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
                let normal = self.plan.walls.get(&id)?.normal(self.face_of_ends(leg, id)?);
                Some(direction(segment).cross(Vec2::from(normal)) > 0.0)
            })
            .unwrap_or(true)
    }

    fn strand<'a>(&self, index: usize, leg: &'a Leg, view: &View) -> Strand<'a> {
        let floor = self.plan.levels.get(&self.level).map_or(Mm::ZERO, |level| level.floor);
        let mut tracing = Tracing { stretches: Vec::new(), drops: Vec::new(), open: false };
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
                    _ => Vec2::ZERO,
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

fn wall_direction(wall: &Wall) -> Vec2 {
    Vec2::from(wall.direction())
}

struct Tracing {
    stretches: Vec<Stretch>,
    drops: Vec<Drop>,
    /// Whether the last part that was drawn may go on.
    open: bool,
}

impl Tracing {
    fn run(&mut self, from: Point, to: Point, medium: Medium, aside: Vec2) {
        let goes_on = self.open
            && self.stretches.last().and_then(|stretch| stretch.places.last()) == Some(&from);
        if !goes_on {
            let index = self.stretches.len();
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
            stretch.asides.push(aside);
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

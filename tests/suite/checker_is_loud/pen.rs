//! Draws a leg by hand, segment by segment.

use wirewend::plan::{Cable, CircuitId, End, Plan, Plane, VoidId, VoidKind, WallBuild, WallId};
use wirewend::runs::{Heading, Leg, LegRole, Route, Segment, Surrounding};
use wirewend::units::{Cost, Mm, Point3};

/// Where the drawing has got to.
pub(super) struct Pen<'a> {
    plan: &'a Plan,
    at: Point3,
    segments: Vec<Segment>,
}

impl<'a> Pen<'a> {
    /// At an end.
    pub(super) fn at(plan: &'a Plan, end: End) -> Self {
        let place = plan.place_of(end).expect("the end is placed");
        let at = plan.position(&place).expect("its wall and level exist");
        Self { plan, at, segments: Vec::new() }
    }

    fn line(
        mut self,
        to: Point3,
        plane: Option<Plane>,
        heading: Heading,
        through: Surrounding,
        insulation: Mm,
    ) -> Self {
        let length = Mm::from_f64(self.at.distance(to)).expect("within the plan");
        let from = self.at;
        self.segments.push(Segment {
            from,
            to,
            length,
            plane,
            heading,
            through,
            insulation,
            beside: 0,
        });
        self.at = to;
        self
    }

    fn upright(self, z: i64, plane: Option<Plane>, through: Surrounding) -> Self {
        let to = Point3 { z: Mm::new(z), ..self.at };
        let heading = if to.z > self.at.z { Heading::Up } else { Heading::Down };
        self.line(to, plane, heading, through, Mm::ZERO)
    }

    fn inside(&self, wall: u32) -> Surrounding {
        match self.plan.walls[&WallId(wall)].build {
            WallBuild::Stud => Surrounding::HollowWall,
            _ => Surrounding::Chase,
        }
    }

    /// Upright in a wall to this height.
    pub(super) fn climb(self, wall: u32, z: i64) -> Self {
        let through = self.inside(wall);
        self.upright(z, Some(Plane::Wall(WallId(wall))), through)
    }

    /// Sideways in a wall to this place.
    pub(super) fn sideways(self, wall: u32, x: i64, y: i64) -> Self {
        let to = Point3::new(x, y, self.at.z.get());
        let through = self.inside(wall);
        self.line(to, Some(Plane::Wall(WallId(wall))), Heading::Sideways, through, Mm::ZERO)
    }

    /// Through the plate of a wall.
    pub(super) fn plate(self, wall: u32, z: i64) -> Self {
        self.upright(z, Some(Plane::Wall(WallId(wall))), Surrounding::Plate)
    }

    /// Straight through a ceiling, a floor or the shaft of a riser.
    pub(super) fn pass(self, z: i64) -> Self {
        self.upright(z, None, Surrounding::Plate)
    }

    /// Up or down a post.
    pub(super) fn post(self, z: i64) -> Self {
        self.upright(z, None, Surrounding::Post)
    }

    /// Across a void whose joists run along `x`.
    pub(super) fn cross(self, void: u32, x: i64, y: i64) -> Self {
        let id = VoidId(void);
        let space = &self.plan.voids[&id];
        let through = match space.kind {
            VoidKind::RoofSpace => Surrounding::RoofSpace,
            VoidKind::BetweenFloors => Surrounding::BetweenFloors,
            VoidKind::Subfloor => Surrounding::Subfloor,
            VoidKind::Ground => Surrounding::Ground,
        };
        let ahead = self.at.y == Mm::new(y);
        let heading = if ahead { Heading::AlongJoists } else { Heading::AcrossJoists };
        let insulation = space.insulation;
        let to = Point3::new(x, y, self.at.z.get());
        self.line(to, Some(Plane::Void(id)), heading, through, insulation)
    }

    /// What has been drawn, at the plain cost of its length.
    pub(super) fn route(self) -> Route {
        let length: Mm = self.segments.iter().map(|segment| segment.length).sum();
        Route { segments: self.segments, cost: Cost::of_mm(length.get()), length }
    }

    /// What has been drawn, as a leg; it is numbered when its run is made up.
    pub(super) fn leg(self, circuit: u32, role: LegRole, from: End, to: End) -> Leg {
        let id = CircuitId(circuit);
        let cores = if matches!(role, LegRole::Strappers | LegRole::Interlink) { 3 } else { 2 };
        let cable: Option<Cable> =
            self.plan.circuits[&id].cable.map(|cable| cable.with_cores(cores));
        Leg { circuit: id, number: 0, role, from, to, cable, route: self.route() }
    }
}

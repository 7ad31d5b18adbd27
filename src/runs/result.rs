//! What routing yields: circuits as runs, runs as legs, legs as segments.

use indexmap::IndexMap;
use serde::Serialize;

use crate::plan::{Cable, CircuitId, End, Finding, Plane};
use crate::units::{Cost, Mm, Point3};

/// Every circuit of a plan, routed.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Runs {
    /// A run for every circuit of the plan, in the plan's order.
    pub circuits: IndexMap<CircuitId, Run>,
    /// What a person should look at: points that are not placed, legs that
    /// cannot be made and why.
    pub findings: Vec<Finding>,
}

/// All the cable of a circuit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Run {
    /// Its legs, in the order in which they leave the board, switch legs last.
    pub legs: Vec<Leg>,
    /// How the feed was ordered, and how good that order is.
    pub order: Order,
}

/// The order of a feed, and how good it is.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Order {
    /// Where the feed goes, from the board on; a ring does not repeat the
    /// board. Points that cannot be reached are left out.
    pub ends: Vec<End>,
    /// The costs of its legs added up.
    pub cost: Cost,
    /// No order of these points can cost less than this.
    pub bound: Cost,
    /// How the order was found.
    pub method: OrderMethod,
    /// Cost and length of the best leg between any two ends that were ordered,
    /// in the order of `matrix_ends`. None: no leg can be made.
    pub matrix: Vec<Vec<Option<Distance>>>,
    /// The ends that the rows and columns of the matrix stand for.
    pub matrix_ends: Vec<End>,
}

/// How an order was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum OrderMethod {
    /// The electrician set it.
    Fixed,
    /// Every order was considered, in effect: there is none better.
    Exact,
    /// The bound met the cost, so there is none better.
    Proven,
    /// Improved step by step; the bound says how much could be left.
    Improved,
}

impl Order {
    /// The most by which a better order could be cheaper, in thousandths of
    /// this one's cost, rounded up; 0 when proven best.
    #[must_use]
    pub fn gap_permille(&self) -> i64 {
        let (cost, bound) = (self.cost.get(), self.bound.get());
        if cost <= bound || cost == 0 {
            return 0;
        }
        let scaled = (cost - bound) * 1000;
        scaled.div_euclid(cost) + i64::from(scaled.rem_euclid(cost) > 0)
    }
}

/// The best way between two ends: what it costs and how long it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Distance {
    /// What it was chosen by.
    pub cost: Cost,
    /// How long it is.
    pub length: Mm,
}

/// One uncut length of cable between two ends.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Leg {
    /// The circuit it belongs to.
    pub circuit: CircuitId,
    /// Its number within the circuit: the one that papers said of its ends;
    /// without one, beyond all that they said, in the order of the list.
    pub number: u32,
    /// What it is for.
    pub role: LegRole,
    /// The end nearer to the board.
    pub from: End,
    /// The other end.
    pub to: End,
    /// The cable it is cut from. None: the circuit has none yet.
    pub cable: Option<Cable>,
    /// The way it takes.
    pub route: Route,
}

/// What a leg is for; it decides the number of cores.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LegRole {
    /// Part of the feed.
    Feed,
    /// The last leg of a ring, back to the board.
    RingReturn,
    /// Hangs off a point of the feed.
    Spur,
    /// From a light to its switch, or from a switch to its light.
    SwitchLeg,
    /// Between two switches that work the same lights.
    Strappers,
    /// Between two alarms, with a core that links them.
    Interlink,
    /// From light to light behind the same switch.
    LightLink,
}

/// The way a leg takes.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Route {
    /// Its straight parts, from end to end; each begins where the one before
    /// it ends.
    pub segments: Vec<Segment>,
    /// What it was chosen by.
    pub cost: Cost,
    /// The lengths of its segments added up.
    pub length: Mm,
}

impl Route {
    /// The places where it begins, bends and ends.
    #[must_use]
    pub fn vertices(&self) -> Vec<Point3> {
        let mut vertices: Vec<Point3> = Vec::with_capacity(self.segments.len() + 1);
        vertices.extend(self.segments.first().map(|segment| segment.from));
        vertices.extend(self.segments.iter().map(|segment| segment.to));
        vertices
    }

    /// The segments, by their places, at which a cable passes a plate between
    /// a wall and a void: where the void lies flush with the wall's end, the
    /// plate has no segment of its own and the first behind it is named.
    #[must_use]
    pub fn plate_passages(&self) -> Vec<usize> {
        let in_plate = |segment: &Segment| segment.through == Surrounding::Plate;
        let in_wall =
            |segment: &Segment| matches!(segment.plane, Some(Plane::Wall(_))) && !in_plate(segment);
        let in_void = |segment: &Segment| matches!(segment.plane, Some(Plane::Void(_)));
        let flush = |at: usize| {
            let Some(before) = at.checked_sub(1).map(|before| &self.segments[before]) else {
                return false;
            };
            let segment = &self.segments[at];
            (in_wall(before) && in_void(segment)) || (in_void(before) && in_wall(segment))
        };
        let drawn = |at: usize| in_plate(&self.segments[at]) && self.segments[at].plane.is_some();
        (0..self.segments.len()).filter(|at| drawn(*at) || flush(*at)).collect()
    }
}

/// A straight part of a leg within one surrounding.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Segment {
    /// Where it begins.
    pub from: Point3,
    /// Where it ends.
    pub to: Point3,
    /// How long it is.
    pub length: Mm,
    /// The plane it lies in; for a passage through a plate, the wall whose
    /// plate it is. None: on a post, or straight through a ceiling or a floor.
    pub plane: Option<Plane>,
    /// Which way it goes.
    pub heading: Heading,
    /// What it runs through.
    pub through: Surrounding,
    /// Thickness of the thermal insulation around it, mm; 0 for none.
    pub insulation: Mm,
    /// How many other legs lie beside it for more than a third of its length.
    pub beside: u32,
}

/// Which way a segment goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Heading {
    /// Upwards.
    Up,
    /// Downwards.
    Down,
    /// Sideways inside or on a wall.
    Sideways,
    /// Across a void, along its joists.
    AlongJoists,
    /// Across a void, across its joists.
    AcrossJoists,
}

/// What a segment runs through; with the insulation it decides the rating of
/// the cable.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Surrounding {
    /// A roof space.
    RoofSpace,
    /// Between a ceiling and the floor above it.
    BetweenFloors,
    /// Under a suspended ground floor.
    Subfloor,
    /// In a trench.
    Ground,
    /// In the hollow of a framed wall.
    HollowWall,
    /// In a chase in masonry or concrete, plastered over.
    Chase,
    /// In a cavity between two leaves.
    Cavity,
    /// On the face of a wall.
    Surface,
    /// Through a plate, a ceiling or a floor.
    Plate,
    /// Up a post outdoors.
    Post,
}

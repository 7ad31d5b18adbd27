//! What the checker says is wrong, and where.

use std::fmt;

use wirewend::plan::CircuitId;
use wirewend::runs::Leg;

/// Something that is wrong with a result.
#[derive(Clone, Debug)]
pub(crate) struct Complaint {
    /// What kind of thing is wrong.
    pub(crate) code: Code,
    /// The circuit, unless it is the whole plan.
    pub(crate) circuit: Option<CircuitId>,
    /// The number of the leg, unless it is the whole circuit.
    pub(crate) leg: Option<u32>,
    /// The segment of the leg, from 0, unless it is the whole leg.
    pub(crate) segment: Option<usize>,
    /// What is wrong.
    pub(crate) text: String,
}

impl fmt::Display for Complaint {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.code.name())?;
        if let Some(circuit) = self.circuit {
            write!(f, " {circuit}")?;
        }
        if let Some(leg) = self.leg {
            write!(f, " leg {leg}")?;
        }
        if let Some(segment) = self.segment {
            write!(f, " segment {segment}")?;
        }
        write!(f, ": {}", self.text)
    }
}

macro_rules! codes {
    ($($(#[$doc:meta])* $code:ident = $name:literal,)+) => {
        /// The kinds of complaint.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub(crate) enum Code { $($(#[$doc])* $code,)+ }

        impl Code {
            /// Every kind there is.
            pub(crate) const ALL: &[Self] = &[$(Self::$code,)+];

            /// Its short stable name.
            pub(crate) const fn name(self) -> &'static str {
                match self { $(Self::$code => $name,)+ }
            }
        }
    };
}

codes! {
    /// A leg does not start or end where its ends are.
    Ends = "ends",
    /// A segment does not begin where the one before it ends.
    Gap = "gap",
    /// A segment without length.
    ZeroSegment = "zero-segment",
    /// A segment's length is not the distance of its ends.
    SegmentLength = "segment-length",
    /// A route's length is not that of its segments.
    RouteLength = "route-length",
    /// A segment goes another way than it says.
    Heading = "heading",
    /// Not on the wall it is said to lie on, or not between its edges.
    OffWall = "off-wall",
    /// Not at the height of the void it is said to lie in.
    OffVoid = "off-void",
    /// Beyond what the void covers.
    OutsideVoid = "outside-void",
    /// Not square to the joists.
    Askew = "askew",
    /// In no plane, yet neither on a post nor straight through a ceiling.
    NoPlane = "no-plane",
    /// A plate that does not join a wall with a void.
    Plate = "plate",
    /// A post that does not go straight down into the ground.
    Post = "post",
    /// Through a ceiling or a floor that nothing goes through.
    Concrete = "concrete",
    /// From one surrounding into another that is not joined to it there.
    Joint = "joint",
    /// Through an opening or its margin.
    Opening = "opening",
    /// Through a keep-out.
    KeepOut = "keep-out",
    /// On a wall that carries nothing.
    Screen = "screen",
    /// Sideways outside the permitted zones.
    SidewaysZone = "sideways-zone",
    /// Upright outside the permitted zones.
    UprightZone = "upright-zone",
    /// Through a wall of no end of the leg, and not by a corner strip.
    ForeignWall = "foreign-wall",
    /// From wall to wall inside them where that is not allowed.
    Corner = "corner",
    /// Not the surrounding of that void or wall.
    Surrounding = "surrounding",
    /// Not the insulation of that void or wall.
    Insulation = "insulation",
    /// A way that the circuit may not take.
    Way = "way",
    /// Not one run for every circuit in the plan's order.
    RunMissing = "run-missing",
    /// A placed point that is neither reached nor spoken of.
    PointMissed = "point-missed",
    /// A leg of another circuit, or to another circuit's point.
    Stranger = "stranger",
    /// Legs not numbered from 1 in order.
    Numbers = "numbers",
    /// A point that is fed more than once.
    Visits = "visits",
    /// A feed that is not joined as its wiring says.
    Shape = "shape",
    /// A ring that does not return, or a return that is no ring.
    Ring = "ring",
    /// Not in the order that the electrician set.
    FixedOrder = "fixed-order",
    /// A spur that does not hang where it should.
    Spur = "spur",
    /// An appliance that is not behind its isolating switch, or something else
    /// that is.
    Isolator = "isolator",
    /// A leg that misses its pin.
    Pin = "pin",
    /// A feed looped at lights instead of switches, or the other way.
    Loop = "loop",
    /// A switch or light that is not joined to its control.
    Control = "control",
    /// Not the strappers that a control takes.
    Strappers = "strappers",
    /// Alarms that are not linked.
    Interlink = "interlink",
    /// Not the cable or not the cores that a leg takes.
    Cores = "cores",
    /// An order whose cost is not that of its legs.
    OrderCost = "order-cost",
    /// A bound above the cost, or below nothing.
    Bound = "bound",
    /// Said to be best, but the bound does not show it.
    Proof = "proof",
    /// A matrix that is lopsided or at odds with the legs.
    Matrix = "matrix",
    /// A cost that is not that of the segments.
    Cost = "cost",
    /// Not one length for every leg.
    LengthMissing = "length-missing",
    /// A length along the way that is shorter than the way.
    RouteShort = "route-short",
    /// A length along the way with other terms than the allowances.
    RouteTerms = "route-terms",
    /// A tail that is not the point's or the allowance.
    Tail = "tail",
    /// A cut length with other terms than the allowances.
    Cut = "cut",
    /// A measured length that is lost or made up.
    Measured = "measured",
    /// A cable whose pieces do not add up.
    CableTotal = "cable-total",
    /// An order length that is not the cuts and the waste.
    OrderLength = "order-length",
}

/// Complaints as they come in.
#[derive(Debug, Default)]
pub(crate) struct Complaints {
    /// All so far.
    pub(crate) all: Vec<Complaint>,
}

impl Complaints {
    /// About the whole plan.
    pub(crate) fn plan(&mut self, code: Code, text: impl Into<String>) {
        self.add(code, None, None, None, text.into());
    }

    /// About a circuit.
    pub(crate) fn circuit(&mut self, code: Code, circuit: CircuitId, text: impl Into<String>) {
        self.add(code, Some(circuit), None, None, text.into());
    }

    /// About a leg.
    pub(crate) fn leg(&mut self, code: Code, leg: &Leg, text: impl Into<String>) {
        self.add(code, Some(leg.circuit), Some(leg.number), None, text.into());
    }

    /// About a segment of a leg.
    pub(crate) fn segment(&mut self, code: Code, leg: &Leg, at: usize, text: impl Into<String>) {
        self.add(code, Some(leg.circuit), Some(leg.number), Some(at), text.into());
    }

    fn add(
        &mut self,
        code: Code,
        circuit: Option<CircuitId>,
        leg: Option<u32>,
        segment: Option<usize>,
        text: String,
    ) {
        self.all.push(Complaint { code, circuit, leg, segment, text });
    }
}

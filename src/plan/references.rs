//! What in a plan names what else, and whether the plan has it.

use std::fmt::{self, Arguments};

use super::{Circuit, End, Place, Plan, Plane, Subject};

/// One thing of a plan that names another.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Reference {
    /// What names.
    pub by: Subject,
    /// How, so that `by how names` reads as a sentence: `is on`.
    pub how: &'static str,
    /// What is named.
    pub names: Subject,
    /// Where in the plan, by the names of its fields: `openings.O5.wall`.
    pub at: String,
}

impl fmt::Display for Reference {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} {} {}", self.by, self.how, self.names)
    }
}

impl fmt::Display for Subject {
    /// The noun and the id: `wall W3`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Plan => f.write_str("the plan"),
            Self::Level(id) => write!(f, "level {id}"),
            Self::Void(id) => write!(f, "void {id}"),
            Self::Wall(id) => write!(f, "wall {id}"),
            Self::Opening(id) => write!(f, "opening {id}"),
            Self::Room(id) => write!(f, "room {id}"),
            Self::Area(id) => write!(f, "area {id}"),
            Self::Riser(id) => write!(f, "riser {id}"),
            Self::Point(id) => write!(f, "point {id}"),
            Self::Control(id) => write!(f, "control {id}"),
            Self::Board(id) => write!(f, "board {id}"),
            Self::Circuit(id) => write!(f, "circuit {id}"),
            Self::Leg { circuit, from, to } => {
                write!(f, "the leg of circuit {circuit} from {from} to {to}")
            }
        }
    }
}

impl From<End> for Subject {
    fn from(end: End) -> Self {
        match end {
            End::Board(id) => Self::Board(id),
            End::Point(id) => Self::Point(id),
        }
    }
}

impl Plan {
    /// Every reference to something that this plan does not have, in drawing
    /// order. A plan that was read, or built by edits, has none.
    #[must_use]
    pub fn check_references(&self) -> Vec<Reference> {
        let mut dangling = Vec::new();
        each_reference(self, &mut |by, how, names, at| {
            if !self.has(names) {
                dangling.push(Reference { by, how, names, at: at.to_string() });
            }
        });
        dangling
    }

    /// Whether the plan has a thing; of a leg, whether it has its circuit and
    /// both its ends.
    #[must_use]
    pub fn has(&self, subject: Subject) -> bool {
        match subject {
            Subject::Plan => true,
            Subject::Level(id) => self.levels.contains_key(&id),
            Subject::Void(id) => self.voids.contains_key(&id),
            Subject::Wall(id) => self.walls.contains_key(&id),
            Subject::Opening(id) => self.openings.contains_key(&id),
            Subject::Room(id) => self.rooms.contains_key(&id),
            Subject::Area(id) => self.areas.contains_key(&id),
            Subject::Riser(id) => self.risers.contains_key(&id),
            Subject::Point(id) => self.points.contains_key(&id),
            Subject::Control(id) => self.controls.contains_key(&id),
            Subject::Board(id) => self.boards.contains_key(&id),
            Subject::Circuit(id) => self.circuits.contains_key(&id),
            Subject::Leg { circuit, from, to } => {
                self.circuits.contains_key(&circuit) && self.has(from.into()) && self.has(to.into())
            }
        }
    }
}

/// Called with what names, how, what is named, and where. The place is not yet
/// a text: most are never needed as one.
type See<'a> = dyn FnMut(Subject, &'static str, Subject, Arguments<'_>) + 'a;

fn each_reference(plan: &Plan, see: &mut See<'_>) {
    each_of_building(plan, see);
    for (id, board) in &plan.boards {
        of_place(Subject::Board(*id), board.place, format_args!("boards.{id}"), see);
    }
    for (id, circuit) in &plan.circuits {
        of_circuit(Subject::Circuit(*id), circuit, format_args!("circuits.{id}"), see);
    }
    for (id, point) in &plan.points {
        let by = Subject::Point(*id);
        of_place(by, point.place, format_args!("points.{id}"), see);
        if let Some(circuit) = point.circuit {
            let names = Subject::Circuit(circuit);
            see(by, "is fed by", names, format_args!("points.{id}.circuit"));
        }
    }
    for (id, control) in &plan.controls {
        let by = Subject::Control(*id);
        for (index, light) in control.lights.iter().enumerate() {
            let at = format_args!("controls.{id}.lights[{index}]");
            see(by, "works", Subject::Point(*light), at);
        }
        for (index, switch) in control.switches.iter().enumerate() {
            let at = format_args!("controls.{id}.switches[{index}]");
            see(by, "is worked by", Subject::Point(*switch), at);
        }
    }
    each_of_measured(plan, see);
}

fn each_of_building(plan: &Plan, see: &mut See<'_>) {
    for (id, level) in &plan.levels {
        let by = Subject::Level(*id);
        for (index, void) in level.above.iter().enumerate() {
            let at = format_args!("levels.{id}.above[{index}]");
            see(by, "lies under", Subject::Void(*void), at);
        }
        for (index, void) in level.below.iter().enumerate() {
            let at = format_args!("levels.{id}.below[{index}]");
            see(by, "lies over", Subject::Void(*void), at);
        }
    }
    for id in plan.backdrops.keys() {
        let (by, names) = (Subject::Plan, Subject::Level(*id));
        see(by, "has a picture beneath", names, format_args!("backdrops.{id}"));
    }
    for (id, wall) in &plan.walls {
        let (by, names) = (Subject::Wall(*id), Subject::Level(wall.level));
        see(by, "stands on", names, format_args!("walls.{id}.level"));
    }
    for (id, opening) in &plan.openings {
        let (by, names) = (Subject::Opening(*id), Subject::Wall(opening.wall));
        see(by, "is in", names, format_args!("openings.{id}.wall"));
    }
    for (id, room) in &plan.rooms {
        let (by, names) = (Subject::Room(*id), Subject::Level(room.level));
        see(by, "is on", names, format_args!("rooms.{id}.level"));
    }
    for (id, area) in &plan.areas {
        let by = Subject::Area(*id);
        match area.on {
            Plane::Void(void) => {
                see(by, "lies in", Subject::Void(void), format_args!("areas.{id}.on.void"));
            }
            Plane::Wall(wall) => {
                see(by, "lies on", Subject::Wall(wall), format_args!("areas.{id}.on.wall"));
            }
        }
    }
    for (id, riser) in &plan.risers {
        for (index, void) in riser.voids.iter().enumerate() {
            let at = format_args!("risers.{id}.voids[{index}]");
            see(Subject::Riser(*id), "joins", Subject::Void(*void), at);
        }
    }
}

fn of_place(by: Subject, place: Option<Place>, at: Arguments<'_>, see: &mut See<'_>) {
    let (names, way) = match place {
        None => return,
        Some(Place::Wall(on)) => (Subject::Wall(on.wall), "wall.wall"),
        Some(Place::Ceiling(on)) => (Subject::Level(on.level), "ceiling.level"),
        Some(Place::Floor(on)) => (Subject::Level(on.level), "floor.level"),
        Some(Place::Post(on)) => (Subject::Level(on.level), "post.level"),
    };
    see(by, "is on", names, format_args!("{at}.place.{way}"));
}

fn of_circuit(by: Subject, circuit: &Circuit, at: Arguments<'_>, see: &mut See<'_>) {
    if let Some(board) = circuit.board {
        see(by, "comes from", Subject::Board(board), format_args!("{at}.board"));
    }
    for (index, point) in circuit.order.iter().enumerate() {
        see(by, "visits", Subject::Point(*point), format_args!("{at}.order[{index}]"));
    }
    for (index, spur) in circuit.spurs.iter().enumerate() {
        let names = Subject::Point(spur.point);
        see(by, "has a spur to", names, format_args!("{at}.spurs[{index}].point"));
        of_end(by, "has a spur from", spur.from, format_args!("{at}.spurs[{index}].from"), see);
    }
    for (index, pin) in circuit.pins.iter().enumerate() {
        let at = format_args!("{at}.pins[{index}]");
        of_end(by, "has a pinned leg at", pin.from, format_args!("{at}.from"), see);
        of_end(by, "has a pinned leg at", pin.to, format_args!("{at}.to"), see);
        for (index, place) in pin.through.iter().enumerate() {
            let names = Subject::Void(place.void);
            see(by, "has a leg pinned in", names, format_args!("{at}.through[{index}].void"));
        }
    }
}

fn of_end(by: Subject, how: &'static str, end: End, at: Arguments<'_>, see: &mut See<'_>) {
    match end {
        End::Board(_) => see(by, how, end.into(), format_args!("{at}.board")),
        End::Point(_) => see(by, how, end.into(), format_args!("{at}.point")),
    }
}

fn each_of_measured(plan: &Plan, see: &mut See<'_>) {
    for (index, measured) in plan.measured.iter().enumerate() {
        let by = Subject::Leg { circuit: measured.circuit, from: measured.from, to: measured.to };
        let names = Subject::Circuit(measured.circuit);
        see(by, "was measured on", names, format_args!("measured[{index}].circuit"));
        for (end, field) in [(measured.from, "from"), (measured.to, "to")] {
            of_end(by, "was measured at", end, format_args!("measured[{index}].{field}"), see);
        }
    }
}

//! The bounds that every number, text and list of a plan keeps to, so that
//! sums cannot overflow, results stay finite, and what can be drawn can be
//! saved and read again.

use std::fmt::{self, Arguments};

use super::{AreaEffect, Circuit, End, Place, Plan, is_day};
use crate::units::{Angle, Cents, Mm, Point2};

/// The largest amount of money, in the currency's smallest unit: a million of
/// them times a hundred items still adds up in 64 bits.
const CENTS_MAX: i64 = 10_000_000_000;
/// The largest electrical quantity, in its unit.
const QUANTITY_MAX: f64 = 1.0e9;
/// One turn, thousandths of a degree.
const TURN: i32 = 360_000;
/// The longest text, bytes.
const TEXT_MAX: usize = 10_000;
/// The most things of one kind.
const THINGS_MAX: usize = 100_000;
/// The most names of one kind that are kept: what has gone stays among them.
const KEPT_MAX: usize = 1_000_000;
/// The most entries in a list within one thing, such as the corners of a room.
const LIST_MAX: usize = 1000;
/// The largest number of an id, far enough below `u32::MAX` that the counter
/// never runs out.
const ID_MAX: u32 = 1_000_000_000;

/// A value of a plan outside its bounds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Beyond {
    /// Where in the plan, by the names of its fields: `walls.W3.a`.
    pub at: String,
    /// What stands there.
    pub found: String,
    /// The bounds.
    pub expected: String,
}

impl fmt::Display for Beyond {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: found {}, expected {}", self.at, self.found, self.expected)
    }
}

impl Plan {
    /// The first value outside its bounds, if there is one. A plan that was
    /// read, or built by edits, has none.
    #[must_use]
    pub fn check_limits(&self) -> Option<Beyond> {
        let mut first = None;
        let mut walk = Walk(&mut |at, value| {
            if first.is_none()
                && let Some((found, expected)) = beyond(value)
            {
                first = Some(Beyond { at: at.to_string(), found, expected });
            }
        });
        walk.plan(self);
        first
    }
}

/// A value of a plan that has bounds.
#[derive(Clone, Copy)]
enum Bounded<'a> {
    Length(Mm),
    /// What a way costs, as a length of plain run: a cost below nothing would pay
    /// for going round in circles.
    Cost(Mm),
    Money(Cents),
    Turn(Angle),
    Quantity(f64),
    Percent(u8),
    Text(&'a str),
    Day(&'a str),
    List(usize),
    Things(usize),
    Kept(usize),
    Id(u32),
}

/// What was found and what was expected, if the value is out of bounds.
fn beyond(value: Bounded<'_>) -> Option<(String, String)> {
    let within = |value: i64, limit: i64| {
        (!(-limit..=limit).contains(&value)).then(|| (value, format!("from -{limit} to {limit}")))
    };
    let count = |count: usize, limit: usize| {
        (count > limit).then(|| (format!("{count} of them"), format!("at most {limit}")))
    };
    match value {
        Bounded::Length(length) => within(length.get(), Mm::COORDINATE_MAX.get())
            .map(|(found, range)| (format!("{found} mm"), format!("{range} mm"))),
        Bounded::Cost(cost) => {
            let most = Mm::COORDINATE_MAX.get();
            let is_within = (0..=most).contains(&cost.get());
            (!is_within).then(|| (format!("{} mm", cost.get()), format!("from 0 to {most} mm")))
        }
        Bounded::Money(cents) => {
            within(cents.get(), CENTS_MAX).map(|(found, range)| (found.to_string(), range))
        }
        Bounded::Turn(angle) => within(angle.millidegrees().into(), TURN.into())
            .map(|(found, range)| (found.to_string(), range)),
        Bounded::Quantity(number) => (!number.is_finite() || number.abs() > QUANTITY_MAX)
            .then(|| (number.to_string(), format!("from -{QUANTITY_MAX} to {QUANTITY_MAX}"))),
        Bounded::Percent(part) => {
            (part > 100).then(|| (format!("{part} percent"), "at most 100".to_owned()))
        }
        Bounded::Text(text) => text_beyond(text),
        Bounded::Day(text) if text.is_empty() || is_day(text) => None,
        Bounded::Day(text) => {
            let start: String = text.chars().take(20).collect();
            Some((crate::wording::quoted(&start), "a day such as 2026-11-25".to_owned()))
        }
        Bounded::List(length) => count(length, LIST_MAX),
        Bounded::Things(number) => count(number, THINGS_MAX),
        Bounded::Kept(number) => count(number, KEPT_MAX),
        Bounded::Id(number) => (number > ID_MAX)
            .then(|| (format!("the number {number}"), format!("one up to {ID_MAX}"))),
    }
}

fn text_beyond(text: &str) -> Option<(String, String)> {
    if text.len() > TEXT_MAX {
        return Some((format!("{} bytes", text.len()), format!("at most {TEXT_MAX}")));
    }
    let control = text.chars().find(|letter| letter.is_control())?;
    Some((
        format!("the character '{}'", control.escape_debug()),
        "a text without control characters".to_owned(),
    ))
}

struct Walk<'a>(&'a mut dyn FnMut(Arguments<'_>, Bounded<'_>));

impl Walk<'_> {
    fn lengths<const N: usize>(&mut self, at: Arguments<'_>, lengths: [(&str, Mm); N]) {
        for (field, length) in lengths {
            (self.0)(format_args!("{at}.{field}"), Bounded::Length(length));
        }
    }

    fn texts<const N: usize>(&mut self, at: Arguments<'_>, texts: [(&str, &str); N]) {
        for (field, text) in texts {
            (self.0)(format_args!("{at}.{field}"), Bounded::Text(text));
        }
    }

    fn quantities<const N: usize>(&mut self, at: Arguments<'_>, numbers: [(&str, Option<f64>); N]) {
        for (field, number) in numbers {
            if let Some(number) = number {
                (self.0)(format_args!("{at}.{field}"), Bounded::Quantity(number));
            }
        }
    }

    fn list(&mut self, at: Arguments<'_>, length: usize) {
        (self.0)(at, Bounded::List(length));
    }

    fn spot(&mut self, at: Arguments<'_>, place: Point2) {
        (self.0)(at, Bounded::Length(place.x));
        (self.0)(at, Bounded::Length(place.y));
    }

    fn outline(&mut self, at: Arguments<'_>, outline: &[Point2]) {
        self.list(at, outline.len());
        for (index, place) in outline.iter().enumerate() {
            self.spot(format_args!("{at}[{index}]"), *place);
        }
    }

    fn plan(&mut self, plan: &Plan) {
        self.counts(plan);
        self.ids(plan);
        self.project(plan);
        self.levels(plan);
        self.walls(plan);
        self.rooms(plan);
        self.boards(plan);
        for (id, circuit) in &plan.circuits {
            self.circuit(format_args!("circuits.{id}"), circuit);
        }
        self.points(plan);
        self.steering(plan);
        self.books(plan);
        self.kept(plan);
    }

    fn counts(&mut self, plan: &Plan) {
        for (field, count) in [
            ("levels", plan.levels.len()),
            ("voids", plan.voids.len()),
            ("walls", plan.walls.len()),
            ("openings", plan.openings.len()),
            ("rooms", plan.rooms.len()),
            ("areas", plan.areas.len()),
            ("risers", plan.risers.len()),
            ("backdrops", plan.backdrops.len()),
            ("boards", plan.boards.len()),
            ("circuits", plan.circuits.len()),
            ("points", plan.points.len()),
            ("controls", plan.controls.len()),
            ("stock.drums", plan.stock.drums.len()),
            ("stock.off_cuts", plan.stock.off_cuts.len()),
            ("prices.items", plan.prices.items.len()),
            ("prices.labour.minutes", plan.prices.labour.minutes.len()),
            ("measured", plan.measured.len()),
            ("readings", plan.readings.len()),
        ] {
            (self.0)(format_args!("{field}"), Bounded::Things(count));
        }
    }

    fn kept(&mut self, plan: &Plan) {
        let kept = &plan.kept;
        for (field, count) in [
            ("marks", kept.marks.len()),
            ("circuits", kept.circuits.len()),
            ("legs", kept.legs.len()),
            ("issues", kept.issues.len()),
        ] {
            (self.0)(format_args!("kept.{field}"), Bounded::Kept(count));
        }
        for text in kept.marks.keys() {
            (self.0)(format_args!("kept.marks"), Bounded::Text(text));
        }
        for leg in &kept.legs {
            // Far enough below the end of numbers that new legs find theirs.
            (self.0)(format_args!("kept.legs"), Bounded::Id(leg.number));
        }
        for (index, issue) in kept.issues.iter().enumerate() {
            let at = format_args!("kept.issues[{index}]");
            self.texts(at, [("revision", &issue.revision), ("date", &issue.date)]);
        }
    }

    fn ids(&mut self, plan: &Plan) {
        // A counter one past the largest id is as far as it goes.
        (self.0)(format_args!("next_id"), Bounded::Id(plan.next_id.saturating_sub(1)));
        each_id(plan, &mut |at, number| (self.0)(at, Bounded::Id(number)));
    }

    fn project(&mut self, plan: &Plan) {
        let project = &plan.project;
        self.texts(
            format_args!("project"),
            [
                ("title", &project.title),
                ("site", &project.site),
                ("client", &project.client),
                ("drawn_by", &project.drawn_by),
                ("contractor", &project.contractor),
                ("number", &project.number),
                ("revision", &project.revision),
                ("date", &project.date),
                ("notes", &project.notes),
            ],
        );
        if let Some(said) = &project.built_as_planned {
            let at = format_args!("project.built_as_planned");
            self.texts(at, [("by", &said.by)]);
            (self.0)(format_args!("{at}.on"), Bounded::Day(&said.on));
        }
    }

    fn levels(&mut self, plan: &Plan) {
        for (id, level) in &plan.levels {
            let at = format_args!("levels.{id}");
            self.texts(at, [("name", &level.name)]);
            self.lengths(at, [("floor", level.floor), ("height", level.height)]);
            self.list(format_args!("{at}.above"), level.above.len());
            self.list(format_args!("{at}.below"), level.below.len());
        }
        for (id, void) in &plan.voids {
            let at = format_args!("voids.{id}");
            self.texts(at, [("name", &void.name)]);
            self.lengths(
                at,
                [("z", void.z), ("depth", void.depth), ("insulation", void.insulation)],
            );
            (self.0)(format_args!("{at}.direction"), Bounded::Turn(void.direction));
            if let Some(joists) = void.joists {
                self.lengths(
                    format_args!("{at}.joists"),
                    [
                        ("spacing", joists.spacing),
                        ("depth", joists.depth),
                        ("thickness", joists.thickness),
                    ],
                );
            }
            if let Some(outline) = &void.outline {
                self.outline(format_args!("{at}.outline"), outline);
            }
        }
        for (id, backdrop) in &plan.backdrops {
            let at = format_args!("backdrops.{id}");
            self.texts(at, [("file", &backdrop.file)]);
            self.spot(format_args!("{at}.at"), backdrop.at);
            self.lengths(at, [("width", backdrop.width)]);
            (self.0)(format_args!("{at}.turn"), Bounded::Turn(backdrop.turn));
            (self.0)(format_args!("{at}.strength"), Bounded::Percent(backdrop.strength));
        }
        for (id, riser) in &plan.risers {
            let at = format_args!("risers.{id}");
            self.texts(at, [("name", &riser.name)]);
            self.spot(format_args!("{at}.at"), riser.at);
            self.list(format_args!("{at}.voids"), riser.voids.len());
        }
    }

    fn walls(&mut self, plan: &Plan) {
        for (id, wall) in &plan.walls {
            let at = format_args!("walls.{id}");
            self.spot(format_args!("{at}.a"), wall.a);
            self.spot(format_args!("{at}.b"), wall.b);
            self.lengths(at, [("thickness", wall.thickness)]);
        }
        for (id, opening) in &plan.openings {
            self.lengths(
                format_args!("openings.{id}"),
                [
                    ("from", opening.from),
                    ("width", opening.width),
                    ("sill", opening.sill),
                    ("head", opening.head),
                ],
            );
        }
    }

    fn rooms(&mut self, plan: &Plan) {
        for (id, room) in &plan.rooms {
            let at = format_args!("rooms.{id}");
            self.texts(at, [("name", &room.name)]);
            self.outline(format_args!("{at}.outline"), &room.outline);
        }
        for (id, area) in &plan.areas {
            let at = format_args!("areas.{id}");
            self.texts(at, [("name", &area.name)]);
            self.outline(format_args!("{at}.outline"), &area.outline);
            if let AreaEffect::Barrier(toll) = area.effect {
                (self.0)(format_args!("{at}.effect.barrier"), Bounded::Cost(toll));
            }
        }
    }

    fn place(&mut self, at: Arguments<'_>, place: Option<Place>) {
        match place {
            None => {}
            Some(Place::Wall(on)) => self.lengths(
                format_args!("{at}.place.wall"),
                [("along", on.along), ("height", on.height)],
            ),
            Some(Place::Ceiling(on)) => self.spot(format_args!("{at}.place.ceiling.at"), on.at),
            Some(Place::Floor(on)) => self.spot(format_args!("{at}.place.floor.at"), on.at),
            Some(Place::Post(on)) => {
                self.spot(format_args!("{at}.place.post.at"), on.at);
                self.lengths(format_args!("{at}.place.post"), [("height", on.height)]);
            }
        }
    }

    fn boards(&mut self, plan: &Plan) {
        for (id, board) in &plan.boards {
            let at = format_args!("boards.{id}");
            self.texts(at, [("label", &board.label)]);
            self.place(at, board.place);
            let supply = &board.supply;
            self.quantities(
                format_args!("{at}.supply"),
                [
                    ("voltage", supply.voltage.map(|volts| volts.0)),
                    ("loop_impedance", supply.loop_impedance.map(|ohms| ohms.0)),
                    ("fault_current", supply.fault_current.map(|amps| amps.0)),
                    ("main_switch", supply.main_switch.map(|amps| amps.0)),
                ],
            );
        }
    }

    fn circuit(&mut self, at: Arguments<'_>, circuit: &Circuit) {
        self.texts(at, [("name", &circuit.name), ("rcd_group", &circuit.rcd_group)]);
        self.quantities(
            format_args!("{at}.device"),
            [
                ("rating", circuit.device.map(|device| device.rating.0)),
                ("residual", circuit.device.and_then(|d| d.residual).map(|amps| amps.0)),
            ],
        );
        self.list(format_args!("{at}.ways"), circuit.ways.as_ref().map_or(0, Vec::len));
        self.list(format_args!("{at}.order"), circuit.order.len());
        self.list(format_args!("{at}.spurs"), circuit.spurs.len());
        self.list(format_args!("{at}.pins"), circuit.pins.len());
        for (index, pin) in circuit.pins.iter().enumerate() {
            let at = format_args!("{at}.pins[{index}].through");
            self.list(at, pin.through.len());
            for (index, place) in pin.through.iter().enumerate() {
                self.spot(format_args!("{at}[{index}].at"), place.at);
            }
        }
    }

    fn points(&mut self, plan: &Plan) {
        for (id, point) in &plan.points {
            let at = format_args!("points.{id}");
            self.texts(at, [("label", &point.label), ("note", &point.note)]);
            self.place(at, point.place);
            self.quantities(at, [("load", point.load.map(|watts| watts.0))]);
            self.lengths(at, [("tail", point.tail.unwrap_or(Mm::ZERO))]);
        }
        for (id, control) in &plan.controls {
            self.list(format_args!("controls.{id}.lights"), control.lights.len());
            self.list(format_args!("controls.{id}.switches"), control.switches.len());
        }
    }

    fn steering(&mut self, plan: &Plan) {
        let allowances = &plan.allowances;
        self.lengths(
            format_args!("allowances"),
            [
                ("tail_box", allowances.tail_box),
                ("tail_ceiling", allowances.tail_ceiling),
                ("tail_fixed", allowances.tail_fixed),
                ("tail_board", allowances.tail_board),
                ("turn_over", allowances.turn_over),
                ("void_loop", allowances.void_loop),
                ("drip_loop", allowances.drip_loop),
                ("step", allowances.step),
            ],
        );
        let habits = &plan.habits;
        self.lengths(
            format_args!("habits"),
            [("opening_clearance", habits.opening_clearance), ("zones.strip", habits.zones.strip)],
        );
        let costs = [("bend", habits.bend), ("plate", habits.plate), ("corner", habits.corner)];
        for (field, cost) in costs {
            (self.0)(format_args!("habits.{field}"), Bounded::Cost(cost));
        }
    }

    fn books(&mut self, plan: &Plan) {
        self.lengths(format_args!("stock"), [("usable", plan.stock.usable)]);
        for (index, drum) in plan.stock.drums.iter().enumerate() {
            let at = format_args!("stock.drums[{index}]");
            self.lengths(at, [("length", drum.length)]);
            let price = drum.price.unwrap_or(Cents::ZERO);
            (self.0)(format_args!("{at}.price"), Bounded::Money(price));
        }
        for (index, off_cut) in plan.stock.off_cuts.iter().enumerate() {
            let at = format_args!("stock.off_cuts[{index}]");
            self.lengths(at, [("length", off_cut.length)]);
            self.texts(at, [("label", &off_cut.label)]);
        }
        self.texts(format_args!("prices"), [("currency", &plan.prices.currency)]);
        for (index, item) in plan.prices.items.iter().enumerate() {
            let at = format_args!("prices.items[{index}]");
            self.texts(at, [("code", &item.code), ("name", &item.name), ("unit", &item.unit)]);
            (self.0)(format_args!("{at}.price"), Bounded::Money(item.price));
        }
        for (index, task) in plan.prices.labour.minutes.iter().enumerate() {
            let at = format_args!("prices.labour.minutes[{index}]");
            self.texts(at, [("code", &task.code)]);
        }
        for (index, measured) in plan.measured.iter().enumerate() {
            let at = format_args!("measured[{index}]");
            self.lengths(at, [("length", measured.length)]);
            self.texts(at, [("by", &measured.by)]);
            (self.0)(format_args!("{at}.on"), Bounded::Day(&measured.on));
        }
        for (index, reading) in plan.readings.iter().enumerate() {
            let at = format_args!("readings[{index}]");
            self.quantities(at, [("reads", Some(reading.reads.value()))]);
            self.texts(at, [("by", &reading.by), ("on", &reading.on)]);
        }
    }
}

/// Calls with where and the number of every id that the plan has.
fn each_id(plan: &Plan, see: &mut dyn FnMut(Arguments<'_>, u32)) {
    macro_rules! each {
        ($($map:ident),*) => {
            $(for id in plan.$map.keys() {
                see(format_args!("{}.{id}", stringify!($map)), id.0);
            })*
        };
    }
    each!(levels, voids, walls, openings, rooms, areas, risers, boards, circuits, points, controls);
    // What has gone is named there, and no other thing may ever have its id.
    let kept = &plan.kept;
    let number = |end: End| match end {
        End::Board(id) => id.0,
        End::Point(id) => id.0,
    };
    for (text, mark) in &kept.marks {
        see(format_args!("kept.marks.{text}.of"), number(mark.of));
    }
    for (index, one) in kept.circuits.iter().enumerate() {
        see(format_args!("kept.circuits[{index}].circuit"), one.circuit.0);
        see(format_args!("kept.circuits[{index}].board"), one.board.map_or(0, |id| id.0));
    }
    for (index, one) in kept.legs.iter().enumerate() {
        for id in [one.circuit.0, number(one.from), number(one.to)] {
            see(format_args!("kept.legs[{index}]"), id);
        }
    }
}

impl Plan {
    /// The largest number that an id of this plan carries.
    #[must_use]
    pub fn largest_id(&self) -> Option<u32> {
        let mut largest = None;
        each_id(self, &mut |_, number| largest = largest.max(Some(number)));
        largest
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Wall, WallBuild, WallId};
    use super::*;

    #[test]
    fn a_plan_keeps_to_its_bounds_up_to_the_edge() {
        let mut plan = Plan::default();
        let max = Mm::COORDINATE_MAX.get();
        let wall = |x: i64| Wall {
            level: super::super::LevelId(1),
            a: Point2::new(x, 0),
            b: Point2::new(0, 0),
            thickness: Mm::new(90),
            build: WallBuild::Stud,
            insulated: false,
            wet: None,
        };
        plan.walls.insert(WallId(2), wall(-max));
        assert_eq!(plan.check_limits(), None, "the edge itself");
        plan.walls.insert(WallId(3), wall(max + 1));
        let beyond = plan.check_limits().unwrap();
        let expect = "walls.W3.a: found 10000001 mm, expected from -10000000 to 10000000 mm";
        assert_eq!(beyond.to_string(), expect, "one past it");
    }

    #[test]
    fn texts_are_of_one_line_and_numbers_are_numbers() {
        for bad in [Bounded::Text("a\nb"), Bounded::Quantity(f64::NAN), Bounded::Id(u32::MAX)] {
            assert!(beyond(bad).is_some(), "must be refused");
        }
        assert!(beyond(Bounded::Text("Küche – “oben”")).is_none(), "a name");
    }
}

//! A small house with hand-made routes, for the drawings' tests: an angled
//! wall, a corridor that several circuits share, a light switched from two
//! places, a socket outdoors on a wet face. Invented.

#![allow(clippy::unwrap_used, reason = "a test may panic")]

use wirewend::lengths::{LegLength, Lengths};
use wirewend::plan::{
    Board, BoardId, Cable, CableMake, Circuit, CircuitId, CircuitUse, Control, ControlId, Curve,
    Device, End, Face, Hinge, Level, LevelId, OnLevel, OnWall, Opening, OpeningId, OpeningKind,
    Place, Plan, Plane, Point, PointId, PointKind, Project, Room, RoomId, RoomUse, Void, VoidId,
    VoidKind, Wall, WallBuild, WallId,
};
use wirewend::runs::{
    Heading, Leg, LegRole, Order, OrderMethod, Route, Run, Runs, Segment, Surrounding,
};
use wirewend::units::{Amps, Angle, Cost, Csa, Mm, Point2, Point3, Worked, Working};

/// The level of the sample.
pub(crate) const GROUND: LevelId = LevelId(1);
const ROOF: VoidId = VoidId(2);
const UNDER: VoidId = VoidId(3);

/// A plan with its routes and lengths.
#[derive(Debug)]
pub(crate) struct Sample {
    pub(crate) plan: Plan,
    pub(crate) runs: Runs,
    pub(crate) lengths: Lengths,
}

/// An empty level under a roof space and over a subfloor.
pub(crate) fn empty_plan() -> Plan {
    let mut plan = Plan::default();
    let void = |name: &str, kind, z| Void {
        name: name.to_owned(),
        kind,
        z: Mm::new(z),
        depth: Mm::new(600),
        direction: Angle::ZERO,
        joists: None,
        insulation: Mm::ZERO,
        access: wirewend::plan::Access::Crawl,
        outline: None,
    };
    plan.voids.insert(ROOF, void("roof space", VoidKind::RoofSpace, 2700));
    plan.voids.insert(UNDER, void("subfloor", VoidKind::Subfloor, -300));
    plan.levels.insert(
        GROUND,
        Level {
            name: "Ground floor".to_owned(),
            floor: Mm::ZERO,
            height: Mm::new(2400),
            above: vec![ROOF],
            below: vec![UNDER],
        },
    );
    plan
}

/// A wall of the sample.
pub(crate) fn wall(a: (i64, i64), b: (i64, i64), thickness: i64, build: WallBuild) -> Wall {
    Wall {
        level: GROUND,
        a: Point2::new(a.0, a.1),
        b: Point2::new(b.0, b.1),
        thickness: Mm::new(thickness),
        build,
        insulated: false,
        wet: None,
    }
}

fn add_walls(plan: &mut Plan) {
    use WallBuild::{BrickVeneer, SolidMasonry, Stud};
    let corners = [(0, 0), (12000, 0), (12000, 6500), (10500, 8500), (0, 8500)];
    for index in 0..5u32 {
        let (a, b) = (corners[index as usize], corners[(index as usize + 1) % 5]);
        let outer = Wall { wet: Some(Face::Right), ..wall(a, b, 250, BrickVeneer) };
        plan.walls.insert(WallId(index + 1), outer);
    }
    let inner = [
        ((0, 3800), (12000, 3800), 90, Stud),
        ((0, 5000), (12000, 5000), 90, Stud),
        ((5000, 0), (5000, 3800), 230, SolidMasonry),
        ((8500, 0), (8500, 3800), 90, Stud),
        ((4500, 5000), (4500, 8500), 90, Stud),
        ((8000, 5000), (8000, 8500), 110, WallBuild::LathAndPlaster),
    ];
    for (index, (a, b, thickness, build)) in (6u32..).zip(inner) {
        plan.walls.insert(WallId(index), wall(a, b, thickness, build));
    }
}

fn add_openings(plan: &mut Plan) {
    use OpeningKind::{Door, Plain, SlidingDoor, Window};
    let mut add = |wall: u32, kind, from: i64, width: i64, hinge: Option<(bool, Face)>| {
        let id = OpeningId(u32::try_from(plan.openings.len()).unwrap() + 1);
        let (sill, head) = if kind == Window { (900, 2100) } else { (0, 2040) };
        let opening = Opening {
            wall: WallId(wall),
            kind,
            from: Mm::new(from),
            width: Mm::new(width),
            sill: Mm::new(sill),
            head: Mm::new(head),
            hinge: hinge.map(|(at_near_edge, opens)| Hinge { at_near_edge, opens }),
        };
        plan.openings.insert(id, opening);
    };
    add(6, Door, 3600, 820, Some((false, Face::Right)));
    add(6, Plain, 5600, 1200, None);
    add(6, Door, 8900, 720, Some((true, Face::Right)));
    add(7, Door, 3400, 820, Some((false, Face::Left)));
    add(7, Door, 4900, 820, Some((true, Face::Left)));
    add(7, Door, 10800, 820, Some((false, Face::Left)));
    add(5, Door, 3650, 920, Some((true, Face::Left)));
    add(1, SlidingDoor, 1400, 2100, None);
    add(1, Window, 6000, 1500, None);
    add(1, Window, 9900, 900, None);
    add(3, Window, 700, 1100, None);
    add(4, Window, 3900, 1500, None);
    add(4, Window, 7400, 1500, None);
}

fn add_rooms(plan: &mut Plan) {
    let mut add = |name: &str, usage, corners: &[(i64, i64)]| {
        let id = RoomId(u32::try_from(plan.rooms.len()).unwrap() + 1);
        let outline = corners.iter().map(|(x, y)| Point2::new(*x, *y)).collect();
        plan.rooms.insert(id, Room { level: GROUND, name: name.to_owned(), usage, outline });
    };
    let boxed = |x0, y0, x1, y1| vec![(x0, y0), (x1, y0), (x1, y1), (x0, y1)];
    add("Living", RoomUse::Living, &boxed(125, 125, 4885, 3755));
    add("Kitchen", RoomUse::Kitchen, &boxed(5115, 125, 8455, 3755));
    add("Bathroom", RoomUse::Bathroom, &boxed(8545, 125, 11875, 3755));
    add("Hall", RoomUse::Hall, &boxed(125, 3845, 11875, 4955));
    add("Bedroom 1", RoomUse::Bedroom, &boxed(125, 5045, 4455, 8375));
    add("Bedroom 2", RoomUse::Bedroom, &boxed(4545, 5045, 7945, 8375));
    add(
        "Study",
        RoomUse::Study,
        &[(8055, 5045), (11875, 5045), (11875, 6460), (10440, 8375), (8055, 8375)],
    );
}

/// Adds points and remembers their ids by a short name.
struct Kit<'a> {
    plan: &'a mut Plan,
    names: Vec<(&'static str, PointId)>,
}

impl Kit<'_> {
    fn add(&mut self, name: &'static str, kind: PointKind, place: Place, circuit: u32, gangs: u8) {
        let id = PointId(u32::try_from(self.plan.points.len()).unwrap() + 1);
        let point = Point {
            place: Some(place),
            circuit: Some(CircuitId(circuit)),
            gangs,
            ..Point::new(kind)
        };
        self.plan.points.insert(id, point);
        self.names.push((name, id));
    }

    fn wall(
        &mut self,
        name: &'static str,
        kind: PointKind,
        at: (u32, i64, i64, Face),
        circuit: u32,
    ) {
        self.add(name, kind, on_wall(at.0, at.1, at.2, at.3), circuit, 1);
    }

    fn ceiling(&mut self, name: &'static str, kind: PointKind, at: (i64, i64), circuit: u32) {
        let on = OnLevel { level: GROUND, at: Point2::new(at.0, at.1) };
        self.add(name, kind, Place::Ceiling(on), circuit, 1);
    }

    fn id(&self, name: &str) -> PointId {
        self.names.iter().find(|(known, _)| *known == name).unwrap().1
    }
}

/// A place on a wall of the sample.
pub(crate) fn on_wall(wall: u32, along: i64, height: i64, face: Face) -> Place {
    let (along, height) = (Mm::new(along), Mm::new(height));
    Place::Wall(OnWall { wall: WallId(wall), along, height, face })
}

fn add_points(plan: &mut Plan) -> Vec<(&'static str, PointId)> {
    use Face::{Left, Right};
    use PointKind as K;
    let mut kit = Kit { plan, names: Vec::new() };
    // 1: lights
    kit.ceiling("hall west", K::Luminaire, (3000, 4400), 1);
    kit.ceiling("hall east", K::Luminaire, (9000, 4400), 1);
    kit.wall("two-way west", K::Switch, (6, 1000, 1050, Left), 1);
    kit.wall("two-way east", K::Switch, (6, 11300, 1050, Left), 1);
    kit.ceiling("bed 1 light", K::Luminaire, (2250, 6750), 1);
    kit.wall("bed 1 switch", K::Dimmer, (7, 3150, 1050, Left), 1);
    kit.ceiling("bed 2 light", K::Luminaire, (6250, 6750), 1);
    kit.wall("bed 2 switch", K::Switch, (7, 5900, 1050, Left), 1);
    kit.ceiling("living light", K::LinearLight, (2500, 1900), 1);
    kit.wall("living switch", K::Switch, (6, 3400, 1050, Right), 1);
    kit.ceiling("study light", K::Downlight, (9600, 6600), 1);
    kit.wall("study switch", K::Switch, (7, 10600, 1050, Left), 1);
    // 2: sockets, bedrooms and study
    kit.add("bed 1 socket", K::Socket, on_wall(10, 1700, 300, Left), 2, 2);
    kit.add("bed 2 socket", K::Socket, on_wall(10, 1700, 300, Right), 2, 2);
    kit.add("study socket", K::Socket, on_wall(11, 1500, 300, Right), 2, 2);
    kit.add("study desk", K::Socket, on_wall(3, 1250, 300, Left), 2, 2);
    // 3: sockets, living and kitchen
    kit.add("living socket", K::Socket, on_wall(8, 900, 300, Left), 3, 2);
    kit.add("living tv", K::Socket, on_wall(5, 6600, 300, Left), 3, 2);
    kit.add("kitchen bench 1", K::Socket, on_wall(9, 900, 1150, Left), 3, 2);
    kit.add("kitchen bench 2", K::Socket, on_wall(9, 1700, 1150, Left), 3, 2);
    kit.wall("kitchen dish", K::Dishwasher, (1, 5500, 400, Left), 3);
    // 4: oven; 5: water heater; 6: outdoors; 7: alarms
    kit.wall("oven", K::Oven, (8, 2400, 600, Right), 4);
    kit.wall("heater", K::WaterHeater, (2, 900, 1500, Left), 5);
    kit.wall("heater isolator", K::Isolator, (2, 1700, 1500, Left), 5);
    kit.wall("outdoor", K::WeatherproofSocket, (1, 4500, 600, Right), 6);
    kit.ceiling("alarm west", K::SmokeAlarm, (4800, 4400), 7);
    kit.ceiling("alarm east", K::SmokeAlarm, (7400, 4400), 7);
    kit.ceiling("kitchen alarm", K::HeatAlarm, (6800, 2600), 7);
    kit.ceiling("fan", K::ExhaustFan, (10200, 1500), 1);
    kit.wall("mirror light", K::WallLight, (9, 2900, 1800, Right), 1);
    kit.wall("cord", K::PullCord, (6, 9950, 2100, Right), 1);
    let (west, east) = (kit.id("two-way west"), kit.id("two-way east"));
    let lights = vec![kit.id("hall west"), kit.id("hall east")];
    let control = Control { lights, switches: vec![west, east], in_order: true };
    kit.plan.controls.insert(ControlId(1), control);
    kit.names
}

fn add_circuits(plan: &mut Plan) {
    let rows = [
        ("Lights", CircuitUse::Lighting, 1.5, 10.0),
        ("Sockets, bedrooms and study", CircuitUse::Sockets, 2.5, 20.0),
        ("Sockets, living and kitchen", CircuitUse::Sockets, 2.5, 20.0),
        ("Oven", CircuitUse::Fixed, 6.0, 32.0),
        ("Water heater", CircuitUse::Fixed, 2.5, 16.0),
        ("Outdoors", CircuitUse::Sockets, 2.5, 16.0),
        ("Smoke and heat alarms", CircuitUse::Alarms, 1.5, 10.0),
    ];
    for (number, (name, usage, size, rating)) in (1u16..).zip(rows) {
        let circuit = Circuit {
            name: name.to_owned(),
            board: Some(BoardId(1)),
            cable: Some(Cable {
                cores: 2,
                size: Csa::try_from(size).unwrap(),
                make: CableMake::Flat,
            }),
            device: Some(Device {
                rating: Amps(rating),
                curve: Curve::C,
                residual: Some(Amps(0.03)),
            }),
            ..Circuit::new(number, usage)
        };
        plan.circuits.insert(CircuitId(u32::from(number)), circuit);
    }
}

/// How a hand-made leg goes: along these places at this height.
#[derive(Clone, Copy)]
enum By {
    Roof,
    Subfloor,
    InWall,
}

/// Makes legs by hand.
struct Hand<'a> {
    plan: &'a Plan,
    names: &'a [(&'static str, PointId)],
    runs: Runs,
}

impl Hand<'_> {
    fn end(&self, name: &str) -> End {
        self.names
            .iter()
            .find(|(known, _)| *known == name)
            .map_or(End::Board(BoardId(1)), |(_, id)| End::Point(*id))
    }

    fn leg(&mut self, circuit: u32, role: LegRole, ends: (&str, &str), by: By, via: &[(i64, i64)]) {
        let (from, to) = (self.end(ends.0), self.end(ends.1));
        let at = |end| self.plan.position(&self.plan.place_of(end).unwrap()).unwrap();
        let (start, finish) = (at(from), at(to));
        let z = match by {
            By::Roof => Mm::new(2700),
            By::Subfloor => Mm::new(-300),
            By::InWall => start.z,
        };
        let mut places = vec![start, start.on_floor().at_height(z)];
        places.extend(via.iter().map(|(x, y)| Point3 { x: Mm::new(*x), y: Mm::new(*y), z }));
        places.extend([finish.on_floor().at_height(z), finish]);
        places.dedup();
        let segments: Vec<Segment> =
            places.windows(2).map(|pair| segment(pair[0], pair[1], by)).collect();
        let length = segments.iter().map(|segment| segment.length).sum();
        let run = self.runs.circuits.entry(CircuitId(circuit)).or_insert_with(|| Run {
            legs: Vec::new(),
            order: Order {
                ends: Vec::new(),
                cost: Cost::ZERO,
                bound: Cost::ZERO,
                method: OrderMethod::Fixed,
                matrix: Vec::new(),
                matrix_ends: Vec::new(),
            },
        });
        run.legs.push(Leg {
            circuit: CircuitId(circuit),
            number: u32::try_from(run.legs.len()).unwrap() + 1,
            role,
            from,
            to,
            cable: self.plan.circuits[&CircuitId(circuit)].cable,
            route: Route { segments, cost: Cost::ZERO, length },
        });
    }
}

fn segment(from: Point3, to: Point3, by: By) -> Segment {
    let upright = from.on_floor() == to.on_floor();
    let heading = match (upright, to.z > from.z) {
        (true, true) => Heading::Up,
        (true, false) => Heading::Down,
        _ => Heading::AlongJoists,
    };
    let (plane, through) = match by {
        By::Roof => (Some(Plane::Void(ROOF)), Surrounding::RoofSpace),
        By::Subfloor => (Some(Plane::Void(UNDER)), Surrounding::Subfloor),
        By::InWall => (Some(Plane::Wall(WallId(9))), Surrounding::HollowWall),
    };
    let (plane, through) = if upright { (None, Surrounding::Plate) } else { (plane, through) };
    let length = Mm::from_f64(from.distance(to)).unwrap();
    Segment { from, to, length, plane, heading, through, insulation: Mm::ZERO, beside: 0 }
}

fn add_legs(hand: &mut Hand<'_>) {
    use By::{InWall, Roof, Subfloor};
    use LegRole::{Feed, Interlink, Strappers, SwitchLeg};
    let lane = 4400;
    hand.leg(1, Feed, ("board", "hall west"), Roof, &[(600, lane)]);
    hand.leg(1, Feed, ("hall west", "hall east"), Roof, &[]);
    hand.leg(1, Feed, ("hall east", "study light"), Roof, &[(9600, lane)]);
    hand.leg(1, Feed, ("hall west", "living light"), Roof, &[(3000, 1900)]);
    hand.leg(1, Feed, ("hall west", "bed 1 light"), Roof, &[(3000, 6750)]);
    hand.leg(1, Feed, ("bed 1 light", "bed 2 light"), Roof, &[]);
    hand.leg(1, Feed, ("hall east", "fan"), Roof, &[(10200, lane)]);
    hand.leg(1, Feed, ("fan", "mirror light"), Roof, &[(10200, 2900)]);
    hand.leg(1, SwitchLeg, ("hall west", "two-way west"), Roof, &[(1000, lane)]);
    hand.leg(1, Strappers, ("two-way west", "two-way east"), Roof, &[(1000, lane), (11300, lane)]);
    hand.leg(1, SwitchLeg, ("bed 1 light", "bed 1 switch"), Roof, &[(3150, 6750)]);
    hand.leg(1, SwitchLeg, ("bed 2 light", "bed 2 switch"), Roof, &[(5900, 6750)]);
    hand.leg(1, SwitchLeg, ("living light", "living switch"), Roof, &[(3400, 1900)]);
    hand.leg(1, SwitchLeg, ("study light", "study switch"), Roof, &[(10600, 6600)]);
    hand.leg(1, SwitchLeg, ("fan", "cord"), Roof, &[(9950, 1500)]);
    hand.leg(2, Feed, ("board", "bed 1 socket"), Roof, &[(600, lane), (4500, lane)]);
    hand.leg(2, Feed, ("bed 1 socket", "bed 2 socket"), Roof, &[]);
    hand.leg(2, Feed, ("bed 2 socket", "study socket"), Roof, &[(4500, lane), (8000, lane)]);
    hand.leg(2, Feed, ("study socket", "study desk"), Roof, &[(11250, 6500)]);
    hand.leg(3, Feed, ("board", "living tv"), Subfloor, &[(600, 1900)]);
    hand.leg(3, Feed, ("living tv", "living socket"), Subfloor, &[(600, 1900), (600, 900)]);
    hand.leg(3, Feed, ("living socket", "kitchen dish"), Subfloor, &[(5500, 900)]);
    hand.leg(3, Feed, ("kitchen dish", "kitchen bench 1"), Subfloor, &[(5500, 900)]);
    hand.leg(3, Feed, ("kitchen bench 1", "kitchen bench 2"), InWall, &[]);
    hand.leg(4, Feed, ("board", "oven"), Roof, &[(600, lane), (5000, lane)]);
    hand.leg(
        5,
        Feed,
        ("board", "heater isolator"),
        Roof,
        &[(600, lane), (11500, lane), (11500, 1700)],
    );
    hand.leg(5, Feed, ("heater isolator", "heater"), Roof, &[(11500, 1700), (11500, 900)]);
    hand.leg(6, Feed, ("board", "outdoor"), Subfloor, &[(600, lane), (4500, lane)]);
    hand.leg(7, Feed, ("board", "alarm west"), Roof, &[(600, lane)]);
    hand.leg(7, Interlink, ("alarm west", "alarm east"), Roof, &[]);
    hand.leg(7, Interlink, ("alarm east", "kitchen alarm"), Roof, &[(6800, lane)]);
}

fn lengths_of(runs: &Runs) -> Lengths {
    let plain = |value| Worked { value, working: Working::default() };
    let circuits = runs.circuits.iter().map(|(id, run)| {
        let legs = run.legs.iter().map(|leg| LegLength {
            route: plain(leg.route.length),
            cut: plain((leg.route.length + Mm::new(600)).round_up_to(Mm::new(100))),
            tail_from: Mm::new(300),
            tail_to: Mm::new(300),
            measured: None,
        });
        (*id, legs.collect())
    });
    Lengths { circuits: circuits.collect(), cables: Vec::new() }
}

/// The house.
pub(crate) fn house() -> Sample {
    let mut plan = empty_plan();
    plan.project = Project {
        title: "House in Acacia Street".to_owned(),
        site: "12 Acacia Street (invented)".to_owned(),
        client: "R. Example".to_owned(),
        drawn_by: "J. Sample".to_owned(),
        contractor: "Sample Electrical".to_owned(),
        number: "E-01".to_owned(),
        revision: "A".to_owned(),
        date: "2026-11-25".to_owned(),
        ..Project::default()
    };
    add_walls(&mut plan);
    add_openings(&mut plan);
    add_rooms(&mut plan);
    let board = Board {
        label: String::new(),
        place: Some(on_wall(7, 600, 1500, Face::Right)),
        supply: wirewend::plan::Supply::default(),
        ways: Some(12),
    };
    plan.boards.insert(BoardId(1), board);
    add_circuits(&mut plan);
    let names = add_points(&mut plan);
    let mut hand = Hand { plan: &plan, names: &names, runs: Runs::default() };
    add_legs(&mut hand);
    let runs = hand.runs;
    let lengths = lengths_of(&runs);
    Sample { plan, runs, lengths }
}

/// The same house turned about its corner.
pub(crate) fn turned(sample: Sample, millidegrees: i32) -> Sample {
    let angle = Angle::from_millidegrees(millidegrees);
    let Sample { mut plan, mut runs, lengths } = sample;
    for wall in plan.walls.values_mut() {
        (wall.a, wall.b) = (angle.turn(wall.a), angle.turn(wall.b));
    }
    for room in plan.rooms.values_mut() {
        room.outline = room.outline.iter().map(|at| angle.turn(*at)).collect();
    }
    for point in plan.points.values_mut() {
        if let Some(Place::Ceiling(on) | Place::Floor(on)) = &mut point.place {
            on.at = angle.turn(on.at);
        }
    }
    let turn = |at: Point3| angle.turn(at.on_floor()).at_height(at.z);
    for leg in runs.circuits.values_mut().flat_map(|run| &mut run.legs) {
        for segment in &mut leg.route.segments {
            (segment.from, segment.to) = (turn(segment.from), turn(segment.to));
        }
    }
    Sample { plan, runs, lengths }
}

/// One wall of stud, four metres long, with one socket.
pub(crate) fn one_wall() -> Plan {
    let mut plan = empty_plan();
    plan.walls.insert(WallId(1), wall((0, 0), (4000, 0), 100, WallBuild::Stud));
    Kit { plan: &mut plan, names: Vec::new() }.wall(
        "socket",
        PointKind::Socket,
        (1, 1000, 300, Face::Left),
        9,
    );
    plan
}

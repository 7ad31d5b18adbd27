//! Where a draft puts things: what an electrician would shake the head at.

use serde_json::{Value, json};
use wirewend::draft::{Draft, DraftOptions, draft};
use wirewend::plan::*;
use wirewend::rules::RuleBook;
use wirewend::store::{ImportOptions, import};
use wirewend::units::{Mm, Point2, Point3};

use crate::layouts::{ours, outside, read};

const REGIMES: [Regime; 3] = [Regime::AS_NZS, Regime::BS, Regime::IEC];

fn drafted(bare: Plan, regime: Regime) -> Draft {
    let options = DraftOptions { regime: Some(regime), ..DraftOptions::default() };
    draft(bare, &RuleBook::shipped(), &options).unwrap()
}

fn layout(name: &str) -> Plan {
    read(&ours().into_iter().find(|(other, _)| other == name).unwrap().1).0
}

fn at(plan: &Plan, point: &Point) -> Option<Point2> {
    plan.position(point.place.as_ref()?).map(Point3::on_floor)
}

/// The points of a kind in a room, and where they are.
fn in_room(plan: &Plan, room: RoomId, kinds: &[PointKind]) -> Vec<Point2> {
    let own = plan.points.values().filter(|point| {
        kinds.contains(&point.kind)
            && point.place.is_some_and(|place| plan.room_of(&place) == Some(room))
    });
    own.filter_map(|point| at(plan, point)).collect()
}

fn room(plan: &Plan, name: &str) -> RoomId {
    *plan.rooms.iter().find(|(_, room)| room.name == name).unwrap().0
}

const CEILING: [PointKind; 2] = [PointKind::Luminaire, PointKind::Downlight];

/// A storey of rooms with a wall along every edge of its outlines, in metres;
/// doors by the number of the wall and their middle.
fn storey(rooms: &[(&str, &[[f64; 2]])], doors: &[(usize, [f64; 2])], short: f64) -> Plan {
    let mut walls: Vec<Value> = Vec::new();
    let mut drawn: Vec<Value> = Vec::new();
    for (name, outline) in rooms {
        for (a, b) in outline.iter().zip(outline.iter().cycle().skip(1)) {
            let known = walls.iter().any(|wall| {
                (wall["a"] == json!(a) && wall["b"] == json!(b))
                    || (wall["a"] == json!(b) && wall["b"] == json!(a))
            });
            if !known {
                walls.push(json!({ "a": a, "b": b, "thickness": 0.1 }));
            }
        }
        // From the centre lines in to the faces, and a little short of them.
        let off = 0.05 + short;
        let middle = |axis: usize| {
            let all = || outline.iter().map(|corner| corner[axis]);
            f64::midpoint(all().fold(f64::MAX, f64::min), all().fold(f64::MIN, f64::max))
        };
        let inward = |corner: &[f64; 2], axis: usize| {
            if corner[axis] < middle(axis) { corner[axis] + off } else { corner[axis] - off }
        };
        let polygon: Vec<_> =
            outline.iter().map(|corner| [inward(corner, 0), inward(corner, 1)]).collect();
        drawn.push(json!({ "name": name, "polygon": polygon }));
    }
    let openings: Vec<Value> = doors
        .iter()
        .map(|(wall, at)| {
            json!({ "kind": "door", "wall": wall, "at": at, "width": 0.9, "sill": 0.0, "head": 2.04 })
        })
        .collect();
    let level = json!({
        "elevation": 0.0, "height": 2.5, "walls": walls, "openings": openings, "rooms": drawn,
    });
    read(&json!({ "units": "m", "levels": [level] }).to_string()).0
}

const L: [[f64; 2]; 6] = [[0.0, 0.0], [6.0, 0.0], [6.0, 3.0], [2.5, 3.0], [2.5, 7.0], [0.0, 7.0]];

#[test]
fn every_arm_of_an_angled_room_has_a_light() {
    let bare = storey(&[("Bedroom", &L)], &[(0, [5.0, 0.0])], 0.0);
    let plan = drafted(bare, Regime::IEC).plan;
    let lights = in_room(&plan, room(&plan, "Bedroom"), &CEILING);
    let in_arm = |light: &&Point2| light.y.metres() > 3.2;
    assert!(lights.iter().any(|light| in_arm(&light)), "the arm: {lights:?}");
    assert!(lights.iter().any(|light| !in_arm(&light)), "the body: {lights:?}");
    for light in lights.iter().filter(in_arm) {
        assert!((light.x.metres() - 1.25).abs() < 0.15, "in the middle of the arm: {light:?}");
    }
}

#[test]
fn nothing_is_crowded() {
    for (name, text) in ours().into_iter().chain(outside()) {
        let plan = drafted(read(&text).0, Regime::BS).plan;
        for (id, drawn) in &plan.rooms {
            let lights = in_room(&plan, *id, &CEILING);
            let low: Vec<Point2> = plan
                .points
                .values()
                .filter(|point| point.kind == PointKind::Socket)
                .filter(|point| {
                    point.place.is_some_and(|place| {
                        plan.room_of(&place) == Some(*id)
                            && matches!(place, Place::Wall(on) if on.height.get() < 600)
                    })
                })
                .filter_map(|point| at(&plan, point))
                .collect();
            for (what, places, least) in [("lights", lights, 790.0), ("sockets", low, 445.0)] {
                for (index, one) in places.iter().enumerate() {
                    for other in &places[index + 1..] {
                        let far = one.distance(*other);
                        assert!(far >= least, "{name}: {what} {far:.0} mm apart in {}", drawn.name);
                    }
                }
            }
        }
    }
}

#[test]
fn a_room_without_a_door_is_switched_from_its_open_side() {
    let plan = drafted(layout("resplan_50"), Regime::AS_NZS).plan;
    let kitchen = room(&plan, "Kitchen 1");
    let switches = in_room(&plan, kitchen, &[PointKind::Switch]);
    // It opens towards the living room, to the east.
    let east = plan.rooms[&kitchen].outline.iter().map(|corner| corner.x).max().unwrap();
    let near = switches.iter().any(|at| (east - at.x).get().abs() < 600);
    assert!(near, "{switches:?}, open at {east}");
}

#[test]
fn outside_the_entrance_are_a_light_and_a_socket() {
    for regime in REGIMES {
        let first = drafted(layout("resplan_50"), regime);
        let plan = &first.plan;
        let outside: Vec<(&PointId, &Point, OnWall)> = plan
            .points
            .iter()
            .filter_map(|(id, point)| match point.place {
                Some(Place::Wall(on)) if plan.room_of(&Place::Wall(on)).is_none() => {
                    Some((id, point, on))
                }
                _ => None,
            })
            .collect();
        let of = |kind: PointKind| {
            outside.iter().filter(|(_, p, _)| p.kind == kind).copied().collect::<Vec<_>>()
        };
        let (lights, sockets) = (of(PointKind::WallLight), of(PointKind::WeatherproofSocket));
        assert_eq!((lights.len(), sockets.len()), (1, 1), "{regime:?}: one entrance");
        for (id, _, on) in lights.iter().chain(&sockets) {
            let beside = plan.openings.values().any(|opening| {
                let (from, to) = (opening.from, opening.from + opening.width);
                opening.wall == on.wall
                    && opening.kind == OpeningKind::Door
                    && (from - on.along).max(on.along - to).get() <= 1500
                    && (from - on.along).max(on.along - to).get() >= 100
            });
            assert!(beside, "{regime:?}: {id} is beside the door");
            let told = first.reasons.iter().find(|reason| reason.subject == Subject::Point(**id));
            assert!(told.unwrap().because.contains("common practice"), "{regime:?}: its reason");
        }
        let control = plan.controls.values().find(|control| control.lights == [*lights[0].0]);
        let switch = &plan.points[&control.expect("switched by itself").switches[0]];
        let inside = switch.place.and_then(|place| plan.room_of(&place));
        assert!(inside.is_some(), "{regime:?}: its switch is inside");
        // Once only.
        let again = drafted(plan.clone(), regime).plan;
        assert_eq!(again.points.len(), plan.points.len(), "{regime:?}: drafted again");
    }
}

#[test]
fn a_fan_is_further_from_the_door_than_the_light() {
    let plan = drafted(layout("open_smart_home_flat"), Regime::IEC).plan;
    let bath = room(&plan, "Bad");
    let door = plan
        .openings
        .values()
        .filter(|opening| opening.kind == OpeningKind::Door)
        .map(|opening| {
            let wall = &plan.walls[&opening.wall];
            wall.at((opening.from + opening.width.half()).to_f64())
        })
        .min_by(|a, b| {
            let light = in_room(&plan, bath, &CEILING)[0];
            a.distance(light).total_cmp(&b.distance(light))
        });
    let door = door.unwrap();
    let far = |kinds: &[PointKind]| in_room(&plan, bath, kinds)[0].distance(door);
    assert!(far(&[PointKind::ExhaustFan]) > far(&CEILING) + 500.0, "where the steam goes");
}

#[test]
fn smoke_alarms_keep_away_from_cooking_or_say_so() {
    for (name, text) in ours().into_iter().chain(outside()) {
        let drafted = drafted(read(&text).0, Regime::IEC);
        let plan = &drafted.plan;
        let of_kind =
            |kind: PointKind| plan.points.iter().filter(move |(_, point)| point.kind == kind);
        for (id, alarm) in of_kind(PointKind::SmokeAlarm) {
            let (own, place) = (plan.room_of(&alarm.place.unwrap()), at(plan, alarm).unwrap());
            for (_, cooktop) in of_kind(PointKind::Cooktop) {
                let same = plan.room_of(&cooktop.place.unwrap()) == own;
                let near = at(plan, cooktop).unwrap().distance(place) < 2990.0;
                let told = drafted.reasons.iter().any(|reason| {
                    reason.subject == Subject::Point(*id) && reason.because.contains("false alarms")
                });
                assert!(!(same && near) || told, "{name}: {id} beside the cooktop");
            }
        }
    }
    // A hall along a kitchen is long enough to keep away from it.
    let hall = [[0.0, 0.0], [9.0, 0.0], [9.0, 1.4], [6.0, 1.4], [3.0, 1.4], [0.0, 1.4]];
    let kitchen = [[3.0, 1.4], [6.0, 1.4], [6.0, 3.6], [3.0, 3.6]];
    let bare =
        storey(&[("Hall", &hall), ("Kitchen", &kitchen)], &[(5, [0.0, 0.7]), (3, [5.4, 1.4])], 0.0);
    let plan = drafted(bare, Regime::IEC).plan;
    let alarm = in_room(&plan, room(&plan, "Hall"), &[PointKind::SmokeAlarm])[0];
    let cooktop = in_room(&plan, room(&plan, "Kitchen"), &[PointKind::Cooktop])[0];
    assert!(alarm.distance(cooktop) >= 2990.0, "{alarm:?} and {cooktop:?}");
}

#[test]
fn a_room_measured_a_little_short_is_no_island() {
    let left = [[0.0, 0.0], [4.0, 0.0], [4.0, 4.0], [0.0, 4.0]];
    let right = [[4.0, 0.0], [8.0, 0.0], [8.0, 4.0], [4.0, 4.0]];
    for short in [0.0, 0.002] {
        let rooms: [(&str, &[[f64; 2]]); 2] = [("Living", &left), ("Bedroom", &right)];
        let bare = storey(&rooms, &[(0, [2.0, 0.0]), (1, [4.0, 2.0])], short);
        let drafted = drafted(bare, Regime::AS_NZS);
        let lost = drafted.reasons.iter().find(|reason| reason.chosen.contains("left out"));
        assert_eq!(lost, None, "{short} m short");
    }
}

#[test]
fn a_narrow_room_without_a_name_is_no_bedroom() {
    let wide = [[0.0, 0.0], [4.0, 0.0], [4.0, 1.5], [4.0, 3.0], [0.0, 3.0]];
    let narrow = [[4.0, 0.0], [12.0, 0.0], [12.0, 1.5], [4.0, 1.5]];
    let rooms: [(&str, &[[f64; 2]]); 2] = [("Room 1", &wide), ("Room 2", &narrow)];
    let plan = drafted(storey(&rooms, &[(0, [2.0, 0.0])], 0.0), Regime::IEC).plan;
    assert_eq!(plan.rooms[&room(&plan, "Room 1")].usage, RoomUse::Bedroom);
    assert_eq!(plan.rooms[&room(&plan, "Room 2")].usage, RoomUse::Hall);
}

#[test]
fn where_hinges_are_known_switches_and_sockets_mind_the_leaf() {
    for file in ["duplex_apartments.ifc.gz", "cc-by-sa/open_smart_home_flat.ifc"] {
        let bytes = std::fs::read(crate::fixtures::folder().join("imports").join(file)).unwrap();
        let bare = import(&bytes, file, &ImportOptions::default()).unwrap().plan;
        let drafted = drafted(bare, Regime::IEC);
        let because =
            |part: &str| drafted.reasons.iter().filter(|r| r.because.contains(part)).count();
        assert!(because("handle side, 150 mm") >= 4, "{file}: beside most doors");
        assert_eq!(because("hinges are not drawn"), 0, "{file}: all are known");
        mind_the_leaf(&drafted.plan);
    }
}

/// Nothing on a wall stands behind an open door.
fn mind_the_leaf(plan: &Plan) {
    let mut looked_at = 0;
    for opening in plan.openings.values() {
        let (Some(hinge), wall) = (opening.hinge, &plan.walls[&opening.wall]) else { continue };
        let edge =
            if hinge.at_near_edge { opening.from } else { opening.from + opening.width }.to_f64();
        let at = wall.at(edge);
        let (nx, ny) = wall.normal(hinge.opens);
        let along = opening.from + opening.width.half();
        let height = wirewend::units::Mm::new(1000);
        let side = Place::Wall(OnWall { wall: opening.wall, along, height, face: hinge.opens });
        let Some(room) = plan.room_of(&side) else { continue };
        let on_walls = [PointKind::Socket, PointKind::Switch];
        let boards = plan.boards.values().filter_map(|board| board.place);
        let boards = boards.filter(|place| plan.room_of(place) == Some(room));
        let boards = boards.filter_map(|place| plan.position(&place)).map(Point3::on_floor);
        for socket in in_room(plan, room, &on_walls).into_iter().chain(boards) {
            let (px, py) = ((socket.x - at.x).to_f64(), (socket.y - at.y).to_f64());
            let half = wall.thickness.to_f64() / 2.0;
            let out = (px * nx + py * ny).clamp(half, half + opening.width.to_f64());
            let far = libm::hypot(px - out * nx, py - out * ny);
            assert!(far > 180.0, "{socket:?} is behind the open door at {at:?}");
            looked_at += 1;
        }
    }
    assert!(looked_at > 20, "boxes in rooms with doors: {looked_at}");
}

/// What stands on walls on the side where no room is.
fn outdoors(plan: &Plan) -> usize {
    let out = |place: &Place| matches!(place, Place::Wall(_)) && plan.room_of(place).is_none();
    plan.points.values().filter_map(|point| point.place.as_ref()).filter(|at| out(at)).count()
}

fn told<'a>(draft: &'a Draft, word: &str) -> Vec<&'a str> {
    let about = draft.reasons.iter().filter(|reason| reason.chosen.contains(word));
    about.map(|reason| reason.because.as_str()).collect()
}

const fn rectangle(x: f64, y: f64, to: f64, up: f64) -> [[f64; 2]; 4] {
    [[x, y], [to, y], [to, up], [x, up]]
}

/// Two flats with so much between the doors of their halls, where nothing is drawn.
fn two_flats(apart: f64) -> Plan {
    let x = 6.0 + apart;
    storey(
        &[
            ("Kitchen A", &rectangle(0.0, 0.0, 3.0, 3.0)),
            ("Hall A", &rectangle(3.0, 0.0, 6.0, 3.0)),
            ("Hall B", &rectangle(x, 0.0, x + 3.0, 3.0)),
            ("Kitchen B", &rectangle(x + 3.0, 0.0, x + 6.0, 3.0)),
        ],
        &[(1, [3.0, 1.5]), (5, [6.0, 1.5]), (10, [x, 1.5]), (8, [x + 3.0, 1.5])],
        0.0,
    )
}

#[test]
fn a_door_across_from_another_dwelling_leads_to_a_landing() {
    let wall_of = |plan: &Plan, x: i64| {
        let upright = |wall: &&Wall| wall.a.x.get() == x && wall.b.x.get() == x;
        plan.walls.values().filter(upright).count()
    };
    for (apart, landing) in [(2.0, true), (9.0, false)] {
        let bare = two_flats(apart);
        assert!(wall_of(&bare, 6000) > 0, "the wall of the door");
        let draft = drafted(bare, Regime::IEC);
        let why = told(&draft, "no outdoor points");
        let faces = why.iter().filter(|why| why.contains("faces the door")).count();
        assert_eq!(faces, if landing { 2 } else { 0 }, "{apart} m: {why:?}");
        assert_eq!(outdoors(&draft.plan) > 0, !landing, "{apart} m");
        if !landing {
            let why = told(&draft, "outside light by the door");
            assert!(why.iter().all(|why| why.contains("if there is a landing")), "{why:?}");
        }
    }
}

#[test]
fn above_the_ground_nothing_hangs_outside_a_door_to_nowhere() {
    let house = || storey(&[("Hall", &rectangle(0.0, 0.0, 4.0, 3.0))], &[(0, [2.0, 0.0])], 0.0);
    assert!(outdoors(&drafted(house(), Regime::IEC).plan) > 0, "on the ground");
    let mut named = house();
    named.levels[0].name = "Upper floor".to_owned();
    let mut high = house();
    high.levels[0].floor = wirewend::units::Mm::new(2800);
    // A room below, so that there is a ground.
    let below = LevelId(high.next_id);
    let mut level = high.levels[0].clone();
    (level.name, level.floor) = ("Ground".to_owned(), wirewend::units::Mm::new(0));
    (level.above, level.below) = (Vec::new(), Vec::new());
    high.levels.insert(below, level);
    let room = Room { level: below, ..high.rooms[0].clone() };
    high.rooms.insert(RoomId(high.next_id + 1), room);
    high.next_id += 2;
    for (how, bare) in [("by its name", named), ("by its height", high)] {
        let draft = drafted(bare, Regime::IEC);
        assert_eq!(outdoors(&draft.plan), 0, "{how}");
        let why = told(&draft, "no outdoor points");
        assert!(why.iter().any(|why| why.contains("above the ground")), "{how}: {why:?}");
    }
}

#[test]
fn a_small_kitchen_is_not_crowded_with_sockets() {
    let sockets = |size: [f64; 2]| {
        let [x, y] = size;
        let bare = storey(
            &[("Kitchen", &rectangle(0.0, 0.0, x, y)), ("Hall", &rectangle(x, 0.0, x + 2.5, y))],
            &[(1, [x, 0.7]), (4, [x + 1.2, 0.0])],
            0.0,
        );
        let draft = drafted(bare, Regime::IEC);
        let plan = &draft.plan;
        let count = in_room(plan, room(plan, "Kitchen"), &[PointKind::Socket]).len();
        (count, told(&draft, "double sockets").join("; "))
    };
    let ((small, why), (large, other)) = (sockets([1.5, 1.9]), sockets([3.0, 3.5]));
    assert!((2..=4).contains(&small), "{small}: {why}");
    assert!(why.contains("6 are asked for") && why.contains("of free wall"), "{why}");
    assert_eq!(large, 6, "{other}");
    assert!(!other.contains("of free wall"), "{other}");
}

#[test]
fn a_switch_in_a_bathroom_without_a_door_keeps_off_its_bath() {
    let (bathroom, living) = (rectangle(0.0, 0.0, 3.0, 2.5), rectangle(3.0, 0.0, 8.0, 2.5));
    let rooms: [(&str, &[[f64; 2]]); 2] = [("Bathroom", &bathroom), ("Living", &living)];
    let bare = storey(&rooms, &[(5, [8.0, 1.2])], 0.0);
    let room = room(&bare, "Bathroom");
    // A tub along the west wall, drawn as it stands; then one that fills the room.
    for (far, walls_are_free) in [(0.8, true), (2.95, false)] {
        let mut bare = bare.clone();
        assert_eq!(bare.rooms[&room].usage, RoomUse::Bathroom);
        let outline = rectangle(0.05, 0.05, far, 2.45);
        let millimetres = |value: f64| Mm::from_f64(value * 1000.0).unwrap();
        let corner = |[x, y]: [f64; 2]| Point2 { x: millimetres(x), y: millimetres(y) };
        let tub = outline.map(corner).to_vec();
        let on = Plane::Void(*bare.voids.keys().next().expect("a void"));
        let effect = AreaEffect::Percent(100);
        let area = Area { name: "bath".to_owned(), on, outline: tub.clone(), effect };
        bare.areas.insert(AreaId(bare.next_id), area);
        bare.next_id += 1;
        for regime in [Regime::AS_NZS, Regime::IEC] {
            // 600 mm: AS/NZS 3000 clause 6.2 and IEC 60364-7-701, as the tables say.
            let plan = drafted(bare.clone(), regime).plan;
            let switches = in_room(&plan, room, &[PointKind::Switch]);
            let cords = in_room(&plan, room, &[PointKind::PullCord]);
            let off = |at: &Point2| (at.x - tub[1].x).to_f64();
            assert!(switches.iter().all(|at| off(at) >= 600.0), "{regime:?}: {switches:?}");
            assert_eq!(!switches.is_empty(), walls_are_free, "{regime:?}: a switch on a dry wall");
            assert_eq!(!cords.is_empty(), !walls_are_free, "{regime:?}: or else a cord");
        }
    }
}

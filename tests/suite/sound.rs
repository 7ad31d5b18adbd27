//! Whether a plan hangs together: what it refers to is there, and what is
//! placed lies where it can be built. Said without the library's own review,
//! so that test plans are judged by something else.

use std::collections::BTreeSet;

use wirewend::plan::*;
use wirewend::units::Mm;

/// Everything that is wrong with a plan, in words.
pub(crate) fn problems(plan: &Plan) -> Vec<String> {
    let mut found = Vec::new();
    ids(plan, &mut found);
    shell(plan, &mut found);
    voids(plan, &mut found);
    ends(plan, &mut found);
    circuits(plan, &mut found);
    controls(plan, &mut found);
    found
}

fn must(found: &mut Vec<String>, holds: bool, say: impl FnOnce() -> String) {
    if !holds {
        found.push(say());
    }
}

fn ids(plan: &Plan, found: &mut Vec<String>) {
    let mut numbers = BTreeSet::new();
    let all = plan
        .levels
        .keys()
        .map(|id| id.0)
        .chain(plan.voids.keys().map(|id| id.0))
        .chain(plan.walls.keys().map(|id| id.0))
        .chain(plan.openings.keys().map(|id| id.0))
        .chain(plan.rooms.keys().map(|id| id.0))
        .chain(plan.areas.keys().map(|id| id.0))
        .chain(plan.risers.keys().map(|id| id.0))
        .chain(plan.boards.keys().map(|id| id.0))
        .chain(plan.circuits.keys().map(|id| id.0))
        .chain(plan.points.keys().map(|id| id.0))
        .chain(plan.controls.keys().map(|id| id.0));
    for number in all {
        must(found, numbers.insert(number), || format!("id {number} twice"));
        must(found, number < plan.next_id, || format!("id {number} was never handed out"));
    }
}

fn shell(plan: &Plan, found: &mut Vec<String>) {
    for (id, wall) in &plan.walls {
        must(found, plan.levels.contains_key(&wall.level), || format!("{id} has no level"));
        must(found, wall.length() > 0.0, || format!("{id} has no length"));
        must(found, wall.thickness > Mm::ZERO, || format!("{id} has no thickness"));
    }
    for (id, opening) in &plan.openings {
        let Some(wall) = plan.walls.get(&opening.wall) else {
            found.push(format!("{id} has no wall"));
            continue;
        };
        let height = plan.levels[&wall.level].height;
        let to = (opening.from + opening.width).to_f64();
        must(found, opening.from >= Mm::ZERO && to <= wall.length(), || {
            format!("{id} sticks out of {}", opening.wall)
        });
        must(found, opening.width > Mm::ZERO, || format!("{id} has no width"));
        let upright = Mm::ZERO <= opening.sill && opening.sill < opening.head;
        must(found, upright && opening.head <= height, || format!("{id} is too tall"));
    }
    for (id, room) in &plan.rooms {
        must(found, plan.levels.contains_key(&room.level), || format!("{id} has no level"));
        must(found, [0].contains(&room.outline.len()) || room.outline.len() > 2, || {
            format!("{id} encloses nothing")
        });
    }
}

fn voids(plan: &Plan, found: &mut Vec<String>) {
    for (id, level) in &plan.levels {
        for void in level.above.iter().chain(&level.below) {
            must(found, plan.voids.contains_key(void), || format!("{id} lacks {void}"));
        }
        for void in level.above.iter().filter_map(|void| plan.voids.get(void)) {
            must(found, void.z >= level.ceiling(), || format!("{id} ends above its void"));
        }
        for void in level.below.iter().filter_map(|void| plan.voids.get(void)) {
            must(found, void.z <= level.floor, || format!("{id} begins below its void"));
        }
    }
    for (id, area) in &plan.areas {
        let there = match area.on {
            Plane::Void(void) => plan.voids.contains_key(&void),
            Plane::Wall(wall) => plan.walls.contains_key(&wall),
        };
        must(found, there, || format!("{id} lies on nothing"));
        must(found, area.outline.len() > 2, || format!("{id} encloses nothing"));
    }
    for (id, riser) in &plan.risers {
        let there = riser.voids.iter().all(|void| plan.voids.contains_key(void));
        must(found, there && riser.voids.len() > 1, || format!("{id} joins nothing"));
    }
}

fn ends(plan: &Plan, found: &mut Vec<String>) {
    let boards = plan.boards.iter().map(|(id, board)| (id.to_string(), board.place));
    let points = plan.points.iter().map(|(id, point)| (id.to_string(), point.place));
    for (id, place) in boards.chain(points) {
        if let Some(problem) = place.and_then(|place| misplaced(plan, &place)) {
            found.push(format!("{id} {problem}"));
        }
    }
    for (id, point) in &plan.points {
        let there = point.circuit.is_none_or(|circuit| plan.circuits.contains_key(&circuit));
        must(found, there, || format!("{id} is on a circuit that is not there"));
    }
}

fn misplaced(plan: &Plan, place: &Place) -> Option<String> {
    let Place::Wall(on) = place else {
        return plan.position(place).is_none().then(|| "is on no level".to_owned());
    };
    let wall = plan.walls.get(&on.wall)?;
    let height = plan.levels.get(&wall.level)?.height;
    if wall.build == WallBuild::Screen {
        return Some(format!("is on a screen, {}", on.wall));
    }
    if on.along < Mm::ZERO || on.along.to_f64() > wall.length() {
        return Some(format!("is beyond the end of {}", on.wall));
    }
    if on.height < Mm::ZERO || on.height > height {
        return Some(format!("is above or below {}", on.wall));
    }
    plan.openings
        .iter()
        .filter(|(_, opening)| opening.wall == on.wall)
        .find(|(_, opening)| {
            opening.from < on.along
                && on.along < opening.from + opening.width
                && opening.sill < on.height
                && on.height < opening.head
        })
        .map(|(id, _)| format!("is in the opening {id}"))
}

fn circuits(plan: &Plan, found: &mut Vec<String>) {
    for (id, circuit) in &plan.circuits {
        let there = circuit.board.is_none_or(|board| plan.boards.contains_key(&board));
        must(found, there, || format!("{id} has a board that is not there"));
        let fed = |end: &End| match end {
            End::Board(board) => plan.boards.contains_key(board),
            End::Point(point) => {
                plan.points.get(point).is_some_and(|point| point.circuit == Some(*id))
            }
        };
        let spurs = circuit.spurs.iter().flat_map(|spur| [End::Point(spur.point), spur.from]);
        let pins = circuit.pins.iter().flat_map(|pin| [pin.from, pin.to]);
        let order = circuit.order.iter().map(|point| End::Point(*point));
        for end in order.chain(spurs).chain(pins) {
            must(found, fed(&end), || format!("{id} names {end}, which it does not feed"));
        }
        for place in circuit.pins.iter().flat_map(|pin| &pin.through) {
            let there = plan.voids.contains_key(&place.void);
            must(found, there, || format!("{id} is pinned in a void that is not there"));
        }
    }
}

fn controls(plan: &Plan, found: &mut Vec<String>) {
    for (id, control) in &plan.controls {
        let mut circuits = BTreeSet::new();
        for light in &control.lights {
            let Some(point) = plan.points.get(light) else {
                found.push(format!("{id} has a light that is not there"));
                continue;
            };
            let lit = point.kind.family() == Family::Lights || point.kind == PointKind::ExhaustFan;
            must(found, lit, || format!("{id} switches {light}, which is no light"));
            circuits.insert(point.circuit);
        }
        for switch in &control.switches {
            let Some(point) = plan.points.get(switch) else {
                found.push(format!("{id} has a switch that is not there"));
                continue;
            };
            let switches = point.kind.family() == Family::Switches;
            must(found, switches, || format!("{id} is worked by {switch}, which is no switch"));
            circuits.insert(point.circuit);
        }
        must(found, circuits.len() < 2, || format!("{id} lies across circuits"));
    }
}

#[test]
fn a_plan_that_does_not_hang_together_is_caught() {
    let plan: Plan = serde_json::from_str(
        r#"{"next_id": 5,
            "levels": {"L1": {"name": "", "floor": 0, "height": 2400, "above": ["V9"]}},
            "walls": {"W2": {"level": "L1", "a": [0,0], "b": [900,0], "thickness": 90, "build": "stud"}},
            "openings": {"O3": {"wall": "W2", "kind": "door", "from": 100, "width": 820, "sill": 0, "head": 2040}},
            "points": {"P3": {"kind": "socket", "circuit": "C8",
                "place": {"wall": {"wall": "W2", "along": 300, "height": 300, "face": "left"}}}},
            "controls": {"S4": {"lights": ["P3"], "switches": ["P7"]}}}"#,
    )
    .unwrap();
    let expect = [
        "id 3 twice",
        "O3 sticks out of W2",
        "L1 lacks V9",
        "P3 is in the opening O3",
        "P3 is on a circuit that is not there",
        "S4 switches P3, which is no light",
        "S4 has a switch that is not there",
    ];
    assert_eq!(problems(&plan), expect);
}

//! The network held to exact answers: two small houses whose whole distance
//! matrices and best orders were computed by an independent program (CC0, see
//! `fixtures/routing/README.md`; computed values, not published ones).

use std::path::Path;
use std::sync::Arc;

use serde_json::Value;
use wirewend::plan::{VoidId, VoidKind, WallBuild, WallId};
use wirewend::runs::chain::{Effort, Matrix, Shape, order};
use wirewend::runs::{Distance, OrderMethod};
use wirewend::space::{
    Barrier, Column, FastNetwork, Frame, Modes, Network, PercentArea, Rect, Space, Tariff,
    Terminal, VoidField, WallField,
};
use wirewend::units::{Angle, Cost, Mm, Point2, Point3};

fn read(name: &str) -> Value {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/routing").join(name);
    serde_json::from_str(&std::fs::read_to_string(path).expect("the fixture is there"))
        .expect("the fixture is JSON")
}

fn int(value: &Value) -> i64 {
    value.as_i64().expect("a whole number")
}

fn list(value: &Value) -> &[Value] {
    value.as_array().map_or(&[], Vec::as_slice)
}

fn rect(value: &Value) -> Rect {
    Rect::new(int(&value[0]), int(&value[1]), int(&value[2]), int(&value[3]))
}

/// The check model: cables go anywhere in a wall, so every coordinate at which
/// anything changes is a column.
struct House {
    space: Space,
    ends: Vec<Terminal>,
    ids: Vec<String>,
}

fn house(case: &Value) -> House {
    let costs = &case["costs"];
    let voids: Vec<VoidField> = list(&case["voids"]).iter().map(|v| void(v, costs)).collect();
    let void_ids: Vec<&Value> = list(&case["voids"]).iter().map(|v| &v["id"]).collect();
    let index = |id: &Value| void_ids.iter().position(|other| *other == id);
    let mut walls = Vec::new();
    let mut names = Vec::new();
    for level in list(&case["levels"]) {
        for drawn in list(&level["walls"]) {
            let mut wall = wall(drawn, level, costs, walls.len());
            wall.above = index(&level["above"]).into_iter().collect();
            wall.below = index(&level["below"]).into_iter().collect();
            names.push(drawn["id"].as_str().expect("a name").to_owned());
            walls.push(wall);
        }
    }
    let tariff = Tariff {
        bend: int(&costs["bend"]) * 100,
        plate: int(&costs["plate"]) * 100,
        corner: 0,
        surface: 100,
    };
    let mut points = vec![case["board"].clone()];
    points.extend(list(&case["terminals"]).iter().cloned());
    add_columns(&mut walls, &voids, &points);
    let ends = points
        .iter()
        .map(|point| {
            let (x, y, z) = (int(&point["x"]), int(&point["y"]), int(&point["z"]));
            match point["wall"].as_str() {
                Some(name) => {
                    let wall = names.iter().position(|other| other == name).expect("its wall");
                    let along = (x - walls[wall].a.x.get()) + (y - walls[wall].a.y.get());
                    Terminal::Wall { wall, along, z }
                }
                None => {
                    let level = list(&case["levels"])
                        .iter()
                        .find(|level| level["id"] == point["level"])
                        .expect("its level");
                    let voids = index(&level["above"]).into_iter().collect();
                    Terminal::Upright { place: Point3::new(x, y, z), voids, up: true, post: false }
                }
            }
        })
        .collect();
    let ids = points.iter().map(|p| p["id"].as_str().expect("a name").to_owned()).collect();
    House {
        space: Space {
            voids: voids.into(),
            walls: walls.into_iter().map(Arc::new).collect(),
            meets: Vec::new(),
            risers: Vec::new(),
            tariff,
            sideways_through: true,
        },
        ends,
        ids,
    }
}

fn void(case: &Value, costs: &Value) -> VoidField {
    let cross = 100 + int(&costs["joist_cross_pct"]);
    let (along_x, along_y) = match case["joists"].as_str() {
        Some("x") => (100, cross),
        Some("y") => (cross, 100),
        _ => (100, 100),
    };
    let toll = int(&costs["barrier"]) * 100;
    VoidField {
        id: VoidId(0),
        kind: VoidKind::RoofSpace,
        frame: Frame::along(Angle::ZERO),
        z: int(&case["z"]),
        insulation: Mm::ZERO,
        over: true,
        under: true,
        regions: list(&case["regions"]).iter().map(rect).collect(),
        keep_outs: list(&case["keepouts"]).iter().map(rect).collect(),
        percents: list(&case["zones"])
            .iter()
            .map(|zone| PercentArea {
                percent: u16::try_from(int(&zone["pct"])).expect("percent"),
                rects: vec![rect(&zone["rect"])],
            })
            .collect(),
        barriers: list(&case["barriers"])
            .iter()
            .map(|slab| Barrier::new(rect(&slab["rect"]), slab["cross"] == "x", toll))
            .collect(),
        settled: (Vec::new(), Vec::new()),
        density_u: along_x,
        density_v: along_y,
    }
}

fn wall(drawn: &Value, level: &Value, costs: &Value, number: usize) -> WallField {
    let end = |value: &Value| Point2::new(int(&value[0]), int(&value[1]));
    let (a, b) = (end(&drawn["a"]).min(end(&drawn["b"])), end(&drawn["a"]).max(end(&drawn["b"])));
    let floor = int(&level["floor_z"]);
    let clearance = int(&costs["opening_clearance"]);
    WallField {
        id: WallId(u32::try_from(number).expect("few walls")),
        build: WallBuild::Stud,
        insulation: Mm::ZERO,
        a,
        b,
        length: ((b.x - a.x) + (b.y - a.y)).get(),
        floor,
        ceiling: int(&level["ceiling_z"]),
        blocked: list(&drawn["openings"])
            .iter()
            .map(|o| {
                Rect::new(
                    int(&o["from"]),
                    floor + int(&o["sill"]),
                    int(&o["to"]),
                    floor + int(&o["head"]),
                )
                .grown(clearance)
            })
            .collect(),
        columns: Vec::new(),
        rows: Vec::new(),
        sideways: int(&costs["inwall_h_pct"]),
        above: Vec::new(),
        below: Vec::new(),
    }
}

fn add_columns(walls: &mut [WallField], voids: &[VoidField], points: &[Value]) {
    let (mut xs, mut ys, mut zs) = (Vec::new(), Vec::new(), Vec::new());
    for void in voids {
        let (us, vs) = void.edges();
        xs.extend(us);
        ys.extend(vs);
    }
    for wall in walls.iter() {
        xs.extend([wall.a.x.get(), wall.b.x.get()]);
        ys.extend([wall.a.y.get(), wall.b.y.get()]);
        zs.extend([wall.floor, wall.ceiling]);
        for blocked in &wall.blocked {
            zs.extend([blocked.v0, blocked.v1]);
            for along in [blocked.u0, blocked.u1] {
                let at = wall.page(along);
                xs.push(at.x.get());
                ys.push(at.y.get());
            }
        }
    }
    for point in points {
        xs.push(int(&point["x"]));
        ys.push(int(&point["y"]));
        zs.push(int(&point["z"]));
    }
    for wall in walls {
        let from = if wall.a.y == wall.b.y { (wall.a.x, &xs) } else { (wall.a.y, &ys) };
        wall.columns = from
            .1
            .iter()
            .map(|at| at - from.0.get())
            .filter(|along| (0..=wall.length).contains(along))
            .map(|along| Column { along, through: true })
            .collect();
        wall.columns.sort_unstable();
        wall.columns.dedup();
        wall.rows = zs.clone();
    }
}

fn check(name: &str) {
    let case = read(&format!("{name}.json"));
    let expected = read(&format!("{name}.expected.json"));
    let house = house(&case);
    let fast = FastNetwork::of(&house.space, Modes::of(None), &house.ends);
    let all: Vec<usize> = (0..house.ends.len()).collect();
    assert!(fast.serves(&all), "{name}: every end has a way into a void");
    let group = fast.group(&all);
    let network = Network::around(&house.space, Modes::of(None), &house.ends);
    let count = house.ends.len();
    let mut rows = Vec::new();
    for from in 0..count {
        let ways = network.ways_from(from);
        let mut row = Vec::new();
        for to in 0..count {
            let key = ways.key(to);
            assert!(key.is_way(), "{name}: {} to {}", house.ids[from], house.ids[to]);
            let place = format!("{name}: {} to {}", house.ids[from], house.ids[to]);
            let cost = int(&expected["cost"][from][to]) * 100;
            assert_eq!(key.cost(), Cost::new(cost), "cost, {place}");
            assert_eq!(key.length().get(), int(&expected["length"][from][to]), "length, {place}");
            assert_eq!(group.key(from, to), key, "fast against plain, {place}");
            if from != to {
                let (start, stops) = group.way(from, to).expect("a way");
                let mut at = start;
                let (mut length, mut drawn) = (0, 0.0);
                for stop in stops {
                    length += stop.length;
                    drawn += at.distance(stop.place);
                    at = stop.place;
                }
                assert_eq!(length, key.length().get(), "the way is as long as its key, {place}");
                let near = (drawn - key.length().to_f64()).abs();
                assert!(near < 1.0e-6, "and is drawn as long, {place}: {near}");
            }
            row.push(Some(Distance { cost: key.cost(), length: key.length() }));
        }
        rows.push(row);
    }
    for circuit in list(&case["circuits"]) {
        let id = circuit["id"].as_str().expect("a name");
        let mut members = vec![0];
        members.extend(list(&circuit["terminals"]).iter().map(|terminal| {
            house.ids.iter().position(|other| terminal == other).expect("a terminal")
        }));
        let part: Vec<Vec<Option<Distance>>> =
            members.iter().map(|a| members.iter().map(|b| rows[*a][*b]).collect()).collect();
        let matrix = Matrix::new(&part).expect("a matrix");
        let ordered = order(&matrix, Shape::Open, &[], &Effort::default()).expect("an order");
        let best = &expected["circuits"][id];
        assert_eq!(ordered.cost, Cost::new(int(&best["cost"]) * 100), "{name} {id}");
        assert_eq!(ordered.length.get(), int(&best["length"]), "{name} {id}");
        assert!(ordered.bound <= ordered.cost, "{name} {id}: bound above cost");
        assert!(
            matches!(ordered.method, OrderMethod::Exact | OrderMethod::Proven),
            "{name} {id}: {:?}",
            ordered.method
        );
    }
}

#[test]
fn the_cottage_of_five_points_is_reproduced_entry_for_entry() {
    check("cottage-05");
}

#[test]
fn the_flat_of_twelve_points_with_two_voids_is_reproduced_entry_for_entry() {
    check("flat-12");
}

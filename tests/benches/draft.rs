//! How long drafting and grouping take: `cargo bench --no-default-features
//! --bench draft`. The budgets: 100 ms for grouping 200 outlets, 250 ms for a
//! house of 40 rooms, 10 s for a block of 200 flats on two cores. Growth goes
//! to 100,000 points; `-- 10000` stops there.
#![expect(
    clippy::print_stdout,
    clippy::disallowed_methods,
    reason = "a bench prints what the clock says"
)]

use std::time::Instant;

use wirewend::draft::{DraftOptions, draft};
use wirewend::plan::*;
use wirewend::rules::RuleBook;
use wirewend::runs::chain::{Effort, Matrix, Shape};
use wirewend::runs::grouping::{GroupingEffort, Load, Task, group};
use wirewend::runs::{self, Distance};
use wirewend::space::Space;
use wirewend::units::{Cost, Mm, Point2};

fn main() {
    grouping();
    houses();
    let most = std::env::args().find_map(|word| word.parse().ok()).unwrap_or(100_000);
    growth(most);
}

/// Blocks of flats on five storeys, each ten times the one before.
fn growth(most: usize) {
    println!("\n{:>8} {:>8} {:>12} {:>9}", "flats", "points", "drafted ms", "exponent");
    let rules = RuleBook::shipped();
    let mut before: Option<(usize, f64)> = None;
    for (levels, flats) in [(1, 3), (5, 5), (5, 50), (5, 500)] {
        // A flat has about 40 points.
        if usize::try_from(levels * flats * 40).unwrap_or(usize::MAX)
            > most.saturating_add(most.div_euclid(2))
        {
            break;
        }
        let bare = block(levels, flats);
        let start = Instant::now();
        let drafted = draft(bare, &rules, &DraftOptions::default()).expect("a draft").plan;
        let took = start.elapsed().as_secs_f64() * 1000.0;
        let points = drafted.points.len();
        let exponent = before.map_or_else(String::new, |(fewer, faster)| {
            #[expect(clippy::cast_precision_loss, reason = "few points")]
            let more = points as f64 / fewer as f64;
            format!("{:.2}", (took / faster).ln() / more.ln())
        });
        println!("{:>8} {points:>8} {took:>12.1} {exponent:>9}", levels * flats);
        before = Some((points, took));
    }
}

fn houses() {
    for (name, plan) in [
        ("house of 40 rooms", rooms(8, 5, 1)),
        ("block of 12 flats", block(2, 6)),
        ("block of 48 flats", block(4, 12)),
        ("block of 200 flats", block(5, 40)),
    ] {
        let rules = RuleBook::shipped();
        let times: Vec<f64> = (0..3)
            .map(|_| {
                let bare = plan.clone();
                let start = Instant::now();
                let drafted = draft(bare, &rules, &DraftOptions::default()).expect("a draft");
                std::hint::black_box(drafted);
                start.elapsed().as_secs_f64() * 1000.0
            })
            .collect();
        let drafted = draft(plan, &rules, &DraftOptions::default()).expect("a draft").plan;
        let best = times.iter().copied().fold(f64::INFINITY, f64::min);
        println!(
            "{name:24} {:6} points {:5} circuits: drafted in {best:9.1} ms",
            drafted.points.len(),
            drafted.circuits.len()
        );
        if drafted.points.len() < 600 {
            let start = Instant::now();
            let routed = runs::route(&drafted, &Space::of(&drafted), &Effort::default());
            let legs: usize = routed.circuits.values().map(|run| run.legs.len()).sum();
            let took = start.elapsed().as_secs_f64() * 1000.0;
            println!("{:24} {legs:6} legs, routed in {took:9.1} ms", "");
        }
    }
}

fn grouping() {
    let text = include_str!("../../fixtures/grouping/cases.json");
    let file: serde_json::Value = serde_json::from_str(text).expect("JSON");
    for case in file["cases"].as_array().expect("cases") {
        let int = |value: &serde_json::Value| value.as_i64().expect("a whole number");
        let points: Vec<[i64; 3]> = case["points"]
            .as_array()
            .expect("points")
            .iter()
            .map(|point| [int(&point[0]), int(&point[1]), int(&point[2])])
            .collect();
        let cost = |a: &[i64; 3], b: &[i64; 3]| {
            let flat = 2 * (a[0] - b[0]).abs() + 3 * (a[1] - b[1]).abs();
            let mm = if a == b { 0 } else { flat.div_euclid(2) + a[2] + b[2] };
            Some(Distance { cost: Cost::of_mm(mm), length: Mm::new(mm) })
        };
        let rows: Vec<Vec<_>> =
            points.iter().map(|a| points.iter().map(|b| cost(a, b)).collect()).collect();
        let matrix = Matrix::new(&rows).expect("a matrix");
        let load = |value: &serde_json::Value| Load {
            points: u32::try_from(int(value)).expect("a load"),
            watts: 0,
        };
        let task = Task {
            shape: Shape::Open,
            loads: case["loads"].as_array().expect("loads").iter().map(load).collect(),
            limit: load(&case["capacity"]),
            fixed: Cost::ZERO,
        };
        let start = Instant::now();
        let found = group(&matrix, &task, &GroupingEffort::default()).expect("a grouping");
        let took = start.elapsed().as_secs_f64() * 1000.0;
        let best = int(&case["pyvrp_mm"]).min(int(&case["ortools_mm"]));
        let mm = found.cost.get().div_euclid(100);
        println!(
            "grouping {:20} {took:7.1} ms, {mm} mm; solvers in 40 s {best} mm ({} permille more); \
             bound {} mm",
            case["name"].as_str().unwrap_or(""),
            ((mm - best) * 1000).div_euclid(best),
            found.bound.get().div_euclid(100),
        );
    }
}

/// A bare level: rooms of 4 by 3.5 m in rows, a hall between every two rows.
struct Builder {
    plan: Plan,
}

impl Builder {
    fn id(&mut self) -> u32 {
        self.plan.next_id += 1;
        self.plan.next_id - 1
    }

    fn level(&mut self, floor: i64) -> LevelId {
        let id = LevelId(self.id());
        let level = Level {
            name: format!("Level {floor}"),
            floor: Mm::new(floor),
            height: Mm::new(2500),
            above: Vec::new(),
            below: Vec::new(),
        };
        self.plan.levels.insert(id, level);
        id
    }

    fn wall(&mut self, level: LevelId, a: (i64, i64), b: (i64, i64), doors: &[i64]) {
        let id = WallId(self.id());
        let wall = Wall {
            level,
            a: Point2::new(a.0, a.1),
            b: Point2::new(b.0, b.1),
            thickness: Mm::new(100),
            build: WallBuild::Stud,
            insulated: false,
            wet: None,
        };
        self.plan.walls.insert(id, wall);
        for from in doors {
            let opening = Opening {
                wall: id,
                kind: OpeningKind::Door,
                from: Mm::new(*from),
                width: Mm::new(820),
                sill: Mm::ZERO,
                head: Mm::new(2040),
                hinge: None,
            };
            let id = OpeningId(self.id());
            self.plan.openings.insert(id, opening);
        }
    }

    /// A room with its own walls below, left and right of it.
    fn room(
        &mut self,
        level: LevelId,
        name: &str,
        at: (i64, i64),
        size: (i64, i64),
        doors: &[i64],
    ) {
        let ((x, y), (w, h)) = (at, size);
        let id = RoomId(self.id());
        let outline = vec![
            Point2::new(x, y),
            Point2::new(x + w, y),
            Point2::new(x + w, y + h),
            Point2::new(x, y + h),
        ];
        let room = Room { level, name: name.to_owned(), usage: RoomUse::Other, outline };
        self.plan.rooms.insert(id, room);
        let left: &[i64] = if name == "Bathroom" { &[600] } else { &[] };
        self.wall(level, (x, y), (x, y + h), left);
        self.wall(level, (x, y), (x + w, y), doors);
    }
}

const NAMES: [&str; 8] =
    ["Bedroom", "Living", "Bathroom", "Bedroom", "Study", "Dining", "Store", "Laundry"];

/// One house: rows of rooms, the last row a hall.
fn rooms(columns: i64, rows: i64, levels: i64) -> Plan {
    let mut builder = Builder { plan: Plan { next_id: 1, ..Plan::default() } };
    for storey in 0..levels {
        let level = builder.level(storey * 2800);
        for row in 0..rows {
            for column in 0..columns {
                let index = usize::try_from(column + row * columns).expect("few rooms");
                let name = if index == 3 { "Kitchen" } else { NAMES[index.rem_euclid(8)] };
                let hall = row.rem_euclid(2) == 1 && column == 0;
                let name = if hall { "Hall" } else { name };
                builder.room(level, name, (column * 4000, row * 3500), (4000, 3500), &[400]);
            }
        }
        let (w, h) = (columns * 4000, rows * 3500);
        builder.wall(level, (w, 0), (w, h), &[]);
        builder.wall(level, (0, h), (w, h), &[]);
    }
    builder.plan
}

/// Flats of six rooms along a corridor on every level.
fn block(levels: i64, flats: i64) -> Plan {
    let mut builder = Builder { plan: Plan { next_id: 1, ..Plan::default() } };
    for storey in 0..levels {
        let level = builder.level(storey * 2800);
        for flat in 0..flats {
            let x = flat * 9000;
            builder.room(level, "Hall", (x, 0), (4500, 2000), &[400]);
            builder.room(level, "Bathroom", (x + 4500, 0), (2000, 2000), &[]);
            builder.room(level, "Kitchen", (x + 6500, 0), (2500, 2000), &[]);
            builder.room(level, "Bedroom", (x, 2000), (3500, 4000), &[400]);
            builder.room(level, "Living", (x + 3500, 2000), (5500, 4000), &[100, 4000]);
        }
        let w = flats * 9000;
        builder.wall(level, (w, 0), (w, 6000), &[]);
        builder.wall(level, (0, 6000), (w, 6000), &[]);
        builder.room(level, "Stair", (0, -2000), (w, 2000), &[]);
    }
    builder.plan
}

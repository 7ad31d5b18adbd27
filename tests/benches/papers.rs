//! How long the whole set of papers of a house of 200 points takes, on one
//! core: `cargo bench --no-default-features --bench papers`. The budget is
//! 300 ms for all that `wirewend papers` writes but pictures: every sheet as
//! SVG, the PDF of them all, floors as DXF, lists as CSV and as a workbook,
//! from the plan on, routing and take-off included. Pictures are shown apart.
//! Processor time, medians; writing to disk is not counted.
#![expect(clippy::print_stdout, reason = "a bench prints its table")]

#[path = "house/invented.rs"]
#[allow(dead_code, reason = "made for another bench too")]
mod invented;

use std::hint::black_box;
use std::time::Duration;

use cpu_time::ThreadTime;
use wirewend::checks::{check, expected_tests};
use wirewend::lengths::{self, Lengths};
use wirewend::plan::*;
use wirewend::rules::RuleBook;
use wirewend::runs::{self, Runs, chain::Effort};
use wirewend::sheet::{
    FloorOptions, Floors, House, Scene, board_charts, cable_list, concealed_sheets, csv, cut_cards,
    cut_list, dxf, elevations, isometric, number_sheets, order_list, pdf, png, point_list,
    quote_page, quote_sheets, reading_list, run_strips, svg, test_sheets, workbook,
};
use wirewend::space::Space;
use wirewend::takeoff::{TakeOff, choices, take_off};
use wirewend::units::{Amps, Cents, Csa, Mm, Point2};

/// How often everything is done.
const TIMES: usize = 7;

fn main() {
    let plan = furnished(invented::house(invented::HOUSE_A, 7));
    println!(
        "House A: {} walls, {} rooms, {} points, {} circuits",
        plan.walls.len(),
        plan.rooms.len(),
        plan.points.len(),
        plan.circuits.len()
    );
    let mut table = Table::default();
    let mut scenes = Vec::new();
    for _ in 0..TIMES {
        scenes = once(&plan, &mut table);
    }
    let total = table.print();
    println!("  {:<36} {total:>9.1} ms   goal 300", "WHOLE SET, plan to bytes");
    println!("  {} sheets", scenes.len());
    let picture = timed(|| png(&scenes[0], 100.0).expect("a picture")).0;
    println!("  (one sheet as a picture, 100 dots to the inch: {:.1} ms)", ms(picture));
}

/// Everything once, each part on its clock.
fn once(plan: &Plan, table: &mut Table) -> Vec<Scene> {
    let (runs, lengths): (Runs, Lengths) = table.row("routes and lengths", || {
        let runs = runs::route(plan, &Space::of(plan), &Effort::default());
        let lengths = lengths::measure(plan, &runs);
        (runs, lengths)
    });
    let rules = RuleBook::shipped();
    let taken: TakeOff =
        table.row("take-off, cut plans", || take_off(plan, &runs, &lengths, &rules));
    let house = House::new(plan, &runs, &lengths, rules.local(plan.project.regime));
    let checked = table.row("checks", || check(plan, &runs, &lengths, &RuleBook::shipped()));
    let mut drawn =
        Floors::of(plan, &runs, &lengths, rules.local(plan.project.regime)).marking(&checked);
    let floor = |drawn: &mut Floors<'_>, circuit: Option<CircuitId>| -> Vec<Scene> {
        let sheet = |level: &LevelId| {
            let options = FloorOptions { circuit, ..FloorOptions::of(*level) };
            drawn.sheet(&options).expect("a floor sheet")
        };
        plan.levels.keys().map(sheet).collect()
    };
    let choices = table.row("choices of the quote", || choices(plan, &taken, &rules).for_client());
    table.row("quote as a page", || {
        black_box(quote_page(&house, &mut drawn, &taken.materials, &choices).len())
    });
    let mut scenes = table.row("quote", || quote_sheets(&house, &mut drawn, &choices));
    let floors = table.row("floor sheets, all circuits", || floor(&mut drawn, None));
    scenes.extend(floors.iter().cloned());
    let circuits = table.row("floor sheets, one a circuit", || {
        plan.circuits.keys().flat_map(|id| floor(&mut drawn, Some(*id))).collect::<Vec<Scene>>()
    });
    scenes.extend(circuits.iter().cloned());
    scenes.extend(table.row("elevations", || elevations(&house)));
    scenes.extend(table.row("isometric views", || {
        plan.circuits.keys().filter_map(|id| isometric(&house, *id)).collect::<Vec<Scene>>()
    }));
    scenes.extend(table.row("strips", || run_strips(&house)));
    scenes.extend(table.row("cut cards", || cut_cards(&house, &taken.cuts)));
    scenes.extend(table.row("order list", || order_list(&house, &taken)));
    scenes.extend(table.row("board charts", || board_charts(&house)));
    let tests = table
        .row("expected readings", || expected_tests(plan, &runs, &lengths, &RuleBook::shipped()));
    scenes.extend(table.row("test sheets", || test_sheets(&house, &tests)));
    scenes.extend(table.row("concealed cables", || concealed_sheets(&house)));
    table.row("sheet numbers", || number_sheets(&mut scenes));
    table.row("SVG", || {
        let written: usize = scenes.iter().map(|scene| svg(scene).len()).sum();
        black_box(written)
    });
    table.row("PDF", || black_box(pdf(&scenes, "House A: papers").len()));
    table.row("DXF", || {
        floors.iter().chain(&circuits).map(|scene| dxf(scene, plan).len()).sum::<usize>()
    });
    table.row("CSV and workbook", || {
        let lists = [
            cut_list(&house, &taken.cuts),
            point_list(&house),
            cable_list(&house, &taken.cuts),
            reading_list(&house, &tests),
        ];
        let text: usize = lists.iter().map(|list| csv(list).len()).sum();
        text + workbook(&lists).expect("a workbook").len()
    });
    scenes
}

/// With rooms, cable, devices, stock and prices, all invented.
fn furnished(mut plan: Plan) -> Plan {
    let cable = Cable { cores: 2, size: Csa::from_hundredths(250), make: CableMake::default() };
    for circuit in plan.circuits.values_mut() {
        circuit.name = format!("Circuit {}", circuit.number);
        circuit.cable = Some(cable);
        circuit.device =
            Some(Device { rating: Amps(16.0), curve: Curve::C, residual: Some(Amps(0.03)) });
    }
    let drum = |metres: i64, price: i64| Drum {
        cable,
        length: Mm::new(metres * 1000),
        price: Some(Cents::new(price)),
    };
    plan.stock.drums = vec![drum(50, 6000), drum(100, 11_000)];
    plan.stock.usable = Mm::new(2000);
    let off_cut = |length: i64| OffCut { cable, length: Mm::new(length), label: String::new() };
    plan.stock.off_cuts = (0..20).map(|at| off_cut(4000 + 731 * at)).collect();
    let item = |code: &str, unit: &str, price: i64| PriceItem {
        code: code.to_owned(),
        name: format!("{code}, invented price"),
        unit: unit.to_owned(),
        price: Cents::new(price),
    };
    plan.prices.currency = "AUD".to_owned();
    plan.prices.items = vec![
        item("socket", "each", 1450),
        item("luminaire", "each", 4200),
        item("plate", "each", 310),
        item("box", "each", 240),
        item("labour", "h", 9000),
    ];
    rooms(&mut plan);
    plan
}

/// A room in every field between the walls.
fn rooms(plan: &mut Plan) {
    let Some(level) = plan.levels.keys().next().copied() else { return };
    let steps = |of: fn(Point2) -> i64| -> Vec<i64> {
        let mut steps: Vec<i64> =
            plan.walls.values().flat_map(|wall| [of(wall.a), of(wall.b)]).collect();
        steps.sort_unstable();
        steps.dedup();
        steps
    };
    let (xs, ys) = (steps(|at| at.x.get()), steps(|at| at.y.get()));
    for x in xs.windows(2) {
        for y in ys.windows(2) {
            let corners = [(x[0], y[0]), (x[1], y[0]), (x[1], y[1]), (x[0], y[1])];
            let outline = corners.map(|(x, y)| Point2::new(x, y)).to_vec();
            let id = RoomId(plan.next_id);
            plan.next_id += 1;
            let name = format!("Room {}", plan.rooms.len() + 1);
            plan.rooms.insert(id, Room { level, name, usage: RoomUse::Other, outline });
        }
    }
}

/// Times by part, in the order in which the parts come.
#[derive(Default)]
struct Table {
    rows: Vec<(&'static str, Vec<Duration>)>,
}

impl Table {
    fn row<T>(&mut self, what: &'static str, work: impl FnOnce() -> T) -> T {
        let (time, made) = timed(work);
        match self.rows.iter_mut().find(|row| row.0 == what) {
            Some(row) => row.1.push(time),
            None => self.rows.push((what, vec![time])),
        }
        made
    }

    /// The medians, and their sum.
    fn print(&mut self) -> f64 {
        let mut total = 0.0;
        for (what, times) in &mut self.rows {
            times.sort_unstable();
            let median = ms(times[times.len().div_euclid(2)]);
            total += median;
            println!("  {what:<36} {median:>9.2} ms");
        }
        total
    }
}

fn timed<T>(work: impl FnOnce() -> T) -> (Duration, T) {
    let start = ThreadTime::now();
    let made = work();
    (start.elapsed(), made)
}

fn ms(time: Duration) -> f64 {
    time.as_secs_f64() * 1000.0
}

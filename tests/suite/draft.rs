//! Layouts drafted with nothing set by hand, judged by the independent checker
//! and by the checks.

use wirewend::checks;
use wirewend::draft::{Above, DraftError, DraftOptions, Standard, Wayfare, compare, draft};
use wirewend::lengths;
use wirewend::plan::*;
use wirewend::rules::RuleBook;
use wirewend::runs;
use wirewend::runs::chain::Effort;
use wirewend::space::Space;

use crate::checker;
use crate::layouts::{ours, outside, read};
use crate::sound::problems;

const QUICK: Effort = Effort { exact_up_to: 10, kicks: 100, ascent_steps: 50, branch_trees: 0 };

/// Faults that lie in the drawing itself, whatever is put into it.
fn faults_of(plan: &Plan) -> Vec<(&'static str, Subject)> {
    let findings = review(plan);
    let worst = findings.iter().filter(|finding| finding.severity == Severity::Fault);
    worst.map(|finding| (finding.code, finding.subject)).collect()
}

/// Drafts a bare plan and judges what comes of it.
pub(crate) fn check(name: &str, bare: &Plan, options: &DraftOptions) -> Plan {
    let rules = RuleBook::shipped();
    let drafted = draft(bare.clone(), &rules, options).unwrap();
    let plan = &drafted.plan;
    let before = problems(bare);
    let mut wrong = problems(plan);
    wrong.retain(|problem| !before.contains(problem));
    assert_eq!(wrong, Vec::<String>::new(), "{name}: hangs together");
    let again = draft(bare.clone(), &rules, options).unwrap();
    assert_eq!(again, drafted, "{name}: the same every time");

    for (id, point) in &plan.points {
        assert!(point.circuit.is_some(), "{name}: {id} is on no circuit");
    }
    for reason in &drafted.reasons {
        assert!(!reason.because.is_empty(), "{name}: no reason for {}", reason.chosen);
    }
    let routed = runs::route(plan, &Space::of(plan), &Effort::default());
    let measured = lengths::measure(plan, &routed);
    let complaints = checker::judge(plan, &routed, Some(&measured));
    assert!(complaints.is_empty(), "{name}: {:?}", complaints.first());
    let known = faults_of(bare);
    let checked = checks::check(plan, &routed, &measured, &rules);
    let all = review(plan).into_iter().chain(routed.findings).chain(checked.findings);
    for finding in all.filter(|finding| finding.severity == Severity::Fault) {
        let own = !known.contains(&(finding.code, finding.subject));
        assert!(!own, "{name}: {}: {} ({})", finding.code, finding.message, finding.measured);
    }
    drafted.plan
}

fn count(plan: &Plan, family: Family) -> usize {
    plan.points.values().filter(|point| point.kind.family() == family).count()
}

const REGIMES: [Regime; 3] = [Regime::AS_NZS, Regime::BS, Regime::IEC];

/// Every layout in so many regimes; large ones take their time.
fn draft_all(layouts: Vec<(String, String)>, regimes: usize) {
    for (index, (name, text)) in layouts.into_iter().enumerate() {
        let (bare, _) = read(&text);
        for regime in REGIMES.into_iter().cycle().skip(index).take(regimes) {
            let options = DraftOptions { regime: Some(regime), ..DraftOptions::default() };
            let name = format!("{name}, {regime:?}");
            let plan = check(&name, &bare, &options);
            assert!(count(&plan, Family::Sockets) >= 5, "{name}: sockets");
            assert!(count(&plan, Family::Lights) >= 5, "{name}: lights");
            assert!(!plan.boards.is_empty(), "{name}: a board");
        }
    }
}

#[test]
fn our_layouts_are_drafted_without_a_fault() {
    draft_all(ours(), 3);
}

#[test]
fn outside_layouts_are_drafted_without_a_fault() {
    draft_all(outside(), 1);
}

fn flat() -> Plan {
    let (_, text) = ours().into_iter().find(|(name, _)| name == "resplan_50").unwrap();
    read(&text).0
}

#[test]
fn every_standard_way_and_ceiling_holds() {
    for standard in [Standard::Basic, Standard::Good, Standard::Generous] {
        for way in [Wayfare::Mixed, Wayfare::Overhead, Wayfare::Underfloor] {
            let options = DraftOptions { standard, way, ..DraftOptions::default() };
            check(&format!("{standard:?} {way:?}"), &flat(), &options);
        }
    }
    let sockets = |standard| {
        let options = DraftOptions { standard, ..DraftOptions::default() };
        count(&check("flat", &flat(), &options), Family::Sockets)
    };
    assert!(sockets(Standard::Basic) < sockets(Standard::Generous), "more of everything");
}

#[test]
fn levels_without_voids_get_those_that_are_asked_for() {
    let mut bare = flat();
    bare.voids.clear();
    for level in bare.levels.values_mut() {
        level.above.clear();
        level.below.clear();
    }
    let with = |above| {
        let options = DraftOptions { above, ..DraftOptions::default() };
        draft(bare.clone(), &RuleBook::shipped(), &options).unwrap().plan
    };
    assert_eq!(with(Above::Voids).voids.len(), 1, "a roof space");
    let concrete = with(Above::Concrete);
    assert!(concrete.voids.is_empty(), "concrete");
    let on_ceiling = |point: &Point| matches!(point.place, Some(Place::Ceiling(_)));
    assert!(!concrete.points.values().any(on_ceiling), "nothing on a concrete ceiling");
}

#[test]
fn the_board_goes_where_it_is_asked_for() {
    let bare = flat();
    let with = |text: &str| {
        let options = DraftOptions { board: Some(text.parse()?), ..DraftOptions::default() };
        draft(bare.clone(), &RuleBook::shipped(), &options)
    };
    let plan = with("Bedroom 2/west").unwrap().plan;
    let place = plan.boards.values().next().and_then(|board| board.place).unwrap();
    let room = plan.room_of(&place).unwrap();
    assert_eq!(plan.rooms[&room].name, "Bedroom 2");
    assert!(matches!(with("Ballroom"), Err(DraftError::NoRoom { .. })), "no such room");
    assert!(matches!(with("Bedroom 2/W9999"), Err(DraftError::NoSpace { .. })), "no such wall");
    let none = draft(Plan::default(), &RuleBook::shipped(), &DraftOptions::default());
    assert_eq!(none.unwrap_err(), DraftError::NoWalls);
}

#[test]
fn what_was_drawn_stays() {
    let rules = RuleBook::shipped();
    let first = draft(flat(), &rules, &DraftOptions::default()).unwrap().plan;
    let again = draft(first.clone(), &rules, &DraftOptions::default()).unwrap().plan;
    for (id, point) in &first.points {
        assert_eq!(again.points.get(id), Some(point), "{id}");
    }
    for (id, circuit) in &first.circuits {
        assert_eq!(again.circuits.get(id), Some(circuit), "{id}");
    }
    assert_eq!(count(&again, Family::Sockets), count(&first, Family::Sockets), "no more sockets");
    assert_eq!(count(&again, Family::Lights), count(&first, Family::Lights), "no more lights");
    let quick = runs::route(&again, &Space::of(&again), &QUICK);
    assert!(quick.findings.iter().all(|finding| finding.severity != Severity::Fault), "routes");
}

/// The flat with a sink in a bathroom, a bench in the kitchen and a bath.
fn with_fixtures() -> (String, Plan) {
    let (_, text) = ours().into_iter().find(|(name, _)| name == "resplan_50").unwrap();
    let mut layout: serde_json::Value = serde_json::from_str(&text).unwrap();
    let rooms = layout["levels"][0]["rooms"].as_array().unwrap().clone();
    let mut fixtures = Vec::new();
    for room in &rooms {
        let kinds: &[&str] = match room["type"].as_str().unwrap() {
            "BATHROOM" => &["sink", "bathtub"],
            "KITCHEN" => &["kitchen", "kitchen"],
            _ => continue,
        };
        let ring = room["polygon"].as_array().unwrap();
        for (index, kind) in kinds.iter().enumerate() {
            // In from a corner, towards the one across.
            let at = |axis: usize| {
                let coordinate = |corner: usize| ring[corner][axis].as_f64().unwrap();
                let corner = if *kind == "kitchen" { 2 * index } else { index };
                0.9 * coordinate(corner) + 0.1 * coordinate((corner + 2) % ring.len())
            };
            fixtures.push(serde_json::json!({ "kind": kind, "at": [at(0), at(1)] }));
        }
    }
    fixtures.push(serde_json::json!({ "kind": "piano", "at": [1.0, 1.0] }));
    layout["levels"][0]["fixtures"] = fixtures.into();
    let text = layout.to_string();
    let plan = read(&text).0;
    (text, plan)
}

#[test]
fn what_stands_in_rooms_is_read_and_kept_clear_of() {
    let (text, bare) = with_fixtures();
    let report = read(&text).1;
    let notes: Vec<&str> = report.notes.iter().map(|note| note.message.as_str()).collect();
    assert!(notes.iter().any(|note| note.contains("piano")), "unknown things are told");
    for name in ["sink", "bath", "kitchen bench"] {
        assert!(bare.areas.values().any(|area| area.name == name), "{name}: {notes:?}");
        assert!(notes.iter().any(|note| note.contains(name)), "{name} is told of");
    }
    for regime in REGIMES {
        let options = DraftOptions { regime: Some(regime), ..DraftOptions::default() };
        // No fault: the checks measure sockets from sinks and baths.
        let plan = check(&format!("furniture, {regime:?}"), &bare, &options);
        let bench: Vec<WallId> = bare
            .areas
            .values()
            .filter(|area| area.name == "kitchen bench")
            .filter_map(|area| match area.on {
                Plane::Wall(wall) => Some(wall),
                Plane::Void(_) => None,
            })
            .collect();
        for point in plan.points.values().filter(|point| point.kind == PointKind::Cooktop) {
            let Some(Place::Wall(on)) = point.place else { panic!("a cooktop off a wall") };
            assert!(bench.contains(&on.wall), "{regime:?}: the cooktop is on the drawn bench");
        }
    }
}

#[test]
fn options_have_prices_only_where_the_plan_has_them() {
    let rules = RuleBook::shipped();
    let plan = draft(flat(), &rules, &DraftOptions::default()).unwrap().plan;
    let rows = compare(&plan, &rules);
    assert_eq!(rows.len(), 8, "overhead, underfloor, mixed; as drawn, larger, more; radial, ring");
    assert!(rows.iter().all(|row| row.price.priced().is_none()), "no price book");
    assert!(rows.iter().all(|row| row.volt_drop_percent.is_some()), "volt drops");
    let mut priced = plan.clone();
    priced.prices = fixture_prices();
    let rows = compare(&priced, &rules);
    let row = |option: &str| rows.iter().find(|row| row.option == option).unwrap();
    let price = |option: &str| *row(option).price.priced().unwrap();
    let _ = price("mixed");
    let (drawn, more) = (row("as drawn"), row("twice the circuits"));
    assert!(more.circuits > drawn.circuits && more.cut > drawn.cut, "more circuits, more cable");
    assert!(price("twice the circuits") > price("as drawn"), "and dearer");
    let (radial, ring) = (row("radial"), row("ring"));
    assert!(ring.cut > radial.cut, "a ring comes back to the board");
    let drop = |option: &str| row(option).volt_drop_percent.unwrap();
    assert!(drop("next larger cable") <= drop("as drawn"), "larger cable drops less");
    // The quote of the take-off, not another.
    let runs = runs::route(&priced, &Space::of(&priced), &Effort::default());
    let measured = lengths::measure(&priced, &runs);
    let quote =
        wirewend::takeoff::take_off(&priced, &runs, &measured, crate::fixtures::shipped_rules())
            .quote;
    let total = quote.total.map(|sums| sums.sum.value);
    assert_eq!(drawn.price, total, "the take-off's own total");
}

/// The invented prices of a fixture.
fn fixture_prices() -> PriceBook {
    let path = crate::fixtures::folder().join("cottage.wend");
    let book = wirewend::store::read_file(&path).unwrap().prices;
    assert!(!book.items.is_empty(), "the cottage has prices");
    book
}

#[test]
fn buildings_apart_have_a_board_each_and_nothing_is_left_out_in_silence() {
    let (_, text) = ours().into_iter().find(|(name, _)| name == "large_two_block").unwrap();
    let bare = read(&text).0;
    let plan = check("two blocks", &bare, &DraftOptions::default());
    assert_eq!(plan.boards.len(), 2, "one each");
    let lit = |plan: &Plan, room: &RoomId| {
        plan.points.values().any(|point| {
            point.kind.family() == Family::Lights
                && point.place.is_some_and(|place| plan.room_of(&place) == Some(*room))
        })
    };
    assert!(plan.rooms.keys().all(|room| lit(&plan, room)), "every room has a light");

    // With a board drawn in one of them, the other is left out, and told.
    let mut drawn = bare;
    let (id, board) = plan.boards.iter().next().map(|(id, board)| (*id, board.clone())).unwrap();
    drawn.boards.insert(id, Board { ways: None, ..board });
    drawn.next_id = plan.next_id;
    let drafted = draft(drawn, &RuleBook::shipped(), &DraftOptions::default()).unwrap();
    let told = drafted.reasons.iter().find(|reason| reason.chosen.contains("points left out"));
    let told = told.expect("what is left out is told");
    assert!(told.because.contains("add a board"), "and what to do: {}", told.because);
    assert_eq!(told.subject, Subject::Plan, "where it is read");
}

#[test]
fn nothing_hangs_in_a_wall_and_a_loggia_is_outdoors() {
    for (name, text) in ours() {
        let bare = read(&text).0;
        let plan = draft(bare, &RuleBook::shipped(), &DraftOptions::default()).unwrap().plan;
        for (id, point) in &plan.points {
            let Some(Place::Ceiling(on)) = point.place else { continue };
            let inside = plan.walls.values().any(|wall| {
                let (dx, dy) = wall.direction();
                let (px, py) = ((on.at.x - wall.a.x).to_f64(), (on.at.y - wall.a.y).to_f64());
                let along = px * dx + py * dy;
                wall.level == on.level
                    && (0.0..=wall.length()).contains(&along)
                    && (px * dy - py * dx).abs() < wall.thickness.to_f64() / 2.0
            });
            assert!(!inside, "{name}: {id} hangs in a wall");
        }
    }
    // A room whose name says nothing, with a railing along one side.
    let mut bare = flat();
    let bedroom = bare.rooms.iter().find(|(_, room)| room.name == "Bedroom 2");
    let (room, drawn) = bedroom.map(|(id, room)| (*id, room.clone())).unwrap();
    let railing = |edge: usize| Wall {
        level: drawn.level,
        a: drawn.outline[edge],
        b: drawn.outline[(edge + 1) % drawn.outline.len()],
        thickness: wirewend::units::Mm::new(50),
        build: WallBuild::Screen,
        insulated: false,
        wet: None,
    };
    let named = |bare: &mut Plan| {
        let room = bare.rooms.get_mut(&room).unwrap();
        (room.name, room.usage) = ("Room 4".to_owned(), RoomUse::Other);
    };
    named(&mut bare);
    let usage = |bare: &Plan| {
        let drafted = draft(bare.clone(), &RuleBook::shipped(), &DraftOptions::default()).unwrap();
        drafted.plan.rooms[&room].usage
    };
    assert_ne!(usage(&bare), RoomUse::Outdoor, "without one it is indoors");
    let outdoors = (0..drawn.outline.len()).filter(|edge| {
        let mut railed = bare.clone();
        railed.walls.insert(WallId(bare.next_id), railing(*edge));
        railed.next_id += 1;
        usage(&railed) == RoomUse::Outdoor
    });
    let outdoors = outdoors.count();
    assert!(outdoors > 0, "a railing towards the open closes it");
    assert!(outdoors < drawn.outline.len(), "between two rooms it does not");
}

//! What a comparison of two revisions must hold: whatever a person could see
//! is told under the name of the thing, what is the same is not, and its lines
//! are the difference of the prices to the cent.

use std::collections::{BTreeMap, BTreeSet};

use serde_json::{Value, json};
use wirewend::lengths::{self, Lengths};
use wirewend::plan::*;
use wirewend::runs::{self, Runs, chain::Effort};
use wirewend::space::Space;
use wirewend::takeoff::{
    LineGroup, Revision, Section, TakeOff, ThingChange, changes, compare, take_off,
};
use wirewend::units::{Amps, Cents, Mm};

use crate::fixtures::house;
use crate::fixtures::shipped_rules;
use crate::sample;

/// Steps enough for a right order; the order is not what is judged here.
const QUICK: Effort = Effort { exact_up_to: 7, kicks: 20, ascent_steps: 60, branch_trees: 0 };

struct Taken {
    plan: Plan,
    runs: Runs,
    lengths: Lengths,
    it: TakeOff,
}

fn taken(plan: Plan) -> Taken {
    let runs = runs::route(&plan, &Space::of(&plan), &QUICK);
    let lengths = lengths::measure(&plan, &runs);
    let it = take_off(&plan, &runs, &lengths, shipped_rules());
    Taken { plan, runs, lengths, it }
}

impl Taken {
    fn revision(&self) -> Revision<'_> {
        Revision { plan: &self.plan, runs: &self.runs, lengths: &self.lengths, take_off: &self.it }
    }
}

/// Where something stands in the file of a plan.
type Path = Vec<String>;

/// Every value in a plan's file that has no parts, and every list and object.
fn places(value: &Value, at: &mut Path, found: &mut Vec<Path>) {
    if !at.is_empty() {
        found.push(at.clone());
    }
    let parts: Vec<(String, &Value)> = match value {
        Value::Object(parts) => parts.iter().map(|(key, part)| (key.clone(), part)).collect(),
        Value::Array(parts) => {
            parts.iter().enumerate().map(|(at, part)| (at.to_string(), part)).collect()
        }
        _ => Vec::new(),
    };
    for (key, part) in parts {
        at.push(key);
        places(part, at, found);
        at.pop();
    }
}

fn get_mut<'v>(value: &'v mut Value, path: &[String]) -> Option<&'v mut Value> {
    path.iter().try_fold(value, |value, key| match value {
        Value::Object(parts) => parts.get_mut(key),
        Value::Array(parts) => parts.get_mut(key.parse::<usize>().ok()?),
        _ => None,
    })
}

/// Other values that may stand in place of one.
fn others(value: &Value, words: &BTreeSet<String>) -> Vec<Value> {
    match value {
        Value::Bool(holds) => vec![Value::Bool(!holds)],
        Value::Number(number) => match number.as_i64() {
            Some(whole) => [1, -1, 30, 100].map(|by| Value::from(whole + by)).to_vec(),
            None => vec![Value::from(number.as_f64().unwrap() + 0.5)],
        },
        Value::String(text) => {
            let own = [Value::from(format!("{text} otherwise")), json!({ "percent": 120 })];
            own.into_iter().chain(words.iter().map(|word| Value::from(word.as_str()))).collect()
        }
        _ => Vec::new(),
    }
}

/// Plans that differ from this one in one value: another in its place, one more
/// or one less in a list, or nothing where something was. All of them can be
/// read and hold together.
fn neighbours(plan: &Plan, path: &Path, words: &BTreeSet<String>) -> Vec<Plan> {
    let whole = serde_json::to_value(plan).unwrap();
    let mut made = Vec::new();
    let keep = |value: Value, made: &mut Vec<Plan>| {
        if let Ok(read) = serde_json::from_value::<Plan>(value)
            && read.check_references().is_empty()
            && read != *plan
        {
            made.push(read);
        }
    };
    let now = get_mut(&mut whole.clone(), path).unwrap().clone();
    for other in others(&now, words) {
        let mut value = whole.clone();
        *get_mut(&mut value, path).unwrap() = other;
        keep(value, &mut made);
        if made.len() > 3 {
            break;
        }
    }
    let (last, around) = path.split_last().unwrap();
    let mut value = whole.clone();
    match get_mut(&mut value, around).unwrap() {
        Value::Object(parts) => drop(parts.shift_remove(last)),
        Value::Array(parts) => drop(parts.remove(last.parse().unwrap())),
        _ => {}
    }
    keep(value, &mut made);
    // Of a leg or a test only one entry counts, so a second one is no change.
    if let Value::Array(parts) = &now
        && let Some(first) = parts.first()
        && !["measured", "readings"].contains(&last.as_str())
    {
        let mut value = whole.clone();
        if let Some(Value::Array(parts)) = get_mut(&mut value, path) {
            parts.push(first.clone());
        }
        keep(value, &mut made);
    }
    made
}

/// Words that stand in plans, choices by name among them.
fn words(plans: &[Plan]) -> BTreeSet<String> {
    let mut words: BTreeSet<String> = [
        "brick_veneer",
        "solid_masonry",
        "ring",
        "single",
        "chain_with_spurs",
        "light",
        "switch",
        "round",
        "armoured",
        "roof_space",
        "subfloor",
        "walk_in",
        "closed",
        "TN-S",
        "TT",
        "bs",
        "iec",
        "as_built",
        "planned",
        "window",
        "plain",
        "left",
        "right",
        "lighting",
        "fixed",
        "alarms",
        "B",
        "C",
        "D",
        "socket",
        "heater",
        "kitchen",
        "bedroom",
        "surface",
        "overhead",
        "keep_out",
        "each",
        "h",
        "L91",
        "B92",
    ]
    .map(str::to_owned)
    .into();
    for plan in plans {
        let value = serde_json::to_value(plan).unwrap();
        let mut all = Vec::new();
        places(&value, &mut Vec::new(), &mut all);
        let mut copy = value.clone();
        let texts =
            all.iter().filter_map(|path| get_mut(&mut copy, path)?.as_str().map(str::to_owned));
        words.extend(texts.filter(|text| text.len() < 20).collect::<Vec<_>>());
    }
    words
}

/// The place with ids and numbers left out: what is changed, not of which.
fn pattern(path: &[String]) -> String {
    let is_one = |key: &str| {
        let digits = key.trim_start_matches(|sign: char| sign.is_ascii_uppercase());
        key.len() - digits.len() <= 1 && !digits.is_empty() && digits.parse::<u32>().is_ok()
    };
    path.iter().map(|key| if is_one(key) { "*" } else { key }).collect::<Vec<_>>().join(".")
}

/// Whether a change is told under the name of the thing at a place.
fn names(change: &ThingChange, path: &[String]) -> bool {
    let told = !change.name.is_empty() && change.what.iter().all(|what| !what.is_empty());
    let id = path.get(1).map_or("", String::as_str);
    let of = |subject: Option<Subject>| change.subject == subject;
    told && !change.what.is_empty()
        && match path[0].as_str() {
            "project" => change.section == Section::Job,
            "allowances" | "habits" => change.section == Section::Allowances,
            "stock" => change.section == Section::Stock,
            "prices" => matches!(change.section, Section::Prices | Section::Job),
            "measured" | "readings" => change.section == Section::Built,
            "levels" => of(id.parse().ok().map(Subject::Level)),
            "backdrops" => of(id.parse().ok().map(Subject::Level)),
            "voids" => of(id.parse().ok().map(Subject::Void)),
            "walls" => of(id.parse().ok().map(Subject::Wall)),
            "openings" => of(id.parse().ok().map(Subject::Opening)),
            "rooms" => of(id.parse().ok().map(Subject::Room)),
            "areas" => of(id.parse().ok().map(Subject::Area)),
            "risers" => of(id.parse().ok().map(Subject::Riser)),
            "boards" => of(id.parse().ok().map(Subject::Board)),
            "circuits" => of(id.parse().ok().map(Subject::Circuit)),
            "points" => of(id.parse().ok().map(Subject::Point)),
            "controls" => of(id.parse().ok().map(Subject::Control)),
            other => panic!("{other}: what is told of it?"),
        }
}

/// The sample with a second level and a second board, so that whatever names
/// one may name the other.
fn with_others() -> Plan {
    let mut plan = sample::plan();
    plan.levels.insert(LevelId(91), plan.levels[&LevelId(1)].clone());
    plan.boards.insert(
        BoardId(92),
        Board { label: "SUB".to_owned(), ..plan.boards[&BoardId(20)].clone() },
    );
    plan.next_id = 93;
    plan
}

/// Every value of a plan's file, changed by itself both ways: what is told says
/// so under the name of the thing; but for what papers called things, which is
/// told where it is called otherwise. New fields are covered as they come.
#[test]
fn whatever_differs_is_told_under_its_name() {
    let plans = [with_others(), house("cottage"), house("terrace")];
    let words = words(&plans);
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    let mut count = 0;
    for plan in &plans {
        let value = serde_json::to_value(plan).unwrap();
        let mut all = Vec::new();
        places(&value, &mut Vec::new(), &mut all);
        let mut here: BTreeMap<String, usize> = BTreeMap::new();
        for path in all.iter().filter(|path| !["next_id", "kept"].contains(&path[0].as_str())) {
            let pattern = pattern(path);
            let before = here.entry(pattern.clone()).or_default();
            *before += 1;
            let made = if *before > 2 { Vec::new() } else { neighbours(plan, path, &words) };
            let now = get_mut(&mut value.clone(), path).unwrap().clone();
            // Lists and objects change with what is in them.
            if !now.is_array() && !now.is_object() {
                *seen.entry(pattern.clone()).or_default() += made.len();
            }
            // A whole section at once is many things.
            if path.len() < 2 && !["measured", "readings"].contains(&path[0].as_str()) {
                continue;
            }
            for other in made.into_iter().take(6) {
                count += 1;
                for (old, new) in [(plan, &other), (&other, plan)] {
                    let told = changes(old, new);
                    let is_told = told.iter().any(|change| names(change, path));
                    assert!(is_told, "{}: {told:?}", path.join("."));
                }
            }
        }
    }
    let never: Vec<&String> =
        seen.iter().filter(|(_, count)| **count == 0).map(|(pattern, _)| pattern).collect();
    assert!(never.is_empty(), "never changed: {never:?}");
    assert!(count > 400, "only {count} changes");
}

#[test]
fn the_same_plan_differs_in_nothing() {
    let houses = ["cottage", "flat", "half_drawn", "terrace", "townhouse"];
    for plan in houses.map(house).into_iter().chain([sample::plan()]) {
        let taken = taken(plan);
        let variation = compare(taken.revision(), taken.revision());
        assert!(variation.is_nothing(), "{}: {variation:?}", taken.plan.project.title);
        assert!(variation.for_client().things.is_empty(), "nor for the client");
    }
}

/// What the lines say against what the two quotes say, which share no code.
fn lines_are_the_difference(old: &Taken, new: &Taken, name: &str) {
    let variation = compare(old.revision(), new.revision());
    let bill = &variation.bill;
    let priced = |of: &Taken| of.it.quote.total.priced().map_or(0, |it| it.sum.value.get());
    let by = |was: Option<Cents>, is: Option<Cents>| {
        is.map_or(0, Cents::get) - was.map_or(0, Cents::get)
    };
    let lines: i64 = bill.lines.iter().map(|it| by(it.amount.old, it.amount.new)).sum();
    let sum = lines + by(bill.margin.old, bill.margin.new) + by(bill.tax.old, bill.tax.new);
    assert_eq!(sum, priced(new) - priced(old), "{name}: to the cent");
    let pay = |of: &Taken| of.it.quote.to_pay().map(Cents::get);
    let more = pay(new).zip(pay(old)).map(|(new, old)| new - old);
    let same = old.plan.prices.currency == new.plan.prices.currency;
    assert_eq!(
        bill.more_to_pay().map(Cents::get),
        more.filter(|_| same),
        "{name}: a difference where both totals are known"
    );
    // Every line of either quote that the other has not is among them.
    let all = |of: &Taken| {
        let lines = of.it.quote.lines.iter();
        let mut all: Vec<(LineGroup, String, String, Option<Cents>)> = lines
            .map(|it| (it.group, it.code.clone(), format!("{:?}", it.quantity), it.amount))
            .collect();
        all.sort();
        all
    };
    let (was, is) = (all(old), all(new));
    let gone = was.iter().filter(|line| !is.contains(line)).count();
    let came = is.iter().filter(|line| !was.contains(line)).count();
    let told = |is_there: fn(&wirewend::takeoff::LineChange) -> bool| {
        bill.lines.iter().filter(|line| is_there(line)).count()
    };
    assert!(told(|line| line.quantity.old.is_some()) >= gone, "{name}: lines that went");
    assert!(told(|line| line.quantity.new.is_some()) >= came, "{name}: lines that came");
    // The client's parts add up to the same.
    let client = &variation.for_client().bill;
    let parts = |total: &wirewend::takeoff::Total<wirewend::takeoff::ClientSums>| {
        total.priced().map_or(0, |it| (it.materials.get(), it.work.get(), it.tax.get()).sum())
    };
    let client = parts(&client.total.new) - parts(&client.total.old);
    assert_eq!(client, priced(new) - priced(old), "{name}: the client's parts");
    if was != is {
        assert!(!variation.things.is_empty(), "{name}: a price has a cause that is told");
    }
}

trait Added {
    fn sum(self) -> i64;
}

impl Added for (i64, i64, i64) {
    fn sum(self) -> i64 {
        self.0 + self.1 + self.2
    }
}

/// Edits by chance, several at once, on two houses.
#[test]
fn lines_margin_and_tax_are_the_difference_to_the_cent() {
    let mut differ = 0;
    for name in ["terrace", "flat"] {
        let plan = house(name);
        let old = taken(plan.clone());
        let words = words(std::slice::from_ref(&plan));
        let value = serde_json::to_value(&plan).unwrap();
        let mut all = Vec::new();
        places(&value, &mut Vec::new(), &mut all);
        let weighs = |path: &&Path| {
            !["next_id", "project", "backdrops", "rooms"].contains(&path[0].as_str())
                && path.len() > 1
        };
        let all: Vec<Path> = all.iter().filter(weighs).cloned().collect();
        let mut state = 0x2545_f491_u64;
        let mut chance = |below: usize| {
            state = state
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            usize::try_from(state >> 33).unwrap() % below
        };
        for round in 0..24 {
            let mut now = plan.clone();
            for _ in 0..=chance(3) {
                let path = &all[chance(all.len())];
                let mut value = serde_json::to_value(&now).unwrap();
                if get_mut(&mut value, path).is_none() {
                    continue;
                }
                let made = neighbours(&now, path, &words);
                if !made.is_empty() {
                    now = made[chance(made.len())].clone();
                }
            }
            let new = taken(now);
            differ += usize::from(new.it.quote.total != old.it.quote.total);
            lines_are_the_difference(&old, &new, &format!("{name}, round {round}"));
            lines_are_the_difference(&new, &old, &format!("{name}, round {round}, back"));
        }
    }
    assert!(differ > 15, "only {differ} changed the price");
}

/// The one thing that is told of a plan that is changed so.
fn told(change: impl Fn(&mut Plan)) -> ThingChange {
    let old = sample::plan();
    let mut new = old.clone();
    change(&mut new);
    let told = changes(&old, &new);
    let [only] = &told[..] else { panic!("one thing: {told:?}") };
    only.clone()
}

fn says(change: impl Fn(&mut Plan), name: &str, what: [&str; 1]) {
    let told = told(change);
    assert_eq!(
        (told.name.as_str(), &told.what[..]),
        (name, &what.map(str::to_owned)[..]),
        "{name}"
    );
}

/// In words, worked out by hand on the shed: 4 m by 3 m, walls 110 mm thick.
#[test]
fn changes_are_told_in_words() {
    fn on_wall(place: &mut Option<Place>) -> &mut OnWall {
        match place {
            Some(Place::Wall(on)) => on,
            _ => panic!("on a wall"),
        }
    }
    says(
        |plan| on_wall(&mut plan.boards[&BoardId(20)].place).along = Mm::new(2700),
        "MSB",
        ["moved 1.20 m: Shed, W7, 1.60 m up"],
    );
    says(
        |plan| on_wall(&mut plan.points[&PointId(30)].place).height = Mm::new(1100),
        "SO1",
        ["moved, from Shed, W4, 0.30 m up to Shed, W4, 1.10 m up"],
    );
    // From the inner face to the outer one: 110 mm, and out of the room.
    says(
        |plan| on_wall(&mut plan.points[&PointId(30)].place).face = Face::Right,
        "SO1",
        ["moved 0.11 m, from Shed, W4, 0.30 m up to outside, W4, 0.30 m up"],
    );
    says(
        |plan| plan.circuits[&CircuitId(22)].number = 7,
        "circuit 7 (Lights)",
        ["number 7, was 2"],
    );
    says(
        |plan| "Lamps".clone_into(&mut plan.circuits[&CircuitId(22)].name),
        "circuit 2 (Lamps)",
        ["name \"Lamps\", was \"Lights\""],
    );
    says(
        |plan| plan.circuits[&CircuitId(22)].device.as_mut().unwrap().residual = None,
        "circuit 2 (Lights)",
        ["device C10, without residual current, was C10, 30 mA"],
    );
    says(
        |plan| plan.circuits[&CircuitId(22)].device.as_mut().unwrap().rating = Amps(16.0),
        "circuit 2 (Lights)",
        ["device C16, 30 mA, was C10, 30 mA"],
    );
    says(
        |plan| plan.circuits[&CircuitId(21)].wiring = Wiring::Ring,
        "circuit 1 (Sockets)",
        ["wired as ring, was chain"],
    );
    says(
        |plan| plan.boards[&BoardId(20)].supply.main_switch = None,
        "MSB",
        ["main switch not decided, was 63 A"],
    );
    says(
        |plan| plan.levels[&LevelId(1)].height = Mm::new(2700),
        "level Ground",
        ["height 2.70 m, was 2.40 m"],
    );
    says(|plan| plan.prices.tax_permille = 125, "the job", ["tax 12.5 %, was 10 %"]);
}

/// A point that goes is told with its room, its kind and its place; the count
/// by room has it too.
#[test]
fn what_came_and_went_is_told_by_room_and_kind() {
    let old = sample::plan();
    let mut new = old.clone();
    new.circuits[&CircuitId(21)].spurs.clear();
    new.points.shift_remove(&PointId(32));
    let told = changes(&old, &new);
    let gone = told.iter().find(|it| it.subject == Some(Subject::Point(PointId(32)))).unwrap();
    let expect = "removed: weatherproof socket-outlet, outside, on a post, 0.90 m up, on circuit 1";
    assert_eq!(gone.what, [expect]);
    let (old, new) = (taken(old), taken(new));
    let rooms = compare(old.revision(), new.revision()).rooms;
    let told: Vec<_> =
        rooms.iter().map(|it| (&*it.room, &*it.what, it.added, it.removed)).collect();
    assert_eq!(told, [("outside", "weatherproof socket-outlet", 0, 1)]);
}

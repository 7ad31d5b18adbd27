//! Cutting as on site, from what the papers say and nothing else: the list of
//! cuts and the cards are followed row by row, from the drums and off-cuts that
//! the order list names. Nothing here knows how cuts are planned.

use std::collections::{BTreeMap, BTreeSet};

use wirewend::lengths;
use wirewend::plan::{
    CircuitUse, Curve, Drum, Measured, OffCut, Plan, PointKind, PriceItem, Regime, Subject,
};
use wirewend::runs::{self, Runs, chain::Effort};
use wirewend::sheet::{House, Scene, cable_list, csv, cut_cards, cut_list, order_list};
use wirewend::space::Space;
use wirewend::takeoff::{LineGroup, Quantity, TakeOff, take_off};
use wirewend::units::{Cents, Mm};

use crate::cutting_jobs::Chance;
use crate::fixtures::house;
use crate::fixtures::{local, shipped_rules};
use crate::on_paper::{groups, texts};
use crate::wired::{Wired, cable};

/// The papers of a job, as text.
struct Papers {
    /// The rows of the list of cuts, by heading.
    cuts: Vec<BTreeMap<String, String>>,
    /// The rows of the list of cable.
    cable: Vec<BTreeMap<String, String>>,
    /// What stands on each card, in their order.
    cards: Vec<String>,
    /// What stands on the order list.
    order: Vec<String>,
    take_off: TakeOff,
}

fn rows(text: &str) -> Vec<BTreeMap<String, String>> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let headings = reader.headers().unwrap().clone();
    let named = |record: csv::StringRecord| {
        let pairs = headings.iter().zip(record.iter());
        pairs.map(|(name, field)| (name.to_owned(), field.to_owned())).collect()
    };
    reader.records().map(|record| named(record.unwrap())).collect()
}

fn said(scenes: &[Scene]) -> Vec<String> {
    let all = scenes.iter().flat_map(|scene| texts(&scene.items));
    all.map(|text| text.content.clone()).collect()
}

impl Papers {
    fn of(plan: &Plan, runs: &Runs) -> Self {
        let lengths = lengths::measure(plan, runs);
        let take_off = take_off(plan, runs, &lengths, shipped_rules());
        let house = House::new(plan, runs, &lengths, local(plan));
        let cards = cut_cards(&house, &take_off.cuts);
        let cards = cards.iter().flat_map(|scene| groups(&scene.items));
        let cards = cards.filter(|group| matches!(group.subject, Some(Subject::Leg { .. })));
        let words = |items| -> Vec<String> {
            texts(items).iter().map(|text| text.content.clone()).collect()
        };
        Self {
            cuts: rows(&csv(&cut_list(&house, &take_off.cuts))),
            cable: rows(&csv(&cable_list(&house, &take_off.cuts))),
            cards: cards.map(|group| words(&group.items).join(" ")).collect(),
            order: said(&order_list(&house, &take_off)),
            take_off,
        }
    }
}

/// `16.2` m or `16.200` m in mm.
fn mm(text: &str) -> Result<i64, String> {
    let (whole, part) = text.split_once('.').unwrap_or((text, ""));
    let digits = format!("{whole}{part:0<3}");
    digits.parse().map_err(|_| format!("no length: {text:?}"))
}

/// What the order list gives: for every cable and name how long it is.
type Shelf = BTreeMap<(String, String), i64>;

/// Drums, off-cuts and cable by the metre, from the parts of the order list
/// that say how each cable is cut.
fn shelf(order: &[String]) -> Result<Shelf, String> {
    let mut shelf = Shelf::new();
    let mut of = None;
    let mut lines = order.iter().peekable();
    while let Some(line) = lines.next() {
        if let Some(cable) = line.strip_prefix("Cutting ") {
            of = Some(cable.trim_end_matches(", continued").to_owned());
        }
        let Some(cable) = of.clone() else { continue };
        if let Some((metres, _)) = line.split_once(" m by the metre") {
            shelf.insert((cable, "by the metre".to_owned()), mm(metres)?);
        } else if line.starts_with("drum ") || line.starts_with("off-cut ") {
            let mut cell = line.clone();
            while !cell.ends_with(" m") {
                let more = lines.next().ok_or_else(|| format!("no length: {cell}"))?;
                cell = format!("{cell} {more}");
            }
            let (name, length) = cell.trim_end_matches(" m").rsplit_once(", ").ok_or("no comma")?;
            if shelf.insert((cable, name.to_owned()), mm(length)?).is_some() {
                return Err(format!("two are called {name}"));
            }
        }
    }
    Ok(shelf)
}

/// What the first table of the order list says is to be bought of a cable:
/// drums by length, and metres.
fn to_buy(words: &str) -> Result<(BTreeMap<i64, usize>, i64), String> {
    let (mut drums, mut metres) = (BTreeMap::new(), 0);
    if words.starts_with("nothing") || words.starts_with("choose") {
        return Ok((drums, 0));
    }
    for part in words.split(", ") {
        match part.strip_suffix(" by the metre").and_then(|one| one.strip_suffix(" m")) {
            Some(length) => metres += mm(length)?,
            None => {
                let (count, length) = part.split_once(" × ").ok_or(format!("what is {part:?}"))?;
                let count: usize = count.parse().map_err(|_| format!("no count: {part:?}"))?;
                *drums.entry(mm(length.trim_end_matches(" m"))?).or_default() += count;
            }
        }
    }
    Ok((drums, metres))
}

/// Cuts row by row: everything must be there, at the mark that is said.
fn cut_by(rows: &[BTreeMap<String, String>], shelf: &Shelf) -> Result<usize, String> {
    let mut at: BTreeMap<(String, String), (i64, usize)> = BTreeMap::new();
    let mut count = 0;
    for row in rows {
        let (leg, source) = (&row["leg"], &row["source"]);
        if row["cable"].is_empty() {
            if source != "no cable chosen yet" {
                return Err(format!("leg {leg} has no cable, but comes off {source}"));
            }
            continue;
        }
        let length =
            mm(if row["measured m"].is_empty() { &row["cut m"] } else { &row["measured m"] })?;
        let (from, to) = (mm(&row["from mark m"])?, mm(&row["to mark m"])?);
        if length == 0 {
            continue;
        }
        let key = (row["cable"].clone(), source.clone());
        let whole = shelf.get(&key).ok_or(format!("leg {leg}: no {source} on the order list"))?;
        let (mark, done) = at.entry(key).or_default();
        *done += 1;
        if row["cut of source"] != done.to_string() || *mark != from || to - from != length {
            return Err(format!("leg {leg}: {from} to {to} of {source}, which is cut to {mark}"));
        }
        if to > *whole {
            return Err(format!("leg {leg}: {source} is {} mm too short", to - whole));
        }
        *mark = to;
        count += 1;
    }
    if at.len() != shelf.len() {
        return Err(format!("{} of {} on the order list are cut into", at.len(), shelf.len()));
    }
    Ok(count)
}

/// What a card says before its marks, and the marks.
fn on_card(card: &str) -> Option<(&str, i64, i64)> {
    let (head, marks) = card.split_once(" cut mark ")?;
    let mut words = marks.split(' ');
    let from = mm(words.next()?).ok()?;
    (words.next()? == "to").then_some(())?;
    Some((head, from, mm(words.next()?).ok()?))
}

fn judge(plan: &Plan, papers: &Papers) -> Result<usize, String> {
    let shelf = shelf(&papers.order)?;
    let count = cut_by(&papers.cuts, &shelf)?;
    // Cards stand in the same order and say the same.
    if papers.cards.len() != papers.cuts.len() {
        return Err(format!("{} cards, {} rows", papers.cards.len(), papers.cuts.len()));
    }
    for (card, row) in papers.cards.iter().zip(&papers.cuts) {
        let told = format!("{card:?} against {row:?}");
        if !card.starts_with(&format!("{} ", row["leg"])) {
            return Err(format!("another leg: {told}"));
        }
        let length =
            mm(if row["measured m"].is_empty() { &row["cut m"] } else { &row["measured m"] })?;
        if row["cable"].is_empty() || length == 0 {
            continue;
        }
        let (head, from, to) = on_card(card).ok_or(format!("no marks: {told}"))?;
        if (from, to) != (mm(&row["from mark m"])?, mm(&row["to mark m"])?)
            || !head.contains(&format!("{}, ", row["source"]))
            || card.contains("cut already") == row["measured m"].is_empty()
        {
            return Err(told);
        }
    }
    bought(plan, papers, &shelf)?;
    Ok(count)
}

/// Off-cuts are in the stock, each once; what else is cut into is what is
/// bought, and list, order list and quote name the same metres.
fn bought(plan: &Plan, papers: &Papers, shelf: &Shelf) -> Result<(), String> {
    let mut stock: Vec<(String, i64)> =
        plan.stock.off_cuts.iter().map(|one| (one.cable.to_string(), one.length.get())).collect();
    for ((cable, name), length) in shelf.iter().filter(|one| one.0.1.starts_with("off-cut ")) {
        let at = stock.iter().position(|one| one == &(cable.clone(), *length));
        stock.swap_remove(at.ok_or(format!("no {name} of {length} mm in the stock"))?);
    }
    let end = papers.order.iter().position(|line| line.starts_with("Cutting "));
    let table = papers.order[..end.unwrap_or(papers.order.len())].join(" ");
    let mut metres_of_all = 0;
    for row in &papers.cable {
        let (drums, metres) = to_buy(&row["to buy"])?;
        if row["cable"] == "not chosen" {
            continue;
        }
        let own = || shelf.iter().filter(|((cable, _), _)| *cable == row["cable"]);
        let mut opened: BTreeMap<i64, usize> = BTreeMap::new();
        for (_, length) in own().filter(|((_, name), _)| name.starts_with("drum ")) {
            *opened.entry(*length).or_default() += 1;
        }
        let loose = own().find(|((_, name), _)| name == "by the metre").map_or(0, |one| *one.1);
        if drums != opened || metres != loose {
            return Err(format!("{row:?}: opened are {opened:?} and {loose} mm"));
        }
        let all = drums.iter().map(|(length, count)| length * i64::try_from(*count).unwrap());
        let all = all.sum::<i64>() + metres;
        if all != mm(&row["to buy m"])? {
            return Err(format!("{row:?}: not what it says in words"));
        }
        if !table.contains(&row["to buy"]) {
            return Err(format!("{row:?}: not on the order list: {table}"));
        }
        metres_of_all += all;
    }
    let quoted = papers.take_off.quote.lines.iter().filter(|line| line.group == LineGroup::Cable);
    let quoted: i64 = quoted
        .map(|line| match line.quantity {
            Quantity::Length(length) => length.get(),
            Quantity::Each(count) => {
                // `cable_2x2.5_flat_100`.
                let metres: f64 = line.code.rsplit('_').next().unwrap().parse().unwrap();
                Mm::from_f64(metres * 1000.0).unwrap().get() * i64::from(count)
            }
        })
        .sum();
    if quoted != metres_of_all {
        return Err(format!("quoted are {quoted} mm, to buy {metres_of_all} mm"));
    }
    Ok(())
}

/// A job by chance: short and long legs, drums or none, off-cuts with names that
/// come twice or not at all, legs that were measured, circuits without cable.
fn job(seed: u64) -> (Plan, Runs) {
    let mut chance = Chance::new(seed);
    let mut wired = Wired::new(Regime::IEC);
    let sizes = [1.0, 1.5, 2.5, 6.0];
    let mut any = |low: i64, high: i64| chance.between(low, high);
    for _ in 0..any(1, 4) {
        let size = sizes[usize::try_from(any(0, 3)).unwrap()];
        let circuit = wired.circuit(CircuitUse::Sockets, size, 16.0, Curve::C);
        let longest = if any(0, 9) == 0 { 60_000 } else { 18_000 };
        let legs: Vec<i64> = (0..any(1, 9)).map(|_| any(0, longest)).collect();
        wired.chain(circuit, PointKind::Socket, &legs);
        if any(0, 19) == 0 {
            wired.change(circuit).cable = None;
            let legs = &mut wired.runs.circuits[&circuit].legs;
            legs.iter_mut().for_each(|leg| leg.cable = None);
        }
    }
    let plan = &mut wired.plan;
    plan.allowances.waste_permille = [0, 50, 100, 125][usize::try_from(any(0, 3)).unwrap()];
    if any(0, 2) == 0 {
        plan.allowances.step = Mm::ZERO;
    }
    plan.stock.usable = Mm::new(any(0, 3000));
    for size in sizes {
        for length in [25_000, 50_000, 100_000] {
            if any(0, 2) == 0 {
                let price = (any(0, 4) > 0).then(|| Cents::new(any(1000, 20_000)));
                let drum = Drum { cable: cable(size), length: Mm::new(length), price };
                plan.stock.drums.push(drum);
            }
        }
    }
    for _ in 0..any(0, 8) {
        let label = ["", "red", "blue", "from the garage job", "no. 2"];
        let label = label[usize::try_from(any(0, 4)).unwrap()].to_owned();
        let size = sizes[usize::try_from(any(0, 3)).unwrap()];
        let length = Mm::new(any(500, 25_000));
        plan.stock.off_cuts.push(OffCut { cable: cable(size), length, label });
    }
    let item = PriceItem {
        code: "cable".to_owned(),
        name: "cable".to_owned(),
        unit: "m".to_owned(),
        price: Cents::new(120),
    };
    plan.prices.items.push(item);
    if any(0, 2) == 0 {
        for leg in wired.runs.circuits.values().flat_map(|run| &run.legs) {
            if any(0, 3) == 0 {
                let length = Mm::new(leg.route.length.get() + any(200, 4000));
                let (by, on) = (String::new(), String::new());
                let (circuit, from, to) = (leg.circuit, leg.from, leg.to);
                plan.measured.push(Measured { circuit, from, to, length, by, on });
            }
        }
    }
    (wired.plan, wired.runs)
}

#[test]
fn a_thousand_jobs_cut_in_the_order_of_the_cards_are_never_short() {
    let (mut cut, mut off_cuts, mut loose, mut drums) = (0, 0, 0, BTreeSet::new());
    for seed in 0..1000 {
        let (plan, runs) = job(seed);
        let papers = Papers::of(&plan, &runs);
        cut += judge(&plan, &papers).unwrap_or_else(|what| panic!("seed {seed}: {what}"));
        for ((_, name), _) in shelf(&papers.order).unwrap() {
            off_cuts += usize::from(name.starts_with("off-cut "));
            loose += usize::from(name == "by the metre");
            drums.insert(name);
        }
    }
    assert!(cut > 8000, "only {cut} cuts");
    assert!(off_cuts > 500 && loose > 200, "{off_cuts} off-cuts, {loose} by the metre");
    assert!(drums.contains("drum A") && drums.contains("drum D"), "{drums:?}");
}

fn routed(name: &str) -> (Plan, Runs) {
    let plan = house(name);
    let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
    (plan, runs)
}

#[test]
fn the_houses_cut_in_the_order_of_the_cards_are_never_short() {
    for name in ["cottage", "flat", "terrace", "townhouse", "half_drawn"] {
        let (plan, runs) = routed(name);
        let papers = Papers::of(&plan, &runs);
        judge(&plan, &papers).unwrap_or_else(|what| panic!("{name}: {what}"));
    }
}

/// The cottage without drums: all is bought by the metre, with waste.
#[test]
fn what_no_drum_holds_is_bought_by_the_metre_with_waste_and_said() {
    let (mut plan, runs) = routed("cottage");
    plan.stock.drums.clear();
    plan.stock.off_cuts.clear();
    let papers = Papers::of(&plan, &runs);
    judge(&plan, &papers).unwrap();
    for row in &papers.cable {
        let (cut, waste) = (mm(&row["cut m"]).unwrap(), mm(&row["waste bought m"]).unwrap());
        let permille = i64::from(plan.allowances.waste_permille);
        assert_eq!(waste, (cut * permille + 999).div_euclid(1000), "{row:?}");
        assert_eq!(mm(&row["to buy m"]).unwrap(), cut + waste, "{row:?}");
    }
    let all = papers.order.join(" ");
    assert!(all.contains("for waste, in one length"), "the order list says so");
    assert!(papers.cards.iter().all(|card| card.contains("by the metre, ")), "and the cards");
}

/// Rows out of order, a source that nobody bought, a drum a millimetre short,
/// cards in another order: the judge is not silent about any.
#[test]
fn the_judge_is_loud() {
    let (plan, runs) = routed("cottage");
    let mut papers = Papers::of(&plan, &runs);
    let shelf = shelf(&papers.order).unwrap();
    let rows = &papers.cuts;
    assert!(cut_by(rows, &shelf).is_ok(), "as planned");
    let reversed: Vec<_> = rows.iter().rev().cloned().collect();
    assert!(cut_by(&reversed, &shelf).is_err(), "from the last cut on");
    let mut elsewhere = rows.clone();
    elsewhere[0].insert("source".to_owned(), "drum Z".to_owned());
    assert!(cut_by(&elsewhere, &shelf).is_err(), "off a drum that is not there");
    let mut twice = rows.clone();
    twice.insert(1, rows[0].clone());
    assert!(cut_by(&twice, &shelf).is_err(), "a leg cut twice");
    let full = rows.iter().find(|row| {
        shelf[&(row["cable"].clone(), row["source"].clone())] == mm(&row["to mark m"]).unwrap()
    });
    let full = full.expect("a source that is used up");
    let mut short = shelf.clone();
    *short.get_mut(&(full["cable"].clone(), full["source"].clone())).unwrap() -= 1;
    assert!(cut_by(rows, &short).is_err(), "a millimetre short");
    papers.cards.reverse();
    assert!(judge(&plan, &papers).is_err(), "cards in another order");
}

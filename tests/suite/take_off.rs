//! Take-offs that reconcile: metres to the millimetre, money to the cent,
//! counts to the points of the plan.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use wirewend::lengths::{self, Lengths};
use wirewend::plan::*;
use wirewend::runs::{self, Runs, chain::Effort};
use wirewend::space::Space;
use wirewend::takeoff::{
    Cut, CutPlan, ItemGroup, LineGroup, Origin, Part, Quantity, Revision, SourceKind, TakeOff,
    compare, cuts_left, take_off,
};
use wirewend::units::{Cents, Mm};

use crate::fixtures::house;
use crate::fixtures::shipped_rules;
use crate::generate::generated_plan;

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

/// The books of an invented house, some holes in them.
fn with_books(mut plan: Plan, seed: u64) -> Plan {
    let books = house("cottage");
    plan.stock = books.stock;
    plan.prices = books.prices;
    if seed.is_multiple_of(3) {
        plan.prices.items.remove(usize::try_from(seed % 7).unwrap());
    }
    if seed.is_multiple_of(4) {
        plan.stock.drums[0].price = None;
    }
    if seed.is_multiple_of(5) {
        plan.stock.drums.iter_mut().for_each(|drum| drum.length = Mm::new(9000));
    }
    plan.prices.labour.lived_in = seed.is_multiple_of(2);
    plan
}

fn legs(taken: &Taken) -> BTreeMap<(CircuitId, u32), (Cable, Mm)> {
    let mut legs = BTreeMap::new();
    for (id, run) in &taken.runs.circuits {
        for (leg, length) in run.legs.iter().zip(&taken.lengths.circuits[id]) {
            if let Some(cable) = leg.cable {
                legs.insert((*id, leg.number), (cable, length.cut_or_measured()));
            }
        }
    }
    legs
}

/// Order metres = cuts + scrap + left-over; every leg is cut once, whole.
fn metres_reconcile(taken: &Taken, cuts: &[CutPlan], name: &str) {
    let mut legs = legs(taken);
    for plan in cuts {
        let (mut out, mut bought) = (Mm::ZERO, Mm::ZERO);
        let mut off_cuts = Vec::new();
        for source in &plan.sources {
            out += source.length;
            match &source.what {
                SourceKind::Drum { index, .. } => {
                    assert_eq!(taken.plan.stock.drums[*index].length, source.length, "{name}");
                    bought += source.length;
                }
                SourceKind::OffCut { index, .. } => {
                    assert_eq!(taken.plan.stock.off_cuts[*index].length, source.length, "{name}");
                    assert!(!off_cuts.contains(index), "{name}: an off-cut is there once");
                    off_cuts.push(*index);
                }
            }
            let mut at = Mm::ZERO;
            for cut in &source.cuts {
                assert_eq!((cut.from, cut.at), (at, at + cut.piece.length), "{name}: marks run on");
                at = cut.at;
                let leg = legs.remove(&(cut.piece.circuit, cut.piece.leg));
                assert_eq!(leg, Some((plan.cable, cut.piece.length)), "{name}: a leg, whole, once");
            }
            // What was measured was cut before; then the longest first.
            let key = |cut: &Cut| (!cut.piece.done, Reverse(cut.piece.length));
            let falls = source.cuts.windows(2).all(|it| key(&it[0]) <= key(&it[1]));
            assert!(falls, "{name}: what was measured, then the longest first");
            assert_eq!(source.left, source.length - at, "{name}: what is left");
            assert!(source.left >= Mm::ZERO, "{name}: cut from nothing");
            let keep = source.left > Mm::ZERO && source.left >= taken.plan.stock.usable;
            assert_eq!(source.keep, keep, "{name}: worth keeping");
        }
        let used = plan.cut.value + plan.scrap.value + plan.left_over.value;
        assert_eq!((used, plan.bought.value), (out, bought), "{name}: {} to the mm", plan.cable);
        assert_eq!(plan.scrap.value.get(), plan.goals.scrap.value, "{name}: scrap as a goal");
        for piece in &plan.uncut {
            let leg = legs.remove(&(piece.circuit, piece.leg));
            assert_eq!(leg, Some((plan.cable, piece.length)), "{name}: told as not cut");
        }
    }
    assert!(legs.is_empty(), "{name}: forgotten {legs:?}");
}

fn half_up(numerator: i128, denominator: i128) -> i64 {
    let (whole, rest) = (numerator.div_euclid(denominator), numerator.rem_euclid(denominator));
    i64::try_from(whole + i128::from(2 * rest >= denominator)).unwrap()
}

/// The quote is the sum of its lines; nothing without a price has an amount.
fn money_reconciles(taken: &Taken, name: &str) {
    let quote = &taken.it.quote;
    let mut net = 0;
    for line in &quote.lines {
        let Some(amount) = line.amount else {
            assert_eq!(line.price, None, "{name}: {} has a price", line.name);
            continue;
        };
        let price = i128::from(line.price.expect("an amount has a price").get());
        let expect = match (line.minutes, line.quantity) {
            (Some(minutes), _) => half_up(price * i128::from(minutes), 60),
            (None, Quantity::Each(count)) => half_up(price * i128::from(count), 1),
            (None, Quantity::Length(length)) => half_up(price * i128::from(length.get()), 1000),
        };
        assert_eq!(amount, Cents::new(expect), "{name}: {}", line.name);
        net += expect;
    }
    let share = |of: i64, permille: u16| half_up(i128::from(of) * i128::from(permille), 1000);
    let margin = share(net, taken.plan.prices.margin_permille);
    let tax = share(net + margin, taken.plan.prices.tax_permille);
    let unpriced = quote.lines.iter().filter(|line| line.amount.is_none()).count();
    let told = taken.it.findings.iter().filter(|finding| finding.code == "no-price").count();
    assert_eq!(unpriced, told, "{name}: a missing price is a finding");
    let Some(sums) = quote.total.priced() else {
        assert_eq!(unpriced, quote.lines.len(), "{name}: nothing is priced");
        return;
    };
    let figures = [&sums.net, &sums.margin, &sums.tax, &sums.sum].map(|it| it.value.get());
    assert_eq!(figures, [net, margin, tax, net + margin + tax], "{name}: to the cent");
    let client = quote.for_client();
    let parts = client.total.priced().unwrap();
    let parts = [parts.materials, parts.work, parts.tax].map(Cents::get);
    assert_eq!(parts.iter().sum::<i64>(), sums.sum.value.get(), "{name}: the client's parts");
    assert_eq!(client.total.lacks(), quote.total.lacks(), "{name}: told the client too");
    whole_or_not(taken, unpriced, name);
}

/// There is a total where nothing is missing: every line has its price, every
/// point its cable, every leg a type, every circuit in use a device.
fn whole_or_not(taken: &Taken, unpriced: usize, name: &str) {
    let legs: Vec<&runs::Leg> = taken.runs.circuits.values().flat_map(|run| &run.legs).collect();
    let reached = |id: PointId| legs.iter().any(|leg| [leg.from, leg.to].contains(&End::Point(id)));
    let points = taken.plan.points.keys().filter(|id| !reached(**id)).count();
    let untyped = legs.iter().filter(|leg| leg.cable.is_none()).count();
    let in_use = |id: CircuitId| taken.plan.points.values().any(|it| it.circuit == Some(id));
    let circuits = taken.plan.circuits.iter();
    let bare = circuits.filter(|(id, it)| it.device.is_none() && in_use(**id)).count();
    let missing = [unpriced, untyped, points, bare];
    let quote = &taken.it.quote;
    let is_whole = missing == [0; 4];
    assert_eq!(quote.to_pay().is_some(), is_whole, "{name}: a total or not, {missing:?}");
    let told = quote.total.lacks().map(|it| [it.lines, it.legs, it.points, it.circuits]);
    assert_eq!(told, (!is_whole).then_some(missing), "{name}: what is missing");
}

fn total(parts: &[Part]) -> (u32, Mm) {
    let each = parts.iter().map(|part| part.quantity.each()).sum();
    (each, parts.iter().map(|part| part.quantity.length()).sum())
}

/// Counts are those of the plan, and every count is that of its parts.
fn counts_reconcile(taken: &Taken, name: &str) {
    for item in &taken.it.materials {
        let sum = (item.quantity.each(), item.quantity.length());
        assert_eq!(total(&item.parts), sum, "{name}: {}", item.code);
    }
    for task in &taken.it.labour {
        let sum = (task.quantity.each(), task.quantity.length());
        assert_eq!(total(&task.parts), sum, "{name}: {}", task.code);
    }
    let task = |code: &str| taken.it.labour.iter().find(|task| task.code == code);
    let points: Vec<Origin> = taken.plan.points.keys().map(|id| Origin::Point(*id)).collect();
    for code in ["point_first_fix", "test_point"] {
        let of: Vec<Origin> =
            task(code).map_or_else(Vec::new, |task| task.parts.iter().map(|it| it.of).collect());
        assert_eq!(of, points, "{name}: {code} is every point once");
    }
    let sockets = taken.plan.points.values().filter(|it| it.kind == PointKind::Socket).count();
    let counted: u32 = taken
        .it
        .materials
        .iter()
        .filter(|item| item.group == ItemGroup::Accessories && item.code.starts_with("socket"))
        .map(|item| item.quantity.each())
        .sum();
    assert_eq!(usize::try_from(counted).unwrap(), sockets, "{name}: sockets");
    let legs = || taken.runs.circuits.values().flat_map(|run| &run.legs);
    let labels = taken.it.materials.iter().find(|item| item.code == "label_cable");
    let labels = labels.map_or(0, |item| item.quantity.each());
    assert_eq!(usize::try_from(labels).unwrap(), 2 * legs().count(), "{name}: both ends");
    let pulled = task("pull").map_or(Mm::ZERO, |task| task.quantity.length());
    let routed: Mm = legs().map(|leg| leg.route.length).sum();
    assert_eq!(pulled, routed, "{name}: every stretch is pulled");
    for group in [ItemGroup::Boxes, ItemGroup::Plates] {
        let boxes = taken.it.materials.iter().filter(|item| item.group == group);
        let mut of: Vec<Origin> = boxes.flat_map(|item| &item.parts).map(|part| part.of).collect();
        let count = of.len();
        of.sort_unstable();
        of.dedup();
        assert_eq!(of.len(), count, "{name}: no point has two {}", group.name());
    }
}

#[test]
fn take_offs_of_generated_plans_reconcile() {
    let (mut long, mut unpriced) = (0, 0);
    for seed in 0..60 {
        let taken = taken(with_books(generated_plan(seed), seed));
        let name = format!("seed {seed}");
        metres_reconcile(&taken, &taken.it.cuts, &name);
        money_reconciles(&taken, &name);
        counts_reconcile(&taken, &name);
        long += taken.it.findings.iter().filter(|it| it.code == "leg-too-long").count();
        unpriced += taken.it.findings.iter().filter(|it| it.code == "no-price").count();
    }
    assert!(long > 10 && unpriced > 20, "{long} too long, {unpriced} without a price");
}

#[test]
fn houses_are_priced_in_full_and_cut_as_well_as_can_be() {
    for name in ["cottage", "flat", "terrace", "townhouse"] {
        let taken = taken(house(name));
        metres_reconcile(&taken, &taken.it.cuts, name);
        money_reconciles(&taken, name);
        counts_reconcile(&taken, name);
        let unpriced: Vec<&Finding> =
            taken.it.findings.iter().filter(|it| it.code == "no-price").collect();
        assert!(taken.it.quote.to_pay().is_some(), "{name}: {unpriced:?}");
        let work = taken.it.quote.lines.iter().filter(|line| line.group == LineGroup::Labour);
        for line in work {
            let own = line.code.starts_with("chase");
            assert_eq!(
                line.minutes.is_none(),
                own,
                "{name}: only chases have a price of their own"
            );
        }
        for cuts in taken.it.cuts.iter().filter(|cuts| cuts.uncut.is_empty()) {
            assert!(cuts.proven, "{name}, {}: {:?}", cuts.cable, cuts.goals);
        }
    }
}

#[test]
fn a_leg_longer_than_every_drum_is_a_finding_and_is_not_joined() {
    let mut plan = house("flat");
    plan.stock.off_cuts.clear();
    plan.stock.drums.iter_mut().for_each(|drum| drum.length = Mm::new(6000));
    let taken = taken(plan);
    let long: Vec<_> = legs(&taken).into_iter().filter(|(_, leg)| leg.1 > Mm::new(6000)).collect();
    let told = taken.it.findings.iter().filter(|it| it.code == "leg-too-long");
    assert_eq!(told.clone().count(), long.len(), "one for each");
    assert!(!long.is_empty(), "the flat has legs of more than 6 m");
    assert!(
        told.clone().all(|it| it.severity == Severity::Fault && it.limit == "6000 mm"),
        "a fault"
    );
    metres_reconcile(&taken, &taken.it.cuts, "short drums");
}

#[test]
fn a_measured_leg_is_cut_already_and_counts_as_measured() {
    let mut plan = house("flat");
    let before = taken(plan.clone());
    let (circuit, run) = before.runs.circuits.first().unwrap();
    let leg = &run.legs[0];
    let length = Mm::new(7777);
    plan.measured = vec![Measured {
        circuit: *circuit,
        from: leg.to,
        to: leg.from,
        length,
        by: String::new(),
        on: String::new(),
    }];
    let after = taken(plan);
    metres_reconcile(&after, &after.it.cuts, "measured");
    let done = |cuts: &[CutPlan]| {
        let cut = cuts.iter().flat_map(|cuts| &cuts.sources).flat_map(|source| source.cuts.clone());
        cut.filter(|cut| cut.piece.done).map(|cut| cut.piece.length).collect::<Vec<Mm>>()
    };
    assert_eq!(done(&after.it.cuts), [length], "in the whole plan, as it was measured");
    fn revision(of: &Taken) -> Revision<'_> {
        Revision { plan: &of.plan, runs: &of.runs, lengths: &of.lengths, take_off: &of.it }
    }
    let built = compare(revision(&before), revision(&after)).built;
    let planned = before.lengths.circuits[0][0].cut.value;
    let told: Vec<_> = built.iter().map(|leg| (leg.planned, leg.measured)).collect();
    assert_eq!(told, [(planned, length)], "planned against as built");
    let (left, _) = cuts_left(&after.plan, &after.runs, &after.lengths);
    let count = |cuts: &[CutPlan]| {
        cuts.iter().flat_map(|it| &it.sources).map(|it| it.cuts.len()).sum::<usize>()
    };
    assert_eq!(count(&left) + 1, count(&after.it.cuts), "all but that one are left to cut");
    assert_eq!(done(&left), [], "and it is not among them");
}

#[test]
fn living_in_the_house_and_own_minutes_change_the_work_and_the_price() {
    let plain = taken(house("townhouse"));
    let mut plan = house("townhouse");
    plan.prices.labour.lived_in = true;
    plan.prices.labour.minutes = vec![TaskMinutes { code: "way".to_owned(), minutes: 30 }];
    let lived_in = taken(plan);
    let minutes = |of: &Taken, code: &str| {
        of.it.labour.iter().find(|task| task.code == code).unwrap().minutes.value
    };
    assert_eq!(minutes(&plain, "way"), 8 * 15, "eight circuits");
    assert_eq!(minutes(&lived_in, "way"), 276, "8 × 30 × 1.15");
    assert_eq!(minutes(&lived_in, "fit_board"), 138, "120 × 1.15");
    assert!(lived_in.it.quote.to_pay() > plain.it.quote.to_pay(), "it costs more");
}

#[test]
fn a_comparison_says_what_changed_and_nothing_else() {
    let old = taken(house("terrace"));
    fn revision(of: &Taken) -> Revision<'_> {
        Revision { plan: &of.plan, runs: &of.runs, lengths: &of.lengths, take_off: &of.it }
    }
    let same = compare(revision(&old), revision(&old));
    assert!(same.is_nothing(), "the same plan: {same:?}");

    let mut plan = house("terrace");
    let socket = plan.points.iter().find(|(_, it)| it.kind == PointKind::Socket && it.gangs == 2);
    let id = *socket.unwrap().0;
    let circuit = plan.points[&id].circuit.unwrap();
    plan.points.shift_remove(&id);
    plan.circuits[&circuit].order.retain(|point| *point != id);
    plan.circuits[&circuit].spurs.retain(|spur| spur.point != id && spur.from != End::Point(id));
    plan.circuits[&circuit].pins.clear();
    let new = taken(plan);
    let change = compare(revision(&old), revision(&new));
    let gone = change.things.iter().find(|it| it.subject == Some(Subject::Point(id))).unwrap();
    assert!(gone.what[0].starts_with("removed: double socket-outlet"), "{gone:?}");
    let went: u32 = change.rooms.iter().map(|it| it.removed).sum();
    assert_eq!(went, 1, "one went: {:?}", change.rooms);
    let socket = change.materials.iter().find(|it| it.code == "socket_2").unwrap();
    let (was, is) = (socket.quantity.old.each(), socket.quantity.new.each());
    assert_eq!(was, is + 1, "one double socket less");
    let metres = |of: &Taken| of.lengths.cables.iter().map(|cable| cable.cut).sum::<Mm>();
    let told: Mm = change.cables.iter().map(|it| it.cut.by()).sum();
    assert_eq!(told, metres(&new) - metres(&old), "metres by cable add up to all that changed");
    let by_circuit: Mm = change.circuits.iter().map(|it| it.cut.by()).sum();
    assert_eq!(by_circuit, told, "and so do those by circuit");
    let less = change.bill.more_to_pay().unwrap();
    assert!(less < Cents::ZERO, "a point less is cheaper");
}

fn count_of(taken: &Taken, code: &str) -> u32 {
    let items = taken.it.materials.iter().filter(|item| item.code == code);
    items.map(|item| item.quantity.each()).sum()
}

/// Glands at weatherproof boxes, one for every cable; an electrode where the
/// supply leaves earthing to the house.
#[test]
fn glands_and_earth_parts_are_counted_where_they_belong() {
    let cottage = taken(house("cottage"));
    let wet = |id: &PointId| {
        let point = &cottage.plan.points[id];
        point.kind == PointKind::WeatherproofSocket
            || match point.place {
                Some(Place::Wall(on)) => cottage.plan.walls[&on.wall].wet == Some(on.face),
                Some(Place::Post(_)) => true,
                _ => false,
            }
    };
    let legs = cottage.runs.circuits.values().flat_map(|run| &run.legs);
    let ends = legs.flat_map(|leg| [leg.from, leg.to]);
    let ends = ends.filter(|end| matches!(end, End::Point(id) if wet(id)));
    let glands = count_of(&cottage, "gland");
    assert_eq!(usize::try_from(glands).unwrap(), ends.count(), "one a cable");
    assert!(glands > 2, "the cottage has boxes outdoors");
    assert_eq!(count_of(&cottage, "earth_rod"), 1, "MEN: a rod");
    let mut plan = house("cottage");
    plan.boards.values_mut().for_each(|board| board.supply.earthing = Some(Earthing::TnS));
    for circuit in plan.circuits.values_mut().filter(|circuit| circuit.number == 11) {
        circuit.cable = circuit.cable.map(|cable| Cable { make: CableMake::Armoured, ..cable });
    }
    let armoured = taken(plan);
    assert_eq!(count_of(&armoured, "earth_rod"), 0, "TN-S: none");
    assert_eq!(count_of(&armoured, "bonding_clamp"), 2, "all the same");
    let run = armoured.runs.circuits.values().find(|run| {
        run.legs.iter().any(|leg| leg.cable.is_some_and(|it| it.make == CableMake::Armoured))
    });
    let own = u32::try_from(run.unwrap().legs.len()).unwrap();
    assert_eq!(count_of(&armoured, "gland_armoured"), 2 * own, "both ends of every leg");
}

/// Two single plates side by side take one box of two gangs; moved apart, two
/// boxes.
#[test]
fn plates_side_by_side_share_a_box() {
    let boxes = |apart: i64| {
        let mut plan = house("cottage");
        let socket = plan.points.iter().find(|(_, it)| {
            it.kind == PointKind::Socket && matches!(it.place, Some(Place::Wall(_)))
        });
        let (first, mut beside) = (*socket.unwrap().0, socket.unwrap().1.clone());
        let Some(Place::Wall(on)) = &mut beside.place else { panic!("on a wall") };
        on.along += Mm::new(apart);
        beside.gangs = 1;
        plan.points[&first].gangs = 1;
        let id = PointId(plan.next_id);
        plan.next_id += 1;
        plan.points.insert(id, beside);
        let taken = taken(plan);
        let boxes = taken.it.materials.iter().filter(|item| item.group == ItemGroup::Boxes);
        let own = boxes.flat_map(|item| item.parts.iter().map(move |part| (part, &item.code)));
        let of = [first, id].map(Origin::Point);
        let own = own.filter(|(part, _)| of.contains(&part.of));
        own.map(|(_, code)| code.clone()).collect::<Vec<String>>()
    };
    let (near, far) = (boxes(80), boxes(300));
    assert_eq!(near.len(), 1, "{near:?}");
    assert!(near[0].starts_with("box_hollow_2_") || near[0].starts_with("box_masonry_2_"));
    assert_eq!(far.len(), 2, "{far:?}");
}

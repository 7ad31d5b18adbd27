//! The quote as a page: its words, its sums, and nothing that fetches. What it
//! does in a browser is checked by `tests/window/quote.py`.

use std::collections::BTreeSet;

use wirewend::lengths;
use wirewend::plan::{Plan, PointId};
use wirewend::runs::{self, chain::Effort};
use wirewend::sheet::{Floors, House, quote_page};
use wirewend::space::Space;
use wirewend::takeoff::{CHOICES_MAX, Choices, Quote, choices, take_off, without_points};

use crate::fixtures::house;
use crate::fixtures::{local, shipped_rules};

fn quote_of(plan: &Plan) -> Quote {
    let runs = runs::route(plan, &Space::of(plan), &Effort::default());
    take_off(plan, &runs, &lengths::measure(plan, &runs), shipped_rules()).quote
}

fn page(plan: &Plan) -> (String, Choices) {
    let runs = runs::route(plan, &Space::of(plan), &Effort::default());
    let lengths = lengths::measure(plan, &runs);
    let take_off = take_off(plan, &runs, &lengths, shipped_rules());
    let choices = choices(plan, &take_off, shipped_rules());
    let (house, mut floors) = (
        House::new(plan, &runs, &lengths, local(plan)),
        Floors::of(plan, &runs, &lengths, local(plan)),
    );
    let page = quote_page(&house, &mut floors, &take_off.materials, &choices.for_client());
    (page, choices)
}

/// The terrace with some points optional.
fn with_optional(count: usize) -> Plan {
    let mut plan = house("terrace");
    for point in plan.points.values_mut().rev().take(count) {
        point.optional = true;
    }
    plan
}

#[test]
fn every_combination_is_the_quote_of_that_house() {
    let plan = with_optional(3);
    let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
    let whole = take_off(&plan, &runs, &lengths::measure(&plan, &runs), shipped_rules());
    let choices = choices(&plan, &whole, shipped_rules());
    assert_eq!(choices.quotes.len(), 1 << choices.items.len(), "every combination");
    let all: BTreeSet<PointId> =
        plan.points.iter().filter(|(_, one)| one.optional).map(|(id, _)| *id).collect();
    let named: BTreeSet<PointId> =
        choices.items.iter().flat_map(|item| item.points.clone()).collect();
    assert_eq!(named, all, "each optional point in one item");
    for (item, choice) in choices.items.iter().enumerate() {
        let out = choice.points.iter().copied().collect();
        assert_eq!(choices.without(item), Some(&quote_of(&without_points(&plan, &out))), "{item}");
    }
    let none = without_points(&plan, &all);
    assert!(none.check_references().is_empty(), "nothing names what is out");
    assert_eq!(choices.without_all(), Some(&quote_of(&none)), "without all");
    assert_eq!(choices.with_all(), Some(&whole.quote), "with all");
    assert!(whole.quote.to_pay() > quote_of(&none).to_pay(), "it saves");
}

#[test]
fn many_optional_points_come_in_few_items() {
    let plan = with_optional(30);
    let whole = wirewend::takeoff::TakeOff::default();
    let choices = choices(&plan, &whole, shipped_rules());
    assert!(choices.items.len() <= CHOICES_MAX, "{:?}", choices.items);
    let points: usize = choices.items.iter().map(|item| item.points.len()).sum();
    assert_eq!(points, 30, "none is lost");
}

#[test]
fn names_stay_words_and_nothing_is_fetched() {
    let hostile = "</script><script>alert(1)</script> & \"x\" 'y' <img src=//x>";
    let mut plan = with_optional(2);
    plan.project.title = hostile.to_owned();
    plan.project.client = hostile.to_owned();
    plan.prices.currency = hostile.to_owned();
    plan.rooms.values_mut().for_each(|room| room.name = hostile.to_owned());
    plan.levels.values_mut().for_each(|level| level.name = hostile.to_owned());
    plan.circuits.values_mut().for_each(|circuit| circuit.name = hostile.to_owned());
    for (number, point) in plan.points.values_mut().enumerate() {
        point.label = format!("{number}{hostile}");
        point.note = hostile.to_owned();
    }
    let (page, _) = page(&plan);
    assert_eq!(page.matches("<script").count(), 1, "only our own");
    assert_eq!(page.matches("</script>").count(), 1, "only our own");
    assert!(!page.contains("<img"), "no element out of a name");
    assert!(page.contains("&lt;img src=//x&gt;"), "the name itself is there");
    for fetch in ["src=", "url(", "@import", "http://", "https://", "<link", "fetch("] {
        let ours = page.replace("http://www.w3.org/2000/svg", "").replace("src=//x", "");
        assert!(!ours.contains(fetch), "{fetch}");
    }
    assert!(page.contains("default-src 'none'"), "and the browser would refuse it");
}

#[test]
fn the_page_has_every_point_the_total_and_what_to_heed() {
    for name in ["cottage", "flat", "terrace", "townhouse"] {
        let plan = house(name);
        let (page, choices) = page(&plan);
        for id in plan.points.keys() {
            assert_eq!(page.matches(&format!("id=\"point-{id}\"")).count(), 1, "{name}: {id}");
        }
        let placed = plan.points.values().filter(|point| point.place.is_some()).count();
        assert_eq!(page.matches("class=\"hit\"").count(), placed, "{name}: each can be tapped");
        for id in plan.circuits.keys() {
            assert!(page.contains(&format!("data-circuit=\"{id}\"")), "{name}: {id}");
            assert!(page.contains(&format!("data-subject=\"leg {id} ")), "{name}: {id} is drawn");
        }
        let quote = choices.with_all().unwrap();
        let total = quote.to_pay().unwrap().get();
        let total = format!("{}.{:02}", total.div_euclid(100), total.rem_euclid(100));
        assert!(page.contains(&format!("<td data-sum=\"3\">{total}</td>")), "{name}: {total}");
        let heading =
            format!("To pay, all in:</span> <strong data-says=\"pay\">{}", quote.currency);
        assert!(page.contains(&format!("{heading} {total}</strong>")), "{name}: over the page");
        for words in ["not a certificate", "prices on this page are invented", "asbestos"] {
            assert!(page.contains(words), "{name}: {words}");
        }
    }
}

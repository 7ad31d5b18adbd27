//! Edits: each can be undone, a refused one changes nothing, and a plan that
//! was built by edits holds together.

#![expect(clippy::unwrap_used, reason = "a test fails by panicking, in its helpers too")]

use proptest::prelude::*;
use proptest::sample::Index;
use serde_json::Value;
use wirewend::plan::*;
use wirewend::units::{Mm, Point2};

use crate::sample;

/// All that a plan holds, in the order of drawing, but not the counter of ids:
/// maps compare equal in any order, and undoing leaves the counter alone.
fn drawn(plan: &Plan) -> String {
    serde_json::to_string(&Plan { next_id: 0, ..plan.clone() }).unwrap()
}

/// An edit that may or may not be allowed, aimed at the sample plan.
fn any_edit() -> impl Strategy<Value = Edit> {
    let single = (0..14_usize, any::<Index>(), any::<Index>(), 0..60_u32)
        .prop_map(|(what, which, other, number)| single_edit(what, &which, &other, number));
    let edits = prop_oneof![4 => single.clone(), 1 => Just(Edit::Stock(Stock::default()))];
    edits.prop_recursive(2, 12, 5, |inner| prop::collection::vec(inner, 0..5).prop_map(Edit::Many))
}

fn key<Id: Copy, Thing>(map: &indexmap::IndexMap<Id, Thing>, which: &Index) -> Id {
    *map.get_index(which.index(map.len())).unwrap().0
}

fn single_edit(what: usize, which: &Index, other: &Index, number: u32) -> Edit {
    let plan = sample::plan();
    let wall = || plan.walls[&key(&plan.walls, other)].clone();
    let point = || plan.points[&key(&plan.points, other)].clone();
    let circuit = || plan.circuits[&key(&plan.circuits, other)].clone();
    match what {
        0 => Change::Remove(key(&plan.walls, which)).into(),
        1 => Change::Remove(key(&plan.points, which)).into(),
        2 => Change::Remove(key(&plan.circuits, which)).into(),
        3 => Change::Remove(key(&plan.controls, which)).into(),
        4 => Change::Remove(key(&plan.openings, which)).into(),
        5 => Change::Remove(key(&plan.risers, which)).into(),
        6 => Change::Remove(key(&plan.areas, which)).into(),
        7 => Change::Put(WallId(number), wall()).into(),
        8 => Change::Put(PointId(number), point()).into(),
        9 => Change::Put(CircuitId(number), circuit()).into(),
        10 => Change::PutAt(which.index(9), WallId(number), wall()).into(),
        11 => Change::PutAt(which.index(9), key(&plan.points, other), point()).into(),
        12 => Change::Put(
            PointId(number),
            Point { circuit: Some(CircuitId(number)), place: None, ..point() },
        )
        .into(),
        13 if number < 30 => Edit::Measured(Vec::new()),
        _ => Edit::Readings(Vec::new()),
    }
}

proptest! {
    #[test]
    fn an_edit_and_its_inverse_leave_the_plan_as_it_was(
        edits in prop::collection::vec(any_edit(), 1..8)
    ) {
        let mut plan = sample::plan();
        for edit in edits {
            let before = plan.clone();
            match plan.apply(edit) {
                Err(_) => {
                    prop_assert_eq!(&plan, &before, "a refused edit");
                    prop_assert_eq!(drawn(&plan), drawn(&before), "a refused edit, the order");
                }
                Ok(inverse) => {
                    let after = plan.clone();
                    prop_assert!(plan.check_references().is_empty(), "it must hold together");
                    prop_assert!(plan.next_id >= before.next_id, "the counter never goes back");
                    let again = plan.apply(inverse).unwrap();
                    prop_assert_eq!(drawn(&plan), drawn(&before), "undone");
                    prop_assert_eq!(plan.next_id, after.next_id, "ids stay used");
                    plan.apply(again).unwrap();
                    prop_assert_eq!(drawn(&plan), drawn(&after), "done again");
                }
            }
        }
    }

    #[test]
    fn a_history_walks_all_the_way_back_and_forth(
        edits in prop::collection::vec(any_edit(), 1..12),
    ) {
        let (mut plan, mut history) = (sample::plan(), History::default());
        let mut states = vec![drawn(&plan)];
        for edit in edits {
            if history.apply(&mut plan, edit).is_ok() {
                states.push(drawn(&plan));
            }
        }
        for state in states.iter().rev().skip(1) {
            prop_assert!(history.undo(&mut plan).unwrap(), "one to undo");
            prop_assert_eq!(&drawn(&plan), state, "undone");
        }
        prop_assert!(!history.undo(&mut plan).unwrap(), "nothing before the first");
        for state in states.iter().skip(1) {
            prop_assert!(history.redo(&mut plan).unwrap(), "one to do again");
            prop_assert_eq!(&drawn(&plan), state, "done again");
        }
        prop_assert!(!history.can_redo(), "nothing after the last");
    }

    #[test]
    fn the_difference_of_two_plans_makes_one_into_the_other(
        edits in prop::collection::vec(any_edit(), 1..12),
    ) {
        let (from, mut to) = (sample::plan(), sample::plan());
        for edit in edits {
            let _ = to.apply(edit);
        }
        let mut made = from.clone();
        let back = made.apply(from.difference(&to)).unwrap();
        to.next_id = made.next_id;
        prop_assert_eq!(&made, &to);
        prop_assert_eq!(made.difference(&to), Edit::Many(Vec::new()), "nothing is left");
        made.apply(back).unwrap();
        prop_assert_eq!(drawn(&made), drawn(&from), "undone, the order too");
    }

    #[test]
    fn edits_can_be_stored(edit in any_edit()) {
        let text = serde_json::to_string(&edit).unwrap();
        prop_assert_eq!(serde_json::from_str::<Edit>(&text).unwrap(), edit, "{}", text);
    }
}

/// The sample refuses an edit with this message, and stays as it was.
fn refuses(edit: impl Into<Edit>, expect: &str) {
    let mut plan = sample::plan();
    let error = plan.apply(edit.into()).unwrap_err();
    assert_eq!(error.to_string(), expect, "the message");
    assert_eq!(drawn(&plan), drawn(&sample::plan()), "the plan after: {expect}");
    assert_eq!(plan.next_id, sample::plan().next_id, "the counter after: {expect}");
}

#[test]
fn refusals_say_which_by_which() {
    refuses(Change::Remove(WallId(7)), "wall W7 cannot go: board B20 is on it");
    refuses(
        Change::<LevelId, Level>::Remove(LevelId(1)),
        "level L1 cannot go: the plan has a picture beneath it",
    );
    refuses(Change::Remove(VoidId(2)), "void V2 cannot go: level L1 lies under it");
    refuses(Change::Remove(CircuitId(22)), "circuit C22 cannot go: point P33 is fed by it");
    refuses(Change::Remove(BoardId(20)), "board B20 cannot go: circuit C21 comes from it");
    refuses(Change::Remove(PointId(33)), "point P33 cannot go: control S40 works it");
    refuses(Change::Remove(WallId(99)), "wall W99 cannot go: the plan does not have it");
    let control = Control { lights: vec![PointId(98)], switches: vec![], in_order: false };
    refuses(
        Change::Put(ControlId(50), control),
        "control S50 works point P98, which the plan does not have",
    );
    let far = Wall {
        a: Point2 { x: Mm::COORDINATE_MAX + Mm::new(1), y: Mm::ZERO },
        ..sample::plan().walls[&WallId(4)].clone()
    };
    refuses(
        Change::Put(WallId(50), far),
        "walls.W50.a: found 10000001 mm, expected from -10000000 to 10000000 mm",
    );
    let two_lines = Project { notes: "one\ntwo".to_owned(), ..Project::default() };
    refuses(
        Edit::Project(two_lines.into()),
        "project.notes: found the character '\\n', expected a text without control characters",
    );
}

#[test]
fn a_place_at_the_edge_of_the_page_is_within_bounds() {
    for (x, is_within) in [(10_000_000, true), (-10_000_000, true), (-10_000_001, false)] {
        let mut plan = sample::plan();
        plan.walls[&WallId(4)].a.x = Mm::new(x);
        assert_eq!(plan.check_limits().is_none(), is_within, "{x} mm");
    }
}

#[test]
fn things_that_name_each_other_come_and_go_together() {
    let mut plan = sample::plan();
    let circuit = Circuit { order: vec![PointId(51)], ..plan.circuits[&CircuitId(22)].clone() };
    let point = Point { circuit: Some(CircuitId(50)), ..plan.points[&PointId(30)].clone() };
    let together = Edit::Many(vec![
        Change::Put(CircuitId(50), circuit).into(),
        Change::Put(PointId(51), point).into(),
    ]);
    assert_eq!(plan.fresh_id(), 41, "before");
    let inverse = plan.apply(together).unwrap();
    assert_eq!(plan.fresh_id(), 52, "past the largest");
    plan.apply(inverse).unwrap();
    assert_eq!(plan.fresh_id(), 52, "not lowered");
    assert_eq!(drawn(&plan), drawn(&sample::plan()), "gone together");
}

/// Calls with the sample once for every value in it, changed in that place.
fn with_each_value(change: impl Fn(&Value) -> Option<Value>, look: impl Fn(&str, Plan)) {
    fn paths(value: &Value, at: &str, out: &mut Vec<String>) {
        match value {
            Value::Object(entries) => {
                entries.iter().for_each(|(key, value)| paths(value, &format!("{at}/{key}"), out));
            }
            Value::Array(items) => {
                let mut each = |(i, item)| paths(item, &format!("{at}/{i}"), out);
                items.iter().enumerate().for_each(&mut each);
            }
            _ => out.push(at.to_owned()),
        }
    }
    let whole = serde_json::to_value(sample::plan()).unwrap();
    let mut found = Vec::new();
    paths(&whole, "", &mut found);
    let mut changed = 0;
    for path in found {
        let mut copy = whole.clone();
        let place = copy.pointer_mut(&path).unwrap();
        let Some(new) = change(place) else { continue };
        *place = new;
        // What the types themselves refuse needs no check.
        if let Ok(plan) = serde_json::from_value(copy) {
            look(&path, plan);
            changed += 1;
        }
    }
    assert!(changed > 20, "only {changed} places were changed");
}

#[test]
fn no_number_escapes_the_bounds() {
    with_each_value(
        |value| value.is_number().then(|| Value::from(99_999_999_999_i64)),
        |path, plan| assert!(plan.check_limits().is_some(), "{path}"),
    );
}

#[test]
fn no_text_escapes_the_bounds() {
    with_each_value(
        |value| value.is_string().then(|| Value::from("\u{7}")),
        |path, plan| assert!(plan.check_limits().is_some(), "{path}"),
    );
}

#[test]
fn no_reference_escapes() {
    with_each_value(
        |value| {
            let text = value.as_str()?;
            let (letter, number) = text.split_at_checked(1)?;
            number.parse::<u32>().ok()?;
            Some(Value::from(format!("{letter}999")))
        },
        |path, plan| {
            let dangling = plan.check_references();
            assert_eq!(dangling.len(), 1, "{path}");
            // The same place, as the plan writes it.
            let at = dangling[0].at.replace('[', "/").replace(']', "").replace('.', "/");
            assert_eq!(format!("/{at}"), path, "the place");
        },
    );
}

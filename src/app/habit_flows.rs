//! Flows about points, circuits and papers without a window.

use std::collections::BTreeSet;

use kurbo::Point;
use wirewend::plan::{PointKind, Subject};

use super::camera::exact;
use super::desk::Desk;
use super::flows::{at, settle, take, wired};
use super::keys::{Step, Tool};

pub(super) fn sockets(desk: &Desk) -> Vec<wirewend::plan::PointId> {
    let sockets = desk.plan.points.iter().filter(|(_, one)| one.kind == PointKind::Socket);
    sockets.map(|(id, _)| *id).collect()
}

pub(super) fn choose(desk: &mut Desk, points: &[wirewend::plan::PointId]) {
    desk.chosen = points.iter().copied().map(Subject::Point).collect();
}

fn place(desk: &Desk, id: wirewend::plan::PointId) -> Point {
    let place = desk.plan.points[&id].place.expect("a place");
    exact(desk.plan.position_on_face(&place).expect("a position").on_floor())
}

#[test]
fn what_is_copied_is_pasted_at_the_pointer() {
    let mut desk = wired();
    let before = desk.plan.points.len();
    let first = sockets(&desk)[..2].to_vec();
    choose(&mut desk, &first);
    assert!(desk.copy(), "{}", desk.said);
    // On the wall across, 4 m further down the page.
    let middle = place(&desk, first[0]).midpoint(place(&desk, first[1]));
    desk.hover(middle - kurbo::Vec2::new(0.0, 3800.0));
    desk.paste(false);
    assert_eq!(desk.plan.points.len(), before + 2, "{}", desk.said);
    let new: Vec<_> = desk.chosen_points();
    assert_eq!(new.len(), 2, "the new ones are chosen");
    for (old, new) in first.iter().zip(&new) {
        let (old, new) = (place(&desk, *old), place(&desk, *new));
        assert!((old.x - new.x).abs() <= 10.0 && new.y < 200.0, "{old} became {new}");
    }
    desk.undo();
    assert_eq!(desk.plan.points.len(), before, "one edit");
    // Mirrored, the left one comes to lie at the right.
    desk.paste(true);
    let new = desk.chosen_points();
    let order = place(&desk, first[0]).x < place(&desk, first[1]).x;
    assert_ne!(place(&desk, new[0]).x < place(&desk, new[1]).x, order, "left for right");
    desk.undo();
    desk.chosen = BTreeSet::new();
    assert!(!desk.copy() && desk.said.contains("choose"), "nothing chosen: {}", desk.said);
}

#[test]
fn what_is_cut_out_can_be_pasted_again() {
    let mut desk = wired();
    let before = desk.plan.points.len();
    let one = sockets(&desk)[0];
    let was = place(&desk, one);
    choose(&mut desk, &[one]);
    desk.cut();
    assert_eq!(desk.plan.points.len(), before - 1, "{}", desk.said);
    desk.hover(was);
    desk.paste(false);
    assert_eq!(desk.plan.points.len(), before, "{}", desk.said);
    assert!(place(&desk, desk.chosen_points()[0]).distance(was) <= 10.0, "where it was");
}

#[test]
fn points_are_mirrored_about_their_middle() {
    let mut desk = wired();
    let two = sockets(&desk)[..2].to_vec();
    choose(&mut desk, &two);
    let (a, b) = (place(&desk, two[0]), place(&desk, two[1]));
    desk.mirror();
    assert!(desk.said.is_empty(), "{}", desk.said);
    assert!(place(&desk, two[0]).distance(b) <= 10.0, "they have changed places");
    assert!(place(&desk, two[1]).distance(a) <= 10.0, "both");
}

#[test]
fn a_band_chooses_what_it_holds() {
    let mut desk = wired();
    desk.step = Step::Points;
    desk.press(at(600.0, 3500.0), false);
    assert!(desk.drags(), "a press on nothing begins a band");
    desk.hover(at(5600.0, 4200.0));
    assert!(!desk.sketch().lines.is_empty(), "it is drawn");
    desk.release();
    assert_eq!(desk.chosen.len(), 2, "both sockets of the upper wall: {:?}", desk.chosen);
    desk.press(at(2000.0, 3000.0), false);
    desk.release();
    assert!(desk.chosen.is_empty(), "a click on nothing chooses nothing");
}

#[test]
fn a_distance_from_the_corner_can_be_typed_while_placing() {
    let mut desk = wired();
    desk.tool = Tool::Point(PointKind::Socket);
    desk.hover(at(400.0, 60.0));
    for sign in "650".chars() {
        assert!(desk.type_sign(sign), "digits are a length now");
    }
    desk.settle();
    let new = desk.chosen_points();
    // Walls are 110 mm: the inner corner is 55 mm from the wall's end.
    let x = place(&desk, *new.first().expect("a point")).x;
    assert!((x - 705.0).abs() < 1.0, "650 mm from the corner: {x}; {}", desk.said);
    assert!(desk.typed.is_empty(), "typed once");
}

#[test]
fn points_are_placed_evenly_along_a_wall() {
    let mut desk = wired();
    let before = desk.plan.points.len();
    let one = sockets(&desk)[0];
    choose(&mut desk, &[one]);
    desk.evenly(3);
    assert_eq!(desk.plan.points.len(), before + 2, "two more: {}", desk.said);
    let mut xs: Vec<f64> = desk.chosen_points().iter().map(|id| place(&desk, *id).x).collect();
    xs.sort_by(f64::total_cmp);
    // 5,890 mm between the corners, from 55 on: a sixth, a half, five sixths.
    for (x, share) in xs.iter().zip([1.0, 3.0, 5.0]) {
        assert!((x - (55.0 + 5890.0 * share / 6.0)).abs() <= 1.0, "{xs:?}");
    }
    desk.undo();
    assert_eq!(desk.plan.points.len(), before, "one edit");
    let two = sockets(&desk)[..2].to_vec();
    choose(&mut desk, &two);
    desk.evenly(4);
    assert_eq!(desk.plan.points.len(), before + 2, "two between two: {}", desk.said);
}

#[test]
fn the_price_and_every_paper_follow_the_plan() {
    let mut desk = wired();
    let picture = desk.picture.clone().expect("computed");
    assert!(picture.price.is_some(), "a price, or that there is none");
    assert!(picture.made_papers().is_none(), "no paper is drawn before one is wanted");
    desk.go_step(Step::Papers);
    settle(&mut desk);
    let picture = desk.picture.clone().expect("computed");
    let papers = picture.made_papers().expect("drawn");
    assert!(papers.set.len() > 5, "{}", papers.said);
    let first = picture.bounds();
    desk.climb(-1);
    assert_eq!(desk.page, 1, "PageDown turns the page");
    settle(&mut desk);
    let again = desk.picture.clone().expect("computed");
    assert!(std::ptr::eq(papers, again.made_papers().expect("drawn")), "they are drawn once");
    assert!(first.is_some() && again.bounds().is_some(), "something to see");
    take(&mut desk, Tool::Hand, &[]);
}

#[test]
fn two_windows_on_one_file_notice_each_other() {
    let folder = std::env::temp_dir().join(format!("wirewend-two-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let file = folder.join("house.wend");
    let mut one = wired();
    assert!(one.save_as(file.clone()), "{}", one.said);
    let plan = wirewend::store::read_file(&file).expect("a plan");
    let mut two = Desk::of_file(plan, file.clone());
    assert!(two.said.contains("another window"), "the second is told: {}", two.said);
    one.hear();
    assert!(one.said.contains("another window"), "and so is the first: {}", one.said);
    assert_eq!(two.file, None, "and cannot save over it");
    assert!(!two.save_as(file.clone()), "not even by name");
    assert!(two.save_as(folder.join("copy.wend")), "{}", two.said);
    drop(one);
    let plan = wirewend::store::read_file(&file).expect("a plan");
    assert_eq!(Desk::of_file(plan, file.clone()).file, Some(file), "free again");
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn what_is_chosen_goes_with_the_one_that_is_dragged() {
    let mut desk = wired();
    desk.step = Step::Points;
    let two = sockets(&desk)[..2].to_vec();
    let light = desk.plan.points.iter().find(|(_, one)| one.kind == PointKind::Luminaire);
    let light = *light.expect("a light").0;
    choose(&mut desk, &[two[0], two[1], light]);
    settle(&mut desk);
    let was = [two[0], two[1], light].map(|id| place(&desk, id));
    let apart = was[1].x - was[0].x;
    desk.press(was[0], false);
    assert_eq!(desk.chosen.len(), 3, "what is chosen stays chosen");
    desk.hover(was[0] + kurbo::Vec2::new(-300.0, 20.0));
    let order = desk.due().expect("the runs follow while it is dragged");
    let followed = order.done(&wirewend::rules::RuleBook::shipped(), &std::sync::Mutex::default());
    let moved = followed.plan.points[&light].place.and_then(|to| followed.plan.position(&to));
    assert!((moved.expect("a place").x.to_f64() - was[2].x + 300.0).abs() <= 10.0, "drawn so");
    desk.done(followed.into());
    desk.release();
    let now = [two[0], two[1], light].map(|id| place(&desk, id));
    for (was, now) in was.iter().zip(&now) {
        assert!((now.x - was.x + 300.0).abs() <= 10.0, "{was} became {now}");
    }
    // At the wall's end all stop together: their distances stay.
    settle(&mut desk);
    desk.press(now[0], false);
    desk.hover(now[0] - kurbo::Vec2::new(9000.0, 0.0));
    desk.release();
    let end = [two[0], two[1]].map(|id| place(&desk, id));
    assert!((end[1].x - end[0].x - apart).abs() <= 1.0 && end[0].x < 200.0, "{end:?}");
    desk.undo();
    desk.undo();
    let back = [two[0], two[1], light].map(|id| place(&desk, id));
    assert_eq!(back, was, "each drag is one step");
    // A click on one of several chooses it alone.
    settle(&mut desk);
    choose(&mut desk, &two);
    desk.press(was[0], false);
    desk.release();
    assert_eq!(desk.chosen, BTreeSet::from([Subject::Point(two[0])]));
}

#[test]
fn what_is_stopped_says_so_and_is_computed_after_the_next_edit() {
    let mut desk = wired();
    let compute = |desk: &mut Desk, stopped: bool| {
        desk.look_again();
        let order = desk.due().expect("something to compute");
        if stopped {
            desk.watch.stop();
        }
        let rules = wirewend::rules::RuleBook::shipped();
        desk.done(order.done(&rules, &std::sync::Mutex::default()).into());
    };
    desk.nudge(1, 0);
    let one = sockets(&desk)[0];
    choose(&mut desk, &[one]);
    desk.nudge(1, 0);
    compute(&mut desk, true);
    let picture = desk.picture.clone().expect("the plan is shown");
    assert!(picture.runs.circuits.is_empty(), "nothing half done");
    assert!(picture.findings.iter().any(|one| one.code == "stopped"), "and it is said");
    assert!(picture.symbols().next().is_some(), "the points are drawn");
    desk.nudge(1, 0);
    compute(&mut desk, false);
    let picture = desk.picture.clone().expect("computed");
    assert_eq!(desk.watch.progress(), Some((2, 2)), "two circuits, both done");
    assert!(!picture.runs.circuits.is_empty(), "routed again");
    desk.go_step(Step::Papers);
    compute(&mut desk, true);
    let picture = desk.picture.clone().expect("something is shown");
    assert!(picture.made_papers().is_none(), "no paper is half drawn");
    compute(&mut desk, false);
    assert!(desk.picture.clone().is_some_and(|one| one.made_papers().is_some()), "drawn now");
}

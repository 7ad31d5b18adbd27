//! Flows about points, circuits and papers without a window.

use std::collections::BTreeSet;

use kurbo::Point;

use super::flows::of_file;
use crate::plan::{PointKind, Subject};
use crate::session::Session;
use crate::session::ground::places::exact;
use crate::session::state::{Step, Tool};
use crate::session::tests::flows::{at, settle, take, wired};

pub(crate) fn sockets(session: &Session) -> Vec<crate::plan::PointId> {
    let sockets =
        session.document.plan().points.iter().filter(|(_, one)| one.kind == PointKind::Socket);
    sockets.map(|(id, _)| *id).collect()
}

pub(crate) fn choose(session: &mut Session, points: &[crate::plan::PointId]) {
    session.selection.choose(points.iter().copied().map(Subject::Point));
}

fn place(session: &Session, id: crate::plan::PointId) -> Point {
    let place = session.document.plan().points[&id].place.expect("a place");
    exact(session.document.plan().position_on_face(&place).expect("a position").on_floor())
}

#[test]
fn what_is_copied_is_pasted_at_the_pointer() {
    let mut session = wired();
    let before = session.document.plan().points.len();
    let first = sockets(&session)[..2].to_vec();
    choose(&mut session, &first);
    assert!(session.copy(), "{}", session.said);
    // On the wall across, 4 m further down the page.
    let middle = place(&session, first[0]).midpoint(place(&session, first[1]));
    session.hover(middle - kurbo::Vec2::new(0.0, 3800.0));
    session.paste(false);
    assert_eq!(session.document.plan().points.len(), before + 2, "{}", session.said);
    let new: Vec<_> = session.chosen_points();
    assert_eq!(new.len(), 2, "the new ones are chosen");
    for (old, new) in first.iter().zip(&new) {
        let (old, new) = (place(&session, *old), place(&session, *new));
        assert!((old.x - new.x).abs() <= 10.0 && new.y < 200.0, "{old} became {new}");
    }
    session.undo();
    assert_eq!(session.document.plan().points.len(), before, "one edit");
    // Mirrored, the left one comes to lie at the right.
    session.paste(true);
    let new = session.chosen_points();
    let order = place(&session, first[0]).x < place(&session, first[1]).x;
    assert_ne!(place(&session, new[0]).x < place(&session, new[1]).x, order, "left for right");
    session.undo();
    session.selection.choose(BTreeSet::new());
    assert!(!session.copy() && session.said.contains("choose"), "nothing chosen: {}", session.said);
}

#[test]
fn what_is_cut_out_can_be_pasted_again() {
    let mut session = wired();
    let before = session.document.plan().points.len();
    let one = sockets(&session)[0];
    let was = place(&session, one);
    choose(&mut session, &[one]);
    session.cut();
    assert_eq!(session.document.plan().points.len(), before - 1, "{}", session.said);
    session.hover(was);
    session.paste(false);
    assert_eq!(session.document.plan().points.len(), before, "{}", session.said);
    assert!(place(&session, session.chosen_points()[0]).distance(was) <= 10.0, "where it was");
}

#[test]
fn points_are_mirrored_about_their_middle() {
    let mut session = wired();
    let two = sockets(&session)[..2].to_vec();
    choose(&mut session, &two);
    let (a, b) = (place(&session, two[0]), place(&session, two[1]));
    session.mirror();
    assert!(session.said.is_empty(), "{}", session.said);
    assert!(place(&session, two[0]).distance(b) <= 10.0, "they have changed places");
    assert!(place(&session, two[1]).distance(a) <= 10.0, "both");
}

#[test]
fn a_band_chooses_what_it_holds() {
    let mut session = wired();
    session.sight.open_step(Step::Points);
    session.press(at(600.0, 3500.0), false);
    assert!(session.hand.drags(), "a press on nothing begins a band");
    session.hover(at(5600.0, 4200.0));
    assert!(!session.sketch().lines.is_empty(), "it is drawn");
    session.release();
    assert_eq!(
        session.selection.chosen().len(),
        2,
        "both sockets of the upper wall: {:?}",
        session.selection.chosen()
    );
    session.press(at(2000.0, 3000.0), false);
    session.release();
    assert!(session.selection.chosen().is_empty(), "a click on nothing chooses nothing");
}

#[test]
fn a_distance_from_the_corner_can_be_typed_while_placing() {
    let mut session = wired();
    session.hand.change(Tool::Point(PointKind::Socket));
    session.hover(at(400.0, 60.0));
    for sign in "650".chars() {
        assert!(session.type_sign(sign), "digits are a length now");
    }
    session.settle();
    let new = session.chosen_points();
    // Walls are 110 mm: the inner corner is 55 mm from the wall's end.
    let x = place(&session, *new.first().expect("a point")).x;
    assert!((x - 705.0).abs() < 1.0, "650 mm from the corner: {x}; {}", session.said);
    assert!(session.hand.typed().is_empty(), "typed once");
}

#[test]
fn points_are_placed_evenly_along_a_wall() {
    let mut session = wired();
    let before = session.document.plan().points.len();
    let one = sockets(&session)[0];
    choose(&mut session, &[one]);
    session.evenly(3);
    assert_eq!(session.document.plan().points.len(), before + 2, "two more: {}", session.said);
    let mut xs: Vec<f64> =
        session.chosen_points().iter().map(|id| place(&session, *id).x).collect();
    xs.sort_by(f64::total_cmp);
    // 5,890 mm between the corners, from 55 on: a sixth, a half, five sixths.
    for (x, share) in xs.iter().zip([1.0, 3.0, 5.0]) {
        assert!((x - (55.0 + 5890.0 * share / 6.0)).abs() <= 1.0, "{xs:?}");
    }
    session.undo();
    assert_eq!(session.document.plan().points.len(), before, "one edit");
    let two = sockets(&session)[..2].to_vec();
    choose(&mut session, &two);
    session.evenly(4);
    assert_eq!(
        session.document.plan().points.len(),
        before + 2,
        "two between two: {}",
        session.said
    );
}

#[test]
fn the_price_and_every_paper_follow_the_plan() {
    let mut session = wired();
    let picture = session.jobs.picture().cloned().expect("computed");
    assert!(picture.price.is_some(), "a price, or that there is none");
    assert!(picture.made_papers().is_none(), "no paper is drawn before one is wanted");
    session.go_step(Step::Papers);
    settle(&mut session);
    let picture = session.jobs.picture().cloned().expect("computed");
    let papers = picture.made_papers().expect("drawn");
    assert!(papers.set.len() > 5, "{}", papers.said);
    let first = picture.bounds();
    session.climb(-1);
    assert_eq!(session.sight.page(), 1, "PageDown turns the page");
    settle(&mut session);
    let again = session.jobs.picture().cloned().expect("computed");
    assert!(std::ptr::eq(papers, again.made_papers().expect("drawn")), "they are drawn once");
    assert!(first.is_some() && again.bounds().is_some(), "something to see");
    take(&mut session, Tool::Hand, &[]);
}

#[test]
fn two_windows_on_one_file_notice_each_other() {
    let folder = std::env::temp_dir().join(format!("wirewend-two-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let file = folder.join("house.wend");
    let mut one = wired();
    assert!(one.save_as(file.clone()), "{}", one.said);
    let plan = crate::store::read_file(&file).expect("a plan");
    let mut two = of_file(plan, file.clone());
    assert!(two.said.contains("another window"), "the second is told: {}", two.said);
    one.hear();
    assert!(one.said.contains("another window"), "and so is the first: {}", one.said);
    assert_eq!(two.document.file(), None, "and cannot save over it");
    assert!(!two.save_as(file.clone()), "not even by name");
    assert!(two.save_as(folder.join("copy.wend")), "{}", two.said);
    drop(one);
    let plan = crate::store::read_file(&file).expect("a plan");
    assert_eq!(of_file(plan, file.clone()).document.file(), Some(&*file), "free again");
    let _ = std::fs::remove_dir_all(folder);
}

#[test]
fn what_is_chosen_goes_with_the_one_that_is_dragged() {
    let mut session = wired();
    session.sight.open_step(Step::Points);
    let two = sockets(&session)[..2].to_vec();
    let light =
        session.document.plan().points.iter().find(|(_, one)| one.kind == PointKind::Luminaire);
    let light = *light.expect("a light").0;
    choose(&mut session, &[two[0], two[1], light]);
    settle(&mut session);
    let was = [two[0], two[1], light].map(|id| place(&session, id));
    let apart = was[1].x - was[0].x;
    session.press(was[0], false);
    assert_eq!(session.selection.chosen().len(), 3, "what is chosen stays chosen");
    session.hover(was[0] + kurbo::Vec2::new(-300.0, 20.0));
    let order = session.due().expect("the runs follow while it is dragged");
    let followed =
        order.done(&crate::rules::RuleBook::shipped().into(), &std::sync::Mutex::default()).picture;
    let moved = followed.plan.points[&light].place.and_then(|to| followed.plan.position(&to));
    assert!((moved.expect("a place").x.to_f64() - was[2].x + 300.0).abs() <= 10.0, "drawn so");
    session.done(followed.into());
    session.release();
    let now = [two[0], two[1], light].map(|id| place(&session, id));
    for (was, now) in was.iter().zip(&now) {
        assert!((now.x - was.x + 300.0).abs() <= 10.0, "{was} became {now}");
    }
    // At the wall's end all stop together: their distances stay.
    settle(&mut session);
    session.press(now[0], false);
    session.hover(now[0] - kurbo::Vec2::new(9000.0, 0.0));
    session.release();
    let end = [two[0], two[1]].map(|id| place(&session, id));
    assert!((end[1].x - end[0].x - apart).abs() <= 1.0 && end[0].x < 200.0, "{end:?}");
    session.undo();
    session.undo();
    let back = [two[0], two[1], light].map(|id| place(&session, id));
    assert_eq!(back, was, "each drag is one step");
    // A click on one of several chooses it alone.
    settle(&mut session);
    choose(&mut session, &two);
    session.press(was[0], false);
    session.release();
    assert_eq!(*session.selection.chosen(), BTreeSet::from([Subject::Point(two[0])]));
}

#[test]
fn what_is_stopped_says_so_and_is_computed_after_the_next_edit() {
    let mut session = wired();
    let compute = |session: &mut Session, stopped: bool| {
        session.look_again();
        let order = session.due().expect("something to compute");
        if stopped {
            session.jobs.watch().stop();
        }
        let rules = crate::rules::RuleBook::shipped().into();
        session.done(order.done(&rules, &std::sync::Mutex::default()).picture.into());
    };
    session.nudge(1, 0);
    let one = sockets(&session)[0];
    choose(&mut session, &[one]);
    session.nudge(1, 0);
    compute(&mut session, true);
    let picture = session.jobs.picture().cloned().expect("the plan is shown");
    assert!(picture.runs.circuits.is_empty(), "nothing half done");
    assert!(picture.findings.iter().any(|one| one.code == "stopped"), "and it is said");
    assert!(picture.symbols().next().is_some(), "the points are drawn");
    session.nudge(1, 0);
    compute(&mut session, false);
    let picture = session.jobs.picture().cloned().expect("computed");
    assert_eq!(session.jobs.watch().progress(), Some((2, 2)), "two circuits, both done");
    assert!(!picture.runs.circuits.is_empty(), "routed again");
    session.go_step(Step::Papers);
    compute(&mut session, true);
    let picture = session.jobs.picture().cloned().expect("something is shown");
    assert!(picture.made_papers().is_none(), "no paper is half drawn");
    compute(&mut session, false);
    assert!(
        session.jobs.picture().cloned().is_some_and(|one| one.made_papers().is_some()),
        "drawn now"
    );
}

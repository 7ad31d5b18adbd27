//! The invented houses: measured by hand, and by the judge.

use wirewend::plan::{Edge, End, Hand, Place};
use wirewend::sheet::{Marked, csv, set_out_list, set_out_rows, wall_views};
use wirewend::units::Mm;

use super::{Job, complaints};
use crate::fixtures;
use crate::layouts::{drafted, ours, read};

#[test]
fn a_tape_finds_every_figure_of_the_fixtures() {
    for name in ["cottage", "flat", "half_drawn", "terrace", "townhouse"] {
        let found = complaints(&Job::of(fixtures::house(name)));
        assert!(found.is_empty(), "{name}: {} complaints:\n{}", found.len(), found.join("\n"));
    }
}

#[test]
fn a_tape_finds_every_figure_of_two_drafts() {
    for (name, text) in ours().into_iter().take(2) {
        let found = complaints(&Job::of(drafted(read(&text).0)));
        assert!(found.is_empty(), "{name}: {} complaints:\n{}", found.len(), found.join("\n"));
    }
}

/// The cottage's bathroom from its drawing: W14 stands at x = 8900, 110 thick;
/// the bathroom's outline has corners at y = 4765 and y = 7875, so that its
/// face is 3110 long. Its left face looks at the bathroom with the north at the left.
#[test]
fn the_bathroom_is_set_out_from_its_finished_corner() {
    let job = Job::of(fixtures::house("cottage"));
    let house = job.house();
    let views = wall_views(&house);
    let own = |view: &&wirewend::sheet::WallView<'_>| {
        view.piece.rooms.iter().any(|id| job.plan.rooms[id].name == "Bathroom")
            && view.piece.spans.iter().any(|span| span.wall.0 == 14)
    };
    let view = views.iter().find(own).unwrap();
    assert!((view.piece.length - 3110.0).abs() < 0.01, "{:?}", view.piece);
    let across: Vec<i64> =
        view.uprights().map(|one| Mm::from_f64(one.from.x).unwrap().get()).collect();
    // The socket of the main bedroom at 890 along W14 stands at y = 5600, its
    // cable 7875 − 5600 from the corner.
    assert!(across.contains(&2275), "{across:?}");
    let rows = set_out_rows(&house);
    // P134 on that face at 690 along stands at y = 5400: 635 from the corner
    // at the right, 4765.
    let socket = Marked::Box(End::Point(wirewend::plan::PointId(134)));
    let row = rows.iter().find(|row| row.what == socket).unwrap();
    assert_eq!((row.distance.get(), row.towards), (635, Some(Hand::Left)));
    assert!(matches!(row.edge, Edge::Corner { end: Hand::Right, .. }), "{row:?}");
    assert!((row.across - 2475.0).abs() < 0.01, "{row:?}");
}

#[test]
fn every_box_of_the_cottage_is_in_the_list() {
    let job = Job::of(fixtures::house("cottage"));
    let house = job.house();
    let list = set_out_list(&house);
    let on_walls = job.plan.points.values().map(|it| it.place);
    let on_walls = on_walls.chain(job.plan.boards.values().map(|it| it.place));
    let count = on_walls.filter(|place| matches!(place, Some(Place::Wall(_)))).count();
    let what = list.headings.iter().position(|heading| *heading == "what").unwrap();
    let boxes = list.rows.iter().filter(|row| !row[what].text().starts_with("cable ")).count();
    assert_eq!(boxes, count, "one row each");
    let text = csv(&list);
    assert!(text.starts_with("level,room,face,from,towards,along m,height m,"), "{text}");
    assert!(text.contains("Bathroom,W14"), "{text}");
}

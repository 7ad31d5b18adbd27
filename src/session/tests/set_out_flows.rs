//! One distance, one meaning: what the card shows, what the field takes and
//! what a tape along the finished face finds are the same.

use crate::plan::{End, Face, Hand, OnWall, Place, Plan, Subject};
use crate::session::Session;
use crate::session::ground::corners::offset;
use crate::session::ground::length::Measure;
use crate::session::state::Amount;
use crate::session::tests::flows::wired;
use crate::units::Mm;

/// The window's own small house, and the cottage.
fn desks() -> Vec<Session> {
    let file = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/cottage.wend");
    let cottage = crate::store::read_file(&file).expect("a plan");
    vec![wired(), Session::with(cottage)]
}

fn on_walls(plan: &Plan) -> Vec<(End, OnWall)> {
    let ends = plan.boards.keys().map(|id| End::Board(*id));
    let ends = ends.chain(plan.points.keys().map(|id| End::Point(*id)));
    let on = |end: End| match plan.place_of(end)? {
        Place::Wall(on) => Some((end, on)),
        _ => None,
    };
    ends.filter_map(on).collect()
}

fn choose(session: &mut Session, end: End) {
    session.selection.choose([Subject::from(end)]);
}

/// As the field does with what was typed.
fn enter(session: &mut Session, amount: Amount, typed: &str) {
    if !session.set_building(amount, typed) {
        session.set(amount, typed);
    }
}

#[test]
fn what_a_field_shows_changes_nothing_when_it_is_entered() {
    for mut session in desks() {
        for measure in [Measure::Metric, Measure::Feet] {
            session.sight.show_in(measure);
            for (end, _) in on_walls(session.document.plan()) {
                choose(&mut session, end);
                for amount in [Amount::Along, Amount::Height] {
                    let before = session.document.plan().clone();
                    let shown = session.asks(amount).expect("it can be asked");
                    assert!(!shown.is_empty(), "the field shows what there is");
                    enter(&mut session, amount, &shown);
                    assert_eq!(*session.document.plan(), before, "{end:?} {amount:?} {shown}");
                }
            }
        }
    }
}

/// The fixed edges of a face along its wall, found by walking along it: other
/// walls that stand out there, and sides of openings. None where the walk
/// leads round the outside of a corner.
fn edges(plan: &Plan, on: &OnWall) -> Option<Vec<f64>> {
    let wall = &plan.walls[&on.wall];
    let ((dx, dy), (nx, ny)) = (wall.direction(), wall.normal(on.face));
    let off = wall.thickness.to_f64() / 2.0 + 2.0;
    let is_built = |along: f64| {
        let x = wall.a.x.to_f64() + dx * along + nx * off;
        let y = wall.a.y.to_f64() + dy * along + ny * off;
        plan.walls.iter().any(|(id, other)| {
            let (ox, oy) = other.direction();
            let (px, py) = (x - other.a.x.to_f64(), y - other.a.y.to_f64());
            let (u, v) = (px * ox + py * oy, py * ox - px * oy);
            *id != on.wall
                && other.level == wall.level
                && (0.0..=other.length()).contains(&u)
                && v.abs() <= other.thickness.to_f64() / 2.0
        })
    };
    let mut found = Vec::new();
    for sign in [-1.0, 1.0] {
        let mut at = on.along.to_f64();
        while !is_built(at) {
            at += sign * 0.25;
            if !(0.0..=wall.length()).contains(&at) {
                return None;
            }
        }
        found.push(at);
    }
    let (low, high) = (found[0], found[1]);
    for opening in plan.openings.values().filter(|opening| opening.wall == on.wall) {
        for side in [opening.from, opening.from + opening.width] {
            if low < side.to_f64() && side.to_f64() < high {
                found.push(side.to_f64());
            }
        }
    }
    Some(found)
}

#[test]
fn a_typed_distance_is_what_a_tape_finds_from_the_lit_edge() {
    let (mut judged, mut moved) = (0, 0);
    for session in desks() {
        for (end, on) in on_walls(session.document.plan()) {
            let Some(edges) = edges(session.document.plan(), &on) else { continue };
            let along = on.along.to_f64();
            let lit = offset(session.document.plan(), &on).expect("it is on a face");
            let nearest = edges.iter().map(|edge| (edge - along).abs()).fold(f64::MAX, f64::min);
            let shown = lit.away.to_f64();
            assert!((shown - nearest).abs() <= 1.0, "{end:?} shows {shown}, a tape {nearest}");
            let edge = lit.at.along.to_f64();
            assert!(edges.iter().any(|one| (one - edge).abs() <= 1.0), "{end:?}: {edge} is lit");
            // Seen from before it, the wall's end b is at the left of a left face.
            let onward = (lit.towards == Hand::Right) == (on.face == Face::Right);
            assert!(shown < 1.0 || onward == (along > edge), "{end:?}: on the hand that is told");
            judged += 1;
            for typed in [40_i64, 600, 1234] {
                let mut session = Session::with(session.document.plan().clone());
                choose(&mut session, end);
                enter(&mut session, Amount::Along, &typed.to_string());
                let Some(Place::Wall(now)) = session.document.plan().place_of(end) else {
                    panic!("still on a wall")
                };
                let wanted = Mm::new(typed).to_f64();
                if now == on && (shown - wanted).abs() > 0.5 {
                    assert!(session.said.contains("ends before"), "{}", session.said);
                    continue;
                }
                let found = (now.along.to_f64() - edge).abs();
                assert!((found - wanted).abs() <= 1.0, "{end:?}: {typed} gave {found}");
                assert_eq!(now.along.to_f64() > edge, onward, "{end:?}: on the same hand");
                moved += 1;
            }
        }
    }
    assert!(judged > 25 && moved > 60, "{judged} places, {moved} moves");
}

#[test]
fn the_edge_is_lit_on_the_sheet_with_the_distance_that_the_card_shows() {
    let mut session = wired();
    let (end, on) = on_walls(session.document.plan())[1];
    let bare = session.sketch();
    choose(&mut session, end);
    let sketch = session.sketch();
    let shown = session.shown(Amount::Along).expect("a distance");
    assert!(sketch.labels.iter().any(|(_, says)| *says == shown), "{:?}", sketch.labels);
    assert!(!bare.labels.iter().any(|(_, says)| *says == shown), "only of what is chosen");
    let lit = offset(session.document.plan(), &on).expect("an edge");
    let seen =
        crate::session::ground::corners::seen(session.document.plan(), &lit.at).expect("a place");
    let edge = session.sight.camera().screen_of(seen.on_floor());
    let rings = sketch.lines.iter().filter(|(path, _)| {
        let around = kurbo::Shape::bounding_box(path);
        around.width() < 12.0 && around.center().distance(edge) < 0.5
    });
    assert!(rings.count() >= 1, "a ring on the edge itself");
}

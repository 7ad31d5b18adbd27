//! Where labels go: close to what they name, clear of everything else.
//!
//! Every label has a list of places that it could take. Labels are placed one
//! after the other where it costs least, those with the least freedom first,
//! then each is tried again among its neighbours until nothing moves. The order
//! is fixed, so the same sheet always comes out the same.

use kurbo::{Affine, Point, Rect, Size, Vec2};

use super::crowd::Crowd;
use crate::plan::Subject;
use crate::sheet::scene::{Group, Item, Layer, Mark, Stroke};
use crate::sheet::{Ink, pen};

/// A label that wants a place.
#[derive(Clone, Debug)]
pub(super) struct Label {
    /// How much room it takes.
    pub(super) size: Size,
    /// Its marks, drawn from its own upper left corner.
    pub(super) items: Vec<Item>,
    /// What it stands beside.
    pub(super) beside: Rect,
    /// Where a leader would point.
    pub(super) tip: Point,
    /// The side it would rather be on; no preference when zero.
    pub(super) towards: Vec2,
    /// Places that it could sit on, best first: on its own line.
    pub(super) seats: Vec<Point>,
    /// Whose pieces it may cover when it sits on its own line.
    pub(super) owner: Option<usize>,
    /// What it names.
    pub(super) subject: Subject,
}

/// A label in its place.
#[derive(Clone, Debug)]
pub(super) struct Placed {
    /// The room it takes.
    pub(super) at: Rect,
    /// Its marks.
    pub(super) item: Item,
}

/// A place for a label.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Spot {
    at: Rect,
    /// What it costs by itself, before neighbours count.
    cost: f64,
    leader: Option<(Point, Point)>,
    /// The box around its clear space and its leader: what does not touch it
    /// costs nothing.
    reach: Rect,
}

impl Spot {
    fn new(at: Rect, cost: f64, leader: Option<(Point, Point)>) -> Self {
        let clear = at.inflate(CLEAR, CLEAR);
        let reach = leader.map_or(clear, |(from, to)| clear.union(Rect::from_points(from, to)));
        Self { at, cost, leader, reach }
    }
}

/// The places of a label that were looked at so far, the cheapest first.
struct Spots {
    found: Vec<Spot>,
    /// What the rings not looked at cost at least.
    beyond: Option<f64>,
}

/// How far from its thing a label may go, mm, step by step.
const RINGS: [f64; 11] = [0.7, 1.8, 3.2, 5.0, 7.5, 10.0, 14.0, 19.0, 26.0, 36.0, 50.0];
/// So many of the rings are looked at for every label, the others only where
/// these are crowded.
const NEAR_RINGS: usize = 8;
/// A place that costs less counts towards the freedom of a label.
const FREE: f64 = 25.0;
/// Beyond this a leader line is needed, mm.
const NEAR: f64 = 2.4;
/// Clear space around lettering, mm.
const CLEAR: f64 = 0.6;
/// Covering another label is worse than anything else.
const CLASH: f64 = 5000.0;

/// The labels at the best places that could be found.
pub(super) fn placed(labels: &[Label], crowd: &Crowd) -> Vec<Placed> {
    let mut spots: Vec<Spots> = labels.iter().map(|label| near_spots(label, crowd)).collect();
    let mut order: Vec<usize> = (0..labels.len()).collect();
    let freedom =
        |index: &usize| spots[*index].found.iter().filter(|spot| spot.cost < FREE).count();
    order.sort_by_cached_key(|index| (freedom(index), *index));
    let mut chosen: Vec<Option<Spot>> = vec![None; labels.len()];
    for round in 0..5 {
        let mut moved = false;
        for index in &order {
            let best = best_spot(*index, &labels[*index], &mut spots[*index], &chosen, crowd);
            moved |= chosen[*index] != best;
            chosen[*index] = best;
        }
        if round > 0 && !moved {
            break;
        }
    }
    let places = labels.iter().zip(chosen);
    places
        .filter_map(|(label, chosen)| chosen.map(|spot| (label, spot)))
        .map(|(label, spot)| Placed { at: spot.at, item: draw(label, &spot) })
        .collect()
}

/// The cheapest place of a label among the others where they are now. Far
/// places are looked at only where no near one is as cheap as they could be.
fn best_spot(
    index: usize,
    label: &Label,
    spots: &mut Spots,
    chosen: &[Option<Spot>],
    crowd: &Crowd,
) -> Option<Spot> {
    let others = || chosen.iter().enumerate().filter(|(other, _)| *other != index);
    let mut best = cheapest(&spots.found, others().filter_map(|(_, spot)| spot.as_ref()));
    if let Some(beyond) = spots.beyond
        && best.is_none_or(|(least, _)| least >= beyond)
    {
        far_spots(label, crowd, spots);
        best = cheapest(&spots.found, others().filter_map(|(_, spot)| spot.as_ref()));
    }
    best.map(|(_, spot)| spot)
}

/// The cheapest of these places, those at hand counted, and what it costs.
fn cheapest<'a>(spots: &[Spot], others: impl Iterator<Item = &'a Spot>) -> Option<(f64, Spot)> {
    let whole = spots.iter().map(|spot| spot.reach).reduce(|all, one| all.union(one))?;
    let near: Vec<&Spot> = others.filter(|other| touch(whole, other.reach)).collect();
    let mut best: Option<(f64, Spot)> = None;
    for spot in spots {
        // They are in order of cost: none behind this is cheaper.
        if best.is_some_and(|(least, _)| spot.cost >= least) {
            break;
        }
        let touching = near.iter().filter(|other| touch(spot.reach, other.reach));
        let cost = spot.cost + touching.map(|other| friction(spot, other)).sum::<f64>();
        if best.is_none_or(|(least, _)| cost < least - 1e-9) {
            best = Some((cost, *spot));
        }
    }
    best
}

fn touch(one: Rect, other: Rect) -> bool {
    one.x0 <= other.x1 && other.x0 <= one.x1 && one.y0 <= other.y1 && other.y0 <= one.y1
}

/// What two places cost each other.
fn friction(one: &Spot, other: &Spot) -> f64 {
    let mut cost = 0.0;
    let both = one.at.inflate(CLEAR, CLEAR).intersect(other.at);
    if both.width() > 0.0 && both.height() > 0.0 {
        cost += CLASH + both.area();
    }
    for (leader, label) in [(one.leader, other.at), (other.leader, one.at)] {
        if leader.is_some_and(|(from, to)| crosses_box(from, to, label)) {
            cost += 40.0;
        }
    }
    if let (Some(one), Some(other)) = (one.leader, other.leader)
        && crosses(one, other)
    {
        cost += 40.0;
    }
    cost
}

/// Where a label could go on its line and on the near rings.
fn near_spots(label: &Label, crowd: &Crowd) -> Spots {
    let mut found = Vec::new();
    for (index, seat) in label.seats.iter().enumerate() {
        let at = Rect::from_center_size(*seat, label.size);
        #[expect(clippy::cast_precision_loss, reason = "a few dozen seats")]
        let late = index as f64 * 0.05;
        if crowd.has_room(at) {
            let covers = crowd.cost(at.inflate(CLEAR / 2.0, CLEAR / 2.0), label.owner);
            found.push(Spot::new(at, covers + late, None));
        }
    }
    let (near, far) = RINGS.split_at(NEAR_RINGS);
    around(label, crowd, near, &mut found);
    found.sort_by(|one, other| one.cost.total_cmp(&other.cost));
    let beyond = far.first().map(|ring| ring * 1.1 + 3.0 + on_line(label) - 1.0);
    Spots { found, beyond }
}

/// The far rings besides.
fn far_spots(label: &Label, crowd: &Crowd, spots: &mut Spots) {
    spots.beyond = None;
    around(label, crowd, &RINGS[NEAR_RINGS..], &mut spots.found);
    spots.found.sort_by(|one, other| one.cost.total_cmp(&other.cost));
}

/// What it costs a label to leave its own line.
const fn on_line(label: &Label) -> f64 {
    if label.seats.is_empty() { 0.0 } else { 5.0 }
}

/// Where a label could go on some rings.
fn around(label: &Label, crowd: &Crowd, rings: &[f64], found: &mut Vec<Spot>) {
    for ring in rings.iter().copied() {
        for step in 0..24 {
            let angle = f64::from(step) * core::f64::consts::PI / 12.0;
            let out = Vec2::new(libm::cos(angle), libm::sin(angle));
            // On a square ring, so that labels line up with what they name.
            let stretch = out / out.x.abs().max(out.y.abs());
            let centre = label.beside.center()
                + Vec2::new(
                    stretch.x * (label.beside.width() / 2.0 + ring + label.size.width / 2.0),
                    stretch.y * (label.beside.height() / 2.0 + ring + label.size.height / 2.0),
                );
            let at = Rect::from_center_size(centre, label.size);
            let mut cost = ring * 1.1 + on_line(label);
            if label.towards != Vec2::ZERO {
                cost += (1.0 - out.dot(label.towards)) * 1.2;
            }
            if !crowd.has_room(at) {
                continue;
            }
            cost += crowd.cost(at.inflate(CLEAR, CLEAR), None);
            let leader = (ring > NEAR || !label.seats.is_empty()).then(|| leader(at, label.tip));
            if let Some((from, to)) = leader {
                cost += 3.0 + crowd.line_cost(from, to, label.owner);
            }
            found.push(Spot::new(at, cost, leader));
        }
    }
}

/// From the nearest place on a label's edge to what it names.
fn leader(label: Rect, tip: Point) -> (Point, Point) {
    let edge = Point::new(tip.x.clamp(label.x0, label.x1), tip.y.clamp(label.y0, label.y1));
    (edge, tip)
}

fn draw(label: &Label, spot: &Spot) -> Item {
    let mut items: Vec<Item> = Vec::new();
    if let Some((from, to)) = spot.leader {
        let line = Stroke::solid(Ink::DARK_GREY, 0.18);
        items.push(Mark::line(pen::line(from, to), line).into());
        items.push(Mark::area(pen::circle(to, 0.3), Ink::DARK_GREY).into());
    }
    let onto = Affine::translate((spot.at.x0, spot.at.y0));
    items.extend(label.items.iter().map(|item| item.placed(onto)));
    Group::of(Layer::Labels, label.subject, items).into()
}

/// Whether two lines cross.
fn crosses((a, b): (Point, Point), (c, d): (Point, Point)) -> bool {
    let side = |from: Point, to: Point, at: Point| (to - from).cross(at - from);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

/// Whether a line runs into a box.
fn crosses_box(from: Point, to: Point, taken: Rect) -> bool {
    let corners = [
        Point::new(taken.x0, taken.y0),
        Point::new(taken.x1, taken.y0),
        Point::new(taken.x1, taken.y1),
        Point::new(taken.x0, taken.y1),
    ];
    taken.contains(from)
        || taken.contains(to)
        || (0..4).any(|side| crosses((from, to), (corners[side], corners[(side + 1) % 4])))
}

//! Where labels go: close to what they name, clear of everything else.
//!
//! Every label has a list of places that it could take. Labels are placed one
//! after the other where it costs least, those with the least freedom first,
//! then each is tried again among its neighbours until nothing moves. The order
//! is fixed, so the same sheet always comes out the same.

use std::collections::BinaryHeap;
use std::sync::OnceLock;

use kurbo::{Affine, Point, Rect, Size, Vec2};

use super::cheapest::Cheapest;
use super::crowd::Crowd;
use super::spot::{CLEAR, Spot};
use super::standing::{Standing, touch};
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
    /// Its leader, where it needs one.
    pub(super) leader: Option<(Point, Point)>,
    /// Its marks.
    pub(super) item: Item,
}

/// A place that was not looked at in full yet: short, since a sheet has a
/// hundred thousand.
#[derive(Clone, Copy, Debug)]
struct Maybe {
    middle: Point,
    /// What it costs as far as was counted.
    cost: f64,
    /// Whether a leader is needed.
    is_led: bool,
    /// What is still to be counted. None: all is.
    to_count: Option<Count>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Count {
    /// What it covers on its own line.
    Seat,
    /// What it covers elsewhere; then what its leader does.
    Covers,
    /// What its leader covers.
    Leader,
}

/// The places of a label: those whose cost is known, the cheapest first, and
/// those of which so far is known what they cost at least.
struct Spots {
    known: Vec<Spot>,
    maybes: Vec<Maybe>,
    /// By their places in `maybes`.
    rest: BinaryHeap<Cheapest<()>>,
    /// How many rings were made.
    rings: usize,
    /// Where the places lie that the best was chosen from.
    looked_at: Option<Rect>,
}

/// How far from its thing a label may go, mm, step by step.
const RINGS: [f64; 11] = [0.7, 1.8, 3.2, 5.0, 7.5, 10.0, 14.0, 19.0, 26.0, 36.0, 50.0];
/// A place up to this ring, mm, that costs less than [`FREE`] counts towards
/// the freedom of a label.
const FREE_RING: f64 = 5.0;
/// See [`FREE_RING`].
const FREE: f64 = 25.0;
/// Beyond this a leader line is needed, mm.
const NEAR: f64 = 2.4;
/// Covering another label is worse than anything else.
const CLASH: f64 = 5000.0;

/// The labels at the best places that could be found.
pub(super) fn placed(labels: &[Label], crowd: &Crowd) -> Vec<Placed> {
    let mut order: Vec<(usize, usize)> = Vec::new();
    let mut spots: Vec<Spots> = Vec::new();
    for (index, label) in labels.iter().enumerate() {
        let (of_label, freedom) = Spots::of(label, crowd);
        spots.push(of_label);
        order.push((freedom, index));
    }
    order.sort_unstable();
    let mut standing = Standing::none(labels.len(), crowd.space);
    // What moved, in its order, and how much of it each label knows of.
    let mut moves: Vec<Rect> = Vec::new();
    let mut known: Vec<usize> = vec![0; labels.len()];
    for round in 0..5 {
        let before = moves.len();
        for (_, index) in &order {
            let since = &moves[known[*index]..];
            known[*index] = moves.len();
            if round > 0 && !spots[*index].is_touched(since) {
                continue;
            }
            let near = Near { index: *index, standing: &standing };
            let best = spots[*index].best(&labels[*index], near, crowd);
            let old = standing.of(*index);
            if old != best {
                moves.extend([old, best].into_iter().flatten().map(|spot| spot.reach));
                standing.put(*index, best);
            }
        }
        if round > 0 && moves.len() == before {
            break;
        }
    }
    let places = labels.iter().enumerate().map(|(index, label)| (label, standing.of(index)));
    places
        .filter_map(|(label, chosen)| chosen.map(|spot| (label, spot)))
        .map(|(label, spot)| Placed { at: spot.at, leader: spot.leader, item: draw(label, &spot) })
        .collect()
}

impl Spots {
    /// The places of a label on its line and on the near rings, and how many of
    /// them are free (of those around, every other one is looked at).
    fn of(label: &Label, crowd: &Crowd) -> (Self, usize) {
        let near = RINGS.into_iter().take_while(|ring| *ring <= FREE_RING).count();
        let room = label.seats.len() + near * DIRECTIONS;
        let mut spots = Self {
            known: Vec::new(),
            maybes: Vec::with_capacity(room),
            rest: BinaryHeap::with_capacity(room),
            rings: 0,
            looked_at: None,
        };
        let mut freedom = 0;
        for maybe in seats(label, crowd) {
            freedom += spots.add(maybe, label, crowd, true);
        }
        for ring in RINGS.into_iter().take(near) {
            for (step, maybe) in around(label, crowd, ring) {
                freedom += spots.add(maybe, label, crowd, step.rem_euclid(2) == 0);
            }
            spots.rings += 1;
        }
        (spots, freedom)
    }

    /// Keeps a place in mind; 1 where it was looked at and is free.
    fn add(&mut self, mut maybe: Maybe, label: &Label, crowd: &Crowd, look: bool) -> usize {
        let mut cost = maybe.at_least(label, crowd);
        if look && cost < FREE {
            // What is counted to its end is not counted again by the choice.
            cost = maybe.count(label, crowd, FREE).unwrap_or(cost);
        }
        self.rest.push(Cheapest { cost, index: self.maybes.len(), what: () });
        self.maybes.push(maybe);
        usize::from(look && cost < FREE)
    }

    /// Whether any of these moves matters to the choice.
    fn is_touched(&self, moves: &[Rect]) -> bool {
        moves.iter().any(|one| self.looked_at.is_some_and(|all| touch(all, *one)))
    }

    /// The cheapest place among the other labels where they are now. A place
    /// is looked at only while what it costs at least is less than the best.
    fn best(&mut self, label: &Label, near: Near<'_>, crowd: &Crowd) -> Option<Spot> {
        let mut best: Option<(f64, Spot)> = None;
        let mut looked_at: Option<Rect> = None;
        let mut offer = |spot: &Spot, best: &mut Option<(f64, Spot)>| {
            looked_at = Some(looked_at.map_or(spot.reach, |all| all.union(spot.reach)));
            near.offer(spot, best);
        };
        for spot in &self.known {
            // They are in order of cost: none behind this is cheaper.
            if best.is_some_and(|(least, _)| spot.cost >= least) {
                break;
            }
            offer(spot, &mut best);
        }
        loop {
            let limit = best.map_or(f64::INFINITY, |(least, _)| least);
            let least = self.rest.peek().map_or(f64::INFINITY, |next| next.cost);
            if let Some(ring) = RINGS.get(self.rings)
                && label.on_ring(*ring) < least.min(limit)
            {
                self.rings += 1;
                for (_, maybe) in around(label, crowd, *ring) {
                    self.add(maybe, label, crowd, false);
                }
                continue;
            }
            if least >= limit {
                break;
            }
            let Some(next) = self.rest.pop() else { break };
            let maybe = &mut self.maybes[next.index];
            if let Some(cost) = maybe.count(label, crowd, limit) {
                self.rest.push(Cheapest { cost, ..next });
                continue;
            }
            let spot = maybe.spot(label);
            let at = self.known.partition_point(|spot| spot.cost <= next.cost);
            self.known.insert(at, spot);
            offer(&spot, &mut best);
        }
        self.looked_at = looked_at;
        best.map(|(_, spot)| spot)
    }
}

/// The other labels around the places of one.
#[derive(Clone, Copy)]
struct Near<'a> {
    index: usize,
    standing: &'a Standing,
}

impl Near<'_> {
    /// Keeps a place where it is cheaper, the other labels counted.
    fn offer(&self, spot: &Spot, best: &mut Option<(f64, Spot)>) {
        let limit = best.map_or(f64::INFINITY, |(least, _)| least);
        let mut cost = spot.cost;
        for other in self.standing.around(self.index, spot.reach) {
            cost += friction(spot, other);
            if cost >= limit {
                return;
            }
        }
        if cost < limit - 1e-9 {
            *best = Some((cost, *spot));
        }
    }
}

impl Maybe {
    const fn at(&self, label: &Label) -> Rect {
        around_middle(self.middle, label.size)
    }

    fn leader(&self, label: &Label) -> Option<(Point, Point)> {
        self.is_led.then(|| {
            let at = self.at(label);
            leader(at, label.tip_from(at.center()))
        })
    }

    fn spot(&self, label: &Label) -> Spot {
        Spot::new(self.at(label), self.cost, self.leader(label))
    }

    /// Counts the next thing, and says what the place costs at least; None
    /// where all is counted already. Beyond the limit it stops half-way.
    fn count(&mut self, label: &Label, crowd: &Crowd, limit: f64) -> Option<f64> {
        let cost = self.cost;
        let more = match self.to_count? {
            Count::Leader => self.leader(label).map_or(0.0, |line| crowd.line_cost(line)),
            Count::Covers => {
                let clear = self.at(label).inflate(CLEAR, CLEAR);
                crowd.cost(clear, None, limit - cost)
            }
            Count::Seat => {
                let clear = self.at(label).inflate(CLEAR / 2.0, CLEAR / 2.0);
                crowd.cost(clear, label.owner, limit - cost)
            }
        };
        if cost + more <= limit {
            self.cost += more;
            let leads = self.to_count == Some(Count::Covers) && self.is_led;
            self.to_count = leads.then_some(Count::Leader);
        }
        Some(cost + more)
    }

    /// What the place costs at least, before anything is counted.
    fn at_least(&self, label: &Label, crowd: &Crowd) -> f64 {
        match self.to_count {
            Some(Count::Covers) => self.cost + crowd.at_least(self.at(label).inflate(CLEAR, CLEAR)),
            _ => self.cost,
        }
    }
}

const fn around_middle(middle: Point, size: Size) -> Rect {
    let (wide, high) = (size.width / 2.0, size.height / 2.0);
    Rect::new(middle.x - wide, middle.y - high, middle.x + wide, middle.y + high)
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

/// Places on a label's own line.
fn seats<'a>(label: &'a Label, crowd: &'a Crowd) -> impl Iterator<Item = Maybe> + 'a {
    let seats = label.seats.iter().enumerate().map(|(index, seat)| {
        #[expect(clippy::cast_precision_loss, reason = "a few dozen seats")]
        let late = index as f64 * 0.05;
        Maybe { middle: *seat, cost: late, is_led: false, to_count: Some(Count::Seat) }
    });
    seats.filter(|seat| crowd.has_room(seat.at(label)))
}

impl Label {
    /// The same further along the paper.
    pub(super) fn moved(&self, by: Vec2) -> Self {
        let seats = self.seats.iter().map(|seat| *seat + by).collect();
        Self { beside: self.beside + by, tip: self.tip + by, seats, ..self.clone() }
    }

    /// Where a leader from there points: the middle of a symbol, of a large one
    /// just inside its edge, so that it does not run over it.
    fn tip_from(&self, from: Point) -> Point {
        const LARGE: f64 = 8.0;
        let (wide, high) = (self.beside.width(), self.beside.height());
        if wide.max(high) < LARGE {
            return self.tip;
        }
        let inset = wide.min(high).min(2.0) / 2.0;
        let inner = self.beside.inflate(-inset, -inset);
        Point::new(from.x.clamp(inner.x0, inner.x1), from.y.clamp(inner.y0, inner.y1))
    }

    /// What a place on a ring costs at least.
    const fn on_ring(&self, ring: f64) -> f64 {
        // It leaves its own line.
        let on_line = if self.seats.is_empty() { 0.0 } else { 5.0 };
        let leader = if self.is_led(ring) { 3.0 } else { 0.0 };
        ring * 1.1 + on_line + leader
    }

    /// Whether a leader is needed so far off.
    const fn is_led(&self, ring: f64) -> bool {
        ring > NEAR || !self.seats.is_empty()
    }
}

/// Places on a ring around what a label names, with the direction of each.
fn around<'a>(
    label: &'a Label,
    crowd: &'a Crowd,
    ring: f64,
) -> impl Iterator<Item = (usize, Maybe)> + 'a {
    let places = directions().iter().enumerate().map(move |(step, out)| {
        let out = *out;
        // On a square ring, so that labels line up with what they name.
        let stretch = out / out.x.abs().max(out.y.abs());
        let centre = label.beside.center()
            + Vec2::new(
                stretch.x * (label.beside.width() / 2.0 + ring + label.size.width / 2.0),
                stretch.y * (label.beside.height() / 2.0 + ring + label.size.height / 2.0),
            );
        let mut cost = label.on_ring(ring);
        if label.towards != Vec2::ZERO {
            cost += ((1.0 - out.dot(label.towards)) * 1.2).max(0.0);
        }
        let (is_led, to_count) = (label.is_led(ring), Some(Count::Covers));
        (step, Maybe { middle: centre, cost, is_led, to_count })
    });
    places.filter(|(_, place)| crowd.has_room(place.at(label)))
}

/// Even directions all around.
pub(super) fn directions() -> &'static [Vec2; DIRECTIONS] {
    static ALL: OnceLock<[Vec2; DIRECTIONS]> = OnceLock::new();
    ALL.get_or_init(|| {
        std::array::from_fn(|step| {
            #[expect(clippy::cast_precision_loss, reason = "two dozen")]
            let angle = step as f64 * core::f64::consts::PI / 12.0;
            Vec2::new(libm::cos(angle), libm::sin(angle))
        })
    })
}

/// So many places on a ring.
const DIRECTIONS: usize = 24;

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
pub(super) fn crosses_box(from: Point, to: Point, taken: Rect) -> bool {
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

//! Names of walls along their faces, in the room that the drawing leaves.
//!
//! They come last: nothing gives way to them. Where a face has no clear place
//! beside it, its name stands further off before it, with a leader.

mod edge;

use std::collections::BTreeSet;

use kurbo::{Point, Rect, Size, Vec2};

use self::edge::{CLEAR, Edge, Seat, TIP};
use super::crowd::{Crowd, Kind};
use super::labels::{self, Label, Placed, crosses_box};
use super::view::View;
use crate::plan::{Faces, LevelId, Plan, Subject, WallId};
use crate::sheet::lettering::{Lettering, Weight, text_width};
use crate::sheet::scene::{Anchor, Group, Item, Layer, Mark, Stroke, Text};
use crate::sheet::{Ink, pen};
/// A name with the stretches of face that it may stand along.
#[derive(Clone, Debug)]
pub(super) struct WallName {
    pub(super) wall: WallId,
    says: String,
    edges: Vec<Edge>,
}

/// What a place may cover: cables, two at most.
const BEARABLE: f64 = 13.0;
/// What a place with a leader may cost.
const WORST: f64 = 45.0;
/// Where along a face leaders of names anywhere around it may end.
const TIPS: [f64; 5] = [0.5, 0.3, 0.7, 0.15, 0.85];
/// What it costs to stand on the other side of the wall.
const BEHIND: f64 = 40.0;
/// From a face to a name anywhere around it, mm.
const FAR: [f64; 9] = [3.0, 5.0, 8.0, 12.0, 17.0, 24.0, 33.0, 45.0, 60.0];
/// For what is there to be found, and not in the way.
const INK: Ink = Ink::of(100, 100, 100);

/// The names of a level's walls, each with its faces.
pub(super) fn wall_names(plan: &Plan, faces: &Faces, level: LevelId, view: &View) -> Vec<WallName> {
    let mut names: Vec<WallName> = Vec::new();
    for piece in faces.pieces().iter().filter(|piece| piece.level == level) {
        let spans = piece.spans.iter();
        let edges: Vec<Edge> = spans
            .filter_map(|span| Edge::of(plan.walls.get(&span.wall)?, span, !piece.is_outside, view))
            .collect();
        let Some(wall) = piece.spans.first().map(|span| span.wall) else { continue };
        match names.iter_mut().find(|one| one.says == piece.name) {
            Some(name) => name.edges.extend(edges),
            None => names.push(WallName { wall, says: piece.name.clone(), edges }),
        }
    }
    names
}

/// The names among all that is lettered already; those with clear places first.
pub(super) fn lettered<'a>(
    names: impl Iterator<Item = &'a WallName>,
    crowd: &mut Crowd,
    placed: &[Placed],
) -> Vec<Item> {
    let mut taken = Taken::of(placed);
    let mut items: Vec<Item> = Vec::new();
    let mut crowded: Vec<&WallName> = Vec::new();
    for name in names {
        match name.seat(crowd, &taken) {
            Some(seat) => {
                taken.boxes.push(seat.at.inflate(CLEAR, CLEAR));
                taken.leaders.extend(seat.leader);
                items.push(name.draw(&seat));
            }
            None => crowded.push(name),
        }
    }
    if crowded.is_empty() {
        return items;
    }
    taken.add_to(crowd);
    let wanted: Vec<Label> = crowded.into_iter().filter_map(WallName::label).collect();
    items.extend(labels::placed(&wanted, crowd).into_iter().map(|label| label.item));
    items
}

/// What other lettering takes.
struct Taken {
    boxes: Vec<Rect>,
    leaders: Vec<(Point, Point)>,
}

impl Taken {
    fn of(placed: &[Placed]) -> Self {
        Self {
            boxes: placed.iter().map(|label| label.at.inflate(CLEAR, CLEAR)).collect(),
            leaders: placed.iter().filter_map(|label| label.leader).collect(),
        }
    }

    fn is_free(&self, at: Rect) -> bool {
        let apart =
            |one: &Rect| one.x1 <= at.x0 || at.x1 <= one.x0 || one.y1 <= at.y0 || at.y1 <= one.y0;
        self.boxes.iter().all(apart)
            && !self.leaders.iter().any(|(from, to)| crosses_box(*from, *to, at))
    }

    fn is_open(&self, (from, to): (Point, Point)) -> bool {
        !self.boxes.iter().any(|one| crosses_box(from, to, *one))
    }

    fn add_to(&self, crowd: &mut Crowd) {
        for taken in &self.boxes {
            crowd.add(*taken, Kind::Name, None);
        }
        for (from, to) in &self.leaders {
            crowd.add_path(&pen::line(*from, *to), 0.2, Kind::Run, None);
        }
        crowd.settle();
    }
}

impl WallName {
    fn width(&self) -> f64 {
        text_width(&self.says, Lettering::Note, Weight::Regular)
    }

    /// The clearest place beside one of its faces, the middle of the longest
    /// first. None where all cover something.
    fn seat(&self, crowd: &Crowd, taken: &Taken) -> Option<Seat> {
        let mut best: Option<(f64, Seat)> = None;
        for edge in &self.edges {
            for seat in edge.seats(self.width()) {
                let limit = best.map_or(BEARABLE, |(least, _)| least);
                if seat.cost >= limit {
                    break;
                }
                if !crowd.has_room(seat.at)
                    || crowd.at_least(seat.clear) >= limit
                    || !taken.is_free(seat.at)
                {
                    continue;
                }
                let cost = seat.cost + crowd.cost(seat.clear, None, limit);
                if cost < limit {
                    best = Some((cost, seat));
                }
            }
        }
        best.map(|(_, seat)| seat).or_else(|| self.led(crowd, taken))
    }

    /// The clearest place further off before one of its faces, with a leader
    /// straight to it.
    fn led(&self, crowd: &Crowd, taken: &Taken) -> Option<Seat> {
        let size = Size::new(self.width(), Lettering::Note.mm());
        let mut best: Option<(f64, Seat)> = None;
        for seat in self.edges.iter().flat_map(|edge| edge.led_seats(size)) {
            let limit = best.map_or(WORST, |(least, _)| least);
            if seat.cost >= limit || !crowd.has_room(seat.at) || !taken.is_free(seat.at) {
                continue;
            }
            let Some(leader) = seat.leader.filter(|line| taken.is_open(*line)) else { continue };
            let cost = seat.cost + crowd.line_cost(leader);
            if cost >= limit || cost + crowd.at_least(seat.clear) >= limit {
                continue;
            }
            let cost = cost + crowd.cost(seat.clear, None, limit);
            if cost < limit {
                best = Some((cost, seat));
            }
        }
        best.map(|(_, seat)| seat).or_else(|| self.anywhere(crowd, taken))
    }

    /// Wherever nothing but cables is covered, with a leader.
    fn anywhere(&self, crowd: &Crowd, taken: &Taken) -> Option<Seat> {
        let size = Size::new(self.width(), Lettering::Note.mm());
        let edge = self.longest()?;
        let mut best: Option<(f64, Seat)> = None;
        let tips = TIPS.map(|share| edge.from.lerp(edge.to, share) + edge.out * TIP);
        let places = FAR.iter().flat_map(|far| tips.iter().map(move |tip| (*far, *tip)));
        let around = |(far, tip)| labels::directions().iter().map(move |way| (far, tip, *way));
        for (far, tip, way) in places.flat_map(around) {
            let middle = tip + way * (far + size.width / 2.0);
            let at = Rect::from_center_size(middle, size);
            let clear = at.inflate(CLEAR, CLEAR);
            // Rather in the room than behind the wall.
            let cost = far + if way.dot(edge.out) < 0.1 { BEHIND } else { 0.0 };
            let least = best.map_or(f64::INFINITY, |(least, _)| least);
            let is_free = cost < least && crowd.has_room(at) && taken.is_free(at);
            if !is_free || !crowd.only_runs(clear) {
                continue;
            }
            let from = Point::new(tip.x.clamp(at.x0, at.x1), tip.y.clamp(at.y0, at.y1));
            let covers = crowd.line_cost((from, tip)) * 0.3 + crowd.cost(clear, None, 200.0) * 0.15;
            if cost + covers < least {
                let leader = Some((from, tip));
                best = Some((cost + covers, Seat { middle, at, clear, turn: 0.0, leader, cost }));
            }
        }
        best.map(|(_, seat)| seat)
    }

    /// Its longest face, one in a room before one outdoors.
    fn longest(&self) -> Option<&Edge> {
        let length = |edge: &&Edge| pen::length(edge.to - edge.from);
        let rooms = self.edges.iter().filter(|edge| edge.is_indoors);
        let longest = |a: &&Edge, b: &&Edge| length(a).total_cmp(&length(b));
        rooms.max_by(longest).or_else(|| self.edges.iter().max_by(longest))
    }

    fn text(&self, middle: Point, turn: f64) -> Text {
        let (sin, cos) = (libm::sin(turn.to_radians()), libm::cos(turn.to_radians()));
        let down = Vec2::new(-sin, cos) * (Lettering::Note.mm() / 2.0);
        let text = Text::new(self.says.clone(), middle + down, Lettering::Note);
        Text { turn, ..text }.anchored(Anchor::Middle).inked(INK).haloed()
    }

    fn draw(&self, seat: &Seat) -> Item {
        let mut items: Vec<Item> = Vec::new();
        if let Some((from, to)) = seat.leader {
            items.push(Mark::line(pen::line(from, to), Stroke::solid(INK, 0.18)).into());
            items.push(Mark::area(pen::circle(to, 0.3), INK).into());
        }
        items.push(self.text(seat.middle, seat.turn).into());
        Group::of(Layer::Labels, Subject::Wall(self.wall), items).into()
    }

    /// With a leader to the middle of its longest face.
    fn label(&self) -> Option<Label> {
        let edge = self.longest()?;
        let size = Size::new(self.width(), Lettering::Note.mm());
        let tip = edge.from.midpoint(edge.to) + edge.out * TIP;
        Some(Label {
            size,
            items: vec![self.text(size.to_rect().center(), 0.0).into()],
            beside: Rect::from_center_size(tip, (0.1, 0.1)),
            tip,
            towards: edge.out,
            // A leader wherever it does not stand beside the face itself.
            seats: vec![edge.beside(0.5, size)],
            owner: None,
            subject: Subject::Wall(self.wall),
        })
    }
}

/// The walls in which a circuit's cable lies and on which its ends hang: those
/// that a sheet about it alone names.
pub(super) fn of_circuit(
    plan: &Plan,
    runs: &crate::runs::Runs,
    circuit: crate::plan::CircuitId,
) -> BTreeSet<WallId> {
    use crate::plan::{Place, Plane};
    let legs = runs.circuits.get(&circuit).into_iter().flat_map(|run| &run.legs);
    let mut walls = BTreeSet::new();
    for leg in legs {
        let planes = leg.route.segments.iter().filter_map(|segment| segment.plane);
        walls.extend(planes.filter_map(|plane| match plane {
            Plane::Wall(id) => Some(id),
            Plane::Void(_) => None,
        }));
        let places = [leg.from, leg.to].into_iter().filter_map(|end| plan.place_of(end));
        walls.extend(places.filter_map(|place| match place {
            Place::Wall(on) => Some(on.wall),
            _ => None,
        }));
    }
    walls
}

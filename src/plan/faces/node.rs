//! Places where walls meet, with the arms that leave them.

use kurbo::{Point, Vec2};

use super::super::Face;
use super::line::{Line, Tip};
use super::meeting::{Meeting, NEAR, Port, intersection};

/// A place where walls meet.
#[derive(Debug)]
pub(super) struct Node {
    /// One for every wall that ends there, two for one that goes through.
    pub(super) arms: Vec<Arm>,
}

/// A wall seen from a place where it meets others.
#[derive(Clone, Copy, Debug)]
pub(super) struct Arm {
    pub(super) wall: usize,
    /// Whether it leaves towards the wall's end `b`.
    pub(super) forward: bool,
    /// The end of the wall that is here; none for one that goes through.
    pub(super) tip: Option<Tip>,
    /// How far along the wall it begins.
    pub(super) along: f64,
    /// The same on the page, on the centre line.
    pub(super) at: Point,
    /// Which way it leaves, of length one.
    pub(super) way: Vec2,
    /// How far it goes.
    pub(super) reach: f64,
    /// Where its end is drawn, out from the node: nought where it is exact.
    pub(super) end: f64,
    pub(super) half: f64,
    pub(super) is_screen: bool,
}

impl Node {
    /// The walls that meet here, two by two, the earlier first.
    pub(super) fn pairs(&self) -> Vec<(usize, usize)> {
        let pair = |one: &Arm, other: &Arm| (one.wall.min(other.wall), one.wall.max(other.wall));
        let all =
            self.arms.iter().flat_map(|one| self.arms.iter().map(move |other| pair(one, other)));
        all.filter(|(one, other)| one != other).collect()
    }
}

impl Arm {
    fn of(lines: &[Line], wall: usize, tip: Option<Tip>, forward: bool, centre: Point) -> Self {
        let line = &lines[wall];
        let along = line.along(centre);
        Self {
            wall,
            forward,
            tip,
            along,
            at: line.at(along),
            way: if forward { line.way } else { -line.way },
            reach: if forward { line.length - along } else { along },
            end: if forward { -along } else { along - line.length },
            half: line.half,
            is_screen: line.is_screen,
        }
    }

    /// The face of its wall on a side of it as it leaves.
    pub(super) const fn face(&self, side: Face) -> Face {
        match (self.forward, side) {
            (true, side) => side,
            (false, Face::Left) => Face::Right,
            (false, Face::Right) => Face::Left,
        }
    }

    /// Where its wall ends as drawn, on the page.
    pub(super) fn tip_at(&self) -> Point {
        self.at + self.way * self.end
    }

    /// How far out on it a place is.
    pub(super) fn out_of(&self, at: Point) -> f64 {
        (at - self.at).dot(self.way)
    }

    /// So far along its wall is a place so far out on it.
    pub(super) fn along(&self, out: f64) -> f64 {
        if self.forward { self.along + out } else { self.along - out }
    }
}

/// What meets where: meetings that share an end of a wall are one place.
pub(super) fn nodes(lines: &[Line], meetings: &[Meeting]) -> Vec<Node> {
    // Ends of walls, and after them the places along walls that go through.
    let mut groups = Groups((0..2 * lines.len() + 2 * meetings.len()).collect());
    let mut through: Vec<(usize, usize, f64)> = Vec::new();
    let mut used: Vec<usize> = Vec::new();
    for meeting in meetings {
        let mut slot = |(wall, port): (usize, Port)| match port {
            Port::Tip(tip) => 2 * wall + usize::from(tip == Tip::B),
            Port::Through(along) => {
                let slot = 2 * lines.len() + through.len();
                through.push((slot, wall, along));
                slot
            }
        };
        let (one, other) = (slot(meeting.one), slot(meeting.other));
        groups.join(one, other);
        used.extend([one, other]);
    }
    used.sort_unstable();
    used.dedup();
    let mut members: Vec<(usize, usize)> =
        used.into_iter().map(|slot| (groups.first(slot), slot)).collect();
    members.sort_unstable();
    let together = members.chunk_by(|a, b| a.0 == b.0);
    let port = |slot: usize| match slot.checked_sub(2 * lines.len()) {
        None if slot.is_multiple_of(2) => (slot.div_euclid(2), Port::Tip(Tip::A)),
        None => (slot.div_euclid(2), Port::Tip(Tip::B)),
        Some(later) => (through[later].1, Port::Through(through[later].2)),
    };
    together
        .map(|slots| node(lines, &slots.iter().map(|(_, slot)| port(*slot)).collect::<Vec<_>>()))
        .collect()
}

fn node(lines: &[Line], ports: &[(usize, Port)]) -> Node {
    let centre = centre(lines, ports);
    let mut arms: Vec<Arm> = Vec::new();
    for (wall, port) in ports {
        if arms.iter().any(|arm| arm.wall == *wall) {
            // A wall within others from end to end shows no face of its own;
            // one that several meet in one place goes through it once.
            continue;
        }
        let arm = |tip, forward| Arm::of(lines, *wall, tip, forward, centre);
        match port {
            Port::Tip(Tip::A) => arms.push(arm(Some(Tip::A), true)),
            Port::Tip(Tip::B) => arms.push(arm(Some(Tip::B), false)),
            Port::Through(_) => arms.extend([arm(None, true), arm(None, false)]),
        }
    }
    Node { arms }
}

/// Where the centre lines meet; where they do not quite, near their ends.
fn centre(lines: &[Line], ports: &[(usize, Port)]) -> Point {
    let ends: Vec<Point> = ports
        .iter()
        .filter_map(|(wall, port)| match port {
            Port::Tip(tip) => Some(lines[*wall].tip(*tip)),
            Port::Through(_) => None,
        })
        .collect();
    let count = u32::try_from(ends.len()).map_or(1.0, f64::from);
    let sum = ends.iter().fold(Vec2::ZERO, |sum, end| sum + end.to_vec2());
    let mean = (sum / count.max(1.0)).to_point();
    let through = ports.iter().any(|(_, port)| matches!(port, Port::Through(_)));
    let spread = |end: &Point| libm::hypot(end.x - mean.x, end.y - mean.y) > 1.5;
    if !through && !ends.iter().any(spread) {
        return mean;
    }
    for (index, (one, _)) in ports.iter().enumerate() {
        for (other, _) in &ports[index + 1..] {
            let (one, other) = (&lines[*one], &lines[*other]);
            let Some(at) = intersection(one, other) else { continue };
            let reach = 2.0 * (one.half + other.half + NEAR);
            if ends.is_empty() || libm::hypot(at.x - mean.x, at.y - mean.y) <= reach {
                return at;
            }
        }
    }
    mean
}

/// Which things belong together, each group by its first.
struct Groups(Vec<usize>);

impl Groups {
    fn first(&mut self, of: usize) -> usize {
        let mut first = of;
        while self.0[first] != first {
            self.0[first] = self.0[self.0[first]];
            first = self.0[first];
        }
        first
    }

    fn join(&mut self, one: usize, other: usize) {
        let (one, other) = (self.first(one), self.first(other));
        let (low, high) = (one.min(other), one.max(other));
        self.0[high] = low;
    }
}

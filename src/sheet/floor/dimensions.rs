//! Dimension lines around the building: a chain of rooms and walls on each
//! side, as one meets them from outside, and the whole at the foot and at the
//! left.
//!
//! Ticks, not arrows, as on building drawings (ISO 129-1 allows both, *from
//! memory*). Rooms are measured clear, from face to face; walls between them
//! have their thickness where it can be written.

use kurbo::{Point, Rect, Vec2};

use super::crowd::{Crowd, Kind};
use super::view::View;
use crate::plan::{LevelId, Plan, RoomUse};
use crate::sheet::lettering::{Lettering, Weight, text_width};
use crate::sheet::scene::{Group, Item, Layer, Mark, Stroke, Text};
use crate::sheet::{Ink, pen};
use crate::units::Mm;
use crate::wording::figure;

/// Room around the drawing for dimension lines, mm.
pub(super) const MARGIN: f64 = 30.0;
/// From the building to the chain of rooms at least, mm.
const CHAIN: f64 = 17.0;
/// From what stands outside to the chain, mm.
const CLEAR: f64 = 9.0;
/// What is further off than this is passed by, mm.
const FAR: f64 = 45.0;
/// From the chain to the whole, mm.
const NEXT: f64 = 8.0;
const TEXT: Lettering = Lettering::Tag;
/// Rooms no further apart than this belong to one building, mm of plan.
const TOGETHER: f64 = 700.0;

/// A box of the plan, mm.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
struct Extent {
    low: [i64; 2],
    high: [i64; 2],
}

impl Extent {
    fn of(places: impl Iterator<Item = [i64; 2]>) -> Option<Self> {
        places.map(|at| Self { low: at, high: at }).reduce(Self::with)
    }

    fn with(self, other: Self) -> Self {
        let both =
            |of: fn(i64, i64) -> i64, a: [i64; 2], b: [i64; 2]| [of(a[0], b[0]), of(a[1], b[1])];
        Self {
            low: both(i64::min, self.low, other.low),
            high: both(i64::max, self.high, other.high),
        }
    }

    fn near(self, other: Self, by: i64) -> bool {
        (0..2).all(|axis| {
            self.low[axis] <= other.high[axis] + by && other.low[axis] <= self.high[axis] + by
        })
    }
}

/// The dimension lines of a level's largest building, the boxes around its
/// blocks of walls given. None where nothing is drawn that could be measured.
pub(super) fn draw(plan: &Plan, level: LevelId, view: &View, blocks: &[Rect]) -> Vec<Item> {
    let outlines = rooms(plan, level);
    let around: Vec<Extent> = outlines.iter().filter_map(|one| extent(one)).collect();
    let rooms = building(&around);
    let Some(whole) = outline(plan, level, &rooms) else { return Vec::new() };
    let whole = beyond_skew(plan, level, whole, &rooms, view, blocks);
    let mut items = Vec::new();
    for side in Side::ALL {
        let axis = side.axis();
        let mut chain = vec![(whole.low[axis], whole.low[axis])];
        let own = outlines.iter().filter(|one| extent(one).is_some_and(|it| rooms.contains(&it)));
        let edges: Vec<Extent> = own.filter_map(|one| nearest_edge(one, side)).collect();
        chain.extend(seen_from(&edges, side));
        chain.push((whole.high[axis], whole.high[axis]));
        let off = beyond(plan, level, whole, side, view);
        if is_crossed(plan, level, whole, side, view.back_length(off)) {
            continue;
        }
        if chain.len() > 3 || (chain.len() == 3 && !side.has_whole()) {
            let mut stations: Vec<i64> = chain.iter().flat_map(|(from, to)| [*from, *to]).collect();
            stations.dedup();
            items.push(line(side, &stations, whole, off, view));
        }
        if side.has_whole() {
            let ends = [whole.low[axis], whole.high[axis]];
            items.push(line(side, &ends, whole, off + NEXT, view));
        }
    }
    items
}

/// Lettering keeps clear of figures, and rather of lines.
pub(super) fn take(item: &Item, crowd: &mut Crowd) {
    match item {
        Item::Group(group) => group.items.iter().for_each(|item| take(item, crowd)),
        Item::Text(text) => crowd.add(text.bounds(), Kind::Mark, None),
        Item::Path(mark) => crowd.add_path(&mark.path, 0.18, Kind::Opening, None),
    }
}

/// The side of a building that a chain stands on, by the paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Side {
    Foot,
    Left,
    Top,
    Right,
}

impl Side {
    const ALL: [Self; 4] = [Self::Foot, Self::Left, Self::Top, Self::Right];

    /// Along which axis it is measured.
    const fn axis(self) -> usize {
        match self {
            Self::Foot | Self::Top => 0,
            Self::Left | Self::Right => 1,
        }
    }

    const fn has_whole(self) -> bool {
        matches!(self, Self::Foot | Self::Left)
    }

    /// How far in a room lies, seen from here: less is nearer.
    const fn depth(self, room: Extent) -> i64 {
        match self {
            Self::Foot => room.low[1],
            Self::Left => room.low[0],
            Self::Top => -room.high[1],
            Self::Right => -room.high[0],
        }
    }
}

/// The box around corners.
fn extent(corners: &[[i64; 2]]) -> Option<Extent> {
    Extent::of(corners.iter().copied())
}

/// The wall of a room that is nearest to a side: of an angled room the part in
/// front. Where only a corner is in front, the room is as wide as it is between
/// the two walls square to the chain; None where it lacks one of them.
fn nearest_edge(corners: &[[i64; 2]], side: Side) -> Option<Extent> {
    let whole = extent(corners)?;
    let (axis, across) = (side.axis(), 1 - side.axis());
    let front = match side {
        Side::Foot | Side::Left => whole.low[across],
        Side::Top | Side::Right => whole.high[across],
    };
    let edge = Extent::of(corners.iter().copied().filter(|at| at[across] == front))?;
    if edge.low[axis] < edge.high[axis] {
        return Some(edge);
    }
    let next = corners.iter().cycle().skip(1);
    let walls: Vec<(&[i64; 2], &[i64; 2])> = corners.iter().zip(next).collect();
    let is_wall = |at: i64| walls.iter().any(|(a, b)| a[axis] == at && b[axis] == at);
    let (low, high) = (whole.low[axis], whole.high[axis]);
    (is_wall(low) && is_wall(high)).then(|| {
        let mut wide = edge;
        (wide.low[axis], wide.high[axis]) = (low, high);
        wide
    })
}

/// Corners of the rooms indoors.
fn rooms(plan: &Plan, level: LevelId) -> Vec<Vec<[i64; 2]>> {
    let indoors = plan.rooms.values().filter(|room| {
        room.level == level && room.usage != RoomUse::Outdoor && room.outline.len() > 2
    });
    indoors.map(|room| room.outline.iter().map(|at| [at.x.get(), at.y.get()]).collect()).collect()
}

/// Those of the largest building: sheds stand apart.
fn building(rooms: &[Extent]) -> Vec<Extent> {
    #[expect(clippy::cast_possible_truncation, reason = "a whole number")]
    let by = TOGETHER as i64;
    let mut left: Vec<Extent> = rooms.to_vec();
    let mut buildings: Vec<Vec<Extent>> = Vec::new();
    while let Some(first) = left.pop() {
        let mut one = vec![first];
        let mut at = 0;
        while at < one.len() {
            let from = one[at];
            let (near, far): (Vec<Extent>, Vec<Extent>) =
                left.into_iter().partition(|room| room.near(from, by));
            one.extend(near);
            left = far;
            at += 1;
        }
        buildings.push(one);
    }
    let area = |rooms: &Vec<Extent>| -> i64 {
        rooms.iter().map(|room| (room.high[0] - room.low[0]) * (room.high[1] - room.low[1])).sum()
    };
    buildings.into_iter().max_by_key(area).unwrap_or_default()
}

/// The outer faces of the walls around these rooms; of all walls where there
/// are no rooms.
fn outline(plan: &Plan, level: LevelId, rooms: &[Extent]) -> Option<Extent> {
    let walls = plan.walls.values().filter(|wall| wall.level == level && wall.length() > 0.0);
    let walls = walls.filter_map(|wall| {
        let half = wall.thickness.half().get();
        let upright = wall.a.x == wall.b.x;
        let level = wall.a.y == wall.b.y;
        let across = [if upright { half } else { 0 }, if level { half } else { 0 }];
        (upright || level).then_some(())?;
        let ends = [wall.a, wall.b].map(|at| [at.x.get(), at.y.get()]);
        let around = ends.into_iter().flat_map(|at| {
            [[at[0] - across[0], at[1] - across[1]], [at[0] + across[0], at[1] + across[1]]]
        });
        Extent::of(around)
    });
    let whole = rooms.iter().copied().reduce(Extent::with);
    walls
        .filter(|wall| {
            // Around the rooms, not off to a shed or a fence.
            whole.is_none_or(|all| {
                (0..2).all(|axis| {
                    all.low[axis] - 700 <= wall.low[axis] && wall.high[axis] <= all.high[axis] + 700
                })
            })
        })
        .reduce(Extent::with)
}

/// Where a skew wall reaches beyond those along the page, its outermost corner
/// counts, as it is drawn.
fn beyond_skew(
    plan: &Plan,
    level: LevelId,
    mut whole: Extent,
    rooms: &[Extent],
    view: &View,
    blocks: &[Rect],
) -> Extent {
    let Some(inside) = rooms.iter().copied().reduce(Extent::with) else { return whole };
    let drawn = blocks.iter().map(|block| {
        let corners = [(block.x0, block.y0), (block.x1, block.y1)].map(Point::from);
        let places = corners.map(|at| view.back(at));
        Extent::of(places.into_iter().map(|(x, y)| [x, y].map(whole_mm)))
    });
    let mut drawn = drawn.flatten().filter(|one| one.near(inside, 0));
    let Some(first) = drawn.next() else { return whole };
    let drawn = drawn.fold(first, Extent::with);
    let walls = plan.walls.values().filter(|wall| wall.level == level);
    for wall in walls.filter(|wall| wall.a.x != wall.b.x && wall.a.y != wall.b.y) {
        let ends = [wall.a, wall.b].map(|at| [at.x.get(), at.y.get()]);
        for end in ends {
            for (axis, at) in end.into_iter().enumerate() {
                let reach = wall.thickness.get();
                if (whole.high[axis] - reach..inside.high[axis] + 700).contains(&at) {
                    whole.high[axis] = whole.high[axis].max(drawn.high[axis]);
                }
                if (inside.low[axis] - 700..whole.low[axis] + reach).contains(&at) {
                    whole.low[axis] = whole.low[axis].min(drawn.low[axis]);
                }
            }
        }
    }
    whole
}

/// A length of the plan to the nearest mm.
fn whole_mm(length: f64) -> i64 {
    Mm::from_f64(length).map_or(0, Mm::get)
}

/// How far off a chain stands on paper: beyond a porch and lights outside.
fn beyond(plan: &Plan, level: LevelId, whole: Extent, side: Side, view: &View) -> f64 {
    let outdoors = plan.rooms.values().filter(|room| room.level == level);
    let mut places: Vec<[i64; 2]> =
        outdoors.flat_map(|room| room.outline.iter().map(|at| [at.x.get(), at.y.get()])).collect();
    let ends = plan.points.values().filter_map(|point| point.place);
    let ends = ends.filter(|place| plan.level_of(place) == Some(level));
    let ends = ends.filter_map(|place| plan.position(&place));
    places.extend(ends.map(|at| [at.x.get(), at.y.get()]));
    let axis = side.axis();
    let out = places.into_iter().filter_map(|at| {
        let beside = whole.low[axis] <= at[axis] && at[axis] <= whole.high[axis];
        let off = match side {
            Side::Foot => whole.low[1] - at[1],
            Side::Left => whole.low[0] - at[0],
            Side::Top => at[1] - whole.high[1],
            Side::Right => at[0] - whole.high[0],
        };
        let off = view.length(Mm::new(off).to_f64());
        (beside && off <= FAR).then_some(off + CLEAR)
    });
    out.fold(CHAIN, f64::max)
}

/// Whether a wall runs on through where a chain would stand, as where a
/// building is half drawn.
fn is_crossed(plan: &Plan, level: LevelId, whole: Extent, side: Side, off: f64) -> bool {
    let (axis, off) = (side.axis(), whole_mm(off));
    let across = 1 - axis;
    let at = match side {
        Side::Foot | Side::Left => whole.low[across] - off,
        Side::Top | Side::Right => whole.high[across] + off,
    };
    let walls = plan.walls.values().filter(|wall| wall.level == level);
    let mut around = walls.filter_map(|wall| {
        Extent::of([wall.a, wall.b].into_iter().map(|at| [at.x.get(), at.y.get()]))
    });
    around.any(|wall| {
        wall.low[across] < at
            && at < wall.high[across]
            && whole.low[axis] <= wall.high[axis]
            && wall.low[axis] <= whole.high[axis]
    })
}

/// From where to where each room reaches that one meets first from a side; a
/// room half behind another shows what of it is seen.
fn seen_from(rooms: &[Extent], side: Side) -> Vec<(i64, i64)> {
    let axis = side.axis();
    let mut order = rooms.to_vec();
    order.sort_by_key(|room| (side.depth(*room), room.low[axis], room.high[axis]));
    let mut seen: Vec<(i64, i64)> = Vec::new();
    for room in order {
        let (low, high) = (room.low[axis], room.high[axis]);
        // Only rooms that are seen whole: a part of one says nothing.
        if seen.iter().all(|(from, to)| high <= *from || *to <= low) {
            seen.push((low, high));
        }
    }
    seen.sort_unstable();
    seen
}

/// A line with a tick at every station and a figure between them.
fn line(side: Side, stations: &[i64], whole: Extent, off: f64, view: &View) -> Item {
    let place = |at: i64| -> (Point, Vec2) {
        let (x, y) = match side {
            Side::Foot => (at, whole.low[1]),
            Side::Top => (at, whole.high[1]),
            Side::Left => (whole.low[0], at),
            Side::Right => (whole.high[0], at),
        };
        let out = match side {
            Side::Foot => Vec2::new(0.0, 1.0),
            Side::Top => Vec2::new(0.0, -1.0),
            Side::Left => Vec2::new(-1.0, 0.0),
            Side::Right => Vec2::new(1.0, 0.0),
        };
        (view.at(Mm::new(x).to_f64(), Mm::new(y).to_f64()), out)
    };
    let thin = Stroke::solid(Ink::BLACK, 0.18);
    let mut items: Vec<Item> = Vec::new();
    let mut places: Vec<Point> = Vec::new();
    for station in stations {
        let (foot, out) = place(*station);
        let at = foot + out * off;
        items.push(Mark::line(pen::line(at - out * 2.6, at + out * 1.2), thin).into());
        let slash = Vec2::new(0.8, -0.8);
        let heavy = Stroke::solid(Ink::BLACK, 0.35);
        items.push(Mark::line(pen::line(at - slash, at + slash), heavy).into());
        places.push(at);
    }
    if let (Some(first), Some(last)) = (places.first(), places.last()) {
        let along = pen::unit(*last - *first) * 1.2;
        items.insert(0, Mark::line(pen::line(*first - along, *last + along), thin).into());
    }
    for (pair, at) in stations.windows(2).zip(places.windows(2)) {
        items.extend(figure_between(side, Mm::new(pair[1] - pair[0]), at[0], at[1]));
    }
    Group::new(Layer::Dimensions, items).into()
}

/// The figure over its stretch, read from the foot or from the right. None
/// where it would not fit: the thickness of a thin wall.
fn figure_between(side: Side, length: Mm, from: Point, to: Point) -> Option<Item> {
    let says = figure(length);
    let room = pen::length(to - from);
    if text_width(&says, TEXT, Weight::Regular) + 0.8 > room {
        return None;
    }
    let middle = from.midpoint(to);
    let text = Text::new(says, middle, TEXT).anchored(crate::sheet::Anchor::Middle).haloed();
    Some(match side.axis() {
        0 => Text { at: middle + Vec2::new(0.0, -0.8), ..text }.into(),
        _ => Text { at: middle + Vec2::new(-0.8, 0.0), turn: -90.0, ..text }.into(),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    const fn room(low: [i64; 2], high: [i64; 2]) -> Extent {
        Extent { low, high }
    }

    /// Two rooms before a third: from the foot the two are seen, from the top
    /// the one behind; a shed 5 m off is another building.
    #[test]
    fn a_side_shows_the_rooms_one_meets_first() {
        let rooms = [
            room([0, 0], [3000, 4000]),
            room([3100, 0], [7000, 4000]),
            room([0, 4100], [7000, 8000]),
            room([12_000, 0], [14_000, 2000]),
        ];
        let house = building(&rooms);
        assert_eq!(house.len(), 3, "the shed stands apart");
        assert_eq!(seen_from(&house, Side::Foot), [(0, 3000), (3100, 7000)]);
        assert_eq!(seen_from(&house, Side::Top), [(0, 7000)]);
        assert_eq!(seen_from(&house, Side::Left), [(0, 4000), (4100, 8000)]);
    }

    /// A room under a skew wall is measured between its walls square to the
    /// chain; one that has a corner only at both ends is left out.
    #[test]
    fn a_room_behind_a_skew_wall_is_as_wide_as_between_its_walls() {
        let skew = [[0, 0], [3000, 0], [3000, 4000], [0, 3000]];
        let edge = |side| nearest_edge(&skew, side).map(|it| (it.low, it.high));
        assert_eq!(edge(Side::Top), Some(([0, 4000], [3000, 4000])), "its width");
        assert_eq!(edge(Side::Left), Some(([0, 0], [0, 3000])), "its shorter wall");
        let tent = [[0, 0], [2000, 0], [1000, 2000]];
        assert_eq!(nearest_edge(&tent, Side::Top), None, "no wall at either side");
    }

    #[test]
    fn figures_stand_along_their_line_and_short_ones_stay_away() {
        let (from, to) = (Point::new(0.0, 0.0), Point::new(40.0, 0.0));
        let item = figure_between(Side::Foot, Mm::new(2000), from, to).expect("room for it");
        let around = item.bounds().expect("lettering");
        assert!(around.y1 < 0.5, "above its line");
        let narrow = Point::new(2.0, 0.0);
        assert!(figure_between(Side::Foot, Mm::new(110), from, narrow).is_none(), "too narrow");
    }
}

//! A part of a space cut out, to search for near ends in it alone.

use std::sync::Arc;

use super::{PercentArea, Rect, Space, Terminal, VoidField, WallField};
use crate::units::Point2;

/// What is inside an upright box through all storeys of a space. Its walls have
/// numbers of their own, its voids those of the whole.
///
/// Within the box nothing differs: a cut that runs through an area leaves the
/// edge of the void there, but the area is as dear as before.
#[derive(Clone, Debug)]
pub struct Window {
    /// The part.
    pub space: Space,
    /// The box on the page.
    pub rect: Rect,
    /// For each wall its number in the space that it was cut from, rising, and
    /// whether all of its columns are inside.
    walls: Vec<(usize, bool)>,
}

/// How far beyond the box a void in a turned frame goes on, so that rounding
/// takes no place out of it, mm.
const ROUNDING: i64 = 10;

impl Space {
    /// Cuts out what is inside a box on the page, without the meetings of walls.
    #[must_use]
    pub fn within(&self, rect: Rect) -> Window {
        self.cut(rect, 0..self.walls.len())
    }

    /// The same of those walls that are near, by their rising numbers.
    pub(super) fn cut(&self, rect: Rect, near: impl Iterator<Item = usize>) -> Window {
        let mut space = Self {
            voids: self.voids.iter().map(|void| cut_void(void, rect)).collect(),
            walls: Vec::new(),
            meets: Vec::new(),
            risers: Vec::new(),
            tariff: self.tariff,
            sideways_through: self.sideways_through,
        };
        let mut walls = Vec::new();
        for index in near {
            if let Some((part, whole)) = cut_wall(&self.walls[index], rect) {
                space.walls.push(part);
                walls.push((index, whole));
            }
        }
        let inside = |(void, at): &(usize, (i64, i64))| {
            holds(&rect, self.voids[*void].frame.page_from_frame(*at))
        };
        let risers = self.risers.iter().map(|one| one.iter().copied().filter(inside).collect());
        space.risers = risers.filter(|riser: &Vec<_>| riser.len() > 1).collect();
        Window { space, rect, walls }
    }
}

impl Window {
    /// The numbers of its walls in the space that this was cut from.
    pub(super) fn numbers(&self) -> impl Iterator<Item = usize> {
        self.walls.iter().map(|wall| wall.0)
    }

    /// The number here of a wall of the space that this was cut from. None where
    /// a part of it is outside.
    #[must_use]
    pub fn whole(&self, wall: usize) -> Option<usize> {
        let here = self.walls.binary_search_by_key(&wall, |wall| wall.0).ok()?;
        self.walls[here].1.then_some(here)
    }

    /// A terminal of the space that this was cut from, here. None where it, or
    /// a part of its wall, is outside.
    #[must_use]
    pub fn terminal(&self, terminal: &Terminal) -> Option<Terminal> {
        match terminal {
            Terminal::Wall { wall, along, z } => {
                let wall = self.whole(*wall)?;
                Some(Terminal::Wall { wall, along: *along, z: *z })
            }
            Terminal::Upright { place, .. } => {
                holds(&self.rect, place.on_floor()).then(|| terminal.clone())
            }
            Terminal::InVoid { .. } => None,
        }
    }
}

fn holds(rect: &Rect, place: Point2) -> bool {
    rect.holds(place.x.get(), place.y.get())
}

fn cut_void(void: &VoidField, rect: Rect) -> VoidField {
    let corner = |x: i64, y: i64| void.frame.frame_from_page(Point2::new(x, y));
    let corners = [
        corner(rect.u0, rect.v0),
        corner(rect.u1, rect.v0),
        corner(rect.u0, rect.v1),
        corner(rect.u1, rect.v1),
    ];
    let farther = if void.frame.is_square() { 0 } else { ROUNDING };
    let cut = Rect::around(&corners).unwrap_or(rect).grown(farther);
    // What lies on the void reaches a little farther, so that its edge is not
    // where the void is cut.
    let beyond = cut.grown(1);
    let clipped = |rects: &[Rect], to: &Rect| -> Vec<Rect> {
        rects.iter().filter_map(|rect| overlap(rect, to)).collect()
    };
    let percents = void
        .percents
        .iter()
        .map(|area| PercentArea { percent: area.percent, rects: clipped(&area.rects, &beyond) });
    let barriers = void.barriers.iter().filter_map(|barrier| {
        overlap(&barrier.rect, &beyond).map(|rect| super::Barrier { rect, ..*barrier })
    });
    let near = |lines: &[i64], from: i64, to: i64| {
        let first = lines.partition_point(|line| *line < from - ROUNDING);
        let past = lines.partition_point(|line| *line <= to + ROUNDING);
        lines[first..past].to_vec()
    };
    VoidField {
        id: void.id,
        kind: void.kind,
        frame: void.frame,
        z: void.z,
        insulation: void.insulation,
        over: void.over,
        under: void.under,
        regions: clipped(&void.regions, &cut),
        keep_outs: clipped(&void.keep_outs, &beyond),
        percents: percents.filter(|area| !area.rects.is_empty()).collect(),
        barriers: barriers.collect(),
        settled: (near(&void.settled.0, cut.u0, cut.u1), near(&void.settled.1, cut.v0, cut.v1)),
        density_u: void.density_u,
        density_v: void.density_v,
    }
}

/// The common part of two rectangles, if it has an inside.
fn overlap(one: &Rect, other: &Rect) -> Option<Rect> {
    let part = one.common(other);
    (part.u0 < part.u1 && part.v0 < part.v1).then_some(part)
}

/// A wall with those of its columns that are inside, and whether all are. None
/// where none is.
fn cut_wall(wall: &Arc<WallField>, rect: Rect) -> Option<(Arc<WallField>, bool)> {
    let (x0, x1) = (wall.a.x.min(wall.b.x).get(), wall.a.x.max(wall.b.x).get());
    let (y0, y1) = (wall.a.y.min(wall.b.y).get(), wall.a.y.max(wall.b.y).get());
    if x1 < rect.u0 || rect.u1 < x0 || y1 < rect.v0 || rect.v1 < y0 {
        return None;
    }
    let inside = |column: &&super::Column| holds(&rect, wall.page(column.along));
    let columns: Vec<super::Column> = wall.columns.iter().filter(inside).copied().collect();
    if columns.is_empty() {
        return None;
    }
    let whole = columns.len() == wall.columns.len();
    let part = if whole {
        Arc::clone(wall)
    } else {
        Arc::new(WallField { columns, ..WallField::clone(wall) })
    };
    Some((part, whole))
}

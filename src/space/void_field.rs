//! A void as a plane: where it is free, and what a move costs.

use super::{Frame, Rect};
use crate::plan::{VoidId, VoidKind};
use crate::units::Mm;

/// A void in its own frame.
#[derive(Clone, Debug, PartialEq)]
pub struct VoidField {
    /// The void it stands for.
    pub id: VoidId,
    /// What kind of space it is.
    pub kind: VoidKind,
    /// Its directions on the page: `u` along the joists.
    pub frame: Frame,
    /// The height of the plane, mm.
    pub z: i64,
    /// Thickness of the insulation in it, mm.
    pub insulation: Mm,
    /// Whether it lies above some level.
    pub over: bool,
    /// Whether it lies below some level.
    pub under: bool,
    /// Closed rectangles that together are the void.
    pub regions: Vec<Rect>,
    /// Rectangles whose open inside is forbidden.
    pub keep_outs: Vec<Rect>,
    /// Areas in which moves cost so many percent.
    pub percents: Vec<PercentArea>,
    /// Things that are costly to pass.
    pub barriers: Vec<Barrier>,
    /// Coordinates to which others within 1 mm are settled: a turned frame
    /// rounds each place by itself, and cables would jog by a millimetre.
    pub settled: (Vec<i64>, Vec<i64>),
    /// One millimetre along `u`, hundredths.
    pub density_u: i64,
    /// One millimetre along `v`, hundredths.
    pub density_v: i64,
}

/// An area in which moves cost so many percent.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PercentArea {
    /// How many percent of the plain cost.
    pub percent: u16,
    /// Rectangles that together are the area.
    pub rects: Vec<Rect>,
}

impl PercentArea {
    /// Whether the area counts on a line with cells on both sides: a dear one
    /// in its open inside, a preferred one with its edge. The seam between two
    /// of its rectangles is inside.
    fn counts(
        &self,
        covers_one: impl Fn(&Rect) -> bool,
        covers_other: impl Fn(&Rect) -> bool,
    ) -> bool {
        let (one, other) = (self.rects.iter().any(covers_one), self.rects.iter().any(covers_other));
        if self.percent < 100 { one || other } else { one && other }
    }
}

/// Something that is costly to pass in one direction.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Barrier {
    /// Where it is.
    pub rect: Rect,
    /// Whether crossing it means moving along `u`.
    pub along_u: bool,
    /// One millimetre of crossing costs so much more, hundredths.
    pub density: i64,
}

impl Barrier {
    /// A barrier whose full crossing costs this toll, spread evenly and
    /// rounded up to a whole hundredth per millimetre.
    #[must_use]
    pub fn new(rect: Rect, along_u: bool, toll: i64) -> Self {
        let width = if along_u { rect.u1 - rect.u0 } else { rect.v1 - rect.v0 }.max(1);
        let density = toll.div_euclid(width) + i64::from(toll.rem_euclid(width) > 0);
        Self { rect, along_u, density }
    }
}

impl VoidField {
    /// Whether a place is in the void (its edge included).
    #[must_use]
    pub fn holds(&self, (u, v): (i64, i64)) -> bool {
        self.regions.iter().any(|region| region.holds(u, v))
    }

    /// A place of the frame, settled.
    #[must_use]
    pub fn settle(&self, (u, v): (i64, i64)) -> (i64, i64) {
        let near = |lines: &[i64], at: i64| {
            let from = lines.partition_point(|line| *line < at - 1);
            let close = lines[from..].iter().take_while(|line| **line <= at + 1);
            close.min_by_key(|line| ((**line - at).abs(), **line)).copied().unwrap_or(at)
        };
        (near(&self.settled.0, u), near(&self.settled.1, v))
    }

    /// Whether cables may be in each cell between lines that no rectangle's edge
    /// cuts; rows of `us.len() - 1` cells.
    #[must_use]
    pub fn free_cells(&self, us: &[i64], vs: &[i64]) -> Vec<bool> {
        let (width, height) = (us.len().saturating_sub(1), vs.len().saturating_sub(1));
        let mut free = vec![false; width * height];
        let index = |lines: &[i64], at: i64| lines.partition_point(|line| *line < at);
        let mut mark = |rects: &[Rect], is_free: bool| {
            for rect in rects {
                let (from, to) = (index(us, rect.u0), index(us, rect.u1).min(width));
                for row in index(vs, rect.v0)..index(vs, rect.v1).min(height) {
                    free[row * width + from..row * width + to].fill(is_free);
                }
            }
        };
        mark(&self.regions, true);
        mark(&self.keep_outs, false);
        free
    }

    /// What a millimetre along `u` costs on a stretch that no rectangle's edge
    /// cuts. Dear areas and barriers count in their open inside, so that a cable
    /// along their edge is outside them; preferred ways count with their edge.
    /// Either way an edge is never dearer than what lies beside it, and a
    /// cheapest way exists.
    #[must_use]
    pub fn price_along_u(&self, v: i64, u0: i64, u1: i64) -> i64 {
        let spans = |rect: &Rect| rect.u0 <= u0 && u1 <= rect.u1;
        let above = |rect: &Rect| spans(rect) && rect.v0 <= v && v < rect.v1;
        let below = |rect: &Rect| spans(rect) && rect.v0 < v && v <= rect.v1;
        let percent = self.percent(|area| area.counts(above, below));
        let tolls = self.tolls(true, |rect| rect.blocks_sideways(v, u0, u1));
        (self.density_u * percent).div_euclid(100).max(1) + tolls
    }

    /// What a millimetre along `v` costs on a stretch that no rectangle's edge
    /// cuts.
    #[must_use]
    pub fn price_along_v(&self, u: i64, v0: i64, v1: i64) -> i64 {
        let spans = |rect: &Rect| rect.v0 <= v0 && v1 <= rect.v1;
        let right = |rect: &Rect| spans(rect) && rect.u0 <= u && u < rect.u1;
        let left = |rect: &Rect| spans(rect) && rect.u0 < u && u <= rect.u1;
        let percent = self.percent(|area| area.counts(right, left));
        let tolls = self.tolls(false, |rect| rect.blocks_upright(u, v0, v1));
        (self.density_v * percent).div_euclid(100).max(1) + tolls
    }

    /// The largest percentage of the areas that count; 100 where none does.
    fn percent(&self, counts: impl Fn(&PercentArea) -> bool) -> i64 {
        let here = self.percents.iter().filter(|area| counts(area));
        here.map(|area| i64::from(area.percent)).max().unwrap_or(100)
    }

    /// What the barriers that are crossed add to a millimetre.
    fn tolls(&self, along_u: bool, inside: impl Fn(&Rect) -> bool) -> i64 {
        let crossed = self.barriers.iter().filter(|slab| slab.along_u == along_u);
        crossed.filter(|slab| inside(&slab.rect)).map(|slab| slab.density).sum()
    }

    /// The coordinates at which anything about the void changes.
    #[must_use]
    pub fn edges(&self) -> (Vec<i64>, Vec<i64>) {
        let rects = self
            .regions
            .iter()
            .chain(&self.keep_outs)
            .chain(self.percents.iter().flat_map(|area| &area.rects))
            .chain(self.barriers.iter().map(|barrier| &barrier.rect));
        let (mut us, mut vs) = (Vec::new(), Vec::new());
        for rect in rects {
            us.extend([rect.u0, rect.u1]);
            vs.extend([rect.v0, rect.v1]);
        }
        (us, vs)
    }
}

//! A void as a plane: where it is free, and what a move costs.

use super::{Frame, Rect};
use crate::plan::{VoidId, VoidKind};
use crate::units::Mm;

/// A void in its own frame.
#[derive(Clone, Debug)]
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
    /// Closed rectangles that together are the void.
    pub regions: Vec<Rect>,
    /// Rectangles whose open inside is forbidden.
    pub keep_outs: Vec<Rect>,
    /// Rectangles in whose open inside moves cost so many percent.
    pub percents: Vec<(Rect, u16)>,
    /// Things that are costly to pass.
    pub barriers: Vec<Barrier>,
    /// One millimetre along `u`, hundredths.
    pub density_u: i64,
    /// One millimetre along `v`, hundredths.
    pub density_v: i64,
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

    /// Whether cables may be in a cell that no rectangle's edge cuts.
    #[must_use]
    pub fn is_free(&self, cell: &Rect) -> bool {
        self.regions.iter().any(|region| region.covers(cell))
            && !self.keep_outs.iter().any(|area| area.covers(cell))
    }

    /// What a millimetre along `u` costs on a stretch that no rectangle's edge
    /// cuts. Dear areas and barriers count in their open inside, so that a cable
    /// along their edge is outside them; preferred ways count with their edge.
    /// Either way an edge is never dearer than what lies beside it, and a
    /// cheapest way exists.
    #[must_use]
    pub fn price_along_u(&self, v: i64, u0: i64, u1: i64) -> i64 {
        let open = |rect: &Rect| rect.blocks_sideways(v, u0, u1);
        let closed = |rect: &Rect| rect.grown_across_u().blocks_sideways(v, u0, u1);
        self.price(self.density_u, open, closed, true)
    }

    /// What a millimetre along `v` costs on a stretch that no rectangle's edge
    /// cuts.
    #[must_use]
    pub fn price_along_v(&self, u: i64, v0: i64, v1: i64) -> i64 {
        let open = |rect: &Rect| rect.blocks_upright(u, v0, v1);
        let closed = |rect: &Rect| rect.grown_across_v().blocks_upright(u, v0, v1);
        self.price(self.density_v, open, closed, false)
    }

    /// What a millimetre along `u` and along `v` costs inside a cell that no
    /// rectangle's edge cuts.
    #[must_use]
    pub fn price_in(&self, cell: &Rect) -> (i64, i64) {
        let inside = |rect: &Rect| rect.covers(cell);
        (
            self.price(self.density_u, inside, inside, true),
            self.price(self.density_v, inside, inside, false),
        )
    }

    fn price(
        &self,
        density: i64,
        open: impl Fn(&Rect) -> bool,
        closed: impl Fn(&Rect) -> bool,
        along_u: bool,
    ) -> i64 {
        let areas = self
            .percents
            .iter()
            .filter(|(area, percent)| if *percent < 100 { closed(area) } else { open(area) });
        let percent = areas.map(|(_, percent)| i64::from(*percent)).max().unwrap_or(100);
        let crossed =
            self.barriers.iter().filter(|slab| slab.along_u == along_u && open(&slab.rect));
        let tolls: i64 = crossed.map(|slab| slab.density).sum();
        (density * percent).div_euclid(100).max(1) + tolls
    }

    /// The coordinates at which anything about the void changes.
    #[must_use]
    pub fn edges(&self) -> (Vec<i64>, Vec<i64>) {
        let rects = self
            .regions
            .iter()
            .chain(&self.keep_outs)
            .chain(self.percents.iter().map(|(rect, _)| rect))
            .chain(self.barriers.iter().map(|barrier| &barrier.rect));
        let (mut us, mut vs) = (Vec::new(), Vec::new());
        for rect in rects {
            us.extend([rect.u0, rect.u1]);
            vs.extend([rect.v0, rect.v1]);
        }
        (us, vs)
    }
}

//! What lies on the cells and lines of a void, painted area by area.
//!
//! Gives what [`VoidField::price_in`] and its sisters say of each cell and line,
//! without asking every rectangle about every cell.

use super::super::{Rect, VoidField};

/// Percentages and tolls for every cell between core lines and every stretch
/// of a core line.
pub(super) struct Paint {
    nu: usize,
    /// In cells, rows of `nu - 1`; on lines across `v`, the same; on lines
    /// across `u`, rows of `nu`.
    cells: Layer,
    along_u: Layer,
    along_v: Layer,
    densities: (i64, i64),
}

/// The percentage of each place, and what barriers add to moves along `u` and
/// along `v`.
struct Layer {
    percent: Vec<Option<u16>>,
    tolls: [Vec<i64>; 2],
}

impl Layer {
    fn new(count: usize) -> Self {
        Self { percent: vec![None; count], tolls: [vec![0; count], vec![0; count]] }
    }

    /// What a millimetre costs.
    fn price(&self, index: usize, way: usize, density: i64) -> i64 {
        let percent = i64::from(self.percent[index].unwrap_or(100));
        (density * percent).div_euclid(100).max(1) + self.tolls[way][index]
    }
}

/// The cells from a line to a line, both ways.
#[derive(Clone, Copy)]
struct Span {
    i0: usize,
    i1: usize,
    j0: usize,
    j1: usize,
}

impl Span {
    /// The cells of a rectangle whose edges are lines.
    fn of(rect: &Rect, us: &[i64], vs: &[i64]) -> Self {
        let index = |lines: &[i64], at: i64| lines.partition_point(|line| *line < at);
        Self {
            i0: index(us, rect.u0),
            i1: index(us, rect.u1),
            j0: index(vs, rect.v0),
            j1: index(vs, rect.v1),
        }
    }
}

impl Paint {
    /// Paints all areas and barriers of a void; the lines hold all of its edges.
    pub(super) fn of(field: &VoidField, us: &[i64], vs: &[i64]) -> Self {
        let (nu, nv) = (us.len(), vs.len());
        let mut paint = Self {
            nu,
            cells: Layer::new((nu - 1) * (nv - 1)),
            along_u: Layer::new((nu - 1) * nv),
            along_v: Layer::new(nu * (nv - 1)),
            densities: (field.density_u, field.density_v),
        };
        for area in &field.percents {
            let spans: Vec<Span> = area.rects.iter().map(|rect| Span::of(rect, us, vs)).collect();
            paint.area(area.percent, &spans);
        }
        for barrier in &field.barriers {
            let span = Span::of(&barrier.rect, us, vs);
            paint.barrier(span, usize::from(!barrier.along_u), barrier.density);
        }
        paint
    }

    /// A millimetre along `u` in a cell.
    pub(super) fn in_u(&self, i: usize, j: usize) -> i64 {
        self.cells.price(j * (self.nu - 1) + i, 0, self.densities.0)
    }

    /// A millimetre along `v` in a cell.
    pub(super) fn in_v(&self, i: usize, j: usize) -> i64 {
        self.cells.price(j * (self.nu - 1) + i, 1, self.densities.1)
    }

    /// A millimetre along line `j` over cell `i`.
    pub(super) fn on_u(&self, i: usize, j: usize) -> i64 {
        self.along_u.price(j * (self.nu - 1) + i, 0, self.densities.0)
    }

    /// A millimetre along line `i` over cell `j`.
    pub(super) fn on_v(&self, i: usize, j: usize) -> i64 {
        self.along_v.price(j * self.nu + i, 1, self.densities.1)
    }

    /// An area counts in its cells; on a line where a cell on either side is in
    /// it, or for a dear one where both are.
    fn area(&mut self, percent: u16, spans: &[Span]) {
        let Some(all) = spans.iter().copied().reduce(|one, other| Span {
            i0: one.i0.min(other.i0),
            i1: one.i1.max(other.i1),
            j0: one.j0.min(other.j0),
            j1: one.j1.max(other.j1),
        }) else {
            return;
        };
        let wide = all.i1 - all.i0;
        let mut covered = vec![false; wide * (all.j1 - all.j0)];
        for span in spans {
            for j in span.j0..span.j1 {
                let row = (j - all.j0) * wide;
                covered[row + span.i0 - all.i0..row + span.i1 - all.i0].fill(true);
            }
        }
        let is_covered = |i: Option<usize>, j: Option<usize>| match (i, j) {
            (Some(i), Some(j)) => {
                let inside = all.i0 <= i && i < all.i1 && all.j0 <= j && j < all.j1;
                inside && covered[(j - all.j0) * wide + i - all.i0]
            }
            _ => false,
        };
        let counts = |one: bool, other: bool| {
            if percent < 100 { one || other } else { one && other }
        };
        let nu = self.nu;
        let raise = |layer: &mut Layer, index: usize, counts: bool| {
            if counts {
                layer.percent[index] = layer.percent[index].max(Some(percent));
            }
        };
        for j in all.j0..=all.j1 {
            for i in all.i0..=all.i1 {
                let here = is_covered(Some(i), Some(j));
                raise(&mut self.cells, j * (nu - 1) + i, here);
                let under = is_covered(Some(i), j.checked_sub(1));
                if i < all.i1 {
                    raise(&mut self.along_u, j * (nu - 1) + i, counts(here, under));
                }
                let left = is_covered(i.checked_sub(1), Some(j));
                if j < all.j1 {
                    raise(&mut self.along_v, j * nu + i, counts(here, left));
                }
            }
        }
    }

    /// A barrier counts in its open inside.
    fn barrier(&mut self, span: Span, way: usize, density: i64) {
        let nu = self.nu;
        let add = |layer: &mut Layer, index: usize| layer.tolls[way][index] += density;
        for j in span.j0..span.j1 {
            for i in span.i0..span.i1 {
                add(&mut self.cells, j * (nu - 1) + i);
                if j > span.j0 {
                    add(&mut self.along_u, j * (nu - 1) + i);
                }
                if i > span.i0 {
                    add(&mut self.along_v, j * nu + i);
                }
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::super::super::{Barrier, Frame, PercentArea};
    use super::*;
    use crate::plan::{VoidId, VoidKind};
    use crate::units::{Angle, Mm};

    /// A void with areas of two rectangles each and with barriers, by chance.
    fn field(seed: i64) -> VoidField {
        let mut state = seed;
        let mut chance = |count: i64| {
            state = (state * 16_807 + 12_345).rem_euclid(2_147_483_647);
            state.rem_euclid(count)
        };
        let mut rect = || {
            let (u, v) = (chance(12), chance(12));
            Rect::new(u, v, u + 1 + chance(6), v + 1 + chance(6))
        };
        let percents = [60, 0, 130, 180, 100].map(|percent| {
            let rects = vec![rect(), rect()];
            PercentArea { percent, rects }
        });
        let barriers = [true, false, true, false].map(|way| Barrier::new(rect(), way, 700));
        VoidField {
            id: VoidId(1),
            kind: VoidKind::RoofSpace,
            frame: Frame::along(Angle::ZERO),
            z: 0,
            insulation: Mm::ZERO,
            over: true,
            under: false,
            regions: vec![Rect::new(0, 0, 20, 20)],
            keep_outs: Vec::new(),
            percents: percents.to_vec(),
            barriers: barriers.to_vec(),
            settled: (Vec::new(), Vec::new()),
            density_u: 100,
            density_v: 150,
        }
    }

    #[test]
    fn painted_prices_are_those_of_the_void() {
        for seed in 0..200 {
            let field = field(seed);
            let (mut us, mut vs) = field.edges();
            for lines in [&mut us, &mut vs] {
                lines.sort_unstable();
                lines.dedup();
            }
            let paint = Paint::of(&field, &us, &vs);
            for j in 0..vs.len() {
                for i in 0..us.len() {
                    if i + 1 < us.len() && j + 1 < vs.len() {
                        let cell = Rect::new(us[i], vs[j], us[i + 1], vs[j + 1]);
                        let painted = (paint.in_u(i, j), paint.in_v(i, j));
                        assert_eq!(painted, field.price_in(&cell), "seed {seed}, in {cell:?}");
                    }
                    if i + 1 < us.len() {
                        let price = field.price_along_u(vs[j], us[i], us[i + 1]);
                        assert_eq!(paint.on_u(i, j), price, "seed {seed}, along u at {i}, {j}");
                    }
                    if j + 1 < vs.len() {
                        let price = field.price_along_v(us[i], vs[j], vs[j + 1]);
                        assert_eq!(paint.on_v(i, j), price, "seed {seed}, along v at {i}, {j}");
                    }
                }
            }
        }
    }
}

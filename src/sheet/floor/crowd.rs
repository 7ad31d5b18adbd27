//! What lettering must keep clear of.

use kurbo::{BezPath, PathEl, Point, Rect};
use rstar::primitives::{GeomWithData, Rectangle};
use rstar::{AABB, RTree};

use crate::sheet::pen;

/// How much it costs to cover a piece of something.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// A symbol, a room name: never, if it can be helped.
    Mark,
    /// The heavy line of a wall.
    Wall,
    /// A door or a window.
    Opening,
    /// A cable; lettering shines through it, but rather not.
    Run,
}

impl Kind {
    const fn cost(self) -> f64 {
        match self {
            Self::Mark => 60.0,
            Self::Wall => 30.0,
            Self::Opening => 25.0,
            Self::Run => 6.0,
        }
    }
}

/// A piece of something, small enough that its box says where it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Piece {
    kind: Kind,
    owner: Option<usize>,
}

/// Everything on the sheet that lettering must keep clear of.
#[derive(Debug)]
pub(super) struct Crowd {
    pieces: Vec<GeomWithData<Rectangle<[f64; 2]>, Piece>>,
    tree: RTree<GeomWithData<Rectangle<[f64; 2]>, Piece>>,
    /// The space lettering must stay in.
    pub(super) space: Rect,
}

/// The longest piece of a line, mm.
const CHOP: f64 = 1.5;

impl Crowd {
    /// Nothing yet, in this space.
    pub(super) fn new(space: Rect) -> Self {
        Self { pieces: Vec::new(), tree: RTree::new(), space }
    }

    /// Adds a box.
    pub(super) fn add(&mut self, taken: Rect, kind: Kind, owner: Option<usize>) {
        let shape = Rectangle::from_corners([taken.x0, taken.y0], [taken.x1, taken.y1]);
        self.pieces.push(GeomWithData::new(shape, Piece { kind, owner }));
    }

    /// Adds a line of some width, in short pieces.
    pub(super) fn add_path(
        &mut self,
        path: &BezPath,
        width: f64,
        kind: Kind,
        owner: Option<usize>,
    ) {
        let mut lines: Vec<(Point, Point)> = Vec::new();
        let (mut start, mut at) = (Point::ORIGIN, Point::ORIGIN);
        kurbo::flatten(path, 0.1, |element| match element {
            PathEl::MoveTo(to) => (start, at) = (to, to),
            PathEl::LineTo(to) => {
                lines.push((at, to));
                at = to;
            }
            PathEl::ClosePath => {
                lines.push((at, start));
                at = start;
            }
            PathEl::QuadTo(..) | PathEl::CurveTo(..) => {}
        });
        for (from, to) in lines {
            let pieces = libm::ceil(pen::length(to - from) / CHOP).max(1.0);
            let step = (to - from) / pieces;
            let mut done = 0.0;
            while done < pieces {
                let a = from + step * done;
                let piece = Rect::from_points(a, a + step).inflate(width / 2.0, width / 2.0);
                self.add(piece, kind, owner);
                done += 1.0;
            }
        }
    }

    /// Sorts what was added, so that it can be asked.
    pub(super) fn settle(&mut self) {
        self.tree = RTree::bulk_load(self.pieces.clone());
    }

    /// What it costs to cover this box; pieces of `owner` are free.
    pub(super) fn cost(&self, wanted: Rect, owner: Option<usize>) -> f64 {
        let envelope = AABB::from_corners([wanted.x0, wanted.y0], [wanted.x1, wanted.y1]);
        let mut costs: f64 = 0.0;
        for found in self.tree.locate_in_envelope_intersecting(envelope) {
            if owner.is_none() || found.data.owner != owner {
                // A symbol is one large piece: the more of it, the worse.
                let (low, high) = (found.geom().lower(), found.geom().upper());
                let both = wanted.intersect(Rect::new(low[0], low[1], high[0], high[1]));
                let area = both.width().max(0.0) * both.height().max(0.0);
                costs += found.data.kind.cost() * (1.0 + area / 4.0);
            }
        }
        costs
    }

    /// Whether a box covers nothing but cables.
    pub(super) fn only_runs(&self, wanted: Rect) -> bool {
        let envelope = AABB::from_corners([wanted.x0, wanted.y0], [wanted.x1, wanted.y1]);
        let mut found = self.tree.locate_in_envelope_intersecting(envelope);
        found.all(|piece| piece.data.kind == Kind::Run)
    }

    /// What it costs to draw a thin line across.
    pub(super) fn line_cost(&self, from: Point, to: Point, owner: Option<usize>) -> f64 {
        let length = pen::length(to - from);
        let steps = libm::ceil(length / 1.0).max(1.0);
        let step = (to - from) / steps;
        let mut costs = 0.0;
        let mut done = 0.0;
        while done < steps {
            let spot = Rect::from_points(from + step * done, from + step * (done + 1.0));
            costs += self.cost(spot, owner) * 0.12;
            done += 1.0;
        }
        costs
    }
}

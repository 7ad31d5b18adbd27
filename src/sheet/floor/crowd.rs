//! What lettering must keep clear of.

use kurbo::{BezPath, PathEl, Point, Rect};

use super::tally::Tally;
use crate::sheet::pen;

/// How much it costs to cover a piece of something.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Kind {
    /// The name of a room: rather far off than over it.
    Name,
    /// A symbol: never, if it can be helped.
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
            Self::Name => 300.0,
            Self::Mark => 110.0,
            Self::Wall => 30.0,
            Self::Opening => 25.0,
            Self::Run => 6.0,
        }
    }
}

/// A piece of something, small enough that its box says where it is.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Piece {
    taken: Rect,
    kind: Kind,
    owner: u32,
    /// Of the cell in which it is listed: whether it begins in its column and
    /// in its row.
    begins: (bool, bool),
}

/// The owner of what is nobody's.
const NOBODY: u32 = u32::MAX;

/// Everything on the sheet that lettering must keep clear of, in square cells
/// of paper: whoever asks looks at the few around a place.
#[derive(Debug)]
pub(super) struct Crowd {
    pieces: Vec<Piece>,
    /// The first cell's corner, and how many cells there are each way.
    origin: Point,
    columns: usize,
    rows: usize,
    /// Where the pieces of each cell begin in `listed`, and an end.
    starts: Vec<usize>,
    listed: Vec<Piece>,
    /// What covering a place costs at least.
    tally: Tally,
    /// The space lettering must stay in.
    pub(super) space: Rect,
}

/// The longest piece of a line, mm.
const CHOP: f64 = 1.5;
/// The side of a cell, mm.
const CELL: f64 = 3.0;

impl Crowd {
    /// Nothing yet, in this space.
    pub(super) fn new(space: Rect) -> Self {
        Self {
            pieces: Vec::new(),
            origin: space.origin(),
            columns: 0,
            rows: 0,
            starts: Vec::new(),
            listed: Vec::new(),
            tally: Tally::default(),
            space,
        }
    }

    /// Adds a box.
    pub(super) fn add(&mut self, taken: Rect, kind: Kind, owner: Option<usize>) {
        let owner = owner.map_or(NOBODY, named);
        self.pieces.push(Piece { taken, kind, owner, begins: (true, true) });
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
        let whole = self.pieces.iter().map(|it| it.taken).reduce(|all, one| all.union(one));
        let whole = whole.unwrap_or(Rect::ZERO);
        let costs = self.pieces.iter().map(|it| (it.taken, it.kind.cost(), it.kind.cost() / 4.0));
        self.tally = Tally::of(whole, costs);
        self.origin = whole.origin();
        let count = |length: f64| cell(length).map_or(1, |at| at + 1).min(CELLS);
        (self.columns, self.rows) = (count(whole.width()), count(whole.height()));
        // How many pieces each cell has, then where its last ends, then, as
        // they are filled in from behind, where its first begins.
        self.starts = vec![0; self.columns * self.rows + 1];
        let touched: Vec<_> = self.pieces.iter().map(|piece| self.cells(piece.taken)).collect();
        for (columns, rows) in &touched {
            for row in rows.clone() {
                for column in columns.clone() {
                    self.starts[row * self.columns + column] += 1;
                }
            }
        }
        let mut end = 0;
        for start in &mut self.starts {
            end += *start;
            *start = end;
        }
        let Some(any) = self.pieces.first().copied() else { return self.listed.clear() };
        self.listed = vec![any; end];
        for (piece, (columns, rows)) in self.pieces.iter().zip(touched).rev() {
            for row in rows.clone() {
                for column in columns.clone() {
                    let start = &mut self.starts[row * self.columns + column];
                    *start -= 1;
                    let begins = (column == *columns.start(), row == *rows.start());
                    self.listed[*start] = Piece { begins, ..*piece };
                }
            }
        }
    }

    /// The cells that a box touches; those at the edge stand for all beyond.
    fn cells(
        &self,
        wanted: Rect,
    ) -> (core::ops::RangeInclusive<usize>, core::ops::RangeInclusive<usize>) {
        let at = |from: f64, origin: f64, count: usize| {
            cell(from - origin).unwrap_or(0).min(count.saturating_sub(1))
        };
        let (x, y) = (self.origin.x, self.origin.y);
        (
            at(wanted.x0, x, self.columns)..=at(wanted.x1, x, self.columns),
            at(wanted.y0, y, self.rows)..=at(wanted.y1, y, self.rows),
        )
    }

    /// Every piece that a box touches, once, until one is enough.
    fn touched(&self, wanted: Rect, mut is_enough: impl FnMut(&Piece) -> bool) {
        if self.listed.is_empty() {
            return;
        }
        let (columns, rows) = self.cells(wanted);
        let top = *rows.start();
        for row in rows {
            // Cells of a row lie one behind the other. A piece counts in the
            // first column and row that both touch, and in no other.
            let cells = row * self.columns;
            let first = self.starts[cells + columns.start()];
            let second = self.starts[cells + columns.start() + 1];
            let end = self.starts[cells + columns.end() + 1];
            let edge = self.listed[first..second].iter();
            let others = self.listed[second..end].iter().filter(|piece| piece.begins.0);
            for piece in edge.chain(others) {
                let taken = piece.taken;
                let apart = taken.x1 < wanted.x0
                    || wanted.x1 < taken.x0
                    || taken.y1 < wanted.y0
                    || wanted.y1 < taken.y0
                    || (row != top && !piece.begins.1);
                if !apart && is_enough(piece) {
                    return;
                }
            }
        }
    }

    /// Whether a box lies in the space that lettering must stay in.
    pub(super) const fn has_room(&self, at: Rect) -> bool {
        let space = self.space;
        space.x0 <= at.x0 && space.y0 <= at.y0 && at.x1 <= space.x1 && at.y1 <= space.y1
    }

    /// What it costs to cover this box; pieces of `owner` are free. Once it is
    /// more than `limit` no more is counted.
    pub(super) fn cost(&self, wanted: Rect, owner: Option<usize>, limit: f64) -> f64 {
        let owner = owner.map_or(NOBODY, named);
        let mut costs: f64 = 0.0;
        self.touched(wanted, |piece| {
            if owner == NOBODY || piece.owner != owner {
                // A symbol is one large piece: the more of it, the worse.
                let both = wanted.intersect(piece.taken);
                let area = both.width().max(0.0) * both.height().max(0.0);
                costs += piece.kind.cost() * (1.0 + area / 4.0);
            }
            costs > limit
        });
        costs
    }

    /// What it costs at least to cover this box, nobody's pieces free.
    pub(super) fn at_least(&self, wanted: Rect) -> f64 {
        self.tally.at_least(wanted)
    }

    /// Whether a box covers nothing but cables.
    pub(super) fn only_runs(&self, wanted: Rect) -> bool {
        let mut only = true;
        self.touched(wanted, |piece| {
            only &= piece.kind == Kind::Run;
            !only
        });
        only
    }

    /// What it costs to draw a thin line across.
    pub(super) fn line_cost(&self, line: (Point, Point)) -> f64 {
        self.tally.line(line) * THIN
    }
}

/// The share of what a square costs that a line across it does.
const THIN: f64 = 0.12;
/// So many cells each way at most; a sheet has four hundred.
const CELLS: usize = 2000;

/// Which cell a place falls in. None: before the first.
fn cell(from: f64) -> Option<usize> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held between nought and far below 2^53"
    )]
    let at = (from / CELL).clamp(0.0, 1.0e6) as usize;
    (from >= 0.0).then_some(at)
}

/// Counts on a sheet, kept short.
fn named(at: usize) -> u32 {
    u32::try_from(at).unwrap_or(NOBODY)
}

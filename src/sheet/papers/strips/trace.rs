//! A leg rolled out: pieces on paper.

use kurbo::Point;

use crate::plan::{Hand, Plane};
use crate::runs::{Leg, Segment, Surrounding};
use crate::sheet::House;
use crate::sheet::papers::words;
use crate::units::{Mm, Point3};

/// Paper for a millimetre of height: 1:50.
pub(super) const PER: f64 = 1.0 / 50.0;
/// The shortest and the longest a distance across is drawn, mm on paper.
const SHORTEST: f64 = 12.0;
const LONGEST: f64 = 50.0;
/// Steps to and fro up to this length go into the piece before them.
const STEP: Mm = Mm::new(60);

/// A straight piece of a leg on paper.
#[derive(Clone, Debug)]
pub(super) struct Piece<'a> {
    pub(super) segment: &'a Segment,
    pub(super) from: Point,
    pub(super) to: Point,
    pub(super) length: Mm,
    /// Drawn shorter than it is.
    pub(super) broken: bool,
    /// Through a plate.
    pub(super) plate: bool,
    /// Sideways in a wall: on which hand, seen as the way's words have it.
    pub(super) hand: Option<Hand>,
    /// What drawings call the face of the wall that it is in.
    pub(super) face: Option<String>,
    /// Where it really begins and ends, seen from above.
    ways: (Point3, Point3),
}

/// A leg on paper.
#[derive(Clone, Debug)]
pub(super) struct Trace<'a> {
    pub(super) pieces: Vec<Piece<'a>>,
}

impl<'a> Trace<'a> {
    /// Rolled out from the origin, where height nought is; no wider than this.
    pub(super) fn of(house: &House<'_>, leg: &'a Leg, widest: f64) -> Self {
        let mut pieces: Vec<Piece<'a>> = Vec::new();
        let told = words::hands(house, leg).into_iter().zip(words::wall_names(house, leg));
        let segments = leg.route.segments.iter().zip(told);
        for (segment, (hand, face)) in segments.filter(|(one, _)| one.length > Mm::ZERO) {
            if let Some(last) = pieces.last_mut() {
                let small = segment.length <= STEP || last.segment.length <= STEP;
                let level = |one: &Segment| one.from.z == one.to.z;
                let same = last.segment.plane == segment.plane && level(segment);
                let straight = segment.heading == last.segment.heading
                    && segment.through == last.segment.through
                    && hand == last.hand;
                if same && level(last.segment) && (small || straight)
                    || (!level(segment) && straight)
                {
                    last.length += segment.length;
                    last.ways.1 = segment.to;
                    continue;
                }
            }
            pieces.push(Piece {
                segment,
                from: Point::ZERO,
                to: Point::ZERO,
                length: segment.length,
                broken: false,
                plate: segment.through == Surrounding::Plate,
                hand,
                face,
                ways: (segment.from, segment.to),
            });
        }
        let mut trace = Self { pieces };
        trace.roll_out(widest);
        trace
    }

    fn roll_out(&mut self, widest: f64) {
        let wide: f64 = self.pieces.iter().map(Piece::width).sum();
        let squeeze = (widest / wide.max(1.0)).min(1.0);
        let mut x = 0.0;
        for piece in &mut self.pieces {
            let width = piece.width() * squeeze;
            let (low, high) = (piece.ways.0.z.to_f64(), piece.ways.1.z.to_f64());
            piece.from = Point::new(x, -low * PER);
            piece.to = Point::new(x + width, -high * PER);
            piece.broken = !piece.upright() && width + 0.01 < piece.length.to_f64() * PER;
            x += width;
        }
    }

    /// Where it begins, bends and ends.
    pub(super) fn places(&self) -> Vec<Point> {
        let mut places: Vec<Point> =
            self.pieces.first().map(|piece| piece.from).into_iter().collect();
        places.extend(self.pieces.iter().map(|piece| piece.to));
        places
    }

    /// Where it turns seen from above, and whether to the left.
    pub(super) fn turns(&self) -> Vec<(Point, bool)> {
        let across: Vec<&Piece<'_>> = self.pieces.iter().filter(|one| !one.upright()).collect();
        across
            .windows(2)
            .filter_map(|pair| {
                let way = |piece: &Piece<'_>| {
                    let (from, to) = piece.ways;
                    (to.x.get() - from.x.get(), to.y.get() - from.y.get())
                };
                let ((ax, ay), (bx, by)) = (way(pair[0]), way(pair[1]));
                let cross = ax * by - ay * bx;
                let together = pair[0].to == pair[1].from;
                (cross != 0 && together).then_some((pair[1].from, cross > 0))
            })
            .collect()
    }

    /// Neighbouring pieces of one plane, as (first, last) by number.
    pub(super) fn stretches(&self) -> Vec<(usize, usize)> {
        let mut stretches: Vec<(usize, usize)> = Vec::new();
        for (index, piece) in self.pieces.iter().enumerate() {
            match stretches.last_mut() {
                Some((_, last)) if self.pieces[*last].segment.plane == piece.segment.plane => {
                    *last = index;
                }
                _ => stretches.push((index, index)),
            }
        }
        stretches
    }
}

impl Piece<'_> {
    pub(super) fn upright(&self) -> bool {
        self.ways.0.z != self.ways.1.z
    }

    fn width(&self) -> f64 {
        if self.upright() { 0.0 } else { (self.length.to_f64() * PER).clamp(SHORTEST, LONGEST) }
    }

    /// The wall it is in, if any.
    pub(super) const fn wall(&self) -> Option<crate::plan::WallId> {
        match self.segment.plane {
            Some(Plane::Wall(id)) => Some(id),
            _ => None,
        }
    }
}

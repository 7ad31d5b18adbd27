//! Bands in line with each other, as walls with openings.

use super::{Band, Line, extent};

/// Bands in line differ by no more than this in place and thickness, mm.
const ALIGNED: f64 = 25.0;
/// Bands that are parallel within this sine can be in line.
const PARALLEL_SINE: f64 = 0.01;
/// The widest gap in a wall that is an opening without any sign of it, mm.
const GAP_MAX: f64 = 3000.0;
/// The widest gap that is an opening where a door or window is drawn, mm.
const SIGNED_MAX: f64 = 6000.0;
/// The widest opening from the end of a wall to the next wall across, mm.
const CORNER_MAX: f64 = 1800.0;
/// A crossing wall hides no wider gap than this, mm.
const CROSSING_MAX: f64 = 1000.0;
/// The least width of an opening, mm.
const WIDTH_MIN: f64 = 300.0;

/// What fills an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::store::import) enum Fill {
    Door,
    Window,
    Nothing,
}

/// Something on the drawing that stands for a door or a window.
#[derive(Clone, Debug)]
pub(in crate::store::import) struct Mark {
    pub(in crate::store::import) fill: Fill,
    /// Where it is set in.
    pub(in crate::store::import) at: [f64; 2],
    /// What it covers.
    pub(in crate::store::import) corners: Vec<[f64; 2]>,
}

impl Mark {
    fn extent(&self) -> [[f64; 2]; 2] {
        let [low, high] = extent(&self.corners);
        let axis = |axis: usize| [low[axis].min(self.at[axis]), high[axis].max(self.at[axis])];
        let [x, y] = [axis(0), axis(1)];
        [[x[0], y[0]], [x[1], y[1]]]
    }

    /// Whether any of it may lie so near to what is in a box.
    fn is_near(&self, other: [[f64; 2]; 2], within: f64) -> bool {
        meet(self.extent(), other, within)
    }
}

/// Whether two boxes lie no farther apart along either axis.
fn meet([low, high]: [[f64; 2]; 2], [from, to]: [[f64; 2]; 2], within: f64) -> bool {
    (0..2).all(|axis| low[axis] <= to[axis] + within && from[axis] <= high[axis] + within)
}

/// What tells an opening from a mere gap.
#[derive(Clone, Debug, Default)]
pub(in crate::store::import) struct Signs {
    pub(in crate::store::import) marks: Vec<Mark>,
    /// Lines on the layers of doors and windows, and which of the two.
    pub(in crate::store::import) panes: Vec<(Fill, Line)>,
    /// Arcs: the swings of doors.
    pub(in crate::store::import) swings: Vec<Swing>,
}

/// The arc that the leaf of a door sweeps.
#[derive(Clone, Copy, Debug)]
pub(in crate::store::import) struct Swing {
    /// Where the hinges are.
    pub(in crate::store::import) centre: [f64; 2],
    /// About the width of the leaf.
    pub(in crate::store::import) radius: f64,
    /// The middle of the arc, on the side to which the door opens.
    pub(in crate::store::import) middle: [f64; 2],
}

impl Swing {
    /// At which end of an opening it is hung, if it is of that opening:
    /// whether at the line's `a`, and how far off.
    pub(in crate::store::import) fn hung(&self, opening: &Line) -> Option<(bool, f64)> {
        let width = opening.length();
        let off = |end: [f64; 2]| libm::hypot(end[0] - self.centre[0], end[1] - self.centre[1]);
        let (a, b) = (off(opening.a), off(opening.b));
        let fits = self.radius >= 0.4 * width && self.radius <= 1.2 * width;
        (fits && a.min(b) <= 0.2 * width + 150.0).then_some((a <= b, a.min(b)))
    }
}

/// An opening, from and to so far along its wall.
#[derive(Clone, Copy, Debug)]
pub(in crate::store::import) struct Hole {
    pub(in crate::store::import) from: f64,
    pub(in crate::store::import) to: f64,
    pub(in crate::store::import) fill: Fill,
}

/// A wall with its openings.
#[derive(Clone, Debug)]
pub(in crate::store::import) struct Stretch {
    pub(in crate::store::import) band: Band,
    pub(in crate::store::import) holes: Vec<Hole>,
}

/// Walls of bands: those in line are one where a face goes on between them, a
/// wall crosses there, or the gap is an opening. Also how many marks found no
/// wall.
pub(in crate::store::import) fn walls(
    bands: &[Band],
    faces: &[Line],
    signs: &Signs,
) -> (Vec<Stretch>, usize) {
    let next: Vec<Option<(usize, f64)>> = (0..bands.len()).map(|at| following(bands, at)).collect();
    let mut begins = vec![true; bands.len()];
    for (index, next) in next.iter().enumerate() {
        if let Some((other, gap)) = next
            && joins(bands, faces, signs, index, *gap).is_some()
        {
            begins[*other] = false;
        }
    }
    let mut walls = Vec::new();
    for start in (0..bands.len()).filter(|index| begins[*index]) {
        walls.push(chain(bands, faces, signs, &next, start));
    }
    for wall in &mut walls {
        to_corners(wall, bands, signs);
    }
    let stray = marked(&mut walls, signs);
    (walls, stray)
}

/// A band with all that follow it in line.
fn chain(
    bands: &[Band],
    faces: &[Line],
    signs: &Signs,
    next: &[Option<(usize, f64)>],
    start: usize,
) -> Stretch {
    let mut band = bands[start];
    let (mut holes, mut at) = (Vec::new(), start);
    // No band follows itself, but a ring of them must not go on for ever.
    for _ in 0..bands.len() {
        let Some((other, gap)) = next[at] else { break };
        let Some(fill) = joins(bands, faces, signs, at, gap) else { break };
        let end = bands[other].line.b;
        let from = band.line.length();
        let [to, _] = band.line.locate(bands[other].line.a);
        if let Some(fill) = fill {
            holes.push(Hole { from, to, fill });
        }
        let [along, _] = band.line.locate(end);
        band.line.b = band.line.at(along.max(from));
        at = other;
    }
    Stretch { band, holes }
}

/// The next band in line, and the gap to it.
fn following(bands: &[Band], index: usize) -> Option<(usize, f64)> {
    let band = &bands[index];
    let [ux, uy] = band.line.direction();
    let mut best: Option<(usize, f64)> = None;
    for (other, met) in bands.iter().enumerate() {
        let reach = Line { a: band.line.b, b: band.line.b };
        if !reach.is_near(met.line.a, SIGNED_MAX + ALIGNED) {
            continue;
        }
        let [vx, vy] = met.line.direction();
        let ([along, off], [end, _]) = (band.line.locate(met.line.a), band.line.locate(met.line.b));
        let gap = along - band.line.length();
        let in_line = other != index
            && (ux * vy - uy * vx).abs() < PARALLEL_SINE
            && off.abs() < ALIGNED
            && (met.thickness - band.thickness).abs() < ALIGNED
            && gap > -ALIGNED
            && end > band.line.length()
            && gap <= SIGNED_MAX;
        if in_line && best.is_none_or(|(_, least)| gap < least) {
            best = Some((other, gap));
        }
    }
    best
}

/// Whether a band and the next in line are one wall: with nothing between
/// them, or with an opening.
fn joins(
    bands: &[Band],
    faces: &[Line],
    signs: &Signs,
    index: usize,
    gap: f64,
) -> Option<Option<Fill>> {
    let band = &bands[index];
    let length = band.line.length();
    let middle = band.line.at(length + gap / 2.0);
    let face_goes_on = || {
        faces.iter().any(|face| {
            let ([from, off], [to, off_to]) = (band.line.locate(face.a), band.line.locate(face.b));
            let on_face = |off: f64| (off.abs() - band.thickness / 2.0).abs() < 5.0;
            on_face(off)
                && on_face(off_to)
                && from.min(to) <= length + 5.0
                && from.max(to) >= length + gap - 5.0
        })
    };
    let crossed = || {
        gap <= CROSSING_MAX
            && bands
                .iter()
                .enumerate()
                .any(|(other, met)| other != index && met.holds(middle, 10.0))
    };
    if gap < ALIGNED || face_goes_on() || crossed() {
        return Some(None);
    }
    let hole = Band { line: Line { a: band.line.b, b: band.line.at(length + gap) }, ..*band };
    let fill = fill(&hole, signs);
    let most = if fill == Fill::Nothing { GAP_MAX } else { SIGNED_MAX };
    (gap >= WIDTH_MIN && gap <= most).then_some(Some(fill))
}

/// What is drawn in a gap.
fn fill(hole: &Band, signs: &Signs) -> Fill {
    let width = hole.line.length();
    let [low, high] = extent(&[hole.line.a, hole.line.b]);
    let within = hole.thickness / 2.0 + 100.0;
    let on = |mark: &&Mark| {
        if !mark.is_near([low, high], within) {
            return false;
        }
        let reach = reach(mark, &hole.line);
        apart(mark, &hole.line) <= hole.thickness / 2.0 + 100.0
            && reach[0] <= width / 2.0
            && width / 2.0 <= reach[1]
            && reach[1] - reach[0] >= 0.5 * width
    };
    if let Some(mark) = signs.marks.iter().find(on) {
        return mark.fill;
    }
    if signs.swings.iter().any(|swing| swing.hung(&hole.line).is_some()) {
        return Fill::Door;
    }
    let pane = |line: &Line| {
        let ([from, off], [to, off_to]) = (hole.line.locate(line.a), hole.line.locate(line.b));
        let within = hole.thickness / 2.0 + 50.0;
        let overlap = from.max(to).min(width) - from.min(to).max(0.0);
        off.abs() <= within && off_to.abs() <= within && overlap >= 0.6 * width
    };
    let drawn = signs.panes.iter().filter(|(_, line)| pane(line)).map(|(fill, _)| *fill);
    drawn.min().unwrap_or(Fill::Nothing)
}

/// How far a mark lies from a line: where it is set in, or the second nearest
/// of its corners, as the swing of a door reaches far from its wall.
fn apart(mark: &Mark, line: &Line) -> f64 {
    let mut corners: Vec<f64> = mark.corners.iter().map(|corner| line.distance(*corner)).collect();
    corners.sort_by(f64::total_cmp);
    let second = corners.get(1).copied().unwrap_or(f64::INFINITY);
    second.min(line.distance(mark.at))
}

/// From where to where along a line a mark reaches.
fn reach(mark: &Mark, line: &Line) -> [f64; 2] {
    let along = mark.corners.iter().map(|corner| line.locate(*corner)[0]);
    along.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], at| [low.min(at), high.max(at)])
}

/// A door or window between the end of a wall and the next wall across.
fn to_corners(wall: &mut Stretch, bands: &[Band], signs: &Signs) {
    for _ in 0..2 {
        let line = wall.band.line;
        let length = line.length();
        let touches =
            |met: &Band| met.line != line && met.holds(line.b, 60.0) && crosses(&line, &met.line);
        let near = |met: &&Band| met.line.is_near(line.b, CORNER_MAX + met.thickness + 100.0);
        let across = bands.iter().filter(near).filter(|met| crosses(&line, &met.line));
        let gap = across
            .filter_map(|met| {
                let [ux, uy] = line.direction();
                let ([sx, sy], [mx, my]) = (met.line.direction(), met.line.a);
                let cross = ux * sy - uy * sx;
                let along = ((mx - line.b[0]) * sy - (my - line.b[1]) * sx) / cross;
                let place = line.at(length + along);
                let gap = along - met.thickness / 2.0;
                (met.line.distance(place) < 60.0 && gap >= WIDTH_MIN).then_some(gap)
            })
            .fold(f64::INFINITY, f64::min);
        if gap <= CORNER_MAX && !bands.iter().any(touches) {
            let hole = Band { line: Line { a: line.b, b: line.at(length + gap) }, ..wall.band };
            let fill = fill(&hole, signs);
            if fill != Fill::Nothing {
                wall.holes.push(Hole { from: length, to: length + gap, fill });
                wall.band.line.b = hole.line.b;
            }
        }
        turn(wall);
    }
}

fn crosses(one: &Line, two: &Line) -> bool {
    let ([ux, uy], [vx, vy]) = (one.direction(), two.direction());
    (ux * vy - uy * vx).abs() > 0.5
}

/// The same wall from its other end.
fn turn(wall: &mut Stretch) {
    let length = wall.band.line.length();
    wall.band.line = Line { a: wall.band.line.b, b: wall.band.line.a };
    for hole in &mut wall.holes {
        (hole.from, hole.to) = (length - hole.to, length - hole.from);
    }
}

/// Marks over walls whose faces go through; how many lie on no wall.
fn marked(walls: &mut [Stretch], signs: &Signs) -> usize {
    let mut stray = 0;
    for mark in &signs.marks {
        let off = |wall: &Stretch| apart(mark, &wall.band.line) - wall.band.thickness / 2.0;
        let (own, line) = (mark.extent(), |wall: &Stretch| wall.band.line);
        let near = |wall: &&mut Stretch| {
            let ends = extent(&[line(wall).a, line(wall).b]);
            meet(own, ends, wall.band.thickness / 2.0 + 100.0)
        };
        let nearest = walls
            .iter_mut()
            .filter(near)
            .min_by(|one, two| off(one).total_cmp(&off(two)))
            .filter(|wall| off(wall) <= 100.0);
        let Some(wall) = nearest else {
            stray += 1;
            continue;
        };
        let [from, to] = reach(mark, &wall.band.line);
        let taken = wall.holes.iter().any(|hole| hole.from < to - 50.0 && from + 50.0 < hole.to);
        if taken {
            continue;
        }
        if to - from >= WIDTH_MIN && to - from <= SIGNED_MAX {
            wall.holes.push(Hole { from, to, fill: mark.fill });
        } else {
            stray += 1;
        }
    }
    stray
}

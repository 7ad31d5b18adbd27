//! What of the building moves on the sheet: the marks of snaps, a part that is
//! held, an outline that is drawn.

use kurbo::{Affine, BezPath, Circle, Point, Rect, Shape as _, Vec2};

use crate::plan::{AreaId, Change, Edit, Subject};
use crate::session::Session;
use crate::session::ground::places::exact;
use crate::session::ground::snap::Kind;
use crate::session::state::{Reshape, Sketch, Touch};
use crate::session::survey::rectangle::rectangle;
use crate::session::survey::{outlines, wall_areas};
use crate::units::{Mm, Point2};

impl Sketch {
    /// The small mark of what the pen holds on to, each kind its own.
    pub(crate) fn mark(&mut self, kind: Kind, at: Point) {
        const R: f64 = 5.0;
        let way = |steps: &[(f64, f64)], close: bool| {
            let mut path = BezPath::new();
            for (index, (x, y)) in steps.iter().enumerate() {
                let to = at + Vec2::new(*x, *y) * R;
                if index == 0 { path.move_to(to) } else { path.line_to(to) }
            }
            if close {
                path.close_path();
            }
            path
        };
        let square: &[(f64, f64)] = &[(-1.0, -1.0), (1.0, -1.0), (1.0, 1.0), (-1.0, 1.0)];
        let paths = match kind {
            Kind::End => vec![way(square, true)],
            Kind::Crossing => vec![
                way(&[(-1.0, -1.0), (1.0, 1.0)], false),
                way(&[(-1.0, 1.0), (1.0, -1.0)], false),
            ],
            Kind::Half => vec![way(&[(0.0, -1.2), (1.1, 0.9), (-1.1, 0.9)], true)],
            Kind::OnWall => vec![Circle::new(at, R).to_path(0.1)],
            Kind::Square => {
                vec![
                    way(&[(-1.2, -1.4), (-1.2, 1.2), (1.4, 1.2)], false),
                    way(&[(-1.2, 0.0), (0.0, 0.0), (0.0, 1.2)], false),
                ]
            }
            Kind::InLine | Kind::Level => {
                vec![way(&[(-1.4, 0.0), (1.4, 0.0)], false), way(&[(0.0, -1.4), (0.0, 1.4)], false)]
            }
            Kind::Continued => vec![
                way(&[(-1.8, 0.0), (-1.0, 0.0)], false),
                way(&[(-0.4, 0.0), (0.4, 0.0)], false),
                way(&[(1.0, 0.0), (1.8, 0.0)], false),
                way(&[(0.0, -1.2), (0.0, 1.2)], false),
            ],
            Kind::Free | Kind::Typed => vec![Circle::new(at, 2.0).to_path(0.1)],
        };
        self.lines.extend(paths.into_iter().map(|path| (path, Touch::New)));
    }

    pub(crate) fn outline(&mut self, corners: &[Point], closed: bool, touch: Touch) {
        let mut path = BezPath::new();
        for (index, corner) in corners.iter().enumerate() {
            if index == 0 { path.move_to(*corner) } else { path.line_to(*corner) }
        }
        if closed {
            path.close_path();
        }
        if corners.len() > 1 {
            self.lines.push((path, touch));
        }
    }
}

impl Session {
    /// A part of the building in the hand: what it holds on to and what is
    /// known of it, beside the pointer.
    pub(crate) fn held_sketch(&self, held: &Reshape, sketch: &mut Sketch) {
        let Some(at) = self.hand.pointer() else { return };
        for (from, to) in held.snap.iter().flat_map(|snap| &snap.guides) {
            sketch.line(
                self.sight.camera().screen(*from),
                self.sight.camera().screen(*to),
                Touch::Guide,
            );
        }
        if let Some(snap) = held.snap.as_ref().filter(|snap| snap.guides.is_empty()) {
            sketch.mark(snap.kind, self.sight.camera().screen_of(snap.at));
        }
        self.put_sketch(held.edit.as_ref(), sketch);
        let typed = if self.hand.typed().is_empty() {
            String::new()
        } else {
            format!("{}|  ", self.hand.typed())
        };
        sketch.labels.push((self.sight.camera().screen(at), format!("{typed}{}", held.says)));
    }

    /// The new places of what an edit puts.
    fn put_sketch(&self, edit: Option<&Edit>, sketch: &mut Sketch) {
        match edit {
            Some(Edit::Many(edits)) => {
                for edit in edits {
                    self.put_sketch(Some(edit), sketch);
                }
            }
            Some(Edit::Wall(Change::Put(_, wall))) => {
                let (a, b) =
                    (self.sight.camera().screen_of(wall.a), self.sight.camera().screen_of(wall.b));
                sketch.line(a, b, Touch::New);
            }
            Some(Edit::Opening(Change::Put(_, opening))) => {
                if let Some(wall) = self.document.plan().walls.get(&opening.wall) {
                    let end = |along: Mm| self.sight.camera().screen_of(wall.at(along.to_f64()));
                    sketch.line(end(opening.from), end(opening.from + opening.width), Touch::New);
                }
            }
            Some(Edit::Area(Change::Put(_, area))) => {
                let corners = wall_areas::strip(self.document.plan(), area).map_or_else(
                    || self.screened(&area.outline),
                    |strip| strip.into_iter().map(|at| self.sight.camera().screen(at)).collect(),
                );
                sketch.outline(&corners, true, Touch::New);
            }
            Some(Edit::Void(Change::Put(_, void))) => {
                let outline = void.outline.as_deref().unwrap_or_default();
                sketch.outline(&self.screened(outline), true, Touch::New);
            }
            Some(Edit::Circuit(change)) => {
                let Change::Put(_, circuit) = &**change else { return };
                for place in circuit.pins.iter().flat_map(|pin| &pin.through) {
                    sketch.ring(self.sight.camera().screen_of(place.at), 6.0, Touch::New);
                }
            }
            Some(Edit::Backdrop(Change::Put(_, backdrop))) => {
                self.picture_frame(self.frame_of(backdrop), sketch, Touch::New);
            }
            _ => {}
        }
    }

    fn screened(&self, outline: &[Point2]) -> Vec<Point> {
        outline.iter().map(|at| self.sight.camera().screen_of(*at)).collect()
    }

    fn picture_frame(&self, frame: Option<Affine>, sketch: &mut Sketch, touch: Touch) {
        let Some(frame) = frame else { return };
        let corners = [(0.0, 0.0), (1.0, 0.0), (1.0, 1.0), (0.0, 1.0)]
            .map(|(x, y)| self.sight.camera().screen(frame * Point::new(x, y)));
        sketch.outline(&corners, true, touch);
    }

    /// The edge of a room, an area, a void or the picture.
    pub(crate) fn ground_outline(&self, subject: Subject, touch: Touch, sketch: &mut Sketch) {
        match subject {
            Subject::Room(id) => {
                let room = self
                    .document
                    .plan()
                    .rooms
                    .get(&id)
                    .filter(|room| Some(room.level) == self.sight.level());
                if let Some(room) = room {
                    sketch.outline(&self.screened(&room.outline), true, touch);
                }
            }
            Subject::Level(id) if Some(id) == self.sight.level() => {
                let frame = self.backdrop().and_then(|(_, one)| self.frame_of(one));
                self.picture_frame(frame, sketch, touch);
            }
            Subject::Area(id) if self.strip_of(id).is_some() => {
                let strip = self.strip_of(id).unwrap_or_default();
                let corners: Vec<Point> =
                    strip.into_iter().map(|at| self.sight.camera().screen(at)).collect();
                sketch.outline(&corners, true, touch);
            }
            subject => {
                let Some(outline) = outlines::of(self.document.plan(), subject) else { return };
                let corners = self.screened(outline);
                sketch.outline(&corners, true, touch);
                if touch == Touch::Chosen {
                    for corner in corners {
                        sketch.frame(Rect::from_center_size(corner, (7.0, 7.0)), touch);
                    }
                }
            }
        }
    }

    /// An area on a wall of the level, seen from above.
    fn strip_of(&self, id: AreaId) -> Option<Vec<Point>> {
        wall_areas::strip(self.document.plan(), self.document.plan().areas.get(&id)?)
    }

    /// An outline that is drawn, to the pointer.
    pub(crate) fn outline_sketch(&self, sketch: &mut Sketch, at: Point) {
        if let Some(wall) = self.wall_for_area() {
            return self.wall_area_sketch(wall, at, sketch);
        }
        let snap = self.spot(at);
        let to = self.sight.camera().screen_of(snap.at);
        for (from, to) in &snap.guides {
            sketch.line(
                self.sight.camera().screen(*from),
                self.sight.camera().screen(*to),
                Touch::Guide,
            );
        }
        sketch.mark(snap.kind, to);
        let drawn = &self.hand.drawing.outline;
        let Some(first) = drawn.first() else {
            if snap.kind != Kind::Free {
                sketch.labels.push((to, snap.kind.word().to_owned()));
            }
            return;
        };
        let measure = self.sight.measure();
        if self.hand.drawing.stretching {
            let corners = rectangle(*first, snap.at);
            sketch.outline(&self.screened(&corners), true, Touch::New);
        } else {
            let mut corners = self.screened(drawn);
            corners.push(to);
            sketch.outline(&corners, false, Touch::New);
        }
        let size = Rect::from_points(exact(*first), exact(snap.at));
        let says = if self.hand.typed().is_empty() {
            outlines::extent(size, measure)
        } else {
            format!("{}|", self.hand.typed())
        };
        sketch.labels.push((to, says));
    }

    /// The known length on the picture.
    pub(crate) fn ruler_sketch(&self, sketch: &mut Sketch, at: Point) {
        let spot = |at: Point| self.sight.camera().screen(at);
        let says = match *self.hand.drawing.ruler.as_slice() {
            [] => "one end of a length that you know".to_owned(),
            [from] => {
                sketch.line(spot(from), spot(at), Touch::New);
                "its other end".to_owned()
            }
            [from, to, ..] => {
                sketch.line(spot(from), spot(to), Touch::New);
                match self.hand.typed() {
                    "" => "type how long it is".to_owned(),
                    typed => format!("{typed}|"),
                }
            }
        };
        for end in &self.hand.drawing.ruler {
            sketch.mark(Kind::Crossing, spot(*end));
        }
        sketch.labels.push((spot(at), says));
    }
}

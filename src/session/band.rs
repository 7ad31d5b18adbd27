//! The rubber band: everything whose symbol it holds is chosen.

use kurbo::{Point, Rect, Shape as _};

use crate::plan::Subject;
use crate::session::Session;
use crate::session::ground::places::exact;
use crate::session::state::{Sketch, Step, Touch};

/// How far a press must move before it is a band, pixels.
const SLACK: f64 = 4.0;

impl Session {
    /// The band follows the pointer; false where there is none.
    pub(crate) fn stretch(&mut self, at: Point) -> bool {
        self.hand.stretch_band(at)
    }

    /// The band is let go: what it holds is chosen. False where there is none.
    pub(crate) fn let_band_go(&mut self) -> bool {
        let Some(band) = self.hand.drop_band() else { return false };
        if band.from.distance(band.to) < self.sight.camera().reach(SLACK) {
            // A click: what it chose stays chosen.
            return true;
        }
        if !band.also {
            self.selection.clear();
        }
        let (from, to) =
            (self.sight.camera().screen(band.from), self.sight.camera().screen(band.to));
        let around = Rect::from_points(from, to);
        let symbols = self.jobs.picture().into_iter().flat_map(|picture| picture.symbols());
        let held = symbols
            .filter(|(_, symbol)| around.contains(self.sight.camera().paper(symbol.center())))
            .map(|(subject, _)| subject);
        self.selection.add(held);
        if self.sight.step() == Step::Survey {
            self.selection.add(self.walls_within(Rect::from_points(band.from, band.to)));
        }
        true
    }

    /// The walls and openings of the level that lie within a box, mm of the plan.
    fn walls_within(&self, around: Rect) -> Vec<Subject> {
        let level = self.sight.level();
        let within =
            |ends: [crate::units::Point2; 2]| ends.iter().all(|end| around.contains(exact(*end)));
        let walls = self.document.plan().walls.iter().filter(|(_, wall)| Some(wall.level) == level);
        let walls = walls.filter(|(_, wall)| within([wall.a, wall.b]));
        let openings = self.document.plan().openings.iter().filter(|(_, opening)| {
            self.document.plan().walls.get(&opening.wall).is_some_and(|wall| {
                let end = |along: crate::units::Mm| wall.at(along.to_f64());
                let ends = [end(opening.from), end(opening.from + opening.width)];
                Some(wall.level) == level && within(ends)
            })
        });
        let walls = walls.map(|(id, _)| Subject::Wall(*id));
        walls.chain(openings.map(|(id, _)| Subject::Opening(*id))).collect()
    }

    /// The band as it is drawn.
    pub(crate) fn band_sketch(&self, sketch: &mut Sketch) {
        let Some(band) = self.hand.band() else { return };
        let (from, to) =
            (self.sight.camera().screen(band.from), self.sight.camera().screen(band.to));
        sketch.lines.push((Rect::from_points(from, to).to_path(0.2), Touch::Guide));
    }
}

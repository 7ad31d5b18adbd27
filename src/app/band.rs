//! The rubber band: everything whose symbol it holds is chosen.

use kurbo::{Point, Rect, Shape as _};
use wirewend::plan::Subject;

use super::camera::exact;
use super::desk::Desk;
use super::keys::Step;
use super::sketch::{Sketch, Touch};

/// A band between two places of the plan, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Band {
    from: Point,
    to: Point,
    /// Whether what was chosen before stays chosen.
    also: bool,
}

/// How far a press must move before it is a band, pixels.
const SLACK: f64 = 4.0;

impl Band {
    /// A band that begins here.
    pub(super) const fn at(from: Point, also: bool) -> Self {
        Self { from, to: from, also }
    }
}

impl Desk {
    /// The band follows the pointer; false where there is none.
    pub(super) fn stretch(&mut self, at: Point) -> bool {
        self.at_hand.band.as_mut().map(|band| band.to = at).is_some()
    }

    /// The band is let go: what it holds is chosen. False where there is none.
    pub(super) fn let_band_go(&mut self) -> bool {
        let Some(band) = self.at_hand.band.take() else { return false };
        if band.from.distance(band.to) < self.camera.reach(SLACK) {
            // A click: what it chose stays chosen.
            return true;
        }
        if !band.also {
            self.chosen.clear();
        }
        let (from, to) = (self.camera.screen(band.from), self.camera.screen(band.to));
        let around = Rect::from_points(from, to);
        let symbols = self.picture.iter().flat_map(|picture| picture.symbols());
        let held = symbols
            .filter(|(_, symbol)| around.contains(self.camera.paper(symbol.center())))
            .map(|(subject, _)| subject);
        self.chosen.extend(held);
        if self.step == Step::Survey {
            self.chosen.extend(self.walls_within(Rect::from_points(band.from, band.to)));
        }
        true
    }

    /// The walls and openings of the level that lie within a box, mm of the plan.
    fn walls_within(&self, around: Rect) -> Vec<Subject> {
        let level = self.level;
        let within = |ends: [wirewend::units::Point2; 2]| {
            ends.iter().all(|end| around.contains(exact(*end)))
        };
        let walls = self.plan.walls.iter().filter(|(_, wall)| Some(wall.level) == level);
        let walls = walls.filter(|(_, wall)| within([wall.a, wall.b]));
        let openings = self.plan.openings.iter().filter(|(_, opening)| {
            self.plan.walls.get(&opening.wall).is_some_and(|wall| {
                let end = |along: wirewend::units::Mm| wall.at(along.to_f64());
                let ends = [end(opening.from), end(opening.from + opening.width)];
                Some(wall.level) == level && within(ends)
            })
        });
        let walls = walls.map(|(id, _)| Subject::Wall(*id));
        walls.chain(openings.map(|(id, _)| Subject::Opening(*id))).collect()
    }

    /// The band as it is drawn.
    pub(super) fn band_sketch(&self, sketch: &mut Sketch) {
        let Some(band) = self.at_hand.band else { return };
        let (from, to) = (self.camera.screen(band.from), self.camera.screen(band.to));
        sketch.lines.push((Rect::from_points(from, to).to_path(0.2), Touch::Guide));
    }
}

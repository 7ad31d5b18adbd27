//! What moves on the sheet: the pen's line, what is held, what is chosen.

use kurbo::{Point, Rect};

use crate::plan::{OpeningKind, Subject};
use crate::session::Session;
use crate::session::ground::places::exact;
use crate::session::ground::snap::Kind;
use crate::session::ground::{corners, kit, length};
use crate::session::state::{Sketch, Step, Tool, Touch};
use crate::units::Angle;

impl Session {
    /// What moves, for where the pointer is now.
    pub fn sketch(&self) -> Sketch {
        let mut sketch = Sketch::default();
        if self.sight.step() == Step::Papers {
            return sketch;
        }
        if let Some(held) = self
            .hand
            .drawing
            .reshape
            .as_ref()
            .filter(|held| !held.says.is_empty() || held.edit.is_some())
        {
            self.held_sketch(held, &mut sketch);
            return sketch;
        }
        for subject in self.selection.chosen() {
            self.outline(*subject, Touch::Chosen, &mut sketch);
        }
        self.set_out_sketch(&mut sketch);
        self.leg_sketch(&mut sketch);
        self.pins_sketch(&mut sketch);
        self.band_sketch(&mut sketch);
        let (Some(at), Some(level)) = (self.hand.pointer(), self.sight.level()) else {
            return sketch;
        };
        match self.hand.tool() {
            Tool::Hand => {
                let over = self.hand.hold().is_none().then(|| self.under(at)).flatten();
                if let Some(subject) = over.filter(|one| !self.selection.chosen().contains(one)) {
                    self.outline(subject, Touch::Over, &mut sketch);
                }
            }
            Tool::Wall => self.pen_sketch(&mut sketch, at),
            Tool::Pin => self.pin_sketch(&mut sketch, at),
            Tool::Opening(kind) => {
                let reach = self.sight.camera().reach(10.0);
                if let Some((_, opening)) =
                    kit::opening(self.document.plan(), level, kind, at, reach)
                    && let Some(wall) = self.document.plan().walls.get(&opening.wall)
                {
                    let from = exact(wall.at(opening.from.to_f64()));
                    let to = exact(wall.at((opening.from + opening.width).to_f64()));
                    let (from, to) =
                        (self.sight.camera().screen(from), self.sight.camera().screen(to));
                    sketch.line(from, to, Touch::New);
                    let name = if kind == OpeningKind::Window { "window" } else { "door" };
                    let says = format!("{name}  {}", self.opening_says(&opening));
                    sketch.labels.push((self.sight.camera().screen(at), says));
                }
            }
            Tool::Point(kind) => {
                let place = kit::place(
                    self.document.plan(),
                    level,
                    kind,
                    at,
                    self.sight.camera().reach(10.0),
                );
                self.place_sketch(place, kind.name(), at, &mut sketch);
            }
            Tool::Area(_) | Tool::Outline => self.outline_sketch(&mut sketch, at),
            Tool::Ruler => self.ruler_sketch(&mut sketch, at),
            Tool::Board => {
                let place = kit::board_place(
                    self.document.plan(),
                    level,
                    at,
                    self.sight.camera().reach(10.0),
                );
                self.place_sketch(place, "board", at, &mut sketch);
            }
        }
        sketch
    }

    fn place_sketch(
        &self,
        place: Option<crate::plan::Place>,
        name: &str,
        at: Point,
        sketch: &mut Sketch,
    ) {
        let Some(place) = place else { return };
        let typed = length::parse(self.hand.typed());
        let place = corners::typed(self.document.plan(), place, typed);
        let Some(seen) = self.document.plan().position_on_face(&place) else { return };
        let spot = self.sight.camera().screen_of(seen.on_floor());
        sketch.frame(Rect::from_center_size(spot, (14.0, 14.0)), Touch::New);
        let says = match place {
            crate::plan::Place::Wall(on) => {
                let show = |length| self.sight.measure().show(length);
                let offset = corners::offset(self.document.plan(), &on);
                if let Some(offset) = &offset {
                    self.lit_edge(&on, offset, Touch::New, sketch);
                }
                let away = |away| {
                    if self.hand.typed().is_empty() {
                        show(away)
                    } else {
                        format!("{}|", self.hand.typed())
                    }
                };
                let out = offset.map(|one| one.says(&away(one.away)));
                let out = out.map_or_else(String::new, |out| format!("{out}, "));
                format!("{name}, {out}{} high", show(on.height))
            }
            _ => format!("{name} on the ceiling"),
        };
        sketch.labels.push((self.sight.camera().screen(at), says));
    }

    fn pen_sketch(&self, sketch: &mut Sketch, at: Point) {
        let Some(level) = self.sight.level() else { return };
        let snap = self.corner(level, at);
        let to = self.sight.camera().screen_of(snap.at);
        for (from, to) in &snap.guides {
            sketch.line(
                self.sight.camera().screen(*from),
                self.sight.camera().screen(*to),
                Touch::Guide,
            );
        }
        sketch.mark(snap.kind, to);
        let Some(from) = self.hand.pen() else {
            if snap.kind != Kind::Free {
                sketch.labels.push((to, snap.kind.word().to_owned()));
            }
            return;
        };
        sketch.line(self.sight.camera().screen_of(from), to, Touch::New);
        let length = exact(from).distance(exact(snap.at));
        let length = crate::units::Mm::from_f64(length).unwrap_or(crate::units::Mm::ZERO);
        let degrees = f64::from(Angle::between(from, snap.at).millidegrees()) / 1000.0;
        let mut says = format!("{}  {degrees:.1}°", self.sight.measure().show(length));
        if !self.hand.typed().is_empty() {
            says = format!("{}|  {says}", self.hand.typed());
        } else if snap.kind != Kind::Free {
            says = format!("{says}  {}", snap.kind.word());
        }
        sketch.labels.push((to, says));
    }

    fn outline(&self, subject: Subject, touch: Touch, sketch: &mut Sketch) {
        let wall_line = |wall: &crate::plan::Wall, from: f64, to: f64| {
            let (a, b) = (exact(wall.at(from)), exact(wall.at(to)));
            (self.sight.camera().screen(a), self.sight.camera().screen(b))
        };
        match subject {
            Subject::Wall(id) => {
                if let Some(wall) = self.document.plan().walls.get(&id) {
                    let (a, b) = wall_line(wall, 0.0, wall.length());
                    sketch.line(a, b, touch);
                }
            }
            Subject::Opening(id) => {
                if let Some(opening) = self.document.plan().openings.get(&id)
                    && let Some(wall) = self.document.plan().walls.get(&opening.wall)
                {
                    let from = opening.from.to_f64();
                    let (a, b) = wall_line(wall, from, from + opening.width.to_f64());
                    sketch.line(a, b, touch);
                }
            }
            Subject::Room(_) | Subject::Area(_) | Subject::Void(_) | Subject::Level(_) => {
                self.ground_outline(subject, touch, sketch);
            }
            subject => {
                let around = self.jobs.picture().and_then(|one| one.bounds_of(subject));
                if let Some(around) = around {
                    let (a, b) =
                        (Point::new(around.x0, around.y0), Point::new(around.x1, around.y1));
                    let screen = Rect::from_points(
                        self.sight.camera().paper(a),
                        self.sight.camera().paper(b),
                    );
                    sketch.frame(screen.inflate(4.0, 4.0), touch);
                }
            }
        }
    }
}

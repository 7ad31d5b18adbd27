//! One piece of a face of a wall.

mod cables;
mod marks;
mod openings;
mod parts;
mod zones;

use kurbo::{Point, Rect};

use super::dimensions::{self, Named};
use crate::plan::{Subject, WallId};
use crate::sheet::clear::Clear;
use crate::sheet::gallery::Figure;
use crate::sheet::house::House;
use crate::sheet::lettering::{Lettering, Weight, wrap};
use crate::sheet::scene::{Anchor, Group, Item, Layer, LinePattern, Mark, Stroke, Text, bounds};
use crate::sheet::wall_view::{WallView, rooms_words, walls_words};
use crate::sheet::{Ink, Scale, pen};
use crate::units::Mm;
use crate::wording::figure;

/// A wall with more pieces of cable than this for each metre is drawn larger.
const CROWDED: f64 = 3.0;

/// Whom it is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Purpose {
    /// Those who cut boxes and pull cable.
    Fitting,
    /// Those who live there.
    Keeping,
}

/// A piece of a face with what is on it and in it.
pub(super) struct Face<'a> {
    house: &'a House<'a>,
    view: WallView<'a>,
    /// Paper for a millimetre of wall.
    per: f64,
    /// What of its length is drawn, mm from the corner at the left.
    part: (f64, f64),
}

impl<'a> Face<'a> {
    pub(super) fn of(house: &'a House<'a>, view: WallView<'a>) -> Self {
        let part = (0.0, view.piece.length);
        Self { house, view, per: 1.0, part }
    }

    /// By level, room and wall.
    pub(super) fn order(&self) -> (Option<usize>, String, Option<WallId>, &str) {
        let piece = self.view.piece;
        let level = self.house.plan.levels.get_index_of(&piece.level);
        let rooms = rooms_words(self.house.plan, piece);
        (level, rooms, piece.spans.first().map(|span| span.wall), &piece.name)
    }

    /// More cable in it than its lettering has room for at the usual scale.
    pub(super) fn is_crowded(&self) -> bool {
        let pieces = u32::try_from(self.view.cables.len()).map_or(f64::INFINITY, f64::from);
        pieces > CROWDED * self.view.piece.length / 1000.0
    }

    /// A place along the wall on paper.
    fn x(&self, at: f64) -> f64 {
        (at.clamp(self.part.0, self.part.1) - self.part.0) * self.per
    }

    /// How much of it is drawn, mm.
    const fn long(&self) -> f64 {
        self.part.1 - self.part.0
    }

    /// The face on paper at a scale, its floor at height nought. Where it is
    /// larger than its neighbours the title says so.
    pub(super) fn draw(&mut self, purpose: Purpose, scale: Scale, larger: bool) -> Figure {
        self.per = scale.paper_per_plan();
        let mut clear = Clear::default();
        // Its height stands there.
        let middle = -self.view.height * self.per / 2.0;
        clear.take(Rect::new(-4.8, middle - 6.0, -0.4, middle + 6.0));
        // Numbers of legs and the title stand over it.
        clear.take(Rect::new(
            -100.0,
            -self.view.height * self.per - 60.0,
            600.0,
            -self.view.height * self.per,
        ));
        let mut items = Vec::new();
        let mut named: Vec<Named> = Vec::new();
        if purpose == Purpose::Fitting {
            items.extend(self.zones());
        }
        items.extend(self.outline());
        items.extend(self.openings(purpose, &mut clear));
        match purpose {
            Purpose::Fitting => items.extend(self.cables(&mut clear, &mut named)),
            Purpose::Keeping => items.extend(self.strips()),
        }
        items.extend(self.marks(purpose, &mut clear));
        items.extend(dimensions::below(&self.stations(purpose), self.part, self.per));
        let top = -self.view.height * self.per;
        let over = dimensions::above(named, top);
        let free = bounds(&over).map_or(top, |all| all.y0.min(top));
        items.extend(over);
        items.extend(self.title(free, larger.then_some(scale)));
        let subject = self.view.piece.spans.first().map(|span| Subject::Wall(span.wall));
        Figure { items: vec![Group { layer: Layer::Walls, subject, items }.into()] }
    }

    fn rect(&self, x0: f64, x1: f64, low: f64, high: f64) -> Rect {
        Rect::new(self.x(x0), -high * self.per, self.x(x1), -low * self.per)
    }

    fn title(&self, above: f64, scale: Option<Scale>) -> Vec<Item> {
        let (plan, piece) = (self.house.plan, self.view.piece);
        let mut text = format!("{}: {}", rooms_words(plan, piece), walls_words(plan, piece));
        if self.is_part() {
            let metres = |at: f64| figure(Mm::from_f64(at).unwrap_or(Mm::ZERO));
            let (from, to) = (metres(self.part.0), metres(self.part.1));
            text = format!("{text}, part from {from} to {to}");
        }
        if let Some(scale) = scale {
            text = format!("{text}, at {scale}");
        }
        let width = (self.long() * self.per).max(46.0);
        let mut y = above - 4.0;
        let mut items: Vec<Item> = Vec::new();
        for line in wrap(&text, width, Lettering::Note, Weight::Bold).iter().rev() {
            items.push(Text::new(line, (0.0, y), Lettering::Note).bold().into());
            y -= 4.0;
        }
        let ceiling = Text::new(
            figure(Mm::from_f64(self.view.height).unwrap_or(Mm::ZERO)),
            (-1.6, -self.view.height * self.per / 2.0),
            Lettering::Note,
        );
        let rule = Stroke::solid(Ink::BLACK, 0.18);
        let (foot, top) = (Point::new(-0.9, 0.0), Point::new(-0.9, -self.view.height * self.per));
        items.push(Mark::line(pen::line(foot, top), rule).into());
        items.push(Text { turn: -90.0, anchor: Anchor::Middle, ..ceiling }.into());
        items
    }

    fn is_part(&self) -> bool {
        self.long() + 1.0 < self.view.piece.length
    }

    fn outline(&self) -> Vec<Item> {
        let all = self.rect(self.part.0, self.part.1, 0.0, self.view.height);
        let end = |x: f64, whole: bool| -> Item {
            let pattern = if whole { LinePattern::Solid } else { LinePattern::LongDashDot };
            let stroke = Stroke { ink: Ink::BLACK, width: 0.35, pattern };
            Mark::line(pen::line((x, all.y0), (x, all.y1)), stroke).into()
        };
        let thin = Stroke::solid(Ink::BLACK, 0.35);
        vec![
            Mark::line(pen::line((all.x0, all.y0), (all.x1, all.y0)), thin).into(),
            end(all.x0, self.part.0 < 1.0),
            end(all.x1, self.part.1 + 1.0 > self.view.piece.length),
            Mark::line(
                pen::line((all.x0, all.y1), (all.x1, all.y1)),
                Stroke::solid(Ink::BLACK, 0.7),
            )
            .into(),
        ]
    }

    /// Strips not to drill in.
    fn strips(&self) -> Vec<Item> {
        let seen = self.view.strips().into_iter();
        let seen = seen.filter(|area| area.x0 < self.part.1 && self.part.0 < area.x1);
        seen.flat_map(|area| hatched(self.rect(area.x0, area.x1, area.y0, area.y1))).collect()
    }

    /// What is measured from the corner, mm.
    fn stations(&self, purpose: Purpose) -> Vec<f64> {
        let mut stations = vec![self.part.1];
        if self.is_part() {
            stations.push(self.part.0);
        }
        if purpose == Purpose::Fitting {
            stations.extend(self.view.openings.iter().flat_map(|one| [one.area.x0, one.area.x1]));
            stations.extend(self.view.boxes.iter().filter(|one| one.is_near).map(|one| one.across));
        }
        stations.extend(self.view.uprights().map(|one| one.from.x));
        stations.retain(|at| self.part.0 - 1.0 <= *at && *at <= self.part.1 + 1.0);
        stations
    }
}

/// Crossed lines over an area.
fn hatched(area: Rect) -> Vec<Item> {
    let hatch = crate::sheet::floor::Hatch::of(crate::plan::WallBuild::DoubleBrick);
    let mut items = hatch.fill_box(area, -core::f64::consts::FRAC_PI_4);
    items.push(Mark::line(pen::rect(area), Stroke::solid(Ink::BLACK, 0.18)).into());
    items
}

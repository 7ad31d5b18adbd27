//! Outlines that are drawn and changed: keep-outs, areas with a price of their
//! own, and what a void covers. A drag draws a rectangle, clicks the corners of
//! anything else.

use kurbo::{Point, Rect, Vec2};

use crate::plan::{
    Area, AreaEffect, AreaId, Change, Edit, Plan, Plane, Subject, Void, VoidId, outline_holds,
};
use crate::session::Session;
use crate::session::ground::length::{self, Measure};
use crate::session::ground::places::{around, exact, rounded};
use crate::session::state::{AreaKind, Part, Tool};
use crate::session::survey::rectangle::rectangle;
use crate::session::survey::wall_areas;
use crate::units::{Mm, Point2};

impl AreaKind {
    /// What cables are to do there. The figures are a beginning, to be edited.
    pub const fn effect(self) -> AreaEffect {
        match self {
            Self::KeepOut => AreaEffect::KeepOut,
            Self::Dear => AreaEffect::Percent(300),
            Self::Cheap => AreaEffect::Percent(50),
            Self::Barrier => AreaEffect::Barrier(Mm::new(3000)),
        }
    }

    /// What it is called until it has a name.
    pub(crate) const fn name(self) -> &'static str {
        match self {
            Self::KeepOut => "keep-out",
            Self::Dear => "dear area",
            Self::Cheap => "preferred way",
            Self::Barrier => "barrier",
        }
    }
}

/// What an area does, in words.
pub fn effect_says(effect: AreaEffect, measure: Measure) -> String {
    match effect {
        AreaEffect::KeepOut => "no cable inside".to_owned(),
        AreaEffect::Percent(part) => format!("cable costs {part} percent here"),
        AreaEffect::Barrier(toll) => format!("to cross it costs as much as {}", measure.show(toll)),
    }
}

impl Session {
    /// The void that areas go onto: the chosen one, or that of the chosen
    /// area, or the first over or under the level.
    pub(crate) fn void_here(&self) -> Option<VoidId> {
        let chosen = self.selection.chosen().iter().find_map(|subject| match subject {
            Subject::Void(id) => Some(*id),
            Subject::Area(id) => match self.document.plan().areas.get(id)?.on {
                Plane::Void(void) => Some(void),
                Plane::Wall(_) => None,
            },
            _ => None,
        });
        let level = self.document.plan().levels.get(&self.sight.level()?)?;
        chosen.or_else(|| level.above.first().or_else(|| level.below.first()).copied())
    }

    /// The button goes down with a tool that draws an outline.
    pub(crate) fn outline_press(&mut self, at: Point) {
        if let Some(wall) = self.wall_for_area() {
            return self.wall_area_press(wall, at);
        }
        if self.void_here().is_none() {
            self.said = "this level has no void above or below: add one first".to_owned();
            return;
        }
        let to = self.spot(at).at;
        let closes = self.hand.drawing.outline.first().is_some_and(|first| {
            self.hand.drawing.outline.len() >= 3 && exact(*first).distance(at) <= self.reach()
        });
        if closes {
            self.outline_done();
            return;
        }
        self.hand.drawing.stretching = self.hand.drawing.outline.is_empty();
        if self.hand.drawing.outline.last() != Some(&to) {
            self.hand.drawing.outline.push(to);
        }
    }

    /// The button goes up again: far from where it went down, it was a
    /// rectangle.
    pub(crate) fn outline_release(&mut self) -> bool {
        if !std::mem::take(&mut self.hand.drawing.stretching) {
            return false;
        }
        if let Some(wall) = self.wall_for_area() {
            self.wall_area_release(wall);
            return true;
        }
        if let (Some(first), Some(at)) =
            (self.hand.drawing.outline.first().copied(), self.hand.pointer())
        {
            let to = self.spot(at).at;
            let apart = to.x != first.x && to.y != first.y;
            if apart && exact(first).distance(exact(to)) > 2.0 * self.reach() {
                self.hand.drawing.outline = rectangle(first, to);
                self.outline_done();
            }
        }
        true
    }

    /// Enter: a typed size makes a rectangle, otherwise the outline closes.
    pub(crate) fn outline_done(&mut self) {
        if let Some(wall) = self.wall_for_area() {
            return self.wall_area_done(wall);
        }
        let typed = self.hand.take_typed();
        if let (false, [first]) = (typed.is_empty(), self.hand.drawing.outline.as_slice()) {
            let sides = typed
                .split_once('x')
                .and_then(|(across, up)| Some((length::parse(across)?, length::parse(up)?)));
            let Some((across, up)) = sides else {
                self.said = format!("\"{typed}\" is no size; type 900x600 or 3'x2'6\"");
                return;
            };
            let towards = self.hand.pointer().unwrap_or(exact(*first));
            let x = if towards.x < first.x.to_f64() { -across } else { across };
            let y = if towards.y < first.y.to_f64() { -up } else { up };
            self.hand.drawing.outline =
                rectangle(*first, Point2 { x: first.x + x, y: first.y + y });
        }
        if self.hand.drawing.outline.len() < 3 {
            self.said = "an outline has three corners or more".to_owned();
            return;
        }
        let outline = std::mem::take(&mut self.hand.drawing.outline);
        let Some(void) = self.void_here() else { return };
        match self.hand.tool() {
            Tool::Area(kind) => {
                let id = AreaId(self.document.plan().fresh_id());
                let (name, effect) = (kind.name().to_owned(), kind.effect());
                let area = Area { name, on: Plane::Void(void), outline, effect };
                if self.edit(Change::Put(id, area).into()) {
                    self.selection.choose([Subject::Area(id)]);
                }
            }
            Tool::Outline => {
                if let Some(old) = self.document.plan().voids.get(&void) {
                    let new = Void { outline: Some(outline), ..old.clone() };
                    if self.edit(Change::Put(void, new).into()) {
                        self.selection.choose([Subject::Void(void)]);
                        self.hand.change(Tool::Hand);
                    }
                }
            }
            _ => {}
        }
    }

    /// The area of the level under a place: the smallest.
    pub(crate) fn area_under(&self, at: Point) -> Option<AreaId> {
        let level = self.document.plan().levels.get(&self.sight.level()?)?;
        let here = |void: &VoidId| level.above.contains(void) || level.below.contains(void);
        let areas = self.document.plan().areas.iter().filter(|(_, area)| {
            matches!(area.on, Plane::Void(void) if here(&void))
                && outline_holds(&area.outline, at.x, at.y)
        });
        let extent = |area: &Area| around(&area.outline).area();
        areas
            .min_by(|one, other| extent(one.1).total_cmp(&extent(other.1)).then(one.0.cmp(other.0)))
            .map(|(id, _)| *id)
    }
}

/// The outline of an area or of a void that lies in the plan.
pub(crate) fn of(plan: &Plan, subject: Subject) -> Option<&Vec<Point2>> {
    match subject {
        Subject::Area(id) => {
            plan.areas.get(&id).filter(|a| matches!(a.on, Plane::Void(_))).map(|a| &a.outline)
        }
        Subject::Void(id) => plan.voids.get(&id)?.outline.as_ref(),
        _ => None,
    }
}

fn with(plan: &Plan, subject: Subject, outline: Vec<Point2>) -> Option<Edit> {
    match subject {
        Subject::Area(id) => {
            let area = plan.areas.get(&id)?.clone();
            Some(Change::Put(id, Area { outline, ..area }).into())
        }
        Subject::Void(id) => {
            let void = plan.voids.get(&id)?.clone();
            Some(Change::Put(id, Void { outline: Some(outline), ..void }).into())
        }
        _ => None,
    }
}

/// A corner of an outline that is near, or all of an area.
pub(crate) fn part_at(plan: &Plan, subject: Subject, at: Point, reach: f64) -> Option<Part> {
    if let Subject::Area(id) = subject
        && plan.areas.get(&id).is_some_and(|area| matches!(area.on, Plane::Wall(_)))
    {
        return Some(Part::Area(id));
    }
    let outline = of(plan, subject)?;
    let near = outline.iter().position(|corner| exact(*corner).distance(at) <= reach);
    match (near, subject) {
        (Some(index), _) => Some(Part::Outline(subject, index)),
        (None, Subject::Area(id)) => Some(Part::Area(id)),
        _ => None,
    }
}

/// One corner elsewhere; a rectangle stays one.
pub(crate) fn corner_to(
    plan: &Plan,
    subject: Subject,
    index: usize,
    to: Point2,
) -> Result<Edit, String> {
    let mut outline = of(plan, subject).ok_or("the outline is gone")?.clone();
    let opposite = outline.get((index + 2) % 4).copied();
    outline = match opposite.filter(|_| is_rectangle(&outline)) {
        Some(opposite) if opposite.x == to.x || opposite.y == to.y => {
            return Err("no room is left inside".to_owned());
        }
        Some(opposite) => rectangle(opposite, to),
        None => {
            if let Some(corner) = outline.get_mut(index) {
                *corner = to;
            }
            outline
        }
    };
    with(plan, subject, outline).ok_or_else(|| "the outline is gone".to_owned())
}

fn is_rectangle(outline: &[Point2]) -> bool {
    let [a, b, c, d] = outline else { return false };
    let upright = a.x == b.x && b.y == c.y && c.x == d.x && d.y == a.y;
    let level = a.y == b.y && b.x == c.x && c.y == d.y && d.x == a.x;
    upright || level
}

/// An area moved across the page.
pub(crate) fn moved(plan: &Plan, id: AreaId, by: Vec2) -> Result<Edit, String> {
    let area = plan.areas.get(&id).ok_or("the area is gone")?;
    if let Plane::Wall(wall) = area.on {
        return Ok(Change::Put(id, wall_areas::slid(plan, wall, area, by)?).into());
    }
    let outline = area.outline.iter().map(|at| rounded(exact(*at) + by)).collect();
    Ok(Change::Put(id, Area { outline, ..area.clone() }).into())
}

/// How large an outline is that an edit puts, in words.
pub(crate) fn size(edit: &Edit, measure: Measure) -> String {
    let outline = match edit {
        Edit::Area(Change::Put(_, area)) => Some(&area.outline),
        Edit::Void(Change::Put(_, void)) => void.outline.as_ref(),
        _ => None,
    };
    outline.map_or_else(String::new, |outline| extent(around(outline), measure))
}

/// A box in words.
pub(crate) fn extent(around: Rect, measure: Measure) -> String {
    let show = |value: f64| measure.show(Mm::from_f64(value).unwrap_or(Mm::ZERO));
    format!("{} × {}", show(around.width()), show(around.height()))
}

//! Areas on walls: drawn along the chosen wall from floor to ceiling, seen from
//! above as a piece of it. How high they reach is typed.

use kurbo::{Point, Rect, Vec2};

use crate::plan::{Area, AreaId, Change, Edit, Plan, Plane, Subject, Wall, WallId};
use crate::session::Session;
use crate::session::ground::places::{around, exact};
use crate::session::ground::{length, near, snap};
use crate::session::state::{Amount, Sketch, Tool, Touch};
use crate::session::survey::rectangle::rectangle;
use crate::units::{Mm, Point2};

/// The piece of a wall that an area covers, seen from above.
pub fn strip(plan: &Plan, area: &Area) -> Option<Vec<Point>> {
    let Plane::Wall(id) = area.on else { return None };
    let around = around(&area.outline);
    Some(piece(plan.walls.get(&id)?, around.x0, around.x1))
}

fn piece(wall: &Wall, from: f64, to: f64) -> Vec<Point> {
    let (x, y) = wall.direction();
    let (way, half) = (Vec2::new(x, y), wall.thickness.to_f64() / 2.0);
    let (a, side) = (exact(wall.a), Vec2::new(-y, x) * half);
    vec![a + way * from + side, a + way * to + side, a + way * to - side, a + way * from - side]
}

/// From where to where along its wall an area on one reaches, and how high.
pub fn extent(area: &Area) -> Option<Rect> {
    matches!(area.on, Plane::Wall(_)).then(|| around(&area.outline))
}

/// An area on a wall carried along it.
pub(crate) fn slid(plan: &Plan, wall: WallId, area: &Area, by: Vec2) -> Result<Area, String> {
    let wall = plan.walls.get(&wall).ok_or("its wall is gone")?;
    let (x, y) = wall.direction();
    let around = around(&area.outline);
    let along = by.dot(Vec2::new(x, y)).max(-around.x0).min(wall.length() - around.x1);
    let along = Mm::from_f64(along).map_err(|_| "that is too far")?;
    let outline = area.outline.iter().map(|at| Point2 { x: at.x + along, y: at.y }).collect();
    Ok(Area { outline, ..area.clone() })
}

/// An area on a wall with one of its lengths set. None: that is no question of
/// it.
pub(crate) fn set(
    plan: &Plan,
    id: AreaId,
    amount: Amount,
    value: Mm,
) -> Result<Option<Edit>, String> {
    let Some(area) = plan.areas.get(&id) else { return Ok(None) };
    let Plane::Wall(wall) = area.on else { return Ok(None) };
    let wall = plan.walls.get(&wall).ok_or("its wall is gone")?;
    let top = plan.levels.get(&wall.level).map_or(Mm::ZERO, |level| level.height);
    let old = around(&area.outline);
    let mm = |value: f64| Mm::from_f64(value).unwrap_or(Mm::ZERO);
    let (from, width, sill, head) = (mm(old.x0), mm(old.width()), mm(old.y0), mm(old.y1));
    let (from, width, sill, head) = match amount {
        Amount::Along => (value, width, sill, head),
        Amount::Width => (from, value, sill, head),
        Amount::Height => (from, width, value, head),
        Amount::Head => (from, width, sill, value),
        _ => return Ok(None),
    };
    if from < Mm::ZERO || (from + width).to_f64() > wall.length() + 0.5 {
        return Err("it would not fit onto its wall".to_owned());
    }
    if sill < Mm::ZERO || sill >= head || head > top {
        return Err("it must lie between floor and ceiling, its foot under its head".to_owned());
    }
    let outline = rectangle(Point2 { x: from, y: sill }, Point2 { x: from + width, y: head });
    Ok(Some(Change::Put(id, Area { outline, ..area.clone() }).into()))
}

impl Session {
    /// The wall that an area would go onto: the one that is chosen.
    pub fn wall_for_area(&self) -> Option<WallId> {
        let Tool::Area(_) = self.hand.tool() else { return None };
        self.selection.chosen().iter().find_map(|subject| match subject {
            Subject::Wall(id) if self.document.plan().walls.contains_key(id) => Some(*id),
            _ => None,
        })
    }

    /// So far along a wall, to the step, at its ends exactly.
    fn along(&self, wall: WallId, at: Point) -> Option<f64> {
        let of = self.document.plan().walls.get(&wall)?;
        let along = near::on(of, wall, at)?.along;
        let (reach, length) = (self.reach(), of.length());
        Some(if along <= reach {
            0.0
        } else if length - along <= reach {
            length
        } else {
            snap::even(along)
        })
    }

    /// The button goes down on or beside the wall: where the area begins, or
    /// where it ends.
    pub(crate) fn wall_area_press(&mut self, wall: WallId, at: Point) {
        let along = self.along(wall, at).and_then(|along| Mm::from_f64(along).ok());
        let Some(along) = along else { return };
        match self.hand.drawing.outline.first() {
            None => {
                self.hand.drawing.outline.push(Point2 { x: along, y: Mm::ZERO });
                self.hand.drawing.stretching = true;
            }
            Some(_) => self.wall_area_done(wall),
        }
    }

    /// The button goes up: away from where it went down the area ends.
    pub(crate) fn wall_area_release(&mut self, wall: WallId) {
        let first = self.hand.drawing.outline.first().map(|first| first.x.to_f64());
        let now = self.hand.pointer().and_then(|at| self.along(wall, at));
        if let (Some(first), Some(now)) = (first, now)
            && (now - first).abs() > 2.0 * self.reach()
        {
            self.wall_area_done(wall);
        }
    }

    /// The area is done: to the pointer, or as wide (and high) as is typed.
    pub(crate) fn wall_area_done(&mut self, id: WallId) {
        let typed = self.hand.take_typed();
        let (Tool::Area(kind), Some(wall)) =
            (self.hand.tool(), self.document.plan().walls.get(&id))
        else {
            return;
        };
        let Some(first) = self.hand.drawing.outline.first().map(|first| first.x) else { return };
        let top =
            self.document.plan().levels.get(&wall.level).map_or(Mm::ZERO, |level| level.height);
        let now = self
            .hand
            .pointer()
            .and_then(|at| self.along(id, at))
            .and_then(|now| Mm::from_f64(now).ok());
        let now = now.unwrap_or(first);
        let (to, head) = if typed.is_empty() {
            (now, top)
        } else {
            let (wide, high) = typed.split_once('x').unwrap_or((&typed, ""));
            let high = if high.is_empty() { Some(top) } else { length::parse(high) };
            let (Some(wide), Some(high)) = (length::parse(wide), high) else {
                self.said = format!("\"{typed}\" is no size; type 900, or 900x600 with its height");
                return;
            };
            (if now < first { first - wide } else { first + wide }, high.min(top))
        };
        let longest = Mm::from_f64(wall.length()).unwrap_or(first);
        let (from, to) = (first.min(to).max(Mm::ZERO), first.max(to).min(longest));
        if from >= to {
            self.said = "drag along the wall: an area has a width".to_owned();
            return;
        }
        self.hand.drawing.outline.clear();
        self.hand.drawing.stretching = false;
        let outline = rectangle(Point2 { x: from, y: Mm::ZERO }, Point2 { x: to, y: head });
        let area = Area {
            name: kind.name().to_owned(),
            on: Plane::Wall(id),
            outline,
            effect: kind.effect(),
        };
        let new = AreaId(self.document.plan().fresh_id());
        if self.edit(Change::Put(new, area).into()) {
            self.selection.choose([Subject::Area(new)]);
            self.hand.change(Tool::Hand);
            self.said = "floor to ceiling; T and Shift+T type its lower and upper edge".to_owned();
        }
    }

    /// The area under a place of a wall.
    pub(crate) fn area_on(&self, wall: WallId, along: f64) -> Option<AreaId> {
        let on = self.document.plan().areas.iter().filter(|(_, area)| area.on == Plane::Wall(wall));
        let wide = |area: &Area| around(&area.outline);
        on.filter(|(_, area)| (wide(area).x0..=wide(area).x1).contains(&along))
            .min_by(|one, other| wide(one.1).width().total_cmp(&wide(other.1).width()))
            .map(|(id, _)| *id)
    }

    /// The piece of the wall that would be covered.
    pub(crate) fn wall_area_sketch(&self, id: WallId, at: Point, sketch: &mut Sketch) {
        let Some(wall) = self.document.plan().walls.get(&id) else { return };
        let Some(now) = self.along(id, at) else { return };
        let screen = |along: f64| {
            self.sight.camera().screen(
                exact(wall.a) + {
                    let (x, y) = wall.direction();
                    Vec2::new(x, y) * along
                },
            )
        };
        let Some(first) = self.hand.drawing.outline.first().map(|first| first.x.to_f64()) else {
            sketch.mark(crate::session::ground::snap::Kind::OnWall, screen(now));
            sketch.labels.push((screen(now), "drag along the wall".to_owned()));
            return;
        };
        let corners: Vec<Point> =
            piece(wall, first, now).into_iter().map(|at| self.sight.camera().screen(at)).collect();
        sketch.outline(&corners, true, Touch::New);
        let wide = Mm::from_f64((now - first).abs()).unwrap_or(Mm::ZERO);
        let says = match self.hand.typed() {
            "" => format!("{}, floor to ceiling", self.sight.measure().show(wide)),
            typed => format!("{typed}|"),
        };
        sketch.labels.push((screen(now), says));
    }
}

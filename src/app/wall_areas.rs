//! Areas on walls: drawn along the chosen wall from floor to ceiling, seen from
//! above as a piece of it. How high they reach is typed.

use kurbo::{Point, Rect, Vec2};
use wirewend::plan::{Area, AreaId, Change, Edit, Plan, Plane, Subject, Wall, WallId};
use wirewend::units::{Mm, Point2};

use super::camera::{around, exact};
use super::desk::Desk;
use super::keys::{Amount, Tool};
use super::length;
use super::outlines::rectangle;
use super::sketch::{Sketch, Touch};
use super::{near, snap};

/// The piece of a wall that an area covers, seen from above.
pub(super) fn strip(plan: &Plan, area: &Area) -> Option<Vec<Point>> {
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
pub(super) fn extent(area: &Area) -> Option<Rect> {
    matches!(area.on, Plane::Wall(_)).then(|| around(&area.outline))
}

/// An area on a wall carried along it.
pub(super) fn slid(plan: &Plan, wall: WallId, area: &Area, by: Vec2) -> Result<Area, String> {
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
pub(super) fn set(
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

impl Desk {
    /// The wall that an area would go onto: the one that is chosen.
    pub(super) fn wall_for_area(&self) -> Option<WallId> {
        let Tool::Area(_) = self.tool else { return None };
        self.chosen.iter().find_map(|subject| match subject {
            Subject::Wall(id) if self.plan.walls.contains_key(id) => Some(*id),
            _ => None,
        })
    }

    /// So far along a wall, to the step, at its ends exactly.
    fn along(&self, wall: WallId, at: Point) -> Option<f64> {
        let of = self.plan.walls.get(&wall)?;
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
    pub(super) fn wall_area_press(&mut self, wall: WallId, at: Point) {
        let along = self.along(wall, at).and_then(|along| Mm::from_f64(along).ok());
        let Some(along) = along else { return };
        match self.survey.outline.first() {
            None => {
                self.survey.outline.push(Point2 { x: along, y: Mm::ZERO });
                self.survey.stretching = true;
            }
            Some(_) => self.wall_area_done(wall),
        }
    }

    /// The button goes up: away from where it went down the area ends.
    pub(super) fn wall_area_release(&mut self, wall: WallId) {
        let first = self.survey.outline.first().map(|first| first.x.to_f64());
        let now = self.pointer.and_then(|at| self.along(wall, at));
        if let (Some(first), Some(now)) = (first, now)
            && (now - first).abs() > 2.0 * self.reach()
        {
            self.wall_area_done(wall);
        }
    }

    /// The area is done: to the pointer, or as wide (and high) as is typed.
    pub(super) fn wall_area_done(&mut self, id: WallId) {
        let typed = std::mem::take(&mut self.typed);
        let (Tool::Area(kind), Some(wall)) = (self.tool, self.plan.walls.get(&id)) else { return };
        let Some(first) = self.survey.outline.first().map(|first| first.x) else { return };
        let top = self.plan.levels.get(&wall.level).map_or(Mm::ZERO, |level| level.height);
        let now =
            self.pointer.and_then(|at| self.along(id, at)).and_then(|now| Mm::from_f64(now).ok());
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
        self.survey.outline.clear();
        self.survey.stretching = false;
        let outline = rectangle(Point2 { x: from, y: Mm::ZERO }, Point2 { x: to, y: head });
        let area = Area {
            name: kind.name().to_owned(),
            on: Plane::Wall(id),
            outline,
            effect: kind.effect(),
        };
        let new = AreaId(self.plan.fresh_id());
        if self.edit(Change::Put(new, area).into()) {
            self.chosen = std::collections::BTreeSet::from([Subject::Area(new)]);
            self.tool = Tool::Hand;
            self.said = "floor to ceiling; T and Shift+T type its lower and upper edge".to_owned();
        }
    }

    /// The area under a place of a wall.
    pub(super) fn area_on(&self, wall: WallId, along: f64) -> Option<AreaId> {
        let on = self.plan.areas.iter().filter(|(_, area)| area.on == Plane::Wall(wall));
        let wide = |area: &Area| around(&area.outline);
        on.filter(|(_, area)| (wide(area).x0..=wide(area).x1).contains(&along))
            .min_by(|one, other| wide(one.1).width().total_cmp(&wide(other.1).width()))
            .map(|(id, _)| *id)
    }

    /// The piece of the wall that would be covered.
    pub(super) fn wall_area_sketch(&self, id: WallId, at: Point, sketch: &mut Sketch) {
        let Some(wall) = self.plan.walls.get(&id) else { return };
        let Some(now) = self.along(id, at) else { return };
        let screen = |along: f64| {
            self.camera.screen(
                exact(wall.a) + {
                    let (x, y) = wall.direction();
                    Vec2::new(x, y) * along
                },
            )
        };
        let Some(first) = self.survey.outline.first().map(|first| first.x.to_f64()) else {
            sketch.mark(super::snap::Kind::OnWall, screen(now));
            sketch.labels.push((screen(now), "drag along the wall".to_owned()));
            return;
        };
        let corners: Vec<Point> =
            piece(wall, first, now).into_iter().map(|at| self.camera.screen(at)).collect();
        sketch.outline(&corners, true, Touch::New);
        let wide = Mm::from_f64((now - first).abs()).unwrap_or(Mm::ZERO);
        let says = match self.typed.as_str() {
            "" => format!("{}, floor to ceiling", self.survey.measure.show(wide)),
            typed => format!("{typed}|"),
        };
        sketch.labels.push((screen(now), says));
    }
}

//! Voids, where there are any, and what is in their way.

use wirewend::plan::*;
use wirewend::units::{Angle, Mm, Point2};

use super::chance::Chance;
use super::next_id;
use super::shell::{House, Rect};

pub(super) fn draw(plan: &mut Plan, chance: &mut Chance, house: &House) {
    let (lowest, top) = (house.levels[0], house.levels[house.levels.len() - 1]);
    if chance.percent(80) {
        let z = plan.levels[&top].ceiling().get() + chance.between(0, 300);
        let id = add(plan, chance, house, VoidKind::RoofSpace, z);
        plan.levels[&top].above.push(id);
    }
    for pair in house.levels.windows(2) {
        if chance.percent(70) {
            let (low, high) = (plan.levels[&pair[0]].ceiling(), plan.levels[&pair[1]].floor);
            let z = chance.between(low.get(), high.get());
            let id = add(plan, chance, house, VoidKind::BetweenFloors, z);
            plan.levels[&pair[0]].above.push(id);
            plan.levels[&pair[1]].below.push(id);
        }
    }
    if chance.percent(50) {
        let z = -chance.between(0, 600);
        let id = add(plan, chance, house, VoidKind::Subfloor, z);
        plan.levels[&lowest].below.push(id);
    }
    if chance.percent(30) {
        let z = -chance.between(300, 600);
        let id = add(plan, chance, house, VoidKind::Ground, z);
        plan.levels[&lowest].below.push(id);
    }
    let voids: Vec<VoidId> = plan.voids.keys().copied().collect();
    for void in &voids {
        void_areas(plan, chance, house, *void);
    }
    wall_areas(plan, chance);
    if voids.len() > 1 && chance.percent(60) {
        let at = within(chance, house.footprint);
        let id = RiserId(next_id(plan));
        let count = chance.within(2, voids.len());
        let riser = Riser { name: "riser".to_owned(), at, voids: voids[..count].to_vec() };
        plan.risers.insert(id, riser);
    }
}

fn add(plan: &mut Plan, chance: &mut Chance, house: &House, kind: VoidKind, z: i64) -> VoidId {
    let outline = match kind {
        VoidKind::Ground => Some(around(house, 3000)),
        _ if chance.percent(20) => Some(around(house, house.outer.div_euclid(2))),
        _ if chance.percent(10) => Some(half(house)),
        _ => None,
    };
    let spacing = Mm::new(chance.pick(&[400, 450, 600]));
    let id = VoidId(next_id(plan));
    let void = Void {
        name: format!("{kind:?}"),
        kind,
        z: Mm::new(z),
        depth: Mm::new(300),
        direction: Angle::from_millidegrees(chance.pick(&[0, 0, 90_000, 90_000, 120_000, 37_500])),
        joists: chance.percent(80).then_some(Joists {
            spacing,
            depth: Mm::new(190),
            thickness: Mm::new(45),
        }),
        insulation: Mm::new(chance.pick(&[0, 100, 270])),
        access: chance.pick(&[Access::WalkIn, Access::Crawl, Access::Closed]),
        outline,
    };
    plan.voids.insert(id, void);
    id
}

fn around(house: &House, margin: i64) -> Vec<Point2> {
    let Rect { x0, y0, x1, y1 } = house.footprint;
    let rect = Rect { x0: x0 - margin, y0: y0 - margin, x1: x1 + margin, y1: y1 + margin };
    rect.corners().to_vec()
}

fn half(house: &House) -> Vec<Point2> {
    let Rect { x0, x1, .. } = house.footprint;
    let rect = Rect { x1: x0 + (x1 - x0).div_euclid(2), ..house.footprint };
    rect.corners().to_vec()
}

fn within(chance: &mut Chance, rect: Rect) -> Point2 {
    Point2::new(chance.between(rect.x0, rect.x1), chance.between(rect.y0, rect.y1))
}

/// A rectangle at random that leaves some of the house free.
fn patch(chance: &mut Chance, house: &House) -> Rect {
    let rect = house.footprint;
    let low = within(chance, rect);
    let (x0, y0) = (low.x.get(), low.y.get());
    let wide = chance.between(100, (rect.x1 - rect.x0).div_euclid(3));
    let deep = chance.between(100, (rect.y1 - rect.y0).div_euclid(3));
    Rect { x0, y0, x1: x0 + wide, y1: y0 + deep }
}

fn void_areas(plan: &mut Plan, chance: &mut Chance, house: &House, void: VoidId) {
    let on = Plane::Void(void);
    if chance.percent(40) {
        let first = patch(chance, house);
        add_area(plan, on, first, AreaEffect::KeepOut);
        if chance.percent(50) {
            // Against the first, edge to edge.
            let x1 = first.x1 + chance.between(100, 800);
            add_area(plan, on, Rect { x0: first.x1, x1, ..first }, AreaEffect::KeepOut);
        }
    }
    if chance.percent(40) {
        let first = patch(chance, house);
        let percent = AreaEffect::Percent(chance.pick(&[50, 80, 150, 300]));
        add_area(plan, on, first, percent);
        let Rect { x0, y0, x1, y1 } = first;
        let (dx, dy) = ((x1 - x0).div_euclid(2), (y1 - y0).div_euclid(2));
        let second = Rect { x0: x0 + dx, y0: y0 + dy, x1: x1 + dx, y1: y1 + dy };
        add_area(plan, on, second, AreaEffect::Percent(chance.pick(&[60, 120, 200])));
    }
    if chance.percent(30) {
        let rect = house.footprint;
        let x0 = chance.between(rect.x0, rect.x1 - 110);
        let strip = Rect { x0, x1: x0 + 110, ..rect };
        let toll = Mm::new(chance.pick(&[500, 1500, 4000]));
        add_area(plan, on, strip, AreaEffect::Barrier(toll));
    }
}

/// Keep-outs on walls, away from their ends, so that corners stay usable.
fn wall_areas(plan: &mut Plan, chance: &mut Chance) {
    let long = |wall: &Wall| wall.length() > 3000.0 && wall.build != WallBuild::Screen;
    let walls: Vec<WallId> =
        plan.walls.iter().filter(|(_, wall)| long(wall)).map(|(id, _)| *id).collect();
    for wall in walls {
        if chance.percent(10) {
            let x0 = chance.between(500, 2000);
            let y0 = chance.pick(&[0, 600, 1800]);
            let rect = Rect { x0, y0, x1: x0 + 500, y1: y0 + 500 };
            add_area(plan, Plane::Wall(wall), rect, AreaEffect::KeepOut);
        }
    }
}

fn add_area(plan: &mut Plan, on: Plane, rect: Rect, effect: AreaEffect) {
    let id = AreaId(next_id(plan));
    let outline = rect.corners().to_vec();
    plan.areas.insert(id, Area { name: format!("area {}", id.0), on, outline, effect });
}

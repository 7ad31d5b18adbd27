//! The part of a plan around one dwelling, so that large blocks are grouped
//! and sized dwelling by dwelling.

use std::collections::{BTreeMap, BTreeSet};

use indexmap::IndexMap;

use super::dwellings::Dwelling;
use super::outline::bounds;
use super::walls_by_level::Walls;
use crate::plan::{Place, Plan, Plane, PointId, Wall, WallId};

/// How far around a room its walls may stand, mm.
const REACH: f64 = 400.0;

/// What hangs on what in a plan, looked up once for all of its parts.
pub(super) struct Parts<'a> {
    plan: &'a Plan,
    walls: Walls<'a>,
    /// Openings, by their numbers.
    openings: BTreeMap<WallId, Vec<usize>>,
    /// Areas on walls.
    areas: BTreeMap<WallId, Vec<usize>>,
    /// Areas in voids.
    in_voids: Vec<usize>,
    /// Controls by the first point in them; None where there is none.
    controls: BTreeMap<Option<PointId>, Vec<usize>>,
}

impl<'a> Parts<'a> {
    pub(super) fn of(plan: &'a Plan) -> Self {
        let mut parts = Self {
            plan,
            walls: Walls::of(plan),
            openings: BTreeMap::new(),
            areas: BTreeMap::new(),
            in_voids: Vec::new(),
            controls: BTreeMap::new(),
        };
        for (number, opening) in plan.openings.values().enumerate() {
            parts.openings.entry(opening.wall).or_default().push(number);
        }
        for (number, area) in plan.areas.values().enumerate() {
            match area.on {
                Plane::Void(_) => parts.in_voids.push(number),
                Plane::Wall(wall) => parts.areas.entry(wall).or_default().push(number),
            }
        }
        for (number, control) in plan.controls.values().enumerate() {
            let first = control.lights.iter().chain(&control.switches).next().copied();
            parts.controls.entry(first).or_default().push(number);
        }
        parts
    }

    /// The plan with what lies in and around a dwelling only.
    pub(super) fn around(&self, dwelling: &Dwelling, points: &BTreeSet<PointId>) -> Plan {
        let plan = self.plan;
        let mut part = Plan {
            levels: plan.levels.clone(),
            voids: plan.voids.clone(),
            risers: plan.risers.clone(),
            ..plan.undrawn()
        };
        part.walls = taken(&plan.walls, self.walls_near(dwelling));
        let on_walls = |things: &BTreeMap<WallId, Vec<usize>>| -> Vec<usize> {
            part.walls.keys().filter_map(|wall| things.get(wall)).flatten().copied().collect()
        };
        part.openings = taken(&plan.openings, on_walls(&self.openings));
        let areas = [self.in_voids.clone(), on_walls(&self.areas)].concat();
        part.areas = taken(&plan.areas, areas);
        let rooms = dwelling.rooms.iter().filter_map(|id| Some((*id, plan.rooms.get(id)?.clone())));
        part.rooms = rooms.collect();
        let board = dwelling.board.and_then(|board| plan.boards.get_index_of(&board));
        part.boards = taken(&plan.boards, board.into_iter().collect());
        let own = points.iter().filter_map(|id| plan.points.get_index_of(id)).collect();
        part.points = taken(&plan.points, own);
        let firsts = points.iter().copied().map(Some).chain([None]);
        let controls = firsts.filter_map(|first| self.controls.get(&first)).flatten().copied();
        let whole = |number: &usize| {
            let control = plan.controls.get_index(*number).map(|control| control.1);
            let mut ids = control.into_iter().flat_map(|c| c.lights.iter().chain(&c.switches));
            ids.all(|id| points.contains(id))
        };
        part.controls = taken(&plan.controls, controls.filter(whole).collect());
        part
    }

    /// The walls of its rooms and of its board, by their numbers.
    fn walls_near(&self, dwelling: &Dwelling) -> Vec<usize> {
        let plan = self.plan;
        let mut near: Vec<usize> = Vec::new();
        for room in dwelling.rooms.iter().filter_map(|room| plan.rooms.get(room)) {
            let Some([x0, y0, x1, y1]) = bounds(&room.outline) else { continue };
            let [x0, y0, x1, y1] = [x0 - REACH, y0 - REACH, x1 + REACH, y1 + REACH];
            let stands = |wall: &Wall| {
                let (ax, ay, bx, by) =
                    (wall.a.x.to_f64(), wall.a.y.to_f64(), wall.b.x.to_f64(), wall.b.y.to_f64());
                ax.max(bx) >= x0 && ax.min(bx) <= x1 && ay.max(by) >= y0 && ay.min(by) <= y1
            };
            let walls = self.walls.around(room.level, [x0, y0, x1, y1]).into_iter();
            let walls = walls.filter(|(_, wall)| stands(wall));
            near.extend(walls.filter_map(|(id, _)| plan.walls.get_index_of(&id)));
        }
        let board = dwelling.board.and_then(|board| match plan.boards.get(&board)?.place? {
            Place::Wall(on) => plan.walls.get_index_of(&on.wall),
            _ => None,
        });
        near.extend(board);
        near
    }
}

/// Some of the things of a plan, in its order.
fn taken<K: Copy + Eq + std::hash::Hash, V: Clone>(
    things: &IndexMap<K, V>,
    mut numbers: Vec<usize>,
) -> IndexMap<K, V> {
    numbers.sort_unstable();
    numbers.dedup();
    let one = |number| things.get_index(number).map(|(id, thing)| (*id, thing.clone()));
    numbers.into_iter().filter_map(one).collect()
}

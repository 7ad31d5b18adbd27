//! A building before anything hangs on its walls, kept while only points move.
//!
//! All that it was made from is compared, so there is no telling which edits
//! leave it standing.

use std::sync::Arc;

use indexmap::IndexMap;

use super::bare_wall::Bare;
use super::corner::{Corners, Pair};
use super::from_plan::{settle_voids, void_field, wall_fields};
use super::{Space, Tariff, VoidField};
use crate::plan::{
    Area, AreaId, Habits, Level, LevelId, Opening, OpeningId, Place, Plan, Riser, RiserId, Room,
    RoomId, Void, VoidId, Wall, WallId,
};

/// What [`Space::again`] keeps from one time to the next.
#[derive(Debug, Default)]
pub struct Shell(Option<(Drawn, Built)>);

/// What a building is made from.
#[derive(Debug)]
struct Drawn {
    habits: Habits,
    levels: IndexMap<LevelId, Level>,
    voids: IndexMap<VoidId, Void>,
    walls: IndexMap<WallId, Wall>,
    openings: IndexMap<OpeningId, Opening>,
    rooms: IndexMap<RoomId, Room>,
    areas: IndexMap<AreaId, Area>,
    risers: IndexMap<RiserId, Riser>,
}

/// The voids and walls, with what hung there the last time.
#[derive(Debug)]
struct Built {
    voids: Arc<[VoidField]>,
    walls: Vec<Bare>,
    pairs: Vec<Pair>,
}

impl Space {
    /// Reads a plan. Walls without length and voids without extent are left
    /// out: nothing can run in them.
    #[must_use]
    pub fn of(plan: &Plan) -> Self {
        Built::of(plan).furnish(plan)
    }

    /// The same, and sooner where nothing but points and boards has moved since the last time.
    #[must_use]
    pub fn again(plan: &Plan, shell: &mut Shell) -> Self {
        if let Some((drawn, built)) = &mut shell.0
            && drawn.is_in(plan)
        {
            return built.furnish(plan);
        }
        let (_, built) = shell.0.insert((Drawn::of(plan), Built::of(plan)));
        built.furnish(plan)
    }
}

impl Drawn {
    fn of(plan: &Plan) -> Self {
        Self {
            habits: plan.habits,
            levels: plan.levels.clone(),
            voids: plan.voids.clone(),
            walls: plan.walls.clone(),
            openings: plan.openings.clone(),
            rooms: plan.rooms.clone(),
            areas: plan.areas.clone(),
            risers: plan.risers.clone(),
        }
    }

    /// Whether a plan draws the same, in the same order.
    fn is_in(&self, plan: &Plan) -> bool {
        self.habits == plan.habits
            && self.levels.iter().eq(&plan.levels)
            && self.voids.iter().eq(&plan.voids)
            && self.walls.iter().eq(&plan.walls)
            && self.openings.iter().eq(&plan.openings)
            && self.rooms.iter().eq(&plan.rooms)
            && self.areas.iter().eq(&plan.areas)
            && self.risers.iter().eq(&plan.risers)
    }
}

impl Built {
    fn of(plan: &Plan) -> Self {
        let voids = plan.voids.iter().map(|(id, void)| void_field(plan, *id, void)).collect();
        let mut walls = wall_fields(plan);
        let Corners { columns, pairs } = Corners::of(plan, &walls);
        for (wall, columns) in walls.iter_mut().zip(columns) {
            wall.corners = columns;
        }
        Self { voids, walls, pairs }
    }

    /// Hangs up what the plan has on its walls.
    fn furnish(&mut self, plan: &Plan) -> Space {
        let hung = hung(plan);
        let mut rest = hung.as_slice();
        let mut changed = Vec::with_capacity(self.walls.len());
        for wall in &mut self.walls {
            let first = rest.partition_point(|one| one.0 < wall.index);
            let past = rest.partition_point(|one| one.0 <= wall.index);
            changed.push(wall.hang(&rest[first..past]));
            rest = &rest[past..];
        }
        for pair in self.pairs.iter_mut().filter(|pair| changed[pair.one] || changed[pair.other]) {
            pair.meet(&self.walls);
        }
        let walls: Vec<_> = self.walls.iter().filter_map(|wall| wall.furnished.clone()).collect();
        let mut voids = Arc::clone(&self.voids);
        if voids.iter().any(|void| !void.frame.is_square()) {
            let mut settled = voids.to_vec();
            settle_voids(plan, &mut settled, &walls);
            voids = settled.into();
        }
        Space {
            risers: risers(plan, &voids),
            voids,
            walls,
            meets: self.pairs.iter().flat_map(|pair| pair.meets.iter().copied()).collect(),
            tariff: Tariff::from(&plan.habits),
            sideways_through: false,
        }
    }
}

/// All points and boards on walls: the number of the wall in the plan, how far
/// along and how high; by walls, and in the order of the plan on each.
fn hung(plan: &Plan) -> Vec<(usize, i64, i64)> {
    let points = plan.points.values().filter_map(|point| point.place);
    let places = points.chain(plan.boards.values().filter_map(|board| board.place));
    let mut hung: Vec<(usize, i64, i64)> = places
        .filter_map(|place| match place {
            Place::Wall(on) => {
                Some((plan.walls.get_index_of(&on.wall)?, on.along.get(), on.height.get()))
            }
            _ => None,
        })
        .collect();
    hung.sort_by_key(|one| one.0);
    hung
}

/// Shafts, with their places in the frames of the voids that each joins.
fn risers(plan: &Plan, voids: &[VoidField]) -> Vec<Vec<(usize, (i64, i64))>> {
    let places = plan.risers.values().map(|riser| {
        let joined = riser.voids.iter().filter_map(|id| plan.voids.get_index_of(id));
        let placed = joined
            .map(|void| (void, voids[void].settle(voids[void].frame.frame_from_page(riser.at))));
        placed.filter(|(void, at)| voids[*void].holds(*at)).collect()
    });
    places.collect()
}

//! Invented houses of the size that the speed figures are given for.
//!
//! A footprint (20 m by 15 m) cut into a grid of rooms; a door in every inner
//! wall, a window in every outer one, points on the walls (a fifth of them under
//! windows) and on the ceilings, circuits of ten neighbours.

use wirewend::plan::*;
use wirewend::units::{Angle, Mm, Point2};

/// What an invented house has.
#[derive(Clone, Copy)]
pub(crate) struct Size {
    pub(crate) storeys: i64,
    /// Of the footprint, mm.
    pub(crate) width: i64,
    pub(crate) depth: i64,
    /// Rooms along `x` and along `y`.
    pub(crate) rooms: (i64, i64),
    pub(crate) points: i64,
    pub(crate) circuits: i64,
    pub(crate) keep_outs: i64,
    pub(crate) percents: i64,
    pub(crate) barriers: i64,
}

/// One storey under one roof space: 150 walls, 200 points, 20 circuits.
pub(crate) const HOUSE_A: Size = Size {
    storeys: 1,
    width: 20_000,
    depth: 15_000,
    rooms: (9, 7),
    points: 200,
    circuits: 20,
    keep_outs: 12,
    percents: 6,
    barriers: 10,
};

/// Three storeys and three voids: 150 walls, 200 points, 20 circuits.
pub(crate) const HOUSE_B: Size = Size {
    storeys: 3,
    width: 20_000,
    depth: 15_000,
    rooms: (5, 4),
    points: 200,
    circuits: 20,
    keep_outs: 12,
    percents: 6,
    barriers: 10,
};

/// Numbers by chance, the same for every run (a linear congruence).
struct Chance(u64);

impl Chance {
    fn below(&mut self, bound: i64) -> i64 {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        i64::try_from((self.0 >> 33) % u64::try_from(bound.max(1)).unwrap_or(1)).unwrap_or(0)
    }

    fn between(&mut self, low: i64, high: i64) -> i64 {
        low + self.below(high - low + 1)
    }
}

/// Draws a house.
pub(crate) fn house(size: Size, seed: u64) -> Plan {
    let mut draw =
        Draw { plan: Plan { next_id: 1, ..Plan::default() }, chance: Chance(seed), size };
    for storey in 0..size.storeys {
        draw.storey(size, storey);
    }
    draw.voids();
    draw.areas(size);
    draw.points(size);
    draw.plan
}

struct Draw {
    plan: Plan,
    chance: Chance,
    size: Size,
}

impl Draw {
    fn id(&mut self) -> u32 {
        self.plan.next_id += 1;
        self.plan.next_id - 1
    }

    fn storey(&mut self, size: Size, storey: i64) {
        let level = LevelId(self.id());
        let drawn = Level {
            name: format!("Storey {}", storey + 1),
            floor: Mm::new(storey * 3000),
            height: Mm::new(2700),
            above: Vec::new(),
            below: Vec::new(),
        };
        self.plan.levels.insert(level, drawn);
        let xs = self.lines(size.rooms.0, self.size.width);
        let ys = self.lines(size.rooms.1, self.size.depth);
        for (j, y) in ys.iter().enumerate() {
            let outer = j == 0 || j + 1 == ys.len();
            for pair in xs.windows(2) {
                self.wall(level, Point2::new(pair[0], *y), Point2::new(pair[1], *y), outer);
            }
        }
        for (i, x) in xs.iter().enumerate() {
            let outer = i == 0 || i + 1 == xs.len();
            for pair in ys.windows(2) {
                self.wall(level, Point2::new(*x, pair[0]), Point2::new(*x, pair[1]), outer);
            }
        }
    }

    /// Lines at uneven distances.
    fn lines(&mut self, count: i64, length: i64) -> Vec<i64> {
        let step = length.div_euclid(count);
        let mut lines = vec![0];
        for at in 1..count {
            lines.push(at * step + self.chance.between(-step.div_euclid(6), step.div_euclid(6)));
        }
        lines.push(length);
        lines
    }

    fn wall(&mut self, level: LevelId, a: Point2, b: Point2, outer: bool) {
        let id = WallId(self.id());
        let (thickness, build) =
            if outer { (270, WallBuild::BrickVeneer) } else { (90, WallBuild::Stud) };
        let (thickness, wet) = (Mm::new(thickness), None);
        self.plan.walls.insert(id, Wall { level, a, b, thickness, build, insulated: outer, wet });
        let length = (b.x - a.x).get() + (b.y - a.y).get();
        let (width, sill, head) = if outer { (900, 900, 2100) } else { (820, 0, 2040) };
        let room = length - 2 * 350 - width;
        if room <= 0 {
            return;
        }
        let from = Mm::new(350 + self.chance.below(room));
        let opening = Opening {
            wall: id,
            kind: if outer { OpeningKind::Window } else { OpeningKind::Door },
            from,
            width: Mm::new(width),
            sill: Mm::new(sill),
            head: Mm::new(head),
            hinge: None,
        };
        let id = OpeningId(self.id());
        self.plan.openings.insert(id, opening);
    }

    /// A void over every storey, which is also under the next.
    fn voids(&mut self) {
        let levels: Vec<LevelId> = self.plan.levels.keys().copied().collect();
        for (index, level) in levels.iter().enumerate() {
            let void = VoidId(self.id());
            let top = index + 1 == levels.len();
            let rect = [
                (0, 0),
                (self.size.width, 0),
                (self.size.width, self.size.depth),
                (0, self.size.depth),
            ];
            let drawn = Void {
                name: format!("Void {}", index + 1),
                kind: if top { VoidKind::RoofSpace } else { VoidKind::BetweenFloors },
                z: Mm::new(i64::try_from(index).unwrap_or(0) * 3000 + 2850),
                depth: Mm::new(300),
                direction: Angle::ZERO,
                joists: Some(Joists {
                    spacing: Mm::new(600),
                    depth: Mm::new(190),
                    thickness: Mm::new(45),
                }),
                insulation: Mm::ZERO,
                access: Access::default(),
                outline: Some(rect.map(|(x, y)| Point2::new(x, y)).to_vec()),
            };
            self.plan.voids.insert(void, drawn);
            if let Some(level) = self.plan.levels.get_mut(level) {
                level.above.push(void);
            }
            if let Some(next) = levels.get(index + 1).and_then(|id| self.plan.levels.get_mut(id)) {
                next.below.push(void);
            }
        }
    }

    fn areas(&mut self, size: Size) {
        let voids: Vec<VoidId> = self.plan.voids.keys().copied().collect();
        let all = size.keep_outs + size.percents + size.barriers;
        for number in 0..all {
            let void = voids[usize::try_from(number).unwrap_or(0) % voids.len()];
            let (wide, deep, effect) = if number < size.keep_outs {
                (
                    self.chance.between(400, 1500),
                    self.chance.between(400, 1500),
                    AreaEffect::KeepOut,
                )
            } else if number < size.keep_outs + size.percents {
                let percent = if number % 2 == 0 { 60 } else { 180 };
                (
                    self.chance.between(1500, 5000),
                    self.chance.between(1500, 5000),
                    AreaEffect::Percent(percent),
                )
            } else {
                (self.chance.between(2500, 7000), 110, AreaEffect::Barrier(Mm::new(600)))
            };
            let (wide, deep) = if number % 2 == 0 { (wide, deep) } else { (deep, wide) };
            let x = self.chance.between(300, self.size.width - wide - 300);
            let y = self.chance.between(300, self.size.depth - deep - 300);
            let corners = [(x, y), (x + wide, y), (x + wide, y + deep), (x, y + deep)];
            let outline = corners.map(|(x, y)| Point2::new(x, y)).to_vec();
            let id = AreaId(self.id());
            let area = Area { name: String::new(), on: Plane::Void(void), outline, effect };
            self.plan.areas.insert(id, area);
        }
    }

    fn points(&mut self, size: Size) {
        let levels: Vec<LevelId> = self.plan.levels.keys().copied().collect();
        let first = *self.plan.walls.keys().next().expect("a wall");
        let board = BoardId(self.id());
        let on =
            OnWall { wall: first, along: Mm::new(200), height: Mm::new(1500), face: Face::Left };
        let drawn = Board {
            label: String::new(),
            place: Some(Place::Wall(on)),
            supply: Supply::default(),
            ways: None,
        };
        self.plan.boards.insert(board, drawn);
        let mut places = Vec::new();
        for number in 0..size.points {
            places.push(if number % 8 == 0 {
                let level = levels[usize::try_from(number).unwrap_or(0) % levels.len()];
                Place::Ceiling(OnLevel { level, at: self.on_a_ceiling() })
            } else {
                self.on_a_wall(number % 5 == 1)
            });
        }
        // Neighbours share a circuit: by storey, then in strips.
        let plan = &self.plan;
        let key = |place: &Place| {
            let at = plan.position(place).expect("placed");
            (at.z.get().div_euclid(3000), at.x.get().div_euclid(5000), at.y.get())
        };
        places.sort_by_key(key);
        let each = size.points.div_euclid(size.circuits).max(1);
        let mut circuit = None;
        for (number, place) in (0..).zip(places) {
            if number % each == 0 {
                let id = CircuitId(self.id());
                let number = u16::try_from(number.div_euclid(each) + 1).unwrap_or(1);
                let drawn = plain_circuit(number, board);
                self.plan.circuits.insert(id, drawn);
                circuit = Some(id);
            }
            let id = PointId(self.id());
            let kind = match place {
                Place::Ceiling(_) => PointKind::Luminaire,
                _ => PointKind::Socket,
            };
            let point = plain_point(kind, place, circuit);
            self.plan.points.insert(id, point);
        }
    }

    /// On a ceiling, under no keep-out.
    fn on_a_ceiling(&mut self) -> Point2 {
        loop {
            let at = Point2::new(
                self.chance.between(500, self.size.width - 500),
                self.chance.between(500, self.size.depth - 500),
            );
            let is_under = |area: &Area| {
                let (low, high) = (area.outline[0], area.outline[2]);
                low.x < at.x && at.x < high.x && low.y < at.y && at.y < high.y
            };
            let mut keep_outs =
                self.plan.areas.values().filter(|area| area.effect == AreaEffect::KeepOut);
            if !keep_outs.any(is_under) {
                return at;
            }
        }
    }

    /// On a wall, clear of its opening or, if asked for, under a window.
    fn on_a_wall(&mut self, under: bool) -> Place {
        let walls: Vec<WallId> = self.plan.walls.keys().copied().collect();
        loop {
            let wall =
                walls[usize::try_from(self.chance.below(i64::try_from(walls.len()).unwrap_or(1)))
                    .unwrap_or(0)];
            let drawn = &self.plan.walls[&wall];
            let length = Mm::from_f64(drawn.length()).unwrap_or(Mm::ZERO);
            let along = Mm::new(self.chance.between(150, length.get() - 150));
            let height = Mm::new(if self.chance.below(4) == 0 { 1100 } else { 300 });
            let opening = self.plan.openings.values().find(|opening| opening.wall == wall);
            let beside = opening.is_none_or(|opening| {
                along + Mm::new(80) < opening.from
                    || along > opening.from + opening.width + Mm::new(80)
            });
            let below = opening.is_some_and(|one| one.sill.get() > 0 && !beside);
            if (under && below && height.get() == 300) || (!under && beside) {
                let face = if self.chance.below(2) == 0 { Face::Left } else { Face::Right };
                return Place::Wall(OnWall { wall, along, height, face });
            }
        }
    }
}

fn plain_circuit(number: u16, board: BoardId) -> Circuit {
    Circuit { board: Some(board), ..Circuit::new(number, CircuitUse::Sockets) }
}

fn plain_point(kind: PointKind, place: Place, circuit: Option<CircuitId>) -> Point {
    Point { place: Some(place), circuit, ..Point::new(kind) }
}

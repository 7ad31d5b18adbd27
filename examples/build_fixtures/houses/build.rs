//! A pencil: adds nouns to a plan, and finds walls by a place on them, so that
//! the houses can be described in room coordinates.

use wirewend::plan::*;
use wirewend::units::{Amps, Csa, Mm, Point2};

/// `[x, y]` in whole millimetres.
pub(crate) type At = (i64, i64);

/// A plan that is being drawn.
pub(crate) struct Build {
    pub(crate) plan: Plan,
}

impl Build {
    pub(crate) fn new(project: Project) -> Self {
        Self { plan: Plan { project, next_id: 1, ..Plan::default() } }
    }

    fn id(&mut self) -> u32 {
        self.plan.next_id += 1;
        self.plan.next_id - 1
    }

    pub(crate) fn level(&mut self, name: &str, floor: i64, height: i64) -> LevelId {
        let id = LevelId(self.id());
        let level = Level {
            name: name.to_owned(),
            floor: Mm::new(floor),
            height: Mm::new(height),
            above: Vec::new(),
            below: Vec::new(),
        };
        self.plan.levels.insert(id, level);
        id
    }

    pub(crate) fn void(&mut self, void: Void) -> VoidId {
        let id = VoidId(self.id());
        self.plan.voids.insert(id, void);
        id
    }

    /// Says which voids a level reaches.
    pub(crate) fn reaches(&mut self, level: LevelId, above: &[VoidId], below: &[VoidId]) {
        let level = &mut self.plan.levels[&level];
        level.above = above.to_vec();
        level.below = below.to_vec();
    }

    pub(crate) fn wall(&mut self, level: LevelId, a: At, b: At, kind: &Kind) -> WallId {
        let id = WallId(self.id());
        let wall = Wall {
            level,
            a: xy(a),
            b: xy(b),
            thickness: Mm::new(kind.thickness),
            build: kind.build,
            insulated: kind.insulated,
            wet: kind.wet,
        };
        self.plan.walls.insert(id, wall);
        id
    }

    /// Walls of a kind from corner to corner.
    pub(crate) fn walls(&mut self, level: LevelId, kind: &Kind, corners: &[At]) {
        for pair in corners.windows(2) {
            self.wall(level, pair[0], pair[1], kind);
        }
    }

    /// A hinged door centred on a wall's centre line, opening towards a place;
    /// its hinges are on the edge nearer to that place.
    pub(crate) fn door(&mut self, level: LevelId, at: At, width: i64, towards: At) {
        let (wall, along) = self.wall_at(level, at);
        let from = along - Mm::new(width).half();
        let (near, face) = self.side(wall, towards);
        let hinge = Hinge { at_near_edge: near < along, opens: face };
        self.opening(wall, OpeningKind::Door, from, width, (0, 2040), Some(hinge));
    }

    /// A hole from the floor up.
    pub(crate) fn gap(&mut self, level: LevelId, at: At, width: i64, head: i64) {
        let (wall, along) = self.wall_at(level, at);
        let from = along - Mm::new(width).half();
        self.opening(wall, OpeningKind::Plain, from, width, (0, head), None);
    }

    pub(crate) fn sliding_door(&mut self, level: LevelId, at: At, width: i64) {
        let (wall, along) = self.wall_at(level, at);
        let from = along - Mm::new(width).half();
        self.opening(wall, OpeningKind::SlidingDoor, from, width, (0, 2100), None);
    }

    pub(crate) fn window(&mut self, level: LevelId, at: At, width: i64, sill: i64, head: i64) {
        let (wall, along) = self.wall_at(level, at);
        let from = along - Mm::new(width).half();
        self.opening(wall, OpeningKind::Window, from, width, (sill, head), None);
    }

    fn opening(
        &mut self,
        wall: WallId,
        kind: OpeningKind,
        from: Mm,
        width: i64,
        (sill, head): (i64, i64),
        hinge: Option<Hinge>,
    ) {
        let id = OpeningId(self.id());
        let (width, sill, head) = (Mm::new(width), Mm::new(sill), Mm::new(head));
        self.plan.openings.insert(id, Opening { wall, kind, from, width, sill, head, hinge });
    }

    pub(crate) fn room(&mut self, level: LevelId, name: &str, usage: RoomUse, outline: &[At]) {
        let id = RoomId(self.id());
        let room = Room { level, name: name.to_owned(), usage, outline: outline_of(outline) };
        self.plan.rooms.insert(id, room);
    }

    pub(crate) fn area(&mut self, name: &str, on: Plane, corners: (At, At), effect: AreaEffect) {
        let id = AreaId(self.id());
        let ((x0, y0), (x1, y1)) = corners;
        let outline = outline_of(&[(x0, y0), (x1, y0), (x1, y1), (x0, y1)]);
        self.plan.areas.insert(id, Area { name: name.to_owned(), on, outline, effect });
    }

    pub(crate) fn riser(&mut self, name: &str, at: At, voids: &[VoidId]) {
        let id = RiserId(self.id());
        self.plan
            .risers
            .insert(id, Riser { name: name.to_owned(), at: xy(at), voids: voids.to_vec() });
    }

    pub(crate) fn board(&mut self, board: Board) -> BoardId {
        let id = BoardId(self.id());
        self.plan.boards.insert(id, board);
        id
    }

    pub(crate) fn circuit(&mut self, circuit: Circuit) -> CircuitId {
        let id = CircuitId(self.id());
        self.plan.circuits.insert(id, circuit);
        id
    }

    pub(crate) fn point(&mut self, circuit: CircuitId, kind: PointKind, place: Place) -> PointId {
        self.add(Point { circuit: Some(circuit), place: Some(place), ..bare(kind) })
    }

    /// A point as it is given.
    pub(crate) fn add(&mut self, point: Point) -> PointId {
        let id = PointId(self.id());
        self.plan.points.insert(id, point);
        id
    }

    /// Sockets at one height, each given by a place on the face of its wall.
    pub(crate) fn sockets(
        &mut self,
        circuit: CircuitId,
        level: LevelId,
        height: i64,
        faces: &[At],
    ) -> Vec<PointId> {
        faces
            .iter()
            .map(|face| {
                let place = self.beside(level, *face, height);
                let point = Point { gangs: 2, ..bare(PointKind::Socket) };
                self.add(Point { circuit: Some(circuit), place: Some(place), ..point })
            })
            .collect()
    }

    pub(crate) fn control(&mut self, lights: &[PointId], switches: &[PointId]) -> ControlId {
        let id = ControlId(self.id());
        let (lights, switches) = (lights.to_vec(), switches.to_vec());
        self.plan.controls.insert(id, Control { lights, switches, in_order: false });
        id
    }

    /// Changes what a point says beside its kind and place.
    pub(crate) fn edit(&mut self, id: PointId, edit: impl FnOnce(&mut Point)) {
        edit(&mut self.plan.points[&id]);
    }

    /// Sets the mark of a point.
    pub(crate) fn mark(&mut self, id: PointId, label: &str) {
        self.edit(id, |point| label.clone_into(&mut point.label));
    }

    /// A place on the face of a wall, given by where it is seen from above;
    /// it must be clear of openings.
    pub(crate) fn beside(&self, level: LevelId, face_at: At, height: i64) -> Place {
        let on_face = |wall: &Wall| {
            let (along, off) = along_and_off(wall, face_at);
            let miss = (off.abs() - wall.thickness.to_f64() / 2.0).abs();
            (along >= 0.0 && along <= wall.length() && miss <= 3.0).then_some((along, off))
        };
        let mut found = self.walls_of(level).filter_map(|(id, wall)| Some((id, on_face(wall)?)));
        let (wall, (along, off)) =
            found.next().unwrap_or_else(|| panic!("no wall has a face at {face_at:?}"));
        let along = Mm::from_f64(along).expect("a wall's length is a small number");
        let face = if off > 0.0 { Face::Left } else { Face::Right };
        self.must_be_clear(wall, along, height, face_at);
        Place::Wall(OnWall { wall, along, height: Mm::new(height), face })
    }

    fn must_be_clear(&self, wall: WallId, along: Mm, height: i64, at: At) {
        let margin = Mm::new(60);
        for opening in self.plan.openings.values().filter(|opening| opening.wall == wall) {
            let beside = along + margin <= opening.from
                || along >= opening.from + opening.width + margin
                || Mm::new(height) >= opening.head + margin
                || Mm::new(height) + margin <= opening.sill;
            assert!(beside, "a box at {at:?} {height} is in an opening");
        }
    }

    /// The wall whose centre line passes through a place, and how far along.
    pub(crate) fn wall_at(&self, level: LevelId, at: At) -> (WallId, Mm) {
        let on_line = |wall: &Wall| {
            let (along, off) = along_and_off(wall, at);
            (off.abs() <= 2.0 && along >= 0.0 && along <= wall.length()).then_some(along)
        };
        let mut found = self.walls_of(level).filter_map(|(id, wall)| Some((id, on_line(wall)?)));
        let (wall, along) =
            found.next().unwrap_or_else(|| panic!("no centre line passes through {at:?}"));
        (wall, Mm::from_f64(along).expect("a wall's length is a small number"))
    }

    fn side(&self, wall: WallId, at: At) -> (Mm, Face) {
        let (along, off) = along_and_off(&self.plan.walls[&wall], at);
        let along = Mm::from_f64(along).expect("a wall's length is a small number");
        (along, if off > 0.0 { Face::Left } else { Face::Right })
    }

    fn walls_of(&self, level: LevelId) -> impl Iterator<Item = (WallId, &Wall)> {
        self.plan
            .walls
            .iter()
            .filter(move |(_, wall)| wall.level == level)
            .map(|(id, wall)| (*id, wall))
    }
}

/// How far along a wall from its end `a` a place is, and how far to its left.
fn along_and_off(wall: &Wall, at: At) -> (f64, f64) {
    let (ux, uy) = wall.direction();
    let step = xy(at) - wall.a;
    let (x, y) = (step.x.to_f64(), step.y.to_f64());
    (x * ux + y * uy, y * ux - x * uy)
}

/// How walls of one kind are made.
#[derive(Clone, Copy)]
pub(crate) struct Kind {
    pub(crate) thickness: i64,
    pub(crate) build: WallBuild,
    pub(crate) insulated: bool,
    pub(crate) wet: Option<Face>,
}

impl Kind {
    pub(crate) const fn new(build: WallBuild, thickness: i64) -> Self {
        Self { thickness, build, insulated: false, wet: None }
    }

    /// Outside walls, drawn with the house on their left.
    pub(crate) const fn outer(build: WallBuild, thickness: i64, insulated: bool) -> Self {
        Self { thickness, build, insulated, wet: Some(Face::Right) }
    }
}

pub(crate) fn xy((x, y): At) -> Point2 {
    Point2::new(x, y)
}

pub(crate) fn outline_of(corners: &[At]) -> Vec<Point2> {
    corners.iter().map(|corner| xy(*corner)).collect()
}

pub(crate) fn ceiling(level: LevelId, at: At) -> Place {
    Place::Ceiling(OnLevel { level, at: xy(at) })
}

/// A point of a kind about which nothing else is known.
pub(crate) fn bare(kind: PointKind) -> Point {
    Point { ..Point::new(kind) }
}

/// Flat two-core cable of a size in hundredths of a square millimetre.
pub(crate) const fn flat(hundredths: u32) -> Cable {
    Cable { cores: 2, size: Csa::from_hundredths(hundredths), make: CableMake::Flat }
}

/// A circuit-breaker with 30 mA residual-current protection.
pub(crate) const fn device(rating: f64, curve: Curve) -> Device {
    Device { rating: Amps(rating), curve, residual: Some(Amps(0.03)) }
}

/// A circuit wired as a chain.
pub(crate) fn chain(
    board: BoardId,
    number: u16,
    name: &str,
    usage: CircuitUse,
    cable: Cable,
    device: Device,
) -> Circuit {
    Circuit {
        name: name.to_owned(),
        board: Some(board),
        cable: Some(cable),
        device: Some(device),
        ..Circuit::new(number, usage)
    }
}

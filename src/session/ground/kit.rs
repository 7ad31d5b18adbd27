//! The kit: what can be placed, where it goes by itself, how high.

use kurbo::Point;

use crate::plan::{
    Change, Edit, Face, Family, Hinge, LevelId, OnLevel, OnWall, Opening, OpeningId, OpeningKind,
    Place, Plan, PointKind,
};
use crate::session::ground::near;
use crate::session::ground::places::rounded;
use crate::units::Mm;

/// What lies on the kit's shelf in front, with its key.
pub const FRONT: [(PointKind, &str); 10] = [
    (PointKind::Socket, "O"),
    (PointKind::Luminaire, "L"),
    (PointKind::Downlight, "H"),
    (PointKind::WallLight, "Shift+L"),
    (PointKind::Switch, "K"),
    (PointKind::SmokeAlarm, "A"),
    (PointKind::ExhaustFan, "F"),
    (PointKind::Oven, "V"),
    (PointKind::Cooktop, "C"),
    (PointKind::WeatherproofSocket, "Shift+O"),
];

/// Whether a kind lies there.
pub fn is_in_front(kind: PointKind) -> bool {
    FRONT.iter().any(|(one, _)| *one == kind)
}

/// Whether a kind hangs on ceilings.
pub const fn on_ceiling(kind: PointKind) -> bool {
    match kind {
        PointKind::WallLight => false,
        PointKind::ExhaustFan | PointKind::PullCord => true,
        kind => matches!(kind.family(), Family::Lights | Family::Alarms),
    }
}

/// How high a kind goes on a wall, mm to the middle of its box: common
/// practice, to be changed where it stands.
pub const fn height(kind: PointKind) -> Mm {
    Mm::new(match kind {
        PointKind::WeatherproofSocket | PointKind::Pump => 600,
        PointKind::Switch | PointKind::Dimmer => 1100,
        PointKind::Isolator => 1300,
        PointKind::WallLight | PointKind::RangeHood => 1800,
        PointKind::AirConditioner => 2000,
        PointKind::DoorMotor => 2200,
        PointKind::CarCharger => 1200,
        _ => 300,
    })
}

/// How high a board goes, mm: common practice.
const BOARD: Mm = Mm::new(1500);

/// Where a kind goes from here: onto the ceiling, or onto the nearest wall
/// within reach, mm. None: no wall is near.
pub fn place(plan: &Plan, level: LevelId, kind: PointKind, at: Point, reach: f64) -> Option<Place> {
    if on_ceiling(kind) {
        return Some(Place::Ceiling(OnLevel { level, at: centred(plan, level, at, reach) }));
    }
    on_wall(plan, level, height(kind), at, reach)
}

/// Where a board goes from here.
pub fn board_place(plan: &Plan, level: LevelId, at: Point, reach: f64) -> Option<Place> {
    on_wall(plan, level, BOARD, at, reach)
}

fn on_wall(plan: &Plan, level: LevelId, height: Mm, at: Point, reach: f64) -> Option<Place> {
    let found = near::wall(plan, level, at, reach.max(400.0))?;
    let along = near::stepped(plan.walls.get(&found.wall)?, found.along, 50.0, 100.0);
    Some(Place::Wall(OnWall { wall: found.wall, along, height, face: found.face }))
}

/// A place on a ceiling: on the middle lines of its room where they are near,
/// otherwise to the step.
fn centred(plan: &Plan, level: LevelId, at: Point, reach: f64) -> crate::units::Point2 {
    let even = |value: f64| libm::round(value / 50.0) * 50.0;
    let mut to = Point::new(even(at.x), even(at.y));
    let rooms = plan.rooms.values().filter(|room| room.level == level);
    let around = rooms
        .filter(|room| crate::plan::outline_holds(&room.outline, at.x, at.y))
        .map(|room| crate::session::ground::places::around(&room.outline))
        .next();
    if let Some(middle) = around.map(|around| around.center()) {
        let reach = reach.max(150.0);
        if (at.x - middle.x).abs() <= reach {
            to.x = middle.x;
        }
        if (at.y - middle.y).abs() <= reach {
            to.y = middle.y;
        }
    }
    rounded(to)
}

/// How far beside its wall the pointer takes a thing off it, mm.
pub const LEAVES: f64 = 600.0;

/// Where something that is dragged goes: along its own wall unless the pointer
/// is clearly at another one; across its ceiling or its ground.
pub fn dragged(plan: &Plan, place: Place, at: Point, reach: f64) -> Option<Place> {
    let level = plan.level_of(&place)?;
    Some(match place {
        Place::Wall(on) => {
            let own = near::on(plan.walls.get(&on.wall)?, on.wall, at)?;
            let other = near::wall(plan, level, at, reach.max(150.0));
            let to = match other {
                Some(other) if other.wall != on.wall && own.away > LEAVES => other,
                _ => own,
            };
            // The face is the pointer's, once it is clearly beyond the wall.
            let face = if to.away > 0.0 || to.wall != on.wall { to.face } else { on.face };
            let along = near::stepped(plan.walls.get(&to.wall)?, to.along, 10.0, 50.0);
            Place::Wall(OnWall { wall: to.wall, along, face, ..on })
        }
        Place::Ceiling(on) => {
            Place::Ceiling(OnLevel { at: centred(plan, level, at, reach.min(100.0)), ..on })
        }
        Place::Floor(on) => Place::Floor(OnLevel { at: rounded(at), ..on }),
        Place::Post(on) => Place::Post(crate::plan::OnPost { at: rounded(at), ..on }),
    })
}

/// A place moved across the page by so much, mm: on a wall, as far along it as
/// that goes its way.
pub fn nudged(plan: &Plan, place: Place, by: kurbo::Vec2) -> Option<Place> {
    Some(match place {
        Place::Wall(on) => {
            let wall = plan.walls.get(&on.wall)?;
            let (x, y) = wall.direction();
            let along = on.along.to_f64() + by.dot(kurbo::Vec2::new(x, y));
            Place::Wall(OnWall { along: near::stepped(wall, along, 1.0, 50.0), ..on })
        }
        Place::Ceiling(on) => Place::Ceiling(OnLevel { at: shifted(on.at, by), ..on }),
        Place::Floor(on) => Place::Floor(OnLevel { at: shifted(on.at, by), ..on }),
        Place::Post(on) => Place::Post(crate::plan::OnPost { at: shifted(on.at, by), ..on }),
    })
}

/// Beside a place: along its wall, back where the wall ends, or to the right.
pub fn aside(plan: &Plan, place: Place) -> kurbo::Vec2 {
    const STEP: f64 = 300.0;
    let on = match place {
        Place::Wall(on) => plan.walls.get(&on.wall).map(|wall| (on, wall)),
        _ => None,
    };
    let Some((on, wall)) = on else { return kurbo::Vec2::new(STEP, 0.0) };
    let (x, y) = wall.direction();
    let back = on.along.to_f64() + STEP + 50.0 > wall.length();
    kurbo::Vec2::new(x, y) * if back { -STEP } else { STEP }
}

fn shifted(at: crate::units::Point2, by: kurbo::Vec2) -> crate::units::Point2 {
    rounded(crate::session::ground::places::exact(at) + by)
}

/// An opening of a kind where a wall is near: its middle to the step, clear of
/// the wall's ends. Widths and heights are common practice.
pub fn opening(
    plan: &Plan,
    level: LevelId,
    kind: OpeningKind,
    at: Point,
    reach: f64,
) -> Option<(OpeningId, Opening)> {
    let found = near::wall(plan, level, at, reach.max(400.0))?;
    let wall = plan.walls.get(&found.wall)?;
    let (width, sill, head) = match kind {
        OpeningKind::Door => (820, 0, 2040),
        OpeningKind::SlidingDoor => (1800, 0, 2100),
        OpeningKind::Window => (1200, 900, 2100),
        OpeningKind::Plain => (1000, 0, 2100),
    };
    let half = Mm::new(width).half();
    if wall.length() < Mm::new(width).to_f64() + 100.0 {
        return None;
    }
    let middle = near::stepped(wall, found.along, 50.0, half.to_f64() + 50.0);
    let hinge = Hinge { at_near_edge: found.along * 2.0 <= wall.length(), opens: found.face };
    let opening = Opening {
        wall: found.wall,
        kind,
        from: middle - half,
        width: Mm::new(width),
        sill: Mm::new(sill),
        head: Mm::new(head),
        hinge: (kind == OpeningKind::Door).then_some(hinge),
    };
    Some((OpeningId(plan.fresh_id()), opening))
}

/// The edit that draws it.
pub fn drawn((id, opening): (OpeningId, Opening)) -> Edit {
    Change::Put(id, opening).into()
}

/// The other face of a wall.
pub const fn other(face: Face) -> Face {
    match face {
        Face::Left => Face::Right,
        Face::Right => Face::Left,
    }
}

//! Cables hidden in walls: zone and depth.
//!
//! **Looks at** each stretch inside a wall: whether it lies where people
//! expect a cable (in line with an accessory, beside a corner, along the
//! ceiling), how deep, and whether a residual-current device stands behind
//! it. **Matters** because someone will hang a picture. **Example:** a cable
//! sideways across the middle of a wall. **Remedy:** another way, 50 mm of
//! depth, earthed metal over it. **Source:** table `wall_zone`.

use super::super::context::{Case, House};
use super::super::words;
use crate::plan::{Face, Finding, Plane, Severity, Subject, Wall, WallBuild, WallId};
use crate::rules::words::{CustomOf, ZoneRule};
use crate::runs::{Heading, Leg, Segment, Surrounding};
use crate::units::Point3;

const OUTSIDE: &str = "outside-zone";
const SHALLOW: &str = "cable-shallow";
/// Half a box: a cable within it is in line with the accessory, mm.
const IN_LINE: f64 = 50.0;

pub(super) fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let house = case.house;
    let rule = |what| house.tables().wall_zone.row(what);
    let (strip, depth) = (rule(ZoneRule::Strip), rule(ZoneRule::Depth));
    let chase = rule(ZoneRule::ChaseDepth);
    let residual = case.circuit.device.is_some_and(|device| device.residual.is_some())
        || !case.circuit.rcd_group.is_empty();
    let mut worst_shallow: Option<(f64, &Leg, &Segment)> = None;
    let mut walls: Vec<(WallId, Lines)> = Vec::new();
    for leg in case.legs() {
        for segment in &leg.route.segments {
            let Some(Plane::Wall(id)) = segment.plane else { continue };
            let hidden = matches!(
                segment.through,
                Surrounding::HollowWall | Surrounding::Chase | Surrounding::Cavity
            );
            let (true, Some(wall)) = (hidden, house.plan.walls.get(&id)) else { continue };
            let deep = depth_in(wall, segment, chase.distance.exact());
            if deep >= depth.distance.exact() {
                continue;
            }
            if worst_shallow.is_none_or(|(known, _, _)| deep < known) {
                worst_shallow = Some((deep, leg, segment));
            }
            let place = match walls.iter().position(|(known, _)| *known == id) {
                Some(place) => place,
                None => {
                    walls.push((id, Lines::of(house, id, wall, strip.distance.exact())));
                    walls.len() - 1
                }
            };
            let covers = house.tables().custom.has(CustomOf::ResidualCoversZone);
            let covered = residual && covers;
            if !walls[place].1.hold(wall, segment, strip.distance.exact()) && !covered {
                let source = format!("{}; {}", strip.credit(), depth.credit());
                findings.push(outside(case, leg, segment, deep, depth.distance.exact(), source));
            }
        }
    }
    if let (Some((deep, leg, segment)), false) = (worst_shallow, residual) {
        findings.push(shallow(case, leg, segment, deep, depth.distance.exact(), depth.credit()));
    }
}

/// How far behind the nearer face a cable lies: on the centre line of a hollow
/// wall, at the depth of a chase in a solid one.
fn depth_in(wall: &Wall, segment: &Segment, chase: f64) -> f64 {
    match (segment.through, wall.build) {
        (Surrounding::Chase, _) | (_, WallBuild::SolidMasonry | WallBuild::Concrete) => chase,
        _ => wall.thickness.to_f64() / 2.0,
    }
}

/// The lines of a wall beside which people expect cables.
struct Lines {
    /// Accessories: along, and height above the lowest floor, mm.
    accessories: Vec<(f64, f64)>,
    /// Corners: along, and half the thickness of what meets there, mm.
    corners: Vec<(f64, f64)>,
    /// Height of the ceiling above the lowest floor, mm.
    ceiling: f64,
}

impl Lines {
    fn of(house: &House<'_>, id: WallId, wall: &Wall, strip: f64) -> Self {
        let places = house
            .plan
            .points
            .values()
            .filter_map(|point| point.place)
            .chain(house.plan.boards.values().filter_map(|board| board.place));
        let accessories = places
            .filter(|place| matches!(place, crate::plan::Place::Wall(on) if on.wall == id))
            .filter_map(|place| house.plan.position(&place))
            .map(|at| (along(wall, at), at.z.to_f64()))
            .collect();
        let mut corners = vec![(0.0, 0.0), (wall.length(), 0.0)];
        for (other_id, other) in &house.plan.walls {
            if *other_id == id || other.level != wall.level {
                continue;
            }
            let reach = wall.thickness.to_f64() / 2.0 + other.thickness.to_f64() / 2.0 + strip;
            for end in [other.a, other.b] {
                let at = end.at_height(crate::units::Mm::ZERO);
                if across(wall, at).abs() <= reach {
                    corners.push((along(wall, at), other.thickness.to_f64() / 2.0));
                }
            }
            // A wall that crosses this one.
            let (a, b) = (
                across(wall, other.a.at_height(crate::units::Mm::ZERO)),
                across(wall, other.b.at_height(crate::units::Mm::ZERO)),
            );
            if a * b < 0.0 {
                let share = a / (a - b);
                let (from, to) = (
                    along(wall, other.a.at_height(crate::units::Mm::ZERO)),
                    along(wall, other.b.at_height(crate::units::Mm::ZERO)),
                );
                corners.push((from + (to - from) * share, other.thickness.to_f64() / 2.0));
            }
        }
        let ceiling = house
            .plan
            .levels
            .get(&wall.level)
            .map_or(f64::INFINITY, |level| level.ceiling().to_f64());
        Self { accessories, corners, ceiling }
    }

    fn hold(&self, wall: &Wall, segment: &Segment, strip: f64) -> bool {
        let (from, to) = (along(wall, segment.from), along(wall, segment.to));
        let near = |at: f64| {
            self.corners.iter().any(|(corner, half)| (at - corner).abs() <= half + strip + 1.0)
        };
        if near(from) && near(to) && (from - to).abs() <= 2.0 * strip {
            return true;
        }
        match segment.heading {
            Heading::Up | Heading::Down => {
                self.accessories.iter().any(|(line, _)| (line - from).abs() <= IN_LINE)
            }
            _ => {
                let height = segment.from.z.to_f64();
                height >= self.ceiling - strip - 1.0
                    || self.accessories.iter().any(|(_, line)| (line - height).abs() <= IN_LINE)
            }
        }
    }
}

fn along(wall: &Wall, at: Point3) -> f64 {
    let (dx, dy) = wall.direction();
    (at.x - wall.a.x).to_f64() * dx + (at.y - wall.a.y).to_f64() * dy
}

fn across(wall: &Wall, at: Point3) -> f64 {
    let (nx, ny) = wall.normal(Face::Left);
    (at.x - wall.a.x).to_f64() * nx + (at.y - wall.a.y).to_f64() * ny
}

fn outside(
    case: &Case<'_>,
    leg: &Leg,
    segment: &Segment,
    deep: f64,
    limit: f64,
    source: String,
) -> Finding {
    let message = format!(
        "leg {} of {} lies where no one expects it: {}",
        leg.number,
        case.name(),
        words::stretch(segment)
    );
    Finding::new(
        OUTSIDE,
        Severity::Fault,
        Subject::Leg { circuit: case.id, from: leg.from, to: leg.to },
        message,
        "keep in line with an accessory, beside a corner or along the ceiling; or earthed metal over it",
    )
    .at(segment.from)
    .against(format!("{deep:.0} mm deep, outside every zone"), format!("{limit} mm outside zones"), source)
}

fn shallow(
    case: &Case<'_>,
    leg: &Leg,
    segment: &Segment,
    deep: f64,
    limit: f64,
    source: String,
) -> Finding {
    let message = format!(
        "{} is hidden {deep:.0} mm deep without residual-current protection: {}",
        case.name(),
        words::stretch(segment)
    );
    Finding::new(
        SHALLOW,
        Severity::Fault,
        Subject::Leg { circuit: case.id, from: leg.from, to: leg.to },
        message,
        "a device that also trips at 30 mA; or earthed metal over it",
    )
    .at(segment.from)
    .against(format!("{deep:.0} mm"), format!("{limit} mm"), source)
}

//! What a leg costs, worked out anew from its segments.
//!
//! Percent areas are split exactly along each segment. The turn from wall to
//! wall inside them costs its distance and `habits.corner`; whether it is a
//! bend as well is left open, by one bend for each.

use wirewend::plan::{Area, AreaEffect, Place, Plane, VoidId, VoidKind, Wall, WallBuild, WallId};
use wirewend::runs::{Heading, Segment, Surrounding};

use super::complaint::{Code, Complaints};
use super::headings::along_joists;
use super::house::{accessories, footprint, on_wall};
use super::joints::flush;
use super::medium::Medium;
use super::shape::{NEAR, Spot, cuts, deep_inside, edge_distance, holds, stretches};
use super::strips::corner_strips;
use super::walk::Walk;

pub(crate) fn judge(walk: &Walk, book: &mut Complaints) {
    let said = walk.leg.route.cost.get();
    #[expect(clippy::cast_precision_loss, reason = "far below 2^53")]
    let said = said as f64 / 100.0;
    let total = |least: bool| -> f64 {
        let joints = walk.pairs().map(|(_, pair, media)| joint(walk, pair, media, least));
        let pieces = walk.pieces();
        joints.sum::<f64>()
            + flush_ends(walk) * walk.plan.habits.bend.to_f64()
            + pieces.map(|(_, segment, medium)| plain(walk, segment, medium, least)).sum::<f64>()
    };
    let doubt = oblique_barriers(walk) + grazed_barriers(walk);
    let (least, most) = (total(true) - doubt, total(false) + doubt);
    // Nor is worked out anew whether a leg turns just where it passes a pin.
    let pins = walk.circuit.pins.iter().map(|pin| pin.through.len()).sum::<usize>();
    let pins = f64::from(u32::try_from(pins).unwrap_or(0));
    let bend = walk.plan.habits.bend.to_f64();
    let open = 0.005 * most + 4.0 + corners(walk) * bend + crowded(walk) + pins * bend;
    if said < least - open || said > most + open {
        let text = format!("says {said}, its segments cost {least:.1} to {most:.1}");
        book.leg(Code::Cost, walk.leg, text);
    }
}

fn corners(walk: &Walk) -> f64 {
    walk.pairs().filter(|(_, _, media)| is_corner(*media)).map(|_| 1.0).sum()
}

/// How many ends on ceilings and floors have their void right behind them: the
/// bend from the way straight in has no segment before it.
fn flush_ends(walk: &Walk) -> f64 {
    let segments = &walk.leg.route.segments;
    let ends = [(walk.leg.from, segments.first()), (walk.leg.to, segments.last())];
    let is_flush = |place: Option<Place>, segment: Option<&Segment>| {
        matches!(place, Some(Place::Ceiling(_) | Place::Floor(_)))
            && segment.is_some_and(|one| matches!(one.plane, Some(Plane::Void(_))))
    };
    ends.map(|(end, segment)| is_flush(walk.plan.place_of(end), segment))
        .map(|flush| if flush { 1.0 } else { 0.0 })
        .iter()
        .sum()
}

/// What is left open at corners with accessories or further walls close by: how
/// far the columns beside such a corner are from it is not worked out anew.
fn crowded(walk: &Walk) -> f64 {
    let plan = walk.plan;
    let thickest = plan.walls.values().map(|wall| wall.thickness.to_f64()).fold(0.0, f64::max);
    let near = plan.habits.zones.strip.to_f64() + thickest;
    let is_crowded = |one: &Segment, media: [Medium; 2]| {
        let [Medium::Wall(before), Medium::Wall(after)] = media else { return false };
        let has_near = |id: WallId| {
            let Some(wall) = plan.walls.get(&id) else { return false };
            let at = on_wall(plan, wall, one.to).x;
            accessories(plan, id).iter().any(|spot| (spot.x - at).abs() <= near)
        };
        let at = Spot::under(one.to);
        let level = plan.walls.get(&before).map(|wall| wall.level);
        let meet = plan.walls.values().filter(|wall| {
            if Some(wall.level) != level {
                return false;
            }
            let outline = footprint(wall, 0.0);
            holds(&outline, at) || edge_distance(&outline, at) <= near
        });
        has_near(before) || has_near(after) || meet.count() > 2
    };
    let crowded =
        walk.pairs().filter(|(_, pair, media)| is_corner(*media) && is_crowded(pair[0], *media));
    crowded.map(|_| 4.0 * near).sum()
}

fn is_corner(media: [Medium; 2]) -> bool {
    matches!(media, [Medium::Wall(one), Medium::Wall(other)] if one != other)
}

/// What a segment costs by itself, in mm of plain run: the least or the most,
/// where it lies so close to the edge of an area that either may be meant.
fn plain(walk: &Walk, segment: &Segment, medium: Medium, least: bool) -> f64 {
    let length = segment.from.distance(segment.to);
    let plate = walk.plan.habits.plate.to_f64();
    match medium {
        Medium::Wall(wall) if segment.heading == Heading::Sideways => {
            length * sideways(walk, wall, segment.through)
        }
        Medium::Void(void) => across(walk, segment, void, least),
        Medium::Plate(..) => length + plate,
        Medium::Riser(..) => length + 2.0 * plate,
        _ => length,
    }
}

/// What a mm sideways in or on a wall costs.
fn sideways(walk: &Walk, wall: WallId, through: Surrounding) -> f64 {
    let habits = &walk.plan.habits;
    let build = walk.plan.walls.get(&wall).map(|wall| wall.build);
    let percent = match (through, build) {
        (Surrounding::Surface, _) => habits.surface_percent,
        (_, Some(WallBuild::Stud | WallBuild::BrickVeneer | WallBuild::LathAndPlaster)) => {
            habits.stud_percent
        }
        _ => habits.chase_percent,
    };
    f64::from(percent) / 100.0
}

/// What a segment across a void costs.
fn across(walk: &Walk, segment: &Segment, id: VoidId, least: bool) -> f64 {
    let Some(void) = walk.plan.voids.get(&id) else { return 0.0 };
    let habits = &walk.plan.habits;
    let percent = if void.kind == VoidKind::Ground {
        f64::from(habits.trench_percent)
    } else if segment.heading == Heading::AcrossJoists && void.joists.is_some() {
        100.0 + f64::from(habits.joist_cross_percent)
    } else {
        100.0
    };
    let areas: Vec<&Area> =
        walk.plan.areas.values().filter(|area| area.on == Plane::Void(id)).collect();
    let turn = f64::from(void.direction.millidegrees()) / 1000.0;
    percent / 100.0 * weighed(segment, &areas, turn, least) + barriers(walk, segment, id, &areas)
}

fn outline(area: &Area) -> Vec<Spot> {
    area.outline.iter().map(|corner| Spot::of(*corner)).collect()
}

/// The length of a segment, each part weighed by the largest percentage of the
/// areas that it lies in.
///
/// Along an edge either price may be meant: within 3 mm, or, where the area
/// is oblique to the joists and so followed by steps, within 60 mm.
fn weighed(segment: &Segment, areas: &[&Area], turn: f64, least: bool) -> f64 {
    let (from, to) = (Spot::under(segment.from), Spot::under(segment.to));
    let priced: Vec<(Vec<Spot>, f64, f64)> = areas
        .iter()
        .filter_map(|area| match area.effect {
            AreaEffect::Percent(percent) => {
                let outline = outline(area);
                let open = if is_oblique(&outline, turn) { 60.0 } else { NEAR };
                Some((outline, f64::from(percent), open))
            }
            _ => None,
        })
        .collect();
    let mut shares: Vec<f64> = vec![0.0, 1.0];
    shares.extend(priced.iter().flat_map(|(area, _, _)| cuts(area, from, to)));
    let count = (from.distance(to) / 50.0).ceil().max(1.0);
    let mut step = 1.0;
    while step < count {
        shares.push(step / count);
        step += 1.0;
    }
    shares.sort_by(f64::total_cmp);
    let parts = shares.windows(2).map(|part| {
        let middle = from.towards(to, (part[0] + part[1]) / 2.0);
        let sure = priced
            .iter()
            .filter(|(area, _, open)| holds(area, middle) && edge_distance(area, middle) > *open);
        let percent = sure.map(|(_, percent, _)| *percent).fold(None, larger).unwrap_or(100.0);
        let maybe = priced
            .iter()
            .filter(|(area, _, open)| edge_distance(area, middle) <= *open)
            .map(|(_, percent, _)| *percent);
        let percent =
            maybe.fold(
                percent,
                |so_far, other| {
                    if least { so_far.min(other) } else { so_far.max(other) }
                },
            );
        (part[1] - part[0]) * percent / 100.0
    });
    parts.sum::<f64>() * from.distance(to)
}

/// The tolls of the barriers that stand oblique to their joists: how much of
/// one a leg crosses is then a matter of how it is followed by steps.
fn oblique_barriers(walk: &Walk) -> f64 {
    let mut tolls = 0.0;
    for area in walk.plan.areas.values() {
        let (AreaEffect::Barrier(toll), Plane::Void(id)) = (area.effect, area.on) else { continue };
        let turn = walk.plan.voids.get(&id).map_or(0, |void| void.direction.millidegrees());
        if is_oblique(&outline(area), f64::from(turn) / 1000.0) {
            tolls += 2.0 * toll.to_f64();
        }
    }
    tolls
}

/// What 6 mm of every barrier cost: so much two places may be off.
fn grazed_barriers(walk: &Walk) -> f64 {
    let areas = walk.plan.areas.values();
    areas
        .filter_map(|area| {
            let AreaEffect::Barrier(toll) = area.effect else { return None };
            let outline = outline(area);
            let sides = outline.iter().zip(outline.iter().cycle().skip(1));
            let short = sides.map(|(a, b)| a.distance(*b)).fold(f64::INFINITY, f64::min);
            Some(2.0 * NEAR * toll.to_f64() / short.max(1.0))
        })
        .sum()
}

fn larger(one: Option<f64>, other: f64) -> Option<f64> {
    Some(one.map_or(other, |one| one.max(other)))
}

/// Whether an outline has an edge that neither follows the joists nor is
/// square to them.
fn is_oblique(outline: &[Spot], turn: f64) -> bool {
    let (cos, sin) = (libm::cos(turn.to_radians()), libm::sin(turn.to_radians()));
    outline.iter().zip(outline.iter().cycle().skip(1)).any(|(a, b)| {
        let edge = b.minus(*a);
        let (along, across) = (edge.x * cos + edge.y * sin, edge.y * cos - edge.x * sin);
        along.abs().min(across.abs()) > 4.0
    })
}

/// The tolls of the barriers that a segment goes through by their short side.
fn barriers(walk: &Walk, segment: &Segment, void: VoidId, areas: &[&Area]) -> f64 {
    let (from, to) = (Spot::under(segment.from), Spot::under(segment.to));
    let Some((along, athwart)) = along_joists(walk, segment, void) else { return 0.0 };
    let turn = walk.plan.voids.get(&void).map_or(0, |void| void.direction.millidegrees());
    let radians = (f64::from(turn) / 1000.0).to_radians();
    let (cos, sin) = (libm::cos(radians), libm::sin(radians));
    let mut tolls = 0.0;
    for area in areas {
        let AreaEffect::Barrier(toll) = area.effect else { continue };
        let area = outline(area);
        let wide = spread(area.iter().map(|corner| corner.x * cos + corner.y * sin));
        let deep = spread(area.iter().map(|corner| corner.y * cos - corner.x * sin));
        let short_along = wide <= deep;
        if (along.abs() >= athwart.abs()) == short_along {
            let inside = stretches(&area, from, to)
                .into_iter()
                .filter(|(start, end)| deep_inside(&area, from.towards(to, (start + end) / 2.0)));
            let length = inside.map(|(start, end)| end - start).sum::<f64>() * from.distance(to);
            tolls += toll.to_f64() * length / wide.min(deep).max(1.0);
        }
    }
    tolls
}

fn spread(values: impl Iterator<Item = f64>) -> f64 {
    let (low, high) =
        values.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| (low.min(x), high.max(x)));
    high - low
}

/// What passing from one segment to the next costs: a bend where the direction
/// changes, a corner where the wall does, a plate that has no length.
fn joint(walk: &Walk, [one, other]: [&Segment; 2], media: [Medium; 2], least: bool) -> f64 {
    let habits = &walk.plan.habits;
    if let [Medium::Wall(before), Medium::Wall(after)] = media
        && before != after
    {
        return habits.corner.to_f64()
            - saved_at_corner(walk, one, one.to, [before, after], least)
            - saved_at_corner(walk, other, other.from, [after, before], least);
    }
    let mut cost = 0.0;
    if let [Medium::Wall(wall), Medium::Void(void)] | [Medium::Void(void), Medium::Wall(wall)] =
        media
        && flush(walk, one.to, wall, void)
    {
        cost += habits.plate.to_f64();
    }
    if turns(one, other) {
        cost += habits.bend.to_f64();
    }
    cost
}

/// Whether two segments go different ways: upright, or level along one line or
/// another. Going back along the same line is no bend.
fn turns(one: &Segment, other: &Segment) -> bool {
    let upright = |segment: &Segment| matches!(segment.heading, Heading::Up | Heading::Down);
    match (upright(one), upright(other)) {
        (true, true) => false,
        (false, false) => {
            let step = |segment: &Segment| Spot::under(segment.to).minus(Spot::under(segment.from));
            let (a, b) = (step(one), step(other));
            let lengths = libm::sqrt(a.dot(a) * b.dot(b));
            a.dot(b).abs() < 0.9 * lengths
        }
        _ => true,
    }
}

/// Through a corner a cable pays its plain length, up to the middle of the
/// strip beyond the face of the other wall: what that saves on a segment.
fn saved_at_corner(
    walk: &Walk,
    segment: &Segment,
    corner: wirewend::units::Point3,
    [own, other]: [WallId; 2],
    least: bool,
) -> f64 {
    let plan = walk.plan;
    let (Some(wall), Some(other)) = (plan.walls.get(&own), plan.walls.get(&other)) else {
        return 0.0;
    };
    if segment.heading != Heading::Sideways {
        return 0.0;
    }
    let length = segment.from.distance(segment.to);
    // Where strips of several walls run together, the column may be beside any.
    let near = (other.thickness + plan.habits.zones.strip).to_f64() / 2.0;
    let far = if least { reach(walk, own, wall, other, corner) } else { near };
    // Between two corners each may count for half of the segment.
    let wall_like = |medium: Option<Medium>| matches!(medium, Some(Medium::Wall(_)));
    let number = walk.pieces().position(|(_, one, _)| std::ptr::eq(one, segment)).unwrap_or(0);
    let media: Vec<Medium> = walk.pieces().map(|(_, _, medium)| medium).collect();
    let turns = |at: Option<usize>| {
        let there = at.and_then(|at| media.get(at).copied());
        wall_like(there) && there != media.get(number).copied()
    };
    let both = turns(number.checked_sub(1)) && turns(Some(number + 1));
    let through = if both { far.min(length / 2.0) } else { far.min(length) };
    through * (sideways(walk, own, segment.through) - 1.0)
}

/// From a corner to the middle of the strip beside it.
fn reach(
    walk: &Walk,
    id: WallId,
    wall: &Wall,
    other: &Wall,
    corner: wirewend::units::Point3,
) -> f64 {
    let strip = walk.plan.habits.zones.strip.to_f64();
    let along = on_wall(walk.plan, wall, corner).x;
    let here = corner_strips(walk.plan, id);
    let ends = here.iter().filter(|(from, to)| (*from..=*to).contains(&along));
    let face = ends.map(|(_, to)| to - along - strip).fold(0.0, f64::max);
    face.max(other.thickness.to_f64() / 2.0) + strip / 2.0
}

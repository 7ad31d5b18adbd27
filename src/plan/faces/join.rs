//! Where the face of an arm ends at the place where walls meet.

use core::f64::consts::PI;

use super::super::Face;
use super::line::{Tip, cross, outward};
use super::node::{Arm, Node};
use super::piece::Shape;

/// Walls that turn by less than this carry on in one line (the sine of it,
/// about three degrees): nobody finds a corner there with a tape.
const TURN: f64 = 0.05;
/// Faces in one line that are no further apart are flush, mm.
const FLUSH: f64 = 2.0;
/// Where walls turn by less than this (the sine of it, 30 degrees) and one is so
/// much thicker that the other's face would cut into it, there is a step.
const SLIGHT: f64 = 0.5;
/// A corner that would stick out further than so many half thicknesses is
/// cut off, as floor sheets draw it.
const STICKS_OUT: f64 = 4.0;

/// Where a face ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Stop {
    /// Along its wall, mm.
    pub(super) along: f64,
    pub(super) met: Met,
}

/// What a face ends at.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Met {
    /// Nothing: the bare end of the wall.
    Nothing,
    /// A face of another wall.
    Wall(usize, Shape),
    /// It does not: another carries on, flush.
    Goes { wall: usize, side: Face, tip: Tip },
}

/// Where the face of an arm on one side of it begins, out from the node. None
/// where the wall goes through and nothing meets that face.
pub(super) fn stop(node: &Node, of: usize, side: Face) -> Option<Stop> {
    let arm = &node.arms[of];
    let others = || node.arms.iter().filter(|other| other.wall != arm.wall);
    let stop = |out: f64, met: Met| Some(Stop { along: arm.along(out), met });
    let inner = others()
        .filter(|other| is_inner(gap(arm, other, side)))
        .filter_map(|other| Some((crossing(arm, other, side)?, other)))
        .max_by(|a, b| a.0.total_cmp(&b.0));
    let buried = others()
        .filter_map(|other| Some((buried(node, arm, other, side)?, other)))
        .max_by(|a, b| a.0.total_cmp(&b.0));
    if let Some((out, other)) = inner {
        let deeper = buried.filter(|(deep, _)| *deep > out + 0.5);
        let (out, other) = deeper.unwrap_or((out, other));
        return stop(out, Met::Wall(other.wall, Shape::Inner));
    }
    arm.tip?;
    // Walls do not end at fences.
    let peers = || others().filter(|other| arm.is_screen || !other.is_screen);
    for other in peers().filter(|other| is_flush(arm, other, side)) {
        if let Some(tip) = other.tip {
            let (wall, side) = (other.wall, other.face(opposite(side)));
            return stop(seam(arm, other, side), Met::Goes { wall, side, tip });
        }
    }
    let outer = peers()
        .filter(|other| gap(arm, other, side) > PI - TURN)
        .min_by(|a, b| gap(arm, a, side).total_cmp(&gap(arm, b, side)));
    if let Some(other) = outer.filter(|other| gap(arm, other, side) > PI + TURN)
        && let Some(out) = crossing(arm, other, side)
        && (out.max(crossing(other, arm, opposite(side)).unwrap_or(0.0)) < 0.5
            || cross(arm.way, other.way).abs() > SLIGHT
            || arm.way.dot(other.way) > 0.0)
    {
        return stop(out, Met::Wall(other.wall, Shape::Outer));
    }
    let buried = buried.filter(|(out, _)| *out > 0.0);
    match (outer, buried) {
        // A fence in line with a wall begins at the outside of its corner.
        (Some(other), _)
            if is_in_line(arm, other, side) && !(arm.is_screen && buried.is_some()) =>
        {
            let (end, shape) = if step(arm, other, side) > 0.0 {
                (arm.out_of(other.tip_at()), Shape::Inner)
            } else {
                (arm.end, Shape::Outer)
            };
            stop(end, Met::Wall(other.wall, shape))
        }
        (_, Some((out, other))) => stop(out, Met::Wall(other.wall, Shape::Inner)),
        (Some(other), None) => stop(0.0, Met::Wall(other.wall, Shape::Outer)),
        (None, None) => stop(arm.end, Met::Nothing),
    }
}

const fn opposite(side: Face) -> Face {
    match side {
        Face::Left => Face::Right,
        Face::Right => Face::Left,
    }
}

/// The angle from an arm round to another, towards one of its sides.
fn gap(arm: &Arm, other: &Arm, side: Face) -> f64 {
    let turn = libm::atan2(cross(arm.way, other.way), arm.way.dot(other.way));
    let turn = if side == Face::Left { turn } else { -turn };
    if turn < -TURN { turn + 2.0 * PI } else { turn }
}

fn is_inner(gap: f64) -> bool {
    TURN < gap && gap < PI - TURN
}

/// How far out the face of an arm crosses the face of another that looks at
/// it. None where the other is too short to be there, or the corner would
/// stick out too far.
fn crossing(arm: &Arm, other: &Arm, side: Face) -> Option<f64> {
    let turn = cross(arm.way, other.way);
    if turn.abs() < TURN / 2.0 {
        return None;
    }
    let from = arm.at + outward(arm.way, side) * arm.half;
    let to = other.at + outward(other.way, opposite(side)) * other.half;
    let out = cross(to - from, other.way) / turn;
    let on_other = cross(to - from, arm.way) / turn;
    let tip = from + arm.way * out - arm.at;
    let reach = libm::hypot(tip.x, tip.y);
    let is_odd = (out < 0.0 || on_other < 0.0) && reach > STICKS_OUT * arm.half.max(other.half);
    (on_other <= other.reach + 1.0 && !is_odd).then_some(out)
}

/// How far out the face of an arm is inside another wall, as that is drawn.
fn buried(node: &Node, arm: &Arm, other: &Arm, side: Face) -> Option<f64> {
    // What ends on the far side of a wall that goes through is not here.
    let mut through = node.arms.iter().filter(|one| one.tip.is_none() && one.forward);
    let parts = |one: &Arm| cross(one.way, arm.way) * cross(one.way, other.way) < 0.0;
    if through.any(|one| one.wall != arm.wall && one.wall != other.wall && parts(one)) {
        return None;
    }
    let from = arm.at + outward(arm.way, side) * arm.half - other.at;
    let across = outward(other.way, Face::Left);
    let half = other.half - 0.01;
    // A fence ends at the outside of a corner of the house.
    let solid = node.arms.iter().filter(|one| !one.is_screen && one.wall != other.wall);
    let back = match other.tip {
        Some(_) if arm.is_screen && !other.is_screen => {
            solid.map(|one| one.half).fold(0.0, f64::max)
        }
        _ => 0.0,
    };
    let within = |base: f64, step: f64, low: f64, high: f64| -> (f64, f64) {
        if step.abs() < 1e-6 {
            let inside = low < base && base < high;
            return if inside { (f64::NEG_INFINITY, f64::INFINITY) } else { (1.0, -1.0) };
        }
        let ends = [(low - base) / step, (high - base) / step];
        (ends[0].min(ends[1]), ends[0].max(ends[1]))
    };
    let first = if is_in_line(arm, other, side) { other.end } else { other.end.min(-back) };
    let one = within(from.dot(other.way), arm.way.dot(other.way), first, other.reach);
    let two = within(from.dot(across), arm.way.dot(across), -half, half);
    let (low, high) = (one.0.max(two.0), one.1.min(two.1));
    (low < high && low < 1.0).then_some(high)
}

fn is_in_line(arm: &Arm, other: &Arm, side: Face) -> bool {
    (gap(arm, other, side) - PI).abs() <= TURN
}

/// How far the face of a wall in line stands out past that of an arm.
fn step(arm: &Arm, other: &Arm, side: Face) -> f64 {
    let from = arm.at + outward(arm.way, side) * arm.half;
    let to = other.at + outward(other.way, opposite(side)) * other.half;
    (to - from).dot(outward(arm.way, side))
}

/// Whether a face carries on in another's, with no step between them.
fn is_flush(arm: &Arm, other: &Arm, side: Face) -> bool {
    is_in_line(arm, other, side)
        && step(arm, other, side).abs() <= FLUSH
        && arm.is_screen == other.is_screen
}

/// How far out the seam between flush faces is: midway between their ends, and
/// where they turn a little on the line between.
fn seam(arm: &Arm, other: &Arm, side: Face) -> f64 {
    let bend = arm.half * libm::sin(gap(arm, other, side) - PI) / 2.0;
    arm.out_of(arm.tip_at().midpoint(other.tip_at())) - bend
}

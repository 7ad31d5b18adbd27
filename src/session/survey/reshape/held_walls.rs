//! A wall or a corner in the hand: how far it goes, what it holds on to, what
//! is said beside the pointer.

use kurbo::Point;

use crate::plan::{Edit, WallId};
use crate::session::Session;
use crate::session::ground::length::Typed;
use crate::session::ground::places::exact;
use crate::session::ground::snap::{self, Ground, Kind, Snap};
use crate::session::survey::reshape::walls::{
    across, at_corner, corner as corner_moved, line_of, shifted, way,
};
use crate::units::{Mm, Point2};

impl Session {
    pub(crate) fn wall_moved(
        &self,
        id: WallId,
        from: Point,
        at: Point,
        typed: Option<Mm>,
    ) -> Result<(Edit, String, Option<Snap>), String> {
        let wall = self.document.plan().walls.get(&id).ok_or("the wall is gone")?;
        let across = across(wall);
        let pull = (at - from).dot(across);
        let mut by = match typed {
            Some(length) => length.to_f64().copysign(pull),
            None => snap::even(pull),
        };
        let mut snap = None;
        if typed.is_none()
            && let Some((offset, end)) = self.parallel(id, pull)
        {
            by = offset;
            let on = exact(wall.a).midpoint(exact(wall.b)) + across * by;
            snap = Some(Snap { at: wall.a, kind: Kind::InLine, guides: vec![(end, on)] });
        }
        let edit = shifted(self.document.plan(), id, by)?;
        let moved = Mm::from_f64(by.abs()).unwrap_or(Mm::ZERO);
        let mut says = format!("moved {}", self.sight.measure().show(moved));
        if let Some((left, right)) = self.clear_of(id, by) {
            let sides = (self.sight.measure().show(left), self.sight.measure().show(right));
            says = format!("{says}   {} | {} clear", sides.0, sides.1);
        }
        Ok((edit, says, snap))
    }

    /// How far the line of a wall is from that of a parallel one nearby, and an
    /// end of that one.
    fn parallel(&self, id: WallId, pull: f64) -> Option<(f64, Point)> {
        let wall = self.document.plan().walls.get(&id)?;
        let (across, line) = (across(wall), line_of(self.document.plan(), id));
        let others = self.document.plan().walls.iter().filter(|(other, one)| {
            one.level == wall.level && !line.contains(*other) && way(one).dot(across).abs() < 1e-3
        });
        let offsets =
            others.map(|(_, one)| ((exact(one.a) - exact(wall.a)).dot(across), exact(one.a)));
        offsets
            .filter(|(offset, _)| (offset - pull).abs() <= self.reach())
            .min_by(|one, other| (one.0 - pull).abs().total_cmp(&(other.0 - pull).abs()))
    }

    /// The clear widths to the left and to the right of a wall that has moved
    /// so far, from its middle to the faces of the next walls.
    fn clear_of(&self, id: WallId, by: f64) -> Option<(Mm, Mm)> {
        let wall = self.document.plan().walls.get(&id)?;
        let across = across(wall);
        let middle = exact(wall.a).midpoint(exact(wall.b)) + across * by;
        let line = line_of(self.document.plan(), id);
        let others = self.document.plan().walls.iter().filter(|(other, one)| {
            one.level == wall.level && !line.contains(*other) && way(one).dot(across).abs() < 0.7
        });
        let (mut left, mut right) = (f64::INFINITY, f64::INFINITY);
        for (_, other) in others {
            let (a, b) = (exact(other.a), exact(other.b));
            let cross = across.cross(b - a);
            let share = (a - middle).cross(across) / cross;
            let far = (a - middle).cross(b - a) / cross;
            if !(0.0..=1.0).contains(&share) {
                continue;
            }
            let clear = far.abs() - (wall.thickness + other.thickness).to_f64() / 2.0;
            let side = if far > 0.0 { &mut left } else { &mut right };
            *side = side.min(clear.max(0.0));
        }
        Some((Mm::from_f64(left).ok()?, Mm::from_f64(right).ok()?))
    }

    pub(crate) fn corner_to(
        &self,
        id: WallId,
        corner: Point2,
        at: Point,
    ) -> Result<(Edit, String, Option<Snap>), String> {
        let level = self.document.plan().walls.get(&id).ok_or("the wall is gone")?.level;
        let typed = match self.hand.typed() {
            "" => Typed::default(),
            text => Typed::of(text).ok_or_else(|| format!("{text}|"))?,
        };
        let moving = at_corner(self.document.plan(), level, corner);
        let far = |id: &WallId| {
            let wall = self.document.plan().walls.get(id)?;
            Some(if wall.a.distance(corner) < 1.0 { wall.b } else { wall.a })
        };
        let fixed: Vec<Point2> = moving.iter().filter_map(far).collect();
        let mut ground = Ground::of(self.document.plan(), level, self.below(), &moving);
        for end in &fixed {
            ground = ground.and(exact(*end));
        }
        // A length or an angle is that of the wall that was taken.
        let alone = moving.len() == 1 || typed != Typed::default();
        let from = far(&id).filter(|_| alone);
        let snap = snap::corner(&ground, from, at, self.reach(), typed);
        let edit = corner_moved(self.document.plan(), level, corner, snap.at)?;
        let lengths: Vec<String> = fixed
            .iter()
            .map(|end| {
                self.sight.measure().show(crate::session::survey::reshape::between(*end, snap.at))
            })
            .collect();
        let says = format!("{}  {}", lengths.join(", "), snap.kind.word());
        Ok((edit, says, Some(snap)))
    }
}

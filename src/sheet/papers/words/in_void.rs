//! The words of a stage in a void.

use super::Teller;
use super::moves::{self, Move, Way};
use super::names::void;
use super::stage::Stage;
use super::towards::{Towards, towards};
use crate::plan::{OnWall, VoidId, VoidKind};
use crate::wording::figure;

/// Which way a direction leads on the floor sheet, whose top is the page's.
pub(super) fn on_sheet((dx, dy): (f64, f64)) -> &'static str {
    let (level, upright) = (dx.abs() >= 2.0 * dy.abs(), dy.abs() >= 2.0 * dx.abs());
    match (level, upright, dx > 0.0, dy > 0.0) {
        (true, _, true, _) => "right",
        (true, _, false, _) => "left",
        (_, true, _, true) => "top",
        (_, true, _, false) => "foot",
        (_, _, true, true) => "upper right",
        (_, _, true, false) => "lower right",
        (_, _, false, true) => "upper left",
        (_, _, false, false) => "lower left",
    }
}

impl Teller<'_> {
    pub(super) fn in_void(&mut self, stage: &Stage<'_>, id: VoidId) -> String {
        let plan = self.house.plan;
        let segments = stage.segments.iter().map(|(_, segment)| *segment);
        let (moves, steps) = moves::in_void(segments, plan, id);
        let told: Vec<String> = moves.iter().map(|one| self.across(one, id)).collect();
        let steps = steps.map_or_else(String::new, |count| format!("in {count} steps, in all "));
        let kind = plan.voids.get(&id).map(|void| void.kind);
        let name = void(plan, id);
        let name = if kind == Some(VoidKind::Ground) {
            format!("in the ground ({name})")
        } else {
            format!("in the {name}")
        };
        let told = if told.is_empty() { "to and fro".to_owned() } else { told.join(", ") };
        format!("{name}: {steps}{told}")
    }

    /// One move in a void.
    fn across(&mut self, one: &Move, id: VoidId) -> String {
        let plan = self.house.plan;
        let void = plan.voids.get(&id);
        let is_lined =
            void.is_some_and(|void| void.joists.is_some() && void.kind != VoidKind::Ground);
        let length = figure(one.length);
        let word = match one.way {
            Way::Up => return format!("up {length}"),
            Way::Down => return format!("down {length}"),
            Way::Along(_) if is_lined => "along the joists ",
            Way::Across(_) if is_lined => "across the joists ",
            _ => "",
        };
        let (cos, sin) = void.map_or((1.0, 0.0), |void| void.direction.cos_sin());
        let axis = match one.way {
            Way::Along(true) => (cos, sin),
            Way::Along(false) => (-cos, -sin),
            Way::Across(true) => (-sin, cos),
            _ => (sin, -cos),
        };
        let ahead = towards((plan, self.house.faces()), id, one.from, axis, one.length, is_lined);
        let ahead = match ahead {
            Some(Towards::Room(name)) => format!(" towards {name}"),
            Some(Towards::Wall(at)) => format!(" towards {}", self.far_wall(&at)),
            Some(Towards::SideOf(name)) => format!(" to the side of {name}"),
            Some(Towards::AwayFrom(at)) => format!(" away from {}", self.far_wall(&at)),
            None => format!(" towards the {} of the floor sheet", on_sheet(axis)),
        };
        format!("{word}{length}{ahead}")
    }

    /// What drawings call the face of a wall at a place.
    fn far_wall(&mut self, at: &OnWall) -> String {
        let found = self.house.faces().nearest(at);
        let name = found.map_or_else(|| at.wall.to_string(), |(piece, _)| piece.name.clone());
        self.walls.insert(name.clone());
        name
    }
}

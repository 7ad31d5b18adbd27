//! What a point loads a circuit with, and what a circuit holds.

use super::super::outline::area_m2;
use super::grouper::Grouper;
use super::purpose::Purpose;
use crate::plan::{CircuitUse, Family, PointId};
use crate::rules::spec::CircuitArea;
use crate::rules::words::RingOrRadial;
use crate::runs::grouping::Load;
use crate::units::Amps;

impl Grouper<'_> {
    /// What a point loads a circuit with: gangs, and watts, or for rings the
    /// share of the floor that it serves, in hundredths of a m².
    pub(super) fn load(&self, id: PointId) -> Load {
        let point = &self.plan.points[&id];
        if matches!(point.kind.family(), Family::Switches | Family::Junctions) {
            return Load::default();
        }
        let points = u32::from(point.gangs);
        let watts = if point.kind.family() == Family::Sockets {
            self.floor_share(id)
        } else {
            let row = self.tables().point_load.row(point.kind);
            let typical = row.map_or(0.0, |row| row.load.0 * f64::from(point.gangs));
            point.load.map_or(typical, |load| load.0)
        };
        Load { points, watts: whole(watts) }
    }

    fn floor_share(&self, id: PointId) -> f64 {
        let Some(room) = self.room_of(id) else { return 0.0 };
        let sockets = self.plan.points.values().filter(|point| {
            point.kind.family() == Family::Sockets
                && point.place.is_some_and(|place| self.plan.room_of(&place) == Some(room))
        });
        let count = u32::try_from(sockets.count()).unwrap_or(1).max(1);
        area_m2(&self.plan.rooms[&room].outline) * 100.0 / f64::from(count)
    }

    /// The floor that a ring and a radial may serve, where the regime counts so.
    fn areas(&self) -> Option<[&CircuitArea; 2]> {
        let area = |wiring| self.tables().circuit_area.row(wiring).ok();
        Some([area(RingOrRadial::Ring)?, area(RingOrRadial::Radial)?])
    }

    /// What a circuit holds, with the source of that.
    pub(super) fn limit(&self, purpose: Purpose, rating: Amps, ring: bool) -> (Load, String) {
        let row = self.tables().points_per_circuit.row((purpose.usage(), rating));
        let points = row.as_ref().map_or(u32::MAX, |row| row.points.0);
        let source = row.map_or_else(|_| String::new(), |row| row.credit());
        match (purpose.usage(), self.areas()) {
            // Area served, as the guides for rings and radials have it.
            (CircuitUse::Sockets, Some([of_ring, of_radial])) => {
                let area = if ring { of_ring.area } else { of_radial.area };
                let source = format!(
                    "{} m² a ring, {} m² a radial ({})",
                    of_ring.area.0, of_radial.area.0, of_ring.cited.source
                );
                (Load { points, watts: whole(area.0 * 100.0) }, source)
            }
            (CircuitUse::Sockets, None) => {
                let points = if points == u32::MAX { 16 } else { points };
                (Load { points, watts: u32::MAX }, source)
            }
            _ => (Load { points, watts: whole(rating.0 * 230.0) }, source),
        }
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "clamped")]
fn whole(number: f64) -> u32 {
    libm::round(number.clamp(0.0, 1.0e9)) as u32
}

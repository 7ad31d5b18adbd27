//! The current a circuit is designed for, and where it is taken.

use super::context::Case;
use super::feeder::Load;
use super::options::LoadPattern;
use crate::plan::{CircuitUse, Family, Point, PointId, PointKind};
use crate::units::{Amps, Term, Volts, Watts, Worked, Working};

/// The design current of a circuit, point by point.
///
/// A circuit of socket-outlets is designed for its device's rating, or for
/// the loads that were stated if those are more: anything may be plugged in
/// (common practice). Every other circuit is designed for the loads of its
/// points added up; a point that states none takes its regime's figure.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Design {
    /// All of it.
    pub total: Amps,
    /// Each point's own, in the order of the case.
    pub points: Vec<Amps>,
    /// Points whose load no one has said and no table knows.
    pub unknown: Vec<PointId>,
    /// Whether the device's rating stands for the load.
    pub by_device: bool,
}

impl Design {
    /// Of a circuit, at the voltage of its supply; `phases` share it.
    #[must_use]
    pub(super) fn of(case: &Case<'_>, voltage: Volts, phases: f64) -> Self {
        let mut design = Self::default();
        for (id, point) in &case.points {
            let load = point_load(case, point);
            if load.is_none() {
                design.unknown.push(*id);
            }
            let current = load.unwrap_or(Watts(0.0)) / Volts(voltage.0 * phases);
            design.points.push(current);
            design.total = design.total + current;
        }
        if let (CircuitUse::Sockets, Some(device)) = (case.circuit.usage, case.circuit.device)
            && device.rating.0 >= design.total.0
        {
            design.total = device.rating;
            design.by_device = true;
        }
        design
    }

    /// What is taken at every node of the circuit's network.
    #[must_use]
    pub(super) fn loads(
        &self,
        case: &Case<'_>,
        pattern: LoadPattern,
        resistances: &[f64],
    ) -> Vec<Load> {
        let power_factor = case.house.options.power_factor;
        let mut loads = vec![Load { current: 0.0, power_factor }; resistances.len()];
        let Some(network) = &case.network else { return loads };
        if pattern == LoadPattern::AtFarEnd {
            let far = (0..resistances.len())
                .max_by(|a, b| resistances[*a].total_cmp(&resistances[*b]))
                .unwrap_or(0);
            if let Some(load) = loads.get_mut(far) {
                load.current = self.total.0;
            }
            return loads;
        }
        let weights = self.weights(case, pattern);
        for ((id, _), current) in case.points.iter().zip(weights) {
            if let Some(node) = network.node(crate::plan::End::Point(*id)) {
                loads[node].current += current;
            }
        }
        loads
    }

    fn weights(&self, case: &Case<'_>, pattern: LoadPattern) -> Vec<f64> {
        if pattern == LoadPattern::AsPlaced {
            return self.points.iter().map(|current| current.0).collect();
        }
        let gangs =
            |point: &Point| if takes_load(point.kind) { f64::from(point.gangs) } else { 0.0 };
        let sum: f64 = case.points.iter().map(|(_, point)| gangs(point)).sum();
        let share = |point| if sum > 0.0 { self.total.0 * gangs(point) / sum } else { 0.0 };
        case.points.iter().map(|(_, point)| share(point)).collect()
    }

    /// The figure with its working.
    #[must_use]
    pub(super) fn worked(&self, case: &Case<'_>) -> Worked<Amps> {
        let stated = case.points.iter().filter(|(_, point)| point.load.is_some()).count();
        let sum: f64 = self.points.iter().map(|current| current.0).sum();
        let mut terms = vec![
            Term::new("points", case.points.len(), "plan"),
            Term::new("points with a load of their own", stated, "plan"),
            Term::new("loads added up", format!("{sum:.1} A"), "plan, and table point_load"),
        ];
        if self.by_device {
            terms.push(Term::new(
                "rating of the device",
                format!("{:.0} A", self.total.0),
                "socket-outlets may be loaded up to their device (common practice)",
            ));
        }
        let formula = "IB = Σ P / U, or the device's rating for socket-outlets".to_owned();
        Worked { value: self.total, working: Working { formula, terms } }
    }
}

/// Whether anything is taken at a kind of point.
pub(super) fn takes_load(kind: PointKind) -> bool {
    !matches!(kind.family(), Family::Switches | Family::Junctions)
}

/// The load to design a point for; None where no one has said.
fn point_load(case: &Case<'_>, point: &Point) -> Option<Watts> {
    if let Some(load) = point.load {
        return Some(load);
    }
    if !takes_load(point.kind) || matches!(point.kind, PointKind::Isolator) {
        return Some(Watts(0.0));
    }
    if point.kind.family() == Family::Sockets {
        return Some(Watts(0.0));
    }
    let row = case.house.tables().point_load.row(point.kind);
    row.ok().map(|row| row.load * f64::from(point.gangs))
}

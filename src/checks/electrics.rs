//! All the figures of a circuit, for its own cable and device or for others.

use super::bunching::LightCompany;
use super::capacity::Capacity;
use super::conductor::Conductors;
use super::context::Case;
use super::design_current::Design;
use super::let_through::Sections;
use super::loop_impedance::{Loops, device_limit, earthing_system, own_electrode, residual_limit};
use super::volt_drop::Drops;
use crate::plan::{Cable, CircuitUse, Device};
use crate::rules::Absent;
use crate::rules::words::{DropUse, SupplyFrom};
use crate::units::{Amps, Csa, Ohms, Volts, Worked};

/// A circuit worked out.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Electrics {
    /// The cable it was worked out for.
    pub cable: Cable,
    /// The device it was worked out for.
    pub device: Option<Device>,
    /// Phase to neutral.
    pub voltage: Volts,
    /// The conductors of the cable.
    pub conductors: Conductors,
    /// What it is designed for.
    pub design: Design,
    /// What its legs can carry.
    pub capacity: Capacity,
    /// Its volt drops; None where it has no legs.
    pub drops: Option<Drops>,
    /// Its loops; None where it has no legs.
    pub loops: Option<Loops>,
}

/// What must be known before anything can be worked out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Wanting {
    /// The circuit comes from no board.
    Board,
    /// The board's supply has no voltage.
    Voltage,
    /// The circuit has no cable.
    Cable,
    /// A table has no row.
    Figure(Absent),
}

impl Electrics {
    /// Of a circuit as it is drawn.
    ///
    /// # Errors
    /// What is wanting.
    pub(super) fn as_drawn(case: &Case<'_>, company: &LightCompany) -> Result<Self, Wanting> {
        let cable = case.circuit.cable.ok_or(Wanting::Cable)?;
        Self::of(case, cable, case.circuit.device, company)
    }

    /// Of a circuit wired in a cable behind a device.
    ///
    /// # Errors
    /// What is wanting.
    pub(super) fn of(
        case: &Case<'_>,
        cable: Cable,
        device: Option<Device>,
        company: &LightCompany,
    ) -> Result<Self, Wanting> {
        let (_, board) = case.board.ok_or(Wanting::Board)?;
        let voltage = board.supply.voltage.filter(|voltage| voltage.0 > 0.0);
        let voltage = voltage.ok_or(Wanting::Voltage)?;
        let conductors =
            Conductors::of(cable, case.house.rules, case.house.regime).map_err(Wanting::Figure)?;
        let phases = if case.three_phase(cable) { 3.0 } else { 1.0 };
        let mut design = Design::of(case, voltage, phases);
        if let (true, Some(device)) = (design.by_device, device) {
            design.total = device.rating;
        }
        let capacity = Capacity::of(case, cable, company);
        let drops = Drops::of(case, &conductors, &design, capacity.amps(), voltage);
        let loops = Loops::of(case, &conductors);
        Ok(Self { cable, device, voltage, conductors, design, capacity, drops, loops })
    }

    /// The greatest volt drop, percent.
    #[must_use]
    pub(super) fn drop_percent(&self) -> Option<f64> {
        let drops = self.drops.as_ref()?;
        Some(drops.nodes.get(drops.worst)? / self.voltage.0 * 100.0)
    }

    /// The volt drop allowed, percent, and where that comes from.
    #[must_use]
    pub(super) fn drop_limit(&self, case: &Case<'_>) -> (f64, String) {
        let private = case.house.options.private_supply;
        let supply = if private { SupplyFrom::Private } else { SupplyFrom::Public };
        let usage = match case.circuit.usage {
            CircuitUse::Lighting => DropUse::Lighting,
            _ => DropUse::Other,
        };
        let row = case.house.tables().volt_drop_limit.row((supply, usage));
        (row.limit.0, row.credit())
    }

    /// The greatest loop, supply included; None where the supply's is unknown.
    #[must_use]
    pub(super) fn worst_loop(&self, case: &Case<'_>) -> Option<Ohms> {
        let outside = case.board?.1.supply.loop_impedance?;
        let loops = self.loops.as_ref()?;
        Some(loops.at(loops.worst, outside))
    }

    /// The most that the loop may have: for the breaker, or for the residual
    /// current where the house has an electrode of its own. None: no device.
    pub(super) fn loop_limit(&self, case: &Case<'_>) -> Option<Result<Worked<Ohms>, Absent>> {
        let device = self.device?;
        let (rules, regime) = (case.house.rules, case.house.regime);
        let earthing = case.board.and_then(|(_, board)| board.supply.earthing);
        Some(match device.residual {
            Some(residual) if own_electrode(earthing) => residual_limit(residual, rules, regime),
            _ => Ok(device_limit(device, self.voltage, rules, regime)),
        })
    }

    /// The rating that its cable must have: the device's, or in a ring what
    /// the regime asks of one.
    #[must_use]
    pub(super) fn rating_wanted(&self, case: &Case<'_>) -> Option<(f64, String)> {
        let device = self.device?;
        let ring = case.network.as_ref().is_some_and(|network| network.closing.is_some());
        match case.house.tables().ring.row(device.rating) {
            Ok(row) if ring => Some((row.capacity.0, row.credit())),
            _ => Some((device.rating.0, "IEC 60364-4-43 cl. 433.1: IB ≤ In ≤ Iz".to_owned())),
        }
    }

    /// What the conductors must stand in a fault; None where the supply or the
    /// device is not known.
    pub(super) fn sections(&self, case: &Case<'_>) -> Option<Result<Sections, Absent>> {
        let device = self.device?;
        let supply = case.board?.1.supply;
        let board = supply.fault_current?;
        let worst = self.worst_loop(case)?;
        let earthing = earthing_system(supply.earthing);
        let end = Amps(self.voltage.0 / worst.0.max(1e-6));
        Some(Sections::of(case, &self.conductors, device, board, end, earthing))
    }

    /// Whether device and cable suit the load.
    #[must_use]
    pub(super) fn carries(&self, case: &Case<'_>) -> bool {
        let Some((wanted, _)) = self.rating_wanted(case) else { return false };
        let device = self.device.map_or(0.0, |device| device.rating.0);
        self.design.total.0 <= device + TOLERANCE
            && self.capacity.amps().is_some_and(|capacity| capacity + TOLERANCE >= wanted)
    }

    /// Whether the volt drop is within its limit.
    #[must_use]
    pub(super) fn drops_within(&self, case: &Case<'_>) -> bool {
        let limit = self.drop_limit(case).0;
        self.drop_percent().is_some_and(|percent| percent <= limit + TOLERANCE)
    }

    /// Whether the loop is within its limit; None where that is not known.
    #[must_use]
    pub(super) fn loop_within(&self, case: &Case<'_>) -> Option<bool> {
        let limit = self.loop_limit(case)?.ok()?.value;
        Some(self.worst_loop(case)?.0 <= limit.0 + TOLERANCE)
    }

    /// Whether phase and earth stand a fault; None where that is not known.
    #[must_use]
    pub(super) fn stands_faults(&self, case: &Case<'_>) -> Option<bool> {
        let least = self.sections(case)?.ok()?.least();
        Some(least <= self.conductors.earth_mm2.min(self.cable.size.mm2()) + TOLERANCE)
    }

    /// Whether everything that can be judged is within its limit.
    #[must_use]
    pub(super) fn passes(&self, case: &Case<'_>) -> bool {
        self.carries(case)
            && self.drops_within(case)
            && self.loop_within(case) != Some(false)
            && self.stands_faults(case) != Some(false)
    }
}

/// What rounding may take off a limit.
pub(super) const TOLERANCE: f64 = 1e-9;

/// The sizes in which cable is made, in rising order.
#[must_use]
pub(super) fn sizes(case: &Case<'_>) -> Vec<Csa> {
    let mut sizes: Vec<Csa> =
        case.house.tables().earth_conductor.rows().map(|row| row.size).collect();
    sizes.sort();
    sizes
}

/// The smallest larger cable for which something holds, worked out.
pub(super) fn next_size_that(
    case: &Case<'_>,
    electrics: &Electrics,
    company: &LightCompany,
    holds: impl Fn(&Electrics) -> bool,
) -> Option<Electrics> {
    sizes(case)
        .into_iter()
        .filter(|size| *size > electrics.cable.size)
        .filter_map(|size| {
            let cable = Cable { size, ..electrics.cable };
            Electrics::of(case, cable, electrics.device, company).ok()
        })
        .find(|larger| holds(larger))
}

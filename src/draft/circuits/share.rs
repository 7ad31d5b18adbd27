//! Units shared out over circuits.

use super::super::Wayfare;
use super::Planned;
use super::grouper::Grouper;
use super::purpose::Purpose;
use super::units::Unit;
use crate::plan::{Cable, CableMake, Circuit, Device, End, LoopAt, PointId, Wiring};
use crate::rules::words::{LightsRule, LoopStandard};
use crate::runs::Distance;
use crate::runs::chain::{Matrix, Shape};
use crate::runs::grouping::{GroupingEffort, Load, Task, group as share_out};
use crate::units::{Amps, Cost};

impl Grouper<'_> {
    /// Shares the units of a purpose out.
    pub(super) fn share(&mut self, purpose: Purpose, units: Vec<Unit>, planned: &mut Vec<Planned>) {
        let row = self.tables().circuit_standard.row(purpose.of());
        let credit = row.credit();
        let ring = row.wiring == Wiring::Ring;
        let (mut limit, limit_source) = self.limit(purpose, row.rating, ring);
        let all = units.iter().map(|unit| unit.load).fold(Load::default(), Load::and);
        let most = self.tables().lights_spread.row(LightsRule::LightsOnOneMax).count.0;
        let mut because = match purpose {
            Purpose::Kitchen => "a kitchen on its own".to_owned(),
            Purpose::Wet => "wet rooms apart".to_owned(),
            Purpose::Fixed(_) => "a fixed appliance on its own".to_owned(),
            Purpose::Alarms => "linked alarms on a circuit of their own".to_owned(),
            _ => "a storey's own".to_owned(),
        };
        let largest = units.iter().map(|unit| unit.load.points).max().unwrap_or(0);
        if purpose == Purpose::Lighting && all.points > most && units.len() > 1 && all.within(limit)
        {
            limit.points = all.points.div_ceil(2).max(largest);
            because.push_str("; over two circuits, so that one trip leaves some light");
        }
        if !limit_source.is_empty() {
            because = format!("{because}; {limit_source}");
        }
        let ends: Vec<End> = std::iter::once(End::Board(self.board))
            .chain(units.iter().map(|unit| End::Point(unit.lead)))
            .collect();
        let (ways, rows) = self.ways(purpose, &ends);
        if self.way != Wayfare::Mixed && ways.is_none() {
            because.push_str("; the way asked for does not reach all of it, so all ways are open");
        }
        let single = matches!(purpose, Purpose::Fixed(_));
        let shape = if ring && units.len() > 2 { Shape::Closed } else { Shape::Open };
        let fixed = Cost::of_mm(row.fixed.whole().get());
        for group in groups(&units, &rows, shape, limit, fixed, single) {
            let points: Vec<PointId> =
                group.iter().flat_map(|unit| units[*unit].points.iter().copied()).collect();
            let wiring = match row.wiring {
                Wiring::Ring if group.len() <= 2 => Wiring::Chain,
                wiring => wiring,
            };
            let circuit = Circuit {
                number: 0,
                name: purpose.name(),
                board: Some(self.board),
                usage: purpose.usage(),
                cable: Some(Cable { cores: 2, size: row.size, make: CableMake::Flat }),
                device: Some(Device {
                    rating: row.rating,
                    curve: row.curve,
                    residual: Some(Amps(0.03)),
                }),
                wiring,
                loop_at: (purpose == Purpose::Lighting).then_some(
                    if row.looped == LoopStandard::Switch { LoopAt::Switch } else { LoopAt::Light },
                ),
                ways: ways.clone(),
                order: Vec::new(),
                spurs: Vec::new(),
                pins: Vec::new(),
                phase: None,
                rcd_group: String::new(),
            };
            let because = format!("{because}; cable and device: {credit}");
            planned.push(Planned { circuit, points, because });
        }
    }
}

/// Units by their circuits.
fn groups(
    units: &[Unit],
    rows: &[Vec<Option<Distance>>],
    shape: Shape,
    limit: Load,
    fixed: Cost,
    single: bool,
) -> Vec<Vec<usize>> {
    if single {
        return (0..units.len()).map(|unit| vec![unit]).collect();
    }
    let clamp = |load: Load| Load {
        points: load.points.clamp(1, limit.points),
        watts: load.watts.min(limit.watts),
    };
    let loads =
        std::iter::once(Load::default()).chain(units.iter().map(|unit| clamp(unit.load))).collect();
    let task = Task { shape, loads, limit, fixed };
    let effort = GroupingEffort { steps: 2000, streams: 1, bound_steps: 1 };
    let found = Matrix::new(rows).ok().and_then(|matrix| share_out(&matrix, &task, &effort).ok());
    match found {
        Some(found) => {
            found.groups.iter().map(|group| group.iter().map(|end| end - 1).collect()).collect()
        }
        None => (0..units.len()).collect::<Vec<_>>().chunks(8).map(<[usize]>::to_vec).collect(),
    }
}

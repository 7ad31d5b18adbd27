//! What goes to one circuit whole, by purpose and storey.

use std::collections::{BTreeMap, BTreeSet};

use super::grouper::Grouper;
use super::purpose::Purpose;
use crate::plan::{Family, LevelId, PointId, PointKind, RoomUse, isolations};
use crate::runs::grouping::Load;

/// What goes to one circuit whole: a point, the lights and switches of a
/// control, or a fixed appliance and its isolating switch.
pub(super) struct Unit {
    pub(super) lead: PointId,
    pub(super) points: Vec<PointId>,
    pub(super) load: Load,
}

impl Grouper<'_> {
    /// Points by purpose and storey.
    pub(super) fn sort(
        &self,
        points: &BTreeSet<PointId>,
    ) -> BTreeMap<(Purpose, Option<LevelId>), Vec<Unit>> {
        let mut left: BTreeSet<PointId> =
            points.iter().copied().filter(|id| self.is_reached(*id)).collect();
        let mut units: BTreeMap<(Purpose, Option<LevelId>), Vec<Unit>> = BTreeMap::new();
        for control in self.plan.controls.values() {
            let reached = |ids: &[PointId]| -> Vec<PointId> {
                ids.iter().copied().filter(|id| left.contains(id)).collect()
            };
            let (lights, switches) = (reached(&control.lights), reached(&control.switches));
            let Some(lead) = lights.first().copied() else {
                for id in &switches {
                    left.remove(id);
                }
                continue;
            };
            if switches.is_empty() {
                continue;
            }
            let load = lights.iter().map(|id| self.load(*id)).fold(Load::default(), Load::and);
            let points: Vec<PointId> = lights.into_iter().chain(switches).collect();
            for id in &points {
                left.remove(id);
            }
            let key = (Purpose::Lighting, self.level_of(lead));
            units.entry(key).or_default().push(Unit { lead, points, load });
        }
        let single: Vec<PointId> = left.iter().copied().collect();
        let pairs = isolations(self.plan, &single);
        // What a switch is there for takes it along.
        let switch = |id: PointId| {
            let own = pairs.iter().find(|pair| pair.load == id)?;
            let first = pairs.iter().find(|pair| pair.by == own.by)?;
            (first.load == id).then_some(own.by)
        };
        let taken: BTreeSet<PointId> = single.iter().filter_map(|id| switch(*id)).collect();
        for id in left.into_iter().filter(|id| !taken.contains(id)) {
            let key = self.purpose(id);
            let points: Vec<PointId> = switch(id).into_iter().chain([id]).collect();
            let load = points.iter().map(|id| self.load(*id)).fold(Load::default(), Load::and);
            units.entry(key).or_default().push(Unit { lead: id, points, load });
        }
        self.merge(&mut units);
        units
    }

    fn purpose(&self, id: PointId) -> (Purpose, Option<LevelId>) {
        let point = &self.plan.points[&id];
        let usage = self.room_of(id).map(|room| self.plan.rooms[&room].usage);
        let purpose = match (point.kind.family(), point.kind) {
            (Family::Sockets, _) => match usage {
                Some(RoomUse::Kitchen) => Purpose::Kitchen,
                Some(RoomUse::Laundry | RoomUse::Bathroom | RoomUse::Toilet) => Purpose::Wet,
                _ => Purpose::Sockets,
            },
            (Family::Alarms, _) => Purpose::Alarms,
            (_, PointKind::ExhaustFan | PointKind::RangeHood) => Purpose::Lighting,
            (Family::Fixed, kind) => Purpose::Fixed(kind),
            _ => Purpose::Lighting,
        };
        let storey = match purpose {
            Purpose::Alarms | Purpose::Fixed(_) | Purpose::Kitchen | Purpose::Wet => None,
            _ => self.level_of(id),
        };
        (purpose, storey)
    }

    /// Few points do not make a circuit: a lone socket in a bathroom joins the
    /// others, a storey with little joins the one before.
    fn merge(&self, units: &mut BTreeMap<(Purpose, Option<LevelId>), Vec<Unit>>) {
        if units.get(&(Purpose::Wet, None)).is_some_and(|wet| wet.len() < 2) {
            let wet = units.remove(&(Purpose::Wet, None)).unwrap_or_default();
            let level = wet.first().and_then(|unit| self.level_of(unit.lead));
            units.entry((Purpose::Sockets, level)).or_default().extend(wet);
        }
        for purpose in [Purpose::Sockets, Purpose::Lighting] {
            let keys: Vec<_> = units.keys().filter(|key| key.0 == purpose).copied().collect();
            let few = |key: &(Purpose, Option<LevelId>)| units[key].len() < 3;
            let small: Vec<_> = keys.iter().copied().filter(|key| few(key)).collect();
            let Some(home) =
                keys.iter().copied().find(|key| !few(key)).or_else(|| keys.first().copied())
            else {
                continue;
            };
            for key in small.into_iter().filter(|key| *key != home) {
                let moved = units.remove(&key).unwrap_or_default();
                units.entry(home).or_default().extend(moved);
            }
        }
    }
}

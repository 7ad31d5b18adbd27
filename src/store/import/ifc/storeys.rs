//! Storeys, and what stands on each.

use super::model::Model;
use super::relations::Relations;
use super::{ByStorey, Notes, Trouble, millimetres, or_note};
use crate::store::NoteKind;
use crate::store::import::drawn::metric;
use crate::store::layout::form::{FormLevel, FormOpening, FormRoom, FormWall};
use crate::units::Mm;

/// A wall's foot may lie so far below the floor that it stands on, mm.
const BELOW: f64 = 500.0;

/// The storeys of a building, lowest first.
pub(super) struct Storeys {
    pub(super) list: Vec<Storey>,
    by_id: ByStorey,
}

/// A storey.
pub(super) struct Storey {
    name: String,
    /// Its floor in the world, mm.
    pub(super) z: f64,
    pub(super) walls: Vec<FormWall>,
    pub(super) openings: Vec<FormOpening>,
    pub(super) rooms: Vec<FormRoom>,
}

impl Storeys {
    pub(super) fn of(model: &Model<'_>, notes: &mut Notes) -> Result<Self, Trouble> {
        let mut found = Vec::new();
        for id in model.file.named("IFCBUILDINGSTOREY") {
            let entity = model.file.entity(*id);
            let Some(entity) = or_note(entity, || format!("#{id}"), notes)? else { continue };
            let z = match entity.reference_or_none(5) {
                Some(place) => or_note(model.placement(place), || format!("#{id}"), notes)?
                    .map(|frame| frame.origin[2]),
                None => millimetres(model, entity.get(9)),
            };
            let long = entity.text(7);
            let name = if entity.text(2).is_empty() { long } else { entity.text(2) }.to_owned();
            found.push((z.unwrap_or(0.0), *id, name));
        }
        found.sort_by(|one, two| one.0.total_cmp(&two.0).then(one.1.cmp(&two.1)));
        let by_id = found.iter().enumerate().map(|(index, (_, id, _))| (*id, index)).collect();
        let storey = |(z, _, name)| Storey {
            name,
            z,
            walls: Vec::new(),
            openings: Vec::new(),
            rooms: Vec::new(),
        };
        Ok(Self { list: found.into_iter().map(storey).collect(), by_id })
    }

    /// The storey of a product: the one that it belongs to, or else the
    /// highest whose floor is not above its foot.
    pub(super) fn holding(&self, product: u64, relations: &Relations, foot: f64) -> Option<usize> {
        relations
            .storey(product, &self.by_id)
            .or_else(|| self.list.iter().rposition(|storey| storey.z <= foot + BELOW))
    }

    /// The storeys that hold something, as levels.
    pub(super) fn finished(self, notes: &mut Notes) -> Vec<FormLevel> {
        let mut levels: Vec<FormLevel> = Vec::new();
        for storey in self.list {
            if storey.walls.is_empty() && storey.rooms.is_empty() {
                let part = format!("storey \"{}\"", storey.name);
                notes.add(NoteKind::LeftOut, part, "neither walls nor spaces stand on it");
                continue;
            }
            let Some(elevation) = metric::length(storey.z) else {
                notes.add(NoteKind::LeftOut, storey.name, metric::BEYOND);
                continue;
            };
            let tops = storey.walls.iter().map(|wall| wall.base + wall.height.unwrap_or_default());
            let top = tops.max().filter(|top| *top > Mm::ZERO).unwrap_or(Mm::new(2500));
            if let Some(below) = levels.last_mut() {
                below.height = below.height.max(elevation - below.elevation);
            }
            levels.push(FormLevel {
                name: storey.name,
                elevation,
                height: top,
                walls: storey.walls,
                openings: storey.openings,
                rooms: storey.rooms,
                fixtures: Vec::new(),
            });
        }
        levels
    }
}

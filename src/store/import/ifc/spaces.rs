//! Spaces, as rooms.

use geo::{ConvexHull as _, MultiPoint, Point, Polygon};

use super::model::Model;
use super::relations::Relations;
use super::shape::Shape;
use super::storeys::Storeys;
use super::{Drawn, Trouble, or_note, part};
use crate::store::NoteKind;
use crate::store::import::drawn::metric;
use crate::store::import::lines;
use crate::store::layout::form::{Corner, FormRoom};

/// Adds the spaces of a building.
pub(super) fn add(
    model: &Model<'_>,
    relations: &Relations,
    storeys: &mut Storeys,
    shift: [f64; 2],
    drawn: &mut Drawn,
) -> Result<(), Trouble> {
    let ids = model.file.named("IFCSPACE");
    let mut taken = 0;
    for id in ids {
        let notes = &mut drawn.notes;
        let Some(entity) = or_note(model.file.entity(*id), || format!("#{id}"), notes)? else {
            continue;
        };
        let Some(shape) = or_note(model.body(&entity), || part(&entity), notes)? else { continue };
        let Some(heights) = shape.heights() else {
            notes.add(NoteKind::LeftOut, part(&entity), "it has no body");
            continue;
        };
        let Some(storey) = storeys.holding(*id, relations, heights[0]) else {
            notes.add(NoteKind::LeftOut, part(&entity), "it is on no storey");
            continue;
        };
        let (ring, whole) = outline(&shape);
        if !whole {
            let message = "its floor is no single outline: taken by the outline around its corners";
            notes.add(NoteKind::Changed, part(&entity), message);
        }
        let polygon: Option<Vec<Corner>> =
            ring.iter().map(|place| metric::point(*place, shift).map(Corner)).collect();
        let Some(polygon) = polygon else {
            notes.add(NoteKind::LeftOut, part(&entity), metric::BEYOND);
            continue;
        };
        let (number, long) = (entity.text(2), entity.text(7));
        let name = if long.is_empty() { number } else { long }.to_owned();
        taken += 1;
        storeys.list[storey].rooms.push(FormRoom {
            name,
            kind: String::new(),
            polygon,
            part: part(&entity),
        });
    }
    drawn.found("spaces", ids.len(), taken);
    Ok(())
}

/// The outline of a space on its floor, and whether it is its very own.
fn outline(shape: &Shape) -> (Vec<[f64; 2]>, bool) {
    let foot = shape.heights().unwrap_or_default()[0];
    let prisms = shape.feet.iter().copied().zip(&shape.rings);
    let flats = shape.flats.iter().map(|(z, ring)| (*z, ring));
    let on_floor = prisms.chain(flats).filter(|(z, _)| *z < foot + 1.0);
    let rings: Vec<&Vec<[f64; 2]>> = on_floor.map(|(_, ring)| ring).collect();
    if let [ring] = rings.as_slice() {
        return (lines::simplified(ring), true);
    }
    let polygon = |ring: &&Vec<[f64; 2]>| {
        Polygon::new(ring.iter().map(|place| (place[0], place[1])).collect(), Vec::new())
    };
    let parts: Vec<Polygon<f64>> = rings.iter().map(polygon).collect();
    let joined = geo::unary_union(&parts);
    if let [whole] = joined.0.as_slice() {
        return (lines::simplified(&corners(whole)), true);
    }
    let points: MultiPoint<f64> =
        shape.places.iter().map(|place| Point::new(place[0], place[1])).collect();
    (lines::simplified(&corners(&points.convex_hull())), false)
}

fn corners(polygon: &Polygon<f64>) -> Vec<[f64; 2]> {
    polygon.exterior().points().map(|point| [point.x(), point.y()]).collect()
}

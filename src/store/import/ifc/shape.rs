//! The bodies of products: what they cover seen from above, and their heights.

use super::frame::{Frame, Triple, times};
use super::model::{Model, flaw};
use crate::store::import::step::{Entity, Trouble, Value};

/// The deepest that shapes are made of shapes.
const DEPTH_MAX: usize = 16;
/// The most places in the shape of one product.
const PLACES_MAX: usize = 100_000;

/// The shape of a product in the world, mm.
#[derive(Debug, Default)]
pub(super) struct Shape {
    /// Every corner.
    pub(super) places: Vec<Triple>,
    /// The outlines of its upright prisms, seen from above.
    pub(super) rings: Vec<Vec<[f64; 2]>>,
    /// The height of the foot of each of them.
    pub(super) feet: Vec<f64>,
    /// The level faces of its other parts, with their heights.
    pub(super) flats: Vec<(f64, Vec<[f64; 2]>)>,
    /// Whether parts of it are no upright prisms.
    pub(super) other: bool,
    /// Whether something is cut off that is left on here.
    pub(super) clipped: bool,
}

impl Shape {
    /// From its lowest to its highest corner.
    pub(super) fn heights(&self) -> Option<[f64; 2]> {
        range(self.places.iter().map(|place| place[2]))
    }

    /// From its first to its last corner along a direction in the plan.
    pub(super) fn along(&self, [ux, uy]: [f64; 2]) -> Option<[f64; 2]> {
        range(self.places.iter().map(|place| place[0] * ux + place[1] * uy))
    }
}

fn range(values: impl Iterator<Item = f64>) -> Option<[f64; 2]> {
    let [low, high] = values.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], value| {
        [low.min(value), high.max(value)]
    });
    (low <= high).then_some([low, high])
}

impl Model<'_> {
    /// The body of a product; empty where it has none.
    pub(super) fn body(&self, product: &Entity) -> Result<Shape, Trouble> {
        let mut shape = Shape::default();
        let Some(id) = product.reference_or_none(6) else { return Ok(shape) };
        let frame = self.place_of(product)?;
        for id in self.file.entity(id)?.references(2) {
            let representation = self.file.entity(id)?;
            if matches!(representation.text(1), "Body" | "Facetation" | "") {
                self.items(&representation, &frame, &mut shape, 0)?;
            }
        }
        Ok(shape)
    }

    /// The line along which a wall is drawn, in the world, if it is given.
    pub(super) fn axis(&self, product: &Entity) -> Result<Vec<Triple>, Trouble> {
        let Some(id) = product.reference_or_none(6) else { return Ok(Vec::new()) };
        let frame = self.place_of(product)?;
        for id in self.file.entity(id)?.references(2) {
            let representation = self.file.entity(id)?;
            if representation.text(1) == "Axis" {
                let Some(item) = representation.references(3).first().copied() else { continue };
                let places = self.curve(item, 0)?;
                return Ok(places.into_iter().map(|place| frame.place(place)).collect());
            }
        }
        Ok(Vec::new())
    }

    fn items(
        &self,
        representation: &Entity,
        frame: &Frame,
        shape: &mut Shape,
        depth: usize,
    ) -> Result<(), Trouble> {
        for id in representation.references(3) {
            self.item(id, frame, shape, depth)?;
        }
        Ok(())
    }

    fn item(&self, id: u64, frame: &Frame, shape: &mut Shape, depth: usize) -> Result<(), Trouble> {
        let entity = self.file.entity(id)?;
        if depth > DEPTH_MAX {
            return flaw(&entity, "is made of shapes that are made of shapes, too deep");
        }
        match entity.name.as_str() {
            "IFCEXTRUDEDAREASOLID" => self.extruded(&entity, frame, shape)?,
            // What is cut off is left on: a wall under a slope keeps its foot.
            "IFCBOOLEANCLIPPINGRESULT" | "IFCBOOLEANRESULT" => {
                shape.clipped = true;
                self.item(entity.reference(1)?, frame, shape, depth + 1)?;
            }
            "IFCMAPPEDITEM" => {
                let map = self.file.entity(entity.reference(0)?)?;
                let target = self.operator(entity.reference(1)?)?;
                let frame = frame.frame(&target).frame(&self.axes(map.reference(0)?)?);
                let representation = self.file.entity(map.reference(1)?)?;
                self.items(&representation, &frame, shape, depth + 1)?;
            }
            "IFCFACETEDBREP"
            | "IFCADVANCEDBREP"
            | "IFCFACEBASEDSURFACEMODEL"
            | "IFCSHELLBASEDSURFACEMODEL"
            | "IFCCLOSEDSHELL"
            | "IFCOPENSHELL"
            | "IFCCONNECTEDFACESET"
            | "IFCFACE"
            | "IFCADVANCEDFACE"
            | "IFCFACEOUTERBOUND"
            | "IFCFACEBOUND"
            | "IFCEDGELOOP"
            | "IFCORIENTEDEDGE"
            | "IFCEDGECURVE" => {
                shape.other = true;
                let parts: Vec<u64> = match entity.name.as_str() {
                    "IFCORIENTEDEDGE" => vec![entity.reference(2)?],
                    "IFCEDGECURVE" => vec![entity.reference(0)?, entity.reference(1)?],
                    _ => {
                        let mut ids = entity.references(0);
                        ids.extend(entity.reference_or_none(0));
                        ids
                    }
                };
                for id in parts {
                    self.item(id, frame, shape, depth + 1)?;
                }
            }
            "IFCVERTEXPOINT" => {
                let place = self.point(entity.reference(0)?)?;
                shape.places.push(frame.place(place));
            }
            "IFCPOLYLOOP" => {
                let mut ring = Vec::new();
                for id in entity.references(0) {
                    ring.push(frame.place(self.point(id)?));
                }
                if let Some([low, high]) = range(ring.iter().map(|place| place[2]))
                    && high - low < 1.0
                {
                    let flat = ring.iter().map(|place| [place[0], place[1]]).collect();
                    shape.flats.push((low, flat));
                }
                shape.places.extend(ring);
            }
            "IFCPOLYGONALFACESET" | "IFCTRIANGULATEDFACESET" => {
                shape.other = true;
                let places = self.points(entity.reference(0)?)?;
                shape.places.extend(places.into_iter().map(|place| frame.place(place)));
            }
            // The box around a shape adds nothing to it.
            "IFCBOUNDINGBOX" => {}
            _ => return flaw(&entity, "is not a shape that is known here"),
        }
        if shape.places.len() > PLACES_MAX {
            return flaw(&entity, "has too many corners");
        }
        Ok(())
    }

    fn extruded(&self, solid: &Entity, frame: &Frame, shape: &mut Shape) -> Result<(), Trouble> {
        let own = solid.reference_or_none(1).map_or(Ok(Frame::WORLD), |id| self.axes(id))?;
        let frame = frame.frame(&own);
        let step =
            frame.turn(times(self.direction(solid.reference(2)?)?, solid.number(3)? * self.mm));
        let ring = self.profile(solid.reference(0)?)?;
        let ring: Vec<Triple> = ring.into_iter().map(|place| frame.place(place)).collect();
        for place in &ring {
            shape.places.push(*place);
            shape.places.push([0, 1, 2].map(|axis| place[axis] + step[axis]));
        }
        let upright = step[0].abs() + step[1].abs() < 1.0 && frame.z[2].abs() > 0.999;
        if upright {
            shape.feet.push(frame.origin[2].min(frame.origin[2] + step[2]));
            shape.rings.push(ring.iter().map(|place| [place[0], place[1]]).collect());
        } else {
            shape.other = true;
        }
        Ok(())
    }

    /// An IfcCartesianTransformationOperator3D.
    fn operator(&self, id: u64) -> Result<Frame, Trouble> {
        let entity = self.file.entity(id)?;
        let origin = self.point(entity.reference(2)?)?;
        let direction = |at: usize, default| {
            entity.reference_or_none(at).map_or(Ok(default), |id| self.direction(id))
        };
        let (x, z) = (direction(0, Frame::WORLD.x)?, direction(4, Frame::WORLD.z)?);
        let y = direction(1, Frame::WORLD.y)?;
        let scale = match entity.get(3) {
            Value::Null => 1.0,
            value => value.number().filter(|scale| scale.abs() < 1e6).unwrap_or(1.0),
        };
        let mut frame = Frame::of(origin, z, x);
        // A mirrored operator turns its second axis round.
        if frame.y[0] * y[0] + frame.y[1] * y[1] + frame.y[2] * y[2] < 0.0 {
            frame.y = times(frame.y, -1.0);
        }
        frame.x = times(frame.x, scale);
        frame.y = times(frame.y, scale);
        frame.z = times(frame.z, scale);
        Ok(frame)
    }
}

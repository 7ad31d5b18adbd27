//! Profiles and curves as rings of places in their own plane.

use super::frame::{Frame, Triple};
use super::model::{Model, flaw};
use crate::store::import::step::{Entity, Trouble, Value};

/// The pieces in which a full circle is drawn.
const CIRCLE_PIECES: f64 = 32.0;
/// The most places in one curve.
const PLACES_MAX: usize = 10_000;
/// The deepest that curves are made of curves.
const DEPTH_MAX: usize = 8;

impl Model<'_> {
    /// The outer ring of a profile.
    pub(super) fn profile(&self, id: u64) -> Result<Vec<Triple>, Trouble> {
        let entity = self.file.entity(id)?;
        match entity.name.as_str() {
            "IFCARBITRARYCLOSEDPROFILEDEF" | "IFCARBITRARYPROFILEDEFWITHVOIDS" => {
                self.curve(entity.reference(2)?, 0)
            }
            "IFCRECTANGLEPROFILEDEF"
            | "IFCROUNDEDRECTANGLEPROFILEDEF"
            | "IFCRECTANGLEHOLLOWPROFILEDEF" => {
                let (x, y) = (entity.number(3)? * self.mm / 2.0, entity.number(4)? * self.mm / 2.0);
                self.set_in(&entity, vec![[-x, -y, 0.0], [x, -y, 0.0], [x, y, 0.0], [-x, y, 0.0]])
            }
            "IFCCIRCLEPROFILEDEF" | "IFCCIRCLEHOLLOWPROFILEDEF" => {
                let radius = entity.number(3)? * self.mm;
                self.set_in(&entity, arc(radius, 0.0, std::f64::consts::TAU))
            }
            _ => flaw(&entity, "is not a profile that is known here"),
        }
    }

    /// A ring in the position that a parameterised profile gives itself.
    fn set_in(&self, profile: &Entity, ring: Vec<Triple>) -> Result<Vec<Triple>, Trouble> {
        let frame = profile.reference_or_none(2).map_or(Ok(Frame::WORLD), |id| self.axes(id))?;
        Ok(ring.into_iter().map(|place| frame.place(place)).collect())
    }

    /// The places along a curve.
    pub(super) fn curve(&self, id: u64, depth: usize) -> Result<Vec<Triple>, Trouble> {
        let entity = self.file.entity(id)?;
        if depth > DEPTH_MAX {
            return flaw(&entity, "is made of curves that are made of curves, too deep");
        }
        let places = match entity.name.as_str() {
            "IFCPOLYLINE" => {
                let ids = entity.references(0);
                ids.into_iter().map(|id| self.point(id)).collect::<Result<_, _>>()?
            }
            "IFCINDEXEDPOLYCURVE" => self.points(entity.reference(0)?)?,
            "IFCCIRCLE" => self.circle(&entity, 0.0, std::f64::consts::TAU)?,
            "IFCTRIMMEDCURVE" => self.trimmed(&entity)?,
            "IFCCOMPOSITECURVE" => {
                let mut places: Vec<Triple> = Vec::new();
                for id in entity.references(0) {
                    let segment = self.file.entity(id)?;
                    let mut part = self.curve(segment.reference(2)?, depth + 1)?;
                    if segment.word(1) == "F" {
                        part.reverse();
                    }
                    places.extend(part);
                    if places.len() > PLACES_MAX {
                        break;
                    }
                }
                places
            }
            _ => return flaw(&entity, "is not a curve that is known here"),
        };
        if places.len() > PLACES_MAX {
            return flaw(&entity, "has too many places");
        }
        Ok(places)
    }

    /// An IfcCartesianPointList: arcs through three of its places are taken
    /// as two straight pieces.
    pub(super) fn points(&self, id: u64) -> Result<Vec<Triple>, Trouble> {
        let entity = self.file.entity(id)?;
        let row = |value: &Value| match value {
            Value::List(row) => {
                self.triple(&row.iter().filter_map(Value::number).collect::<Vec<_>>())
            }
            _ => None,
        };
        let rows: Option<Vec<Triple>> = entity.list(0).iter().map(row).collect();
        rows.map_or_else(|| flaw(&entity, "is not a list of places"), Ok)
    }

    fn circle(&self, circle: &Entity, from: f64, to: f64) -> Result<Vec<Triple>, Trouble> {
        let frame = self.axes(circle.reference(0)?)?;
        let radius = circle.number(1)? * self.mm;
        Ok(arc(radius, from, to).into_iter().map(|place| frame.place(place)).collect())
    }

    fn trimmed(&self, entity: &Entity) -> Result<Vec<Triple>, Trouble> {
        let basis = self.file.entity(entity.reference(0)?)?;
        let forward = entity.word(3) != "F";
        if basis.name == "IFCCIRCLE" {
            let (Some(one), Some(two)) = (angle(entity, 1), angle(entity, 2)) else {
                return flaw(entity, "is not cut at angles");
            };
            let (one, two) = (one * self.radians, two * self.radians);
            let turn = std::f64::consts::TAU;
            // The way round that the sense asks for.
            let (from, to) = if forward { (one, two) } else { (two, one) };
            let mut places = self.circle(&basis, from, from + (to - from).rem_euclid(turn))?;
            if !forward {
                places.reverse();
            }
            return Ok(places);
        }
        if basis.name != "IFCLINE" {
            return flaw(&basis, "is not a curve that is known here");
        }
        let start = self.point(basis.reference(0)?)?;
        let vector = self.file.entity(basis.reference(1)?)?;
        let (step, size) = (self.direction(vector.reference(0)?)?, vector.number(1)? * self.mm);
        let end = |at: usize| -> Result<Triple, Trouble> {
            let given = entity.list(at).iter().find_map(|value| match value {
                Value::Reference(id) => Some(*id),
                _ => None,
            });
            if let Some(id) = given {
                return self.point(id);
            }
            let along = angle(entity, at).unwrap_or(0.0) * size;
            Ok([0, 1, 2].map(|axis| start[axis] + step[axis] * along))
        };
        Ok(vec![end(1)?, end(2)?])
    }
}

/// The parameter at which a curve is cut.
fn angle(entity: &Entity, at: usize) -> Option<f64> {
    entity.list(at).iter().find_map(Value::number)
}

fn arc(radius: f64, from: f64, to: f64) -> Vec<Triple> {
    let pieces = libm::ceil((to - from).abs() / std::f64::consts::TAU * CIRCLE_PIECES).max(1.0);
    let mut places = Vec::new();
    let mut step = 0.0;
    while step <= pieces && pieces <= CIRCLE_PIECES {
        let angle = from + (to - from) * step / pieces;
        places.push([radius * libm::cos(angle), radius * libm::sin(angle), 0.0]);
        step += 1.0;
    }
    places
}

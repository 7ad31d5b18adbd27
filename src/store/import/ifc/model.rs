//! What all parts of the reading share: units, placements, shapes.

use std::cell::RefCell;
use std::collections::BTreeMap;

use super::frame::{Frame, Triple, unit};
use crate::store::import::step::{Entity, StepFile, Trouble};

/// The longest chain of placements that is followed.
const CHAIN_MAX: usize = 64;

/// A file with its units and what was already worked out.
pub(super) struct Model<'a> {
    pub(super) file: &'a StepFile<'a>,
    /// Millimetres in one unit of length.
    pub(super) mm: f64,
    /// Radians in one unit of angle.
    pub(super) radians: f64,
    placed: RefCell<BTreeMap<u64, Frame>>,
}

pub(super) fn flaw<T>(entity: &Entity, problem: &str) -> Result<T, Trouble> {
    Err(Trouble::Flaw(format!("#{} {} {problem}", entity.id, entity.name)))
}

impl<'a> Model<'a> {
    /// A file with the units that its project states; metres and radians
    /// where it states none.
    pub(super) fn new(file: &'a StepFile<'a>) -> Result<Self, Trouble> {
        let mut model = Self { file, mm: 1000.0, radians: 1.0, placed: RefCell::default() };
        let Some(set) = file.named("IFCUNITASSIGNMENT").first() else { return Ok(model) };
        for id in file.entity(*set)?.references(0) {
            let entity = file.entity(id)?;
            match entity.word(1) {
                "LENGTHUNIT" => model.mm = 1000.0 * model.unit(&entity, 0)?,
                "PLANEANGLEUNIT" => model.radians = model.unit(&entity, 0)?,
                _ => {}
            }
        }
        if !(model.mm.is_normal() && model.mm > 0.0) {
            return Err(Trouble::Flaw(format!("#{set}: no unit of length")));
        }
        Ok(model)
    }

    /// A unit in the SI unit of its kind.
    fn unit(&self, entity: &Entity, depth: usize) -> Result<f64, Trouble> {
        if entity.name == "IFCSIUNIT" {
            return Ok(prefix(entity.word(2)));
        }
        if entity.name != "IFCCONVERSIONBASEDUNIT" || depth > 4 {
            return flaw(entity, "is not a unit that is known here");
        }
        let measure = self.file.entity(entity.reference(3)?)?;
        let base = self.file.entity(measure.reference(1)?)?;
        Ok(measure.number(0)? * self.unit(&base, depth + 1)?)
    }

    /// The frame of an IfcLocalPlacement in the world.
    pub(super) fn placement(&self, id: u64) -> Result<Frame, Trouble> {
        let mut chain = Vec::new();
        let mut next = Some(id);
        let mut frame = Frame::WORLD;
        while let Some(id) = next {
            if let Some(known) = self.placed.borrow().get(&id) {
                frame = *known;
                break;
            }
            if chain.len() == CHAIN_MAX {
                let problem = format!("#{id}: placements more than {CHAIN_MAX} deep, or in a ring");
                return Err(Trouble::Flaw(problem));
            }
            let entity = self.file.entity(id)?;
            if entity.name != "IFCLOCALPLACEMENT" {
                return flaw(&entity, "is not a placement that is known here");
            }
            chain.push((id, self.axes(entity.reference(1)?)?));
            next = entity.reference_or_none(0);
        }
        for (id, own) in chain.iter().rev() {
            frame = frame.frame(own);
            self.placed.borrow_mut().insert(*id, frame);
        }
        Ok(frame)
    }

    /// The frame of a product in the world; the world's own without one.
    pub(super) fn place_of(&self, product: &Entity) -> Result<Frame, Trouble> {
        product.reference_or_none(5).map_or(Ok(Frame::WORLD), |id| self.placement(id))
    }

    /// An IfcAxis2Placement of two or three dimensions.
    pub(super) fn axes(&self, id: u64) -> Result<Frame, Trouble> {
        let entity = self.file.entity(id)?;
        let origin = self.point(entity.reference(0)?)?;
        let direction = |at: usize, default| {
            entity.reference_or_none(at).map_or(Ok(default), |id| self.direction(id))
        };
        let (z, x) = match entity.name.as_str() {
            "IFCAXIS2PLACEMENT2D" => (Frame::WORLD.z, direction(1, Frame::WORLD.x)?),
            "IFCAXIS2PLACEMENT3D" => (direction(1, Frame::WORLD.z)?, direction(2, Frame::WORLD.x)?),
            _ => return flaw(&entity, "is not a placement that is known here"),
        };
        Ok(Frame::of(origin, z, x))
    }

    /// An IfcCartesianPoint, mm.
    pub(super) fn point(&self, id: u64) -> Result<Triple, Trouble> {
        let entity = self.file.entity(id)?;
        let numbers: Vec<f64> = entity.list(0).iter().filter_map(|v| v.number()).collect();
        self.triple(&numbers).map_or_else(|| flaw(&entity, "is not a place"), Ok)
    }

    /// Two or three coordinates, mm.
    pub(super) fn triple(&self, numbers: &[f64]) -> Option<Triple> {
        let (x, y) = (numbers.first()?, numbers.get(1)?);
        let triple = [*x, *y, numbers.get(2).copied().unwrap_or(0.0)].map(|v| v * self.mm);
        triple.iter().all(|value| value.abs() < 1e13).then_some(triple)
    }

    /// An IfcDirection.
    pub(super) fn direction(&self, id: u64) -> Result<Triple, Trouble> {
        let entity = self.file.entity(id)?;
        let mut numbers = entity.list(0).iter().filter_map(|value| value.number());
        let triple = [(); 3].map(|()| numbers.next().unwrap_or(0.0));
        unit(triple).map_or_else(|| flaw(&entity, "is no direction"), Ok)
    }
}

fn prefix(word: &str) -> f64 {
    match word {
        "KILO" => 1000.0,
        "HECTO" => 100.0,
        "DECA" => 10.0,
        "DECI" => 0.1,
        "CENTI" => 0.01,
        "MILLI" => 0.001,
        "MICRO" => 1e-6,
        _ => 1.0,
    }
}

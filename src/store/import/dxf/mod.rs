//! DXF as text: lines, polylines, arcs, blocks and texts of the model space.

mod entity;
mod groups;
mod text;

use std::collections::BTreeMap;

use super::drawing::{Drawing, PARTS_MAX, fill_of};
use super::lines::{Band, Fill, Line, Mark, Swing};
use super::{ImportForm, ImportProblem};
use entity::{Entity, Place};
use groups::Groups;

/// The deepest that blocks are set into blocks.
const DEPTH_MAX: usize = 12;
/// The most entities, and corners of polylines, that are set in by way of blocks.
const SET_IN_MAX: usize = 1_000_000;
/// Straight pieces in which a full circle is drawn.
const CIRCLE_PIECES: f64 = 36.0;

type Failure = (String, ImportProblem);

/// Reads a file.
pub(super) fn read(bytes: &[u8]) -> Result<Drawing, Failure> {
    if bytes.starts_with(b"AutoCAD Binary DXF") {
        let problem = ImportProblem::form(ImportForm::Dxf, "it is binary; save it as text (ASCII)");
        return Err((String::new(), problem));
    }
    let failed = |(line, problem): (usize, String)| {
        (format!("line {line}"), ImportProblem::form(ImportForm::Dxf, problem))
    };
    let file = entity::file(&mut Groups::new(bytes)).map_err(failed)?;
    let mut reader = Reader {
        blocks: &file.blocks,
        drawing: Drawing::default(),
        passed: BTreeMap::new(),
        set_in: 0,
    };
    reader.drawing.stated = file.unit.map(|unit| (unit, "as its header states".to_owned()));
    for entity in &file.entities {
        reader.entity(entity, &Place::default(), "", 0)?;
    }
    reader.drawing.passed = reader.passed.into_iter().collect();
    Ok(reader.drawing)
}

struct Reader<'a> {
    blocks: &'a BTreeMap<String, entity::Block>,
    drawing: Drawing,
    passed: BTreeMap<String, usize>,
    set_in: usize,
}

impl Reader<'_> {
    fn entity(
        &mut self,
        entity: &Entity,
        place: &Place,
        outer: &str,
        depth: usize,
    ) -> Result<(), Failure> {
        self.set_in += 1;
        self.not_full(entity)?;
        // What is drawn on layer 0 of a block is on the layer of the block.
        let layer = if entity.layer == "0" && depth > 0 { outer } else { &entity.layer };
        let bent = |problem: String| (entity.at(), ImportProblem::form(ImportForm::Dxf, problem));
        match entity.kind.as_str() {
            _ if entity.number(67) == Some(1.0) => {}
            "LINE" => {
                let a = entity.place(10).map_err(bent)?;
                let b = entity.place(11).map_err(bent)?;
                self.line(layer, place.of(a), place.of(b));
            }
            "LWPOLYLINE" | "POLYLINE" => {
                self.set_in += entity.corners.len();
                let width = entity.number(43).or_else(|| entity.number(40)).unwrap_or(0.0);
                self.polyline(layer, &entity.corners, entity.closed(), width, place);
            }
            "ARC" | "CIRCLE" => {
                let centre = entity.place(10).map_err(bent)?;
                let radius = entity.number(40).unwrap_or(0.0);
                let (from, to) = match (entity.number(50), entity.number(51)) {
                    (Some(from), Some(to)) => (from.to_radians(), to.to_radians()),
                    _ => (0.0, std::f64::consts::TAU),
                };
                let sweep = (to - from).rem_euclid(std::f64::consts::TAU);
                self.arc(layer, centre, radius, [from, sweep], place);
            }
            "TEXT" | "MTEXT" | "ATTRIB" => {
                let at = place.of(entity.place(10).map_err(bent)?);
                let text = text::plain(&entity.text);
                if !text.is_empty() {
                    self.drawing.texts.push((text, at));
                }
            }
            "INSERT" => return self.insert(entity, place, layer, depth),
            "POINT" | "ATTDEF" | "SEQEND" | "VIEWPORT" => {}
            other => *self.passed.entry(other.chars().take(24).collect()).or_default() += 1,
        }
        self.not_full(entity)
    }

    fn not_full(&self, entity: &Entity) -> Result<(), Failure> {
        if self.drawing.is_full() || self.set_in > SET_IN_MAX {
            let most = PARTS_MAX;
            return Err((entity.at(), ImportProblem::TooMany { what: "parts of a drawing", most }));
        }
        Ok(())
    }

    fn line(&mut self, layer: &str, a: [f64; 2], b: [f64; 2]) {
        let line = Line { a, b };
        if line.length() > 0.0 && line.length().is_finite() {
            self.drawing.lines.push((layer.to_owned(), line));
        }
    }

    fn polyline(
        &mut self,
        layer: &str,
        corners: &[[f64; 3]],
        closed: bool,
        width: f64,
        place: &Place,
    ) {
        let mut ring = Vec::new();
        let ends = corners.iter().zip(corners.iter().cycle().skip(1));
        let sides = if closed { corners.len() } else { corners.len().saturating_sub(1) };
        for ([ax, ay, bulge], [bx, by, _]) in ends.take(sides) {
            // One polyline may be more than all that is read.
            if self.drawing.is_full() {
                return;
            }
            ring.push(place.of([*ax, *ay]));
            if bulge.abs() > 1e-6 {
                let (centre, radius, from, sweep) = entity::bulged([*ax, *ay], [*bx, *by], *bulge);
                self.arc(layer, centre, radius, [from, sweep], place);
                continue;
            }
            let line = Line { a: place.of([*ax, *ay]), b: place.of([*bx, *by]) };
            if width > 0.0 && line.length() > 0.0 {
                let thickness = width * place.size();
                self.drawing.bands.push((layer.to_owned(), Band { line, thickness }));
            } else {
                self.line(layer, line.a, line.b);
            }
        }
        if closed && ring.len() >= 3 {
            self.drawing.outlines.push((String::new(), layer.to_owned(), ring));
        }
    }

    /// An arc as the swing of a door, and as straight pieces of a wall.
    fn arc(
        &mut self,
        layer: &str,
        centre: [f64; 2],
        radius: f64,
        [from, sweep]: [f64; 2],
        place: &Place,
    ) {
        if !(radius > 0.0 && radius < 1e9 && sweep.abs() < 7.0) {
            return;
        }
        // A door opens by a quarter turn or so, not all the way round.
        if sweep.abs() < 3.2 {
            let half = from + sweep / 2.0;
            let (x, y) = (radius * libm::cos(half), radius * libm::sin(half));
            let middle = place.of([centre[0] + x, centre[1] + y]);
            let centre = place.of(centre);
            let radius = libm::hypot(middle[0] - centre[0], middle[1] - centre[1]);
            self.drawing.arcs.push((layer.to_owned(), Swing { centre, radius, middle }));
        }
        let pieces = libm::ceil(sweep.abs() / std::f64::consts::TAU * CIRCLE_PIECES).max(1.0);
        let at = |step: f64| {
            let angle = from + sweep * step / pieces;
            place.of([centre[0] + radius * libm::cos(angle), centre[1] + radius * libm::sin(angle)])
        };
        let mut step = 0.0;
        while step < pieces {
            self.line(layer, at(step), at(step + 1.0));
            step += 1.0;
        }
    }

    fn insert(
        &mut self,
        entity: &Entity,
        place: &Place,
        layer: &str,
        depth: usize,
    ) -> Result<(), Failure> {
        let Some(block) = self.blocks.get(&entity.name) else {
            *self
                .passed
                .entry("INSERT of a block that is not in the file".to_owned())
                .or_default() += 1;
            return Ok(());
        };
        if depth == DEPTH_MAX {
            let problem = format!("blocks more than {DEPTH_MAX} deep, or a block within itself");
            return Err((entity.at(), ImportProblem::form(ImportForm::Dxf, problem)));
        }
        let [columns, rows] = entity.cells();
        let several = columns * rows > 1.0;
        let mut cell = [0.0; 2];
        while cell[1] < rows {
            if several {
                // Also an empty block takes its time.
                self.set_in += 1;
                self.not_full(entity)?;
                self.drawing.copies += 1;
            }
            let bent =
                |problem: String| (entity.at(), ImportProblem::form(ImportForm::Dxf, problem));
            let own = Place::insert(entity, block.base, cell).map_err(bent)?;
            self.set_once(entity, block, &place.then(&own), layer, depth)?;
            cell = if cell[0] + 1.0 < columns {
                [cell[0] + 1.0, cell[1]]
            } else {
                [0.0, cell[1] + 1.0]
            };
        }
        Ok(())
    }

    /// Sets a block in, once.
    fn set_once(
        &mut self,
        entity: &Entity,
        block: &entity::Block,
        place: &Place,
        layer: &str,
        depth: usize,
    ) -> Result<(), Failure> {
        let Some(fill) = fill_of(&entity.name).or_else(|| fill_of(layer)) else {
            for inner in &block.entities {
                self.entity(inner, place, layer, depth + 1)?;
            }
            return Ok(());
        };
        // Only for what it covers: its lines are those of a symbol.
        let mut inside = Reader {
            blocks: self.blocks,
            drawing: Drawing::default(),
            passed: BTreeMap::new(),
            set_in: self.set_in,
        };
        for inner in &block.entities {
            inside.entity(inner, place, layer, depth + 1)?;
        }
        self.set_in = inside.set_in;
        self.drawing.copies += inside.drawing.copies;
        if fill == Fill::Door {
            self.drawing.leaves.extend(inside.drawing.arcs.iter().map(|(_, swing)| *swing));
        }
        let ends = inside.drawing.lines.iter().flat_map(|(_, line)| [line.a, line.b]);
        let at = place.of(block.base);
        let corners: Vec<[f64; 2]> = ends.collect();
        let corners = if corners.is_empty() { vec![at] } else { corners };
        let mark = Mark { fill, at, corners };
        self.drawing.symbols.push((entity.name.clone(), layer.to_owned(), mark));
        Ok(())
    }
}

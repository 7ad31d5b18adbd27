//! Entities and blocks, and where they are set in.

use std::collections::BTreeMap;

use super::groups::{Flaw, Groups};
use crate::store::import::drawing::PARTS_MAX;

/// The codes of numbers that mean something here.
const NUMBERS: [i32; 16] = [10, 20, 11, 21, 40, 41, 42, 43, 44, 45, 50, 51, 67, 70, 71, 230];
/// The most corners of a polyline.
pub(super) const CORNERS_MAX: usize = PARTS_MAX;
/// The most entities in a file.
const ENTITIES_MAX: usize = 1_000_000;

/// The parts of a file that are read.
#[derive(Debug, Default)]
pub(super) struct File {
    /// Millimetres in one unit, where the header states it.
    pub(super) unit: Option<f64>,
    pub(super) blocks: BTreeMap<String, Block>,
    pub(super) entities: Vec<Entity>,
}

/// A block.
#[derive(Debug, Default)]
pub(super) struct Block {
    /// What is set where the block is set in.
    pub(super) base: [f64; 2],
    pub(super) entities: Vec<Entity>,
}

/// An entity.
#[derive(Debug, Default)]
pub(super) struct Entity {
    pub(super) kind: String,
    pub(super) layer: String,
    /// The name of a block.
    pub(super) name: String,
    pub(super) text: String,
    line: usize,
    /// The first number under every code.
    numbers: BTreeMap<i32, f64>,
    /// Corners of a polyline, each with its bulge.
    pub(super) corners: Vec<[f64; 3]>,
}

impl Entity {
    pub(super) fn number(&self, code: i32) -> Option<f64> {
        self.numbers.get(&code).copied()
    }

    /// The place whose `x` is under a code and whose `y` is ten codes on.
    pub(super) fn place(&self, code: i32) -> Result<[f64; 2], String> {
        match (self.number(code), self.number(code + 10)) {
            (Some(x), Some(y)) => Ok([x, y]),
            _ => Err(format!("{} without a place under {code} and {}", self.kind, code + 10)),
        }
    }

    pub(super) fn closed(&self) -> bool {
        self.number(70).is_some_and(|flags| flags.rem_euclid(2.0) >= 1.0)
    }

    /// Columns and rows in which a block is set in: one where nothing is
    /// said, or where they would all lie over each other.
    pub(super) fn cells(&self) -> [f64; 2] {
        [(70, 44), (71, 45)].map(|(count, apart)| {
            let apart = self.number(apart).unwrap_or(0.0);
            if apart == 0.0 { 1.0 } else { self.number(count).unwrap_or(1.0).trunc().max(1.0) }
        })
    }

    pub(super) fn at(&self) -> String {
        format!("line {}", self.line)
    }

    fn take(&mut self, code: i32, value: &str, line: usize) -> Result<(), Flaw> {
        match code {
            8 => value.trim().clone_into(&mut self.layer),
            2 => value.trim().clone_into(&mut self.name),
            // Long texts come in pieces.
            1 | 3 if self.text.len() < 500 => self.text.push_str(value),
            10..=59 | 67 | 70..=79 | 210..=239 => {
                let number: f64 =
                    value.trim().parse().ok().filter(|n: &f64| n.is_finite()).ok_or_else(|| {
                        let value: String = value.trim().chars().take(20).collect();
                        (line, format!("\"{}\" is not a number", value.escape_default()))
                    })?;
                if number.abs() > 1e12 {
                    return Err((line, format!("{number:e} is beyond any drawing")));
                }
                if self.kind == "LWPOLYLINE" {
                    match code {
                        10 => self.corners.push([number, 0.0, 0.0]),
                        20 => self.corners.iter_mut().rev().take(1).for_each(|at| at[1] = number),
                        42 => self.corners.iter_mut().rev().take(1).for_each(|at| at[2] = number),
                        _ => {}
                    }
                }
                if self.corners.len() > CORNERS_MAX {
                    return Err((line, too_many_corners()));
                }
                if NUMBERS.contains(&code) {
                    self.numbers.entry(code).or_insert(number);
                }
            }
            _ => {}
        }
        Ok(())
    }
}

fn too_many_corners() -> String {
    format!("a polyline with more than {CORNERS_MAX} corners")
}

/// Reads the header, the blocks and the entities.
pub(super) fn file(groups: &mut Groups<'_>) -> Result<File, Flaw> {
    let mut file = File::default();
    let (mut section, mut variable) = (String::new(), String::new());
    let mut block: Option<(String, Block)> = None;
    let mut entity: Option<Entity> = None;
    let mut count = 0;
    loop {
        let (code, value) = groups.next()?;
        if code != 0 {
            match section.as_str() {
                "" if code == 2 => value.trim().clone_into(&mut section),
                "HEADER" if code == 9 => value.trim().clone_into(&mut variable),
                "HEADER" if code == 70 && variable == "$INSUNITS" => file.unit = unit(value.trim()),
                "BLOCKS" | "ENTITIES" => {
                    if let Some(entity) = &mut entity {
                        entity.take(code, &value, groups.line)?;
                    }
                }
                _ => {}
            }
            continue;
        }
        if let Some(entity) = entity.take() {
            keep(&mut file, &mut block, entity);
        }
        match value.trim() {
            "EOF" => return Ok(file),
            "SECTION" | "ENDSEC" => section.clear(),
            kind if section == "BLOCKS" || section == "ENTITIES" => {
                count += 1;
                if count > ENTITIES_MAX {
                    return Err((groups.line, format!("more than {ENTITIES_MAX} entities")));
                }
                if kind == "ENDBLK" {
                    file.blocks.extend(block.take());
                }
                let kind = kind.chars().take(40).collect();
                entity = Some(Entity { kind, line: groups.line, ..Entity::default() });
            }
            _ => {}
        }
    }
}

fn keep(file: &mut File, block: &mut Option<(String, Block)>, entity: Entity) {
    if entity.kind == "BLOCK" {
        let base = entity.place(10).unwrap_or_default();
        *block = Some((entity.name, Block { base, entities: Vec::new() }));
        return;
    }
    let list = match block {
        Some((_, block)) => &mut block.entities,
        None => &mut file.entities,
    };
    if entity.kind == "VERTEX" {
        // The corners of an old polyline follow it as entities of their own.
        if let (Some(polyline), Ok([x, y])) = (list.last_mut(), entity.place(10))
            && polyline.kind == "POLYLINE"
        {
            polyline.corners.push([x, y, entity.number(42).unwrap_or(0.0)]);
        }
        return;
    }
    if entity.kind != "ENDBLK" && entity.kind != "SEQEND" {
        list.push(entity);
    }
}

/// Millimetres in a unit of `$INSUNITS`; none where it states none.
fn unit(code: &str) -> Option<f64> {
    match code {
        "1" => Some(25.4),
        "2" => Some(304.8),
        "4" => Some(1.0),
        "5" => Some(10.0),
        "6" => Some(1000.0),
        "10" => Some(914.4),
        "14" => Some(100.0),
        _ => None,
    }
}

/// An arc between two corners: its centre, radius, first angle and sweep. The
/// bulge is the tangent of a quarter of the angle that it spans.
pub(super) fn bulged(a: [f64; 2], b: [f64; 2], bulge: f64) -> ([f64; 2], f64, f64, f64) {
    let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
    let off = (1.0 / bulge - bulge) / 4.0;
    let centre = [f64::midpoint(a[0], b[0]) - dy * off, f64::midpoint(a[1], b[1]) + dx * off];
    let radius = libm::hypot(a[0] - centre[0], a[1] - centre[1]);
    let from = libm::atan2(a[1] - centre[1], a[0] - centre[0]);
    (centre, radius, from, 4.0 * libm::atan(bulge))
}

/// How a block is set in: turned, stretched, moved.
#[derive(Clone, Copy, Debug)]
pub(super) struct Place {
    x: [f64; 2],
    y: [f64; 2],
    origin: [f64; 2],
}

impl Default for Place {
    fn default() -> Self {
        Self { x: [1.0, 0.0], y: [0.0, 1.0], origin: [0.0; 2] }
    }
}

impl Place {
    /// How an entity sets a block in, in a column and a row of those that it
    /// has; their distances turn with the block and do not stretch with it.
    pub(super) fn insert(entity: &Entity, base: [f64; 2], cell: [f64; 2]) -> Result<Self, String> {
        let at = entity.place(10)?;
        let angle = entity.number(50).unwrap_or(0.0).to_radians();
        let (sin, cos) = (libm::sin(angle), libm::cos(angle));
        let right = cell[0] * entity.number(44).unwrap_or(0.0);
        let up = cell[1] * entity.number(45).unwrap_or(0.0);
        let at = [at[0] + right * cos - up * sin, at[1] + right * sin + up * cos];
        let (sx, sy) = (entity.number(41).unwrap_or(1.0), entity.number(42).unwrap_or(1.0));
        // Seen from below, as mirrored blocks are written.
        let mirror = if entity.number(230).is_some_and(|z| z < 0.0) { -1.0 } else { 1.0 };
        let (x, y) = ([mirror * sx * cos, sx * sin], [-mirror * sy * sin, sy * cos]);
        let place = Self { x, y, origin: [mirror * at[0], at[1]] };
        let base = place.turned(base);
        Ok(Self { origin: [place.origin[0] - base[0], place.origin[1] - base[1]], ..place })
    }

    fn turned(&self, [x, y]: [f64; 2]) -> [f64; 2] {
        [x * self.x[0] + y * self.y[0], x * self.x[1] + y * self.y[1]]
    }

    pub(super) fn of(&self, place: [f64; 2]) -> [f64; 2] {
        let [x, y] = self.turned(place);
        [x + self.origin[0], y + self.origin[1]]
    }

    /// This one with another set into it.
    pub(super) fn then(&self, inner: &Self) -> Self {
        Self { x: self.turned(inner.x), y: self.turned(inner.y), origin: self.of(inner.origin) }
    }

    /// How much longer a length becomes.
    pub(super) fn size(&self) -> f64 {
        libm::hypot(self.x[0], self.x[1])
    }
}

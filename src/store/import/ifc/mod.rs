//! IFC (ISO 16739): storeys, walls, doors, windows, spaces. Read are IFC2x3
//! and IFC4 as part 21 files. Placements, units, mapped shapes, extrusions,
//! clippings, boundary representations and meshes are followed; a body that is
//! no upright prism counts by the box around it along the wall.

mod curve;
mod frame;
mod model;
mod openings;
mod relations;
mod shape;
mod spaces;
mod storeys;
mod walls;

use std::collections::{BTreeMap, BTreeSet};

use super::drawn::{Drawn, Notes, metric};
use super::step::{Entity, StepFile, Trouble, Value};
use super::{ImportForm, ImportProblem};
use crate::store::NoteKind;
use crate::store::layout::form::{FormHinge, FormOpening, FormWall};
use model::Model;
use relations::Relations;
use storeys::Storeys;
use walls::Piece;

/// Elements that are part of a building and are not taken over.
const PASSED_BY: [&str; 12] = [
    "IFCCURTAINWALL",
    "IFCCOLUMN",
    "IFCBEAM",
    "IFCSLAB",
    "IFCROOF",
    "IFCSTAIR",
    "IFCRAMP",
    "IFCRAILING",
    "IFCCOVERING",
    "IFCBUILDINGELEMENTPROXY",
    "IFCFURNISHINGELEMENT",
    "IFCMEMBER",
];

/// Reads a file.
pub(super) fn read(bytes: &[u8], name: &str) -> Result<Drawn, (String, ImportProblem)> {
    let file = StepFile::new(bytes).map_err(|flaw| {
        (format!("line {}", flaw.line), ImportProblem::form(ImportForm::Ifc, flaw.problem))
    })?;
    if !file.schema.to_ascii_uppercase().starts_with("IFC") {
        let problem = format!("its schema is \"{}\", expected IFC2X3 or IFC4", file.schema);
        return Err((String::new(), ImportProblem::form(ImportForm::Ifc, problem)));
    }
    building(&file, name).map_err(|trouble| match trouble {
        Trouble::Flaw(flaw) => (String::new(), ImportProblem::form(ImportForm::Ifc, flaw)),
        Trouble::Exhausted => (String::new(), ImportProblem::Exhausted),
    })
}

fn building(file: &StepFile<'_>, name: &str) -> Result<Drawn, Trouble> {
    let model = Model::new(file)?;
    let mut drawn = Drawn::new(name, format!("{} mm, as the file states", model.mm));
    let relations = Relations::of(file, &mut drawn.notes)?;
    let mut storeys = Storeys::of(&model, &mut drawn.notes)?;
    let mut reading =
        Reading { model: &model, relations: &relations, pieces: Vec::new(), owners: Vec::new() };
    reading.walls(&storeys, &mut drawn)?;
    let shift = shift(&reading.pieces);
    reading.place_walls(&mut storeys, shift, &mut drawn.notes);
    reading.openings(&mut storeys, shift, &mut drawn)?;
    spaces::add(&model, &relations, &mut storeys, shift, &mut drawn)?;
    for (what, count) in PASSED_BY.iter().map(|what| (what, file.named(what).len())) {
        if count > 0 {
            let message =
                format!("{count} in the file; only walls, doors, windows and spaces are read");
            drawn.notes.add(NoteKind::LeftOut, (*what).to_owned(), message);
        }
    }
    if shift.iter().any(|by| by.abs() >= 0.5) {
        let message = format!("moved by {:.0}, {:.0} mm to the origin", shift[0], shift[1]);
        drawn.notes.add(NoteKind::Changed, "the building".to_owned(), message);
    }
    drawn.levels = storeys.finished(&mut drawn.notes);
    Ok(drawn)
}

/// From the lowest ends of all walls to the origin.
fn shift(pieces: &[(usize, Piece)]) -> [f64; 2] {
    [0, 1].map(|axis| {
        let ends = pieces.iter().flat_map(|(_, piece)| [piece.line.a[axis], piece.line.b[axis]]);
        let low = ends.fold(f64::INFINITY, f64::min);
        if low.is_finite() { 0.0 - low } else { 0.0 }
    })
}

/// How an entity is called in a report.
fn part(entity: &Entity) -> String {
    let name = if entity.text(2).is_empty() { entity.text(7) } else { entity.text(2) };
    let (id, kind) = (entity.id, &entity.name);
    if name.is_empty() { format!("#{id} {kind}") } else { format!("#{id} {kind} \"{name}\"") }
}

/// A flaw is noted and the part left out; exhaustion goes on.
fn or_note<T>(
    outcome: Result<T, Trouble>,
    part: impl FnOnce() -> String,
    notes: &mut Notes,
) -> Result<Option<T>, Trouble> {
    match outcome {
        Ok(value) => Ok(Some(value)),
        Err(Trouble::Exhausted) => Err(Trouble::Exhausted),
        Err(Trouble::Flaw(flaw)) => {
            notes.add(NoteKind::LeftOut, part(), flaw);
            Ok(None)
        }
    }
}

struct Reading<'a> {
    model: &'a Model<'a>,
    relations: &'a Relations,
    /// Every piece of wall with its storey.
    pieces: Vec<(usize, Piece)>,
    /// The wall that each piece is of.
    owners: Vec<u64>,
}

impl Reading<'_> {
    fn walls(&mut self, storeys: &Storeys, drawn: &mut Drawn) -> Result<(), Trouble> {
        let (mut count, mut taken, mut clipped) = (0, 0, 0);
        for id in walls::NAMES.iter().flat_map(|name| self.model.file.named(name)) {
            count += 1;
            let entity = self.model.file.entity(*id);
            let Some(entity) = or_note(entity, || format!("#{id}"), &mut drawn.notes)? else {
                continue;
            };
            let pieces = walls::pieces(self.model, &entity);
            let Some((pieces, cut)) = or_note(pieces, || part(&entity), &mut drawn.notes)? else {
                continue;
            };
            let foot = pieces.first().map_or(0.0, |piece| piece.heights[0]);
            let Some(storey) = storeys.holding(*id, self.relations, foot) else {
                drawn.notes.add(NoteKind::LeftOut, part(&entity), "it stands on no storey");
                continue;
            };
            taken += 1;
            clipped += usize::from(cut);
            if pieces.len() > 1 {
                let message = format!("bent, and taken as {} straight pieces", pieces.len());
                drawn.notes.add(NoteKind::Changed, part(&entity), message);
            }
            for piece in pieces {
                self.pieces.push((storey, piece));
                self.owners.push(*id);
            }
        }
        if clipped > 0 {
            let message = format!("{clipped} are cut off by slopes or other bodies; taken whole");
            drawn.notes.add(NoteKind::Changed, "walls".to_owned(), message);
        }
        drawn.found("walls", count, taken);
        Ok(())
    }

    fn place_walls(&self, storeys: &mut Storeys, shift: [f64; 2], notes: &mut Notes) {
        for ((storey, piece), owner) in self.pieces.iter().zip(&self.owners) {
            let floor = storeys.list[*storey].z;
            let [a, b] = [piece.line.a, piece.line.b].map(|end| metric::point(end, shift));
            let heights = piece.heights.map(|height| metric::length(height - floor));
            let (Some(a), Some(b), Some(thickness), [Some(foot), Some(top)]) =
                (a, b, metric::length(piece.thickness), heights)
            else {
                // Keeps its number, so that openings find their walls.
                notes.add(NoteKind::LeftOut, format!("#{owner}"), metric::BEYOND);
                storeys.list[*storey].walls.push(FormWall::default());
                continue;
            };
            storeys.list[*storey].walls.push(FormWall {
                a,
                b,
                thickness,
                base: foot,
                height: Some(top - foot),
                part: format!("#{owner}"),
                ..FormWall::default()
            });
        }
    }

    fn openings(
        &self,
        storeys: &mut Storeys,
        shift: [f64; 2],
        drawn: &mut Drawn,
    ) -> Result<(), Trouble> {
        let mut filled = BTreeSet::new();
        for (names, word) in [
            (["IFCDOOR", "IFCDOORSTANDARDCASE"], "door"),
            (["IFCWINDOW", "IFCWINDOWSTANDARDCASE"], "window"),
        ] {
            let ids: Vec<u64> =
                names.iter().flat_map(|name| self.model.file.named(name)).copied().collect();
            let mut taken = 0;
            for id in &ids {
                let opening = self.relations.fills.get(id).copied();
                filled.extend(opening);
                taken += usize::from(self.opening(*id, opening, word, storeys, shift, drawn)?);
            }
            drawn.found(if word == "door" { "doors" } else { "windows" }, ids.len(), taken);
        }
        let bare: Vec<u64> = self.model.file.named("IFCOPENINGELEMENT").to_vec();
        let bare: Vec<u64> = bare
            .into_iter()
            .filter(|id| !filled.contains(id))
            .filter(|id| self.relations.host.get(id).is_some_and(|host| self.owners.contains(host)))
            .collect();
        let mut taken = 0;
        for id in &bare {
            taken += usize::from(self.opening(*id, Some(*id), "opening", storeys, shift, drawn)?);
        }
        drawn.found("bare openings in walls", bare.len(), taken);
        Ok(())
    }

    /// Adds one opening; whether it was taken over.
    fn opening(
        &self,
        id: u64,
        opening: Option<u64>,
        word: &str,
        storeys: &mut Storeys,
        shift: [f64; 2],
        drawn: &mut Drawn,
    ) -> Result<bool, Trouble> {
        let entity = self.model.file.entity(id);
        let Some(entity) = or_note(entity, || format!("#{id}"), &mut drawn.notes)? else {
            return Ok(false);
        };
        let bare = word == "opening";
        let shape = if bare {
            self.model.body(&entity)
        } else {
            openings::filler(self.model, &entity, self.relations)
        };
        let Some(shape) = or_note(shape, || part(&entity), &mut drawn.notes)? else {
            return Ok(false);
        };
        let host = opening.and_then(|opening| self.relations.host.get(&opening));
        let of_host = |index: &usize| host.is_none_or(|host| self.owners[*index] == *host);
        let pieces: Vec<(usize, Piece)> = (0..self.pieces.len())
            .filter(of_host)
            .map(|index| (index, self.pieces[index].1))
            .collect();
        let hole = match openings::hole(&shape, &pieces, bare) {
            // Some are listed under the wall next to the one that they are in.
            Err(problem) if !pieces.is_empty() => {
                let all: Vec<(usize, Piece)> =
                    self.pieces.iter().map(|(_, piece)| *piece).enumerate().collect();
                openings::hole(&shape, &all, true).map_err(|_| problem)
            }
            hole => hole,
        };
        let hole = match (hole, host) {
            (Ok(hole), _) => hole,
            (Err(_), Some(host)) if pieces.is_empty() => {
                let host = self.model.file.entity(*host);
                let host = host.map_or_else(|_| "nothing".to_owned(), |host| part(&host));
                let message = format!("it is in {host}, which is no wall that was taken over");
                drawn.notes.add(NoteKind::LeftOut, part(&entity), message);
                return Ok(false);
            }
            (Err(problem), _) => {
                drawn.notes.add(NoteKind::LeftOut, part(&entity), problem);
                return Ok(false);
            }
        };
        let storey = self.pieces[hole.piece].0;
        // Walls of a storey are numbered in the order of their pieces.
        let wall = self.pieces[..hole.piece].iter().filter(|(other, _)| *other == storey).count();
        let floor = storeys.list[storey].z;
        let [sill, head] = hole.heights.map(|height| metric::length(height - floor));
        let at = metric::point(hole.at, shift);
        let (Some(at), Some(width), Some(sill), Some(head)) =
            (at, metric::length(hole.width), sill, head)
        else {
            drawn.notes.add(NoteKind::LeftOut, part(&entity), metric::BEYOND);
            return Ok(false);
        };
        let slides = word == "door" && openings::slides(self.model, &entity, self.relations);
        let subtype = if slides { "sliding_door" } else { "" }.to_owned();
        let hung = if word == "door" && !slides {
            openings::hung(self.model, &entity, self.relations, &hole)
        } else {
            None
        };
        let hinge = hung.and_then(|[at, opens]| {
            let (at, opens) = (metric::point(at, shift)?, metric::point(opens, shift)?);
            Some(FormHinge { at, opens })
        });
        let part = part(&entity);
        let kind = word.to_owned();
        let opening = FormOpening { kind, subtype, wall, at, width, sill, head, hinge, part };
        storeys.list[storey].openings.push(opening);
        Ok(true)
    }
}

/// Only for the storeys: what a value says as a number, mm.
fn millimetres(model: &Model<'_>, value: &Value) -> Option<f64> {
    value.number().map(|number| number * model.mm)
}

type ByStorey = BTreeMap<u64, usize>;

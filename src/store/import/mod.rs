//! Buildings from files of open formats: walls, openings and rooms, no wiring.
//!
//! The form of a file is told by its content. Every form is read into the
//! neutral layout form (`read_layout`) and from there
//! into a plan, with a report of what was understood and what was left out.
//! What is wrong with one part leaves out that part; what is wrong with the
//! writing of the file refuses the file.

mod drawing;
mod drawn;
mod dxf;
mod error;
mod from_file;
mod geojson;
mod ifc;
mod lines;
mod report;
mod step;
mod svg;
mod unit;

use std::fmt;
use std::io::Read as _;

use drawn::Drawn;
pub use drawn::Found;
pub use error::{ImportError, ImportProblem};
pub use from_file::import_file;
pub use report::ImportReport;
pub use unit::LengthUnit;

use super::layout::form::Layout;
use super::layout::{plan_of, read_layout};
use super::{LayoutOptions, LayoutReport};
use crate::plan::Plan;
use crate::units::{Mm, Watch};

/// The largest file that is imported, bytes, unpacked.
pub const IMPORT_BYTES_MAX: usize = 256 * 1024 * 1024;

/// What the caller knows about a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ImportOptions {
    /// The unit of a drawing's numbers; without it the file's own, or a guess
    /// that the report states. IFC files and layouts state theirs.
    pub unit: Option<LengthUnit>,
    /// The scale to which a drawing's numbers are reduced, 50 for 1:50. They
    /// are in `unit`, or else in mm of paper. None: they are not reduced.
    pub scale: Option<u32>,
    /// How thick a line of a wall is that has no second line beside it, mm.
    /// None: such lines are walls only where most of the walls are drawn so,
    /// and then 100 mm thick, which the report states.
    pub single_line: Option<Mm>,
    /// The layers on which walls are drawn; empty: guessed by their names.
    pub layers: Vec<String>,
    /// Floor to ceiling where a drawing shows no heights, mm.
    pub level_height: Mm,
    /// Ends of walls in drawings that miss another wall by no more than this
    /// are joined to it, mm.
    pub join: Mm,
    /// What no file says.
    pub layout: LayoutOptions,
}

impl Default for ImportOptions {
    fn default() -> Self {
        Self {
            unit: None,
            scale: None,
            single_line: None,
            layers: Vec::new(),
            level_height: Mm::new(2500),
            join: Mm::new(60),
            layout: LayoutOptions::default(),
        }
    }
}

/// A form of file that can be imported.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum ImportForm {
    /// ISO 16739 in ISO 10303-21.
    Ifc,
    /// Drawing exchange format, as text.
    Dxf,
    /// Scalable vector graphics.
    Svg,
    /// RFC 7946.
    GeoJson,
    /// The neutral layout form of this room.
    Layout,
}

impl ImportForm {
    /// Whether it is line work on layers, whose unit and walls can be said by
    /// whoever knows it.
    #[must_use]
    pub const fn is_drawing(self) -> bool {
        matches!(self, Self::Dxf | Self::Svg)
    }
}

impl fmt::Display for ImportForm {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Ifc => "IFC",
            Self::Dxf => "DXF",
            Self::Svg => "SVG",
            Self::GeoJson => "GeoJSON",
            Self::Layout => "layout",
        })
    }
}

/// A building out of a file.
#[derive(Clone, Debug)]
pub struct Import {
    /// Its plan, without points, boards and circuits.
    pub plan: Plan,
    /// What became of the file.
    pub report: ImportReport,
}

/// Imports the bytes of a file, named so in errors and in the plan's title.
/// A file packed by gzip is unpacked first.
///
/// # Errors
/// [`ImportError`] where the file is of none of the forms, damaged, too large
/// or holds nothing. Parts that cannot be used are no errors: see the report.
pub fn import(bytes: &[u8], name: &str, options: &ImportOptions) -> Result<Import, ImportError> {
    import_watched(bytes, name, options, &Watch::default())
}

/// The same under a watch that counts its steps: unpacked, read, made a plan.
///
/// # Errors
/// As [`import`]; [`ImportProblem::Stopped`] where the watch was stopped.
pub fn import_watched(
    bytes: &[u8],
    name: &str,
    options: &ImportOptions,
    watch: &Watch,
) -> Result<Import, ImportError> {
    watch.begin(3);
    let error =
        |(place, problem)| ImportError { file: name.to_owned(), place, problem: Box::new(problem) };
    let unpacked = unpacked(bytes).map_err(|problem| error((String::new(), problem)))?;
    let bytes = unpacked.as_deref().unwrap_or(bytes);
    let wanted = || {
        watch.step();
        if watch.is_stopped() { Err((String::new(), ImportProblem::Stopped)) } else { Ok(()) }
    };
    wanted().map_err(error)?;
    if bytes.len() > IMPORT_BYTES_MAX {
        return Err(error((String::new(), ImportProblem::TooLarge)));
    }
    let form = form_of(bytes).ok_or_else(|| error((String::new(), ImportProblem::UnknownForm)))?;
    let stem = name.rsplit(['/', '\\']).next().unwrap_or(name);
    let stem = stem.split('.').next().unwrap_or(stem);
    let drawn = match form {
        ImportForm::Layout => {
            return layout(bytes, &options.layout)
                .map_err(|problem| error((String::new(), problem)));
        }
        ImportForm::Ifc => ifc::read(bytes, stem),
        ImportForm::Dxf => dxf::read(bytes).and_then(|drawing| shown(drawing, stem, options)),
        ImportForm::Svg => svg::read(bytes).and_then(|drawing| shown(drawing, stem, options)),
        ImportForm::GeoJson => geojson::read(bytes, stem, options),
    };
    let drawn = drawn.map_err(error)?;
    wanted().map_err(error)?;
    finished(drawn, form, options).map_err(error)
}

fn shown(
    drawing: drawing::Drawing,
    name: &str,
    options: &ImportOptions,
) -> Result<Drawn, (String, ImportProblem)> {
    drawing::read(drawing, name, options).map_err(|problem| (String::new(), problem))
}

/// The contents of a gzip file; none for any other.
fn unpacked(bytes: &[u8]) -> Result<Option<Vec<u8>>, ImportProblem> {
    if !bytes.starts_with(&[0x1f, 0x8b]) {
        return Ok(None);
    }
    let most = u64::try_from(IMPORT_BYTES_MAX).unwrap_or(u64::MAX);
    let mut unpacked = Vec::new();
    flate2::read::MultiGzDecoder::new(bytes)
        .take(most + 1)
        .read_to_end(&mut unpacked)
        .map_err(|error| ImportProblem::Packed(error.to_string()))?;
    if unpacked.len() > IMPORT_BYTES_MAX {
        return Err(ImportProblem::TooLarge);
    }
    Ok(Some(unpacked))
}

/// The form of a file by what stands in it.
fn form_of(bytes: &[u8]) -> Option<ImportForm> {
    let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
    let start = bytes.iter().position(|byte| !byte.is_ascii_whitespace())?;
    let (bytes, head) = (&bytes[start..], &bytes[start..(start + 4096).min(bytes.len())]);
    let holds =
        |text: &[u8], word: &str| text.windows(word.len()).any(|part| part == word.as_bytes());
    if bytes.starts_with(b"ISO-10303-21") {
        return Some(ImportForm::Ifc);
    }
    if bytes.starts_with(b"<") && holds(head, "<svg") {
        return Some(ImportForm::Svg);
    }
    if bytes.starts_with(b"{") {
        let geo = ["\"FeatureCollection\"", "\"Feature\"", "\"coordinates\""];
        let is_geo = geo.iter().any(|word| holds(head, word));
        return Some(if is_geo { ImportForm::GeoJson } else { ImportForm::Layout });
    }
    let first = head.split(|byte| *byte == b'\n').next()?;
    let digits = first.trim_ascii();
    let is_code = !digits.is_empty() && digits.len() <= 3 && digits.iter().all(u8::is_ascii_digit);
    let binary = bytes.starts_with(b"AutoCAD Binary DXF");
    ((is_code && (holds(head, "SECTION") || digits == b"999")) || binary).then_some(ImportForm::Dxf)
}

fn layout(bytes: &[u8], options: &LayoutOptions) -> Result<Import, ImportProblem> {
    let text = std::str::from_utf8(bytes)
        .map_err(|_| ImportProblem::form(ImportForm::Layout, "it is not UTF-8 text"))?;
    let (plan, layout) = read_layout(text, options).map_err(ImportProblem::Layout)?;
    let (unit, found) = ("metres, as the form has them".to_owned(), Vec::new());
    let report =
        ImportReport { form: ImportForm::Layout, unit, layers: Vec::new(), found, layout, more: 0 };
    Ok(Import { plan, report })
}

fn finished(
    drawn: Drawn,
    form: ImportForm,
    options: &ImportOptions,
) -> Result<Import, (String, ImportProblem)> {
    let empty = drawn.levels.iter().all(|level| level.walls.is_empty() && level.rooms.is_empty());
    if empty {
        let why =
            drawn.notes.list.iter().take(3).map(|note| format!("{}: {}", note.part, note.message));
        let why: Vec<String> = why.collect();
        let why = if why.is_empty() { "the file holds none".to_owned() } else { why.join("; ") };
        return Err((String::new(), ImportProblem::Nothing(why)));
    }
    let layout = Layout::of(drawn.name, drawn.levels);
    let (plan, made) = plan_of(layout, &options.layout)
        .map_err(|error| (String::new(), ImportProblem::Layout(error)))?;
    let mut notes = drawn.notes.list;
    notes.extend(made.notes);
    let layout = LayoutReport { notes, ..made };
    let (unit, layers, found) = (drawn.unit, drawn.layers, drawn.found);
    let report = ImportReport { form, unit, layers, found, layout, more: drawn.notes.more };
    Ok(Import { plan, report })
}

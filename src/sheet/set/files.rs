//! PaperSet written into a folder: over one's own earlier ones, and over files of
//! others only where that was asked for.

use std::fmt;
use std::fmt::Write as _;
use std::path::Path;

use super::PaperSet;
use super::make::INTERNAL;
use crate::plan::Plan;
use crate::sheet::{Scene, csv, dxf, pdf, png, svg, workbook};
use crate::store::{self, Disk, Known, OwnFolder, WriteError};

/// Why papers were not written.
#[derive(Debug)]
pub enum NotWritten {
    /// A paper could not be made.
    Unmade(String),
    /// What was in the way.
    Refused(WriteError),
}

impl fmt::Display for NotWritten {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unmade(why) => f.write_str(why),
            Self::Refused(error) => f.write_str(&store::refused(error)),
        }
    }
}

/// One file of the set.
enum Paper<'p> {
    Svg(&'p Scene),
    Dxf(&'p Scene),
    Png(&'p Scene, f64),
    Set,
    Internal,
    Page(&'p str),
    List(usize),
    Workbook,
}

/// What was written.
#[derive(Debug, Default)]
pub struct Written {
    /// Every file, line by line.
    pub listed: String,
    /// What became of files that were there, line by line.
    pub told: String,
}

/// Writes papers into a folder.
///
/// # Errors
/// Where a paper cannot be made, or something is in its way.
pub fn write(
    disk: &dyn Disk,
    papers: &PaperSet,
    plan: &Plan,
    folder: &Path,
    dots: Option<u16>,
    replace: bool,
) -> Result<Written, NotWritten> {
    let files = files(papers, dots);
    let names: Vec<String> = files.iter().map(|(name, _)| name.clone()).collect();
    let bytes = |name: &str| {
        let paper = files.iter().find(|(other, _)| other == name);
        paper.map(|(_, paper)| bytes_of(papers, plan, paper))
    };
    // Made twice where another's file has its name; else once, and let go of.
    let mut to_be = |name: &str| Some(Known::of(&bytes(name)?.ok()?));
    let mut own =
        OwnFolder::open(disk, folder, &names, replace, &mut to_be).map_err(NotWritten::Refused)?;
    let mut all = Written::default();
    for (name, paper) in &files {
        let bytes = bytes_of(papers, plan, paper).map_err(NotWritten::Unmade)?;
        let written = own.write(name, &bytes).map_err(NotWritten::Refused)?;
        let _ = writeln!(all.listed, "{}", folder.join(name).display());
        all.told.push_str(&store::told(&written));
    }
    let others = own.close().map_err(NotWritten::Refused)?;
    let whole = !papers.lists.is_empty();
    if let (Some(first), true) = (others.first(), whole) {
        let count = others.len();
        let _ =
            writeln!(all.told, "left from an earlier set and not of this one: {count}, as {first}");
    }
    Ok(all)
}

/// The files of a set by name, in their order.
fn files(papers: &PaperSet, dots: Option<u16>) -> Vec<(String, Paper<'_>)> {
    let mut files = Vec::new();
    for (name, scene) in papers.set.iter().chain(&papers.internal) {
        files.push((format!("{name}.svg"), Paper::Svg(scene)));
        if name.starts_with("floor") {
            files.push((format!("{name}.dxf"), Paper::Dxf(scene)));
        }
        if let Some(dots) = dots {
            files.push((format!("{name}.png"), Paper::Png(scene, f64::from(dots))));
        }
    }
    if !papers.set.is_empty() {
        files.push(("papers.pdf".to_owned(), Paper::Set));
    }
    if !papers.internal.is_empty() {
        files.push((format!("{INTERNAL}.pdf"), Paper::Internal));
    }
    if let Some(page) = &papers.page {
        files.push(("quote.html".to_owned(), Paper::Page(page)));
    }
    for (index, list) in papers.lists.iter().enumerate() {
        files.push((format!("{}.csv", list.name), Paper::List(index)));
    }
    if !papers.lists.is_empty() {
        files.push(("lists.xlsx".to_owned(), Paper::Workbook));
    }
    files
}

fn bytes_of(papers: &PaperSet, plan: &Plan, paper: &Paper<'_>) -> Result<Vec<u8>, String> {
    let scenes = |set: &[(String, Scene)]| -> Vec<Scene> {
        set.iter().map(|(_, scene)| scene.clone()).collect()
    };
    Ok(match paper {
        Paper::Svg(scene) => svg(scene).into_bytes(),
        Paper::Dxf(scene) => dxf(scene, plan),
        Paper::Png(scene, dots) => png(scene, *dots)?,
        Paper::Set => pdf(&scenes(&papers.set), &papers.title),
        Paper::Internal => {
            pdf(&scenes(&papers.internal), &format!("{}, internal costing", papers.title))
        }
        Paper::Page(page) => page.as_bytes().to_vec(),
        Paper::List(index) => {
            papers.lists.get(*index).map_or_else(Vec::new, |list| csv(list).into_bytes())
        }
        Paper::Workbook => workbook(&papers.lists)?,
    })
}

//! The files that a set goes out as, and their bytes.

use super::{INTERNAL, Papers, Sheet};
use crate::plan::Plan;
use crate::sheet::{List, Scene, csv, dxf, pdf, png, svg, workbook};

/// One file of a set.
#[derive(Clone, Debug)]
pub struct PaperFile<'p> {
    /// Its name.
    pub name: String,
    /// What it holds.
    pub contents: Contents<'p>,
}

/// What a file of a set holds.
#[derive(Clone, Copy, Debug)]
pub enum Contents<'p> {
    /// A sheet as a drawing.
    Svg(&'p Scene),
    /// A floor sheet, with the house it shows in millimetres.
    Dxf(&'p Scene),
    /// A picture of a sheet, of so many dots to the inch.
    Png(&'p Scene, f64),
    /// The sheets of the set, under its title.
    Set,
    /// The sheets that are not for the client.
    Internal,
    /// The page for a telephone.
    Page(&'p str),
    /// A list.
    List(&'p List),
    /// All lists.
    Workbook,
}

impl PaperFile<'_> {
    /// The names of files, in their order.
    #[must_use]
    pub fn names(files: &[PaperFile<'_>]) -> Vec<String> {
        files.iter().map(|file| file.name.clone()).collect()
    }
}

impl Papers {
    /// The files of the set, in their order; with pictures of so many dots to
    /// the inch where such are wanted.
    #[must_use]
    pub fn files(&self, dots: Option<u16>) -> Vec<PaperFile<'_>> {
        let mut files = Vec::new();
        let mut add = |name: String, contents| files.push(PaperFile { name, contents });
        for Sheet { paper, name, scene } in self.shown() {
            add(format!("{name}.svg"), Contents::Svg(scene));
            if paper.is_floor() {
                add(format!("{name}.dxf"), Contents::Dxf(scene));
            }
            if let Some(dots) = dots {
                add(format!("{name}.png"), Contents::Png(scene, f64::from(dots)));
            }
        }
        if !self.set.is_empty() {
            add("papers.pdf".to_owned(), Contents::Set);
        }
        if !self.internal.is_empty() {
            add(format!("{INTERNAL}.pdf"), Contents::Internal);
        }
        if let Some(page) = &self.page {
            add("quote.html".to_owned(), Contents::Page(page));
        }
        for list in &self.lists {
            add(format!("{}.csv", list.name), Contents::List(list));
        }
        if !self.lists.is_empty() {
            add("lists.xlsx".to_owned(), Contents::Workbook);
        }
        files
    }

    /// What is said of files that an earlier set left in the folder and that are
    /// none of this one, by name. Where single papers were written it is no
    /// wonder that the others are there.
    #[must_use]
    pub fn left(&self, others: &[String]) -> Option<String> {
        let first = others.first().filter(|_| !self.lists.is_empty())?;
        let count = others.len();
        Some(format!("left from an earlier set and not of this one: {count}, as {first}\n"))
    }

    /// The bytes of one of its files; `plan` is the plan that the set is of.
    ///
    /// # Errors
    /// Why a picture or a workbook cannot be made, in words.
    pub fn bytes(&self, contents: Contents<'_>, plan: &Plan) -> Result<Vec<u8>, String> {
        Ok(match contents {
            Contents::Svg(scene) => svg(scene).into_bytes(),
            Contents::Dxf(scene) => dxf(scene, plan),
            Contents::Png(scene, dots) => png(scene, dots)?,
            Contents::Set => pdf(&scenes(&self.set), &self.title),
            Contents::Internal => {
                pdf(&scenes(&self.internal), &format!("{}, internal costing", self.title))
            }
            Contents::Page(page) => page.as_bytes().to_vec(),
            Contents::List(list) => csv(list).into_bytes(),
            Contents::Workbook => workbook(&self.lists)?,
        })
    }
}

fn scenes(sheets: &[Sheet]) -> Vec<Scene> {
    sheets.iter().map(|sheet| sheet.scene.clone()).collect()
}

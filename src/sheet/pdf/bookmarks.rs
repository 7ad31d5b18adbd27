//! Bookmarks: a branch for every paper, a leaf for every sheet.

use pdf_writer::{Pdf, Ref, TextStr};

use super::{Numbers, count};
use crate::sheet::scene::Scene;

/// A bookmark with those under it.
struct Mark {
    id: Ref,
    title: String,
    page: Ref,
    under: Vec<Mark>,
}

/// Writes the bookmarks: sheets of one kind under its name, a single sheet by
/// itself.
pub(super) fn write(
    file: &mut Pdf,
    scenes: &[Scene],
    pages: &[Ref],
    root: Ref,
    numbers: &mut Numbers,
) {
    let mut marks: Vec<Mark> = Vec::new();
    let mut rest: Vec<(&Scene, Ref)> = scenes.iter().zip(pages.iter().copied()).collect();
    while let Some(kind) = rest.first().map(|(scene, _)| scene.kind.clone()) {
        let alike = rest.iter().take_while(|(scene, _)| scene.kind == kind).count();
        let sheets: Vec<(&Scene, Ref)> = rest.drain(..alike).collect();
        marks.push(branch(&kind, &sheets, numbers));
    }
    let (Some(first), Some(last)) = (marks.first(), marks.last()) else { return };
    file.outline(root).first(first.id).last(last.id).count(count(marks.len()));
    siblings(file, &marks, root);
}

fn branch(kind: &str, sheets: &[(&Scene, Ref)], numbers: &mut Numbers) -> Mark {
    let id = numbers.next();
    let page = sheets[0].1;
    if let [(only, _)] = sheets {
        return Mark { id, title: only.title.clone(), page, under: Vec::new() };
    }
    let titles: Vec<&str> = sheets.iter().map(|(scene, _)| scene.title.as_str()).collect();
    let under = (1..).zip(sheets).map(|(number, (scene, page))| {
        let again = titles.iter().filter(|title| **title == scene.title).count() > 1;
        let title = if again { format!("{}, {number}", scene.title) } else { scene.title.clone() };
        Mark { id: numbers.next(), title, page: *page, under: Vec::new() }
    });
    let under = under.collect();
    let mut signs = kind.chars();
    let first: String = signs.next().into_iter().flat_map(char::to_uppercase).collect();
    Mark { id, title: format!("{first}{}", signs.as_str()), page, under }
}

fn siblings(file: &mut Pdf, marks: &[Mark], parent: Ref) {
    for (index, mark) in marks.iter().enumerate() {
        let mut item = file.outline_item(mark.id);
        item.title(TextStr(&mark.title)).parent(parent);
        if let Some(before) = index.checked_sub(1).and_then(|before| marks.get(before)) {
            item.prev(before.id);
        }
        if let Some(after) = marks.get(index + 1) {
            item.next(after.id);
        }
        if let (Some(first), Some(last)) = (mark.under.first(), mark.under.last()) {
            // Below nought: closed until somebody opens it.
            item.first(first.id).last(last.id).count(-count(mark.under.len()));
        }
        item.dest().page(mark.page).fit();
        drop(item);
        siblings(file, &mark.under, mark.id);
    }
}

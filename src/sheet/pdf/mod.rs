//! Scenes as one PDF: a page for each, a bookmark for each, and the letters of
//! the bundled fonts that occur, embedded, so that it looks and reads the same
//! everywhere.
//!
//! Nothing in it depends on the hour or the machine: the same scenes give the
//! same bytes. Written to ISO 32000-1.

mod content;
mod fonts;

use miniz_oxide::deflate::compress_to_vec_zlib;
use pdf_writer::{Filter, Finish as _, Pdf, Rect, Ref, TextStr};

use self::fonts::Fonts;
use super::lettering::Font;
use super::scene::Scene;

/// Points of an inch, as PDF counts, in a millimetre.
const POINTS_PER_MM: f64 = 72.0 / 25.4;

/// One PDF of these sheets, in this order.
#[must_use]
pub fn pdf(scenes: &[Scene]) -> Vec<u8> {
    let mut numbers = Numbers(0);
    let mut file = Pdf::new();
    let (catalog, tree, outline) = (numbers.next(), numbers.next(), numbers.next());
    let fonts = Fonts::of(scenes);
    let faces: Vec<(Font, Ref)> = Font::ALL
        .into_iter()
        .filter(|font| fonts.uses(*font))
        .map(|font| (font, fonts.embed(font, &mut file, &mut numbers)))
        .collect();
    let pages: Vec<Ref> = scenes.iter().map(|_| numbers.next()).collect();
    for (scene, id) in scenes.iter().zip(&pages) {
        let body = numbers.next();
        page(&mut file, scene, *id, tree, body, &faces);
        let bytes = compress_to_vec_zlib(&content::of(scene, &fonts), 6);
        file.stream(body, &bytes).filter(Filter::FlateDecode);
    }
    file.pages(tree).kids(pages.iter().copied()).count(count(pages.len()));
    bookmarks(&mut file, scenes, &pages, outline, &mut numbers);
    let mut root = file.catalog(catalog);
    root.pages(tree).lang(TextStr("en"));
    if !pages.is_empty() {
        root.outlines(outline).page_mode(pdf_writer::types::PageMode::UseOutlines);
    }
    root.finish();
    let info = numbers.next();
    let title = scenes.first().map_or("", |scene| scene.title.as_str());
    file.document_info(info).title(TextStr(title)).producer(TextStr("Wirewend"));
    file.finish()
}

fn page(file: &mut Pdf, scene: &Scene, id: Ref, tree: Ref, body: Ref, faces: &[(Font, Ref)]) {
    let (width, height) = scene.page.size();
    let mut page = file.page(id);
    let media = Rect::new(0.0, 0.0, short(width * POINTS_PER_MM), short(height * POINTS_PER_MM));
    page.media_box(media).parent(tree).contents(body);
    let mut resources = page.resources();
    let mut named = resources.fonts();
    for (font, face) in faces {
        named.pair(fonts::name(*font), *face);
    }
}

/// A bookmark a sheet, by the sheet's title.
fn bookmarks(file: &mut Pdf, scenes: &[Scene], pages: &[Ref], outline: Ref, numbers: &mut Numbers) {
    let items: Vec<Ref> = pages.iter().map(|_| numbers.next()).collect();
    let (Some(first), Some(last)) = (items.first(), items.last()) else { return };
    file.outline(outline).first(*first).last(*last).count(count(items.len()));
    for (index, (scene, page)) in scenes.iter().zip(pages).enumerate() {
        let mut item = file.outline_item(items[index]);
        item.title(TextStr(&scene.title)).parent(outline);
        if let Some(before) = index.checked_sub(1).and_then(|before| items.get(before)) {
            item.prev(*before);
        }
        if let Some(after) = items.get(index + 1) {
            item.next(*after);
        }
        item.dest().page(*page).fit();
    }
}

/// Hands out the numbers of objects.
struct Numbers(i32);

impl Numbers {
    const fn next(&mut self) -> Ref {
        self.0 += 1;
        Ref::new(self.0)
    }
}

fn count(items: usize) -> i32 {
    i32::try_from(items).unwrap_or(i32::MAX)
}

/// As a PDF holds numbers: thousandths, single precision.
fn short(value: f64) -> f32 {
    let value = if value.is_finite() { libm::round(value * 1000.0) / 1000.0 } else { 0.0 };
    #[expect(clippy::cast_possible_truncation, reason = "paper is small")]
    let short = value as f32;
    // Never minus nought.
    if short.abs() < 0.000_5 { 0.0 } else { short }
}

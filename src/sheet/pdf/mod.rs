//! Scenes as one PDF: a page for each, bookmarks by paper and sheet, and the
//! letters of the bundled fonts that occur, embedded, so that it looks and
//! reads the same everywhere.
//!
//! Nothing in it depends on the hour or the machine: the same scenes give the
//! same bytes. Written to ISO 32000-1.

mod bookmarks;
mod content;
mod fonts;
mod operators;
mod press;

use pdf_writer::{Filter, Finish as _, Name, Pdf, Rect, Ref, TextStr};

use self::content::{Form, Shared, Stream};
use self::fonts::Fonts;
use self::press::Press;
use super::lettering::Font;
use super::scene::Scene;
use super::{Page, PaperSize};

/// Points of an inch, as PDF counts, in a millimetre.
const POINTS_PER_MM: f64 = 72.0 / 25.4;
/// One PDF of these sheets, in this order, under a title.
#[must_use]
pub fn pdf(scenes: &[Scene], title: &str) -> Vec<u8> {
    let fonts = Fonts::of(scenes);
    let mut shared = Shared::default();
    scenes.iter().for_each(|scene| shared.note(scene));
    let bodies: Vec<Stream> =
        scenes.iter().map(|scene| content::of(scene, &fonts, &mut shared)).collect();
    let mut numbers = Numbers(0);
    let (catalog, tree, outline) = (numbers.next(), numbers.next(), numbers.next());
    let mut file = File {
        pdf: Pdf::with_capacity(
            bodies.iter().map(|body| body.bytes.len()).sum::<usize>().div_euclid(3),
        ),
        press: Press::new(),
        faces: Vec::new(),
        groups: Vec::new(),
        outlines: Vec::new(),
    };
    for font in Font::ALL.into_iter().filter(|font| fonts.uses(*font)) {
        let face = fonts.embed(font, &mut file.pdf, &mut file.press, &mut numbers);
        file.faces.push((font, face));
    }
    file.groups = shared.streams.iter().map(|_| numbers.next()).collect();
    file.outlines = shared.outlines.iter().map(|_| numbers.next()).collect();
    file.shared(&shared);
    let pages: Vec<Ref> = scenes.iter().map(|_| numbers.next()).collect();
    for ((scene, id), body) in scenes.iter().zip(&pages).zip(&bodies) {
        file.page(scene, *id, tree, numbers.next(), body);
    }
    let mut file = file.pdf;
    file.pages(tree).kids(pages.iter().copied()).count(count(pages.len()));
    bookmarks::write(&mut file, scenes, &pages, outline, &mut numbers);
    let mut root = file.catalog(catalog);
    root.pages(tree).lang(TextStr("en"));
    if !pages.is_empty() {
        root.outlines(outline).page_mode(pdf_writer::types::PageMode::UseOutlines);
    }
    root.finish();
    let info = numbers.next();
    file.document_info(info).title(TextStr(title)).producer(TextStr("Wirewend"));
    file.finish()
}

struct File {
    pdf: Pdf,
    press: Press,
    faces: Vec<(Font, Ref)>,
    groups: Vec<Ref>,
    outlines: Vec<Ref>,
}

impl File {
    /// What sheets draw from.
    fn shared(&mut self, shared: &Shared<'_>) {
        let (wide, high) = Page::landscape(PaperSize::A0).size();
        let (groups, outlines) = (self.groups.clone(), self.outlines.clone());
        for (stream, id) in shared.streams.iter().zip(groups) {
            let bytes = self.press.press(&stream.bytes);
            let mut form = self.pdf.form_xobject(id, &bytes);
            form.bbox(Rect::new(0.0, 0.0, short(wide), short(wide.max(high))));
            resources(form.resources(), &self.faces, &self.groups, &self.outlines, stream);
            form.filter(Filter::FlateDecode);
        }
        // Numbered as they were met, not as they are sorted.
        for ((font, glyph), number) in &shared.outlines {
            let (bytes, around) = content::outline(*font, *glyph);
            let bytes = self.press.press(&bytes);
            let mut form = self.pdf.form_xobject(outlines[*number], &bytes);
            let [x0, y0, x1, y1] = around.map(short);
            form.bbox(Rect::new(x0, y0, x1, y1)).filter(Filter::FlateDecode);
        }
    }

    fn page(&mut self, scene: &Scene, id: Ref, tree: Ref, body: Ref, stream: &Stream) {
        let (width, height) = scene.page.size();
        let mut page = self.pdf.page(id);
        let (width, height) = (short(width * POINTS_PER_MM), short(height * POINTS_PER_MM));
        page.media_box(Rect::new(0.0, 0.0, width, height)).parent(tree).contents(body);
        resources(page.resources(), &self.faces, &self.groups, &self.outlines, stream);
        page.finish();
        let bytes = self.press.press(&stream.bytes);
        self.pdf.stream(body, &bytes).filter(Filter::FlateDecode);
    }
}

/// What a stream calls by name.
fn resources(
    mut resources: pdf_writer::writers::Resources<'_>,
    faces: &[(Font, Ref)],
    groups: &[Ref],
    outlines: &[Ref],
    stream: &Stream,
) {
    let mut named = resources.fonts();
    for (font, face) in faces {
        named.pair(Name(fonts::name(*font).as_bytes()), *face);
    }
    named.finish();
    if stream.draws.is_empty() {
        return;
    }
    let mut named = resources.x_objects();
    for form in &stream.draws {
        let found = match form {
            Form::Group(at) => groups.get(*at),
            Form::Outline(at) => outlines.get(*at),
        };
        if let Some(found) = found {
            named.pair(Name(form.name().as_bytes()), *found);
        }
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

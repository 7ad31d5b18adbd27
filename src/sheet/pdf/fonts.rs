//! The letters that occur, embedded, with the table by which text is read back.

use std::collections::BTreeMap;

use pdf_writer::types::{CidFontType, FontFlags, SystemInfo, UnicodeCmap};
use pdf_writer::{Filter, Finish as _, Name, Pdf, Rect, Ref, Str};
use subsetter::GlyphRemapper;
use ttf_parser::GlyphId;

use super::press::Press;
use super::{Numbers, short};
use crate::sheet::lettering::{BOLD, Font, Glyph, REGULAR, SIGNS, Weight, glyph};
use crate::sheet::scene::{Item, Scene, Text};

/// Which glyphs of which font occur, and their numbers in the file.
pub(super) struct Fonts {
    used: BTreeMap<Font, Used>,
    /// The fonts and numbers of common signs, regular and bold in turn: nearly
    /// all lettering is of these.
    common: Vec<Option<(Font, u16)>>,
}

/// How many signs are common: the first two blocks of Unicode.
const COMMON: usize = 256;

/// Where a common sign stands among them.
fn place(sign: char, weight: Weight) -> Option<usize> {
    let at = usize::try_from(u32::from(sign)).ok().filter(|at| *at < COMMON)?;
    Some(2 * at + usize::from(weight == Weight::Bold))
}

#[derive(Default)]
struct Used {
    remap: GlyphRemapper,
    /// What each glyph reads as, by its new number.
    reads: BTreeMap<u16, char>,
}

/// The name by which pages call a font.
pub(super) const fn name(font: Font) -> &'static str {
    match font {
        Font::Regular => "R",
        Font::Bold => "B",
        Font::Signs => "S",
    }
}

impl Fonts {
    /// Those of all lettering of these scenes.
    pub(super) fn of(scenes: &[Scene]) -> Self {
        let mut fonts = Self { used: BTreeMap::new(), common: vec![None; 2 * COMMON] };
        for item in scenes.iter().flat_map(|scene| &scene.items) {
            fonts.take(item);
        }
        fonts
    }

    fn take(&mut self, item: &Item) {
        match item {
            Item::Path(_) => {}
            Item::Text(text) => {
                for sign in signs(text) {
                    let place = place(sign, text.weight);
                    if place.is_some_and(|at| self.common[at].is_some()) {
                        continue;
                    }
                    let Glyph { font, id, .. } = glyph(sign, text.weight);
                    let used = self.used.entry(font).or_default();
                    let number = used.remap.remap(id.0);
                    used.reads.entry(number).or_insert(sign);
                    if let Some(at) = place {
                        self.common[at] = Some((font, number));
                    }
                }
            }
            Item::Group(group) => group.items.iter().for_each(|item| self.take(item)),
        }
    }

    /// Whether a font occurs at all.
    pub(super) fn uses(&self, font: Font) -> bool {
        self.used.contains_key(&font)
    }

    /// A text as stretches of one font each, two bytes a glyph.
    pub(super) fn stretches(&self, text: &Text) -> Vec<(Font, Vec<u8>)> {
        let mut stretches: Vec<(Font, Vec<u8>)> = Vec::new();
        for sign in signs(text) {
            let (font, number) = self.numbered(sign, text.weight);
            match stretches.last_mut() {
                Some((last, bytes)) if *last == font => bytes.extend(number.to_be_bytes()),
                _ => stretches.push((font, number.to_be_bytes().to_vec())),
            }
        }
        stretches
    }

    /// The font of a sign and its number there.
    fn numbered(&self, sign: char, weight: Weight) -> (Font, u16) {
        place(sign, weight).and_then(|at| self.common[at]).unwrap_or_else(|| {
            let Glyph { font, id, .. } = glyph(sign, weight);
            let number = self.used.get(&font).and_then(|used| used.remap.get(id.0));
            (font, number.unwrap_or(0))
        })
    }

    /// Writes a font; the number of its object.
    pub(super) fn embed(
        &self,
        font: Font,
        file: &mut Pdf,
        press: &mut Press,
        numbers: &mut Numbers,
    ) -> Ref {
        let empty = Used::default();
        let used = self.used.get(&font).unwrap_or(&empty);
        let [type0, cid, descriptor, program, reads] = std::array::from_fn(|_| numbers.next());
        let base = base_name(font);
        let face = font.face();
        let per_em = 1000.0 / f64::from(face.units_per_em());
        let system =
            SystemInfo { registry: Str(b"Adobe"), ordering: Str(b"Identity"), supplement: 0 };
        file.type0_font(type0)
            .base_font(Name(base))
            .encoding_predefined(Name(b"Identity-H"))
            .descendant_font(cid)
            .to_unicode(reads);
        let outlines = font == Font::Signs;
        let mut kind = file.cid_font(cid);
        kind.subtype(if outlines { CidFontType::Type0 } else { CidFontType::Type2 })
            .base_font(Name(base))
            .system_info(system)
            .font_descriptor(descriptor)
            .default_width(600.0);
        if !outlines {
            kind.cid_to_gid_map_predefined(Name(b"Identity"));
        }
        let advances = used.remap.remapped_gids().map(|glyph| {
            // Its box takes as much room as every measure of text gives it.
            if glyph == 0 {
                return 600.0;
            }
            short(f64::from(face.glyph_hor_advance(GlyphId(glyph)).unwrap_or(0)) * per_em)
        });
        kind.widths().consecutive(0, advances);
        kind.finish();
        let scaled = |units: i16| short(f64::from(units) * per_em);
        let bounds = face.global_bounding_box();
        let mut about = file.font_descriptor(descriptor);
        about
            .name(Name(base))
            .flags(FontFlags::SYMBOLIC)
            .bbox(Rect::new(
                scaled(bounds.x_min),
                scaled(bounds.y_min),
                scaled(bounds.x_max),
                scaled(bounds.y_max),
            ))
            .italic_angle(0.0)
            .ascent(scaled(face.ascender()))
            .descent(scaled(face.descender()))
            .cap_height(scaled(face.capital_height().unwrap_or(714)))
            .stem_v(if font == Font::Bold { 140.0 } else { 80.0 });
        if outlines {
            about.font_file3(program);
        } else {
            about.font_file2(program);
        }
        about.finish();
        let bytes = press.press(&subset(font, &used.remap));
        let mut stream = file.stream(program, &bytes);
        stream.filter(Filter::FlateDecode);
        if outlines {
            stream.pair(Name(b"Subtype"), Name(b"CIDFontType0C"));
        }
        stream.finish();
        let mut cmap = UnicodeCmap::<u16>::new(Name(b"Reads"), system);
        for (number, sign) in &used.reads {
            cmap.pair(*number, *sign);
        }
        let bytes = press.press(cmap.finish().as_slice());
        file.stream(reads, &bytes).filter(Filter::FlateDecode);
        type0
    }
}

/// The glyphs that occur; the whole font where it cannot be made smaller.
fn subset(font: Font, remap: &GlyphRemapper) -> Vec<u8> {
    let whole = match font {
        Font::Regular => REGULAR,
        Font::Bold => BOLD,
        Font::Signs => SIGNS,
    };
    let small = subsetter::subset(whole, 0, remap).expect("the bundled fonts are whole");
    if font != Font::Signs {
        return small;
    }
    // A font file of its own wants the table of outlines alone.
    let parsed = ttf_parser::RawFace::parse(&small, 0).ok();
    let table = parsed.and_then(|face| face.table(ttf_parser::Tag::from_bytes(b"CFF ")));
    table.map_or_else(|| small.clone(), <[u8]>::to_vec)
}

/// As the standard wants the name of part of a font: six letters before it.
const fn base_name(font: Font) -> &'static [u8] {
    match font {
        Font::Regular => b"WWSHTR+NotoSans-Regular",
        Font::Bold => b"WWSHTB+NotoSans-Bold",
        Font::Signs => b"WWSHTS+B612-Regular",
    }
}

/// Its signs; a sign that controls is shown as a space.
pub(super) fn signs(text: &Text) -> impl Iterator<Item = char> + '_ {
    text.content.chars().map(|sign| if sign.is_control() { ' ' } else { sign })
}

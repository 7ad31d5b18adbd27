//! Lettering: heights, and widths measured in the bundled fonts.
//!
//! Everything is set in Noto Sans; signs that it lacks come from B612. Both are
//! bundled (`assets/fonts`) and are free under the SIL Open Font License.

use std::sync::OnceLock;

use ttf_parser::{Face, GlyphId};

/// Noto Sans Regular, as bundled.
pub const REGULAR: &[u8] = include_bytes!("../../assets/fonts/NotoSans-Regular.ttf");
/// Noto Sans Bold, as bundled.
pub const BOLD: &[u8] = include_bytes!("../../assets/fonts/NotoSans-Bold.ttf");
/// B612 Regular, for signs that Noto Sans lacks.
pub const SIGNS: &[u8] = include_bytes!("../../assets/fonts/B612-Regular.otf");

/// Heights of capitals, ISO 3098-1.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Lettering {
    /// 1.8 mm: for tags only.
    Tag,
    /// 2.5 mm: labels and notes.
    Note,
    /// 3.5 mm: room names, headings.
    Name,
    /// 5 mm: titles.
    Title,
    /// 7 mm: large titles.
    Large,
}

impl Lettering {
    /// How far descenders reach below the baseline, in heights of capitals
    /// (Noto Sans: 0.24 em, capitals 0.714 em).
    pub const DESCENT: f64 = 0.34;

    /// Height of the capitals, mm.
    #[must_use]
    pub const fn mm(self) -> f64 {
        match self {
            Self::Tag => 1.8,
            Self::Note => 2.5,
            Self::Name => 3.5,
            Self::Title => 5.0,
            Self::Large => 7.0,
        }
    }

    /// The font size that gives this height of capitals in Noto Sans, mm.
    #[must_use]
    pub fn font_size(self) -> f64 {
        self.mm() / fonts().capitals
    }
}

/// How heavy lettering is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Weight {
    /// As text.
    Regular,
    /// As headings.
    Bold,
}

struct Fonts {
    regular: Face<'static>,
    bold: Face<'static>,
    signs: Face<'static>,
    /// Height of capitals in ems.
    capitals: f64,
}

fn fonts() -> &'static Fonts {
    static FONTS: OnceLock<Fonts> = OnceLock::new();
    FONTS.get_or_init(|| {
        let face = |bytes| Face::parse(bytes, 0).expect("the bundled fonts are whole");
        let regular = face(REGULAR);
        let capitals =
            f64::from(regular.capital_height().unwrap_or(714)) / f64::from(regular.units_per_em());
        Fonts { regular, bold: face(BOLD), signs: face(SIGNS), capitals }
    })
}

/// How wide a line of text is, mm, without kerning.
#[must_use]
pub fn text_width(text: &str, height: Lettering, weight: Weight) -> f64 {
    let ems: f64 = text.chars().map(|sign| glyph(sign, weight).advance).sum();
    ems * height.font_size()
}

/// Whether the bundled fonts have this sign.
#[must_use]
pub fn has_sign(sign: char) -> bool {
    let fonts = fonts();
    fonts.regular.glyph_index(sign).is_some() || fonts.signs.glyph_index(sign).is_some()
}

/// One of the bundled fonts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) enum Font {
    Regular,
    Bold,
    Signs,
}

impl Font {
    /// All of them.
    pub(crate) const ALL: [Self; 3] = [Self::Regular, Self::Bold, Self::Signs];

    /// Its tables.
    pub(crate) fn face(self) -> &'static Face<'static> {
        match self {
            Self::Regular => &fonts().regular,
            Self::Bold => &fonts().bold,
            Self::Signs => &fonts().signs,
        }
    }
}

/// How a sign is drawn.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Glyph {
    pub(crate) font: Font,
    /// Glyph 0, an empty box, for a sign that no font has.
    pub(crate) id: GlyphId,
    /// How far it moves the pen, in ems.
    pub(crate) advance: f64,
}

/// The font and the glyph by which a sign is drawn.
pub(crate) fn glyph(sign: char, weight: Weight) -> Glyph {
    /// Signs up to here are looked up once: Latin letters with their accents.
    const COMMON: u32 = 0x180;
    static KNOWN: [OnceLock<Vec<Glyph>>; 2] = [const { OnceLock::new() }; 2];
    let at = match weight {
        Weight::Regular => 0,
        Weight::Bold => 1,
    };
    let known = KNOWN[at].get_or_init(|| {
        let signs = (0..COMMON).map(|code| char::from_u32(code).unwrap_or(' '));
        signs.map(|sign| look_up(sign, weight)).collect()
    });
    let place = usize::try_from(u32::from(sign)).unwrap_or(usize::MAX);
    known.get(place).copied().unwrap_or_else(|| look_up(sign, weight))
}

fn look_up(sign: char, weight: Weight) -> Glyph {
    let first = match weight {
        Weight::Regular => Font::Regular,
        Weight::Bold => Font::Bold,
    };
    let mut fonts = [first, Font::Signs].into_iter();
    let found = fonts.find_map(|font| Some((font, font.face().glyph_index(sign)?)));
    let Some((font, id)) = found.filter(|(_, id)| id.0 != 0) else {
        // A sign in neither font is drawn as a box about this wide.
        return Glyph { font: first, id: GlyphId(0), advance: 0.6 };
    };
    let face = font.face();
    let advance = f64::from(face.glyph_hor_advance(id).unwrap_or(0));
    Glyph { font, id, advance: advance / f64::from(face.units_per_em()) }
}

/// A text broken into lines no wider than this, at spaces but not between a
/// figure and its unit; what is wider by itself keeps a line of its own.
#[must_use]
pub(crate) fn wrap(text: &str, width: f64, height: Lettering, weight: Weight) -> Vec<String> {
    let space = text_width(" ", height, weight);
    let mut lines: Vec<String> = Vec::new();
    let mut taken = 0.0;
    for word in unbroken(text) {
        let wide = text_width(&word, height, weight);
        match lines.last_mut() {
            Some(line) if taken + space + wide <= width => {
                line.push(' ');
                line.push_str(&word);
                taken += space + wide;
            }
            _ => {
                lines.push(word);
                taken = wide;
            }
        }
    }
    lines
}

/// The same, a little narrower where one word would stand alone on the last
/// line and that helps.
#[must_use]
pub(crate) fn wrap_even(text: &str, width: f64, height: Lettering, weight: Weight) -> Vec<String> {
    let lines = wrap(text, width, height, weight);
    let is_alone = |lines: &[String]| {
        lines.len() > 1 && lines.last().is_some_and(|last| unbroken(last).len() == 1)
    };
    let mut tried = lines.clone();
    let mut narrower = width;
    while is_alone(&tried) && tried.len() == lines.len() && narrower > width / 2.0 {
        narrower -= 2.0;
        tried = wrap(text, narrower, height, weight);
    }
    if is_alone(&tried) || tried.len() > lines.len() { lines } else { tried }
}

/// The words of a text, figures together with their units.
fn unbroken(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        let bare = word.trim_end_matches([',', ';', '.', ':', ')']);
        match words.last_mut() {
            Some(last) if is_figure(last) && is_unit(bare) || last.ends_with('×') => {
                last.push(' ');
                last.push_str(word);
            }
            _ => words.push(word.to_owned()),
        }
    }
    words
}

fn is_figure(word: &str) -> bool {
    word.ends_with(|sign: char| sign.is_ascii_digit())
        && word
            .chars()
            .all(|sign| sign.is_ascii_digit() || matches!(sign, '.' | '-' | '(' | ' ' | '×'))
}

fn is_unit(word: &str) -> bool {
    const UNITS: [&str; 16] =
        ["m", "mm", "m²", "mm²", "A", "mA", "V", "W", "kW", "Ω", "MΩ", "ms", "%", "‰", "°C", "×"];
    UNITS.contains(&word)
}

/// A text cut to this width, with an ellipsis where something is missing.
#[must_use]
pub(crate) fn fitted(text: &str, width: f64, height: Lettering, weight: Weight) -> String {
    if text_width(text, height, weight) <= width {
        return text.to_owned();
    }
    let mut kept = text.to_owned();
    while kept.pop().is_some() {
        let shown = format!("{}…", kept.trim_end());
        if text_width(&shown, height, weight) <= width {
            return shown;
        }
    }
    String::new()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_figure_keeps_its_unit() {
        let narrow = |text: &str| wrap(text, 0.1, Lettering::Note, Weight::Regular);
        assert_eq!(narrow("leave 0.50 m; way"), ["leave", "0.50 m;", "way"]);
        assert_eq!(narrow("1 × 50.00 m, no. 4 wide"), ["1 × 50.00 m,", "no.", "4", "wide"]);
        assert_eq!(narrow("2 × 1.5 mm² + E flat"), ["2 × 1.5 mm²", "+", "E", "flat"]);
    }

    /// Advance widths read with another tool from the same files: in
    /// NotoSans-Regular `H` is 741 and `1` is 572 of 1000 units, capitals 714.
    #[test]
    fn widths_are_those_of_the_font() {
        let width = text_width("H1", Lettering::Note, Weight::Regular);
        assert!((width - 2.5 / 0.714 * (0.741 + 0.572)).abs() < 1e-9, "{width}");
    }

    #[test]
    fn long_text_is_wrapped_and_cut_to_width() {
        let lines =
            wrap("measure this bar before you scale", 30.0, Lettering::Note, Weight::Regular);
        assert!(lines.len() > 1, "must break");
        for line in &lines {
            assert!(text_width(line, Lettering::Note, Weight::Regular) <= 30.0, "{line}");
        }
        let cut = fitted("a very long name of a room", 20.0, Lettering::Note, Weight::Regular);
        assert!(cut.ends_with('…'), "{cut}");
    }
}

//! Lettering as outlines of the bundled fonts, the same on screen as on paper.

use std::sync::OnceLock;

use kurbo::{Affine, BezPath, Vec2};
use ttf_parser::{Face, OutlineBuilder};
use wirewend::sheet::{Anchor, BOLD, REGULAR, SIGNS, Text, Weight};

struct Faces {
    regular: Face<'static>,
    bold: Face<'static>,
    signs: Face<'static>,
}

fn faces() -> &'static Faces {
    static FACES: OnceLock<Faces> = OnceLock::new();
    FACES.get_or_init(|| {
        let face = |bytes| Face::parse(bytes, 0).expect("the bundled fonts are whole");
        Faces { regular: face(REGULAR), bold: face(BOLD), signs: face(SIGNS) }
    })
}

/// All signs of a line of lettering as one path in paper millimetres.
pub(in crate::app) fn outline(text: &Text) -> BezPath {
    let line = Affine::translate(text.at.to_vec2())
        * Affine::rotate(text.turn.to_radians())
        * Affine::translate(Vec2::new(
            match text.anchor {
                Anchor::Start => 0.0,
                Anchor::Middle => -text.width() / 2.0,
                Anchor::End => -text.width(),
            },
            0.0,
        ));
    let size = text.height.font_size();
    set(&text.content, size, text.weight, line)
}

/// A line of lettering that begins at the origin, `size` to the em.
pub(in crate::app) fn set(content: &str, size: f64, weight: Weight, onto: Affine) -> BezPath {
    let faces = faces();
    let first = match weight {
        Weight::Regular => &faces.regular,
        Weight::Bold => &faces.bold,
    };
    let mut path = BezPath::new();
    let mut at = 0.0;
    for sign in content.chars() {
        let found = [first, &faces.signs]
            .into_iter()
            .find_map(|face| face.glyph_index(sign).map(|glyph| (face, glyph)));
        let Some((face, glyph)) = found else {
            at += 0.6 * size;
            continue;
        };
        let scale = size / f64::from(face.units_per_em());
        let mut pen = Pen(BezPath::new());
        let _ = face.outline_glyph(glyph, &mut pen);
        let place = onto * Affine::new([scale, 0.0, 0.0, -scale, at, 0.0]);
        path.extend(place * pen.0);
        at += f64::from(face.glyph_hor_advance(glyph).unwrap_or(0)) * scale;
    }
    path
}

/// How wide a line of lettering is, `size` to the em.
pub(in crate::app) fn width(content: &str, size: f64) -> f64 {
    let height = wirewend::sheet::Lettering::Note;
    wirewend::sheet::text_width(content, height, Weight::Regular) / height.font_size() * size
}

struct Pen(BezPath);

impl OutlineBuilder for Pen {
    fn move_to(&mut self, x: f32, y: f32) {
        self.0.move_to((f64::from(x), f64::from(y)));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.0.line_to((f64::from(x), f64::from(y)));
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.0.quad_to((f64::from(x1), f64::from(y1)), (f64::from(x), f64::from(y)));
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let place = |x: f32, y: f32| (f64::from(x), f64::from(y));
        self.0.curve_to(place(x1, y1), place(x2, y2), place(x, y));
    }

    fn close(&mut self) {
        self.0.close_path();
    }
}

//! A scene as a drawing exchange file, in text, of the oldest dialect that
//! everything reads (release 12).
//!
//! Layers are the scene's. `y` runs up, one unit is one millimetre: of the
//! building where the scene has a scale, otherwise of the paper. Heavy lines are
//! as wide as on paper; curves become straight pieces. Grounds in the colour of
//! the paper, which only keep lines off letters, are left out. Group codes after
//! the published reference of the format.

use kurbo::{BezPath, PathEl, Point, Vec2};

use super::Ink;
use super::digits::Digits;
use super::scene::{Anchor, Item, Layer, LinePattern, Mark, Scene, Text};

/// How far straight pieces may stray from a curve, mm of paper.
const STRAY: f64 = 0.02;

/// The scene as the bytes of a file, a byte for every sign (Windows-1252, which
/// readers of this version expect).
#[must_use]
pub fn dxf(scene: &Scene) -> Vec<u8> {
    let grow = scene.scale.map_or(1.0, |scale| f64::from(scale.reduction()));
    let (width, height) = scene.page.size();
    let mut file = File { bytes: Vec::with_capacity(1 << 18), grow, height, layer: Vec::new() };
    file.layer_of(Layer::Frame);
    file.header(width * grow, height * grow);
    file.tables();
    file.pair(0, "SECTION");
    file.pair(2, "ENTITIES");
    for item in &scene.items {
        file.item(item);
    }
    file.pair(0, "ENDSEC");
    file.pair(0, "EOF");
    file.bytes
}

const LAYERS: [Layer; 12] = [
    Layer::Frame,
    Layer::Walls,
    Layer::Openings,
    Layer::Rooms,
    Layer::Runs,
    Layer::Points,
    Layer::Dimensions,
    Layer::Labels,
    Layer::Notes,
    Layer::TitleBlock,
    Layer::SheetNumber,
    Layer::Status,
];

const PATTERNS: [LinePattern; 4] = [
    LinePattern::Dashed,
    LinePattern::LongDashDot,
    LinePattern::DashDoubleDot,
    LinePattern::Dotted,
];

const fn line_type(pattern: LinePattern) -> &'static str {
    match pattern {
        LinePattern::Solid => "CONTINUOUS",
        LinePattern::Dashed => "WW_DASHED",
        LinePattern::LongDashDot => "WW_DASH_DOT",
        LinePattern::DashDoubleDot => "WW_DASH_DOT_DOT",
        LinePattern::Dotted => "WW_DOTTED",
    }
}

struct File {
    bytes: Vec<u8>,
    grow: f64,
    height: f64,
    /// What puts a thing on the layer at hand.
    layer: Vec<u8>,
}

impl File {
    fn pair(&mut self, code: u16, value: &str) {
        self.code(code);
        // All but letterings are plain, and of those signs are one byte each.
        if value.is_ascii() {
            self.bytes.extend_from_slice(value.as_bytes());
        } else {
            self.bytes.extend(value.chars().map(|sign| u8::try_from(sign).unwrap_or(b'?')));
        }
        self.bytes.extend_from_slice(b"\r\n");
    }

    fn code(&mut self, code: u16) {
        Digits::whole(u32::from(code)).end(&mut self.bytes);
        self.bytes.extend_from_slice(b"\r\n");
    }

    fn number(&mut self, code: u16, value: f64) {
        self.code(code);
        Digits::fixed::<3>(value).end(&mut self.bytes);
        self.bytes.extend_from_slice(b"\r\n");
    }

    fn layer_of(&mut self, layer: Layer) {
        self.layer.clear();
        self.layer.extend_from_slice(b"8\r\n");
        self.layer.extend(layer.name().bytes().map(|sign| sign.to_ascii_uppercase()));
        self.layer.extend_from_slice(b"\r\n");
    }

    /// The layer of what follows.
    fn on_layer(&mut self) {
        self.bytes.extend_from_slice(&self.layer);
    }

    fn place(&mut self, code: u16, at: Point) {
        self.number(code, at.x * self.grow);
        self.number(code + 10, (self.height - at.y) * self.grow);
    }

    fn header(&mut self, width: f64, height: f64) {
        let pages = [(9, "$DWGCODEPAGE"), (3, "ANSI_1252")];
        let version = [(0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, "AC1009")];
        for (code, value) in version.into_iter().chain(pages) {
            self.pair(code, value);
        }
        self.pair(9, "$EXTMIN");
        self.number(10, 0.0);
        self.number(20, 0.0);
        self.pair(9, "$EXTMAX");
        self.number(10, width);
        self.number(20, height);
        self.pair(0, "ENDSEC");
    }

    fn tables(&mut self) {
        self.pair(0, "SECTION");
        self.pair(2, "TABLES");
        self.pair(0, "TABLE");
        self.pair(2, "LTYPE");
        self.pair(70, "5");
        self.one_line_type("CONTINUOUS", &[]);
        for pattern in PATTERNS {
            let dashes = pattern.dashes(0.35);
            self.one_line_type(line_type(pattern), &dashes);
        }
        self.pair(0, "ENDTAB");
        self.pair(0, "TABLE");
        self.pair(2, "LAYER");
        self.pair(70, &LAYERS.len().to_string());
        for layer in LAYERS {
            let name = layer.name().to_uppercase();
            for (code, value) in
                [(0, "LAYER"), (2, name.as_str()), (70, "0"), (62, "7"), (6, "CONTINUOUS")]
            {
                self.pair(code, value);
            }
        }
        self.pair(0, "ENDTAB");
        self.pair(0, "ENDSEC");
    }

    fn one_line_type(&mut self, name: &str, dashes: &[f64]) {
        let (count, whole) = (dashes.len().to_string(), dashes.iter().sum::<f64>() * self.grow);
        for (code, value) in
            [(0, "LTYPE"), (2, name), (70, "0"), (3, ""), (72, "65"), (73, count.as_str())]
        {
            self.pair(code, value);
        }
        self.number(40, whole);
        for (index, dash) in dashes.iter().enumerate() {
            let sign = if index.is_multiple_of(2) { 1.0 } else { -1.0 };
            self.number(49, sign * dash * self.grow);
        }
    }

    fn item(&mut self, item: &Item) {
        match item {
            Item::Path(mark) => self.mark(mark),
            Item::Text(text) => self.lettering(text),
            Item::Group(group) => {
                let before = self.layer.clone();
                self.layer_of(group.layer);
                for item in &group.items {
                    self.item(item);
                }
                self.layer = before;
            }
        }
    }

    fn mark(&mut self, mark: &Mark) {
        let (ink, pattern) = match (mark.stroke, mark.fill) {
            (Some(stroke), _) => (stroke.ink, stroke.pattern),
            (None, Some(fill)) => (fill, LinePattern::Solid),
            (None, None) => return,
        };
        if matches!(ink, Ink::WHITE | Ink::PALE_GREY) {
            return;
        }
        // Walls and frames: readers draw a wide line without its dashes.
        let wide = mark.stroke.filter(|it| it.width >= 0.5 && it.pattern == LinePattern::Solid);
        let width = wide.map_or(0.0, |stroke| stroke.width);
        for (places, closed) in pieces(&mark.path) {
            if let Some(fill) =
                mark.fill.filter(|fill| !matches!(*fill, Ink::WHITE | Ink::PALE_GREY))
            {
                self.filled(&places, fill);
            }
            self.polyline(&places, closed, ink, pattern, width);
        }
    }

    fn begin(&mut self, kind: &str, ink: Ink) {
        self.pair(0, kind);
        self.on_layer();
        self.code(62);
        Digits::whole(u32::from(colour(ink))).end(&mut self.bytes);
        self.bytes.extend_from_slice(b"\r\n");
    }

    /// A filled shape as triangles, where it bulges nowhere inwards; of others
    /// the outline has to do.
    fn filled(&mut self, places: &[Point], ink: Ink) {
        let sides = places.iter().zip(places.iter().cycle().skip(1));
        let sides: Vec<Vec2> = sides.map(|(from, to)| *to - *from).collect();
        let turns = sides.iter().zip(sides.iter().cycle().skip(1)).map(|(a, b)| a.cross(*b));
        let (left, right) =
            turns.fold((0.0_f64, 0.0_f64), |(least, most), turn| (least.min(turn), most.max(turn)));
        if left < -1e-6 && right > 1e-6 {
            return;
        }
        for pair in places.windows(2).skip(1) {
            self.begin("SOLID", ink);
            for (code, at) in [(10, places[0]), (11, pair[0]), (12, pair[1]), (13, pair[1])] {
                self.place(code, at);
                self.number(code + 20, 0.0);
            }
        }
    }

    fn polyline(
        &mut self,
        places: &[Point],
        closed: bool,
        ink: Ink,
        pattern: LinePattern,
        width: f64,
    ) {
        if places.len() < 2 {
            return;
        }
        if let ([from, to], false) = (places, closed || width > 0.0) {
            self.begin("LINE", ink);
            self.pair(6, line_type(pattern));
            for (code, at) in [(10, *from), (11, *to)] {
                self.place(code, at);
                self.number(code + 20, 0.0);
            }
            return;
        }
        self.begin("POLYLINE", ink);
        self.pair(6, line_type(pattern));
        self.pair(66, "1");
        self.number(10, 0.0);
        self.number(20, 0.0);
        self.number(30, 0.0);
        self.pair(70, if closed { "1" } else { "0" });
        for code in [40, 41] {
            self.number(code, width * self.grow);
        }
        for place in places {
            self.pair(0, "VERTEX");
            self.on_layer();
            self.place(10, *place);
            self.number(30, 0.0);
        }
        self.pair(0, "SEQEND");
        self.on_layer();
    }

    fn lettering(&mut self, text: &Text) {
        if text.content.trim().is_empty() {
            return;
        }
        self.begin("TEXT", text.ink);
        self.place(10, text.at);
        self.number(30, 0.0);
        self.number(40, text.height.mm() * self.grow);
        self.pair(1, &escaped(&text.content));
        // Clockwise on paper, anticlockwise here.
        self.number(50, -text.turn);
        let justified = match text.anchor {
            Anchor::Start => return,
            Anchor::Middle => "1",
            Anchor::End => "2",
        };
        self.pair(72, justified);
        self.place(11, text.at);
        self.number(31, 0.0);
    }
}

/// The lines of a path, curves as straight pieces, and which are closed.
fn pieces(path: &BezPath) -> Vec<(Vec<Point>, bool)> {
    let mut pieces: Vec<(Vec<Point>, bool)> = Vec::new();
    kurbo::flatten(path, STRAY, |element| match element {
        PathEl::MoveTo(to) => pieces.push((vec![to], false)),
        PathEl::LineTo(to) => {
            if let Some(piece) = pieces.last_mut() {
                piece.0.push(to);
            }
        }
        PathEl::ClosePath => {
            if let Some(piece) = pieces.last_mut() {
                piece.1 = true;
            }
        }
        PathEl::QuadTo(..) | PathEl::CurveTo(..) => {}
    });
    pieces
}

/// The nearest of the format's 255 numbered colours, by hue; greys apart.
fn colour(ink: Ink) -> u16 {
    let [r, g, b] = [ink.red, ink.green, ink.blue].map(f64::from);
    let (most, least) = (r.max(g).max(b), r.min(g).min(b));
    if most - least < 8.0 {
        return [(50.0, 7), (160.0, 8)].into_iter().find(|it| most < it.0).map_or(9, |it| it.1);
    }
    let span = most - least;
    let hue = if r >= most {
        ((g - b) / span).rem_euclid(6.0)
    } else if g >= most {
        (b - r) / span + 2.0
    } else {
        (r - g) / span + 4.0
    };
    // Hues stand 15 degrees apart, from 10 for red, in tens.
    #[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "0 to 24")]
    let step = libm::round(hue * 4.0) as u16 % 24;
    10 + step * 10
}

/// The same byte in Windows-1252 as its number in Unicode.
const fn is_one_byte(sign: char) -> bool {
    matches!(sign, ' '..='~' | '\u{a0}'..='\u{ff}')
}

/// Signs that are no single byte as the format writes them.
fn escaped(text: &str) -> String {
    use std::fmt::Write as _;
    let mut escaped = String::new();
    for sign in text.chars() {
        if sign.is_control() {
            escaped.push(' ');
        } else if is_one_byte(sign) {
            escaped.push(sign);
        } else {
            let mut units = [0; 2];
            for unit in sign.encode_utf16(&mut units) {
                let _ = write!(escaped, "\\U+{unit:04X}");
            }
        }
    }
    escaped
}

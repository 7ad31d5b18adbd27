//! Lines, areas and letterings as the format has them.

use kurbo::{BezPath, PathEl, Point, Vec2};

use super::file::File;
use super::tables::line_type;
use super::text::escaped;
use crate::sheet::Ink;
use crate::sheet::scene::{Anchor, LinePattern, Mark, Text};

/// How far straight pieces may stray from a curve, mm of paper.
const STRAY: f64 = 0.02;

/// Grounds that only keep lines off letters.
const fn is_ground(ink: Ink) -> bool {
    matches!(ink, Ink::WHITE | Ink::PALE_GREY)
}

/// A line or an area.
pub(super) fn mark(file: &mut File, mark: &Mark) {
    let (ink, pattern) = match (mark.stroke, mark.fill) {
        (Some(stroke), _) => (stroke.ink, stroke.pattern),
        (None, Some(fill)) => (fill, LinePattern::Solid),
        (None, None) => return,
    };
    if is_ground(ink) {
        return;
    }
    // Walls and frames: readers draw a wide line without its dashes.
    let wide = mark.stroke.filter(|it| it.width >= 0.5 && it.pattern == LinePattern::Solid);
    let width = wide.map_or(0.0, |stroke| stroke.width);
    for (places, closed) in pieces(&mark.path) {
        if let Some(fill) = mark.fill.filter(|fill| !is_ground(*fill)) {
            filled(file, &places, fill);
        }
        polyline(file, &places, closed, (ink, pattern, width));
    }
}

/// A filled shape as triangles, where it bulges nowhere inwards; of others
/// the outline has to do.
fn filled(file: &mut File, places: &[Point], ink: Ink) {
    let sides = places.iter().zip(places.iter().cycle().skip(1));
    let sides: Vec<Vec2> = sides.map(|(from, to)| *to - *from).collect();
    let turns = sides.iter().zip(sides.iter().cycle().skip(1)).map(|(a, b)| a.cross(*b));
    let (left, right) =
        turns.fold((0.0_f64, 0.0_f64), |(least, most), turn| (least.min(turn), most.max(turn)));
    if left < -1e-6 && right > 1e-6 {
        return;
    }
    for pair in places.windows(2).skip(1) {
        file.begin("SOLID", ink);
        for (code, at) in [(10, places[0]), (11, pair[0]), (12, pair[1]), (13, pair[1])] {
            file.place(code, at);
            file.number(code + 20, 0.0);
        }
    }
}

fn polyline(
    file: &mut File,
    places: &[Point],
    closed: bool,
    (ink, pattern, width): (Ink, LinePattern, f64),
) {
    if places.len() < 2 {
        return;
    }
    let kind = line_type(pattern, file.space());
    if let ([from, to], false) = (places, closed || width > 0.0) {
        file.begin("LINE", ink);
        file.pair(6, kind);
        for (code, at) in [(10, *from), (11, *to)] {
            file.place(code, at);
            file.number(code + 20, 0.0);
        }
        return;
    }
    file.begin("POLYLINE", ink);
    file.pair(6, kind);
    file.pair(66, "1");
    for code in [10, 20, 30] {
        file.number(code, 0.0);
    }
    file.pair(70, if closed { "1" } else { "0" });
    for code in [40, 41] {
        file.number(code, width * file.times());
    }
    for place in places {
        file.pair(0, "VERTEX");
        file.on_layer();
        file.place(10, *place);
        file.number(30, 0.0);
    }
    file.pair(0, "SEQEND");
    file.on_layer();
}

/// A line of lettering, as high as on paper.
pub(super) fn lettering(file: &mut File, text: &Text) {
    if text.content.trim().is_empty() {
        return;
    }
    file.begin("TEXT", text.ink);
    file.place(10, text.at);
    file.number(30, 0.0);
    file.number(40, text.height.mm() * file.times());
    file.pair(1, &escaped(&text.content));
    // Clockwise on paper, anticlockwise here.
    file.number(50, -text.turn);
    let justified = match text.anchor {
        Anchor::Start => return,
        Anchor::Middle => "1",
        Anchor::End => "2",
    };
    file.pair(72, justified);
    file.place(11, text.at);
    file.number(31, 0.0);
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

//! What stands before the drawing: header, kinds of line, layers.

use kurbo::{Point, Rect};

use super::file::{File, Space};
use crate::sheet::scene::LinePattern;

const PATTERNS: [LinePattern; 4] = [
    LinePattern::Dashed,
    LinePattern::LongDashDot,
    LinePattern::DashDoubleDot,
    LinePattern::Dotted,
];

/// The kind of line of a pattern: its dashes are as long as on paper, so that
/// the building has others than the sheet.
pub(super) const fn line_type(pattern: LinePattern, space: Space) -> &'static str {
    match (pattern, space) {
        (LinePattern::Solid, _) => "CONTINUOUS",
        (LinePattern::Dashed, Space::Model) => "WW_DASHED",
        (LinePattern::LongDashDot, Space::Model) => "WW_DASH_DOT",
        (LinePattern::DashDoubleDot, Space::Model) => "WW_DASH_DOT_DOT",
        (LinePattern::Dotted, Space::Model) => "WW_DOTTED",
        (LinePattern::Dashed, Space::Paper) => "WW_DASHED_PAPER",
        (LinePattern::LongDashDot, Space::Paper) => "WW_DASH_DOT_PAPER",
        (LinePattern::DashDoubleDot, Space::Paper) => "WW_DASH_DOT_DOT_PAPER",
        (LinePattern::Dotted, Space::Paper) => "WW_DOTTED_PAPER",
    }
}

/// The header: the unit, how far the drawing reaches in both spaces (`model` as
/// on the scene's paper), and that the building is what is shown first.
pub(super) fn header(file: &mut File, model: Rect, sheet: Rect) {
    file.pairs(&[
        (0, "SECTION"),
        (2, "HEADER"),
        (9, "$ACADVER"),
        (1, "AC1009"),
        (9, "$DWGCODEPAGE"),
        (3, "ANSI_1252"),
        // Millimetres. The variable is younger than this version: readers that
        // do not know it pass over it.
        (9, "$INSUNITS"),
        (70, "4"),
        (9, "$TILEMODE"),
        (70, "1"),
        // Dashes are drawn for either space as they are.
        (9, "$PSLTSCALE"),
        (70, "0"),
    ]);
    let model = file.box_there(model);
    for (least, most, rect) in [("$EXTMIN", "$EXTMAX", model), ("$PEXTMIN", "$PEXTMAX", sheet)] {
        corner(file, least, Point::new(rect.x0, rect.y0));
        corner(file, most, Point::new(rect.x1, rect.y1));
    }
    file.pair(0, "ENDSEC");
}

fn corner(file: &mut File, name: &str, at: Point) {
    file.pair(9, name);
    file.number(10, at.x);
    file.number(20, at.y);
    file.number(30, 0.0);
}

/// The kinds of line and the layers.
pub(super) fn tables(file: &mut File, layers: &[String]) {
    file.pairs(&[(0, "SECTION"), (2, "TABLES"), (0, "TABLE"), (2, "LTYPE"), (70, "9")]);
    one_line_type(file, "CONTINUOUS", &[], 1.0);
    for (space, times) in [(Space::Model, file.grow), (Space::Paper, 1.0)] {
        for pattern in PATTERNS {
            one_line_type(file, line_type(pattern, space), &pattern.dashes(0.35), times);
        }
    }
    file.pairs(&[(0, "ENDTAB"), (0, "TABLE"), (2, "LAYER")]);
    file.pair(70, &layers.len().to_string());
    for name in layers {
        file.pairs(&[(0, "LAYER"), (2, name), (70, "0"), (62, "7"), (6, "CONTINUOUS")]);
    }
    // What the window of the sheet is told by.
    file.pairs(&[(0, "ENDTAB"), (0, "TABLE"), (2, "APPID"), (70, "1")]);
    file.pairs(&[(0, "APPID"), (2, "ACAD"), (70, "0"), (0, "ENDTAB"), (0, "ENDSEC")]);
}

fn one_line_type(file: &mut File, name: &str, dashes: &[f64], times: f64) {
    let (count, whole) = (dashes.len().to_string(), dashes.iter().sum::<f64>() * times);
    file.pairs(&[(0, "LTYPE"), (2, name), (70, "0"), (3, ""), (72, "65"), (73, &count)]);
    file.number(40, whole);
    for (index, dash) in dashes.iter().enumerate() {
        let sign = if index.is_multiple_of(2) { 1.0 } else { -1.0 };
        file.number(49, sign * dash * times);
    }
}

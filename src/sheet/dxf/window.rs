//! The window through which a sheet shows the building at its scale, as this
//! version tells it: in data besides the thing itself.

use kurbo::Rect;

use super::file::{File, Space};
use super::layers::WINDOW;

/// A window on the sheet over what the model shows there, and the sheet's own
/// view of itself, which comes first. `shown` is what of the scene's paper the
/// building takes, `sheet` all of the paper.
pub(super) fn windows(file: &mut File, shown: Rect, sheet: Rect) {
    file.layer(WINDOW, Space::Model);
    let seen = file.box_there(shown);
    file.layer(WINDOW, Space::Paper);
    let at = file.box_there(shown);
    window(file, "1", sheet, sheet);
    window(file, "2", at, seen);
}

/// One window that lies at a place of the sheet and sees a part of the model.
fn window(file: &mut File, number: &str, at: Rect, seen: Rect) {
    let (centre, middle) = (at.center(), seen.center());
    file.pair(0, "VIEWPORT");
    file.on_layer();
    for (code, value) in [(10, centre.x), (20, centre.y), (30, 0.0)] {
        file.number(code, value);
    }
    file.number(40, at.width());
    file.number(41, at.height());
    file.pairs(&[(68, number), (69, number)]);
    file.pairs(&[(1001, "ACAD"), (1000, "MVIEW"), (1002, "{"), (1070, "16")]);
    // What it looks at, and from above.
    for (x, y, z) in [(0.0, 0.0, 0.0), (0.0, 0.0, 1.0)] {
        for (code, value) in [(1010, x), (1020, y), (1030, z)] {
            file.number(code, value);
        }
    }
    // Not turned; how high and where; an even lens, nothing cut off in depth.
    for value in [0.0, seen.height(), middle.x, middle.y, 50.0, 0.0, 0.0] {
        file.number(1040, value);
    }
    // Plain view, and neither snapping nor grid.
    for value in ["0", "100", "1", "0", "0", "0", "0", "0"] {
        file.pair(1070, value);
    }
    for value in [0.0, 0.0, 0.0, 1.0, 1.0, 1.0, 1.0] {
        file.number(1040, value);
    }
    // Nothing hidden, no layer frozen.
    file.pairs(&[(1070, "0"), (1002, "{"), (1002, "}"), (1002, "}")]);
}

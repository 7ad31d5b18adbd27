//! What the surface itself paints: the grid, and what moves.

use iced::widget::canvas::Frame;
use iced::{Color, Size};
use kurbo::{Affine, BezPath, Point, Rect, Shape as _, Vec2};
use wirewend::session::state::{Camera, Sketch, Touch};
use wirewend::sheet::Weight;

use crate::app::canvas::lettering;
use crate::app::canvas::paint::{fill_path, path_of, point, short, stroke_path};
use crate::app::canvas::theme::Look;

/// A metre grid that steps back, so that an empty sheet has a scale.
pub(super) fn grid(frame: &mut Frame, camera: Camera, look: &Look) {
    let metre = 1000.0 / camera.reach(1.0);
    let step = if metre >= 14.0 { metre } else { metre * 5.0 };
    if step < 10.0 {
        return;
    }
    let (width, height) = (f64::from(frame.width()), f64::from(frame.height()));
    let mut lines = BezPath::new();
    let mut x = camera.origin.x.rem_euclid(step);
    while x < width {
        lines.move_to((x, 0.0));
        lines.line_to((x, height));
        x += step;
    }
    let mut y = camera.origin.y.rem_euclid(step);
    while y < height {
        lines.move_to((0.0, y));
        lines.line_to((width, y));
        y += step;
    }
    stroke_path(frame, &lines, look.grid, 0.6);
}

/// Paints what moves.
pub(super) fn sketched(frame: &mut Frame, sketch: &Sketch, look: &Look, size: Size) {
    let surface = Rect::new(0.0, 0.0, f64::from(size.width), f64::from(size.height));
    let labels: Vec<(BezPath, Rect)> =
        sketch.labels.iter().map(|(at, says)| label(*at, says, surface)).collect();
    let lines = sketch.lines.iter().map(|(path, _)| path.bounding_box());
    let all = lines.chain(labels.iter().map(|(_, around)| *around)).reduce(|a, b| a.union(b));
    let Some(all) = all else { return };
    // The renderer repaints what shapes cover without their outlines.
    let all = all.inflate(6.0, 6.0).intersect(surface);
    if all.width() <= 0.0 || all.height() <= 0.0 {
        return;
    }
    let extent = Size::new(short(all.width()), short(all.height()));
    frame.fill_rectangle(point(all.origin()), extent, Color::TRANSPARENT);
    for (path, touch) in &sketch.lines {
        let (colour, width) = match touch {
            Touch::New => (look.accent, 2.0),
            Touch::Guide => (Color { a: 0.6, ..look.accent }, 1.0),
            Touch::Chosen => (look.accent, 1.8),
            Touch::Over => (Color { a: 0.55, ..look.accent }, 1.2),
        };
        stroke_path(frame, path, colour, width);
    }
    for (path, around) in &labels {
        fill_path(frame, &around.to_rounded_rect(3.0).to_path(0.2), look.raised);
        stroke_path(frame, &around.to_rounded_rect(3.0).to_path(0.2), look.rule, 1.0);
        frame.fill(&path_of(path), look.text);
    }
}

/// Size of labels that move with the pointer, pixels to the em.
const LABEL: f64 = 13.0;

/// A label beside a place, kept on the surface: its lettering and its ground.
fn label(at: Point, says: &str, surface: Rect) -> (BezPath, Rect) {
    let width = lettering::width(says, LABEL);
    let mut foot = at + Vec2::new(16.0, -14.0);
    foot.x = foot.x.min(surface.x1 - width - 10.0).max(8.0);
    foot.y = foot.y.max(22.0);
    let path = lettering::set(says, LABEL, Weight::Regular, Affine::translate(foot.to_vec2()));
    (path, Rect::new(foot.x - 6.0, foot.y - 14.0, foot.x + width + 6.0, foot.y + 6.0))
}

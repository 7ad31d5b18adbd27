//! Paints the scene of a sheet on a canvas: the second painter beside SVG.

use iced::widget::canvas::{self, Frame, LineDash, Path, fill};
use iced::{Color, Point, Vector};
use kurbo::{BezPath, PathEl, Rect, Shape as _};
use wirewend::session::state::Camera;
use wirewend::sheet::{Ink, Item, LinePattern, Mark, Stroke, Text};

use crate::app::canvas::lettering;
use crate::app::canvas::theme::Look;

/// A mark made ready for the canvas, in paper millimetres.
#[derive(Clone, Debug)]
pub(in crate::app) struct Ready {
    path: Path,
    bounds: Rect,
    fill: Option<Ink>,
    stroke: Option<Stroke>,
}

/// All marks of a scene, made ready in painting order.
pub(in crate::app) fn ready(items: &[Item]) -> Vec<Ready> {
    let mut all = Vec::new();
    items.iter().for_each(|item| add(item, &mut all));
    all
}

fn add(item: &Item, all: &mut Vec<Ready>) {
    match item {
        Item::Path(mark) => all.push(mark_of(mark)),
        Item::Text(text) => add_text(text, all),
        Item::Group(group) => group.items.iter().for_each(|item| add(item, all)),
    }
}

fn mark_of(mark: &Mark) -> Ready {
    Ready { path: path_of(&mark.path), bounds: mark.bounds(), fill: mark.fill, stroke: mark.stroke }
}

fn add_text(text: &Text, all: &mut Vec<Ready>) {
    let outline = lettering::outline(text);
    let (path, bounds) = (path_of(&outline), outline.bounding_box());
    if text.halo {
        let stroke = Stroke::solid(Ink::WHITE, text.height.mm() * 0.32);
        let halo = Ready { path: path.clone(), bounds, fill: None, stroke: Some(stroke) };
        all.push(halo);
    }
    all.push(Ready { path, bounds, fill: Some(text.ink), stroke: None });
}

/// A path for the canvas, coordinates as they are.
pub(in crate::app) fn path_of(path: &BezPath) -> Path {
    Path::new(|builder| {
        for element in path.elements() {
            match *element {
                PathEl::MoveTo(to) => builder.move_to(point(to)),
                PathEl::LineTo(to) => builder.line_to(point(to)),
                PathEl::QuadTo(a, to) => builder.quadratic_curve_to(point(a), point(to)),
                PathEl::CurveTo(a, b, to) => {
                    builder.bezier_curve_to(point(a), point(b), point(to));
                }
                PathEl::ClosePath => builder.close(),
            }
        }
    })
}

/// A place for the canvas.
pub(in crate::app) fn point(at: kurbo::Point) -> Point {
    Point::new(short(at.x), short(at.y))
}

/// A number for the canvas.
#[expect(clippy::cast_possible_truncation, reason = "the toolkit draws in f32")]
pub(in crate::app) const fn short(value: f64) -> f32 {
    value as f32
}

impl Ready {
    /// The box around it, its line included, mm.
    pub(in crate::app) fn bounds(&self) -> Rect {
        let half = self.stroke.map_or(0.0, |stroke| stroke.width / 2.0);
        self.bounds.inflate(half, half)
    }
}

/// Paints what can be seen of it where this part of the paper is shown.
pub(in crate::app) fn paint(
    frame: &mut Frame,
    marks: &[Ready],
    camera: Camera,
    shown: Rect,
    look: &Look,
) {
    frame.with_save(|frame| {
        let origin = point(camera.origin);
        frame.translate(Vector::new(origin.x, origin.y));
        frame.scale(short(camera.zoom));
        for mark in marks {
            if overlaps(mark.bounds, shown) {
                one(frame, mark, camera.zoom, look);
            }
        }
    });
}

fn overlaps(one: Rect, other: Rect) -> bool {
    one.x0 <= other.x1 && other.x0 <= one.x1 && one.y0 <= other.y1 && other.y0 <= one.y1
}

fn one(frame: &mut Frame, mark: &Ready, zoom: f64, look: &Look) {
    if let Some(ink) = mark.fill {
        let style =
            fill::Fill { style: canvas::Style::Solid(look.ink(ink)), rule: fill::Rule::EvenOdd };
        frame.fill(&mark.path, style);
    }
    if let Some(stroke) = mark.stroke {
        // No line thinner than the screen can show.
        let width = (stroke.width * zoom).max(0.6);
        let dashes = dashes(stroke.pattern, width);
        let line = canvas::Stroke {
            style: canvas::Style::Solid(look.ink(stroke.ink)),
            width: short(width),
            line_join: canvas::LineJoin::Round,
            line_dash: LineDash { segments: &dashes, offset: 0 },
            ..canvas::Stroke::default()
        };
        frame.stroke(&mark.path, line);
    }
}

fn dashes(pattern: LinePattern, width: f64) -> Vec<f32> {
    pattern.dashes(width).into_iter().map(short).collect()
}

/// Fills a path given in pixels.
pub(in crate::app) fn fill_path(frame: &mut Frame, path: &BezPath, colour: Color) {
    frame.fill(&path_of(path), colour);
}

/// Strokes a path given in pixels.
pub(in crate::app) fn stroke_path(frame: &mut Frame, path: &BezPath, colour: Color, width: f64) {
    let stroke = canvas::Stroke::default()
        .with_color(colour)
        .with_width(short(width))
        .with_line_join(canvas::LineJoin::Round)
        .with_line_cap(canvas::LineCap::Round);
    frame.stroke(&path_of(path), stroke);
}

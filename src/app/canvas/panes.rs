//! The layers of the sheet on the canvas: each is painted once and kept until
//! it or the view changes.

use std::cell::RefCell;
use std::sync::Arc;

use iced::widget::canvas::{self, Geometry};
use iced::{Rectangle, Renderer, Size};
use kurbo::{Affine, BezPath, Rect, Vec2};
use wirewend::plan::Severity;
use wirewend::session::state::{Camera, Sketch};
use wirewend::session::work::Thing;
use wirewend::sheet::Weight;
use wirewend::units::Point2;

use crate::app::canvas::layers::{CanvasLayer, CanvasLayers};
use crate::app::canvas::lettering;
use crate::app::canvas::paint::{fill_path, paint, short, stroke_path};
use crate::app::canvas::theme::Look;

/// What is kept of the sheet.
#[derive(Debug, Default)]
pub(in crate::app) struct Panes {
    /// Paper and grid.
    pub(in crate::app) ground: canvas::Cache,
    /// Pins, and which they are.
    pub(in crate::app) pins: canvas::Cache,
    pub(in crate::app) pinned: RefCell<Sketch>,
    panes: Vec<Pane>,
}

#[derive(Debug)]
struct Pane {
    layer: Arc<CanvasLayer>,
    stays: bool,
    cache: canvas::Cache,
}

/// How far signs and lines reach beyond their box, pixels.
const BEYOND: f64 = 10.0;

impl Panes {
    /// Takes the layers of a new picture; those that are the same are kept.
    pub(in crate::app) fn take(&mut self, layers: &CanvasLayers) {
        let mut old = std::mem::take(&mut self.panes).into_iter();
        for (layer, stays) in layers.all() {
            let pane = old.next().filter(|pane| Arc::ptr_eq(&pane.layer, layer));
            let new = || Pane { layer: Arc::clone(layer), stays, cache: canvas::Cache::new() };
            self.panes.push(pane.unwrap_or_else(new));
        }
    }

    /// The view has changed: all is painted anew.
    pub(in crate::app) fn clear(&self) {
        self.ground.clear();
        self.pins.clear();
        self.panes.iter().for_each(|pane| pane.cache.clear());
    }

    /// The layers, the lowest first.
    pub(in crate::app) fn draw<'a>(
        &'a self,
        renderer: &'a Renderer,
        size: Size,
        camera: Camera,
        look: &'a Look,
    ) -> impl Iterator<Item = Geometry> + 'a {
        self.panes.iter().map(move |pane| {
            let whole = Rectangle::with_size(size);
            let bounds = if pane.stays { whole } else { pane.around(camera, whole) };
            pane.cache.draw_with_bounds(renderer, bounds, |frame| {
                let shown = camera.shown(size.width.into(), size.height.into());
                for piece in &pane.layer.pieces {
                    match piece.thing {
                        Thing::Drawn(_) => paint(frame, &piece.marks, camera, shown, look),
                        Thing::Found(at, severity) => sign(frame, camera, look, at, severity),
                    }
                }
            })
        })
    }
}

impl Pane {
    /// The part of the surface that it covers: what is repainted when it
    /// changes.
    fn around(&self, camera: Camera, whole: Rectangle) -> Rectangle {
        let Some(paper) = self.layer.bounds else { return Rectangle::default() };
        let corners = (paper.origin(), kurbo::Point::new(paper.x1, paper.y1));
        let screen = Rect::from_points(camera.paper(corners.0), camera.paper(corners.1));
        let screen = screen.inflate(BEYOND, BEYOND).expand();
        let bounds = Rectangle {
            x: short(screen.x0),
            y: short(screen.y0),
            width: short(screen.width()),
            height: short(screen.height()),
        };
        bounds.intersection(&whole).unwrap_or_default()
    }
}

/// A triangle at a place that something was found at.
fn sign(frame: &mut canvas::Frame, camera: Camera, look: &Look, place: Point2, severity: Severity) {
    let colour = if severity == Severity::Fault { look.fault } else { look.warning };
    let at = camera.screen_of(place);
    let mut path = BezPath::new();
    path.move_to(at + Vec2::new(0.0, -7.0));
    path.line_to(at + Vec2::new(7.0, 5.0));
    path.line_to(at + Vec2::new(-7.0, 5.0));
    path.close_path();
    fill_path(frame, &path, colour);
    stroke_path(frame, &path, look.paper, 1.0);
    let onto = Affine::translate(at.to_vec2() + Vec2::new(-1.6, 3.6));
    fill_path(frame, &lettering::set("!", 10.0, Weight::Bold, onto), look.paper);
}

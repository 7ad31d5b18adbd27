//! The sheet on the screen: takes the pointer, paints the scene.

use iced::keyboard::{self, key};
use iced::widget::canvas::{self, Action, Frame, Geometry};
use iced::{Color, Event, Point as Spot, Rectangle, Renderer, Size, Theme, mouse, window};
use kurbo::{Affine, BezPath, Point, Rect, Shape as _, Vec2};
use wirewend::plan::Severity;
use wirewend::sheet::Weight;
use wirewend::units::Mm;

use super::camera::Camera;
use super::desk::Desk;
use super::keys::{Step, Tool};
use super::lettering;
use super::paint::{fill_path, paint, path_of, point, short, stroke_path};
use super::sketch::{Sketch, Touch};
use super::theme::Look;
use super::work::Picture;
use super::{Message, ground};

/// What happens on the sheet; places in pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Touched {
    Resized(f64, f64),
    Press { at: Point, also: bool },
    Moved(Point),
    Release,
    Left,
    View(Camera),
}

/// The sheet's canvas.
pub(super) struct Surface<'a> {
    pub(super) desk: &'a Desk,
    pub(super) look: &'a Look,
    pub(super) cache: &'a canvas::Cache,
}

/// What the canvas itself remembers.
#[derive(Debug, Default)]
pub(super) struct Grip {
    pan: Option<Point>,
    space: bool,
    shift: bool,
}

impl canvas::Program<Message> for Surface<'_> {
    type State = Grip;

    fn update(
        &self,
        grip: &mut Grip,
        event: &Event,
        bounds: Rectangle,
        cursor: mouse::Cursor,
    ) -> Option<Action<Message>> {
        let (width, height) = (f64::from(bounds.width), f64::from(bounds.height));
        let sized =
            (self.desk.size.0 - width).abs() < 0.5 && (self.desk.size.1 - height).abs() < 0.5;
        if let Event::Window(window::Event::RedrawRequested(_)) = event
            && !sized
        {
            return Some(said(Touched::Resized(width, height)));
        }
        let local = cursor.position_from(bounds.position()).map(exact);
        let inside = cursor.position_in(bounds).map(exact);
        match event {
            // Keys come this way and not by a subscription, so that they and
            // clicks are taken in the order in which they were made.
            Event::Keyboard(event) => {
                keys(grip, event);
                let pressed = matches!(event, keyboard::Event::KeyPressed { .. });
                pressed.then(|| Action::publish(Message::Key(event.clone())))
            }
            Event::Mouse(event) => self.mouse(grip, *event, inside, local),
            _ => None,
        }
    }

    fn draw(
        &self,
        _: &Grip,
        renderer: &Renderer,
        _: &Theme,
        bounds: Rectangle,
        _: mouse::Cursor,
    ) -> Vec<Geometry> {
        let sheet = self.cache.draw(renderer, bounds.size(), |frame| {
            let printed = self.desk.step == Step::Papers;
            if !printed {
                grid(frame, self.desk.camera, self.look);
                ground::paint(frame, self.desk, self.look);
            }
            if let Some(picture) = &self.desk.picture {
                paint(frame, &picture.marks, self.desk.camera, self.look);
                if !printed {
                    warnings(frame, self.desk, picture, self.look);
                }
            }
        });
        let mut live = Frame::new(renderer, bounds.size());
        sketched(&mut live, &self.desk.sketch(), self.look, bounds.size());
        vec![sheet, live.into_geometry()]
    }

    fn mouse_interaction(
        &self,
        grip: &Grip,
        bounds: Rectangle,
        cursor: mouse::Cursor,
    ) -> mouse::Interaction {
        let moves = self.desk.survey.reshape.as_ref().is_some_and(|held| held.edit.is_some());
        if grip.pan.is_some() || moves || self.desk.hold.is_some_and(|hold| hold.to.is_some()) {
            mouse::Interaction::Grabbing
        } else if !cursor.is_over(bounds) {
            mouse::Interaction::default()
        } else if grip.space {
            mouse::Interaction::Grab
        } else if self.desk.tool == Tool::Hand {
            mouse::Interaction::default()
        } else {
            mouse::Interaction::Crosshair
        }
    }
}

impl Surface<'_> {
    fn mouse(
        &self,
        grip: &mut Grip,
        event: mouse::Event,
        inside: Option<Point>,
        local: Option<Point>,
    ) -> Option<Action<Message>> {
        match event {
            mouse::Event::ButtonPressed(mouse::Button::Middle) => {
                grip.pan = Some(inside?);
                Some(Action::capture())
            }
            mouse::Event::ButtonPressed(mouse::Button::Left) => {
                let at = inside?;
                if grip.space {
                    grip.pan = Some(at);
                    return Some(Action::capture());
                }
                Some(said(Touched::Press { at, also: grip.shift }))
            }
            mouse::Event::ButtonReleased(mouse::Button::Middle | mouse::Button::Left) => {
                if grip.pan.take().is_some() {
                    return Some(Action::capture());
                }
                self.desk.drags().then(|| said(Touched::Release))
            }
            mouse::Event::CursorMoved { .. } => {
                if let Some(from) = grip.pan {
                    let now = local?;
                    grip.pan = Some(now);
                    return Some(said(Touched::View(self.desk.camera.moved(now - from))));
                }
                if self.desk.drags() {
                    return local.map(|at| said(Touched::Moved(at)));
                }
                match inside {
                    Some(at) => Some(Action::publish(Message::Sheet(Touched::Moved(at)))),
                    None if self.desk.pointer.is_some() => {
                        Some(Action::publish(Message::Sheet(Touched::Left)))
                    }
                    None => None,
                }
            }
            mouse::Event::WheelScrolled { delta } => {
                let about = inside?;
                let camera = match delta {
                    mouse::ScrollDelta::Lines { y, .. } => {
                        self.desk.camera.zoomed(about, libm::pow(1.18, f64::from(y)))
                    }
                    // Two fingers on a pad: they push the paper.
                    mouse::ScrollDelta::Pixels { x, y } => {
                        self.desk.camera.moved(Vec2::new(f64::from(x), f64::from(y)))
                    }
                };
                Some(said(Touched::View(camera)))
            }
            _ => None,
        }
    }
}

fn said(touched: Touched) -> Action<Message> {
    Action::publish(Message::Sheet(touched)).and_capture()
}

fn keys(grip: &mut Grip, event: &keyboard::Event) {
    let space = |of: &keyboard::Key| *of == keyboard::Key::Named(key::Named::Space);
    match event {
        keyboard::Event::KeyPressed { key, .. } if space(key) => grip.space = true,
        keyboard::Event::KeyReleased { key, .. } if space(key) => grip.space = false,
        keyboard::Event::ModifiersChanged(modifiers) => grip.shift = modifiers.shift(),
        _ => {}
    }
}

fn exact(at: Spot) -> Point {
    Point::new(at.x.into(), at.y.into())
}

/// A metre grid that steps back, so that an empty sheet has a scale.
fn grid(frame: &mut Frame, camera: Camera, look: &Look) {
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

/// A triangle at every place of the level that something was found at.
fn warnings(frame: &mut Frame, desk: &Desk, picture: &Picture, look: &Look) {
    let Some(level) = desk.level.and_then(|level| picture.plan.levels.get(&level)) else { return };
    for finding in &picture.findings {
        let colour = match finding.severity {
            Severity::Fault => look.fault,
            Severity::Warning => look.warning,
            Severity::Missing | Severity::Note => continue,
        };
        let Some(place) = finding.place else { continue };
        // A void above belongs to the level beneath it.
        if place.z < level.floor || place.z > level.ceiling() + VOID {
            continue;
        }
        let at = desk.camera.screen_of(place.on_floor());
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
}

/// How far above a ceiling still belongs to its level, mm.
const VOID: Mm = Mm::new(400);

/// Paints what moves.
fn sketched(frame: &mut Frame, sketch: &Sketch, look: &Look, size: Size) {
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

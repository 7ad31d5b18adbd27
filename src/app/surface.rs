//! The sheet on the screen: takes the pointer, paints the scene.

use iced::keyboard::{self, key};
use iced::widget::canvas::{self, Action, Frame, Geometry};
use iced::{Color, Event, Point as Spot, Rectangle, Renderer, Size, Theme, mouse, window};
use kurbo::{Affine, BezPath, Point, Rect, Shape as _, Vec2};
use wirewend::sheet::Weight;

use super::camera::Camera;
use super::desk::Desk;
use super::keys::{Step, Tool};
use super::lettering;
use super::paint::{fill_path, path_of, point, short, stroke_path};
use super::panes::Panes;
use super::sketch::{Sketch, Touch};
use super::theme::Look;
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
    pub(super) panes: &'a Panes,
}

/// What the canvas itself remembers.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Grip {
    pan: Option<Point>,
    /// Where the pointer was said to be last. What the toolkit tells of it is
    /// where it is when several events are taken at once, not where it was.
    at: Option<Spot>,
    space: bool,
    shift: bool,
    command: bool,
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
        match event {
            Event::Mouse(mouse::Event::CursorMoved { position }) => grip.at = Some(*position),
            Event::Mouse(mouse::Event::CursorLeft) => grip.at = None,
            _ => {}
        }
        let cursor = match (cursor, grip.at) {
            (mouse::Cursor::Available(_), Some(at)) => mouse::Cursor::Available(at),
            (cursor, _) => cursor,
        };
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
        let size = bounds.size();
        let ground = self.panes.ground.draw(renderer, size, |frame| {
            if self.desk.step != Step::Papers {
                grid(frame, self.desk.camera, self.look);
                ground::paint(frame, self.desk, self.look);
            }
        });
        let mut all = vec![ground];
        all.extend(self.panes.draw(renderer, size, self.desk.camera, self.look));
        let mut live = Frame::new(renderer, size);
        sketched(&mut live, &self.desk.sketch(), self.look, size);
        all.push(live.into_geometry());
        all
    }

    fn mouse_interaction(
        &self,
        grip: &Grip,
        bounds: Rectangle,
        cursor: mouse::Cursor,
    ) -> mouse::Interaction {
        let moves = self.desk.survey.reshape.as_ref().is_some_and(|held| held.edit.is_some());
        if grip.pan.is_some()
            || moves
            || self.desk.hold.as_ref().is_some_and(|hold| !hold.to.is_empty())
        {
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
                    // Not kept from the rows of circuits: it may go onto one.
                    let moved = |at| Action::publish(Message::Sheet(Touched::Moved(at)));
                    return local.map(moved);
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
                let camera = scrolled(self.desk.camera, inside?, delta, *grip);
                Some(said(Touched::View(camera)))
            }
            _ => None,
        }
    }
}

fn said(touched: Touched) -> Action<Message> {
    Action::publish(Message::Sheet(touched)).and_capture()
}

/// A wheel zooms at the pointer, tilted or with Shift it pushes the paper
/// sideways. Two fingers on a pad push it; with Ctrl, as a pinch is told, they
/// zoom.
fn scrolled(camera: Camera, about: Point, delta: mouse::ScrollDelta, grip: Grip) -> Camera {
    /// Pixels that a line of the wheel pushes the paper.
    const LINE: f64 = 60.0;
    match delta {
        mouse::ScrollDelta::Lines { x, y } => {
            let (x, y) = (f64::from(x), f64::from(y));
            let (x, y) = if grip.shift { (x + y, 0.0) } else { (x, y) };
            camera.zoomed(about, libm::pow(1.18, y)).moved(Vec2::new(x * LINE, 0.0))
        }
        mouse::ScrollDelta::Pixels { y, .. } if grip.command => {
            camera.zoomed(about, libm::pow(1.002, f64::from(y)))
        }
        mouse::ScrollDelta::Pixels { x, y } => camera.moved(Vec2::new(x.into(), y.into())),
    }
}

fn keys(grip: &mut Grip, event: &keyboard::Event) {
    let space = |of: &keyboard::Key| *of == keyboard::Key::Named(key::Named::Space);
    match event {
        keyboard::Event::KeyPressed { key, .. } if space(key) => grip.space = true,
        keyboard::Event::KeyReleased { key, .. } if space(key) => grip.space = false,
        keyboard::Event::ModifiersChanged(modifiers) => {
            (grip.shift, grip.command) = (modifiers.shift(), modifiers.command());
        }
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_wheel_zooms_at_the_pointer_and_two_fingers_push_the_paper() {
        let (camera, about) = (Camera::default(), Point::new(300.0, 200.0));
        let scroll = |delta, shift, command| {
            let grip = Grip { shift, command, ..Grip::default() };
            let now = scrolled(camera, about, delta, grip);
            let stays = now.plan(about).distance(camera.plan(about)) < 1e-6;
            (now.zoom / camera.zoom, now.origin - camera.origin, stays)
        };
        let lines = |x, y| mouse::ScrollDelta::Lines { x, y };
        let pixels = |x, y| mouse::ScrollDelta::Pixels { x, y };
        let (zoom, _, stays) = scroll(lines(0.0, 1.0), false, false);
        assert!(zoom > 1.1 && stays, "the wheel zooms, the place under the pointer stays");
        let same = |one: f64| (one - 1.0).abs() < 1e-9;
        let (zoom, by, _) = scroll(lines(1.0, 0.0), false, false);
        assert!(same(zoom) && by.x > 0.0, "tilted it pushes sideways");
        let (zoom, by, _) = scroll(lines(0.0, -1.0), true, false);
        assert!(same(zoom) && by.x < 0.0, "with Shift too");
        let (zoom, by, _) = scroll(pixels(12.0, -7.0), false, false);
        assert!(same(zoom) && (by - Vec2::new(12.0, -7.0)).hypot() < 1e-9, "both axes");
        let (zoom, _, stays) = scroll(pixels(0.0, 50.0), false, true);
        assert!(zoom > 1.05 && stays, "a pinch zooms");
    }
}

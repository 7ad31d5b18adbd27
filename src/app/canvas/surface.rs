//! The sheet on the screen: takes the pointer, paints the scene.

use iced::keyboard::{self, key};
use iced::widget::canvas::{self, Action, Frame, Geometry};
use iced::{Event, Point as Spot, Rectangle, Renderer, Theme, mouse, window};
use kurbo::{Point, Vec2};
use wirewend::session::Session;
use wirewend::session::state::{Camera, Step, Tool};

use super::painted::{grid, sketched};
use crate::app::Message;
use crate::app::canvas::ground;
use crate::app::canvas::panes::Panes;
use crate::app::canvas::theme::Look;

/// What happens on the sheet; places in pixels.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::app) enum Touched {
    Resized(f64, f64),
    Press { at: Point, also: bool },
    Moved(Point),
    Release,
    Left,
    View(Camera),
}

/// The sheet's canvas.
pub(in crate::app) struct Surface<'a> {
    pub(in crate::app) session: &'a Session,
    pub(in crate::app) look: &'a Look,
    pub(in crate::app) panes: &'a Panes,
}

/// What the canvas itself remembers.
#[derive(Clone, Copy, Debug, Default)]
pub(in crate::app) struct Grip {
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
        let sized = (self.session.sight.size().0 - width).abs() < 0.5
            && (self.session.sight.size().1 - height).abs() < 0.5;
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
            if self.session.sight.step() != Step::Papers {
                grid(frame, self.session.sight.camera(), self.look);
                ground::paint(frame, self.session, self.look);
            }
        });
        let mut all = vec![ground];
        all.extend(self.panes.draw(renderer, size, self.session.sight.camera(), self.look));
        let pins = self.session.still_pins();
        if *self.panes.pinned.borrow() != pins {
            self.panes.pins.clear();
            self.panes.pinned.replace(pins);
        }
        all.push(self.panes.pins.draw(renderer, size, |frame| {
            sketched(frame, &self.panes.pinned.borrow(), self.look, size);
        }));
        let mut live = Frame::new(renderer, size);
        sketched(&mut live, &self.session.sketch(), self.look, size);
        all.push(live.into_geometry());
        all
    }

    fn mouse_interaction(
        &self,
        grip: &Grip,
        bounds: Rectangle,
        cursor: mouse::Cursor,
    ) -> mouse::Interaction {
        let moves = self.session.hand.reshape().is_some_and(|held| held.edit.is_some());
        if grip.pan.is_some()
            || moves
            || self.session.hand.hold().is_some_and(|hold| !hold.to.is_empty())
        {
            mouse::Interaction::Grabbing
        } else if !cursor.is_over(bounds) {
            mouse::Interaction::default()
        } else if grip.space {
            mouse::Interaction::Grab
        } else if self.session.hand.tool() == Tool::Hand {
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
                self.session.hand.drags().then(|| said(Touched::Release))
            }
            mouse::Event::CursorMoved { .. } => {
                if let Some(from) = grip.pan {
                    let now = local?;
                    grip.pan = Some(now);
                    return Some(said(Touched::View(
                        self.session.sight.camera().moved(now - from),
                    )));
                }
                if self.session.hand.drags() {
                    // Not kept from the rows of circuits: it may go onto one.
                    let moved = |at| Action::publish(Message::Sheet(Touched::Moved(at)));
                    return local.map(moved);
                }
                match inside {
                    Some(at) => Some(Action::publish(Message::Sheet(Touched::Moved(at)))),
                    None if self.session.hand.pointer().is_some() => {
                        Some(Action::publish(Message::Sheet(Touched::Left)))
                    }
                    None => None,
                }
            }
            mouse::Event::WheelScrolled { delta } => {
                let camera = scrolled(self.session.sight.camera(), inside?, delta, *grip);
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

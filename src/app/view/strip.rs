//! The chosen leg rolled out beneath the sheet.

use iced::widget::{canvas, column, container, space, stack};
use iced::{Element, Fill, Rectangle, Renderer, Theme, mouse};
use kurbo::Rect;
use wirewend::session::state::{Camera, LegKey};

use crate::app::canvas::paint::{Ready, paint};
use crate::app::canvas::strip::Strip;
use crate::app::canvas::theme::Look;
use crate::app::view::styles;
use crate::app::{App, Message};

/// How high the strip is, pixels.
const HIGH: f32 = 260.0;

/// The strip, where a leg is chosen and it is not put away.
pub(super) fn strip(app: &App) -> Option<Element<'_, Message>> {
    let strip = app.strip.as_ref()?;
    let drawn = canvas(Roll { strip, look: &app.look }).width(Fill).height(HIGH);
    // A layer of its own: the renderer misplaces what follows a canvas.
    let drawn = stack![space().width(Fill).height(HIGH), drawn].clip(true);
    let line = container(space()).width(Fill).height(1).style(styles::hair(&app.look));
    Some(column![line, drawn].into())
}

struct Roll<'a> {
    strip: &'a Strip,
    look: &'a Look,
}

impl canvas::Program<Message> for Roll<'_> {
    type State = (canvas::Cache, std::cell::Cell<Option<(LegKey, u64, &'static str)>>);

    fn draw(
        &self,
        (cache, of): &Self::State,
        renderer: &Renderer,
        _: &Theme,
        bounds: Rectangle,
        _: mouse::Cursor,
    ) -> Vec<canvas::Geometry> {
        let now = Some((self.strip.leg, self.strip.stamp, self.look.name));
        if of.replace(now) != now {
            cache.clear();
        }
        let drawn = cache.draw(renderer, bounds.size(), |frame| {
            frame.fill_rectangle(iced::Point::ORIGIN, bounds.size(), self.look.paper);
            let marks = &self.strip.marks;
            let all = marks.iter().map(Ready::bounds).reduce(|all, one: Rect| all.union(one));
            let (width, height) = (f64::from(bounds.width), f64::from(bounds.height));
            let camera = Camera::fitted(all.unwrap_or(Rect::ZERO), width, height);
            paint(frame, marks, camera, camera.shown(width, height), self.look);
        });
        vec![drawn]
    }
}

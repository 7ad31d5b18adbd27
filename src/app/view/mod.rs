//! What the window shows: the sheet, the head above it, the ledger beside it,
//! the foot beneath it, and what lies over them.

mod bring;
mod building;
mod cards;
mod first_time;
mod foot;
mod head;
mod in_the_way;
mod ledger;
mod over;
mod papers;
pub(in crate::app) mod parts;
mod strip;
mod styles;

use iced::widget::{canvas, column, container, row, space, stack};
use iced::{Element, Fill};
use wirewend::session::state::Step;

use crate::app::canvas::surface::Surface;
use crate::app::canvas::under::Beneath;
use crate::app::{App, Message};

/// The whole window.
pub(super) fn view(app: &App) -> Element<'_, Message> {
    let surface = Surface { session: &app.session, look: &app.look, panes: &app.panes };
    let beneath = Beneath { session: &app.session, look: &app.look, under: &app.under };
    // A layer of its own, clipped: the renderer needs it.
    let sheet = stack![
        space().width(Fill).height(Fill),
        canvas(beneath).width(Fill).height(Fill),
        canvas(surface).width(Fill).height(Fill),
        cards::chosen(app),
        building::card(app),
        cards::working(app),
        first_time::hints(app),
    ]
    .clip(true);
    let hair = || container(space()).width(1).height(Fill).style(styles::hair(&app.look));
    let line = || container(space()).width(Fill).height(1).style(styles::hair(&app.look));
    let sheet = column![sheet].push(strip::strip(app)).width(Fill).height(Fill);
    let beside = if app.session.sight.step() == Step::Papers {
        papers::papers(app)
    } else {
        ledger::ledger(app)
    };
    let middle = row![sheet, hair(), beside].height(Fill);
    let main = column![head::head(app), line(), middle, line(), foot::foot(app)];
    let main = container(main).width(Fill).height(Fill).style(styles::session(&app.look));
    stack![main, over::over(app)].into()
}

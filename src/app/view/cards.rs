//! The card that shows how a figure came about.

use iced::widget::{Column, button, column, container, opaque, row, scrollable, space, text};
use iced::{Center, Element, Fill};

use super::styles;
use crate::app::{App, Message};

/// The working of the figure that was asked, in the sheet's corner.
pub(super) fn working(app: &App) -> Element<'_, Message> {
    let shown = app
        .desk
        .figure
        .zip(app.desk.picture.as_ref())
        .and_then(|(figure, picture)| figure.shown(picture));
    let Some(shown) = shown else { return space().into() };
    let look = &app.look;
    let mut terms = Column::new().spacing(3);
    for term in shown.working.terms {
        let line = row![
            text(term.what).size(12).width(Fill),
            text(term.value).size(12),
            text(term.source).size(11).width(130).style(styles::ink(look.quiet)),
        ]
        .spacing(10);
        terms = terms.push(line);
    }
    let close = button(text("Close  Escape").size(12))
        .padding([2, 6])
        .style(styles::plain(look, false))
        .on_press(Message::Figure(None));
    let head = row![
        text(shown.title).size(13).font(styles::BOLD).width(Fill),
        text(shown.value).size(15).font(styles::BOLD),
    ]
    .spacing(12)
    .align_y(Center);
    let card = column![
        head,
        text(shown.working.formula).size(12).style(styles::ink(look.quiet)),
        container(scrollable(
            container(terms).padding(iced::Padding { right: 12.0, ..iced::Padding::ZERO })
        ))
        .max_height(320),
        row![space().width(Fill), close],
    ]
    .spacing(8);
    let card = opaque(container(card).width(440).padding(14).style(styles::card(look)));
    container(card)
        .width(Fill)
        .height(Fill)
        .padding(12)
        .align_x(iced::Right)
        .align_y(iced::Bottom)
        .into()
}

//! The hints of the first time, over the sheet.

use iced::widget::{Column, button, container, opaque, row, space, text};
use iced::{Element, Fill};

use crate::app::doing::first_time::HINTS;
use crate::app::view::styles;
use crate::app::{App, Message};

/// Three hints, until they are put away.
pub(super) fn hints(app: &App) -> Element<'_, Message> {
    if !app.hints() {
        return space().into();
    }
    let mut lines = Column::new().spacing(6);
    lines = lines.push(text("A sample house to try things on").size(14).font(styles::BOLD));
    for (number, hint) in (1..).zip(HINTS) {
        let number = text(number.to_string()).size(13).font(styles::BOLD).width(16);
        lines = lines.push(row![number, text(hint).size(13)].spacing(6));
    }
    let close = button(text("Put away  Escape").size(12))
        .padding([3, 8])
        .style(styles::plain(&app.look, true))
        .on_press(Message::Hinted);
    let card = container(lines.push(close)).padding(14).max_width(520);
    let card = opaque(card.style(styles::card(&app.look)));
    container(card).width(Fill).padding(12).align_x(iced::Center).into()
}

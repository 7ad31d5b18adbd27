//! Parts of what lies over the window: a title, a field, a button.

use iced::Element;
use iced::widget::{button, text, text_input};

use super::styles;
use crate::app::App;
use crate::app::message::Message;

/// The field of whatever lies over the window.
pub(in crate::app) const FIELD: &str = "field";

pub(in crate::app) fn title(says: &str) -> Element<'_, Message> {
    text(says).size(15).font(styles::BOLD).into()
}

pub(in crate::app) fn field<'a>(
    app: &'a App,
    hint: &'a str,
    value: &'a str,
) -> Element<'a, Message> {
    text_input(hint, value)
        .id(FIELD)
        .on_input(Message::Field)
        .on_submit(Message::FieldDone)
        .size(14)
        .padding(8)
        .style(styles::field(&app.look))
        .into()
}

pub(in crate::app) fn button_of<'a>(
    app: &'a App,
    name: &'a str,
    says: Message,
    first: bool,
) -> Element<'a, Message> {
    button(text(name).size(13))
        .padding([5, 10])
        .style(styles::plain(&app.look, first))
        .on_press(says)
        .into()
}

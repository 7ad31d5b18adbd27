//! How buttons, cards, fields and lettering look.

use iced::border::Radius;
use iced::widget::{button, container, text, text_input};
use iced::{Background, Border, Color, Font, Theme, font};

use crate::app::canvas::theme::Look;

/// The bold cut of the bundled font.
pub(super) const BOLD: Font = Font { weight: font::Weight::Bold, ..Font::with_name("Noto Sans") };

/// A button that is only its lettering until the pointer is over it.
pub(super) fn plain(
    look: &Look,
    on: bool,
) -> impl Fn(&Theme, button::Status) -> button::Style + '_ {
    move |_, status| {
        let under = matches!(status, button::Status::Hovered | button::Status::Pressed);
        let ground = match (on, under) {
            (true, _) => Some(look.accent),
            (false, true) => Some(look.raised),
            (false, false) => None,
        };
        let ink = match status {
            button::Status::Disabled => look.quiet,
            _ if on => look.on_accent,
            _ => look.text,
        };
        button::Style {
            background: ground.map(Background::Color),
            text_color: ink,
            border: Border { radius: Radius::from(3.0), ..Border::default() },
            ..button::Style::default()
        }
    }
}

/// A small button with an edge, for what changes the plan.
pub(super) fn framed(look: &Look) -> impl Fn(&Theme, button::Status) -> button::Style + '_ {
    move |_, status| {
        let under = matches!(status, button::Status::Hovered | button::Status::Pressed);
        button::Style {
            background: under.then_some(Background::Color(look.accent)),
            text_color: if under { look.on_accent } else { look.accent },
            border: Border { color: look.accent, width: 1.0, radius: Radius::from(3.0) },
            ..button::Style::default()
        }
    }
}

/// The tab of a step: a line beneath the one that is open.
pub(super) fn tab(look: &Look, on: bool) -> impl Fn(&Theme, button::Status) -> button::Style + '_ {
    move |_, status| {
        let under = matches!(status, button::Status::Hovered | button::Status::Pressed);
        button::Style {
            background: under.then_some(Background::Color(look.raised)),
            text_color: if on { look.accent } else { look.text },
            ..button::Style::default()
        }
    }
}

/// A row of the ledger.
pub(super) fn row(look: &Look, on: bool) -> impl Fn(&Theme, button::Status) -> button::Style + '_ {
    move |_, status| {
        let under = matches!(status, button::Status::Hovered | button::Status::Pressed);
        button::Style {
            background: (on || under).then_some(Background::Color(look.raised)),
            text_color: look.text,
            border: Border {
                color: if on { look.accent } else { Color::TRANSPARENT },
                width: if on { 1.0 } else { 0.0 },
                radius: Radius::from(3.0),
            },
            ..button::Style::default()
        }
    }
}

/// The table that everything lies on.
pub(super) fn session(look: &Look) -> impl Fn(&Theme) -> container::Style + '_ {
    move |_| container::Style {
        background: Some(Background::Color(look.session)),
        text_color: Some(look.text),
        ..container::Style::default()
    }
}

/// A card that lies over the sheet.
pub(super) fn card(look: &Look) -> impl Fn(&Theme) -> container::Style + '_ {
    move |_| container::Style {
        background: Some(Background::Color(look.raised)),
        text_color: Some(look.text),
        border: Border { color: look.rule, width: 1.0, radius: Radius::from(4.0) },
        ..container::Style::default()
    }
}

/// A hair line.
pub(super) fn hair(look: &Look) -> impl Fn(&Theme) -> container::Style + '_ {
    move |_| container::Style {
        background: Some(Background::Color(look.rule)),
        ..container::Style::default()
    }
}

/// A line beneath the open step.
pub(super) fn mark(look: &Look, on: bool) -> impl Fn(&Theme) -> container::Style + '_ {
    move |_| container::Style {
        background: on.then_some(Background::Color(look.accent)),
        ..container::Style::default()
    }
}

/// A piece of a bar: done, or still to do.
pub(super) fn track(look: &Look, on: bool) -> impl Fn(&Theme) -> container::Style + '_ {
    move |_| container::Style {
        background: Some(Background::Color(if on { look.accent } else { look.rule })),
        ..container::Style::default()
    }
}

/// A field to type in.
pub(super) fn field(look: &Look) -> impl Fn(&Theme, text_input::Status) -> text_input::Style + '_ {
    move |_, _| text_input::Style {
        background: Background::Color(look.paper),
        border: Border { color: look.accent, width: 1.0, radius: Radius::from(3.0) },
        icon: look.quiet,
        placeholder: look.quiet,
        value: look.text,
        selection: Color { a: 0.25, ..look.accent },
    }
}

/// Lettering of one colour.
pub(super) fn ink(colour: Color) -> impl Fn(&Theme) -> text::Style {
    move |_| text::Style { color: Some(colour) }
}

//! The question about a file that is in the way.

use iced::widget::{column, row, text};
use iced::{Element, Fill};
use wirewend::session::state::InTheWay;

use crate::app::keys::Command;
use crate::app::message::WayOut;
use crate::app::view::parts::{button_of, field, title};
use crate::app::view::styles;
use crate::app::{App, Message};

/// Asked once: replaced, written elsewhere, or left.
pub(super) fn card<'a>(app: &'a App, way: &'a InTheWay) -> Element<'a, Message> {
    let (says, path, more, another) = match way {
        InTheWay::Plan { file, .. } => {
            let own = app.session.document.file() == Some(file.as_path());
            let says = if own {
                "This plan's file was changed by another since it was opened"
            } else {
                "There is such a file already"
            };
            (says, file, String::new(), "Another name  Enter")
        }
        InTheWay::Papers { folder, says } => {
            ("Not all in this folder is from here", folder, says.clone(), "Another folder  Enter")
        }
    };
    let mut lines = column![title(says), text(path.display().to_string()).size(13)].spacing(8);
    if !more.is_empty() {
        lines = lines.push(text(more).size(12));
    }
    lines
        .push(
            text("What is replaced is kept beside it until the next time.")
                .size(12)
                .style(styles::ink(app.look.quiet)),
        )
        .push(
            row![
                button_of(app, another, Message::Way(WayOut::Another), true),
                button_of(app, "Replace  Delete", Message::Way(WayOut::Replace), false),
                button_of(app, "Not now  Escape", Message::Do(Command::LetGo), false),
            ]
            .spacing(8),
        )
        .width(520)
        .into()
}

/// Into which folder the papers go.
pub(super) fn folder_card<'a>(app: &'a App, folder: &'a str) -> Element<'a, Message> {
    column![
        title("Write the papers into"),
        field(app, "house.papers", folder),
        row![
            button_of(app, "Write  Enter", Message::FieldDone, true),
            button_of(app, "Not now  Escape", Message::Do(Command::LetGo), false),
        ]
        .spacing(8),
    ]
    .spacing(12)
    .width(Fill)
    .max_width(520)
    .into()
}

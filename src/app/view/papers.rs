//! The papers of the job beside the one that is shown.

use iced::widget::{Column, button, container, row, scrollable, text};
use iced::{Center, Element, Fill};
use wirewend::sheet::Sheet;

use crate::app::view::styles;
use crate::app::{App, Message};

/// Every sheet by its title, in the order of the set.
pub(super) fn papers(app: &App) -> Element<'_, Message> {
    let look = &app.look;
    let mut lines = Column::new().spacing(1);
    let papers = app.session.jobs.picture().and_then(|picture| picture.made_papers());
    match papers {
        None => lines = lines.push(text("Drawing every paper of the job...").size(13)),
        Some(papers) => {
            for (index, Sheet { name, scene, .. }) in papers.shown().enumerate() {
                let line = row![
                    text((index + 1).to_string()).size(12).width(26).style(styles::ink(look.quiet)),
                    text(&scene.title).size(12).width(Fill),
                    text(name).size(11).style(styles::ink(look.quiet)),
                ]
                .spacing(6)
                .align_y(Center);
                let line = button(line)
                    .padding([3, 6])
                    .width(Fill)
                    .style(styles::row(look, app.session.sight.page() == index))
                    .on_press(Message::Paper(index));
                lines = lines.push(line);
            }
            for missed in papers.said.lines() {
                lines = lines.push(text(missed).size(12).style(styles::ink(look.warning)));
            }
        }
    }
    let head = row![
        text("Papers, as they will print").size(13).font(styles::BOLD).width(Fill),
        text("PageDown, PageUp").size(11).style(styles::ink(look.quiet)),
    ]
    .align_y(Center);
    let body = scrollable(lines.width(Fill).padding(iced::Padding {
        left: 10.0,
        right: 14.0,
        ..iced::Padding::ZERO
    }))
    .height(Fill);
    let head = container(head).padding([0, 16]);
    container(iced::widget::column![head, body].spacing(4))
        .padding([8, 0])
        .width(392)
        .height(Fill)
        .into()
}

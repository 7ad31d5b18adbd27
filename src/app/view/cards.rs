//! The cards on the sheet: what is chosen, and how a figure came about.

use iced::widget::{Column, button, column, container, opaque, row, scrollable, space, text};
use iced::{Center, Element, Fill};
use wirewend::plan::{End, Place, labels};
use wirewend::session::ground::corners;
use wirewend::session::state::{Amount, Step};

use crate::app::keys::Command;
use crate::app::view::styles;
use crate::app::{App, Message};

/// What is chosen, where it is only one thing: its mark and what can be set.
pub(super) fn chosen(app: &App) -> Element<'_, Message> {
    let (session, look) = (&app.session, &app.look);
    let ends = session.chosen_ends();
    let ([end], false) = (ends.as_slice(), session.sight.step() == Step::Papers) else {
        return space().into();
    };
    let mark = labels(session.document.plan()).end(*end).to_owned();
    let (kind, circuit) = match end {
        End::Board(_) => ("distribution board", None),
        End::Point(id) => {
            let Some(point) = session.document.plan().points.get(id) else { return space().into() };
            (point.kind.name(), point.circuit)
        }
    };
    let place = session.document.plan().place_of(*end);
    let room = place.and_then(|place| session.document.plan().room_of(&place));
    let room =
        room.and_then(|id| session.document.plan().rooms.get(&id)).map_or("", |room| &room.name);
    let mut lines = Column::new().spacing(4).push(
        row![
            text(mark).size(14).font(styles::BOLD),
            text(kind).size(12),
            text(room).size(12).style(styles::ink(look.quiet)),
        ]
        .spacing(8)
        .padding([0, 6])
        .align_y(Center),
    );
    let asks = |says: String, key, does| {
        let says = row![text(says).size(12), text(key).size(11).style(styles::ink(look.quiet))];
        button(says.spacing(6).align_y(Center))
            .padding([2, 6])
            .style(styles::plain(look, false))
            .on_press(Message::Do(does))
    };
    if let Some(Place::Wall(on)) = place {
        let offset = corners::offset(session.document.plan(), &on);
        let along = offset.map_or_else(
            || "set out".to_owned(),
            |one| one.says(&session.sight.measure().show(one.away)),
        );
        let height = format!("{} high", session.sight.measure().show(on.height));
        lines = lines.push(
            row![
                asks(along, "X", Command::Ask(Amount::Along)),
                asks(height, "T", Command::Ask(Amount::Height)),
            ]
            .spacing(4),
        );
    }
    if let Some((id, circuit)) =
        circuit.and_then(|id| Some((id, session.document.plan().circuits.get(&id)?)))
    {
        let number = labels(session.document.plan()).circuit(circuit);
        let says = text(format!("{number}: {}", circuit.name)).size(12);
        let says = button(says)
            .padding([2, 6])
            .style(styles::plain(look, false))
            .on_press(Message::Circuit(id));
        lines = lines.push(says);
    }
    let card = opaque(container(lines).padding(10).style(styles::card(look)));
    container(card).width(Fill).height(Fill).padding(12).align_y(iced::Bottom).into()
}

/// The working of the figure that was asked, in the sheet's corner.
pub(super) fn working(app: &App) -> Element<'_, Message> {
    let shown = app
        .session
        .selection
        .figure()
        .zip(app.session.jobs.picture())
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

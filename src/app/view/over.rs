//! What lies over the window: the list of keys, fields, the one question.

use iced::widget::{
    Column, Row, button, center, column, container, opaque, row, scrollable, space, text,
};
use iced::{Center, Element, Fill};
use wirewend::session::state::Amount;

use crate::app::keys::{self, Command};
use crate::app::view::parts::{button_of, field, title};
use crate::app::view::{bring, in_the_way, styles};
use crate::app::{App, Leave, Message, Over};

/// Nothing, or a card in the middle.
pub(super) fn over(app: &App) -> Element<'_, Message> {
    let card = match &app.over {
        Over::Nothing => return space().into(),
        Over::Keys => keys_card(app),
        Over::SaveAs(name) => save_card(app, name),
        Over::PapersTo(folder) => in_the_way::folder_card(app, folder),
        Over::InTheWay(way) => in_the_way::card(app, way),
        Over::Find(text) => list_card(app, "Find a point or an action", "kitchen, undo, SO3", text),
        Over::Kind(text) => list_card(app, "Which kind", "socket, light, fan", text),
        Over::Open(text) => list_card(app, "Open a plan", "a recent one, or a file's path", text),
        Over::Evenly(text) => count_card(app, text),
        Over::Amount(amount, text) => amount_card(app, *amount, text),
        Over::Import(path) => bring::file_card(
            app,
            "Bring in a layout: IFC, DXF, SVG, GeoJSON or the layout form",
            "house.ifc",
            path,
        ),
        Over::Picture(path) => bring::file_card(
            app,
            "Lay a picture of a plan beneath this level: PNG or JPEG",
            "scan.png",
            path,
        ),
        Over::Busy(what) => bring::busy_card(app, what),
        Over::Brought => bring::brought_card(app),
        Over::Draft(form) => bring::draft_card(app, form),
        Over::Drafted => bring::drafted_card(app),
        Over::Leaving(_) => leave_card(app),
    };
    let card = container(card).padding(20).style(styles::card(&app.look));
    opaque(center(card))
}

fn keys_card(app: &App) -> Element<'_, Message> {
    let all = keys::listed();
    let part = all.len().div_ceil(3);
    let mut columns = Row::new().spacing(24);
    for part in all.chunks(part) {
        let mut lines = Column::new().spacing(1);
        for (names, does) in part {
            lines = lines.push(row![
                text(names.clone()).size(12).font(styles::BOLD).width(106),
                text(*does).size(12),
            ]);
        }
        columns = columns.push(lines.width(378));
    }
    column![
        row![
            title("Keys"),
            space().width(Fill),
            button_of(app, "Close  Escape", Message::Do(Command::LetGo), false),
        ]
        .align_y(Center),
        scrollable(columns),
        text(
            "Digits while something is drawn or dragged: its length, as 3600, 3.6 m or 12'6 1/2\"; \
             @45 an angle; 900x600 a rectangle. / finds what has no key."
        )
        .size(12),
    ]
    .spacing(8)
    .width(iced::Shrink)
    .into()
}

fn save_card<'a>(app: &'a App, name: &'a str) -> Element<'a, Message> {
    column![
        title("Save the plan as"),
        field(app, "house.wend", name),
        row![
            button_of(app, "Save  Enter", Message::FieldDone, true),
            button_of(app, "Not now  Escape", Message::Do(Command::LetGo), false),
        ]
        .spacing(8),
    ]
    .spacing(12)
    .width(520)
    .into()
}

fn amount_card<'a>(app: &'a App, amount: Amount, typed: &'a str) -> Element<'a, Message> {
    let says = match amount {
        Amount::Along if !app.session.chosen_ends().is_empty() => {
            "How far from the corner or the opening that is lit on the sheet"
        }
        Amount::Along if app.session.chosen_walls().is_empty() => {
            "How far from the corner where its wall begins"
        }
        Amount::Along => "How far the wall moves, to the left of its beginning; - the other way",
        Amount::Height => {
            "How high above the floor: the middle of a box, the lower edge of a window"
        }
        Amount::Head => "How high its upper edge is above the floor",
        Amount::Width => "How long the wall, how wide the opening is",
        Amount::Thick => "How thick: the wall, or the insulation in the void",
        Amount::Spacing => "How far the joists are apart, from middle to middle",
        Amount::Direction => "Where the joists run to: 0 to the right, 90 up the page",
        Amount::Percent => "What cable costs there in percent: under 100 it is preferred",
        Amount::Name => "What it is called",
        Amount::Ceiling => "How high the ceiling is above the floor",
        Amount::Floor => "How high this floor is above the lowest one",
    };
    let hint = match amount {
        Amount::Direction => "90",
        Amount::Percent => "50",
        Amount::Name => "kitchen",
        _ => "1200, 1.2 m, 3'11\"",
    };
    column![title(says), field(app, hint, typed)].spacing(12).width(420).into()
}

fn count_card<'a>(app: &'a App, typed: &'a str) -> Element<'a, Message> {
    column![
        title("How many, evenly"),
        text("One point chosen: along its whole wall. Two on one wall: from one to the other.")
            .size(12),
        field(app, "3", typed),
    ]
    .spacing(12)
    .width(420)
    .into()
}

/// A field with a list of what it finds; arrows pick a line, Enter takes it.
fn list_card<'a>(
    app: &'a App,
    name: &'a str,
    hint: &'a str,
    wanted: &'a str,
) -> Element<'a, Message> {
    let mut lines = Column::new().spacing(1);
    for (index, hit) in app.hits().into_iter().enumerate() {
        let line = row![
            text(hit.name).size(13).width(Fill),
            text(hit.aside).size(12).style(styles::ink(app.look.quiet)),
        ]
        .align_y(Center);
        let line = button(line)
            .padding([3, 6])
            .width(Fill)
            .style(styles::row(&app.look, index == app.picked))
            .on_press(Message::Found(index));
        lines = lines.push(line);
    }
    column![title(name), field(app, hint, wanted), lines].spacing(10).width(520).into()
}

fn leave_card(app: &App) -> Element<'_, Message> {
    column![
        title("This plan has changes that are not saved"),
        row![
            button_of(app, "Save and close  Enter", Message::Close(Leave::Save), true),
            button_of(app, "Close without saving  Delete", Message::Close(Leave::Drop), false),
            button_of(app, "Stay  Escape", Message::Close(Leave::Stay), false),
        ]
        .spacing(8),
    ]
    .spacing(14)
    .into()
}

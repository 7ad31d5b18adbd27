//! The foot: what was said or what to do next, and where one is.

use iced::widget::{button, container, row, space, text};
use iced::{Center, Element, Fill};
use wirewend::session::state::{REDUCTION, Step, Tool};

use crate::app::keys::{Command, Habit};
use crate::app::view::styles;
use crate::app::{App, Message};

/// One line beneath the sheet.
pub(super) fn foot(app: &App) -> Element<'_, Message> {
    let session = &app.session;
    let working = app.working();
    let stop = working.is_some().then(|| {
        button(text("Stop  F4").size(12))
            .padding([1, 6])
            .style(styles::framed(&app.look))
            .on_press(Message::Do(Command::Habit(Habit::Stop)))
    });
    let (says, ink) = if let Some(says) = working {
        (says, app.look.text)
    } else if session.said.is_empty() {
        (hint(app), app.look.quiet)
    } else {
        (session.said.clone(), app.look.text)
    };
    // A screen has about 96 pixels to the inch.
    let scale = libm::round(REDUCTION / session.sight.camera().zoom * 96.0 / 25.4);
    let line = row![
        row![text(says).size(13).style(styles::ink(ink))].push(stop).spacing(10).align_y(Center),
        space().width(Fill),
        text("helps to plan, certifies nothing: isolate, prove dead, lock off")
            .size(12)
            .style(styles::ink(app.look.quiet)),
        text(format!("about 1:{scale}")).size(12).style(styles::ink(app.look.quiet)),
        text("F1 keys").size(12).style(styles::ink(app.look.quiet)),
    ]
    .spacing(16)
    .align_y(Center);
    container(line).padding([5, 14]).into()
}

fn hint(app: &App) -> String {
    let session = &app.session;
    match session.hand.tool() {
        Tool::Wall if session.hand.pen().is_none() => "Click where a wall begins".to_owned(),
        Tool::Wall => {
            "Click its next corner, or type a length (3600@45 with an angle) and press Enter; Escape lifts the pen"
                .to_owned()
        }
        Tool::Opening(_) => "Click a wall; Escape puts it back".to_owned(),
        Tool::Pin if session.selection.leg().is_none() => "Click the leg that is to be pinned".to_owned(),
        Tool::Pin => "Click where the leg must pass; Escape puts the pin back".to_owned(),
        Tool::Area(_) if session.wall_for_area().is_some() => {
            "Drag along the chosen wall; type 900, or 900x600 with its height, and Enter".to_owned()
        }
        Tool::Area(_) if session.hand.outline().is_empty() => {
            "Drag a rectangle in the void, or click its corners; choose a wall first for an area on it"
                .to_owned()
        }
        Tool::Outline if session.hand.outline().is_empty() => {
            "Drag a rectangle, or click corner after corner; Escape puts it back".to_owned()
        }
        Tool::Area(_) | Tool::Outline => {
            "Click the next corner; Enter closes it; 900x600 makes a rectangle".to_owned()
        }
        Tool::Ruler if session.hand.ruler().len() == 2 => {
            "Type how long that is and press Enter; @0 makes it level".to_owned()
        }
        Tool::Ruler => "Click both ends of a length that you know, on the picture".to_owned(),
        Tool::Board => "Click the wall that the board hangs on".to_owned(),
        Tool::Point(kind) if wirewend::session::ground::kit::on_ceiling(kind) => {
            format!("Click where the {} goes", kind.name())
        }
        Tool::Point(kind) => format!(
            "Click the wall that the {} goes on, or type its distance from the corner and Enter",
            kind.name()
        ),
        Tool::Hand if session.hand.reshape().is_some() => {
            "Type how far or how long while you drag, Enter takes it; Escape lets go".to_owned()
        }
        Tool::Hand if session.selection.leg().is_some() => {
            "Y pins this leg to a place, Ctrl+Right goes on to the next leg".to_owned()
        }
        Tool::Hand if session.sight.step() == Step::Survey && session.selection.chosen().is_empty() => {
            "Drag walls, their ends, doors and windows; click a room or an area; / finds everything"
                .to_owned()
        }
        Tool::Hand if !session.selection.chosen().is_empty() => {
            "Drag to move, or onto a circuit; R turns it to the other face, Delete takes it away".to_owned()
        }
        Tool::Hand => {
            "Drag points, or a band around them; wheel zooms, middle button or space and drag moves the sheet".to_owned()
        }
    }
}

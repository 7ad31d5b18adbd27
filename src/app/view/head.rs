//! The head: the steps, what each offers, the levels.

use iced::widget::{Row, button, column, container, row, space, text};
use iced::{Center, Element, Fill};
use wirewend::plan::OpeningKind;
use wirewend::session::ground::kit;
use wirewend::session::state::{AreaKind, Step, Tool};

use crate::app::keys::{self, Ask, Command};
use crate::app::view::styles;
use crate::app::{App, Message};

/// Steps and levels above, the shelf of the step beneath.
pub(super) fn head(app: &App) -> Element<'_, Message> {
    let mut steps = Row::new().spacing(2).align_y(Center);
    for (index, step) in Step::ALL.into_iter().enumerate() {
        steps = steps.push(tab(app, index + 1, step));
    }
    let mut levels = Row::new().spacing(2).align_y(Center);
    for (id, level) in &app.session.document.plan().levels {
        let on = app.session.sight.level() == Some(*id);
        let name = button(text(&level.name).size(13))
            .padding([4, 8])
            .style(styles::plain(&app.look, on))
            .on_press(Message::Level(*id));
        levels = levels.push(name);
    }
    let top = row![
        text("Wirewend").size(15).font(styles::BOLD),
        space().width(18),
        steps,
        space().width(Fill),
        levels,
        space().width(14),
        action(app, "Undo", Command::Undo, app.session.document.can_undo()),
        action(app, "Do again", Command::Redo, app.session.document.can_redo()),
        action(app, "Save", Command::Save, true),
    ]
    .align_y(Center);
    let shelf = container(shelf(app)).height(34).align_y(Center);
    container(column![top, shelf].spacing(2)).padding([6, 14]).into()
}

fn tab(app: &App, number: usize, step: Step) -> Element<'_, Message> {
    let on = app.session.sight.step() == step;
    let name = row![
        text(number.to_string()).size(12).style(styles::ink(app.look.quiet)),
        text(step.name()).size(14).font(if on {
            styles::BOLD
        } else {
            iced::Font::with_name("Noto Sans")
        }),
    ]
    .spacing(6)
    .align_y(Center);
    let line = container(space()).width(Fill).height(2).style(styles::mark(&app.look, on));
    button(column![name, line].spacing(3).width(iced::Shrink))
        .padding([4, 10])
        .style(styles::tab(&app.look, on))
        .on_press(Message::Do(Command::Step(step)))
        .into()
}

fn action<'a>(app: &'a App, name: &'a str, command: Command, ready: bool) -> Element<'a, Message> {
    button(text(name).size(13))
        .padding([4, 8])
        .style(styles::plain(&app.look, false))
        .on_press_maybe(ready.then_some(Message::Do(command)))
        .into()
}

/// What the open step offers.
fn shelf(app: &App) -> Element<'_, Message> {
    let mut shelf = Row::new().spacing(2).align_y(Center);
    let tools: Vec<(String, Command)> = match app.session.sight.step() {
        Step::Survey => vec![
            ("Pick up".to_owned(), Command::Take(Tool::Hand)),
            ("Wall".to_owned(), Command::Take(Tool::Wall)),
            ("Door".to_owned(), Command::Take(Tool::Opening(OpeningKind::Door))),
            ("Window".to_owned(), Command::Take(Tool::Opening(OpeningKind::Window))),
            ("Sliding door".to_owned(), Command::Take(Tool::Opening(OpeningKind::SlidingDoor))),
            ("Plain opening".to_owned(), Command::Take(Tool::Opening(OpeningKind::Plain))),
            ("Keep-out".to_owned(), Command::Take(Tool::Area(AreaKind::KeepOut))),
            ("Picture".to_owned(), Command::Building(Ask::Picture)),
            ("Bring in".to_owned(), Command::Building(Ask::Import)),
            ("Draft".to_owned(), Command::Building(Ask::Draft)),
        ],
        Step::Points => {
            let mut tools = vec![
                ("Pick up".to_owned(), Command::Take(Tool::Hand)),
                ("Board".to_owned(), Command::Take(Tool::Board)),
            ];
            tools.extend(
                kit::FRONT
                    .iter()
                    .map(|(kind, _)| (kind.name().to_owned(), Command::Take(Tool::Point(*kind)))),
            );
            tools
        }
        Step::Circuits | Step::Runs => vec![
            ("Pick up".to_owned(), Command::Take(Tool::Hand)),
            ("All of the level".to_owned(), Command::Fit),
            ("Find".to_owned(), Command::Find),
        ],
        Step::Papers => vec![
            ("Write the papers".to_owned(), Command::Export),
            ("Save".to_owned(), Command::Save),
            ("Save as".to_owned(), Command::SaveAs),
        ],
    };
    for (name, command) in tools {
        let on = command == Command::Take(app.session.hand.tool());
        let key = keys::key_of(command);
        let ink = if on { app.look.on_accent } else { app.look.quiet };
        let lettering = row![text(name).size(13), text(key).size(11).style(styles::ink(ink)),]
            .spacing(5)
            .align_y(Center);
        let tool = button(lettering)
            .padding([3, 8])
            .style(styles::plain(&app.look, on))
            .on_press(Message::Do(command));
        shelf = shelf.push(tool);
    }
    shelf.into()
}

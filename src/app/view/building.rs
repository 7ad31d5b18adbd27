//! The card of the building: what the chosen wall, room, opening, area, void
//! or picture is, or the level where nothing is chosen.

use iced::widget::{Column, Row, button, column, container, opaque, row, space, text};
use iced::{Center, Element, Fill};
use wirewend::plan::{Area, Level, Opening, OpeningKind, Subject, Void, Wall};
use wirewend::session::state::{Amount, AreaKind, Step, Tool};
use wirewend::session::survey::building::{BUILDS, USES, build};
use wirewend::session::survey::outlines::effect_says;
use wirewend::session::survey::wall_areas;
use wirewend::units::Mm;

use crate::app::keys::{Ask, Command, key_of};
use crate::app::view::styles;
use crate::app::{App, Message};

/// The card in the sheet's corner, while the building is drawn.
pub(super) fn card(app: &App) -> Element<'_, Message> {
    let session = &app.session;
    // Only for an empty hand: whoever draws needs all of the sheet.
    let busy = session.hand.tool() != Tool::Hand || !session.chosen_ends().is_empty();
    if session.sight.step() != Step::Survey || busy {
        return space().into();
    }
    let one = session.selection.chosen().iter().next().copied();
    let more = match session.selection.chosen().len() {
        0 | 1 => String::new(),
        count => format!("{count} chosen"),
    };
    let lines = match one {
        Some(Subject::Wall(id)) => session.document.plan().walls.get(&id).map(|it| wall(app, it)),
        Some(Subject::Opening(id)) => {
            session.document.plan().openings.get(&id).map(|it| opening(app, it))
        }
        Some(Subject::Room(id)) => session.document.plan().rooms.get(&id).map(|room| {
            let on = USES.iter().position(|(usage, _)| *usage == room.usage);
            let uses = USES.iter().map(|(usage, name)| (*name, Ask::Use(*usage)));
            column![head(app, "Room", &room.name), choices(app, uses, on, 5)].spacing(6)
        }),
        Some(Subject::Area(id)) => session.document.plan().areas.get(&id).map(|area| {
            let says = effect_says(area.effect, session.sight.measure());
            let kinds = [
                ("keep out", Ask::Effect(AreaKind::KeepOut)),
                ("avoid", Ask::Effect(AreaKind::Dear)),
                ("prefer", Ask::Effect(AreaKind::Cheap)),
                ("costly to cross", Ask::Effect(AreaKind::Barrier)),
            ];
            column![
                head(app, "Area", &area.name),
                on_wall(app, area),
                line(says),
                choices(app, kinds, None, 4),
                row![does(app, "cost in percent", Command::Ask(Amount::Percent)), delete(app)]
                    .spacing(4),
            ]
            .spacing(6)
        }),
        Some(Subject::Void(id)) => session.document.plan().voids.get(&id).map(|it| void(app, it)),
        Some(Subject::Level(_)) => {
            session.backdrop().map(|(_, it)| picture(app, &it.file, it.strength))
        }
        _ => session
            .sight
            .level()
            .and_then(|id| session.document.plan().levels.get(&id))
            .map(|it| level(app, it)),
    };
    let Some(lines) = lines else { return space().into() };
    let lines = if more.is_empty() { lines } else { lines.push(what(app, more)) };
    let card = opaque(container(lines.max_width(430)).padding(10).style(styles::card(&app.look)));
    container(card).width(Fill).height(Fill).padding(12).align_y(iced::Bottom).into()
}

type Lines<'a> = Column<'a, Message>;

/// What a thing is and its name, which a click changes.
fn head<'a>(app: &'a App, of: &'a str, name: &'a str) -> Element<'a, Message> {
    let name = if name.is_empty() { "no name" } else { name };
    row![what(app, of), does(app, name, Command::Ask(Amount::Name)),]
        .spacing(2)
        .align_y(Center)
        .into()
}

/// Lettering in line with that of buttons.
fn line<'a>(says: impl Into<String>) -> Element<'a, Message> {
    container(text(says.into()).size(12)).padding([2, 6]).into()
}

/// What a thing is.
fn what<'a>(app: &'a App, says: impl Into<String>) -> Element<'a, Message> {
    let says = text(says.into()).size(12).style(styles::ink(app.look.quiet));
    container(says).padding([2, 6]).into()
}

/// A button with its key.
fn does<'a>(app: &'a App, says: impl Into<String>, command: Command) -> Element<'a, Message> {
    let key = text(key_of(command)).size(11).style(styles::ink(app.look.quiet));
    button(row![text(says.into()).size(12), key].spacing(5).align_y(Center))
        .padding([2, 6])
        .style(styles::plain(&app.look, false))
        .on_press(Message::Do(command))
        .into()
}

fn delete(app: &App) -> Element<'_, Message> {
    does(app, "take away", Command::Delete)
}

/// Answers beside each other, the one that holds marked.
fn choices<'a>(
    app: &'a App,
    all: impl IntoIterator<Item = (&'a str, Ask)>,
    on: Option<usize>,
    across: usize,
) -> Element<'a, Message> {
    let mut lines = Column::new().spacing(2);
    let mut line = Row::new().spacing(2);
    let mut count = 0;
    for (index, (name, ask)) in all.into_iter().enumerate() {
        let command = Command::Building(ask);
        let key = key_of(command);
        let chosen = on == Some(index);
        let ink = if chosen { app.look.on_accent } else { app.look.quiet };
        let says = row![text(name).size(12), text(key).size(10).style(styles::ink(ink))];
        let answer = button(says.spacing(4).align_y(Center))
            .padding([2, 6])
            .style(styles::plain(&app.look, chosen))
            .on_press(Message::Do(command));
        line = line.push(answer);
        count += 1;
        if count == across {
            lines = lines.push(line);
            (line, count) = (Row::new().spacing(2), 0);
        }
    }
    lines.push(line).into()
}

fn wall<'a>(app: &'a App, wall: &'a Wall) -> Lines<'a> {
    let show = |length: Mm| app.session.sight.measure().show(length);
    let length = Mm::from_f64(wall.length()).unwrap_or(Mm::ZERO);
    let on = BUILDS.iter().position(|one| *one == wall.build);
    let builds = BUILDS.iter().map(|one| (build(*one).0, Ask::Build(*one)));
    let filled = if wall.insulated { "insulated" } else { "not insulated" };
    column![
        row![
            what(app, "Wall"),
            does(app, format!("{} long", show(length)), Command::Ask(Amount::Width)),
            does(app, format!("{} thick", show(wall.thickness)), Command::Ask(Amount::Thick)),
            does(app, "move", Command::Ask(Amount::Along)),
        ]
        .align_y(Center)
        .spacing(2),
        choices(app, builds, on, 3),
        row![does(app, filled, Command::Building(Ask::Insulate)), delete(app)].spacing(4),
    ]
    .spacing(6)
}

/// Where an area on a wall is, and how high it reaches.
fn on_wall<'a>(app: &'a App, area: &'a Area) -> Option<Element<'a, Message>> {
    let around = wall_areas::extent(area)?;
    let show = |value| app.session.sight.measure().show(Mm::from_f64(value).unwrap_or(Mm::ZERO));
    let asks = |says: String, amount| does(app, says, Command::Ask(amount));
    let along = row![
        asks(format!("{} wide", show(around.width())), Amount::Width),
        asks(format!("{} from the corner", show(around.x0)), Amount::Along),
    ];
    let high = row![
        asks(format!("from {}", show(around.y0)), Amount::Height),
        asks(format!("to {} high", show(around.y1)), Amount::Head),
    ];
    Some(column![along.spacing(2), high.spacing(2)].spacing(6).into())
}

fn opening<'a>(app: &'a App, opening: &'a Opening) -> Lines<'a> {
    let show = |length: Mm| app.session.sight.measure().show(length);
    let name = match opening.kind {
        OpeningKind::Door => "Door",
        OpeningKind::SlidingDoor => "Sliding door",
        OpeningKind::Window => "Window",
        OpeningKind::Plain => "Opening",
    };
    let mut lines = column![
        row![
            what(app, name),
            does(app, format!("{} wide", show(opening.width)), Command::Ask(Amount::Width)),
            does(
                app,
                format!("{} from the corner", show(opening.from)),
                Command::Ask(Amount::Along)
            ),
        ]
        .align_y(Center)
        .spacing(2),
        row![
            does(app, format!("from {}", show(opening.sill)), Command::Ask(Amount::Height)),
            does(app, format!("to {} high", show(opening.head)), Command::Ask(Amount::Head)),
        ]
        .spacing(2),
    ]
    .spacing(6);
    if opening.kind == OpeningKind::Door {
        lines = lines.push(
            row![
                does(app, "handle on the other side", Command::Building(Ask::Handle)),
                does(app, "opens the other way", Command::Turn),
            ]
            .spacing(2),
        );
    }
    lines.push(delete(app))
}

fn void<'a>(app: &'a App, void: &'a Void) -> Lines<'a> {
    let show = |length: Mm| app.session.sight.measure().show(length);
    let turn = f64::from(void.direction.millidegrees()) / 1000.0;
    let mut joists = Row::new().spacing(2).push(does(
        app,
        format!("joists run at {turn:.0}°"),
        Command::Ask(Amount::Direction),
    ));
    if let Some(one) = void.joists {
        let says = format!("{} apart", show(one.spacing));
        joists = joists.push(does(app, says, Command::Ask(Amount::Spacing)));
    }
    let insulation = if void.insulation > Mm::ZERO {
        format!("{} insulation", show(void.insulation))
    } else {
        "no insulation".to_owned()
    };
    let covers = if void.outline.is_some() {
        does(app, "covers its outline; all again", Command::Building(Ask::NoOutline))
    } else {
        does(app, "covers all; draw an outline", Command::Take(Tool::Outline))
    };
    column![
        head(app, "Void", &void.name),
        joists,
        row![
            does(app, format!("cables at {}", show(void.z)), Command::Ask(Amount::Height)),
            does(app, insulation, Command::Ask(Amount::Thick)),
        ]
        .spacing(2),
        row![covers, delete(app)].spacing(2),
    ]
    .spacing(6)
}

fn picture<'a>(app: &'a App, file: &'a str, strength: u8) -> Lines<'a> {
    column![
        row![what(app, "Picture"), text(format!("{file}, {strength} %")).size(12),].spacing(6),
        row![
            does(app, "scale by a known length", Command::Take(Tool::Ruler)),
            does(app, "quarter turn", Command::Building(Ask::TurnPicture)),
        ]
        .spacing(2),
        row![
            does(app, "fainter", Command::Building(Ask::Fainter)),
            does(app, "stronger", Command::Building(Ask::Stronger)),
            does(app, "put away", Command::Building(Ask::HidePicture)),
            delete(app),
        ]
        .spacing(2),
    ]
    .spacing(6)
}

fn level<'a>(app: &'a App, level: &'a Level) -> Lines<'a> {
    let show = |length: Mm| app.session.sight.measure().show(length);
    let mut lines = column![
        head(app, "Level", &level.name),
        row![
            does(app, format!("floor at {}", show(level.floor)), Command::Ask(Amount::Floor)),
            does(app, format!("ceiling {} up", show(level.height)), Command::Ask(Amount::Ceiling)),
        ]
        .spacing(2),
    ]
    .spacing(4);
    for (side, voids, overhead) in [("above", &level.above, true), ("below", &level.below, false)] {
        let names = voids.iter().filter_map(|id| app.session.document.plan().voids.get(id));
        let names: Vec<&str> = names.map(|void| void.name.as_str()).collect();
        let choose = Command::Building(Ask::Void(overhead));
        let add = Command::Building(Ask::AddVoid(overhead));
        let line = if names.is_empty() {
            row![line(format!("{side}: concrete")), does(app, "add a void", add)]
        } else {
            row![does(app, format!("{side}: {}", names.join(", ")), choose)]
        };
        lines = lines.push(line.spacing(4).align_y(Center));
    }
    lines.push(
        row![
            does(app, "add above", Command::Building(Ask::AddLevel(true))),
            does(app, "add below", Command::Building(Ask::AddLevel(false))),
            does(app, "take away", Command::Building(Ask::RemoveLevel)),
        ]
        .spacing(2),
    )
}

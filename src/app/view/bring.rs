//! The cards of what is brought in and of drafts.

use iced::widget::{
    Column, Row, button, column, container, row, scrollable, space, text, text_input,
};
use iced::{Center, Element, Fill};
use wirewend::draft::{Draft, Reason};
use wirewend::plan::Subject;
use wirewend::store::{Import, LengthUnit};

use crate::app::doing::bring::{Answer, Reading};
use crate::app::draft_form::{ABOVES, Choice, DraftForm, STANDARDS, WAYS};
use crate::app::keys::Command;
use crate::app::view::parts::{FIELD, button_of, field, title};
use crate::app::view::styles;
use crate::app::{App, Message};

/// Where a file is.
pub(super) fn file_card<'a>(
    app: &'a App,
    says: &'a str,
    hint: &'a str,
    path: &'a str,
) -> Element<'a, Message> {
    column![
        title(says),
        field(app, hint, path),
        text("Or drop the file on the window.").size(12).style(styles::ink(app.look.quiet)),
        row![
            button_of(app, "Open  Enter", Message::FieldDone, true),
            button_of(app, "Not now  Escape", Message::Do(Command::LetGo), false),
        ]
        .spacing(8),
    ]
    .spacing(12)
    .width(560)
    .into()
}

/// Long work.
pub(super) fn busy_card<'a>(app: &'a App, what: &'a str) -> Element<'a, Message> {
    let progress = app.long.watch.progress();
    let seconds = format!("{} s so far", app.long.seconds);
    let far = progress
        .map_or_else(|| seconds.clone(), |(done, all)| format!("part {done} of {all}, {seconds}"));
    let part = progress
        .and_then(|(done, all)| Some((u16::try_from(done).ok()?, u16::try_from(all - done).ok()?)));
    column![
        title(what),
        text(far).size(12),
        bar(app, part),
        text("The plan stays as it is until it is done.")
            .size(12)
            .style(styles::ink(app.look.quiet)),
        button_of(app, "Stop  Escape", Message::Do(Command::LetGo), false),
    ]
    .spacing(12)
    .width(420)
    .into()
}

/// How far work is: parts done and parts left.
fn bar(app: &App, part: Option<(u16, u16)>) -> Element<'_, Message> {
    let (done, left) = part.unwrap_or((0, 1));
    let piece = |part: u16, on| {
        let width = if part == 0 { iced::Length::Fixed(0.0) } else { iced::FillPortion(part) };
        container(space()).width(width).height(4).style(styles::track(&app.look, on))
    };
    row![piece(done, true), piece(left, false)].into()
}

/// What a file holds and what of it was understood.
pub(super) fn brought_card(app: &App) -> Element<'_, Message> {
    let import = match app.long.answer.as_deref() {
        Some(Answer::Brought(Ok(import))) => import,
        _ => return space().into(),
    };
    let has = !app.session.document.plan().walls.is_empty()
        || !app.session.document.plan().points.is_empty();
    let replaces = if has {
        "It takes the place of all that is drawn, points and circuits too. One undo brings that back."
    } else {
        "It is put into the plan as one step that undo takes back."
    };
    column![
        title("Look over what was found"),
        report(import),
        readings(app, import),
        text(replaces).size(12),
        row![
            button_of(app, "Put it into the plan  Enter", Message::TakeBrought, true),
            button_of(app, "Leave it  Escape", Message::Do(Command::LetGo), false),
        ]
        .spacing(8),
    ]
    .spacing(10)
    .width(640)
    .into()
}

/// How else a drawing can be read: its unit, the layers of its walls.
fn readings<'a>(app: &'a App, import: &'a Import) -> Option<Element<'a, Message>> {
    let report = &import.report;
    report.form.is_drawing().then(|| {
        let options = &app.long.source.options;
        let units = std::iter::once(("as it seems", None))
            .chain(LengthUnit::ALL.into_iter().map(|(name, unit)| (name, Some(unit))))
            .map(|(name, unit)| {
                (name, Message::Reading(Reading::Unit(unit)), unit == options.unit)
            });
        let by_name = ("by their names", Reading::ByName, options.layers.is_empty());
        let layers = report.layers.iter().map(|layer| {
            (layer.as_str(), Reading::Layer(layer.clone()), options.layers.contains(layer))
        });
        let layers = std::iter::once(by_name).chain(layers);
        let layers = layers.map(|(name, reading, on)| (name, Message::Reading(reading), on));
        column![
            question(app, "1  Lengths in", 130.0, units),
            question(app, "2  Walls are on", 130.0, layers),
        ]
        .spacing(4)
        .into()
    })
}

fn report(import: &Import) -> Element<'_, Message> {
    let mut lines = Column::new().spacing(2);
    for line in import.report.to_string().lines() {
        let says = text(line.trim_start().to_owned()).size(12);
        let inner = line.starts_with(' ');
        let says = if inner { says } else { says.font(styles::BOLD) };
        let left = if inner { 14.0 } else { 0.0 };
        lines = lines.push(container(says).padding(iced::Padding {
            left,
            right: 12.0,
            ..iced::Padding::ZERO
        }));
    }
    container(scrollable(lines.width(Fill))).max_height(380).into()
}

/// What is asked before a draft.
pub(super) fn draft_card<'a>(app: &'a App, form: &'a DraftForm) -> Element<'a, Message> {
    let options = &form.options;
    let regimes = form.regimes.iter().map(|(one, name)| {
        (name.as_str(), Message::Draft(Choice::Regime(*one)), *one == options.regime)
    });
    let standards = STANDARDS.iter().map(|(one, name)| {
        (*name, Message::Draft(Choice::Standard(*one)), *one == options.standard)
    });
    let ways = WAYS
        .iter()
        .map(|(one, name)| (*name, Message::Draft(Choice::Way(*one)), *one == options.way));
    let aboves = ABOVES
        .iter()
        .map(|(one, name)| (*name, Message::Draft(Choice::Above(*one)), *one == options.above));
    let board = text_input("room, or room/north", &form.board)
        .id(FIELD)
        .on_input(|text| Message::Draft(Choice::Board(text)))
        .on_submit(Message::FieldDone)
        .size(13)
        .padding(5)
        .style(styles::field(&app.look));
    column![
        title("Draft the wiring of this layout"),
        text("Uses of rooms, points, boards and circuits, each with its reason. What is there already stays.")
            .size(12),
        question(app, "1  Rules of", 170.0, regimes),
        question(app, "2  How much of everything", 170.0, standards),
        question(app, "3  Cables run", 170.0, ways),
        question(app, "4  Where no void is drawn", 170.0, aboves),
        row![text("Tab  Board in").size(12).width(170), board.width(260)].align_y(Center),
        row![
            button_of(app, "Draft  Enter", Message::FieldDone, true),
            button_of(app, "Not now  Escape", Message::Do(Command::LetGo), false),
        ]
        .spacing(8),
    ]
    .spacing(10)
    .width(720)
    .into()
}

/// A question and its answers: what each says, does, and whether it holds.
fn question<'a>(
    app: &'a App,
    asks: &'a str,
    width: f32,
    answers: impl Iterator<Item = (&'a str, Message, bool)>,
) -> Element<'a, Message> {
    let mut line = Row::new().spacing(2).align_y(Center);
    for (name, says, on) in answers {
        let answer = button(text(name).size(12))
            .padding([3, 7])
            .style(styles::plain(&app.look, on))
            .on_press(says);
        line = line.push(answer);
    }
    let asks = container(text(asks).size(12)).padding([3, 0]).width(width);
    row![asks, line.wrap()].into()
}

/// What a draft came to, with its reasons.
pub(super) fn drafted_card(app: &App) -> Element<'_, Message> {
    let draft = match app.long.answer.as_deref() {
        Some(Answer::Drafted(Ok(draft))) => draft,
        _ => return space().into(),
    };
    column![
        title("Drafted"),
        text(figures(draft)).size(13),
        container(scrollable(reasons(app, draft))).max_height(340),
        text(
            "A draft to correct, not a design to build from: walk the house with it. It certifies \
             nothing; the local code and licensed people decide."
        )
        .size(12),
        row![
            button_of(app, "Keep it  Enter", Message::Do(Command::LetGo), true),
            button_of(app, "Take it back  Delete", Message::Undrafted, false),
        ]
        .spacing(8),
    ]
    .spacing(10)
    .width(720)
    .into()
}

fn figures(draft: &Draft) -> String {
    let sum = draft.summary;
    let many = |count: usize, one: &str| {
        if count == 1 { format!("1 {one}") } else { format!("{count} {one}s") }
    };
    format!(
        "{}, {}, {}, {}, {}; {} ({} for lights) on {}",
        many(sum.sockets, "socket"),
        many(sum.lights, "light"),
        if sum.switches == 1 {
            "1 switch".to_owned()
        } else {
            format!("{} switches", sum.switches)
        },
        many(sum.alarms, "alarm"),
        many(sum.fixed, "fixed appliance"),
        many(sum.circuits, "circuit"),
        sum.lighting_circuits,
        many(sum.boards, "board"),
    )
}

/// The most reasons shown.
const MOST: usize = 300;

fn reasons<'a>(app: &'a App, draft: &'a Draft) -> Element<'a, Message> {
    // What decides most comes first: the plan, boards, uses, circuits.
    let rank = |reason: &&Reason| match reason.subject {
        Subject::Plan | Subject::Level(_) | Subject::Void(_) => 0,
        Subject::Board(_) => 1,
        Subject::Room(_) => 2,
        Subject::Circuit(_) => 3,
        _ => 4,
    };
    let mut all: Vec<&Reason> = draft.reasons.iter().collect();
    all.sort_by_key(rank);
    let mut lines = Column::new().spacing(3);
    for reason in all.iter().take(MOST) {
        let line = row![
            text(&reason.chosen).size(12).width(iced::FillPortion(5)),
            text(&reason.because)
                .size(12)
                .width(iced::FillPortion(6))
                .style(styles::ink(app.look.quiet)),
        ]
        .spacing(10);
        lines = lines.push(line);
    }
    if all.len() > MOST {
        lines = lines.push(text(format!("and {} more", all.len() - MOST)).size(12));
    }
    container(lines).padding(iced::Padding { right: 14.0, ..iced::Padding::ZERO }).into()
}

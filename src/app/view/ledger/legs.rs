//! More about the chosen circuit: its figures in words, and its legs.

use iced::widget::{Column, button, container, row, text};
use iced::{Center, Element, Fill};
use wirewend::plan::{CircuitId, labels};
use wirewend::runs::LegRole;
use wirewend::session::circuits;
use wirewend::session::state::{LegKey, Step};
use wirewend::session::work::{Figure, Picture};

use crate::app::keys::{self, Command, Habit};
use crate::app::view::ledger::{METRES, asked, styles};
use crate::app::{App, Message};

/// What stands beneath the row of the chosen circuit.
pub(super) fn more<'a>(app: &'a App, picture: &'a Picture, id: CircuitId) -> Element<'a, Message> {
    let mut lines = Column::new().spacing(1);
    lines = lines.push(figures(app, picture, id));
    let other = |point: &wirewend::plan::PointId| {
        let point = app.session.document.plan().points.get(point);
        point.is_some_and(|point| point.circuit != Some(id))
    };
    if app.session.chosen_points().iter().any(other) {
        let put = button(text("Put the chosen points on it").size(12))
            .padding([2, 6])
            .style(styles::framed(&app.look))
            .on_press(Message::PutOn(id));
        lines = lines.push(put);
    }
    if app.session.sight.step() == Step::Runs {
        lines = lines.push(legs(app, picture, id));
    }
    container(lines)
        .padding(iced::Padding { left: 26.0, bottom: 4.0, ..iced::Padding::ZERO })
        .into()
}

fn figures<'a>(app: &'a App, picture: &'a Picture, id: CircuitId) -> Element<'a, Message> {
    let look = &app.look;
    let cable = picture.plan.circuits.get(&id).and_then(|circuit| circuit.cable);
    let cable = cable.map_or("no cable chosen yet".to_owned(), |cable| cable.to_string());
    let loops = picture.checked.circuits.get(&id).and_then(|figures| {
        let ohms = figures.loop_impedance.as_ref()?.value.0;
        Some(match &figures.loop_limit {
            Some(limit) => format!("loop {ohms:.2} of {:.2} Ω", limit.value.0),
            None => format!("loop {ohms:.2} Ω"),
        })
    });
    let loops = loops.map(|loops| asked(look, loops, 150.0, Figure::Loop(id), look.text));
    let order = picture.runs.circuits.get(&id).map(|run| {
        let says = text(circuits::standing(run)).size(12).style(styles::ink(look.quiet));
        let does = |name, habit| {
            let key = keys::key_of(Command::Habit(habit));
            let says = row![text(name).size(12), text(key).size(11).style(styles::ink(look.quiet))];
            button(says.spacing(5).align_y(Center))
                .padding([1, 5])
                .style(styles::plain(look, false))
                .on_press(Message::Do(Command::Habit(habit)))
        };
        let kept = picture.plan.circuits.get(&id).is_some_and(|one| !one.order.is_empty());
        let keep = if kept { "free it" } else { "keep it" };
        row![
            says.width(Fill),
            does(keep, Habit::KeepOrder),
            does("other way round", Habit::Reverse),
        ]
        .align_y(Center)
    });
    let cable = row![text(cable).size(12).width(Fill).style(styles::ink(look.quiet))]
        .push(loops)
        .align_y(Center);
    Column::new().push(cable).push(order).into()
}

fn legs<'a>(app: &'a App, picture: &'a Picture, id: CircuitId) -> Element<'a, Message> {
    let look = &app.look;
    let marks = labels(&picture.plan);
    let mut lines = Column::new();
    let run = picture.runs.circuits.get(&id).map_or(&[][..], |run| &run.legs);
    let lengths = picture.lengths.circuits.get(&id).map_or(&[][..], |legs| legs.as_slice());
    for (index, (leg, length)) in run.iter().zip(lengths).enumerate() {
        let from_to = format!("{} to {}", marks.end(leg.from), marks.end(leg.to));
        let cut = app.session.sight.measure().run(length.cut_or_measured());
        let line = row![
            text(leg.number.to_string()).size(12).width(26).style(styles::ink(look.quiet)),
            text(from_to).size(12).width(Fill),
            text(role(leg.role)).size(11).style(styles::ink(look.quiet)),
            asked(look, cut, METRES, Figure::Leg(id, index), look.text),
        ]
        .spacing(4)
        .align_y(Center);
        let key = LegKey::of(leg);
        let line = button(line)
            .padding([1, 4])
            .width(Fill)
            .style(styles::row(look, app.session.selection.leg() == Some(key)))
            .on_press(Message::Leg(key));
        lines = lines.push(line);
    }
    lines.into()
}

const fn role(role: LegRole) -> &'static str {
    match role {
        LegRole::Feed => "",
        LegRole::RingReturn => "back to the board",
        LegRole::Spur => "spur",
        LegRole::SwitchLeg => "switch leg",
        LegRole::Strappers => "strappers",
        LegRole::Interlink => "interlink",
        LegRole::LightLink => "light to light",
    }
}

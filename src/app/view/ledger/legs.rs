//! More about the chosen circuit: its figures in words, and its legs.

use iced::widget::{Column, button, container, row, text};
use iced::{Center, Element, Fill};
use wirewend::plan::{CircuitId, labels};
use wirewend::runs::LegRole;

use super::{METRES, asked, styles};
use crate::app::figure::{self, Figure};
use crate::app::keys::Step;
use crate::app::work::Picture;
use crate::app::{App, Message};

/// What stands beneath the row of the chosen circuit.
pub(super) fn more<'a>(app: &'a App, picture: &'a Picture, id: CircuitId) -> Element<'a, Message> {
    let mut lines = Column::new().spacing(1);
    lines = lines.push(figures(app, picture, id));
    let other = |point: &wirewend::plan::PointId| {
        let point = app.desk.plan.points.get(point);
        point.is_some_and(|point| point.circuit != Some(id))
    };
    if app.desk.chosen_points().iter().any(other) {
        let put = button(text("Put the chosen points on it").size(12))
            .padding([2, 6])
            .style(styles::framed(&app.look))
            .on_press(Message::PutOn(id));
        lines = lines.push(put);
    }
    if app.desk.step == Step::Runs {
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
    row![text(cable).size(12).width(Fill).style(styles::ink(look.quiet))]
        .push(loops)
        .align_y(Center)
        .into()
}

fn legs<'a>(app: &'a App, picture: &'a Picture, id: CircuitId) -> Element<'a, Message> {
    let look = &app.look;
    let marks = labels(&picture.plan);
    let mut lines = Column::new();
    let run = picture.runs.circuits.get(&id).map_or(&[][..], |run| &run.legs);
    let lengths = picture.lengths.circuits.get(&id).map_or(&[][..], Vec::as_slice);
    for (index, (leg, length)) in run.iter().zip(lengths).enumerate() {
        let from_to = format!("{} to {}", marks.end(leg.from), marks.end(leg.to));
        let cut = figure::metres(length.cut_or_measured());
        let line = row![
            text(leg.number.to_string()).size(12).width(26).style(styles::ink(look.quiet)),
            text(from_to).size(12).width(Fill),
            text(role(leg.role)).size(11).style(styles::ink(look.quiet)),
            asked(look, cut, METRES, Figure::Leg(id, index), look.text),
        ]
        .spacing(4)
        .align_y(Center);
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

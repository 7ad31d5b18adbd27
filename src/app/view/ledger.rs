//! The ledger: the circuits with their figures, and what to look at.

mod legs;

use iced::widget::{
    Column, button, canvas, column, container, mouse_area, row, scrollable, space, stack, text,
};
use iced::{Center, Element, Fill, Length, Renderer, Theme, mouse};
use wirewend::plan::{BoardId, Circuit, CircuitId, Finding, Severity, circuits_by_board, labels};
use wirewend::session::state::Camera;
use wirewend::session::work::{Figure, Picture, total};
use wirewend::sheet::circuit_line;
use wirewend::units::Mm;

use crate::app::canvas::paint::{paint, ready};
use crate::app::canvas::theme::Look;
use crate::app::view::styles;
use crate::app::{App, Message};

/// Widths of the columns of figures, pixels.
const METRES: f32 = 58.0;
const DEVICE: f32 = 44.0;
const DROP: f32 = 54.0;
const COUNT: f32 = 22.0;

/// The ledger beside the sheet.
pub(super) fn ledger(app: &App) -> Element<'_, Message> {
    let mut lines = Column::new().spacing(1);
    if let Some(picture) = app.session.jobs.picture() {
        let boards = circuits_by_board(&picture.plan);
        let several = boards.len() > 1;
        for (board, ids) in boards {
            if several {
                lines = lines.push(board_name(app, picture, board));
            }
            let circuits = ids.iter().filter_map(|id| picture.plan.circuits.get_full(id));
            for (index, id, circuit) in circuits {
                lines = lines.push(line(app, picture, index, *id, circuit));
                if app.session.selection.circuit() == Some(*id) {
                    lines = lines.push(legs::more(app, picture, *id));
                }
            }
        }
        if picture.plan.circuits.is_empty() {
            let says = "No circuits yet: place a board, sockets, lights. They put themselves on \
                        circuits.";
            lines = lines.push(container(text(says).size(13)).padding([6, 6]));
        }
        lines = lines.push(sum(app, picture));
        lines = lines.push(findings(app, picture));
    }
    let body = scrollable(lines.width(Fill).padding(iced::Padding {
        left: 10.0,
        right: 14.0,
        ..iced::Padding::ZERO
    }))
    .height(Fill);
    container(column![heads(app), body].spacing(2)).padding([8, 0]).width(392).height(Fill).into()
}

fn heads(app: &App) -> Element<'_, Message> {
    let head = |name, width: Length| {
        text(name).size(11).width(width).align_x(iced::Right).style(styles::ink(app.look.quiet))
    };
    let line = row![
        text("Circuits").size(13).font(styles::BOLD),
        space().width(Fill),
        head("cable", METRES.into()),
        head("device", DEVICE.into()),
        head("drop", DROP.into()),
        space().width(COUNT + 3.0),
    ]
    .align_y(Center);
    container(line).padding(iced::Padding { left: 16.0, right: 20.0, ..iced::Padding::ZERO }).into()
}

/// Over the circuits of a board, where there are several.
fn board_name<'a>(app: &App, picture: &Picture, board: Option<BoardId>) -> Element<'a, Message> {
    let says = match board {
        Some(id) => format!("of {}", labels(&picture.plan).board(id)),
        None => "without board".to_owned(),
    };
    let says = text(says).size(12).font(styles::BOLD).style(styles::ink(app.look.quiet));
    container(says).padding([6, 6]).into()
}

fn line<'a>(
    app: &'a App,
    picture: &'a Picture,
    index: usize,
    id: CircuitId,
    circuit: &'a Circuit,
) -> Element<'a, Message> {
    let measure = app.session.sight.measure();
    let figures = picture.checked.circuits.get(&id);
    let metres = total(picture, id).map_or("-".to_owned(), |all| measure.run(all));
    let device = circuit
        .device
        .map_or("-".to_owned(), |device| format!("{} {}", kind(device.curve), device.rating.0));
    let drop = figures.and_then(|figures| figures.volt_drop_percent);
    let limit = figures.and_then(|figures| figures.volt_drop_limit_percent);
    let over = matches!((drop, limit), (Some(drop), Some(limit)) if drop > limit);
    let drop = drop.map_or("?".to_owned(), |drop| format!("{drop:.2} %"));
    let count = picture.findings_of(id);
    let look = &app.look;
    let number = format!("{:>2}", circuit.number);
    // A layer of its own: the renderer misplaces what follows a canvas.
    let sample = canvas(Sample { index, look }).width(34).height(16);
    let sample = stack![space().width(34).height(16), sample].clip(true);
    let name = text(&circuit.name).size(12);
    let count_ink = if count == 0 { look.quiet } else { look.warning };
    let line = row![
        text(number).size(13).font(styles::BOLD).width(20),
        sample,
        container(name).width(Fill).clip(true).padding([0, 6]),
        asked(look, metres, METRES, Figure::Metres(id), look.text),
        asked(look, device, DEVICE, Figure::Device(id), look.text),
        asked(look, drop, DROP, Figure::VoltDrop(id), if over { look.fault } else { look.text }),
        text(if count == 0 { "·".to_owned() } else { count.to_string() })
            .size(13)
            .width(COUNT)
            .align_x(iced::Right)
            .style(styles::ink(count_ink)),
    ]
    .align_y(Center);
    let on = app.session.selection.circuit() == Some(id) || app.session.hand.over() == Some(id);
    let row = button(line)
        .padding([3, 6])
        .width(Fill)
        .style(styles::row(look, on))
        .on_press(Message::Circuit(id));
    // Points can be dragged onto it.
    mouse_area(row).on_enter(Message::Over(Some(id))).on_exit(Message::Over(None)).into()
}

const fn kind(curve: wirewend::plan::Curve) -> &'static str {
    match curve {
        wirewend::plan::Curve::B => "B",
        wirewend::plan::Curve::C => "C",
        wirewend::plan::Curve::D => "D",
    }
}

/// A figure that answers for itself when it is clicked.
fn asked<'a>(
    look: &'a Look,
    figure: String,
    width: f32,
    asks: Figure,
    ink: iced::Color,
) -> Element<'a, Message> {
    let figure = text(figure).size(13).width(Fill).align_x(iced::Right).style(styles::ink(ink));
    button(figure)
        .padding([1, 3])
        .width(width)
        .style(styles::plain(look, false))
        .on_press(Message::Figure(Some(asks)))
        .into()
}

fn sum<'a>(app: &'a App, picture: &'a Picture) -> Element<'a, Message> {
    let look = &app.look;
    let cables = &picture.lengths.cables;
    let cut: Mm = cables.iter().map(|cable| cable.cut).sum();
    let cut = if cables.is_empty() { "-".to_owned() } else { app.session.sight.measure().run(cut) };
    let mut lines = Column::new().spacing(1);
    let hair = container(space()).width(Fill).height(1).style(styles::hair(look));
    lines = lines.push(hair);
    let total = row![
        text("All cable").size(13).font(styles::BOLD).width(Fill),
        asked(look, cut, 90.0, Figure::Cable, look.text),
    ]
    .align_y(Center);
    lines = lines.push(container(total).padding([2, 6]));
    let (says, ink) = match &picture.price {
        // What stands there from before steps back until it is computed anew.
        Some(price) if picture.lettered => (price.says(), look.text),
        Some(price) => (price.says(), look.quiet),
        None => ("...".to_owned(), look.quiet),
    };
    let price = row![
        text("Price").size(13).font(styles::BOLD).width(Fill),
        asked(look, says, 200.0, Figure::Price, ink),
    ]
    .align_y(Center);
    lines = lines.push(container(price).padding([2, 6]));
    for cable in &picture.lengths.cables {
        let name = cable.cable.map_or("no cable chosen".to_owned(), |cable| cable.to_string());
        let line = row![
            text(format!("{name}, {} pieces", cable.pieces))
                .size(12)
                .width(Fill)
                .style(styles::ink(look.quiet)),
            text(app.session.sight.measure().run(cable.cut))
                .size(12)
                .style(styles::ink(look.quiet)),
        ];
        lines = lines.push(container(line).padding([0, 6]));
    }
    container(lines).padding([6, 0]).into()
}

/// The findings shown at once.
const MOST: usize = 40;

fn findings<'a>(app: &'a App, picture: &'a Picture) -> Element<'a, Message> {
    let look = &app.look;
    let mut lines = Column::new().spacing(1);
    let faults = picture.findings.iter().filter(|one| one.severity == Severity::Fault).count();
    let head = match (picture.findings.len(), faults) {
        (0, _) => "Nothing to look at".to_owned(),
        (all, 0) => format!("{all} to look at"),
        (all, faults) => format!("{all} to look at, {faults} past a limit"),
    };
    lines = lines.push(container(text(head).size(13).font(styles::BOLD)).padding([4, 6]));
    for (index, finding) in picture.findings.iter().enumerate().take(MOST) {
        lines = lines.push(finding_line(look, index, finding));
    }
    if picture.findings.len() > MOST {
        let more = format!("and {} more", picture.findings.len() - MOST);
        lines = lines.push(container(text(more).size(12)).padding([0, 6]));
    }
    lines.into()
}

fn finding_line<'a>(look: &'a Look, index: usize, finding: &'a Finding) -> Element<'a, Message> {
    let (word, ink) = match finding.severity {
        Severity::Fault => ("fault", look.fault),
        Severity::Warning => ("close", look.warning),
        Severity::Missing => ("missing", look.accent),
        Severity::Note => ("note", look.quiet),
    };
    let mut says = Column::new().push(text(&finding.message).size(12));
    if !finding.measured.is_empty() {
        let against = format!("{} against {}", finding.measured, finding.limit);
        says = says.push(text(against).size(11).style(styles::ink(look.quiet)));
    }
    if !finding.remedy.is_empty() {
        says = says.push(text(&finding.remedy).size(11).style(styles::ink(look.quiet)));
    }
    let mend = wirewend::session::circuits::mend::offers(finding).then(|| {
        button(text("Mend").size(12))
            .padding([1, 6])
            .style(styles::framed(look))
            .on_press(Message::Mend(index))
    });
    let line = row![
        text(word).size(11).font(styles::BOLD).width(50).style(styles::ink(ink)),
        says.width(Fill),
    ]
    .push(mend)
    .spacing(4);
    button(line)
        .padding([3, 6])
        .width(Fill)
        .style(styles::row(look, false))
        .on_press(Message::Finding(index))
        .into()
}

/// A piece of a circuit's line, as on the sheet.
struct Sample<'a> {
    index: usize,
    look: &'a Look,
}

impl canvas::Program<Message> for Sample<'_> {
    /// What was drawn, and for which circuit and look: made anew in each frame
    /// it would be painted anew as well.
    type State = (canvas::Cache, std::cell::Cell<Option<(usize, &'static str)>>);

    fn draw(
        &self,
        (cache, of): &Self::State,
        renderer: &Renderer,
        _: &Theme,
        bounds: iced::Rectangle,
        _: mouse::Cursor,
    ) -> Vec<canvas::Geometry> {
        let now = Some((self.index, self.look.name));
        if of.replace(now) != now {
            cache.clear();
        }
        let drawn = cache.draw(renderer, bounds.size(), |frame| {
            let marks = ready(&[circuit_line(self.index, 10.0)]);
            let origin = kurbo::Point::new(2.0, f64::from(bounds.height) / 2.0);
            let camera = Camera { origin, zoom: 3.0 };
            let shown = camera.shown(bounds.width.into(), bounds.height.into());
            paint(frame, &marks, camera, shown, self.look);
        });
        vec![drawn]
    }
}

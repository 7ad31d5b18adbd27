//! The notes of a floor sheet: a legend of what occurs and nothing else, the
//! circuits, the scale bar and the cautions.

use std::collections::BTreeSet;

use geo::MultiPolygon;
use kurbo::{Point, Rect, Vec2};

use super::hatch::Hatch;
use super::runs::{circuit_mark, ink, line_of};
use super::strands::Medium;
use super::walls::{OUTLINE, path_of, polygon_of};
use super::{ends, opening_marks, tags, worst};
use crate::lengths::Lengths;
use crate::plan::{Circuit, CircuitId, Plan, WallBuild, circuits_by_board, labels};
use crate::runs::Runs;
use crate::sheet::lettering::{Lettering, Weight, fitted, text_width, wrap};
use crate::sheet::panel::{LEADING, Row, TEXT_WIDTH};
use crate::sheet::scene::{Anchor, Item, LinePattern, Mark, Stroke, Text};
use crate::sheet::{Ink, PaperSize, Scale, Sign, Symbol, cautions, pen};
use crate::units::Mm;
use crate::wording;

/// What occurs on a sheet and so needs an entry.
#[derive(Clone, Debug, Default)]
pub(super) struct Occurs {
    pub(super) signs: BTreeSet<Sign>,
    pub(super) gangs: bool,
    pub(super) builds: BTreeSet<WallBuild>,
    pub(super) media: BTreeSet<Medium>,
    pub(super) drops_down: bool,
    pub(super) drops_up: bool,
    pub(super) tails: bool,
    pub(super) drips: bool,
    pub(super) heights: bool,
    pub(super) circuits: bool,
    pub(super) legs: bool,
    pub(super) worst: bool,
    pub(super) opened: bool,
    pub(super) passed: bool,
    pub(super) measured_legs: bool,
    pub(super) walls: bool,
    pub(super) others_grey: bool,
    pub(super) unplaced: usize,
}

const SWATCH: f64 = 13.6;
const COLUMN: f64 = TEXT_WIDTH / 2.0;
/// From a swatch to its words, mm.
const GAP: f64 = 1.2;
const WORDS: f64 = COLUMN - SWATCH - GAP - 0.6;

struct Entry {
    swatch: Vec<Item>,
    words: String,
}

/// The rows of the legend.
pub(super) fn legend(occurs: &Occurs) -> Vec<Row> {
    let mut entries: Vec<Entry> = Vec::new();
    entries.extend(occurs.signs.iter().map(|sign| sign_entry(*sign)));
    if occurs.gangs {
        entries.push(text_entry("2", "gangs on one plate"));
    }
    entries.extend(occurs.builds.iter().map(|build| wall_entry(*build)));
    entries.extend(
        Medium::ALL.into_iter().filter(|medium| occurs.media.contains(medium)).map(medium_entry),
    );
    if occurs.worst {
        entries.push(worst_entry());
    }
    if occurs.opened {
        let swatch = vec![opening_marks::band(Point::new(-5.4, 0.0), Point::new(5.4, 0.0))];
        entries.push(Entry { swatch, words: "wall opened here".to_owned() });
    }
    if occurs.passed {
        let swatch = vec![opening_marks::pass(Point::ORIGIN)];
        entries.push(Entry { swatch, words: "cable inside, up or down".to_owned() });
    }
    if occurs.drops_down {
        entries.push(drop_entry(true));
    }
    if occurs.drops_up {
        entries.push(drop_entry(false));
    }
    let (tail, drip) = ends::loops_for_legend(Point::new(0.0, -1.2));
    if occurs.tails {
        entries.push(Entry { swatch: vec![tail], words: "tail left at the box".to_owned() });
    }
    if occurs.drips {
        entries.push(Entry { swatch: vec![drip], words: "drip loop, wet face".to_owned() });
    }
    if occurs.legs {
        entries.push(leg_entry(false));
    }
    if occurs.measured_legs {
        entries.push(leg_entry(true));
    }
    if occurs.walls {
        entries.push(text_entry("W3", "a wall, or one face of it"));
    }
    if occurs.circuits {
        entries.push(text_entry("c3", "fed by circuit 3"));
    }
    if occurs.heights {
        entries.push(height_entry(occurs.drops_down));
    }
    if entries.is_empty() {
        let text = "Nothing is drawn on this level yet.";
        return vec![Row::heading("Legend"), Row::paragraph(text, Weight::Regular)];
    }
    // Entries of one line side by side, so that none leaves room unused; the
    // symbols of points first and in their order.
    entries[occurs.signs.len()..].sort_by_key(|entry| lines(entry).len() > 1);
    let mut rows = vec![Row::heading("Legend")];
    rows.extend(entries.chunks(2).map(pair));
    rows.push(Row::paragraph(
        "Symbols are based on the signs of IEC 60617-11 and are not claimed to conform: \
         this legend decides.",
        Weight::Regular,
    ));
    if occurs.others_grey {
        rows.push(Row::paragraph("Points of other circuits are grey.", Weight::Regular));
    }
    if occurs.unplaced > 0 {
        rows.push(Row::paragraph(
            &format!("Not drawn, because not placed yet: {} points or boards.", occurs.unplaced),
            Weight::Bold,
        ));
    }
    rows
}

fn lines(entry: &Entry) -> Vec<String> {
    wrap(&entry.words, WORDS, Lettering::Note, Weight::Regular)
}

/// Two entries side by side.
fn pair(entries: &[Entry]) -> Row {
    let mut items = Vec::new();
    let mut height: f64 = 0.0;
    for (entry, left) in entries.iter().zip([0.0, COLUMN]) {
        let lines = lines(entry);
        let lines_high: f64 = lines.iter().map(|_| LEADING).sum();
        let swatch_high = crate::sheet::bounds(&entry.swatch).map_or(0.0, |all| all.height());
        height = height.max(lines_high.max(swatch_high) + 1.2);
        items.push((left, lines, lines_high, entry));
    }
    let mut marks: Vec<Item> = Vec::new();
    for (left, lines, lines_high, entry) in items {
        let onto = kurbo::Affine::translate((left + SWATCH / 2.0, height / 2.0));
        marks.extend(entry.swatch.iter().map(|item| item.placed(onto)));
        let mut y = (height - lines_high) / 2.0 + 3.1;
        for line in lines {
            marks.push(Text::new(line, (left + SWATCH + GAP, y), Lettering::Note).into());
            y += LEADING;
        }
    }
    Row::new(height, marks)
}

fn sign_entry(sign: Sign) -> Entry {
    let symbol = Symbol::of(sign, 1);
    let bounds = symbol.bounds();
    // Upright as in a room below its wall, centred on its own middle.
    let at = Point::ORIGIN - bounds.center().to_vec2();
    Entry { swatch: symbol.placed(at, Vec2::new(0.0, 1.0), false), words: sign.name() }
}

fn wall_entry(build: WallBuild) -> Entry {
    let area = Rect::new(-6.5, -1.6, 6.5, 1.6);
    let corners = [(area.x0, area.y0), (area.x1, area.y0), (area.x1, area.y1), (area.x0, area.y1)];
    let corners = corners.map(Point::from);
    let polygon = MultiPolygon::new(vec![polygon_of(&corners)]);
    let mut swatch = Hatch::of(build).fill(&polygon, -core::f64::consts::FRAC_PI_4);
    let outline = if build == WallBuild::Screen {
        Stroke { ink: Ink::BLACK, width: 0.25, pattern: LinePattern::Dashed }
    } else {
        Stroke::solid(Ink::BLACK, OUTLINE)
    };
    swatch.push(Mark::line(path_of(&polygon), outline).into());
    Entry { swatch, words: build_name(build).to_owned() }
}

const fn build_name(build: WallBuild) -> &'static str {
    match build {
        WallBuild::Stud => "stud wall",
        WallBuild::BrickVeneer => "brick veneer",
        WallBuild::SolidMasonry => "solid masonry",
        WallBuild::CavityMasonry => "cavity masonry",
        WallBuild::DoubleBrick => "double brick",
        WallBuild::Concrete => "concrete",
        WallBuild::LathAndPlaster => "lath and plaster",
        WallBuild::Screen => "screen or fence",
    }
}

fn medium_entry(medium: Medium) -> Entry {
    let places = [Point::new(-6.5, 0.0), Point::new(6.5, 0.0)];
    Entry {
        swatch: line_of(&places, medium, Ink::BLACK),
        words: format!("cable {}", medium.name()),
    }
}

fn worst_entry() -> Entry {
    let (from, to) = (Point::new(-6.5, 0.0), Point::new(6.5, 0.0));
    let mut swatch = worst::band(from, to);
    swatch.extend(line_of(&[from, to], Medium::Above, Ink::BLACK));
    Entry { swatch, words: "cable can carry least here".to_owned() }
}

fn drop_entry(down: bool) -> Entry {
    let dot = pen::circle((0.0, 0.0), 0.5);
    let swatch = if down {
        vec![Mark::area(dot, Ink::BLACK).into()]
    } else {
        vec![Mark::line(dot, Stroke::solid(Ink::BLACK, 0.25)).into()]
    };
    let words = if down { "cable drops from above" } else { "cable rises from below" };
    Entry { swatch, words: words.to_owned() }
}

fn leg_entry(measured: bool) -> Entry {
    let width = if measured { 12.6 } else { 6.0 };
    let case = Rect::from_center_size((0.0, 0.0), (width, 3.0));
    let mut swatch = tags::leg_case(case, Stroke::solid(Ink::BLACK, 0.25), measured);
    let (content, words) = if measured {
        ("3.2 = 9.40", "leg as built, measured 9.40 m")
    } else {
        ("3.2", "circuit 3, leg 2")
    };
    swatch.push(tag(content, Point::new(0.0, 0.9)));
    Entry { swatch, words: words.to_owned() }
}

fn height_entry(arrows: bool) -> Entry {
    let height = tag("0.30", Point::new(if arrows { 0.4 } else { 0.0 }, 0.9));
    if !arrows {
        return Entry { swatch: vec![height], words: "box at 0.30 m".to_owned() };
    }
    let arrow = tags::way_arrow(tags::Way::Down, Point::new(-3.4, 0.9), Lettering::Tag);
    Entry { swatch: vec![arrow, height], words: "box at 0.30 m, fed from above".to_owned() }
}

fn tag(content: &str, at: Point) -> Item {
    Text::new(content, at, Lettering::Tag).anchored(Anchor::Middle).bold().into()
}

fn text_entry(sign: &str, words: &str) -> Entry {
    Entry { swatch: vec![tag(sign, Point::new(0.0, 0.9))], words: words.to_owned() }
}

/// The table of circuits, one for each board: number with colour and mark,
/// name, legs, metres; cable and device below.
pub(super) fn circuits(
    plan: &Plan,
    runs: &Runs,
    lengths: &Lengths,
    shown: &BTreeSet<CircuitId>,
) -> Vec<Row> {
    let marks = labels(plan);
    let mut rows = Vec::new();
    let boards = circuits_by_board(plan);
    let several = boards.len() > 1;
    for (board, ids) in boards {
        let of_board: Vec<Row> = ids
            .iter()
            .filter(|id| shown.contains(*id))
            .filter_map(|id| plan.circuits.get_full(id))
            .map(|(index, id, circuit)| circuit_row(index, circuit, runs, lengths, *id))
            .collect();
        if of_board.is_empty() {
            continue;
        }
        rows.push(circuits_heading(&match board {
            Some(id) if several => format!("Circuits of {}", marks.board(id)),
            None if several => "Circuits without board".to_owned(),
            _ => "Circuits".to_owned(),
        }));
        rows.extend(of_board);
    }
    if rows.is_empty() && !plan.circuits.is_empty() {
        rows.push(Row::heading("Circuits"));
        rows.push(Row::paragraph("None has anything on this level.", Weight::Regular));
    }
    rows
}

fn circuits_heading(says: &str) -> Row {
    let room = LEGS - 10.0;
    let says = fitted(says, room, Lettering::Name, Weight::Bold);
    let mut heading = Row::heading(&says);
    heading.title = Some(room);
    let right = |content: &str, x: f64| -> Item {
        Text::new(content, (x, 6.2), Lettering::Note)
            .anchored(Anchor::End)
            .inked(Ink::DARK_GREY)
            .into()
    };
    heading.items.push(right("legs", LEGS));
    heading.items.push(right("metres", TEXT_WIDTH));
    heading
}

const NAME: f64 = 18.0;
/// A name takes no more lines than this.
const NAME_LINES: usize = 3;
const LEGS: f64 = TEXT_WIDTH - 13.5;

fn circuit_row(
    index: usize,
    circuit: &Circuit,
    runs: &Runs,
    lengths: &Lengths,
    id: CircuitId,
) -> Row {
    let first = 3.6;
    let room = LEGS - NAME - 5.0;
    let names = wrap(&circuit.name, room, Lettering::Note, Weight::Bold);
    let mut second = first + LEADING;
    let number = Text::new(circuit.number.to_string(), (0.0, first), Lettering::Note).bold();
    let start = 7.0;
    let line = [Point::new(start, first - 1.2), Point::new(NAME - 2.0, first - 1.2)];
    let mut items: Vec<Item> = vec![number.into()];
    items.extend(line_of(&line, Medium::Above, ink(index)));
    items.extend(circuit_mark(line[0].midpoint(line[1]), Vec2::new(1.0, 0.0), index));
    for (at, name) in names.iter().take(NAME_LINES).enumerate() {
        let cut = names.len() > NAME_LINES && at + 1 == NAME_LINES;
        let name = if cut { format!("{name} …") } else { name.clone() };
        let name = fitted(&name, room, Lettering::Note, Weight::Bold);
        second += if at > 0 { LEADING } else { 0.0 };
        let at = Point::new(NAME, second - LEADING);
        items.push(Text::new(name, at, Lettering::Note).bold().into());
    }
    let legs = runs.circuits.get(&id).map(|run| run.legs.len());
    let metres: Option<Mm> = lengths
        .circuits
        .get(&id)
        .filter(|legs| !legs.is_empty())
        .map(|legs| legs.iter().map(crate::lengths::LegLength::cut_or_measured).sum());
    let figure = |value: Option<String>, x: f64| -> Item {
        let shown = value.unwrap_or_else(|| "–".to_owned());
        Text::new(shown, (x, first), Lettering::Note).anchored(Anchor::End).into()
    };
    items.push(figure(legs.map(|count| count.to_string()), LEGS));
    items.push(figure(metres.map(|sum| wording::decimals(sum.metres(), 1)), TEXT_WIDTH));
    let mut note = |text: &str, at: f64| {
        let shown = fitted(text, TEXT_WIDTH - NAME, Lettering::Note, Weight::Regular);
        items.push(Text::new(shown, (NAME, at), Lettering::Note).inked(Ink::DARK_GREY).into());
    };
    note(&description(circuit), second);
    let mut foot = second + 1.6;
    if let Some(built) = as_built(lengths, id) {
        note(&built, second + LEADING);
        foot += LEADING;
    }
    let rule = Stroke::solid(Ink::GREY, 0.13);
    items.push(Mark::line(pen::line((0.0, foot), (TEXT_WIDTH, foot)), rule).into());
    Row::new(foot + 0.4, items)
}

/// What was measured of a circuit, beside what was planned for it: `built 2 of
/// 5: 21.3 m, planned 22.1 m`. None: nothing was.
fn as_built(lengths: &Lengths, id: CircuitId) -> Option<String> {
    let legs = lengths.circuits.get(&id)?;
    let measured: Vec<_> = legs.iter().filter_map(|leg| Some((leg, leg.measured?))).collect();
    if measured.is_empty() {
        return None;
    }
    let built: Mm = measured.iter().map(|(_, length)| *length).sum();
    let planned: Mm = measured.iter().map(|(leg, _)| leg.cut.value).sum();
    Some(format!(
        "built {} of {}: {}, planned {}",
        measured.len(),
        legs.len(),
        wording::metres_about(built.metres()),
        wording::metres_about(planned.metres()),
    ))
}

fn description(circuit: &Circuit) -> String {
    let cable =
        circuit.cable.map_or_else(|| "cable not chosen".to_owned(), |cable| cable.to_string());
    let device =
        circuit.device.map_or_else(|| "device not chosen".to_owned(), |device| device.to_string());
    format!("{cable}, {device}")
}

/// The scale bar with the note to measure it.
pub(in crate::sheet) fn scale_bar(scale: Scale, paper: PaperSize) -> Vec<Row> {
    let per = scale.paper_per_plan() * 1000.0;
    let steps = [0.25, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0];
    let step = steps.into_iter().find(|metres| metres * per >= 14.0).unwrap_or(50.0);
    let long = step * per;
    let (top, foot) = (5.0, 6.6);
    let mut items: Vec<Item> = Vec::new();
    let mut index = 0.0;
    while index < 4.0 && (index + 1.0) * long <= TEXT_WIDTH - 10.0 {
        let part = Rect::new(2.0 + index * long, top, 2.0 + (index + 1.0) * long, foot);
        let stroke = Some(Stroke::solid(Ink::BLACK, 0.18));
        let fill = Some(if index.rem_euclid(2.0) < 0.5 { Ink::BLACK } else { Ink::WHITE });
        items.push(Mark { path: pen::rect(part), fill, stroke }.into());
        index += 1.0;
    }
    let mut label = 0.0;
    while label <= index {
        let metres = label * step;
        let shown = format!("{metres}");
        let at = Point::new(2.0 + label * long, top - 1.2);
        items.push(Text::new(shown, at, Lettering::Note).anchored(Anchor::Middle).into());
        label += 1.0;
    }
    let at = Point::new(2.0 + index * long, top - 1.2);
    let shift =
        text_width(&format!("{}", index * step), Lettering::Note, Weight::Regular) / 2.0 + 1.0;
    items.push(Text::new("m", at + Vec2::new(shift, 0.0), Lettering::Note).into());
    let whole = index * long;
    let note = format!("Measure this bar first: {:.0} mm at {scale} on {}.", whole, paper.name());
    let mut rows = vec![Row::heading("Scale")];
    let mut bar = Row::new(8.4, items);
    bar.keep_with_next = true;
    rows.push(bar);
    rows.push(Row::paragraph(&note, Weight::Regular));
    rows
}

/// What every sheet warns of.
pub(in crate::sheet) fn cautions() -> Vec<Row> {
    let mut rows = vec![
        Row::heading("Cautions"),
        Row::paragraph(cautions::AID, Weight::Bold).kept_with_next(),
    ];
    let (last, others) = cautions::BEFORE_WORK.split_last().unwrap_or((&"", &[]));
    rows.extend(others.iter().map(|text| Row::paragraph(text, Weight::Regular).kept_with_next()));
    rows.push(Row::paragraph(last, Weight::Regular));
    rows
}

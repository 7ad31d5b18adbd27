//! A drawing, from DXF or SVG, as line work on layers; and what it shows.

use std::collections::BTreeSet;

use super::drawn::{Drawn, metric};
use super::lines::{
    self, BANDS_MAX, Band, Fill, Hole, Limits, Line, Mark, Signs, Stretch, Swing, TooMuch,
};
use super::{ImportOptions, ImportProblem, LengthUnit};
use crate::plan::RoomUse;
use crate::store::NoteKind;
use crate::store::layout::form::{Corner, FormHinge, FormLevel, FormOpening, FormRoom, FormWall};
use crate::store::layout::rooms::usage;
use crate::store::layout::walls::snapped;
use crate::units::Mm;

/// The most lines of walls: each is held against its neighbours.
pub(super) const WALL_LINES_MAX: usize = 20_000;
/// The most doors and windows, and ten times as many lines and arcs of them.
const SIGNS_MAX: usize = 5_000;
/// The most corners of a symbol that count.
const CORNERS_MAX: usize = 64;
/// The most of anything else on a drawing.
pub(super) const PARTS_MAX: usize = 200_000;
/// A building is no smaller and no larger than this, mm.
const EXTENT: [f64; 2] = [2_000.0, 500_000.0];
/// Heights that drawings do not show, mm: *common practice*.
const DOOR_HEAD: Mm = Mm::new(2040);
const WINDOW_SILL: Mm = Mm::new(900);
const WINDOW_HEAD: Mm = Mm::new(2100);

/// A wall drawn as one line is so thick, mm: *common practice* for partitions.
const SINGLE_THICKNESS: Mm = Mm::new(100);
/// A shorter lone line is no wall, mm.
const SINGLE_LENGTH_MIN: f64 = 300.0;

/// Beginnings of words for walls, doors and windows in the names of layers
/// and blocks, in English, German, French, Italian, Spanish and Dutch.
const WALLS: [&str; 8] = ["wall", "wand", "wänd", "mur", "muro", "parete", "pared", "muur"];
const NO_WALLS: [&str; 6] = ["stem", "foot", "found", "hatch", "patt", "text"];
const DOORS: [&str; 8] = ["door", "tür", "tuer", "porte", "porta", "puerta", "deur", "gate"];
const WINDOWS: [&str; 8] =
    ["window", "fenster", "fenêtre", "fenetre", "finestra", "ventana", "raam", "glaz"];
const OPENINGS: [&str; 3] = ["opening", "öffnung", "ouverture"];
const NOTES: [&str; 8] = ["dim", "text", "note", "hatch", "title", "defpoint", "furn", "grid"];
const ROOMS: [&str; 6] = ["room", "raum", "räum", "pièce", "space", "area"];

/// Line work, in the drawing's own unit.
#[derive(Debug, Default)]
pub(super) struct Drawing {
    pub(super) lines: Vec<(String, Line)>,
    /// Lines that are drawn as wide as a wall is thick.
    pub(super) bands: Vec<(String, Band)>,
    /// By layer.
    pub(super) arcs: Vec<(String, Swing)>,
    /// Arcs in the symbols of doors.
    pub(super) leaves: Vec<Swing>,
    /// By name and layer.
    pub(super) symbols: Vec<(String, String, Mark)>,
    /// Closed outlines, by name and layer.
    pub(super) outlines: Vec<(String, String, Vec<[f64; 2]>)>,
    pub(super) texts: Vec<(String, [f64; 2])>,
    /// Millimetres in one unit as the drawing says, with how it says so.
    pub(super) stated: Option<(f64, String)>,
    /// Blocks that one entity sets in more than once, in rows and columns.
    pub(super) copies: usize,
    /// What was passed over: kind and count.
    pub(super) passed: Vec<(String, usize)>,
}

impl Drawing {
    /// Whether it holds more than is read.
    pub(super) fn is_full(&self) -> bool {
        self.lines.len()
            + self.bands.len()
            + self.arcs.len()
            + self.leaves.len()
            + self.symbols.len()
            + self.outlines.len()
            + self.texts.len()
            > PARTS_MAX
    }
}

fn named(name: &str, words: &[&str]) -> bool {
    let name = name.to_lowercase();
    words.iter().any(|word| {
        let word_start = |at: usize| !name[..at].ends_with(char::is_alphabetic);
        name.match_indices(word).any(|(at, _)| word_start(at))
    })
}

/// What a name of a block or layer says that it is.
pub(super) fn fill_of(name: &str) -> Option<Fill> {
    if named(name, &WINDOWS) {
        Some(Fill::Window)
    } else {
        named(name, &DOORS).then_some(Fill::Door)
    }
}

fn is_wall(layer: &str, options: &ImportOptions) -> bool {
    if options.layers.is_empty() {
        return named(layer, &WALLS) && !named(layer, &NO_WALLS);
    }
    // A drawing bound into another keeps its name before the layer's.
    let own = layer.rsplit(['$', '|']).next().unwrap_or(layer);
    options
        .layers
        .iter()
        .any(|asked| asked.eq_ignore_ascii_case(layer) || asked.eq_ignore_ascii_case(own))
}

/// What a drawing shows.
pub(super) fn read(
    mut drawing: Drawing,
    name: &str,
    options: &ImportOptions,
) -> Result<Drawn, ImportProblem> {
    let mut drawn = Drawn::new(name, String::new());
    let is_room = |layer: &String| named(layer, &ROOMS) && !is_wall(layer, options);
    let any = drawing.lines.iter().any(|(layer, _)| is_wall(layer, options))
        || drawing.bands.iter().any(|(layer, _)| is_wall(layer, options));
    let lined: BTreeSet<&str> = drawing.lines.iter().map(|(layer, _)| layer.as_str()).collect();
    drawn.layers = lined.into_iter().take(40).map(str::to_owned).collect();
    if !any && !options.layers.is_empty() {
        let shown = drawn.layers.join(", ");
        return Err(ImportProblem::Nothing(format!(
            "no lines on the layers asked for; there are {shown}"
        )));
    }
    let bears_walls = |layer: &String| {
        if any {
            return is_wall(layer, options);
        }
        !is_room(layer)
            && !named(layer, &NOTES)
            && fill_of(layer).is_none()
            && !named(layer, &OPENINGS)
    };
    let mut layers: Vec<String> = Vec::new();
    let mut faces: Vec<Line> = Vec::new();
    for (layer, line) in &drawing.lines {
        if bears_walls(layer) {
            faces.push(*line);
            if !layers.contains(layer) && layers.len() < 40 {
                layers.push(layer.clone());
            }
        }
    }
    if faces.len() > WALL_LINES_MAX {
        return Err(ImportProblem::TooMany { what: "lines of walls", most: WALL_LINES_MAX });
    }
    if !any && !faces.is_empty() {
        let message = "no layer is named as one of walls: all lines but those of notes, doors and windows are held for walls";
        drawn.notes.add(NoteKind::Assumed, "layers", message);
    } else if options.layers.is_empty() && !layers.is_empty() {
        drawn.notes.add(
            NoteKind::Assumed,
            layers.join(", "),
            "its lines are held for walls by its name",
        );
    }
    let mut wide: Vec<Band> = drawing
        .bands
        .iter()
        .filter(|(layer, _)| bears_walls(layer))
        .map(|(_, band)| *band)
        .collect();
    let mut signs = Signs::default();
    for (layer, swing) in &drawing.arcs {
        if !bears_walls(layer) && (fill_of(layer).is_some() || named(layer, &OPENINGS) || !any) {
            signs.swings.push(*swing);
        }
    }
    for (layer, line) in &drawing.lines {
        if !bears_walls(layer) && (fill_of(layer).is_some() || named(layer, &OPENINGS)) {
            // An opening that is not a door is drawn with the lines of a window.
            signs.panes.push((fill_of(layer).unwrap_or(Fill::Window), *line));
        }
    }
    signs.marks = drawing.symbols.iter().map(|(_, _, mark)| mark.clone()).collect();
    let signed = signs.marks.len().max(signs.panes.len().max(signs.swings.len()).div_ceil(10));
    if signed > SIGNS_MAX {
        return Err(ImportProblem::TooMany { what: "doors and windows", most: SIGNS_MAX });
    }
    for mark in &mut signs.marks {
        mark.corners.truncate(CORNERS_MAX);
    }
    let mut outlines = std::mem::take(&mut drawing.outlines);
    outlines.retain(|(_, layer, _)| is_room(layer));
    let unit = scale(&drawing, &faces, &wide, &signs, &outlines, options, &mut drawn)?;
    let sized = |place: [f64; 2]| [place[0] * unit, place[1] * unit];
    let line = |line: &Line| Line { a: sized(line.a), b: sized(line.b) };
    faces = faces.iter().map(line).collect();
    wide = wide
        .iter()
        .map(|band| Band { line: line(&band.line), thickness: band.thickness * unit })
        .collect();
    for (_, pane) in &mut signs.panes {
        *pane = line(pane);
    }
    let swing = |swing: &Swing| Swing {
        centre: sized(swing.centre),
        radius: swing.radius * unit,
        middle: sized(swing.middle),
    };
    signs.swings = signs.swings.iter().map(swing).collect();
    let leaves: Vec<Swing> = drawing.leaves.iter().map(swing).collect();
    for mark in &mut signs.marks {
        mark.at = sized(mark.at);
        mark.corners = mark.corners.iter().map(|corner| sized(*corner)).collect();
    }
    for (_, _, ring) in &mut outlines {
        *ring = ring.iter().map(|place| sized(*place)).collect();
    }
    let texts: Vec<(String, [f64; 2])> =
        drawing.texts.iter().map(|(text, at)| (text.clone(), sized(*at))).collect();
    let mut bands = lines::bands(&faces, &Limits::default()).map_err(ImportProblem::bands)?;
    bands.extend(wide);
    single(&mut bands, &faces, any, options, &mut drawn);
    if bands.len() > BANDS_MAX {
        return Err(ImportProblem::bands(TooMuch::Bands));
    }
    if drawing.copies > 0 {
        drawn.found("copies of blocks in rows", drawing.copies, drawing.copies);
    }
    let used = faces.iter().filter(|face| belongs(face, &bands));
    drawn.found("lines of walls", faces.len(), used.count());
    let (walls, stray) = lines::walls(&bands, &faces, &signs);
    if !signs.marks.is_empty() {
        drawn.found("door and window symbols", signs.marks.len(), signs.marks.len() - stray);
    }
    if stray > 0 {
        let message = format!("{stray} are on no wall");
        drawn.notes.add(NoteKind::LeftOut, "door and window symbols", message);
    }
    for (kind, count) in &drawing.passed {
        drawn.notes.add(NoteKind::LeftOut, kind.clone(), format!("{count} in the file; not read"));
    }
    let leaves: Vec<Swing> = signs.swings.into_iter().chain(leaves).collect();
    let level = level(&walls, &leaves, &outlines, &texts, options, &mut drawn);
    drawn.levels.push(level);
    Ok(drawn)
}

/// Whether a line is a face of a band, or closes one.
fn belongs(face: &Line, bands: &[Band]) -> bool {
    let middle = face.at(face.length() / 2.0);
    let near = |band: &&Band| band.line.is_near(middle, band.thickness + 605.0);
    bands.iter().filter(near).any(|band| {
        let [along, off] = band.line.locate(middle);
        off.abs() <= band.thickness / 2.0 + 5.0
            && along >= -600.0
            && along <= band.line.length() + 600.0
    })
}

/// Lines of walls that have no second line beside them, as walls.
fn single(
    bands: &mut Vec<Band>,
    faces: &[Line],
    on_layers: bool,
    options: &ImportOptions,
    drawn: &mut Drawn,
) {
    let lone: Vec<Line> = faces
        .iter()
        .filter(|face| face.length() >= SINGLE_LENGTH_MIN && !belongs(face, bands))
        .copied()
        .collect();
    let length = |lines: &[Line]| lines.iter().map(Line::length).sum::<f64>();
    // Where no layer is known to hold walls, lone lines among pairs may be
    // anything.
    let most = length(&lone) * 2.0 > length(faces) && (on_layers || bands.is_empty());
    if lone.is_empty() || (options.single_line.is_none() && !most) {
        return;
    }
    let thickness = options.single_line.unwrap_or(SINGLE_THICKNESS);
    bands.extend(lone.iter().map(|line| Band { line: *line, thickness: thickness.to_f64() }));
    let message = format!(
        "{} drawn as one line, taken as {thickness} thick with the line in its middle{}",
        lone.len(),
        if options.single_line.is_some() { "" } else { ": common practice" }
    );
    drawn.notes.add(NoteKind::Assumed, "walls", message);
}

/// Millimetres in one unit of the drawing: as asked for, as the drawing
/// states, or as fits walls and doors best.
fn scale(
    drawing: &Drawing,
    faces: &[Line],
    wide: &[Band],
    signs: &Signs,
    outlines: &[(String, String, Vec<[f64; 2]>)],
    options: &ImportOptions,
    drawn: &mut Drawn,
) -> Result<f64, ImportProblem> {
    let ends =
        faces.iter().chain(wide.iter().map(|band| &band.line)).flat_map(|line| [line.a, line.b]);
    let places = ends.chain(outlines.iter().flat_map(|(_, _, ring)| ring.iter().copied()));
    let mut low = [f64::INFINITY; 2];
    let mut high = [f64::NEG_INFINITY; 2];
    for place in places {
        for axis in [0, 1] {
            low[axis] = low[axis].min(place[axis]);
            high[axis] = high[axis].max(place[axis]);
        }
    }
    let extent = (high[0] - low[0]).max(high[1] - low[1]);
    if !extent.is_finite() {
        return Err(ImportProblem::Nothing(
            "no lines of walls and no outlines of rooms".to_owned(),
        ));
    }
    let fits = |unit: f64| (EXTENT[0]..=EXTENT[1]).contains(&(extent * unit));
    if options.unit.is_some() || options.scale.is_some() {
        let (unit, scale) = (options.unit.unwrap_or(LengthUnit::Mm), options.scale.unwrap_or(1));
        let millimetres = unit.millimetres() * f64::from(scale);
        let how = match options.scale {
            Some(scale) => format!("{} at 1:{scale}", unit.word()),
            None => unit.word().to_owned(),
        };
        drawn.unit = format!("{how}, as asked for");
        return if fits(millimetres) {
            Ok(millimetres)
        } else {
            let size = extent * millimetres / 1000.0;
            Err(ImportProblem::NoScale(format!("in {how} it is {size:.3} m wide")))
        };
    }
    if let Some((unit, how)) = drawing.stated.as_ref().filter(|(unit, _)| fits(*unit)) {
        drawn.unit = format!("{unit} mm, {how}");
        return Ok(*unit);
    }
    let score = |unit: f64| {
        let typical =
            signs.swings.iter().filter(|swing| (550.0..=1100.0).contains(&(swing.radius * unit)));
        let doors = f64::from(u32::try_from(typical.count()).unwrap_or(u32::MAX));
        let all = f64::from(u32::try_from(signs.swings.len()).unwrap_or(u32::MAX)).max(1.0);
        let thickness = [80.0 / unit, 400.0 / unit];
        let length = |bands: &[Band]| bands.iter().map(|band| band.line.length()).sum::<f64>();
        let whole: f64 = faces.iter().map(Line::length).sum();
        doors / all
            + 2.0 * length(&lines::bands(faces, &Limits { thickness }).unwrap_or_default())
                / whole.max(1e-9)
    };
    let mut best: Option<(f64, LengthUnit)> = None;
    for (_, unit) in LengthUnit::ALL.into_iter().filter(|(_, unit)| fits(unit.millimetres())) {
        let score = score(unit.millimetres());
        if best.is_none_or(|(most, _)| score > most + 1e-9) {
            best = Some((score, unit));
        }
    }
    let stated = drawing.stated.as_ref().map_or("no unit is stated".to_owned(), |(unit, how)| {
        format!("{unit} mm, {how}, would make it {:.3} m wide", extent * unit / 1000.0)
    });
    let Some((_, unit)) = best else { return Err(ImportProblem::NoScale(stated)) };
    drawn.unit = format!("{}, a guess", unit.word());
    let message = format!("taken as {} by the size of doors and walls: {stated}", unit.word());
    drawn.notes.add(NoteKind::Assumed, "lengths", message);
    Ok(unit.millimetres())
}

/// The one level of a drawing.
fn level(
    walls: &[Stretch],
    leaves: &[Swing],
    outlines: &[(String, String, Vec<[f64; 2]>)],
    texts: &[(String, [f64; 2])],
    options: &ImportOptions,
    drawn: &mut Drawn,
) -> FormLevel {
    let places = walls.iter().flat_map(|wall| [wall.band.line.a, wall.band.line.b]);
    let corners = outlines.iter().flat_map(|(_, _, ring)| ring.iter().copied());
    let low = places
        .chain(corners)
        .fold([f64::INFINITY; 2], |low, place| [low[0].min(place[0]), low[1].min(place[1])]);
    let shift = low.map(|low| if low.is_finite() { -low } else { 0.0 });
    let height = options.level_height;
    let mut level = FormLevel { name: "Level 1".to_owned(), height, ..FormLevel::default() };
    let mut numbers = Vec::new();
    for (index, wall) in walls.iter().enumerate() {
        let [a, b] = [wall.band.line.a, wall.band.line.b].map(|end| metric::point(end, shift));
        let part = format!("wall {}", index + 1);
        let (Some(a), Some(b), Some(thickness)) = (a, b, metric::length(wall.band.thickness))
        else {
            drawn.notes.add(NoteKind::LeftOut, part, metric::BEYOND);
            continue;
        };
        numbers.push(index);
        level.walls.push(FormWall { a, b, thickness, part, ..FormWall::default() });
    }
    let joined = snapped(&level.walls, options.join.to_f64());
    for (wall, [a, b]) in level.walls.iter_mut().zip(joined) {
        (wall.a, wall.b) = (a, b);
    }
    openings(walls, leaves, &numbers, shift, &mut level, drawn);
    let drawn_rooms = !outlines.is_empty();
    let rings: Vec<(String, Vec<[f64; 2]>)> = if drawn_rooms {
        outlines.iter().map(|(name, _, ring)| (name.clone(), lines::simplified(ring))).collect()
    } else {
        let bands: Vec<Band> = level.walls.iter().map(whole).collect();
        lines::rooms(&bands).into_iter().map(|ring| (String::new(), ring)).collect()
    };
    let shift = if drawn_rooms { shift } else { [0.0; 2] };
    let texts: Vec<(&str, [f64; 2])> = texts
        .iter()
        .map(|(text, at)| {
            (text.as_str(), if drawn_rooms { *at } else { [at[0] - low[0], at[1] - low[1]] })
        })
        .collect();
    let closed = rings.len();
    for (number, (name, ring)) in rings.into_iter().enumerate() {
        let polygon: Option<Vec<Corner>> =
            ring.iter().map(|place| metric::point(*place, shift).map(Corner)).collect();
        let part = format!("room {}", number + 1);
        let Some(polygon) = polygon else {
            drawn.notes.add(NoteKind::LeftOut, part, metric::BEYOND);
            continue;
        };
        let name = if name.is_empty() { text_in(&ring, &texts) } else { name };
        let name = if name.is_empty() { format!("Room {}", number + 1) } else { name };
        level.rooms.push(FormRoom { name, kind: String::new(), polygon, part });
    }
    drawn.found(
        if drawn_rooms { "outlines of rooms" } else { "closed loops of walls" },
        closed,
        level.rooms.len(),
    );
    let message = format!("floor to ceiling {height}, as a drawing shows no heights");
    drawn.notes.add(NoteKind::Assumed, "levels", message);
    level
}

fn openings(
    walls: &[Stretch],
    leaves: &[Swing],
    numbers: &[usize],
    shift: [f64; 2],
    level: &mut FormLevel,
    drawn: &mut Drawn,
) {
    let mut counts = [0_usize; 3];
    let mut hung = 0;
    for (wall, index) in numbers.iter().enumerate() {
        let stretch = &walls[*index];
        for hole in &stretch.holes {
            let (kind, sill, head) = match hole.fill {
                Fill::Door => ("door", Mm::ZERO, DOOR_HEAD),
                Fill::Window => ("window", WINDOW_SILL, WINDOW_HEAD),
                Fill::Nothing => ("opening", Mm::ZERO, DOOR_HEAD),
            };
            let at = metric::point(stretch.band.line.at(f64::midpoint(hole.from, hole.to)), shift);
            let (Some(at), Some(width)) = (at, metric::length(hole.to - hole.from)) else {
                continue;
            };
            counts[["door", "window", "opening"]
                .iter()
                .position(|word| *word == kind)
                .unwrap_or(2)] += 1;
            let (kind, subtype) = (kind.to_owned(), String::new());
            let part = format!("{kind} {} in wall {}", level.openings.len() + 1, index + 1);
            let hinge = hinge(stretch, hole, leaves, shift);
            hung += usize::from(hinge.is_some());
            level.openings.push(FormOpening {
                kind,
                subtype,
                wall,
                at,
                width,
                sill,
                head,
                hinge,
                part,
            });
        }
    }
    for (what, count) in ["doors", "windows", "gaps without a sign"].iter().zip(counts) {
        drawn.found(what, count, count);
    }
    if counts[0] > 0 {
        drawn.found("doors whose hinges are drawn", counts[0], hung);
    }
    if counts.iter().sum::<usize>() > 0 {
        let message = format!(
            "doors and gaps {DOOR_HEAD} high, windows from {WINDOW_SILL} to {WINDOW_HEAD}: common practice"
        );
        drawn.notes.add(NoteKind::Assumed, "openings", message);
    }
}

/// How the door in a hole is hung, by the nearest arc that is of it.
fn hinge(stretch: &Stretch, hole: &Hole, leaves: &[Swing], shift: [f64; 2]) -> Option<FormHinge> {
    if hole.fill != Fill::Door {
        return None;
    }
    let line = &stretch.band.line;
    let opening = Line { a: line.at(hole.from), b: line.at(hole.to) };
    let of_it = leaves.iter().filter_map(|leaf| Some((leaf.hung(&opening)?, leaf)));
    let ((at_a, _), leaf) = of_it.min_by(|one, two| one.0.1.total_cmp(&two.0.1))?;
    let at = metric::point(if at_a { opening.a } else { opening.b }, shift)?;
    Some(FormHinge { at, opens: metric::point(leaf.middle, shift)? })
}

/// A wall of the layout as a band.
fn whole(wall: &FormWall) -> Band {
    let place = |end: crate::units::Point2| [end.x.to_f64(), end.y.to_f64()];
    Band { line: Line { a: place(wall.a), b: place(wall.b) }, thickness: wall.thickness.to_f64() }
}

/// What is written in a room: the first words that say what it is used for, or
/// else the first that are words.
fn text_in(ring: &[[f64; 2]], texts: &[(&str, [f64; 2])]) -> String {
    let inside: Vec<&str> =
        texts.iter().filter(|(_, at)| holds(ring, *at)).map(|(text, _)| *text).collect();
    let says = inside.iter().find(|text| usage("", text) != RoomUse::Other);
    let words = |text: &&&str| {
        text.chars().filter(|letter| letter.is_alphabetic()).count() >= 3 && text.len() <= 40
    };
    says.or_else(|| inside.iter().find(words)).map_or(String::new(), |text| (*text).to_owned())
}

fn holds(ring: &[[f64; 2]], [x, y]: [f64; 2]) -> bool {
    lines::edges(ring).into_iter().fold(false, |inside, side| {
        let (a, b) = (side.a, side.b);
        let crosses =
            (a[1] > y) != (b[1] > y) && x < a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0]);
        inside != crosses
    })
}

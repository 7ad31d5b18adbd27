//! GeoJSON (RFC 7946): polygons as rooms, lines as walls, points as doors and
//! windows. Properties that are read: `name`, `level`, `indoor` or `kind`
//! (`wall`), `door`, `window`, `width` and `thickness` (metres).

use std::collections::BTreeMap;

use serde_json::{Map, Value};

use super::drawing::fill_of;
use super::drawn::{Drawn, metric};
use super::error::PIECES;
use super::lines::{self, Band, Fill, Limits, Line, Mark, Signs};
use super::{ImportForm, ImportOptions, ImportProblem};
use crate::store::NoteKind;
use crate::store::layout::form::{Corner, FormLevel, FormOpening, FormRoom, FormWall};
use crate::store::layout::walls::snapped;
use crate::units::Mm;

/// The largest file, bytes: all of it is held at once.
const BYTES_MAX: usize = 32 * 1024 * 1024;
/// The most values in a file, by what stands before them: with 40 bytes or so
/// for each, and more for each object.
const VALUES_MAX: usize = 4_000_000;
/// The most sides of rooms on a level: an office of 2,000 rooms has eight
/// thousand.
const SIDES_MAX: usize = 12_000;
/// The most doors and windows in a file.
const POINTS_MAX: usize = 10_000;
/// The most sides in a file, and the most pieces that those of a level are cut
/// into by each other.
const PIECES_MAX: usize = 40_000;
/// Walls that no other room tells the thickness of, mm: *common practice*.
const OUTER: f64 = 200.0;
const INNER: f64 = 100.0;
/// WGS 84: half axis, m, and square of the eccentricity.
const AXIS: f64 = 6_378_137.0;
const ECCENTRICITY: f64 = 0.006_694_379_990_14;
/// A building is no smaller and no larger than this, mm.
const EXTENT: [f64; 2] = [2_000.0, 2_000_000.0];

type Failure = (String, ImportProblem);
type Ring = Vec<[f64; 2]>;

#[derive(Default)]
struct Floor {
    rooms: Vec<(String, String, Ring)>,
    walls: Vec<(Ring, f64)>,
    points: Vec<(Fill, [f64; 2], f64)>,
}

/// Reads a file.
pub(super) fn read(bytes: &[u8], name: &str, options: &ImportOptions) -> Result<Drawn, Failure> {
    let bad =
        |place: String, problem: String| (place, ImportProblem::form(ImportForm::GeoJson, problem));
    if bytes.len() > BYTES_MAX {
        return Err(bad(String::new(), format!("larger than {BYTES_MAX} bytes")));
    }
    if bytes.iter().filter(|byte| b"[{,:".contains(byte)).count() > VALUES_MAX {
        let problem = ImportProblem::TooMany { what: "values", most: VALUES_MAX };
        return Err((String::new(), problem));
    }
    let value: Value = serde_json::from_slice(bytes)
        .map_err(|error| bad(format!("line {}", error.line()), error.to_string()))?;
    let mut drawn = Drawn::new(name, String::new());
    let mut floors: BTreeMap<i64, Floor> = BTreeMap::new();
    let features: Vec<&Value> = match value.get("features") {
        Some(Value::Array(features)) => features.iter().collect(),
        _ => vec![&value],
    };
    for (index, feature) in features.iter().enumerate() {
        let part = format!("features[{index}]");
        feature_of(feature, &part, &mut floors, &mut drawn)
            .map_err(|problem| bad(part, problem))?;
    }
    let all: usize = floors
        .values()
        .map(|floor| {
            let rooms = floor.rooms.iter().map(|(_, _, ring)| ring.len());
            rooms.chain(floor.walls.iter().map(|(ring, _)| ring.len())).sum::<usize>()
        })
        .sum();
    if all > PIECES_MAX {
        let problem = ImportProblem::TooMany { what: "sides of rooms and walls", most: PIECES_MAX };
        return Err((String::new(), problem));
    }
    if floors.values().map(|floor| floor.points.len()).sum::<usize>() > POINTS_MAX {
        let problem = ImportProblem::TooMany { what: "doors and windows", most: POINTS_MAX };
        return Err((String::new(), problem));
    }
    let scale = scale(&floors, options, &mut drawn).map_err(|problem| (String::new(), problem))?;
    let rise = options.level_height + options.layout.floor_build_up;
    let counts = floors.values().map(|floor| floor.rooms.len()).sum();
    let mut elevation = Mm::ZERO;
    for (number, floor) in floors {
        let level = level(number, floor, &scale, options, &mut drawn)
            .map_err(|problem| (format!("level {number}"), problem))?;
        drawn.levels.push(FormLevel { elevation, height: options.level_height, ..level });
        elevation += rise;
    }
    let rooms = drawn.levels.iter().map(|level| level.rooms.len()).sum();
    drawn.found("rooms", counts, rooms);
    let message =
        format!("floor to ceiling {}, as the file shows no heights", options.level_height);
    drawn.notes.add(NoteKind::Assumed, "levels", message);
    Ok(drawn)
}

fn feature_of(
    feature: &Value,
    part: &str,
    floors: &mut BTreeMap<i64, Floor>,
    drawn: &mut Drawn,
) -> Result<(), String> {
    let geometry =
        if feature.get("coordinates").is_some() { feature } else { &feature["geometry"] };
    let empty = Map::new();
    let properties = feature["properties"].as_object().unwrap_or(&empty);
    let text = |key: &str| properties.get(key).and_then(Value::as_str).unwrap_or_default();
    let metres =
        |key: &str| properties.get(key).and_then(Value::as_f64).filter(|m| *m > 0.0 && *m < 20.0);
    let level = match properties.get("level") {
        Some(Value::Number(level)) => level.as_f64().and_then(metric::length).map_or(0, Mm::get),
        Some(Value::String(level)) => level.trim().parse().unwrap_or(0),
        _ => 0,
    };
    let floor = floors.entry(level).or_default();
    let coordinates = &geometry["coordinates"];
    match geometry["type"].as_str().unwrap_or_default() {
        "Polygon" => {
            let ring = ring(&coordinates[0])?;
            floor.rooms.push((text("name").to_owned(), part.to_owned(), ring));
        }
        "MultiPolygon" => {
            for polygon in coordinates.as_array().into_iter().flatten() {
                let ring = ring(&polygon[0])?;
                floor.rooms.push((text("name").to_owned(), part.to_owned(), ring));
            }
        }
        "LineString" if text("indoor") == "wall" || text("kind") == "wall" => {
            floor
                .walls
                .push((ring(coordinates)?, metres("thickness").map_or(INNER, |m| m * 1000.0)));
        }
        "Point" => {
            let word = ["door", "window"].iter().find(|word| properties.contains_key(**word));
            let Some(fill) = word.and_then(|word| fill_of(word)).or_else(|| fill_of(text("kind")))
            else {
                drawn.notes.add(
                    NoteKind::LeftOut,
                    part,
                    "a point that is neither a door nor a window",
                );
                return Ok(());
            };
            let standard = if fill == Fill::Door { 0.9 } else { 1.2 };
            floor.points.push((
                fill,
                place(coordinates)?,
                metres("width").unwrap_or(standard) * 1000.0,
            ));
        }
        "" => return Err("it has no geometry".to_owned()),
        other => {
            let other: String = other.chars().take(40).collect();
            drawn.notes.add(
                NoteKind::LeftOut,
                part,
                format!("a {other} is neither a room nor a wall"),
            );
        }
    }
    Ok(())
}

fn place(value: &Value) -> Result<[f64; 2], String> {
    let number = |at: usize| value[at].as_f64().filter(|number| number.abs() < 1e12);
    number(0)
        .zip(number(1))
        .map(|(x, y)| [x, y])
        .ok_or_else(|| "a place that is not two numbers".to_owned())
}

fn ring(value: &Value) -> Result<Ring, String> {
    let places = value.as_array().ok_or("it has no list of places")?;
    if places.len() > SIDES_MAX {
        return Err(format!("more than {SIDES_MAX} places in one outline"));
    }
    places.iter().map(place).collect()
}

/// From coordinates to millimetres: a factor for each axis.
fn scale(
    floors: &BTreeMap<i64, Floor>,
    options: &ImportOptions,
    drawn: &mut Drawn,
) -> Result<[f64; 2], ImportProblem> {
    let rooms = floors.values().flat_map(|floor| floor.rooms.iter().flat_map(|(_, _, ring)| ring));
    let walls = floors.values().flat_map(|floor| floor.walls.iter().flat_map(|(ring, _)| ring));
    let (mut low, mut high) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
    for place in rooms.chain(walls) {
        for axis in [0, 1] {
            low[axis] = low[axis].min(place[axis]);
            high[axis] = high[axis].max(place[axis]);
        }
    }
    if !(high[0] - low[0]).is_finite() {
        return Err(ImportProblem::Nothing("no polygons and no walls".to_owned()));
    }
    let fits = |scale: [f64; 2]| {
        let extent = ((high[0] - low[0]) * scale[0]).max((high[1] - low[1]) * scale[1]);
        (EXTENT[0]..=EXTENT[1]).contains(&extent)
    };
    if let Some(unit) = options.unit {
        drawn.unit = format!("{}, as asked for", unit.word());
        let scale = [unit.millimetres(); 2];
        return if fits(scale) {
            Ok(scale)
        } else {
            Err(ImportProblem::NoScale(format!("in {} it is no size for a building", unit.word())))
        };
    }
    let degrees = degrees(f64::midpoint(low[1], high[1]));
    if low[0] >= -180.0 && high[0] <= 180.0 && low[1] >= -90.0 && high[1] <= 90.0 && fits(degrees) {
        drawn.unit = "degrees of longitude and latitude (WGS 84)".to_owned();
        return Ok(degrees);
    }
    if fits([1000.0; 2]) {
        drawn.unit = "m, a guess".to_owned();
        drawn.notes.add(
            NoteKind::Assumed,
            "lengths",
            "taken as metres: as degrees it would be no building",
        );
        return Ok([1000.0; 2]);
    }
    Err(ImportProblem::NoScale("neither in degrees nor in metres a building".to_owned()))
}

/// Millimetres in a degree of longitude and of latitude: on the ellipsoid with
/// half axis `a` and eccentricity `e`, the radii of curvature across and along
/// the meridian at the latitude `φ` are `N = a / √(1 − e² sin² φ)` and
/// `M = a (1 − e²) / (1 − e² sin² φ)^1.5`; a degree is `N cos φ π/180` and
/// `M π/180`. Figures: WGS 84.
fn degrees(latitude: f64) -> [f64; 2] {
    let (sin, cos) = (libm::sin(latitude.to_radians()), libm::cos(latitude.to_radians()));
    let under = 1.0 - ECCENTRICITY * sin * sin;
    let across = AXIS / libm::sqrt(under);
    let along = AXIS * (1.0 - ECCENTRICITY) / (under * libm::sqrt(under));
    [across * cos, along].map(|radius| radius * 1000.0_f64.to_radians())
}

fn level(
    number: i64,
    floor: Floor,
    scale: &[f64; 2],
    options: &ImportOptions,
    drawn: &mut Drawn,
) -> Result<FormLevel, ImportProblem> {
    let places = floor
        .rooms
        .iter()
        .flat_map(|(_, _, ring)| ring)
        .chain(floor.walls.iter().flat_map(|(ring, _)| ring));
    let low =
        places.fold([f64::INFINITY; 2], |low, place| [low[0].min(place[0]), low[1].min(place[1])]);
    // From the lowest corner: degrees times millimetres would lose digits.
    let sized = |place: &[f64; 2]| [(place[0] - low[0]) * scale[0], (place[1] - low[1]) * scale[1]];
    let mut level = FormLevel { name: format!("Level {number}"), ..FormLevel::default() };
    let mut rings: Vec<Ring> = Vec::new();
    for (name, part, ring) in &floor.rooms {
        let ring: Ring = lines::simplified(&ring.iter().map(sized).collect::<Vec<_>>());
        let polygon: Option<Vec<Corner>> =
            ring.iter().map(|place| metric::point(*place, [0.0; 2]).map(Corner)).collect();
        let Some(polygon) = polygon.filter(|polygon| polygon.len() >= 3) else {
            drawn.notes.add(NoteKind::LeftOut, part.clone(), "its outline encloses nothing");
            continue;
        };
        rings.push(ring);
        level.rooms.push(FormRoom {
            name: name.clone(),
            kind: String::new(),
            polygon,
            part: part.clone(),
        });
    }
    let sides: usize = rings.iter().map(Vec::len).sum();
    if sides > SIDES_MAX {
        return Err(ImportProblem::TooMany { what: "sides of rooms on a level", most: SIDES_MAX });
    }
    let (mut bands, assumed) = around(&rings)?;
    for (ring, thickness) in &floor.walls {
        let ring: Ring = ring.iter().map(sized).collect();
        let pairs = ring.windows(2).map(|pair| Line { a: pair[0], b: pair[1] });
        bands.extend(pairs.map(|line| Band { line, thickness: *thickness }));
    }
    if assumed > 0 {
        let message = format!(
            "{assumed} walls that no gap between rooms shows are taken as {OUTER} mm thick outside and {INNER} mm between rooms"
        );
        drawn.notes.add(NoteKind::Assumed, level.name.clone(), message);
    }
    let mark = |(fill, at, width): &(Fill, [f64; 2], f64)| {
        let [x, y] = sized(at);
        let half = width / 2.0;
        // Covers its width whichever way its wall runs.
        let corners = vec![[x - half, y], [x + half, y], [x, y - half], [x, y + half]];
        Mark { fill: *fill, at: [x, y], corners }
    };
    let signs = Signs { marks: floor.points.iter().map(mark).collect(), ..Signs::default() };
    let (walls, stray) = lines::walls(&bands, &[], &signs);
    drawn.found("doors and windows", signs.marks.len(), signs.marks.len() - stray);
    if stray > 0 {
        drawn.notes.add(
            NoteKind::LeftOut,
            level.name.clone(),
            format!("{stray} doors and windows are on no wall"),
        );
    }
    for (index, wall) in walls.iter().enumerate() {
        let [a, b] = [wall.band.line.a, wall.band.line.b].map(|end| metric::point(end, [0.0; 2]));
        let (Some(a), Some(b), Some(thickness)) = (a, b, metric::length(wall.band.thickness))
        else {
            continue;
        };
        let part = format!("wall {} on {}", index + 1, level.name);
        for hole in &wall.holes {
            let at = metric::point(wall.band.line.at(f64::midpoint(hole.from, hole.to)), [0.0; 2]);
            let (Some(at), Some(width)) = (at, metric::length(hole.to - hole.from)) else {
                continue;
            };
            let (kind, sill, head) = match hole.fill {
                Fill::Window => ("window", 900, 2100),
                Fill::Door => ("door", 0, 2040),
                Fill::Nothing => ("opening", 0, 2040),
            };
            let (sill, head) = (Mm::new(sill), Mm::new(head));
            let part = format!("{kind} in {part}");
            let (kind, subtype) = (kind.to_owned(), String::new());
            level.openings.push(FormOpening {
                kind,
                subtype,
                wall: level.walls.len(),
                at,
                width,
                sill,
                head,
                hinge: None,
                part,
            });
        }
        level.walls.push(FormWall { a, b, thickness, part, ..FormWall::default() });
    }
    let joined = snapped(&level.walls, options.join.to_f64());
    for (wall, [a, b]) in level.walls.iter_mut().zip(joined) {
        (wall.a, wall.b) = (a, b);
    }
    Ok(level)
}

/// Walls around rooms: in the gaps between them, on shared sides, and outside;
/// and how many of them have no thickness of their own. None: too many.
fn around(rings: &[Ring]) -> Result<(Vec<Band>, usize), ImportProblem> {
    let sides: Vec<(usize, Line)> = rings
        .iter()
        .enumerate()
        .flat_map(|(room, ring)| {
            let mut ring = ring.clone();
            if lines::area(&ring) < 0.0 {
                ring.reverse();
            }
            lines::edges(&ring).into_iter().map(move |side| (room, side))
        })
        .collect();
    let faces: Vec<Line> = sides.iter().map(|(_, side)| *side).collect();
    let mut bands = lines::bands(&faces, &Limits::default()).map_err(ImportProblem::bands)?;
    let boxes: Vec<[[f64; 2]; 2]> = rings.iter().map(|ring| lines::extent(ring)).collect();
    // Two sides of a narrow room are no wall.
    bands.retain(|band| {
        let middle = band.line.at(band.line.length() / 2.0);
        let holds = |(ring, [low, high]): (&Ring, &[[f64; 2]; 2])| {
            (0..2).all(|axis| low[axis] <= middle[axis] && middle[axis] <= high[axis])
                && inside(ring, middle)
        };
        !rings.iter().zip(&boxes).any(holds)
    });
    let (between, mut assumed, mut count) = (bands.len(), 0, 0);
    for (index, (room, side)) in sides.iter().enumerate() {
        for piece in pieces(side, &faces) {
            count += 1;
            if count > PIECES_MAX {
                return Err(ImportProblem::TooMany { what: PIECES, most: PIECES_MAX });
            }
            let middle = piece.at(piece.length() / 2.0);
            if bands[..between].iter().any(|band| {
                band.line.is_near(middle, band.thickness / 2.0 + 5.0)
                    && band.line.locate(middle)[1].abs() < band.thickness / 2.0 + 5.0
                    && band.line.distance(middle) < band.thickness / 2.0 + 5.0
            }) {
                continue;
            }
            let shared = sides.iter().enumerate().find(|(_, (other, face))| {
                other != room
                    && face.is_near(middle, 30.0)
                    && face.distance(middle) < 30.0
                    && parallel(face, side)
            });
            if shared.is_some_and(|(other, _)| other < index) {
                continue;
            }
            assumed += 1;
            let (thickness, out) =
                if shared.is_some() { (INNER, 0.0) } else { (OUTER, OUTER / 2.0) };
            let [ux, uy] = side.direction();
            // Anticlockwise, so outside is to the right.
            let moved = |[x, y]: [f64; 2]| [x + out * uy, y - out * ux];
            bands.push(Band { line: Line { a: moved(piece.a), b: moved(piece.b) }, thickness });
        }
    }
    Ok((bands, assumed))
}

fn parallel(one: &Line, two: &Line) -> bool {
    let ([ux, uy], [vx, vy]) = (one.direction(), two.direction());
    (ux * vy - uy * vx).abs() < 0.01
}

/// A side cut wherever a side beside it begins or ends.
fn pieces(side: &Line, faces: &[Line]) -> Vec<Line> {
    let length = side.length();
    let mut cuts = vec![0.0, length];
    let near = |face: &&Line| side.is_near(face.a, 600.0) || side.is_near(face.b, 600.0);
    for face in faces.iter().filter(near).filter(|face| parallel(face, side)) {
        for end in [face.a, face.b] {
            let [along, off] = side.locate(end);
            if off.abs() < 600.0 && along > 0.0 && along < length {
                cuts.push(along);
            }
        }
    }
    cuts.sort_by(f64::total_cmp);
    let pairs = cuts.windows(2).filter(|pair| pair[1] - pair[0] > 20.0);
    pairs.map(|pair| Line { a: side.at(pair[0]), b: side.at(pair[1]) }).collect()
}

fn inside(ring: &[[f64; 2]], [x, y]: [f64; 2]) -> bool {
    lines::edges(ring).into_iter().fold(false, |inside, side| {
        let (a, b) = (side.a, side.b);
        let crosses =
            (a[1] > y) != (b[1] > y) && x < a[0] + (y - a[1]) / (b[1] - a[1]) * (b[0] - a[0]);
        inside != crosses
    })
}

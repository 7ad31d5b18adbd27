//! A large, sound building in every form: an office of 2,000 rooms on one
//! storey, each with a door to the one below it or to the open, and windows
//! along two sides. It is read whole, within the limits of the worst files.

use std::fmt::Write as _;
use std::fs;

use wirewend::plan::*;
use wirewend::store::{ImportOptions, import, read_file};

use super::costs::run;
use super::{DOORS, of_kind};

const COLUMNS: i32 = 40;
const ROWS: i32 = 50;
/// From room to room, and the walls between them, mm.
const PITCH: [i32; 2] = [4100, 3600];
const WALL: i32 = 100;
const HALF: i32 = 50;
/// From the left of a room to its door, and how wide doors and windows are.
const DOOR: [i32; 2] = [600, 900];
const WINDOW: [i32; 2] = [1200, 1500];

type Line = [i32; 4];

/// Straight lines of wall, of windows, and the hinges of doors.
#[derive(Default)]
struct Drawn {
    walls: Vec<Line>,
    panes: Vec<Line>,
    doors: Vec<[i32; 2]>,
}

/// The faces of a level stretch of wall, from `x` to `to`, with a hole in it or not.
fn stretch(drawn: &mut Drawn, [x, to]: [i32; 2], y: i32, hole: Option<[i32; 2]>) {
    for face in [y, y + WALL] {
        match hole {
            Some([from, width]) => {
                drawn.walls.push([x, face, x + from, face]);
                drawn.walls.push([x + from + width, face, to, face]);
            }
            None => drawn.walls.push([x, face, to, face]),
        }
    }
    if let Some([from, width]) = hole {
        for jamb in [x + from, x + from + width] {
            drawn.walls.push([jamb, y, jamb, y + WALL]);
        }
    }
}

fn drawn() -> Drawn {
    let mut drawn = Drawn::default();
    let (width, height) = (COLUMNS * PITCH[0], ROWS * PITCH[1]);
    for column in 0..COLUMNS {
        let x = column * PITCH[0] + WALL;
        let to = x + PITCH[0] - WALL;
        for row in 0..ROWS {
            stretch(&mut drawn, [x, to], row * PITCH[1], Some(DOOR));
            drawn.doors.push([x + DOOR[0], row * PITCH[1] + WALL]);
        }
        stretch(&mut drawn, [x, to], height, Some(WINDOW));
        for y in [height, height + HALF, height + WALL] {
            drawn.panes.push([x + WINDOW[0], y, x + WINDOW[0] + WINDOW[1], y]);
        }
    }
    for column in 0..=COLUMNS {
        let x = column * PITCH[0];
        for row in 0..ROWS {
            let y = row * PITCH[1] + WALL;
            let to = y + PITCH[1] - WALL;
            drawn.walls.push([x, y, x, to]);
            drawn.walls.push([x + WALL, y, x + WALL, to]);
        }
    }
    // Around the whole, where the faces of the rooms do not reach.
    for x in [0, width] {
        for y in (0..=ROWS).map(|row| row * PITCH[1]) {
            let face = if x == 0 { x } else { x + WALL };
            drawn.walls.push([face, y, face, y + WALL]);
        }
    }
    for y in [0, height + WALL] {
        for x in (0..=COLUMNS).map(|column| column * PITCH[0]) {
            drawn.walls.push([x, y, x + WALL, y]);
        }
    }
    drawn
}

/// What was made of it, and what the command said.
fn made(name: &str, text: &str) -> (Plan, String) {
    let (output, to) = run(name, text);
    let said = format!(
        "{}{}",
        String::from_utf8_lossy(&output.stdout),
        String::from_utf8_lossy(&output.stderr)
    );
    assert_eq!(output.status.code(), Some(0), "{name}: {said:.600}");
    let plan = read_file(&to).unwrap();
    fs::remove_dir_all(to.parent().unwrap()).unwrap();
    (plan, said)
}

fn is_whole(name: &str, text: &str, windows: i32) {
    let (plan, said) = made(name, text);
    let count = |number: i32| usize::try_from(number).unwrap();
    assert_eq!(plan.rooms.len(), count(ROWS * COLUMNS), "{name}: rooms\n{said:.2000}");
    assert_eq!(of_kind(&plan, &DOORS), count(ROWS * COLUMNS), "{name}: doors\n{said:.2000}");
    let drawn = of_kind(&plan, &[OpeningKind::Window]);
    assert_eq!(drawn, count(windows), "{name}: windows\n{said:.2000}");
    let clear = f64::from(PITCH[0] - WALL) * f64::from(PITCH[1] - WALL);
    let off = plan.rooms.values().map(|room| (super::area(&room.outline) * 1e6 - clear).abs());
    let most = off.fold(0.0, f64::max);
    assert!(most < 0.01 * clear, "{name}: a room is {most} mm² off");
    println!("{name}: {} walls, {} rooms", plan.walls.len(), plan.rooms.len());
}

#[test]
#[cfg(target_os = "linux")]
fn a_large_dxf_is_read_whole() {
    let drawn = drawn();
    let mut text =
        "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n"
            .to_owned();
    for (layer, lines) in [("WALLS", &drawn.walls), ("WINDOWS", &drawn.panes)] {
        for [x, y, to, up] in lines {
            write!(text, "0\nLINE\n8\n{layer}\n10\n{x}\n20\n{y}\n11\n{to}\n21\n{up}\n").unwrap();
        }
    }
    for [x, y] in &drawn.doors {
        write!(text, "0\nARC\n8\nDOORS\n10\n{x}\n20\n{y}\n40\n{}\n50\n0\n51\n90\n", DOOR[1])
            .unwrap();
    }
    text.push_str("0\nENDSEC\n0\nEOF\n");
    is_whole("large.dxf", &text, COLUMNS);
}

#[test]
#[cfg(target_os = "linux")]
fn a_large_svg_is_read_whole() {
    let drawn = drawn();
    let (wide, high) = (COLUMNS * PITCH[0] + WALL, ROWS * PITCH[1] + WALL);
    let mut text = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{wide}mm\" height=\"{high}mm\" viewBox=\"0 0 {wide} {high}\">"
    );
    for (layer, lines) in [("walls", &drawn.walls), ("windows", &drawn.panes)] {
        write!(text, "<g id=\"{layer}\">").unwrap();
        for [x, y, to, up] in lines {
            write!(text, "<line x1=\"{x}\" y1=\"{y}\" x2=\"{to}\" y2=\"{up}\"/>").unwrap();
        }
        text.push_str("</g>");
    }
    text.push_str("<g id=\"doors\">");
    for [x, y] in &drawn.doors {
        let leaf = DOOR[1];
        write!(text, "<path d=\"M{} {y}A{leaf} {leaf} 0 0 1 {x} {}\"/>", x + leaf, y + leaf)
            .unwrap();
    }
    text.push_str("</g></svg>");
    is_whole("large.svg", &text, COLUMNS);
}

#[test]
#[cfg(target_os = "linux")]
fn a_large_geojson_is_read_whole() {
    let metres = |mm: i32| f64::from(mm) / 1000.0;
    let mut features = Vec::new();
    let point = |kind: &str, x: i32, y: i32, width: i32| {
        format!(
            "{{\"type\":\"Feature\",\"properties\":{{\"kind\":\"{kind}\",\"width\":{}}},\
             \"geometry\":{{\"type\":\"Point\",\"coordinates\":[{},{}]}}}}",
            metres(width),
            metres(x),
            metres(y)
        )
    };
    for row in 0..ROWS {
        for column in 0..COLUMNS {
            let (x, y) = (column * PITCH[0] + WALL, row * PITCH[1] + WALL);
            let (to, up) = (x + PITCH[0] - WALL, y + PITCH[1] - WALL);
            let ring: Vec<String> = [(x, y), (to, y), (to, up), (x, up), (x, y)]
                .iter()
                .map(|(x, y)| format!("[{},{}]", metres(*x), metres(*y)))
                .collect();
            features.push(format!(
                "{{\"type\":\"Feature\",\"properties\":{{\"indoor\":\"room\",\"name\":\"Office {row}-{column}\"}},\
                 \"geometry\":{{\"type\":\"Polygon\",\"coordinates\":[[{}]]}}}}",
                ring.join(",")
            ));
            features.push(point("door", x + DOOR[0] + DOOR[1].div_euclid(2), y - HALF, DOOR[1]));
        }
    }
    for column in 0..COLUMNS {
        let x = column * PITCH[0] + WALL + WINDOW[0] + WINDOW[1].div_euclid(2);
        features.push(point("window", x, ROWS * PITCH[1] + HALF, WINDOW[1]));
    }
    let text = format!("{{\"type\":\"FeatureCollection\",\"features\":[{}]}}", features.join(","));
    is_whole("large.geojson", &text, COLUMNS);
}

/// A file of this form while it is written.
struct Step {
    text: String,
    last: usize,
}

impl Step {
    fn new() -> Self {
        let text = "ISO-10303-21;HEADER;FILE_SCHEMA(('IFC4'));ENDSEC;DATA;\n\
                    #1=IFCBUILDINGSTOREY('',$,'Offices',$,$,#2,$,$,$,0.);\n\
                    #2=IFCLOCALPLACEMENT($,#3);\n#3=IFCAXIS2PLACEMENT3D(#4,$,$);\n\
                    #4=IFCCARTESIANPOINT((0.,0.,0.));\n#5=IFCDIRECTION((0.,0.,1.));\n\
                    #6=IFCUNITASSIGNMENT((#7));\n#7=IFCSIUNIT(*,.LENGTHUNIT.,.MILLI.,.METRE.);\n\
                    #8=IFCAXIS2PLACEMENT3D(#9,$,$);\n#9=IFCCARTESIANPOINT((0.,0.,900.));\n";
        Self { text: text.to_owned(), last: 9 }
    }

    fn add(&mut self, entity: &str) -> usize {
        self.last += 1;
        writeln!(self.text, "#{}={entity};", self.last).unwrap();
        self.last
    }

    fn curve(&mut self, places: &[[i32; 2]]) -> usize {
        let points: Vec<String> = places
            .iter()
            .map(|[x, y]| format!("#{}", self.add(&format!("IFCCARTESIANPOINT(({x}.,{y}.))"))))
            .collect();
        self.add(&format!("IFCPOLYLINE(({}))", points.join(",")))
    }

    /// An upright block from a place on, with a line along it.
    fn block(&mut self, [x, y, to, up]: Line, (place, height): (u8, i32)) -> usize {
        let ring = self.curve(&[[x, y], [to, y], [to, up], [x, up], [x, y]]);
        let profile = self.add(&format!("IFCARBITRARYCLOSEDPROFILEDEF(.AREA.,$,#{ring})"));
        let solid = self.add(&format!("IFCEXTRUDEDAREASOLID(#{profile},#{place},#5,{height}.)"));
        let body = self.add(&format!("IFCSHAPEREPRESENTATION($,'Body','SweptSolid',(#{solid}))"));
        let (x2, y2) = if to - x > up - y { (to, y) } else { (x, up) };
        let axis = self.curve(&[[x, y], [x2, y2]]);
        let axis = self.add(&format!("IFCSHAPEREPRESENTATION($,'Axis','Curve2D',(#{axis}))"));
        self.add(&format!("IFCPRODUCTDEFINITIONSHAPE($,$,(#{body},#{axis}))"))
    }

    fn wall(&mut self, line: Line) -> usize {
        let shape = self.block(line, (3, 2500));
        self.add(&format!("IFCWALL('',$,'Wall',$,$,#2,#{shape},$,$)"))
    }

    fn opening(&mut self, wall: usize, line: Line, (place, height): (u8, i32), filled: &str) {
        let shape = self.block(line, (place, height));
        let opening = self.add(&format!("IFCOPENINGELEMENT('',$,'',$,$,#2,#{shape},$,$)"));
        self.add(&format!("IFCRELVOIDSELEMENT('',$,$,$,#{wall},#{opening})"));
        let filler = self.add(&format!("{filled}('',$,'',$,$,#2,$,$,{height}.,900.)"));
        self.add(&format!("IFCRELFILLSELEMENT('',$,$,$,#{opening},#{filler})"));
    }
}

#[test]
#[cfg(target_os = "linux")]
fn a_large_ifc_is_read_whole() {
    let mut step = Step::new();
    let mut walls = Vec::new();
    for column in 0..=COLUMNS {
        let x = column * PITCH[0];
        for row in 0..=ROWS {
            let y = row * PITCH[1];
            if row < ROWS {
                walls.push(step.wall([x, y + WALL, x + WALL, y + PITCH[1]]));
            }
            if column == COLUMNS {
                continue;
            }
            let wall = step.wall([x, y, x + PITCH[0] + WALL, y + WALL]);
            walls.push(wall);
            if row < ROWS {
                let from = x + WALL + DOOR[0];
                let hole = [from, y, from + DOOR[1], y + WALL];
                step.opening(wall, hole, (3, 2040), "IFCDOOR");
                let room = [x + WALL, y + WALL, x + PITCH[0], y + PITCH[1]];
                let shape = step.block(room, (3, 2500));
                step.add(&format!("IFCSPACE('',$,'1',$,$,#2,#{shape},'Office',.ELEMENT.)"));
            } else {
                let from = x + WALL + WINDOW[0];
                let hole = [from, y, from + WINDOW[1], y + WALL];
                step.opening(wall, hole, (8, 1200), "IFCWINDOW");
            }
        }
    }
    let all: Vec<String> = walls.iter().map(|wall| format!("#{wall}")).collect();
    step.add(&format!("IFCRELCONTAINEDINSPATIALSTRUCTURE('',$,$,$,({}),#1)", all.join(",")));
    step.text.push_str("ENDSEC;END-ISO-10303-21;\n");
    is_whole("large.ifc", &step.text, COLUMNS);
}

/// Nearly as many walls as are read at all: rows of short ones on long ones.
#[test]
#[cfg(target_os = "linux")]
fn as_many_walls_as_are_read_cost_little() {
    let mut lines: Vec<Line> = vec![[0, 0, 0, 396_000], [-100, 0, -100, 396_000]];
    for row in 0..99 {
        let y = row * 4000;
        lines.extend([[0, y, 400_000, y], [0, y - 100, 400_000, y - 100]]);
        for x in (1..100).map(|column| column * 4000) {
            lines.extend([[x, y, x, y + 900], [x + 100, y, x + 100, y + 900]]);
        }
    }
    let mut text = "0\nSECTION\n2\nENTITIES\n".to_owned();
    for [x, y, to, up] in lines {
        write!(text, "0\nLINE\n8\nWALL\n10\n{x}\n20\n{y}\n11\n{to}\n21\n{up}\n").unwrap();
    }
    text.push_str("0\nENDSEC\n0\nEOF\n");
    let (plan, said) = made("most.dxf", &text);
    assert_eq!(plan.walls.len(), 99 * 100 + 1, "each is a wall: {said:.900}");
}

fn refused(name: &str, text: &str) -> String {
    import(text.as_bytes(), name, &ImportOptions::default()).unwrap_err().to_string()
}

/// What is refused is refused for what it is, with the way out.
#[test]
fn too_much_is_called_what_it_is() {
    let mut lines = String::new();
    let mut line = |x: i32, y: i32, to: i32| {
        write!(lines, "0\nLINE\n8\nWALL\n10\n{x}\n20\n{y}\n11\n{to}\n21\n{y}\n").unwrap();
    };
    // Walls with one face whole and the other in a thousand pieces.
    for y in (0..10).map(|row| row * 2000) {
        line(0, y, 420_000);
        (0..1050).for_each(|piece| line(piece * 400, y + 100, piece * 400 + 200));
    }
    let said = refused("many.dxf", &format!("0\nSECTION\n2\nENTITIES\n{lines}0\nENDSEC\n0\nEOF\n"));
    assert!(
        said.contains("more than 10000 pieces of wall; leave out") && said.contains("by parts"),
        "{said}"
    );
    let room = |at: i32| {
        let (x, y) = (at % 60 * 5, at.div_euclid(60) * 5);
        let (to, up) = (x + 4, y + 4);
        format!(
            "{{\"type\":\"Polygon\",\"coordinates\":[[[{x},{y}],[{to},{y}],[{to},{up}],[{x},{up}],[{x},{y}]]]}}"
        )
    };
    let all = |rooms: i32, others: &str| {
        let rooms: Vec<String> = (0..rooms).map(room).collect();
        format!("{{\"type\":\"FeatureCollection\",\"features\":[{}{others}]}}", rooms.join(","))
    };
    let said = refused("many.geojson", &all(3100, ""));
    assert!(said.contains("more than 12000 sides of rooms on a level; leave out"), "{said}");
    let door = ",{\"properties\":{\"kind\":\"door\"},\"geometry\":{\"type\":\"Point\",\"coordinates\":[2,0]}}";
    let said = refused("many.geojson", &all(4, &door.repeat(10_001)));
    assert!(said.contains("more than 10000 doors and windows; leave out"), "{said}");
}

//! What the worst files cost. Each is read by the command itself, under the
//! limits of its shell: 1.5 GiB of addresses, and a minute of the processor
//! (a build without optimisation takes some times as long as the real one).
//! A command that passes a limit is killed or cannot go on, and says nothing.

use std::fmt::Write as _;
use std::fs;
use std::io::Write as _;
use std::path::PathBuf;
use std::process::{Command, Output};

/// In KiB, as `ulimit -v` has it: the largest file may be 256 MiB.
const ADDRESSES: usize = 1536 * 1024;
/// In seconds, as `ulimit -t` has it.
const SECONDS: usize = 60;

/// Runs the command over a file within the limits; what it made stands in
/// the file that is named last.
pub(super) fn run(name: &str, text: &str) -> (Output, PathBuf) {
    let folder = std::env::temp_dir().join(format!("wirewend-costs-{}-{name}", std::process::id()));
    fs::create_dir_all(&folder).unwrap();
    let file = folder.join(name);
    // Packed: the disk need not hold hundreds of megabytes.
    let mut packed = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::fast());
    packed.write_all(text.as_bytes()).unwrap();
    let is_plan = name.ends_with(".wend");
    let bytes = if is_plan { text.into() } else { packed.finish().unwrap() };
    fs::write(&file, bytes).unwrap();
    let wirewend = env!("CARGO_BIN_EXE_wirewend");
    let (file, to) = (file.display(), folder.join(format!("{name}.made")));
    let command = if is_plan {
        format!("'{wirewend}' check '{file}'")
    } else {
        format!("'{wirewend}' import '{file}' --to '{}'", to.display())
    };
    let output = Command::new("sh")
        .args(["-c", &format!("ulimit -v {ADDRESSES} && ulimit -t {SECONDS} && exec {command}")])
        .output()
        .unwrap();
    fs::remove_file(folder.join(name)).unwrap();
    (output, to)
}

/// A file of the worst kind: read, or refused with a reason that is given.
fn costs_little(name: &str, text: &str, says: &str) {
    let (output, to) = run(name, text);
    let said = String::from_utf8_lossy(&output.stderr);
    assert_eq!(output.status.code(), Some(1), "{name}: {:?}: {said:.300}", output.status);
    assert!(said.contains(says), "{name}: {said:.300}");
    fs::remove_dir(to.parent().unwrap()).unwrap();
}

fn step(data: &str) -> String {
    format!("ISO-10303-21;HEADER;FILE_SCHEMA(('IFC4'));ENDSEC;DATA;{data}ENDSEC;END-ISO-10303-21;")
}

fn svg(before: &str, inside: &str) -> String {
    format!("<!-- <svg -->{before}<svg xmlns=\"http://www.w3.org/2000/svg\">{inside}</svg>")
}

fn dxf(blocks: &str, entities: &str) -> String {
    format!(
        "0\nSECTION\n2\nBLOCKS\n{blocks}0\nENDSEC\n0\nSECTION\n2\nENTITIES\n{entities}0\nENDSEC\n0\nEOF\n"
    )
}

fn block(name: &str, inside: &str) -> String {
    format!("0\nBLOCK\n2\n{name}\n10\n0\n20\n0\n{inside}0\nENDBLK\n")
}

fn insert(name: &str) -> String {
    format!("0\nINSERT\n2\n{name}\n10\n0\n20\n0\n")
}

#[test]
#[cfg(target_os = "linux")]
fn the_worst_ifc_files_cost_little() {
    const STOREY: &str = "#1=IFCBUILDINGSTOREY($,$,$,$,$,#2,$,$,$,0.);#2=IFCLOCALPLACEMENT($,#3);\
                          #3=IFCAXIS2PLACEMENT3D(#4,$,$);";
    let point = format!("{STOREY}#4=IFCCARTESIANPOINT(({}1.));", "1.,".repeat(60 << 20));
    costs_little("point.ifc", &step(&point), "no walls and no rooms");
    let mut many = String::new();
    for id in 1..3_900_000 {
        write!(many, "#{id}=A{id}();").unwrap();
    }
    costs_little("many.ifc", &step(&many), "no walls and no rooms");
    let number = format!("#1=IFCBUILDINGSTOREY($,$,$,$,$,$,$,$,$,1E{});", "9".repeat(1 << 20));
    costs_little("number.ifc", &step(&number), "no walls and no rooms");
}

#[test]
#[cfg(target_os = "linux")]
fn the_worst_dxf_files_cost_little() {
    let line = "0\nLINE\n8\nWALL\n10\n0\n20\n0\n11\n9\n21\n9\n";
    let tower = |name: &str| {
        let level = |at: usize| match at {
            0 => block(&format!("{name}0"), line),
            at => block(&format!("{name}{at}"), &insert(&format!("{name}{}", at - 1)).repeat(50)),
        };
        (0..11).map(level).collect::<String>()
    };
    for name in ["a", "door"] {
        let top = insert(&format!("{name}10"));
        costs_little(&format!("{name}.dxf"), &dxf(&tower(name), &top), "parts of a drawing");
    }
    let corner = "10\n0\n20\n0\n42\n1\n10\n9\n20\n9\n42\n1\n";
    let long = format!("0\nLWPOLYLINE\n8\nWALL\n{}", corner.repeat(4 << 20));
    costs_little("long.dxf", &dxf("", &long), "corners");
    let bent = format!("0\nLWPOLYLINE\n8\nWALL\n{}", corner.repeat(90_000));
    costs_little("bent.dxf", &dxf("", &bent), "parts of a drawing");
    let dot = format!("0\nLWPOLYLINE\n8\nWALL\n{}", "10\n0\n20\n0\n".repeat(100_000));
    let dots = dxf(&block("a", &dot), &insert("a").repeat(190_000));
    costs_little("dots.dxf", &dots, "parts of a drawing");
    let codes: String = (10..60).map(|code| format!("{code}\n1\n")).collect();
    let numbers = format!("0\nLINE\n8\nW\n{codes}").repeat(900_000);
    costs_little("numbers.dxf", &dxf("", &numbers), "no walls and no rooms");
    let mut over = String::new();
    for at in 0..19_900 {
        let (x, y, tilt) = (at % 141 * 37, i32::div_euclid(at, 141) * 41, at % 3 * 4000);
        let (to, up) = (x + 5000, y + tilt);
        write!(over, "0\nLINE\n8\nWALL\n10\n{x}\n20\n{y}\n11\n{to}\n21\n{up}\n").unwrap();
    }
    costs_little("over.dxf", &dxf("", &over), "lie over each other");
    // An empty block in rows and columns without end.
    let rows = "70\n32767\n71\n32767\n44\n1\n45\n1\n";
    let set = format!("{}{rows}", insert("a"));
    costs_little("rows.dxf", &dxf(&block("a", ""), &set), "parts of a drawing");
}

#[test]
#[cfg(target_os = "linux")]
fn the_worst_svg_files_cost_little() {
    let entity = |value: &str| format!("<!DOCTYPE svg [<!ENTITY a \"{value}\">]>");
    let text = svg(&entity(&"a".repeat(100_000)), &"<text>&a;</text>".repeat(20_000));
    costs_little("text.svg", &text, "entities");
    costs_little("laughs.svg", &svg(&entity("&a;&a;"), "<text>&a;</text>"), "more than text");
    let attributes: String = (0..300_000).fold(String::new(), |mut all, at| {
        write!(all, " a{at}=''").unwrap();
        all
    });
    costs_little("attributes.svg", &svg("", &format!("<g{attributes}/>")), "attributes");
    let path = |steps: usize| format!("<path id=\"a\" d=\"M0 0{}\"/>", "L1 1".repeat(steps));
    costs_little("path.svg", &svg("", &path(14 << 20)), "outline");
    let copies = "<use href=\"#a\"/>".repeat(4900);
    let copied = format!("<defs>{}</defs><g id=\"door\">{copies}</g>", path(500_000));
    costs_little("copied.svg", &svg("", &copied), "outline");
    let tower: String =
        (1..20).fold("<g id=\"a0\"><rect width=\"9\"/></g>".to_owned(), |all, at| {
            let copy = format!("<use href=\"#a{}\"/>", at - 1);
            format!("{all}<g id=\"a{at}\">{}</g>", copy.repeat(10))
        });
    costs_little("tower.svg", &svg("", &tower), "parts of a drawing");
    costs_little("large.svg", &svg("", &"a ".repeat(100 << 20)), "larger than");
    let nodes = "<g a='' b='' c='' d='' e='' f='' g='' h='' i=''/>".repeat(499_000);
    costs_little("nodes.svg", &svg("", &nodes), "no walls and no rooms");
}

#[test]
#[cfg(target_os = "linux")]
fn the_worst_json_files_cost_little() {
    let features =
        |inside: &str| format!("{{\"type\":\"FeatureCollection\",\"features\":[{inside}0]}}");
    for (name, value, count) in
        [("numbers", "0,", 15 << 20), ("maps", "{\"\":0},", 4 << 20), ("lists", "[0],", 7 << 20)]
    {
        let text = features(&value.repeat(count));
        costs_little(&format!("{name}.geojson"), &text, "more than");
    }
    // Rooms over rooms, nearly as many as are read on a level.
    let room = |at: i32| {
        let metres = |mm: i32| f64::from(mm) / 1000.0;
        let (x, y) = (at % 50 * 1900 + at, i32::div_euclid(at, 50) * 1700 + at % 7 * 3);
        let (to, up) = (metres(x + 3000 + at % 5 * 40), metres(y + 3100));
        let (x, y) = (metres(x), metres(y));
        format!(
            "{{\"type\":\"Polygon\",\"coordinates\":[[[{x},{y}],[{to},{y}],[{to},{up}],[{x},{up}]]]}}"
        )
    };
    let over: Vec<String> = (0..2_900).map(room).collect();
    let text = format!("{{\"type\":\"FeatureCollection\",\"features\":[{}]}}", over.join(","));
    costs_little("over.geojson", &text, "pieces of wall");
    costs_little("just.geojson", &features(&"{\"\":0},".repeat(1_300_000)), "no geometry");
    let deep = "[".repeat(8 << 20);
    costs_little("deep.json", &format!("{{\"levels\":{deep}"), "deep.json");
    let zeros = format!("{{\"levels\":[{}0]}}", "0,".repeat(7 << 20));
    costs_little("zeros.json", &zeros, "levels[0]");
    let plan = |inside: &str| format!("{{\"wirewend\":1,\"levels\":{inside}");
    for (name, text, says) in [
        ("maps", plan(&format!("[{}0]}}", "{\"\":0},".repeat(1_900_000))), "expected an object"),
        ("zeros", plan(&format!("[{}0]}}", "0,".repeat(31 << 20))), "more than"),
        ("deep", plan(&"[".repeat(60 << 20)), "deeper"),
        ("digits", plan(&"9".repeat(60 << 20)), "the file ends here"),
    ] {
        costs_little(&format!("{name}.wend"), &text, says);
    }
}

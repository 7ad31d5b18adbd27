//! The papers of every house in `fixtures/`, judged from their scenes and, by
//! general-purpose readers, from the files made of them.

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::OnceLock;

use kurbo::Rect;
use wirewend::checks::{check, expected_tests};
use wirewend::draft::{DraftOptions, Standard, draft};
use wirewend::lengths::Lengths;
use wirewend::plan::{Measured, Plan, Reading, Subject, labels};
use wirewend::rules::RuleBook;
use wirewend::runs::{self, Runs, chain::Effort};
use wirewend::sheet::{
    FloorOptions, Floors, House, Item, Layer, PaperSize, Scale, Scene, Text, board_charts,
    cable_list, concealed_sheets, costing_of_change, costing_sheets, csv, cut_cards, cut_list, dxf,
    elevations, floor_sheet, has_sign, isometric, number_sheets, order_list, pdf, png, point_list,
    quote_sheets, run_strips, test_sheets, variation_sheets, workbook,
};
use wirewend::space::Space;
use wirewend::takeoff::{Revision, TakeOff, choices, compare, take_off};
use wirewend::units::Mm;
use wirewend::{lengths, store};

use crate::command::{Folder, wirewend};
use crate::fixtures::{local, shipped_rules};
use crate::layouts::{ours, read};
use crate::on_paper::{on_layer, overlap, subjects, texts};

struct Job {
    name: String,
    plan: Plan,
    runs: Runs,
    lengths: Lengths,
    take_off: TakeOff,
}

/// Every house, routed and measured once.
fn jobs() -> &'static [Job] {
    static JOBS: OnceLock<Vec<Job>> = OnceLock::new();
    JOBS.get_or_init(|| {
        let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("fixtures");
        let mut files: Vec<PathBuf> = std::fs::read_dir(folder)
            .unwrap()
            .map(|entry| entry.unwrap().path())
            .filter(|path| path.extension().is_some_and(|extension| extension == "wend"))
            .collect();
        files.sort();
        let job = |path: PathBuf| {
            let name = path.file_stem().unwrap().to_string_lossy().into_owned();
            job_of(name, store::read_file(&path).unwrap())
        };
        let mut jobs: Vec<Job> = files.into_iter().map(job).collect();
        let flat = jobs.iter().find(|job| job.name == "flat").unwrap();
        let built = as_built(flat);
        jobs.push(built);
        jobs
    })
}

fn job_of(name: String, plan: Plan) -> Job {
    let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
    let lengths = lengths::measure(&plan, &runs);
    let take_off = take_off(&plan, &runs, &lengths, shipped_rules());
    Job { name, plan, runs, lengths, take_off }
}

/// A house with every other leg measured and every other test read.
fn as_built(of: &Job) -> Job {
    let mut plan = of.plan.clone();
    for (id, run) in &of.runs.circuits {
        for (leg, length) in run.legs.iter().zip(&of.lengths.circuits[id]).step_by(2) {
            let (circuit, from, to) = (*id, leg.from, leg.to);
            let length = length.cut.value + Mm::new(130);
            let (by, on) = ("A. Hand".to_owned(), "2026-11-25".to_owned());
            plan.measured.push(Measured { circuit, from, to, length, by, on });
        }
    }
    let tests = expected_tests(&plan, &of.runs, &of.lengths, &RuleBook::shipped());
    for (id, tests) in &tests.circuits {
        for (at, test) in tests.wanted().into_iter().step_by(2) {
            let reads = test.reads(tests.against(at, test).expected.unwrap_or(1.0));
            let (by, on) = ("invented".to_owned(), String::new());
            plan.readings.push(Reading { circuit: *id, at, reads, by, on });
        }
    }
    job_of("flat as built".to_owned(), plan)
}

impl Job {
    fn house(&self) -> House<'_> {
        House::new(&self.plan, &self.runs, &self.lengths, local(&self.plan))
    }

    fn floors(&self) -> Floors<'_> {
        Floors::of(&self.plan, &self.runs, &self.lengths, local(&self.plan))
    }

    fn quote(&self) -> Vec<Scene> {
        let choices = choices(&self.plan, &self.take_off, shipped_rules()).for_client();
        quote_sheets(&self.house(), &mut self.floors(), &choices)
    }

    fn costing(&self) -> Vec<Scene> {
        let choices = choices(&self.plan, &self.take_off, shipped_rules());
        costing_sheets(&self.house(), &self.take_off.quote, &choices)
    }

    /// What leaving out the last point changes, for the client and for the
    /// contractor.
    fn variation(&self) -> Vec<Scene> {
        let mut old = self.plan.clone();
        let last = old.points.pop();
        for control in old.controls.values_mut() {
            control.lights.retain(|id| last.as_ref().is_none_or(|(gone, _)| gone != id));
            control.switches.retain(|id| last.as_ref().is_none_or(|(gone, _)| gone != id));
        }
        let runs = runs::route(&old, &Space::of(&old), &Effort::default());
        let lengths = lengths::measure(&old, &runs);
        let old_take_off = take_off(&old, &runs, &lengths, shipped_rules());
        let changes = compare(
            Revision { plan: &old, runs: &runs, lengths: &lengths, take_off: &old_take_off },
            Revision {
                plan: &self.plan,
                runs: &self.runs,
                lengths: &self.lengths,
                take_off: &self.take_off,
            },
        );
        let mut sheets = variation_sheets(&old, &self.house(), &changes.for_client());
        sheets.extend(costing_of_change(&old, &self.house(), &changes));
        sheets
    }

    /// All papers but the floor sheets, which have tests of their own.
    fn papers(&self) -> Vec<Scene> {
        let house = self.house();
        let tests = expected_tests(&self.plan, &self.runs, &self.lengths, &RuleBook::shipped());
        let mut scenes = elevations(&house);
        scenes.extend(self.plan.circuits.keys().filter_map(|id| isometric(&house, *id)));
        scenes.extend(run_strips(&house));
        scenes.extend(cut_cards(&house, &self.take_off.cuts));
        scenes.extend(order_list(&house, &self.take_off));
        scenes.extend(self.quote());
        scenes.extend(self.variation());
        scenes.extend(self.costing());
        scenes.extend(board_charts(&house));
        scenes.extend(test_sheets(&house, &tests));
        scenes.extend(concealed_sheets(&house));
        number_sheets(&mut scenes);
        scenes
    }
}

/// What is drawn inside the frame lies inside it.
#[test]
fn nothing_is_clipped() {
    for job in jobs() {
        for scene in job.papers() {
            let frame = scene.page.frame();
            for item in &scene.items {
                if matches!(item, Item::Group(group) if group.layer == Layer::Frame) {
                    continue;
                }
                let Some(bounds) = item.bounds() else { continue };
                let slack = frame.inflate(0.4, 0.4);
                assert!(
                    slack.union(bounds) == slack,
                    "{}: {}: {bounds:?} leaves {frame:?}",
                    job.name,
                    scene.title
                );
            }
        }
    }
}

/// The box of its letters, less what may touch.
fn letters(text: &Text) -> Rect {
    let bounds = text.bounds();
    bounds.inflate(-0.25_f64.min(bounds.width() / 3.0), -0.25_f64.min(bounds.height() / 3.0))
}

/// No lettering runs into other lettering on any paper.
#[test]
fn no_lettering_runs_into_other_lettering() {
    let mut complaints: Vec<String> = Vec::new();
    for job in jobs() {
        for scene in job.papers() {
            let all = texts(&scene.items);
            let boxes: Vec<Rect> = all.iter().map(|text| letters(text)).collect();
            for (index, one) in boxes.iter().enumerate() {
                for (other, text) in boxes.iter().zip(&all).skip(index + 1) {
                    if overlap(*one, *other) {
                        let (a, b) = (&all[index].content, &text.content);
                        let at = text.at;
                        complaints
                            .push(format!("{}: {}: {a:?}, {b:?} {at:?}", job.name, scene.title));
                    }
                }
            }
        }
    }
    assert!(complaints.is_empty(), "{}:\n{}", complaints.len(), complaints.join("\n"));
}

#[test]
fn every_leg_has_a_strip_and_a_card() {
    for job in jobs() {
        let house = job.house();
        for scenes in [run_strips(&house), cut_cards(&house, &job.take_off.cuts)] {
            let shown: Vec<Subject> =
                scenes.iter().flat_map(|scene| subjects(&scene.items)).collect();
            let legs = job.runs.circuits.values().flat_map(|run| &run.legs);
            let mut count = 0;
            for leg in legs {
                let subject = Subject::Leg { circuit: leg.circuit, from: leg.from, to: leg.to };
                assert!(shown.contains(&subject), "{}: {subject:?}", job.name);
                count += 1;
            }
            let legs = shown.iter().filter(|one| matches!(one, Subject::Leg { .. })).count();
            assert_eq!(legs, count, "{}: one each", job.name);
        }
    }
}

/// Every point and board on a wall stands on an elevation, under its mark.
#[test]
fn every_point_on_a_wall_is_on_an_elevation() {
    use wirewend::plan::Place;
    for job in jobs() {
        let scenes = elevations(&job.house());
        let shown: Vec<Subject> = scenes.iter().flat_map(|scene| subjects(&scene.items)).collect();
        let said: Vec<&str> = scenes
            .iter()
            .flat_map(|scene| texts(&scene.items))
            .map(|text| text.content.as_str())
            .collect();
        let marks = labels(&job.plan);
        for (id, point) in &job.plan.points {
            let Some(Place::Wall(on)) = point.place else { continue };
            if !job.plan.walls.contains_key(&on.wall) {
                continue;
            }
            assert!(shown.contains(&Subject::Point(*id)), "{}: {id}", job.name);
            // Before its height, or over it.
            let mark = marks.point(*id);
            let is_said = |text: &&str| text.split(' ').next() == Some(mark);
            assert!(said.iter().any(is_said), "{}: {mark}", job.name);
        }
    }
}

/// Common practice: what cannot be read at the scale of its neighbours is
/// drawn larger, and says so.
#[test]
fn a_wall_full_of_cables_is_drawn_larger() {
    let enlarged = |name: &str| {
        let job = jobs().iter().find(|job| job.name == name).unwrap();
        let scenes = elevations(&job.house());
        let all: Vec<&Text> = scenes.iter().flat_map(|scene| texts(&scene.items)).collect();
        let told = all.iter().any(|text| text.content.contains("full of cables is drawn at 1:20"));
        let titled = all.iter().filter(|text| text.content.ends_with("at 1:20")).count();
        (told, titled > 0)
    };
    assert_eq!(enlarged("flat"), (true, true), "all its cables run in the walls");
    assert_eq!(enlarged("terrace"), (false, false), "most of its cables run in voids");
}

#[test]
fn every_sheet_says_which_it_is_what_it_is_and_what_to_heed() {
    for job in jobs() {
        let scenes = job.papers();
        for (index, scene) in scenes.iter().enumerate() {
            let said: Vec<String> =
                texts(&scene.items).iter().map(|text| text.content.clone()).collect();
            let number = format!("{} of {}", index + 1, scenes.len());
            assert!(said.contains(&number), "{}: {}: {number}", job.name, scene.title);
            let all = said.join(" ");
            for words in ["It is not a certificate", "prove dead", "asbestos"] {
                assert!(all.contains(words), "{}: {}: {words}", job.name, scene.title);
            }
            assert!(all.chars().all(has_sign), "{}: {}", job.name, scene.title);
        }
    }
}

#[test]
fn papers_of_what_was_built_tell_it_from_what_was_planned() {
    let job = jobs().iter().find(|job| job.name == "flat as built").unwrap();
    let said = |scenes: &[Scene]| -> Vec<String> {
        let items = scenes.iter().flat_map(|scene| texts(&scene.items));
        items.map(|text| text.content.clone()).collect()
    };
    let count =
        |said: &[String], start: &str| said.iter().filter(|text| text.starts_with(start)).count();
    let measured = job.plan.measured.len();
    assert!(measured > 5 && job.plan.readings.len() > 20, "something was built");
    let cards = said(&cut_cards(&job.house(), &job.take_off.cuts));
    assert!(cards.iter().any(|text| text == "as built in part"), "the title block");
    assert_eq!(count(&cards, "built "), measured, "as built");
    assert_eq!(count(&cards, "planned "), measured, "beside what was planned");
    let tests = expected_tests(&job.plan, &job.runs, &job.lengths, &RuleBook::shipped());
    let sheet = said(&test_sheets(&job.house(), &tests));
    let verdicts = ["as expected", "look again", "beyond limit", "not judged"];
    let counted = |text: &String| -> Option<usize> {
        let (count, verdict) = text.split_once(' ')?;
        verdicts.contains(&verdict).then(|| count.parse().unwrap())
    };
    let told: usize = sheet.iter().filter_map(counted).sum();
    assert_eq!(told, job.plan.readings.len(), "a verdict for every reading");
    let rows = sheet.iter().filter(|text| *text == "measured").count();
    assert_eq!(rows, tests.circuits.len(), "one row for every circuit");
    let mut tags = 0;
    for level in job.plan.levels.keys() {
        let options = FloorOptions::of(*level);
        let scene = floor_sheet(
            &House::new(&job.plan, &job.runs, &job.lengths, local(&job.plan)),
            &options,
        )
        .unwrap();
        let floor = said(&[scene]);
        tags += floor.iter().filter(|text| text.contains(" = ")).count() - 1;
        assert!(floor.iter().any(|text| text == "as built in part"), "the title block");
        assert!(floor.iter().any(|text| text.starts_with("leg as built")), "the legend");
    }
    assert!(tags > measured.div_ceil(2), "{tags} of {measured} legs carry their length");
}

/// Read back by a general PDF library (lopdf): pages, their sizes, bookmarks,
/// fonts within, and the text.
#[test]
fn the_pdf_holds_every_sheet_and_its_text() {
    for job in jobs() {
        let scenes = job.papers();
        let title = format!("{}: papers", job.name);
        let bytes = pdf(&scenes, &title);
        assert_eq!(bytes, pdf(&scenes, &title), "{}: the same bytes again", job.name);
        let file = lopdf::Document::load_mem(&bytes).unwrap();
        let info = file.trailer.get(b"Info").unwrap().as_reference().unwrap();
        let info = file.get_dictionary(info).unwrap();
        let said = lopdf::decode_text_string(info.get(b"Title").unwrap()).unwrap();
        assert_eq!(said, title, "its title");
        let pages = file.get_pages();
        assert_eq!(pages.len(), scenes.len(), "{}", job.name);
        for (scene, id) in scenes.iter().zip(pages.values()) {
            let page = file.get_dictionary(*id).unwrap();
            let media = page.get(b"MediaBox").unwrap().as_array().unwrap();
            let (width, height) = scene.page.size();
            for (value, mm) in media[2..].iter().zip([width, height]) {
                let points = f64::from(value.as_float().unwrap());
                assert!((points - mm * 72.0 / 25.4).abs() < 0.01, "{points} for {mm} mm");
            }
        }
        let outlines = file.catalog().unwrap().get(b"Outlines").unwrap().as_reference().unwrap();
        let (branches, leaves) = bookmarks(&file, outlines);
        let in_order: Vec<lopdf::ObjectId> = pages.values().copied().collect();
        assert_eq!(leaves, in_order, "{}: a bookmark a sheet, in their order", job.name);
        let several = scenes.windows(2).any(|pair| pair[0].kind == pair[1].kind);
        assert_eq!(branches >= 1, several, "{}: {branches} papers of several sheets", job.name);
        let each = bytes.len().div_euclid(scenes.len());
        assert!(each < 16_000, "{}: {each} bytes a sheet", job.name);
        let embedded = file.objects.values().filter(|object| {
            object.as_dict().is_ok_and(|dict| dict.has(b"FontFile2") || dict.has(b"FontFile3"))
        });
        assert!(embedded.count() >= 2, "regular and bold are embedded");
    }
}

/// How many bookmarks hold others, and the pages of those that hold none.
fn bookmarks(file: &lopdf::Document, parent: lopdf::ObjectId) -> (usize, Vec<lopdf::ObjectId>) {
    let (mut branches, mut leaves) = (0, Vec::new());
    let mut next = file.get_dictionary(parent).unwrap().get(b"First").ok().cloned();
    while let Some(id) = next.and_then(|one| one.as_reference().ok()) {
        let mark = file.get_dictionary(id).unwrap();
        if mark.has(b"First") {
            branches += 1;
            leaves.extend(bookmarks(file, id).1);
        } else {
            let to = mark.get(b"Dest").unwrap().as_array().unwrap();
            leaves.push(to[0].as_reference().unwrap());
        }
        next = mark.get(b"Next").ok().cloned();
    }
    (branches, leaves)
}

/// Read back with the text extractor of another PDF reader, where it is
/// installed: every word of every sheet is there, as often as on the sheet.
/// Lettering with paper around it, and what several sheets share, included.
#[test]
fn text_can_be_taken_out_of_the_pdf() {
    let job = &jobs()[0];
    let mut scenes = cut_cards(&job.house(), &job.take_off.cuts);
    for circuit in std::iter::once(None).chain(job.plan.circuits.keys().map(|id| Some(*id)).take(2))
    {
        let level = *job.plan.levels.keys().next().unwrap();
        let options = FloorOptions { circuit, ..FloorOptions::of(level) };
        scenes.push(
            floor_sheet(
                &House::new(&job.plan, &job.runs, &job.lengths, local(&job.plan)),
                &options,
            )
            .unwrap(),
        );
    }
    let path = std::env::temp_dir().join(format!("wirewend-{}.pdf", std::process::id()));
    std::fs::write(&path, pdf(&scenes, "papers")).unwrap();
    let output = std::process::Command::new("pdftotext").arg("-raw").arg(&path).arg("-").output();
    let _ = std::fs::remove_file(&path);
    let Ok(output) = output else {
        crate::outside::not_checked("no text extractor for PDF is installed");
        return;
    };
    let read = String::from_utf8(output.stdout).unwrap();
    let count = |text: &str, word: &str| text.split_whitespace().filter(|one| *one == word).count();
    let said: Vec<&str> =
        scenes.iter().flat_map(|scene| texts(&scene.items)).map(|text| &*text.content).collect();
    let said = said.join(" ");
    let words: BTreeSet<&str> = said.split_whitespace().filter(|word| word.len() > 3).collect();
    assert!(words.len() > 50, "there is something to read");
    for word in words {
        assert_eq!(count(&read, word), count(&said, word), "{word}");
    }
}

/// Every text in painting order, and whether it belongs to the sheet rather than
/// to the building.
fn texts_by_space(items: &[Item], of_sheet: bool) -> Vec<(&Text, bool)> {
    let mut found = Vec::new();
    for item in items {
        match item {
            Item::Text(text) if !text.content.trim().is_empty() => found.push((text, of_sheet)),
            Item::Group(group) => {
                let own = matches!(
                    group.layer,
                    Layer::Frame
                        | Layer::Notes
                        | Layer::TitleBlock
                        | Layer::SheetNumber
                        | Layer::Status
                );
                found.extend(texts_by_space(&group.items, own));
            }
            _ => {}
        }
    }
    found
}

/// Read back by a general DXF library (dxf): the layers, every text, and as
/// many lines as there are. What belongs to the building is where the plan has
/// it, the rest where it is on the sheet.
#[test]
fn the_dxf_holds_every_text_at_its_place() {
    for job in jobs() {
        for level in job.plan.levels.keys() {
            let options = FloorOptions::of(*level);
            let Ok(scene) = floor_sheet(
                &House::new(&job.plan, &job.runs, &job.lengths, local(&job.plan)),
                &options,
            ) else {
                continue;
            };
            let text = dxf(&scene, &job.plan);
            let file = dxf::Drawing::load(&mut text.as_slice()).unwrap();
            let read: Vec<(String, f64, f64)> = file
                .entities()
                .filter(|entity| entity.common.layer != "CAUTION")
                .filter_map(|entity| match &entity.specific {
                    dxf::entities::EntityType::Text(text) => {
                        Some((text.value.clone(), text.location.x, text.location.y))
                    }
                    _ => None,
                })
                .collect();
            let drawn = texts_by_space(&scene.items, false);
            assert_eq!(read.len(), drawn.len(), "{}", job.name);
            let grow = f64::from(scene.scale.unwrap().reduction());
            let origin = scene.origin.unwrap();
            for ((text, of_sheet), (value, x, y)) in drawn.iter().zip(&read) {
                // What has no byte of its own is written by its number.
                if text.content.chars().all(|sign| u8::try_from(sign).is_ok()) {
                    assert_eq!(&text.content, value, "{}", job.name);
                }
                let height = scene.page.size().1;
                let (at_x, at_y) = if *of_sheet {
                    (text.at.x, height - text.at.y)
                } else {
                    ((text.at.x - origin.x) * grow, (origin.y - text.at.y) * grow)
                };
                assert!((at_x - x).abs() < 0.01, "{value} at {x}");
                assert!((at_y - y).abs() < 0.01, "{value} at {y}");
            }
            let lines = file
                .entities()
                .filter(|one| matches!(one.specific, dxf::entities::EntityType::Polyline(_)));
            assert!(lines.count() > 10, "{}: walls and cables", job.name);
        }
    }
}

/// Read back by a general spreadsheet library (calamine) and by a CSV reader:
/// the same rows, and figures that add up to those of the plan.
#[test]
fn lists_read_back_and_add_up() {
    use calamine::{Data, Reader};
    for job in jobs() {
        let house = job.house();
        let cuts = &job.take_off.cuts;
        let lists = [cut_list(&house, cuts), point_list(&house), cable_list(&house, cuts)];
        let bytes = workbook(&lists).unwrap();
        let mut book =
            calamine::Xlsx::new(std::io::Cursor::new(bytes)).expect("a workbook that opens");
        for list in &lists {
            let page = book.worksheet_range(list.name).unwrap();
            assert_eq!(page.height(), list.rows.len() + 1, "{} {}", job.name, list.name);
            let text = csv(list);
            let mut reader = csv_reader(&text);
            assert_eq!(reader.records().count(), list.rows.len(), "{} {}", job.name, list.name);
        }
        let cuts = book.worksheet_range("cuts").unwrap();
        let column = lists[0].headings.iter().position(|name| *name == "cut m").unwrap();
        let sum: f64 = cuts
            .rows()
            .skip(1)
            .filter_map(|row| match row[column] {
                Data::Float(value) => Some(value),
                _ => None,
            })
            .sum();
        let expected: f64 =
            job.lengths.circuits.values().flatten().map(|leg| leg.cut.value.metres()).sum();
        assert!((sum - expected).abs() < 1e-6, "{}: {sum} of {expected}", job.name);
        assert_eq!(lists[1].rows.len(), job.plan.points.len(), "every point is listed");
    }
}

fn csv_reader(text: &str) -> csv::Reader<&[u8]> {
    csv::Reader::from_reader(text.as_bytes())
}

/// A picture has the size that its dots ask for, and something on it.
#[test]
fn a_picture_has_its_size_and_is_not_blank() {
    let scene = &order_list(&jobs()[0].house(), &jobs()[0].take_off)[0];
    let bytes = png(scene, 50.0).unwrap();
    let picture = resvg::tiny_skia::Pixmap::decode_png(&bytes).unwrap();
    assert_eq!((picture.width(), picture.height()), (413, 585), "A4 at 50 dots to the inch");
    assert!(picture.pixels().iter().any(|dot| dot.red() < 60), "there is ink");
}

/// Counts on the quote are those of the plan, and its sums add up to its total
/// to the cent.
#[test]
fn the_quote_counts_every_point_and_adds_up() {
    for job in jobs() {
        let quote = &job.take_off.quote;
        let scenes = job.quote();
        let pages = scenes.iter().filter(|scene| scene.scale.is_none());
        let notes = pages.flat_map(|scene| &scene.items).filter_map(|item| match item {
            Item::Group(group) if group.layer == Layer::Notes => Some(group),
            _ => None,
        });
        let all = notes.flat_map(|group| texts(&group.items));
        let said: Vec<&str> = all.map(|text| text.content.as_str()).collect();
        let counted = said.iter().filter_map(|text| text.parse::<usize>().ok()).sum::<usize>();
        assert_eq!(counted, job.plan.points.len(), "{}", job.name);
        let start = said.iter().position(|text| *text == "Price").unwrap();
        let cents = |text: &str| -> Option<i64> {
            let figure = text.rsplit(' ').next()?;
            let (whole, part) = figure.split_once('.')?;
            (part.len() == 2).then_some(())?;
            Some(whole.parse::<i64>().ok()? * 100 + part.parse::<i64>().ok()?)
        };
        let sums: Vec<i64> = said[start..].iter().filter_map(|text| cents(text)).collect();
        if let Some(priced) = quote.total.priced() {
            let total = priced.sum.value.get();
            let at = sums.iter().position(|sum| *sum == total).unwrap();
            assert_eq!(sums[..at].iter().sum::<i64>(), total, "{}: {sums:?}", job.name);
        } else {
            assert_eq!(sums, [0_i64; 0], "{}: no sum where nothing is priced", job.name);
        }
        let is_known = quote.to_pay().is_some();
        assert_eq!(said.contains(&"total to pay"), is_known, "{}: a total or not", job.name);
        let is_signed = said.contains(&"agreed: client");
        assert_eq!(is_signed, is_known, "{}: only an offer is signed", job.name);
    }
}

/// Sockets back to back on a wall are joined without a way along it: a fixture
/// has such a leg, and its card and its strip say so.
#[test]
fn legs_from_back_to_back_are_told_as_such() {
    let mut seen = 0;
    for job in jobs() {
        let legs = job.runs.circuits.values().flat_map(|run| &run.legs);
        let count = legs.filter(|leg| leg.route.length == Mm::ZERO).count();
        for scenes in [cut_cards(&job.house(), &job.take_off.cuts), run_strips(&job.house())] {
            let items = scenes.iter().flat_map(|scene| texts(&scene.items));
            let said: String = items.map(|text| format!("{} ", text.content)).collect();
            assert_eq!(
                said.matches("from box to box, back to back").count(),
                count,
                "{}",
                job.name
            );
        }
        seen += count;
    }
    assert!(seen > 0, "a fixture has such a leg");
}

/// With and without what is optional: a table that a page can hold is not
/// broken, and says in what money its amounts are.
#[test]
fn prices_side_by_side_stand_on_one_page() {
    let mut seen = 0;
    for job in jobs() {
        let house = job.house();
        let choices = choices(&job.plan, &job.take_off, shipped_rules()).for_client();
        if choices.items.is_empty() {
            continue;
        }
        let sheets = quote_sheets(&house, &mut job.floors(), &choices);
        let said = |scene: &Scene| -> Vec<String> {
            texts(&scene.items).iter().map(|text| text.content.clone()).collect()
        };
        let heading = format!("amounts in {}", job.plan.prices.currency);
        let pages =
            sheets.iter().map(|scene| said(scene).iter().filter(|it| **it == heading).count());
        assert_eq!(pages.sum::<usize>(), 1, "{}: one heading, not repeated on a page", job.name);
        seen += 1;
    }
    assert!(seen > 0, "a job with something optional");
}

/// Also where a full draft is drawn so small that labels find little room.
#[test]
fn names_of_rooms_stay_clear_of_labels() {
    let options = DraftOptions { standard: Standard::Generous, ..DraftOptions::default() };
    let mut names = 0;
    for (layout, text) in ours() {
        let drafted = draft(read(&text).0, &RuleBook::shipped(), &options).unwrap();
        let job = job_of(layout, drafted.plan);
        for level in job.plan.levels.keys() {
            let small = FloorOptions { scale: Scale::one_to(100), ..FloorOptions::of(*level) };
            let Ok(scene) = floor_sheet(
                &House::new(&job.plan, &job.runs, &job.lengths, local(&job.plan)),
                &small,
            ) else {
                continue;
            };
            let letters_on = |layer: Layer| -> Vec<(String, Rect)> {
                let groups = on_layer(&scene, layer).into_iter();
                let texts = groups.flat_map(|group| texts(&group.items));
                texts.map(|text| (text.content.clone(), letters(text))).collect()
            };
            let labels = letters_on(Layer::Labels);
            for (name, room) in letters_on(Layer::Rooms) {
                names += 1;
                for (label, at) in &labels {
                    let apart = !overlap(room, *at);
                    assert!(apart, "{} {level}: {label} lies over {name}", job.name);
                }
            }
        }
    }
    assert!(names > 20, "{names} names of rooms");
}

/// The mark of a board stands clear of cables, of which most end there.
#[test]
fn marks_of_boards_are_crossed_by_no_cable() {
    for job in jobs() {
        for level in job.plan.levels.keys() {
            let whole = FloorOptions::of(*level);
            let scene = floor_sheet(
                &House::new(&job.plan, &job.runs, &job.lengths, local(&job.plan)),
                &whole,
            )
            .unwrap();
            let mut cables: Vec<kurbo::Point> = Vec::new();
            for path in on_layer(&scene, Layer::Runs).iter().flat_map(|one| paths(&one.items)) {
                kurbo::flatten(path, 0.1, |element| {
                    let last = cables.last().copied();
                    if let (kurbo::PathEl::LineTo(to), Some(from)) = (element, last) {
                        let steps = (1..=40).map(|step| from.lerp(to, f64::from(step) / 40.0));
                        cables.extend(steps);
                    }
                    cables.extend(element.end_point());
                });
            }
            let groups = on_layer(&scene, Layer::Labels).into_iter();
            for board in groups.filter(|one| matches!(one.subject, Some(Subject::Board(_)))) {
                for text in texts(&board.items) {
                    let at = letters(text).inset(-0.2);
                    let crossed = cables.iter().any(|place| at.contains(*place));
                    assert!(!crossed, "{} {level}: a cable over {}", job.name, text.content);
                }
            }
        }
    }
}

/// The paths of items, those of groups in them too.
fn paths(items: &[Item]) -> Vec<&kurbo::BezPath> {
    let mut all = Vec::new();
    for item in items {
        match item {
            Item::Path(mark) => all.push(&mark.path),
            Item::Group(group) => all.extend(paths(&group.items)),
            Item::Text(_) => {}
        }
    }
    all
}

/// A narrow house with all its notes beside it, dimension lines and all.
#[test]
fn a_terrace_house_fits_on_a3() {
    let job = jobs().iter().find(|job| job.name == "terrace").unwrap();
    let level = FloorOptions::of(*job.plan.levels.keys().next().unwrap());
    let scene =
        floor_sheet(&House::new(&job.plan, &job.runs, &job.lengths, local(&job.plan)), &level)
            .unwrap();
    assert_eq!(scene.page.paper, PaperSize::A3, "at {:?}", scene.scale);
    assert_eq!(scene.scale, Scale::one_to(50), "no smaller than usual");
    assert!(on_layer(&scene, Layer::Dimensions).len() > 1, "with its dimension lines");
}

/// A floor sheet tells of the circuits that it shows something of, and of those
/// that have no place yet.
#[test]
fn a_sheet_lists_the_circuits_of_its_level() {
    let mut left_out = 0;
    for job in jobs() {
        for level in job.plan.levels.keys() {
            let scene = job.floors().sheet(&FloorOptions::of(*level)).unwrap();
            let shown = subjects(&scene.items);
            let notes = on_layer(&scene, Layer::Notes);
            let said: String = notes
                .iter()
                .flat_map(|group| texts(&group.items))
                .map(|text| format!("{} ", text.content))
                .collect();
            for (id, circuit) in &job.plan.circuits {
                let own = job.plan.points.iter().filter(|(_, point)| point.circuit == Some(*id));
                let own: Vec<_> = own.collect();
                let is_here = own.iter().any(|(point, _)| shown.contains(&Subject::Point(**point)))
                    || shown
                        .iter()
                        .any(|one| matches!(one, Subject::Leg { circuit, .. } if circuit == id));
                let is_nowhere = own.iter().all(|(_, point)| point.place.is_none());
                let is_told = said.contains(&circuit.name);
                assert_eq!(is_told, is_here || is_nowhere, "{}: {level} {id}", job.name);
                left_out += usize::from(!is_told);
            }
        }
    }
    assert!(left_out > 0, "a fixture has a circuit that leaves a level alone");
}

/// The stretch where a cable can carry least is a band under it, told in the
/// legend, on the sheet of every circuit that has one.
#[test]
fn the_worst_stretch_of_a_circuit_is_marked() {
    let job = &jobs()[0];
    let checked = check(&job.plan, &job.runs, &job.lengths, &RuleBook::shipped());
    let mut floors = job.floors().marking(&checked);
    let level = *job.plan.levels.keys().next().unwrap();
    let mut marked = 0;
    for (id, figures) in &checked.circuits {
        let options = FloorOptions { circuit: Some(*id), ..FloorOptions::of(level) };
        let plain = floor_sheet(
            &House::new(&job.plan, &job.runs, &job.lengths, local(&job.plan)),
            &options,
        )
        .unwrap();
        let scene = floors.sheet(&options).unwrap();
        let told = |scene: &Scene| {
            let said: Vec<&str> =
                texts(&scene.items).iter().map(|text| text.content.as_str()).collect();
            said.join(" ").contains("can carry least here")
        };
        assert!(!told(&plain), "{id}: nothing to tell without figures");
        assert_eq!(told(&scene), figures.governing.is_some(), "{id}");
        marked += usize::from(told(&scene));
    }
    assert!(marked > 5, "only {marked} circuits have figures");
}

/// The dimension lines of a house of 12.6 by 8 m between centre lines, walls
/// 250 thick, worked out by hand: the whole, and the rooms from the foot.
#[test]
fn dimension_lines_give_the_whole_and_the_rooms() {
    let job = jobs().iter().find(|job| job.name == "cottage").unwrap();
    let level = *job.plan.levels.keys().next().unwrap();
    let options = FloorOptions::of(level);
    let scene =
        floor_sheet(&House::new(&job.plan, &job.runs, &job.lengths, local(&job.plan)), &options)
            .unwrap();
    let said: Vec<&str> = figures(&scene);
    for figure in ["12.85", "8.25", "4.62", "1.34", "2.79", "3.27"] {
        assert!(said.contains(&figure), "{figure} in {said:?}");
    }
}

fn figures(scene: &Scene) -> Vec<&str> {
    let of_layer = on_layer(scene, Layer::Dimensions).into_iter();
    of_layer.flat_map(|group| texts(&group.items)).map(|text| text.content.as_str()).collect()
}

/// The terrace's rear wall is skew: every dimension line keeps clear of all
/// walls, and its two rear rooms are measured between their walls.
#[test]
fn dimension_lines_keep_clear_of_a_skew_wall() {
    let job = jobs().iter().find(|job| job.name == "terrace").unwrap();
    let level = *job.plan.levels.keys().next().unwrap();
    let options = FloorOptions::of(level);
    let scene =
        floor_sheet(&House::new(&job.plan, &job.runs, &job.lengths, local(&job.plan)), &options)
            .unwrap();
    let walls = on_layer(&scene, Layer::Walls).into_iter().flat_map(|group| &group.items);
    let walls = walls.filter_map(Item::bounds).reduce(|all, one| all.union(one)).unwrap();
    let lines = on_layer(&scene, Layer::Dimensions);
    assert!(lines.len() >= 5, "a chain on every side");
    for line in lines {
        let around = line.items.iter().filter_map(Item::bounds).reduce(|all, one| all.union(one));
        let around = around.unwrap();
        assert!(!overlap(around, walls), "{around:?} runs into {walls:?}");
    }
    let said = figures(&scene);
    for room in ["Kitchen", "Laundry"] {
        let room = job.plan.rooms.values().find(|one| one.name == room).unwrap();
        let xs = || room.outline.iter().map(|at| at.x);
        let wide = xs().max().unwrap() - xs().min().unwrap();
        let wide = format!("{:.2}", wide.metres());
        assert!(said.contains(&wide.as_str()), "{}: {wide} in {said:?}", room.name);
    }
}

/// Whose rules the papers follow: what the command line says goes before the
/// plan, and one's own row before the shipped one.
#[test]
fn the_command_line_chooses_the_rules_of_the_papers() {
    let folder = Folder::new("papers-rules");
    let own = folder.path().join("rules/iec");
    std::fs::create_dir_all(&own).unwrap();
    let row = "type,multiple,time_ms,source,grade,note\ngeneral,1,123,invented for a test,C,\n";
    std::fs::write(own.join("residual_trip_time.csv"), row).unwrap();
    let rules = folder.path().join("rules");
    let plan = crate::fixtures::folder().join("flat.wend");
    let written = |more: &[&str]| -> String {
        let to = folder.path().join("out");
        let mut all =
            vec!["papers", plan.to_str().unwrap(), "--to", to.to_str().unwrap(), "--only", "tests"];
        all.extend(more);
        let (done, said) = wirewend(&all);
        assert!(done, "{said}");
        std::fs::read_to_string(to.join("tests-1.svg")).unwrap()
    };
    let (plain, bs) = (written(&[]), written(&["--regime", "bs"]));
    assert!(plain.contains("IEC 60364") && !plain.contains("BS 7671"), "as the plan says");
    assert!(bs.contains("BS 7671") && !bs.contains("IEC 60364"), "as the command says");
    let mine = written(&["--rules", rules.to_str().unwrap()]);
    assert!(plain.contains("≤ 300") && !plain.contains("≤ 123"), "the shipped row");
    assert!(mine.contains("≤ 123") && !mine.contains("≤ 300"), "one's own row");
    let nowhere = folder.path().join("nowhere");
    let wrong = [["--regime", "mars"], ["--rules", nowhere.to_str().unwrap()]];
    for more in wrong {
        let to = folder.path().join("never");
        let mut all = vec!["papers", plan.to_str().unwrap(), "--to", to.to_str().unwrap()];
        all.extend(more);
        let (done, said) = wirewend(&all);
        assert!(!done && said.contains(more[1]), "{said}");
        assert!(!to.exists(), "nothing is written");
    }
}

//! The floor sheet.

use wirewend::sheet::{FloorOptions, floor_sheet, svg};

use crate::sheet_sample::{GROUND, house};

#[test]
fn picture() {
    let sample = house();
    let options = FloorOptions::of(GROUND);
    let scene = floor_sheet(&sample.plan, &sample.runs, &sample.lengths, &options).unwrap();
    if let Ok(folder) = std::env::var("PICTURES") {
        std::fs::write(format!("{folder}/house.svg"), svg(&scene)).unwrap();
    }
}

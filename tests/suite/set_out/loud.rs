//! The judge is loud: what is 5 mm off is told.

use wirewend::sheet::set_out_rows;
use wirewend::units::Mm;

use super::outline::Outlines;
use super::{Job, judge};
use crate::fixtures;

#[test]
fn a_figure_that_is_five_millimetres_off_is_told() {
    let job = Job::of(fixtures::house("cottage"));
    let house = job.house();
    let outlines = Outlines::of(&job.plan);
    let rows = set_out_rows(&house);
    assert!(rows.len() > 100, "{} rows", rows.len());
    for row in &rows {
        assert_eq!(judge::complaint(&job, &outlines, row), None, "as it is");
        for by in [-5, 5] {
            let mut wrong = row.clone();
            wrong.distance = row.distance + Mm::new(by);
            wrong.to = row.to.map(|(along, up)| (along + Mm::new(by), up));
            let told = judge::complaint(&job, &outlines, &wrong);
            assert!(told.is_some(), "silent about {wrong:?}");
        }
    }
}

#[test]
fn a_wall_that_is_ten_millimetres_thicker_is_told() {
    let job = Job::of(fixtures::house("cottage"));
    let mut other = Job::of(fixtures::house("cottage"));
    for wall in other.plan.walls.values_mut() {
        wall.thickness += Mm::new(10);
    }
    let outlines = Outlines::of(&other.plan);
    let house = job.house();
    let rows = set_out_rows(&house);
    let told = rows.iter().filter(|row| judge::complaint(&other, &outlines, row).is_some()).count();
    assert!(told * 2 > rows.len(), "{told} of {} rows", rows.len());
}

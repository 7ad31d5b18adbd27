//! Which scales and papers a floor sheet tries.

use super::{FloorOptions, Job, rooms};
use crate::sheet::{Orientation, Page, PaperSize, Scale};

/// More points than this for each m² of rooms, and a scale of 1:100 has no room
/// for their marks: a mark with its line takes up to a cm² of paper.
const CROWDED: f64 = 0.5;

/// Scales and papers to try, the most welcome first: 1:50 up to A2, on any
/// paper where smaller scales would be crowded, else those from A3 up; larger
/// ones only when asked for. Each lies on its side, or else stands upright.
pub(super) fn settings(options: &FloorOptions, crowded: bool) -> Vec<(Scale, Page)> {
    let steps = Scale::STEPS.into_iter().filter(|step| step.reduction() >= 50);
    let scales: Vec<Scale> = options.scale.map_or_else(|| steps.collect(), |one| vec![one]);
    let mut settings = Vec::new();
    for scale in scales {
        for paper in PaperSize::ALL {
            let usual = options.scale.is_some()
                || match scale.reduction() {
                    50 => crowded || paper <= PaperSize::A2,
                    100 => (PaperSize::A3..=PaperSize::A1).contains(&paper),
                    _ => paper >= PaperSize::A3,
                };
            if options.paper.map_or(usual, |one| one == paper) {
                settings.push((scale, Page::landscape(paper)));
                settings.push((scale, Page { paper, orientation: Orientation::Portrait }));
            }
        }
    }
    settings
}

impl Job<'_> {
    /// Whether the marks of its points would crowd a sheet at 1:100.
    pub(super) fn is_crowded(&self) -> bool {
        let level = Some(self.options.level);
        let only = self.options.circuit;
        let points = self.plan.points.values().filter(|point| {
            point.place.is_some_and(|place| self.plan.level_of(&place) == level)
                && (only.is_none() || point.circuit == only)
        });
        let rooms = self.plan.rooms.values().filter(|room| Some(room.level) == level);
        let area: f64 = rooms.map(rooms::area).sum();
        let count = u32::try_from(points.count()).map_or(f64::INFINITY, f64::from);
        area > 0.0 && count > CROWDED * area
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::LevelId;

    /// A crowded level takes the largest paper at 1:50 before a smaller scale.
    #[test]
    fn crowded_levels_keep_their_scale() {
        let options = FloorOptions::of(LevelId(1));
        let at_50 = |crowded: bool| {
            let fifty = |one: &&(Scale, Page)| one.0.reduction() == 50;
            let all = settings(&options, crowded);
            all.iter().take_while(fifty).map(|one| one.1.paper).max()
        };
        assert_eq!(at_50(false), Some(PaperSize::A2), "as usual");
        assert_eq!(at_50(true), Some(PaperSize::A0), "the largest there is");
    }
}

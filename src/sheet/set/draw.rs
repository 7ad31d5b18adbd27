//! Each paper of a set drawn.

use super::drawing::Drawing;
use super::floors::floor_sheets;
use super::names::{file_part, numbered};
use super::{Measured, Paper, Sheet};
use crate::checks::{ExpectedTests, expected_tests};
use crate::sheet::{
    Scene, board_charts, concealed_sheets, costing_of_change, costing_sheets, cut_cards,
    elevations, isometric, order_list, quote_page, quote_sheets, run_strips, test_sheets,
    variation_sheets,
};

/// What is drawn already.
#[derive(Default)]
pub(super) struct Drawn {
    pub(super) set: Vec<Sheet>,
    pub(super) internal: Vec<Sheet>,
    pub(super) page: Option<String>,
}

impl Drawing<'_> {
    /// The papers, in the order given. None where the watch stopped it.
    pub(super) fn all(&mut self, papers: &[Paper]) -> Option<Drawn> {
        let mut drawn = Drawn::default();
        for paper in papers {
            self.watch.step();
            if self.watch.is_stopped() {
                return None;
            }
            self.add(*paper, &mut drawn);
        }
        Some(drawn)
    }

    fn add(&mut self, paper: Paper, drawn: &mut Drawn) {
        match paper {
            Paper::Floors => drawn.set.extend(floor_sheets(self, paper, false)),
            Paper::Circuits => drawn.set.extend(floor_sheets(self, paper, true)),
            Paper::Isometric => drawn.set.extend(self.isometric()),
            Paper::Page => drawn.page = Some(self.page()),
            Paper::Costing => drawn.internal.extend(sheets(paper, self.costing())),
            Paper::Variation => drawn.set.extend(sheets(paper, self.variation())),
            Paper::Quote => {
                let scenes = quote_sheets(&self.house, &mut self.floors, &self.client);
                drawn.set.extend(sheets(paper, scenes));
            }
            Paper::Elevations => drawn.set.extend(sheets(paper, elevations(&self.house))),
            Paper::Strips => drawn.set.extend(sheets(paper, run_strips(&self.house))),
            Paper::Cards => {
                drawn.set.extend(sheets(paper, cut_cards(&self.house, &self.take_off.cuts)));
            }
            Paper::Order => drawn.set.extend(sheets(paper, order_list(&self.house, self.take_off))),
            Paper::Board => drawn.set.extend(sheets(paper, board_charts(&self.house))),
            Paper::Tests => {
                drawn.set.extend(sheets(paper, test_sheets(&self.house, self.tests())));
            }
            Paper::Concealed => drawn.set.extend(sheets(paper, concealed_sheets(&self.house))),
        }
    }

    /// What is to be expected of every test.
    pub(super) fn tests(&self) -> &ExpectedTests {
        let Measured { plan, runs, lengths } = self.job;
        self.tests.get_or_init(|| expected_tests(plan, runs, lengths, self.book))
    }

    /// A sheet for each circuit that has a way to show.
    fn isometric(&self) -> Vec<Sheet> {
        let circuits = self.job.plan.circuits.iter();
        let drawn = circuits.filter_map(|(id, circuit)| {
            let number = file_part(&self.house.marks.number(circuit));
            let name = format!("{}-{number}", Paper::Isometric.name());
            let scene = isometric(&self.house, *id)?;
            Some(Sheet { paper: Paper::Isometric, name, scene })
        });
        drawn.collect()
    }

    fn page(&mut self) -> String {
        quote_page(&self.house, &mut self.floors, &self.take_off.materials, &self.client)
    }

    /// The costing, and that of what changed.
    fn costing(&self) -> Vec<Scene> {
        let mut scenes = costing_sheets(&self.house, &self.take_off.quote, self.choices);
        if let Some((before, changes)) = &self.changes {
            scenes.extend(costing_of_change(before.plan, &self.house, changes));
        }
        scenes
    }

    fn variation(&self) -> Vec<Scene> {
        self.changes.as_ref().map_or_else(Vec::new, |(before, changes)| {
            variation_sheets(before.plan, &self.house, &changes.for_client())
        })
    }
}

/// Sheets of one paper, named after it and numbered.
fn sheets(paper: Paper, scenes: Vec<Scene>) -> Vec<Sheet> {
    let unnamed = |scene| Sheet { paper, name: String::new(), scene };
    let mut sheets: Vec<Sheet> = scenes.into_iter().map(unnamed).collect();
    numbered(paper.name(), &mut sheets);
    sheets
}

//! What may be asked of a draft, and what must be told about a drawing.

use wirewend::draft::{Above, BoardPlace, DraftOptions, Standard, Wayfare};
use wirewend::plan::Regime;
use wirewend::store::{ImportOptions, LengthUnit};
use wirewend::units::Mm;

/// What may be asked of a draft.
#[derive(clap::Args)]
pub(super) struct Asked {
    /// Whose rules: as-nzs, bs or iec. Without it, as the plan says.
    #[arg(long, value_name = "NAME")]
    regime: Option<Regime>,
    /// How much of everything: basic, good or generous.
    #[arg(long, default_value = "good", value_parser = standard)]
    standard: Standard,
    /// Where cables run: mixed, overhead or underfloor.
    #[arg(long, default_value = "mixed", value_parser = way)]
    way: Wayfare,
    /// The board's room by id or name, and if wanted a side of it or a wall:
    /// Hall, Hall/north, Hall/W12. Without it, by the entrance.
    #[arg(long, value_name = "ROOM/PLACE")]
    board: Option<BoardPlace>,
    /// What lies over levels that name no void: voids, concrete-floors
    /// (with a roof space on top) or concrete.
    #[arg(long, default_value = "voids", value_parser = above)]
    above: Above,
}

impl Asked {
    pub(super) fn options(self) -> DraftOptions {
        let Self { regime, standard, way, board, above } = self;
        DraftOptions { regime, standard, way, board, above }
    }
}

/// What a drawing does not say.
#[derive(clap::Args)]
pub(super) struct OfDrawing {
    /// The unit of a drawing's numbers: mm, cm, m, in or ft.
    #[arg(long)]
    unit: Option<LengthUnit>,
    /// The scale to which a drawing's numbers are reduced: 50 or 1:50 for a
    /// drawing in paper measure. With --unit, or else in mm of paper.
    #[arg(long, value_name = "1:N", value_parser = scale)]
    scale: Option<u32>,
    /// The layers of a drawing that hold its walls, with commas between.
    #[arg(long, value_delimiter = ',')]
    layers: Vec<String>,
    /// Every line of a wall that has no second line beside it is a wall so
    /// thick, mm. Without it, only where most walls are drawn as one line.
    #[arg(long, value_name = "MM", value_parser = clap::value_parser!(i64).range(20..=1000))]
    single_line: Option<i64>,
    /// Floor to ceiling where a drawing shows no heights, mm.
    #[arg(long, value_name = "MM", value_parser = clap::value_parser!(i64).range(300..=100_000))]
    level_height: Option<i64>,
}

impl OfDrawing {
    pub(super) fn options(self) -> ImportOptions {
        let standard = ImportOptions::default();
        let level_height = self.level_height.map_or(standard.level_height, Mm::new);
        let Self { unit, scale, layers, single_line, .. } = self;
        let single_line = single_line.map(Mm::new);
        ImportOptions { unit, scale, layers, single_line, level_height, ..standard }
    }
}

/// How wide an open corner may be that is closed, mm.
pub(super) fn gap() -> clap::builder::RangedI64ValueParser {
    clap::value_parser!(i64).range(5..=400)
}

fn scale(text: &str) -> Result<u32, String> {
    let number = text.strip_prefix("1:").unwrap_or(text).parse().ok();
    number
        .filter(|number| (1..=10_000).contains(number))
        .ok_or_else(|| "expected 1:50 or 50; 10000 at most".to_owned())
}

fn standard(text: &str) -> Result<Standard, String> {
    let all = [Standard::Basic, Standard::Good, Standard::Generous];
    one_of(text, &all.map(|standard| (standard.key(), standard)))
}

fn way(text: &str) -> Result<Wayfare, String> {
    let all = [Wayfare::Mixed, Wayfare::Overhead, Wayfare::Underfloor];
    one_of(text, &[("mixed", all[0]), ("overhead", all[1]), ("underfloor", all[2])])
}

fn above(text: &str) -> Result<Above, String> {
    let all = [Above::Voids, Above::ConcreteFloors, Above::Concrete];
    one_of(text, &[("voids", all[0]), ("concrete-floors", all[1]), ("concrete", all[2])])
}

fn one_of<T: Copy>(text: &str, all: &[(&str, T)]) -> Result<T, String> {
    let names = || all.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(", ");
    let found = all.iter().find(|(name, _)| *name == text).map(|(_, value)| *value);
    found.ok_or_else(|| format!("expected one of {}", names()))
}

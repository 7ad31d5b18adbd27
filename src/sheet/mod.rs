//! Drawings: a scene in paper millimetres, and files from it.
//!
//! The front doors are [`floor_sheet`] and [`svg()`]. A sheet is a pure function
//! of the plan and of what the rooms above made of it; the scene is the one
//! description of every mark, for files and for the window alike. [`Papers`] is
//! the whole set of a job, and the one place here that asks the rules; nothing
//! here computes anything about cables.

mod booklet;
mod cautions;
mod clear;
mod digits;
mod dxf;
mod faults;
mod floor;
mod frame;
mod gallery;
mod house;
mod html;
mod lettering;
mod lists;
mod numbered;
mod page;
mod palette;
mod panel;
mod papers;
mod pdf;
mod pen;
mod png;
mod scale;
mod scene;
mod set;
mod stated;
mod svg;
mod symbols;
mod table;
mod title_block;
mod wall_view;

pub use dxf::dxf;
pub use faults::{faults_in_words, say_faults};
pub use floor::{FloorOptions, Floors, SheetError, bare_floor, circuit_line, floor_sheet};
pub use house::House;
pub use lettering::{BOLD, Lettering, REGULAR, SIGNS, Weight, has_sign, text_width};
pub use lists::{
    List, Value, cable_list, csv, cut_list, point_list, reading_list, set_out_list, workbook,
};
pub use numbered::number_sheets;
pub use page::{Orientation, Page, PaperSize};
pub use palette::{CIRCUIT_INKS, Ink};
pub use papers::{
    LegWords, board_charts, concealed_sheets, costing_of_change, costing_sheets, cut_cards,
    edge_words, elevations, isometric, leg_words, order_list, quote_page, quote_sheets, run_strip,
    run_strips, test_sheets, variation_sheets,
};
pub use pdf::pdf;
pub use png::png;
pub use scale::Scale;
pub use scene::{Anchor, Group, Item, Layer, LinePattern, Mark, Scene, Stroke, Text, bounds};
pub use set::{Contents, Measured, Paper, PaperFile, Papers, Sheet};
pub use stated::state_sheets;
pub(crate) use svg::fragment;
pub use svg::{FONT_FAMILY, number, subject_key, svg};
pub use symbols::{Duty, MODULE, Sign, Symbol};
pub use wall_view::{
    BoxOn, CableIn, KEEP_OFF, Marked, OpeningIn, SetOutRow, WallView, set_out_rows, wall_views,
};

//! Drawings: a scene in paper millimetres, and SVG from it.
//!
//! The front doors are [`floor_sheet`] and [`svg()`]. A sheet is a pure function
//! of the plan and of what the rooms above made of it; the scene is the one
//! description of every mark, for files and for the window alike. This room
//! knows no rules and computes nothing about cables.

mod cautions;
mod floor;
mod frame;
mod lettering;
mod page;
mod palette;
mod panel;
mod pen;
mod scale;
mod scene;
mod svg;
mod symbols;
mod title_block;

pub use floor::{FloorOptions, SheetError, bare_floor, circuit_line, floor_sheet};
pub use lettering::{BOLD, Lettering, REGULAR, SIGNS, Weight, has_sign, text_width};
pub use page::{Orientation, Page, Paper};
pub use palette::{CIRCUIT_INKS, Ink};
pub use scale::Scale;
pub use scene::{Anchor, Group, Item, Layer, LinePattern, Mark, Scene, Stroke, Text, bounds};
pub use svg::{FONT_FAMILY, number, subject_key, svg};
pub use symbols::{Duty, MODULE, Sign, Symbol};

//! The papers of a job, beside its floor sheets.

mod board_chart;
mod client_price;
mod costing;
mod cut_cards;
mod cut_order;
mod elevations;
mod isometric;
mod opened_walls;
mod order_list;
mod quote;
mod quote_page;
mod strips;
mod test_sheet;
mod variation;
mod words;

pub use board_chart::board_charts;
pub use costing::{costing_of_change, costing_sheets};
pub use cut_cards::cut_cards;
pub(crate) use cut_cards::label_text;
pub(crate) use cut_order::{Ordered, in_order, to_buy};
pub use elevations::{concealed_sheets, elevations};
pub use isometric::isometric;
pub use order_list::order_list;
pub use quote::quote_sheets;
pub use quote_page::quote_page;
pub use strips::{run_strip, run_strips};
pub use test_sheet::test_sheets;
pub use variation::variation_sheets;
pub use words::{LegWords, edge_words, leg_words};
pub(crate) use words::{build as build_words, way};

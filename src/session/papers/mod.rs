//! Papers that go out.

mod export;

pub use export::{Export, Exported, folder};

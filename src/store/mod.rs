//! Plan files and other layouts.

mod layout;

pub use layout::{
    LAYOUT_BYTES_MAX, LAYOUT_PARTS_MAX, LayoutError, LayoutNote, LayoutOptions, LayoutReport,
    NoteKind, read_layout,
};

//! Plan files: read, check and write them, and the schema they follow.
//!
//! A `.wend` file is JSON: `{"wirewend": 1, …the plan's own fields}`. Everything
//! that can be pointed at stands on one line under its id, so that two
//! revisions can be compared line by line. A bad file gets one error that says
//! where and what; nothing is guessed and nothing is left out silently.

mod backdrop;
mod decode;
mod error;
mod fault;
mod files;
mod import;
mod journal;
mod layout;
mod node;
mod own_rules;
mod read;
mod scan;
mod schema;
mod site;
mod write;

pub use backdrop::{backdrop_name, backdrop_path, missing_backdrops};
pub use error::{Problem, ReadError};
pub use files::{
    Disk, FolderError, FolderWritten, Known, Manner, OWN_LIST, OwnFolder, Replace, SystemDisk,
    Thing, WriteError, WriteProblem, Written, fill_folder, free_name, look, name_of, put,
};
pub use import::{
    Found, IMPORT_BYTES_MAX, Import, ImportError, ImportForm, ImportOptions, ImportProblem,
    ImportReport, LengthUnit, import, import_file, import_watched,
};
pub use journal::{Entry, Journal, JournalError, Noted, Replayed};
pub use layout::{
    LAYOUT_BYTES_MAX, LAYOUT_PARTS_MAX, LayoutError, LayoutNote, LayoutOptions, LayoutReport,
    NoteKind, read_layout,
};
pub use own_rules::{OwnRulesError, read_rules};
pub use read::{FILE_BYTES_MAX, read, read_file, read_known};
pub use schema::schema;
pub use site::{
    Filled, LIST_BYTES_MAX, ListError, MEASURED_COLUMNS, READING_COLUMNS, RowError, read_day,
    read_length, read_measured, read_reading, read_readings,
};
pub use write::{save, write, write_file};

/// The version of the file layout that this room reads and writes.
pub const VERSION: u32 = 1;
/// The key under which a plan file states its version.
pub const VERSION_KEY: &str = "wirewend";

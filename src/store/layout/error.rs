//! Why a layout is not read, and the most that is.

/// The largest layout that is read, bytes.
pub const LAYOUT_BYTES_MAX: usize = 16 * 1024 * 1024;
/// The most walls, openings, rooms and fixtures together that are read: every wall is
/// held against every other of its level, so time grows with the square.
pub const LAYOUT_PARTS_MAX: usize = 10_000;

/// A layout that could not be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum LayoutError {
    /// More bytes than [`LAYOUT_BYTES_MAX`].
    #[error("a layout of {bytes} bytes; the most is {LAYOUT_BYTES_MAX}")]
    TooLarge {
        /// How many there are.
        bytes: usize,
    },
    /// Not JSON, or not the form of a layout.
    #[error("line {line}, column {column}, at \"{part}\": {problem}")]
    Form {
        /// From 1.
        line: usize,
        /// From 1.
        column: usize,
        /// The part of the layout that was being read.
        part: String,
        /// What is wrong with it.
        problem: String,
    },
    /// Lengths that are not in metres.
    #[error("lengths are in \"{found}\"; a layout has them in \"m\"")]
    Units {
        /// What it says.
        found: String,
    },
    /// No level at all.
    #[error("a layout has at least one level; this one has none")]
    NoLevel,
    /// More parts than [`LAYOUT_PARTS_MAX`].
    #[error("{parts} walls, openings, rooms and fixtures; the most is {LAYOUT_PARTS_MAX}")]
    TooMany {
        /// How many there are.
        parts: usize,
    },
}

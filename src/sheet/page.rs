//! Paper sizes and the space inside the frame.

use kurbo::Rect;

/// Trimmed sizes of the ISO A series, ISO 216.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[expect(missing_docs, reason = "named as in ISO 216")]
pub enum PaperSize {
    A4,
    A3,
    A2,
    A1,
    A0,
}

impl PaperSize {
    /// All of them, smallest first.
    pub const ALL: [Self; 5] = [Self::A4, Self::A3, Self::A2, Self::A1, Self::A0];

    /// Short and long side, mm, ISO 216.
    #[must_use]
    pub const fn sides(self) -> (f64, f64) {
        match self {
            Self::A4 => (210.0, 297.0),
            Self::A3 => (297.0, 420.0),
            Self::A2 => (420.0, 594.0),
            Self::A1 => (594.0, 841.0),
            Self::A0 => (841.0, 1189.0),
        }
    }

    /// What it is called.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::A3 => "A3",
            Self::A2 => "A2",
            Self::A1 => "A1",
            Self::A0 => "A0",
        }
    }
}

/// Which way a sheet lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Orientation {
    /// Upright.
    Portrait,
    /// On its side.
    Landscape,
}

/// A sheet of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Page {
    /// Its size.
    pub paper: PaperSize,
    /// Which way it lies.
    pub orientation: Orientation,
}

impl Page {
    /// A sheet on its side.
    #[must_use]
    pub const fn landscape(paper: PaperSize) -> Self {
        Self { paper, orientation: Orientation::Landscape }
    }

    /// Width and height, mm.
    #[must_use]
    pub const fn size(self) -> (f64, f64) {
        let (short, long) = self.paper.sides();
        match self.orientation {
            Orientation::Portrait => (short, long),
            Orientation::Landscape => (long, short),
        }
    }

    /// The space inside the frame: 20 mm left for filing, 10 mm elsewhere
    /// (ISO 5457, from memory).
    #[must_use]
    pub const fn frame(self) -> Rect {
        let (width, height) = self.size();
        Rect::new(20.0, 10.0, width - 10.0, height - 10.0)
    }
}

//! Which papers a job has.

/// A paper of the job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Paper {
    /// What changed since an earlier revision, in words and in the price.
    Variation,
    /// What would be done, room by room, and what it costs: for the client.
    Quote,
    /// Each level with all its circuits.
    Floors,
    /// Each level once more for each circuit that has something there.
    Circuits,
    /// Walls from the front: what is to be set out, and what is hidden in them.
    Elevations,
    /// Each circuit as it runs through the house.
    Isometric,
    /// Each leg unrolled, with its heights.
    Strips,
    /// What to cut from which drum, and what to write on the ends.
    Cards,
    /// What to buy.
    Order,
    /// What stands in each board.
    Board,
    /// What to expect of each test, and what was read.
    Tests,
    /// Where not to drill: cables behind finished faces.
    Concealed,
    /// The quote as a page for a telephone.
    Page,
    /// What it costs the contractor. It is not for the client: it goes into
    /// files of its own, whose names say so, and is no part of the set's PDF.
    Costing,
}

impl Paper {
    /// All of them, in the order of the set.
    pub const ALL: [Self; 14] = [
        Self::Variation,
        Self::Quote,
        Self::Floors,
        Self::Circuits,
        Self::Elevations,
        Self::Isometric,
        Self::Strips,
        Self::Cards,
        Self::Order,
        Self::Board,
        Self::Tests,
        Self::Concealed,
        Self::Page,
        Self::Costing,
    ];

    /// Its name: what it is asked for by, and how its files are called.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Variation => "variation",
            Self::Quote => "quote",
            Self::Floors => "floors",
            Self::Circuits => "circuits",
            Self::Elevations => "elevations",
            Self::Isometric => "isometric",
            Self::Strips => "strips",
            Self::Cards => "cards",
            Self::Order => "order",
            Self::Board => "board",
            Self::Tests => "tests",
            Self::Concealed => "concealed",
            Self::Page => "page",
            Self::Costing => "costing",
        }
    }

    /// Whether it is drawn when it is asked for by name. What changed needs an
    /// earlier revision, and comes with that.
    #[must_use]
    pub const fn is_asked_for(self) -> bool {
        !matches!(self, Self::Variation)
    }

    /// Those that can be asked for by name, in the order of the set.
    pub fn choices() -> impl Iterator<Item = Self> {
        Self::ALL.into_iter().filter(|paper| paper.is_asked_for())
    }

    /// The paper that is asked for by a name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::choices().find(|paper| paper.name() == name)
    }

    /// Whether its sheets are drawn to scale on plan, so that they go out as
    /// drawing exchange files as well.
    #[must_use]
    pub const fn is_floor(self) -> bool {
        matches!(self, Self::Floors | Self::Circuits)
    }

    /// Whether the quote's price and choices stand on it.
    pub(super) const fn is_priced(self) -> bool {
        matches!(self, Self::Quote | Self::Page | Self::Costing)
    }
}

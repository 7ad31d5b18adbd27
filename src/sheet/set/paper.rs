//! Which papers there are.

/// A paper that a plan has. The order is that of the set.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Paper {
    /// The quote, and what walls are opened for.
    Quote,
    /// A floor sheet for each level.
    Floors,
    /// A floor sheet for each circuit and level where it has something.
    Circuits,
    /// Every wall that has something in it.
    Elevations,
    /// Each circuit in space.
    Isometric,
    /// Every leg rolled out.
    Strips,
    /// A card for every cut.
    Cards,
    /// What to order.
    Order,
    /// The chart at each board.
    Board,
    /// What to measure, and what is expected.
    Tests,
    /// Where not to drill.
    Concealed,
    /// The quote as a page for a telephone: no sheet of the set.
    Page,
    /// The costing. It is not for the client: it goes into files of its own,
    /// whose names say so, and is no part of `papers.pdf`.
    Costing,
}

impl Paper {
    /// All of them.
    pub const ALL: [Self; 13] = [
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

    /// What it is called in commands and in the names of files.
    pub const fn name(self) -> &'static str {
        match self {
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

    /// The paper that is called so.
    ///
    /// # Errors
    /// A text with the names that there are.
    pub fn named(name: &str) -> Result<Self, String> {
        Self::ALL.into_iter().find(|paper| paper.name() == name).ok_or_else(|| {
            let names = Self::ALL.map(Self::name).join(", ");
            format!("no paper \"{name}\"; there are {names}")
        })
    }

    /// Whether it is made of sheets that go to the client or the site.
    pub const fn is_in_set(self) -> bool {
        !matches!(self, Self::Page | Self::Costing)
    }
}

/// The papers that are wanted: those named, or all.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Wanted(Vec<Paper>);

impl Wanted {
    /// Those of these names; all where there is none.
    ///
    /// # Errors
    /// A text with the names that there are.
    pub fn named(names: &[String]) -> Result<Self, String> {
        names.iter().map(|name| Paper::named(name)).collect::<Result<_, _>>().map(Self)
    }

    /// Whether nothing is left out.
    pub const fn is_all(&self) -> bool {
        self.0.is_empty()
    }

    /// Whether a paper is wanted.
    pub fn has(&self, paper: Paper) -> bool {
        self.is_all() || self.0.contains(&paper)
    }

    /// The names in the order in which they were given.
    pub fn names(&self) -> Vec<&'static str> {
        self.0.iter().map(|paper| paper.name()).collect()
    }
}

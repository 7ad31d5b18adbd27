//! A page for every code.

/// What a code means, as people read it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Page {
    /// The code.
    pub code: &'static str,
    /// The page, in Markdown: what it looks at, why it matters, an example,
    /// the remedy, the source.
    pub text: &'static str,
}

macro_rules! pages {
    ($($code:literal),* $(,)?) => {
        &[$(Page { code: $code, text: include_str!(concat!("../../assets/codes/", $code, ".md")) }),*]
    };
}

/// Every code, with its page.
pub const CODES: &[Page] = pages![
    "appliance-shares-circuit",
    "board-ways",
    "cable-below-device",
    "cable-shallow",
    "circuit-unfinished",
    "cooktop-clearance",
    "demand",
    "device-below-load",
    "height",
    "joist-hole",
    "let-through",
    "lights-on-one-circuit",
    "load-unknown",
    "loop-impedance",
    "missing-picture",
    "odd-reading",
    "outside-zone",
    "phase-balance",
    "point-not-joined",
    "points-per-circuit",
    "rating-estimated",
    "residual-current",
    "residual-grouping",
    "sink-clearance",
    "terminal-crowded",
    "volt-drop",
    "wet-zone",
];

/// The page of a code; None for a code that no check uses.
#[must_use]
pub fn explain(code: &str) -> Option<Page> {
    CODES.iter().find(|page| page.code == code).copied()
}

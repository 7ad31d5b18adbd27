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
    "board-not-placed",
    "board-ways",
    "built-in-part",
    "cable-below-device",
    "cable-shallow",
    "circuit-unfinished",
    "circuit-without-board",
    "circuit-without-cable",
    "circuit-without-device",
    "circuit-without-points",
    "control-incomplete",
    "control-names-wrong-point",
    "control-without-lights",
    "control-without-switches",
    "cooktop-clearance",
    "demand",
    "device-below-load",
    "empty-stock",
    "height",
    "joist-hole",
    "leg-too-long",
    "let-through",
    "level-without-height",
    "light-in-several-controls",
    "light-without-switch",
    "lights-on-one-circuit",
    "load-unknown",
    "loop-impedance",
    "measured-differs",
    "measured-elsewhere",
    "missing-picture",
    "negative-allowance",
    "negative-load",
    "negative-tail",
    "no-level",
    "no-order",
    "no-price",
    "no-stock",
    "no-way",
    "not-behind-isolator",
    "odd-area-effect",
    "odd-measurement",
    "odd-reading",
    "odd-void-size",
    "open-corner",
    "opening-past-wall-end",
    "opening-past-wall-height",
    "opening-without-size",
    "openings-overlap",
    "order-names-stranger",
    "outline-crosses-itself",
    "outline-too-short",
    "outside-zone",
    "phase-balance",
    "phase-not-at-board",
    "pin-names-stranger",
    "place-in-corner",
    "place-in-opening",
    "place-on-screen",
    "place-past-height",
    "place-past-wall-end",
    "point-not-joined",
    "point-not-placed",
    "point-without-circuit",
    "point-without-gangs",
    "points-per-circuit",
    "rating-estimated",
    "residual-current",
    "residual-grouping",
    "riser-joins-too-few",
    "riser-outside",
    "room-without-name",
    "same-circuit-number",
    "same-label",
    "sink-clearance",
    "spur-names-stranger",
    "spur-not-hung",
    "stopped",
    "switch-without-control",
    "terminal-crowded",
    "too-few-gangs",
    "too-few-ways",
    "unknown-rules",
    "unplaced-board",
    "unplaced-point",
    "void-on-wrong-side",
    "void-without-level",
    "volt-drop",
    "wall-without-length",
    "wall-without-thickness",
    "wet-zone",
];

/// The page of a code; None for a code that no check uses.
#[must_use]
pub fn explain(code: &str) -> Option<Page> {
    CODES.iter().find(|page| page.code == code).copied()
}

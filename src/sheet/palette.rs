//! Colours.
//!
//! Circuits take theirs from the palette of Masataka Okabe and Kei Ito, "Color
//! Universal Design" (2008), which people with the common kinds of colour
//! blindness can tell apart. Its black is kept for the building and its yellow
//! is left out, being too pale for a thin line on white paper. A circuit is
//! never told by colour alone: its number and a mark along its line say the
//! same in grey.

/// A colour on white paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Ink {
    /// Red, 0 to 255.
    pub red: u8,
    /// Green, 0 to 255.
    pub green: u8,
    /// Blue, 0 to 255.
    pub blue: u8,
}

impl Ink {
    /// For the building and its lettering.
    pub const BLACK: Self = Self::of(0, 0, 0);
    /// For what steps back: other circuits, hatching, rules of tables.
    pub const GREY: Self = Self::of(140, 140, 140);
    /// For second lines of lettering: dark enough to read.
    pub const DARK_GREY: Self = Self::of(70, 70, 70);
    /// For the ground of headings.
    pub const PALE_GREY: Self = Self::of(236, 236, 236);
    /// The paper.
    pub const WHITE: Self = Self::of(255, 255, 255);

    /// From its parts.
    #[must_use]
    pub const fn of(red: u8, green: u8, blue: u8) -> Self {
        Self { red, green, blue }
    }

    /// As files write it: `#0072b2`.
    #[must_use]
    pub fn hex(self) -> String {
        format!("#{:02x}{:02x}{:02x}", self.red, self.green, self.blue)
    }
}

/// The colours circuits take by turns (Okabe and Ito 2008): blue, vermilion,
/// bluish green, reddish purple, orange, sky blue.
pub const CIRCUIT_INKS: [Ink; 6] = [
    Ink::of(0, 114, 178),
    Ink::of(213, 94, 0),
    Ink::of(0, 158, 115),
    Ink::of(204, 121, 167),
    Ink::of(230, 159, 0),
    Ink::of(86, 180, 233),
];

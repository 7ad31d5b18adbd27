//! The cautions that every sheet carries, in our own words.

/// What kind of paper this is: always the first line.
pub(crate) const AID: &str = "This drawing helps to plan. It is not a certificate and no proof \
     that the work is safe. Licensed people and the local rules decide.";

/// What to keep in mind before touching anything.
pub(crate) const BEFORE_WORK: [&str; 4] = [
    "Before any work: switch off, lock off, prove dead, and prove the tester before and after. \
     Look for a second supply.",
    "Cables, pipes and structure that are hidden are not shown. Detect before you drill or cut.",
    "Old boards, linings and textured ceilings may hold asbestos. Have it settled first.",
    "Lengths are reckoned, not measured. Measure on site before you cut.",
];

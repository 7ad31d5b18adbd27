//! How the papers of one body of rules speak.

/// What papers, lists and quotes need to know of the rules that a plan goes
/// by, without knowing any rule: handed to them from where the rules are.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Local {
    /// The standard, as a title block names it: `BS 7671`.
    pub standard: String,
    /// The language that words are chosen by: `en-GB`.
    pub language: String,
}

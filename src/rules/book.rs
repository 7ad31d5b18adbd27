//! All tables together.

use std::collections::{BTreeMap, BTreeSet};

use super::folder::Folder;
use super::manifest::Manifest;
use super::shipped::shipped;
use super::tables::Own;
use super::{Listed, Owner, RuleError, Tables};
use crate::plan::Regime;
use crate::wording::Local;

/// The tables of all regimes: those that ship, overridden by the user's own.
#[derive(Clone, Debug, PartialEq)]
pub struct RuleBook {
    regimes: BTreeMap<Regime, Entry>,
    /// Whose tables hold for a plan whose regime is not among these.
    base: Regime,
}

/// What the book has of one regime.
#[derive(Clone, Debug, PartialEq)]
struct Entry {
    manifest: Manifest,
    /// What it has itself.
    own: Own,
    /// The same over what it inherits.
    tables: Tables,
}

/// A regime while the folders are read.
#[derive(Clone, Debug, Default)]
struct Draft {
    manifest: Option<Manifest>,
    own: Own,
}

type Drafts = BTreeMap<Regime, Draft>;

impl Default for RuleBook {
    fn default() -> Self {
        Self::shipped()
    }
}

impl RuleBook {
    /// The tables that ship.
    ///
    /// # Panics
    /// When a shipped table cannot be read, which a test rules out.
    #[must_use]
    pub fn shipped() -> Self {
        shipped_drafts().and_then(Self::of_drafts).expect("every shipped table is tested")
    }

    /// A whole set of tables in place of those that ship, with the manifests
    /// that ship: each a regime, the name of a table, and its text.
    ///
    /// # Errors
    /// [`RuleError`] where a table is missing, is unknown or cannot be read.
    pub fn whole<'a>(
        tables: impl IntoIterator<Item = (Regime, &'a str, &'a str)>,
    ) -> Result<Self, RuleError> {
        let mut drafts = shipped_drafts()?;
        drafts.values_mut().for_each(|draft| draft.own = Own::default());
        for (regime, name, text) in tables {
            add_table(&mut drafts, regime, (name, text), Owner::Shipped)?;
        }
        Self::of_drafts(drafts)
    }

    /// The shipped tables, overridden row by row: same key, the user's value.
    /// Each override is a regime, the name of a table, and its text.
    ///
    /// # Errors
    /// [`RuleError`] where a table is unknown or cannot be read.
    pub fn with_overrides<'a>(
        overrides: impl IntoIterator<Item = (Regime, &'a str, &'a str)>,
    ) -> Result<Self, RuleError> {
        let mut drafts = shipped_drafts()?;
        for (regime, name, text) in overrides {
            add_table(&mut drafts, regime, (name, text), Owner::User)?;
        }
        Self::of_drafts(drafts)
    }

    /// The shipped tables, and a person's own folders over them: rows of
    /// regimes that ship, and regimes of one's own, which must say in a
    /// manifest what they are and what they inherit.
    ///
    /// # Errors
    /// [`RuleError`] where a table or a manifest is wrong, or a regime inherits
    /// from one that is not there or, in the end, from itself.
    pub fn with_folders<'a>(
        folders: impl IntoIterator<Item = Folder<'a>>,
    ) -> Result<Self, RuleError> {
        let mut drafts = shipped_drafts()?;
        let folders: Vec<Folder<'_>> = folders.into_iter().collect();
        folders.iter().try_for_each(|folder| add_manifest(&mut drafts, folder))?;
        // What a misspelt folder holds is of no interest.
        let unnamed = drafts.iter().find(|(_, draft)| draft.manifest.is_none());
        if let Some((regime, _)) = unnamed {
            return Err(no_manifest(*regime, &drafts));
        }
        folders.iter().try_for_each(|folder| add_tables(&mut drafts, folder, Owner::User))?;
        Self::of_drafts(drafts)
    }

    fn of_drafts(drafts: Drafts) -> Result<Self, RuleError> {
        check_roots(&drafts)?;
        let mut regimes = BTreeMap::new();
        for (regime, draft) in &drafts {
            let folder = regime.key();
            let own = merged(*regime, &drafts, &mut BTreeSet::new())?;
            let manifest = draft.manifest.clone().ok_or_else(|| no_manifest(*regime, &drafts))?;
            let tables = Tables::of(folder, &own)?;
            regimes.insert(*regime, Entry { manifest, own: draft.own.clone(), tables });
        }
        let root = |(regime, entry): (&Regime, &Entry)| {
            entry.manifest.inherits.is_none().then_some(*regime)
        };
        // Inheritance ends somewhere, so there is one.
        let base = regimes.iter().find_map(root).unwrap_or_default();
        Ok(Self { regimes, base })
    }

    /// The tables of a regime, with those that it inherits where it has no
    /// row. Of one that is not in the book those of the base: ask
    /// [`RuleBook::knows`], and say so.
    ///
    /// # Panics
    /// Never: the base is in the book.
    #[must_use]
    pub fn of(&self, regime: Regime) -> &Tables {
        let entry = self.regimes.get(&regime).or_else(|| self.regimes.get(&self.base));
        &entry.expect("the base is in the book").tables
    }

    /// Whether a regime is in the book.
    #[must_use]
    pub fn knows(&self, regime: Regime) -> bool {
        self.regimes.contains_key(&regime)
    }

    /// Whose tables stand in for those of a regime that is not in the book.
    #[must_use]
    pub const fn base(&self) -> Regime {
        self.base
    }

    /// Every regime with what it says of itself, by name.
    pub fn regimes(&self) -> impl Iterator<Item = (Regime, &Manifest)> {
        self.regimes.iter().map(|(regime, entry)| (*regime, &entry.manifest))
    }

    /// How the papers of a regime speak; of one that is not in the book like
    /// those of the base, under its own name.
    #[must_use]
    pub fn local(&self, regime: Regime) -> Local {
        let of = |regime| Some(self.regimes.get(&regime)?.manifest.local());
        of(regime).or_else(|| of(self.base)).map_or_else(
            || Local { standard: regime.to_string(), language: String::new() },
            |local| {
                let standard =
                    if self.knows(regime) { local.standard } else { format!("unknown: {regime}") };
                Local { standard, ..local }
            },
        )
    }

    /// What is said where a regime is asked for that is not in the book.
    #[must_use]
    pub fn no_regime(&self, regime: Regime) -> String {
        let known: Vec<&str> = self.regimes.keys().map(Regime::key).collect();
        no_regime(regime.key(), &known)
    }

    /// Every table with its regime, in a fixed order, as it was read.
    pub fn listed(&self) -> impl Iterator<Item = (Regime, Listed)> + '_ {
        self.regimes.iter().flat_map(|(regime, entry)| {
            entry.own.listed().into_iter().map(move |table| (*regime, table))
        })
    }
}

fn shipped_drafts() -> Result<Drafts, RuleError> {
    let mut drafts = Drafts::new();
    for folder in shipped()? {
        add_manifest(&mut drafts, &folder)?;
        add_tables(&mut drafts, &folder, Owner::Shipped)?;
    }
    Ok(drafts)
}

fn add_manifest(drafts: &mut Drafts, folder: &Folder<'_>) -> Result<(), RuleError> {
    let Folder { regime, manifest, .. } = folder;
    let draft = drafts.entry(*regime).or_default();
    if let Some(text) = manifest {
        draft.manifest = Some(Manifest::read(&format!("{regime}/manifest.json"), text)?);
    }
    Ok(())
}

fn add_tables(drafts: &mut Drafts, folder: &Folder<'_>, owner: Owner) -> Result<(), RuleError> {
    folder.tables.iter().try_for_each(|table| add_table(drafts, folder.regime, *table, owner))
}

fn add_table(
    drafts: &mut Drafts,
    regime: Regime,
    (name, text): (&str, &str),
    owner: Owner,
) -> Result<(), RuleError> {
    let file = format!("{regime}/{name}.csv");
    drafts.entry(regime).or_default().own.add(name, &file, text, owner)
}

/// What a regime has over all that it inherits, however far up.
fn merged(regime: Regime, drafts: &Drafts, below: &mut BTreeSet<Regime>) -> Result<Own, RuleError> {
    let draft = drafts.get(&regime).ok_or_else(|| no_manifest(regime, drafts))?;
    let manifest = draft.manifest.as_ref().ok_or_else(|| no_manifest(regime, drafts))?;
    let Some(parent) = manifest.inherits else { return Ok(draft.own.clone()) };
    let file = format!("{regime}/manifest.json");
    if !below.insert(regime) || parent == regime || below.contains(&parent) {
        return Err(RuleError::InheritsItself { file });
    }
    if !drafts.contains_key(&parent) {
        let known: Vec<&str> = drafts.keys().map(Regime::key).collect();
        return Err(RuleError::NoRegime { file, problem: no_regime(parent.key(), &known) });
    }
    Ok(draft.own.over(&merged(parent, drafts, below)?))
}

/// What stands by itself must have every table, or those that lean on it lack
/// rows.
fn check_roots(drafts: &Drafts) -> Result<(), RuleError> {
    let alone = |draft: &Draft| draft.manifest.as_ref().is_some_and(|is| is.inherits.is_none());
    let mut roots = drafts.iter().filter(|(_, draft)| alone(draft));
    roots.try_for_each(|(regime, draft)| draft.own.check_all_there(regime.key()))
}

/// A folder that says nothing of itself is most likely one whose name is
/// misspelt.
fn no_manifest(regime: Regime, drafts: &Drafts) -> RuleError {
    let known = drafts.iter().filter(|(_, draft)| draft.manifest.is_some());
    let known: Vec<&str> = known.map(|(regime, _)| regime.key()).collect();
    let problem = format!(
        "{}, and a regime of your own needs {regime}/manifest.json beside its tables",
        no_regime(regime.key(), &known)
    );
    RuleError::NoRegime { file: regime.to_string(), problem }
}

fn no_regime(name: &str, known: &[&str]) -> String {
    let nearest = known.iter().min_by_key(|one| strsim::levenshtein(one, name));
    let nearest = nearest.filter(|one| strsim::levenshtein(one, name) <= 2);
    let hint = nearest.map_or_else(String::new, |one| format!("; did you mean \"{one}\"?"));
    format!("there are no rules \"{name}\", there are {}{hint}", known.join(", "))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::Method;
    use crate::rules::words::Strand;
    use crate::units::Csa;

    #[test]
    fn a_regime_without_a_row_leans_on_the_international_one() {
        let book = RuleBook::shipped();
        let size = |regime, hundredths| {
            let key = (Strand::Fixed, Csa::from_hundredths(hundredths));
            book.of(regime).conductor_resistance.row(key).unwrap().resistance.0
        };
        assert_eq!(size(Regime::AS_NZS, 150).to_bits(), 13.6f64.to_bits(), "its own row");
        assert_eq!(size(Regime::AS_NZS, 250).to_bits(), 7.41f64.to_bits(), "IEC 60228");
    }

    #[test]
    fn the_user_overrides_one_row_and_is_named_for_it() {
        let text = "method,size_mm2,capacity_a,source\ntouching,2.50,30,my copy\n";
        let book = RuleBook::with_overrides([(Regime::AS_NZS, "current_capacity", text)]).unwrap();
        let key = (Method("touching".to_owned()), Csa::from_hundredths(250));
        let row = book.of(Regime::AS_NZS).current_capacity.row(key).unwrap();
        assert_eq!(row.capacity.0.to_bits(), 30.0f64.to_bits(), "the user's value");
        assert_eq!(row.credit(), "my copy (your own table)", "and the user's name");
    }

    #[test]
    fn a_wrong_table_is_refused_with_its_line() {
        let over = |name, text| RuleBook::with_overrides([(Regime::BS, name, text)]).unwrap_err();
        assert_eq!(
            over("curent_capacity", "").to_string(),
            "bs/curent_capacity.csv: there is no rule table \"curent_capacity\"; \
             did you mean \"current_capacity\"?",
        );
        assert_eq!(
            over("current_capacity", "method,size_mm2,capacity_a,source\nC,2.5,lots,me\n")
                .to_string(),
            "bs/current_capacity.csv: line 2: \"capacity_a\" holds \"lots\", expected a number",
        );
        assert!(
            matches!(
                over("current_capacity", "method,size_mm2,capacity_a,source\nC,2.5,27,\n"),
                RuleError::Cell { .. }
            ),
            "a source must be there",
        );
    }
}

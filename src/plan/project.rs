//! Who, where and which revision: what a title block prints.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Regime;

/// What the title block says.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Project {
    /// The name of the job.
    pub title: String,
    /// Where it is.
    pub site: String,
    /// Whom it is for.
    pub client: String,
    /// Who drew it.
    pub drawn_by: String,
    /// Who plans and answers for the work.
    pub contractor: String,
    /// The drawing's number.
    pub number: String,
    /// The letter or number of this revision.
    pub revision: String,
    /// The date of this revision, as `2026-11-25`.
    pub date: String,
    /// Whether this is what will be built, or what was.
    pub status: Status,
    /// Who says that all was built as planned, where the status is as built and
    /// not every leg was measured.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub built_as_planned: Option<AsPlanned>,
    /// Whose rules apply.
    pub regime: Regime,
    /// Anything else worth a line.
    pub notes: String,
}

/// A person's word that all was built as planned.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct AsPlanned {
    /// Who says so.
    pub by: String,
    /// The day, as `2026-11-25`.
    pub on: String,
}

/// Planned and as-built drawings are different documents.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Status {
    /// What is meant to be built.
    #[default]
    Planned,
    /// What was built.
    AsBuilt,
}

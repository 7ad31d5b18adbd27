//! What the hand keeps while it draws the building.

use std::collections::BTreeMap;

use kurbo::Point;
use wirewend::plan::LevelId;
use wirewend::units::Point2;

use super::desk::Desk;
use super::length::Measure;
use super::levels;
use super::reshape::Reshape;

/// What is under way of the building.
#[derive(Clone, Debug, Default)]
pub(super) struct Survey {
    /// A wall, an opening, a corner that is held and moved.
    pub(super) reshape: Option<Reshape>,
    /// The corners of an outline that is drawn.
    pub(super) outline: Vec<Point2>,
    /// Whether the button is still down on its first corner: a rectangle.
    pub(super) stretching: bool,
    /// The ends of a length that is known on the picture.
    pub(super) ruler: Vec<Point>,
    /// How lengths are shown.
    pub(super) measure: Measure,
    /// Whether the level below is not to show through.
    pub(super) below_hidden: bool,
    /// What pictures were found to be, by their files as the plan has them:
    /// their pixels across and up.
    pub(super) sizes: BTreeMap<String, (u32, u32)>,
    /// What new walls are made of, where it is not studs.
    pub(super) build: Option<wirewend::plan::WallBuild>,
}

impl Desk {
    /// The level that shows through.
    pub(super) fn below(&self) -> Option<LevelId> {
        let level = self.level.filter(|_| !self.survey.below_hidden)?;
        levels::below(&self.plan, level)
    }

    /// Whether what is pressed is dragged: its release is wanted.
    pub(super) fn drags(&self) -> bool {
        self.hold.is_some()
            || self.at_hand.band.is_some()
            || self.survey.reshape.is_some()
            || self.survey.stretching
    }

    /// Lets go of everything of the building that is under way; false where
    /// there was nothing.
    pub(super) fn drop_survey(&mut self) -> bool {
        let survey = &mut self.survey;
        let held = survey.reshape.take().is_some();
        let drew = !survey.outline.is_empty() || !survey.ruler.is_empty();
        survey.outline.clear();
        survey.ruler.clear();
        survey.stretching = false;
        if held {
            self.look_again();
        }
        held || drew
    }
}

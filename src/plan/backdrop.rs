//! A picture of a plan beneath the sheet, to draw over.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use crate::units::{Angle, Mm, Point2};

/// A photo or a scan of a plan that lies beneath the sheet of a level while it
/// is drawn. It is no part of any paper, and nothing is computed from it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Backdrop {
    /// The picture's file, PNG or JPEG, as seen from the folder of the plan
    /// file, its folders parted by `/`.
    pub file: String,
    /// Where its lower left corner lies.
    pub at: Point2,
    /// How wide it is on the plan, mm; its height follows from the picture.
    pub width: Mm,
    /// How far it is turned about that corner, thousandths of a degree
    /// anticlockwise.
    #[serde(default)]
    pub turn: Angle,
    /// How much of it shows, percent.
    #[serde(default = "half")]
    pub strength: u8,
    /// Whether it is put away for now.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub hidden: bool,
}

const fn half() -> u8 {
    50
}

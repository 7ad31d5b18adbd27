//! The hand: its tool, where it points, what it holds and what is typed
//! meanwhile.

use kurbo::Point;

use super::drawing::Drawing;
use super::held::{Band, Clip, Hold};
use super::reshape::Reshape;
use super::tools::Tool;
use crate::plan::{CircuitId, End, Place};
use crate::units::Point2;

/// The hand.
#[derive(Clone, Debug)]
pub struct Hand {
    tool: Tool,
    pen: Option<Point2>,
    typed: String,
    pointer: Option<Point>,
    hold: Option<Hold>,
    band: Option<Band>,
    clip: Clip,
    over: Option<CircuitId>,
    /// What is under way of the building.
    pub(crate) drawing: Drawing,
}

impl Hand {
    pub(crate) fn with(tool: Tool) -> Self {
        Self {
            tool,
            pen: None,
            typed: String::new(),
            pointer: None,
            hold: None,
            band: None,
            clip: Clip::default(),
            over: None,
            drawing: Drawing::default(),
        }
    }

    /// What it holds to draw with.
    pub const fn tool(&self) -> Tool {
        self.tool
    }

    /// The last corner of the wall that is drawn.
    pub const fn pen(&self) -> Option<Point2> {
        self.pen
    }

    /// The length that is typed.
    pub fn typed(&self) -> &str {
        &self.typed
    }

    /// Where it points, mm of the plan.
    pub const fn pointer(&self) -> Option<Point> {
        self.pointer
    }

    /// Points and boards that are carried.
    pub const fn hold(&self) -> Option<&Hold> {
        self.hold.as_ref()
    }

    /// A rubber band that is drawn.
    pub const fn band(&self) -> Option<Band> {
        self.band
    }

    /// What was copied.
    pub const fn clip(&self) -> &Clip {
        &self.clip
    }

    /// A part of the building that is held and moved.
    pub const fn reshape(&self) -> Option<&Reshape> {
        self.drawing.reshape.as_ref()
    }

    /// The corners of an outline that is drawn.
    pub fn outline(&self) -> &[Point2] {
        &self.drawing.outline
    }

    /// The ends of a length that is known on the picture.
    pub fn ruler(&self) -> &[Point] {
        &self.drawing.ruler
    }

    /// The circuit's row that what is carried is over.
    pub const fn over(&self) -> Option<CircuitId> {
        self.over
    }

    /// What moves, and where to: nothing before it was moved far enough to count.
    pub fn moving(&self) -> &[(End, Place)] {
        self.hold.as_ref().map_or(&[], |hold| &hold.to)
    }

    /// Whether what is pressed is dragged: its release is wanted.
    pub const fn drags(&self) -> bool {
        let drawing = &self.drawing;
        self.hold.is_some()
            || self.band.is_some()
            || drawing.reshape.is_some()
            || drawing.stretching
    }

    /// Takes another tool; the pen stays where it is.
    pub const fn change(&mut self, tool: Tool) {
        self.tool = tool;
    }

    /// Sets the pen down, or lifts it.
    pub const fn set_pen(&mut self, at: Option<Point2>) {
        self.pen = at;
    }

    /// Points to a place of the plan, or nowhere.
    pub const fn point(&mut self, at: Option<Point>) {
        self.pointer = at;
    }

    /// A sign more of a length.
    pub(crate) fn type_sign(&mut self, sign: char) {
        self.typed.push(sign);
    }

    /// Takes the last typed sign back; false where there is none.
    pub fn untype(&mut self) -> bool {
        self.typed.pop().is_some()
    }

    /// What is typed is forgotten.
    pub fn forget_typed(&mut self) {
        self.typed.clear();
    }

    /// What was typed, and it is forgotten.
    pub(crate) fn take_typed(&mut self) -> String {
        std::mem::take(&mut self.typed)
    }

    /// Carries points and boards, or none.
    pub fn carry(&mut self, hold: Option<Hold>) {
        self.hold = hold;
    }

    /// What is carried goes there.
    pub(crate) fn carry_to(&mut self, to: Vec<(End, Place)>) {
        if let Some(hold) = &mut self.hold {
            hold.to = to;
        }
    }

    /// Lets go of what is carried.
    pub fn let_go(&mut self) -> Option<Hold> {
        self.hold.take()
    }

    /// Begins a rubber band.
    pub(crate) const fn begin_band(&mut self, band: Band) {
        self.band = Some(band);
    }

    /// The rubber band follows the pointer; false where there is none.
    pub(crate) fn stretch_band(&mut self, at: Point) -> bool {
        self.band.as_mut().map(|band| band.to = at).is_some()
    }

    /// Lets go of the rubber band.
    pub const fn drop_band(&mut self) -> Option<Band> {
        self.band.take()
    }

    /// Keeps what was copied.
    pub(crate) fn keep_clip(&mut self, clip: Clip) {
        self.clip = clip;
    }

    /// Comes over the row of a circuit, or leaves it.
    pub const fn come_over(&mut self, circuit: Option<CircuitId>) {
        self.over = circuit;
    }
}

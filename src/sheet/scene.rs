//! The scene: every mark of a sheet, once, in paper millimetres.
//!
//! Painters read it and add nothing of their own. The origin is the upper left
//! corner of the trimmed sheet, `x` runs right and **`y` runs down**, as on
//! screens and in SVG; painters for formats with `y` upwards flip it once.

use kurbo::{Affine, BezPath, PathEl, Point, Rect, Shape};

use super::lettering::{Lettering, Weight, text_width};
use super::{Ink, Page, Scale};
use crate::plan::Subject;

/// A whole sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// The paper it is drawn on.
    pub page: Page,
    /// What the sheet is called, for readers that cannot see it.
    pub title: String,
    /// What kind of paper it belongs to: `cut cards`.
    pub kind: String,
    /// The scale of what it shows. None: a chart or a card.
    pub scale: Option<Scale>,
    /// Where on the paper the plan's origin lies, for a level from above. None:
    /// what it shows lies nowhere in the plan.
    pub origin: Option<Point>,
    /// The marks, painted in this order.
    pub items: Vec<Item>,
}

/// A mark, or marks that belong together.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A line or an area.
    Path(Mark),
    /// Lettering.
    Text(Text),
    /// Marks that belong together.
    Group(Group),
}

/// A line or an area.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// Its shape, mm.
    pub path: BezPath,
    /// What fills it (even-odd), if anything.
    pub fill: Option<Ink>,
    /// What draws its outline, if anything.
    pub stroke: Option<Stroke>,
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Its colour.
    pub ink: Ink,
    /// Its width, mm.
    pub width: f64,
    /// Its dashes.
    pub pattern: LinePattern,
}

/// Line types after ISO 128-2, by what they look like.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum LinePattern {
    /// Continuous.
    Solid,
    /// Dashed.
    Dashed,
    /// Long dash, dot.
    LongDashDot,
    /// Dash, dot, dot.
    DashDoubleDot,
    /// Dots.
    Dotted,
}

impl LinePattern {
    /// Dashes and gaps by turns, mm, for a line of this width; empty for a
    /// continuous line. Multiples of the width as ISO 128-2 has them (dash 12,
    /// long dash 24, gap 3, dot half a width), from memory.
    #[must_use]
    pub fn dashes(self, width: f64) -> Vec<f64> {
        let lengths: &[f64] = match self {
            Self::Solid => &[],
            Self::Dashed => &[12.0, 3.0],
            Self::LongDashDot => &[24.0, 3.0, 0.5, 3.0],
            Self::DashDoubleDot => &[12.0, 3.0, 0.5, 3.0, 0.5, 3.0],
            Self::Dotted => &[0.5, 3.0],
        };
        lengths.iter().map(|length| length * width).collect()
    }
}

/// A line of lettering.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// What it says.
    pub content: String,
    /// Where its baseline begins, is halved or ends.
    pub at: Point,
    /// Which of these.
    pub anchor: Anchor,
    /// How high its capitals are.
    pub height: Lettering,
    /// How heavy it is.
    pub weight: Weight,
    /// Turned clockwise about `at`, degrees.
    pub turn: f64,
    /// Its colour.
    pub ink: Ink,
    /// Whether the paper shines around it, so that lines behind stay clear.
    pub halo: bool,
}

/// Which part of a line of lettering stands at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Its beginning.
    Start,
    /// Its middle.
    Middle,
    /// Its end.
    End,
}

/// Marks that belong together.
#[derive(Clone, Debug, PartialEq)]
pub struct Group {
    /// The layer they are on.
    pub layer: Layer,
    /// What they stand for, so that a reader can point at it.
    pub subject: Option<Subject>,
    /// The marks.
    pub items: Vec<Item>,
}

/// The layers of a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Layer {
    /// Frame, centring marks, grid references.
    Frame,
    /// Walls and their hatching.
    Walls,
    /// Doors and windows.
    Openings,
    /// Room names and areas.
    Rooms,
    /// Cable runs.
    Runs,
    /// Points and boards.
    Points,
    /// Dimension lines.
    Dimensions,
    /// Marks beside points, leg numbers, drops.
    Labels,
    /// Legend, tables, cautions, scale bar.
    Notes,
    /// The title block.
    TitleBlock,
    /// Within the title block, which sheet of how many.
    SheetNumber,
    /// How much of what is shown was built; only where anything was.
    Status,
}

impl Layer {
    /// Its name in files.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Frame => "frame",
            Self::Walls => "walls",
            Self::Openings => "openings",
            Self::Rooms => "rooms",
            Self::Runs => "runs",
            Self::Points => "points",
            Self::Dimensions => "dimensions",
            Self::Labels => "labels",
            Self::Notes => "notes",
            Self::TitleBlock => "title-block",
            Self::SheetNumber => "sheet-number",
            Self::Status => "status",
        }
    }
}

impl Stroke {
    /// A continuous line.
    #[must_use]
    pub const fn solid(ink: Ink, width: f64) -> Self {
        Self { ink, width, pattern: LinePattern::Solid }
    }
}

impl Mark {
    /// A line without a fill.
    #[must_use]
    pub fn line(path: BezPath, stroke: Stroke) -> Self {
        Self { path, fill: None, stroke: Some(stroke) }
    }

    /// An area without an outline.
    #[must_use]
    pub fn area(path: BezPath, fill: Ink) -> Self {
        Self { path, fill: Some(fill), stroke: None }
    }

    /// The box around it, the width of its line included, mm.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        let half = self.stroke.map_or(0.0, |stroke| stroke.width / 2.0);
        around(&self.path).inflate(half, half)
    }
}

/// The box around a path; most have no curves and are their corners'.
fn around(path: &BezPath) -> Rect {
    let mut corners: Option<Rect> = None;
    for element in path.elements() {
        match element {
            PathEl::MoveTo(at) | PathEl::LineTo(at) => {
                let at = Rect::from_points(*at, *at);
                corners = Some(corners.map_or(at, |all| all.union(at)));
            }
            PathEl::ClosePath => {}
            PathEl::QuadTo(..) | PathEl::CurveTo(..) => return path.bounding_box(),
        }
    }
    corners.unwrap_or(Rect::ZERO)
}

impl Text {
    /// Black lettering that begins here.
    #[must_use]
    pub fn new(content: impl Into<String>, at: impl Into<Point>, height: Lettering) -> Self {
        Self {
            content: content.into(),
            at: at.into(),
            anchor: Anchor::Start,
            height,
            weight: Weight::Regular,
            turn: 0.0,
            ink: Ink::BLACK,
            halo: false,
        }
    }

    /// The same, anchored otherwise.
    #[must_use]
    pub fn anchored(self, anchor: Anchor) -> Self {
        Self { anchor, ..self }
    }

    /// The same in bold.
    #[must_use]
    pub fn bold(self) -> Self {
        Self { weight: Weight::Bold, ..self }
    }

    /// The same in another colour.
    #[must_use]
    pub fn inked(self, ink: Ink) -> Self {
        Self { ink, ..self }
    }

    /// The same with paper shining around it.
    #[must_use]
    pub fn haloed(self) -> Self {
        Self { halo: true, ..self }
    }

    /// How wide it is in the bundled font, mm.
    #[must_use]
    pub fn width(&self) -> f64 {
        text_width(&self.content, self.height, self.weight)
    }

    /// The box around it, from the top of its capitals to the foot of its
    /// descenders, mm.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        let (width, cap) = (self.width(), self.height.mm());
        let left = match self.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => -width / 2.0,
            Anchor::End => -width,
        };
        let upright = Rect::new(left, -cap, left + width, cap * Lettering::DESCENT);
        let (cos, sin) = turn(self.turn);
        let onto = Affine::new([cos, sin, -sin, cos, self.at.x, self.at.y]);
        onto.transform_rect_bbox(upright)
    }
}

/// (cosine, sine) of an angle in degrees, exact for quarter turns.
pub(super) fn turn(degrees: f64) -> (f64, f64) {
    #[expect(clippy::cast_possible_truncation, reason = "angles on paper are small")]
    let millidegrees = libm::round(degrees * 1000.0) as i32;
    crate::units::Angle::from_millidegrees(millidegrees).cos_sin()
}

impl Group {
    /// Marks on a layer, standing for nothing in particular.
    #[must_use]
    pub fn new(layer: Layer, items: Vec<Item>) -> Self {
        Self { layer, subject: None, items }
    }

    /// Marks on a layer that stand for something in the plan.
    #[must_use]
    pub fn of(layer: Layer, subject: Subject, items: Vec<Item>) -> Self {
        Self { layer, subject: Some(subject), items }
    }
}

impl Item {
    /// The box around it, mm. None for an empty group.
    #[must_use]
    pub fn bounds(&self) -> Option<Rect> {
        match self {
            Self::Path(mark) => Some(mark.bounds()),
            Self::Text(text) => Some(text.bounds()),
            Self::Group(group) => bounds(&group.items),
        }
    }

    /// The same mark moved, turned or mirrored; lettering keeps upright and
    /// only its place moves.
    #[must_use]
    pub fn placed(&self, onto: Affine) -> Self {
        match self {
            Self::Path(mark) => Self::Path(Mark { path: onto * mark.path.clone(), ..mark.clone() }),
            Self::Text(text) => Self::Text(Text { at: onto * text.at, ..text.clone() }),
            Self::Group(group) => Self::Group(Group {
                items: group.items.iter().map(|item| item.placed(onto)).collect(),
                ..group.clone()
            }),
        }
    }
}

/// The box around marks, mm. None where there are none.
#[must_use]
pub fn bounds(items: &[Item]) -> Option<Rect> {
    items.iter().filter_map(Item::bounds).reduce(|all, one| all.union(one))
}

impl From<Mark> for Item {
    fn from(mark: Mark) -> Self {
        Self::Path(mark)
    }
}

impl From<Text> for Item {
    fn from(text: Text) -> Self {
        Self::Text(text)
    }
}

impl From<Group> for Item {
    fn from(group: Group) -> Self {
        Self::Group(group)
    }
}

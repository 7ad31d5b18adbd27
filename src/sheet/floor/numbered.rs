//! The drawing of a level with numbers at places, for the quote's page.

use kurbo::{Rect, Size};

use super::labels::{self, Label, Placed};
use super::rooms::Names;
use super::view::View;
use super::{Drawing, Extra, FloorOptions, Floors, Job, SheetError, Stand, runs};
use crate::plan::{Subject, WallId};
use crate::sheet::House;
use crate::sheet::lettering::{Lettering, Weight, text_width};
use crate::sheet::scene::{Anchor, Group, Item, Layer, Mark, Stroke, Text};
use crate::sheet::{Ink, Scale, pen};
use crate::units::Point2;

/// A number at a place of a wall.
#[derive(Clone, Copy, Debug)]
pub(in crate::sheet) struct Numbered {
    pub(in crate::sheet) number: u32,
    pub(in crate::sheet) wall: WallId,
    pub(in crate::sheet) at: Point2,
}

/// Room for numbers around the drawing, mm.
const AROUND: f64 = 12.0;

/// The marks of a level as [`bare_floor`](super::bare_floor) has them, with
/// room names and numbers but no other lettering.
pub(in crate::sheet) fn numbered_floor(
    floors: &mut Floors<'_>,
    options: &FloorOptions,
    numbers: &[Numbered],
) -> Result<Vec<Item>, SheetError> {
    let job = Job::of(floors.plan, floors.runs, floors.lengths, options)?;
    let view = View::anchored(options.scale.unwrap_or(Scale::STEPS[1]));
    let drawing = job.drawing(&view, floors);
    let names = floors.names(options.level, &view);
    let (inside, placed, walls) = lettered(&job, &drawing, &view, names, numbers.iter());
    let taken: Vec<Rect> = placed.iter().map(|label| label.at).collect();
    // Each under its own leg, so that it is hidden with it.
    let halo = |traced| Group::of(Layer::Runs, runs::subject(traced), runs::halos(traced)).into();
    let mut items = vec![drawing.shell.hatching.clone()];
    items.extend(drawing.traced.iter().map(halo));
    items.push(drawing.shell.walls.draw());
    items.extend(drawing.shell.openings.iter().cloned());
    items.extend(drawing.traced.iter().map(|traced| runs::draw(traced, &taken)));
    items.extend(super::ends::lead_ins(&drawing.traced, &drawing.stands));
    items.extend(drawing.stands.iter().map(Stand::draw));
    items.extend(inside);
    items.extend(placed.into_iter().map(|label| label.item));
    items.extend(walls);
    Ok(items)
}

/// The names of rooms, the numbers with the names that found no room where a
/// drawing leaves them most, and the names of walls.
pub(super) fn lettered<'a>(
    job: &Job<'_>,
    drawing: &Drawing<'_>,
    view: &View,
    names: Names,
    numbers: impl Iterator<Item = &'a Numbered>,
) -> (Vec<Item>, Vec<Placed>, Vec<Item>) {
    let ground = job.ground();
    let (from, to) = (view.at(ground.x0, ground.y0), view.at(ground.x1, ground.y1));
    let space = Rect::from_points(from, to).inflate(AROUND, AROUND);
    let mut crowd = job.crowd(drawing, space, &Extra::default());
    names.take(&mut crowd);
    crowd.settle();
    let mut wanted = names.outside;
    wanted.extend(numbers.map(|one| label(one, view)));
    let placed = labels::placed(&wanted, &crowd);
    let walls = job.wall_names(drawing, &mut crowd, &placed);
    (names.inside, placed, walls)
}

/// How much paper a level takes at least at a scale (1:50 unless one is asked
/// for), mm.
pub(in crate::sheet) fn ground_on_paper(
    house: &House<'_>,
    options: &FloorOptions,
) -> Result<Size, SheetError> {
    let job = Job::of(house.plan, house.runs, house.lengths, options)?;
    let per = options.scale.unwrap_or(Scale::STEPS[1]).paper_per_plan();
    Ok(job.ground().size() * per)
}

/// The place of a point or board on the drawing, paper mm, where it stands on
/// the level.
pub(in crate::sheet) fn stands_at(
    floors: &mut Floors<'_>,
    options: &FloorOptions,
) -> Vec<(crate::plan::End, kurbo::Point)> {
    let view = View::anchored(options.scale.unwrap_or(Scale::STEPS[1]));
    let stands = floors.stands(options.level, None, &view);
    stands.iter().map(|stand| (stand.end, stand.bounds().center())).collect()
}

fn label(one: &Numbered, view: &View) -> Label {
    let content = one.number.to_string();
    let wide = text_width(&content, Lettering::Note, Weight::Bold).max(2.0) + 2.2;
    let size = Size::new(wide, Lettering::Note.mm() + 2.2);
    let middle = size.to_rect().center();
    let items = vec![
        Mark {
            path: pen::rect(size.to_rect()),
            fill: Some(Ink::WHITE),
            stroke: Some(Stroke::solid(Ink::BLACK, 0.5)),
        }
        .into(),
        Text::new(content, (middle.x, middle.y + Lettering::Note.mm() / 2.0), Lettering::Note)
            .anchored(Anchor::Middle)
            .bold()
            .into(),
    ];
    let tip = view.point(one.at);
    Label {
        size,
        items,
        beside: Rect::from_center_size(tip, (2.4, 2.4)),
        tip,
        towards: kurbo::Vec2::ZERO,
        seats: Vec::new(),
        owner: None,
        subject: Subject::Wall(one.wall),
    }
}

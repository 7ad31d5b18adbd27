//! Points and boards: their symbols at the face of their wall, side by side
//! where several share a place.

use std::rc::Rc;

use kurbo::{Affine, Point as Spot, Rect, Vec2};

use super::view::View;
use crate::plan::{CircuitId, Control, End, LevelId, Place, Plan, PointId, Subject};
use crate::runs::{LegRole, Runs};
use crate::sheet::scene::{Group, Item, Layer, Mark, Stroke, bounds};
use crate::sheet::{Duty, Ink, Sign, Symbol, pen};
use crate::units::Mm;

/// A symbol on the sheet.
#[derive(Clone, Debug)]
pub(super) struct Stand {
    /// What it stands for.
    pub(super) end: End,
    /// What it looks like.
    pub(super) sign: Sign,
    /// How many share the plate.
    pub(super) gangs: u8,
    /// The circuit that feeds it.
    pub(super) fed_by: Option<CircuitId>,
    /// The same by its position in the plan.
    pub(super) circuit: Option<usize>,
    /// Where cables end: in the middle of the wall, or at the fitting.
    pub(super) core: Spot,
    /// Where the symbol begins.
    pub(super) foot: Spot,
    /// Out of the wall into the room.
    pub(super) into: Vec2,
    /// Whether it stands on a wall.
    pub(super) on_wall: bool,
    /// Whether rain can reach it.
    pub(super) wet: bool,
    /// Its height above the floor, if the drawing does not go without saying.
    pub(super) height: Option<Mm>,
    /// Whether it belongs to a circuit that this sheet is not about.
    pub(super) aside: bool,
    /// Its marks, the same for all sheets of the level, and how far off they
    /// stand on this one.
    items: Rc<[Item]>,
    by: Vec2,
    /// The box around its marks.
    around: Rect,
}

impl Stand {
    /// A place without a symbol, in the open.
    pub(super) fn bare(core: Spot) -> Self {
        Self {
            end: End::Point(PointId(0)),
            sign: Sign::Board,
            gangs: 1,
            fed_by: None,
            circuit: None,
            core,
            foot: core,
            into: Vec2::new(0.0, -1.0),
            on_wall: false,
            wet: false,
            height: None,
            aside: false,
            items: Rc::new([]),
            by: Vec2::ZERO,
            around: Rect::from_points(core, core),
        }
    }

    /// The box around its marks.
    pub(super) const fn bounds(&self) -> Rect {
        self.around
    }

    /// The same further along the paper.
    pub(super) fn moved(&self, by: Vec2) -> Self {
        Self {
            core: self.core + by,
            foot: self.foot + by,
            by: self.by + by,
            around: self.around + by,
            ..self.clone()
        }
    }

    /// The same on a sheet about one circuit, or about all.
    pub(super) fn about(mut self, only: Option<CircuitId>) -> Self {
        self.aside = matches!(self.end, End::Point(_)) && only.is_some() && self.fed_by != only;
        self
    }

    /// Its marks, named.
    pub(super) fn draw(&self) -> Item {
        let onto = Affine::translate(self.by);
        let placed = self.items.iter().map(|item| item.placed(onto));
        let items = if self.aside { placed.map(greyed).collect() } else { placed.collect() };
        Group::of(Layer::Points, subject(self.end), items).into()
    }
}

/// What a symbol stands for.
pub(super) const fn subject(end: End) -> Subject {
    match end {
        End::Board(id) => Subject::Board(id),
        End::Point(id) => Subject::Point(id),
    }
}

/// The symbols of a level, boards first, for a sheet about all circuits.
pub(super) fn stands(plan: &Plan, runs: &Runs, level: LevelId, view: &View) -> Vec<Stand> {
    let boards =
        plan.boards.iter().map(|(id, board)| (End::Board(*id), board.place, Sign::Board, 1, None));
    let points = plan.points.iter().map(|(id, point)| {
        let sign = Sign::Point { kind: point.kind, duty: duty(plan, runs, *id) };
        (End::Point(*id), point.place, sign, point.gangs, point.circuit)
    });
    let mut stands: Vec<Stand> = Vec::new();
    let mut taken: Vec<Rect> = Vec::new();
    for (end, place, sign, gangs, circuit) in boards.chain(points) {
        let Some(place) = place.filter(|place| plan.level_of(place) == Some(level)) else {
            continue;
        };
        let Some(mut stand) = bare(plan, &place, view) else { continue };
        stand.end = end;
        stand.sign = sign;
        stand.gangs = gangs;
        stand.fed_by = circuit;
        stand.circuit = circuit.and_then(|id| plan.circuits.get_index_of(&id));
        seat(&mut stand, &taken);
        taken.push(stand.bounds());
        stands.push(stand);
    }
    stands
}

/// A place on paper that nothing stands on yet.
fn bare(plan: &Plan, place: &Place, view: &View) -> Option<Stand> {
    let core = view.point(plan.position(place)?.on_floor());
    let mut stand = Stand::bare(core);
    match place {
        Place::Wall(on) => {
            let wall = plan.walls.get(&on.wall)?;
            stand.into = View::direction(wall.normal(on.face));
            stand.foot = core + stand.into * view.length(wall.thickness.to_f64() / 2.0);
            stand.on_wall = true;
            stand.wet = wall.wet == Some(on.face);
            stand.height = Some(on.height);
            if stand.into == Vec2::ZERO {
                stand.into = Vec2::new(0.0, -1.0);
            }
        }
        Place::Floor(_) => stand.height = Some(Mm::ZERO),
        Place::Post(on) => stand.height = Some(on.height),
        Place::Ceiling(_) => {}
    }
    Some(stand)
}

/// Draws a symbol where it is or, where another stands there already, as near
/// beside it as it has room.
fn seat(stand: &mut Stand, others: &[Rect]) {
    let symbol = Symbol::of(stand.sign, stand.gangs);
    let across = pen::square_to(stand.into);
    let (foot, step) = (stand.foot, 1.25);
    let mut best: Option<(f64, Vec<Item>, Spot)> = None;
    let asides = (1..=32).flat_map(|steps| [-step * f64::from(steps), step * f64::from(steps)]);
    for aside in std::iter::once(0.0).chain(asides) {
        let at = foot + across * aside;
        let items = symbol.placed(at, stand.into, stand.on_wall);
        let taken = bounds(&items).unwrap_or(Rect::ZERO).inflate(0.3, 0.3);
        let clash: f64 = others.iter().map(|other| shared(taken, *other)).sum();
        if best.as_ref().is_none_or(|(least, _, _)| clash < *least - 1e-6) {
            best = Some((clash, items, at));
        }
        if clash <= 1e-6 {
            break;
        }
    }
    let Some((_, mut items, at)) = best else { return };
    if (at - foot).hypot2() > 0.01 {
        let link = Mark::line(pen::line(foot, at), Stroke::solid(Ink::BLACK, 0.25));
        items.insert(0, link.into());
    }
    stand.foot = at;
    stand.around = bounds(&items).unwrap_or_else(|| Rect::from_points(at, at));
    stand.items = items.into();
}

/// The area two boxes share.
fn shared(one: Rect, other: Rect) -> f64 {
    let both = one.intersect(other);
    both.width().max(0.0) * both.height().max(0.0)
}

/// What a switch does among those that work the same lights. Once the legs are
/// known, one with strappers to two others is between them.
fn duty(plan: &Plan, runs: &Runs, id: PointId) -> Duty {
    let of_switch = |control: &&Control| control.switches.contains(&id);
    let Some(control) =
        plan.controls.values().filter(of_switch).max_by_key(|one| one.switches.len())
    else {
        return Duty::OneWay;
    };
    if control.switches.len() < 2 {
        return Duty::OneWay;
    }
    let strappers = runs
        .circuits
        .values()
        .flat_map(|run| &run.legs)
        .filter(|leg| leg.role == LegRole::Strappers)
        .filter(|leg| leg.from == End::Point(id) || leg.to == End::Point(id))
        .count();
    let ends = [control.switches.first(), control.switches.last()];
    match strappers {
        0 if !ends.contains(&Some(&id)) => Duty::Intermediate,
        0 | 1 => Duty::TwoWay,
        _ => Duty::Intermediate,
    }
}

/// The same mark, stepping back.
fn greyed(item: Item) -> Item {
    let pale = |ink: Ink| if ink == Ink::WHITE { ink } else { Ink::GREY };
    match item {
        Item::Path(mark) => Mark {
            path: mark.path,
            fill: mark.fill.map(pale),
            stroke: mark.stroke.map(|stroke| Stroke { ink: pale(stroke.ink), ..stroke }),
        }
        .into(),
        Item::Text(text) => text.inked(Ink::GREY).into(),
        Item::Group(group) => {
            Group { items: group.items.into_iter().map(greyed).collect(), ..group }.into()
        }
    }
}

//! The floor sheet: one level from above, with its points and its cables.

mod bare;
mod cheapest;
mod crowd;
mod dimensions;
mod ends;
mod hatch;
mod labels;
mod lanes;
mod legend;
mod numbered;
mod opened;
mod openings;
mod outline;
mod points;
mod rooms;
mod runs;
mod standing;
mod strands;
mod tags;
mod tally;
mod view;
mod walls;
mod worst;

pub(in crate::sheet) use self::hatch::Hatch;
pub(in crate::sheet) use self::legend::{cautions, scale_bar};
pub(in crate::sheet) use self::numbered::{Numbered, ground_on_paper, numbered_floor, stands_at};
pub(in crate::sheet) use self::opened::{Opened, OpenedStretch, opened_floor};
pub(in crate::sheet) use self::runs::{circuit_mark, ink};
use std::collections::BTreeSet;
use std::rc::Rc;

use kurbo::{Rect, Vec2};

pub use self::bare::{bare_floor, circuit_line};
use self::crowd::{Crowd, Kind};
use self::legend::Occurs;
use self::outline::Outline;
use self::points::Stand;
use self::rooms::Names;
use self::runs::Traced;
use self::view::View;
use self::walls::Walls;
use super::panel::{Panel, Row, WIDTH as PANEL_WIDTH};
use super::scene::{Group, Item, Layer, Scene, bounds};
use super::title_block::{HEIGHT as TITLE_HEIGHT, TitleBlock};
use super::{Orientation, Page, Paper, Scale, frame, pen};
use crate::checks::{Checked, GoverningStretch};
use crate::lengths::Lengths;
use crate::plan::{Circuit, CircuitId, Level, LevelId, Plan, labels as marks};
use crate::runs::Runs;
use crate::units::Point2;

/// What a floor sheet shows, and on what.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FloorOptions {
    /// The level.
    pub level: LevelId,
    /// One circuit alone, the others' points greyed. None: all of them.
    pub circuit: Option<CircuitId>,
    /// The paper. None: the smallest that the level fits on at a good scale.
    pub paper: Option<Paper>,
    /// The scale. None: the largest that is usual for a level of this size.
    pub scale: Option<Scale>,
}

impl FloorOptions {
    /// All circuits of a level, paper and scale chosen by its size.
    #[must_use]
    pub const fn of(level: LevelId) -> Self {
        Self { level, circuit: None, paper: None, scale: None }
    }
}

/// Why a sheet could not be drawn.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum SheetError {
    /// The level is not in the plan.
    #[error("this plan has no level {0}")]
    UnknownLevel(LevelId),
    /// The circuit is not in the plan.
    #[error("this plan has no circuit {0}")]
    UnknownCircuit(CircuitId),
    /// It does not fit.
    #[error(
        "level {level} does not fit on {paper} at {scale}; choose larger paper or a smaller scale"
    )]
    TooLarge {
        /// The level.
        level: LevelId,
        /// The largest paper that was tried.
        paper: &'static str,
        /// The smallest scale that was tried.
        scale: Scale,
    },
}

/// What kind of paper it is.
const KIND: &str = "installation drawing";

/// Room around the drawing for symbols and labels on outer faces, mm.
const MARGIN: f64 = 14.0;

/// A level from above.
///
/// # Errors
/// [`SheetError`] where the plan lacks the level or the circuit, or where the
/// level does not fit the paper and scale asked for.
pub fn floor_sheet(
    plan: &Plan,
    runs: &Runs,
    lengths: &Lengths,
    options: &FloorOptions,
) -> Result<Scene, SheetError> {
    Floors::of(plan, runs, lengths).sheet(options)
}

/// Floor sheets of one plan: walls and openings are worked out once for all
/// that show them at the same place of the paper.
#[derive(Debug)]
pub struct Floors<'a> {
    plan: &'a Plan,
    runs: &'a Runs,
    lengths: &'a Lengths,
    worst: Vec<(CircuitId, GoverningStretch)>,
    shells: Vec<(LevelId, View, Rc<Shell>)>,
    /// The symbols of points about the plan's origin.
    stands: Vec<(LevelId, View, Rc<[Stand]>)>,
    /// The names of rooms about the plan's origin: at the same places on every
    /// sheet of a level, clear of all its circuits.
    names: Vec<(LevelId, View, Names)>,
}

impl<'a> Floors<'a> {
    /// Of a routed and measured plan.
    #[must_use]
    pub const fn of(plan: &'a Plan, runs: &'a Runs, lengths: &'a Lengths) -> Self {
        Self {
            plan,
            runs,
            lengths,
            worst: Vec::new(),
            shells: Vec::new(),
            stands: Vec::new(),
            names: Vec::new(),
        }
    }

    /// The same, with the stretch marked on which each circuit can carry least.
    #[must_use]
    pub fn marking(self, checked: &Checked) -> Self {
        let circuits = checked.circuits.iter();
        let worst = circuits.filter_map(|(id, figures)| Some((*id, figures.governing?)));
        Self { worst: worst.collect(), ..self }
    }

    /// A level from above.
    ///
    /// # Errors
    /// As [`floor_sheet`].
    pub fn sheet(&mut self, options: &FloorOptions) -> Result<Scene, SheetError> {
        let job = Job::of(self.plan, self.runs, self.lengths, options)?;
        let settings = settings(options, job.is_crowded());
        // Larger paper rather than no dimensions, but no dimensions rather than
        // a smaller scale.
        for scale in settings.iter().map(|(scale, _)| *scale).collect::<BTreeSet<Scale>>() {
            let pages = settings.iter().filter(|one| one.0 == scale).map(|one| one.1);
            let pages: Vec<Page> = pages.filter(|page| job.could_fit(scale, *page)).collect();
            if pages.is_empty() {
                continue;
            }
            let drawing = job.drawing(&View::anchored(scale), self);
            for dimensioned in [true, false] {
                for page in &pages {
                    let found = job.draw(scale, *page, dimensioned, &drawing, self);
                    if let Some(scene) = found {
                        return Ok(scene);
                    }
                }
            }
        }
        Err(job.too_large(&settings))
    }

    fn names(&mut self, level: LevelId, view: &View) -> Names {
        let (view, by) = view.unanchored();
        let known = self.names.iter().find(|one| one.0 == level && one.1 == view);
        if let Some((_, _, names)) = known {
            return names.moved(by);
        }
        let all = FloorOptions::of(level);
        let Ok(job) = Job::of(self.plan, self.runs, self.lengths, &all) else {
            return Names::default();
        };
        let names = job.names(&job.drawing(&view, self), &view);
        self.names.push((level, view, names.clone()));
        names.moved(by)
    }

    /// The symbols of a level as a sheet about one circuit or all shows them.
    fn stands(&mut self, level: LevelId, only: Option<CircuitId>, view: &View) -> Vec<Stand> {
        let (view, by) = view.unanchored();
        let known = self.stands.iter().find(|one| one.0 == level && one.1 == view);
        if let Some((_, _, stands)) = known {
            return stands.iter().map(|stand| stand.moved(by).about(only)).collect();
        }
        let stands: Rc<[Stand]> = points::stands(self.plan, self.runs, level, &view).into();
        self.stands.push((level, view, Rc::clone(&stands)));
        stands.iter().map(|stand| stand.moved(by).about(only)).collect()
    }

    fn shell(&mut self, level: LevelId, view: &View) -> Rc<Shell> {
        let known = self.shells.iter().find(|one| one.0 == level && one.1 == *view);
        if let Some((_, _, shell)) = known {
            return Rc::clone(shell);
        }
        let walls = Walls::of(self.plan, level, view);
        let shell = Rc::new(Shell {
            hatching: walls.hatching(),
            outline: Outline::of(&walls.closed, self.plan, level, view),
            openings: openings::draw(self.plan, level, view),
            walls,
        });
        if self.shells.len() > 8 {
            self.shells.remove(0);
        }
        self.shells.push((level, *view, Rc::clone(&shell)));
        shell
    }
}

/// What of a level is the same on every sheet.
#[derive(Debug)]
struct Shell {
    walls: Walls,
    outline: Outline,
    hatching: Item,
    openings: Vec<Item>,
}

/// More points than this for each m² of rooms, and a scale of 1:100 has no room
/// for their marks: a mark with its line takes up to a cm² of paper.
const CROWDED: f64 = 0.5;

/// Scales and papers to try, the most welcome first: 1:50 up to A2, on any
/// paper where smaller scales would be crowded, else those from A3 up; larger
/// ones only when asked for. Each lies on its side, or else stands upright.
fn settings(options: &FloorOptions, crowded: bool) -> Vec<(Scale, Page)> {
    let steps = Scale::STEPS.into_iter().filter(|step| step.reduction() >= 50);
    let scales: Vec<Scale> = options.scale.map_or_else(|| steps.collect(), |one| vec![one]);
    let mut settings = Vec::new();
    for scale in scales {
        for paper in Paper::ALL {
            let usual = options.scale.is_some()
                || match scale.reduction() {
                    50 => crowded || paper <= Paper::A2,
                    100 => (Paper::A3..=Paper::A1).contains(&paper),
                    _ => paper >= Paper::A3,
                };
            if options.paper.map_or(usual, |one| one == paper) {
                settings.push((scale, Page::landscape(paper)));
                settings.push((scale, Page { paper, orientation: Orientation::Portrait }));
            }
        }
    }
    settings
}

struct Job<'a> {
    plan: &'a Plan,
    runs: &'a Runs,
    lengths: &'a Lengths,
    options: FloorOptions,
    level: &'a Level,
    circuit: Option<&'a Circuit>,
}

/// What a sheet shows besides.
#[derive(Default)]
struct Extra {
    worst: Option<Item>,
    dimensions: Vec<Item>,
}

/// Everything of a level that is drawn before lettering.
struct Drawing<'a> {
    shell: Rc<Shell>,
    stands: Vec<Stand>,
    traced: Vec<Traced<'a>>,
}

impl Drawing<'_> {
    /// The same further along the paper, among its walls there.
    fn moved(&self, by: Vec2, shell: Rc<Shell>) -> Self {
        let stands = self.stands.iter();
        Self {
            shell,
            stands: stands.map(|stand| stand.moved(by)).collect(),
            traced: self.traced.iter().map(|traced| traced.moved(by)).collect(),
        }
    }
}

impl<'a> Job<'a> {
    fn of(
        plan: &'a Plan,
        runs: &'a Runs,
        lengths: &'a Lengths,
        options: &FloorOptions,
    ) -> Result<Self, SheetError> {
        let unknown = SheetError::UnknownLevel(options.level);
        let level = plan.levels.get(&options.level).ok_or(unknown)?;
        let circuit = match options.circuit {
            Some(id) => Some(plan.circuits.get(&id).ok_or(SheetError::UnknownCircuit(id))?),
            None => None,
        };
        Ok(Self { plan, runs, lengths, options: *options, level, circuit })
    }

    fn too_large(&self, settings: &[(Scale, Page)]) -> SheetError {
        let paper = settings.iter().map(|(_, page)| page.paper).max().unwrap_or(Paper::A0);
        let scale = settings.iter().map(|(scale, _)| *scale).max().unwrap_or(Scale::STEPS[6]);
        SheetError::TooLarge { level: self.options.level, paper: paper.name(), scale }
    }

    /// Whether the marks of its points would crowd a sheet at 1:100.
    fn is_crowded(&self) -> bool {
        let level = Some(self.options.level);
        let only = self.options.circuit;
        let points = self.plan.points.values().filter(|point| {
            point.place.is_some_and(|place| self.plan.level_of(&place) == level)
                && (only.is_none() || point.circuit == only)
        });
        let rooms = self.plan.rooms.values().filter(|room| Some(room.level) == level);
        let area: f64 = rooms.map(rooms::area).sum();
        let count = u32::try_from(points.count()).map_or(f64::INFINITY, f64::from);
        area > 0.0 && count > CROWDED * area
    }

    /// Whether the level with its margins is no larger than the paper.
    fn could_fit(&self, scale: Scale, page: Page) -> bool {
        let (inner, ground) = (page.frame(), self.ground());
        let per = scale.paper_per_plan();
        ground.width() * per + 2.0 * MARGIN + PANEL_WIDTH <= inner.width()
            && ground.height() * per + 2.0 * MARGIN <= inner.height()
    }

    /// The sheet at one scale on one paper. None: it does not fit.
    fn draw(
        &self,
        scale: Scale,
        page: Page,
        dimensioned: bool,
        drawing: &Drawing<'_>,
        floors: &mut Floors<'a>,
    ) -> Option<Scene> {
        let rows = self.rows(drawing, scale, page.paper, floors);
        Panel::ways(&rows, page.frame(), TITLE_HEIGHT)
            .iter()
            .find_map(|panel| self.within(panel, page, scale, dimensioned, drawing, floors))
    }

    /// The sheet with its notes set in one way. None: it does not fit.
    fn within(
        &self,
        panel: &Panel,
        page: Page,
        scale: Scale,
        dimensioned: bool,
        drawing: &Drawing<'_>,
        floors: &mut Floors<'a>,
    ) -> Option<Scene> {
        let (inner, ground) = (page.frame(), self.ground());
        let space = panel.space().inset(-1.5);
        let per = scale.paper_per_plan();
        let around = if dimensioned { dimensions::MARGIN } else { MARGIN };
        let wide = ground.width() * per + 2.0 * around;
        let high = ground.height() * per + 2.0 * around;
        if wide > space.width() || high > space.height() {
            return None;
        }
        let view = View::centred(ground, space, scale);
        let drawing = drawing.moved(view.unanchored().1, floors.shell(self.options.level, &view));
        let worst = worst::marks(&floors.worst, &drawing.traced, &view);
        let dimensions = if dimensioned {
            dimensions::draw(self.plan, self.options.level, &view, &drawing.shell.walls.blocks())
        } else {
            Vec::new()
        };
        // Lettering takes longest: only where the rest has room.
        let outside = |item: &Item| item.bounds().is_some_and(|all| space.union(all) != space);
        if dimensions.iter().chain(&worst).any(outside) {
            return None;
        }
        if drawing.stands.iter().any(|stand| space.union(stand.bounds()) != space) {
            return None;
        }
        let names = floors.names(self.options.level, &view);
        let body = self.body(&drawing, names, space, Extra { worst, dimensions });
        let whole = bounds(&body).is_none_or(|all| space.union(all) == space);
        if !whole {
            return None;
        }
        let title = Rect::new(inner.x1 - PANEL_WIDTH, inner.y1 - TITLE_HEIGHT, inner.x1, inner.y1);
        let mut items = vec![frame::frame(page)];
        items.extend(body);
        items.push(panel.draw());
        items.push(self.title_block(scale, page.paper).draw(title));
        let kind = KIND.to_owned();
        Some(Scene { page, title: self.title(), kind, scale: Some(scale), items })
    }

    fn drawing(&self, view: &View, floors: &mut Floors<'a>) -> Drawing<'a> {
        let (level, only) = (self.options.level, self.options.circuit);
        let strands = strands::strands(self.plan, self.runs, level, only, view);
        let shell = floors.shell(level, view);
        Drawing {
            stands: floors.stands(level, only, view),
            traced: runs::traced(strands, &shell.outline),
            shell,
        }
    }

    /// The box around all of the level, in millimetres of the plan.
    fn ground(&self) -> Rect {
        let level = self.options.level;
        let mut places: Vec<(Point2, f64)> = Vec::new();
        for wall in self.plan.walls.values().filter(|wall| wall.level == level) {
            let half = wall.thickness.half().to_f64();
            places.extend([(wall.a, half), (wall.b, half)]);
        }
        for room in self.plan.rooms.values().filter(|room| room.level == level) {
            places.extend(room.outline.iter().map(|at| (*at, 0.0)));
        }
        let boards = self.plan.boards.values().filter_map(|board| board.place);
        let points = self.plan.points.values().filter_map(|point| point.place);
        for place in boards.chain(points) {
            if self.plan.level_of(&place) == Some(level) {
                places.extend(self.plan.position(&place).map(|at| (at.on_floor(), 0.0)));
            }
        }
        let reach = strands::reach(self.plan, self.runs, level, self.options.circuit);
        places.extend(reach.into_iter().map(|at| (at, 0.0)));
        places
            .into_iter()
            .map(|(at, half)| {
                let (x, y) = (at.x.to_f64(), at.y.to_f64());
                Rect::new(x - half, y - half, x + half, y + half)
            })
            .reduce(|all, one| all.union(one))
            .unwrap_or(Rect::ZERO)
    }

    /// The names of rooms where they cover least.
    fn names(&self, drawing: &Drawing<'_>, view: &View) -> Names {
        let mut crowd = self.crowd(drawing, Rect::ZERO, &Extra::default());
        crowd.settle();
        rooms::names(self.plan, self.options.level, view, &crowd)
    }

    /// Everything inside the drawing space, in painting order.
    fn body(&self, drawing: &Drawing<'_>, names: Names, space: Rect, extra: Extra) -> Vec<Item> {
        let mut crowd = self.crowd(drawing, space, &extra);
        names.take(&mut crowd);
        crowd.settle();
        let mut wanted = names.outside;
        wanted.extend(self.labels(drawing));
        let placed = labels::placed(&wanted, &crowd);
        let taken: Vec<Rect> = placed.iter().map(|label| label.at).collect();
        let shell = &drawing.shell;
        let mut items = vec![shell.hatching.clone()];
        items.extend(extra.worst);
        let halos = drawing.traced.iter().flat_map(runs::halos).collect();
        items.push(Group::new(Layer::Runs, halos).into());
        items.push(shell.walls.draw());
        items.push(Group::new(Layer::Openings, shell.openings.clone()).into());
        items.extend(extra.dimensions);
        items.extend(drawing.traced.iter().map(|traced| runs::draw(traced, &taken)));
        items.extend(ends::lead_ins(&drawing.traced, &drawing.stands));
        items.extend(drawing.stands.iter().map(Stand::draw));
        items.extend(self.loops(drawing));
        items.extend(names.inside);
        items.extend(placed.into_iter().map(|label| label.item));
        items
    }

    /// What lettering must keep clear of, not settled yet.
    fn crowd(&self, drawing: &Drawing<'_>, space: Rect, extra: &Extra) -> Crowd {
        let mut crowd = Crowd::new(space);
        for item in &extra.dimensions {
            dimensions::take(item, &mut crowd);
        }
        for outline in drawing.shell.walls.outlines() {
            crowd.add_path(&outline, walls::OUTLINE, Kind::Wall, None);
        }
        for mark in drawing.shell.openings.iter().flat_map(paths) {
            crowd.add_path(&mark, 0.18, Kind::Opening, None);
        }
        for stand in &drawing.stands {
            crowd.add(stand.bounds(), Kind::Mark, None);
        }
        for item in self.loops(drawing) {
            if let Some(taken) = item.bounds() {
                crowd.add(taken, Kind::Mark, None);
            }
        }
        for (index, traced) in drawing.traced.iter().enumerate() {
            for line in traced.lines() {
                crowd.add_path(&pen::polyline(&line), runs::WIDTH, Kind::Run, Some(index));
            }
        }
        crowd
    }

    fn loops(&self, drawing: &Drawing<'_>) -> Vec<Item> {
        let mut items = Vec::new();
        for stand in drawing.stands.iter().filter(|one| ends::has_cable(one, &drawing.traced)) {
            let mut loops = vec![ends::tail(stand)];
            if stand.wet {
                loops.push(ends::drip_loop(stand));
            }
            items.push(Group::of(Layer::Runs, points::subject(stand.end), loops).into());
        }
        items
    }

    fn labels(&self, drawing: &Drawing<'_>) -> Vec<labels::Label> {
        let marks = marks(self.plan);
        let mut labels = Vec::new();
        for stand in drawing.stands.iter().filter(|stand| !stand.aside) {
            let way = tags::way_of(stand.end, &drawing.traced);
            labels.push(tags::point_label(stand, self.plan, &marks, way));
        }
        for (index, traced) in drawing.traced.iter().enumerate() {
            let measured = self.measured(traced);
            labels.extend(tags::leg_tag(index, self.plan, traced, measured));
            for drop in traced.strand.drops.iter().filter(|drop| drop.end.is_none()) {
                labels.push(tags::drop_label(drop, traced.drop_place(drop), traced));
            }
        }
        labels
    }

    /// The length of a leg as it was built.
    fn measured(&self, traced: &Traced<'_>) -> Option<crate::units::Mm> {
        let leg = traced.strand.leg;
        let legs = &self.runs.circuits.get(&leg.circuit)?.legs;
        let place = legs.iter().position(|one| one.number == leg.number)?;
        self.lengths.circuits.get(&leg.circuit)?.get(place)?.measured
    }

    fn rows(
        &self,
        drawing: &Drawing<'_>,
        scale: Scale,
        paper: Paper,
        floors: &Floors<'_>,
    ) -> Vec<Row> {
        let mut occurs = self.occurs(drawing);
        let legs = drawing.traced.iter().map(|one| one.strand.leg);
        occurs.worst = worst::any(&floors.worst, legs);
        let mut rows = legend::legend(&occurs);
        let here = self.circuits_here(drawing);
        rows.extend(legend::circuits(self.plan, self.runs, self.lengths, &here));
        rows.extend(legend::scale_bar(scale, paper));
        rows.extend(legend::cautions());
        rows
    }

    /// The circuits that have a point or a cable here, and those that have a
    /// place nowhere yet: else no sheet would tell of them.
    fn circuits_here(&self, drawing: &Drawing<'_>) -> BTreeSet<CircuitId> {
        if let Some(only) = self.options.circuit {
            return BTreeSet::from([only]);
        }
        let placed = self.plan.points.values().filter(|point| point.place.is_some());
        let placed: BTreeSet<CircuitId> = placed.filter_map(|point| point.circuit).collect();
        let nowhere = self.plan.circuits.keys().filter(|id| !placed.contains(*id)).copied();
        let fed = drawing.stands.iter().filter_map(|stand| stand.fed_by);
        let run = drawing.traced.iter().map(|traced| traced.strand.leg.circuit);
        nowhere.chain(fed).chain(run).collect()
    }

    fn occurs(&self, drawing: &Drawing<'_>) -> Occurs {
        let mut occurs = Occurs::default();
        for stand in &drawing.stands {
            occurs.signs.insert(stand.sign);
            occurs.gangs |= stand.gangs > 1;
            occurs.heights |= stand.height.is_some() && !stand.aside;
            occurs.circuits |= stand.circuit.is_some() && !stand.aside;
            occurs.others_grey |= stand.aside;
            if ends::has_cable(stand, &drawing.traced) {
                occurs.tails = true;
                occurs.drips |= stand.wet;
            }
        }
        let walls = self.plan.walls.values();
        occurs.builds =
            walls.filter(|wall| wall.level == self.options.level).map(|wall| wall.build).collect();
        for traced in &drawing.traced {
            match self.measured(traced) {
                Some(_) => occurs.measured_legs = true,
                None => occurs.legs = true,
            }
            for stretch in &traced.strand.stretches {
                occurs.media.extend(stretch.media.iter().copied());
            }
            for drop in &traced.strand.drops {
                occurs.drops_down |= drop.comes_down();
                occurs.drops_up |= !drop.comes_down();
            }
        }
        let unplaced = |place: &Option<crate::plan::Place>| place.is_none();
        occurs.unplaced = self.plan.points.values().filter(|point| unplaced(&point.place)).count()
            + self.plan.boards.values().filter(|board| unplaced(&board.place)).count();
        occurs
    }

    fn title(&self) -> String {
        match self.circuit {
            Some(circuit) => {
                let number = marks(self.plan).circuit(circuit);
                format!("{}: {number}, {}", self.level.name, circuit.name)
            }
            None => format!("{}: points and cable runs", self.level.name),
        }
    }

    fn title_block(&self, scale: Scale, paper: Paper) -> TitleBlock<'_> {
        TitleBlock {
            project: &self.plan.project,
            stage: self.plan.stage(),
            shows: self.title(),
            kind: KIND,
            scale: Some(scale),
            paper,
        }
    }
}

/// All shapes in an item.
fn paths(item: &Item) -> Vec<kurbo::BezPath> {
    match item {
        Item::Path(mark) => vec![mark.path.clone()],
        Item::Text(_) => Vec::new(),
        Item::Group(group) => group.items.iter().flat_map(paths).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A crowded level takes the largest paper at 1:50 before a smaller scale.
    #[test]
    fn crowded_levels_keep_their_scale() {
        let options = FloorOptions::of(LevelId(1));
        let at_50 = |crowded: bool| {
            let fifty = |one: &&(Scale, Page)| one.0.reduction() == 50;
            let all = settings(&options, crowded);
            all.iter().take_while(fifty).map(|one| one.1.paper).max()
        };
        assert_eq!(at_50(false), Some(Paper::A2), "as usual");
        assert_eq!(at_50(true), Some(Paper::A0), "the largest there is");
    }
}

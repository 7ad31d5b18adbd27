//! The floor sheet: one level from above, with its points and its cables.

mod bare;
mod cheapest;
mod crowd;
mod dimensions;
mod ends;
mod floors;
mod hatch;
mod labels;
mod lanes;
mod legend;
mod numbered;
mod opened;
mod opening_marks;
mod openings;
mod outline;
mod points;
mod rooms;
mod runs;
mod settings;
mod spot;
mod standing;
mod strands;
mod tags;
mod tally;
mod view;
mod wall_names;
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
pub use self::floors::Floors;
use self::floors::Shell;
use self::legend::Occurs;
use self::points::Stand;
use self::rooms::Names;
use self::runs::Traced;
use self::view::View;
use super::panel::{Panel, Row, WIDTH as PANEL_WIDTH};
use super::scene::{Group, Item, Layer, Scene, bounds};
use super::stated;
use super::title_block::{HEIGHT as TITLE_HEIGHT, TitleBlock};
use super::{Page, PaperSize, Scale, frame, pen};
use crate::lengths::Lengths;
use crate::plan::{Circuit, CircuitId, Level, LevelId, Plan, Stage, labels as marks};
use crate::runs::{Runs, built};
use crate::sheet::House;
use crate::units::Point2;
use crate::wording::Local;

/// What a floor sheet shows, and on what.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct FloorOptions {
    /// The level.
    pub level: LevelId,
    /// One circuit alone, the others' points greyed. None: all of them.
    pub circuit: Option<CircuitId>,
    /// The paper. None: the smallest that the level fits on at a good scale.
    pub paper: Option<PaperSize>,
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
pub fn floor_sheet(house: &House<'_>, options: &FloorOptions) -> Result<Scene, SheetError> {
    let House { plan, runs, lengths, local, .. } = house;
    Floors::of(plan, runs, lengths, local.clone()).sheet(options)
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
        let paper = settings.iter().map(|(_, page)| page.paper).max().unwrap_or(PaperSize::A0);
        let scale = settings.iter().map(|(scale, _)| *scale).max().unwrap_or(Scale::STEPS[6]);
        SheetError::TooLarge { level: self.options.level, paper: paper.name(), scale }
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
        let mut block = self.title_block(scale, page.paper, &floors.local).draw(title);
        if self.plan.stage() != Stage::Planned {
            stated::write(&mut block, &built(self.plan, self.runs));
        }
        items.push(block);
        let kind = KIND.to_owned();
        let (title, origin) = (self.title(), Some(view.unanchored().1.to_point()));
        Some(Scene { page, title, kind, scale: Some(scale), origin, items })
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
        let walls = self.wall_names(drawing, &mut crowd, &placed);
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
        items.extend(walls);
        items
    }

    /// The names of walls, where the rest leaves room: on a sheet about one
    /// circuit of those alone that it has to do with.
    fn wall_names(
        &self,
        drawing: &Drawing<'_>,
        crowd: &mut Crowd,
        placed: &[labels::Placed],
    ) -> Vec<Item> {
        let own = self.options.circuit.map(|id| wall_names::of_circuit(self.plan, self.runs, id));
        let names = drawing.shell.names.iter();
        let names = names.filter(|name| own.as_ref().is_none_or(|own| own.contains(&name.wall)));
        wall_names::lettered(names, crowd, placed)
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
        paper: PaperSize,
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
        occurs.walls = !drawing.shell.names.is_empty();
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

    fn title_block<'t>(
        &'t self,
        scale: Scale,
        paper: PaperSize,
        local: &'t Local,
    ) -> TitleBlock<'t> {
        TitleBlock {
            standard: &local.standard,
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

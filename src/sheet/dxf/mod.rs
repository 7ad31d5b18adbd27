//! A scene as a drawing exchange file, in text, of the oldest dialect that
//! everything reads (release 12).
//!
//! `y` runs up and one unit is one millimetre, which the header says. A level
//! from above lies in *model space* in the coordinates of the plan, so that all
//! sheets of a level lie over each other; letters and symbols are as large as
//! the sheet's scale makes them. Frame, notes and title block lie in *paper
//! space*, in millimetres of the sheet, with a window that shows the building
//! at the sheet's scale. The cautions stand in both. Walls, openings, rooms,
//! points and letters have a layer each, and so has every circuit. Other scenes
//! lie in model space as on their paper, from its lower left corner on.
//!
//! Heavy lines are as wide as on paper; curves become straight pieces. Grounds
//! in the colour of the paper, which only keep lines off letters, are left out.
//! Group codes after the published reference of the format.

mod colour;
mod file;
mod layers;
mod mark;
mod tables;
mod text;
mod window;

use kurbo::{Point, Rect};

use self::file::{File, Space};
use self::layers::{CAUTION, Layers};
use super::lettering::{Lettering, Weight, wrap};
use super::scene::{Item, Layer, Scene, Text, bounds};
use super::{cautions, panel};
use crate::plan::Plan;

/// The scene as the bytes of a file, a byte for every sign (Windows-1252, which
/// readers of this version expect). The plan tells of whose circuits it is.
#[must_use]
pub fn dxf(scene: &Scene, plan: &Plan) -> Vec<u8> {
    let grow = scene.scale.map_or(1.0, |scale| f64::from(scale.reduction()));
    let (width, height) = scene.page.size();
    let origin = scene.origin.unwrap_or(Point::new(0.0, height));
    let layers = Layers::of(scene, plan);
    let mut file = File::new(grow, origin, height);
    let cautions = if scene.origin.is_some() { cautions(scene) } else { Vec::new() };
    let sheet = Rect::new(0.0, 0.0, width, height);
    let shown = shown(scene).unwrap_or(sheet);
    let reaches = cautions.iter().fold(shown, |all, text| all.union(text.bounds()));
    tables::header(&mut file, reaches, sheet);
    tables::tables(&mut file, &layers.names());
    file.pairs(&[(0, "SECTION"), (2, "ENTITIES")]);
    if scene.origin.is_some() {
        window::windows(&mut file, shown, sheet);
    }
    for found in &scene.items {
        item(&mut file, &layers, found);
    }
    file.layer(CAUTION, Space::Model);
    for text in &cautions {
        mark::lettering(&mut file, text);
    }
    file.pairs(&[(0, "ENDSEC"), (0, "EOF")]);
    file.bytes
}

fn item(file: &mut File, layers: &Layers<'_>, item: &Item) {
    match item {
        Item::Path(path) => mark::mark(file, path),
        Item::Text(text) => mark::lettering(file, text),
        Item::Group(group) => {
            let (name, space) = layers.of_group(group);
            for inner in &group.items {
                // Once more after what a group within has put elsewhere.
                file.layer(&name, space);
                self::item(file, layers, inner);
            }
        }
    }
}

/// What of the paper the building and its marks take; None where it is all of
/// the paper that the scene is about.
fn shown(scene: &Scene) -> Option<Rect> {
    scene.origin?;
    let on_paper =
        [Layer::Frame, Layer::Notes, Layer::TitleBlock, Layer::SheetNumber, Layer::Status];
    let of_house =
        |item: &&Item| !matches!(item, Item::Group(group) if on_paper.contains(&group.layer));
    let items = scene.items.iter().filter(of_house).filter_map(Item::bounds);
    items.reduce(|all, one| all.union(one))
}

/// The cautions under the walls, for whoever takes the building without its
/// sheet. At the same place on every sheet of a level that has dimensions.
fn cautions(scene: &Scene) -> Vec<Text> {
    let walls = |item: &&Item| matches!(item, Item::Group(group) if group.layer == Layer::Walls);
    let walls = scene.items.iter().filter(walls).filter_map(Item::bounds);
    let walls = walls.reduce(|all, one| all.union(one)).or_else(|| bounds(&scene.items));
    let walls = walls.unwrap_or(Rect::ZERO);
    let width = walls.width().max(panel::TEXT_WIDTH);
    let said = [cautions::AID].into_iter().chain(cautions::BEFORE_WORK);
    let lines = said.flat_map(|text| wrap(text, width, Lettering::Note, Weight::Regular));
    let measured =
        |item: &&Item| matches!(item, Item::Group(group) if group.layer == Layer::Dimensions);
    let measured = scene.items.iter().filter(measured).filter_map(Item::bounds);
    let foot = measured.map(|all| all.y1).fold(walls.y1, f64::max) + BELOW;
    let below = |index: u32| foot + panel::LEADING * f64::from(index);
    let placed = (0..).zip(lines);
    placed.map(|(index, line)| Text::new(line, (walls.x0, below(index)), Lettering::Note)).collect()
}

/// From walls and dimensions down to the cautions, mm of paper.
const BELOW: f64 = 12.0;

//! What can be asked for while the building is drawn, with its keys. What has
//! no key is found by its name.

use wirewend::plan::{OpeningKind, RoomUse, WallBuild};
use wirewend::session::state::{Amount, AreaKind, Tool};

use crate::app::keys::{Bound, Command, bound};

/// What can be asked of the building.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::app) enum Ask {
    /// What walls are made of.
    Build(WallBuild),
    Insulate,
    /// What rooms are used for.
    Use(RoomUse),
    /// A door's handle on the other side.
    Handle,
    /// A level over the highest, or under the lowest.
    AddLevel(bool),
    RemoveLevel,
    /// Whether the level below shows through.
    Below,
    /// A void over the level, or under it.
    AddVoid(bool),
    /// The void over the level, or under it.
    Void(bool),
    /// The void covers all again.
    NoOutline,
    /// What an area does.
    Effect(AreaKind),
    /// Metric, or feet and inches.
    Measure,
    /// Which picture lies beneath.
    Picture,
    TakePicture,
    HidePicture,
    Stronger,
    Fainter,
    TurnPicture,
    /// Which file is brought in.
    Import,
    /// How a draft is made.
    Draft,
}

const fn ask(ask: Ask, key: &'static str, does: &'static str) -> Bound {
    bound(Command::Building(ask), key, does)
}

/// Commands of the survey.
pub(in crate::app) const COMMANDS: [Bound; 68] = [
    bound(Command::Take(Tool::Opening(OpeningKind::Door)), "D", "place doors"),
    bound(Command::Take(Tool::Opening(OpeningKind::Window)), "N", "place windows"),
    bound(Command::Take(Tool::Opening(OpeningKind::SlidingDoor)), "Shift+D", "place sliding doors"),
    bound(
        Command::Take(Tool::Opening(OpeningKind::Plain)),
        "Shift+N",
        "place openings without a door",
    ),
    bound(Command::Take(Tool::Area(AreaKind::KeepOut)), "I", "draw a keep-out: no cable inside"),
    bound(Command::Take(Tool::Area(AreaKind::Dear)), "Shift+I", "draw an area that cables avoid"),
    bound(Command::Take(Tool::Area(AreaKind::Cheap)), "J", "draw a way that cables prefer"),
    bound(Command::Take(Tool::Area(AreaKind::Barrier)), "Shift+J", "draw what is costly to cross"),
    bound(Command::Take(Tool::Outline), "U", "draw what a void covers"),
    bound(Command::Take(Tool::Ruler), "Shift+M", "scale the picture by a length that is known"),
    bound(Command::Ask(Amount::Width), "M", "type how long or wide it is"),
    bound(Command::Ask(Amount::Thick), "Shift+X", "type how thick it is"),
    bound(Command::Ask(Amount::Head), "Shift+T", "type how high its upper edge is"),
    bound(Command::Ask(Amount::Name), "E", "name what is chosen, or the level"),
    bound(Command::Ask(Amount::Direction), "", "type the direction of the joists"),
    bound(Command::Ask(Amount::Spacing), "", "type how far the joists are apart"),
    bound(Command::Ask(Amount::Percent), "", "type what cable costs in an area"),
    bound(Command::Ask(Amount::Ceiling), "", "type how high the ceiling is"),
    bound(Command::Ask(Amount::Floor), "", "type how high the floor of the level is"),
    ask(Ask::Build(WallBuild::Stud), "Shift+1", "walls of studs"),
    ask(Ask::Build(WallBuild::BrickVeneer), "Shift+2", "walls of brick veneer"),
    ask(Ask::Build(WallBuild::SolidMasonry), "Shift+3", "walls of solid masonry"),
    ask(Ask::Build(WallBuild::CavityMasonry), "Shift+4", "walls of cavity masonry"),
    ask(Ask::Build(WallBuild::DoubleBrick), "Shift+5", "walls of double brick"),
    ask(Ask::Build(WallBuild::Concrete), "Shift+6", "walls of concrete"),
    ask(Ask::Build(WallBuild::LathAndPlaster), "Shift+7", "walls of lath and plaster"),
    ask(Ask::Build(WallBuild::Screen), "Shift+8", "screens and fences"),
    ask(Ask::Insulate, "Shift+9", "insulation in the chosen walls, or none"),
    ask(Ask::Handle, "Shift+R", "the handle of a door on its other side"),
    ask(Ask::AddLevel(true), "Ctrl+PageUp", "add a level over the highest"),
    ask(Ask::AddLevel(false), "Ctrl+PageDown", "add a level under the lowest"),
    ask(Ask::RemoveLevel, "", "take this level away with all on it"),
    ask(Ask::Below, "Shift+B", "the level below shows through, or not"),
    ask(Ask::AddVoid(true), "", "add a void overhead"),
    ask(Ask::AddVoid(false), "", "add a void underfloor"),
    ask(Ask::Void(true), "Shift+V", "choose the void overhead"),
    ask(Ask::Void(false), "Shift+U", "choose the void underfloor"),
    ask(Ask::NoOutline, "", "the chosen void covers all of the level"),
    ask(Ask::Effect(AreaKind::KeepOut), "", "the chosen area keeps cables out"),
    ask(Ask::Effect(AreaKind::Dear), "", "cables avoid the chosen area"),
    ask(Ask::Effect(AreaKind::Cheap), "", "cables prefer the chosen area"),
    ask(Ask::Effect(AreaKind::Barrier), "", "the chosen area is costly to cross"),
    ask(Ask::Measure, "F3", "metric, or feet and inches"),
    ask(Ask::Picture, "Ctrl+P", "lay a picture of a plan beneath the level"),
    ask(Ask::TakePicture, "Shift+P", "take the picture: drag it, or delete it"),
    ask(Ask::HidePicture, "Shift+H", "put the picture away, or bring it back"),
    ask(Ask::Stronger, "]", "the picture stronger"),
    ask(Ask::Fainter, "[", "the picture fainter"),
    ask(Ask::TurnPicture, "Shift+F", "turn the picture a quarter"),
    ask(Ask::Import, "Ctrl+I", "bring in a layout: IFC, DXF, SVG, GeoJSON"),
    ask(Ask::Draft, "Ctrl+R", "draft the wiring of this layout"),
    ask(Ask::Use(RoomUse::Living), "", "the room is a living room"),
    ask(Ask::Use(RoomUse::Dining), "", "the room is a dining room"),
    ask(Ask::Use(RoomUse::Kitchen), "", "the room is a kitchen"),
    ask(Ask::Use(RoomUse::Bedroom), "", "the room is a bedroom"),
    ask(Ask::Use(RoomUse::Bathroom), "", "the room is a bathroom"),
    ask(Ask::Use(RoomUse::Toilet), "", "the room is a toilet"),
    ask(Ask::Use(RoomUse::Laundry), "", "the room is a laundry"),
    ask(Ask::Use(RoomUse::Hall), "", "the room is a hall"),
    ask(Ask::Use(RoomUse::Stair), "", "the room is a stair"),
    ask(Ask::Use(RoomUse::Study), "", "the room is a study"),
    ask(Ask::Use(RoomUse::Garage), "", "the room is a garage"),
    ask(Ask::Use(RoomUse::Store), "", "the room is a store"),
    ask(Ask::Use(RoomUse::Outdoor), "", "the room is outdoors"),
    ask(Ask::Use(RoomUse::Other), "", "the room's use is not said"),
    bound(Command::Ask(Amount::Along), "X", "type how far from the corner, or how far to move"),
    bound(Command::Ask(Amount::Height), "T", "type how high it is"),
    bound(Command::Take(Tool::Wall), "W", "draw walls"),
];

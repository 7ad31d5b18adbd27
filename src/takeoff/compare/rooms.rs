//! Rooms, areas, risers and pictures beneath the levels.

use super::building::{degrees, each, named};
use super::told::{Side, ThingChange, Told};
use super::words::{choice, list, metres, outline, percent};
use crate::plan::{Area, AreaEffect, Backdrop, LevelId, Plane, Riser, Room, Subject, VoidId};
use crate::units::Point2;

pub(super) fn rooms(sides: (&Side<'_>, &Side<'_>), changes: &mut Vec<ThingChange>) {
    each(
        sides,
        |plan| &plan.rooms,
        Subject::Room,
        (&|_, id, it: &Room| named("room", &it.name, id), &room),
        changes,
    );
    each(
        sides,
        |plan| &plan.areas,
        Subject::Area,
        (&|_, id, it: &Area| named("area", &it.name, id), &area),
        changes,
    );
    each(
        sides,
        |plan| &plan.risers,
        Subject::Riser,
        (&|_, id, it: &Riser| named("riser", &it.name, id), &riser),
        changes,
    );
    let beneath =
        |side: &Side<'_>, id: LevelId, _: &Backdrop| format!("picture beneath {}", side.level(id));
    each(sides, |plan| &plan.backdrops, Subject::Level, (&beneath, &backdrop), changes);
}

fn room(was: &Room, is: &Room, told: &mut Told) {
    let Room { level, name, usage, outline: around } = was;
    told.field("level", level, &is.level, ToString::to_string);
    told.text("name", name, &is.name);
    told.field("use", usage, &is.usage, choice);
    if *around != is.outline {
        told.say(outline(around, &is.outline));
    }
}

fn area(was: &Area, is: &Area, told: &mut Told) {
    let Area { name, on, outline: around, effect } = was;
    told.text("name", name, &is.name);
    told.field("on", on, &is.on, |it| match it {
        Plane::Void(id) => format!("void {id}"),
        Plane::Wall(id) => format!("wall {id}"),
    });
    if *around != is.outline {
        told.say(outline(around, &is.outline));
    }
    told.field("effect", effect, &is.effect, |it| match it {
        AreaEffect::KeepOut => "keep out".to_owned(),
        AreaEffect::Percent(share) => format!("{} of plain cost", percent(share)),
        AreaEffect::Barrier(toll) => format!("as dear to pass as {}", metres(toll)),
    });
}

fn riser(was: &Riser, is: &Riser, told: &mut Told) {
    let Riser { name, at, voids } = was;
    told.text("name", name, &is.name);
    step(*at, is.at, told);
    told.field("joins", voids, &is.voids, |it| list(it, VoidId::to_string));
}

fn step(from: Point2, to: Point2, told: &mut Told) {
    if from != to {
        let by = crate::units::Mm::from_f64(from.distance(to));
        told.say(by.map_or("moved".to_owned(), |by| format!("moved {}", metres(&by))));
    }
}

fn backdrop(was: &Backdrop, is: &Backdrop, told: &mut Told) {
    let Backdrop { file, at, width, turn, strength, hidden } = was;
    told.text("file", file, &is.file);
    step(*at, is.at, told);
    told.field("width", width, &is.width, metres);
    told.field("turned", turn, &is.turn, degrees);
    told.field("strength", strength, &is.strength, |it| format!("{it} %"));
    match (*hidden, is.hidden) {
        (false, true) => told.say("put away"),
        (true, false) => told.say("shown again"),
        _ => {}
    }
}

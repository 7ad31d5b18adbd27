//! Levels, voids, walls and openings.

use super::told::{Fate, Section, Side, ThingChange, Told, fates, once};
use super::words::{choice, list, metres, millimetres, or_open, outline, yes};
use crate::plan::{Joists, Level, Opening, Subject, Void, VoidId, Wall};
use crate::units::{Angle, Mm};

const SECTION: Section = Section::Building;

/// Names of a kind of thing, and how two of them differ.
type Ways<'w, Id, T> = (&'w dyn Fn(&Side<'_>, Id, &T) -> String, &'w dyn Fn(&T, &T, &mut Told));

/// Everything of a kind that came, went or changed.
pub(super) fn each<Id, T>(
    (old, new): (&Side<'_>, &Side<'_>),
    of: impl Fn(&crate::plan::Plan) -> &indexmap::IndexMap<Id, T>,
    subject: impl Fn(Id) -> Subject,
    (name, differs): Ways<'_, Id, T>,
    changes: &mut Vec<ThingChange>,
) where
    Id: Copy + Eq + std::hash::Hash,
{
    for (id, fate) in fates(of(old.plan), of(new.plan)) {
        let subject = Some(subject(id));
        changes.extend(match fate {
            Fate::Gone(was) => Some(once(SECTION, subject, name(old, id, was), "removed")),
            Fate::Came(is) => Some(once(SECTION, subject, name(new, id, is), "added")),
            Fate::Stayed { was, is } => {
                let mut told = Told::default();
                differs(was, is, &mut told);
                told.of(SECTION, subject, name(new, id, is))
            }
        });
    }
}

/// `roof space`, or its id where it has no name.
pub(super) fn named(noun: &str, name: &str, id: impl std::fmt::Display) -> String {
    if name.is_empty() { format!("{noun} {id}") } else { format!("{noun} {name}") }
}

pub(super) fn building(sides: (&Side<'_>, &Side<'_>), changes: &mut Vec<ThingChange>) {
    each(
        sides,
        |plan| &plan.levels,
        Subject::Level,
        (&|_, id, it: &Level| named("level", &it.name, id), &level),
        changes,
    );
    each(
        sides,
        |plan| &plan.voids,
        Subject::Void,
        (&|_, id, it: &Void| named("void", &it.name, id), &void),
        changes,
    );
    each(
        sides,
        |plan| &plan.walls,
        Subject::Wall,
        (&|_, id, _| format!("wall {id}"), &wall),
        changes,
    );
    let opened =
        |_: &Side<'_>, id, it: &Opening| format!("{} {id} in {}", choice(&it.kind), it.wall);
    each(sides, |plan| &plan.openings, Subject::Opening, (&opened, &opening), changes);
}

fn ids(all: &[VoidId]) -> String {
    list(all, VoidId::to_string)
}

fn level(was: &Level, is: &Level, told: &mut Told) {
    let Level { name, floor, height, above, below } = was;
    told.text("name", name, &is.name);
    told.field("floor", floor, &is.floor, metres);
    told.field("height", height, &is.height, metres);
    told.field("voids above", above, &is.above, |it| ids(it));
    told.field("voids below", below, &is.below, |it| ids(it));
}

fn void(was: &Void, is: &Void, told: &mut Told) {
    let Void { name, kind, z, depth, direction, joists, insulation, access, outline: around } = was;
    told.text("name", name, &is.name);
    told.field("kind", kind, &is.kind, choice);
    told.field("height of its cables", z, &is.z, metres);
    told.field("depth", depth, &is.depth, metres);
    told.field("direction", direction, &is.direction, degrees);
    told.field("joists", joists, &is.joists, |it: &Option<Joists>| {
        it.map_or("none".to_owned(), |it| {
            let [spacing, depth, thickness] =
                [it.spacing, it.depth, it.thickness].map(|one| millimetres(&one));
            format!("every {spacing}, {depth} deep, {thickness} thick")
        })
    });
    told.field("insulation", insulation, &is.insulation, millimetres);
    told.field("access", access, &is.access, choice);
    match (around, &is.outline) {
        (Some(was), Some(is)) if was != is => told.say(outline(was, is)),
        (Some(_), None) => told.say("outline as walls and rooms have it, was drawn"),
        (None, Some(_)) => told.say("outline drawn, was as walls and rooms have it"),
        _ => {}
    }
}

/// `12.5°`.
pub(super) fn degrees(angle: &Angle) -> String {
    format!("{}°", f64::from(angle.millidegrees()) / 1000.0)
}

fn wall(was: &Wall, is: &Wall, told: &mut Told) {
    let Wall { level, a, b, thickness, build, insulated, wet } = was;
    told.field("level", level, &is.level, ToString::to_string);
    if (*a, *b) != (is.a, is.b) {
        let long = |wall: &Wall| {
            Mm::from_f64(wall.length()).map_or_else(|_| "?".to_owned(), |it| metres(&it))
        };
        let by = |from: crate::units::Point2, to| {
            Mm::from_f64(from.distance(to)).map_or_else(|_| "?".to_owned(), |it| metres(&it))
        };
        let (now, before) = (long(is), long(was));
        let length = if now == before {
            format!("{now} long as before")
        } else {
            format!("{now} long, was {before}")
        };
        told.say(format!("ends moved {} and {}, {length}", by(*a, is.a), by(*b, is.b)));
    }
    told.field("thickness", thickness, &is.thickness, millimetres);
    told.field("build", build, &is.build, choice);
    told.field("insulated", insulated, &is.insulated, yes);
    told.field("face in the rain", wet, &is.wet, |it| {
        it.as_ref().map_or("none".to_owned(), choice)
    });
}

fn opening(was: &Opening, is: &Opening, told: &mut Told) {
    let Opening { wall, kind, from, width, sill, head, hinge } = was;
    told.field("in", wall, &is.wall, ToString::to_string);
    told.field("kind", kind, &is.kind, choice);
    if *from != is.from {
        told.say(format!("moved {} along its wall", metres(&(is.from - *from).abs())));
    }
    told.field("width", width, &is.width, metres);
    told.field("lower edge", sill, &is.sill, metres);
    told.field("upper edge", head, &is.head, metres);
    told.field("hung", hinge, &is.hinge, |it| {
        or_open(it, |it| {
            let edge = if it.at_near_edge { "near edge" } else { "far edge" };
            format!("at its {edge}, opening {}", choice(&it.opens))
        })
    });
}

//! What is set for the whole job: its names, allowances and habits.

use super::told::{Section, Side, ThingChange, Told};
use super::words::{choice, metres, millimetres, percent, permille, yes};
use crate::plan::{Allowances, AsPlanned, Habits, Project, WallZones};

pub(super) fn job((old, new): (&Side<'_>, &Side<'_>), changes: &mut Vec<ThingChange>) {
    let mut told = Told::default();
    project(&old.plan.project, &new.plan.project, &mut told);
    // What the client pays in, and the tax on it, are no secret of the book's.
    let (was, is) = (&old.plan.prices, &new.plan.prices);
    told.text("currency", &was.currency, &is.currency);
    told.field("tax", &was.tax_permille, &is.tax_permille, permille);
    changes.extend(told.of(Section::Job, None, "the job"));
    let mut told = Told::default();
    allowances(&old.plan.allowances, &new.plan.allowances, &mut told);
    changes.extend(told.of(Section::Allowances, None, "allowances"));
    let mut told = Told::default();
    habits(&old.plan.habits, &new.plan.habits, &mut told);
    changes.extend(told.of(Section::Allowances, None, "habits"));
}

fn project(was: &Project, is: &Project, told: &mut Told) {
    let Project {
        title,
        site,
        client,
        drawn_by,
        contractor,
        number,
        revision,
        date,
        status,
        built_as_planned,
        regime,
        notes,
    } = was;
    for (what, was, is) in [
        ("title", title, &is.title),
        ("site", site, &is.site),
        ("client", client, &is.client),
        ("drawn by", drawn_by, &is.drawn_by),
        ("contractor", contractor, &is.contractor),
        ("number", number, &is.number),
        ("revision", revision, &is.revision),
        ("date", date, &is.date),
        ("notes", notes, &is.notes),
    ] {
        told.text(what, was, is);
    }
    told.field("status", status, &is.status, choice);
    let said = |one: &Option<AsPlanned>| {
        one.as_ref().map_or_else(String::new, |one| format!("by {} on {}", one.by, one.on))
    };
    told.text("built as planned", &said(built_as_planned), &said(&is.built_as_planned));
    told.field("rules", regime, &is.regime, choice);
}

fn allowances(was: &Allowances, is: &Allowances, told: &mut Told) {
    let Allowances {
        tail_box,
        tail_ceiling,
        tail_fixed,
        tail_board,
        turn_over,
        pull_permille,
        void_loop,
        drip_loop,
        step,
        waste_permille,
    } = was;
    for (what, was, is) in [
        ("tail at a box", tail_box, &is.tail_box),
        ("tail at a ceiling", tail_ceiling, &is.tail_ceiling),
        ("tail at an appliance", tail_fixed, &is.tail_fixed),
        ("tail at a board", tail_board, &is.tail_board),
        ("turn through a plate", turn_over, &is.turn_over),
        ("loop in a void", void_loop, &is.void_loop),
        ("drip loop", drip_loop, &is.drip_loop),
        ("step of cut lengths", step, &is.step),
    ] {
        told.field(what, was, is, millimetres);
    }
    told.field("slack on the way", pull_permille, &is.pull_permille, permille);
    told.field("waste", waste_permille, &is.waste_permille, permille);
}

fn habits(was: &Habits, is: &Habits, told: &mut Told) {
    let Habits {
        bend,
        plate,
        joist_cross_percent,
        stud_percent,
        chase_percent,
        surface_percent,
        trench_percent,
        opening_clearance,
        corner,
        keep_apart,
        zones: WallZones { strip },
    } = was;
    for (what, was, is) in [
        ("a bend as dear as", bend, &is.bend),
        ("a plate as dear as", plate, &is.plate),
        ("a corner inside walls as dear as", corner, &is.corner),
        ("clear of openings by", opening_clearance, &is.opening_clearance),
        ("strip for cables at ceilings and corners", strip, &is.zones.strip),
    ] {
        told.field(what, was, is, metres);
    }
    for (what, was, is) in [
        ("across joists dearer by", joist_cross_percent, &is.joist_cross_percent),
        ("sideways in studs at", stud_percent, &is.stud_percent),
        ("in a chase at", chase_percent, &is.chase_percent),
        ("on the surface at", surface_percent, &is.surface_percent),
        ("in a trench at", trench_percent, &is.trench_percent),
    ] {
        told.field(what, was, is, percent);
    }
    told.field("cables laid apart", keep_apart, &is.keep_apart, yes);
}

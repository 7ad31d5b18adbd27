//! Boards and the supply behind them.

use super::places::moved;
use super::points::amps;
use super::told::{Fate, Section, Side, ThingChange, Told, fates, once};
use super::words::{choice, or_open};
use crate::plan::{Board, BoardId, Subject, Supply};

pub(super) fn boards(old: &Side<'_>, new: &Side<'_>, changes: &mut Vec<ThingChange>) {
    for (id, fate) in fates(&old.plan.boards, &new.plan.boards) {
        changes.extend(match fate {
            Fate::Gone(was) => Some(whole(old, id, was, "removed")),
            Fate::Came(is) => Some(whole(new, id, is, "added")),
            Fate::Stayed { was, is } => changed((old, was), (new, is), id),
        });
    }
}

fn whole(side: &Side<'_>, id: BoardId, board: &Board, fate: &str) -> ThingChange {
    let place = board.place.map_or("not placed".to_owned(), |place| side.place(&place));
    let ways = or_open(&board.ways, u16::to_string);
    let what = format!("{fate}: {place}, ways {ways}");
    once(Section::Boards, Some(Subject::Board(id)), side.marks.board(id), what)
}

fn changed(
    (old, was): (&Side<'_>, &Board),
    (new, is): (&Side<'_>, &Board),
    id: BoardId,
) -> Option<ThingChange> {
    let Board { label, place, supply, ways } = was;
    let mut told = Told::default();
    let (mark, marked) = (new.marks.board(id), old.marks.board(id));
    if mark != marked {
        told.say(format!("marked {mark}, was {marked}"));
    } else {
        told.text("label", label, &is.label);
    }
    if let Some(moved) = moved((old, *place), (new, is.place)) {
        told.say(moved);
    }
    told.field("ways", ways, &is.ways, |it| or_open(it, u16::to_string));
    fed(supply, &is.supply, &mut told);
    told.of(Section::Boards, Some(Subject::Board(id)), mark)
}

fn fed(was: &Supply, is: &Supply, told: &mut Told) {
    let Supply { voltage, phases, loop_impedance, fault_current, earthing, main_switch } = was;
    told.field("voltage", voltage, &is.voltage, |it| or_open(it, |it| format!("{} V", it.0)));
    told.field("phases", phases, &is.phases, |it| or_open(it, u8::to_string));
    told.field("loop impedance outside", loop_impedance, &is.loop_impedance, |it| {
        or_open(it, |it| format!("{} Ω", it.0))
    });
    told.field("fault current", fault_current, &is.fault_current, amps);
    told.field("earthing", earthing, &is.earthing, |it| or_open(it, choice));
    told.field("main switch", main_switch, &is.main_switch, amps);
}

//! Circuits, and which switches work which lights.

use super::points::marks;
use super::told::{Fate, Section, Side, ThingChange, Told, fates, once};
use super::words::{choice, list, or_open};
use crate::plan::{
    BoardId, Cable, Circuit, CircuitId, Control, ControlId, Device, LoopAt, Pin, Subject, Way,
};

pub(super) fn circuits(old: &Side<'_>, new: &Side<'_>, changes: &mut Vec<ThingChange>) {
    for (id, fate) in fates(&old.plan.circuits, &new.plan.circuits) {
        changes.extend(match fate {
            Fate::Gone(was) => Some(whole(old, id, was, "removed")),
            Fate::Came(is) => Some(whole(new, id, is, "added")),
            Fate::Stayed { was, is } => changed((old, was), (new, is), id),
        });
    }
}

/// `circuit 3 (Kitchen)`.
fn name(side: &Side<'_>, circuit: &Circuit) -> String {
    let number = side.marks.circuit(circuit);
    if circuit.name.is_empty() { number } else { format!("{number} ({})", circuit.name) }
}

fn whole(side: &Side<'_>, id: CircuitId, circuit: &Circuit, fate: &str) -> ThingChange {
    let what = format!(
        "{fate}: {}, {}, device {}",
        choice(&circuit.usage),
        or_open(&circuit.cable, Cable::to_string),
        or_open(&circuit.device, device),
    );
    once(Section::Circuits, Some(Subject::Circuit(id)), name(side, circuit), what)
}

/// `B16, 30 mA`.
fn device(device: &Device) -> String {
    let residual = device
        .residual
        .map_or_else(|| "without residual current".to_owned(), crate::wording::residual);
    format!("{}{}, {residual}", device.curve, device.rating.0)
}

fn changed(
    (old, was): (&Side<'_>, &Circuit),
    (new, is): (&Side<'_>, &Circuit),
    id: CircuitId,
) -> Option<ThingChange> {
    let Circuit {
        number,
        name: called,
        board,
        usage,
        cable,
        device: protects,
        wiring,
        loop_at,
        ways,
        order,
        spurs,
        pins,
        phase,
        rcd_group,
    } = was;
    let mut told = Told::default();
    told.field("number", number, &is.number, u16::to_string);
    told.text("name", called, &is.name);
    if *board != is.board {
        let from = |side: &Side<'_>, id: Option<BoardId>| {
            id.map_or("no board".to_owned(), |id| side.marks.board(id).to_owned())
        };
        told.say(format!("from {}, was from {}", from(new, is.board), from(old, *board)));
    }
    told.field("for", usage, &is.usage, choice);
    told.field("cable", cable, &is.cable, |it| or_open(it, Cable::to_string));
    told.field("device", protects, &is.device, |it| or_open(it, device));
    told.field("wired as", wiring, &is.wiring, choice);
    told.field("looped at the", loop_at, &is.loop_at, |it: &Option<LoopAt>| or_open(it, choice));
    told.field("ways of its cables", ways, &is.ways, |it: &Option<Vec<Way>>| {
        it.as_ref().map_or("all but the surface".to_owned(), |ways| list(ways, choice))
    });
    if *order != is.order {
        let says = format!("{}, was {}", marks(new, &is.order), marks(old, order));
        told.say(format!("order set by hand {says}"));
    }
    if *spurs != is.spurs {
        let says = |side: &Side<'_>, circuit: &Circuit| {
            list(&circuit.spurs, |spur| {
                let (point, from) = (side.marks.point(spur.point), side.marks.end(spur.from));
                format!("{point} off {from}")
            })
        };
        told.say(format!("spurs set by hand {}, was {}", says(new, is), says(old, was)));
    }
    if *pins != is.pins {
        told.say(format!("held on its way {}, was {}", held(new, &is.pins), held(old, pins)));
    }
    told.field("phase", phase, &is.phase, |it| or_open(it, u8::to_string));
    told.text("shared residual-current device", rcd_group, &is.rcd_group);
    told.of(Section::Circuits, Some(Subject::Circuit(id)), name(new, is))
}

fn held(side: &Side<'_>, pins: &[Pin]) -> String {
    list(pins, |pin| {
        let (from, to) = (side.marks.end(pin.from), side.marks.end(pin.to));
        let through = list(&pin.through, |place| {
            let (x, y) = (place.at.x.get(), place.at.y.get());
            format!("{x}, {y} in {}", place.void)
        });
        format!("{from} to {to} through {through}")
    })
}

pub(super) fn controls(old: &Side<'_>, new: &Side<'_>, changes: &mut Vec<ThingChange>) {
    for (id, fate) in fates(&old.plan.controls, &new.plan.controls) {
        let subject = Some(Subject::Control(id));
        let whole = |side: &Side<'_>, control: &Control, fate: &str| {
            Some(once(Section::Switching, subject, switched(side, id, control), fate))
        };
        changes.extend(match fate {
            Fate::Gone(was) => whole(old, was, "removed"),
            Fate::Came(is) => whole(new, is, "added"),
            Fate::Stayed { was, is } => {
                let Control { lights, switches, in_order } = was;
                let mut told = Told::default();
                for (what, was, is) in
                    [("lights", lights, &is.lights), ("switches", switches, &is.switches)]
                {
                    if was != is {
                        told.say(format!("{what} {}, was {}", marks(new, is), marks(old, was)));
                    }
                }
                told.field("switches in this order", in_order, &is.in_order, super::words::yes);
                told.of(Section::Switching, subject, switched(new, id, is))
            }
        });
    }
}

/// `LT1, LT2 by SW1`.
fn switched(side: &Side<'_>, id: ControlId, control: &Control) -> String {
    if control.lights.is_empty() && control.switches.is_empty() {
        return format!("control {id}");
    }
    format!("{} by {}", marks(side, &control.lights), marks(side, &control.switches))
}

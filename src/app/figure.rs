//! Figures that can be asked how they came about.

use wirewend::plan::{CircuitId, labels};
use wirewend::runs::OrderMethod;
use wirewend::units::{Mm, Term, Working};
use wirewend::wording::Marks;

use super::length::Measure;
use super::work::Picture;

/// A figure on the screen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Figure {
    /// All the cable of a circuit.
    Metres(CircuitId),
    /// One of its legs, by its place in the run.
    Leg(CircuitId, usize),
    /// What its device is held against.
    Device(CircuitId),
    /// Its greatest volt drop.
    VoltDrop(CircuitId),
    /// Its greatest earth-fault loop impedance.
    Loop(CircuitId),
    /// All the cable of the job.
    Cable,
    /// What the job costs.
    Price,
}

/// A figure with its working.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Shown {
    pub(super) title: String,
    pub(super) value: String,
    pub(super) working: Working,
}

impl Figure {
    /// How it came about. None where there is no such figure.
    pub(super) fn shown(self, picture: &Picture) -> Option<Shown> {
        let marks = labels(&picture.plan);
        let name = |id: CircuitId, what: &str| {
            let circuit = picture.plan.circuits.get(&id)?;
            let number = marks.number(circuit);
            Some(format!("Circuit {number}: {what}"))
        };
        let checked = |id: CircuitId| picture.checked.circuits.get(&id);
        match self {
            Self::Metres(id) => Some(Shown {
                title: name(id, "cable to cut")?,
                value: metres(total(picture, id)?),
                working: legs(picture, id)?,
            }),
            Self::Leg(id, index) => {
                let leg = picture.runs.circuits.get(&id)?.legs.get(index)?;
                let length = picture.lengths.circuits.get(&id)?.get(index)?;
                Some(Shown {
                    title: name(id, &format!("leg {}", leg.number))?,
                    value: metres(length.cut.value),
                    working: length.cut.working.clone(),
                })
            }
            Self::Device(id) => {
                let figures = checked(id)?;
                let design = figures.design_current.as_ref()?;
                let device = figures.device.map_or("?".to_owned(), |amps| format!("{} A", amps.0));
                let mut working = design.working.clone();
                working.terms.push(Term::new("device", device, "plan"));
                if let Some(carries) = &figures.capacity {
                    let value = format!("{:.1} A", carries.value.0);
                    working.terms.push(Term::new("the cable carries", value, "checks"));
                    working.terms.extend(carries.working.terms.iter().cloned());
                }
                Some(Shown {
                    title: name(id, "design current")?,
                    value: format!("{:.1} A", design.value.0),
                    working,
                })
            }
            Self::VoltDrop(id) => {
                let drop = checked(id)?.volt_drop.as_ref()?;
                Some(Shown {
                    title: name(id, "volt drop")?,
                    value: format!("{:.2} V", drop.value.0),
                    working: drop.working.clone(),
                })
            }
            Self::Loop(id) => {
                let loops = checked(id)?.loop_impedance.as_ref()?;
                Some(Shown {
                    title: name(id, "earth-fault loop")?,
                    value: format!("{:.2} Ω", loops.value.0),
                    working: loops.working.clone(),
                })
            }
            Self::Cable => Some(all_cable(picture)),
            Self::Price => {
                let price = picture.price.as_ref()?;
                Some(Shown {
                    title: "Price by the plan's own price book".to_owned(),
                    value: price.says(),
                    working: price.working(),
                })
            }
        }
    }
}

/// All the cable of a job, type by type.
fn all_cable(picture: &Picture) -> Shown {
    let cables = &picture.lengths.cables;
    let terms = cables.iter().map(|cable| {
        let name = cable.cable.map_or("no cable chosen".to_owned(), |cable| cable.to_string());
        Term::new(name, metres(cable.cut), format!("{} pieces", cable.pieces))
    });
    let working = Working {
        formula: "the cut lengths of all legs added up, by cable".to_owned(),
        terms: terms.collect(),
    };
    let all = cables.iter().map(|cable| cable.cut).sum();
    let value = if cables.is_empty() { "no leg is routed".to_owned() } else { metres(all) };
    Shown { title: "All cable".to_owned(), value, working }
}

/// All the cable of a circuit. None where no leg of it is routed.
pub(super) fn total(picture: &Picture, id: CircuitId) -> Option<Mm> {
    let legs = picture.lengths.circuits.get(&id).filter(|legs| !legs.is_empty())?;
    Some(legs.iter().map(wirewend::lengths::LegLength::cut_or_measured).sum())
}

fn legs(picture: &Picture, id: CircuitId) -> Option<Working> {
    let marks = labels(&picture.plan);
    let run = picture.runs.circuits.get(&id)?;
    let lengths = picture.lengths.circuits.get(&id)?;
    let terms = run.legs.iter().zip(lengths).map(|(leg, length)| {
        let what = format!("leg {}: {} to {}", leg.number, marks.end(leg.from), marks.end(leg.to));
        let source = if length.measured.is_some() { "measured" } else { "cut length" };
        Term::new(what, metres(length.cut_or_measured()), source)
    });
    let gap = run.order.gap_permille();
    let order = match gap {
        _ if run.order.method == OrderMethod::Fixed => {
            "this order was set by hand and not compared with others".to_owned()
        }
        0 => "no order of these points is shorter to lay".to_owned(),
        gap => format!("a better order could save {}.{} % at most", gap.div_euclid(10), gap % 10),
    };
    Some(Working { formula: format!("legs added up; {order}"), terms: terms.collect() })
}

/// A length of cable in a working.
fn metres(length: Mm) -> String {
    Measure::Metric.run(length)
}

/// A length in millimetres, thousands apart.
pub(super) fn millimetres(length: Mm) -> String {
    format!("{} mm", thousands(length.get()))
}

/// A whole number, thousands apart.
pub(super) fn thousands(number: i64) -> String {
    Marks::SHOWN.whole(number)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thousands_stand_apart() {
        let expect = [(0, "0"), (999, "999"), (1_000, "1 000"), (-1_234_567, "-1 234 567")];
        for (number, text) in expect {
            assert_eq!(thousands(number), text);
        }
    }
}

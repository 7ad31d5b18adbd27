//! The layers of a drawing: one for each kind of mark, and one for each circuit.

use std::collections::BTreeSet;

use super::file::Space;
use crate::plan::{CircuitId, Plan, Subject, labels};
use crate::sheet::scene::{Group, Item, Layer, Scene};

/// As long as the name of a layer may be in this version, signs.
const LENGTH_MAX: usize = 31;

const KINDS: [Layer; 12] = [
    Layer::Frame,
    Layer::Walls,
    Layer::Openings,
    Layer::Rooms,
    Layer::Runs,
    Layer::Points,
    Layer::Dimensions,
    Layer::Labels,
    Layer::Notes,
    Layer::TitleBlock,
    Layer::SheetNumber,
    Layer::Status,
];

/// The layer of the cautions that lie beside the building.
pub(super) const CAUTION: &str = "CAUTION";
/// The layer of the window through which the sheet shows the building.
pub(super) const WINDOW: &str = "WINDOW";

/// The layers of one drawing.
pub(super) struct Layers<'a> {
    plan: &'a Plan,
    /// The circuits that have something on it, each with the name of its layer.
    circuits: Vec<(CircuitId, String)>,
    /// Whether it shows a level from above, whose marks lie with the building.
    is_plan: bool,
}

impl<'a> Layers<'a> {
    pub(super) fn of(scene: &Scene, plan: &'a Plan) -> Self {
        let mut here = BTreeSet::new();
        circuits_of(&scene.items, plan, &mut here);
        let marks = labels(plan);
        let mut taken: BTreeSet<String> = BTreeSet::new();
        let mut circuits = Vec::new();
        // In the order of the plan and all of them, so that the same circuit has
        // the same layer on every sheet.
        for (id, circuit) in &plan.circuits {
            let whole = format!("CIRCUIT {} {}", marks.number(circuit), circuit.name);
            let name = apart(&plain(&whole), &taken);
            taken.insert(name.clone());
            if here.contains(id) {
                circuits.push((*id, name));
            }
        }
        Self { plan, circuits, is_plan: scene.origin.is_some() }
    }

    /// Every name.
    pub(super) fn names(&self) -> Vec<String> {
        let kinds = KINDS.into_iter().map(named);
        let circuits = self.circuits.iter().map(|(_, name)| name.clone());
        kinds.chain([CAUTION, WINDOW].map(str::to_owned)).chain(circuits).collect()
    }

    /// The layer of a group and the space in which that lies.
    pub(super) fn of_group(&self, group: &Group) -> (String, Space) {
        let space = match group.layer {
            Layer::Frame
            | Layer::Notes
            | Layer::TitleBlock
            | Layer::SheetNumber
            | Layer::Status
                if self.is_plan =>
            {
                Space::Paper
            }
            _ => Space::Model,
        };
        let circuit = circuit_of(group, self.plan);
        let own = self.circuits.iter().find(|(id, _)| Some(*id) == circuit);
        (own.map_or_else(|| named(group.layer), |(_, name)| name.clone()), space)
    }
}

fn named(layer: Layer) -> String {
    layer.name().to_uppercase()
}

/// The circuit whose cables a group shows.
fn circuit_of(group: &Group, plan: &Plan) -> Option<CircuitId> {
    match group.subject.filter(|_| group.layer == Layer::Runs)? {
        Subject::Circuit(id) | Subject::Leg { circuit: id, .. } => Some(id),
        Subject::Point(id) => plan.points.get(&id)?.circuit,
        _ => None,
    }
}

fn circuits_of(items: &[Item], plan: &Plan, found: &mut BTreeSet<CircuitId>) {
    for item in items {
        if let Item::Group(group) = item {
            found.extend(circuit_of(group, plan));
            circuits_of(&group.items, plan, found);
        }
    }
}

/// A name in the signs that this version has for layers: capitals, figures and
/// hyphens.
fn plain(name: &str) -> String {
    let mut plain = String::new();
    for sign in name.chars().flat_map(char::to_uppercase) {
        let sign = bare(sign);
        if sign.is_ascii_alphanumeric() {
            plain.push(sign);
        } else if !plain.ends_with('-') {
            plain.push('-');
        }
    }
    plain.truncate(LENGTH_MAX);
    plain.trim_matches('-').to_owned()
}

/// A capital of western languages without its accent.
const fn bare(sign: char) -> char {
    match sign {
        'À'..='Å' => 'A',
        'Ç' => 'C',
        'È'..='Ë' => 'E',
        'Ì'..='Ï' => 'I',
        'Ñ' => 'N',
        'Ò'..='Ö' | 'Ø' => 'O',
        'Ù'..='Ü' => 'U',
        'Ý' => 'Y',
        other => other,
    }
}

/// A name that no layer has yet.
fn apart(name: &str, taken: &BTreeSet<String>) -> String {
    let others = (2..).map(|count| {
        let end = format!("-{count}");
        let kept: String = name.chars().take(LENGTH_MAX - end.len()).collect();
        kept + &end
    });
    let names = std::iter::once(name.to_owned()).chain(others);
    names.into_iter().find(|name| !taken.contains(name)).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_layer_is_named_in_capitals_figures_and_hyphens() {
        assert_eq!(plain("CIRCUIT DB2/3 Küche, Herd"), "CIRCUIT-DB2-3-KUCHE-HERD");
        assert_eq!(plain("CIRCUIT 4 書斎"), "CIRCUIT-4");
        let long = plain("CIRCUIT 12 sockets of the long upstairs hall");
        assert_eq!(long, "CIRCUIT-12-SOCKETS-OF-THE-LONG");
        let taken = BTreeSet::from([long.clone()]);
        let next = apart(&long, &taken);
        assert_eq!((next.as_str(), next.len()), ("CIRCUIT-12-SOCKETS-OF-THE-LON-2", LENGTH_MAX));
    }
}

//! Circuits under the hand: what is on which, in which order, which leg.

use crate::plan::{Change, Circuit, CircuitId, Edit, End, PointId, labels};
use crate::runs::{OrderMethod, Run};
use crate::session::Session;
use crate::session::ground::remove;
use crate::session::state::LegKey;

impl Session {
    /// Puts the chosen points on a circuit.
    pub fn put_on(&mut self, id: CircuitId) {
        let points = self.chosen_points();
        let edits = remove::rewired(self.document.plan(), &points, id);
        if points.is_empty() {
            self.said = "choose points first".to_owned();
        } else if edits.is_empty() {
            self.said = "they are on it already".to_owned();
        } else if self.edit(Edit::Many(edits)) {
            let circuit = self.document.plan().circuits.get(&id);
            let name =
                circuit.map_or_else(String::new, |one| labels(self.document.plan()).circuit(one));
            let count = points.len();
            self.said = match count {
                1 => format!("on {name} now"),
                _ => format!("{count} points are on {name} now"),
            };
        }
    }

    /// Opens the next circuit, or the one before.
    pub fn next_circuit(&mut self, onward: bool) {
        let all: Vec<CircuitId> = self.document.plan().circuits.keys().copied().collect();
        let now = all.iter().position(|id| Some(*id) == self.selection.circuit());
        if let Some(next) = turn(all.len(), now, onward) {
            self.selection.open(None);
            self.selection.choose_leg(None);
            self.choose_circuit(Some(all[next]));
        }
    }

    /// Chooses the next leg of the open circuit, or the one before.
    pub fn next_leg(&mut self, onward: bool) {
        let Some(picture) = self.jobs.picture().cloned() else { return };
        let circuit = self.selection.circuit().or(self.selection.leg().map(|leg| leg.circuit));
        let Some(run) = circuit.and_then(|id| picture.runs.circuits.get(&id)) else {
            self.said = "open a circuit first: Ctrl+Down".to_owned();
            return;
        };
        let now = self.chosen_leg(&picture).map(|(index, _)| index);
        if let Some(next) = turn(run.legs.len(), now, onward) {
            self.selection.choose_leg(Some(LegKey::of(&run.legs[next])));
        }
    }

    /// Keeps the order of the open circuit as it is, or frees it again.
    pub fn keep_order(&mut self) {
        let Some((id, circuit)) = self.open_circuit() else { return };
        if circuit.order.is_empty() {
            let Some(order) = self.order_now(id) else { return };
            if self.edit(Change::Put(id, Circuit { order, ..circuit }).into()) {
                self.said = "this order stays; Ctrl+K frees it".to_owned();
            }
        } else if self.edit(Change::Put(id, Circuit { order: Vec::new(), ..circuit }).into()) {
            self.said = "the best order is looked for again".to_owned();
        }
    }

    /// Turns the order of the open circuit round.
    pub fn reverse(&mut self) {
        let Some((id, circuit)) = self.open_circuit() else { return };
        let Some(mut order) = self.order_now(id) else { return };
        order.reverse();
        if self.edit(Change::Put(id, Circuit { order, ..circuit }).into()) {
            self.said = "the other way round; it stays so until Ctrl+K frees it".to_owned();
        }
    }

    /// The open circuit, or that of the chosen leg.
    fn open_circuit(&mut self) -> Option<(CircuitId, Circuit)> {
        let id = self.selection.circuit().or(self.selection.leg().map(|leg| leg.circuit));
        let found = id.and_then(|id| Some((id, self.document.plan().circuits.get(&id)?.clone())));
        if found.is_none() {
            self.said = "open a circuit first: Ctrl+Down".to_owned();
        }
        found
    }

    /// The order in which the feed of a circuit visits its points now.
    pub(crate) fn order_now(&mut self, id: CircuitId) -> Option<Vec<PointId>> {
        if self.jobs.is_behind() {
            self.said = "still computing: try again in a moment".to_owned();
            return None;
        }
        let run = self.jobs.picture()?.runs.circuits.get(&id)?;
        let order: Vec<PointId> = run
            .order
            .ends
            .iter()
            .filter_map(|end| if let End::Point(id) = end { Some(*id) } else { None })
            .collect();
        if order.is_empty() {
            self.said = "this circuit has no feed to order".to_owned();
            return None;
        }
        Some(order)
    }
}

/// Round a list of so many, from the one before or after.
fn turn(count: usize, now: Option<usize>, onward: bool) -> Option<usize> {
    if count == 0 {
        return None;
    }
    Some(match (now, onward) {
        (None, true) => 0,
        (None, false) => count - 1,
        (Some(now), true) => (now + 1) % count,
        (Some(now), false) => (now + count - 1) % count,
    })
}

/// What is known about how good an order is.
pub fn standing(run: &Run) -> String {
    let gap = run.order.gap_permille();
    let percent = format!("{}.{} %", gap.div_euclid(10), gap % 10);
    match (run.order.method, gap) {
        (OrderMethod::Fixed, _) => "order set by hand".to_owned(),
        (_, 0) => "best order".to_owned(),
        (_, _) => format!("within {percent} of the best"),
    }
}

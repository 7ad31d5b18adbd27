//! Points that are dragged onto the row of a circuit.

use wirewend::plan::{CircuitId, End, labels};

use super::App;

impl App {
    /// The pointer comes over a circuit's row, or leaves it, with something in
    /// the hand or without.
    pub(super) fn over_circuit(&mut self, circuit: Option<CircuitId>) {
        let desk = &mut self.desk;
        let Some(hold) = desk.hold.as_mut().filter(|hold| matches!(hold.end, End::Point(_))) else {
            desk.at_hand.over = None;
            return;
        };
        if !std::mem::take(&mut hold.to).is_empty() {
            desk.look_again();
        }
        desk.at_hand.over = circuit;
        if let Some(circuit) = circuit.and_then(|id| desk.plan.circuits.get(&id)) {
            desk.said = format!("let go: onto {}", labels(&desk.plan).circuit(circuit));
        } else {
            desk.said.clear();
        }
    }

    /// The button goes up: on a circuit's row, what is held goes onto it.
    pub(super) fn let_down(&mut self) {
        match self.desk.at_hand.over.take() {
            Some(circuit) if self.desk.hold.take().is_some() => self.desk.put_on(circuit),
            _ => self.desk.release(),
        }
    }
}

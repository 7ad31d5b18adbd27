//! Points that are dragged onto the row of a circuit.

use crate::plan::{CircuitId, End, labels};
use crate::session::Session;

impl Session {
    /// The pointer comes over a circuit's row, or leaves it, with something in
    /// the hand or without.
    pub fn over_circuit(&mut self, circuit: Option<CircuitId>) {
        let Some(hold) = self.hand.hold().filter(|hold| matches!(hold.end, End::Point(_))) else {
            self.hand.come_over(None);
            return;
        };
        if !hold.to.is_empty() {
            self.hand.carry_to(Vec::new());
            self.look_again();
        }
        self.hand.come_over(circuit);
        let plan = self.document.plan();
        if let Some(circuit) = circuit.and_then(|id| plan.circuits.get(&id)) {
            self.said = format!("let go: onto {}", labels(plan).circuit(circuit));
        } else {
            self.said.clear();
        }
    }

    /// The button goes up: on a circuit's row, what is held goes onto it.
    pub fn let_down(&mut self) {
        let over = self.hand.over();
        self.hand.come_over(None);
        match over {
            Some(circuit) if self.hand.let_go().is_some() => self.put_on(circuit),
            _ => self.release(),
        }
    }
}

//! The voltages along a chain, a tree or a ring of cable.

use super::phasor::Phasor;
use crate::units::Volts;

/// A tree of spans from a source, closed to a ring by at most one more span.
///
/// Nodes are numbered from 0, the source. Every span of the tree leads from a
/// node that is already reached to a new one.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Feeder {
    /// The spans of the tree, nearer ones first.
    pub spans: Vec<Span>,
    /// The span that closes a ring.
    pub closing: Option<Span>,
}

/// A length of cable between two nodes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// The node nearer to the source.
    pub from: usize,
    /// The other node.
    pub to: usize,
    /// The impedance in the way of the current, Ω: out and back where the
    /// current returns by the cable, one conductor where three phases balance.
    pub impedance: Phasor,
}

/// What is taken at a node: the same current whatever the voltage there.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Load {
    /// Current, A.
    pub current: f64,
    /// Cosine of the angle by which it lags the voltage at its own node.
    pub power_factor: f64,
}

impl Load {
    /// Its share in phase with a unit voltage, and lagging it.
    fn against(self, voltage: Phasor) -> Phasor {
        if self.current <= 0.0 {
            return Phasor::ZERO;
        }
        let sine = (1.0 - self.power_factor * self.power_factor).max(0.0).sqrt();
        let unit = voltage.times(1.0 / voltage.magnitude());
        unit * Phasor::new(self.power_factor, -sine).times(self.current)
    }
}

impl Feeder {
    /// How many nodes it has, the source included.
    #[must_use]
    pub fn nodes(&self) -> usize {
        self.spans.len() + 1
    }

    /// The voltage at every node.
    ///
    /// U(node) = U(source) − Σ z · I over the spans on the way, where I is all
    /// that is taken beyond the span. In a ring the current of the closing
    /// span is the one for which the voltages around the ring add up to
    /// nothing: c = −Σ s·z·I / Σ z, s being ±1 on the ring and 0 off it.
    ///
    /// Loads keep their current and their angle to the voltage at their own
    /// node, so the sum is repeated until nothing moves.
    ///
    /// Valid for any tree with at most one ring; a voltage that collapses
    /// below half of the source's is not followed further.
    ///
    /// Source: Kirchhoff's laws; backward and forward sweep.
    ///
    /// ```
    /// use wirewend::checks::{Feeder, Load, Phasor, Span};
    /// use wirewend::units::Volts;
    /// // 230 V, 2 × 9.012 Ω/km, 12 + 5 m, 2 A and then 4 A:
    /// // 0.018024 × (12 × 6 + 5 × 4) = 1.658 V at the far end.
    /// let z = |metres: f64| Phasor::new(0.018_024 * metres, 0.0);
    /// let feeder = Feeder {
    ///     spans: vec![
    ///         Span { from: 0, to: 1, impedance: z(12.0) },
    ///         Span { from: 1, to: 2, impedance: z(5.0) },
    ///     ],
    ///     closing: None,
    /// };
    /// let load = |current| Load { current, power_factor: 1.0 };
    /// let volts = feeder.voltages(Volts(230.0), &[load(0.0), load(2.0), load(4.0)]);
    /// assert!((230.0 - volts[2].magnitude() - 1.658_208).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn voltages(&self, source: Volts, loads: &[Load]) -> Vec<Phasor> {
        let start = Phasor::new(source.0, 0.0);
        let mut voltages = vec![start; self.nodes()];
        let mut currents = vec![Phasor::ZERO; self.nodes()];
        let signs = self.signs();
        for _ in 0..SWEEPS_MAX {
            self.sweep_back(&mut currents, &voltages, loads);
            let circulating = self.circulating(&currents, &signs);
            let moved = self.sweep_on(&mut voltages, &currents, &signs, circulating);
            if moved < source.0 * CLOSE_ENOUGH {
                break;
            }
        }
        voltages
    }

    /// For every node the current that enters it, the closing span left out.
    fn sweep_back(&self, currents: &mut [Phasor], voltages: &[Phasor], loads: &[Load]) {
        for (node, current) in currents.iter_mut().enumerate() {
            *current = loads.get(node).map_or(Phasor::ZERO, |load| load.against(voltages[node]));
        }
        for span in self.spans.iter().rev() {
            let taken = currents[span.to];
            currents[span.from] += taken;
        }
    }

    /// Works out the voltages, and says by how much the most moved of them
    /// moved.
    fn sweep_on(
        &self,
        voltages: &mut [Phasor],
        currents: &[Phasor],
        signs: &[f64],
        circulating: Phasor,
    ) -> f64 {
        let floor = voltages[0].magnitude() / 2.0;
        let mut moved: f64 = 0.0;
        for span in &self.spans {
            let current = currents[span.to] + circulating.times(signs[span.to]);
            let mut next = voltages[span.from] - span.impedance * current;
            if next.magnitude() < floor {
                next = Phasor::new(floor, 0.0);
            }
            moved = moved.max((next - voltages[span.to]).magnitude());
            voltages[span.to] = next;
        }
        moved
    }

    fn circulating(&self, currents: &[Phasor], signs: &[f64]) -> Phasor {
        let Some(closing) = self.closing else { return Phasor::ZERO };
        let mut around = closing.impedance;
        let mut push = Phasor::ZERO;
        for span in &self.spans {
            let sign = signs[span.to];
            push += (span.impedance * currents[span.to]).times(sign);
            around += span.impedance.times(sign * sign);
        }
        -(push / around)
    }

    /// For every node whether the span into it lies on the ring: +1 towards
    /// the first end of the closing span, −1 towards its second, 0 elsewhere.
    fn signs(&self) -> Vec<f64> {
        let mut signs = vec![0.0; self.nodes()];
        let Some(closing) = self.closing else { return signs };
        let mut into = vec![0; self.nodes()];
        for span in &self.spans {
            into[span.to] = span.from;
        }
        for (end, sign) in [(closing.from, 1.0), (closing.to, -1.0)] {
            let mut node = end;
            while node != 0 {
                signs[node] += sign;
                node = into[node];
            }
        }
        signs
    }

    /// The resistance between the source and every node, Ω: along the tree,
    /// or both ways round where a ring is closed.
    ///
    /// Z(node) = Σ z − (Σ s·z)² / Σ ring, the sums over the spans on the way.
    ///
    /// Holds for the real parts, and so for conductors below 50 mm².
    ///
    /// Source: two branches in parallel; a spur adds in series.
    #[must_use]
    pub fn resistances(&self) -> Vec<f64> {
        let signs = self.signs();
        let mut along = vec![0.0; self.nodes()];
        let mut shared = vec![0.0; self.nodes()];
        let mut ring = self.closing.map_or(0.0, |closing| closing.impedance.re);
        for span in &self.spans {
            let (r, sign) = (span.impedance.re, signs[span.to]);
            along[span.to] = along[span.from] + r;
            shared[span.to] = shared[span.from] + sign * r;
            ring += sign * sign * r;
        }
        if self.closing.is_some() && ring > 0.0 {
            for (whole, part) in along.iter_mut().zip(&shared) {
                *whole -= part * part / ring;
            }
        }
        along
    }
}

/// A load keeps its angle to a voltage that moves by parts in a thousand, so
/// each sweep gains about three figures.
const SWEEPS_MAX: usize = 20;
/// Far below what any meter or fixture can show.
const CLOSE_ENOUGH: f64 = 1e-12;

#[cfg(test)]
mod tests {
    use super::*;

    fn span(from: usize, to: usize, ohms: f64) -> Span {
        Span { from, to, impedance: Phasor::new(ohms, 0.0) }
    }

    #[test]
    fn a_ring_shares_its_current_by_resistance() {
        // 1 Ω to node 1, then 3 Ω back: three quarters go the short way.
        let ring = Feeder { spans: vec![span(0, 1, 1.0)], closing: Some(span(1, 0, 3.0)) };
        let loads = [Load::default(), Load { current: 4.0, power_factor: 1.0 }];
        let volts = ring.voltages(Volts(230.0), &loads);
        assert!((230.0 - volts[1].magnitude() - 3.0).abs() < 1e-9, "4 A × 1 Ω‖3 Ω");
        assert!((ring.resistances()[1] - 0.75).abs() < 1e-12, "1 Ω‖3 Ω");
    }

    #[test]
    fn a_spur_off_a_ring_adds_in_series() {
        let ring = Feeder {
            spans: vec![span(0, 1, 1.0), span(1, 2, 0.5), span(1, 3, 1.0)],
            closing: Some(span(3, 0, 2.0)),
        };
        assert!((ring.resistances()[2] - 1.25).abs() < 1e-12, "1 Ω‖3 Ω, and 0.5 Ω");
    }
}

//! Turning a part of the chain about.

use super::Improver;

impl Improver<'_> {
    /// Takes two legs out and joins the chain the other way, where that makes
    /// it lighter; one of the new legs is between `a` and an end near it.
    ///
    /// With the finish as one of the ends this turns the tail of an open
    /// chain: it swaps an inner leg for one that joins it to the far end. (The
    /// other swaps of that kind would move the start, which is the board.)
    pub(super) fn two_opt(&mut self, a: usize) -> bool {
        self.two_opt_after(a) || self.two_opt_before(a)
    }

    /// Legs (a, b) and (c, d) become (a, c) and (b, d); b follows a, d follows c.
    fn two_opt_after(&mut self, a: usize) -> bool {
        let (sub_path, place) = (self.sub_path, self.walk.place(a));
        if place == self.walk.last() {
            return false;
        }
        let b = self.walk.at(place + 1);
        for near in 0..self.near[a].len() {
            let c = self.near[a][near];
            let gain = sub_path.weight(a, b) - sub_path.weight(a, c);
            if gain <= 0 {
                return false;
            }
            let other = self.walk.place(c);
            if other == self.walk.last() {
                continue;
            }
            let d = self.walk.at(other + 1);
            let gain = gain + sub_path.weight(c, d) - sub_path.weight(b, d);
            if gain > 0
                && self.apply_turn(place.min(other) + 1, place.max(other), gain, [a, b, c, d])
            {
                return true;
            }
        }
        false
    }

    /// The same with b before a and d before c.
    fn two_opt_before(&mut self, a: usize) -> bool {
        let (sub_path, place) = (self.sub_path, self.walk.place(a));
        if place == 0 {
            return false;
        }
        let b = self.walk.at(place - 1);
        for near in 0..self.near[a].len() {
            let c = self.near[a][near];
            let gain = sub_path.weight(a, b) - sub_path.weight(a, c);
            if gain <= 0 {
                return false;
            }
            let other = self.walk.place(c);
            if other == 0 {
                continue;
            }
            let d = self.walk.at(other - 1);
            let gain = gain + sub_path.weight(c, d) - sub_path.weight(b, d);
            if gain > 0
                && self.apply_turn(place.min(other), place.max(other) - 1, gain, [a, b, c, d])
            {
                return true;
            }
        }
        false
    }

    /// False where a point would stand before one that must come first.
    fn apply_turn(&mut self, from: usize, to: usize, gain: i64, changed: [usize; 4]) -> bool {
        let turns = self.walk.turns();
        self.walk.turn(from, to);
        if !self.stands(turns) {
            return false;
        }
        self.weight -= gain;
        changed.into_iter().for_each(|end| self.mark(end));
        true
    }
}

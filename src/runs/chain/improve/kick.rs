//! A shake that the moves cannot undo in one step.

use super::Improver;

/// The longest part that changes places: a shake stays within a neighbourhood,
/// so that mending it stays cheap.
const PART_MAX: usize = 30;

impl Improver<'_> {
    /// Exchanges two neighbouring parts of the chain, picked by chance (the
    /// *double bridge*, within a window).
    pub(super) fn kick(&mut self) {
        let points = self.sub_path.points();
        let part = |room: usize| room.min(PART_MAX);
        let first = 1 + self.dice.below(points - 1);
        let middle = first + 1 + self.dice.below(part(points - first));
        let last = middle + self.dice.below(part(points + 1 - middle));
        let at = |place| self.walk.at(place);
        let [p, a, b, c, d, n] =
            [at(first - 1), at(first), at(middle - 1), at(middle), at(last), at(last + 1)];
        let weigh = |from, to| self.sub_path.weight(from, to);
        let change =
            weigh(p, c) + weigh(d, a) + weigh(b, n) - weigh(p, a) - weigh(b, c) - weigh(d, n);
        let turns = self.walk.turns();
        self.walk.exchange(first, middle, last, false);
        if !self.stands(turns) {
            return;
        }
        self.weight += change;
        [p, a, b, c, d, n].into_iter().for_each(|end| self.mark(end));
    }
}

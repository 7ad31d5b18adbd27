//! Moving a short part of the chain elsewhere.

use super::Improver;

/// Longer parts rarely fit anywhere else as they are.
const PART_MAX: usize = 3;

/// A part of the chain, by places, with `a` at one of its ends.
#[derive(Clone, Copy, Debug)]
struct Part {
    from: usize,
    to: usize,
    a: usize,
    /// At its other end.
    z: usize,
    /// `a` is its first end, not its last.
    leads: bool,
}

impl Improver<'_> {
    /// Moves one to three ends that begin or end with `a` to beside an end
    /// near `a`, either way about, where that makes the chain lighter.
    pub(super) fn or_opt(&mut self, a: usize) -> bool {
        let (place, last) = (self.walk.place(a), self.walk.last());
        if place == 0 || place == last {
            return false;
        }
        for long in 0..PART_MAX {
            if place + long < last {
                let z = self.walk.at(place + long);
                if self.move_part(Part { from: place, to: place + long, a, z, leads: true }) {
                    return true;
                }
            }
            if long > 0 && place > long {
                let z = self.walk.at(place - long);
                if self.move_part(Part { from: place - long, to: place, a, z, leads: false }) {
                    return true;
                }
            }
            if long == 0 && self.move_part(Part { from: place, to: place, a, z: a, leads: false }) {
                return true;
            }
        }
        false
    }

    fn move_part(&mut self, part: Part) -> bool {
        let (sub_path, a) = (self.sub_path, part.a);
        let (before, after) = (self.walk.at(part.from - 1), self.walk.at(part.to + 1));
        let (first, last) = if part.leads { (a, part.z) } else { (part.z, a) };
        let freed = sub_path.weight(before, first) + sub_path.weight(last, after)
            - sub_path.weight(before, after);
        for near in 0..self.near[a].len() {
            let c = self.near[a][near];
            if freed <= sub_path.weight(a, c) {
                return false;
            }
            let place = self.walk.place(c);
            if (part.from..=part.to).contains(&place) {
                continue;
            }
            if place + 1 != part.from && place < self.walk.last() {
                let d = self.walk.at(place + 1);
                if self.try_between(part, (place, place + 1), (c, d), freed) {
                    return true;
                }
            }
            if place != part.to + 1 && place > 0 {
                let d = self.walk.at(place - 1);
                if self.try_between(part, (place - 1, place), (c, d), freed) {
                    return true;
                }
            }
        }
        false
    }

    /// Between the places `left` and `right`, `a` beside `c`.
    fn try_between(
        &mut self,
        part: Part,
        (left, right): (usize, usize),
        (c, d): (usize, usize),
        freed: i64,
    ) -> bool {
        let sub_path = self.sub_path;
        let taken = sub_path.weight(c, part.a) + sub_path.weight(part.z, d) - sub_path.weight(c, d);
        if taken >= freed {
            return false;
        }
        let (before, after) = (self.walk.at(part.from - 1), self.walk.at(part.to + 1));
        let a_comes_first = self.walk.at(left) == c;
        let about = a_comes_first != part.leads;
        let turns = self.walk.turns();
        if left > part.to {
            self.walk.exchange(part.from, part.to + 1, left, about);
        } else {
            self.walk.exchange_back(right, part.from, part.to, about);
        }
        if !self.stands(turns) {
            return false;
        }
        self.weight -= freed - taken;
        [before, after, part.a, part.z, c, d].into_iter().for_each(|end| self.mark(end));
        true
    }
}

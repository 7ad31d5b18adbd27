//! An order that can be changed and changed back.

/// The ends from start to finish, and where each of them stands.
#[derive(Clone, Debug)]
pub(super) struct Walk {
    ends: Vec<usize>,
    places: Vec<usize>,
    /// The parts turned since the order was last kept.
    turned: Vec<(usize, usize)>,
}

impl Walk {
    pub(super) fn new(points: &[usize]) -> Self {
        let mut ends = vec![0];
        ends.extend_from_slice(points);
        ends.push(points.len() + 1);
        let mut places = vec![0; ends.len()];
        for (place, end) in ends.iter().enumerate() {
            places[*end] = place;
        }
        Self { ends, places, turned: Vec::new() }
    }

    pub(super) fn points(&self) -> &[usize] {
        &self.ends[1..self.ends.len() - 1]
    }

    pub(super) fn place(&self, end: usize) -> usize {
        self.places[end]
    }

    pub(super) fn at(&self, place: usize) -> usize {
        self.ends[place]
    }

    /// The place of the finish.
    pub(super) fn last(&self) -> usize {
        self.ends.len() - 1
    }

    /// Turns the part from place `from` to place `to` about.
    pub(super) fn turn(&mut self, from: usize, to: usize) {
        if from < to {
            self.turned.push((from, to));
            self.reverse(from, to);
        }
    }

    /// Exchanges two parts that follow each other: `from..middle` and
    /// `middle..=to`. With `about`, the first of them is turned as well.
    pub(super) fn exchange(&mut self, from: usize, middle: usize, to: usize, about: bool) {
        if !about {
            self.turn(from, middle - 1);
        }
        self.turn(middle, to);
        self.turn(from, to);
    }

    /// As [`Walk::exchange`], with the second part turned by `about`.
    pub(super) fn exchange_back(&mut self, from: usize, middle: usize, to: usize, about: bool) {
        self.turn(from, middle - 1);
        if !about {
            self.turn(middle, to);
        }
        self.turn(from, to);
    }

    /// How much was turned since the order was last kept.
    pub(super) fn turns(&self) -> usize {
        self.turned.len()
    }

    /// Back to when so much was turned.
    pub(super) fn back_to(&mut self, turns: usize) {
        while self.turned.len() > turns
            && let Some((from, to)) = self.turned.pop()
        {
            self.reverse(from, to);
        }
    }

    /// The order is good as it is.
    pub(super) fn keep(&mut self) {
        self.turned.clear();
    }

    /// Back to the order that was last kept.
    pub(super) fn take_back(&mut self) {
        self.back_to(0);
    }

    fn reverse(&mut self, from: usize, to: usize) {
        self.ends[from..=to].reverse();
        for place in from..=to {
            self.places[self.ends[place]] = place;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parts_change_places_and_come_back() {
        let mut walk = Walk::new(&[1, 2, 3, 4, 5]);
        walk.exchange(2, 4, 5, false);
        assert_eq!(walk.points(), [1, 4, 5, 2, 3], "2 3 with 4 5");
        walk.take_back();
        walk.exchange(2, 4, 5, true);
        assert_eq!(walk.points(), [1, 4, 5, 3, 2], "the first part turned");
        walk.take_back();
        walk.exchange_back(2, 4, 5, true);
        assert_eq!(walk.points(), [1, 5, 4, 2, 3], "the second part turned");
        walk.keep();
        walk.turn(1, 5);
        assert_eq!(walk.points(), [3, 2, 4, 5, 1], "all turned");
        walk.take_back();
        assert_eq!(walk.points(), [1, 5, 4, 2, 3], "back to what was kept");
        assert!((0..7).all(|end| walk.at(walk.place(end)) == end), "places follow");
    }
}

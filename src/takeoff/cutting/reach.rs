//! Which lengths can be made up exactly from pieces.

/// The sums of subsets of some pieces, up to a length, one bit each: a layer
/// of bits for every piece that is taken in, so that a sum can be taken apart
/// again.
///
/// All lengths are multiples of a common step, and counted in it, so that
/// lengths rounded to 100 mm take a hundredth of the work. The room is kept
/// from one use to the next.
#[derive(Debug)]
pub(super) struct Sums {
    step: i64,
    words: usize,
    layers: Vec<u64>,
    /// The piece of every layer but the first, by its place and length.
    pieces: Vec<(usize, i64)>,
    /// Words looked at so far: what a search may spend is counted in these.
    pub(super) work: u64,
}

const WORD: usize = 64;

impl Sums {
    /// For pieces whose lengths are multiples of `step`.
    pub(super) fn new(step: i64) -> Self {
        Self { step: step.max(1), words: 1, layers: Vec::new(), pieces: Vec::new(), work: 0 }
    }

    /// Makes up every sum of these lengths up to `limit`. Lengths that come
    /// first are taken first: longest first leaves the short ones.
    pub(super) fn make(&mut self, lengths: impl Iterator<Item = i64>, limit: i64) {
        self.lay(lengths, limit, None);
    }

    /// The same, but no more lengths are taken in once `limit` itself is made
    /// up: the others would not be taken.
    pub(super) fn make_full(&mut self, lengths: impl Iterator<Item = i64>, limit: i64) {
        let exact = (limit.rem_euclid(self.step) == 0).then_some(limit.div_euclid(self.step));
        self.lay(lengths, limit, exact.and_then(|steps| usize::try_from(steps).ok()));
    }

    fn lay(&mut self, lengths: impl Iterator<Item = i64>, limit: i64, enough: Option<usize>) {
        let steps = usize::try_from(limit.div_euclid(self.step)).unwrap_or(0);
        self.words = steps.div_euclid(WORD) + 1;
        self.pieces.clear();
        self.room_for(1);
        self.layers[..self.words].fill(0);
        self.layers[0] = 1;
        for (at, length) in lengths.enumerate().filter(|(_, length)| *length <= limit) {
            self.pieces.push((at, length));
            let last = self.pieces.len();
            self.room_for(last + 1);
            self.add(last - 1, usize::try_from(length.div_euclid(self.step)).unwrap_or(0));
            if enough.is_some_and(|steps| self.has(last, steps)) {
                break;
            }
        }
        self.work += 64 + (self.words * (self.pieces.len() + 1)) as u64;
    }

    fn room_for(&mut self, layers: usize) {
        let room = self.words * layers;
        if self.layers.len() < room {
            self.layers.resize(room, 0);
        }
    }

    /// Whether a layer has a sum, in steps.
    fn has(&self, layer: usize, steps: usize) -> bool {
        self.layer(layer)[steps.div_euclid(WORD)] >> steps.rem_euclid(WORD) & 1 == 1
    }

    /// Lays the layer behind layer `at`: the same sums, and each with a piece
    /// of `shift` steps more.
    fn add(&mut self, at: usize, shift: usize) {
        let words = self.words;
        let (before, behind) = self.layers.split_at_mut((at + 1) * words);
        let (old, new) = (&before[at * words..], &mut behind[..words]);
        let (whole, part) = (shift.div_euclid(WORD), shift.rem_euclid(WORD));
        new[..whole].copy_from_slice(&old[..whole]);
        let moved = &old[..words - whole];
        new[whole] = old[whole] | moved[0] << part;
        let rest = new[whole + 1..].iter_mut().zip(&old[whole + 1..]).zip(moved.windows(2));
        if part == 0 {
            rest.for_each(|((new, old), pair)| *new = old | pair[1]);
        } else {
            rest.for_each(|((new, old), pair)| {
                *new = old | pair[1] << part | pair[0] >> (WORD - part);
            });
        }
    }

    fn layer(&self, at: usize) -> &[u64] {
        &self.layers[at * self.words..(at + 1) * self.words]
    }

    /// The largest sum of at most `limit`; 0 where there is none.
    pub(super) fn most(&self, limit: i64) -> i64 {
        if limit < self.step {
            return 0;
        }
        let bits = self.layer(self.pieces.len());
        let steps = usize::try_from(limit.div_euclid(self.step)).unwrap_or(0);
        let last = steps.div_euclid(WORD).min(self.words - 1);
        let kept = if last == steps.div_euclid(WORD) { steps.rem_euclid(WORD) } else { WORD - 1 };
        let mut mask = u64::MAX >> (WORD - 1 - kept);
        for word in (0..=last).rev() {
            let found = bits[word] & mask;
            if found != 0 {
                let bit = WORD - 1 - usize::try_from(found.leading_zeros()).unwrap_or(0);
                return i64::try_from(word * WORD + bit).unwrap_or(0) * self.step;
            }
            mask = u64::MAX;
        }
        0
    }

    /// The places, in the order in which they were given, of pieces that make
    /// up a sum, the last first.
    pub(super) fn places(&self, sum: i64) -> Vec<usize> {
        let mut places = Vec::new();
        let mut rest = sum;
        for at in (0..self.pieces.len()).rev() {
            let step = usize::try_from(rest.div_euclid(self.step)).unwrap_or(0);
            if !self.has(at, step) {
                places.push(self.pieces[at].0);
                rest -= self.pieces[at].1;
            }
        }
        places
    }
}

/// The largest length of which all of these are multiples.
pub(super) fn common_step(lengths: &[i64]) -> i64 {
    let gcd = |mut a: i64, mut b: i64| {
        while b != 0 {
            (a, b) = (b, a.rem_euclid(b));
        }
        a
    };
    lengths.iter().fold(0, |step, length| gcd(step, *length)).max(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sums_are_those_of_all_subsets() {
        for lengths in [[700, 500, 300, 6400, 1100], [701, 512, 64, 6399, 1]] {
            let mut sums = Sums::new(common_step(&lengths));
            sums.make(lengths.iter().copied(), 7000);
            let mut all: Vec<i64> = (0..32_u32)
                .map(|set| (0..5).filter(|at| set >> at & 1 == 1).map(|at| lengths[at]).sum())
                .collect();
            all.sort_unstable();
            for limit in 0..=7000 {
                let expect = all.iter().copied().filter(|sum| *sum <= limit).max();
                assert_eq!(Some(sums.most(limit)), expect, "up to {limit}");
                let places = sums.places(sums.most(limit));
                let made = places.iter().map(|at| lengths[*at]).sum::<i64>();
                assert_eq!(Some(made), expect, "{limit}");
            }
            for limit in [700, 701, 1277, 7000] {
                sums.make(lengths.iter().copied(), limit);
                let all = (sums.most(limit), sums.places(sums.most(limit)));
                sums.make_full(lengths.iter().copied(), limit);
                assert_eq!((sums.most(limit), sums.places(sums.most(limit))), all, "{limit}");
            }
        }
    }
}

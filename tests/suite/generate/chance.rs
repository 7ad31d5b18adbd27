//! Chance that is the same on every machine: SplitMix64 (Steele, Lea and
//! Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014).

/// A stream of numbers from a seed.
pub(super) struct Chance {
    state: u64,
}

impl Chance {
    pub(super) fn new(seed: u64) -> Self {
        Self { state: seed }
    }

    fn next(&mut self) -> u64 {
        self.state = self.state.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.state;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// 0 to `count` − 1; 0 where there is nothing to choose from.
    pub(super) fn below(&mut self, count: usize) -> usize {
        usize::try_from(self.next().checked_rem(count as u64).unwrap_or(0)).unwrap()
    }

    /// `low` to `high`, both included.
    pub(super) fn within(&mut self, low: usize, high: usize) -> usize {
        low + self.below(high.saturating_sub(low) + 1)
    }

    /// `low` to `high`, both included.
    pub(super) fn between(&mut self, low: i64, high: i64) -> i64 {
        low + i64::try_from(self.below(usize::try_from((high - low).max(0)).unwrap() + 1)).unwrap()
    }

    /// True this many times in a hundred.
    pub(super) fn percent(&mut self, percent: usize) -> bool {
        self.below(100) < percent
    }

    /// One of several.
    pub(super) fn pick<T: Copy>(&mut self, several: &[T]) -> T {
        several[self.below(several.len())]
    }

    /// Takes one out of several, if there is any.
    pub(super) fn take<T>(&mut self, several: &mut Vec<T>) -> Option<T> {
        if several.is_empty() { None } else { Some(several.swap_remove(self.below(several.len()))) }
    }
}

#[test]
fn the_first_numbers_are_those_of_the_reference_code() {
    // From Vigna's splitmix64.c for seed 1234567, as used in the test of many
    // implementations (from memory).
    let mut chance = Chance::new(1_234_567);
    let numbers = [chance.next(), chance.next(), chance.next()];
    assert_eq!(
        numbers,
        [6_457_827_717_110_365_317, 3_203_168_211_198_807_973, 9_817_491_932_198_370_423]
    );
}

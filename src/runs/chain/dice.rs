//! Chance that is the same every time.

/// A stream of numbers from a set seed: Marsaglia's xorshift with a multiplier
/// (shifts 12, 25, 27; multiplier from Vigna's survey of such generators,
/// *from memory*). It only has to shake a chain, not to keep a secret.
#[derive(Clone, Debug)]
pub(crate) struct Dice(u64);

impl Dice {
    pub(crate) fn new() -> Self {
        Self::of_stream(0)
    }

    /// Other numbers for every stream.
    pub(crate) fn of_stream(stream: u64) -> Self {
        Self(0x9E37_79B9_7F4A_7C15 ^ stream.wrapping_mul(0xD134_2543_DE82_EF95))
    }

    /// A number below `count`, or 0.
    pub(crate) fn below(&mut self, count: usize) -> usize {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        let high = u128::from(self.0.wrapping_mul(0x2545_F491_4F6C_DD1D) >> 32);
        let below = (high * count as u128) >> 32;
        usize::try_from(below).unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_number_comes_up_about_as_often_and_always_the_same_ones() {
        let (mut dice, mut again) = (Dice::new(), Dice::new());
        let mut counts = [0_u32; 6];
        for _ in 0..6000 {
            let number = dice.below(6);
            assert_eq!(number, again.below(6), "the same stream");
            counts[number] += 1;
        }
        assert!(counts.iter().all(|count| (850..1150).contains(count)), "{counts:?}");
        assert_eq!(dice.below(0), 0, "nothing to choose from");
    }
}

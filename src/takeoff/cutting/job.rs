//! What is to be cut, from what; and how it is cut.

/// Pieces to cut, and what there is to cut them from. All lengths are mm and
/// above nought.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Job {
    /// The lengths to cut.
    pub pieces: Vec<i64>,
    /// Off-cuts, each there once.
    pub off_cuts: Vec<i64>,
    /// Drums that can be bought, as many as it takes.
    pub drums: Vec<DrumType>,
    /// A left-over shorter than this is scrap.
    pub usable: i64,
}

/// A drum that can be bought.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct DrumType {
    /// How much is on it, mm.
    pub length: i64,
    /// What it costs: anything above nought, the same unit for all.
    pub price: i64,
}

/// How the pieces of a job are cut. Pieces longer than everything there is
/// are in no filling.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Plan {
    /// What is cut from each off-cut of the job, in its order.
    pub off_cuts: Vec<Filling>,
    /// The drums to buy: which type, and what is cut from it.
    pub drums: Vec<(usize, Filling)>,
}

/// The places of pieces in the job's list.
pub type Filling = Vec<usize>;

impl Job {
    /// The longest piece that could be cut at all.
    #[must_use]
    pub fn longest_source(&self) -> i64 {
        let drums = self.drums.iter().map(|drum| drum.length);
        drums.chain(self.off_cuts.iter().copied()).max().unwrap_or(0)
    }

    /// The length of a filling.
    #[must_use]
    pub fn filled(&self, filling: &[usize]) -> i64 {
        filling.iter().map(|piece| self.pieces[*piece]).sum()
    }

    /// What is left over counts as scrap when it is too short to keep.
    #[must_use]
    pub const fn scrap_of(&self, left: i64) -> i64 {
        if left < self.usable { left } else { 0 }
    }

    /// What a plan reaches: paid, scrap, from drums, sources.
    #[must_use]
    pub fn values(&self, plan: &Plan) -> [i64; 4] {
        let mut values = [0; 4];
        let used = self.off_cuts.iter().zip(&plan.off_cuts);
        for (length, filling) in used.filter(|(_, filling)| !filling.is_empty()) {
            values[1] += self.scrap_of(length - self.filled(filling));
            values[3] += 1;
        }
        for (index, filling) in &plan.drums {
            let (drum, filled) = (self.drums[*index], self.filled(filling));
            values[0] += drum.price;
            values[1] += self.scrap_of(drum.length - filled);
            values[2] += filled;
            values[3] += 1;
        }
        values
    }
}

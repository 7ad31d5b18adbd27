//! Sets that grow together.

/// Numbers in sets; joining two sets makes them one.
pub(super) struct Sets(Vec<usize>);

impl Sets {
    pub(super) fn new(count: usize) -> Self {
        Self((0..count).collect())
    }

    /// The number that stands for a set: its lowest.
    pub(super) fn of(&mut self, mut index: usize) -> usize {
        while self.0[index] != index {
            self.0[index] = self.0[self.0[index]];
            index = self.0[index];
        }
        index
    }

    pub(super) fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.of(a), self.of(b));
        self.0[a.max(b)] = a.min(b);
    }
}

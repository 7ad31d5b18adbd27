//! Strips not to drill in.

use kurbo::Rect;

use super::WallView;

/// Half the width of a strip, mm: what a cable may lie off its line.
pub const KEEP_OFF: f64 = 50.0;

impl WallView<'_> {
    /// Around every cable behind it, within the piece; none within another.
    #[must_use]
    pub fn strips(&self) -> Vec<Rect> {
        let face = Rect::new(0.0, 0.0, self.piece.length, self.height);
        let around = |area: Rect| area.inflate(KEEP_OFF, KEEP_OFF).intersect(face);
        let areas = self.cables.iter().map(|one| around(Rect::from_points(one.from, one.to)));
        let mut strips: Vec<Rect> = Vec::new();
        for area in areas {
            if !strips.iter().any(|one| one.union(area) == *one) {
                strips.push(area);
            }
        }
        strips
    }
}

//! A wall before anything hangs on it.

use std::sync::Arc;

use super::{Column, WallField};

/// A wall with the columns of its corner strips and no others.
#[derive(Debug)]
pub(super) struct Bare {
    /// Its number in the plan, and that of its level.
    pub(super) index: usize,
    pub(super) level: usize,
    pub(super) field: WallField,
    pub(super) corners: Vec<Column>,
    /// Where things hang on it: how far along, and how high above its foot.
    pub(super) hung: Vec<(i64, i64)>,
    /// With the columns and rows of these. None before it was first furnished.
    pub(super) furnished: Option<Arc<WallField>>,
}

impl Bare {
    pub(super) const fn new(index: usize, level: usize, field: WallField) -> Self {
        Self { index, level, field, corners: Vec::new(), hung: Vec::new(), furnished: None }
    }

    /// Columns and rows in line with what hangs on it; whether anything has changed.
    pub(super) fn hang(&mut self, hung: &[(usize, i64, i64)]) -> bool {
        let places = || hung.iter().map(|(_, along, height)| (*along, *height));
        if self.furnished.is_some() && self.hung.iter().copied().eq(places()) {
            return false;
        }
        self.hung = places().collect();
        let mut field = self.field.clone();
        let own = self.hung.iter().map(|(along, _)| Column { along: *along, through: false });
        field.columns = own.chain(self.corners.iter().copied()).collect();
        field.columns.sort_unstable();
        field.columns.dedup_by_key(|column| column.along);
        let levels = self.hung.iter().map(|(_, height)| field.floor + height);
        field.rows.splice(0..0, levels);
        self.furnished = Some(Arc::new(field));
        true
    }
}

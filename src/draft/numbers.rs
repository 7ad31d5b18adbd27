//! From whole millimetres to fractions and back.

/// Along a wall, exactly below 2^53.
#[expect(clippy::cast_precision_loss, reason = "coordinates are far below 2^53")]
pub(super) const fn real(along: i64) -> f64 {
    along as f64
}

/// The nearest whole millimetre; 0 for what is no length.
pub(super) fn whole(value: f64) -> i64 {
    crate::units::Mm::from_f64(value).map_or(0, crate::units::Mm::get)
}

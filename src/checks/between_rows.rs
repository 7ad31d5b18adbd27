//! Values between the rows of a table.

/// The value at `x` on the power law through the rows on either side of it;
/// beyond the ends, on the law of the last two. None without a row.
///
/// y = y₀ · (x / x₀)^(ln(y₁/y₀) / ln(x₁/x₀))
///
/// Holds for rows of positive numbers in rising order of `x`.
pub(super) fn power_between(rows: &[(f64, f64)], x: f64) -> Option<f64> {
    let (last, second) = match rows {
        [] => return None,
        [only] => return Some(only.1),
        _ => (rows.len() - 1, rows.partition_point(|row| row.0 < x)),
    };
    let right = second.clamp(1, last);
    let ((x0, y0), (x1, y1)) = (rows[right - 1], rows[right]);
    if x <= x0 && right == 1 {
        return Some(y0);
    }
    let exponent = libm::log(y1 / y0) / libm::log(x1 / x0);
    Some(y0 * libm::pow(x / x0, exponent))
}

/// The value at `x` on the straight line through the rows on either side of
/// it; beyond the ends, the end's own.
pub(super) fn line_between(rows: &[(f64, f64)], x: f64) -> Option<f64> {
    let right = rows.partition_point(|row| row.0 < x);
    match (rows.get(right.wrapping_sub(1)), rows.get(right)) {
        (Some((x0, y0)), Some((x1, y1))) => Some(y0 + (y1 - y0) * (x - x0) / (x1 - x0)),
        (Some(end), None) | (None, Some(end)) => Some(end.1),
        (None, None) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn grouping_between_check_values_meets_the_printed_factors() {
        // IEC 60364-5-52 TB.52.17 item 1: 4, 5, 7, 8, 12 and 16 circuits.
        let rows = [(1.0, 1.0), (2.0, 0.8), (3.0, 0.7), (6.0, 0.57), (9.0, 0.5), (20.0, 0.38)];
        for (circuits, printed) in
            [(4.0, 0.65), (5.0, 0.6), (7.0, 0.54), (8.0, 0.52), (12.0, 0.45), (16.0, 0.41)]
        {
            let factor = power_between(&rows, circuits).unwrap();
            assert!((factor - printed).abs() < 0.012, "{circuits}: {factor}");
        }
    }
}

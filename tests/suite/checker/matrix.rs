//! The matrix of an order is even-handed and agrees with the legs.

use wirewend::runs::Distance;
use wirewend::units::{Cost, Mm};

use super::complaint::{Code, Complaints};
use super::walk::Case;

pub(crate) fn judge(case: &Case, book: &mut Complaints) {
    if let Some(text) = fault(case) {
        book.circuit(Code::Matrix, case.id, text);
    }
}

fn fault(case: &Case) -> Option<String> {
    let order = &case.run.order;
    let (ends, matrix) = (&order.matrix_ends, &order.matrix);
    if matrix.len() != ends.len() || matrix.iter().any(|row| row.len() != ends.len()) {
        return Some(format!("{} rows for {} ends", matrix.len(), ends.len()));
    }
    if let Some(end) = order.ends.iter().find(|end| order.ends.len() > 1 && !ends.contains(end)) {
        return Some(format!("no row for {end}"));
    }
    let nothing = Some(Distance { cost: Cost::ZERO, length: Mm::ZERO });
    for (at, row) in matrix.iter().enumerate() {
        if row[at] != nothing {
            return Some(format!("from {} to itself {:?}", ends[at], row[at]));
        }
        if let Some(to) = (0..at).find(|to| row[*to] != matrix[*to][at]) {
            return Some(format!("{} to {} is not the same both ways", ends[at], ends[to]));
        }
    }
    fault_with_legs(case)
}

/// Every leg whose two ends have a row is as the matrix says.
fn fault_with_legs(case: &Case) -> Option<String> {
    let order = &case.run.order;
    let row = |end| order.matrix_ends.iter().position(|one| *one == end);
    case.run.legs.iter().find_map(|leg| {
        let (from, to) = (row(leg.from)?, row(leg.to)?);
        let made = Distance { cost: leg.route.cost, length: leg.route.length };
        (order.matrix[from][to] != Some(made)).then(|| {
            let said = order.matrix[from][to];
            format!("{} to {}: {said:?}, but the leg is {made:?}", leg.from, leg.to)
        })
    })
}

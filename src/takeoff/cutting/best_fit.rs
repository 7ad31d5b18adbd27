//! The trade's rule of thumb: longest first, into the tightest that holds it.

use super::{Job, Plan};

/// Best fit, longest first; a new drum is the one cheapest by the metre among
/// those that hold the piece.
pub(super) fn best_fit(job: &Job, pieces: &[usize]) -> Plan {
    let mut order = pieces.to_vec();
    order.sort_by_key(|piece| (std::cmp::Reverse(job.pieces[*piece]), *piece));
    let mut plan = Plan { off_cuts: vec![Vec::new(); job.off_cuts.len()], ..Plan::default() };
    let mut left: Vec<i64> = job.off_cuts.clone();
    for piece in order {
        let length = job.pieces[piece];
        let tightest = (0..left.len()).filter(|at| left[*at] >= length).min_by_key(|at| left[*at]);
        let at = tightest.or_else(|| {
            let holds = job.drums.iter().enumerate().filter(|(_, drum)| drum.length >= length);
            let (index, drum) = holds.min_by(|(_, a), (_, b)| {
                let (a, b) = (
                    i128::from(a.price) * i128::from(b.length),
                    i128::from(b.price) * i128::from(a.length),
                );
                a.cmp(&b)
            })?;
            plan.drums.push((index, Vec::new()));
            left.push(drum.length);
            Some(left.len() - 1)
        });
        let Some(at) = at else { continue };
        left[at] -= length;
        match at.checked_sub(plan.off_cuts.len()) {
            None => plan.off_cuts[at].push(piece),
            Some(drum) => plan.drums[drum].1.push(piece),
        }
    }
    plan
}

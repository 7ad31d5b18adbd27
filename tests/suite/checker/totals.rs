//! The pieces of each cable add up, and the order covers them and the waste.

use wirewend::lengths::{LegLength, Lengths};
use wirewend::plan::{Cable, Plan};
use wirewend::runs::Runs;
use wirewend::units::Mm;

use super::complaint::{Code, Complaints};

pub(crate) fn judge(plan: &Plan, runs: &Runs, lengths: &Lengths, book: &mut Complaints) {
    let pieces = pieces(runs, lengths);
    let mut cables: Vec<Option<Cable>> = pieces.iter().map(|(cable, _)| *cable).collect();
    cables.sort();
    cables.dedup();
    let mut said: Vec<Option<Cable>> = lengths.cables.iter().map(|one| one.cable).collect();
    let in_order = said.iter().flatten().is_sorted();
    said.sort();
    if said != cables || !in_order {
        let text = format!("{said:?} (in order: {in_order}) for {cables:?}");
        book.plan(Code::CableTotal, text);
        return;
    }
    for one in &lengths.cables {
        let own: Vec<&LegLength> =
            pieces.iter().filter(|(cable, _)| *cable == one.cable).map(|(_, own)| *own).collect();
        let cut: Mm = own.iter().map(|piece| piece.cut.value).sum();
        let pulled: Mm = own.iter().map(|piece| piece.cut_or_measured()).sum();
        if one.pieces != own.len() || (one.cut != cut && one.cut != pulled) {
            let text = format!("{} pieces, {} for {}, {cut}", one.pieces, one.cut, own.len());
            book.plan(Code::CableTotal, text);
        }
        let scaled = one.cut.get() * i64::from(1000 + u32::from(plan.allowances.waste_permille));
        // The least whole number of millimetres that is not below it.
        let wanted = (scaled + 999).div_euclid(1000);
        if one.order.value.get() != wanted {
            let text = format!("says {}, cuts and waste make {wanted} mm", one.order.value);
            book.plan(Code::OrderLength, text);
        }
    }
}

/// Every leg's cable with its lengths.
fn pieces<'a>(runs: &Runs, lengths: &'a Lengths) -> Vec<(Option<Cable>, &'a LegLength)> {
    let legs_of = |id| runs.circuits.get(id).map_or(&[][..], |run| run.legs.as_slice());
    lengths
        .circuits
        .iter()
        .flat_map(|(id, made)| legs_of(id).iter().map(|leg| leg.cable).zip(made))
        .collect()
}

//! What to buy of a cable: one figure for every paper that says it.

use serde::Serialize;

use super::{CutSource, Piece, SourceKind};
use crate::plan::{Plan, Stock};
use crate::units::{Cents, Mm, Term, Worked, Working};

/// What to buy of one type of cable. Drums are bought as the cut plan opens
/// them: what is left on them is what there is for waste. What no drum of the
/// stock holds is bought by the metre, and only there waste is added.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ToBuy {
    /// Whole drums, those of one kind together, in the order of the stock.
    pub drums: Vec<Drums>,
    /// What is bought by the metre, if anything is.
    pub by_the_metre: Option<ByTheMetre>,
}

/// Drums of one kind.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Drums {
    /// The place of the kind in the stock's list, from 0.
    pub index: usize,
    /// How much is on each.
    pub length: Mm,
    /// What one costs, where that is known.
    pub price: Option<Cents>,
    /// What the cut plan calls them: `drum A`.
    pub names: Vec<String>,
}

/// Cable bought by the metre, in one length or a piece for each leg.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ByTheMetre {
    /// The cuts that it is for.
    pub cuts: Mm,
    /// The allowance for waste, thousandths.
    pub waste_permille: u16,
    /// Cuts and waste.
    pub buy: Worked<Mm>,
}

impl ToBuy {
    pub(super) fn of(plan: &Plan, sources: &[CutSource], uncut: &[Piece]) -> Self {
        let cuts: Mm = uncut.iter().map(|piece| piece.length).sum();
        let waste_permille = plan.allowances.waste_permille;
        Self {
            drums: drums(&plan.stock, sources),
            by_the_metre: (cuts > Mm::ZERO).then(|| ByTheMetre::of(cuts, waste_permille)),
        }
    }

    /// All metres that are bought.
    #[must_use]
    pub fn metres(&self) -> Mm {
        let drums = self.drums.iter().flat_map(|kind| kind.names.iter().map(|_| kind.length));
        drums.sum::<Mm>() + self.by_the_metre.as_ref().map_or(Mm::ZERO, |some| some.buy.value)
    }

    /// The waste that is bought with them.
    #[must_use]
    pub fn waste(&self) -> Mm {
        self.by_the_metre.as_ref().map_or(Mm::ZERO, |some| some.buy.value - some.cuts)
    }
}

fn drums(stock: &Stock, sources: &[CutSource]) -> Vec<Drums> {
    let mut drums: Vec<Drums> = Vec::new();
    for source in sources {
        let SourceKind::Drum { index, .. } = source.what else { continue };
        match drums.iter_mut().find(|kind| kind.index == index) {
            Some(kind) => kind.names.push(source.name.clone()),
            None => drums.push(Drums {
                index,
                length: source.length,
                price: stock.drums.get(index).and_then(|drum| drum.price),
                names: vec![source.name.clone()],
            }),
        }
    }
    drums.sort_by_key(|kind| kind.index);
    drums
}

impl ByTheMetre {
    /// Cuts and waste, the waste rounded up to the millimetre.
    fn of(cuts: Mm, waste_permille: u16) -> Self {
        let waste = cuts.permille_up(i64::from(waste_permille));
        let terms = vec![
            Term::new("cuts that no drum of the stock holds", cuts, "cut plan"),
            Term::new(format!("waste, {waste_permille} ‰"), waste, "allowance, common practice"),
        ];
        let working = Working { formula: "cuts + waste".to_owned(), terms };
        Self { cuts, waste_permille, buy: Worked { value: cuts + waste, working } }
    }
}

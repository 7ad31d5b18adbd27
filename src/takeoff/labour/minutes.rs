//! From counts to minutes.

use std::collections::BTreeMap;

use super::{Share, Task};
use crate::plan::Labour;
use crate::takeoff::origin::sum;
use crate::takeoff::practice::{PRACTICE, Rate};
use crate::takeoff::{Part, Quantity};
use crate::units::{Term, Worked, Working};

/// Minutes of a task.
///
/// t = Σ q · m · (1 + a) · (1 + l), to the nearest minute, halves up
///
/// - q: how many, or how many metres
/// - m: minutes for one
/// - a: what is added for how one gets at the place
/// - l: what is added where people live in the house
///
/// 30 m of cable in a roof space that one crawls in, at 2 minutes a metre,
/// 25 % added, in an empty house: 30 · 2 · 1.25 = 75 minutes.
///
/// Source: *common practice*; every figure can be edited in the price book.
pub(super) fn task(labour: &Labour, rate: &Rate, shares: &[Share]) -> Task {
    let own = labour.minutes.iter().find(|own| own.code == rate.code);
    let each = own.map_or(i64::from(rate.minutes), |own| i64::from(own.minutes));
    let source = if own.is_some() { "price book" } else { PRACTICE };
    let lived_in = if labour.lived_in { i64::from(labour.lived_in_permille) } else { 0 };
    let mut by_access: BTreeMap<u16, Vec<Part>> = BTreeMap::new();
    for share in shares {
        by_access.entry(share.access_permille).or_default().push(share.part);
    }
    let mut terms = vec![Term::new("minutes for one, or for one metre", each, source)];
    // In thousandths of an item, of access and of living in: whole all along.
    let mut billionths: i128 = 0;
    for (access, parts) in &by_access {
        let quantity = sum(parts);
        let (what, thousandths) = match quantity {
            Quantity::Each(count) => (count.to_string(), i64::from(count) * 1000),
            Quantity::Length(length) => (length.to_string(), length.get()),
        };
        terms.push(Term::new(
            format!("{what}, access adds {access} ‰"),
            quantity.in_words(|length| length.to_string()),
            "drawing",
        ));
        billionths += i128::from(thousandths)
            * i128::from(each)
            * i128::from(1000 + i64::from(*access))
            * i128::from(1000 + lived_in);
    }
    if lived_in > 0 {
        terms.push(Term::new("people live in the house", format!("{lived_in} ‰"), "price book"));
    }
    let rounded = (2 * billionths + 1_000_000_000).div_euclid(2_000_000_000);
    let working = Working {
        formula: "quantity × minutes × (1 + access) × (1 + lived in), to the nearest minute"
            .to_owned(),
        terms,
    };
    let parts: Vec<Part> = shares.iter().map(|share| share.part).collect();
    Task {
        code: rate.code,
        name: rate.name,
        quantity: sum(&parts),
        parts,
        minutes: Worked { value: i64::try_from(rounded).unwrap_or(i64::MAX), working },
    }
}

//! What it costs, line by line.

use serde::Serialize;

use super::price::{amount, find, share, unit};
use super::{CutPlan, Item, ItemGroup, Lacks, Quantity, Sums, Task, Total};
use crate::plan::{Cable, Finding, Plan, PriceBook, Severity, Subject};
use crate::units::{Cents, Term, Worked, Working};

/// A price with everything it is made of, for the contractor's eyes. What the
/// client is told of it is [`Quote::for_client`].
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Quote {
    /// The currency, as people write it.
    pub currency: String,
    /// The margin on the lines, thousandths.
    pub margin_permille: u16,
    /// The tax on lines and margin, thousandths.
    pub tax_permille: u16,
    /// Whether the price book calls its prices invented.
    pub is_invented: bool,
    /// Cable, then materials, then labour.
    pub lines: Vec<QuoteLine>,
    /// What they come to.
    pub total: Total<Sums>,
}

impl Quote {
    /// What there is to pay, tax and all. None where that is not known.
    #[must_use]
    pub fn to_pay(&self) -> Option<Cents> {
        self.total.whole().map(|sums| sums.sum.value)
    }
}

/// One line.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct QuoteLine {
    /// What it belongs with.
    pub group: LineGroup,
    /// The short name.
    pub code: String,
    /// What it is, in words.
    pub name: String,
    /// How much of it.
    pub quantity: Quantity,
    /// For labour priced by the hour: the minutes that are charged.
    pub minutes: Option<i64>,
    /// What `price` is for: `each`, `m`, `h`.
    pub unit: &'static str,
    /// What one costs. None: the price book does not say.
    pub price: Option<Cents>,
    /// What the line costs: quantity times price, to the nearest cent, halves
    /// up.
    pub amount: Option<Cents>,
}

/// What a line belongs with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LineGroup {
    /// New drums, or cable by the metre where the stock holds no drum.
    Cable,
    /// Materials.
    Materials(ItemGroup),
    /// Labour.
    Labour,
}

impl LineGroup {
    /// What people call it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Cable => "cable",
            Self::Materials(group) => group.name(),
            Self::Labour => "labour",
        }
    }
}

/// The price of a plan; `lacks` is what it leaves open, lines without a price
/// aside.
pub(super) fn quote(
    plan: &Plan,
    cuts: &[CutPlan],
    materials: &[Item],
    labour: &[Task],
    lacks: Lacks,
    findings: &mut Vec<Finding>,
) -> Quote {
    let prices = &plan.prices;
    let mut lines: Vec<QuoteLine> = cuts.iter().flat_map(|cuts| cable(plan, cuts)).collect();
    lines.extend(materials.iter().map(|item| material(prices, item)));
    lines.extend(labour.iter().map(|task| work(prices, task)));
    findings.extend(lines.iter().filter(|line| line.amount.is_none()).map(unpriced));
    let unpriced = lines.iter().filter(|line| line.amount.is_none()).count();
    let priced = (unpriced < lines.len()).then(|| sums(prices, &lines));
    let lacks = Lacks { lines: unpriced, ..lacks };
    let total = match priced {
        Some(sums) if lacks.is_nothing() => Total::Whole(sums),
        priced => Total::Short { priced, lacks },
    };
    Quote {
        currency: prices.currency.clone(),
        margin_permille: prices.margin_permille,
        tax_permille: prices.tax_permille,
        is_invented: prices.items.iter().any(|item| item.name.contains("invented")),
        lines,
        total,
    }
}

/// What is to be bought: new drums by type; by the metre, with waste, what no
/// drum of the stock holds.
fn cable(plan: &Plan, cuts: &CutPlan) -> Vec<QuoteLine> {
    let drums = cuts.to_buy.drums.iter().map(|kind| {
        let metres = kind.length.metres();
        line(
            LineGroup::Cable,
            format!("{}_{metres}", code(cuts.cable)),
            format!("drum of {metres} m, {}", cuts.cable),
            Quantity::Each(u32::try_from(kind.names.len()).unwrap_or(u32::MAX)),
            kind.price,
        )
    });
    let by_the_metre = cuts.to_buy.by_the_metre.iter().map(|some| {
        let code = code(cuts.cable);
        let price = find(&plan.prices, &code, "m").map(|item| item.price);
        let waste = if some.waste_permille > 0 { ", waste included" } else { "" };
        let name = format!("{}, by the metre{waste}: no drum of the stock holds it", cuts.cable);
        line(LineGroup::Cable, code, name, Quantity::Length(some.buy.value), price)
    });
    drums.chain(by_the_metre).collect()
}

/// The code of a cable: `cable_2x2.5_flat`.
fn code(cable: Cable) -> String {
    format!("cable_{}x{}_{}", cable.cores, cable.size.mm2(), cable.make.code())
}

fn material(prices: &PriceBook, item: &Item) -> QuoteLine {
    let price = find(prices, &item.code, unit(item.quantity)).map(|found| found.price);
    let group = LineGroup::Materials(item.group);
    line(group, item.code.clone(), item.name.clone(), item.quantity, price)
}

/// A task at its own price for one or for a metre, or else by the hour.
fn work(prices: &PriceBook, task: &Task) -> QuoteLine {
    let own = find(prices, task.code, unit(task.quantity)).map(|found| found.price);
    let (code, name) = (task.code.to_owned(), task.name.to_owned());
    let mut line = line(LineGroup::Labour, code, name, task.quantity, own);
    if own.is_none() {
        line.unit = "h";
        line.minutes = Some(task.minutes.value);
        line.price = find(prices, "labour", "h").map(|found| found.price);
        line.amount = line.price.map(|price| share(price, task.minutes.value, 60));
    }
    line
}

fn line(
    group: LineGroup,
    code: String,
    name: String,
    quantity: Quantity,
    price: Option<Cents>,
) -> QuoteLine {
    QuoteLine {
        group,
        code,
        name,
        quantity,
        minutes: None,
        unit: unit(quantity),
        price,
        amount: price.map(|price| amount(quantity, price)),
    }
}

fn unpriced(line: &QuoteLine) -> Finding {
    let remedy = match line.group {
        LineGroup::Cable => "give the drum a price in the stock",
        LineGroup::Materials(_) => "add it to the price book",
        LineGroup::Labour => "add it, or labour by the hour, to the price book",
    };
    Finding::new(
        "no-price",
        Severity::Missing,
        Subject::Plan,
        format!("{} ({}) has no price and is not in the total", line.name, line.code),
        remedy,
    )
}

/// Margin and tax are each rounded once, halves up; the rest are sums.
fn sums(prices: &PriceBook, lines: &[QuoteLine]) -> Sums {
    let priced = lines.iter().filter_map(|line| Some((line, line.amount?)));
    let net: Cents = priced.clone().map(|(_, amount)| amount).sum();
    let terms = priced.map(|(line, amount)| cents(&line.name, amount, "line")).collect();
    let (margin, tax) = (i64::from(prices.margin_permille), i64::from(prices.tax_permille));
    let with_margin = share(net, margin, 1000);
    let with_tax = share(net + with_margin, tax, 1000);
    let rounded = |what: &str, on: Cents, permille: i64, value: Cents| Worked {
        value,
        working: Working {
            formula: format!("{what}, {permille} ‰, to the nearest cent, halves up"),
            terms: vec![
                cents("on", on, "sum"),
                Term::new("share", format!("{permille} ‰"), "price book"),
            ],
        },
    };
    let sum = Worked {
        value: net + with_margin + with_tax,
        working: Working {
            formula: "lines + margin + tax".to_owned(),
            terms: vec![
                cents("lines", net, "sum"),
                cents("margin", with_margin, "sum"),
                cents("tax", with_tax, "sum"),
            ],
        },
    };
    let formula = "lines added up".to_owned();
    Sums {
        net: Worked { value: net, working: Working { formula, terms } },
        margin: rounded("margin on the lines", net, margin, with_margin),
        tax: rounded("tax on lines and margin", net + with_margin, tax, with_tax),
        sum,
    }
}

fn cents(what: &str, amount: Cents, source: &str) -> Term {
    Term::new(what, format!("{} cents", amount.get()), source)
}

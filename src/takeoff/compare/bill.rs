//! What a change costs, line by line: every line of the two quotes that is not
//! the same, then margin and tax. Together they are the difference of what is
//! priced, to the cent.

use serde::Serialize;

use super::Change;
use crate::takeoff::{ClientQuote, ClientSums, LineGroup, Quantity, Quote, QuoteLine, Sums, Total};
use crate::units::Cents;

/// A line of the quote that is not what it was.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct LineChange {
    /// What it belongs with.
    pub group: LineGroup,
    /// The short name.
    pub code: String,
    /// What it is, in words.
    pub name: String,
    /// How much of it. None: the line is not there.
    pub quantity: Change<Option<Quantity>>,
    /// For labour priced by the hour: the minutes that are charged.
    pub minutes: Change<Option<i64>>,
    /// What one costs. None: no price, or no such line.
    pub price: Change<Option<Cents>>,
    /// What the line costs. None: no price, or no such line.
    pub amount: Change<Option<Cents>>,
}

/// The difference of two prices, for the contractor's eyes.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Bill {
    /// The currencies.
    pub currency: Change<String>,
    /// The lines that differ, in the new order, then those that are gone.
    pub lines: Vec<LineChange>,
    /// The margin. None: nothing is priced.
    pub margin: Change<Option<Cents>>,
    /// The tax. None: nothing is priced.
    pub tax: Change<Option<Cents>>,
    /// What there is to pay, as far as it is known.
    pub total: Change<Total<Cents>>,
}

/// The difference of two prices as the client reads it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct ClientBill {
    /// The currencies.
    pub currency: Change<String>,
    /// What each price is made of.
    pub total: Change<Total<ClientSums>>,
}

impl Change<Option<Cents>> {
    /// By how much it grew; what is not there costs nothing.
    #[must_use]
    pub fn by(self) -> Cents {
        self.new.unwrap_or(Cents::ZERO) - self.old.unwrap_or(Cents::ZERO)
    }
}

impl LineChange {
    /// What this line adds to the price before margin and tax.
    #[must_use]
    pub fn by(&self) -> Cents {
        self.amount.by()
    }
}

impl Bill {
    pub(super) fn of(old: &Quote, new: &Quote) -> Self {
        let of = |quote: &Quote, part: fn(&Sums) -> Cents| quote.total.priced().map(part);
        let change = |part| Change { old: of(old, part), new: of(new, part) };
        Self {
            currency: currencies(&old.currency, &new.currency),
            lines: lines(&old.lines, &new.lines),
            margin: change(|sums| sums.margin.value),
            tax: change(|sums| sums.tax.value),
            total: Change {
                old: old.total.map(|sums| sums.sum.value),
                new: new.total.map(|sums| sums.sum.value),
            },
        }
    }

    /// How much more there is to pay. None where one of the two totals is not
    /// known, or where they are in different currencies.
    #[must_use]
    pub fn more_to_pay(&self) -> Option<Cents> {
        let same = self.currency.old == self.currency.new;
        let (old, new) = (self.total.old.whole()?, self.total.new.whole()?);
        same.then_some(*new - *old)
    }

    /// Whether the two prices are the same, line by line.
    #[must_use]
    pub fn is_nothing(&self) -> bool {
        self.lines.is_empty()
            && self.currency.old == self.currency.new
            && self.total.old == self.total.new
            && self.margin.old == self.margin.new
            && self.tax.old == self.tax.new
    }
}

impl ClientBill {
    pub(super) fn of(old: &ClientQuote, new: &ClientQuote) -> Self {
        Self {
            currency: currencies(&old.currency, &new.currency),
            total: Change { old: old.total.clone(), new: new.total.clone() },
        }
    }

    /// How much more there is to pay. None where one of the two totals is not
    /// known, or where they are in different currencies.
    #[must_use]
    pub fn more_to_pay(&self) -> Option<Cents> {
        let same = self.currency.old == self.currency.new;
        let (old, new) = (self.total.old.whole()?, self.total.new.whole()?);
        same.then_some(new.sum - old.sum)
    }
}

fn currencies(old: &str, new: &str) -> Change<String> {
    Change { old: old.to_owned(), new: new.to_owned() }
}

/// Lines by what they are; drums of one length and cable may differ in price,
/// so that the same code can stand there more than once.
fn lines(old: &[QuoteLine], new: &[QuoteLine]) -> Vec<LineChange> {
    let (old, new) = (numbered(old), numbered(new));
    let find = |of: &[(Key<'_>, &QuoteLine)], key: &Key<'_>| {
        of.iter().find(|(other, _)| other == key).map(|(_, line)| (*line).clone())
    };
    let gone = old.iter().filter(|(key, _)| find(&new, key).is_none());
    let pairs = new.iter().chain(gone).map(|(key, line)| (find(&old, key), find(&new, key), *line));
    pairs.filter_map(|(was, is, line)| (was != is).then(|| change(was, is, line))).collect()
}

/// A line's group and code, and how many of the same stand before it.
type Key<'l> = (LineGroup, &'l str, usize);

fn numbered(lines: &[QuoteLine]) -> Vec<(Key<'_>, &QuoteLine)> {
    let same =
        |one: &QuoteLine, other: &QuoteLine| (one.group, &one.code) == (other.group, &other.code);
    let before = |at: usize| lines.iter().take(at).filter(|other| same(other, &lines[at])).count();
    let key = |(at, line): (usize, &QuoteLine)| (line.group, before(at));
    lines
        .iter()
        .enumerate()
        .map(|(at, line)| {
            let (group, nth) = key((at, line));
            ((group, line.code.as_str(), nth), line)
        })
        .collect()
}

fn change(was: Option<QuoteLine>, is: Option<QuoteLine>, line: &QuoteLine) -> LineChange {
    fn both<T>(
        was: &Option<QuoteLine>,
        is: &Option<QuoteLine>,
        of: impl Fn(&QuoteLine) -> Option<T>,
    ) -> Change<Option<T>> {
        Change { old: was.as_ref().and_then(&of), new: is.as_ref().and_then(&of) }
    }
    LineChange {
        group: line.group,
        code: line.code.clone(),
        name: line.name.clone(),
        quantity: both(&was, &is, |line| Some(line.quantity)),
        minutes: both(&was, &is, |line| line.minutes),
        price: both(&was, &is, |line| line.price),
        amount: both(&was, &is, |line| line.amount),
    }
}

//! What the client is told of a price: what is to be paid, and nothing of how
//! the contractor reckons. These types have no room for a cost, a margin, a
//! price for one or a minute, so no paper drawn from them can show any.

use serde::Serialize;

use super::price::share;
use super::{Choice, Choices, LineGroup, Quote, Sums, Total};
use crate::units::Cents;

/// A price as the client reads it.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ClientQuote {
    /// The currency, as people write it.
    pub currency: String,
    /// The tax in the price, thousandths.
    pub tax_permille: u16,
    /// Whether the price book calls its prices invented.
    pub is_invented: bool,
    /// What there is to pay.
    pub total: Total<ClientSums>,
}

/// What a price is made of as the client reads it: the contractor's overhead is
/// in the first two, by their shares of the whole.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct ClientSums {
    /// Cable and everything that is fitted.
    pub materials: Cents,
    /// All the work.
    pub work: Cents,
    /// The tax on both.
    pub tax: Cents,
    /// All together.
    pub sum: Cents,
}

/// A house with and without what is optional, as the client reads it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ClientChoices {
    /// What may be left out, in drawing order.
    pub items: Vec<Choice>,
    /// A price for every combination, as in [`Choices`].
    pub quotes: Vec<ClientQuote>,
}

impl Quote {
    /// What the client is told.
    #[must_use]
    pub fn for_client(&self) -> ClientQuote {
        ClientQuote {
            currency: self.currency.clone(),
            tax_permille: self.tax_permille,
            is_invented: self.is_invented,
            total: self.total.map(|sums| self.client_sums(sums)),
        }
    }

    /// The margin goes with what it is on; the cent that cannot be shared goes
    /// to the work, so that the parts add up.
    fn client_sums(&self, sums: &Sums) -> ClientSums {
        let lines = self.lines.iter().filter(|line| line.group != LineGroup::Labour);
        let cost: Cents = lines.filter_map(|line| line.amount).sum();
        let before_tax = sums.net.value + sums.margin.value;
        let materials = match sums.net.value {
            Cents::ZERO => Cents::ZERO,
            net => share(before_tax, cost.get(), net.get()),
        };
        ClientSums {
            materials,
            work: before_tax - materials,
            tax: sums.tax.value,
            sum: sums.sum.value,
        }
    }
}

impl Choices {
    /// What the client is told.
    #[must_use]
    pub fn for_client(&self) -> ClientChoices {
        let quotes = self.quotes.iter().map(Quote::for_client).collect();
        ClientChoices { items: self.items.clone(), quotes }
    }
}

impl ClientChoices {
    /// With everything.
    #[must_use]
    pub fn with_all(&self) -> Option<&ClientQuote> {
        self.quotes.last()
    }

    /// With everything but one item.
    #[must_use]
    pub fn without(&self, item: usize) -> Option<&ClientQuote> {
        self.quotes.get(self.quotes.len().checked_sub(1)? & !(1 << item))
    }

    /// With nothing that is optional. None where nothing is.
    #[must_use]
    pub fn without_all(&self) -> Option<&ClientQuote> {
        self.quotes.first().filter(|_| !self.items.is_empty())
    }

    /// How much less there is to pay without an item. None where one of the two
    /// is not known.
    #[must_use]
    pub fn saved(&self, item: usize) -> Option<Cents> {
        Some(self.with_all()?.total.whole()?.sum - self.without(item)?.total.whole()?.sum)
    }
}

//! What a job costs by the plan's own price book.

use crate::takeoff::{Lacks, Sums, Total};
use crate::units::{Cents, Term, Working};
use crate::wording::Marks;

/// What a job costs by the plan's own price book.
#[derive(Clone, Debug, PartialEq)]
pub struct Price {
    /// Its currency.
    pub currency: String,
    /// The total, or how far it is known.
    pub total: Total<Sums>,
}

impl Price {
    /// The total in words, or how far it is known.
    pub fn says(&self) -> String {
        match &self.total {
            Total::Whole(sums) => self.money(sums.sum.value),
            Total::Short { priced: Some(sums), .. } => {
                format!("incomplete, {} so far", self.money(sums.sum.value))
            }
            Total::Short { priced: None, lacks } if lacks.is_nothing() => lacks.says(),
            Total::Short { priced: None, .. } => "no prices yet".to_owned(),
        }
    }

    /// How it came about, with every line, the margin and the tax: the window
    /// is the contractor's.
    pub fn working(&self) -> Working {
        let Some(sums) = self.total.priced() else {
            return Working {
                formula: self.total.lacks().map_or_else(String::new, Lacks::says),
                terms: Vec::new(),
            };
        };
        let mut terms = sums.net.working.terms.clone();
        let added = [("lines added up", &sums.net), ("margin", &sums.margin), ("tax", &sums.tax)];
        terms.extend(added.map(|(what, part)| {
            Term::new(what, self.money(part.value), part.working.formula.clone())
        }));
        let sum = &sums.sum.working.formula;
        let formula = match self.total.lacks() {
            None => format!("{sum}; internal, not for the client"),
            Some(lacks) => {
                format!("{sum}: no total, {}; internal, not for the client", lacks.says())
            }
        };
        Working { formula, terms }
    }

    fn money(&self, amount: Cents) -> String {
        format!("{} {}", self.currency, Marks::SHOWN.money(amount)).trim().to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn price(total: Total<i64>) -> Price {
        let sums = |cents: &i64| Sums {
            sum: crate::units::Worked { value: Cents::new(*cents), ..Default::default() },
            ..Sums::default()
        };
        Price { currency: "AUD".to_owned(), total: total.map(sums) }
    }

    #[test]
    fn a_price_that_lacks_something_is_no_total() {
        let lacks = Lacks { lines: 4, ..Lacks::default() };
        let says = |total| price(total).says();
        assert_eq!(says(Total::Whole(123_456)), "AUD 1 234.56");
        let short = Total::Short { priced: Some(123_456), lacks };
        assert_eq!(says(short.clone()), "incomplete, AUD 1 234.56 so far");
        let formula = price(short).working().formula;
        assert!(formula.contains("no total, incomplete: 4 lines without a price"), "{formula}");
        assert_eq!(says(Total::Short { priced: None, lacks }), "no prices yet");
        assert_eq!(says(Total::nothing()), "nothing to price yet");
    }
}

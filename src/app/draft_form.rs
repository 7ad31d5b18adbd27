//! What is asked before a draft is made.

use wirewend::draft::{Above, BoardPlace, DraftError, DraftOptions, Standard, Wayfare};
use wirewend::plan::Regime;
use wirewend::rules::RuleBook;

/// The answers so far.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct DraftForm {
    /// Whose rules there are, each with where they hold.
    pub(super) regimes: Vec<(Option<Regime>, String)>,
    pub(super) options: DraftOptions,
    /// Where the board is to be, as typed: `Hall/north`.
    pub(super) board: String,
}

/// One answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Choice {
    Regime(Option<Regime>),
    Standard(Standard),
    Way(Wayfare),
    Above(Above),
    Board(String),
}

/// All answers to each question, with their words.
pub(super) const STANDARDS: [(Standard, &str); 3] =
    [(Standard::Basic, "basic"), (Standard::Good, "good"), (Standard::Generous, "generous")];
pub(super) const WAYS: [(Wayfare, &str); 3] = [
    (Wayfare::Mixed, "wherever it is cheapest"),
    (Wayfare::Overhead, "overhead"),
    (Wayfare::Underfloor, "under the floor"),
];
pub(super) const ABOVES: [(Above, &str); 3] = [
    (Above::Voids, "voids between floors"),
    (Above::ConcreteFloors, "concrete floors, roof space"),
    (Above::Concrete, "concrete everywhere"),
];

impl DraftForm {
    /// Nothing asked for yet, by any rules of the book.
    pub(super) fn of(rules: &RuleBook) -> Self {
        let named = rules.regimes().map(|(regime, is)| (Some(regime), is.place.clone()));
        let as_is = std::iter::once((None, "as the plan says".to_owned()));
        let regimes = as_is.chain(named).collect();
        Self { regimes, options: DraftOptions::default(), board: String::new() }
    }

    /// Takes an answer.
    pub(super) fn choose(&mut self, choice: Choice) {
        match choice {
            Choice::Regime(regime) => self.options.regime = regime,
            Choice::Standard(standard) => self.options.standard = standard,
            Choice::Way(way) => self.options.way = way,
            Choice::Above(above) => self.options.above = above,
            Choice::Board(text) => self.board = text,
        }
    }

    /// The next answer to the question of a key; false where it is none.
    pub(super) fn turn(&mut self, key: char) -> bool {
        match key {
            '1' => self.options.regime = after(&self.regimes, &self.options.regime),
            '2' => self.options.standard = after(&STANDARDS, &self.options.standard),
            '3' => self.options.way = after(&WAYS, &self.options.way),
            '4' => self.options.above = after(&ABOVES, &self.options.above),
            _ => return false,
        }
        true
    }

    /// The options, the board's place among them.
    pub(super) fn asked(&self) -> Result<DraftOptions, DraftError> {
        let board = match self.board.trim() {
            "" => None,
            text => Some(text.parse::<BoardPlace>()?),
        };
        Ok(DraftOptions { board, ..self.options.clone() })
    }
}

fn after<T: Clone + PartialEq, N>(all: &[(T, N)], now: &T) -> T {
    let at = all.iter().position(|(one, _)| one == now).unwrap_or(0);
    all[(at + 1) % all.len()].0.clone()
}

//! Cut cards: one a leg, to take along with the tape.

use std::fmt::Write as _;

use kurbo::{Affine, Point, Rect};

use crate::plan::{Measured, Subject};
use crate::sheet::booklet::{Booklet, TEXT_WIDTH};
use crate::sheet::house::{Cut, House};
use crate::sheet::lettering::{Lettering, Weight, fitted, wrap};
use crate::sheet::panel::{LEADING, Row};
use crate::sheet::scene::{Anchor, Group, Item, Layer, Mark, Stroke, Text};
use crate::sheet::table::tick_box;
use crate::sheet::{Ink, Scene, pen};
use crate::takeoff::{CutPlan, CutSource};
use crate::units::Mm;
use crate::wording::{metres, percent_of};

use super::cut_order::{Ordered, in_order};
use super::words;

/// How wide a card is, mm.
const WIDTH: f64 = (TEXT_WIDTH - 4.0) / 2.0;
const INSIDE: f64 = WIDTH - 5.0;
const LEFT: f64 = 2.5;

/// Cards for every leg in the order of cutting, under the drum or the off-cut
/// that it comes off: cut one after the other, no leg is left without cable.
#[must_use]
pub fn cut_cards(house: &House<'_>, cuts: &[CutPlan]) -> Vec<Scene> {
    let ordered = in_order(house, cuts);
    let mut rows: Vec<Row> = Vec::new();
    if ordered.is_empty() {
        rows.push(across("No leg is routed yet: there is nothing to cut."));
    } else {
        rows.push(across(MARKS));
    }
    for off_one in ordered.chunk_by(Ordered::is_with) {
        rows.extend(heading(off_one));
        let cards: Vec<(f64, Vec<Item>)> = off_one.iter().map(|one| card(house, one)).collect();
        rows.extend(cards.chunks(2).map(pair));
    }
    let booklet = Booklet { house, shows: "Cut cards".to_owned(), kind: "cut cards" };
    booklet.pages(&rows)
}

/// How marks are counted. Most sheaths bear a mark every metre, which begins
/// anywhere: *common practice*.
const MARKS: &str = "Cut in this order. Marks count from the free end of each drum and off-cut, \
    which is 0.00; where the sheath bears metre marks, add the one at that end. Measure before \
    cutting, and cut one trial leg first.";

fn across(text: &str) -> Row {
    Row::paragraph_across(text, Weight::Regular, TEXT_WIDTH)
}

/// What all cards below it come off.
fn heading(cards: &[Ordered<'_>]) -> [Row; 2] {
    let count = |count: usize| format!("{count} {}", if count == 1 { "cut" } else { "cuts" });
    let all: Mm = cards.iter().map(|one| one.cut.length.cut_or_measured()).sum();
    let made = cards.iter().filter(|one| one.cut.length.measured.is_some()).count();
    let mut says = format!("{}, {}", count(cards.len()), metres(all));
    let title = match cards.first().and_then(|one| one.off) {
        None => {
            says.push_str(": no cable is chosen for these circuits, so nothing can be cut");
            "no cable chosen yet".to_owned()
        }
        Some(off) => {
            let cable = off.cuts.cable;
            match (off.source(), &off.cuts.to_buy.by_the_metre) {
                (Some(source), _) => {
                    says.push_str(&left(source));
                    format!("{}: {cable}, {}", source.name, metres(source.length))
                }
                (None, Some(some)) => {
                    let waste = metres(off.cuts.to_buy.waste());
                    let share = percent_of(some.waste_permille);
                    let _ = write!(
                        says,
                        "; no stock: no drum or off-cut holds them. Buy {} in one length, {waste} \
                         ({share}) of it for waste, or a piece longer than each cut",
                        metres(some.buy.value)
                    );
                    format!("{}: {cable}", off.name())
                }
                (None, None) => format!("{cable}: no length"),
            }
        }
    };
    if made > 0 {
        let _ = write!(
            says,
            ". {made} of them measured, and so cut already: if they came off another, plan the \
             cuts that are left from the stock as it stands"
        );
    }
    says.push('.');
    [Row::heading_across(&title, TEXT_WIDTH), across(&says).kept_with_next()]
}

/// `; left over 15.80 m: keep`.
fn left(source: &CutSource) -> String {
    let fate = if source.keep { "keep" } else { "scrap" };
    if source.left > Mm::ZERO {
        format!("; left over {}: {fate}", metres(source.left))
    } else {
        "; nothing left over".to_owned()
    }
}

/// Two cards side by side, equally high.
fn pair(cards: &[(f64, Vec<Item>)]) -> Row {
    let height = cards.iter().map(|card| card.0).fold(0.0, f64::max);
    let mut items: Vec<Item> = Vec::new();
    for ((_, marks), left) in cards.iter().zip([0.0, WIDTH + 4.0]) {
        let border = Rect::new(left, 0.0, left + WIDTH, height);
        items.push(Mark::line(pen::rect(border), Stroke::solid(Ink::BLACK, 0.35)).into());
        let onto = Affine::translate((left, 0.0));
        items.extend(marks.iter().map(|item| item.placed(onto)));
    }
    Row::new(height + 3.0, items)
}

fn card(house: &House<'_>, ordered: &Ordered<'_>) -> (f64, Vec<Item>) {
    let cut = &ordered.cut;
    let mut card = Card { y: 0.0, items: Vec::new() };
    card.top(house, cut);
    card.source(ordered);
    let (from, to) = (cut.leg.from, cut.leg.to);
    for (word, end, tail) in [("from", from, cut.length.tail_from), ("to", to, cut.length.tail_to)]
    {
        let what =
            format!("{}: {}; leave {}", house.marks.end(end), house.describe(end), metres(tail));
        card.entry(word, &what);
    }
    card.entry("way", &words::way(house, cut.leg).way);
    let mark = label_text(house, cut);
    card.entry("ends", &format!("write on both: {mark}"));
    let who = house.measurement(cut).map(Measured::who_and_when).filter(|who| !who.is_empty());
    if let Some(who) = who {
        card.entry("built", &format!("measured {who}"));
    }
    card.boxes(cut);
    let subject = Subject::Leg { circuit: cut.leg.circuit, from, to };
    let height = card.y + 2.0;
    (height, vec![Group::of(Layer::Notes, subject, card.items).into()])
}

/// What goes on the label of both ends of a leg.
pub(crate) fn label_text(house: &House<'_>, cut: &Cut<'_>) -> String {
    format!("{} {}/{}", cut.number(), house.marks.end(cut.leg.from), house.marks.end(cut.leg.to))
}

struct Card {
    y: f64,
    items: Vec<Item>,
}

impl Card {
    fn top(&mut self, house: &House<'_>, cut: &Cut<'_>) {
        let at = |x: f64, y: f64| Point::new(x, y);
        let length = match cut.length.measured {
            Some(measured) => format!("built {}", metres(measured)),
            None => format!("cut {}", metres(cut.length.cut.value)),
        };
        let length = Text::new(length, at(WIDTH - LEFT, 8.0), Lettering::Title).bold();
        let number = house.marks.leg(cut.circuit, cut.leg.number);
        let room = INSIDE - length.width() - 3.0;
        let number = fitted(&number, room, Lettering::Title, Weight::Bold);
        self.items.push(Text::new(number, at(LEFT, 8.0), Lettering::Title).bold().into());
        self.items.push(length.anchored(Anchor::End).into());
        let cable = cut.leg.cable.map_or("cable not chosen".to_owned(), |cable| cable.to_string());
        self.items.push(Text::new(cable, at(LEFT, 12.6), Lettering::Note).bold().into());
        if cut.length.measured.is_some() {
            let planned = format!("planned {}", metres(cut.length.cut.value));
            let planned = Text::new(planned, at(WIDTH - LEFT, 12.6), Lettering::Note);
            self.items.push(planned.anchored(Anchor::End).into());
        }
        let rule = Stroke::solid(Ink::BLACK, 0.25);
        self.items.push(Mark::line(pen::line((0.0, 14.2), (WIDTH, 14.2)), rule).into());
        self.y = 14.6;
    }

    /// Where it comes off, to be seen at a glance.
    fn source(&mut self, ordered: &Ordered<'_>) {
        const LINE: f64 = 5.4;
        let told = ordered.off.map_or(vec!["no cable chosen yet".to_owned()], |off| off.told());
        let lines = |told: &String| wrap(told, INSIDE, Lettering::Name, Weight::Bold);
        for line in told.iter().flat_map(lines) {
            self.items.push(Text::new(line, (LEFT, self.y + 4.6), Lettering::Name).bold().into());
            self.y += LINE;
        }
        self.y += 1.4;
        let rule = Stroke::solid(Ink::BLACK, 0.25);
        self.items.push(Mark::line(pen::line((0.0, self.y), (WIDTH, self.y)), rule).into());
        self.y += 0.4;
    }

    fn entry(&mut self, word: &str, says: &str) {
        const INDENT: f64 = 10.5;
        let caption = Text::new(word, (LEFT, self.y + 3.6), Lettering::Note).inked(Ink::DARK_GREY);
        self.items.push(caption.into());
        for line in wrap(says, INSIDE - INDENT, Lettering::Note, Weight::Regular) {
            let text = Text::new(line, (LEFT + INDENT, self.y + 3.6), Lettering::Note);
            self.items.push(text.into());
            self.y += LEADING;
        }
        self.y += 0.5;
    }

    fn boxes(&mut self, cut: &Cut<'_>) {
        let rule = Stroke::solid(Ink::BLACK, 0.25);
        self.items.push(Mark::line(pen::line((0.0, self.y), (WIDTH, self.y)), rule).into());
        let middle = self.y + 4.0;
        for (index, word) in ["cut", "pulled", "tested"].into_iter().enumerate() {
            let x = LEFT + [0.0, 12.5, 29.0][index];
            self.items.push(tick_box(Point::new(x + 1.8, middle)));
            self.items.push(Text::new(word, (x + 4.6, middle + 1.2), Lettering::Note).into());
        }
        let (from, to) = (WIDTH - 17.0, WIDTH - LEFT - 3.4);
        let text = |content: &str, x: f64| Text::new(content, (x, middle + 1.2), Lettering::Note);
        self.items.push(text("measured", from - 1.0).anchored(Anchor::End).into());
        self.items.push(text("m", WIDTH - LEFT).anchored(Anchor::End).into());
        match cut.length.measured {
            Some(length) => {
                let shown = crate::wording::figure(length);
                self.items.push(text(&shown, to).anchored(Anchor::End).bold().into());
            }
            None => {
                let foot = middle + 1.8;
                self.items.push(Mark::line(pen::line((from, foot), (to, foot)), rule).into());
            }
        }
        self.y = middle + 2.4;
    }
}

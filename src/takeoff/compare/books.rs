//! The contractor's own books: stock, prices and rates.

use super::told::{Section, Side, ThingChange, Told};
use super::words::{metres, money, permille, yes};
use crate::plan::{Drum, Labour, OffCut, PriceBook, PriceItem, Stock, TaskMinutes};

pub(super) fn books((old, new): (&Side<'_>, &Side<'_>), changes: &mut Vec<ThingChange>) {
    stock(&old.plan.stock, &new.plan.stock, changes);
    prices(&old.plan.prices, &new.plan.prices, changes);
}

fn stock(was: &Stock, is: &Stock, changes: &mut Vec<ThingChange>) {
    let Stock { drums, off_cuts, usable } = was;
    let mut told = Told::default();
    listed(drums, &is.drums, drum, &mut told);
    listed(off_cuts, &is.off_cuts, off_cut, &mut told);
    told.field("scrap when shorter than", usable, &is.usable, metres);
    changes.extend(told.of(Section::Stock, None, "stock"));
}

/// What an entry is called, and what stands beside its name.
type Entry = (String, String);

fn drum(drum: &Drum) -> Entry {
    let price = drum.price.map_or("without a price".to_owned(), |price| money(&price));
    (format!("drum of {}, {}:", metres(&drum.length), drum.cable), price)
}

fn off_cut(piece: &OffCut) -> Entry {
    (format!("off-cut \"{}\" of {}:", piece.label, piece.cable), metres(&piece.length))
}

/// What a list holds that the other does not, as often as it does; or that its
/// order is another. Entries of one name are told as one that changed.
fn listed<T: PartialEq>(was: &[T], is: &[T], entry: fn(&T) -> Entry, told: &mut Told) {
    if was == is {
        return;
    }
    let mut gone: Vec<&T> = was.iter().collect();
    let mut came: Vec<&T> = Vec::new();
    for one in is {
        match gone.iter().position(|other| *other == one) {
            Some(at) => drop(gone.remove(at)),
            None => came.push(one),
        }
    }
    if gone.is_empty() && came.is_empty() {
        told.say("the same in another order");
    }
    for one in came {
        let (name, now) = entry(one);
        match gone.iter().position(|other| entry(other).0 == name) {
            Some(at) => {
                let (_, before) = entry(gone.remove(at));
                told.say(format!("{name} {now}, was {before}"));
            }
            None => told.say(format!("added: {name} {now}")),
        }
    }
    for one in gone {
        let (name, before) = entry(one);
        told.say(format!("removed: {name} {before}"));
    }
}

fn prices(was: &PriceBook, is: &PriceBook, changes: &mut Vec<ThingChange>) {
    // Currency and tax are told with the job.
    let PriceBook { currency: _, tax_permille: _, margin_permille, items, labour } = was;
    let mut told = Told::default();
    listed(items, &is.items, item, &mut told);
    changes.extend(told.of(Section::Prices, None, "price book"));
    let mut told = Told::default();
    told.field("overhead and margin", margin_permille, &is.margin_permille, permille);
    work(labour, &is.labour, &mut told);
    changes.extend(told.of(Section::Prices, None, "rates"));
}

fn item(item: &PriceItem) -> Entry {
    (format!("{} ({})", item.name, item.code), format!("{} {}", money(&item.price), item.unit))
}

fn work(was: &Labour, is: &Labour, told: &mut Told) {
    let Labour { lived_in, lived_in_permille, crawl_permille, closed_permille, minutes } = was;
    told.field("people live in the house", lived_in, &is.lived_in, yes);
    for (what, was, is) in [
        ("more where people live", lived_in_permille, &is.lived_in_permille),
        ("more where one crawls", crawl_permille, &is.crawl_permille),
        ("more where nobody gets in", closed_permille, &is.closed_permille),
    ] {
        told.field(what, was, is, permille);
    }
    let task = |it: &TaskMinutes| (it.code.clone(), format!("{} min", it.minutes));
    listed(minutes, &is.minutes, task, told);
}

//! `wirewend materials` and `wirewend quote`: what it takes and what it costs.

use std::fmt::Write as _;
use std::path::Path;

use serde_json::json;
use wirewend::lengths::Lengths;
use wirewend::plan::{Finding, Plan};
use wirewend::runs::Runs;
use wirewend::store;
use wirewend::takeoff::{
    CutPlan, ItemGroup, LineGroup, Quantity, QuoteLine, Revision, TakeOff, cuts_left, take_off,
};
use wirewend::units::Cents;

use super::cuts::metres;
use super::findings;
use super::job::Job;

/// Printed under everything that is taken off.
pub(super) const CAUTION: &str = "\
Planning aid, not a certificate, and no offer. Counts and minutes follow common practice: check them against the job.
Mains wiring kills: isolate, prove dead, lock off. The local code and licensed people decide.
";

/// A plan with its take-off.
pub(super) struct TakenOff {
    pub(super) plan: Plan,
    pub(super) runs: Runs,
    pub(super) lengths: Lengths,
    pub(super) take_off: TakeOff,
}

impl TakenOff {
    /// Reads, routes and takes off a plan.
    pub(super) fn read(path: &Path) -> Result<Self, String> {
        let plan = store::read_file(path).map_err(|error| error.to_string())?;
        let Job { plan, runs, lengths } = Job::of(plan);
        let take_off = take_off(&plan, &runs, &lengths);
        Ok(Self { plan, runs, lengths, take_off })
    }

    /// As one side of a comparison.
    pub(super) fn revision(&self) -> Revision<'_> {
        Revision {
            plan: &self.plan,
            runs: &self.runs,
            lengths: &self.lengths,
            take_off: &self.take_off,
        }
    }

    /// The cuts that are still to be made.
    pub(super) fn cuts_left(&self) -> (Vec<CutPlan>, Vec<Finding>) {
        cuts_left(&self.plan, &self.runs, &self.lengths)
    }
}

/// Lists the materials of a plan, with the work.
pub(super) fn materials(path: &Path, as_json: bool) -> Result<String, String> {
    let job = TakenOff::read(path)?;
    if as_json {
        return json_text(&json!({
            "cuts": job.take_off.cuts,
            "materials": job.take_off.materials,
            "labour": job.take_off.labour,
            "findings": job.take_off.findings,
            "caution": CAUTION,
        }));
    }
    let mut text = String::new();
    text.push_str("Cable\n");
    for cuts in &job.take_off.cuts {
        let all = cuts.in_order().iter().map(|slice| slice.piece.length).sum();
        let (cut, bought) = (metres(all), metres(cuts.to_buy.metres()));
        let _ =
            writeln!(text, "  {:<44} {cut:>9} m   to buy {bought:>9} m", cuts.cable.to_string());
    }
    let mut group: Option<ItemGroup> = None;
    for item in &job.take_off.materials {
        if group != Some(item.group) {
            group = Some(item.group);
            let _ = writeln!(text, "\n{}", heading(item.group.name()));
        }
        let _ =
            writeln!(text, "  {:<44} {:>11}   {}", item.name, quantity(item.quantity), item.code);
    }
    text.push_str("\nWork\n");
    for task in &job.take_off.labour {
        let _ = writeln!(
            text,
            "  {:<44} {:>11}   {:>7} h",
            task.name,
            quantity(task.quantity),
            hours(task.minutes.value)
        );
    }
    let minutes = job.take_off.labour.iter().map(|task| task.minutes.value).sum();
    let _ = writeln!(text, "  {:<56}   {:>7} h\n", "all together", hours(minutes));
    text.push_str(CAUTION);
    Ok(text)
}

/// Prices a plan, line by line.
pub(super) fn quote(path: &Path, as_json: bool) -> Result<String, String> {
    let job = TakenOff::read(path)?;
    let quote = &job.take_off.quote;
    let said = &job.take_off.findings;
    if as_json {
        return json_text(&json!({ "quote": quote, "findings": said, "caution": CAUTION }));
    }
    let mut text = String::new();
    let mut group: Option<LineGroup> = None;
    for line in &quote.lines {
        if group != Some(line.group) {
            group = Some(line.group);
            let name = match line.group {
                LineGroup::Cable => "cable",
                LineGroup::Materials(group) => group.name(),
                LineGroup::Labour => "work",
            };
            let _ = writeln!(text, "{}", heading(name));
        }
        quote_line(&mut text, line);
    }
    let mut sum = |what: &str, amount: Cents| {
        let _ = writeln!(text, "{what:<72} {:>11}", plain(amount));
    };
    sum("Lines added up", quote.net.value);
    sum(&format!("Margin, {} %", percent(job.plan.prices.margin_permille)), quote.margin.value);
    sum(&format!("Tax, {} %", percent(job.plan.prices.tax_permille)), quote.tax.value);
    sum(&format!("To pay, {}", quote.currency), quote.total.value);
    if !quote.is_complete {
        text.push_str("\nLines without a price are not in the sums.\n");
    }
    text.push('\n');
    findings::print(&mut text, said);
    text.push_str(CAUTION);
    Ok(text)
}

fn quote_line(text: &mut String, line: &QuoteLine) {
    let how_much = match line.minutes {
        Some(minutes) => format!("{} h", hours(minutes)),
        None => quantity(line.quantity),
    };
    let none = || "no price".to_owned();
    let _ = writeln!(
        text,
        "  {:<46} {how_much:>11} {:>11} {:>11}",
        line.name,
        line.price.map_or_else(String::new, plain),
        line.amount.map_or_else(none, plain),
    );
}

fn json_text(value: &serde_json::Value) -> Result<String, String> {
    let text = serde_json::to_string_pretty(value).map_err(|error| error.to_string())?;
    Ok(text + "\n")
}

fn heading(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}

/// A count, or metres.
pub(super) fn quantity(quantity: Quantity) -> String {
    match quantity {
        Quantity::Each(count) => count.to_string(),
        Quantity::Length(length) => format!("{} m", metres(length)),
    }
}

/// Hours to two decimals, rounded up.
fn hours(minutes: i64) -> String {
    let hundredths = (minutes * 100 + 59).div_euclid(60);
    format!("{}.{:02}", hundredths.div_euclid(100), hundredths.rem_euclid(100))
}

fn percent(permille: u16) -> String {
    match permille % 10 {
        0 => permille.div_euclid(10).to_string(),
        tenth => format!("{}.{tenth}", permille.div_euclid(10)),
    }
}

/// An amount with two decimals.
pub(super) fn plain(amount: Cents) -> String {
    let (sign, cents) =
        if amount < Cents::ZERO { ("-", -amount.get()) } else { ("", amount.get()) };
    format!("{sign}{}.{:02}", cents.div_euclid(100), cents.rem_euclid(100))
}

/// An amount in the currency of a plan.
pub(super) fn money(plan: &Plan, amount: Cents) -> String {
    format!("{} {}", plain(amount), plan.prices.currency).trim_end().to_owned()
}

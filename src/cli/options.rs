//! `wirewend options`: a plan wired in several ways, side by side.

use std::fmt::Write as _;
use std::path::Path;

use serde_json::json;
use wirewend::draft::{Compared, DraftOptions, compare, draft};
use wirewend::rules::RuleBook;

/// Printed under the table.
const CAUTION: &str = "\
Lengths and volt drops are estimates; prices are not in these figures yet. It certifies nothing:
the local code and licensed people decide.
";

/// Compares ways of wiring a plan; a bare one is drafted first.
pub(super) fn run(path: &Path, options: &DraftOptions, as_json: bool) -> Result<String, String> {
    let (mut plan, _) = super::draft::read(path)?;
    let rules = RuleBook::shipped();
    if plan.points.is_empty() {
        plan = draft(plan, &rules, options)
            .map_err(|error| format!("{}: {error}", path.display()))?
            .plan;
    }
    let figures = compare(&plan, &rules);
    if as_json {
        let value = json!({ "options": figures, "caution": CAUTION });
        let text = serde_json::to_string_pretty(&value).map_err(|error| error.to_string())?;
        return Ok(text + "\n");
    }
    Ok(table(&figures))
}

fn table(figures: &[Compared]) -> String {
    let mut text = String::new();
    let mut question = "";
    for one in figures {
        if one.question != question {
            question = one.question;
            let _ = writeln!(
                text,
                "{}{question}\n  {:<28} {:>8} {:>9} {:>9} {:>8} {:>7} {:>7}",
                if text.is_empty() { "" } else { "\n" },
                "",
                "circuits",
                "cut m",
                "chase m",
                "drop %",
                "no way",
                "faults",
            );
        }
        let drop = one.volt_drop_percent.map_or_else(|| "?".to_owned(), |p| format!("{p:.1}"));
        let _ = writeln!(
            text,
            "  {:<28} {:>8} {:>9.1} {:>9.1} {drop:>8} {:>7} {:>7}",
            one.option,
            one.circuits,
            one.cut.metres(),
            one.chase.metres(),
            one.no_way,
            one.faults,
        );
    }
    text.push('\n');
    text.push_str(CAUTION);
    text
}

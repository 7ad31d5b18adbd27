//! Findings as a compiler prints them.

use std::fmt::Write as _;

use wirewend::plan::{Finding, Severity};

/// Every finding: what is the matter, how much against what, and the mend.
pub(super) fn print(text: &mut String, findings: &[Finding]) {
    for finding in findings {
        let weight = match finding.severity {
            Severity::Fault => "fault",
            Severity::Warning => "warning",
            Severity::Missing => "missing",
            Severity::Note => "note",
        };
        let _ = writeln!(text, "{weight}[{}]: {}", finding.code, finding.message);
        if let Some(place) = finding.place {
            let (x, y, z) = (place.x.get(), place.y.get(), place.z.get());
            let _ = writeln!(text, "   at: {x}, {y}, {z} mm");
        }
        if !finding.measured.is_empty() {
            let _ = writeln!(text, "  have: {}", finding.measured);
        }
        if !finding.limit.is_empty() {
            let _ = writeln!(text, " limit: {}", finding.limit);
        }
        if !finding.source.is_empty() {
            let _ = writeln!(text, "source: {}", finding.source);
        }
        if !finding.remedy.is_empty() {
            let _ = writeln!(text, "  mend: {}", finding.remedy);
        }
        text.push('\n');
    }
}

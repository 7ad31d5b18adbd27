//! Readings that were taken, held against what was expected.
//!
//! **Looks at** every reading of the plan against the value expected from
//! lengths and tables, and against its limit. **Matters** because a joint that
//! reads high burns later. **Example:** a socket 0.18 Ω too high. **Remedy:**
//! tighten and test point by point. **Source:** IEC 60364-6 cl. 6.4.

use serde::Serialize;

use super::against::{Against, Bound};
use super::expected_tests::{CircuitTests, ExpectedTests};
use super::words;
use crate::plan::{
    CircuitId, End, Finding, Labels, Plan, Reading, Reads, Severity, Subject, Test, labels,
};
use crate::units::{Term, Working};

const CODE: &str = "odd-reading";
/// What a meter's leads and a length measured on paper may account for: the
/// larger of these, Ω and a share.
const SLACK_OHMS: f64 = 0.05;
const SLACK_SHARE: f64 = 0.1;

/// How a reading is judged.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Verdict {
    /// Within its limit, and about as expected.
    AsExpected,
    /// Within its limit, but not as expected.
    Odd,
    /// Beyond its limit.
    Beyond,
    /// Nothing to hold it against.
    NotJudged,
}

impl Verdict {
    /// As papers say it. None of them passes an installation.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::AsExpected => "as expected",
            Self::Odd => "look again",
            Self::Beyond => "beyond limit",
            Self::NotJudged => "not judged",
        }
    }
}

/// A reading with what it was held against.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct JudgedReading {
    /// The reading.
    pub reading: Reading,
    /// What was expected, and the limit.
    pub against: Against,
    /// How it came out.
    pub verdict: Verdict,
    /// How it was judged, step by step.
    pub working: Working,
}

/// Holds every reading of a plan against what was expected of it. The findings
/// explain each that is not as expected.
///
/// Where the end before an odd one was read too, the step between them is put
/// down to the leg that joins them; a step that was there already is not told
/// again.
#[must_use]
pub fn judge_readings(plan: &Plan, expected: &ExpectedTests) -> (Vec<JudgedReading>, Vec<Finding>) {
    let labels = labels(plan);
    let (mut judged, mut findings) = (Vec::new(), Vec::new());
    for reading in &plan.readings {
        let Some(tests) = expected.circuits.get(&reading.circuit) else {
            findings.push(not_judged(
                plan,
                &labels,
                reading,
                "its circuit has no cable or no legs",
            ));
            judged.push(judged_as(reading, Against::default(), Verdict::NotJudged));
            continue;
        };
        let one = Judge { plan, labels: &labels, tests, reading };
        let (result, finding) = one.judge();
        judged.push(result);
        findings.extend(finding);
    }
    (judged, findings)
}

fn judged_as(reading: &Reading, against: Against, verdict: Verdict) -> JudgedReading {
    let working = working(reading, &against);
    JudgedReading { reading: reading.clone(), against, verdict, working }
}

/// The reading, what was expected and the limit, with their sources.
fn working(reading: &Reading, against: &Against) -> Working {
    let unit = reading.reads.test().unit();
    let figure = |value: f64| format!("{} {unit}", words::short(value, 3));
    let who = [reading.by.as_str(), reading.on.as_str()];
    let who: Vec<&str> = who.into_iter().filter(|part| !part.is_empty()).collect();
    let source = if who.is_empty() { "meter".to_owned() } else { who.join(", ") };
    let mut terms = vec![Term::new("read", reading.reads, source)];
    if let Some(expected) = against.expected {
        terms.push(Term::new("expected", figure(expected), against.expected_from.clone()));
        let over = format!("{:+.3} {unit}", reading.reads.value() - expected);
        terms.push(Term::new("read less expected", over, "difference"));
    }
    if let Some(limit) = against.limit {
        let value = format!("{} {}", limit.word(), figure(limit.value()));
        terms.push(Term::new("limit", value, against.limit_from.clone()));
    }
    Working { formula: "read against expected and limit".to_owned(), terms }
}

fn not_judged(plan: &Plan, labels: &Labels, reading: &Reading, why: &str) -> Finding {
    let message = format!(
        "{} at {} of {} cannot be judged: {why}",
        reading.reads.test().name(),
        labels.end(reading.at),
        circuit_name(plan, labels, reading.circuit),
    );
    let remedy = "complete the plan, or judge it by the local rules";
    Finding::new(CODE, Severity::Missing, subject(reading), message, remedy)
}

fn circuit_name(plan: &Plan, labels: &Labels, id: CircuitId) -> String {
    plan.circuits.get(&id).map_or_else(|| id.to_string(), |one| labels.circuit(one))
}

fn subject(reading: &Reading) -> Subject {
    match reading.at {
        End::Board(_) => Subject::Circuit(reading.circuit),
        End::Point(id) => Subject::Point(id),
    }
}

struct Judge<'a> {
    plan: &'a Plan,
    labels: &'a Labels,
    tests: &'a CircuitTests,
    reading: &'a Reading,
}

impl Judge<'_> {
    fn judge(&self) -> (JudgedReading, Option<Finding>) {
        let (reading, value) = (self.reading, self.reading.reads.value());
        let against = self.tests.against(reading.at, reading.reads.test());
        let as_it_is = |verdict, against| judged_as(reading, against, verdict);
        if let Reads::Polarity(is_right) = reading.reads {
            if is_right {
                return (as_it_is(Verdict::AsExpected, against), None);
            }
            let finding = self.beyond(&against);
            return (as_it_is(Verdict::Beyond, against), Some(finding));
        }
        if against.limit.is_some_and(|limit| !limit.holds(value)) {
            let finding = self.beyond(&against);
            return (as_it_is(Verdict::Beyond, against), Some(finding));
        }
        match (against.expected, against.limit) {
            (None, None) => {
                let why = against.lacking;
                let finding = not_judged(self.plan, self.labels, reading, why);
                (as_it_is(Verdict::NotJudged, against), Some(finding))
            }
            (Some(expected), _) if !is_about(reading.reads.test(), value, expected) => {
                let (finding, terms) = self.odd(expected);
                let mut judged = as_it_is(Verdict::Odd, against);
                judged.working.terms.extend(terms);
                (judged, finding)
            }
            _ => (as_it_is(Verdict::AsExpected, against), None),
        }
    }

    fn label(&self) -> &str {
        self.labels.end(self.reading.at)
    }

    /// Beyond its limit.
    fn beyond(&self, against: &Against) -> Finding {
        let circuit = circuit_name(self.plan, self.labels, self.reading.circuit);
        let at = self.label();
        let mut severity = Severity::Fault;
        let (message, remedy) = match self.reading.reads.test() {
            Test::Insulation => (
                format!("insulation of {circuit} at {at} is too low: do not energise"),
                "take everything off the circuit and test leg by leg: a nail, damp or a lamp left in",
            ),
            Test::Polarity => (
                format!("polarity of {circuit} at {at} is wrong: do not energise"),
                "find where phase, neutral or earth are crossed, and test every point again",
            ),
            Test::Trip | Test::TripFive => (
                format!("the residual-current device of {circuit} trips too late at {at}"),
                "replace it, and test again",
            ),
            Test::Loop | Test::R1R2 if self.tests.residual_cuts_off => {
                severity = Severity::Warning;
                (
                    format!(
                        "the loop of {circuit} at {at} reads too high for its breaker; only its \
                         residual-current device cuts off in time"
                    ),
                    "find the high joint, or give it a larger cable or another device",
                )
            }
            _ => (
                format!("{} of {circuit} at {at} reads too high", self.reading.reads.test().name()),
                "find the high joint, or give it a larger cable or another device",
            ),
        };
        let limit = against.limit.map_or_else(
            || "right".to_owned(),
            |limit| format!("{} {}", limit.word(), self.figure(limit.value())),
        );
        Finding::new(CODE, severity, subject(self.reading), message, remedy).against(
            self.reading.reads.to_string(),
            limit,
            against.limit_from.clone(),
        )
    }

    fn figure(&self, value: f64) -> String {
        let unit = self.reading.reads.test().unit();
        format!("{} {unit}", words::short(value, 3))
    }

    /// Not as expected; None where the end before it told so already.
    fn odd(&self, expected: f64) -> (Option<Finding>, Vec<Term>) {
        let over = self.reading.reads.value() - expected;
        let step = self.step(over, expected);
        let Some((what, step)) = step else { return (None, Vec::new()) };
        let label = self.label();
        let per_metre = self.per_metre();
        let (message, remedy, terms) = match (self.reading.reads.test(), per_metre) {
            (Test::FaultCurrent, _) => (
                format!("the fault current at {label} is not what the plan says of the supply"),
                "enter the reading as the board's fault current, and check again",
                Vec::new(),
            ),
            (Test::Loop, _) if matches!(self.reading.at, End::Board(_)) => (
                format!("the loop at {label} is not what the plan says of the supply"),
                "enter the reading as the board's external loop impedance, and check again",
                Vec::new(),
            ),
            (_, per_metre) => {
                let metres = step.abs() / per_metre.max(1e-9);
                let terms = vec![
                    Term::new("step at its leg", format!("{step:+.3} Ω"), "readings"),
                    Term::new("a metre of it", format!("{per_metre:.5} Ω"), "conductor tables"),
                    Term::new("step by metre", format!("{metres:.0} m"), "quotient"),
                ];
                if step > 0.0 {
                    (
                        format!(
                            "{label} reads as if {what} were {metres:.0} m longer, or a joint were loose"
                        ),
                        "tighten and test the points on the way one by one; the step shows the joint",
                        terms,
                    )
                } else {
                    (
                        format!(
                            "{label} reads as if {what} were {metres:.0} m shorter, or joined by another way"
                        ),
                        "see whether another circuit's earth or a second way is joined in",
                        terms,
                    )
                }
            }
        };
        let finding = Finding::new(CODE, Severity::Warning, subject(self.reading), message, remedy)
            .against(
                self.reading.reads.to_string(),
                self.figure(expected),
                "expected from lengths and conductor tables",
            );
        (Some(finding), terms)
    }

    /// What a metre of leg adds to a reading of this kind, Ω.
    fn per_metre(&self) -> f64 {
        match self.reading.reads.test() {
            Test::R2 | Test::RingEarth => self.tests.earth_per_metre.0,
            Test::RingPhase | Test::RingNeutral => {
                self.tests.loop_per_metre.0 - self.tests.earth_per_metre.0
            }
            _ => self.tests.loop_per_metre.0,
        }
    }

    /// What the reading is put down to, and by how much. None: the end before
    /// it was off by as much.
    fn step(&self, over: f64, expected: f64) -> Option<(String, f64)> {
        let test = self.reading.reads.test();
        let Some(point) = self.tests.points.iter().find(|point| point.end == self.reading.at)
        else {
            return Some(("the circuit".to_owned(), over));
        };
        let before =
            self.plan.reading(self.reading.circuit, point.before, test).and_then(|other| {
                Some(other.reads.value() - self.tests.against(point.before, test).expected?)
            });
        let step = over - before.unwrap_or(0.0);
        if before.is_some() && is_about(test, expected + step, expected) {
            return None;
        }
        let what = match (before, point.before) {
            (Some(_), _) | (None, End::Board(_)) => format!("leg {}", point.leg),
            _ => "its way from the board".to_owned(),
        };
        Some((what, step))
    }
}

/// Whether a reading is near enough to what was expected.
fn is_about(test: Test, value: f64, expected: f64) -> bool {
    let over = value - expected;
    match test {
        // A smaller fault current than declared asks less of everything.
        Test::FaultCurrent => over <= expected * SLACK_SHARE,
        _ => over.abs() <= SLACK_OHMS.max(expected * SLACK_SHARE),
    }
}

impl Bound {
    /// `at most`, `at least`.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::AtMost(_) => "at most",
            Self::AtLeast(_) => "at least",
        }
    }

    /// How much.
    #[must_use]
    pub const fn value(self) -> f64 {
        match self {
            Self::AtMost(value) | Self::AtLeast(value) => value,
        }
    }

    /// Whether a reading keeps to it.
    #[must_use]
    pub fn holds(self, reading: f64) -> bool {
        match self {
            Self::AtMost(most) => reading <= most + 1e-9,
            Self::AtLeast(least) => reading >= least - 1e-9,
        }
    }
}

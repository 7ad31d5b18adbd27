//! The most that is likely to be taken at once.

use super::context::{Case, House};
use super::words;
use crate::plan::{CircuitUse, PointKind, Regime};
use crate::rules::{Absent, RuleBook};
use crate::units::{Amps, Term, Volts, Worked, Working};

/// How much of a group of loads is likely to be taken at once.
///
/// By number of points: `first` A for the first `count_first`, then `step` A
/// for each further `count_step` or part. By load: `full` A in full and
/// `rest` percent of what is beyond; where `largest` is given, that percent of
/// the largest and `rest` percent of each other.
#[derive(Clone, Debug, PartialEq)]
pub struct DemandRule {
    count_first: Option<f64>,
    current_first: Option<f64>,
    count_step: Option<f64>,
    current_step: Option<f64>,
    full: Option<f64>,
    rest_percent: Option<f64>,
    largest_percent: Option<f64>,
    /// Where the rule comes from.
    pub source: String,
}

impl DemandRule {
    /// The rule of a group: `lighting`, `sockets`, `cooking` …
    ///
    /// # Errors
    /// [`Absent`] where the regime has none.
    pub fn of(group: &str, rules: &RuleBook, regime: Regime) -> Result<Self, Absent> {
        let row = rules.row(regime, "demand", &[group])?;
        Ok(Self {
            count_first: row.number(0),
            current_first: row.number(1),
            count_step: row.number(2),
            current_step: row.number(3),
            full: row.number(4),
            rest_percent: row.number(5),
            largest_percent: row.number(6),
            source: row.credit(),
        })
    }

    /// The demand of so many points with these loads.
    ///
    /// Source: AS/NZS 3000 TC1 and the IET household rules have these forms.
    ///
    /// ```
    /// use wirewend::checks::DemandRule;
    /// use wirewend::plan::Regime;
    /// use wirewend::rules::RuleBook;
    /// use wirewend::units::Amps;
    /// // 34 lighting points: 3 A for 20, 2 A for the next 20 or part
    /// let rule = DemandRule::of("lighting", &RuleBook::shipped(), Regime::AsNzs).unwrap();
    /// assert!((rule.demand(34, &[]).0 - 5.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn demand(&self, points: u32, loads: &[Amps]) -> Amps {
        if let Some(first) = self.current_first {
            return Amps(self.by_count(f64::from(points), first));
        }
        let sum: f64 = loads.iter().map(|load| load.0).sum();
        let rest = self.rest_percent.unwrap_or(100.0) / 100.0;
        if let Some(largest_percent) = self.largest_percent {
            let largest = loads.iter().map(|load| load.0).fold(0.0, f64::max);
            return Amps(largest * largest_percent / 100.0 + (sum - largest) * rest);
        }
        let full = self.full.unwrap_or(0.0).min(sum);
        Amps(full + (sum - full) * rest)
    }

    fn by_count(&self, points: f64, first: f64) -> f64 {
        if points <= 0.0 {
            return 0.0;
        }
        let beyond = (points - self.count_first.unwrap_or(points)).max(0.0);
        let steps = self.count_step.map_or(0.0, |step| libm::ceil(beyond / step));
        first + steps * self.current_step.unwrap_or(0.0)
    }
}

/// The demand of one household cooker.
///
/// 10 A, 30 % of the rest, and 5 A for a socket on its control unit.
///
/// Source: IET on-site guide.
///
/// # Errors
/// [`Absent`] where the tables have no rule for cooking.
///
/// ```
/// use wirewend::checks::cooker_demand;
/// use wirewend::rules::RuleBook;
/// use wirewend::units::{Volts, Watts};
/// // 16 kW at 240 V: 66.7 A; 10 + 0.3 × 56.7 = 27 A
/// let demand = cooker_demand(Watts(16_000.0) / Volts(240.0), false, &RuleBook::shipped());
/// assert!((demand.unwrap().0 - 27.0).abs() < 0.01);
/// ```
pub fn cooker_demand(load: Amps, with_socket: bool, rules: &RuleBook) -> Result<Amps, Absent> {
    let rule = DemandRule::of("cooking", rules, Regime::Bs)?;
    let socket = if with_socket { 5.0 } else { 0.0 };
    Ok(Amps(rule.demand(1, &[load]).0 + socket))
}

/// The demand of a board, group by group.
pub(super) fn board_demand(house: &House<'_>, cases: &[&Case<'_>], voltage: Volts) -> Worked<Amps> {
    let mut total = 0.0;
    let mut terms = Vec::new();
    for group in GROUPS {
        let (points, loads) = gather(group, cases, voltage);
        if points == 0 {
            continue;
        }
        let rule = DemandRule::of(group, house.rules, house.regime)
            .or_else(|_| DemandRule::of("other", house.rules, house.regime));
        let (demand, source) = match rule {
            Ok(rule) => (rule.demand(points, &loads), rule.source),
            Err(absent) => {
                (Amps(loads.iter().map(|load| load.0).sum()), format!("in full: {absent}"))
            }
        };
        total += demand.0;
        let what = format!("{}: {points} points", group.replace('_', " "));
        terms.push(Term::new(what, words::amps(demand.0), source));
    }
    let formula = "sum of the groups after diversity".to_owned();
    Worked { value: Amps(total), working: Working { formula, terms } }
}

const GROUPS: [&str; 6] = ["lighting", "sockets", "cooking", "heating", "water_storage", "other"];

/// The points of a group, a double socket counting as two, and their loads;
/// for sockets the loads of whole circuits.
fn gather(group: &str, cases: &[&Case<'_>], voltage: Volts) -> (u32, Vec<Amps>) {
    let mut points = 0;
    let mut loads = Vec::new();
    for case in cases {
        let design = super::design_current::Design::of(case, voltage, 1.0);
        let mut sockets_here = false;
        for ((_, point), load) in case.points.iter().zip(&design.points) {
            if group_of(point.kind) != Some(group) {
                continue;
            }
            points += u32::from(point.gangs);
            if group == "sockets" {
                sockets_here = true;
            } else {
                loads.push(*load);
            }
        }
        if sockets_here && case.circuit.usage == CircuitUse::Sockets {
            loads.push(design.total);
        }
    }
    (points, loads)
}

const fn group_of(kind: PointKind) -> Option<&'static str> {
    match kind {
        PointKind::Socket | PointKind::WeatherproofSocket => Some("sockets"),
        PointKind::Luminaire
        | PointKind::Downlight
        | PointKind::WallLight
        | PointKind::LinearLight
        | PointKind::ExhaustFan
        | PointKind::SmokeAlarm
        | PointKind::HeatAlarm => Some("lighting"),
        PointKind::Oven | PointKind::Cooktop => Some("cooking"),
        PointKind::Heater | PointKind::AirConditioner => Some("heating"),
        PointKind::WaterHeater => Some("water_storage"),
        PointKind::Switch
        | PointKind::Dimmer
        | PointKind::PullCord
        | PointKind::Isolator
        | PointKind::JunctionBox => None,
        _ => Some("other"),
    }
}

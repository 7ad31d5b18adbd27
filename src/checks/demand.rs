//! The most that is likely to be taken at once.

use super::context::{Case, House};
use super::words;
use crate::plan::{CircuitUse, PointKind, Regime};
use crate::rules::spec::Demand;
use crate::rules::words::DemandGroup;
use crate::rules::{Absent, Column, Count, Percent, RuleBook};
use crate::units::{Amps, Term, Volts, Worked, Working};

/// How much of a group of loads is likely to be taken at once.
///
/// By number of points: `first` A for the first `count_first`, then `step` A
/// for each further `count_step` or part. By load: `full` A in full and
/// `rest` percent of what is beyond; where `largest` is given, that percent of
/// the largest and `rest` percent of each other.
#[derive(Clone, Debug, PartialEq)]
pub struct DemandRule {
    row: Demand,
    /// Where the rule comes from.
    pub source: String,
}

impl DemandRule {
    /// The rule of a group.
    ///
    /// # Errors
    /// [`Absent`] where the regime has none.
    pub fn of(group: DemandGroup, rules: &RuleBook, regime: Regime) -> Result<Self, Absent> {
        let row = rules.of(regime).demand.row(group)?.clone();
        Ok(Self { source: row.credit(), row })
    }

    /// The demand of so many points with these loads.
    ///
    /// Source: AS/NZS 3000 TC1 and the IET household rules have these forms.
    ///
    /// ```
    /// use wirewend::checks::DemandRule;
    /// use wirewend::plan::Regime;
    /// use wirewend::rules::RuleBook;
    /// use wirewend::rules::words::DemandGroup;
    /// use wirewend::units::Amps;
    /// // 34 lighting points: 3 A for 20, 2 A for the next 20 or part
    /// let rule = DemandRule::of(DemandGroup::Lighting, &RuleBook::shipped(), Regime::AS_NZS).unwrap();
    /// assert!((rule.demand(34, &[]).0 - 5.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn demand(&self, points: u32, loads: &[Amps]) -> Amps {
        if let Some(first) = self.row.current_first {
            return self.by_count(f64::from(points), first);
        }
        let sum: f64 = loads.iter().map(|load| load.0).sum();
        let rest = self.row.rest.map_or(100.0, |rest| rest.0) / 100.0;
        if let Some(Percent(largest_percent)) = self.row.largest {
            let largest = loads.iter().map(|load| load.0).fold(0.0, f64::max);
            return Amps(largest * largest_percent / 100.0 + (sum - largest) * rest);
        }
        let full = self.row.full.map_or(0.0, |full| full.0).min(sum);
        Amps(full + (sum - full) * rest)
    }

    fn by_count(&self, points: f64, first: Amps) -> Amps {
        if points <= 0.0 {
            return Amps(0.0);
        }
        let beyond = (points - self.row.count_first.map_or(points, Count::figure)).max(0.0);
        let steps = self.row.count_step.map_or(0.0, |step| libm::ceil(beyond / step.figure()));
        first + self.row.current_step.map_or(Amps(0.0), |step| step * steps)
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
/// use wirewend::plan::Regime;
/// use wirewend::rules::RuleBook;
/// use wirewend::units::{Volts, Watts};
/// // 16 kW at 240 V: 66.7 A; 10 + 0.3 × 56.7 = 27 A
/// let full = Watts(16_000.0) / Volts(240.0);
/// let demand = cooker_demand(full, false, &RuleBook::shipped(), Regime::BS);
/// assert!((demand.unwrap().0 - 27.0).abs() < 0.01);
/// ```
pub fn cooker_demand(
    load: Amps,
    with_socket: bool,
    rules: &RuleBook,
    regime: Regime,
) -> Result<Amps, Absent> {
    let rule = DemandRule::of(DemandGroup::Cooking, rules, regime)?;
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
            .or_else(|_| DemandRule::of(DemandGroup::Other, house.rules, house.regime));
        let (demand, source) = match rule {
            Ok(rule) => (rule.demand(points, &loads), rule.source),
            Err(absent) => {
                (Amps(loads.iter().map(|load| load.0).sum()), format!("in full: {absent}"))
            }
        };
        total += demand.0;
        let what = format!("{}: {points} points", group.text().replace('_', " "));
        terms.push(Term::new(what, words::amps(demand.0), source));
    }
    let formula = "sum of the groups after diversity".to_owned();
    Worked { value: Amps(total), working: Working { formula, terms } }
}

const GROUPS: [DemandGroup; 6] = [
    DemandGroup::Lighting,
    DemandGroup::Sockets,
    DemandGroup::Cooking,
    DemandGroup::Heating,
    DemandGroup::WaterStorage,
    DemandGroup::Other,
];

/// The points of a group, a double socket counting as two, and their loads;
/// for sockets the loads of whole circuits.
fn gather(group: DemandGroup, cases: &[&Case<'_>], voltage: Volts) -> (u32, Vec<Amps>) {
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
            if group == DemandGroup::Sockets {
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

const fn group_of(kind: PointKind) -> Option<DemandGroup> {
    match kind {
        PointKind::Socket | PointKind::WeatherproofSocket => Some(DemandGroup::Sockets),
        PointKind::Luminaire
        | PointKind::Downlight
        | PointKind::WallLight
        | PointKind::LinearLight
        | PointKind::ExhaustFan
        | PointKind::SmokeAlarm
        | PointKind::HeatAlarm => Some(DemandGroup::Lighting),
        PointKind::Oven | PointKind::Cooktop => Some(DemandGroup::Cooking),
        PointKind::Heater | PointKind::AirConditioner => Some(DemandGroup::Heating),
        PointKind::WaterHeater => Some(DemandGroup::WaterStorage),
        PointKind::Switch
        | PointKind::Dimmer
        | PointKind::PullCord
        | PointKind::Isolator
        | PointKind::JunctionBox => None,
        _ => Some(DemandGroup::Other),
    }
}

//! What each leg can carry: its worst stretch governs.

use std::rc::Rc;

use super::bunching::LightCompany;
use super::context::Case;
use super::rating::{Rating, Stretch, rate};
use super::words;
use crate::plan::{Cable, End};
use crate::rules::Absent;
use crate::runs::{Segment, Surrounding};
use crate::units::{Amps, Mm, Term, Worked, Working};

/// The ratings of all legs of a circuit.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Capacity {
    /// For every leg its worst stretch; None where it has no way yet.
    pub legs: Vec<Option<LegRating>>,
    /// The leg that governs the circuit.
    pub worst: Option<usize>,
    /// The first figure that was looked for and is in no table.
    pub absent: Option<Absent>,
}

/// The worst stretch of a leg.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LegRating {
    /// The place of the stretch in the leg's route.
    pub segment: usize,
    /// What it was rated as.
    pub stretch: Stretch,
    /// Its rating.
    pub rating: Rc<Rating>,
}

impl Capacity {
    /// Rates every leg of a circuit wired in a cable.
    #[must_use]
    pub(super) fn of(case: &Case<'_>, cable: Cable, company: &LightCompany) -> Self {
        let mut capacity = Self::default();
        let mut known: Vec<(Stretch, Rc<Rating>)> = Vec::new();
        let loaded = if case.three_phase(cable) { 3 } else { 2 };
        for (leg, of) in case.legs().iter().enumerate() {
            let cable = case.cable_of(leg, cable);
            let mut worst: Option<LegRating> = None;
            for (segment, part) in of.route.segments.iter().enumerate() {
                let light = company.get(&(case.id, leg, segment)).copied().unwrap_or(0);
                let stretch = Stretch {
                    cable,
                    loaded,
                    through: part.through,
                    insulation: part.insulation,
                    passing: passing(&of.route.segments, segment),
                    circuits: if is_apart(case, leg, segment) {
                        1
                    } else {
                        1 + part.beside.saturating_sub(light)
                    },
                };
                let rating = match known.iter().find(|(other, _)| *other == stretch) {
                    Some((_, rating)) => rating,
                    None => match rate(&stretch, case.house.rules, case.house.regime) {
                        Ok(rating) => {
                            known.push((stretch, Rc::new(rating)));
                            &known[known.len() - 1].1
                        }
                        Err(absent) => {
                            capacity.absent.get_or_insert(absent);
                            continue;
                        }
                    },
                };
                if worst.as_ref().is_none_or(|worst| rating.capacity < worst.rating.capacity) {
                    worst = Some(LegRating { segment, stretch, rating: Rc::clone(rating) });
                }
            }
            capacity.legs.push(worst);
        }
        let amps = |leg: &usize| {
            capacity.legs[*leg].as_ref().map_or(f64::INFINITY, |leg| leg.rating.capacity)
        };
        capacity.worst = (0..capacity.legs.len())
            .filter(|leg| capacity.legs[*leg].is_some())
            .min_by(|a, b| amps(a).total_cmp(&amps(b)));
        capacity
    }

    /// The rating that governs.
    #[must_use]
    pub(super) fn governing(&self) -> Option<&LegRating> {
        self.legs.get(self.worst?)?.as_ref()
    }

    /// What the circuit's cable can carry.
    #[must_use]
    pub(super) fn amps(&self) -> Option<f64> {
        self.governing().map(|leg| leg.rating.capacity)
    }

    /// The figure with its working, naming the stretch that governs.
    #[must_use]
    pub(super) fn worked(&self, case: &Case<'_>) -> Option<Worked<Amps>> {
        let leg = self.worst?;
        let worst = self.legs[leg].as_ref()?;
        Some(Worked { value: Amps(worst.rating.capacity), working: worst.working(case, leg) })
    }
}

impl LegRating {
    /// How the rating came about.
    fn working(&self, case: &Case<'_>, leg: usize) -> Working {
        let rating = &self.rating;
        let base = if rating.estimated { "rating, an estimate" } else { "rating" };
        let factor = |factor: f64| format!("{factor:.3}");
        let mut terms = vec![
            Term::new("worst stretch", self.place(case, leg), "route"),
            Term::new(
                format!("{base}: {}, method {}", self.stretch.cable, rating.method),
                words::amps(rating.base),
                rating.base_source.clone(),
            ),
            Term::new(
                format!("ambient, {} °C", rating.around.0),
                factor(rating.ambient),
                "√((Tc − Ta)/(Tc − Tref)); table surrounding_temperature",
            ),
            self.grouping(case, leg),
        ];
        if let Some(length) = self.stretch.passing {
            let what = format!("{length} through insulation");
            terms.push(Term::new(what, factor(rating.passing), "table insulation_length"));
        }
        if self.stretch.through == Surrounding::Ground {
            terms.push(Term::new("soil", factor(rating.soil), "table soil"));
        }
        Working {
            formula: "Iz = rating × ambient × grouping × insulation × soil".into(), terms
        }
    }

    fn grouping(&self, case: &Case<'_>, leg: usize) -> Term {
        let factor = format!("{:.3}", self.rating.grouping);
        let beside = case.legs()[leg].route.segments[self.segment].beside;
        if beside > 0 && is_apart(case, leg, self.segment) {
            let what = format!("grouping, {beside} others beside it laid two diameters apart");
            return Term::new(
                what,
                factor,
                "habits.keep_apart; IEC 60364-5-52 B.52.17 notes, from memory",
            );
        }
        let what = format!("grouping, {} loaded circuits together", self.stretch.circuits);
        Term::new(what, factor, "table grouping, and the geometry")
    }

    /// The stretch in words.
    pub(super) fn place(&self, case: &Case<'_>, leg: usize) -> String {
        let segment = &case.legs()[leg].route.segments[self.segment];
        format!("{}: {}", case.leg_name(leg), words::stretch(segment))
    }
}

/// Whether a stretch lies where cables side by side are laid apart, if the
/// plan says that they are: across a void that people lay cables in, or in
/// the drop at a board, spread over its width (*common practice*). In the
/// ground, in chases and in the drops at points they stay a bunch.
fn is_apart(case: &Case<'_>, leg: usize, segment: usize) -> bool {
    if !case.house.plan.habits.keep_apart {
        return false;
    }
    let of = &case.legs()[leg];
    let in_wall = |part: &Segment| !crosses_void(part) && part.through != Surrounding::Ground;
    let (before, after) = (&of.route.segments[..=segment], &of.route.segments[segment..]);
    crosses_void(&of.route.segments[segment])
        || (matches!(of.from, End::Board(_)) && before.iter().all(in_wall))
        || (matches!(of.to, End::Board(_)) && after.iter().all(in_wall))
}

fn crosses_void(segment: &Segment) -> bool {
    matches!(
        segment.through,
        Surrounding::RoofSpace | Surrounding::BetweenFloors | Surrounding::Subfloor
    )
}

/// How far a cable goes through insulation in one piece, where it only passes
/// through: at a plate. Pieces that follow each other count as one.
fn passing(segments: &[Segment], at: usize) -> Option<Mm> {
    let passes =
        |segment: &Segment| segment.through == Surrounding::Plate && segment.insulation.get() > 0;
    if !passes(&segments[at]) {
        return None;
    }
    let before = segments[..at].iter().rev().take_while(|segment| passes(segment));
    let after = segments[at..].iter().take_while(|segment| passes(segment));
    Some(before.chain(after).map(|segment| segment.length).sum())
}

/// A rating corrected by factors.
///
/// Iz = It · f₁ · f₂ …
///
/// - It: tabulated rating, A
/// - f: ambient, grouping, insulation …
///
/// Source: IEC 60364-5-52.
///
/// ```
/// use wirewend::checks::corrected_rating;
/// use wirewend::units::Amps;
/// // 27 A at 30 °C, in 40 °C: 27 × 0.87 = 23.5 A
/// assert!((corrected_rating(Amps(27.0), &[0.87]).0 - 23.49).abs() < 1e-9);
/// ```
#[must_use]
pub fn corrected_rating(tabulated: Amps, factors: &[f64]) -> Amps {
    Amps(factors.iter().fold(tabulated.0, |rating, factor| rating * factor))
}

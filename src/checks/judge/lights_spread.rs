//! Lights spread over circuits.
//!
//! **Looks at** how many lights hang on the only lighting circuit.
//! **Matters** because one trip should not leave a house in the dark.
//! **Example:** twelve lights, one circuit. **Remedy:** a second circuit.
//! **Source:** table `lights_spread`; common practice.

use super::super::context::{Case, House};
use super::super::words;
use crate::plan::{CircuitUse, Family, Finding, Severity, Subject};
use crate::rules::words::LightsRule;

const CODE: &str = "lights-on-one-circuit";

pub(super) fn judge(house: &House<'_>, cases: &[Case<'_>], findings: &mut Vec<Finding>) {
    let row = house.tables().lights_spread.row(LightsRule::LightsOnOneMax);
    let mut lighting = cases.iter().filter(|case| case.circuit.usage == CircuitUse::Lighting);
    let (Some(only), None) = (lighting.next(), lighting.next()) else { return };
    let is_light = |kind: crate::plan::PointKind| kind.family() == Family::Lights;
    let lights = only.points.iter().filter(|(_, point)| is_light(point.kind)).count();
    if words::count(lights) <= row.count.figure() {
        return;
    }
    findings.push(
        Finding::new(
            CODE,
            Severity::Warning,
            Subject::Circuit(only.id),
            format!("all {lights} lights are on {}: one trip leaves the house dark", only.name()),
            "spread them over two circuits",
        )
        .against(lights.to_string(), row.count.0.to_string(), row.credit()),
    );
}

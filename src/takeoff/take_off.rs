//! The front door.

use super::cut_plans::cut_plans;
use super::cutting::Effort;
use super::{Lacks, TakeOff, labour, materials, quote};
use crate::lengths::Lengths;
use crate::plan::Plan;
use crate::rules::RuleBook;
use crate::runs::Runs;

/// Everything to order, to cut, to do and to charge for a routed plan.
#[must_use]
pub fn take_off(plan: &Plan, runs: &Runs, lengths: &Lengths, rules: &RuleBook) -> TakeOff {
    let mut findings = Vec::new();
    let cuts = cut_plans(plan, runs, lengths, &Effort::default(), |_| true, &mut findings);
    let materials = materials::materials(plan, runs, rules);
    let labour = labour::labour(plan, runs);
    let lacks = Lacks::of(plan, runs, lengths);
    let quote = quote::quote(plan, &cuts, &materials, &labour, lacks, &mut findings);
    TakeOff { cuts, materials, labour, quote, findings }
}

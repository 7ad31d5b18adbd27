//! Long work under a watch: its parts are counted, and what is stopped gives
//! nothing rather than a half.

use wirewend::draft::{DraftError, DraftOptions, draft, draft_watched};
use wirewend::rules::RuleBook;
use wirewend::runs::chain::Effort;
use wirewend::runs::{Memory, route, route_watched};
use wirewend::space::Space;
use wirewend::store::{self, ImportOptions, import, import_watched};
use wirewend::units::Watch;

fn stopped() -> Watch {
    let watch = Watch::default();
    watch.stop();
    watch
}

#[test]
fn routing_counts_circuits_and_gives_no_half() {
    let plan = store::read_file(std::path::Path::new("fixtures/townhouse.wend")).expect("a plan");
    let (space, effort) = (Space::of(&plan), Effort::default());
    let watch = Watch::default();
    let runs = route_watched(&plan, &space, &effort, &mut Memory::default(), &watch);
    assert_eq!(runs.as_ref(), Some(&route(&plan, &space, &effort)), "the same runs");
    let all = plan.circuits.len();
    assert_eq!(watch.progress(), Some((all, all)));
    let mut memory = Memory::default();
    assert_eq!(route_watched(&plan, &space, &effort, &mut memory, &stopped()), None);
    // What was kept before it was stopped misleads nobody.
    let again = route_watched(&plan, &space, &effort, &mut memory, &Watch::default());
    assert_eq!(again, runs);
}

#[test]
fn drafts_and_imports_stop() {
    let bytes = std::fs::read("fixtures/layouts/large_two_block.json").expect("a layout");
    let options = ImportOptions::default();
    let layout = import(&bytes, "block.json", &options).expect("a layout").plan;
    assert!(import_watched(&bytes, "block.json", &options, &stopped()).is_err());
    let (rules, options) = (RuleBook::shipped(), DraftOptions::default());
    let none = draft_watched(layout.clone(), &rules, &options, &stopped());
    assert!(matches!(none, Err(DraftError::Stopped)), "no half of a draft");
    let watch = Watch::default();
    let watched = draft_watched(layout.clone(), &rules, &options, &watch).expect("a draft");
    assert_eq!(watched.plan, draft(layout, &rules, &options).expect("a draft").plan);
    let (done, all) = watch.progress().expect("it was counted");
    assert!(all > 0 && done == all, "{done} of {all}");
}

//! `wirewend sheet`: a floor sheet as SVG.

use std::path::Path;

use wirewend::checks::{check, everything, faults};
use wirewend::plan::{Level, LevelId, Plan};
use wirewend::sheet::{FloorOptions, Floors, say_faults, svg};
use wirewend::store::{self, Manner, Replace, SystemDisk, put};

use super::job::Job;
use super::keep;
use super::named::circuit_of;
use super::own_rules::OwnRules;

/// Draws one level, all circuits or one, into a file or to the output.
pub(super) fn run(
    path: &Path,
    level: Option<&str>,
    circuit: Option<&str>,
    (rules, to, replace): (&OwnRules, Option<&Path>, bool),
) -> Result<String, String> {
    let rules = rules.book()?;
    let plan = store::read_file(path).map_err(|error| error.to_string())?;
    let options = FloorOptions {
        circuit: circuit.map(|asked| circuit_of(&plan, asked)).transpose()?,
        ..FloorOptions::of(level_of(&plan, level)?)
    };
    let job = Job::of(plan);
    let checked = check(&job.plan, &job.runs, &job.lengths, &rules);
    let local = rules.local(job.plan.project.regime);
    let mut floors = Floors::of(&job.plan, &job.runs, &job.lengths, local).marking(&checked);
    let mut scene = floors.sheet(&options).map_err(|error| error.to_string())?;
    let found = everything(&job.plan, &job.runs, &checked, &[]);
    say_faults(std::slice::from_mut(&mut scene), faults(&found));
    let text = svg(&scene);
    let Some(to) = to else { return Ok(text) };
    let may = if replace { Replace::Anything } else { Replace::Nothing };
    let written = put(&SystemDisk, to, text.as_bytes(), Manner::careful(may));
    let written = written.map_err(|error| keep::refused(&error))?;
    Ok(format!("{}\n{}", to.display(), written.told()))
}

/// A level by its id, its name or the number of its id; the only one where none
/// is asked for. A name comes before a number.
fn level_of(plan: &Plan, asked: Option<&str>) -> Result<LevelId, String> {
    let list = || {
        let names = plan.levels.iter().map(|(id, level)| format!("{id} ({})", level.name));
        names.collect::<Vec<_>>().join(", ")
    };
    match asked {
        Some(asked) => named(plan, asked)
            .or_else(|| asked.parse().ok().map(LevelId).filter(|id| plan.levels.contains_key(id)))
            .ok_or_else(|| format!("no level \"{asked}\" in this plan; it has {}", list())),
        None if plan.levels.len() > 1 => {
            Err(format!("which level? --level with one of {}", list()))
        }
        None => plan
            .levels
            .keys()
            .next()
            .copied()
            .ok_or_else(|| "this plan has no level to draw".to_owned()),
    }
}

fn named(plan: &Plan, asked: &str) -> Option<LevelId> {
    let is = |(id, level): &(&LevelId, &Level)| id.to_string() == asked || level.name == asked;
    plan.levels.iter().find(is).map(|(id, _)| *id)
}

#[cfg(test)]
mod tests {
    use super::*;
    use wirewend::units::Mm;

    #[test]
    fn a_level_goes_by_its_id_its_name_or_its_number_and_a_name_comes_first() {
        let mut plan = Plan::default();
        for (id, name) in [(1, "Ground"), (4, "First"), (7, "4")] {
            let level = Level {
                name: name.to_owned(),
                floor: Mm::ZERO,
                height: Mm::new(2500),
                above: Vec::new(),
                below: Vec::new(),
            };
            plan.levels.insert(LevelId(id), level);
        }
        for (asked, id) in [("L1", 1), ("1", 1), ("Ground", 1), ("First", 4), ("4", 7), ("7", 7)] {
            assert_eq!(level_of(&plan, Some(asked)), Ok(LevelId(id)), "{asked}");
        }
        let none = level_of(&plan, Some("2")).expect_err("there is no such level");
        assert!(none.contains("L1 (Ground)"), "tells which there are: {none}");
        assert!(level_of(&plan, None).is_err(), "three to choose from");
    }
}

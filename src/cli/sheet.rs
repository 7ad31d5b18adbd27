//! `wirewend sheet`: a floor sheet as SVG.

use std::path::Path;

use wirewend::checks::check;
use wirewend::plan::{CircuitId, LevelId, Plan};
use wirewend::rules::RuleBook;
use wirewend::sheet::{FloorOptions, Floors, svg};
use wirewend::store;

use super::job::Job;

/// Draws one level, all circuits or one, into a file or to the output.
pub(super) fn run(
    path: &Path,
    level: Option<&str>,
    circuit: Option<u16>,
    to: Option<&Path>,
) -> Result<String, String> {
    let plan = store::read_file(path).map_err(|error| error.to_string())?;
    let options = FloorOptions {
        circuit: circuit.map(|number| circuit_of(&plan, number)).transpose()?,
        ..FloorOptions::of(level_of(&plan, level)?)
    };
    let job = Job::of(plan);
    let checked = check(&job.plan, &job.runs, &job.lengths, &RuleBook::shipped());
    let mut floors = Floors::of(&job.plan, &job.runs, &job.lengths).marking(&checked);
    let scene = floors.sheet(&options).map_err(|error| error.to_string())?;
    let text = svg(&scene);
    let Some(to) = to else { return Ok(text) };
    std::fs::write(to, text).map_err(|error| format!("{}: {error}", to.display()))?;
    Ok(format!("{}\n", to.display()))
}

/// A level by its id or its name; the only one where none is asked for.
fn level_of(plan: &Plan, asked: Option<&str>) -> Result<LevelId, String> {
    let list = || {
        let names = plan.levels.iter().map(|(id, level)| format!("{id} ({})", level.name));
        names.collect::<Vec<_>>().join(", ")
    };
    match asked {
        Some(asked) => plan
            .levels
            .iter()
            .find(|(id, level)| id.to_string() == asked || level.name == asked)
            .map(|(id, _)| *id)
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

fn circuit_of(plan: &Plan, number: u16) -> Result<CircuitId, String> {
    let found = plan.circuits.iter().find(|(_, circuit)| circuit.number == number);
    found.map(|(id, _)| *id).ok_or_else(|| {
        let numbers: Vec<String> =
            plan.circuits.values().map(|circuit| circuit.number.to_string()).collect();
        format!("no circuit {number} in this plan; it has {}", numbers.join(", "))
    })
}

//! Layouts that come in from files of other forms, and drafts that are made:
//! work that may take long, done on a thread of its own, each one edit.

use std::path::{Path, PathBuf};
use std::sync::Arc;

use iced::Task;
use wirewend::draft::{Draft, DraftOptions, draft_watched};
use wirewend::plan::Plan;
use wirewend::rules::RuleBook;
use wirewend::session::state::Tool;
use wirewend::session::survey::in_place;
use wirewend::store::{Import, ImportOptions, LengthUnit, import_file};
use wirewend::units::Watch;

use crate::app::{App, Message, Over};

/// What long work came to.
#[derive(Debug)]
pub(in crate::app) enum Answer {
    /// A layout out of a file.
    Brought(Result<Import, String>),
    /// A draft of the plan.
    Drafted(Result<Draft, String>),
}

/// Long work that is under way, or what it came to.
#[derive(Debug, Default)]
pub(in crate::app) struct Long {
    /// Which piece of work; an answer to another one is not wanted any more.
    number: u64,
    /// How long it has taken, seconds.
    pub(in crate::app) seconds: u32,
    /// Stops it, and tells how far it is.
    pub(in crate::app) watch: Watch,
    /// What came out last, while it is shown.
    pub(in crate::app) answer: Option<Arc<Answer>>,
    /// Where a layout comes from.
    pub(in crate::app) source: Source,
}

/// A file that is brought in, and how it is to be read.
#[derive(Clone, Debug, Default)]
pub(in crate::app) struct Source {
    path: PathBuf,
    pub(in crate::app) options: ImportOptions,
    /// How it was read before, and what came of that.
    before: Option<(ImportOptions, Arc<Answer>)>,
}

/// How else a drawing can be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::app) enum Reading {
    /// Its numbers in this unit, or as it seems.
    Unit(Option<LengthUnit>),
    /// The next unit.
    NextUnit,
    /// Walls on this layer too, or not any more.
    Layer(String),
    /// Walls on the next layer alone, after the last one by their names.
    NextLayer,
    /// Walls on layers that are named so.
    ByName,
}

impl Reading {
    /// The options changed so.
    fn of(self, now: &ImportOptions, layers: &[String]) -> ImportOptions {
        let mut options = now.clone();
        match self {
            Self::Unit(unit) => options.unit = unit,
            Self::NextUnit => {
                let mut after = LengthUnit::ALL.iter().map(|(_, unit)| *unit);
                options.unit = match now.unit {
                    None => after.next(),
                    Some(unit) => after.skip_while(|one| *one != unit).nth(1),
                };
            }
            Self::Layer(layer) => {
                let others = options.layers.len();
                options.layers.retain(|one| *one != layer);
                if options.layers.len() == others {
                    options.layers.push(layer);
                }
            }
            Self::NextLayer => {
                let at =
                    now.layers.last().and_then(|last| layers.iter().position(|one| one == last));
                options.layers =
                    layers.get(at.map_or(0, |at| at + 1)).cloned().into_iter().collect();
            }
            Self::ByName => options.layers.clear(),
        }
        options
    }
}

/// Drafts a plan.
pub(in crate::app) fn drafted(
    plan: Plan,
    rules: &RuleBook,
    options: &DraftOptions,
    watch: &Watch,
) -> Result<Draft, String> {
    draft_watched(plan, rules, options, watch).map_err(|error| error.to_string())
}

impl App {
    /// Begins long work on a thread of its own.
    fn begin(
        &mut self,
        what: String,
        work: impl FnOnce(&Watch) -> Answer + Send + 'static,
    ) -> Task<Message> {
        self.long.number += 1;
        self.long.seconds = 0;
        self.long.answer = None;
        self.long.watch = Watch::default();
        self.over = Over::Busy(what);
        let (number, watch) = (self.long.number, self.long.watch.clone());
        let (send, receive) = iced::futures::channel::oneshot::channel();
        std::thread::spawn(move || {
            // Whoever has stopped waiting needs no answer.
            let _ = send.send(Arc::new(work(&watch)));
        });
        Task::perform(receive, move |answer| Message::Answered(number, answer.ok()))
    }

    /// Reads a layout from a file.
    pub(in crate::app) fn bring(&mut self, path: &Path) -> Task<Message> {
        self.long.source = Source { path: path.to_owned(), ..Source::default() };
        self.read_source()
    }

    fn read_source(&mut self) -> Task<Message> {
        let Source { path, options, .. } = self.long.source.clone();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        let read = move |watch: &Watch| {
            Answer::Brought(import_file(&path, &options, watch).map_err(|error| error.to_string()))
        };
        self.begin(format!("Reading {name}"), read)
    }

    /// Reads the drawing that is looked over in another way.
    pub(in crate::app) fn read_anew(&mut self, reading: Reading) -> Task<Message> {
        let Some(answer) = self.long.answer.clone() else { return Task::none() };
        let Answer::Brought(Ok(import)) = &*answer else { return Task::none() };
        if !import.report.form.is_drawing() {
            return Task::none();
        }
        let source = &mut self.long.source;
        source.before = Some((source.options.clone(), Arc::clone(&answer)));
        source.options = reading.of(&source.options, &import.report.layers);
        self.read_source()
    }

    /// Drafts the plan.
    pub(in crate::app) fn begin_draft(&mut self, options: DraftOptions) -> Task<Message> {
        let (plan, rules) = (self.session.document.plan().clone(), Arc::clone(&self.rules));
        let work = move |watch: &Watch| Answer::Drafted(drafted(plan, &rules, &options, watch));
        self.begin("Drafting".to_owned(), work)
    }

    /// A draft that was made is not wanted.
    pub(in crate::app) fn take_draft_back(&mut self) {
        self.over = Over::Nothing;
        self.session.undo();
        self.session.said = "the draft is taken back".to_owned();
    }

    /// Nobody waits for the work under way any more: it ends.
    pub(in crate::app) fn stop(&mut self) {
        self.long.watch.stop();
        self.long.number += 1;
        self.over = Over::Nothing;
        self.session.said = "stopped; the plan is as it was".to_owned();
    }

    /// Long work has ended. A layout waits to be looked over, a draft is done.
    pub(in crate::app) fn answered(&mut self, number: u64, answer: Option<Arc<Answer>>) {
        if number != self.long.number || !matches!(self.over, Over::Busy(_)) {
            return;
        }
        self.over = Over::Nothing;
        let refused = |answer: &Arc<Answer>| matches!(&**answer, Answer::Brought(Err(_)));
        if let (Some(new), Some((options, before))) = (&answer, self.long.source.before.take())
            && refused(new)
        {
            // As it was: the other way of reading leads nowhere.
            if let Answer::Brought(Err(why)) = &**new {
                self.session.said.clone_from(why);
            }
            self.long.source.options = options;
            self.long.answer = Some(before);
            self.over = Over::Brought;
            return;
        }
        let Some(answer) = answer else {
            self.session.said = "that could not be computed; the plan is as it was".to_owned();
            return;
        };
        match &*answer {
            Answer::Brought(Err(why)) | Answer::Drafted(Err(why)) => {
                self.session.said.clone_from(why)
            }
            Answer::Brought(Ok(_)) => self.over = Over::Brought,
            Answer::Drafted(Ok(draft)) => {
                let edit = self.session.document.plan().difference(&draft.plan);
                if self.session.edit(edit) {
                    self.session.take_tool(Tool::Hand);
                    self.over = Over::Drafted;
                }
            }
        }
        self.long.answer = Some(answer);
    }

    /// The layout that was looked over goes into the plan.
    pub(in crate::app) fn take_brought(&mut self) {
        self.over = Over::Nothing;
        let Some(answer) = self.long.answer.take() else { return };
        let Answer::Brought(Ok(import)) = &*answer else { return };
        let edit = in_place(self.session.document.plan(), &import.plan);
        if self.session.edit(edit) {
            self.session.take_tool(Tool::Hand);
            self.session.fit_when_drawn();
            self.session.said =
                "brought in as one step: look it over, no file says what is in a wall".to_owned();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drawing_is_read_in_another_unit_or_by_other_layers() {
        let layers = ["outer", "inner"].map(str::to_owned);
        let now = ImportOptions::default();
        let mut units = Vec::new();
        let mut next = now.clone();
        for _ in 0..=LengthUnit::ALL.len() {
            next = Reading::NextUnit.of(&next, &layers);
            units.push(next.unit);
        }
        let all = LengthUnit::ALL.into_iter().map(|(_, unit)| Some(unit));
        assert_eq!(units, all.chain([None]).collect::<Vec<_>>(), "all, then as it seems");
        let one = Reading::Layer("inner".to_owned()).of(&now, &layers);
        let two = Reading::Layer("outer".to_owned()).of(&one, &layers);
        assert_eq!(two.layers, ["inner", "outer"]);
        assert_eq!(Reading::Layer("inner".to_owned()).of(&two, &layers).layers, ["outer"]);
        assert!(Reading::ByName.of(&two, &layers).layers.is_empty());
        let first = Reading::NextLayer.of(&now, &layers);
        let second = Reading::NextLayer.of(&first, &layers);
        assert_eq!(
            (first.layers, second.layers.as_slice()),
            (vec![layers[0].clone()], &layers[1..])
        );
        assert!(Reading::NextLayer.of(&second, &layers).layers.is_empty(), "by their names again");
    }
}

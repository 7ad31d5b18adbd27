//! Layouts that come in from files of other forms, and drafts that are made:
//! work that may take long, done on a thread of its own, each one edit.

use std::io::Read as _;
use std::path::Path;
use std::sync::Arc;

use iced::Task;
use wirewend::draft::{Draft, DraftOptions, draft_watched};
use wirewend::plan::{Edit, Plan};
use wirewend::rules::RuleBook;
use wirewend::store::{self, IMPORT_BYTES_MAX, Import, ImportOptions};
use wirewend::units::Watch;

use super::keys::Tool;
use super::{App, Message, Over};

/// What long work came to.
#[derive(Debug)]
pub(super) enum Answer {
    /// A layout out of a file.
    Brought(Result<Import, String>),
    /// A draft of the plan.
    Drafted(Result<Draft, String>),
}

/// Long work that is under way, or what it came to.
#[derive(Debug, Default)]
pub(super) struct Long {
    /// Which piece of work; an answer to another one is not wanted any more.
    number: u64,
    /// How long it has taken, seconds.
    pub(super) seconds: u32,
    /// Stops it, and tells how far it is.
    pub(super) watch: Watch,
    /// What came out last, while it is shown.
    pub(super) answer: Option<Arc<Answer>>,
}

/// Reads a file of an open format.
pub(super) fn read(path: &Path, watch: &Watch) -> Result<Import, String> {
    let unreadable = |error: std::io::Error| format!("{}: {error}", path.display());
    let mut bytes = Vec::new();
    let most = u64::try_from(IMPORT_BYTES_MAX).unwrap_or(u64::MAX);
    let opened = std::fs::File::open(path).map_err(unreadable)?;
    opened.take(most + 1).read_to_end(&mut bytes).map_err(unreadable)?;
    store::import_watched(&bytes, &path.display().to_string(), &ImportOptions::default(), watch)
        .map_err(|error| error.to_string())
}

/// The edit that puts a building in the place of what is drawn. Rules, habits,
/// stock and prices stay; points and circuits hung on the walls that go.
pub(super) fn in_place(plan: &Plan, building: &Plan) -> Edit {
    let kept = Plan {
        project: plan.project.clone(),
        allowances: plan.allowances,
        habits: plan.habits,
        stock: plan.stock.clone(),
        prices: plan.prices.clone(),
        next_id: plan.next_id,
        ..Plan::default()
    };
    let mut project = plan.project.clone();
    if project.title.is_empty() {
        project.title.clone_from(&building.project.title);
    }
    let to = Plan {
        project,
        levels: building.levels.clone(),
        voids: building.voids.clone(),
        walls: building.walls.clone(),
        openings: building.openings.clone(),
        rooms: building.rooms.clone(),
        areas: building.areas.clone(),
        risers: building.risers.clone(),
        ..kept.clone()
    };
    Edit::Many(vec![plan.difference(&kept), kept.difference(&to)])
}

/// Drafts a plan.
pub(super) fn drafted(
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
    pub(super) fn bring(&mut self, path: &Path) -> Task<Message> {
        let path = path.to_owned();
        let name = path.file_name().unwrap_or_default().to_string_lossy().into_owned();
        self.begin(format!("Reading {name}"), move |watch| Answer::Brought(read(&path, watch)))
    }

    /// Drafts the plan.
    pub(super) fn begin_draft(&mut self, options: DraftOptions) -> Task<Message> {
        let (plan, rules) = (self.desk.plan.clone(), Arc::clone(&self.rules));
        let work = move |watch: &Watch| Answer::Drafted(drafted(plan, &rules, &options, watch));
        self.begin("Drafting".to_owned(), work)
    }

    /// A draft that was made is not wanted.
    pub(super) fn take_draft_back(&mut self) {
        self.over = Over::Nothing;
        self.desk.undo();
        self.desk.said = "the draft is taken back".to_owned();
    }

    /// Nobody waits for the work under way any more: it ends.
    pub(super) fn stop(&mut self) {
        self.long.watch.stop();
        self.long.number += 1;
        self.over = Over::Nothing;
        self.desk.said = "stopped; the plan is as it was".to_owned();
    }

    /// Long work has ended. A layout waits to be looked over, a draft is done.
    pub(super) fn answered(&mut self, number: u64, answer: Option<Arc<Answer>>) {
        if number != self.long.number || !matches!(self.over, Over::Busy(_)) {
            return;
        }
        self.over = Over::Nothing;
        let Some(answer) = answer else {
            self.desk.said = "that could not be computed; the plan is as it was".to_owned();
            return;
        };
        match &*answer {
            Answer::Brought(Err(why)) | Answer::Drafted(Err(why)) => self.desk.said.clone_from(why),
            Answer::Brought(Ok(_)) => self.over = Over::Brought,
            Answer::Drafted(Ok(draft)) => {
                let edit = self.desk.plan.difference(&draft.plan);
                if self.desk.edit(edit) {
                    self.desk.take_tool(Tool::Hand);
                    self.over = Over::Drafted;
                }
            }
        }
        self.long.answer = Some(answer);
    }

    /// The layout that was looked over goes into the plan.
    pub(super) fn take_brought(&mut self) {
        self.over = Over::Nothing;
        let Some(answer) = self.long.answer.take() else { return };
        let Answer::Brought(Ok(import)) = &*answer else { return };
        let edit = in_place(&self.desk.plan, &import.plan);
        if self.desk.edit(edit) {
            self.desk.take_tool(Tool::Hand);
            self.desk.fit_when_drawn();
            self.desk.said =
                "brought in as one step: look it over, no file says what is in a wall".to_owned();
        }
    }
}

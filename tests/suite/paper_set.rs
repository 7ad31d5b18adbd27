//! The set of papers: the whole is its papers one after another, and what the
//! program writes is what the library makes.

use std::collections::BTreeSet;

use wirewend::lengths::{self, Lengths};
use wirewend::plan::Plan;
use wirewend::rules::RuleBook;
use wirewend::runs::{self, Runs, chain::Effort};
use wirewend::sheet::{Measured, Paper, PaperFile, Papers};
use wirewend::space::Space;
use wirewend::units::Watch;

use crate::command::{Folder, wirewend};
use crate::fixtures::{house, text};

struct Job(Plan, Runs, Lengths);

impl Job {
    fn of(plan: Plan) -> Self {
        let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
        let lengths = lengths::measure(&plan, &runs);
        Self(plan, runs, lengths)
    }

    fn measured(&self) -> Measured<'_> {
        Measured { plan: &self.0, runs: &self.1, lengths: &self.2 }
    }

    fn papers(&self, before: Option<&Self>, only: &[Paper]) -> Papers {
        let before = before.map(Self::measured);
        let (book, watch) = (RuleBook::shipped(), Watch::default());
        Papers::make(self.measured(), before, &book, only, &watch).expect("not stopped")
    }
}

/// The sheets of a set by the name of their files, and of which paper each is.
fn names(papers: &Papers) -> Vec<(Paper, String)> {
    papers.shown().map(|sheet| (sheet.paper, sheet.name.clone())).collect()
}

#[test]
fn a_paper_is_found_by_its_name_and_by_no_other() {
    let names: BTreeSet<&str> = Paper::ALL.into_iter().map(Paper::name).collect();
    assert_eq!(names.len(), Paper::ALL.len(), "no two are called alike");
    for paper in Paper::ALL {
        let asked = Some(paper).filter(|paper| *paper != Paper::Variation);
        assert_eq!(Paper::named(paper.name()), asked, "what changed comes with a revision only");
    }
    assert_eq!(Paper::named("Quote"), None);
    assert_eq!(Paper::named(""), None);
}

/// How the files of each paper begin, written out once more.
const BEGINNINGS: [(Paper, &str); 13] = [
    (Paper::Variation, "variation-1"),
    (Paper::Quote, "quote-1"),
    (Paper::Floors, "floor-L"),
    (Paper::Circuits, "floor-L"),
    (Paper::Elevations, "elevations-1"),
    (Paper::Isometric, "isometric-"),
    (Paper::Strips, "strips-1"),
    (Paper::Cards, "cards-1"),
    (Paper::Order, "order-1"),
    (Paper::Board, "board-1"),
    (Paper::Tests, "tests-1"),
    (Paper::Concealed, "concealed-1"),
    (Paper::Costing, "internal-costing-1"),
];

#[test]
fn the_set_is_its_papers_one_after_another() {
    let job = Job::of(house("cottage"));
    let whole = job.papers(None, &[]);
    let mut single = Vec::new();
    for paper in Paper::choices() {
        let alone = job.papers(None, &[paper]);
        assert!(alone.shown().all(|sheet| sheet.paper == paper), "{paper:?} and nothing else");
        assert_eq!(alone.page.is_some(), paper == Paper::Page);
        assert_eq!(alone.internal.is_empty(), paper != Paper::Costing, "{paper:?}");
        assert!(alone.lists.is_empty(), "lists come with the whole set");
        assert_eq!(alone.title, format!("{}: {}", job.0.project.title, paper.name()));
        if let Some((_, begins)) = BEGINNINGS.into_iter().find(|one| one.0 == paper) {
            let first = alone.shown().next().expect("a sheet of every paper");
            assert!(first.name.starts_with(begins), "{paper:?}: {}", first.name);
        }
        single.extend(names(&alone));
    }
    assert_eq!(names(&whole), single);
    assert!(whole.page.is_some() && whole.lists.len() == 5 && !whole.internal.is_empty());
    assert!(whole.set.iter().all(|sheet| sheet.paper != Paper::Costing), "never the client's");
}

#[test]
fn what_changed_goes_first_and_its_costing_among_the_internal() {
    let before = Job::of(house("cottage"));
    let mut plan = house("cottage");
    plan.prices.margin_permille += 10;
    let now = Job::of(plan);
    let with = now.papers(Some(&before), &[Paper::Costing]);
    assert_eq!(with.set.first().map(|sheet| sheet.paper), Some(Paper::Variation));
    assert!(with.set.iter().all(|sheet| sheet.paper == Paper::Variation));
    let names: Vec<&str> = with.internal.iter().map(|sheet| &*sheet.name).collect();
    let counted: Vec<String> =
        (1..=names.len()).map(|count| format!("internal-costing-{count}")).collect();
    assert_eq!(names, counted, "both costings in one row of numbers");
    let without = now.papers(None, &[Paper::Costing]).internal.len();
    assert!(names.len() > without && without > 0, "{without} of {}", names.len());
}

#[test]
fn a_set_that_is_stopped_is_no_set() {
    let job = Job::of(house("cottage"));
    let watch = Watch::default();
    watch.stop();
    assert!(Papers::make(job.measured(), None, &RuleBook::shipped(), &[], &watch).is_none());
}

#[test]
fn the_program_writes_the_files_of_the_set_and_nothing_else() {
    let folder = Folder::new("paper-set");
    let plan = house("cottage");
    let file = folder.path().join("cottage.wend");
    std::fs::write(&file, text(&plan)).expect("a plan file");
    let to = folder.path().join("papers");
    let [file, into] = [&file, &to].map(|path| path.display().to_string());
    let (done, said) = wirewend(&["papers", &file, "--to", &into]);
    assert!(done, "{said}");
    let job = Job::of(plan);
    let papers = job.papers(None, &[]);
    let files = papers.files(None);
    for PaperFile { name, contents } in &files {
        let made = papers.bytes(*contents, &job.0).expect("bytes");
        let written = std::fs::read(to.join(name)).expect("written");
        assert!(made == written, "{name}: other bytes");
    }
    let entries = std::fs::read_dir(&to).expect("a folder");
    let there: BTreeSet<String> = entries
        .map(|entry| entry.expect("an entry").file_name().to_string_lossy().into_owned())
        .filter(|name| !name.starts_with('.'))
        .collect();
    assert_eq!(there, PaperFile::names(&files).into_iter().collect());
    let endings = |ending: &str| there.iter().filter(|name| name.ends_with(ending)).count();
    assert_eq!(endings(".svg"), papers.shown().count(), "a drawing of every sheet");
    let floors = papers.shown().filter(|sheet| sheet.name.starts_with("floor")).count();
    assert_eq!(endings(".dxf"), floors, "and of floor sheets the house in millimetres");
    assert_eq!(papers.files(Some(90)).len(), files.len() + endings(".svg"), "pictures besides");
}

//! Marks, circuit and leg numbers are given once: what papers say is never said
//! of anything else. Judged by a keeper of books that knows nothing of how.

use std::collections::{BTreeMap, BTreeSet};

use proptest::prelude::*;
use proptest::sample::Index;
use wirewend::plan::*;
use wirewend::runs::{self, Runs, chain::Effort, numbered, renumbered};
use wirewend::space::Space;
use wirewend::store::{self, Entry, Noted};

use crate::command::{Folder, wirewend};
use crate::fixtures::{folder, house};
use crate::sample;

fn routed(plan: &Plan) -> Runs {
    runs::route(plan, &Space::of(plan), &Effort::default())
}

fn ends(plan: &Plan) -> Vec<End> {
    let boards = plan.boards.keys().map(|id| End::Board(*id));
    boards.chain(plan.points.keys().map(|id| End::Point(*id))).collect()
}

fn marks(plan: &Plan) -> BTreeMap<End, String> {
    let marks = labels(plan);
    ends(plan).into_iter().map(|end| (end, marks.end(end).to_owned())).collect()
}

/// What every issued paper called things.
#[derive(Default)]
struct Book {
    marks: BTreeMap<String, End>,
    /// By what each thing went on the latest papers, unless a person has
    /// labelled it since.
    names: BTreeMap<End, String>,
    circuits: BTreeMap<(Option<BoardId>, u16), CircuitId>,
    legs: BTreeMap<(CircuitId, u32), BTreeSet<End>>,
    pairs: BTreeMap<(CircuitId, BTreeSet<End>), BTreeSet<u32>>,
}

impl Book {
    /// Whether a plan calls something by what was another's.
    fn look(&self, plan: &Plan) -> Result<(), TestCaseError> {
        let now = marks(plan);
        let different: BTreeSet<&String> = now.values().collect();
        prop_assert_eq!(different.len(), now.len(), "no two things have one mark: {:?}", now);
        for (end, mark) in &now {
            if let Some(whose) = self.marks.get(mark) {
                prop_assert_eq!(whose, end, "{} was on papers", mark);
            }
            if let Some(name) = self.names.get(end) {
                prop_assert_eq!(mark, name, "{} was so called on papers", end);
            }
        }
        for (id, circuit) in &plan.circuits {
            if let Some(whose) = self.circuits.get(&(circuit.board, circuit.number)) {
                prop_assert_eq!(whose, id, "circuit {} was on papers", circuit.number);
            }
        }
        Ok(())
    }

    /// Papers go out.
    fn write(&mut self, plan: &Plan, runs: &Runs) -> Result<(), TestCaseError> {
        for (end, mark) in marks(plan) {
            self.marks.insert(mark.clone(), end);
            self.names.insert(end, mark);
        }
        for (id, circuit) in &plan.circuits {
            self.circuits.insert((circuit.board, circuit.number), *id);
        }
        for leg in runs.circuits.values().flat_map(|run| &run.legs) {
            let pair = BTreeSet::from([leg.from, leg.to]);
            let before = self.legs.insert((leg.circuit, leg.number), pair.clone());
            let what = format!("leg {} of {}", leg.number, leg.circuit);
            prop_assert_eq!(before.unwrap_or_else(|| pair.clone()), pair.clone(), "{}", what);
            let known = self.pairs.entry((leg.circuit, pair)).or_default();
            prop_assert!(
                known.is_empty() || known.contains(&leg.number),
                "{} was {:?}",
                what,
                known
            );
            known.insert(leg.number);
        }
        Ok(())
    }
}

/// The sample, without what would keep its points from going.
fn loose() -> Plan {
    let mut plan = sample::plan();
    plan.controls.clear();
    plan.measured.clear();
    plan.readings.clear();
    for circuit in plan.circuits.values_mut() {
        circuit.order.clear();
        circuit.spurs.clear();
        circuit.pins.clear();
        circuit.ways = None;
    }
    plan
}

fn any_of<'p, Id: Copy, Thing>(
    map: &'p indexmap::IndexMap<Id, Thing>,
    which: &Index,
) -> Option<(Id, &'p Thing)> {
    let (id, thing) = map.get_index(which.index(map.len().max(1)))?;
    Some((*id, thing))
}

const LABELS: [&str; 7] = ["", "", "SO2", "SO3", "LT1", "cellar", "DB1"];

/// An edit of some kind, if the plan lets it.
fn edit(plan: &Plan, what: u8, which: &Index, other: &Index) -> Option<Edit> {
    let (id, point) = any_of(&plan.points, which)?;
    let (_, elsewhere) = any_of(&plan.points, other)?;
    let fresh = plan.fresh_id();
    Some(match what {
        0 | 1 => {
            let new = Point { label: String::new(), ..point.clone() };
            let place = elsewhere.place;
            Change::Put(PointId(fresh), Point { place, ..new }).into()
        }
        2 | 3 => Change::Remove(id).into(),
        4 => Change::Put(id, Point { place: elsewhere.place, ..point.clone() }).into(),
        5 => {
            let kind = PointKind::ALL[other.index(6)];
            Change::Put(id, Point { kind, ..point.clone() }).into()
        }
        6 => {
            let label = LABELS[other.index(LABELS.len())].to_owned();
            Change::Put(id, Point { label, ..point.clone() }).into()
        }
        7 => Edit::Point(Change::PutAt(other.index(6), id, point.clone())),
        8 => {
            let (circuit, _) = any_of(&plan.circuits, other)?;
            Change::Put(id, Point { circuit: Some(circuit), ..point.clone() }).into()
        }
        9 => {
            // A point on a circuit of its own.
            let (_, like) = any_of(&plan.circuits, other)?;
            let circuit = CircuitId(fresh);
            let new = Circuit { number: plan.free_circuit_number(), ..like.clone() };
            let moved = Point { circuit: Some(circuit), ..point.clone() };
            Edit::Many(vec![Change::Put(circuit, new).into(), Change::Put(id, moved).into()])
        }
        10 => {
            // A circuit gone, its points shared out to another.
            let (gone, _) = any_of(&plan.circuits, which)?;
            let to = any_of(&plan.circuits, other)?.0;
            let on = plan.points.iter().filter(|(_, it)| it.circuit == Some(gone) && to != gone);
            let moved = on
                .map(|(id, it)| Change::Put(*id, Point { circuit: Some(to), ..it.clone() }).into());
            let mut edits: Vec<Edit> = moved.collect();
            edits.push(Change::<CircuitId, Circuit>::Remove(gone).into());
            Edit::Many(edits)
        }
        11 => {
            let (id, board) = any_of(&plan.boards, which)?;
            let label = LABELS[other.index(LABELS.len())].to_owned();
            Change::Put(id, Board { label, ..board.clone() }).into()
        }
        _ => {
            // Another drawing of the job, as an import or a draft brings it.
            let mut to = plan.clone();
            to.points.shift_remove(&id);
            to.points.insert(PointId(fresh), Point { label: String::new(), ..point.clone() });
            plan.difference(&to)
        }
    })
}

/// Those that a person labelled, by what an edit changes.
fn labelled(before: &Plan, after: &Plan) -> Vec<End> {
    let label = |plan: &Plan, end: End| match end {
        End::Board(id) => plan.boards.get(&id).map(|it| it.label.clone()),
        End::Point(id) => plan.points.get(&id).map(|it| it.label.clone()),
    };
    ends(after).into_iter().filter(|end| label(before, *end) != label(after, *end)).collect()
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 96, ..ProptestConfig::default() })]
    #[test]
    fn nothing_is_ever_called_what_papers_called_something_else(
        steps in prop::collection::vec((0..18_u8, any::<Index>(), any::<Index>()), 4..48),
    ) {
        let first = loose();
        let (mut plan, mut history) = (first.clone(), History::default());
        let (mut book, mut journal) = (Book::default(), Vec::new());
        for (what, which, other) in steps {
            let before = plan.clone();
            match what {
                13 | 14 => {
                    let entry = if what == 13 {
                        Entry::Undo(history.next_undo().cloned().map(Box::new))
                    } else {
                        Entry::Redo(history.next_redo().cloned().map(Box::new))
                    };
                    does(&entry, &mut plan, &mut history).unwrap();
                    journal.push(entry);
                }
                15 => {
                    let text = store::write(&plan);
                    let read = store::read(text.as_bytes(), "it").unwrap();
                    prop_assert_eq!(&read, &plan, "saved and read");
                    plan = read;
                }
                16 | 17 => {
                    let routed = routed(&plan);
                    book.look(&plan)?;
                    book.write(&plan, &routed)?;
                    if let Some(edit) = runs::issue(&plan, &routed) {
                        let entry = Entry::Issue(Box::new(edit));
                        does(&entry, &mut plan, &mut history).unwrap();
                        journal.push(entry);
                    }
                    prop_assert_eq!(marks(&plan), marks(&before), "issuing changes no mark");
                    let again = self::routed(&plan);
                    prop_assert_eq!(&again, &routed, "nor any number");
                    prop_assert_eq!(runs::issue(&plan, &again), None, "all of it is kept");
                }
                _ => {
                    let Some(edit) = edit(&plan, what, &which, &other) else { continue };
                    let entry = Entry::Edit(Box::new(edit));
                    if does(&entry, &mut plan, &mut history).is_ok() {
                        journal.push(entry);
                    }
                }
            }
            for end in labelled(&before, &plan) {
                book.names.remove(&end);
            }
            book.look(&plan)?;
        }
        let (mut again, mut history) = (first, History::default());
        let noted: Noted = journal.into_iter().collect();
        prop_assert_eq!(noted.replay(&mut again, &mut history).refused, 0);
        prop_assert_eq!(again, plan, "the journal does it all again");
    }
}

/// Does an entry as a window does it.
fn does(entry: &Entry, plan: &mut Plan, history: &mut History) -> Result<(), EditError> {
    match entry {
        Entry::Edit(edit) => history.apply(plan, (**edit).clone()),
        Entry::Undo(_) => history.undo(plan).map(|_| ()),
        Entry::Redo(_) => history.redo(plan).map(|_| ()),
        Entry::Issue(edit) => plan.apply((**edit).clone()).map(|_| ()),
    }
}

/// As marks were counted before they were kept: labels first, then letters and
/// numbers in drawing order.
fn counted_before(plan: &Plan) -> BTreeMap<End, String> {
    let boards = plan.boards.iter().map(|(id, it)| (End::Board(*id), "DB", it.label.clone()));
    let points = plan.points.iter();
    let points = points.map(|(id, it)| (End::Point(*id), it.kind.letters(), it.label.clone()));
    let things: Vec<_> = boards.chain(points).collect();
    let mut marks = BTreeMap::new();
    let mut taken = BTreeSet::new();
    for (end, _, label) in &things {
        if !label.is_empty() && taken.insert(label.clone()) {
            marks.insert(*end, label.clone());
        }
    }
    let mut counts: BTreeMap<&str, u32> = BTreeMap::new();
    for (end, letters, _) in &things {
        while !marks.contains_key(end) {
            let count = counts.entry(letters).or_default();
            *count += 1;
            let mark = format!("{letters}{count}");
            if !taken.contains(&mark) {
                marks.insert(*end, mark);
            }
        }
    }
    marks
}

#[test]
fn plans_of_before_keep_the_marks_and_numbers_that_they_showed() {
    for name in ["cottage", "townhouse", "half_drawn"] {
        let plan = store::read_file(&folder().join(format!("before/{name}.wend"))).unwrap();
        assert!(plan.kept.is_empty(), "{name} was written before anything was kept");
        let shown = counted_before(&plan);
        assert_eq!(marks(&plan), shown, "{name}");
        for run in routed(&plan).circuits.values() {
            let numbers: Vec<u32> = run.legs.iter().map(|leg| leg.number).collect();
            let in_order: Vec<u32> = (1..).take(numbers.len()).collect();
            assert_eq!(numbers, in_order, "{name}: legs in the order of the run");
        }
        // The first change keeps what was shown, whatever it is.
        let mut changed = plan.clone();
        changed.controls.clear();
        changed.measured.clear();
        changed.readings.clear();
        changed.circuits.values_mut().for_each(|it| it.order.clear());
        let id = *changed.points.keys().next().unwrap();
        changed.apply(Change::<PointId, Point>::Remove(id).into()).unwrap();
        for (end, mark) in marks(&changed) {
            assert_eq!(mark, shown[&end], "{name}: {end} without {id}");
        }
        let same = house(name);
        assert_eq!(marks(&same), shown, "{name} is marked as before");
    }
}

#[test]
fn the_invented_houses_have_what_their_papers_say() {
    for name in ["cottage", "flat", "half_drawn", "terrace", "townhouse"] {
        let plan = house(name);
        assert_eq!(runs::issue(&plan, &routed(&plan)), None, "{name}");
    }
}

#[test]
fn a_socket_less_renames_no_other_and_one_more_gets_a_new_mark() {
    let mut plan = house("cottage");
    let sockets = plan.points.iter().filter(|(_, it)| it.kind == PointKind::Socket);
    let sockets: Vec<PointId> = sockets.map(|(id, _)| *id).collect();
    let (gone, circuit) = (sockets[2], plan.points[&sockets[2]].circuit.unwrap());
    let (before, runs_before) = (marks(&plan), routed(&plan));
    let point = plan.points[&gone].clone();
    let mut history = History::default();
    plan.circuits.values_mut().for_each(|it| it.order.retain(|id| *id != gone));
    history.apply(&mut plan, Change::<PointId, Point>::Remove(gone).into()).unwrap();
    let after = marks(&plan);
    assert_eq!(after.len() + 1, before.len(), "one less");
    assert!(after.iter().all(|(end, mark)| before[end] == *mark), "no other mark moves");
    let new = PointId(plan.fresh_id());
    history.apply(&mut plan, Change::Put(new, point).into()).unwrap();
    let mark = labels(&plan).point(new).to_owned();
    assert!(!before.values().any(|old| *old == mark), "{mark} is new");
    assert!(mark.starts_with("SO"), "{mark}");
    // Legs that stay keep their numbers; the new ones go on.
    let highest = runs_before.circuits[&circuit].legs.iter().map(|leg| leg.number).max();
    let pair = |leg: &runs::Leg| BTreeSet::from([leg.from, leg.to]);
    let mut kept = 0;
    for (id, run) in &routed(&plan).circuits {
        for leg in &run.legs {
            let old = runs_before.circuits[id].legs.iter().find(|old| pair(old) == pair(leg));
            match old {
                Some(old) => assert_eq!(leg.number, old.number, "{id}: the same ends"),
                None => assert!(Some(leg.number) > highest || *id != circuit, "{id}: a new pair"),
            }
            kept += usize::from(old.is_some());
        }
    }
    assert!(kept > 60, "{kept} legs stay");
    history.undo(&mut plan).unwrap();
    history.undo(&mut plan).unwrap();
    assert_eq!(marks(&plan), before, "undone, it has its mark again");
}

#[test]
fn drafts_that_were_undone_take_no_numbers() {
    let mut plan = loose();
    let bare = plan.clone();
    let mut to = plan.clone();
    for id in 0..3 {
        let point = plan.points[&PointId(30)].clone();
        to.points.insert(PointId(50 + id), point);
    }
    let mut history = History::default();
    history.apply(&mut plan, bare.difference(&to)).unwrap();
    let first = marks(&plan);
    history.undo(&mut plan).unwrap();
    let mut again = plan.clone();
    for id in 0..3 {
        let point = plan.points[&PointId(30)].clone();
        again.points.insert(PointId(60 + id), point);
    }
    let difference = plan.difference(&again);
    history.apply(&mut plan, difference).unwrap();
    let second: BTreeSet<String> = marks(&plan).into_values().collect();
    assert_eq!(second, first.into_values().collect(), "no paper said them");
}

#[test]
fn a_label_that_issued_papers_give_another_is_refused_and_told() {
    let mut plan = house("flat");
    let ids: Vec<PointId> = plan.points.keys().copied().collect();
    let taken = labels(&plan).point(ids[1]).to_owned();
    let own = labels(&plan).point(ids[0]).to_owned();
    let told = |plan: &Plan| -> Vec<String> {
        let findings = review(plan).into_iter().filter(|one| one.code == "same-label");
        findings.map(|one| one.message).collect()
    };
    let point = Point { label: taken.clone(), ..plan.points[&ids[0]].clone() };
    plan.apply(Change::Put(ids[0], point).into()).unwrap();
    assert_eq!(labels(&plan).point(ids[0]), own, "it stays what papers say");
    assert_eq!(labels(&plan).point(ids[1]), taken, "so does the other");
    let expect = format!("point {} is labelled {taken} like another, and is marked {own}", ids[0]);
    assert_eq!(told(&plan), [expect], "and is told");
    plan.controls.clear();
    plan.apply(Change::<PointId, Point>::Remove(ids[1]).into()).unwrap();
    assert_eq!(labels(&plan).point(ids[0]), own, "the mark of what is gone is still its own");
    assert!(told(&plan)[0].contains("as issued papers call what is gone"), "{:?}", told(&plan));
    // What no paper says may be taken: the label wins, as ever.
    let mut plan = loose();
    let point = Point { label: "SO1".to_owned(), ..plan.points[&PointId(31)].clone() };
    plan.apply(Change::Put(PointId(31), point).into()).unwrap();
    assert_eq!(labels(&plan).point(PointId(31)), "SO1", "typed");
    assert_eq!(labels(&plan).point(PointId(30)), "SO2", "counted past it");
}

#[test]
fn another_kind_takes_other_letters_only_until_papers_say_them() {
    let mut plan = loose();
    let id = PointId(30);
    let kinds =
        |plan: &Plan, kind| Change::Put(id, Point { kind, ..plan.points[&id].clone() }).into();
    let back = plan.apply(kinds(&plan, PointKind::Isolator)).unwrap();
    assert_eq!(labels(&plan).point(id), "IS1", "no paper calls it a socket");
    plan.apply(back).unwrap();
    assert_eq!(labels(&plan).point(id), "SO1", "undone");
    let edit = runs::issue(&plan, &routed(&plan)).unwrap();
    plan.apply(edit).unwrap();
    plan.apply(kinds(&plan, PointKind::Isolator)).unwrap();
    assert_eq!(labels(&plan).point(id), "SO1", "as papers call it");
}

#[test]
fn a_circuit_with_the_number_of_one_that_is_gone_is_told() {
    let mut plan = house("flat");
    let (gone, circuit) = plan.circuits.first().map(|(id, it)| (*id, it.clone())).unwrap();
    let other = *plan.circuits.keys().nth(1).unwrap();
    for point in plan.points.values_mut().filter(|it| it.circuit == Some(gone)) {
        point.circuit = Some(other);
    }
    plan.measured.clear();
    plan.apply(Change::<CircuitId, Circuit>::Remove(gone).into()).unwrap();
    assert!(plan.free_circuit_number() > 2, "{} was on papers", circuit.number);
    let new = CircuitId(plan.fresh_id());
    let number = circuit.number;
    plan.apply(Change::Put(new, circuit).into()).unwrap();
    let told = review(&plan).into_iter().find(|one| one.code == "same-circuit-number").unwrap();
    assert_eq!(told.subject, Subject::Circuit(new), "the new one");
    assert!(told.message.contains("issued papers give a circuit that is gone"), "{}", told.message);
    assert!(told.message.contains(&number.to_string()), "{}", told.message);
}

#[test]
fn numbering_anew_closes_all_gaps_in_one_edit_and_says_so() {
    let mut plan = house("cottage");
    let before = plan.clone();
    let sockets: Vec<PointId> = plan
        .points
        .iter()
        .filter(|(_, it)| it.kind == PointKind::Socket)
        .map(|(id, _)| *id)
        .collect();
    plan.circuits.values_mut().for_each(|it| it.order.clear());
    plan.apply(Change::<PointId, Point>::Remove(sockets[0]).into()).unwrap();
    let gap = plan.clone();
    let runs = routed(&gap);
    let edit = gap.renumber(Renumber::ALL);
    let back = plan.apply(edit).unwrap();
    assert_eq!(marks(&plan), counted_before(&plan), "counted anew");
    let new = routed(&plan);
    for run in new.circuits.values() {
        assert!(run.legs.iter().zip(1..).all(|(leg, number)| leg.number == number), "in order");
    }
    assert_eq!(numbered(&plan.kept, runs.clone()), new, "numbers are all that differs");
    let changes = renumbered((&gap, &runs), (&plan, &new));
    let is = |old: &str, new: &str| changes.iter().any(|it| it.old == old && it.new == new);
    assert!(is("SO2", "SO1") && is("SO3", "SO2"), "{changes:?}");
    let (old, now) = (marks(&gap), marks(&plan));
    let moved = old.iter().filter(|(end, mark)| now[*end] != **mark).count();
    let said = changes.iter().filter(|it| ["point", "board"].contains(&it.what)).count();
    assert_eq!(said, moved, "each that is called otherwise");
    plan.apply(back).unwrap();
    assert_eq!(plan, gap, "undone as one");
    let nothing = before.renumber(Renumber { marks: false, circuits: false, legs: false });
    assert_eq!(nothing, Edit::Many(Vec::new()), "nothing was asked for");
}

#[test]
fn circuits_numbered_anew_keep_their_order_on_each_board() {
    let mut plan = house("flat");
    let numbers =
        |plan: &Plan| -> Vec<u16> { plan.circuits.values().map(|it| it.number).collect() };
    let whole = numbers(&plan);
    for circuit in plan.circuits.values_mut() {
        circuit.number *= 3;
    }
    let what =
        Renumber { circuits: true, ..Renumber { marks: false, circuits: true, legs: false } };
    plan.apply(plan.renumber(what)).unwrap();
    assert_eq!(numbers(&plan), whole, "without gaps, in their order");
    assert!(plan.kept.circuits.is_empty(), "no paper has said these yet");
    assert!(!plan.kept.legs.is_empty(), "legs were not asked for");
}

#[test]
fn what_is_kept_has_bounds() {
    let refused = |change: fn(&mut Kept)| {
        let mut plan = house("flat");
        change(&mut plan.kept);
        plan.check_limits().map(|beyond| beyond.to_string())
    };
    let mark = Mark { of: End::Point(PointId(u32::MAX)), issued: None };
    assert_eq!(refused(|_| {}), None, "as it is");
    for (change, at) in [
        (
            (|kept| kept.marks.values_mut().for_each(|it| it.of = End::Board(BoardId(u32::MAX))))
                as fn(&mut Kept),
            "kept.marks",
        ),
        (|kept| kept.circuits[0].circuit = CircuitId(u32::MAX), "kept.circuits[0]"),
        (|kept| kept.legs[0].number = u32::MAX, "kept.legs"),
        (|kept| kept.legs[0].to = End::Point(PointId(u32::MAX)), "kept.legs[0]"),
        (|kept| kept.issues[0].revision = "a\nb".to_owned(), "kept.issues[0].revision"),
    ] {
        let said = refused(change).unwrap_or_default();
        assert!(said.starts_with(at), "{at}: {said}");
    }
    let mut plan = house("flat");
    plan.kept.marks.insert("a\u{7}".to_owned(), Mark { issued: Some(1), ..mark });
    assert!(plan.check_limits().is_some(), "no control characters");
    // What is gone keeps its id: a counter that would give it again is refused.
    let mut plan = house("flat");
    let of = End::Point(PointId(plan.next_id + 5));
    plan.kept.marks.insert("SO999".to_owned(), Mark { of, issued: Some(1) });
    assert!(store::read(store::write(&plan).as_bytes(), "it").is_err(), "ids are never reused");
}

#[test]
fn papers_keep_their_numbers_in_the_plan_once() {
    let folder = Folder::new("issue");
    let path = folder.path().join("house.wend");
    let (file, out) = (path.to_str().unwrap(), folder.path().join("out"));
    let mut plan = house("flat");
    plan.kept = Kept::default();
    plan.project.revision = "A".to_owned();
    store::write_file(&plan, &path).unwrap();
    let papers = || wirewend(&["papers", file, "--to", out.to_str().unwrap(), "--only", "board"]);
    let (done, said) = papers();
    assert!(done && said.contains("of this issue are kept in"), "{said}");
    let kept = store::read_file(&path).unwrap();
    assert_eq!(runs::issue(&kept, &routed(&kept)), None, "in the file");
    assert_eq!(kept.kept.issues.len(), 1, "one issue");
    assert_eq!(Plan { kept: Kept::default(), ..kept.clone() }, plan, "and nothing else");
    let bytes = std::fs::read(&path).unwrap();
    let (done, said) = papers();
    assert!(done && !said.contains("kept"), "nothing new: {said}");
    assert_eq!(std::fs::read(&path).unwrap(), bytes, "nor in the file");

    // Another window has the plan: the papers are written, and it is said.
    let (journal, _) = store::Journal::open(&path).unwrap();
    let next = Project { revision: "B".to_owned(), ..kept.project.clone() };
    store::write_file(&Plan { project: next, ..kept }, &path).unwrap();
    let bytes = std::fs::read(&path).unwrap();
    std::fs::remove_dir_all(&out).unwrap();
    let (done, said) = papers();
    assert!(done && said.contains("NOT kept") && said.contains("another window"), "{said}");
    assert!(out.join("papers.pdf").exists(), "the papers are there");
    assert_eq!(std::fs::read(&path).unwrap(), bytes, "the plan is as it was");
    drop(journal);
    let (done, said) = papers();
    assert!(done && said.contains("of this issue are kept in"), "{said}");
    let issues = store::read_file(&path).unwrap().kept.issues;
    let revisions: Vec<&str> = issues.iter().map(|it| it.revision.as_str()).collect();
    assert_eq!(revisions, ["A", "B"], "each revision");
}

#[test]
fn the_command_line_numbers_anew_and_says_what_changed() {
    let folder = Folder::new("renumber");
    let path = folder.path().join("house.wend");
    let to = folder.path().join("anew.wend");
    let mut plan = house("flat");
    plan.controls.clear();
    plan.measured.clear();
    let sockets = plan.points.iter().filter(|(_, it)| it.kind == PointKind::Socket);
    let first = *sockets.map(|(id, _)| id).next().unwrap();
    plan.circuits.values_mut().for_each(|it| it.order.clear());
    plan.apply(Change::<PointId, Point>::Remove(first).into()).unwrap();
    store::write_file(&plan, &path).unwrap();
    let run = |more: &[&str]| {
        let first = ["renumber", path.to_str().unwrap(), "--to", to.to_str().unwrap()];
        wirewend(&[&first[..], more].concat())
    };
    let (done, said) = run(&["--marks"]);
    assert!(done && said.contains("SO2          is now SO1"), "{said}");
    assert!(!said.contains("leg "), "legs were not asked for: {said}");
    let anew = store::read_file(&to).unwrap();
    assert_eq!(marks(&anew), counted_before(&anew), "in the file");
    assert_eq!(anew.kept.legs, plan.kept.legs, "legs as they were");
    let (done, said) = run(&["--json", "--replace"]);
    assert!(done && said.contains("\"old\": \"SO2\""), "{said}");
}

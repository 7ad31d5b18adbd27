//! Everything that can be clicked can be done by key.

use wirewend::plan::{OpeningKind, PointKind};
use wirewend::session::Session;
use wirewend::session::state::{Amount, AreaKind, Step, Tool};
use wirewend::session::survey::building::{BUILDS, USES};

use crate::app::Message;
use crate::app::doing::find;
use crate::app::keys::{self, Ask, Command, Habit};

/// The commands by which what a click sends is done with the keyboard alone;
/// none for what is not sent by a click. Whoever adds a message says here how
/// it is reached.
fn by_key(message: &Message) -> Vec<Command> {
    let habit = Command::Habit;
    match message {
        Message::Do(command) => vec![*command],
        Message::Circuit(_) => vec![habit(Habit::Circuit(true)), habit(Habit::Circuit(false))],
        Message::Leg(_) => vec![habit(Habit::Leg(true)), habit(Habit::Leg(false))],
        Message::Figure(Some(_)) => vec![habit(Habit::Figure)],
        Message::Figure(None) | Message::Hinted => vec![Command::LetGo],
        Message::Finding(_) => vec![habit(Habit::Finding)],
        Message::Mend(_) => vec![habit(Habit::Mend)],
        Message::PutOn(_) | Message::Over(_) => vec![habit(Habit::PutOn)],
        Message::Level(_) | Message::Paper(_) => vec![Command::LevelUp, Command::LevelDown],
        // In fields and lists Enter and the arrows do.
        Message::FieldDone | Message::Found(_) | Message::Close(_) | Message::Way(_) => {
            vec![Command::Settle]
        }
        // Their cards name the keys: Enter, Escape, the first letters.
        Message::TakeBrought | Message::Draft(_) | Message::Reading(_) => vec![Command::Settle],
        Message::Undrafted => vec![Command::Undo],
        Message::Dropped(_) => vec![habit(Habit::Open)],
        Message::CloseAsked(_) => vec![Command::Close],
        // The sheet: tools, the arrows, typed lengths.
        Message::Sheet(_) => vec![Command::Next, Command::Nudge(1, 0), Command::Take(Tool::Hand)],
        Message::Key(_)
        | Message::Answered(..)
        | Message::PictureRead(..)
        | Message::Drawn(_)
        | Message::Field(_)
        | Message::Sized(_)
        | Message::Written(_)
        | Message::Second
        | Message::Focused
        | Message::Frame => Vec::new(),
    }
}

#[test]
fn whatever_is_clicked_has_a_key_in_the_list() {
    let circuit = wirewend::plan::CircuitId(1);
    let end = wirewend::plan::End::Point(wirewend::plan::PointId(1));
    let leg = wirewend::session::state::LegKey { circuit, from: end, to: end };
    let mut clicks = vec![
        Message::Circuit(circuit),
        Message::Leg(leg),
        Message::Figure(Some(wirewend::session::work::Figure::Cable)),
        Message::Figure(None),
        Message::Hinted,
        Message::Finding(0),
        Message::Mend(0),
        Message::PutOn(circuit),
        Message::Over(None),
        Message::Level(wirewend::plan::LevelId(1)),
        Message::Paper(0),
        Message::FieldDone,
        Message::TakeBrought,
        Message::Reading(crate::app::doing::bring::Reading::NextUnit),
        Message::Found(0),
        Message::Close(crate::app::Leave::Stay),
        Message::Way(crate::app::message::WayOut::Another),
        Message::Dropped(std::path::PathBuf::new()),
    ];
    clicks.extend(keys::all().into_iter().map(|bound| Message::Do(bound.command)));
    let session = Session::with(wirewend::session::ground::blank::plan());
    for click in clicks {
        let commands = by_key(&click);
        assert!(!commands.is_empty(), "{click:?} can only be clicked");
        for command in commands {
            let bound = keys::all().into_iter().find(|bound| bound.command == command);
            let Some(bound) = bound else { panic!("{command:?} is not in the list") };
            // What has no key is found by its name, which has one.
            let hits = find::hits(&session, bound.does);
            let named = hits.iter().any(|hit| hit.goes == find::Goes::Do(command));
            assert!(!bound.key.is_empty() || named, "{command:?} has no key");
        }
    }
}

/// Everything there is of each kind of thing, not only what is on a shelf.
#[test]
fn every_action_is_in_the_list_and_found_by_its_name() {
    let points = PointKind::ALL.into_iter().map(|kind| Command::Take(Tool::Point(kind)));
    let openings =
        [OpeningKind::Door, OpeningKind::SlidingDoor, OpeningKind::Window, OpeningKind::Plain]
            .map(|kind| Command::Take(Tool::Opening(kind)));
    let areas = [AreaKind::KeepOut, AreaKind::Dear, AreaKind::Cheap, AreaKind::Barrier];
    let areas = areas
        .into_iter()
        .flat_map(|kind| [Command::Take(Tool::Area(kind)), Command::Building(Ask::Effect(kind))]);
    let tools = [Tool::Hand, Tool::Wall, Tool::Board, Tool::Pin, Tool::Outline, Tool::Ruler];
    let builds = BUILDS.map(|build| Command::Building(Ask::Build(build)));
    let uses = USES.map(|(usage, _)| Command::Building(Ask::Use(usage)));
    let amounts = [
        Amount::Along,
        Amount::Height,
        Amount::Head,
        Amount::Width,
        Amount::Thick,
        Amount::Spacing,
        Amount::Direction,
        Amount::Percent,
        Amount::Name,
        Amount::Ceiling,
        Amount::Floor,
    ];
    let all = points
        .chain(openings)
        .chain(areas)
        .chain(tools.map(Command::Take))
        .chain(Step::ALL.map(Command::Step))
        .chain(builds)
        .chain(uses)
        .chain(amounts.map(Command::Ask))
        .chain(keys::all().into_iter().map(|bound| bound.command));
    let session = Session::with(wirewend::session::ground::blank::plan());
    let mut count = 0;
    for command in all {
        let bound = keys::all().into_iter().find(|bound| bound.command == command);
        let bound = bound.unwrap_or_else(|| panic!("{command:?} is not in the list"));
        let hits = find::hits(&session, bound.does);
        let found = hits.iter().any(|hit| hit.goes == find::Goes::Do(command));
        assert!(found, "{command:?} is not found by \"{}\"", bound.does);
        count += 1;
    }
    assert!(count > 180, "only {count} were looked at");
}

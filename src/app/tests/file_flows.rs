//! Flows about files that are in the way, without a window.

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};

use iced::keyboard::Key;
use iced::keyboard::key::Named;
use kurbo::Point;
use wirewend::plan::PointKind;
use wirewend::rules::RuleBook;
use wirewend::session::Session;
use wirewend::session::ground::blank;
use wirewend::session::papers::{Export, Exported, folder as papers_folder};
use wirewend::session::state::{InTheWay, Tool};
use wirewend::store::{self, Journal};

use crate::app::keys::Command;
use crate::app::{App, Message, Over, frames};

/// A window without a screen, with a house of one room in it, and a folder.
struct Flow {
    app: App,
    folder: PathBuf,
}

/// Computes whatever is due, as the window's threads do.
fn settle(session: &mut Session) {
    let (rules, known) = (Arc::new(RuleBook::shipped()), Mutex::default());
    while let Some(order) = session.due() {
        session.done(Arc::new(order.done(&rules, &known).picture));
    }
}

fn take(session: &mut Session, tool: Tool, places: &[(f64, f64)]) {
    session.take_tool(tool);
    for place in places {
        session.press(Point::new(place.0, place.1), false);
        settle(session);
    }
    session.take_tool(Tool::Hand);
}

/// A house of one room with a board and a socket in it.
fn wired() -> Session {
    let mut session = Session::with(blank::plan());
    let corners = [(0.0, 0.0), (6000.0, 0.0), (6000.0, 4000.0), (0.0, 4000.0), (0.0, 0.0)];
    take(&mut session, Tool::Wall, &corners);
    take(&mut session, Tool::Board, &[(100.0, 1000.0)]);
    take(&mut session, Tool::Point(PointKind::Socket), &[(1000.0, 3900.0)]);
    session
}

const STRANGER: &str = "somebody else's work";

impl Flow {
    fn new(name: &str) -> Self {
        let folder =
            std::env::temp_dir().join(format!("wirewend-flow-{name}-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        std::fs::create_dir_all(folder.join("home")).expect("a folder");
        let home = Some(folder.join("home"));
        let (mut app, _) =
            App::new(blank::plan(), None, home, (frames::now(), Arc::new(RuleBook::shipped())));
        app.session = wired();
        Self { app, folder }
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folder.join(name)
    }

    fn does(&mut self, message: Message) {
        let _ = self.app.update(message);
    }

    fn key(&mut self, key: Named) {
        let _ = self.app.over_key(&Key::Named(key), None);
    }

    /// Saves as by the keyboard.
    fn save_as(&mut self, file: &Path) {
        self.does(Message::Do(Command::SaveAs));
        self.does(Message::Field(file.display().to_string()));
        self.does(Message::FieldDone);
    }

    /// Draws one more socket.
    fn draw(&mut self, along: f64) {
        take(&mut self.app.session, Tool::Point(PointKind::Socket), &[(along, 3900.0)]);
    }

    /// Writes the papers, as the thread of the window does.
    fn papers(&mut self, folder: PathBuf, anyway: bool) {
        // What the window sent to a thread of its own does not come back here.
        self.app.session.failed();
        self.app.session.look_again();
        settle(&mut self.app.session);
        let export = Export::of(&self.app.session, folder, anyway).expect("computed");
        let exported = export.write(&wirewend::units::Watch::default());
        self.does(Message::Written(exported));
    }

    fn asks(&self) -> bool {
        matches!(self.app.over, Over::InTheWay(_))
    }

    fn kept(&self, name: &str) -> Vec<String> {
        let first = format!("{name}.before-");
        let entries = std::fs::read_dir(&self.folder).expect("a folder");
        let paths = entries.map(|entry| entry.expect("an entry").path());
        let kept = paths.filter(|path| {
            path.file_name().is_some_and(|name| name.to_string_lossy().starts_with(&first))
        });
        kept.map(|path| std::fs::read_to_string(path).expect("text")).collect()
    }
}

impl Drop for Flow {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

fn text(path: &Path) -> String {
    std::fs::read_to_string(path).expect("text")
}

#[test]
fn save_as_over_a_file_asks_once() {
    let mut flow = Flow::new("over");
    let house = flow.path("house.wend");
    std::fs::write(&house, STRANGER).expect("a file");
    flow.save_as(&house);
    assert!(flow.asks(), "{:?}", flow.app.over);
    assert_eq!(text(&house), STRANGER, "untouched");
    assert!(!Journal::path_of(&house).exists(), "and nothing was left beside it");
    // Not now.
    flow.key(Named::Escape);
    assert_eq!((text(&house).as_str(), &flow.app.over), (STRANGER, &Over::Nothing));
    assert!(
        flow.app.session.document.unsaved() && flow.app.session.document.file().is_none(),
        "as it was"
    );
    // Another name, filled in.
    flow.save_as(&house);
    flow.key(Named::Enter);
    let second = flow.path("house-2.wend");
    assert_eq!(flow.app.over, Over::SaveAs(second.display().to_string()));
    flow.does(Message::FieldDone);
    assert_eq!(store::read_file(&second).expect("a plan"), *flow.app.session.document.plan());
    assert_eq!(text(&house), STRANGER, "untouched");
    // Replaced, and kept.
    flow.save_as(&house);
    flow.key(Named::Delete);
    assert_eq!(store::read_file(&house).expect("a plan"), *flow.app.session.document.plan());
    assert_eq!(flow.kept("house.wend"), [STRANGER]);
    assert!(
        flow.app.session.said.contains("kept beside it as house.wend.before-"),
        "{}",
        flow.app.session.said
    );
    assert!(!flow.app.session.document.unsaved() && !flow.asks());
    // From now on it is its own.
    flow.draw(2000.0);
    flow.does(Message::Do(Command::Save));
    assert!(!flow.asks() && !flow.app.session.document.unsaved(), "{}", flow.app.session.said);
    assert_eq!(flow.kept("house.wend").len(), 1, "the one before, alone");
    flow.app.session.close();
}

#[test]
fn a_file_that_changed_underneath_is_asked_about_each_time() {
    let mut flow = Flow::new("under");
    let house = flow.path("house.wend");
    flow.save_as(&house);
    assert!(!flow.asks(), "a new one");
    let first = text(&house);
    flow.draw(2000.0);
    std::fs::write(&house, STRANGER).expect("from outside");
    flow.does(Message::Do(Command::Save));
    assert!(flow.asks() && flow.app.session.document.unsaved(), "{:?}", flow.app.over);
    assert_eq!(text(&house), STRANGER, "untouched");
    // Once more, before the answer.
    std::fs::write(&house, "and again").expect("from outside");
    flow.key(Named::Delete);
    assert!(flow.asks(), "that is another question");
    assert_eq!(text(&house), "and again", "untouched");
    flow.key(Named::Delete);
    assert!(!flow.asks() && !flow.app.session.document.unsaved(), "{}", flow.app.session.said);
    assert_eq!(store::read_file(&house).expect("a plan"), *flow.app.session.document.plan());
    assert!(flow.kept("house.wend").contains(&"and again".to_owned()), "kept");
    // Changed and changed back is no change; gone is no loss.
    let saved = text(&house);
    std::fs::write(&house, &first).expect("from outside");
    std::fs::write(&house, saved).expect("and back");
    flow.draw(3000.0);
    flow.does(Message::Do(Command::Save));
    assert!(!flow.asks(), "{}", flow.app.session.said);
    std::fs::remove_file(&house).expect("taken away");
    flow.draw(4000.0);
    flow.does(Message::Do(Command::Save));
    assert!(!flow.asks() && house.exists(), "{}", flow.app.session.said);
    flow.app.session.close();
}

/// A plan that was opened where there was none yet.
#[test]
fn a_file_that_came_meanwhile_is_asked_about() {
    let mut flow = Flow::new("came");
    let house = flow.path("new.wend");
    let session = Session::of_known(wired().document.plan().clone(), house.clone(), None);
    flow.app.session = session;
    flow.draw(2000.0);
    std::fs::write(&house, STRANGER).expect("from outside");
    flow.does(Message::Do(Command::Save));
    assert!(flow.asks(), "{}", flow.app.session.said);
    assert_eq!(text(&house), STRANGER, "untouched");
    flow.app.session.close();
}

/// What a crash left of the plan that is replaced is kept aside.
#[test]
fn edits_that_were_not_saved_to_a_replaced_plan_are_kept() {
    let mut flow = Flow::new("aside");
    let house = flow.path("house.wend");
    let mut other = wired();
    assert!(other.save_as(house.clone()), "{}", other.said);
    take(&mut other, Tool::Point(PointKind::Socket), &[(2000.0, 3900.0)]);
    drop(other);
    let noted = text(&Journal::path_of(&house));
    flow.draw(3000.0);
    flow.save_as(&house);
    flow.key(Named::Delete);
    assert!(!flow.app.session.document.unsaved(), "{}", flow.app.session.said);
    let mut aside = Journal::path_of(&house).into_os_string();
    aside.push(".old");
    assert_eq!(text(Path::new(&aside)), noted, "the edits");
    assert_eq!(flow.kept("house.wend").len(), 1, "and the plan that they begin from");
    flow.app.session.close();
}

#[test]
fn a_window_that_was_to_close_stays_when_the_question_is_put_off() {
    let mut flow = Flow::new("close");
    let house = flow.path("house.wend");
    std::fs::write(&house, STRANGER).expect("a file");
    let id = iced::window::Id::unique();
    flow.does(Message::CloseAsked(id));
    assert!(matches!(flow.app.over, Over::Leaving(_)), "unsaved");
    flow.key(Named::Enter);
    flow.does(Message::Field(house.display().to_string()));
    flow.does(Message::FieldDone);
    assert!(flow.asks() && flow.app.closing == Some(id), "it waits");
    flow.key(Named::Escape);
    assert_eq!(flow.app.closing, None, "a later save does not close it");
}

#[test]
fn papers_go_over_ones_own_and_ask_about_others() {
    let mut flow = Flow::new("papers");
    let house = flow.path("house.wend");
    flow.save_as(&house);
    let folder = papers_folder(Some(&house));
    assert_eq!(folder, flow.path("house.papers"));
    flow.papers(folder.clone(), false);
    assert!(flow.app.session.said.contains("sheets in"), "{}", flow.app.session.said);
    flow.draw(2000.0);
    flow.papers(folder.clone(), false);
    assert!(flow.app.session.said.contains("sheets in") && !flow.asks(), "its own");
    std::fs::write(folder.join("cuts.csv"), STRANGER).expect("filled in on site");
    flow.papers(folder.clone(), false);
    let Over::InTheWay(InTheWay::Papers { says, .. }) = &flow.app.over else {
        panic!("asks: {:?}", flow.app.over)
    };
    assert!(says.contains("cuts.csv"), "{says}");
    assert_eq!(text(&folder.join("cuts.csv")), STRANGER, "untouched");
    flow.key(Named::Enter);
    let second = flow.path("house-2.papers");
    assert_eq!(flow.app.over, Over::PapersTo(second.display().to_string()));
    flow.does(Message::FieldDone);
    assert!(flow.app.writing.is_some(), "on their way there");
    flow.does(Message::Written(Exported::Said(String::new())));
    flow.papers(folder.clone(), true);
    assert!(
        flow.app.session.said.contains("kept beside it as cuts.csv.before-"),
        "{}",
        flow.app.session.said
    );
    assert_ne!(text(&folder.join("cuts.csv")), STRANGER, "replaced");
    flow.app.session.close();
}

/// What saving comes to on everything that can be in its way; the same for the
/// command line is the table `what_comes_of_it` of the suite.
#[cfg(unix)]
#[test]
fn saving_on_everything_in_its_way() {
    for (way, expected) in [
        ("nothing", "saved"),
        ("another's file", "asks"),
        ("protected", "refused: this file is protected from being written"),
        ("a folder", "refused: that is a folder, and a file is to be written"),
        ("a device", "refused: that is no plain file, and is not written into"),
        ("a link", "asks"),
        ("a link to nothing", "refused: that is a link to nothing"),
        ("no folder", "refused: No such file or directory"),
    ] {
        let mut flow = Flow::new(&format!("way-{}", way.replace([' ', '\''], "-")));
        let mut house = flow.path("house.wend");
        let theirs = flow.path("theirs");
        std::fs::write(&theirs, STRANGER).expect("a file");
        match way {
            "another's file" | "protected" => std::fs::write(&house, STRANGER).expect("a file"),
            "a folder" => std::fs::create_dir(&house).expect("a folder"),
            "a device" => std::os::unix::fs::symlink("/dev/null", &house).expect("a link"),
            "a link" => std::os::unix::fs::symlink(&theirs, &house).expect("a link"),
            "a link to nothing" => std::os::unix::fs::symlink("nowhere", &house).expect("a link"),
            "no folder" => house = flow.path("none/house.wend"),
            _ => {}
        }
        if way == "protected" {
            let mut mode = std::fs::metadata(&house).expect("a file").permissions();
            mode.set_readonly(true);
            std::fs::set_permissions(&house, mode).expect("protected");
        }
        flow.save_as(&house);
        let outcome = if flow.asks() {
            flow.key(Named::Delete);
            let is_link = std::fs::symlink_metadata(&house).expect("there").is_symlink();
            assert_eq!(is_link, way == "a link", "{way}: followed, and stays");
            let name = if is_link { "theirs" } else { "house.wend" };
            assert_eq!(flow.kept(name), [STRANGER], "{way}: kept");
            assert!(!flow.app.session.document.unsaved(), "{way}: {}", flow.app.session.said);
            "asks".to_owned()
        } else if flow.app.session.document.unsaved() {
            let said = &flow.app.session.said;
            let reason = said.split_once(": ").map_or(said.as_str(), |(_, reason)| reason);
            let reason = reason.split([';', '(']).next().unwrap_or_default().trim();
            assert_eq!(flow.app.session.document.file(), None, "{way}: the plan is where it was");
            format!("refused: {reason}")
        } else {
            "saved".to_owned()
        };
        assert_eq!(outcome, expected, "{way}");
        if way != "a link" {
            assert_eq!(text(&theirs), STRANGER, "{way}");
        }
        flow.app.session.close();
    }
}

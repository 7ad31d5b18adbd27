//! Every command with its key: the table that the keyboard asks is the one
//! that the list of keys shows.

mod habits;
mod survey;
mod table;

use iced::keyboard::key::{Named, Physical};
use iced::keyboard::{Key, Modifiers};
use wirewend::plan::PointKind;
use wirewend::session::ground::kit;
use wirewend::session::state::{Amount, Step, Tool};

pub(in crate::app) use self::habits::Habit;
pub(in crate::app) use self::survey::Ask;

/// Everything that a key or a button can ask for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::app) enum Command {
    Step(Step),
    Take(Tool),
    Building(Ask),
    Undo,
    Redo,
    Save,
    SaveAs,
    Export,
    New,
    Delete,
    LetGo,
    Settle,
    Fit,
    Nearer,
    Farther,
    Pan(i8, i8),
    LevelUp,
    LevelDown,
    Duplicate,
    All,
    Nudge(i8, i8),
    Ask(Amount),
    Turn,
    Gangs,
    Next,
    Find,
    Keys,
    Look,
    Close,
    Habit(Habit),
}

/// A command with its key and what it does.
#[derive(Clone, Copy, Debug)]
pub(in crate::app) struct Bound {
    pub(in crate::app) command: Command,
    pub(in crate::app) key: &'static str,
    pub(in crate::app) does: &'static str,
}

pub(in crate::app) const fn bound(
    command: Command,
    key: &'static str,
    does: &'static str,
) -> Bound {
    Bound { command, key, does }
}

/// All commands: those of the table and the kit's.
pub(in crate::app) fn all() -> Vec<Bound> {
    let kit = kit::FRONT
        .iter()
        .map(|(kind, key)| bound(Command::Take(Tool::Point(*kind)), key, kind.name()));
    // What is not on the shelf in front is found by its name.
    let behind = PointKind::ALL.into_iter().filter(|kind| !kit::is_in_front(*kind));
    let behind = behind.map(|kind| bound(Command::Take(Tool::Point(kind)), "", kind.name()));
    let kit = kit.chain(behind);
    let named = table::COMMANDS.into_iter().chain(survey::COMMANDS).chain(habits::COMMANDS);
    named.chain(kit).collect()
}

/// The list of keys: each command once with all its keys, what has none left out.
pub(in crate::app) fn listed() -> Vec<(String, &'static str)> {
    let mut list: Vec<(Command, String, &'static str)> = Vec::new();
    for bound in all().into_iter().filter(|bound| !bound.key.is_empty()) {
        match list.iter_mut().find(|(command, ..)| *command == bound.command) {
            // What needs Shift on some keyboards is the same key to a reader.
            Some(_) if bound.key.starts_with("Ctrl+Shift+") => {}
            Some((_, keys, _)) => {
                keys.push_str(", ");
                keys.push_str(bound.key);
            }
            None => list.push((bound.command, bound.key.to_owned(), bound.does)),
        }
    }
    list.into_iter().map(|(_, keys, does)| (keys, does)).collect()
}

/// The command of a key, if it has one.
pub(in crate::app) fn command(
    key: &Key,
    physical: Physical,
    modifiers: Modifiers,
) -> Option<Command> {
    let pressed = pressed(key, physical, modifiers)?;
    all().into_iter().find(|bound| bound.key == pressed).map(|bound| bound.command)
}

/// The key of a command, as the list has it.
pub(in crate::app) fn key_of(command: Command) -> &'static str {
    all().into_iter().find(|bound| bound.command == command).map_or("", |bound| bound.key)
}

/// A key as the table writes it.
fn pressed(key: &Key, physical: Physical, modifiers: Modifiers) -> Option<String> {
    let mut text = String::new();
    if modifiers.command() {
        text.push_str("Ctrl+");
    }
    let name = match key.as_ref() {
        Key::Named(named) => {
            let arrow = matches!(
                named,
                Named::ArrowLeft | Named::ArrowRight | Named::ArrowUp | Named::ArrowDown
            );
            if arrow && modifiers.shift() {
                text.push_str("Shift+");
            }
            match named {
                Named::Escape => "Escape",
                Named::Enter => "Enter",
                Named::Delete | Named::Backspace => "Delete",
                Named::Tab => "Tab",
                Named::ArrowLeft => "Left",
                Named::ArrowRight => "Right",
                Named::ArrowUp => "Up",
                Named::ArrowDown => "Down",
                Named::PageUp => "PageUp",
                Named::PageDown => "PageDown",
                Named::F1 => "F1",
                Named::F2 => "F2",
                Named::F3 => "F3",
                Named::F4 => "F4",
                Named::F6 => "F6",
                Named::F7 => "F7",
                Named::F8 => "F8",
                Named::F9 => "F9",
                _ => return None,
            }
            .to_owned()
        }
        // Signs that need a shift key on some keyboards stand for themselves.
        Key::Character(sign @ ("+" | "=" | "-" | "/" | "?" | "0" | "[" | "]"))
            if !modifiers.command() =>
        {
            return Some(sign.to_owned());
        }
        Key::Character(_) => {
            if modifiers.shift() {
                text.push_str("Shift+");
            }
            key.to_latin(physical)?.to_uppercase().to_string()
        }
        Key::Unidentified => return None,
    };
    Some(text + &name)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_key_means_two_things() {
        let all = all();
        for (index, one) in all.iter().enumerate() {
            let mut others = all[index + 1..].iter().filter(|other| !other.key.is_empty());
            let again = others.find(|other| other.key == one.key);
            assert!(again.is_none(), "{} {:?} {:?}", one.key, one.command, again);
        }
    }

    #[test]
    fn a_key_finds_its_command() {
        let none = Physical::Unidentified(iced::keyboard::key::NativeCode::Unidentified);
        let find = |key: Key, modifiers| command(&key, none, modifiers);
        let sign = |sign: &str| Key::Character(sign.into());
        assert_eq!(find(sign("w"), Modifiers::empty()), Some(Command::Take(Tool::Wall)));
        assert_eq!(find(sign("z"), Modifiers::COMMAND), Some(Command::Undo));
        let both = Modifiers::COMMAND | Modifiers::SHIFT;
        assert_eq!(find(sign("z"), both), Some(Command::Redo));
        assert_eq!(find(Key::Named(Named::F1), Modifiers::empty()), Some(Command::Keys));
        assert_eq!(find(sign("z"), Modifiers::empty()), None);
    }
}

//! Reading a plan file.

use std::io::Read as _;
use std::path::Path;

use super::decode::decode;
use super::error::{Problem, ReadError, nearest, shown};
use super::fault::Fault;
use super::files::Known;
use super::node::{Node, Object, Value, line_and_column};
use super::scan::scan;
use super::{VERSION, VERSION_KEY};
use crate::plan::Plan;

/// The largest plan file, bytes. A house takes some tens of thousands.
pub const FILE_BYTES_MAX: usize = 64 << 20;

/// Reads a plan from the bytes of a file; `name` is how errors call the file.
///
/// The plan holds together: nothing in it names what it does not have, and
/// every number and text is within the bounds of an edit.
///
/// # Errors
/// The first thing that is wrong with the file, with its place.
pub fn read(bytes: &[u8], name: &str) -> Result<Plan, ReadError> {
    let fail = |fault: Fault, text: &str| {
        let (line, column) = line_and_column(text, fault.offset.unwrap_or(0));
        ReadError {
            file: name.to_owned(),
            line,
            column,
            path: fault.path(),
            problem: fault.problem,
        }
    };
    let text = text_of(bytes)
        .map_err(|(problem, before)| fail(Fault::new(problem).at(before.len()), before))?;
    read_text(text).map_err(|fault| fail(fault, text))
}

/// Reads a plan from a file.
///
/// # Errors
/// As [`read`], and where the file cannot be read at all.
pub fn read_file(path: &Path) -> Result<Plan, ReadError> {
    read_known(path).map(|(plan, _)| plan)
}

/// Reads a plan from a file, with what the file held: whoever writes it again
/// can tell whether another has changed it meanwhile.
///
/// # Errors
/// As [`read_file`].
pub fn read_known(path: &Path) -> Result<(Plan, Known), ReadError> {
    let name = path.display().to_string();
    let limit = u64::try_from(FILE_BYTES_MAX).unwrap_or(u64::MAX);
    let mut bytes = Vec::new();
    // One byte more than may be there shows that there is too much.
    let taken = std::fs::File::open(path)
        .and_then(|file| file.take(limit.saturating_add(1)).read_to_end(&mut bytes));
    match taken {
        Ok(_) => read(&bytes, &name).map(|plan| (plan, Known::of(&bytes))),
        Err(error) => Err(ReadError {
            file: name,
            line: 1,
            column: 1,
            path: String::new(),
            problem: Problem::Unreadable(error.to_string()).into(),
        }),
    }
}

/// The text of a file, or what is wrong and the text before it.
fn text_of(bytes: &[u8]) -> Result<&str, (Problem, &str)> {
    if bytes.len() > FILE_BYTES_MAX {
        return Err((Problem::TooLarge { limit: FILE_BYTES_MAX }, ""));
    }
    if bytes.starts_with(b"\xEF\xBB\xBF") {
        return Err((Problem::ByteOrderMark, ""));
    }
    std::str::from_utf8(bytes).map_err(|error| {
        let before = bytes.get(..error.valid_up_to()).unwrap_or_default();
        (Problem::NotUtf8, std::str::from_utf8(before).unwrap_or_default())
    })
}

fn read_text(text: &str) -> Result<Plan, Fault> {
    let mut root = scan(text)?;
    check_version(&mut root)?;
    let mut plan: Plan = decode(&root)?;
    check_counter(&mut plan, &root)?;
    if let Some(beyond) = plan.check_limits() {
        let (found, expected) = (beyond.found, beyond.expected);
        return Err(Fault::new(Problem::Unexpected { found, expected }).led(&root, &beyond.at));
    }
    match plan.check_references().into_iter().next() {
        Some(dangling) => {
            Err(Fault::new(Problem::Dangling(dangling.to_string())).led(&root, &dangling.at))
        }
        None => Ok(plan),
    }
}

/// The counter of ids must be past every id, or one would be used twice. A
/// file may leave it out: then it is one past the largest.
fn check_counter(plan: &mut Plan, root: &Node<'_>) -> Result<(), Fault> {
    let key = "next_id";
    let Some(largest) = plan.largest_id() else { return Ok(()) };
    if root.has(key) && plan.next_id <= largest {
        let (found, expected) =
            (plan.next_id.to_string(), format!("more than {largest}, the largest number of an id"));
        return Err(Fault::new(Problem::Unexpected { found, expected }).led(root, key));
    }
    plan.next_id = plan.next_id.max(largest.saturating_add(1));
    Ok(())
}

/// Takes the version out of the file's outermost object, so that the plan's
/// own keys remain.
fn check_version(root: &mut Node<'_>) -> Result<(), Fault> {
    let offset = root.offset;
    let Value::Object(entries) = &mut root.value else {
        let (found, expected) = (root.describe(), "an object".to_owned());
        return Err(Fault::new(Problem::Unexpected { found, expected }).at(offset));
    };
    let Some(entry) = entries.shift_remove(VERSION_KEY) else {
        return Err(no_version(entries, offset));
    };
    match entry.node.value {
        Value::Number(text) if text == VERSION.to_string() => Ok(()),
        Value::Number(_) => {
            let (found, expected) = (entry.node.describe(), VERSION);
            Err(Fault::new(Problem::Version { found, expected }))
        }
        _ => {
            let (found, expected) = (entry.node.describe(), VERSION.to_string());
            Err(Fault::new(Problem::Unexpected { found, expected }))
        }
    }
    .map_err(|fault| fault.at(entry.node.offset).under(VERSION_KEY))
}

fn no_version(entries: &Object<'_>, offset: usize) -> Fault {
    let misspelt = entries.iter().find(|(key, _)| nearest(key, &[VERSION_KEY]).is_some());
    match misspelt {
        Some((key, entry)) => Fault::new(Problem::UnknownKey {
            found: shown(key),
            expected: vec![VERSION_KEY],
            near: Some(VERSION_KEY.to_owned()),
        })
        .at(entry.key_offset)
        .under(key),
        None => Fault::new(Problem::NoVersion { key: VERSION_KEY, version: VERSION }).at(offset),
    }
}

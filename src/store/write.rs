//! Writing a plan file.

use std::fs::{self, File, OpenOptions};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use serde_json::{Map, Number, Value};

use super::{VERSION, VERSION_KEY};
use crate::plan::Plan;

/// A plan file that could not be written. What was there before is untouched.
#[derive(Debug, thiserror::Error)]
#[error("{}: cannot be written: {cause}", path.display())]
pub struct WriteError {
    /// The file.
    pub path: PathBuf,
    /// What stood in the way.
    #[source]
    pub cause: io::Error,
}

/// The text of a plan file: keys in a fixed order, everything that can be
/// pointed at on one line, a newline at the end. The same plan gives the same
/// bytes.
///
/// # Panics
/// Never: every part of a plan has a form in JSON.
#[must_use]
pub fn write(plan: &Plan) -> String {
    let plan = serde_json::to_value(plan).expect("a plan's keys are texts, so it has a JSON form");
    let mut text = format!("{{\n  \"{VERSION_KEY}\": {VERSION}");
    for (key, section) in plan.as_object().into_iter().flatten() {
        text.push_str(",\n  ");
        push_text(&mut text, key);
        text.push_str(": ");
        push_section(&mut text, section, 2, depth_of(key));
    }
    text.push_str("\n}\n");
    text
}

/// How many levels of a section are broken into lines: the stock, the prices
/// and what is kept hold lists of things, the other sections the things
/// themselves.
fn depth_of(section: &str) -> usize {
    if ["stock", "prices", "kept"].contains(&section) { 2 } else { 1 }
}

/// A value with its parts on lines of their own, down to a depth.
fn push_section(text: &mut String, value: &Value, indent: usize, depth: usize) {
    let inner = format!("\n{}", " ".repeat(indent + 2));
    match value {
        Value::Object(entries) if depth > 0 && !entries.is_empty() => {
            text.push('{');
            for (index, (key, value)) in entries.iter().enumerate() {
                text.push_str(if index == 0 { "" } else { "," });
                text.push_str(&inner);
                push_text(text, key);
                text.push_str(": ");
                push_section(text, value, indent + 2, depth - 1);
            }
            text.push_str(&inner[..=indent]);
            text.push('}');
        }
        Value::Array(items) if depth > 0 && !items.is_empty() => {
            text.push('[');
            for (index, item) in items.iter().enumerate() {
                text.push_str(if index == 0 { "" } else { "," });
                text.push_str(&inner);
                push_section(text, item, indent + 2, depth - 1);
            }
            text.push_str(&inner[..=indent]);
            text.push(']');
        }
        value => push_line(text, value),
    }
}

/// A value on one line.
fn push_line(text: &mut String, value: &Value) {
    match value {
        Value::Object(entries) => push_object(text, entries),
        Value::Array(items) => {
            text.push('[');
            for (index, item) in items.iter().enumerate() {
                text.push_str(if index == 0 { "" } else { ", " });
                push_line(text, item);
            }
            text.push(']');
        }
        Value::String(string) => push_text(text, string),
        Value::Number(number) => text.push_str(&number_text(number)),
        Value::Null | Value::Bool(_) => text.push_str(&value.to_string()),
    }
}

fn push_object(text: &mut String, entries: &Map<String, Value>) {
    text.push('{');
    for (index, (key, value)) in entries.iter().enumerate() {
        text.push_str(if index == 0 { "" } else { ", " });
        push_text(text, key);
        text.push_str(": ");
        push_line(text, value);
    }
    text.push('}');
}

fn push_text(text: &mut String, string: &str) {
    text.push_str(&Value::from(string).to_string());
}

/// Whole numbers without a point, as people write them: `230`, `2.5`.
fn number_text(number: &Number) -> String {
    let text = number.to_string();
    let whole = text.strip_suffix(".0").unwrap_or(&text);
    // Reading takes `-0` for 0, so it is never written.
    if whole == "-0" { "0".to_owned() } else { whole.to_owned() }
}

/// Writes a plan to a file so that at every moment either the old or the new
/// one is there whole: into a new file in the same folder, out to the disk,
/// then over the old one.
///
/// # Errors
/// Where the folder or the disk does not let it.
pub fn write_file(plan: &Plan, path: &Path) -> Result<(), WriteError> {
    replace(path, write(plan).as_bytes())
        .map_err(|cause| WriteError { path: path.to_owned(), cause })
}

fn replace(path: &Path, bytes: &[u8]) -> io::Result<()> {
    // Through a link, so that the link stays and its target is replaced.
    let target = fs::canonicalize(path).unwrap_or_else(|_| path.to_owned());
    let (temporary, file) = open_beside(&target)?;
    let written = fill(file, bytes, &target).and_then(|()| fs::rename(&temporary, &target));
    if written.is_err() {
        // The first error counts; a left-over file harms nobody.
        let _ = fs::remove_file(&temporary);
    }
    written?;
    sync_folder(&target)
}

fn fill(mut file: File, bytes: &[u8], target: &Path) -> io::Result<()> {
    if let Ok(old) = fs::metadata(target) {
        file.set_permissions(old.permissions())?;
    }
    file.write_all(bytes)?;
    file.sync_all()
}

/// A new file in the same folder, where a rename cannot cross file systems.
fn open_beside(target: &Path) -> io::Result<(PathBuf, File)> {
    let name = target.file_name().ok_or(io::ErrorKind::InvalidFilename)?.to_string_lossy();
    let mut taken = io::Error::from(io::ErrorKind::AlreadyExists);
    for attempt in 0..100 {
        let temporary =
            target.with_file_name(format!(".{name}.{}-{attempt}.new", std::process::id()));
        match OpenOptions::new().write(true).create_new(true).open(&temporary) {
            Ok(file) => return Ok((temporary, file)),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => taken = error,
            Err(error) => return Err(error),
        }
    }
    Err(taken)
}

/// Makes the rename itself last through a power cut, where the system can.
fn sync_folder(target: &Path) -> io::Result<()> {
    let folder = target.parent().filter(|folder| !folder.as_os_str().is_empty());
    if cfg!(unix) { File::open(folder.unwrap_or(Path::new(".")))?.sync_all() } else { Ok(()) }
}

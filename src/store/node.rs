//! The text of a file as a tree in which every value knows its place.

use std::borrow::Cow;

use indexmap::IndexMap;

use super::error::shown;

/// A value and the byte at which it begins.
#[derive(Debug)]
pub(super) struct Node<'a> {
    pub(super) offset: usize,
    pub(super) value: Value<'a>,
}

/// A value. Numbers stay as written, so that no digit is lost before it is
/// known what they count.
#[derive(Debug)]
pub(super) enum Value<'a> {
    Null,
    Flag(bool),
    Number(&'a str),
    Text(Cow<'a, str>),
    List(Vec<Node<'a>>),
    Object(Object<'a>),
}

/// The entries of an object in the order of the file.
pub(super) type Object<'a> = IndexMap<Cow<'a, str>, Entry<'a>>;

/// A value and the byte at which its key begins.
#[derive(Debug)]
pub(super) struct Entry<'a> {
    pub(super) key_offset: usize,
    pub(super) node: Node<'a>,
}

impl Node<'_> {
    /// What stands here, as a message names it.
    pub(super) fn describe(&self) -> String {
        match &self.value {
            Value::Null => "null".to_owned(),
            Value::Flag(flag) => flag.to_string(),
            Value::Number(text) if text.len() > 40 => format!("{}…", &text[..40]),
            Value::Number(text) => (*text).to_owned(),
            Value::Text(text) => format!("the text {}", shown(text)),
            Value::List(items) => format!("a list of {}", items.len()),
            Value::Object(_) => "an object".to_owned(),
        }
    }

    /// Whether this is an object with such a key.
    pub(super) fn has(&self, key: &str) -> bool {
        matches!(&self.value, Value::Object(entries) if entries.contains_key(key))
    }

    /// Where a path such as `circuits.C4.order[2]` leads, or the place of the
    /// last step on the way that the file has.
    pub(super) fn locate(&self, path: &str) -> usize {
        let mut node = self;
        for step in path.split(['.', '[']).filter(|step| !step.is_empty()) {
            let next = match &node.value {
                Value::Object(entries) => entries.get(step).map(|entry| &entry.node),
                Value::List(items) => {
                    step.trim_end_matches(']').parse::<usize>().ok().and_then(|i| items.get(i))
                }
                _ => None,
            };
            let Some(next) = next else { break };
            node = next;
        }
        node.offset
    }
}

/// The line and the character in it, both counted from 1, of a byte of a text.
pub(super) fn line_and_column(text: &str, offset: usize) -> (usize, usize) {
    let before = text.get(..offset).unwrap_or(text);
    let line_start = before.rfind('\n').map_or(0, |newline| newline + 1);
    let line = 1 + before.bytes().filter(|byte| *byte == b'\n').count();
    (line, 1 + before[line_start..].chars().count())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters() {
        assert_eq!(line_and_column("a\näö?", 6), (2, 3), "two letters of two bytes");
        assert_eq!(line_and_column("", 0), (1, 1), "an empty text");
        assert_eq!(line_and_column("a\n", 2), (2, 1), "after the last newline");
    }
}

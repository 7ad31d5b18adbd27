//! A problem on its way up from the place where it was found.

use std::fmt::{self, Write as _};

use super::error::{Problem, nearest, shown};
use super::node::Node;

/// A problem that collects its place and path while the reader unwinds.
#[derive(Debug)]
pub(super) struct Fault {
    /// Where in the text, bytes. None until a value with a place is reached.
    pub(super) offset: Option<usize>,
    /// The steps from the inmost outwards.
    steps: Vec<Step>,
    /// A path that was known as a whole. Empty where the steps give it.
    led: String,
    /// What is wrong.
    pub(super) problem: Box<Problem>,
}

#[derive(Debug)]
enum Step {
    Key(String),
    Index(usize),
}

impl Fault {
    pub(super) fn new(problem: Problem) -> Self {
        Self { offset: None, steps: Vec::new(), led: String::new(), problem: problem.into() }
    }

    /// The same, here, unless it already has a place.
    pub(super) fn at(mut self, offset: usize) -> Self {
        self.offset.get_or_insert(offset);
        self
    }

    /// The same, with what stood there filled in where it is not known yet.
    pub(super) fn found(mut self, what: impl FnOnce() -> String) -> Self {
        if let Problem::Unexpected { found, .. } = &mut *self.problem
            && found.is_empty()
        {
            *found = what();
        }
        self
    }

    /// The same, one key further out.
    pub(super) fn under(mut self, key: &str) -> Self {
        self.steps.push(Step::Key(key.to_owned()));
        self
    }

    /// The same, one list further out.
    pub(super) fn item(mut self, index: usize) -> Self {
        self.steps.push(Step::Index(index));
        self
    }

    /// The same, at the end of a path from the outside in that the plan gave.
    pub(super) fn led(mut self, root: &Node<'_>, path: &str) -> Self {
        self.led = path.to_owned();
        self.at(root.locate(path))
    }

    /// The path from the outside in: `circuits.C4.order[2]`.
    pub(super) fn path(&self) -> String {
        let mut path = self.led.clone();
        for step in self.steps.iter().rev() {
            match step {
                Step::Index(index) => {
                    let _ = write!(path, "[{index}]");
                }
                Step::Key(key) if is_plain(key) => {
                    path.push_str(if path.is_empty() { "" } else { "." });
                    path.push_str(key);
                }
                Step::Key(key) => {
                    let _ = write!(path, "[{}]", shown(key));
                }
            }
        }
        path
    }
}

fn is_plain(key: &str) -> bool {
    (1..=40).contains(&key.len())
        && key.chars().all(|letter| letter.is_alphanumeric() || "_-".contains(letter))
}

impl fmt::Display for Fault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.problem.fmt(f)
    }
}

impl std::error::Error for Fault {}

impl serde::de::Error for Fault {
    fn custom<T: fmt::Display>(message: T) -> Self {
        Self::new(Problem::Other(message.to_string()))
    }

    fn invalid_type(_: serde::de::Unexpected<'_>, expected: &dyn serde::de::Expected) -> Self {
        expecting(&expected.to_string())
    }

    fn invalid_value(_: serde::de::Unexpected<'_>, expected: &dyn serde::de::Expected) -> Self {
        expecting(&expected.to_string())
    }

    fn invalid_length(_: usize, expected: &dyn serde::de::Expected) -> Self {
        expecting(&expected.to_string())
    }

    fn unknown_variant(found: &str, expected: &'static [&'static str]) -> Self {
        let near = nearest(found, expected);
        Self::new(Problem::UnknownName { found: shown(found), expected: expected.to_vec(), near })
    }

    fn unknown_field(found: &str, expected: &'static [&'static str]) -> Self {
        let near = nearest(found, expected);
        Self::new(Problem::UnknownKey { found: shown(found), expected: expected.to_vec(), near })
    }

    fn missing_field(key: &'static str) -> Self {
        Self::new(Problem::MissingKey { key })
    }
}

/// Something else was expected; what stood there is filled in on the way up.
pub(super) fn expecting(expected: &str) -> Fault {
    let expected = plainly(expected);
    Fault::new(Problem::Unexpected { found: String::new(), expected })
}

/// What the decoder expected, in words for people who do not program.
fn plainly(expected: &str) -> String {
    match expected {
        "i64" | "i32" => "a whole number".to_owned(),
        "u8" => format!("a whole number from 0 to {}", u8::MAX),
        "u16" => format!("a whole number from 0 to {}", u16::MAX),
        "u32" => format!("a whole number from 0 to {}", u32::MAX),
        "f64" => "a number".to_owned(),
        "a boolean" => "true or false".to_owned(),
        "a string" => "a text".to_owned(),
        "a sequence" => "a list".to_owned(),
        "a map" => "an object".to_owned(),
        other if other.starts_with("struct ") => "an object".to_owned(),
        other => other
            .strip_prefix("an array of length ")
            .map_or_else(|| other.to_owned(), |count| format!("a list of {count}")),
    }
}

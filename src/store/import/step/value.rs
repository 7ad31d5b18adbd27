//! The parameters of an entity.

use std::borrow::Cow;

use super::text;

/// The deepest that lists are nested.
const DEPTH_MAX: usize = 16;

/// A parameter.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::store::import) enum Value {
    /// `$` or `*`, or something that no import needs.
    Null,
    /// A whole number or a real one.
    Number(f64),
    /// `'text'`, decoded.
    Text(String),
    /// `.WORD.`
    Word(String),
    /// `#12`
    Reference(u64),
    /// `(…)`
    List(Vec<Self>),
    /// `NAME(…)`: a value marked with its type.
    Typed(String, Vec<Self>),
}

impl Value {
    /// A number, also where it is marked with its type.
    pub(in crate::store::import) fn number(&self) -> Option<f64> {
        match self {
            Self::Number(number) => Some(*number),
            Self::Typed(_, values) => match values.first() {
                Some(Self::Number(number)) => Some(*number),
                _ => None,
            },
            _ => None,
        }
    }
}

/// The first text in a value, however deep.
pub(super) fn first_text(value: &Value) -> Option<String> {
    match value {
        Value::Text(text) => Some(text.clone()),
        Value::List(values) => values.iter().find_map(first_text),
        _ => None,
    }
}

/// The name at the beginning of a record, in capitals.
pub(super) fn name(record: &[u8]) -> Cow<'_, str> {
    let is_name = |byte: &&u8| byte.is_ascii_alphanumeric() || **byte == b'_';
    let length = record.iter().take_while(is_name).count();
    let name = std::str::from_utf8(&record[..length]).unwrap_or_default();
    if name.bytes().any(|byte| byte.is_ascii_lowercase()) {
        Cow::Owned(name.to_ascii_uppercase())
    } else {
        Cow::Borrowed(name)
    }
}

/// A record `NAME(…)`: its name and its parameters.
pub(super) fn entity(record: &[u8]) -> Result<(String, Vec<Value>), String> {
    let mut reader = Reader { bytes: record, at: 0 };
    let name = name(record).into_owned();
    reader.at = name.len();
    let values = reader.list(0)?;
    Ok((name, values))
}

struct Reader<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl Reader<'_> {
    fn peek(&mut self) -> Result<u8, String> {
        loop {
            match self.bytes.get(self.at) {
                None => return Err("its parameters end too early".to_owned()),
                Some(b'/') if self.bytes.get(self.at + 1) == Some(&b'*') => {
                    let inside = &self.bytes[self.at + 2..];
                    let end = inside.windows(2).position(|pair| pair == b"*/");
                    self.at += end.unwrap_or(inside.len()) + 4;
                }
                Some(byte) if *byte <= b' ' => self.at += 1,
                Some(byte) => return Ok(*byte),
            }
        }
    }

    fn list(&mut self, depth: usize) -> Result<Vec<Value>, String> {
        if depth > DEPTH_MAX {
            return Err(format!("brackets more than {DEPTH_MAX} deep"));
        }
        if self.peek()? != b'(' {
            return Err("no \"(\" after its name".to_owned());
        }
        self.at += 1;
        let mut values = Vec::new();
        loop {
            match self.peek()? {
                b')' => {
                    self.at += 1;
                    return Ok(values);
                }
                b',' => self.at += 1,
                _ => values.push(self.value(depth)?),
            }
        }
    }

    fn value(&mut self, depth: usize) -> Result<Value, String> {
        match self.peek()? {
            b'$' | b'*' => {
                self.at += 1;
                Ok(Value::Null)
            }
            b'(' => self.list(depth + 1).map(Value::List),
            b'\'' => Ok(Value::Text(self.text())),
            b'"' => {
                self.at += 1;
                self.while_is(|byte| byte != b'"');
                self.at += 1;
                Ok(Value::Null)
            }
            b'#' => {
                self.at += 1;
                let digits = self.while_is(|byte| byte.is_ascii_digit());
                digits.parse().map(Value::Reference).map_err(|_| "\"#\" without a number".into())
            }
            b'.' => {
                self.at += 1;
                let word = self.while_is(|byte| byte.is_ascii_alphanumeric() || byte == b'_');
                self.at += 1;
                Ok(Value::Word(word))
            }
            byte if byte.is_ascii_digit() || byte == b'-' || byte == b'+' => {
                let number =
                    self.while_is(|byte| byte.is_ascii_alphanumeric() || b"+-.".contains(&byte));
                let read = number.parse().ok().filter(|number: &f64| number.is_finite());
                read.map(Value::Number).ok_or_else(|| format!("\"{number}\" is not a number"))
            }
            byte if byte.is_ascii_alphabetic() => {
                let name = self.while_is(|byte| byte.is_ascii_alphanumeric() || byte == b'_');
                Ok(Value::Typed(name.to_ascii_uppercase(), self.list(depth + 1)?))
            }
            byte => Err(format!("\"{}\" is no parameter", text::shown(&[byte]))),
        }
    }

    /// Text in quotes; a doubled quote is one of its letters.
    fn text(&mut self) -> String {
        let from = self.at + 1;
        let mut to = from;
        loop {
            match (self.bytes.get(to), self.bytes.get(to + 1)) {
                (Some(b'\''), Some(b'\'')) => to += 2,
                (None | Some(b'\''), _) => break,
                _ => to += 1,
            }
        }
        self.at = to + 1;
        text::decoded(&self.bytes[from..to.min(self.bytes.len())])
    }

    fn while_is(&mut self, is: impl Fn(u8) -> bool) -> String {
        let length = self.bytes[self.at..].iter().take_while(|byte| is(**byte)).count();
        let read = String::from_utf8_lossy(&self.bytes[self.at..self.at + length]).into_owned();
        self.at += length;
        read
    }
}

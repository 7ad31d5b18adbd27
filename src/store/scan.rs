//! From text to a tree of values, as RFC 8259 defines JSON, but with each key
//! once, without control characters in texts, and within bounds, so that
//! hostile input costs bounded time and memory.

use std::borrow::Cow;

use super::error::{Problem, shown};
use super::fault::Fault;
use super::node::{Entry, Node, Object, Value, line_and_column};

/// The deepest nesting; a plan needs seven.
const DEPTH_MAX: usize = 32;
/// The most values in a file: with 64 bytes or so for each, some 250 MB.
const VALUES_MAX: usize = 4_000_000;

/// Reads a whole text as one value.
pub(super) fn scan(text: &str) -> Result<Node<'_>, Fault> {
    let mut scanner = Scanner { text, at: 0, depth: 0, values: 0 };
    let node = scanner.value("{")?;
    scanner.skip_space();
    if scanner.at < text.len() {
        return Err(scanner.unexpected("the end of the file"));
    }
    Ok(node)
}

struct Scanner<'a> {
    text: &'a str,
    at: usize,
    depth: usize,
    values: usize,
}

impl<'a> Scanner<'a> {
    fn peek(&self) -> Option<u8> {
        self.text.as_bytes().get(self.at).copied()
    }

    fn skip_space(&mut self) {
        while matches!(self.peek(), Some(b' ' | b'\t' | b'\n' | b'\r')) {
            self.at += 1;
        }
    }

    /// What stands here is not what should.
    fn unexpected(&self, expected: &str) -> Fault {
        let expected = expected.to_owned();
        let problem = match self.text[self.at..].chars().next() {
            None => Problem::CutShort { expected },
            Some(found) => Problem::Unexpected { found: shown(&found.to_string()), expected },
        };
        Fault::new(problem).at(self.at)
    }

    fn value(&mut self, expected: &str) -> Result<Node<'a>, Fault> {
        self.skip_space();
        self.values += 1;
        if self.values > VALUES_MAX {
            let problem = Problem::TooMany { limit: VALUES_MAX, what: "values" };
            return Err(Fault::new(problem).at(self.at));
        }
        let offset = self.at;
        let value = match self.peek() {
            Some(b'{') => self.nested(Self::object)?,
            Some(b'[') => self.nested(Self::list)?,
            Some(b'"') => Value::Text(self.text()?),
            Some(b'-' | b'0'..=b'9') => Value::Number(self.number()?),
            Some(b'a'..=b'z' | b'A'..=b'Z') => self.word(expected)?,
            _ => return Err(self.unexpected(expected)),
        };
        Ok(Node { offset, value })
    }

    fn nested(
        &mut self,
        inner: fn(&mut Self) -> Result<Value<'a>, Fault>,
    ) -> Result<Value<'a>, Fault> {
        if self.depth == DEPTH_MAX {
            return Err(Fault::new(Problem::TooDeep { limit: DEPTH_MAX }).at(self.at));
        }
        self.depth += 1;
        self.at += 1;
        let value = inner(self)?;
        self.depth -= 1;
        Ok(value)
    }

    fn object(&mut self) -> Result<Value<'a>, Fault> {
        let mut object = Object::new();
        self.skip_space();
        if self.taken(b'}') {
            return Ok(Value::Object(object));
        }
        loop {
            self.skip_space();
            let key_offset = self.at;
            if self.peek() != Some(b'"') {
                return Err(self.unexpected(if object.is_empty() {
                    "a key in quotes or }"
                } else {
                    "a key in quotes"
                }));
            }
            let key = self.text()?;
            if let Some(first) = object.get(&key) {
                return Err(self.duplicate(&key, key_offset, first.key_offset));
            }
            self.skip_space();
            if !self.taken(b':') {
                return Err(self.unexpected(":").under(&key));
            }
            let node = self.value("a value").map_err(|fault| fault.under(&key))?;
            object.insert(key, Entry { key_offset, node });
            self.skip_space();
            if self.taken(b'}') {
                return Ok(Value::Object(object));
            }
            if !self.taken(b',') {
                return Err(self.unexpected(", or }"));
            }
        }
    }

    fn duplicate(&self, key: &str, offset: usize, first: usize) -> Fault {
        let (first_line, _) = line_and_column(self.text, first);
        Fault::new(Problem::DuplicateKey { key: shown(key), first_line }).at(offset).under(key)
    }

    fn list(&mut self) -> Result<Value<'a>, Fault> {
        let mut items = Vec::new();
        self.skip_space();
        if self.taken(b']') {
            return Ok(Value::List(items));
        }
        loop {
            let index = items.len();
            let expected = if index == 0 { "a value or ]" } else { "a value" };
            items.push(self.value(expected).map_err(|fault| fault.item(index))?);
            self.skip_space();
            if self.taken(b']') {
                return Ok(Value::List(items));
            }
            if !self.taken(b',') {
                return Err(self.unexpected(", or ]"));
            }
        }
    }

    fn taken(&mut self, byte: u8) -> bool {
        let taken = self.peek() == Some(byte);
        self.at += usize::from(taken);
        taken
    }

    fn word(&mut self, expected: &str) -> Result<Value<'a>, Fault> {
        let rest = &self.text[self.at..];
        let length = rest.bytes().take_while(u8::is_ascii_alphanumeric).count();
        let value = match &rest[..length] {
            "null" => Value::Null,
            "true" => Value::Flag(true),
            "false" => Value::Flag(false),
            // A file that ends within one of them was cut short.
            word if length == rest.len()
                && ["null", "true", "false"].iter().any(|whole| whole.starts_with(word)) =>
            {
                self.at += length;
                return Err(self.unexpected(expected));
            }
            word => {
                let expected = expected.to_owned();
                let problem = Problem::Unexpected { found: shown(word), expected };
                return Err(Fault::new(problem).at(self.at));
            }
        };
        self.at += length;
        Ok(value)
    }

    fn number(&mut self) -> Result<&'a str, Fault> {
        let start = self.at;
        self.taken(b'-');
        if self.taken(b'0') {
            if matches!(self.peek(), Some(b'0'..=b'9')) {
                return Err(self.unexpected("a number without leading zeros"));
            }
        } else {
            self.digits()?;
        }
        if self.taken(b'.') {
            self.digits()?;
        }
        if self.taken(b'e') || self.taken(b'E') {
            let _ = self.taken(b'+') || self.taken(b'-');
            self.digits()?;
        }
        Ok(&self.text[start..self.at])
    }

    fn digits(&mut self) -> Result<(), Fault> {
        if !matches!(self.peek(), Some(b'0'..=b'9')) {
            return Err(self.unexpected("a digit"));
        }
        while matches!(self.peek(), Some(b'0'..=b'9')) {
            self.at += 1;
        }
        Ok(())
    }

    /// A text in quotes; borrowed from the file where nothing is escaped.
    fn text(&mut self) -> Result<Cow<'a, str>, Fault> {
        self.at += 1;
        let mut text = Cow::Borrowed("");
        loop {
            let plain = self.plain();
            if text.is_empty() {
                text = Cow::Borrowed(plain);
            } else if !plain.is_empty() {
                text.to_mut().push_str(plain);
            }
            if self.taken(b'"') {
                return Ok(text);
            }
            if self.peek() != Some(b'\\') {
                return Err(self.unexpected("a character or the closing quote"));
            }
            let letter = self.escape()?;
            text.to_mut().push(letter);
        }
    }

    /// The characters up to the next quote, backslash or control character.
    fn plain(&mut self) -> &'a str {
        let rest = &self.text[self.at..];
        let stop = |letter: char| letter == '"' || letter == '\\' || letter.is_control();
        let plain = &rest[..rest.find(stop).unwrap_or(rest.len())];
        self.at += plain.len();
        plain
    }

    fn escape(&mut self) -> Result<char, Fault> {
        let start = self.at;
        self.at += 1;
        let letter = match self.peek() {
            Some(b'u') => {
                self.at += 1;
                self.unicode(start)?
            }
            Some(byte @ (b'"' | b'\\' | b'/')) => {
                self.at += 1;
                char::from(byte)
            }
            // The other short escapes all stand for control characters.
            Some(b'b' | b'f' | b'n' | b'r' | b't') => '\u{0}',
            _ => return Err(self.unexpected("\", \\, / or u after a backslash")),
        };
        if letter.is_control() {
            let problem = Problem::Other("a control character within a text".to_owned());
            return Err(Fault::new(problem).at(start));
        }
        Ok(letter)
    }

    fn unicode(&mut self, start: usize) -> Result<char, Fault> {
        let first = self.four_digits()?;
        let code = if (0xD800..0xDC00).contains(&first) && self.text[self.at..].starts_with("\\u") {
            self.at += 2;
            let second = self.four_digits()?;
            if (0xDC00..0xE000).contains(&second) {
                0x1_0000 + ((first - 0xD800) << 10) + (second - 0xDC00)
            } else {
                first
            }
        } else {
            first
        };
        char::from_u32(code).ok_or_else(|| {
            Fault::new(Problem::Other("half of a surrogate pair within a text".to_owned()))
                .at(start)
        })
    }

    fn four_digits(&mut self) -> Result<u32, Fault> {
        let mut code = 0;
        for _ in 0..4 {
            let digit = self.peek().and_then(|byte| char::from(byte).to_digit(16));
            let Some(digit) = digit else {
                return Err(self.unexpected("four hexadecimal digits after \\u"));
            };
            code = code * 16 + digit;
            self.at += 1;
        }
        Ok(code)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn text_of(json: &str) -> String {
        match scan(json).unwrap().value {
            Value::Text(text) => text.into_owned(),
            other => panic!("not a text: {other:?}"),
        }
    }

    #[test]
    fn texts_are_unescaped() {
        assert_eq!(text_of(r#""a\u00e4\"\\\/ä""#), "aä\"\\/ä", "all that may be escaped");
        assert_eq!(text_of(r#""\ud834\udd1e""#), "𝄞", "RFC 8259 section 7, the G clef");
        for bad in [r#""\ud834""#, r#""\udd1e""#, r#""\n""#, r#""\u0000""#, r#""\x""#, "\"\n\""] {
            assert!(scan(bad).is_err(), "{bad} must be refused");
        }
    }

    #[test]
    fn numbers_follow_rfc_8259_section_6() {
        for good in ["0", "-0", "12", "-1.5", "1e5", "1E-5", "0.25e+3"] {
            assert!(matches!(scan(good).unwrap().value, Value::Number(_)), "{good}");
        }
        for bad in ["01", "+1", ".5", "1.", "1e", "-", "0x1", "NaN", "Infinity", "1 2"] {
            assert!(scan(bad).is_err(), "{bad} must be refused");
        }
    }

    #[test]
    fn nesting_is_bounded() {
        let deep = |depth: usize| format!("{}{}", "[".repeat(depth), "]".repeat(depth));
        assert!(scan(&deep(DEPTH_MAX)).is_ok(), "the deepest");
        let fault = scan(&"[".repeat(1_000_000)).unwrap_err();
        assert_eq!(*fault.problem, Problem::TooDeep { limit: DEPTH_MAX }, "a million deep");
    }
}

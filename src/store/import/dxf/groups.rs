//! The lines of a file in pairs: a group code and its value.

use std::borrow::Cow;

/// The longest line that is read, bytes.
const LINE_MAX: usize = 8192;

/// A line and what is wrong there.
pub(super) type Flaw = (usize, String);

/// The groups of a file, one after the other.
pub(super) struct Groups<'a> {
    bytes: &'a [u8],
    at: usize,
    /// The line of the value that was read last, from 1.
    pub(super) line: usize,
}

impl<'a> Groups<'a> {
    pub(super) fn new(bytes: &'a [u8]) -> Self {
        Self { bytes, at: 0, line: 0 }
    }

    /// The next code and its value.
    ///
    /// # Errors
    /// At the end of the file, and where a line is no code.
    pub(super) fn next(&mut self) -> Result<(i32, Cow<'a, str>), Flaw> {
        let code = self.line()?;
        let code = code.trim().parse().map_err(|_| {
            let code: String = code.chars().take(20).collect();
            (self.line, format!("\"{}\" is no group code", code.escape_default()))
        })?;
        Ok((code, self.line()?))
    }

    fn line(&mut self) -> Result<Cow<'a, str>, Flaw> {
        let rest = self.bytes.get(self.at..).filter(|rest| !rest.is_empty());
        let rest = rest.ok_or_else(|| (self.line, "the file ends before EOF".to_owned()))?;
        let length = rest.iter().position(|byte| *byte == b'\n').unwrap_or(rest.len());
        self.at += length + 1;
        self.line += 1;
        let line = &rest[..length.min(LINE_MAX)];
        let line = line.strip_suffix(b"\r").unwrap_or(line);
        Ok(match std::str::from_utf8(line) {
            Ok(text) => Cow::Borrowed(text),
            // Before 2007 letters were of the writer's own code page.
            Err(_) => Cow::Owned(line.iter().map(|byte| char::from(*byte)).collect()),
        })
    }
}

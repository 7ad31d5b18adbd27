//! Finding the entities of a file.

use std::collections::BTreeMap;

use super::{ENTITIES_MAX, Record, StepFile, text, value};

/// What is wrong with the writing of a file, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(in crate::store::import) struct StepFlaw {
    /// From 1.
    pub(in crate::store::import) line: usize,
    pub(in crate::store::import) problem: String,
}

/// The line of an offset, from 1.
pub(super) fn line(bytes: &[u8], at: usize) -> usize {
    bytes[..at.min(bytes.len())].iter().filter(|byte| **byte == b'\n').count() + 1
}

struct Cursor<'a> {
    bytes: &'a [u8],
    at: usize,
}

pub(super) fn index(bytes: &[u8]) -> Result<StepFile<'_>, StepFlaw> {
    let mut cursor = Cursor { bytes, at: 0 };
    cursor.word("ISO-10303-21")?;
    cursor.word(";")?;
    let schema = cursor.header()?;
    let mut records = Vec::new();
    let mut by_name: BTreeMap<String, Vec<u64>> = BTreeMap::new();
    while cursor.peek()? == b'#' {
        let record = cursor.record()?;
        if records.len() == ENTITIES_MAX {
            return Err(cursor.flaw(format!("more than {ENTITIES_MAX} entities")));
        }
        let name = value::name(&bytes[record.from..record.to]);
        match by_name.get_mut(name.as_ref()) {
            Some(ids) => ids.push(record.id),
            None => {
                by_name.insert(name.into_owned(), vec![record.id]);
            }
        }
        records.push(record);
    }
    cursor.word("ENDSEC")?;
    cursor.word(";")?;
    cursor.word("END-ISO-10303-21")?;
    records.sort_unstable_by_key(|record: &Record| (record.id, record.from));
    if let Some(pair) = records.windows(2).find(|pair| pair[0].id == pair[1].id) {
        let problem = format!("a second entity #{}", pair[1].id);
        return Err(StepFlaw { line: line(bytes, pair[1].from), problem });
    }
    Ok(StepFile { bytes, schema, records, by_name, read: 0.into() })
}

impl Cursor<'_> {
    fn flaw(&self, problem: impl Into<String>) -> StepFlaw {
        StepFlaw { line: line(self.bytes, self.at), problem: problem.into() }
    }

    /// Past spaces and comments to the next byte, which is not consumed.
    fn peek(&mut self) -> Result<u8, StepFlaw> {
        loop {
            match self.bytes.get(self.at) {
                None => return Err(self.flaw("the file ends in the middle")),
                Some(b'/') if self.bytes.get(self.at + 1) == Some(&b'*') => {
                    let inside = &self.bytes[self.at + 2..];
                    let end = inside.windows(2).position(|pair| pair == b"*/");
                    let end = end.ok_or_else(|| self.flaw("a comment that does not end"))?;
                    self.at += end + 4;
                }
                Some(byte) if *byte <= b' ' => self.at += 1,
                Some(byte) => return Ok(*byte),
            }
        }
    }

    fn word(&mut self, word: &str) -> Result<(), StepFlaw> {
        self.peek()?;
        if !self.bytes[self.at..].starts_with(word.as_bytes()) {
            let found: Vec<u8> = self.bytes[self.at..].iter().take(20).copied().collect();
            let found = text::shown(&found);
            return Err(self.flaw(format!("found \"{found}\", expected \"{word}\"")));
        }
        self.at += word.len();
        Ok(())
    }

    /// The header up to `DATA;`, and the schema that it names.
    fn header(&mut self) -> Result<String, StepFlaw> {
        let mut schema = String::new();
        self.word("HEADER")?;
        self.word(";")?;
        self.peek()?;
        while !self.bytes[self.at..].starts_with(b"ENDSEC") {
            let from = self.at;
            let to = self.brackets()?;
            let record = &self.bytes[from..to];
            if value::name(record) == "FILE_SCHEMA" {
                schema = value::entity(record)
                    .ok()
                    .and_then(|(_, values)| values.first().and_then(value::first_text))
                    .unwrap_or_default();
            }
            self.word(";")?;
            self.peek()?;
        }
        self.word("ENDSEC")?;
        self.word(";")?;
        self.word("DATA")?;
        // A DATA section may have parameters of its own.
        if self.peek()? == b'(' {
            self.brackets()?;
        }
        self.word(";")?;
        Ok(schema)
    }

    /// `#12=NAME(…);`
    fn record(&mut self) -> Result<Record, StepFlaw> {
        self.at += 1;
        let digits = self.bytes[self.at..].iter().take_while(|byte| byte.is_ascii_digit()).count();
        let id = std::str::from_utf8(&self.bytes[self.at..self.at + digits])
            .ok()
            .and_then(|digits| digits.parse().ok())
            .ok_or_else(|| self.flaw("\"#\" without a number"))?;
        self.at += digits;
        self.word("=")?;
        self.peek()?;
        let from = self.at;
        let to = self.brackets()?;
        self.word(";")?;
        Ok(Record { id, from, to })
    }

    /// From a name past its brackets; the offset behind them.
    fn brackets(&mut self) -> Result<usize, StepFlaw> {
        let mut depth = 0_usize;
        loop {
            match self.peek()? {
                b'(' => depth += 1,
                b')' if depth <= 1 => {
                    self.at += 1;
                    // Without an opening bracket the parameters will say so.
                    return Ok(self.at);
                }
                b')' => depth -= 1,
                b'\'' => {
                    self.at += 1;
                    let length = self.bytes[self.at..].iter().position(|byte| *byte == b'\'');
                    self.at += length.ok_or_else(|| self.flaw("text that does not end"))?;
                }
                b';' => return Err(self.flaw("\";\" inside brackets")),
                _ => {}
            }
            self.at += 1;
        }
    }
}

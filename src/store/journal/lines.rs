//! Records as lines: `LENGTH CHECKSUM {json}`.

use std::io;

use serde::Serialize;

use crate::store::files::Known;

/// How many digits a length may have.
const DIGITS_MAX: usize = 12;

/// A line: how long the rest is, a sum over it, and the rest.
pub(super) fn line(of: &impl Serialize) -> io::Result<String> {
    let json = serde_json::to_string(of)?;
    Ok(format!("{} {} {json}\n", json.len(), sum(json.as_bytes())))
}

/// What begins at a place, if it is whole, and where it ends.
pub(super) fn whole_at(bytes: &[u8], at: usize) -> Option<(&str, usize)> {
    let rest = bytes.get(at..)?;
    let space = rest.iter().take(DIGITS_MAX + 1).position(|byte| *byte == b' ')?;
    let length: usize = std::str::from_utf8(&rest[..space]).ok()?.parse().ok()?;
    let rest = &rest[space + 1..];
    let space_after = rest.iter().take(32).position(|byte| *byte == b' ')?;
    let (expect, rest) = (&rest[..space_after], &rest[space_after + 1..]);
    let json = rest.get(..length)?;
    if sum(json).as_bytes() != expect {
        return None;
    }
    let end = at + space + 1 + space_after + 1 + length;
    // The line's end itself may be torn or rotten: length and sum have told.
    let end = if bytes.get(end).is_some() { end + 1 } else { end };
    Some((std::str::from_utf8(json).ok()?, end))
}

/// The next place, from here on, at which something whole begins.
pub(super) fn next_whole(bytes: &[u8], from: usize) -> Option<usize> {
    (from..bytes.len()).find(|at| bytes[*at].is_ascii_digit() && whole_at(bytes, *at).is_some())
}

/// What a line of the older layout holds, `CHECKSUM {json}`, if it is whole.
pub(super) fn older(line: &[u8]) -> Option<&str> {
    let text = std::str::from_utf8(line).ok()?.strip_suffix('\n')?;
    let (expect, json) = text.split_once(' ')?;
    (sum(json.as_bytes()) == expect).then_some(json)
}

/// Finds torn and rotten lines, protects from nobody.
pub(super) fn sum(bytes: &[u8]) -> String {
    Known::of(bytes).text()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Published test values of FNV-1a, 64 bits: the empty text, `a`, `foobar`
    /// (draft-eastlake-fnv, appendix).
    #[test]
    fn sums_are_fnv_1a() {
        assert_eq!(sum(b""), "cbf29ce484222325");
        assert_eq!(sum(b"a"), "af63dc4c8601ec8c");
        assert_eq!(sum(b"foobar"), "85944171f73967e8");
    }
}

//! What a file held when it was looked at.

use std::io::{self, Read};

/// How long a file was and the sum over its bytes (FNV-1a, 64 bits): tells that
/// somebody changed it, protects from nobody.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Known {
    pub(super) bytes: u64,
    pub(super) sum: u64,
}

impl Known {
    const EMPTY: Self = Self { bytes: 0, sum: 0xcbf2_9ce4_8422_2325 };

    /// Of these bytes.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Self {
        Self::EMPTY.and(bytes)
    }

    /// Of all that a reader yields.
    ///
    /// # Errors
    /// Where it fails.
    pub fn of_reader(mut reader: impl Read) -> io::Result<Self> {
        let (mut known, mut part) = (Self::EMPTY, vec![0; 1 << 16]);
        loop {
            match reader.read(&mut part) {
                Ok(0) => return Ok(known),
                Ok(count) => known = known.and(part.get(..count).unwrap_or_default()),
                Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
                Err(error) => return Err(error),
            }
        }
    }

    fn and(self, bytes: &[u8]) -> Self {
        let sum = bytes
            .iter()
            .fold(self.sum, |sum, byte| (sum ^ u64::from(*byte)).wrapping_mul(0x0100_0000_01b3));
        Self { bytes: self.bytes.saturating_add(bytes.len() as u64), sum }
    }

    /// The sum as text.
    pub(in crate::store) fn text(self) -> String {
        format!("{:016x}", self.sum)
    }

    /// The sum as text short enough for a name.
    pub(super) fn short(self) -> String {
        format!("{:08x}", (self.sum >> 32) ^ (self.sum & 0xffff_ffff))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Published test values of FNV-1a, 64 bits: the empty text, `a`, `foobar`
    /// (draft-eastlake-fnv, appendix).
    #[test]
    fn sums_are_fnv_1a() {
        for (text, sum) in
            [("", "cbf29ce484222325"), ("a", "af63dc4c8601ec8c"), ("foobar", "85944171f73967e8")]
        {
            assert_eq!(Known::of(text.as_bytes()).text(), sum, "{text}");
            let read = Known::of_reader(text.as_bytes()).expect("bytes");
            assert_eq!(read, Known::of(text.as_bytes()), "{text}, read part by part");
        }
    }
}

//! Streams as the file holds them: pressed.

use flate2::{Compress, Compression, FlushCompress, Status};

/// Presses one stream after the other, in the same memory.
#[derive(Debug)]
pub(super) struct Press(Compress);

/// How hard, 1 to 9: more takes longer than it saves.
const HARD: u32 = 1;

impl Press {
    pub(super) fn new() -> Self {
        Self(Compress::new(Compression::new(HARD), true))
    }

    /// The stream in the format of zlib.
    pub(super) fn press(&mut self, bytes: &[u8]) -> Vec<u8> {
        self.0.reset();
        let mut pressed = Vec::with_capacity(bytes.len().div_euclid(3) + 64);
        let mut left = bytes;
        loop {
            let before = self.0.total_in();
            let status = self.0.compress_vec(left, &mut pressed, FlushCompress::Finish);
            if status.expect("a stream from its beginning to its end") == Status::StreamEnd {
                return pressed;
            }
            let taken = usize::try_from(self.0.total_in() - before).unwrap_or(left.len());
            left = &left[taken..];
            pressed.reserve(pressed.len());
        }
    }
}

#[cfg(test)]
mod tests {
    use std::io::Read as _;

    use super::*;

    /// Read back by the same library's reader.
    #[test]
    fn streams_of_every_length_are_whole() {
        let mut press = Press::new();
        for length in [0_u32, 1, 100, 70_000, 3] {
            // Hardly to be pressed, so that more room is needed.
            let bytes: Vec<u8> =
                (0..length).map(|at| at.wrapping_mul(2_654_435_761).to_be_bytes()[0]).collect();
            let mut back = Vec::new();
            let pressed = press.press(&bytes);
            let read = flate2::read::ZlibDecoder::new(&pressed[..]).read_to_end(&mut back);
            assert!(read.is_ok() && back == bytes, "{length} bytes");
        }
    }
}

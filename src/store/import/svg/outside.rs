//! What an SVG file is like from outside, told without reading it as one: what
//! could make the reading long or large is refused beforehand.

/// The largest file, bytes: all of its texts are held at once, some twice.
const BYTES_MAX: usize = 64 * 1024 * 1024;
/// The reader calls itself for every element within an element.
const DEPTH_MAX: usize = 256;
/// The most attributes of an element: each is held against all others.
const ATTRIBUTES_MAX: usize = 256;
/// What is put in for short forms (entities) comes to no more bytes.
const PUT_IN_MAX: usize = 16 * 1024 * 1024;

/// Whether a file can be read in bounded time and memory.
///
/// # Errors
/// What it has too much of.
pub(super) fn bounded(bytes: &[u8]) -> Result<(), String> {
    if bytes.len() > BYTES_MAX {
        return Err(format!("larger than {BYTES_MAX} bytes"));
    }
    short_forms(bytes)?;
    let (mut depth, mut at) = (0_usize, 0);
    while let Some(step) = bytes[at..].iter().position(|byte| *byte == b'<') {
        at += step + 1;
        let rest = &bytes[at..];
        if rest.starts_with(b"!--") {
            at += past(rest, b"-->");
        } else if rest.starts_with(b"![CDATA[") {
            at += past(rest, b"]]>");
        } else if rest.first() == Some(&b'/') {
            depth = depth.saturating_sub(1);
        } else if rest.first().is_some_and(|byte| !b"!?".contains(byte)) {
            let (length, attributes, closed) = element(rest);
            at += length;
            depth += usize::from(!closed);
            if attributes > ATTRIBUTES_MAX {
                return Err(format!("an element with more than {ATTRIBUTES_MAX} attributes"));
            }
            if depth > DEPTH_MAX {
                return Err(format!("elements more than {DEPTH_MAX} deep"));
            }
        }
    }
    Ok(())
}

/// The length up to and with some bytes; of all where they do not follow.
fn past(bytes: &[u8], end: &[u8]) -> usize {
    let at = bytes.windows(end.len()).position(|part| part == end);
    at.map_or(bytes.len(), |at| at + end.len())
}

/// From its name on: its length, its attributes, and whether it has no inside.
fn element(bytes: &[u8]) -> (usize, usize, bool) {
    let (mut at, mut attributes) = (0, 0);
    while let Some(byte) = bytes.get(at) {
        match byte {
            b'>' => return (at + 1, attributes, at > 0 && bytes[at - 1] == b'/'),
            b'"' | b'\'' => {
                attributes += 1;
                at += 1 + past(&bytes[at + 1..], &[*byte]);
            }
            _ => at += 1,
        }
    }
    (at, attributes, true)
}

/// Short forms may stand for text only, and not for each other: so what they
/// come to is no more than their number times the longest.
fn short_forms(bytes: &[u8]) -> Result<(), String> {
    const DECLARED: &[u8] = b"<!ENTITY";
    let (mut longest, mut at) = (0, 0);
    while let Some(found) = bytes[at..].windows(DECLARED.len()).position(|part| part == DECLARED) {
        at += found + DECLARED.len();
        let Some(open) = bytes[at..].iter().position(|byte| b"\"'".contains(byte)) else { break };
        let inside = &bytes[at + open + 1..];
        let length = past(inside, &[bytes[at + open]]);
        if inside[..length].iter().any(|byte| b"&<%".contains(byte)) {
            return Err("an entity that stands for more than text".to_owned());
        }
        longest = longest.max(length);
        at += open + 1 + length;
    }
    let uses = if longest == 0 { 0 } else { bytes.iter().filter(|byte| **byte == b'&').count() };
    if uses.saturating_mul(longest) > PUT_IN_MAX {
        return Err(format!("entities that come to more than {PUT_IN_MAX} bytes"));
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_too_much_is_refused() {
        let many = |count: usize| format!("<g {}/>", "a='>' ".repeat(count));
        let deep = |depth: usize| "<g a='/>'>".repeat(depth);
        let entity = |value: &str| format!("<!DOCTYPE svg [<!ENTITY a \"{value}\">]><svg/>");
        for (text, sound) in [
            (many(ATTRIBUTES_MAX), true),
            (many(ATTRIBUTES_MAX + 1), false),
            (deep(DEPTH_MAX), true),
            (deep(DEPTH_MAX + 1), false),
            (format!("<!-- {} --><svg>", deep(DEPTH_MAX + 1)), true),
            ("<g/>".repeat(DEPTH_MAX + 1), true),
            (entity("http://www.w3.org/2000/svg"), true),
            (entity("&b;"), false),
            (entity("<g/>"), false),
            (format!("{}{}", entity(&"a".repeat(1 << 20)), "&a;".repeat(17)), false),
        ] {
            let start: String = text.chars().take(60).collect();
            assert_eq!(bounded(text.as_bytes()).is_ok(), sound, "{start}");
        }
    }
}

//! Text in an exchange structure: quotes doubled, letters outside ASCII coded
//! (ISO 10303-21:2016, 6.4.3).

/// The longest text that is kept, characters.
const LENGTH_MAX: usize = 200;

/// The text between two quotes, decoded.
pub(super) fn decoded(bytes: &[u8]) -> String {
    let raw = match std::str::from_utf8(bytes) {
        Ok(text) => text.replace("''", "'"),
        // Not what the standard says, but what some programs write.
        Err(_) => bytes.iter().map(|byte| char::from(*byte)).collect::<String>().replace("''", "'"),
    };
    let mut text = String::new();
    let mut rest = raw.as_str();
    while let Some(at) = rest.find('\\') {
        text.push_str(&rest[..at]);
        rest = code(&rest[at + 1..], &mut text);
    }
    text.push_str(rest);
    printable(&text)
}

/// Decodes what follows a backslash; what is left after it.
fn code<'a>(rest: &'a str, text: &mut String) -> &'a str {
    if let Some(after) = rest.strip_prefix('\\') {
        text.push('\\');
        return after;
    }
    if let Some(after) = rest.strip_prefix("S\\") {
        let mut letters = after.chars();
        if let Some(letter) = letters.next().filter(char::is_ascii) {
            text.extend(char::from_u32(u32::from(letter) + 128));
        }
        return letters.as_str();
    }
    if let Some(after) = rest.strip_prefix("X\\") {
        let byte = after.get(..2).and_then(|digits| u32::from_str_radix(digits, 16).ok());
        text.extend(byte.and_then(char::from_u32));
        return after.get(2..).unwrap_or_default();
    }
    for (mark, digits) in [("X2\\", 4), ("X4\\", 8)] {
        let Some(after) = rest.strip_prefix(mark) else { continue };
        let Some((coded, after)) = after.split_once("\\X0\\") else { return after };
        wide(coded, digits, text);
        return after;
    }
    // `\P.\` chooses an alphabet for `\S\`: the first is taken for granted.
    rest.split_once('\\').map_or("", |(_, after)| after)
}

fn wide(coded: &str, digits: usize, text: &mut String) {
    let numbers = coded.as_bytes().chunks(digits).map(|chunk| {
        let chunk = std::str::from_utf8(chunk).unwrap_or_default();
        u32::from_str_radix(chunk, 16).unwrap_or(0xFFFD)
    });
    if digits == 4 {
        let units = numbers.map(|number| u16::try_from(number).unwrap_or(0xFFFD));
        text.extend(char::decode_utf16(units).map(|unit| unit.unwrap_or('\u{FFFD}')));
    } else {
        text.extend(numbers.filter_map(char::from_u32));
    }
}

/// At most so many characters, without line ends and other control marks.
pub(in crate::store::import) fn printable(text: &str) -> String {
    let shown = |letter: char| if letter.is_control() { ' ' } else { letter };
    let text: String = text.chars().take(LENGTH_MAX).map(shown).collect();
    text.trim().to_owned()
}

/// Bytes of a file for an error message.
pub(super) fn shown(bytes: &[u8]) -> String {
    printable(&String::from_utf8_lossy(bytes))
}

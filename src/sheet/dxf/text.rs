//! Lettering as the format writes it.

/// The same byte in Windows-1252 as its number in Unicode.
const fn is_one_byte(sign: char) -> bool {
    matches!(sign, ' '..='~' | '\u{a0}'..='\u{ff}')
}

/// Signs that are no single byte as the format writes them.
pub(super) fn escaped(text: &str) -> String {
    use std::fmt::Write as _;
    let mut escaped = String::new();
    for sign in text.chars() {
        if sign.is_control() {
            escaped.push(' ');
        } else if is_one_byte(sign) {
            escaped.push(sign);
        } else {
            let mut units = [0; 2];
            for unit in sign.encode_utf16(&mut units) {
                let _ = write!(escaped, "\\U+{unit:04X}");
            }
        }
    }
    escaped
}

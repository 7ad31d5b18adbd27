//! Names beside a file, made of its own.

use std::path::Path;

use super::Known;

/// The longest that is left of a name, bytes: with what is added it stays under
/// the 255 that file systems take.
const BYTES_MAX: usize = 200;

/// The name of a file as the beginning of others. One that is too long or no
/// text is cut and told apart by its sum.
pub(super) fn stem(target: &Path) -> String {
    let name = target.file_name().unwrap_or_default();
    match name.to_str() {
        Some(name) if name.len() <= BYTES_MAX => name.to_owned(),
        _ => {
            let shown = name.to_string_lossy();
            let mut end = shown.len().min(BYTES_MAX - 20);
            while !shown.is_char_boundary(end) {
                end -= 1;
            }
            let sum = Known::of(name.as_encoded_bytes()).short();
            format!("{}~{sum}", shown.get(..end).unwrap_or_default())
        }
    }
}

/// Whether a text is a number in figures.
pub(super) fn is_number(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|sign| sign.is_ascii_digit())
}

//! What the files of sheets are called.

use std::collections::BTreeSet;

use super::Sheet;

/// A name as part of a file's: letters and digits, the rest as dashes.
pub(super) fn file_part(name: &str) -> String {
    let sign = |sign: char| if sign.is_alphanumeric() { sign } else { '-' };
    name.chars().map(sign).collect()
}

/// Calls sheets by one name and their number.
pub(super) fn numbered(name: &str, sheets: &mut [Sheet]) {
    for (index, sheet) in sheets.iter_mut().enumerate() {
        sheet.name = format!("{name}-{}", index + 1);
    }
}

/// Gives sheets whose files would have the same name names of their own.
pub(super) fn apart(sheets: &mut [Sheet]) {
    let mut taken: BTreeSet<String> = BTreeSet::new();
    for Sheet { name, .. } in sheets {
        let first = name.clone();
        let mut count = 2;
        while !taken.insert(name.to_lowercase()) {
            *name = format!("{first}-{count}");
            count += 1;
        }
    }
}

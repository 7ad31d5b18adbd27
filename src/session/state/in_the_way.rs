//! What is in the way of a file that is to be written, and names that are free.

use std::path::{Path, PathBuf};

use crate::store::{Known, free_name};

/// What is in the way.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum InTheWay {
    /// A file under the plan's name: another one, or its own that another
    /// changed since it was read.
    Plan {
        /// Where.
        file: PathBuf,
        /// What it holds: another change of it is asked about anew.
        is: Known,
    },
    /// Files in the folder of the papers that are not its own.
    Papers {
        /// Where.
        folder: PathBuf,
        /// Which, in words.
        says: String,
    },
}

/// A name like that of a path, free, in the same folder.
pub fn free_beside(path: &Path) -> PathBuf {
    let name = path.file_stem().unwrap_or("house".as_ref()).to_string_lossy();
    let ending = path.extension().unwrap_or("papers".as_ref()).to_string_lossy();
    // `house-2` and what is in its way becomes `house-3`, not `house-2-2`.
    let first = name.rsplit_once('-').filter(|(_, count)| count.parse::<u32>().is_ok());
    let name = first.map_or(&*name, |(name, _)| name);
    free_name(path.parent().unwrap_or(Path::new("")), name, &ending)
}

/// A name for a plan that has none: its title's, or `house`, and free.
pub fn free_for(title: &str) -> PathBuf {
    /// As long as a person would type.
    const CHARS_MAX: usize = 40;
    let sign = |sign: char| if sign.is_alphanumeric() { sign } else { ' ' };
    let words: String = title.chars().take(CHARS_MAX).map(sign).collect();
    let name = words.split_whitespace().collect::<Vec<_>>().join("-").to_lowercase();
    free_name(Path::new(""), if name.is_empty() { "house" } else { &name }, "wend")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_is_offered_that_is_free() {
        let folder = std::env::temp_dir().join(format!("wirewend-free-{}", std::process::id()));
        std::fs::create_dir_all(&folder).expect("a folder");
        let house = folder.join("house.wend");
        assert_eq!(free_beside(&house), house, "nothing is there");
        std::fs::write(&house, "").expect("a file");
        assert_eq!(free_beside(&house), folder.join("house-2.wend"));
        std::fs::create_dir_all(folder.join("house-2.wend")).expect("a folder of that name");
        // One that is open in another window and not saved yet.
        std::fs::write(folder.join(".house-3.wend.journal"), "").expect("a journal");
        assert_eq!(free_beside(&folder.join("house-2.wend")), folder.join("house-4.wend"));
        let papers = folder.join("house.papers");
        std::fs::create_dir_all(&papers).expect("a folder");
        assert_eq!(free_beside(&papers), folder.join("house-2.papers"));
        let _ = std::fs::remove_dir_all(folder);
    }

    #[test]
    fn a_plan_without_a_name_is_named_after_its_title() {
        for (title, name) in [
            ("", "house.wend"),
            (" /.. ", "house.wend"),
            ("Shed, end of the lane (B)", "shed-end-of-the-lane-b.wend"),
            ("../etc/passwd", "etc-passwd.wend"),
        ] {
            assert_eq!(free_for(title), Path::new(name), "{title}");
        }
    }
}

//! The pictures that lie beneath a plan: their files as seen from the plan's.

use std::path::{Component, Path, PathBuf};

use crate::plan::{Finding, Plan, Severity, Subject};

/// Where the picture of a backdrop is, from the folder of the plan file.
#[must_use]
pub fn backdrop_path(folder: &Path, file: &str) -> PathBuf {
    folder.join(file)
}

/// How a plan in this folder names a picture: by the way to it, parted by `/`,
/// so that both can move together. A picture on another drive keeps its whole
/// path.
#[must_use]
pub fn backdrop_name(folder: &Path, picture: &Path) -> String {
    let whole = |path: &Path| std::path::absolute(path).unwrap_or_else(|_| path.to_owned());
    let (folder, picture) = (whole(folder), whole(picture));
    let (from, to): (Vec<Component<'_>>, Vec<Component<'_>>) =
        (folder.components().collect(), picture.components().collect());
    let shared = from.iter().zip(&to).take_while(|(one, other)| one == other).count();
    if shared == 0 {
        return picture.to_string_lossy().into_owned();
    }
    let up = std::iter::repeat_n("..".into(), from.len() - shared);
    let down = to[shared..].iter().map(|part| part.as_os_str().to_string_lossy());
    up.chain(down).collect::<Vec<_>>().join("/")
}

/// A finding for every picture whose file is not there. The plan works without.
#[must_use]
pub fn missing_backdrops(plan: &Plan, folder: &Path) -> Vec<Finding> {
    let missing = plan.backdrops.iter().filter(|(_, backdrop)| {
        !backdrop.hidden && !backdrop_path(folder, &backdrop.file).is_file()
    });
    missing
        .map(|(level, backdrop)| {
            Finding::new(
                "missing-picture",
                Severity::Missing,
                Subject::Level(*level),
                format!("the picture beneath this level is not there: {}", backdrop.file),
                "put the file back, lay another picture, or take it away; nothing else needs it",
            )
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_picture_is_named_from_the_folder_of_its_plan_and_found_again() {
        let folder = std::env::temp_dir().join("jobs").join("12");
        for (picture, name) in [
            ("scan.png", "scan.png"),
            ("photos/ground floor.jpg", "photos/ground floor.jpg"),
            ("../scan.png", "../scan.png"),
        ] {
            let path: PathBuf =
                folder.join(picture).components().fold(PathBuf::new(), |mut path, part| {
                    if part == Component::ParentDir {
                        path.pop();
                    } else {
                        path.push(part)
                    }
                    path
                });
            assert_eq!(backdrop_name(&folder, &path), name);
        }
    }
}

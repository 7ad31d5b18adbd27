//! What the window remembers from one time to the next: look, size of
//! lettering, size of the window, recent plans. A file in the user's own
//! folder; where it cannot be read or written the window does without.

use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};
use wirewend::session::ground::length::Measure;
use wirewend::store::{self, Manner, Replace, SystemDisk};

/// What is remembered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub(super) struct Settings {
    /// The name of the look.
    pub(super) look: String,
    /// How much larger than usual everything is.
    pub(super) scale: f32,
    /// The size of the window, pixels.
    pub(super) size: (f32, f32),
    /// Plans that were open, the latest first.
    pub(super) recent: Vec<PathBuf>,
    /// Whether lengths are shown in feet and inches.
    pub(super) feet: bool,
    /// Whether the hints of the first time were put away.
    pub(super) hinted: bool,
}

/// How many plans are remembered.
const RECENT: usize = 8;
/// The scales that can be chosen.
const SCALES: (f32, f32) = (0.75, 3.0);

impl Default for Settings {
    fn default() -> Self {
        Self {
            look: "day".to_owned(),
            scale: 1.0,
            size: (1280.0, 800.0),
            recent: Vec::new(),
            feet: false,
            hinted: false,
        }
    }
}

impl Settings {
    /// What was remembered; the usual where nothing was or it is broken.
    pub(super) fn read(folder: Option<&Path>) -> Self {
        let text = folder.and_then(|folder| std::fs::read_to_string(file(folder)).ok());
        let read: Self = text.and_then(|text| serde_json::from_str(&text).ok()).unwrap_or_default();
        let sane = |value: f32, low: f32, high: f32, usual: f32| {
            if value.is_finite() { value.clamp(low, high) } else { usual }
        };
        Self {
            scale: sane(read.scale, SCALES.0, SCALES.1, 1.0),
            size: (
                sane(read.size.0, 800.0, 8000.0, 1280.0),
                sane(read.size.1, 500.0, 8000.0, 800.0),
            ),
            ..read
        }
    }

    /// How lengths are shown.
    pub(super) const fn measure(&self) -> Measure {
        if self.feet { Measure::Feet } else { Measure::Metric }
    }

    /// Remembers it. Whoever cannot write there does without.
    pub(super) fn write(&self, folder: Option<&Path>) {
        let Some(folder) = folder else { return };
        if let Ok(text) = serde_json::to_string_pretty(self)
            && std::fs::create_dir_all(folder).is_ok()
        {
            let manner = Manner { replace: Replace::Anything, keep: false, settle: false };
            let _ = store::put(&SystemDisk, &file(folder), text.as_bytes(), manner);
        }
    }

    /// A plan was opened or saved.
    pub(super) fn note(&mut self, plan: &Path) {
        let plan = std::path::absolute(plan).unwrap_or_else(|_| plan.to_owned());
        self.recent.retain(|one| *one != plan);
        self.recent.insert(0, plan);
        self.recent.truncate(RECENT);
    }

    /// One step larger or smaller.
    pub(super) fn rescale(&mut self, larger: bool) {
        let step = if larger { 1.1 } else { 1.0 / 1.1 };
        let scale = (self.scale * step).clamp(SCALES.0, SCALES.1);
        // Back at the usual size exactly.
        self.scale = if (scale - 1.0).abs() < 0.04 { 1.0 } else { scale };
    }
}

fn file(folder: &Path) -> PathBuf {
    folder.join("window.json")
}

/// Where the window's own files are: `WIREWEND_HOME`, or the system's place for
/// the settings of programs. None: there is none.
pub(super) fn folder() -> Option<PathBuf> {
    let set = |name: &str| std::env::var_os(name).filter(|value| !value.is_empty());
    let path = |name: &str| set(name).map(PathBuf::from);
    path("WIREWEND_HOME").or_else(|| {
        let base = if cfg!(windows) {
            path("APPDATA")
        } else if cfg!(target_os = "macos") {
            path("HOME").map(|home| home.join("Library/Application Support"))
        } else {
            path("XDG_CONFIG_HOME").or_else(|| path("HOME").map(|home| home.join(".config")))
        };
        base.map(|base| base.join("wirewend"))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_remembered_reads_back_and_what_is_broken_does_no_harm() {
        let folder = std::env::temp_dir().join(format!("wirewend-settings-{}", std::process::id()));
        let mut settings = Settings { look: "night".to_owned(), ..Settings::default() };
        settings.rescale(true);
        for plan in ["a.wend", "b.wend", "a.wend"] {
            settings.note(Path::new(plan));
        }
        assert_eq!(settings.recent.len(), 2, "each plan once");
        assert!(settings.recent[0].ends_with("a.wend"), "the latest first");
        settings.write(Some(&folder));
        assert_eq!(Settings::read(Some(&folder)), settings);
        std::fs::write(file(&folder), "{ broken").expect("a file");
        assert_eq!(Settings::read(Some(&folder)), Settings::default());
        std::fs::write(file(&folder), "{\"scale\": 1e9, \"size\": [1, 1]}").expect("a file");
        let read = Settings::read(Some(&folder));
        assert!(read.scale <= 3.0 && read.size.0 >= 800.0, "{read:?}");
        settings.rescale(false);
        assert!((settings.scale - 1.0).abs() < f32::EPSILON, "there and back");
        let _ = std::fs::remove_dir_all(folder);
    }
}

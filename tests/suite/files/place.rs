//! A folder in which the program runs, as somebody who may not do everything.
#![cfg(unix)]

use std::os::unix::fs::PermissionsExt as _;
use std::os::unix::process::CommandExt as _;
use std::path::{Path, PathBuf};
use std::process::Command;
use std::sync::OnceLock;

use crate::command::Folder;

/// One room of an invented layout.
pub(super) const LAYOUT: &str = r#"{"type": "FeatureCollection", "features": [
{"type": "Feature", "properties": {"room": "Shed"}, "geometry": {"type": "Polygon", "coordinates":
 [[[0,0],[6000,0],[6000,4000],[0,4000],[0,0]]]}}]}"#;

/// A program that anybody may run, wherever this one was built. One for all
/// tests; the system clears it away.
fn program() -> &'static Path {
    static PROGRAM: OnceLock<PathBuf> = OnceLock::new();
    PROGRAM.get_or_init(|| {
        let folder = std::env::temp_dir().join("wirewend-files-program");
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::set_permissions(&folder, std::fs::Permissions::from_mode(0o755)).unwrap();
        let path = folder.join("wirewend");
        // Never the file of one that runs.
        let new = folder.join(format!("new-{}", std::process::id()));
        std::fs::copy(env!("CARGO_BIN_EXE_wirewend"), &new).unwrap();
        std::fs::set_permissions(&new, std::fs::Permissions::from_mode(0o755)).unwrap();
        std::fs::rename(new, &path).unwrap();
        path
    })
}

/// A folder with everything that the commands read, and one to write into.
pub(super) struct Place {
    pub(super) folder: Folder,
    /// Whether the program runs as somebody who may not do everything.
    as_nobody: bool,
}

impl Place {
    pub(super) fn new(tag: &str) -> Self {
        let folder = Folder::new(&format!("files-commands-{tag}"));
        let at = folder.path();
        let fixtures = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures");
        std::fs::copy(fixtures.join("flat.wend"), at.join("flat.wend")).unwrap();
        for name in ["shed.geojson", "flat.geojson"] {
            std::fs::write(at.join(name), LAYOUT).unwrap();
        }
        std::fs::create_dir_all(at.join("job")).unwrap();
        let everybody = |path: &Path, mode| {
            std::fs::set_permissions(path, std::fs::Permissions::from_mode(mode)).unwrap();
        };
        for entry in std::fs::read_dir(at).unwrap() {
            everybody(&entry.unwrap().path(), 0o777);
        }
        everybody(at, 0o777);
        // Whoever may do everything is not stopped by a mode.
        everybody(&at.join("job"), 0o555);
        let as_nobody = std::fs::write(at.join("job/try"), "").is_ok();
        everybody(&at.join("job"), 0o777);
        let _ = std::fs::remove_file(at.join("job/try"));
        Self { folder, as_nobody }
    }

    pub(super) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Runs a command in the folder; whether it ended well and what it said.
    pub(super) fn run(&self, words: &[&str], no_room: bool) -> (bool, String) {
        let output = self.command(no_room).args(words).output().unwrap();
        let said = [output.stdout, output.stderr].concat();
        (output.status.success(), String::from_utf8(said).unwrap())
    }

    /// The program in the folder, without its words.
    pub(super) fn command(&self, no_room: bool) -> Command {
        let program = program();
        let mut command = if no_room {
            // A file may not grow beyond a kilobyte: as on a disk that is full.
            let mut shell = Command::new("sh");
            shell.args(["-c", "trap '' XFSZ; ulimit -f 1; exec \"$0\" \"$@\""]).arg(program);
            shell
        } else {
            Command::new(program)
        };
        if self.as_nobody {
            command.uid(65_534).gid(65_534);
        }
        command.current_dir(self.folder.path());
        command
    }
}

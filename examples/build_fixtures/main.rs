//! Writes the plans under `fixtures/` from the houses described here, so that
//! they can be rebuilt after a change of the model:
//!
//! `cargo run --no-default-features --example build_fixtures`
//!
//! Every house, name and price in them is invented.

mod houses;

use std::fs;
use std::path::Path;

fn main() -> std::io::Result<()> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures");
    fs::create_dir_all(&folder)?;
    for (name, plan) in houses::all() {
        fs::write(folder.join(name), houses::text(&plan))?;
    }
    Ok(())
}

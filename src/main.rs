//! Two doors to one house: the window and the command line.

#[cfg(feature = "window")]
mod app;
mod cli;

fn main() -> std::process::ExitCode {
    cli::run()
}

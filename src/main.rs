//! The command line of Wirewend.

mod cli;

fn main() -> std::process::ExitCode {
    cli::run()
}

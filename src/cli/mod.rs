//! The command line: reads plans, calls the library, prints.

use std::path::PathBuf;
use std::process::ExitCode;

use clap::{Parser, Subcommand};
use wirewend::store;

/// Plans a house rewire: routed cables, cut lengths, checks and papers from one
/// drawing. It helps to plan and certifies nothing: isolate, prove dead, lock
/// off; the local code and licensed people decide.
#[derive(Parser)]
#[command(version, arg_required_else_help = true)]
struct Arguments {
    #[command(subcommand)]
    command: Command,
}

#[derive(Subcommand)]
enum Command {
    /// Print the JSON Schema of plan files.
    Schema,
    /// Read a plan and say whether its file is whole.
    Read {
        /// The plan file.
        plan: PathBuf,
    },
}

/// Runs the command line; 0 when all is well, 1 when the input is not, 2 when
/// the command is not (which clap sees to).
pub(crate) fn run() -> ExitCode {
    match Arguments::parse().command {
        Command::Schema => print(&store::schema()),
        Command::Read { plan } => match store::read_file(&plan) {
            Ok(read) => print(&format!(
                "{}: {} walls, {} points, {} circuits\n",
                plan.display(),
                read.walls.len(),
                read.points.len(),
                read.circuits.len()
            )),
            Err(error) => fail(&error.to_string()),
        },
    }
}

#[expect(clippy::print_stdout, reason = "the output of a command")]
fn print(text: &str) -> ExitCode {
    print!("{text}");
    ExitCode::SUCCESS
}

fn fail(text: &str) -> ExitCode {
    eprintln!("wirewend: {text}");
    ExitCode::FAILURE
}

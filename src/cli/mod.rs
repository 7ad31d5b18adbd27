//! The command line: reads plans, calls the library, prints.

mod check;
mod compare;
mod cuts;
mod draft;
mod findings;
mod import;
mod job;
mod open;
mod options;
pub(crate) mod papers;
mod runs;
mod sample;
mod sheet;
mod take_off;

use std::path::PathBuf;
use std::process::ExitCode;

use clap::{CommandFactory, Parser, Subcommand};
use wirewend::draft::{Above, BoardPlace, DraftOptions, Standard, Wayfare};
use wirewend::plan::Regime;
use wirewend::store::{self, ImportOptions, LengthUnit};
use wirewend::units::Mm;

/// Plans a house rewire: routed cables and cut lengths from one drawing.
///
/// It helps to plan and certifies nothing. Work on mains wiring kills:
/// isolate, prove dead, lock off; the local code and licensed people decide.
#[derive(Parser)]
#[command(name = "wirewend", version)]
#[command(
    after_help = "Exit status: 0 when done, 1 when the input is not as it should be, 2 when \
                        the command is not.\n\nBegin with: wirewend runs fixtures/cottage.wend"
)]
struct Arguments {
    #[command(subcommand)]
    command: Option<Command>,
}

#[derive(Subcommand)]
enum Command {
    /// Open the window on a plan; on the sample house without one. Also what
    /// happens without a command, where there is a screen.
    Open {
        /// The plan file. One that is not there yet begins as an empty plan.
        plan: Option<PathBuf>,
    },
    /// List the legs of every circuit with their lengths, and what to look at.
    Runs {
        /// The plan file.
        plan: PathBuf,
        /// Print everything as JSON: vertices, surroundings, workings and the
        /// matrix of legs behind each order.
        #[arg(long)]
        json: bool,
    },
    /// Check size, protection, volt drop and places; exit 1 where a limit is
    /// passed.
    Check {
        /// The plan file.
        #[arg(required_unless_present = "explain")]
        plan: Option<PathBuf>,
        /// Print figures, workings and findings as JSON.
        #[arg(long)]
        json: bool,
        /// A folder of your own tables, `<regime>/<table>.csv`, which override
        /// the shipped ones row by row.
        #[arg(long)]
        rules: Option<PathBuf>,
        /// Print the page of a finding's code instead.
        #[arg(long, value_name = "CODE")]
        explain: Option<String>,
    },
    /// Make a plan of walls, openings and rooms from an IFC, DXF, SVG or
    /// GeoJSON file or a layout, and say what was left out.
    Import {
        /// The file; also packed by gzip.
        file: PathBuf,
        /// The plan file to write.
        #[arg(long)]
        to: PathBuf,
        /// The unit of a drawing's numbers: mm, cm, m, in or ft.
        #[arg(long)]
        unit: Option<LengthUnit>,
        /// The layers of a drawing that hold its walls, with commas between.
        #[arg(long, value_delimiter = ',')]
        layers: Vec<String>,
        /// Floor to ceiling where a drawing shows no heights, mm.
        #[arg(long, value_name = "MM", value_parser = clap::value_parser!(i64).range(300..=100_000))]
        level_height: Option<i64>,
    },
    /// Draft a plan from a bare layout: what goes where, on which circuit, and
    /// why. What was drawn already stays.
    Draft {
        /// A plan file without points, or a layout in the neutral JSON form.
        layout: PathBuf,
        /// The plan file to write.
        #[arg(long)]
        to: PathBuf,
        #[command(flatten)]
        asked: Asked,
        /// Print every reason and finding as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Wire a plan (or a drafted layout) in several ways and set metres, volt
    /// drop and chases side by side.
    Options {
        /// A plan file, or a layout in the neutral JSON form.
        plan: PathBuf,
        #[command(flatten)]
        asked: Asked,
        /// Print the figures as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Draw a level at a true scale as SVG.
    Sheet {
        /// The plan file.
        plan: PathBuf,
        /// The level, by id or name; may be left out where there is one.
        #[arg(long)]
        level: Option<String>,
        /// One circuit alone, by its number.
        #[arg(long)]
        circuit: Option<u16>,
        /// The file to write. Without it, to the standard output.
        #[arg(long)]
        to: Option<PathBuf>,
    },
    /// Write every paper of a plan into a folder: sheets as SVG, the set as PDF,
    /// floor sheets as DXF, lists as CSV and as a workbook.
    Papers {
        /// The plan file.
        plan: PathBuf,
        /// The folder.
        #[arg(long)]
        to: PathBuf,
        /// An earlier revision of the plan: what changed since then goes first.
        #[arg(long, value_name = "PLAN")]
        since: Option<PathBuf>,
        /// These papers alone: quote, floors, circuits, elevations, isometric, strips,
        /// cards, order, board, tests, concealed.
        #[arg(long, value_name = "NAME", value_delimiter = ',')]
        only: Vec<String>,
        /// A picture of every sheet as well, of so many dots to the inch.
        #[arg(long, value_name = "DOTS", value_parser = clap::value_parser!(u16).range(20..=600))]
        png: Option<u16>,
    },
    /// Write the sheets and lengths of the sample house into a folder. Also
    /// what happens without a command and without a screen.
    Sample {
        /// The folder.
        #[arg(long, default_value = SAMPLE_FOLDER)]
        to: PathBuf,
    },
    /// Plan the cuts: which leg from which off-cut or drum, and where to cut.
    Cuts {
        /// The plan file.
        plan: PathBuf,
        /// Only the legs that have not been measured yet, from the stock as it
        /// is now.
        #[arg(long)]
        left: bool,
        /// Print as JSON, with the bounds.
        #[arg(long)]
        json: bool,
    },
    /// List materials and work by count.
    Materials {
        /// The plan file.
        plan: PathBuf,
        /// Print as JSON, with what each count came from.
        #[arg(long)]
        json: bool,
    },
    /// Price a plan by its own price book, line by line.
    Quote {
        /// The plan file.
        plan: PathBuf,
        /// Print as JSON, with the workings.
        #[arg(long)]
        json: bool,
    },
    /// Say what changed from one plan to another: points, metres, materials,
    /// work and price.
    Compare {
        /// The plan file before.
        old: PathBuf,
        /// The plan file now.
        new: PathBuf,
        /// Print as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Print the JSON Schema of plan files.
    Schema,
    /// Print a completion script for a shell.
    Completions {
        /// The shell.
        shell: clap_complete::Shell,
    },
    /// Print the manual page.
    Man,
}

/// What may be asked of a draft.
#[derive(clap::Args)]
struct Asked {
    /// Whose rules: as-nzs, bs or iec. Without it, as the plan says.
    #[arg(long, value_parser = regime)]
    regime: Option<Regime>,
    /// How much of everything: basic, good or generous.
    #[arg(long, default_value = "good", value_parser = standard)]
    standard: Standard,
    /// Where cables run: mixed, overhead or underfloor.
    #[arg(long, default_value = "mixed", value_parser = way)]
    way: Wayfare,
    /// The board's room by id or name, and if wanted a side of it or a wall:
    /// Hall, Hall/north, Hall/W12. Without it, by the entrance.
    #[arg(long, value_name = "ROOM/PLACE")]
    board: Option<BoardPlace>,
    /// What lies over levels that name no void: voids, concrete-floors
    /// (with a roof space on top) or concrete.
    #[arg(long, default_value = "voids", value_parser = above)]
    above: Above,
}

impl Asked {
    fn options(self) -> DraftOptions {
        let Self { regime, standard, way, board, above } = self;
        DraftOptions { regime, standard, way, board, above }
    }
}

fn regime(text: &str) -> Result<Regime, String> {
    one_of(text, &[("as-nzs", Regime::AsNzs), ("bs", Regime::Bs), ("iec", Regime::Iec)])
}

fn standard(text: &str) -> Result<Standard, String> {
    let all = [Standard::Basic, Standard::Good, Standard::Generous];
    one_of(text, &all.map(|standard| (standard.key(), standard)))
}

fn way(text: &str) -> Result<Wayfare, String> {
    let all = [Wayfare::Mixed, Wayfare::Overhead, Wayfare::Underfloor];
    one_of(text, &[("mixed", all[0]), ("overhead", all[1]), ("underfloor", all[2])])
}

fn above(text: &str) -> Result<Above, String> {
    let all = [Above::Voids, Above::ConcreteFloors, Above::Concrete];
    one_of(text, &[("voids", all[0]), ("concrete-floors", all[1]), ("concrete", all[2])])
}

fn one_of<T: Copy>(text: &str, all: &[(&str, T)]) -> Result<T, String> {
    let names = || all.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(", ");
    let found = all.iter().find(|(name, _)| *name == text).map(|(_, value)| *value);
    found.ok_or_else(|| format!("expected one of {}", names()))
}

/// Where the sample goes unless told otherwise.
const SAMPLE_FOLDER: &str = "wirewend-out";

/// Runs the command line; 0 when done, 1 when the input is not as it should
/// be, 2 when the command is not (which clap sees to).
pub(crate) fn run() -> ExitCode {
    let outcome = match Arguments::parse().command.unwrap_or(Command::Open { plan: None }) {
        Command::Check { explain: Some(code), .. } => check::explain(&code),
        Command::Check { plan, json, rules, .. } => {
            match check::run(&plan.unwrap_or_default(), rules.as_deref(), json) {
                Ok((text, true)) => {
                    print(&text);
                    return ExitCode::FAILURE;
                }
                Ok((text, false)) => Ok(text),
                Err(text) => Err(text),
            }
        }
        Command::Import { file, to, unit, layers, level_height } => {
            let standard = ImportOptions::default();
            let level_height = level_height.map_or(standard.level_height, Mm::new);
            import::run(&file, &to, &ImportOptions { unit, layers, level_height, ..standard })
        }
        Command::Open { plan } => open::run(plan.as_deref(), SAMPLE_FOLDER.as_ref()),
        Command::Sample { to } => sample::run(&to, ""),
        Command::Draft { layout, to, asked, json } => {
            draft::run(&layout, &to, &asked.options(), json)
        }
        Command::Options { plan, asked, json } => options::run(&plan, &asked.options(), json),
        Command::Sheet { plan, level, circuit, to } => {
            sheet::run(&plan, level.as_deref(), circuit, to.as_deref())
        }
        Command::Papers { plan, to, since, only, png } => {
            papers::run(&plan, &to, &papers::Wanted { only: &only, png, since: since.as_deref() })
        }
        Command::Runs { plan, json } => runs::run(&plan, json),
        Command::Cuts { plan, left, json } => cuts::run(&plan, left, json),
        Command::Materials { plan, json } => take_off::materials(&plan, json),
        Command::Quote { plan, json } => take_off::quote(&plan, json),
        Command::Compare { old, new, json } => compare::run(&old, &new, json),
        Command::Schema => Ok(store::schema()),
        Command::Completions { shell } => {
            let mut script = Vec::new();
            clap_complete::generate(shell, &mut Arguments::command(), "wirewend", &mut script);
            Ok(String::from_utf8_lossy(&script).into_owned())
        }
        Command::Man => manual(),
    };
    match outcome {
        Ok(text) => print(&text),
        Err(text) => {
            eprintln!("wirewend: {text}");
            ExitCode::FAILURE
        }
    }
}

fn manual() -> Result<String, String> {
    let mut page = Vec::new();
    clap_mangen::Man::new(Arguments::command()).render(&mut page).map_err(|e| e.to_string())?;
    Ok(String::from_utf8_lossy(&page).into_owned())
}

/// Writes to the standard output; a reader that closes it early is no error.
fn print(text: &str) -> ExitCode {
    use std::io::Write as _;
    let mut out = std::io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => {
            eprintln!("wirewend: standard output: {error}");
            ExitCode::FAILURE
        }
        _ => ExitCode::SUCCESS,
    }
}

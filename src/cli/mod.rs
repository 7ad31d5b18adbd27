//! The command line: reads plans, calls the library, prints.

mod amounts;
mod as_built;
mod asked;
mod check;
mod compare;
mod corners;
mod costing;
mod cuts;
mod draft;
mod findings;
mod import;
mod issue;
mod job;
mod keep;
mod named;
mod open;
mod options;
mod own_rules;
mod papers;
mod renumber;
mod runs;
mod sample;
mod sheet;
mod take_off;
mod taken_off;

use std::path::PathBuf;
use std::process::ExitCode;

use asked::{Asked, OfDrawing, gap};
use clap::{CommandFactory, Parser, Subcommand};
use own_rules::OwnRules;
use wirewend::plan::Regime;
use wirewend::store;
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
        #[command(flatten)]
        rules: OwnRules,
    },
    /// List the legs of every circuit with their lengths, and what to look at.
    Runs {
        /// The plan file.
        plan: PathBuf,
        #[command(flatten)]
        rules: OwnRules,
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
        #[command(flatten)]
        rules: OwnRules,
        /// Print the page of a finding's code instead.
        #[arg(long, value_name = "CODE")]
        explain: Option<String>,
        /// Close corners that do not meet, with gaps of up to so many mm, and
        /// check what comes of it.
        #[arg(long, value_name = "MM", value_parser = gap(), requires = "to")]
        close: Option<i64>,
        /// The plan file to write with those corners closed.
        #[arg(long, value_name = "PLAN", requires = "close")]
        to: Option<PathBuf>,
        /// Write over a file that is there, and keep it beside the new one.
        #[arg(long, requires = "to")]
        replace: bool,
    },
    /// Make a plan of walls, openings and rooms from an IFC, DXF, SVG or
    /// GeoJSON file or a layout, and say what was left out.
    Import {
        /// The file; also packed by gzip.
        file: PathBuf,
        /// The plan file to write.
        #[arg(long)]
        to: PathBuf,
        /// Write over a file that is there, and keep it beside the new one.
        #[arg(long)]
        replace: bool,
        #[command(flatten)]
        drawing: OfDrawing,
        /// Close corners that do not meet, with gaps of up to so many mm.
        #[arg(long, value_name = "MM", value_parser = gap())]
        close: Option<i64>,
    },
    /// Draft a plan from a bare layout: what goes where, on which circuit, and
    /// why. What was drawn already stays.
    Draft {
        /// A plan file without points, or a layout or drawing that can be
        /// imported.
        layout: PathBuf,
        /// The plan file to write.
        #[arg(long)]
        to: PathBuf,
        /// Write over a file that is there, and keep it beside the new one.
        #[arg(long)]
        replace: bool,
        #[command(flatten)]
        asked: Asked,
        #[command(flatten)]
        drawing: OfDrawing,
        #[command(flatten)]
        rules: OwnRules,
        /// Print every reason and finding as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Wire a plan (or a drafted layout) in several ways and set metres, price,
    /// volt drop and chases side by side.
    Options {
        /// A plan file, or a layout or drawing that can be imported.
        plan: PathBuf,
        #[command(flatten)]
        asked: Asked,
        #[command(flatten)]
        drawing: OfDrawing,
        #[command(flatten)]
        rules: OwnRules,
        /// Print the figures as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Draw a level at a true scale as SVG.
    Sheet {
        /// The plan file.
        plan: PathBuf,
        /// The level, by id (`L1` or `1`) or name; may be left out where there is one.
        #[arg(long)]
        level: Option<String>,
        /// One circuit alone, by its number: 3, or DB2/3 where several boards
        /// feed a circuit 3.
        #[arg(long)]
        circuit: Option<String>,
        #[command(flatten)]
        rules: OwnRules,
        /// The file to write. Without it, to the standard output.
        #[arg(long)]
        to: Option<PathBuf>,
        /// Write over a file that is there, and keep it beside the new one.
        #[arg(long, requires = "to")]
        replace: bool,
    },
    /// Write every paper of a plan into a folder: sheets as SVG, the set as PDF,
    /// floor sheets as DXF, lists as CSV and as a workbook, the quote as a page
    /// for a telephone. The costing, which is not for the client, goes into
    /// files of its own, internal-costing. What they call things is kept in the
    /// plan file.
    Papers {
        /// The plan file.
        plan: PathBuf,
        /// The folder. Papers that were written there before are written anew.
        #[arg(long)]
        to: PathBuf,
        /// Write over files of others too, and keep them beside the new ones.
        #[arg(long)]
        replace: bool,
        /// An earlier revision of the plan: what changed since then goes first.
        #[arg(long, value_name = "PLAN")]
        since: Option<PathBuf>,
        /// These papers alone: quote, floors, circuits, elevations, isometric, strips,
        /// cards, order, board, tests, concealed, page (the quote for a telephone),
        /// costing (internal).
        #[arg(long, value_name = "NAME", value_delimiter = ',')]
        only: Vec<String>,
        /// A picture of every sheet as well, of so many dots to the inch.
        #[arg(long, value_name = "DOTS", value_parser = clap::value_parser!(u16).range(20..=600))]
        png: Option<u16>,
        #[command(flatten)]
        rules: OwnRules,
        /// Whose rules, by the name of their folder: as-nzs, bs, iec or one of your
        /// own. Without it, as the plan says.
        #[arg(long, value_name = "NAME")]
        regime: Option<Regime>,
    },
    /// Write the sheets and lengths of the sample house into a folder. Also
    /// what happens without a command and without a screen.
    Sample {
        /// The folder.
        #[arg(long, default_value = SAMPLE_FOLDER)]
        to: PathBuf,
        /// Write over files of others too, and keep them beside the new ones.
        #[arg(long)]
        replace: bool,
    },
    /// Plan the cuts: which leg from which off-cut or drum, and where to cut.
    Cuts {
        /// The plan file.
        plan: PathBuf,
        /// Only the legs that have not been measured yet, from the stock as it
        /// is now.
        #[arg(long)]
        left: bool,
        #[command(flatten)]
        rules: OwnRules,
        /// Print as JSON, with the bounds.
        #[arg(long)]
        json: bool,
    },
    /// Enter legs as they were measured, one by one or from the filled list;
    /// without one, show measured beside planned.
    Measured {
        /// The plan file.
        plan: PathBuf,
        #[command(flatten)]
        one: as_built::LegGiven,
        #[command(flatten)]
        how: as_built::Entered,
    },
    /// Enter readings of a meter, one by one or from the filled list; without
    /// one, show them beside what was expected.
    Reading {
        /// The plan file.
        plan: PathBuf,
        #[command(flatten)]
        given: Box<as_built::ReadingsGiven>,
        #[command(flatten)]
        how: as_built::Entered,
    },
    /// List materials and work by count.
    Materials {
        /// The plan file.
        plan: PathBuf,
        #[command(flatten)]
        rules: OwnRules,
        /// Print as JSON, with what each count came from.
        #[arg(long)]
        json: bool,
    },
    /// Price a plan by its own price book, as the client is told.
    Quote {
        /// The plan file.
        plan: PathBuf,
        /// Every line instead, with what one costs, minutes and margin: not for the
        /// client.
        #[arg(long)]
        internal: bool,
        #[command(flatten)]
        rules: OwnRules,
        /// Print as JSON, with the workings.
        #[arg(long)]
        json: bool,
    },
    /// Give marks, circuits and legs their numbers anew, without gaps, and say
    /// what is called otherwise: issued papers and lists no longer match, so
    /// issue them again. Without --marks, --circuits or --legs, all of them.
    Renumber {
        /// The plan file.
        plan: PathBuf,
        /// The plan file to write; it may be the same.
        #[arg(long, value_name = "PLAN")]
        to: PathBuf,
        #[command(flatten)]
        what: renumber::Asked,
        /// Write over a file that is there, and keep it beside the new one.
        #[arg(long)]
        replace: bool,
        /// Print as JSON.
        #[arg(long)]
        json: bool,
    },
    /// Say what changed from one plan to another: everything drawn and set,
    /// metres, materials, work and price.
    Compare {
        /// The plan file before.
        old: PathBuf,
        /// The plan file now.
        new: PathBuf,
        /// With every line of the price that changed, and margin: not for the
        /// client.
        #[arg(long)]
        internal: bool,
        #[command(flatten)]
        rules: OwnRules,
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

impl Command {
    /// What happens without a command.
    fn open() -> Self {
        Self::Open { plan: None, rules: OwnRules::default() }
    }
}

/// Where the sample goes unless told otherwise.
const SAMPLE_FOLDER: &str = "wirewend-out";

/// Runs the command line; 0 when done, 1 when the input is not as it should
/// be, 2 when the command is not (which clap sees to).
pub(crate) fn run() -> ExitCode {
    let outcome = match Arguments::parse().command.unwrap_or_else(Command::open) {
        Command::Check { explain: Some(code), .. } => check::explain(&code),
        Command::Check { plan, json, rules, close, to, replace, .. } => {
            let close = close.map(Mm::new).zip(to).map(|(most, to)| (most, to, replace));
            match check::run(&plan.unwrap_or_default(), &rules, json, close) {
                Ok((text, true)) => {
                    print(&text);
                    return ExitCode::FAILURE;
                }
                Ok((text, false)) => Ok(text),
                Err(text) => Err(text),
            }
        }
        Command::Import { file, to, replace, drawing, close } => {
            import::run(&file, &to, &drawing.options(), close.map(Mm::new), replace)
        }
        Command::Open { plan, rules } => open::run(plan.as_deref(), &rules, SAMPLE_FOLDER.as_ref()),
        Command::Sample { to, replace } => sample::run(&to, "", replace),
        Command::Draft { layout, to, replace, asked, drawing, rules, json } => {
            let how = (&rules, json, replace);
            draft::run(&layout, &to, &asked.options(), &drawing.options(), how)
        }
        Command::Options { plan, asked, drawing, rules, json } => {
            options::run(&plan, &asked.options(), &drawing.options(), (&rules, json))
        }
        Command::Sheet { plan, level, circuit, rules, to, replace } => {
            let how = (&rules, to.as_deref(), replace);
            sheet::run(&plan, level.as_deref(), circuit.as_deref(), how)
        }
        Command::Papers { plan, to, replace, since, only, png, rules, regime } => {
            let (since, only, rules) = (since.as_deref(), &only, &rules);
            let wanted = papers::Wanted { only, png, since, rules, regime, replace };
            papers::run(&plan, &to, &wanted)
        }
        Command::Runs { plan, rules, json } => runs::run(&plan, &rules, json),
        Command::Cuts { plan, left, rules, json } => cuts::run(&plan, &rules, (left, json)),
        Command::Measured { plan, one, how } => as_built::measured(&plan, &one, &how),
        Command::Reading { plan, given, how } => as_built::reading(&plan, &given, &how),
        Command::Materials { plan, rules, json } => take_off::materials(&plan, &rules, json),
        Command::Quote { plan, internal, rules, json } => {
            take_off::quote(&plan, &rules, (internal, json))
        }
        Command::Renumber { plan, to, what, replace, json } => {
            renumber::run(&plan, &to, &what, (json, replace))
        }
        Command::Compare { old, new, internal, rules, json } => {
            compare::run((&old, &new), &rules, (internal, json))
        }
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

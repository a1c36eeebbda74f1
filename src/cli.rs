//! The commands: a job file in, a sheet, sizes, findings or a fittings count out.
//!
//! Reads arguments and files and prints; every figure comes from the study, every line of a sheet from the drawing.

mod carry;
mod changes;
mod check;
mod count;
mod cut;
mod draw;
mod exercise;
mod figure;
mod input;
mod licenses;
mod list;
mod machine;
mod mark;
mod no_window;
mod output;
mod permit_list;
mod quote;
mod rules;
mod schema;
mod size;
mod start_up;
mod steps;
mod study_sheet;
mod table;
mod take_off;
mod test;
mod tie_in;
mod variants;
mod worksheet;

use crate::nearest::nearest;
use clap::{Args, CommandFactory, FromArgMatches, Parser, Subcommand};
pub use no_window::without_window;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Exit code when nothing must be fixed.
pub const CLEAR: u8 = 0;
/// Exit code when a job has findings that must be fixed.
pub const NOT_READY: u8 = 1;
/// Exit code when a file or an argument was at fault.
pub const TROUBLE: u8 = 2;

/// Isometric sketches of fuel-gas piping: drawn, sized and checked from a job file.
///
/// Gas work is for licensed people. Local code, the gas supplier and the manufacturers' instructions govern; what this program
/// prints is a check against the tables and rules that it names, and no approval.
#[derive(Parser)]
#[command(
    name = "stubout",
    version,
    max_term_width = 100,
    args_conflicts_with_subcommands = true
)]
struct Arguments {
    /// Job file to open in the window
    #[arg(value_name = "JOB")]
    job: Option<PathBuf>,
    #[command(subcommand)]
    command: Option<Command>,
}

/// What this process was started for.
#[derive(Clone, Debug, PartialEq)]
pub enum Asked {
    /// A command, which has been answered.
    Answered(ExitCode),
    /// The drawing window, with a job file or without.
    Window(Option<PathBuf>),
}

#[derive(Subcommand)]
enum Command {
    /// Draw the permit sheet of each job
    Draw(draw::DrawArguments),
    /// Print the size of every section with the reason for it, and the pressure at every outlet
    Size(list::ListArguments),
    /// Print the findings; exit code 1 when something must be fixed
    Check(Jobs),
    /// Print whether existing pipe is large enough: parts before and after the work, spare capacity, and fixes
    Carry(carry::CarryArguments),
    /// Try a tie-in of a new branch all along the existing piping, and print the best places
    TieIn(tie_in::TieInArguments),
    /// Print the variants of each job side by side: pipe, fittings, penetrations, margins, take-off, prices and hours of your own
    Variants(variants::VariantsArguments),
    /// Print what is different in each job from the job as it was issued
    Changes(changes::ChangesArguments),
    /// Print the work steps: what is shut off, which appliances lose gas, and the steps in order
    #[command(alias = "order")]
    Steps(Jobs),
    /// Print what permit offices ask for, checked against the job, and the field or place of what is missing
    #[command(alias = "permit-list")]
    PermitChecklist(Jobs),
    /// Print the start-up record: pressures and inputs measured at each appliance beside the drawing and the rating plate
    StartUp(list::ListArguments),
    /// Print the pressure test of the new pipe: volume, pressure, time, readings by temperature, closures, purging
    Test(test::TestArguments),
    /// Count the fittings on the drawing
    Count(Jobs),
    /// Print everything to buy, salvage and remove, with prices of your own
    #[command(name = "take-off")]
    TakeOff(take_off::TakeOffArguments),
    /// Print a quote for the customer: what is bought, and hours, by lists of your own
    Quote(quote::QuoteArguments),
    /// Print every piece of new pipe with its cut length, and the length or coil that it is cut from
    Cut(list::ListArguments),
    /// Draw a worksheet of each job, in which figures are blank, and its key with the working
    Worksheet(worksheet::WorksheetArguments),
    /// Make an exercise: a job file with piping for a class to size, with tricky spots
    Exercise(exercise::ExerciseArguments),
    /// Score students' answers against a job's key, naming the likely mistake behind each wrong size
    Mark(mark::MarkArguments),
    /// List every rule by which jobs are checked, its severity, and its code section or practice
    Rules(rules::RulesArguments),
    /// Print what the JSON of each command holds
    Schema,
    /// Print the licenses of this program and of the libraries and fonts in it
    Licenses,
}

/// Which jobs, and how to print.
#[derive(Args)]
struct Jobs {
    /// Job files
    #[arg(required = true, value_name = "JOB")]
    jobs: Vec<PathBuf>,
    /// Your own local code settings: a profile file (copy one from assets/profiles and change it)
    #[arg(long, value_name = "FILE")]
    profile: Option<PathBuf>,
    /// Lengths of your own valves, regulators and fittings for the cut list: lines of `what; size; length`
    #[arg(long, value_name = "FILE")]
    lengths: Option<PathBuf>,
    /// A capacity table of your own, which comes before the published ones; may be given again (README.md says how to write one)
    #[arg(long = "table", value_name = "FILE")]
    tables: Vec<PathBuf>,
    /// Show the variant of this name, and work with that
    #[arg(long, value_name = "NAME")]
    variant: Option<String>,
    /// Print for machines: one JSON value, described by `stubout schema`
    #[arg(long)]
    json: bool,
}

/// The command line as it is asked for. The help of each command ends with the caution.
pub fn command() -> clap::Command {
    let command = Arguments::command().after_help(table::CAUTION);
    command.mut_subcommands(|command| command.after_help(table::CAUTION))
}

/// The arguments of this process.
fn arguments() -> Arguments {
    Arguments::from_arg_matches(&command().get_matches()).unwrap_or_else(|fault| fault.exit())
}

/// Runs the command line of this process, as far as it is one.
pub fn run() -> Asked {
    let arguments = arguments();
    let code = match &arguments.command {
        None => match arguments.job {
            Some(job) if is_mistyped(&job) => unknown(&job.display().to_string()),
            job => return Asked::Window(job),
        },
        Some(Command::Draw(arguments)) => draw::run(arguments),
        Some(Command::Size(arguments)) => size::run(arguments),
        Some(Command::Check(jobs)) => check::run(jobs),
        Some(Command::Carry(arguments)) => carry::run(arguments),
        Some(Command::TieIn(arguments)) => tie_in::run(arguments),
        Some(Command::Variants(arguments)) => variants::run(arguments),
        Some(Command::Changes(arguments)) => changes::run(arguments),
        Some(Command::Steps(jobs)) => steps::run(jobs),
        Some(Command::PermitChecklist(jobs)) => permit_list::run(jobs),
        Some(Command::StartUp(arguments)) => start_up::run(arguments),
        Some(Command::Test(arguments)) => test::run(arguments),
        Some(Command::Count(jobs)) => count::run(jobs),
        Some(Command::TakeOff(arguments)) => take_off::run(arguments),
        Some(Command::Quote(arguments)) => quote::run(arguments),
        Some(Command::Cut(arguments)) => cut::run(arguments),
        Some(Command::Worksheet(arguments)) => worksheet::run(arguments),
        Some(Command::Exercise(arguments)) => exercise::run(arguments),
        Some(Command::Mark(arguments)) => mark::run(arguments),
        Some(Command::Rules(arguments)) => rules::run(arguments),
        Some(Command::Schema) => schema::run(),
        Some(Command::Licenses) => licenses::run(),
    };
    Asked::Answered(ExitCode::from(code))
}

/// Whether what stands for a job file is a bare word, behind which no file is.
fn is_mistyped(job: &Path) -> bool {
    job.components().count() == 1 && job.extension().is_none() && !job.exists()
}

/// Says that a word is no command.
fn unknown(word: &str) -> u8 {
    let commands = Arguments::command();
    let known: Vec<&str> = commands.get_subcommands().map(|command| command.get_name()).collect();
    let meant = match nearest(word, &known) {
        Some(near) => format!("did you mean `{near}`?"),
        None => "`stubout help` lists the commands".to_owned(),
    };
    input::report(&format!("{word}: there is no such command and no such file; {meant}"))
}

//! The command line program. It holds no geometry.
//!
//! In: arguments. Out: lines on the terminal, folders that change in one step, exit codes.
//!
//! Start with [`run`]; each command is a file of its own, and `exchange` states what a killed build leaves.

mod args;
mod build;
mod check;
mod dry_fit;
mod exchange;
mod explain;
mod failure;
mod folder;
mod input;
mod new;
mod paint;
mod place;
mod schema;
mod signals;
mod terminal;
mod write_aside;

pub use failure::Failure;
pub use place::write_folder;

use std::ffi::OsString;
use std::io::{ErrorKind, IsTerminal, Write};

use clap::{CommandFactory, FromArgMatches};

use args::{Args, Command};
use failure::USAGE;
use paint::Paint;

/// Runs the program with `arguments`, the first of which is its own name, and gives its exit code.
///
/// The codes are those of `boardwright --help`.
pub fn run(arguments: impl IntoIterator<Item = OsString>) -> u8 {
    let arguments: Vec<OsString> = arguments.into_iter().collect();
    let command = Args::command().color(args::early_colour(&arguments));
    let parsed = command
        .try_get_matches_from(arguments)
        .and_then(|matches| Args::from_arg_matches(&matches));
    let args = match parsed {
        Ok(args) => args,
        Err(error) => {
            // Help and version are no errors; a reader that went away is none either.
            let _ = error.print();
            return if error.use_stderr() { USAGE } else { 0 };
        }
    };
    let stdout = Paint::new(args.color, std::io::stdout().is_terminal());
    let stderr = Paint::new(args.color, std::io::stderr().is_terminal());
    let done = match &args.command {
        Command::New(new) => new::run(new, stdout),
        Command::Check(check) => check::run(check, stdout, stderr),
        Command::Build(build) => build::run(build, stdout, stderr),
        Command::DryFit(fit) => dry_fit::run(fit, stdout, stderr),
        Command::Explain(explain) => explain::run(explain, stdout),
        Command::Schema => schema::run(),
        Command::Keys => print(&crate::design::reference()).map(|()| 0),
    };
    match done {
        Ok(code) => code,
        Err(failure) => {
            if !failure.message.is_empty() {
                let text = format!("{}: {}\n", stderr.red("error"), failure.message);
                let _ = std::io::stderr().write_all(text.as_bytes());
            }
            failure.code
        }
    }
}

/// Prints to standard output; a reader that went away is no fault, and the exit code stays that of the work.
fn print(text: &str) -> Result<(), Failure> {
    let mut out = std::io::stdout().lock();
    match out.write_all(text.as_bytes()).and_then(|()| out.flush()) {
        Err(error) if error.kind() == ErrorKind::BrokenPipe => Ok(()),
        Err(error) => Err(Failure::files(format!(
            "cannot write to standard output: {error}"
        ))),
        Ok(()) => Ok(()),
    }
}

/// Prints a note on the side, which changes no exit code.
fn print_note(note: &str, stderr: Paint) {
    let text = format!("{}: {note}\n", stderr.yellow("note"));
    let _ = std::io::stderr().write_all(text.as_bytes());
}

//! The command line program; see the library's `cli` module.

use std::process::ExitCode;

fn main() -> ExitCode {
    ExitCode::from(boardwright::cli::run(std::env::args_os()))
}

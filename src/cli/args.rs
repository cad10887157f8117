//! The arguments.

use std::ffi::OsString;
use std::path::PathBuf;

use clap::{ColorChoice, Parser, Subcommand};

use super::paint::When;

const AFTER: &str = "\
Example:
  boardwright new board.toml            write a starter design, to be edited
  boardwright check board.toml          look at its measures, its rail, its wood
  boardwright explain joint-gap         what a finding means, with a sketch and what to change
  boardwright dry-fit board.toml        see whether every part meets its neighbours
  boardwright build board.toml -o out   write templates, meshes and tables; open out/index.html

Exit codes:
  0  done
  1  the design has errors, or no board can be made of it
  2  wrong usage
  3  a file could not be read or written, or is in the way
  4  done, but with errors or warnings, under --strict";

/// Makes hollow wooden surfboards' parts from a design file.
///
/// One file describes the board: outline, rocker, foil, sections, and how it is built. From it come the frame's and
/// the outline's templates at full size (SVG, DXF), meshes (STL) and tables (CSV, JSON), with the rail's strips solved at every rib.
#[derive(Debug, Parser)]
#[command(name = "boardwright", version, after_help = AFTER, max_term_width = 100)]
pub(super) struct Args {
    /// When to colour what is printed; NO_COLOR is heeded.
    #[arg(
        long,
        global = true,
        value_enum,
        default_value = "auto",
        value_name = "WHEN"
    )]
    pub color: When,
    #[command(subcommand)]
    pub command: Command,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub(super) enum Command {
    /// Write a commented starter design.
    #[command(after_help = "Example:\n  boardwright new twin.toml")]
    New(New),
    /// Check a design; show its measures, frame, rail, strips, wood and findings.
    #[command(after_help = "Example:\n  boardwright check board.toml")]
    Check(Check),
    /// Put every part together as solids and measure how neighbours meet.
    #[command(after_help = "Example:\n  boardwright dry-fit board.toml")]
    DryFit(DryFit),
    /// Write everything the maker works from into a folder.
    #[command(after_help = BUILD)]
    Build(Build),
    /// Explain every key of the design file, in Markdown.
    Keys,
    /// Explain what a finding's code means; without a code, list all.
    #[command(after_help = "Example:\n  boardwright explain wood-behind-rail")]
    Explain(Explain),
    /// Print a JSON Schema of the design file, for editors.
    #[command(after_help = SCHEMA)]
    Schema,
}

const SCHEMA: &str = "\
Example:
  boardwright schema > boardwright.schema.json

An editor that reads JSON Schema for TOML then completes keys, shows what they mean, and underlines wrong words and values as you \
type: put `#:schema ./boardwright.schema.json` on the first line of the design file, or name the file in the editor's settings. \
Nothing is fetched from anywhere. `boardwright check` still has the rules between values that a schema cannot say.";

const BUILD: &str = "\
Example:
  boardwright build board.toml -o out

The folder holds index.html (start there), milling.html for the shop, svg/, dxf/, charts/, stl/, tables/, board.json, and \
files.json, which lists what was written. It appears when all of it is ready, or not at all. Built again, files that boardwright wrote are replaced, and files of \
yours are kept; where one of its files was changed, or yours is in the way, nothing is done without --force. No folder \
is ever emptied.";

/// Arguments of `new`.
#[derive(Debug, clap::Args)]
pub(super) struct New {
    /// The file to write; `-` for standard output.
    #[arg(default_value = "board.toml")]
    pub file: PathBuf,
    /// Replace a file that exists.
    #[arg(long)]
    pub force: bool,
}

/// Arguments of `check`.
#[derive(Debug, clap::Args)]
pub(super) struct Check {
    /// The design file; `-` for standard input.
    pub file: PathBuf,
    /// Print JSON instead of a screen to read.
    #[arg(long)]
    pub json: bool,
    /// End with exit code 4 where there are errors or warnings.
    #[arg(long)]
    pub strict: bool,
}

/// Arguments of `explain`.
#[derive(Debug, clap::Args)]
pub(super) struct Explain {
    /// The code, as `check` shows it in brackets.
    pub code: Option<String>,
}

/// Arguments of `dry-fit`.
#[derive(Debug, clap::Args)]
pub(super) struct DryFit {
    /// The design file; `-` for standard input.
    pub file: PathBuf,
    /// Print every pair as JSON instead of a screen to read.
    #[arg(long)]
    pub json: bool,
    /// End with exit code 4 where parts overlap or stand apart too far.
    #[arg(long)]
    pub strict: bool,
}

/// Arguments of `build`.
#[derive(Debug, clap::Args)]
pub(super) struct Build {
    /// The design file; `-` for standard input.
    pub file: PathBuf,
    /// The folder to write.
    #[arg(short, long, value_name = "DIR")]
    pub out: PathBuf,
    /// Print what was written as JSON.
    #[arg(long)]
    pub json: bool,
    /// Replace files that are in the way: those changed since they were written, and others of the same names.
    #[arg(long)]
    pub force: bool,
    /// Write every drawing as DXF R12 too, for old controllers, into dxf-r12/.
    #[arg(long)]
    pub r12: bool,
    /// End with exit code 4 where there are errors or warnings.
    #[arg(long)]
    pub strict: bool,
}

/// The colour choice for help and usage errors, which are printed before the arguments are understood.
pub(super) fn early_colour(arguments: &[OsString]) -> ColorChoice {
    let mut choice = ColorChoice::Auto;
    let mut after_flag = false;
    for argument in arguments.iter().skip(1) {
        let text = argument.to_string_lossy();
        let value = match text.strip_prefix("--color=") {
            Some(value) => Some(value),
            None if after_flag => Some(text.as_ref()),
            None => None,
        };
        choice = match value {
            Some("always") => ColorChoice::Always,
            Some("never") => ColorChoice::Never,
            Some("auto") => ColorChoice::Auto,
            _ => choice,
        };
        after_flag = text == "--color";
    }
    choice
}

//! `boardwright check`.

use super::args::Check;
use super::failure::{Failure, WARNED};
use super::paint::Paint;
use super::{input, print, terminal};
use crate::views::pages;
use crate::views::report::report;

pub(super) fn run(args: &Check, stdout: Paint, stderr: Paint) -> Result<u8, Failure> {
    let board = input::board(&args.file, args.json, stderr)?;
    let report = report(&board);
    if args.json {
        let json = report.json().map_err(|error| {
            Failure::design(format!("the report could not be encoded: {error}"))
        })?;
        print(&format!("{json:#}\n"))?;
    } else {
        let page = pages::board(&board, &report, None);
        print(&terminal::render(&page, stdout))?;
    }
    let warned = args.strict && report.warned() > 0;
    Ok(if warned { WARNED } else { 0 })
}

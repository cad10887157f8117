//! `boardwright dry-fit`.

use serde_json::json;

use super::args::DryFit;
use super::failure::{Failure, WARNED};
use super::paint::Paint;
use super::{input, print, terminal};
use crate::views::dry_fit::dry_fit;
use crate::views::pages;

pub(super) fn run(args: &DryFit, stdout: Paint, stderr: Paint) -> Result<u8, Failure> {
    let board = input::board(&args.file, args.json, stderr)?;
    let fit = dry_fit(&board).map_err(|error| Failure::design(error.to_string()))?;
    let past_limits = fit.contacts.iter().filter(|c| !c.holds()).count();
    if args.json {
        let parts: Vec<&str> = fit.parts.iter().map(|p| p.name.as_str()).collect();
        let value = json!({ "parts": parts, "contacts": fit.contacts, "past_limits": past_limits });
        print(&format!("{value:#}\n"))?;
    } else {
        let page = pages::dry_fit(&board, &fit.contacts);
        print(&terminal::render(&page, stdout))?;
    }
    let warned = args.strict && past_limits > 0;
    Ok(if warned { WARNED } else { 0 })
}

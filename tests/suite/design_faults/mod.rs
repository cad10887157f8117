//! Every kind of fault is reported at its place, with its remedy, and all in one run.
#![allow(clippy::unwrap_used, clippy::panic)]

mod keys;
mod limits;
mod report;
mod rules;
mod writing;

use boardwright::design::{Fault, parse};

const LEAST: &str = "name = 'Least'\n[outline]\nlength = 2000\nwidth = 500\n[foil]\ncentre = 65\n";

fn faults(text: &str) -> Vec<Fault> {
    match parse(text, "board.toml") {
        Ok(design) => panic!("no fault was found: {design:?}"),
        Err(faults) => faults.into_iter().collect(),
    }
}

/// The one fault of a text.
#[track_caller]
fn only(text: &str) -> Fault {
    let all = faults(text);
    assert_eq!(all.len(), 1, "{all:#?}");
    all.into_iter().next().unwrap()
}

/// Checks the one fault of the least file with these lines added: its place counted from the first added line.
#[track_caller]
fn added(lines: &str, place: (usize, usize), offending: &str, message: &str, remedy: &str) {
    let fault = only(&format!("{LEAST}{lines}"));
    assert_eq!((fault.line - 6, fault.column), place, "{fault}");
    assert_eq!(fault.offending, offending);
    assert_eq!(fault.message, message);
    assert_eq!(fault.remedy, remedy);
}

/// Checks the one fault of the least file with a text replaced: the place, offending text and message.
#[track_caller]
fn changed(from: &str, to: &str, place: (usize, usize), offending: &str, message: &str) -> Fault {
    assert!(LEAST.contains(from));
    let fault = only(&LEAST.replacen(from, to, 1));
    assert_eq!((fault.line, fault.column), place, "{fault}");
    assert_eq!(fault.offending, offending);
    assert_eq!(fault.message, message);
    fault
}

//! Reading a design file.

use std::io::Read;
use std::path::Path;

use serde_json::json;

use super::failure::{DESIGN, Failure};
use super::paint::Paint;
use super::print;
use crate::board::{Board, BoardError};
use crate::design::{self, Faults};
use crate::shape::key_faults;

/// Greatest size of a design file, bytes: one with every key and thousands of sections is far smaller.
const GREATEST_SIZE: u64 = 1_000_000;

/// Faults shown in one run; a reader mends no more at a time.
const SHOWN_FAULTS: usize = 50;

/// The board of a design file. Faults are printed: for a reader to standard error, or as JSON to standard output.
pub(super) fn board(file: &Path, json: bool, stderr: Paint) -> Result<Board, Failure> {
    let (text, name) = read(file)?;
    let faults = match design::parse(&text, &name) {
        Ok(design) => {
            // Only a shape that cannot be drawn is looked at again for the keys at fault.
            let error = match Board::new(design.clone()) {
                Ok(board) => return Ok(board),
                Err(error) => error,
            };
            let placed = matches!(error, BoardError::Shell(_))
                .then(|| design::place_breaks(&text, &name, &key_faults(&design)));
            match placed.flatten() {
                Some(faults) => faults,
                None => return Err(cannot_make(&name, &error.to_string(), json)),
            }
        }
        Err(faults) => faults,
    };
    if json {
        print(&format!("{:#}\n", json!({ "faults": faults })))?;
        return Err(Failure::quiet(DESIGN));
    }
    Err(Failure::design(fault_text(&faults, stderr)))
}

/// Refuses a sound design of which no board can be made.
pub(super) fn cannot_make(name: &str, why: &str, json: bool) -> Failure {
    if json && let Err(failure) = print(&format!("{:#}\n", json!({ "error": why }))) {
        return failure;
    }
    Failure::design(format!(
        "{name}: no board can be made of this design: {why}"
    ))
}

fn fault_text(faults: &Faults, stderr: Paint) -> String {
    let count = faults.list().len();
    let heading = match count {
        1 => "the design has an error".to_owned(),
        _ => format!("the design has {count} errors"),
    };
    let mut text = heading;
    for fault in faults.list().iter().take(SHOWN_FAULTS) {
        text.push_str("\n\n");
        let shown = fault.to_string();
        match shown.split_once('\n') {
            Some((first, rest)) => {
                text.push_str(&stderr.bold(first));
                text.push('\n');
                text.push_str(rest);
            }
            None => text.push_str(&shown),
        }
    }
    if count > SHOWN_FAULTS {
        text.push_str(&format!(
            "\n\nand {} more; mend these first",
            count - SHOWN_FAULTS
        ));
    }
    text.push_str("\n\n");
    text.push_str(&stderr.dim("`boardwright keys` explains every key."));
    text
}

/// The file's text and its name for messages.
fn read(file: &Path) -> Result<(String, String), Failure> {
    if file == Path::new("-") {
        let bytes = read_bounded(std::io::stdin().lock())
            .map_err(|error| Failure::files(format!("cannot read standard input: {error}")))?;
        return Ok((text(bytes, "standard input")?, "standard input".into()));
    }
    let name = file.display().to_string();
    let bytes = match std::fs::File::open(file).and_then(read_bounded) {
        Ok(bytes) => bytes,
        Err(_) if file.is_dir() => {
            return Err(Failure::files(format!(
                "{name} is a folder; name the design file in it"
            )));
        }
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => {
            return Err(Failure::files(format!(
                "{name} does not exist; check the name, or write a starter design with `boardwright new`"
            )));
        }
        Err(error) => return Err(Failure::files(format!("cannot read {name}: {error}"))),
    };
    Ok((text(bytes, &name)?, name))
}

/// The bytes up to one past the greatest size, so that an endless file ends.
fn read_bounded(source: impl Read) -> std::io::Result<Vec<u8>> {
    let mut bytes = Vec::new();
    source.take(GREATEST_SIZE + 1).read_to_end(&mut bytes)?;
    Ok(bytes)
}

fn text(bytes: Vec<u8>, name: &str) -> Result<String, Failure> {
    if bytes.len() as u64 > GREATEST_SIZE {
        return Err(Failure::files(format!(
            "{name} is larger than {} kB, which no design needs; name a design file",
            GREATEST_SIZE / 1000
        )));
    }
    String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        Failure::files(format!(
            "{name} is not UTF-8 text (byte {at}); save it as UTF-8 in your editor"
        ))
    })
}

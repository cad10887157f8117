//! `boardwright new`.

use std::fs::{self, OpenOptions};
use std::io::{ErrorKind, Write};
use std::path::Path;

use super::args::New;
use super::failure::Failure;
use super::paint::Paint;
use super::print;
use super::write_aside::replace_file;
use crate::design::starter;

pub(super) fn run(args: &New, stdout: Paint) -> Result<u8, Failure> {
    let file = &args.file;
    if file == Path::new("-") {
        print(starter())?;
        return Ok(0);
    }
    let name = file.display();
    if file.is_dir() {
        return Err(Failure::files(format!(
            "{name} is a folder; name a file in it"
        )));
    }
    if args.force {
        replace_file(file, starter().as_bytes())
            .map_err(|error| Failure::files(format!("cannot write {name}: {error}")))?;
    } else {
        create(file)?;
    }
    print(&format!(
        "wrote {}; edit it, then look at it with `boardwright check {name}`\n",
        stdout.bold(&name.to_string())
    ))?;
    Ok(0)
}

fn create(file: &Path) -> Result<(), Failure> {
    let name = file.display();
    let mut open = match OpenOptions::new().write(true).create_new(true).open(file) {
        Ok(open) => open,
        Err(error) if error.kind() == ErrorKind::AlreadyExists => {
            return Err(Failure::files(format!(
                "{name} exists already; name another file, or replace it with --force"
            )));
        }
        Err(error) if error.kind() == ErrorKind::NotFound => {
            return Err(Failure::files(format!(
                "cannot write {name}: its folder does not exist; make it first"
            )));
        }
        Err(error) => return Err(Failure::files(format!("cannot write {name}: {error}"))),
    };
    open.write_all(starter().as_bytes()).map_err(|error| {
        // Half a design would be worse than none.
        let _ = fs::remove_file(file);
        Failure::files(format!("cannot write {name}: {error}"))
    })
}

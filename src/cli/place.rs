//! Where `build` writes: what may be replaced there, and what may not.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use super::exchange;
use super::failure::Failure;
use super::folder::Contents;
use super::signals::Signals;
use crate::output::{MANIFEST, Manifest, OutFile};

/// Writes `files`, which end with their manifest, into the folder `out`: all of them or none. Gives notes for the maker.
///
/// A folder that is there is replaced in one step, with the maker's own files kept; what the maker changed is replaced only by `force`.
/// Ctrl-C and a request to end stop it before that step.
///
/// # Errors
///
/// What stands in the way or could not be written; then nothing was changed.
pub fn write_folder(out: &Path, files: &[OutFile], force: bool) -> Result<Vec<String>, Failure> {
    let signals = Signals::new().map_err(|error| fail(out, &error))?;
    let failed = |error: io::Error| match signals.number() {
        Some(number) => Failure::signal(number, "stopped; nothing was changed"),
        None => fail(out, &error),
    };
    // A slash at the end would hide that it is a link.
    let out: &Path = &out.components().collect::<PathBuf>();
    let name = out.display();
    let goal = goal_of(out).map_err(|error| fail(out, &error))?;
    let mut notes = exchange::recover(&goal);
    let there = match fs::metadata(&goal) {
        Ok(there) => there,
        Err(error) if error.kind() == io::ErrorKind::NotFound && out.is_symlink() => {
            return Err(Failure::files(format!(
                "{name} is a link to {}, which does not exist; make that folder, or delete the link",
                goal.display()
            )));
        }
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            let done = exchange::create(&goal, files, &signals);
            return match done {
                Err(_) if signals.number().is_none() && goal.exists() => Err(appeared(&goal, out)),
                done => done.map(|()| notes).map_err(failed),
            };
        }
        Err(error) => return Err(failed(error)),
    };
    if !there.is_dir() {
        return Err(Failure::files(format!(
            "{name} is a file; name a folder with -o"
        )));
    }
    let here = std::env::current_dir().and_then(fs::canonicalize);
    if here.is_ok_and(|here| here.starts_with(&goal)) {
        return Err(Failure::files(format!(
            "{name} is the folder you are in, or one above it; name a folder inside, such as -o board"
        )));
    }
    let contents = Contents::of(&goal, files).map_err(failed)?;
    allowed(&name.to_string(), &contents, force)?;
    notes.extend(exchange::replace(&goal, files, &contents, &signals).map_err(failed)?);
    Ok(notes)
}

fn fail(out: &Path, error: &io::Error) -> Failure {
    Failure::files(format!(
        "cannot write {}: {error}; nothing was changed",
        out.display()
    ))
}

/// The folder that `out` means, with no link on the way as far as it is there.
fn goal_of(out: &Path) -> io::Result<PathBuf> {
    match fs::canonicalize(out) {
        Ok(goal) => Ok(goal),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Ok(if out.is_symlink() {
            linked(out)
        } else {
            out.to_owned()
        }),
        Err(error) => Err(error),
    }
}
/// Where the link `link` leads.
fn linked(link: &Path) -> PathBuf {
    let target = fs::read_link(link).unwrap_or_default();
    link.parent()
        .map_or(target.clone(), |parent| parent.join(&target))
}

/// Why a folder that was missing at the start could not be made: it is there now.
fn appeared(goal: &Path, out: &Path) -> Failure {
    let name = out.display();
    let ours = fs::read(goal.join(MANIFEST)).is_ok_and(|bytes| Manifest::parse(&bytes).is_some());
    Failure::files(if ours {
        format!(
            "another build made {name} while this one ran, and it stays as it is; build again to replace it"
        )
    } else {
        format!(
            "{name} appeared while this build ran, and stays as it is; name another folder with -o"
        )
    })
}

/// Refuses to touch what boardwright did not make, unless forced.
fn allowed(name: &str, contents: &Contents, force: bool) -> Result<(), Failure> {
    let named = |paths: &mut dyn Iterator<Item = &String>| {
        const SHOWN: usize = 8;
        let paths: Vec<&str> = paths.map(String::as_str).collect();
        let mut text = paths
            .iter()
            .take(SHOWN)
            .copied()
            .collect::<Vec<_>>()
            .join(", ");
        if paths.len() > SHOWN {
            text.push_str(&format!(" and {} more", paths.len() - SHOWN));
        }
        text
    };
    if !contents.blocking.is_empty() {
        return Err(Failure::files(format!(
            "in {name}, what is to be written would collide with {}; move it elsewhere, or name another folder",
            named(&mut contents.blocking.iter())
        )));
    }
    if force {
        return Ok(());
    }
    if !contents.ours && !contents.is_empty() {
        return Err(Failure::files(format!(
            "{name} holds files that boardwright did not write; name another folder, or write among them with --force"
        )));
    }
    let in_the_way = contents.changed.union(&contents.replaceable);
    let mut in_the_way = in_the_way.peekable();
    if in_the_way.peek().is_some() {
        return Err(Failure::files(format!(
            "in {name}, these were changed or added since boardwright wrote there: {}; move them elsewhere, or replace \
             them with --force",
            named(&mut in_the_way)
        )));
    }
    Ok(())
}

//! `boardwright build`.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use serde_json::json;

use super::args::Build;
use super::failure::{Failure, WARNED};
use super::folder::Contents;
use super::paint::Paint;
use super::write_aside::{Aside, remove_empty, spare};
use super::{input, print};
use crate::output::{INDEX, OutFile, OutputOptions, files};
use crate::report::report;

pub(super) fn run(args: &Build, stdout: Paint, stderr: Paint) -> Result<u8, Failure> {
    let board = input::board(&args.file, args.json, stderr)?;
    let report = report(&board);
    let files = files(&board, &report, &OutputOptions { r12: args.r12 }).map_err(|e| {
        input::cannot_make(&args.file.display().to_string(), &e.to_string(), args.json)
    })?;
    write(&args.out, &files, args.force)?;
    let text = if args.json {
        let listed: Vec<_> = files
            .iter()
            .map(|f| json!({ "path": f.path, "what": f.what, "bytes": f.bytes.len() }))
            .collect();
        let out = args.out.display().to_string();
        let value = json!({ "out": out, "files": listed, "warnings": report.warned() });
        format!("{value:#}\n")
    } else {
        told(args, &files, &report, stdout)
    };
    print(&text)?;
    let warned = args.strict && report.warned() > 0;
    Ok(if warned { WARNED } else { 0 })
}

fn told(args: &Build, files: &[OutFile], report: &crate::report::Report, stdout: Paint) -> String {
    let index = args.out.join(INDEX).display().to_string();
    let mut text = format!(
        "{}: wrote {} files; open {}\n",
        stdout.bold(&report.name.replace(char::is_control, " ")),
        files.len(),
        stdout.bold(&index)
    );
    if report.warned() > 0 {
        let rail = report
            .warnings
            .iter()
            .map(|g| (g.headline(), g.extent(report.report)));
        let strips = report.strips.troubles.iter();
        let strips = strips.map(|t| (t.headline.clone(), t.extent.clone()));
        let skins = report.skins.troubles.iter();
        let skins = skins.map(|t| (t.headline.clone(), t.extent.clone()));
        let frame = report.frame_troubles.iter();
        let frame = frame.map(|t| (t.headline.clone(), t.extent.clone()));
        let shape = report.shape_troubles.iter();
        let shape = shape.map(|t| (t.headline.clone(), t.extent.clone()));
        for (headline, extent) in shape.chain(frame).chain(rail).chain(strips).chain(skins) {
            text.push_str(&stdout.yellow(&format!("warning: {headline}: {extent}")));
            text.push('\n');
        }
        text.push_str(&format!(
            "`boardwright check {}` says what to change\n",
            args.file.display()
        ));
    }
    text
}

/// Writes `files` into the folder `out`: all of them or none.
fn write(out: &Path, files: &[OutFile], force: bool) -> Result<(), Failure> {
    let name = out.display();
    let failed = |error: io::Error| {
        Failure::files(format!("cannot write {name}: {error}; nothing was changed"))
    };
    let there = match fs::metadata(out) {
        Ok(there) => Some(there),
        Err(error) if error.kind() == io::ErrorKind::NotFound => None,
        Err(error) => return Err(failed(error)),
    };
    let Some(there) = there else {
        let mut aside = Aside::new(out).map_err(failed)?;
        aside.fill(files).map_err(failed)?;
        return aside.put(out, || {}).map_err(failed);
    };
    if !there.is_dir() {
        return Err(Failure::files(format!(
            "{name} is a file; name a folder with -o"
        )));
    }
    let folder = fs::canonicalize(out).map_err(failed)?;
    let here = std::env::current_dir().and_then(fs::canonicalize);
    if here.is_ok_and(|here| here.starts_with(&folder)) {
        return Err(Failure::files(format!(
            "{name} is the folder you are in, or one above it; name a folder inside, such as -o board"
        )));
    }
    let contents = Contents::of(&folder, files).map_err(failed)?;
    allowed(&name.to_string(), &contents, force)?;
    let mut aside = Aside::new(&folder).map_err(failed)?;
    aside.fill(files).map_err(failed)?;
    swap(&folder, aside, &contents).map_err(failed)
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

/// Puts `aside` in the place of `folder`, with all that stays moved over.
fn swap(folder: &Path, aside: Aside, contents: &Contents) -> io::Result<()> {
    let new = aside.path().to_owned();
    let mut moved: Vec<&String> = Vec::new();
    let back = |moved: &[&String], from: &Path| {
        for path in moved {
            let _ = fs::rename(from.join(path), folder.join(path));
        }
    };
    for path in contents.staying() {
        let place = new.join(path);
        let made = place.parent().map_or(Ok(()), fs::create_dir_all);
        if let Err(error) = made.and_then(|()| fs::rename(folder.join(path), place)) {
            back(&moved, &new);
            return Err(error);
        }
        moved.push(path);
    }
    let old = match retire(folder) {
        Ok(old) => old,
        Err(error) => {
            back(&moved, &new);
            return Err(error);
        }
    };
    aside.put(folder, || {
        let _ = fs::rename(&old, folder);
        back(&moved, &new);
    })?;
    clear(&old, contents);
    Ok(())
}

/// Renames `folder` out of the way.
fn retire(folder: &Path) -> io::Result<PathBuf> {
    let old = spare(folder, "replaced", |path| fs::create_dir(path))?;
    // An empty folder may be renamed over, except on Windows, where it must go first.
    if cfg!(windows) {
        fs::remove_dir(&old)?;
    }
    fs::rename(folder, &old).inspect_err(|_| {
        let _ = fs::remove_dir(&old);
    })?;
    Ok(old)
}

/// Removes the files that were replaced, then the folders left empty; anything else would stay.
fn clear(old: &Path, contents: &Contents) {
    let files = [&contents.written, &contents.changed, &contents.replaceable];
    for path in files.into_iter().flatten() {
        let _ = fs::remove_file(old.join(path));
    }
    remove_empty(old);
}

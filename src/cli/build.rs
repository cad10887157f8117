//! `boardwright build`.

use serde_json::json;

use super::args::Build;
use super::failure::{Failure, WARNED};
use super::paint::Paint;
use super::place;
use super::{input, print, print_note};
use crate::design::finding::Severity;
use crate::output::{INDEX, OutFile, OutputOptions, files};
use crate::views::report::report;

pub(super) fn run(args: &Build, stdout: Paint, stderr: Paint) -> Result<u8, Failure> {
    let board = input::board(&args.file, args.json, stderr)?;
    let report = report(&board);
    let files = files(&board, &report, &OutputOptions { r12: args.r12 }).map_err(|e| {
        input::cannot_make(&args.file.display().to_string(), &e.to_string(), args.json)
    })?;
    for note in place::write_folder(&args.out, &files, args.force)? {
        print_note(&note, stderr);
    }
    let text = if args.json {
        let listed: Vec<_> = files
            .iter()
            .map(|f| json!({ "path": f.path, "what": f.what, "bytes": f.bytes.len() }))
            .collect();
        let out = args.out.display().to_string();
        let value = json!({ "out": out, "files": listed, "errors": report.count(Severity::Error), "warnings": report.count(Severity::Warning), "notes": report.count(Severity::Note) });
        format!("{value:#}\n")
    } else {
        summary(args, &files, &report, stdout)
    };
    print(&text)?;
    let warned = args.strict && report.warned() > 0;
    Ok(if warned { WARNED } else { 0 })
}

fn summary(
    args: &Build,
    files: &[OutFile],
    report: &crate::views::report::Report,
    stdout: Paint,
) -> String {
    let index = args.out.join(INDEX).display().to_string();
    let mut text = format!(
        "{}: wrote {} files; open {}\n",
        stdout.bold(&report.name.replace(char::is_control, " ")),
        files.len(),
        stdout.bold(&index)
    );
    for found in &report.findings {
        let line = format!("{}: {}", found.severity.name(), found.text.sentence());
        text.push_str(&match found.severity {
            Severity::Error => stdout.red(&line),
            Severity::Warning => stdout.yellow(&line),
            Severity::Note => line,
        });
        text.push('\n');
    }
    if !report.findings.is_empty() {
        text.push_str(&format!(
            "`boardwright check {}` says what to change\n",
            args.file.display()
        ));
    }
    text
}

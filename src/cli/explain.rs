//! `boardwright explain`.

use super::args::Explain;
use super::columns::{Side, wrapped};
use super::failure::Failure;
use super::layout::{WIDTH, block, heading};
use super::paint::Paint;
use super::print;
use crate::design::finding::{Code, Severity, Topic};
use crate::views::findings::explain;

pub(super) fn run(args: &Explain, paint: Paint) -> Result<u8, Failure> {
    let text = match &args.code {
        None => list(paint),
        Some(name) => match Code::find(&name.to_lowercase()) {
            Some(code) => page(code, paint),
            None => return Err(Failure::usage(unknown(name))),
        },
    };
    print(&text).map(|()| 0)
}

/// Every code with a line.
fn list(paint: Paint) -> String {
    let mut text = wrapped(
        "Findings by code. `boardwright explain CODE` tells what one means, where it is measured, and what to change.",
        WIDTH,
        "",
    );
    let mut topic = None::<Topic>;
    for group in Code::ALL.chunk_by(|a, b| a.topic() == b.topic()) {
        let of = group.first().map(|code| code.topic());
        if of != topic {
            topic = of;
            heading(&mut text, paint, of.map_or("", Topic::name), "");
        }
        let rows: Vec<Vec<String>> = group
            .iter()
            .map(|code| {
                let severity = code.severity().name().to_owned();
                vec![code.name().to_owned(), severity, code.title().to_owned()]
            })
            .collect();
        block(&mut text, &[Side::Left; 3], &rows);
    }
    text
}

/// One code on a page.
fn page(code: Code, paint: Paint) -> String {
    let e = explain(code);
    let mut text = format!("{}: {}\n\n", paint.bold(code.name()), code.title());
    text.push_str(&wrapped(e.meaning, WIDTH, ""));
    for line in e.sketch.lines() {
        text.push_str(line);
        text.push('\n');
    }
    heading(&mut text, paint, "Severity", "");
    let severity = match (code.severity(), code.error_if()) {
        (usual, None) => usual.name().to_owned(),
        (usual, Some(when)) => format!("{}; an error where {when}", usual.name()),
    };
    text.push_str(&wrapped(&severity, WIDTH, "  "));
    heading(&mut text, paint, "Cause", "");
    text.push_str(&wrapped(e.cause, WIDTH, "  "));
    heading(&mut text, paint, "Fixes, easiest first", "");
    for (i, remedy) in e.remedies.iter().enumerate() {
        let lines = wrapped(remedy, WIDTH, "     ");
        text.push_str(&format!("  {}. ", i + 1));
        text.push_str(lines.strip_prefix("     ").unwrap_or(&lines));
    }
    heading(&mut text, paint, "Limit and its source", "");
    text.push_str(&wrapped(e.limit, WIDTH, "  "));
    if code.severity() != Severity::Note {
        text.push('\n');
        text.push_str(&paint.dim("Counted, and heeded by --strict.\n"));
    }
    text
}

fn unknown(name: &str) -> String {
    let name: String = name.chars().take(60).filter(|c| !c.is_control()).collect();
    let near: Vec<&str> = Code::nearest(&name).into_iter().map(Code::name).collect();
    let hint = if near.is_empty() {
        String::new()
    } else {
        format!("; the nearest: {}", near.join(", "))
    };
    format!("no finding has the code `{name}`{hint}; `boardwright explain` lists them all")
}

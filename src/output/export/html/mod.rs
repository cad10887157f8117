//! Documents as HTML: one page with its style and its pictures in it, nothing fetched from anywhere, fit to be printed.

mod lines;
mod picture;
mod table;
mod text;

use super::ExportError;
use crate::design::units::Unit;
use crate::views::document::{Block, Document, FileEntry, Remark, Section, Step, Tone};
use text::{prose, put, verbatim, words};

/// The page's style, made smaller by its line ends.
const STYLE: &str = include_str!("style.css");

/// The document as a page.
///
/// # Errors
///
/// The first picture or table that fails its check.
pub fn write(document: &Document) -> Result<String, ExportError> {
    let title = verbatim(&document.title);
    let mut html = String::new();
    put(
        &mut html,
        format_args!(
            "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
             <meta name=\"viewport\" content=\"width=device-width,initial-scale=1\">\n\
             <title>{title}</title>\n<style>{}</style>\n</head>\n<body>\n<h1>{title}</h1>\n",
            STYLE.replace('\n', "")
        ),
    );
    for block in &document.lead {
        write_block(&mut html, block, document.unit)?;
    }
    html.push_str("<nav>");
    for (i, section) in document.sections.iter().enumerate() {
        put(
            &mut html,
            format_args!("<a href=\"#s{}\">{}</a> ", i + 1, words(&section.heading)),
        );
    }
    html.push_str("</nav>\n");
    for (i, section) in document.sections.iter().enumerate() {
        write_section(&mut html, i + 1, section, document.unit)?;
    }
    html.push_str("</body>\n</html>\n");
    Ok(html)
}

fn write_section(
    html: &mut String,
    number: usize,
    section: &Section,
    unit: Unit,
) -> Result<(), ExportError> {
    put(
        html,
        format_args!(
            "<section id=\"s{number}\"><header><h2>{}</h2>",
            words(&section.heading)
        ),
    );
    if !section.aside.is_empty() {
        put(html, format_args!("<p>{}</p>", prose(&section.aside)));
    }
    html.push_str("</header>\n");
    for block in &section.blocks {
        write_block(html, block, unit)?;
    }
    html.push_str("</section>\n");
    Ok(())
}

fn write_block(html: &mut String, block: &Block, unit: Unit) -> Result<(), ExportError> {
    match block {
        Block::Text(Tone::Plain, text) => put(html, format_args!("<p>{}</p>\n", prose(text))),
        Block::Text(tone, text) => put(
            html,
            format_args!("<p class=\"{}\">{}</p>\n", tone.name(), prose(text)),
        ),
        Block::Table(table) => table::write(html, table, unit)?,
        Block::Definitions(all) => {
            html.push_str("<dl>\n");
            for definition in all {
                put(
                    html,
                    format_args!(
                        "<dt>{}</dt><dd>{}</dd>\n",
                        words(&definition.term),
                        prose(&definition.text)
                    ),
                );
            }
            html.push_str("</dl>\n");
        }
        Block::Findings(remarks) => remarks.iter().for_each(|r| write_remark(html, r)),
        Block::Sketch(sketch) => put(html, format_args!("<pre>{}</pre>\n", verbatim(sketch))),
        Block::Pictures(pictures) => {
            html.push_str("<div class=\"pictures\">\n");
            for picture in pictures {
                picture::write(html, picture)?;
            }
            html.push_str("</div>\n");
        }
        Block::Files(files) => write_files(html, files),
        Block::Step(step) => write_step(html, step),
        Block::Folded { summary, blocks } => {
            put(
                html,
                format_args!("<details><summary>{}</summary>\n", words(summary)),
            );
            for block in blocks {
                write_block(html, block, unit)?;
            }
            html.push_str("</details>\n");
        }
    }
    Ok(())
}

/// One thing that is wrong, with its extent, what to change, and rib by rib what there is more to say.
fn write_remark(html: &mut String, remark: &Remark) {
    put(
        html,
        format_args!(
            "<div class=\"{}\"><p><strong>{}</strong>",
            remark.tone.name(),
            words(&remark.headline)
        ),
    );
    if !remark.extent.is_empty() {
        put(html, format_args!(": {}", words(&remark.extent)));
    }
    if let Some(code) = remark.code {
        put(
            html,
            format_args!(" <span class=\"small code\">[{code}]</span>"),
        );
    }
    html.push_str(".</p>");
    match remark.remedies.as_slice() {
        [] => {}
        [one] => put(html, format_args!("<p>Fix: {}.</p>", words(one))),
        many => {
            html.push_str("<p>Fixes, easiest first:</p><ul>\n");
            for remedy in many {
                put(html, format_args!("<li>{}</li>\n", words(remedy)));
            }
            html.push_str("</ul>");
        }
    }
    if !remark.ribs.is_empty() {
        html.push_str("<details><summary>Rib by rib</summary><table>\n");
        for (rib, line) in &remark.ribs {
            put(
                html,
                format_args!(
                    "<tr><td class=\"n\">rib {rib}</td><td>{}</td></tr>\n",
                    words(line)
                ),
            );
        }
        html.push_str("</table></details>");
    }
    html.push_str("</div>\n");
}

fn write_files(html: &mut String, files: &[FileEntry]) {
    html.push_str("<div class=\"scroll\"><table>\n");
    for file in files {
        put(
            html,
            format_args!(
                "<tr><td><a href=\"{0}\">{0}</a></td><td>{1}</td><td class=\"n\">{2}</td></tr>\n",
                verbatim(&file.path),
                words(&file.what),
                size(file.bytes)
            ),
        );
    }
    html.push_str("</table></div>\n");
}

/// A file's size: `812 bytes`, `45.3 kB`.
fn size(bytes: usize) -> String {
    if bytes < 1000 {
        format!("{bytes} bytes")
    } else if bytes < 1_000_000 {
        format!("{:.1} kB", bytes as f64 / 1e3)
    } else {
        format!("{:.1} MB", bytes as f64 / 1e6)
    }
}

fn write_step(html: &mut String, step: &Step) {
    put(
        html,
        format_args!("<div class=\"step\"><div><h3>{}</h3>", words(&step.heading)),
    );
    for line in &step.work {
        put(html, format_args!("<p>{}</p>", prose(line)));
    }
    html.push_str("</div><div class=\"mind\">");
    for caution in &step.cautions {
        put(html, format_args!("<p>{}</p>", words(caution)));
    }
    html.push_str("</div></div>\n");
}

//! One document, two renderers: the screen and the page hold the same figures, and the index lists every file.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::page::{flowing, untagged};
use crate::common::program;
use boardwright::board::Board;
use boardwright::design::parse;
use boardwright::output::export::html;
use boardwright::output::{INDEX, MANIFEST, OutputOptions, files};
use boardwright::views::document::{Block, Document, GLUE, Tone, glued};
use boardwright::views::report::report;
use boardwright::views::sheets::plank_sheets;
use boardwright::views::{dry_fit, pages};
use program::{assert_code, empty, example, out, run_in};

const EXAMPLES: [&str; 3] = ["twin-5ft8", "round-tail-6ft4", "noserider-9ft4"];

/// Narrow enough for any terminal.
const WIDEST: usize = 80;

fn board(name: &str) -> Board {
    let text = std::fs::read_to_string(example(&format!("{name}.toml"))).unwrap();
    Board::new(parse(&text, name).unwrap()).unwrap()
}

/// Every row of a page's tables, cell by cell.
fn rows(html: &str) -> Vec<Vec<String>> {
    let rows = html.split("<tr>").skip(1);
    rows.map(|row| {
        let row = row.split("</tr>").next().unwrap();
        let cells = row.split("<td").skip(1);
        cells
            .map(|cell| flowing(&untagged(&format!("<td{cell}"))))
            .collect()
    })
    .collect()
}

/// Whether a line has all `numbers` in their order.
fn in_order(line: &str, numbers: &[String]) -> bool {
    let mut rest = line;
    numbers
        .iter()
        .all(|number| match rest.split_once(number.as_str()) {
            Some((_, after)) => {
                rest = after;
                true
            }
            None => false,
        })
}

/// Every cell, paragraph, definition and finding of a document stands on the screen and on the page; gives how many cells there were.
fn assert_shown(document: &Document, screen: &str, html: &str) -> usize {
    let found = rows(html);
    let (all, page) = (flowing(screen), flowing(&untagged(html)));
    let mut cells = 0;
    for table in document.tables() {
        for row in &table.rows {
            let texts = row.iter().zip(&table.columns);
            let texts: Vec<String> = texts
                .map(|(cell, column)| flowing(&cell.text(column, document.unit)))
                .collect();
            cells += texts.len();
            assert!(found.contains(&texts), "no row {texts:?} on the page");
            let (numbers, words): (Vec<_>, Vec<_>) = row
                .iter()
                .zip(&texts)
                .partition(|(cell, _)| cell.is_number());
            let numbers: Vec<String> = numbers.into_iter().map(|(_, text)| text.clone()).collect();
            assert!(
                screen.lines().any(|line| in_order(line, &numbers)),
                "no line with {numbers:?} on\n{screen}"
            );
            for word in words.into_iter().flat_map(|(_, text)| text.split(' ')) {
                assert!(all.contains(word), "no {word} on\n{screen}");
            }
        }
    }
    for section in &document.sections {
        for words in [section.heading.clone(), section.aside.plain()] {
            assert!(
                all.contains(&flowing(&words)) && page.contains(&flowing(&words)),
                "{words}"
            );
        }
        for block in &section.blocks {
            let sentences: Vec<String> = match block {
                Block::Text(_, words) => vec![words.plain()],
                Block::Definitions(all) => all
                    .iter()
                    .flat_map(|d| [d.term.clone(), d.text.plain()])
                    .collect(),
                Block::Findings(remarks) => remarks
                    .iter()
                    .flat_map(|r| [vec![r.sentence()], r.remedies.clone()].concat())
                    .collect(),
                _ => Vec::new(),
            };
            for sentence in sentences {
                assert!(page.contains(&flowing(&sentence)), "{sentence}");
                // A definition's lines have nothing before them, so they flow on as well.
                assert!(all.contains(&flowing(&sentence)), "{sentence}\n{screen}");
            }
        }
    }
    cells
}

#[test]
fn the_screen_and_the_page_hold_the_same_figures() {
    let folder = empty("documents");
    for name in EXAMPLES {
        let board = board(name);
        let report = report(&board);
        let document = pages::board(&board, &report, None);
        let check = run_in(&folder, &["check", &example(&format!("{name}.toml"))]);
        assert_code(&check, 0);
        let screen = out(&check);
        let cells = assert_shown(&document, &screen, &html::write(&document).unwrap());
        assert!(cells > 300, "{name}: {cells}");

        let lines: Vec<&str> = screen.lines().collect();
        assert!(
            lines.iter().all(|l| l.chars().count() <= WIDEST),
            "{screen}"
        );
        assert!(!screen.contains(GLUE), "{screen}");
        // No measure runs from one line into the next: a last and a first word that belong together.
        for pair in lines.windows(2) {
            let last = pair[0].split(' ').next_back().unwrap_or_default();
            let first = pair[1].split_whitespace().next().unwrap_or_default();
            let both = format!("{last} {first}");
            assert!(!glued(&both).contains(GLUE), "{name}: {both}\n{screen}");
        }
    }
}

/// What the folder's index holds is the same document with pictures and links, and every file of every product is on it.
#[test]
fn every_file_is_on_the_index() {
    for name in EXAMPLES {
        let board = board(name);
        let report = report(&board);
        let files = files(&board, &report, &OutputOptions { r12: true }).unwrap();
        let index = files.iter().find(|f| f.path == INDEX).unwrap();
        let index = String::from_utf8(index.bytes.clone()).unwrap();
        let listed = rows(&index);
        for file in files
            .iter()
            .filter(|f| f.path != INDEX && f.path != MANIFEST)
        {
            let cells = [&file.path, &file.what].map(|text| flowing(text));
            assert!(
                listed.iter().any(|row| row.get(..2) == Some(&cells[..])),
                "{name}: {cells:?}"
            );
            assert!(
                index.contains(&format!("href=\"{}\"", file.path)),
                "{}",
                file.path
            );
        }
        let document = pages::board(&board, &report, None);
        for section in &document.sections {
            assert!(index.contains(&format!("<h2>{}</h2>", section.heading)));
        }
        let found = rows(&index);
        for table in document.tables() {
            for row in &table.rows {
                let texts = row.iter().zip(&table.columns);
                let texts = texts.map(|(cell, column)| flowing(&cell.text(column, document.unit)));
                assert!(found.contains(&texts.collect()), "{row:?}");
            }
        }
    }
}

/// The shop's page speaks the maker's unit, and each page its own once.
#[test]
fn a_page_in_inches_says_no_millimetres() {
    for name in EXAMPLES {
        let board = board(name);
        let page = html::write(&pages::milling(
            &board,
            &report(&board),
            &plank_sheets(&board),
        ))
        .unwrap();
        let text = flowing(&untagged(&page));
        let metric = board.design.report.is_metric();
        assert_eq!(text.contains(" mm"), metric, "{name}: {text}");
        let unit = if metric { "millimetres" } else { "inches" };
        assert!(text.contains(&format!("Sizes are in {unit}")), "{name}");
        let ids: Vec<&str> = page.split(" id=\"").skip(1).collect();
        let mut names: Vec<&str> = ids.iter().filter_map(|id| id.split('"').next()).collect();
        names.sort_unstable();
        let count = names.len();
        names.dedup();
        assert_eq!(names.len(), count, "an id stands twice");
    }
}

#[test]
fn the_dry_fit_is_a_document_too() {
    let board = board(EXAMPLES[0]);
    let fit = dry_fit::dry_fit(&board).unwrap();
    let mut contacts = fit.contacts;
    let good = pages::dry_fit(&board, &contacts);
    let screen = out(&run_in(
        &empty("documents-fit"),
        &["dry-fit", &example(&format!("{}.toml", EXAMPLES[0]))],
    ));
    let cells = assert_shown(&good, &screen, &html::write(&good).unwrap());
    assert!(cells > 60, "{cells}");

    // A pair past its limit is a warning that names both parts and the place.
    let with_gap = contacts.iter_mut().find(|c| c.found.gap.is_some()).unwrap();
    with_gap.found.gap.as_mut().unwrap().value = 1.25;
    let parts = with_gap.parts.clone();
    let bad = pages::dry_fit(&board, &contacts);
    let remarks = bad.sections[0].blocks.iter().find_map(|block| match block {
        Block::Findings(remarks) => Some(remarks.clone()),
        _ => None,
    });
    let remarks = remarks.unwrap();
    assert_eq!(remarks.len(), 1);
    assert_eq!(remarks[0].tone, Tone::Warning);
    let sentence = remarks[0].sentence();
    assert!(
        parts.iter().all(|part| sentence.contains(part)),
        "{sentence}"
    );
    assert!(sentence.contains("gap 1.25 mm at "), "{sentence}");
}

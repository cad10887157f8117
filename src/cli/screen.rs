//! The screen of `boardwright check`.

use super::columns::{Side, wrapped};
use super::paint::Paint;
use super::wood;
use crate::board::Board;
use crate::design::finding::Severity;
use crate::design::units::{self, Unit};
use crate::views::findings::FindingText;
use crate::views::report::{Report, Worst, measure_list};

use super::layout::{WIDTH, block, headed, heading};
use Side::{Left, Right};

/// Everything about a board, for a reader.
pub(super) fn screen(board: &Board, report: &Report, paint: Paint) -> String {
    let mut text = format!("{}\n", paint.bold(&one_line(&report.name)));
    if !report.notes.trim().is_empty() {
        text.push_str(&wrapped(&one_line(&report.notes), WIDTH, ""));
    }
    measures(&mut text, board, paint);
    rocker(&mut text, board, paint);
    frame(&mut text, report, paint);
    rail(&mut text, report, paint);
    wood::strips(&mut text, report, paint);
    wood::wood(&mut text, report, paint);
    super::screen_skins::skins(&mut text, report, paint);
    super::screen_mass::mass(&mut text, report, paint);
    super::screen_mass::afloat(&mut text, report, paint);
    warnings(&mut text, report, paint);
    text
}

/// A name or note on one line, without characters that would steer a terminal.
fn one_line(text: &str) -> String {
    text.chars()
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect()
}

fn measures(text: &mut String, board: &Board, paint: Paint) {
    let unit = board.design.report;
    heading(text, paint, "Measures", "");
    let rows: Vec<Vec<String>> = measure_list(board)
        .into_iter()
        .map(|m| {
            let at = m.at.map_or(String::new(), |x| {
                format!("at {} from the tail", units::size(x, unit))
            });
            let mut row = vec![m.name.to_owned(), m.value.text(unit)];
            if unit != Unit::Mm {
                row.push(m.value.text(Unit::Mm));
            }
            row.push(at);
            row
        })
        .collect();
    let sides: &[Side] = if unit == Unit::Mm {
        &[Left, Right, Left]
    } else {
        &[Left, Right, Right, Left]
    };
    block(text, sides, &rows);
}

fn rocker(text: &mut String, board: &Board, paint: Paint) {
    let unit = board.design.report;
    heading(
        text,
        paint,
        "Rocker",
        "height of the bottom's centreline every 12 in from the tail",
    );
    let m = &board.measures;
    let nose = [m.length, m.nose_rocker];
    let last = m.rocker.last().is_some_and(|p| m.length - p[0] < 1.0);
    let points = m.rocker.iter().chain((!last).then_some(&nose));
    let mut rows = vec![vec!["from the tail".to_owned(), "height".into()]];
    rows.extend(points.map(|p| p.map(|mm| units::size(mm, unit)).to_vec()));
    headed(text, paint, &[Right, Right], &rows);
}

fn frame(text: &mut String, report: &Report, paint: Paint) {
    let unit = report.report;
    let thick = report.ribs.first().map_or(0.0, |rib| rib.thickness);
    let aside = format!(
        "{} ribs of {}, spine of {} from {} to {}",
        report.ribs.len(),
        units::mm(thick, 1),
        units::mm(report.spine.thickness, 1),
        units::size(report.spine.ends[0], unit),
        units::size(report.spine.ends[1], unit),
    );
    heading(text, paint, "Frame", &aside);
    let names = [
        "rib",
        "from the tail",
        "width",
        "height",
        "holes",
        "courses a side",
        "top bevel",
    ];
    let mut rows = vec![names.map(String::from).to_vec()];
    rows.extend(report.ribs.iter().map(|rib| {
        vec![
            rib.number.to_string(),
            units::size(rib.x, unit),
            units::size(rib.width, unit),
            units::size(rib.height, unit),
            rib.holes.to_string(),
            rib.courses.to_string(),
            rib.top_bevel.map_or(String::new(), |a| format!("{a:.1}°")),
        ]
    }));
    headed(text, paint, &[Right; 7], &rows);
}

fn rail(text: &mut String, report: &Report, paint: Paint) {
    let r = &report.rail;
    let aside = format!(
        "guide {:.2} mm under the finished surface; a nested strip gains {:.2} mm",
        r.guide_depth, r.pitch
    );
    heading(text, paint, "Rail", &aside);
    let names = ["worst", "at a rib", "", "anywhere", ""];
    let mut rows = vec![names.map(String::from).to_vec()];
    let (ribs, any) = (&r.at_ribs, &r.anywhere);
    let table = [
        ("joint roll", ribs.roll, any.roll, "°"),
        ("lip digs in", ribs.dig_in, any.dig_in, " mm"),
        ("joint opens", ribs.mouth_gap, any.mouth_gap, " mm"),
        ("flat base planed", ribs.bevel, any.bevel, "°"),
        ("cover", ribs.cover, any.cover, " mm"),
        ("proud", ribs.proud, any.proud, " mm"),
    ];
    for (name, at_rib, anywhere, unit) in table {
        let value = |w: Option<Worst>| w.map_or("none".into(), |w| format!("{:.2}{unit}", w.value));
        let asked = match name {
            "cover" => format!("cover ({:.2} asked)", r.cover_asked),
            "proud" => format!("proud ({:.2} asked)", r.proud_asked),
            _ => name.to_owned(),
        };
        let at = at_rib.map_or(String::new(), |w| {
            format!("rib {}, course {}", w.rib.unwrap_or(0), w.course)
        });
        let place = anywhere.map_or(String::new(), |w| {
            format!("{}, course {}", units::size(w.x, report.report), w.course)
        });
        rows.push(vec![asked, value(at_rib), at, value(anywhere), place]);
    }
    headed(text, paint, &[Left, Right, Left, Right, Left], &rows);
}

fn warnings(text: &mut String, report: &Report, paint: Paint) {
    if report.warned() == 0 {
        heading(
            text,
            paint,
            "Warnings",
            "none: every course holds, every strip goes round, and every skin takes its shape",
        );
    }
    for (severity, title) in [
        (Severity::Error, "Errors"),
        (Severity::Warning, "Warnings"),
        (Severity::Note, "Notes"),
    ] {
        if report.count(severity) > 0 {
            heading(text, paint, title, "");
        }
        for found in report.findings.iter().filter(|f| f.severity == severity) {
            finding(text, &found.text, paint);
        }
    }
}

/// What is wrong and where, what to change, and rib by rib what there is more to say.
fn finding(text: &mut String, found: &FindingText, paint: Paint) {
    let sentence = wrapped(&found.sentence(), WIDTH, "  ");
    text.push_str(&match found.severity {
        Severity::Error => paint.red(&sentence),
        Severity::Warning => paint.yellow(&sentence),
        Severity::Note => sentence,
    });
    for (i, remedy) in found.remedies.iter().enumerate() {
        let (lead, hang) = if i == 0 {
            ("    → ", "      ")
        } else {
            ("      or ", "         ")
        };
        hung(text, lead, hang, remedy);
    }
    let number = found.lines.iter().map(|(rib, _)| rib.to_string().len());
    let width = number.max().unwrap_or(1);
    for (rib, line) in &found.lines {
        let lead = format!("    rib {rib:>width$}  ");
        hung(text, &lead, &" ".repeat(lead.chars().count()), line);
    }
}

/// `words` in lines, `lead` before the first and `hang` before the others.
fn hung(text: &mut String, lead: &str, hang: &str, words: &str) {
    let body = wrapped(words, WIDTH, hang);
    text.push_str(lead);
    text.push_str(body.strip_prefix(hang).unwrap_or(&body));
}

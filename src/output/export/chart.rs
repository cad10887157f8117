//! Charts as SVG pictures, 250 mm wide.

use super::{ExportError, number, words};
use crate::views::chart::{Chart, ChartPanel, ticks};
use std::fmt::Write;

/// Page and panels, mm.
const WIDTH: f64 = 250.0;
const LEFT: f64 = 22.0;
const RIGHT: f64 = 8.0;
const TOP: f64 = 26.0;
const PANEL: f64 = 44.0;
const GAP: f64 = 12.0;
const FOOT: f64 = 16.0;
/// Size of letters, mm.
const SMALL: f64 = 2.9;
const INKS: [&str; 4] = ["#124e96", "#c23b22", "#1d7f4f", "#7a4fa3"];
/// A level is drawn if it lies within so many times the lines' range.
const NEAR: f64 = 2.5;

/// The chart as an SVG document.
///
/// # Errors
///
/// [`ExportError::PictureNotFinite`] if a number of it is none.
pub fn write(chart: &Chart) -> Result<String, ExportError> {
    check(chart)?;
    Ok(drawn(chart))
}

/// Every number finite.
fn check(chart: &Chart) -> Result<(), ExportError> {
    let mut numbers = vec![("an end of the axis", chart.range.to_vec())];
    for mark in &chart.marks {
        numbers.push((&mark.label, vec![mark.x]));
    }
    for panel in &chart.panels {
        for series in &panel.series {
            numbers.push((&series.name, series.points.concat()));
        }
        for level in &panel.levels {
            numbers.push((&level.label, vec![level.value]));
        }
        for callout in &panel.callouts {
            numbers.push((&callout.label, callout.at.to_vec()));
        }
    }
    match numbers
        .iter()
        .find(|(_, all)| all.iter().any(|n| !n.is_finite()))
    {
        None => Ok(()),
        Some((what, _)) => Err(ExportError::PictureNotFinite {
            title: chart.title.clone(),
            what: (*what).to_owned(),
        }),
    }
}

fn drawn(chart: &Chart) -> String {
    let count = chart.panels.len() as f64;
    let height = TOP + count * PANEL + (count - 1.0).max(0.0) * GAP + FOOT;
    let mut svg = String::new();
    put(
        &mut svg,
        format_args!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{WIDTH}mm\" height=\"{0}mm\" viewBox=\"0 0 {WIDTH} {0}\" \
             font-family=\"sans-serif\" font-size=\"{SMALL}\" fill=\"#333\">\n<title>{1}</title>\n\
             <rect width=\"{WIDTH}\" height=\"{0}\" fill=\"#fff\"/>\n",
            mm(height),
            words::xml(&chart.title)
        ),
    );
    text(
        &mut svg,
        [LEFT, 7.0],
        "start",
        "font-size=\"4.4\" font-weight=\"bold\"",
        &chart.title,
    );
    text(&mut svg, [LEFT, 12.5], "start", "", &chart.subtitle);
    let [from, to] = chart.range;
    let scale = (WIDTH - LEFT - RIGHT) / (to - from).max(1e-9);
    let across = |x: f64| LEFT + (x - from) * scale;
    for (i, panel) in chart.panels.iter().enumerate() {
        let top = TOP + i as f64 * (PANEL + GAP);
        draw(&mut svg, chart, panel, top, &across);
    }
    let foot = height - FOOT;
    for x in ticks(from, to, 12) {
        let at = across(x);
        line(&mut svg, [at, foot], [at, foot + 1.2], "stroke=\"#333\"");
        text(&mut svg, [at, foot + 4.6], "middle", "", &plain(x));
    }
    text(
        &mut svg,
        [(LEFT + WIDTH - RIGHT) / 2.0, foot + 10.5],
        "middle",
        "",
        &chart.axis,
    );
    text(
        &mut svg,
        [LEFT - 2.0, TOP - 1.6],
        "end",
        "fill=\"#777\"",
        &chart.marks_name,
    );
    // Names of the marks, those too near to the last one left out.
    let mut last = f64::NEG_INFINITY;
    for mark in &chart.marks {
        let at = across(mark.x);
        let half = 0.32 * SMALL * mark.label.chars().count() as f64;
        if at - half > last + 1.0 && at + half < WIDTH {
            text(
                &mut svg,
                [at, TOP - 1.6],
                "middle",
                "fill=\"#777\"",
                &mark.label,
            );
            last = at + half;
        }
    }
    svg.push_str("</svg>\n");
    svg
}

fn draw(
    svg: &mut String,
    chart: &Chart,
    panel: &ChartPanel,
    top: f64,
    across: &impl Fn(f64) -> f64,
) {
    let [low, high] = range(panel);
    let bottom = top + PANEL;
    let up = |y: f64| bottom - (y - low) / (high - low) * PANEL;
    for y in ticks(low, high, 4) {
        let at = up(y);
        let tone = if y == 0.0 {
            "stroke=\"#888\""
        } else {
            "stroke=\"#e4e4e4\""
        };
        line(svg, [LEFT, at], [WIDTH - RIGHT, at], tone);
        text(svg, [LEFT - 1.5, at + 1.0], "end", "", &plain(y));
    }
    for mark in &chart.marks {
        let at = across(mark.x);
        line(
            svg,
            [at, top],
            [at, bottom],
            "stroke=\"#bbb\" stroke-dasharray=\"0.5 0.9\"",
        );
    }
    put(
        svg,
        format_args!(
            "<rect x=\"{LEFT}\" y=\"{}\" width=\"{}\" height=\"{PANEL}\" fill=\"none\" stroke=\"#333\" stroke-width=\"0.2\"/>\n",
            mm(top),
            mm(WIDTH - LEFT - RIGHT)
        ),
    );
    let title = if panel.unit.is_empty() {
        panel.title.clone()
    } else {
        format!("{}, {}", panel.title, panel.unit)
    };
    let middle = mm(top + PANEL / 2.0);
    put(
        svg,
        format_args!(
            "<text x=\"5\" y=\"{middle}\" text-anchor=\"middle\" transform=\"rotate(-90 5 {middle})\">{}</text>\n",
            words::xml(&title)
        ),
    );
    let mut above = Vec::new();
    for level in &panel.levels {
        if level.value < low || level.value > high {
            // Of two limits alike but for the sign, one is enough to say.
            if above.is_empty() {
                above.push(format!("{}, outside the picture", level.label));
            }
            continue;
        }
        let at = up(level.value);
        line(
            svg,
            [LEFT, at],
            [WIDTH - RIGHT, at],
            "stroke=\"#c77d0a\" stroke-dasharray=\"2 1\" stroke-width=\"0.3\"",
        );
        let at = if at - top < 4.5 {
            at + SMALL + 0.4
        } else {
            at - 0.9
        };
        halo(svg, [LEFT + 1.2, at], "start", "#a5660a", &level.label);
    }
    for series in &panel.series {
        let mut d = String::new();
        for (i, [x, y]) in series.points.iter().enumerate() {
            d.push(if i == 0 { 'M' } else { 'L' });
            let _ = write!(d, "{} {}", mm(across(*x)), mm(up(*y)));
        }
        if series.points.len() > 1 {
            put(
                svg,
                format_args!(
                    "<path d=\"{d}\" fill=\"none\" stroke=\"{}\" stroke-width=\"0.45\" stroke-linejoin=\"round\"/>\n",
                    ink(series.ink)
                ),
            );
        }
    }
    // The key, from the right; with one line the title says what it is.
    let mut at = WIDTH - RIGHT;
    if panel.series.len() > 1 {
        for series in panel.series.iter().rev() {
            at -= 0.56 * SMALL * series.name.chars().count() as f64;
            text(
                svg,
                [at, top - 1.4 + if top > TOP { 0.0 } else { -3.6 }],
                "start",
                &format!("fill=\"{}\"", ink(series.ink)),
                &series.name,
            );
            at -= 5.0;
        }
    }
    if !above.is_empty() {
        let y = if top > TOP { top - 1.4 } else { top - 5.0 };
        text(svg, [at, y], "end", "fill=\"#a5660a\"", &above.join("; "));
    }
    for callout in &panel.callouts {
        let [x, y] = [across(callout.at[0]), up(callout.at[1])];
        put(
            svg,
            format_args!(
                "<circle cx=\"{}\" cy=\"{}\" r=\"0.9\" fill=\"{}\"/>\n",
                mm(x),
                mm(y),
                ink(callout.ink)
            ),
        );
        // Beyond the extreme, where the line is not; on the side with more room, and never out of the panel.
        let (anchor, at) = if x > (LEFT + WIDTH - RIGHT) / 2.0 {
            ("end", x + 1.0)
        } else {
            ("start", x - 1.0)
        };
        let beyond = if callout.at[1] < 0.0 {
            SMALL + 1.2
        } else {
            -1.8
        };
        let y = (y + beyond).clamp(top + SMALL + 0.3, bottom - 1.0);
        halo(svg, [at, y], anchor, ink(callout.ink), &callout.label);
    }
}

/// From where to where a panel runs: its lines and zero, and levels that are near.
fn range(panel: &ChartPanel) -> [f64; 2] {
    let values = panel.series.iter().flat_map(|s| &s.points).map(|p| p[1]);
    let (mut low, mut high) = values.fold((0.0f64, 0.0f64), |(a, b), v| (a.min(v), b.max(v)));
    let size = low.abs().max(high.abs());
    for level in &panel.levels {
        if level.value.abs() <= NEAR * size {
            low = low.min(level.value);
            high = high.max(level.value);
        }
    }
    if high - low < 1e-9 {
        high = low + 1.0;
    }
    // Room for what is written beyond the extremes.
    let margin = 0.15 * (high - low);
    [if low < 0.0 { low - margin } else { low }, high + margin]
}

fn ink(index: usize) -> &'static str {
    INKS.get(index % INKS.len()).copied().unwrap_or("#333")
}

fn mm(value: f64) -> String {
    number::text(value, 2)
}

fn plain(value: f64) -> String {
    number::text(value, 6)
}

fn put(svg: &mut String, what: impl std::fmt::Display) {
    let _ = write!(svg, "{what}");
}

fn line(svg: &mut String, a: [f64; 2], b: [f64; 2], style: &str) {
    let width = if style.contains("stroke-width") {
        ""
    } else {
        " stroke-width=\"0.2\""
    };
    put(
        svg,
        format_args!(
            "<path d=\"M{} {}L{} {}\" {style}{width}/>\n",
            mm(a[0]),
            mm(a[1]),
            mm(b[0]),
            mm(b[1])
        ),
    );
}

fn text(svg: &mut String, at: [f64; 2], anchor: &str, style: &str, content: &str) {
    put(
        svg,
        format_args!(
            "<text x=\"{}\" y=\"{}\" text-anchor=\"{anchor}\" {style}>{}</text>\n",
            mm(at[0]),
            mm(at[1]),
            words::xml(content)
        ),
    );
}

/// Text that stays readable over lines.
fn halo(svg: &mut String, at: [f64; 2], anchor: &str, fill: &str, content: &str) {
    let style = format!(
        "fill=\"{fill}\" stroke=\"#fff\" stroke-width=\"0.8\" paint-order=\"stroke\" stroke-linejoin=\"round\""
    );
    text(svg, at, anchor, &style, content);
}

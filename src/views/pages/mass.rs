//! Mass and waterline.

use super::text::size;
use crate::board::Board;
use crate::board::mass::Part;
use crate::geometry::path::{Path, Point};
use crate::views::document::{Block, Image, Picture, Prose, Section, Width};
use crate::views::drawing::{Drawing, Item, Layer, Shape};
use crate::views::report::{FloatReport, MassReport, Report};
use crate::views::table::{Cell, Quantity, Table};

/// What every part weighs.
pub(super) fn mass(report: &Report) -> Section {
    let (unit, m) = (report.report, &report.mass);
    let aside = format!(
        "{} in all, wood at {} % moisture; centre of gravity {} from the tail, {} over the base line; {} of air inside",
        Quantity::Mass(m.total).text(unit),
        m.moisture,
        size(m.centre[0], unit),
        size(m.centre[2], unit),
        Quantity::Volume(m.hollow).text(unit)
    );
    Section::new("Mass", vec![Block::Table(parts(m))]).with_aside(aside)
}

/// The parts, ribs and pads each together.
fn parts(m: &MassReport) -> Table {
    const GROUPS: [(&str, &str); 2] = [("rib ", "ribs"), ("pad of ", "pads")];
    let group = |p: &Part| GROUPS.iter().position(|g| p.name.starts_with(g.0));
    let mut table = Table::with_columns(&["part", "of", "mass", "centre from the tail"]);
    let mut done = [false; GROUPS.len()];
    for part in &m.parts {
        let of = group(part);
        let together: Vec<&Part> = match of {
            Some(i) if std::mem::replace(&mut done[i], true) => continue,
            Some(i) => m.parts.iter().filter(|p| group(p) == Some(i)).collect(),
            None => vec![part],
        };
        let mass: f64 = together.iter().map(|p| p.mass).sum();
        let moment: f64 = together.iter().map(|p| p.mass * p.centre[0]).sum();
        let name = match of {
            Some(i) if together.len() > 1 => format!("{} {}", together.len(), GROUPS[i].1),
            _ => part.name.clone(),
        };
        table.rows.push(vec![
            name.into(),
            part.of.as_str().into(),
            Quantity::Mass(mass).into(),
            // What weighs nothing has no centre.
            if mass > 0.0 {
                Quantity::Size(moment / mass).into()
            } else {
                "–".into()
            },
        ]);
    }
    table
}

/// How the board floats in each water and under each load.
pub(super) fn afloat(board: &Board, report: &Report, with_pictures: bool) -> Section {
    let unit = report.report;
    let mut table = Table::with_columns(&["", "mass", "draught", "trim", "spare buoyancy"]);
    for state in &report.afloat {
        let (draught, trim): (Cell, String) = match state.afloat {
            Some(a) if a.trim.abs() < 0.005 => (Quantity::Size(a.draught).into(), "level".into()),
            Some(a) => {
                let way = if a.trim > 0.0 { "nose" } else { "tail" };
                let angle = Quantity::Angle(a.trim.abs(), 2).text(unit);
                (
                    Quantity::Size(a.draught).into(),
                    format!("{angle} {way} down"),
                )
            }
            None if state.spare < 0.0 => ("sinks".into(), String::new()),
            None => ("no rest".into(), String::new()),
        };
        table.rows.push(vec![
            state.name().into(),
            Quantity::Mass(state.mass).into(),
            draught,
            trim.into(),
            if state.spare < 0.0 {
                format!("{} too heavy", Quantity::Mass(-state.spare).text(unit)).into()
            } else {
                Quantity::Mass(state.spare).into()
            },
        ]);
    }
    let mut blocks = vec![
        Block::Table(table),
        Block::small(
            "Draught is the greatest depth under water. Spare buoyancy is what the board carries besides before it goes under.",
        ),
    ];
    let shown = |state: &&FloatReport| state.afloat.is_some() && state.water == "sea";
    let pictures: Vec<Picture> = report
        .afloat
        .iter()
        .filter(shown)
        .map(|state| Picture {
            image: Image::Lines(side_view(board, state)),
            width: Width::Full,
            caption: Prose::from(format!(
                "Side view on the centreline, {}; nose to the right",
                state.name()
            )),
        })
        .collect();
    if with_pictures && !pictures.is_empty() {
        blocks.push(Block::Pictures(pictures));
    }
    Section::new("Afloat", blocks).with_aside("at rest in still water, upright, hull sealed")
}

/// Bottom and deck on the centreline, and the water.
fn side_view(board: &Board, state: &FloatReport) -> Drawing {
    const PLACES: usize = 120;
    let (tail, nose) = board.shell.x_range();
    let line = |deck: usize| {
        (0..=PLACES).map(move |k| {
            let x = tail + (nose - tail) * k as f64 / PLACES as f64;
            Point::new(x, board.shell.centre_heights(x)[deck])
        })
    };
    let profile: Vec<Point> = line(0)
        .chain(line(1).collect::<Vec<_>>().into_iter().rev())
        .collect();
    let mut items = vec![(Layer::OutsideCut, Path::polyline(&profile, true))];
    if let Some(a) = state.afloat {
        // A little beyond both ends.
        let beyond = 0.03 * (nose - tail);
        let [aft, fore] = a.water_heights;
        let slope = (fore - aft) / board.design.length;
        let at = |x: f64| Point::new(x, aft + slope * x);
        items.push((
            Layer::Mark,
            Path::polyline(&[at(tail - beyond), at(nose + beyond)], false),
        ));
    }
    let item = |(layer, path)| Item {
        part: "side view".into(),
        layer,
        shape: Shape::Path(path),
    };
    Drawing {
        title: String::new(),
        items: items.into_iter().map(item).collect(),
    }
}

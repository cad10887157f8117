//! A strip's bends along the board, as a chart.

use crate::board::Board;
use crate::design::timber::BendKind;
use crate::design::units::{self, Unit};
use crate::rail::{StrainKind, Strip, StripPlace};
use crate::views::chart::{Callout, Chart, ChartMark, ChartPanel, Level, Series};
use crate::wood::strip_work::{StripWork, limits};

/// A chart and the name of the file it goes into, without an ending.
#[derive(Debug, Clone, PartialEq)]
pub struct NamedChart {
    /// File name stem, such as `strip-03`.
    pub name: String,
    /// What it shows, for an index.
    pub what: String,
    /// The chart.
    pub chart: Chart,
}

/// A chart for every strip of a side: its bend the easy way and the hard way, its twist, and what they use of the limits.
pub fn strip_charts(board: &Board) -> Vec<NamedChart> {
    let pairs = board.rail_wood.strips.iter().zip(&board.strips);
    pairs
        .map(|(work, strip)| NamedChart {
            name: format!("strip-{:02}", work.number),
            what: format!(
                "strip {}, {}: bends and twist along it",
                work.number,
                work.kind.name()
            ),
            chart: chart(board, work, strip),
        })
        .collect()
}

fn chart(board: &Board, work: &StripWork, strip: &Strip) -> Chart {
    let unit = board.design.report;
    let timber = &board.design.timber;
    let [thickness, width] = work.section;
    let axis = if unit.is_metric() { Unit::Mm } else { Unit::In };
    let along = |x: f64| axis.from_mm(x);
    let limits = limits(timber, &timber.rail, work.kind).ok();
    // Share of the limit by curvature, 1/mm.
    let share = |strained: StrainKind, value: f64| -> Option<f64> {
        let limits = limits.as_ref()?;
        Some(match strained {
            StrainKind::EasyWay => limits.bending(BendKind::EasyWay, thickness, value).ratio,
            StrainKind::HardWay => limits.bending(BendKind::HardWay, width, value).ratio,
            StrainKind::Twist => limits.twisting(width, thickness, value).ok()??.ratio,
        })
    };
    let of = |strained: StrainKind, place: &StripPlace| match strained {
        StrainKind::EasyWay => place.bend.easy,
        StrainKind::HardWay => place.bend.hard,
        StrainKind::Twist => place.bend.twist,
    };
    // A twist is read over a stretch, a bend by the length.
    let (stretch, twist_unit, per, bend_unit) = if unit.is_metric() {
        (100.0, "° in 100 mm", 1000.0, "1/m")
    } else {
        let foot = Unit::Ft.in_mm();
        (foot, "° in 12 in", foot, "1/ft")
    };
    let shown = |strained: StrainKind, value: f64| match strained {
        StrainKind::Twist => (stretch * value).to_degrees(),
        _ => per * value,
    };
    let mut panels = Vec::new();
    let mut used = ChartPanel {
        title: "used of the limit".to_owned(),
        unit: String::new(),
        series: Vec::new(),
        levels: vec![Level {
            value: 1.0,
            label: "limit".to_owned(),
        }],
        callouts: Vec::new(),
    };
    for (ink, strained) in StrainKind::ALL.into_iter().enumerate() {
        let (title, unit_name) = match strained {
            StrainKind::EasyWay => ("bend the easy way", bend_unit),
            StrainKind::HardWay => ("bend the hard way", bend_unit),
            StrainKind::Twist => ("twist", twist_unit),
        };
        let points = |value: &dyn Fn(&StripPlace) -> Option<f64>| -> Vec<[f64; 2]> {
            let points = strip.places.iter();
            points
                .filter_map(|p| Some([along(p.x), value(p)?]))
                .collect()
        };
        let worst = strip.worst(|p| of(strained, p).abs()).map(|w| w.1);
        let place = |p: &StripPlace| units::size(p.x, unit);
        let callouts = worst.map(|p| {
            let value = of(strained, p);
            let label = match strained {
                StrainKind::Twist => {
                    format!("{:.1}{twist_unit} at {}", shown(strained, value), place(p))
                }
                _ => format!(
                    "{:.2}{}, radius {}, at {}",
                    shown(strained, value),
                    bend_unit.trim_start_matches('1'),
                    units::size(1.0 / value.abs().max(1e-9), unit),
                    place(p)
                ),
            };
            Callout {
                at: [along(p.x), shown(strained, value)],
                label,
                ink,
            }
        });
        // Strain is in proportion to curvature.
        let greatest = share(strained, 1e-3).filter(|s| *s > 0.0).map(|s| 1e-3 / s);
        let levels = greatest.map(|limit| {
            let limit = shown(strained, limit);
            let label = |sign: &str| format!("limit {sign}{limit:.2}");
            [
                Level {
                    value: limit,
                    label: label(""),
                },
                Level {
                    value: -limit,
                    label: label("−"),
                },
            ]
        });
        // A side that the line never nears has no limit to show.
        let touched = |level: &Level| {
            strip.places.iter().any(|p| {
                shown(strained, of(strained, p)) * level.value.signum() > 0.1 * level.value.abs()
            })
        };
        let mut levels: Vec<Level> = levels.into_iter().flatten().collect();
        let all = levels.clone();
        levels.retain(touched);
        if levels.is_empty() {
            levels.extend(all.into_iter().take(1));
        }
        panels.push(ChartPanel {
            title: title.to_owned(),
            unit: unit_name.to_owned(),
            series: vec![Series {
                name: title.to_owned(),
                points: points(&|p| Some(shown(strained, of(strained, p)))),
                ink,
            }],
            levels,
            callouts: callouts.into_iter().collect(),
        });
        let points = points(&|p| share(strained, of(strained, p)));
        if !points.is_empty() {
            used.series.push(Series {
                name: title.to_owned(),
                points,
                ink,
            });
            used.callouts.extend(worst.and_then(|p| {
                let value = share(strained, of(strained, p))?;
                Some(Callout {
                    at: [along(p.x), value],
                    label: format!("{value:.2}"),
                    ink,
                })
            }));
        }
    }
    panels.push(used);
    Chart {
        title: format!(
            "{}: strip {}, {}",
            board.design.name,
            work.number,
            work.kind.name()
        ),
        subtitle: format!(
            "course {}, {}{} × {} of {}, {} long; limits are {:.0} % of what breaks it{}",
            work.course,
            match work.laminations {
                1 => String::new(),
                n => format!("{n} laminations of "),
            },
            units::fine_size(thickness, unit),
            units::fine_size(width, unit),
            timber.rail.name,
            units::length(work.finished, unit),
            100.0 * timber.working_strain,
            if timber.softening.takes(work.kind) {
                ", bends at what softened wood takes"
            } else {
                ""
            }
        ),
        axis: format!("from the tail, {}", axis.symbol()),
        range: [along(0.0), along(board.design.length)],
        marks: board
            .ribs
            .iter()
            .map(|rib| ChartMark {
                x: along(rib.x),
                label: rib.number.to_string(),
            })
            .collect(),
        marks_name: "rib".to_owned(),
        panels,
    }
}

//! What passes a limit, and the smallest change that would serve.

use serde::Serialize;

use super::StripWork;
use crate::design::Design;
use crate::rail::{Change, Demand, Kind, Strained};
use crate::stock::StockError;
use crate::timber::{Limits, table, twist_strain};
use crate::units::list;

/// Strain softened wood takes on its stretched side, 1.5 to 2 % (bending handbooks, from memory); the lower is offered.
const SOFTENED: f64 = 0.015;
/// Species named in a remedy.
const NAMED: usize = 3;

/// Something that passes a limit or cannot be had.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Trouble {
    /// What is wrong, with its limit.
    pub headline: String,
    /// Where, and how bad at worst.
    pub extent: String,
    /// What to change, each of them enough by itself.
    pub remedy: String,
    /// Numbers of the strips it is about.
    pub strips: Vec<usize>,
    /// Share of the limit used at worst, where there is one.
    pub ratio: Option<f64>,
}

/// The troubles of `strips`, starters and moulded strips apart, and of the wood.
pub fn troubles(design: &Design, strips: &[StripWork], faults: &[StockError]) -> Vec<Trouble> {
    let mut found = Vec::new();
    for starters in [true, false] {
        for strained in Strained::ALL {
            let over: Vec<(&StripWork, &Demand)> = strips
                .iter()
                .filter(|s| (s.kind == Kind::Starter) == starters)
                .filter_map(|s| Some((s, s.demand_of(strained)?)))
                .filter(|(_, d)| !d.utilisation.passes())
                .collect();
            found.extend(strain(design, strained, &over));
        }
    }
    found.extend(faults.iter().map(|fault| {
        let text = fault.to_string();
        let (headline, remedy) = text.split_once("; ").unwrap_or((&text, ""));
        Trouble {
            headline: "the wood cannot be cut".to_owned(),
            extent: match fault {
                StockError::Scarf { need, .. } => format!("strip {}: {headline}", need + 1),
                _ => headline.to_owned(),
            },
            remedy: match fault {
                StockError::Scarf { .. } => format!(
                    "{remedy}: a greater `scarf_strain` (now {:.2}) lets them nearer to the bends, a smaller `stagger` nearer to each other",
                    design.timber.scarf_strain
                ),
                _ => remedy.to_owned(),
            },
            strips: match fault {
                StockError::Scarf { need, .. } => vec![need + 1],
                _ => Vec::new(),
            },
            ratio: None,
        }
    }));
    found
}

fn strain(design: &Design, strained: Strained, over: &[(&StripWork, &Demand)]) -> Option<Trouble> {
    let (work, worst) = over.iter().copied().reduce(|a, b| {
        if b.1.utilisation.ratio > a.1.utilisation.ratio {
            b
        } else {
            a
        }
    })?;
    let numbers: Vec<usize> = over.iter().map(|(s, _)| s.number).collect();
    let named = if numbers.len() == 1 {
        "strip"
    } else {
        "strips"
    };
    let u = worst.utilisation;
    let ribs = design.construction.rib_stations.len();
    let kind = if work.kind == Kind::Starter {
        "starters"
    } else {
        "strips"
    };
    let mut remedies = vec![section(design, strained, work, u.ratio)];
    let able = able(over);
    if !able.is_empty() {
        remedies.push(format!("use {}", able.join(", or ")));
    }
    remedies.extend(softened(design, strained, u.value));
    Some(Trouble {
        headline: format!(
            "{kind} {} past {:.2} % strain, {:.0} % of what breaks {}",
            match strained {
                Strained::EasyWay => "are bent the easy way",
                Strained::HardWay => "are bent the hard way",
                Strained::Twist => "are twisted",
            },
            100.0 * u.limit,
            100.0 * design.timber.working,
            design.timber.rail.name
        ),
        extent: format!(
            "{named} {}, at worst {:.2} % ({:.2} of the limit) on strip {}, {:.0} mm from the tail, {}",
            list(&numbers),
            100.0 * u.value,
            u.ratio,
            work.number,
            worst.x,
            worst.place(ribs)
        ),
        remedy: remedies.join("; or "),
        strips: numbers,
        ratio: Some(u.ratio),
    })
}

/// A smaller section by the worst strip's curvature.
fn section(design: &Design, strained: Strained, work: &StripWork, ratio: f64) -> String {
    let c = &design.construction;
    let down = |size: f64| (10.0 * size / ratio).floor() / 10.0;
    if work.kind == Kind::Starter {
        let size = down(c.starter.size);
        if size < c.strip.thickness {
            return format!(
                "starters of {size:.1} mm would pass, thinner than the strips they carry ({:.1} mm), so thin both",
                c.strip.thickness
            );
        }
        let more = (c.starter.size * c.starter.count as f64 / size).ceil();
        return format!(
            "make the starters {size:.1} mm square, {more:.0} to each rail for the same wood"
        );
    }
    match strained {
        Strained::EasyWay => thickness(down(c.strip.thickness)),
        Strained::HardWay => format!("make the strips {:.1} mm wide", down(c.strip.width)),
        Strained::Twist => thickness(untwisted(work, ratio)),
    }
}

/// Thinnest strip the design file takes, mm.
const THINNEST: f64 = 3.0;

fn thickness(mm: f64) -> String {
    if mm < THINNEST {
        format!("strips of {mm:.1} mm would pass, too thin to mould: draw a gentler rail there")
    } else {
        format!("make the strips {mm:.1} mm thick")
    }
}

/// Thickness, mm, at which a strip `ratio` over its limit in twist passes, rounded down to 0.1 mm. Shear strain falls a little less
/// than the thickness does, for a flatter bar has more of it ([`twist_strain`]).
fn untwisted(work: &StripWork, ratio: f64) -> f64 {
    let [now, width] = work.section;
    let strain = |t: f64| twist_strain(width, t, 1.0).unwrap_or(f64::INFINITY);
    let allowed = strain(now) / ratio;
    let mut tenths = (10.0 * now / ratio).floor();
    while tenths > 1.0 && strain(tenths / 10.0) > allowed {
        tenths -= 1.0;
    }
    tenths / 10.0
}

/// Species that take every one of the strips as it is, those nearest to their limit first: the smallest change.
fn able(over: &[(&StripWork, &Demand)]) -> Vec<String> {
    let serves = |name: &str| {
        over.iter().all(|(s, _)| {
            let mut changes = s.demand.iter().flat_map(|d| &d.changes);
            changes.any(|c| matches!(c, Change::Species(n) if n == name))
        })
    };
    let mut names: Vec<(f64, &str)> = table()
        .iter()
        .filter(|s| serves(&s.name))
        .filter_map(|s| Some((Limits::of(s, 1.0).ok()?.easy_way, s.name.as_str())))
        .collect();
    names.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(b.1)));
    names
        .into_iter()
        .take(NAMED)
        .map(|(_, n)| n.to_owned())
        .collect()
}

/// Soaking and steaming, which help bending but are not known to help twist.
fn softened(design: &Design, strained: Strained, value: f64) -> Option<String> {
    if strained == Strained::Twist {
        return None;
    }
    let needed = value / SOFTENED;
    Some(if needed <= 1.0 {
        format!(
            "soak or steam them: softened wood takes about 1.5 % on its stretched side (from memory), of which this needs {needed:.2}; try one first"
        )
    } else {
        format!(
            "not even soaked or steamed {} does it, which takes about 1.5 % (from memory) where this needs {:.2} %: draw a gentler rail",
            design.timber.rail.name,
            100.0 * value
        )
    })
}
